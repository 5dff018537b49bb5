"""ceil, floor and round of plain numbers, in the language."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Session
from fractions_shop.errors import ShopError
from fractions_shop.language.functions import FUNCTIONS
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity


def _whole(name: str, number: Fraction | Quantity) -> Quantity:
    size = number if isinstance(number, Quantity) else Quantity.number(number)
    found: Quantity = FUNCTIONS[name].work(size)
    return found


@given(st.fractions(-1000, 1000))
def test_a_plain_number_is_made_whole_as_its_word_says(number: Fraction) -> None:
    assert _whole("ceil", number) == Quantity.number(ceil(number))
    assert _whole("floor", number) == Quantity.number(floor(number))
    near = _whole("round", number).value
    assert near.denominator == 1
    assert abs(near - number) <= Fraction(1, 2)


@pytest.mark.parametrize(
    ("number", "rounded"),
    [("1/2", 1), ("-1/2", -1), ("5/2", 3), ("-5/2", -3), ("3/2", 2), ("0", 0), ("7/3", 2), ("-7/3", -2)],
)
def test_a_half_goes_away_from_nought(number: str, rounded: int) -> None:
    assert _whole("round", Fraction(number)).value == rounded


@pytest.mark.parametrize("name", ["ceil", "floor", "round"])
@pytest.mark.parametrize("off", [0, 1, -1])
def test_a_root_that_is_two_to_its_last_figures_is_two(name: str, off: int) -> None:
    number = Quantity(2 + Fraction(off, 10**28), 0, True)
    assert _whole(name, number) == Quantity.number(2)
    assert _whole(name, number).approximate


def test_what_is_off_by_more_or_exact_is_taken_as_it_stands() -> None:
    assert _whole("ceil", Quantity(2 + Fraction(1, 10**20), 0, True)).value == 3
    assert _whole("ceil", 2 + Fraction(1, 10**28)).value == 3
    assert not _whole("ceil", Fraction(5, 2)).approximate


@pytest.mark.parametrize("name", ["ceil", "floor", "round"])
def test_a_length_an_angle_and_limits_are_refused(name: str) -> None:
    work = FUNCTIONS[name].work
    with pytest.raises(ShopError, match="takes a plain number, such as the ratio of two lengths"):
        work(Quantity.inches(7))
    with pytest.raises(ShopError, match="this is an angle"):
        work(Angle(Fraction(7)))
    one = Quantity.number(1)
    with pytest.raises(ShopError, match="does not carry limits on"):
        work(Limits(one, one, one))


@pytest.mark.parametrize(
    ("statement", "whole"),
    [
        ("round(sqrt(2) * sqrt(2) * 1.25)", 3),
        ("round(-5 * sin(30 deg))", -3),
        ("floor(sqrt(2)^2)", 2),
        ("ceil(2 * sin(30 deg))", 1),
    ],
)
def test_a_half_or_a_whole_reached_by_roots_is_taken_as_it_is(statement: str, whole: int) -> None:
    answer = Session().ask(statement)
    assert isinstance(answer.value, Quantity)
    assert (answer.value.value, answer.value.approximate) == (whole, True)
