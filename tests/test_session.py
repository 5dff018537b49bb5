"""Session, Answer and read: what a caller gets from one statement after another."""

from __future__ import annotations

import json
import subprocess
import sys
from fractions import Fraction
from typing import Any

import pytest
from case_files import blocks, statements
from hypothesis import given
from over_all import over
from strategies import WrittenLimits, lengths, written_limits

from fractions_shop import Answer, Session, read, read_column, read_size
from fractions_shop.errors import ArgumentError, FloatRefused, InputError, ShopError, cells
from fractions_shop.layout.spacing import Spacing
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import mixed
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule, Snap


def _answer(text: str, bench: Session | None = None) -> Answer:
    found = (bench or Session()).answer(text)
    assert found is not None
    return found


@pytest.mark.parametrize("statement", ["5' - 3\"", "snap 5' - 3\"", "check 5' - 3\" = 57 in ± 1 in"])
def test_the_one_line_of_a_doubtful_answer_is_its_whole_first_sentence_and_the_doubt(statement: str) -> None:
    answer = _answer(statement)
    (doubt,) = answer.doubts
    assert answer.gist() == f"{answer.lines()[0]}; {doubt.text}"


@pytest.mark.parametrize(
    "statement", ["No 90 drill * 2 in", '2-1/32" * 2 in', 'No 90 drill * 2-1/32"', "No 90 drill"]
)
def test_the_one_line_of_an_answer_says_each_note_once(statement: str) -> None:
    answer = _answer(statement)
    told = answer.gist()
    assert answer.notes
    for note in answer.notes:
        assert told.count(note.text) == 1


@pytest.mark.parametrize("text", ["# a note alone", "   "])
def test_a_line_without_a_statement_is_none_that_can_be_asked(text: str) -> None:
    assert Session().answer(text) is None
    with pytest.raises(InputError) as refused:
        Session().ask(text)
    assert refused.value.message == "there is no statement here"
    assert (refused.value.start, refused.value.end) == (0, len(text))


def test_one_size_is_asked_for_of_what_has_one() -> None:
    assert Session().size("1/2 in +- 2 thou") == Quantity.inches(Fraction(1, 2))
    with pytest.raises(InputError) as refused:
        Session().size("places 1 in, 2 in")
    assert refused.value.message == "this is not answered by one size"
    assert (refused.value.start, refused.value.end) == (0, 17)


# Values


def test_a_size() -> None:
    answer = _answer("2 1/32 in / 5")
    assert answer.value == Quantity.inches(Fraction(13, 32))
    assert (answer.kind, answer.ok) == ("size", True)


def test_a_request_brings_the_librarys_own_result() -> None:
    divided = _answer("divide 2 in into 5 up")
    assert isinstance(divided.result, Spacing)
    assert divided.kind == "divide"
    assert divided.result.total == Quantity.inches(Fraction(65, 32))
    assert divided.value == Quantity.inches(Fraction(13, 32))
    snapped = _answer("snap 10.3 mm to 32nds")
    assert isinstance(snapped.result, Snap)
    assert snapped.value == snapped.result.size


def test_limits_and_angles_are_values_too() -> None:
    assert isinstance(_answer("2 in ± 1/64 in").value, Limits)
    assert _answer("12°30'").value == Angle(Fraction(25, 2))


def test_a_check_says_whether_it_holds() -> None:
    assert _answer("check 2 in = 50.8 mm").ok
    failed = _answer("check 2 in = 51 mm")
    assert not failed.ok
    assert failed.value is None
    assert _answer("check 2 in = 51 mm within 0.2 mm").ok
    assert not _answer("check 2 in = 51 mm within 0.1 mm").ok


def test_blank_and_comment_lines_answer_nothing() -> None:
    bench = Session()
    assert bench.answer("") is bench.answer("# a comment") is None
    assert bench.names == {}


# What a session remembers


def test_names_and_the_last_size_last() -> None:
    bench = Session()
    bench.answer("width = 2 1/32 in")
    assert bench.names["width"] == bench.names["ans"] == Quantity.inches(Fraction(65, 32))
    assert (
        _answer("width / 5", bench).value == _answer("ans", bench).value == Quantity.inches(Fraction(13, 32))
    )


def test_a_request_can_be_named() -> None:
    bench = Session()
    bench.answer("pitch = divide 2 in into 5 up")
    bench.answer("h = snap 10.3 mm")
    assert bench.names["pitch"] == bench.names["h"] == Quantity.inches(Fraction(13, 32))


