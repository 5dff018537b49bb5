"""Several counts, bodies of any width, shares, posts, how many and marks of bodies: worked cases.

They are held against brute force in property/test_share_laws.py and test_posts_laws.py.
"""

from __future__ import annotations

import pickle
from fractions import Fraction

import pytest

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.layout.marks import mark
from fractions_shop.layout.posts import GAP_CAUTION, divide_for, how_many
from fractions_shop.layout.room import NoRoom
from fractions_shop.layout.share import share
from fractions_shop.layout.spacing import divide
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


def _in(text: str) -> Quantity:
    return Quantity.inches(Fraction(text))


def _inches(sizes) -> list[str]:
    return [str(size.inch) for size in sizes]


# Several counts at once


def test_two_inches_into_five_and_seven() -> None:
    # Worked by hand: 35 divisions fit 3 times into 128 (105), and 4 times makes 140, 2 3/16 in.
    found = divide("2 in", (5, 7), direction="up")
    assert (found.total, found.change) == (_in("35/16"), _in("3/16"))
    assert _inches(found.spaces) == ["7/16", "5/16"]
    assert _inches(found.exact) == ["2/5", "2/7"]
    assert found.nearest == found.above
    assert found.below is not None
    assert (found.below.total, _inches(found.below.spaces)) == (_in("105/64"), ["21/64", "15/64"])
    # Of 128 divisions 35 or 105 leave an odd rest, which makes no two whole ends; 70 leave 29 at each.
    assert found.kept_total is not None
    assert (found.kept_total.ends, _inches(found.kept_total.spaces)) == (_in("29/64"), ["7/32", "5/32"])


def test_several_counts_with_ends_and_bodies() -> None:
    # Worked by hand: 10 in less two margins of 1/2 in is 9 in; with bodies of 1/4 in (16 divisions),
    # 560 divisions = n (16 + s) for n of 4 and 7: s is 124 and 64.
    found = divide("10 in", (4, 7), ends="1/2 in", bodies="1/4 in")
    assert (found.total, found.change) == (_in("10"), _in("0"))
    assert _inches(found.spaces) == ["31/16", "1"]
    assert found.kept_total is None


def test_bodies_off_the_rule_may_never_meet() -> None:
    # Half a division over: twice it is whole, three times is not, and 2 (b + s) = 3 (b + s') has no answer.
    with pytest.raises(NoAnswer, match="no total brings the spaces"):
        divide("2 in", (2, 3), bodies="1/128 in")
    # Odd counts alone meet: 3 and 5 of a half are both a half over.
    found = divide("2 in", (3, 5), bodies="1/128 in")
    assert all(Rule("64ths").carries(space) for space in found.spaces)


def test_down_with_several_counts_needs_a_space_for_each() -> None:
    with pytest.raises(NoAnswer, match="leaves no space"):
        divide("1/2 in", (5, 7), direction="down")
    assert divide("1/2 in", (5, 7)).total == _in("35/64")


def test_no_count_is_left_with_a_space_of_nothing() -> None:
    # Worked by hand in 64ths: bodies of 6 inside only. 12 is 3 spaces of nothing with 2 bodies, so the
    # next total, 18, is the least: 2 spaces of 6 with 1 body, 3 of 2 with 2.
    found = divide("13/64 in", (2, 3), bodies="6/64 in", outer=False)
    assert (found.total, _inches(found.spaces)) == (_in("18/64"), ["3/32", "1/32"])
    assert found.below is None


# Bodies and spaces both chosen


def test_slats_of_any_width_in_two_and_a_thirty_second() -> None:
    # Worked by hand: 130 divisions into 5 with 6 bodies: bodies 5, 10, 15, 20 with spaces 20, 14, 8, 2.
    found = divide("2 1/32 in", 5, bodies="any")
    assert [(str(way.body.inch), str(way.space.inch), way.rule.name) for way in found.choices] == [
        ("5/32", "7/32", "32nds"), ("5/16", "1/32", "32nds"), ("15/64", "1/8", "64ths"), ("5/64", "5/16", "64ths"),
    ]  # fmt: skip
    assert (found.many, found.body, found.space, found.bodies) == (4, _in("5/32"), _in("7/32"), 6)
    assert (found.below, found.above, found.change) == (None, None, _in("0"))
    # All alike they would be 130/11 divisions.
    assert found.exact == _in("130/704")


