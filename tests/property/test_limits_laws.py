"""Limits hold every value that their parts can take, and rounding never leaves them."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import rationals

from fractions_shop.errors import ShopError
from fractions_shop.figures.limits_words import inward_lines
from fractions_shop.language.functions import FUNCTIONS
from fractions_shop.size.approx import square_root
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Quantity

spreads = st.fractions(0, 3, max_denominator=64)


@st.composite
def plain_limits(draw: st.DrawFn, power: int = 0) -> Limits:
    """A number (or length) with limits, some on one side only."""
    nominal = draw(st.fractions(-8, 8, max_denominator=32))
    low, high = sorted((draw(spreads), draw(spreads)))
    sign = draw(st.sampled_from(("both", "above", "below")))
    plus, minus = {"both": (high, low), "above": (high, -low), "below": (-low, high)}[sign]
    return Limits(Quantity(nominal, power), Quantity(plus, power), Quantity(minus, power))


Tree = Any  # ("leaf", n) | ("number", Fraction) | (sign, Tree, Tree) | ("neg" | "abs" | "square", Tree)

trees: st.SearchStrategy[Tree] = st.recursive(
    st.tuples(st.just("leaf"), st.integers(0, 2))
    | st.tuples(st.just("number"), st.fractions(-5, 5, max_denominator=8)),
    lambda below: (
        st.tuples(st.sampled_from("+-*/<>"), below, below)
        | st.tuples(st.sampled_from(("neg", "abs", "square", "cube", "inverse")), below)
    ),
    max_leaves=6,
)


def _work(tree: Tree, leaves: list[Any]) -> Any:
    """A tree worked out on plain rationals or on Limits alike."""
    sign = tree[0]
    if sign == "leaf":
        return leaves[tree[1]]
    if sign == "number":
        return limits_of(Quantity(tree[1], 0)) if isinstance(leaves[0], Limits) else tree[1]
    one = _work(tree[1], leaves)
    if len(tree) == 2:
        return {
            "neg": lambda: -one, "abs": lambda: abs(one), "square": lambda: one**2,
            "cube": lambda: one**3, "inverse": lambda: one**-1,
        }[sign]()  # fmt: skip
    other = _work(tree[2], leaves)
    if sign in "<>":
        exact = isinstance(one, Fraction)
        name = "min" if sign == "<" else "max"
        return {"min": min, "max": max}[name](one, other) if exact else FUNCTIONS[name].work(one, other)
    return {
        "+": lambda: one + other, "-": lambda: one - other,
        "*": lambda: one * other, "/": lambda: one / other,
    }[sign]()  # fmt: skip


@given(trees, st.lists(plain_limits(), min_size=3, max_size=3), st.data())
def test_limits_contain_every_value_that_their_parts_can_take(
    tree: Tree, parts: list[Limits], data: st.DataObject
) -> None:
    try:
        found = _work(tree, parts)
    except (ShopError, ZeroDivisionError):
        assume(False)
    inside = data.draw(st.lists(st.fractions(0, 1, max_denominator=16), min_size=3, max_size=3))
    picks = [
        *product(*((p.lower.value, p.upper.value) for p in parts)),
        [p.lower.value + t * p.spread.value for p, t in zip(parts, inside, strict=True)],
        [min(max(p.nominal.value, p.lower.value), p.upper.value) for p in parts],
    ]
    for pick in picks:
        value = Quantity(_work(tree, list(pick)), 0)
        assert value in found, f"{value} outside {found.lower} to {found.upper}"


@given(plain_limits(1), plain_limits(1))
def test_a_sum_adds_the_spreads_and_no_more(a: Limits, b: Limits) -> None:
    total = a + b
    assert (total.lower, total.upper) == (a.lower + b.lower, a.upper + b.upper)
    assert (a - b).spread == a.spread + b.spread
    assert (a - b).nominal == a.nominal - b.nominal


@given(plain_limits(1), plain_limits(1))
def test_product_limits_are_reached_at_corners(a: Limits, b: Limits) -> None:
    corners = [x * y for x, y in product((a.lower, a.upper), (b.lower, b.upper))]
    assert ((a * b).lower, (a * b).upper) == (min(corners), max(corners))


@given(plain_limits(1), plain_limits(1))
def test_a_divisor_whose_limits_span_zero_is_refused(a: Limits, b: Limits) -> None:
    if b.lower.value <= 0 <= b.upper.value:
        with pytest.raises(ShopError, match="across zero"):
            a / b
        return
    if b.nominal.value == 0:
        with pytest.raises(ZeroDivisionError):
            a / b
        return
    corners = [x / y for x, y in product((a.lower, a.upper), (b.lower, b.upper))]
    assert ((a / b).lower, (a / b).upper) == (min(corners), max(corners))


@given(st.lists(plain_limits(1), min_size=2, max_size=6))
def test_the_likely_limits_are_the_root_of_the_sum_of_squares(parts: list[Limits]) -> None:
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    assume(sum(part.spread.value > 0 for part in parts) > 1)
    likely = total.root_sum_square
    reach = square_root(sum((p.half_spread.value**2 for p in parts), Fraction(0)))
    assert abs(likely.half_spread.value - reach) < Fraction(1, 10**25)
    assert abs((likely.middle - total.middle).value) < Fraction(1, 10**25)
    assert likely.spread.value <= total.spread.value + Fraction(1, 10**25)


@given(plain_limits(1), st.integers(1, 9))
def test_a_size_used_twice_counts_as_one_in_the_likely_limits(size: Limits, times: int) -> None:
    total = size
    for _ in range(times - 1):
        total = total + size
    assert total.root_sum_square.spread == size.spread * times
    assert (size - size).root_sum_square.spread.value == 0


@given(plain_limits(1), rationals(20, 16).filter(bool))
def test_limits_scale_and_scale_back(size: Limits, times: Fraction) -> None:
    back = size * times / times
    assert (back.nominal, back.lower, back.upper) == (size.nominal, size.lower, size.upper)


_INWARD = re.compile(r"(-?[0-9.]+) (mm|in) to (-?[0-9.]+) (?:mm|in)")


@given(rationals(500, 640), st.fractions(0, 5, max_denominator=640), st.fractions(0, 5, max_denominator=640))
def test_inward_rounding_never_leaves_the_limits(nominal: Fraction, plus: Fraction, minus: Fraction) -> None:
    size = Limits(Quantity(nominal), Quantity(plus), Quantity(minus))
    for line in inward_lines(size):
        found = _INWARD.search(line)
        assert found is not None
        factor = Fraction(254, 10) if found[2] == "in" else Fraction(1)
        lower, upper = Fraction(found[1]) * factor, Fraction(found[3]) * factor
        assert size.lower.mm <= lower <= upper <= size.upper.mm
