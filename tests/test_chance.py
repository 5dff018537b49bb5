"""How often a size at random comes as near: small worlds of marks worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.meant.chance import Surroundings, _plain_places
from fractions_shop.meant.priors import Division
from fractions_shop.meant.readings import Reading
from fractions_shop.size.quantity import Quantity

#: One mark in each 127 mm, the period of inches and millimetres; and a table of five sizes.
COARSE = Division("plain", "127s", 0.5, Fraction(127))
TABLE = Division("table", "sizes", 0.5, None, tuple((Fraction(n), str(n)) for n in (3, 10, 60, 70, 140)))


def about(size: int, *divisions: Division, within: int = 1) -> Surroundings:
    nought = Quantity(Fraction(0))
    reading = Reading(Quantity(Fraction(size)), Quantity(Fraction(within)), nought, nought)
    return Surroundings(reading, divisions)


@pytest.mark.parametrize(
    ("size", "mark", "within", "share"),
    [
        # A size within `reach` of some mark, of 127 mm; reach is how far the reading is off, twice.
        # 30 mm: 3, 10, 60, 70 of the table are within 63.5 mm, and 0 of the coarse; gaps 3, 7, 50, 10, 57.
        pytest.param(30, 10, 1, 3 + 7 + 40 + 10 + 40, id="20 off: 40 of the wider gaps"),
        pytest.param(30, 3, 1, 3 + 7 + 50 + 10 + 54, id="27 off: 54"),
        pytest.param(62, 60, 1, 3 + 4 + 4 + 4 + 4, id="2 off: all but one gap is wider"),
        # 120 mm: 60, 70 and 140, which is 13 in the next period; gaps 13, 47, 10, 57.
        pytest.param(120, 140, 1, 13 + 40 + 10 + 40, id="into the next period"),
        # The coarse mark is more readable than any of the table: it has no other for rival.
        pytest.param(120, 127, 1, 14, id="the most readable is alone"),
        pytest.param(120, 127, 10, 20, id="nothing finer than the reading can be told"),
        pytest.param(62, 127, 1, 127, id="never more than all"),
    ],
)
def test_the_share_of_sizes_as_near_to_a_mark_as_readable(
    size: int, mark: int, within: int, share: int
) -> None:
    found = about(size, COARSE, TABLE, within=within).chance(Fraction(mark))
    assert found == pytest.approx(share / 127)


@given(
    st.lists(
        st.tuples(st.sampled_from((1, 2, 5, 10, 25, 254, 635, 127)), st.integers(1, 9)),
        min_size=1,
        max_size=6,
    ),
    st.data(),
)
def test_the_marks_so_readable_are_those_of_all_marks(
    parts: list[tuple[int, int]], data: st.DataObject
) -> None:
    plain = tuple(
        Division("plain", str(place), weight / 10, Fraction(step, 10))
        for place, (step, weight) in enumerate(parts)
    )
    every = _plain_places(plain)
    least = data.draw(st.sampled_from(sorted({weight for _, weight in every}))) * (1 - 1e-9)
    found, expected = _plain_places(plain, least), [mark for mark in every if mark[1] >= least]
    assert [place for place, _ in found] == [place for place, _ in expected]
    assert [weight for _, weight in found] == pytest.approx([weight for _, weight in expected])


def test_readability_is_weight_times_step_added_up() -> None:
    # Up to twice 30 mm the table has three sizes, a mean step of 20 mm; up to 240 mm five, of 48 mm.
    assert about(30, COARSE, TABLE).readability(Fraction(10)) == 0.5 * 20
    assert about(120, COARSE, TABLE).readability(Fraction(10)) == 0.5 * 48
    assert about(30, COARSE, TABLE).readability(Fraction(127)) == 0.5 * 127
    both = Division("table", "more", 0.25, None, ((Fraction(127), "a"), (Fraction(60), "b")))
    assert about(120, COARSE, both).readability(Fraction(127)) == 0.5 * 127 + 0.25 * 120


def test_plain_divisions_alone() -> None:
    # Marks every 12.7 mm and every 25.4 mm: ten in a period, of which five are in both.
    fine, whole = (
        Division("plain", "halves", 0.5, Fraction("12.7")),
        Division("plain", "inches", 0.5, Fraction("25.4")),
    )
    surroundings = about(13, fine, whole, within=1)
    assert surroundings.chance(Fraction("12.7")) == pytest.approx(10 * 2 / 127)
    assert about(26, fine, whole).chance(Fraction("25.4")) == pytest.approx(5 * 2 / 127)
    assert about(20, fine, whole).chance(Fraction("25.4")) == pytest.approx(5 * 10.8 / 127)
    # 7.3 mm off reaches more than half of every gap between halves.
    assert about(20, fine, whole).chance(Fraction("12.7")) == 1.0


def screws(*sizes: tuple[str, str]) -> Division:
    """A table of sizes, each with how far under it a piece may measure."""
    marks = tuple((Fraction(size), size) for size, _ in sizes)
    return Division(
        "threads", "screws", 0.5, None, marks, tuple((Fraction(s), Fraction(u)) for s, u in sizes)
    )


@pytest.mark.parametrize(
    ("size", "sizes", "under", "share"),
    [
        # Each screw has the stretch from its size down to its undersize, and the coarse mark at 0 none.
        # 90 mm is 10 under 100, of which 4 are no distance: 6 on either side, 12 + (2 + 12) + (4 + 12).
        pytest.param(90, [("60", "2"), ("100", "4")], "4", 12 + 14 + 16, id="10 under, of which 4 are usual"),
        # 98 mm is inside the stretch: 1 mm, as far as the reading is good.
        pytest.param(98, [("60", "2"), ("100", "4")], "4", 2 + 4 + 6, id="inside"),
        pytest.param(103, [("60", "2"), ("100", "4")], "4", 6 + 8 + 10, id="3 over"),
        # 95 to 101 and 98 to 104 mm share 3 mm.
        pytest.param(98, [("100", "4"), ("103", "4")], "4", 2 + 6 + 3, id="overlapping"),
    ],
)
def test_a_screw_is_near_anywhere_in_its_undersize(
    size: int, sizes: list[tuple[str, str]], under: str, share: int
) -> None:
    found = about(size, COARSE, screws(*sizes)).chance(Fraction(100), Fraction(under))
    assert found == pytest.approx(share / 127)


@pytest.mark.parametrize(
    ("other", "counts"),
    [
        ("26.5", True),
        ("26.75", True),
        ("153.25", True),
        ("153.5", True),
        ("26", False),
        ("154", False),
        ("20", False),
    ],
)
def test_sizes_of_a_table_count_half_a_period_either_way(other: str, counts: bool) -> None:
    # 90 mm less and more 63.5 mm; 1 mm on either side of 0, of 100 and of the other.
    table = Division(
        "table", "sizes", 0.5, None, tuple(sorted(((Fraction(100), "a"), (Fraction(other), "b"))))
    )
    share = about(90, COARSE, table, within=10).chance(Fraction(100))
    assert share == pytest.approx((60 if counts else 40) / 127)


def test_a_table_alone_covers_what_its_sizes_reach_each_place_once() -> None:
    # 20 mm off on either side of 3, 10, 60 and 70 mm: from -17 to 30 and from 40 to 90.
    assert about(30, TABLE).chance(Fraction(10)) == pytest.approx((47 + 50) / 127)


def test_a_stretch_inside_another_counts_once() -> None:
    # 103 mm is 3 over 100, whose stretch goes down to 70: from 67 to 103; 90 has 87 to 93, inside it.
    table = screws(("90", "0"), ("100", "30"))
    assert about(103, table).chance(Fraction(100), Fraction(30)) == pytest.approx(36 / 127)


def test_one_mark_in_a_period_has_the_whole_period_for_its_gap() -> None:
    assert about(120, COARSE).chance(Fraction(127)) == pytest.approx(14 / 127)
    assert about(30, COARSE).chance(Fraction(127)) == 1.0


def test_where_there_is_no_mark_nothing_is_near_by_chance() -> None:
    far = Division("table", "far", 1.0, None, ((Fraction(1000), "far"),))
    assert about(30).chance(Fraction(10)) == 0.0
    assert about(30, far).chance(Fraction(10)) == 0.0