def test_a_fault_leaves_everything_as_it_was() -> None:
    bench = Session()
    bench.answer("width = 2 in")
    for wrong in ("width = 3 in + foo", "width = 3 lb", "rule yards", "width = check 1 in = 1 in", "ans + 2"):
        with pytest.raises(InputError):
            bench.answer(wrong)
    assert bench.names == {"width": Quantity.inches(2), "ans": Quantity.inches(2)}
    assert bench.rule == Rule("64ths")


def test_a_check_and_a_rule_leave_the_last_size() -> None:
    bench = Session()
    bench.answer("2 in")
    bench.answer("check 1 in = 1 in")
    bench.answer("rule 32nds")
    assert bench.names["ans"] == Quantity.inches(2)
    assert bench.rule == Rule("32nds")


def test_the_names_given_out_are_a_copy() -> None:
    bench = Session()
    bench.names["width"] = Quantity.inches(1)
    with pytest.raises(InputError):
        bench.answer("width")


def test_a_session_may_begin_with_another_rule() -> None:
    assert _answer("divide 2 in into 5", Session("mm")).value == Quantity.millimetres(10)
    assert Session(Rule("32nds")).rule == Rule("32nds")
    with pytest.raises(ShopError, match="is not a rule"):
        Session("yards")


def test_sessions_do_not_share_names() -> None:
    one, other = Session(), Session()
    one.answer("width = 2 in")
    with pytest.raises(InputError, match="nothing is named width"):
        other.answer("width")


def test_a_length_that_no_drawing_writes_is_read_without_pint() -> None:
    code = "import sys; from fractions_shop import Session; print(Session().answer('1 mile').value.inch, 'pint' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "63360 False\n"


def test_a_size_used_twice_counts_as_one_in_the_likely_limits() -> None:
    bench = Session()
    bench.answer("bar = 1/4 in ± 1 thou")
    total = _answer("bar + bar", bench).value
    assert isinstance(total, Limits)
    assert total.root_sum_square.half_spread == Quantity.inches(Fraction(2, 1000))
    apart = _answer("(1/4 in ± 1 thou) + (1/4 in ± 1 thou)").value
    assert isinstance(apart, Limits)
    assert apart.root_sum_square.half_spread < Quantity.inches(Fraction(15, 10_000))


# read


