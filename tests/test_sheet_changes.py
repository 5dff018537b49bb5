"""Two sheets compared by their sizes and parts, not by their text."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Quantity
from fractions_shop.sheet.sheet import Sheet
from fractions_shop.show.changes import comparison
from fractions_shop.show.words import laid_out

OLD = """\
wide = 2 1/32 in
bay = divide wide into 5
n = 4
slip = 1 in ± 1/64 in
turn = 12 deg
part peg: n of beech, 1/4 in by wide; old note
part bar: 1
"""


def changed(new: str) -> list[str]:
    one, two = Sheet.from_text(OLD), Sheet.from_text(new)
    return [c.name for c in one.changes(two)] + [c.name for c in one.part_changes(two)]


@pytest.mark.parametrize(
    ("old", "new", "names"),
    [
        pytest.param("wide = 2 1/32 in", "wide = 65/32 in   # the same", [], id="written otherwise"),
        pytest.param("wide = 2 1/32 in", "wide = 51.59375 mm", [], id="in mm"),
        pytest.param("bay = divide wide into 5", "bay = 13/32 in", [], id="another way to it"),
        pytest.param("old note", "new note", [], id="a note"),
        pytest.param(
            "wide = 2 1/32 in", "wide = 2 1/16 in", ["wide", "peg"], id="a size, and the part it sets"
        ),
        pytest.param("n = 4", "n = 5", ["n", "peg"], id="a count, and how many"),
        pytest.param("± 1/64 in", "± 1/32 in", ["slip"], id="limits alone"),
        pytest.param(" ± 1/64 in", "", ["slip"], id="limits gone"),
        pytest.param("turn = 12 deg", "turn = 13 deg", ["turn"], id="an angle"),
        pytest.param("turn = 12 deg", "turn = 12", ["turn"], id="another kind"),
        pytest.param("turn = 12 deg\n", "", ["turn"], id="gone"),
        pytest.param("turn = 12 deg", "turn = 12 deg\nmore = 1 in", ["more"], id="new"),
        pytest.param("of beech", "of oak", ["peg"], id="material"),
        pytest.param("part bar: 1\n", "", ["bar"], id="part gone"),
    ],
)
def test_what_counts_as_a_change(old, new, names):
    assert old in OLD
    assert changed(OLD.replace(old, new)) == names


@given(st.permutations(OLD.splitlines()))
def test_the_order_of_lines_is_no_change(lines):
    assert changed("\n".join(lines)) == []


def test_a_change_says_by_how_much():
    (change,) = Sheet.from_text("a = 2 in").changes(Sheet.from_text("a = 2 1/64 in"))
    assert change.by == Quantity.inches(Fraction(1, 64))


def test_a_comparison_in_words():
    one = Sheet.from_text("a = 2 in\nb = 1 in\nslip = 1 in ± 1/64 in\npart peg: 2 of oak, a")
    two = Sheet.from_text("a = 2 1/64 in\nn = 3\nslip = 1 in ± 1/32 in\npart peg: 3 of oak, a")
    lines = comparison(one.changes(two), one.part_changes(two), "old.shop", "new.shop")
    rows = [re.split(" {2,}", line.strip()) for line in laid_out(lines, 200).splitlines()]
    assert rows == [
        ["4 sizes changed"],
        ["size", "old.shop", "new.shop", "by"],
        ["a", "2 in (50.8 mm)", "2 1/64 in (51.196875 mm)", "1/64 in larger (0.396875 mm)"],
        ["b", "1 in (25.4 mm)", "is not there"],
        [
            "slip",
            "1 in (25.4 mm) ± 1/64 in (0.396875 mm)",
            "1 in (25.4 mm) ± 1/32 in (0.79375 mm)",
            "the limits alone",
        ],
        ["n", "is not there", "3"],
        ["1 part changed"],
        ["part", "old.shop", "new.shop"],
        ["peg", "how many", "2", "3"],
        ["size 1", "2 in (50.8 mm)", "2 1/64 in (~51.1969 mm)"],
    ]


@pytest.mark.parametrize(
    ("old", "new", "rows"),
    [
        pytest.param("2 of oak, 1 in by 2 in", "2 of oak, 1 in by 3 in",
                     [["peg", "size 2", "2 in (50.8 mm)", "3 in (76.2 mm)"]], id="one size"),
        pytest.param("2 of oak", "2", [["peg", "material", "oak", "none"]], id="material gone"),
        pytest.param("2, 1 in", "2, 1 in by 2 in",
                     [["peg", "size", "1 in (25.4 mm)", "1 in x 2 in (25.4 x 50.8 mm)"]], id="one size more"),
        pytest.param("2, 1 in", "2", [["peg", "size", "1 in (25.4 mm)", "none"]], id="no size now"),
        pytest.param("1, 1 in ± 1/64 in", "1, 1 in ± 1/32 in",
                     [["peg", "size 1", "63/64 to 1 1/64 in (25.0032 to 25.7968 mm)",
                       "31/32 to 1 1/32 in (24.6063 to 26.1937 mm)"]], id="limits alone"),
    ],
)  # fmt: skip
def test_only_what_differs_of_a_part_is_told(old, new, rows):
    one, two = Sheet.from_text(f"part peg: {old}"), Sheet.from_text(f"part peg: {new}")
    lines = comparison((), one.part_changes(two), "old", "new")
    said = [re.split(" {2,}", line.strip()) for line in laid_out(lines, 200).splitlines()]
    assert said[2:] == rows


def test_long_names_of_sheets_do_not_head_columns():
    one, two = Sheet.from_text("a = 2 in"), Sheet.from_text("a = 3 in")
    lines = comparison(one.changes(two), (), "trays-and-runners.shop", "new.shop")
    said = laid_out(lines, 80).splitlines()
    assert said[0] == "trays-and-runners.shop is the old sheet, new.shop the new one"
    assert said[2].split() == ["size", "old", "new", "by"]


def test_no_change_is_one_sentence():
    assert comparison((), (), "old.shop", "new.shop") == ["every size and part of new.shop is as in old.shop"]
