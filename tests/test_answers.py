"""Each request in the language: the library's own result, its named size, its words and its object."""

from __future__ import annotations

import json
import subprocess
import sys
from fractions import Fraction

import pytest
from room_examples import answered_example

from fractions_shop import (
    InputError,
    Quantity,
    Session,
    crown,
    drills,
    fit,
    gauges,
    identify,
    pack,
    recover,
    thread,
)
from fractions_shop.requests import words as request_words

F = Fraction


def inches(text: str) -> Quantity:
    return Quantity.inches(F(text))


def mm(text: str) -> Quantity:
    return Quantity.millimetres(F(text))


@pytest.mark.parametrize("word", sorted(request_words()))
def test_every_request_has_an_example_that_answers_in_words_and_as_an_object(word):
    answer = answered_example(word)
    assert answer.kind == word
    for width in (40, 80, 200):
        lines = answer.text(width).splitlines()
        assert lines
        assert all(line == line.rstrip() for line in lines)
    again = json.loads(json.dumps(answer.data()))
    assert again["kind"] == word
    assert again["ok"] is True
    assert again["schema"] == 1
    assert "0x" not in json.dumps(again)  # nothing falls back to the name of an object


def test_no_answer_of_80_columns_is_wider_where_words_allow():
    for word in request_words():
        for line in answered_example(word).text(80).splitlines():
            assert len(line) <= 80, (word, line)


# Spacing. Check value: common practice, no source.


def test_divide_up_gives_the_total_that_falls_into_five():
    answer = Session().answer("divide 2 in into 5 up")
    assert answer.result.total == inches("65/32")
    assert answer.value == inches("13/32")
    assert answer.data()["total"] == {"inch": "65/32", "mm": "1651/32", "approximate": False}


def test_a_named_request_names_its_size():
    session = Session()
    session.answer("pitch = divide 2 in into 5 up")
    assert session.answer("pitch * 5").value == inches("65/32")
    assert session.answer("near = snap 10.3 mm").value == inches("13/32")
    assert session.answer("near - 13/32 in").value == inches("0")


@pytest.mark.parametrize(
    "statement",
    ["x = share 2 in among 4 and 2", "x = check 2 in = 2 in", "x = rule 32nds", "x = fit 10 mm H7/g6"],
)
def test_an_answer_without_one_size_cannot_be_named(statement):
    with pytest.raises(InputError, match="is not one size, so it cannot be named"):
        Session().answer(statement)


def test_mark_reads_every_mark_from_the_datum():
    answer = Session().answer("mark 2 in into 5 from 1/4 in")
    assert answer.result.read == tuple(inches(x) for x in ("1/4", "21/32", "67/64", "93/64", "59/32", "9/4"))
    assert answer.result.stepping == inches("1/32")


# Threads, drills, gauges.


def test_a_thread_by_name_is_the_librarys():
    answer = Session().answer("thread #6-32")
    assert answer.result == thread("No 6-32 UNC")
    assert answer.value == inches("0.138")
    assert answer.data()["thread_name"] == "No 6-32 UNC"
    assert "caution" in answer.text()


def test_a_threads_parts_go_into_arithmetic():
    session = Session()
    # BS 93: 6 BA has a major diameter of 2.8 mm, a pitch of 0.53 mm, a minor diameter of 2.16 mm.
    assert session.answer("major(6 BA) - minor(6 BA)").value == mm("0.64")
    assert session.answer("pitch(6 BA) * 10").value == mm("5.3")
    drill = thread("6 BA").tapping().size
    assert session.answer("tapping(6 BA) + 2 thou").value == drill + inches("0.002")
    assert session.answer("6 BA + 0 mm").value == mm("2.8")
    assert tuple(map(str, session.answer("tapping(6 BA)").notes)) == (
        "for 6 BA the 2.3 mm drill leaves 79 % of the full depth of thread; chosen for 75 %",
    )


