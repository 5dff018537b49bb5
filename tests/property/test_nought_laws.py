"""Equality, order, truth and hash of sizes: nought is nought in every unit, a plain number a number."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations, product
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import read, snap
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Quantity

_VALUES = st.sampled_from((0, 1, -1, 2, Fraction(1, 2)))


@st.composite
def things(draw: st.DrawFn) -> Any:
    """Numbers, sizes and limits, of a few values, so that many are equal."""
    value = draw(_VALUES)
    kind = draw(st.sampled_from(("number", "size", "limits", "spread")))
    if kind == "number":
        return value
    size = Quantity(Fraction(value), draw(st.integers(-1, 2)), draw(st.booleans()))
    if kind == "size":
        return size
    if kind == "limits":
        return limits_of(size)
    spread = Quantity(Fraction(draw(st.integers(0, 1))), size.power)
    return Limits(size, spread, spread)


@given(st.lists(things(), min_size=3, max_size=3))
def test_equality_is_the_same_both_ways_and_carries_over_and_equal_things_hash_alike(some: list[Any]) -> None:
    for one, two in product(some, some):
        assert (one == two) == (two == one)
        assert (one != two) is not (one == two)
        if one == two:
            assert hash(one) == hash(two)
    for one, two, three in permutations(some):
        if one == two and two == three:
            assert one == three


@given(_VALUES, st.integers(-2, 3))
def test_only_nought_equals_0_and_is_false(value: Any, power: int) -> None:
    size = Quantity(Fraction(value), power)
    assert (size == 0) == (not size) == (value == 0)
    assert (size > 0, size < 0) == (value > 0, value < 0)
    assert (size > 0, size < 0) == (value > 0, value < 0)
    assert bool(limits_of(size)) == bool(size)


@given(st.fractions(-5, 5, max_denominator=8), st.fractions(-5, 5, max_denominator=8))
def test_plain_numbers_compare_with_numbers(a: Fraction, b: Fraction) -> None:
    size = Quantity.number(a)
    assert (size == b, size < b, size >= b) == (a == b, a < b, a >= b)


def test_at_the_bench() -> None:
    size = read("2 1/32 in")
    assert isinstance(size, Quantity)
    assert snap("2 1/32 in").error == 0
    assert not snap("2 1/32 in").error
    assert size / size == 1
    assert read("1/2 in ± 0 in") == read("1/2 in")
    assert read("1/2 in") == read("1/2 in ± 0 in")
    assert read("1/2 in ± 1 thou") != read("1/2 in")
