"""Divide and mark against brute force: no total that divides lies nearer."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import divisions, positive_lengths

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.layout.marks import mark
from fractions_shop.layout.spacing import Spacing, divide
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

NOTHING = Quantity(Fraction(0))
counts = st.integers(1, 13)
rules = st.sampled_from(("64ths", "32nds", "16ths", "8ths", "10ths", "12ths", "mm", "half mm")).map(Rule)
#: Totals small enough that every number of divisions can be tried.
totals = st.fractions(Fraction(1, 100), 60, max_denominator=400).map(Quantity) | st.integers(1, 200).map(
    lambda n: Quantity.inches(Fraction(n, 64))
)
margins = st.none() | st.just(NOTHING) | st.integers(0, 40).map(lambda n: Quantity.inches(Fraction(n, 64)))
widths = margins | st.fractions(0, 5, max_denominator=30).map(Quantity)


def _tried(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None, bodies: Quantity | None
) -> list[Quantity]:
    """The total for 1, 2, 3 ... divisions to the space, well past the size."""
    fixed = 2 * (ends or NOTHING) + (count + 1) * (bodies or NOTHING)
    most = int(size.mm / rule.division.mm / count) + 3
    return [fixed + count * k * rule.division for k in range(1, most + 1)]


def _divided(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None = None, bodies: Quantity | None = None
) -> Spacing | None:
    """The spacing, or None (checked) where there is no room for any space."""
    fixed = 2 * (ends or NOTHING) + (count + 1) * (bodies or NOTHING)
    if fixed >= size:
        with pytest.raises(ShopError, match="no room"):
            divide(size, count, rule, ends=ends, bodies=bodies)
        return None
    return divide(size, count, rule, ends=ends, bodies=bodies)


@given(totals, counts, rules, margins, widths)
def test_no_total_that_divides_lies_nearer(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None, bodies: Quantity | None
) -> None:
    spacing = _divided(size, count, rule, ends, bodies)
    if spacing is None:
        return
    tried = _tried(size, count, rule, ends, bodies)
    least = min(abs(total - size) for total in tried)
    assert abs(spacing.nearest.total - size) == least
    ties = [k for k, total in enumerate(tried, 1) if abs(total - size) == least]
    chosen = spacing.nearest.space.mm / rule.division.mm
    assert chosen in ties
    assert len(ties) == 1 or chosen % 2 == 0


@given(totals, counts, rules, margins, widths)
def test_above_and_below_are_the_next_totals_that_divide(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None, bodies: Quantity | None
) -> None:
    spacing = _divided(size, count, rule, ends, bodies)
    if spacing is None:
        return
    tried = _tried(size, count, rule, ends, bodies)
    assert spacing.above.total == min(total for total in tried if total >= size)
    under = [total for total in tried if total <= size]
    assert (spacing.below and spacing.below.total) == (max(under) if under else None)
    if not under:
        with pytest.raises(NoAnswer):
            divide(size, count, rule, direction="down", ends=ends, bodies=bodies)


@given(totals, counts, rules, margins, widths)
def test_ends_spaces_and_bodies_add_to_the_total_and_the_spaces_are_on_the_rule(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None, bodies: Quantity | None
) -> None:
    spacing = _divided(size, count, rule, ends, bodies)
    if spacing is None:
        return
    for layout in (spacing.nearest, spacing.above, spacing.below, spacing.kept_total):
        if layout is None:
            continue
        parts = 2 * layout.ends + count * layout.space + (count + 1) * (bodies or NOTHING)
        assert parts == layout.total == size + layout.change
        assert rule.carries(layout.space)
        assert layout.space.value > 0


@given(totals, counts, rules, margins, widths)
def test_keeping_the_total_moves_the_ends_the_least_that_works(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None, bodies: Quantity | None
) -> None:
    spacing = _divided(size, count, rule, ends, bodies)
    if spacing is None:
        return
    wanted, free = ends or NOTHING, size - (count + 1) * (bodies or NOTHING)
    found = []
    for k in range(1, int(size.mm / rule.division.mm) + 2):
        end = (free - count * k * rule.division) / 2
        if end.value >= 0 and rule.carries(end):
            found.append(end)
    best = min((abs(end - wanted) for end in found), default=None)
    if best is None or best.value == 0:
        assert spacing.kept_total is None
        return
    assert spacing.kept_total is not None
    assert abs(spacing.kept_total.ends - wanted) == best
    assert spacing.kept_total.total == size
    assert spacing.kept_total.change == NOTHING


@given(positive_lengths(), st.integers(1, 500), divisions(), st.sampled_from(("nearest", "up")))
def test_the_total_moves_by_at_most_what_it_must(
    size: Quantity, count: int, rule: Rule, direction: str
) -> None:
    spacing = divide(size, count, rule, direction=direction)
    step = count * rule.division
    if direction == "up":
        assert NOTHING <= spacing.change < step
    elif size >= step:
        assert abs(spacing.change) <= step / 2
    else:
        assert spacing.total == step


@given(positive_lengths(), st.integers(1, 40), divisions())
def test_a_total_that_divides_is_left_alone(space: Quantity, count: int, rule: Rule) -> None:
    whole = divide(space, count, rule, direction="up").total
    again = divide(whole, count, rule)
    assert again.total == whole
    assert again.change == NOTHING
    assert again.kept_total is None
    assert again.exact == again.space


@given(positive_lengths(), st.integers(1, 60), divisions(), st.none() | positive_lengths())
def test_marks_stand_where_they_belong_and_none_is_off_by_more_than_half_a_division(
    size: Quantity, count: int, rule: Rule, start: Quantity | None
) -> None:
    found = mark(size, count, rule, start=start)
    first = start or NOTHING
    assert found.exact == tuple(first + k * (size / count) for k in range(count + 1))
    for exact, read, error in zip(found.exact, found.read, found.errors, strict=True):
        assert rule.carries(read)
        assert error == read - exact
        assert abs(error) <= rule.division / 2
    assert found.worst == max(abs(r - e) for r, e in zip(found.read, found.exact, strict=True))


@given(positive_lengths(), st.integers(1, 60), divisions())
def test_stepping_builds_up_the_error_of_one_space_by_the_count(
    size: Quantity, count: int, rule: Rule
) -> None:
    found = mark(size, count, rule)
    assert found.stepping == count * (found.step - size / count)
    assert abs(found.stepping) <= count * rule.division / 2
