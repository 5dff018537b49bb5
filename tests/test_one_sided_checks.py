"""Checks of one side: is at least, is at most, clears; of the worst case, and told by every form."""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import InputError, Quantity, Session
from fractions_shop.show.sheet import Sheet

THOUSANDTHS = st.integers(0, 400)


def _checked(text: str) -> tuple[bool, Fraction]:
    """Whether the last line of a sheet holds, and what it has to spare in inches."""
    sheet = Sheet.from_text(text)
    assert not sheet.faults, sheet.faults
    result = sheet.checks[-1].result
    assert isinstance(result.spare, Quantity)
    return result.holds, result.spare.inch


@given(
    st.lists(st.tuples(THOUSANDTHS, st.integers(0, 30), st.integers(0, 30)), min_size=2, max_size=3),
    st.lists(st.integers(-2, 2), min_size=3, max_size=3),
    st.lists(st.integers(-2, 2), min_size=3, max_size=3),
    st.integers(0, 40),
    st.sampled_from(["is at least", "is at most", "clears"]),
)
def test_the_worst_case_is_that_of_every_corner_of_the_limits(
    pieces: list[tuple[int, int, int]], left: list[int], right: list[int], by: int, relation: str
) -> None:
    """Against every combination of the ends of every piece's limits, a piece in both sides being one size."""
    names = "abc"[: len(pieces)]
    lines = [
        f"{name} = {size}/1000 in +{plus}/-{minus} thou"
        for name, (size, plus, minus) in zip(names, pieces, strict=True)
    ]
    sides = [
        " + ".join(["0 in", *(f"({many}) * {name}" for many, name in zip(side, names, strict=False))])
        for side in (left, right)
    ]
    tail = f" by {by} thou" if relation == "clears" else ""
    holds, spare = _checked("\n".join([*lines, f"check {sides[0]} {relation} {sides[1]}{tail}"]))
    ends = [(size - minus, size + plus) for size, plus, minus in pieces]
    apart = [
        sum((m - n) * end for m, n, end in zip(left, right, corner, strict=False))
        for corner in product(*ends)
    ]
    asked = by if relation == "clears" else 0
    truth = min(-off for off in apart) if relation == "is at most" else min(off - asked for off in apart)
    assert spare == Fraction(truth, 1000)
    assert holds == (truth >= 0)


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("check 2 1/32 in is at least 2 in", "holds: 1/32 in (0.79375 mm) to spare"),
        ("check 2 in is at most 2 in", "holds: nothing to spare"),
        ("check(2 in)is at most(1 63/64 in)", "FAILS: the first is 1/64 in (0.396875 mm) too large"),
        ("CHECK 12 IS AT LEAST 12 1/2", "FAILS: the first is 1/2 = 0.5 too small"),
        ("check 3 in clears 2 in by 1 1/2 in", "FAILS: the first clears the second by 1/2 in (12.7 mm) too little"),
        ("check 3 in clears 2 in by 1/2 in", "holds: 1/2 in (12.7 mm) to spare"),
        ("check sqrt(2) * 1 in * sqrt(2) is at least 2 in", "holds: nothing to spare"),
        ("check 2 in * 3 in is at most 7 sq in", "holds: 1 sq in = 645.16 sq mm to spare"),
        ("check 2 in ± 1/64 in is at most 2 in",
         "FAILS: the first is 1/64 in (0.396875 mm) too large in the worst case; nominally the two are the same"),
        ("check across(bolt_circle(6, 4 in, 0 deg), 1) is at least 2 in", "holds: nothing to spare"),
    ],
)  # fmt: skip
def test_what_there_is_to_spare_or_wanting_is_told(statement: str, said: str) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    assert " ".join(answer.text(width=400).split("\n")[:1]) == said


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("check 2 in >= 1 in", "write check 2 in is at least 1 in"),
        ("check 2 in≥1 in", "write check 2 in is at least 1 in"),
        ("check 2 in < 3 in", "write check 2 in is at most 3 in"),
        ("check 2 in is no more than 3 in", "write check 2 in is at most 3 in"),
        ("check 2 in at least 1 in", "write check 2 in is at least 1 in"),
        ("2 in is at most 3 in", "write check 2 in is at most 3 in"),
    ],
)
def test_signs_and_other_words_are_offered_the_words_of_a_check(typed: str, offered: str) -> None:
    with pytest.raises(InputError) as fault:
        Session().answer(typed)
    assert fault.value.advice == offered
    assert Session().answer(offered.removeprefix("write ")) is not None


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("check 2 in is at least 2", "a length and a plain number cannot be compared"),
        ("check 3 in clears 2 in by 2", "a length and a plain number cannot be compared"),
        ("check 3 in clears 2 in by 0 in - 1 in", "what one size clears another by must not be below zero"),
        ("check 3 deg is at most 4 deg", "angles are not checked"),
    ],
)
def test_what_cannot_be_compared_is_refused(typed: str, message: str) -> None:
    with pytest.raises(InputError) as fault:
        Session().answer(typed)
    assert fault.value.message == message


def test_clears_and_bounds_are_names_still() -> None:
    sheet = Sheet.from_text("clears = 2 in\nat = 3 in\ncheck at clears clears by 1 in\ncheck clears = 2 in")
    assert sheet.ok


TRAY = """\
opening = 2 1/32 in ± 1/64 in
tray = 2 in ± 1/64 in
play = 1/32 in
n = 3
check opening clears tray by play
check n * 1/2 in is at least 1 3/4 in
"""


def test_a_check_that_fails_names_what_alone_would_mend_it() -> None:
    sheet = Sheet.from_text(TRAY)
    assert (sheet.verdict.fails, sheet.ok) == (2, False)
    closes = {feed.name: feed.closes for feed in sheet.checks[0].feeds}
    step = Quantity.inches(Fraction(1, 32))
    assert closes == {"opening": step, "tray": -step, "play": -step}
    (count,) = sheet.checks[1].feeds
    assert count.closes == Quantity.number(1), "half a piece is wanting, so one more will do"
    for name, change in closes.items():
        mended = TRAY.replace(f"{name} = ", f"{name} = {'-' if change < step else ''}1/32 in + ")
        assert Sheet.from_text(mended).checks[0].holds, name


def test_every_form_tells_of_a_check_of_one_side() -> None:
    sheet = Sheet.from_text(TRAY)
    wanting = "the first clears the second by 1/32 in (0.79375 mm) too little in the worst case"
    for written in (sheet.to_text(400), sheet.to_markdown(), sheet.to_html()):
        assert wanting in " ".join(written.split())
    answer = sheet.to_data()["lines"][4]["answer"]
    assert (answer["relation"], answer["spare"]["inch"], answer["by"]["inch"]) == ("clears", "-1/32", "1/32")
    rows = list(csv.DictReader(io.StringIO(sheet.to_csv("checks"))))
    assert [(row["which"], row["exact"]) for row in rows] == [("fails", "0"), ("fails", "-1/4")]


def test_a_check_of_a_doubtful_size_is_marked() -> None:
    sheet = Sheet.from_text("front = recover 51.5 mm\ncheck front is at least 2 in")
    assert sheet.checks[0].holds
    assert sheet.verdict.doubtful_checks == 1


def test_limits_that_one_side_moves_past_differ_between_sheets() -> None:
    before, after = (Sheet.from_text(f"a = {size} in\ncheck a is at most 2 in") for size in ("1", "2 1/2"))
    (change,) = before.answer_changes(after)
    assert change.kind == "check"
