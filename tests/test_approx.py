"""Roots and trigonometry: against decimal, against math, and against known values."""

from __future__ import annotations

import math
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.size.approx import (
    FIGURES,
    arc_cosine,
    arc_sine,
    arc_tangent,
    cosine,
    root,
    simple_fraction,
    sine,
    square_root,
    tangent,
)

#: Half a unit in the last figure kept, and as much again for a square.
CLOSE = Fraction(1, 10 ** (FIGURES - 1))

angles = st.fractions(-720, 720, max_denominator=3600)
ratios = st.fractions(-1, 1, max_denominator=10_000)


def _near(found: Fraction, wanted: Fraction, share: Fraction = CLOSE * 10) -> bool:
    return abs(found - wanted) <= share * max(1, abs(wanted))


# To 30 decimals: square roots and pi as every table of constants prints them (OEIS A002193,
# A002194, A000796); from memory, and worked out once more below by decimal's own square root.
ROOT_2 = Fraction("1.414213562373095048801688724210")
ROOT_3 = Fraction("1.732050807568877293527446341506")


def test_square_roots_of_two_and_three() -> None:
    assert _near(square_root(Fraction(2)), ROOT_2)
    assert _near(square_root(Fraction(3)), ROOT_3)


@pytest.mark.parametrize(
    "value", ["0", "1", "4", "2.25", "9/16", "10000000000000000000000", "1/1000000", "25/4096"]
)
def test_a_perfect_square_has_an_exact_root(value: str) -> None:
    side = square_root(Fraction(value))
    assert side * side == Fraction(value)


@given(st.fractions(0, 10**9, max_denominator=10**6))
def test_the_square_of_a_root_is_the_number(value: Fraction) -> None:
    side = square_root(value)
    assert abs(side * side - value) <= value * CLOSE


@given(st.integers(1, 10**40))
def test_roots_agree_with_decimal(value: int) -> None:
    with localcontext(prec=60):
        wanted = Fraction(Decimal(value).sqrt())
    assert abs(square_root(Fraction(value)) - wanted) <= wanted * CLOSE


@given(st.fractions(min_value=Fraction(1, 10**20), max_value=10**20), st.integers(2, 9))
def test_the_power_of_a_root_is_the_number_and_exactly_so_of_a_perfect_power(
    value: Fraction, degree: int
) -> None:
    near = root(value, degree)
    assert abs(near**degree - value) <= value * CLOSE * degree
    assert root(value**degree, degree) == value


@given(st.integers(2, 10**30), st.integers(2, 9))
def test_any_root_agrees_with_decimal(value: int, degree: int) -> None:
    with localcontext(prec=60):
        wanted = Fraction(Decimal(value) ** (1 / Decimal(degree)))
    assert abs(root(Fraction(value), degree) - wanted) <= wanted * CLOSE


def test_very_large_and_small_numbers_have_roots() -> None:
    for value in (Fraction(2) ** 4000, Fraction(1, 3**2500), Fraction(2 * 10**300, 3)):
        side = square_root(value)
        assert abs(side * side - value) <= value * CLOSE


def test_a_negative_number_has_none() -> None:
    with pytest.raises(ValueError, match="negative"):
        square_root(Fraction(-1))


# Exact values in closed form (Euclid; any school table).
@pytest.mark.parametrize(
    ("degrees", "sin", "cos"),
    [
        (0, Fraction(0), Fraction(1)),
        (30, Fraction(1, 2), ROOT_3 / 2),
        (45, ROOT_2 / 2, ROOT_2 / 2),
        (60, ROOT_3 / 2, Fraction(1, 2)),
        (90, Fraction(1), Fraction(0)),
        (120, ROOT_3 / 2, Fraction(-1, 2)),
        (180, Fraction(0), Fraction(-1)),
        (210, Fraction(-1, 2), -ROOT_3 / 2),
        (270, Fraction(-1), Fraction(0)),
        (360, Fraction(0), Fraction(1)),
        (-30, Fraction(-1, 2), ROOT_3 / 2),
        (3630, Fraction(1, 2), ROOT_3 / 2),
    ],
)
def test_sine_and_cosine_of_the_common_angles(degrees: int, sin: Fraction, cos: Fraction) -> None:
    assert _near(sine(Fraction(degrees)), sin)
    assert _near(cosine(Fraction(degrees)), cos)


def test_the_half_angle_of_a_whitworth_thread() -> None:
    # The depth of the sharp V is half the pitch over tan 27.5 degrees: 0.960491 of the pitch
    # (BS 84; the figure as handbooks print it).
    assert round(Fraction(1, 2) / tangent(Fraction(55, 2)), 6) == Fraction("0.960491")


