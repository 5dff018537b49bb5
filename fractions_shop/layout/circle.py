"""Arcs, circles and tapers at the bench: chord, arc, girth, sagitta, radius, bolt circle, taper.

Plain functions of sizes and angles; the language has them under the same names (see
FUNCTIONS). Every formula is plane geometry: Euclid III.35 for chord, height and
radius, the sine for the rest. Sizes that a root or a sine went into are marked
approximate unless they came out exactly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.figures.wording import both
from fractions_shop.size import approx
from fractions_shop.size.arguments import AngleLike, SizeLike, as_angle, as_count, as_length, as_quantity
from fractions_shop.size.notation import inch_text
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import worst
from fractions_shop.size.told import Told
from fractions_shop.size.units import INCH

_FOOT = Quantity(12 * INCH)
#: The only sines of whole or fractional degrees that are rational (Niven, 1956).
_RATIONAL_SINES = frozenset(map(Fraction, ("0", "1/2", "1", "-1/2", "-1")))
_MOST_HOLES = 1000


@dataclass(frozen=True)
class Point:
    """A place by coordinates from the centre: `x` to the right, `y` upward."""

    x: Quantity
    y: Quantity


def sagitta(chord: SizeLike, radius: SizeLike) -> Quantity:
    """The height of an arc above its chord: r - sqrt(r^2 - (c/2)^2), the lesser arc's.

    ShopError when the chord is longer than the circle is wide.

    >>> sagitta("8 in", "5 in").inch
    Fraction(2, 1)
    """
    chord, radius = _above_zero(chord, "the chord"), _above_zero(radius, "the radius")
    return drop(chord / 2, radius)


def drop(offset: Quantity, radius: Quantity) -> Quantity:
    """How far an arc has fallen at `offset` from its highest point: r - sqrt(r^2 - x^2)."""
    if abs(offset) > radius:
        raise ShopError(
            f"a chord of {both(2 * abs(offset))} does not fit in a circle of radius "
            f"{both(radius)}: it is {both(2 * radius)} wide"
        )
    square = radius.mm**2 - offset.mm**2
    root = approx.square_root(square)
    given = offset.approximate or radius.approximate
    # r - root, written so that a flat arc loses no figures to the subtraction.
    fallen = Quantity(offset.mm**2 / (radius.mm + root), 1, given or root * root != square)
    return fallen.resting_on(worst((offset, radius)))


def chord(radius: SizeLike, angle: AngleLike) -> Quantity:
    """The straight distance across an arc that the centre sees under `angle`: 2 r sin(angle/2).

    `angle` is over 0 up to 360 degrees.

    >>> chord("2 in", Angle(Fraction(60))).inch
    Fraction(2, 1)
    """
    radius, angle = _above_zero(radius, "the radius"), _angle(angle, 360)
    return 2 * radius * _sine(angle / 2)


def pi() -> Quantity:
    """The ratio of girth to diameter, a plain number to 30 figures, approximate.

    >>> str(pi().value.limit_denominator(1000))
    '355/113'
    """
    return Quantity(approx.pi(), 0, True)


def girth(diameter: SizeLike) -> Quantity:
    """The way round a circle: pi d. Approximate, to 30 figures.

    >>> round(girth("48 in").inch, 4)
    Fraction(376991, 2500)
    """
    return pi() * _above_zero(diameter, "the diameter")


def arc(radius: SizeLike, angle: AngleLike) -> Quantity:
    """The way along an arc that the centre sees under `angle`: pi r angle/180. Approximate.

    `angle` is over 0 up to 360 degrees. The straight distance across it is `chord`.

    >>> round(arc("2 in", Angle(Fraction(45))).inch, 4)
    Fraction(3927, 2500)
    """
    radius, angle = _above_zero(radius, "the radius"), _angle(angle, 360)
    turned = Quantity(angle.degrees / 180, 0, angle.approximate, standing=angle.standing)
    return pi() * radius * turned


def radius_from(chord: SizeLike, height: SizeLike) -> Quantity:
    """The radius of the circle whose arc stands `height` above its `chord`, exactly.

    (c^2/4 + h^2) / 2h, by Euclid III.35; a height over half the chord is the greater arc.

    >>> radius_from("8 in", "2 in").inch
    Fraction(5, 1)
    """
    half, height = _above_zero(chord, "the chord") / 2, _above_zero(height, "the height")
    return (half * half + height * height) / (2 * height)


class BoltCircle(Told, tuple[Point, ...]):
    """The centres of holes equally spaced on a circle, as Points from its centre; told as places are.

    >>> bolt_circle(4, "3 in")[0].x.inch
    Fraction(3, 2)
    """

    __slots__ = ()

    told_as: ClassVar[str] = "places"

    @property
    def points(self) -> tuple[Point, ...]:
        """The places themselves."""
        return tuple(self)


def bolt_circle(count: int, diameter: SizeLike, start: AngleLike | None = None) -> BoltCircle:
    """The centres of `count` holes equally spaced on a circle, from its centre.

    The first hole lies at `start` (0 if not given, to the right), the others follow
    anticlockwise.

    >>> [str(p.x.inch) for p in bolt_circle(4, "3 in")]
    ['3/2', '0', '-3/2', '0']
    """
    count = as_count(count, "the number of holes", _MOST_HOLES)
    radius = _above_zero(diameter, "the diameter") / 2
    first = Angle(Fraction(0)) if start is None else as_angle(start)
    turns = (first + Angle(Fraction(360 * k, count)) for k in range(count))
    right_angle = Angle(Fraction(90))
    return BoltCircle(Point(radius * _sine(turn + right_angle), radius * _sine(turn)) for turn in turns)


def step_chord(diameter: SizeLike, count: int) -> Quantity:
    """What to set the dividers to, to step round a circle in `count`: d sin(180/count).

    `count` is at least 2. Stepping adds its own error up: check that the last step closes.

    >>> step_chord("3 in", 6).inch
    Fraction(3, 2)
    """
    count = as_count(count, "the number of steps", 10_000)
    if count == 1:
        raise ShopError("one step does not divide a circle: give 2 or more")
    return _above_zero(diameter, "the diameter") * _sine(Angle(Fraction(180, count)))


def taper_per_foot(large: SizeLike, small: SizeLike, length: SizeLike) -> Quantity:
    """What a taper gains in diameter over a foot: (large - small) / length x 12 in, exactly.

    >>> taper_per_foot("1 in", "3/4 in", "6 in").inch
    Fraction(1, 2)
    """
    return _taper(large, small, length) * _FOOT


def taper_angle(large: SizeLike, small: SizeLike, length: SizeLike) -> Angle:
    """The included angle of a taper: 2 atan((large - small) / 2 length), in degrees.

    Half of it is what the top slide is set over to.
    """
    half = _taper(large, small, length) / 2
    degrees = 2 * approx.arc_tangent(half.value)
    return Angle(degrees, half.approximate or half.value not in (0, 1), half.standing)


def taper_at(angle: AngleLike) -> Quantity:
    """The taper per foot, on the diameter, of an included `angle` (0 to under 180 degrees)."""
    angle = as_angle(angle)
    if not 0 <= angle.degrees < 180:
        raise ShopError(f"an included angle of taper is from 0 to under 180 degrees, not {angle.degrees}")
    half = angle.degrees / 2
    gain = Quantity(2 * approx.tangent(half) * _FOOT.mm, 1, angle.approximate or half not in (0, 45))
    return gain.resting_on(angle.standing)


def per_foot(gain: SizeLike) -> Quantity:
    """A taper or slope of so much `gain` in a foot, as a plain number: gain / 12 in, exactly.

    >>> per_foot("1/8 in").value
    Fraction(1, 96)
    """
    length = as_length(gain)
    if length.value < 0:
        raise ShopError("what is gained in a foot must not be negative")
    return length / _FOOT


def set_over(taper: Quantity, length: SizeLike) -> Quantity:
    """How far to set a tailstock over to turn a taper between centres: taper x length / 2, exactly.

    `taper` is a plain number, the gain in diameter over the length it is gained in, such
    as `per_foot("1/8 in")`; `length` is that of the whole work between centres, not of
    the tapered part.

    >>> set_over(per_foot("1/2 in"), "9 in").inch
    Fraction(3, 16)
    """
    slope = as_quantity(taper)
    if slope.power == 1:
        raise DimensionError(
            f"a taper is a plain number, such as per_foot({inch_text(slope)}) if that is gained in a foot"
        )
    if slope.power != 0:
        raise DimensionError("a taper is a plain number, such as per_foot(1/8 in)")
    if slope.value < 0:
        raise ShopError("a taper must not be negative: it is taken from the larger end")
    return slope * _above_zero(length, "the length between centres") / 2


def _taper(large: SizeLike, small: SizeLike, length: SizeLike) -> Quantity:
    """Change of diameter per unit of length, a plain number not below zero."""
    large, small = as_length(large), as_length(small)
    if small.value < 0 or large < small:
        raise ShopError(
            f"a taper goes from its large diameter to its small one: {both(large)} and {both(small)} do not"
        )
    return (large - small) / _above_zero(length, "the length of the taper")


def _above_zero(size: Any, what: str) -> Quantity:
    length = as_length(size)
    if length.value <= 0:
        raise ShopError(f"{what} must be above zero, not {both(length)}")
    return length


def _angle(angle: Any, most: int) -> Angle:
    checked = as_angle(angle)
    if not 0 < checked.degrees <= most:
        raise ShopError(f"the angle must be over 0 up to {most} degrees, not {checked.degrees}")
    return checked


def _sine(angle: Angle) -> Quantity:
    """The sine as a plain number, approximate unless it is one of the rational ones."""
    value = approx.sine(angle.degrees)
    return Quantity(value, 0, angle.approximate or value not in _RATIONAL_SINES, standing=angle.standing)


#: What the language calls: name to the function, a line of help, and an example.
FUNCTIONS: dict[str, tuple[Callable[..., Any], str, str]] = {
    "sagitta": (sagitta, "height of an arc above its chord: chord, radius", "sagitta(4 in, 7 1/4 in)"),
    "chord": (chord, "chord of an arc: radius, angle at the centre", "chord(2 in, 45 deg)"),
    "girth": (girth, "way round a circle: diameter", "girth(48 in)"),
    "arc": (arc, "way along an arc: radius, angle at the centre", "arc(2 in, 45 deg)"),
    "radius_from": (radius_from, "radius of an arc: chord, height", "radius_from(4 in, 9/32 in)"),
    "bolt_circle": (
        bolt_circle,
        "coordinates of equally spaced holes: how many, diameter, start angle",
        "bolt_circle(6, 3 in, 30 deg)",
    ),
    "step_chord": (
        step_chord, "dividers' setting to step round a circle: diameter, how many", "step_chord(3 in, 7)",
    ),
    "taper_per_foot": (
        taper_per_foot,
        "gain in diameter over a foot: large end, small end, length",
        "taper_per_foot(1 in, 3/4 in, 6 in)",
    ),
    "taper_angle": (
        taper_angle,
        "included angle of a taper: large end, small end, length",
        "taper_angle(1 in, 3/4 in, 6 in)",
    ),
    "per_foot": (per_foot, "taper of so much in a foot, as a plain number", "per_foot(1/8 in)"),
    "set_over": (
        set_over,
        "how far a tailstock is set over: taper as a plain number, length between centres",
        "set_over(per_foot(1/2 in), 9 in)",
    ),
    "taper_at": (taper_at, "taper per foot of an included angle", "taper_at(3 deg)"),
}  # fmt: skip