def test_a_thread_in_small_letters_is_a_name_first():
    session = Session()
    with pytest.raises(InputError) as caught:
        session.answer("m3 + 1 mm")
    assert caught.value.advice == "write M3 for the thread"
    assert session.answer("tapping(m3)").value == thread("M3").tapping().size
    session.answer("m3 = 40 mm")
    assert session.answer("m3 + 1 mm").value == mm("41")
    with pytest.raises(InputError, match="M3 is the thread, and m3 is a size named here"):
        session.answer("M3 + 1 mm")


def test_identify_takes_a_pitch_or_threads_to_the_inch():
    session = Session()
    by_count = session.answer("identify 0.108 in, 48 tpi").result
    by_pitch = session.answer("identify 0.108 in, 1/48 in").result
    assert by_count == by_pitch == identify("0.108 in", "1/48 in")
    with pytest.raises(InputError, match="where a pitch is needed"):
        session.answer("identify 0.108 in, 48")


def test_substitute_looks_in_the_series_named():
    found = Session().answer("substitute 1/4 BSF from UNC").result
    assert {one.thread.series for one in found} == {"UNC"}


def test_drill_and_gauge_give_the_nearest():
    session = Session()
    assert session.answer("drill 5.1 mm").value == mm("5.1")
    assert session.answer("drill 5.1 mm").result["number"].below == drills("5.1 mm")["number"].below
    assert session.answer("gauge 1.2 mm").result.nearest == gauges("1.2 mm").nearest
    # 18 SWG is 0.048 in (Board of Trade list of 1883).
    assert session.answer("gauge 18 SWG").value == inches("0.048")
    assert session.answer("18 SWG * 2").value == inches("0.096")
    # No 43 is 0.089 in and letter F 0.257 in (ASME B94.11M, as in the drill tables).
    assert session.answer("No 43 drill").value == inches("0.089")
    assert session.answer("letter F drill + 1 thou").value == inches("0.258")


def test_a_bare_gauge_number_is_refused_and_the_series_are_named():
    with pytest.raises(InputError) as caught:
        Session().answer("gauge 18")
    assert "18 SWG is 0.048 in" in caught.value.message
    assert (caught.value.start, caught.value.end) == (6, 8)


def test_no_and_a_number_alone_is_refused():
    with pytest.raises(InputError) as caught:
        Session().answer("No 43 + 1 in")
    assert caught.value.message == "No 43 may be a drill, a screw or a gauge"


# Recover, crown, pack, fit.


@pytest.mark.parametrize(
    ("reading", "meant"),
    [
        # Common practice, no source.
        ("51.5 mm", "65/32"), ("66.7 mm", "21/8"), ("10.3 mm", "13/32"), ("8.7 mm", "11/32"), ("7.95 mm", "5/16"),
    ],
)  # fmt: skip
def test_recover_reads_its_trust_from_the_writing(reading, meant):
    answer = Session().answer(f"recover {reading}")
    assert answer.value == inches(meant)
    assert answer.result == recover(reading)


def test_recover_takes_several_readings_and_tables():
    answer = Session().answer("recover 51.5 mm, 66.7 mm, 10.3 mm among drills, 128ths within 0.05 mm")
    assert answer.value is None
    assert answer.result.system.division == "32nds"
    assert [c.size for c in answer.result.candidates] == [inches("65/32"), inches("21/8"), inches("13/32")]


