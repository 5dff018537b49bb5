"""Two sheets compared by their sizes and parts, not by their text."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import Quantity
from fractions_shop.figures.plain import laid_out
from fractions_shop.show.changes import comparison
from fractions_shop.show.sheet import Sheet

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
        pytest.param("old note", "new note", ["peg"], id="a note of a part"),
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
    lines = comparison(one.changes(two), one.part_changes(two), (), "old.shop", "new.shop")
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
        pytest.param("2, 1 in", "2, 1 in; wax it", [["peg", "note", "none", "wax it"]], id="a note"),
        pytest.param("2 of oak", "2", [["peg", "material", "oak", "none"]], id="material gone"),
        pytest.param("2, 1 in", "2, 1 in by 2 in",
                     [["peg", "size", "1 in (25.4 mm)", "1 in x 2 in (25.4 x 50.8 mm)"]], id="one size more"),
        pytest.param("2, 1 in", "2", [["peg", "size", "1 in (25.4 mm)", "none"]], id="no size now"),
        pytest.param("1, 1 in ± 1/64 in", "1, 1 in ± 1/32 in",
                     [["peg", "size 1", "1 in, within 63/64 to 1 1/64 in (25.4 mm, within 25.01 to 25.79 mm)",
                       "1 in, within 31/32 to 1 1/32 in (25.4 mm, within 24.61 to 26.19 mm)"]], id="limits alone"),
    ],
)  # fmt: skip
def test_only_what_differs_of_a_part_is_told(old, new, rows):
    one, two = Sheet.from_text(f"part peg: {old}"), Sheet.from_text(f"part peg: {new}")
    lines = comparison((), one.part_changes(two), (), "old", "new")
    said = [re.split(" {2,}", line.strip()) for line in laid_out(lines, 200).splitlines()]
    assert said[2:] == rows


def test_long_names_of_sheets_do_not_head_columns():
    one, two = Sheet.from_text("a = 2 in"), Sheet.from_text("a = 3 in")
    lines = comparison(one.changes(two), (), (), "trays-and-runners.shop", "new.shop")
    said = laid_out(lines, 80).splitlines()
    assert said[0] == "trays-and-runners.shop is the old sheet, new.shop the new one"
    assert said[2].split() == ["size", "old", "new", "by"]


def test_no_change_is_one_sentence():
    said = comparison((), (), (), "old.shop", "new.shop")
    assert said == ["every size, part and answer of new.shop is as in old.shop"]


# Every other answer

WHOLE = """\
## Rail
rail = 14 5/8 in ± 1/64 in
length = 14 5/8 in
mark length into 23 on 32nds
crown 6 across 2 in radius 20 in on 32nds
fit 6 mm H7/g6
thread 6 BA
check rail = 14 5/8 in within 1/32 in
drill 3.3 mm
gauge 18 SWG
pack 1 in from 1/4 in, 1/8 in
recover 51.5 mm, 103 mm
identify 0.25 in, 20 tpi
substitute 1/4 BSW from UNC
bolt_circle(6, 4 in)
space = divide length into 9 up
snap 10.3 mm to 32nds
12 in * 3
part peg: 9 of beech, 1/4 in by length; glue dry
"""


def answers_changed(new: str) -> list[tuple[str, int | None, int | None]]:
    return [
        (c.kind, c.old and c.old.line.number, c.new and c.new.line.number)
        for c in Sheet.from_text(WHOLE).answer_changes(Sheet.from_text(new))
    ]


@pytest.mark.parametrize(
    ("old", "new", "kinds"),
    [
        ("into 23 on 32nds", "into 22 on 32nds", ["mark"]),
        ("into 23 on 32nds", "into 23 on 32nds from 1/2 in", ["mark"]),
        ("into 23 on 32nds", "into 23 on 64ths", ["mark"]),
        ("radius 20 in on", "radius 21 in on", ["crown"]),
        ("H7/g6", "H7/f7", ["fit"]),
        ("thread 6 BA", "thread 5 BA", ["thread"]),
        ("within 1/32 in", "within 1/128 in", ["check"]),
        ("drill 3.3 mm", "drill 3.4 mm", ["drill"]),
        ("gauge 18 SWG", "gauge 19 SWG", ["gauge"]),
        ("from 1/4 in, 1/8 in", "from 1/4 in, 1/16 in", []),
        ("pack 1 in from", "pack 1 1/8 in from", ["pack"]),
        ("51.5 mm, 103 mm", "51.5 mm, 104 mm", ["recover"]),
        ("0.25 in, 20 tpi", "0.25 in, 26 tpi", ["identify"]),
        ("from UNC", "from UNF", ["substitute"]),
        ("(6, 4 in)", "(5, 4 in)", ["places"]),
        ("into 9 up", "into 9 down", ["divide"]),
        ("snap 10.3 mm to 32nds", "snap 10.3 mm to 16ths", ["snap"]),
        ("12 in * 3", "12 in * 4", ["size"]),
        ("12 in * 3", "3 ft", []),
        ("length into 23", "14.625 in into 23", []),
        ("mark length", "mark   length", []),
        ("## Rail", "## Rails\n# another note", []),
        ("thread 6 BA\n", "", ["thread"]),
        ("thread 6 BA\n", "thread 6 BA\nthread 6 BA\n", ["thread"]),
        ("14 5/8 in within", "14 11/16 in within", ["check"]),
    ],
)
def test_every_answer_is_compared(old, new, kinds):
    assert old in WHOLE
    assert [kind for kind, *_ in answers_changed(WHOLE.replace(old, new))] == kinds


@given(st.permutations(WHOLE.splitlines()))
@settings(max_examples=20)
def test_answers_are_the_same_wherever_they_stand(lines):
    assert answers_changed("\n".join(lines)) == []


def test_an_answer_is_taken_with_the_one_of_its_words_before_the_one_of_its_kind():
    old = Sheet.from_text("a = 1 in\nmark a into 3\nmark 5 in into 3\nmark 6 in into 3")
    new = Sheet.from_text("a = 2 in\nmark 5 in into 4\nmark 6 in into 3\nmark a into 3\nthread 6 BA")
    pairs = [(c.old and c.old.line.number, c.new and c.new.line.number) for c in old.answer_changes(new)]
    assert pairs == [(2, 4), (3, 2), (None, 5)]


def test_what_differs_of_an_answer_is_told_in_its_own_words():
    one = Sheet.from_text("check 1 in = 25.4 mm within 1 thou\nfit 6 mm H7/g6\nthread 6 BA")
    two = Sheet.from_text("check 1 in = 25.5 mm within 1 thou\nfit 6 mm H7/g6\nmark 1 in into 2")
    lines = comparison((), (), one.answer_changes(two), "old.shop", "new.shop")
    rows = [re.split(" {2,}", line.strip()) for line in laid_out(lines, 200).splitlines()]
    assert rows == [
        ["3 answers changed"],
        ["check 1 in = 25.4 mm within 1 thou (line 1), now check 1 in = 25.5 mm within 1 thou (line 1)"],
        ["old.shop: holds: the two are the same"],
        [
            "new.shop: FAILS: the first is about 0.0039 in (0.1 mm) under, more than what is allowed, 0.001 in (0.0254 mm)"
        ],
        ["old.shop", "new.shop"],
        ["second", "1 in = 25.4 mm exactly", "25.5 mm exactly, ~1.0039 in"],
        ["thread 6 BA (line 3): in old.shop alone"],
        ["mark 1 in into 2 (line 3): in new.shop alone"],
    ]


def test_a_long_answer_tells_the_first_figures_and_counts_the_rest():
    one, two = (Sheet.from_text(f"mark {n} in into 23") for n in (10, 11))
    said = laid_out(comparison((), (), one.answer_changes(two), "old", "new"), 100)
    assert re.search(r"and [0-9]+ more of what it tells", said)
    assert len(said.splitlines()) < 20
