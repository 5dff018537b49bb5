"""Errors: the caret under the place, whatever the line is made of, and what callers can catch."""

from __future__ import annotations

import pickle

import pytest

from fractions_shop import Rule, Session, read
from fractions_shop.errors import DimensionError, FloatRefused, InputError, NoAnswer, ShopError, cells
from fractions_shop.size.rule import UnknownRule


def _drawn(text: str, start: int, end: int) -> str:
    return str(InputError("that is wrong", text, start, end, "write it right"))


def test_message_line_caret_and_advice() -> None:
    assert _drawn("2 xx in", 2, 4) == (
        "that is wrong (column 3)\n"
        "  2 xx in\n"
        "    ^^\n"
        "write it right"
    )  # fmt: skip


def test_without_advice_there_is_no_last_line() -> None:
    assert str(InputError("too soon", "2 +", 3, 3)) == "too soon (column 4)\n  2 +\n     ^"


def test_the_caret_stands_under_full_width_signs() -> None:
    assert _drawn("２ xx in", 2, 4) == "that is wrong (column 3)\n  ２ xx in\n     ^^\nwrite it right"
    assert _drawn("2 ｘｘ in", 2, 4) == "that is wrong (column 3)\n  2 ｘｘ in\n    ^^^^\nwrite it right"


def test_a_tab_is_shown_as_one_blank() -> None:
    assert _drawn("2\txx\tin", 2, 4) == "that is wrong (column 3)\n  2 xx in\n    ^^\nwrite it right"


def test_marks_that_stand_on_a_letter_take_no_place() -> None:
    assert cells("e\u0301x") == 2
    assert _drawn("e\u0301 xx", 3, 5).splitlines()[2] == "    ^^"


def test_control_signs_are_made_visible_and_cannot_work_on_the_terminal() -> None:
    drawn = _drawn("2 \x1b[31m in\x07\u202e", 2, 3)
    assert "\x1b" not in drawn
    assert "\x07" not in drawn
    assert "\u202e" not in drawn
    assert "\ufffd" in drawn


@pytest.mark.parametrize("place", [0, 5, 40, 150, 290, 299, 300])
def test_a_long_line_is_shown_about_the_fault(place: int) -> None:
    text = "".join(chr(ord("a") + n % 26) for n in range(300))
    shown, caret = _drawn(text, place, place + 1).splitlines()[1:3]
    assert len(shown) <= 2 + 3 + 72 + 3
    at = caret.index("^")
    assert shown[at : at + 1] == text[place : place + 1]


def test_a_fault_that_runs_over_the_end_of_the_window_is_cut() -> None:
    lines = _drawn("x" * 300, 100, 290).splitlines()
    assert len(lines[2]) <= len(lines[1])


def test_a_place_outside_the_line_is_brought_to_its_end() -> None:
    error = InputError("wrong", "2 in", 99, 120)
    assert (error.start, error.column) == (4, 5)
    assert InputError("wrong", "2 in", -3, -1).start == 0


def test_the_parts_of_an_input_error() -> None:
    error = InputError("wrong", "2 xx", 2, 4, "write in", line=7, ended=True)
    assert (error.message, error.text, error.start, error.end) == ("wrong", "2 xx", 2, 4)
    assert (error.advice, error.line, error.column, error.ended) == ("write in", 7, 3, True)
    assert error.sentence == "wrong; write in"
    assert InputError("wrong", "2", 0, 1).sentence == "wrong"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("(1 in", "')'"),
        ("1 in *", "a size"),
        ("snap 1 in to", "a rule or a unit"),
        ("5 ft 3", "the unit of the inches"),
    ],
)
def test_a_line_that_ends_too_soon_says_what_is_to_follow(text: str, expected: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(text)
    error = caught.value
    assert (error.ended, error.expected) == (True, expected)
    assert error.expected in error.message
    assert error.at(f"a = {text}", 4).expected == error.with_advice("x").expected == expected


def test_a_line_that_is_wrong_expects_nothing() -> None:
    with pytest.raises(InputError) as caught:
        Session().answer("1 in ) 2")
    assert (caught.value.ended, caught.value.expected) == (False, "")


def test_other_advice_leaves_the_fault_as_it_is() -> None:
    error = InputError("wrong", "2 xx", 2, 4, "write in", 7, True, "a unit").with_advice("write mm")
    assert error.args == ("wrong", "2 xx", 2, 4, "write mm", 7, True, "a unit")


def test_the_name_of_no_rule_carries_its_advice() -> None:
    with pytest.raises(UnknownRule) as caught:
        Rule("a: b")
    error = caught.value
    assert error.message == "'a: b' is not a rule"
    assert error.advice.startswith("write 64ths, 32nds")
    assert str(error) == f"{error.message}: {error.advice}"


def test_the_same_fault_in_a_longer_line() -> None:
    error = InputError("wrong", "2 xx", 2, 4, "write in").at("w = 2 xx", 4, 9)
    assert (error.start, error.end, error.line, error.text) == (6, 8, 9, "w = 2 xx")


def test_errors_pickle_whole() -> None:
    for error in (
        InputError("wrong", "2 xx", 2, 4, "write in", 7, True, "a unit"), UnknownRule("yards"),
        ShopError("no"), NoAnswer("none"), FloatRefused("float"), DimensionError("kinds"),
    ):  # fmt: skip
        again = pickle.loads(pickle.dumps(error))
        assert type(again) is type(error)
        assert str(again) == str(error)
        assert again.__dict__ == error.__dict__


def test_an_error_of_the_reader_pickles() -> None:
    with pytest.raises(InputError) as caught:
        read("2 lb")
    assert str(pickle.loads(pickle.dumps(caught.value))) == str(caught.value)


@pytest.mark.parametrize(
    ("kind", "also"),
    [(ShopError, ValueError), (FloatRefused, TypeError), (DimensionError, TypeError), (NoAnswer, ShopError),
     (InputError, ShopError)],
)  # fmt: skip
def test_a_caller_catches_what_python_would_raise(kind: type[Exception], also: type[Exception]) -> None:
    assert issubclass(kind, also)
    assert issubclass(kind, ShopError)


def test_nothing_that_a_terminal_acts_upon_is_told_of_a_line_wherever_it_stood() -> None:
    for line in ("8-.955 ft⨯74.65\u200b23", "2 in \u200b+ foo\u200bbar", "5 in x 3\u202e mm"):
        with pytest.raises(InputError) as caught:
            Session().answer(line)
        for told in (str(caught.value), caught.value.sentence):
            assert told.replace("\n", "").isprintable(), ascii(told)
