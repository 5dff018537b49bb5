"""The slopes that carry limits through functions of arcs and tapers, against differences of the functions."""

from __future__ import annotations

import inspect
from fractions import Fraction
from typing import Any

import pytest

from fractions_shop.errors import ShopError
from fractions_shop.language.functions import _SLOPES, more_functions
from fractions_shop.layout.circle import FUNCTIONS
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity

INCH = Quantity.inches(1)
ARGUMENTS: dict[str, tuple[Any, ...]] = {
    "sagitta": (4 * INCH, 7 * INCH),
    "chord": (2 * INCH, Angle(Fraction(70))),
    "radius_from": (4 * INCH, INCH / 3),
    "girth": (3 * INCH,),
    "arc": (2 * INCH, Angle(Fraction(70))),
    "step_chord": (3 * INCH, Quantity.number(7)),
    "taper_per_foot": (INCH, 3 * INCH / 4, 6 * INCH),
    "per_foot": (INCH / 8,),
    "set_over": (Quantity.number(Fraction(1, 96)), 9 * INCH),
}


def test_every_function_of_a_size_carries_limits_or_refuses_them() -> None:
    assert set(_SLOPES) == set(ARGUMENTS)
    limits = Limits(INCH, INCH / 64, INCH / 64)
    for name in set(FUNCTIONS) - set(_SLOPES):
        count = len(inspect.signature(FUNCTIONS[name][0]).parameters)
        with pytest.raises(ShopError, match="does not carry limits on"):
            more_functions()[name].work(*[limits] * count)


@pytest.mark.parametrize("name", sorted(ARGUMENTS))
def test_a_slope_is_the_limit_of_differences(name: str) -> None:
    arguments = ARGUMENTS[name]
    work = FUNCTIONS[name][0]
    slopes = _SLOPES[name](*arguments)
    for place, argument in enumerate(arguments):
        slope = slopes[place]
        if isinstance(argument, Angle) or slope is None:
            continue
        step = Fraction(1, 10**8)
        ends = []
        for sign in (-1, 1):
            moved = list(arguments)
            moved[place] = Quantity(argument.value + sign * step, argument.power)
            ends.append(work(*moved).value)
        assert abs((ends[1] - ends[0]) / (2 * step) - slope) <= abs(slope) / 10**10


@pytest.mark.parametrize("name", sorted(ARGUMENTS))
def test_limits_go_through_to_the_corners(name: str) -> None:
    arguments = ARGUMENTS[name]
    work = FUNCTIONS[name][0]
    spread = Fraction(1, 1000)
    for place, argument in enumerate(arguments):
        if isinstance(argument, Angle) or _SLOPES[name](*arguments)[place] is None:
            continue
        half = Quantity(abs(argument.value) * spread, argument.power)
        toleranced = list(arguments)
        toleranced[place] = Limits(argument, half, half)
        found = more_functions()[name].work(*toleranced)
        ends = [
            work(*arguments[:place], end, *arguments[place + 1 :])
            for end in (argument - half, argument + half)
        ]
        assert (found.lower, found.upper) == (min(ends), max(ends))
        assert not found.wide