@given(angles)
def test_sine_cosine_and_tangent_agree_with_math(degrees: Fraction) -> None:
    radians = math.radians(float(degrees))
    assert math.isclose(float(sine(degrees)), math.sin(radians), abs_tol=1e-12)
    assert math.isclose(float(cosine(degrees)), math.cos(radians), abs_tol=1e-12)
    if abs(cosine(degrees)) > Fraction(1, 1000):
        assert math.isclose(float(tangent(degrees)), math.tan(radians), rel_tol=1e-9, abs_tol=1e-9)


@given(angles)
def test_the_squares_of_sine_and_cosine_add_to_one(degrees: Fraction) -> None:
    assert _near(sine(degrees) ** 2 + cosine(degrees) ** 2, Fraction(1))


@given(angles)
def test_a_sine_is_odd_and_a_cosine_even(degrees: Fraction) -> None:
    assert _near(sine(-degrees), -sine(degrees))
    assert _near(cosine(-degrees), cosine(degrees))
    assert _near(sine(180 - degrees), sine(degrees))


@given(angles, angles)
def test_the_sine_of_a_sum(a: Fraction, b: Fraction) -> None:
    assert _near(sine(a + b), sine(a) * cosine(b) + cosine(a) * sine(b))


@given(angles.filter(lambda a: abs(cosine(a)) > Fraction(1, 100)))
def test_a_tangent_is_sine_over_cosine(degrees: Fraction) -> None:
    wanted = sine(degrees) / cosine(degrees)
    assert abs(tangent(degrees) - wanted) <= CLOSE * 1000 * max(1, abs(wanted))


@pytest.mark.parametrize("degrees", [90, -90, 270, 450])
def test_a_right_angle_has_no_tangent(degrees: int) -> None:
    with pytest.raises(ZeroDivisionError, match="without end"):
        tangent(Fraction(degrees))


def test_the_tangent_of_the_straight_angle_is_exactly_nought() -> None:
    assert tangent(Fraction(180)) == tangent(Fraction(0)) == tangent(Fraction(-360)) == 0


@given(ratios)
def test_arc_functions_turn_back(x: Fraction) -> None:
    # Near a right angle the sine hardly moves, so half of the figures go: the law is on the sine.
    assert abs(sine(arc_sine(x)) - x) <= CLOSE * 100
    assert abs(cosine(arc_cosine(x)) - x) <= CLOSE * 100
    assert abs(tangent(arc_tangent(x)) - x) <= CLOSE * 100


@given(ratios)
def test_arc_sine_and_arc_cosine_make_a_right_angle(x: Fraction) -> None:
    assert _near(arc_sine(x) + arc_cosine(x), Fraction(90))
    assert -90 <= arc_sine(x) <= 90
    assert 0 <= arc_cosine(x) <= 180


@given(st.fractions(-1000, 1000, max_denominator=10_000))
def test_arc_tangent_agrees_with_math(x: Fraction) -> None:
    assert math.isclose(
        float(arc_tangent(x)), math.degrees(math.atan(float(x))), rel_tol=1e-12, abs_tol=1e-12
    )


def test_arc_tangents_of_the_common_ratios() -> None:
    assert _near(arc_tangent(Fraction(1)), Fraction(45))
    assert _near(arc_sine(Fraction(1, 2)), Fraction(30))
    assert _near(arc_cosine(Fraction(1, 2)), Fraction(60))
    assert arc_sine(Fraction(1)) == 90
    assert arc_sine(Fraction(-1)) == -90
    assert arc_cosine(Fraction(-1)) == 180


@given(st.fractions(-50, 50, max_denominator=1000))
def test_a_simple_fraction_is_found_again_from_either_side_and_below_nought_too(x: Fraction) -> None:
    for off in (0, 1, -1):
        assert simple_fraction(x * (1 + Fraction(off, 10**28))) == x
    far = x + Fraction(1, 10**12)
    assert simple_fraction(far) == far


def test_pi_by_machins_formula() -> None:
    # pi to 30 decimals (OEIS A000796), by way of the arc tangent of 1 in radians: through sine of
    # a small angle, whose ratio to the angle in radians is 1 less a sixth of its square.
    pi = Fraction("3.141592653589793238462643383280")
    small = Fraction(1, 10**10)
    assert abs(sine(small) / (small / 180) - pi) < Fraction(1, 10**18)


@pytest.mark.parametrize("x", ["1.0000001", "-2", "1001/1000"])
def test_what_is_no_sine_is_refused(x: str) -> None:
    for work in (arc_sine, arc_cosine):
        with pytest.raises(ValueError, match="between -1 and 1"):
            work(Fraction(x))