def test_read_gives_a_size_or_limits() -> None:
    assert read("2 1/32 in") == Quantity.inches(Fraction(65, 32))
    assert isinstance(read("1/2 in +1/-2 thou"), Limits)
    assert read("2 1/32 in / 5") == Quantity.inches(Fraction(13, 32))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "there is no size here"),
        ("# 2 in", "there is no size here"),
        ("divide 2 in into 5", "this is not a size"),
        ("check 2 in = 2 in", "this is not a size"),
        ("12 deg", "this is not a size"),
        ("rule mm", "this is not a size"),
    ],
)
def test_read_takes_nothing_else(text: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        read(text)
    assert caught.value.message == said


# Objects for JSON


def _exact(found: dict[str, Any]) -> Quantity:
    if "mm" in found:
        assert Fraction(found["inch"]) * Fraction(254, 10) == Fraction(found["mm"])
        return Quantity(Fraction(found["mm"]))
    power = int(found["unit"].partition("^")[2] or 0)
    return Quantity(Fraction(found["value"]) * Fraction(254, 10) ** power, power)


def test_a_size_as_an_object_is_exact_text() -> None:
    found = _answer("2 1/32 in / 5").data()
    assert found["value"] == {"inch": "13/32", "mm": "1651/160", "approximate": False}
    assert (found["schema"], found["statement"], found["kind"], found["ok"]) == (
        1,
        "2 1/32 in / 5",
        "size",
        True,
    )


def test_areas_and_numbers_say_their_unit() -> None:
    assert _answer("2 in * 3 in").data()["value"] == {"value": "6", "unit": "in^2", "approximate": False}
    assert _answer("6 in / 4 in").data()["value"] == {"value": "3/2", "unit": "", "approximate": False}
    assert _answer("20 tpi").data()["value"] == {"value": "20", "unit": "in^-1", "approximate": False}


def test_what_is_approximate_says_so() -> None:
    assert _answer("hypot(3 in, 4 in)").data()["value"]["approximate"] is False
    assert _answer("hypot(3 in, 5 in)").data()["value"]["approximate"] is True


def test_limits_are_nominal_upper_and_lower() -> None:
    found = _answer("1/2 in +1/-2 thou").data()["value"]
    assert [found[name]["inch"] for name in ("nominal", "upper", "lower")] == ["1/2", "501/1000", "249/500"]


def test_a_failed_check_is_not_ok() -> None:
    found = _answer("check 2 in = 51 mm").data()
    assert found["ok"] is False
    assert found["holds"] is False
    assert found["difference"]["mm"] == "-1/5"


@given(lengths())
def test_the_value_in_the_object_is_the_value(size: Quantity) -> None:
    sign = "-" if size.value < 0 else ""
    answer = _answer(f"{sign}{mixed(abs(size.mm))} mm")
    assert _exact(answer.data()["value"]) == answer.value == size


@given(written_limits())
def test_the_limits_in_the_object_are_the_limits(size: WrittenLimits) -> None:
    found = _answer(size.text).data()["value"]
    assert _exact(found["lower"]) == Quantity(size.lower)
    assert _exact(found["upper"]) == Quantity(size.upper)


STATEMENTS = [statements(block) for block in blocks("statements.txt")]


def _no_float(value: Any) -> None:
    assert not isinstance(value, float)
    for part in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        _no_float(part)


@over(STATEMENTS)
def test_every_answer_goes_through_json_unchanged_and_holds_no_float(lines: list[str]) -> None:
    bench = Session()
    for line in lines:
        answer = bench.answer(line)
        if answer is None:
            continue
        found = answer.data()
        assert json.loads(json.dumps(found)) == found
        _no_float(found)
        assert found["statement"] == line


# Text


@over([(lines, width) for lines in STATEMENTS for width in (80, 50)])
def test_every_answer_folds_to_the_width(lines: list[str], width: int) -> None:
    bench = Session()
    for line in lines:
        answer = bench.answer(line)
        for shown in answer.text(width).splitlines() if answer else ():
            assert cells(shown) <= width, shown


def test_figures_that_do_not_end_are_rounded_to_the_digits_asked_for() -> None:
    answer = _answer("51.5 mm")
    assert "about 2.028 in" in answer.text(digits=3)
    assert "about 2.027559055 in" in answer.text(digits=9)
    assert "about 2.0276 in" in answer.text()


def test_an_answer_shows_both_inches_and_millimetres() -> None:
    for text in ("2 in", "51.5 mm", "divide 2 in into 5", "snap 1/3 in", "2 in ± 1 mm"):
        shown = _answer(text).text()
        assert " in" in shown
        assert " mm" in shown


# A name set again


def test_what_rests_on_a_name_set_again_is_forgotten_and_the_answer_says_so():
    """At the prompt and in a sheet it is worked out anew; here its statement is gone. It kept its old size in silence."""
    session = Session()
    for line in ("notch = 13/32 in", "n = 12 in / notch", "n * 2", "far = ans + 1", "free = 1 in"):
        session.answer(line)
    answer = session.answer("notch = 7/16 in")
    assert answer is not None
    assert [note.text for note in answer.notes] == [
        "n and far rested on notch as it was, and must be set again"
    ]
    assert set(session.names) == {"notch", "free", "ans"}
    with pytest.raises(InputError, match="nothing is named n yet"):
        session.answer("n")


def test_a_name_set_to_the_same_size_again_moves_nothing():
    session = Session()
    for line in ("notch = 13/32 in", "n = 12 in / notch"):
        session.answer(line)
    answer = session.answer("notch = 0.40625 in")
    assert answer is not None
    assert answer.notes == ()
    assert "n" in session.names


def test_a_session_is_shown_by_how_many_names_it_has_and_its_rule() -> None:
    bench = Session()
    assert repr(bench) == "<Session on 64ths, names: 0>"
    bench.answer("a = 2 in")
    assert repr(bench) == "<Session on 64ths, names: 1>"


def test_one_size_is_read_of_text_alone_and_without_limits() -> None:
    assert read_size('2-1/32"').inch == Fraction(65, 32)
    with pytest.raises(InputError) as refused:
        read_size("1/2 in +- 1/64 in")
    assert refused.value.advice == "write 1/2 in, or read_limits() takes it"
    assert (refused.value.start, refused.value.end) == (0, 17)
    with pytest.raises(FloatRefused):
        read_size(0.5)  # type: ignore[arg-type]
    with pytest.raises(ArgumentError, match="read takes a written size, not int"):
        read_size(7)  # type: ignore[arg-type]


def test_numbers_of_a_column_need_a_unit_and_floats_a_trust() -> None:
    assert not read_column([3.5], unit="mm").sizes[0]
    assert not read_column([3.5], within="0.1 mm").sizes[0]
    told = read_column([3.5], unit="mm", within="0.1 mm").sizes[0]
    assert told is not None
    assert told.mm == Fraction(7, 2)