def test_the_width_of_a_body_may_be_bounded_and_bodies_may_stand_inside_only() -> None:
    bounded = divide("2 1/32 in", 5, bodies="any", least="3/16 in", most="1/4 in")
    assert [(str(way.body.inch), str(way.space.inch)) for way in bounded.choices] == [("15/64", "1/8")]
    # Inside only: 130 = 5 s + 4 b, so b is 5, 10 ... 30 and s 22, 18 ... 2.
    inside = divide("2 1/32 in", 5, bodies="any", outer=False)
    assert (inside.many, inside.bodies) == (6, 4)
    assert all(5 * way.space + 4 * way.body == _in("65/32") for way in inside.choices)


def test_bodies_of_any_width_move_a_total_that_the_rule_does_not_carry() -> None:
    found = divide("51 mm", 5, bodies="any")
    assert found.choices == ()
    assert found.many == 0
    assert found.below is not None
    assert found.above is not None
    # 51 mm is 128.5 divisions: both neighbours, 128 and 129, have bodies.
    assert (found.below.total, found.above.total) == (_in("2"), _in("129/64"))
    assert divide("51 mm", 5, bodies="any", direction="up").total == _in("129/64")
    assert divide("51 mm", 5, bodies="any", direction="down").total == _in("2")


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"least": "1/8 in"}, 'goes with bodies="any"'),
        ({"bodies": "1/8 in", "most": "1/4 in"}, 'goes with bodies="any"'),
        ({"bodies": "any", "least": "1/4 in", "most": "1/8 in"}, "no division of 64ths lies between"),
        ({"bodies": "any", "least": "0.1 in", "most": "0.101 in"}, "no division of 64ths lies between"),
        ({"bodies": "any", "least": "0 in"}, "the least size must be above zero"),
        ({"bodies": "any", "ends": "1 in"}, "no room is left"),
        ({"bodies": "any", "outer": 0}, "outer is True or False"),
        ({"bodies": "some"}, "nothing is named some"),
    ],
)
def test_what_cannot_be_chosen_is_refused(more, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        divide("2 in", 5, **more)


def test_one_space_has_no_body_inside() -> None:
    with pytest.raises(ShopError, match="one space has no body inside it"):
        divide("2 in", 1, bodies="any", outer=False)
    with pytest.raises(ShopError, match="nothing to mark"):
        mark("2 in", 1, bodies="1/4 in", outer=False)
    with pytest.raises(ShopError, match="one number of spaces"):
        divide("2 in", (2, 3), bodies="any")
    for counts in ((), (2, 0), (2, 2.5), tuple(range(1, 14))):
        with pytest.raises(ShopError, match=r"whole number|from 1 to"):
            divide("2 in", counts)


# Shares


def test_two_and_five_eighths_among_four_and_two() -> None:
    found = share("2 5/8 in", (4, 2))
    # Worked by hand: 168 divisions are 4 a + 2 b, so b = 84 - 2 a for a of 1 to 41.
    assert (found.many, len(found.choices)) == (41, 12)
    assert [str(s.inch) for s in found.sizes] == ["7/16", "7/16"]
    assert ["13/32", "1/2"] in [_inches(way.sizes) for way in found.choices]
    assert found.division == _in("1/16")
    assert found.exact == _in("7/16")


def test_a_share_among_three_kinds_and_one_with_limits() -> None:
    found = share("10 in", (3, 2, 2), "8ths", least="1 in", most="2 in")
    # Worked by hand in 8ths: 80 = 3a + 2b + 2c needs an even a; 1 in and 2 in alike: a 16, b + c 16 (8, 8).
    assert _inches(found.sizes) == ["2", "1", "1"]
    assert all(_in("1") <= size <= _in("2") for way in found.choices for size in way.sizes)
    assert found.many == sum(
        3 * a + 2 * b + 2 * c == 80 for a in range(8, 17) for b in range(8, 17) for c in range(8, 17)
    )


def test_a_total_that_cannot_be_shared_says_the_nearest_that_can() -> None:
    found = share("2 39/64 in", (4, 2))  # 167 divisions, and 4 a + 2 b is even
    assert (found.choices, found.many) == ((), 0)
    assert found.below is not None
    assert found.above is not None
    assert (found.below.total, found.above.total) == (_in("83/32"), _in("21/8"))
    assert (found.total, found.change) == (_in("83/32"), _in("-1/64"))  # the lower of a tie
    assert share("2 39/64 in", (4, 2), direction="up").change == _in("1/64")
    too_small = share("1/64 in", (4, 2))
    assert (too_small.below, too_small.total) == (None, _in("3/32"))
    with pytest.raises(NoAnswer, match="no total so small"):
        _ = share("1/64 in", (4, 2), direction="down").sizes
    with pytest.raises(NoAnswer, match="no total so great"):
        _ = share("20 in", (4, 2), direction="up", most="1 in").sizes


@pytest.mark.parametrize(
    ("counts", "more", "said"),
    [
        (4, {}, "given together, such as"),
        ("4 2", {}, "given together, such as"),
        ((4,), {}, "two or three kinds of piece, not 1"),
        ((1, 2, 3, 4), {}, "two or three kinds of piece, not 4"),
        ((4, 0), {}, "from 1 to 1,000, not 0"),
        ((4, 2), {"least": "1 in", "most": "1/2 in"}, "no division of 64ths lies between"),
        ((4, 2), {"direction": "sideways"}, "a direction is"),
        ((4, 2), {"shown": 0}, "how many ways are shown must be from 1"),
    ],
)
def test_what_cannot_be_shared_is_refused(counts, more, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        share("2 5/8 in", counts, **more)


def test_more_ways_than_can_be_counted_are_refused_and_a_great_total_is_quick() -> None:
    with pytest.raises(ShopError, match="say from what size"):
        share(Quantity.inches(10**9), (3, 2, 2))
    assert share(Quantity.inches(10**9), (3, 2)).many == 10**9 * 64 // 6


# Posts


def test_thirteen_balusters_between_posts_six_feet_apart() -> None:
    # Worked by hand: 72 in less 13 of 1 1/2 in is 52 1/2 in, in 14 spaces 3 3/4 in each.
    found = divide_for("72 in", 13, "1 1/2 in")
    assert (found.space, found.exact, found.count, found.body_count) == (_in("15/4"), _in("15/4"), 14, 13)
    # The other form has one at each end too: 15 bodies, 49 1/2 in in 14 spaces.
    other = found.other
    assert other is not None
    assert (other.count, other.body_count, other.exact, other.outer) == (14, 15, _in("99/28"), True)
    assert other.other == found
    assert found.kept_total is None


def test_no_room_with_a_body_at_each_end_offers_the_form_inside_the_posts() -> None:
    # Worked by hand: 3 of 3 5/16 in leave 7/8 in of 10 13/16 in, in 4 spaces 7/32 in each.
    with pytest.raises(NoRoom, match="no room is left") as caught:
        divide("10 13/16 in", 4, bodies="3 5/16 in")
    other = caught.value.other
    assert (other.count, other.body_count, other.space) == (4, 3, _in("7/32"))
    assert divide_for("10 13/16 in", 3, "3 5/16 in") == other
    assert str(pickle.loads(pickle.dumps(caught.value))) == str(caught.value)
    with pytest.raises(NoRoom) as caught:
        divide("10 in", 4, bodies="5 in")
    assert caught.value.other is None
    assert divide("10 in", 4).other is None


def test_margins_stay_at_the_posts() -> None:
    found = divide_for("20 in", 3, "2 in", ends="1 in")
    assert (found.space, found.total) == (_in("3"), _in("20"))


# How many


def test_how_many_spaces_of_about_seven_inches_in_109() -> None:
    # Worked by hand: 109/7 is 15 4/7; 109/15 is 7 4/15 in and 109/16 6 13/16 in, which the rule has.
    found = how_many("109 in", about="7 in")
    assert found.fewer is not None
    assert found.more is not None
    assert (found.fewer.count, found.fewer.exact) == (15, _in("109/15"))
    assert (found.more.count, found.more.exact, found.more.space) == (16, _in("109/16"), _in("109/16"))
    assert (found.count, found.exact, found.caution) == (16, _in("109/16"), "")


def test_as_far_on_both_sides_takes_fewer_and_an_exact_number_is_both() -> None:
    assert how_many("12 in", about="5 in").fewer == how_many("12 in", about="6 in").more
    found = how_many("12 in", about="3 in")
    assert found.fewer == found.more
    # 12 in in 2 and 3 spaces is 6 in and 4 in: as far from 5 in.
    assert how_many("12 in", about="5 in").count == 2


def test_gaps_of_at_most_four_inches_between_posts() -> None:
    # Worked by hand: n of 1 1/2 in leave 72 - 3 n / 2 in n + 1 spaces; 12 leave 4 2/13 in, 13 leave 3 3/4 in.
    found = divide_for("72 in", "any", "1 1/2 in", most="4 in")
    assert (found.body_count, found.exact, found.space) == (13, _in("15/4"), _in("15/4"))
    assert found.fewer is not None
    assert (found.fewer.body_count, found.fewer.exact) == (12, _in("54/13"))
    assert found.caution == GAP_CAUTION
    assert divide_for("72 in", "any", "1 1/2 in", about="4 in").body_count == 12


def test_a_widest_gap_is_not_passed_by_rounding_on_the_rule() -> None:
    # 3 spaces of 3.99 in: the nearest 8th, 4 in, is over 3.995 in; 3 7/8 in is not.
    found = how_many("11.97 in", "8ths", most="3.995 in")
    assert (found.count, found.exact, found.space) == (3, _in("3.99"), _in("31/8"))


def test_no_number_may_be_narrow_enough() -> None:
    found = divide_for("10 in", "any", "6 in", most="1/8 in")
    assert (found.more, found.fewer and found.fewer.body_count) == (None, 1)
    with pytest.raises(NoAnswer, match="one more body has no room"):
        _ = found.count
    none_needed = divide_for("3 in", "any", "1 1/2 in", most="4 in")
    assert (none_needed.body_count, none_needed.exact, none_needed.fewer) == (0, _in("3"), None)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({}, "either about what space"),
        ({"about": "7 in", "most": "8 in"}, "either about what space"),
        ({"about": "0 in"}, "the space wanted must be above zero"),
        ({"about": "0.001 in"}, "more than 10,000 spaces"),
        ({"about": "7 in", "bodies": "60 in"}, "no room is left"),
    ],
)
def test_what_cannot_be_counted_is_refused(more, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        how_many("109 in", **more)


def test_how_far_apart_is_asked_of_any_number() -> None:
    with pytest.raises(ShopError, match="here their number is given"):
        divide_for("72 in", 13, "1 1/2 in", most="4 in")  # type: ignore[call-overload]
    with pytest.raises(ShopError, match="the number of bodies must be from 1"):
        divide_for("72 in", 0, "1 1/2 in")
    with pytest.raises(ShopError, match="the width of a body must be above zero"):
        divide_for("72 in", "any", "0 in", most="4 in")


# Marks of bodies


def test_edges_and_centres_of_bodies_inside_posts() -> None:
    # Worked by hand: 3 of 3 5/16 in in 10 13/16 in stand 7/32 in apart.
    edges = mark("10 13/16 in", 4, bodies="3 5/16 in", outer=False)
    assert (edges.of, edges.space) == ("edges", _in("7/32"))
    assert _inches(edges.exact) == ["7/32", "113/32", "15/4", "113/16", "233/32", "339/32"]
    centres = mark("10 13/16 in", 4, bodies="3 5/16 in", outer=False, of="centres")
    assert _inches(centres.exact) == ["15/8", "173/32", "143/16"]
    assert centres.stepping == _in("0")


def test_marks_of_bodies_with_margins_from_a_datum() -> None:
    # Worked by hand: 12 in less margins of 1 in and 4 bodies of 1/2 in leave 8 in, 2 2/3 in each.
    found = mark("12 in", 3, "16ths", start="1/4 in", ends="1 in", bodies="1/2 in", of="centres")
    assert _inches(found.exact) == ["3/2", "14/3", "47/6", "11"]
    assert _inches(found.read) == ["3/2", "75/16", "125/16", "11"]
    assert found.worst == _in("1/48")
    # From centre to centre 3 1/6 in reads 3 3/16 in, 1/48 in over, three times.
    assert (found.step, found.stepping) == (_in("51/16"), _in("1/16"))
    # Between edges the space of 2 2/3 in reads 2 11/16 in, 1/48 in over, three times.
    edges = mark("12 in", 3, "16ths", ends="1 in", bodies="1/2 in", of="edges")
    assert (edges.step, edges.stepping) == (_in("43/16"), _in("1/16"))


def test_marks_with_margins_alone() -> None:
    found = mark("10 in", 4, ends="1 in")
    assert _inches(found.exact) == ["1", "3", "5", "7", "9"]
    assert found.points == tuple((size,) for size in found.exact)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"of": "edges"}, "edges are those of bodies"),
        ({"of": "corners", "bodies": "1/4 in"}, "its edges or its centres, not 'corners'"),
        ({"bodies": "1 in"}, "no room is left"),
        ({"ends": "-1 in"}, "must not be negative"),
    ],
)
def test_what_cannot_be_marked_is_refused(more, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        mark("2 in", 5, **more)
