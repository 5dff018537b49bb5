"""Roots and trigonometry on exact rationals, correct to 30 significant figures.

Nothing here goes through a binary float. Results are rationals rounded to FIGURES
figures; whoever uses them must mark the size as approximate. Angles are in degrees.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal, localcontext
from fractions import Fraction
from functools import cache
from math import isqrt

FIGURES = 30
#: Arithmetic on such results is out by less than this share of them.
LAST_FIGURES = Fraction(1, 10**26)
#: A fraction with a larger denominator is not simple.
SIMPLEST = 10**8
_GUARD = Context(prec=FIGURES + 20, rounding=ROUND_HALF_EVEN)
_TOLD = Context(prec=FIGURES, rounding=ROUND_HALF_EVEN)


def square_root(x: Fraction) -> Fraction:
    """The positive square root of `x` (not negative): exact for a perfect square."""
    if x < 0:
        raise ValueError("the square root of a negative number is not a size")
    top, bottom = isqrt(x.numerator), isqrt(x.denominator)
    if top * top == x.numerator and bottom * bottom == x.denominator:
        return Fraction(top, bottom)
    with localcontext(_GUARD):
        return _rounded(as_decimal(x).sqrt())


def root(x: Fraction, degree: int) -> Fraction:
    """The positive root of `x` (above zero) of a whole degree: exact for a perfect power.

    >>> root(Fraction(32, 243), 5)
    Fraction(2, 3)
    """
    if x <= 0:
        raise ValueError("the root of a number that is not above zero is not a size")
    top, bottom = _whole_root(x.numerator, degree), _whole_root(x.denominator, degree)
    if top**degree == x.numerator and bottom**degree == x.denominator:
        return Fraction(top, bottom)
    # In whole numbers all along, which is quicker by far than a power of decimals: shifted so far that enough
    # figures stand before the point.
    places = max(0, FIGURES + 20 - len(str(top)) + len(str(bottom)))
    shifted = _whole_root(x.numerator * 10 ** (places * degree) // x.denominator, degree)
    return _rounded(Decimal(shifted).scaleb(-places, _GUARD))


def _whole_root(n: int, degree: int) -> int:
    """The largest whole number whose power of that degree is not above `n`, by Newton's method."""
    near = 1 << -(-n.bit_length() // degree)  # not below it, and so no step is
    while True:
        nearer = ((degree - 1) * near + n // near ** (degree - 1)) // degree
        if nearer >= near:
            return near
        near = nearer


@cache
def pi() -> Fraction:
    """The ratio of a circle's girth to its diameter."""
    return _rounded(_pi())


def sine(degrees: Fraction) -> Fraction:
    """Sin of an angle in degrees."""
    with localcontext(_GUARD):
        return _rounded(_sine(_radians(degrees % 360)))


def cosine(degrees: Fraction) -> Fraction:
    """Cos of an angle in degrees."""
    return sine(degrees + 90)


def tangent(degrees: Fraction) -> Fraction:
    """Tan of an angle in degrees; ZeroDivisionError at a right angle."""
    if degrees % 180 == 90:
        raise ZeroDivisionError("the tangent of a right angle is without end")
    with localcontext(_GUARD):
        x = _radians(degrees % 360)
        return _rounded(_sine(x) / _sine(x + _pi() / 2))


def arc_tangent(x: Fraction) -> Fraction:
    """The angle in degrees, between -90 and 90, whose tangent is `x`."""
    with localcontext(_GUARD):
        return _rounded(_degrees(_arc_tangent(as_decimal(x))))


def arc_sine(x: Fraction) -> Fraction:
    """The angle in degrees, between -90 and 90, whose sine is `x` (between -1 and 1)."""
    if abs(x) > 1:
        raise ValueError("a sine lies between -1 and 1")
    # By the half of the angle, which a sine of 1 has as well.
    with localcontext(_GUARD):
        d = as_decimal(x)
        return _rounded(2 * _degrees(_arc_tangent(d / (1 + (1 - d * d).sqrt()))))


def arc_cosine(x: Fraction) -> Fraction:
    """The angle in degrees, between 0 and 180, whose cosine is `x` (between -1 and 1)."""
    if abs(x) > 1:
        raise ValueError("a cosine lies between -1 and 1")
    if x == -1:
        return Fraction(180)
    # The half-angle form keeps its figures near 0 and 180, where 90 - asin loses them.
    with localcontext(_GUARD):
        d = as_decimal(x)
        return _rounded(2 * _degrees(_arc_tangent(((1 - d) / (1 + d)).sqrt())))


def simple_fraction(x: Fraction) -> Fraction:
    """The simple fraction that an approximate `x` misses in its last figures alone, or `x` itself.

    The square of a root of 2 is 2 and some 10**-30: rounded up, or counted in whole numbers, that would
    be a step too many. Of fractions as simple as this (SIMPLEST), none lies so near to a number by chance.
    """
    if x.denominator <= SIMPLEST:
        return x
    simple = x.limit_denominator(SIMPLEST)
    return simple if abs(x - simple) <= abs(simple) * LAST_FIGURES else x


def as_decimal(x: Fraction) -> Decimal:
    """A rational to the figures of the decimal context that is in force."""
    return Decimal(x.numerator) / Decimal(x.denominator)


def _rounded(x: Decimal) -> Fraction:
    """A rational of FIGURES figures; what is nothing beside 1 at that precision is 0."""
    if abs(x) < Decimal(10) ** -(FIGURES + 5):
        return Fraction(0)
    return Fraction(_TOLD.plus(x))


def _radians(degrees: Fraction) -> Decimal:
    return as_decimal(degrees) * _pi() / 180


def _degrees(radians: Decimal) -> Decimal:
    return radians * 180 / _pi()


@cache
def _pi() -> Decimal:
    """Machin (1706): pi = 16 atan(1/5) - 4 atan(1/239)."""
    with localcontext(_GUARD):
        return 16 * _series(Decimal(1) / 5) - 4 * _series(Decimal(1) / 239)


def _series(x: Decimal) -> Decimal:
    """X - x^3/3 + x^5/5 ..., the arc tangent for small x."""
    total, term, n = x, x, 1
    square = x * x
    while True:
        term, n = -term * square, n + 2
        new = total + term / n
        if new == total:
            return total
        total = new


def _arc_tangent(x: Decimal) -> Decimal:
    if x < 0:
        return -_arc_tangent(-x)
    if x > 1:
        return _pi() / 2 - _arc_tangent(1 / x)
    # Halving the angle three times makes the series short: tan(a/2) = t / (1 + sqrt(1 + t^2)).
    for _ in range(3):
        x = x / (1 + (1 + x * x).sqrt())
    return 8 * _series(x)


def _sine(x: Decimal) -> Decimal:
    """The power series; `x` lies within two turns, where it converges well."""
    total, term, n = x, x, 1
    square = x * x
    while True:
        term, n = -term * square / ((n + 1) * (n + 2)), n + 2
        new = total + term
        if new == total:
            return total
        total = new