def test_crown_gives_the_heights_on_the_rule():
    answer = Session().answer("crown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds")
    # Common practice, no source.
    assert answer.result.read == tuple(inches(x) for x in ("9/32", "5/16", "11/32", "11/32", "5/16", "9/32"))
    assert answer.result == crown(6, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds")


def test_pack_and_its_each_once():
    session = Session()
    assert session.answer("pack 1/2 in from 1/4 in, 3/32 in").value == inches("1/2")
    once = session.answer("pack 1/2 in from 1/4 in, 3/32 in each once")
    assert once.result == pack("1/2 in", ["1/4 in", "3/32 in"], each_once=True)
    assert once.result.below.total == inches("11/32")


def test_fit_gives_both_parts_one_part_or_an_inch_class():
    session = Session()
    assert session.answer("fit 10 mm H7/g6").result == fit("10 mm", "H7/g6")
    # ISO 286: h9 at 10 mm is 0/-36 micrometres.
    assert session.answer("fit 10 mm h9").value.lower == mm("9.964")
    assert session.answer("fit 1 in RC5").result.standard.startswith("ANSI B4.1")
    assert session.answer("fit 10 mm H7/g6").data()["fit_kind"] == "clearance"


def test_bolt_circle_gives_places_and_not_a_size():
    session = Session()
    answer = session.answer("bolt_circle(4, 2 in)")
    assert answer.value is None
    assert [(x.inch, y.inch) for x, y in answer.result.points] == [(1, 0), (0, 1), (-1, 0), (0, -1)]
    with pytest.raises(InputError, match="several places"):
        session.answer("bolt_circle(4, 2 in) + 1 in")


# Limits.


def test_limits_name_what_to_tighten_first():
    session = Session()
    session.answer("tray = 3 1/4 in ± 1/64 in")
    session.answer("runner = 3/16 in +0/-4 thou")
    value = session.answer("tray - 2 * runner").value
    assert value.upper == inches("2.898625")
    assert value.lower == inches("55/64") + inches("2")
    assert [(name, size) for name, size in value.contributions] == [
        ("tray", inches("1/64")),
        ("runner", inches("0.004")),
    ]
    data = session.answer("tray - 2 * runner").data()
    assert [c["name"] for c in data["contributions"]] == ["tray", "runner"]


def test_limits_go_through_the_functions_of_arcs_by_their_corners():
    session = Session()
    session.answer("c = 4 in ± 1/64 in")
    session.answer("r = 7 1/4 in ± 1/32 in")
    value = session.answer("sagitta(c, r)").value
    high = session.answer("sagitta(4 in + 1/64 in, 7 1/4 in - 1/32 in)").value
    low = session.answer("sagitta(4 in - 1/64 in, 7 1/4 in + 1/32 in)").value
    assert (value.lower, value.upper) == (low, high)
    with pytest.raises(InputError, match="half circle"):
        session.answer("radius_from(4 in, 2 in ± 2 thou)")


def test_a_plain_size_loads_no_table_no_grammar_and_no_pint():
    code = (
        "import sys; from fractions_shop.command.cli import main; main(['2 1/32 in / 5']); "
        "print([m for m in sys.modules if m in ('lark', 'pint', 'prompt_toolkit', 'platformdirs') "
        "or m.startswith(('fractions_shop.tables', 'fractions_shop.threads'))])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_a_named_radius_divided_is_not_a_pipe_thread():
    session = Session()
    session.answer("R1 = 2 in")
    assert session.answer("R1 / 4").value == inches("1/2")
    with pytest.raises(InputError) as caught:
        session.answer("R1/4")
    assert caught.value.message == "R1/4 is the thread, and R1 is a size named here"
    assert caught.value.advice.startswith("write R1 / 4 for the size")


def test_areas_read_back_as_they_are_shown():
    session = Session()
    area = session.answer("3 1/2 in * 2 1/4 in")
    shown = area.text().split(" = ")[0]
    assert shown == "7 7/8 sq in"
    assert session.answer(shown).value == area.value
    # Arithmetic: 1 sq in is 25.4 x 25.4 = 645.16 sq mm.
    assert session.answer("645.16 sq mm - 1 sq in").value.value == 0
    assert session.answer("2 cu. in / 1 in").value == session.answer("2 square inches").value


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('0.500" +0.001" -0.002"', "read as limits; for the sum write (1/2 in + 0.001 in) - 0.002 in"),
        ('0.500" + 0.001" - 0.002"', "added up; for limits write 1/2 in +0.001/-0.002 in"),
    ],
)
def test_old_limits_say_how_they_were_read(line, said):
    assert tuple(map(str, Session().answer(line).notes)) == (said,)


def test_a_toleranced_size_less_itself_is_nought_and_two_pieces_of_it_are_not():
    session = Session()
    session.answer("x = 3/8 in +0/-4 thou")
    answer = session.answer("x - x")
    assert answer.value == 0
    assert answer.notes == ()
    assert session.answer("1 of x - 1 of x").value.upper == inches("0.004")
