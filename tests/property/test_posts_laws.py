"""How many, bodies inside posts and marks of bodies, against laying every body down in turn."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import NoAnswer
from fractions_shop.layout.marks import mark
from fractions_shop.layout.posts import divide_for, how_many
from fractions_shop.layout.room import NoRoom
from fractions_shop.layout.spacing import divide
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

NOTHING = Quantity(Fraction(0))
rules = st.sampled_from(("64ths", "16ths", "10ths", "mm")).map(Rule)
totals = st.fractions(1, 60, max_denominator=12).map(Quantity)
spaces = st.fractions(2, 40, max_denominator=12).map(Quantity)
widths = st.none() | st.fractions(0, 60, max_denominator=12).map(Quantity)
margins = st.none() | st.fractions(0, 20, max_denominator=4).map(Quantity)


def _exact(
    total: Quantity, count: int, ends: Quantity | None, body: Quantity | None, outer: bool
) -> Quantity | None:
    """The space of so many: None when nothing is left."""
    bodies = count + 1 if outer else count - 1
    left = total - 2 * (ends or NOTHING) - bodies * (body or NOTHING)
    return left / count if left.value > 0 else None


@given(totals, spaces, widths, margins, rules, st.booleans())
def test_a_number_for_about_so_much_is_the_last_wider_and_the_first_narrower(
    total: Quantity, about: Quantity, body: Quantity | None, ends: Quantity | None, rule: Rule, outer: bool
) -> None:
    tried = [(n, _exact(total, n, ends, body, outer)) for n in range(1, 34)]
    with_room = [(n, space) for n, space in tried if space is not None]
    if not with_room:
        with pytest.raises(NoRoom):
            how_many(total, rule, ends=ends, bodies=body, about=about, outer=outer)
        return
    found = how_many(total, rule, ends=ends, bodies=body, about=about, outer=outer)
    wider = [(n, space) for n, space in with_room if space >= about]
    narrower = [(n, space) for n, space in with_room if space <= about]
    assert (found.fewer and (found.fewer.count, found.fewer.exact)) == (wider[-1] if wider else None)
    assert (found.more and (found.more.count, found.more.exact)) == (narrower[0] if narrower else None)
    assert abs(found.exact - about) == min(abs(space - about) for _, space in with_room)


@given(totals, spaces, widths, margins, rules, st.booleans())
def test_a_number_for_at_most_so_much_is_the_least_that_holds(
    total: Quantity, most: Quantity, body: Quantity | None, ends: Quantity | None, rule: Rule, outer: bool
) -> None:
    tried = [(n, _exact(total, n, ends, body, outer)) for n in range(1, 34)]
    with_room = [(n, space) for n, space in tried if space is not None]
    if not with_room:
        with pytest.raises(NoRoom):
            how_many(total, rule, ends=ends, bodies=body, most=most, outer=outer)
        return
    if most < rule.division:
        with pytest.raises(NoAnswer, match=r"no space on the .* is so narrow"):
            how_many(total, rule, ends=ends, bodies=body, most=most, outer=outer)
        return
    found = how_many(total, rule, ends=ends, bodies=body, most=most, outer=outer)
    holds = [(n, space) for n, space in with_room if space <= most]
    if not holds:
        assert found.more is None
        with pytest.raises(NoAnswer, match="no number of spaces is so narrow"):
            _ = found.chosen
        return
    assert (found.count, found.exact) == holds[0]
    assert (found.fewer and found.fewer.count) == (holds[0][0] - 1 or None)
    assert found.space <= most or found.chosen.below is None
    assert bool(found.caution) == bool(body)


@given(totals, st.integers(1, 12), st.fractions(Fraction(1, 12), 20, max_denominator=12).map(Quantity), rules)
def test_bodies_inside_posts_leave_one_space_more_and_the_other_form_has_two_bodies_more(
    total: Quantity, count: int, body: Quantity, rule: Rule
) -> None:
    if count * body >= total:
        with pytest.raises(NoRoom):
            divide_for(total, count, body, rule)
        return
    found = divide_for(total, count, body, rule)
    assert (found.count, found.body_count) == (count + 1, count)
    assert found.exact * (count + 1) + body * count == total
    fits = (count + 2) * body < total
    assert (found.other is not None) == fits
    if found.other is not None:
        assert (found.other.count, found.other.body_count) == (count + 1, count + 2)
        assert found.other.other == found
        return
    with pytest.raises(NoRoom) as caught:
        divide(total, count + 1, rule, bodies=body)
    assert caught.value.other == found


@given(
    totals, st.integers(1, 12), widths, margins, rules, st.booleans(), st.sampled_from(("edges", "centres"))
)
def test_marks_of_bodies_stand_where_laying_them_down_puts_them(
    total: Quantity,
    count: int,
    body: Quantity | None,
    ends: Quantity | None,
    rule: Rule,
    outer: bool,
    of: str,
) -> None:
    space = _exact(total, count, ends, body, outer)
    if space is None or body is None or (count == 1 and not outer):
        return
    at, laid = ends or NOTHING, []
    if outer:
        laid.append((at, at + body))
        at += body
    for turn in range(count):
        at += space
        if outer or turn < count - 1:
            laid.append((at, at + body))
            at += body
    assert at + (ends or NOTHING) == total
    found = mark(total, count, rule, ends=ends, bodies=body, outer=outer, of=of)
    wanted = [edge for pair in laid for edge in pair] if of == "edges" else [(a + b) / 2 for a, b in laid]
    assert list(found.exact) == wanted
    assert all(abs(error) <= rule.division / 2 for error in found.errors)
    if of == "centres":
        assert found.stepping == (found.step - space - body) * (len(laid) - 1)
    else:
        assert found.stepping == (found.step - space) * count
