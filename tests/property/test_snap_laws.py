"""Laws of snapping to a rule."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import divisions, lengths, positive_lengths

from fractions_shop.errors import NoAnswer
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import LADDER, Rule, snap

directions = st.sampled_from(("nearest", "up", "down"))


@given(lengths(), divisions())
def test_snap_moves_at_most_half_a_division(size: Quantity, rule: Rule) -> None:
    found = snap(size, rule)
    assert abs(found.size - size) <= rule.division / 2


@given(lengths(), divisions(), directions)
def test_snap_lands_on_the_rule_and_says_its_error(size: Quantity, rule: Rule, direction: str) -> None:
    found = snap(size, rule, direction=direction)
    assert rule.carries(found.size)
    assert found.error == found.size - size


@given(st.integers(-4000, 4000), divisions())
def test_a_tie_goes_to_the_even_division(whole: int, rule: Rule) -> None:
    between = rule.division * (whole + Fraction(1, 2))
    turns = snap(between, rule).size.mm / rule.division.mm
    assert turns % 2 == 0
    assert abs(turns - whole) <= 1


@given(lengths(), divisions())
def test_up_is_the_least_mark_not_below_and_down_the_greatest_not_above(size: Quantity, rule: Rule) -> None:
    up, down = snap(size, rule, direction="up").size, snap(size, rule, direction="down").size
    assert down <= size <= up
    assert up - size < rule.division
    assert size - down < rule.division


@given(lengths(), divisions(), directions, directions)
def test_snapping_what_is_on_the_rule_moves_nothing(size: Quantity, rule: Rule, one: str, other: str) -> None:
    marked = snap(size, rule, direction=one).size
    assert snap(marked, rule, direction=other).size == marked


@given(lengths(), divisions())
def test_snapping_the_negative_is_the_negative(size: Quantity, rule: Rule) -> None:
    assert snap(-size, rule).size == -snap(size, rule).size
    assert snap(-size, rule, direction="up").size == -snap(size, rule, direction="down").size


@given(lengths())
def test_the_ladder_holds_the_nearest_mark_of_every_rung(size: Quantity) -> None:
    for rule, rung in zip(LADDER, snap(size).ladder, strict=True):
        assert rung.rule == rule
        assert rung.size == snap(size, rule).size
        assert rung.error == rung.size - size


@given(positive_lengths(), st.integers(1, 128), st.fractions(0, 2, max_denominator=200), directions)
def test_within_gives_the_coarsest_mark_inside_the_error(
    size: Quantity, parts: int, allowed: Fraction, direction: str
) -> None:
    rule, within = Rule(f"{parts}ths"), Quantity.inches(allowed)
    # By brute force: every number of parts that divides the rule's own, the fewest first.
    for n in range(1, parts + 1):
        if parts % n:
            continue
        mark = snap(size, f"{n}ths", direction=direction)
        if abs(mark.error) <= within:
            found = snap(size, rule, direction=direction, within=within)
            assert (found.rule.parts, found.size) == (n, mark.size)
            return
    with pytest.raises(NoAnswer):
        snap(size, rule, direction=direction, within=within)


@given(lengths(), divisions())
def test_the_coarsest_rule_that_carries_a_size_is_the_coarsest(size: Quantity, rule: Rule) -> None:
    found = rule.coarsest_that_carries(size)
    carrying = [other for other in rule.coarser if (size.mm / other.division.mm).denominator == 1]
    assert found == (max(carrying, key=lambda r: r.division) if carrying else None)


@given(divisions())
def test_every_mark_of_a_coarser_rule_is_a_mark_of_the_rule(rule: Rule) -> None:
    assert rule.coarser[-1].division == rule.division
    for other in rule.coarser:
        assert (other.division.mm / rule.division.mm).denominator == 1
