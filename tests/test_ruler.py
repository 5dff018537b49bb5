"""The drawn rule: every tick and mark where it should be, in any width, with any signs."""

from __future__ import annotations

import io
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.sheet.session import Session
from fractions_shop.show.ruler import LINES, MARGIN, PLAIN, drawn, picture, signs_for
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


def inch(text: str) -> Quantity:
    return Quantity.inches(Fraction(text))


def test_the_drawing_of_a_size() -> None:
    assert drawn([inch("13/32")], "64ths", 72) == (
        "                                                      ▼ 13/32 in",
        "  ┌─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┐",
        "  │               ╵               ╵               ╵               │",
        "  0                               1/4                             1/2 in",
        "  each tick is 1/64 in",
    )


def test_the_drawing_of_several_marks_in_plain_signs() -> None:
    answer = Session("mm").answer("mark 30 mm into 4")
    assert answer is not None
    assert picture(answer, 66, PLAIN) == (
        "  0               1             2             3               4",
        "  V               V             V             V               V",
        "  +-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+-+",
        "  |         |         |         |         |         |         |",
        "  0                   10                  20                  30",
        "  each tick is 1 mm",
    )


@pytest.mark.parametrize(
    ("text", "rule", "width", "tick"),
    [
        # 2 1/4 in is 72 parts of a 32nd: they fit in 80 columns, and in 40 no more than 16ths do.
        pytest.param("65/32", "64ths", 80, "each tick is 1/32 in", id="32nds-fit-in-80"),
        pytest.param(
            "65/32", "64ths", 40, "each tick is 1/16 in; ▽ stands between two columns", id="16ths-fit-in-40"
        ),
        pytest.param("65/32", "64ths", 200, "each tick is 1/64 in", id="64ths-fit-in-200"),
        pytest.param("25", "64ths", 80, "each tick is 1/2 in", id="halves"),
        pytest.param("60", "64ths", 80, "each tick is 1 in", id="inches"),
        pytest.param(
            "193/1000", "100ths", 80, "each tick is 1/100 in; ▽ stands between two columns", id="decimal"
        ),
    ],
)
def test_coarser_divisions_are_drawn_where_finer_ones_have_no_room(
    text: str, rule: str, width: int, tick: str
) -> None:
    assert drawn([inch(text)], rule, width)[-1].strip() == tick


@pytest.mark.parametrize(
    "marks",
    [
        pytest.param([], id="none"),
        pytest.param([inch("0")], id="nought"),
        pytest.param([inch("-1/2")], id="below-nought"),
        pytest.param([inch("900")], id="too-long"),
        pytest.param([inch("1"), inch("10001/10000")], id="two-in-one-column"),
    ],
)
def test_nothing_is_drawn_that_would_mislead(marks: list[Quantity]) -> None:
    assert drawn(marks, "64ths", 80) == ()


sizes = st.fractions(min_value=Fraction(1, 1000), max_value=40, max_denominator=1000)
rules = st.sampled_from(
    ["64ths", "32nds", "16ths", "8ths", "100ths", "10ths", "mm", "half mm", "7ths", "1sts"]
)
widths = st.integers(min_value=12, max_value=220)


@given(sizes, rules, widths)
def test_a_drawing_keeps_to_its_width(size: Fraction, rule: str, width: int) -> None:
    assert all(len(line) <= width for line in drawn([Quantity.inches(size)], rule, width)[:-1])


@given(sizes, rules, widths)
def test_a_mark_stands_at_its_true_proportion(size: Fraction, rule: str, width: int) -> None:
    """The mark's column over the columns of the rule is its size over the rule's, to half a column."""
    lines = drawn([Quantity.inches(size)], rule, width)
    if not lines:
        return
    pointers, edge = lines[0], lines[1][MARGIN:]
    column = next(n for n, sign in enumerate(pointers) if sign in "▼▽") - MARGIN
    step = (
        Fraction(lines[-1].split("each tick is ")[1].split()[0].replace("1/", "1/"))
        if " in" in lines[-1]
        else None
    )
    ticks = edge.count("┬") + 1
    if step is None:
        division = Fraction(lines[-1].split("each tick is ")[1].split()[0]) / Fraction("25.4")
    else:
        division = step
    assert (len(edge) - 1) % ticks == 0
    true = size / division * Fraction(len(edge) - 1, ticks)
    assert abs(column - true) <= Fraction(1, 2)
    assert (pointers[column + MARGIN] == "▼") is (true == column)


@given(sizes, widths)
def test_every_tick_of_the_edge_takes_the_same_columns(size: Fraction, width: int) -> None:
    lines = drawn([Quantity.inches(size)], "64ths", width)
    if lines:
        assert len({len(gap) for gap in lines[1].strip()[1:-1].split("┬")}) == 1


@given(sizes, rules, widths)
def test_plain_signs_are_ascii_and_stand_where_the_others_do(size: Fraction, rule: str, width: int) -> None:
    marks = [Quantity.inches(size)]
    lines, plain = drawn(marks, rule, width), drawn(marks, rule, width, PLAIN)
    assert "".join(plain).isascii()
    table = str.maketrans("".join(LINES), "".join(PLAIN))
    assert tuple(line.translate(table) for line in lines) == plain


def test_whole_inches_are_numbered_under_their_ticks() -> None:
    lines = drawn([inch("65/32")], "64ths", 80)
    ticks, numbers = lines[2], lines[3]
    for number in ("0", "1", "2"):
        assert ticks[numbers.index(number)] == "│"


@pytest.mark.parametrize(
    ("statement", "has_one"),
    [
        ("13/32 in", True),
        ("snap 10.3 mm", True),
        ("divide 2 in into 5", True),
        ("divide 2 in into 5 between 1/16 in", False),
        ("mark 2 in into 5", True),
        ("2 in as mm", False),
        ("2 in * 3 in", False),
        ("1/2 in +- 2 thou", False),
        ("rule 32nds", False),
        ("check 2 in = 2 in", False),
        ("thread 6 BA", False),
    ],
)
def test_answers_with_a_place_on_the_rule_have_a_drawing(statement: str, has_one: bool) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    assert bool(picture(answer, 80)) is has_one


def test_the_spaces_of_a_divided_total_are_marked_from_its_end() -> None:
    answer = Session().answer("divide 2 in into 4 leaving 1/4 in each end")
    assert answer is not None
    chosen = answer.result.chosen
    places = [chosen.ends + answer.result.space * n for n in range(5)]
    assert picture(answer, 80) == drawn(places, Rule("64ths"), 80)
    assert places[0] == inch("1/4")


@pytest.mark.parametrize(
    ("encoding", "signs"),
    [("utf-8", LINES), ("ascii", PLAIN), ("latin-1", PLAIN), ("cp437", PLAIN), ("nonsense", PLAIN)],
)
def test_a_stream_that_cannot_write_the_signs_gets_plain_ones(encoding: str, signs: object) -> None:
    class Stream(io.StringIO):
        pass

    Stream.encoding = encoding  # type: ignore[misc,assignment]
    assert signs_for(Stream()) is signs
    assert signs_for(None) is PLAIN
