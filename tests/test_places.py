"""Places on one and two axes, with running and chain figures as read on a rule."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.layout.chain import Axis
from fractions_shop.layout.circle import bolt_circle
from fractions_shop.layout.marks import mark
from fractions_shop.layout.places import places
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule

coordinates = st.fractions(-40, 40, max_denominator=60).map(Quantity)
rules = st.sampled_from(("64ths", "16ths", "100ths", "mm")).map(Rule)


def _in(text: str) -> Quantity:
    return Quantity.inches(Fraction(text))


def _inches(sizes) -> list[str]:
    return [str(size.inch) for size in sizes]


# One axis


def test_hinges_along_a_stile_have_running_and_chain_figures() -> None:
    # Worked by hand: 2 1/3 - 1/2 = 1 5/6 in; on 64ths 1/2, 2 1/3 (149 1/3 of them) and 4 7/10 (300.8).
    found = places("1/2 in", "2 1/3 in", "4.7 in", along="5 in")
    (axis,) = found.axes
    assert _inches(axis.running.read) == ["1/2", "149/64", "301/64"]
    assert _inches(axis.running.errors) == ["0", "-1/192", "1/320"]
    assert found.worst == (_in("1/192"),)
    assert _inches(axis.chain.exact) == ["11/6", "71/30"]
    assert _inches(axis.chain.read) == ["117/64", "151/64"]
    assert axis.chain.worst == _in("71/30") - _in("151/64")
    assert axis.built_up == _in("117/64") - _in("11/6") + _in("151/64") - _in("71/30")
    assert axis.rest == _in("3/10")


def test_places_keep_their_order_and_the_axis_rises_with_each_mark_once() -> None:
    found = places("3 in", "1 in", "3 in")
    assert [_inches(point) for point in found.points] == [["3"], ["1"], ["3"]]
    assert _inches(found.axes[0].running.exact) == ["1", "3"]


@given(st.lists(coordinates, min_size=1, max_size=12), rules)
def test_running_figures_do_not_build_up_and_chain_figures_do(marks: list[Quantity], rule: Rule) -> None:
    (axis,) = places(*marks, rule=rule).axes
    rising = sorted(set(marks))
    half = rule.division / 2
    assert list(axis.running.exact) == rising
    assert all(rule.carries(read) for read in (*axis.running.read, *axis.chain.read))
    assert axis.running.worst <= half
    assert axis.chain.worst <= half
    # Lay the chain figures down one after another from the first mark.
    at, out = rising[0], []
    for step in axis.chain.read:
        at += step
        out.append(at - rising[len(out) + 1])
    assert axis.built_up == (out[-1] if out else Quantity(Fraction(0)))
    assert axis.rest is None


@given(st.lists(st.tuples(coordinates, coordinates), min_size=1, max_size=8), rules, coordinates, coordinates)
def test_a_moved_datum_moves_every_place_alike(points, rule: Rule, x: Quantity, y: Quantity) -> None:
    found = places(*points, rule=rule)
    moved = found.moved(x, y)
    assert moved.points == tuple((a + x, b + y) for a, b in points)
    assert moved.moved(-x, -y).points == found.points
    assert [axis.chain.exact for axis in moved.axes] == [axis.chain.exact for axis in found.axes]


# Two axes


def test_pairs_have_figures_on_both_axes_and_an_error_for_each() -> None:
    found = places(("1 in", "1/2 in"), ("2.1 in", "1/2 in"), ("1 in", "1 1/3 in"), rule="32nds")
    across, up = found.axes
    assert (_inches(across.running.exact), _inches(up.running.exact)) == (["1", "21/10"], ["1/2", "4/3"])
    # 2.1 in is 67.2 32nds and 1 1/3 in is 42 2/3: by arithmetic.
    assert found.worst == (_in("1/160"), _in("1/96"))
    assert found.read[2] == (_in("1"), _in("43/32"))


def test_a_grid_goes_row_by_row_from_where_it_begins() -> None:
    found = places(across=(3, "2 in"), up=(2, "1 1/4 in"), first=("1/2 in", "3/4 in"), along=("5 in", "3 in"))
    assert [_inches(point) for point in found.points] == [
        ["1/2", "3/4"], ["5/2", "3/4"], ["9/2", "3/4"], ["1/2", "2"], ["5/2", "2"], ["9/2", "2"],
    ]  # fmt: skip
    assert [axis.rest for axis in found.axes] == [_in("1/2"), _in("1")]
    assert _inches(found.axes[1].chain.exact) == ["5/4"]


def test_a_row_may_start_anywhere_on_one_axis_or_two() -> None:
    assert [_inches(p) for p in places(across=(3, "1 in"), first="-1/4 in").points] == [
        ["-1/4"],
        ["3/4"],
        ["7/4"],
    ]
    row = places(across=(2, "1 in"), first=("1/4 in", "3/8 in"))
    assert [_inches(point) for point in row.points] == [["1/4", "3/8"], ["5/4", "3/8"]]
    assert places(across=(2, "1 in")).points == ((_in("0"),), (_in("1"),))


def test_a_bolt_circle_gives_places_and_its_like_coordinates_are_one() -> None:
    # A hexagon on 2 in: x at 1, 1/2, -1/2, -1 and y at 0 and the root of 3/4, twice: by geometry.
    found = places(*bolt_circle(6, "2 in"), rule="64ths")
    across, up = found.axes
    assert len(across.running.exact) == 4
    assert len(up.running.exact) == 3
    assert found.points[1][1].approximate
    moved = places(*bolt_circle(6, "2 in", Angle(Fraction(30)))).moved("3 in", "3 in")
    assert moved.points[1] == (_in("3"), _in("4"))


def test_marks_give_places_on_their_own_rule() -> None:
    marks = mark("10 13/16 in", 4, "32nds", bodies="3 5/16 in", outer=False, of="centres")
    found = places(marks)
    assert found.rule == Rule("32nds")
    assert tuple(point[0] for point in found.points) == marks.exact
    assert found.axes[0].running.read == marks.read
    assert places(marks, rule="mm").rule == Rule("mm")
    assert places(found).points == found.points


# For a machine


def test_coordinates_for_a_machine_say_what_rounding_moved() -> None:
    found = places(("1/64 in", "1 in"), ("1/3 in", "2 in")).coordinates()
    # 1/64 in is 0.396875 mm and 1/3 in 8.4666... mm: by arithmetic.
    assert found.points == (
        (Quantity(Fraction("0.397")), Quantity(Fraction("25.4"))),
        (Quantity(Fraction("8.467")), Quantity(Fraction("50.8"))),
    )
    assert found.worst == (Quantity(Fraction(1, 3000)), Quantity(Fraction(0)))
    assert places("1/3 in").coordinates("0.01 mm").points == ((Quantity(Fraction("8.47")),),)


@given(st.lists(st.tuples(coordinates, coordinates), min_size=1, max_size=6))
def test_no_coordinate_is_rounded_by_more_than_half_a_step(points) -> None:
    found = places(*points).coordinates("0.01 mm")
    for new, old in zip(found.points, points, strict=True):
        for a, b, worst in zip(new, old, found.worst, strict=True):
            assert (a.mm * 100).denominator == 1
            assert abs(a - b) <= worst <= Quantity(Fraction(1, 200))


# What is refused


@pytest.mark.parametrize(
    ("given_", "more", "said"),
    [
        ((), {}, "1 to 10,000 distances or pairs, not 0"),
        (("1 in", ("1 in", "2 in")), {}, "some of these places are one distance and some are pairs"),
        ((("1 in", "2 in", "3 in"),), {}, "one distance or a pair, across and up, not 3"),
        (("6 in",), {"along": "5 in"}, r"6 in \(152.4 mm\) across lies outside the whole length, 5 in"),
        (("-1 in",), {"along": "5 in"}, "outside the whole length"),
        ((("1 in", "4 in"),), {"along": ("5 in", "3 in")}, r"4 in \(101.6 mm\) up lies outside"),
        (("1 in",), {"along": "0 in"}, "the whole length must be above zero"),
        (("1 in",), {"up": (2, "1 in")}, "say how many across too"),
        (("1 in",), {"first": "1 in"}, "say how many across too"),
        (("1 in",), {"across": (2, "1 in")}, "either the marks themselves or a row"),
        ((), {"across": 6}, "given together: across="),
        ((), {"across": (6, "0 in")}, "the pitch across must be above zero"),
        ((), {"across": (200, "1 in"), "up": (200, "1 in")}, "this one would have 40,000"),
        (("two",), {}, "two is written in figures"),
    ],
)
def test_what_is_no_place_is_refused_in_words(given_, more, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        places(*given_, **more)


def test_one_axis_has_one_whole_length_and_one_distance_to_move() -> None:
    with pytest.raises(DimensionError, match="one axis, so one whole length"):
        places("1 in", along=("2 in", "3 in"))
    with pytest.raises(ShopError, match="two axes"):
        places(("1 in", "1 in")).moved("1 in")
    with pytest.raises(ShopError, match="a place is one distance or a pair"):
        places("1 in").moved()


def test_an_exact_coordinate_stands_for_an_approximate_one_beside_it() -> None:
    near = Quantity(Fraction(1) + Fraction(1, 10**28), 1, True)
    axis = Axis.of([near, Quantity(Fraction(1))], Rule("mm"))
    assert [size.approximate for size in axis.running.exact] == [False]
    apart = Axis.of([Quantity(Fraction(1)), Quantity(Fraction(1) + Fraction(1, 10**28))], Rule("mm"))
    assert len(apart.running.exact) == 2
