"""Pieces: sizes that vary by themselves, and what a size made of them can come to.

A range that is worked out step by step forgets that one piece stands in it twice. Here
every size keeps how it answers to each of its pieces: the range of its slope against
the piece, and how it bends. With that the corners of the pieces are known to be the
extremes, or it is known that this has not been shown.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from itertools import product
from typing import Any, NamedTuple

from fractions_shop.size import ratios
from fractions_shop.size.frozen import Frozen

#: How a size bends against one piece while the others rest, the tamest first: a straight
#: line; (a p + b) / (c p + d), which rises or falls throughout; anything else that does; or
#: what may turn round. The first three have their extremes at the piece's own limits.
STRAIGHT, HYPERBOLA, STEADY, TURNING = range(4)

#: Pieces whose slope may change its sign, of which every corner is tried: at most 2**6.
_MOST_FREE = 6
#: Slopes of curved sizes are kept to about this many binary figures, rounded outward.
_FIGURES = 160
_ZERO = Fraction(0)


class Slope(NamedTuple):
    """The least and greatest slope against one piece (None: without bound), and the bend."""

    low: Fraction | None
    high: Fraction | None
    bend: int = STRAIGHT

    @property
    def span(self) -> tuple[Fraction, Fraction] | None:
        """Least and greatest, or None when they are without bound."""
        return None if self.low is None or self.high is None else (self.low, self.high)

    @property
    def typical(self) -> Fraction | None:
        """The slope to reckon likely limits by: about the middle, or the steepest where it turns."""
        if self.span is None:
            return None
        low, high = self.span
        if low == high or low > 0 or high < 0:
            return (low + high) / 2
        return max(abs(low), abs(high))

    def times(self, other: Slope) -> Slope:
        """The slope through a second step whose own slope is `other`."""
        bend = max(self.bend, other.bend)
        if self.span is None or other.span is None:
            return Slope(None, None, bend)
        return Slope(*multiplied(self.span, other.span), bend)


ONE = Fraction(1)
#: The slope against a piece of the piece itself.
_IN_FULL = Slope(ONE, ONE)
Slopes = Mapping["Piece", Slope]
#: Where every piece lies: how far off its nominal size. What is made of them is kept there too.
Place = dict[Any, Fraction]


class Piece(Frozen):
    """One piece cut to limits, or a batch of `count` alike laid together.

    It lies anywhere from `low` to `high` off its nominal size, in mm to its power.
    `square` is the square of half its likely spread. Two are the same piece if they
    have one `key`, which lives through copying and pickling.
    """

    key: bytes
    low: Fraction
    high: Fraction
    square: Fraction
    label: str = ""
    count: int = 1
    wide: bool = False

    @classmethod
    def cut(cls, low: Fraction, high: Fraction, label: str = "") -> Piece:
        """A new piece, like no other."""
        top, bottom = ratios.less(high, low).as_integer_ratio()
        return cls(os.urandom(12), low, high, Fraction(top * top, 4 * bottom * bottom), label)

    @classmethod
    def batch(cls, count: int, of: Piece) -> Piece:
        """`count` new pieces as `of` is one, which vary each by itself, as their sum."""
        return of.but(
            key=os.urandom(12), low=of.low * count, high=of.high * count,
            square=of.square * count, count=of.count * count,
        )  # fmt: skip

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Piece) and self.key == other.key

    def __hash__(self) -> int:
        return hash(self.key)

    @property
    def single(self) -> bool:
        """Whether its likely spread is its whole spread."""
        return self.square == self.half**2

    @property
    def half(self) -> Fraction:
        """Half its spread."""
        return (self.high - self.low) / 2

    @property
    def name(self) -> str:
        """`slat`, `4 of slat`; empty for one piece without a name."""
        return self.label if self.count == 1 else f"{self.count} of {self.label or 'an unnamed size'}"

    # A piece is also the simplest term of a sum.

    @property
    def slopes(self) -> Slopes:
        """Itself, answered to in full."""
        return {self: _IN_FULL}

    @property
    def open(self) -> bool:
        """Whether it can be worked out again elsewhere."""
        return True

    @property
    def weight(self) -> int:
        """How many steps made it."""
        return 0

    @property
    def approximate(self) -> bool:
        """A piece as it is has nothing worked out in it."""
        return False

    def off(self, place: Place) -> Fraction:
        """How far off nominal it lies at `place`."""
        return place.get(self, self.low)


def multiplied(
    left: tuple[Fraction, Fraction], right: tuple[Fraction, Fraction]
) -> tuple[Fraction, Fraction]:
    """The range of a product, each factor anywhere in its own."""
    if left[0] == left[1] and right[0] == right[1]:
        product = left[0] * right[0]
        return product, product
    corners = [a * b for a in left for b in right]
    return min(corners), max(corners)


def raised(span: tuple[Fraction, Fraction], exponent: int) -> tuple[Fraction, Fraction]:
    """The range of a whole power; a negative one only of a span that leaves out zero."""
    ends = (span[0] ** exponent, span[1] ** exponent)
    if exponent > 0 and exponent % 2 == 0 and span[0] < 0 < span[1]:
        return _ZERO, max(ends)
    return min(ends), max(ends)


def blended(steps: Iterable[tuple[Slopes, Slope]], summed: bool = False) -> dict[Piece, Slope]:
    """Slopes through several things of one step, each with the step's own slope against it.

    Against a piece that stands in two of them a sum of straight things is straight; of
    any other step nothing is known.
    """
    blend: dict[Piece, Slope] = {}
    for slopes, through in steps:
        for piece, slope in slopes.items():
            own = slope.times(through)
            if piece in blend:
                own = _added(blend[piece], own, summed)
            blend[piece] = own
    return {piece: _rounded(slope) for piece, slope in blend.items() if slope.low != 0 or slope.high != 0}


def _added(first: Slope, second: Slope, summed: bool) -> Slope:
    bend = STRAIGHT if summed and first.bend == second.bend == STRAIGHT else TURNING
    if first.span is None or second.span is None:
        return Slope(None, None, bend)
    return Slope(first.span[0] + second.span[0], first.span[1] + second.span[1], bend)


def _rounded(slope: Slope) -> Slope:
    """A slope in fewer figures, never narrower; one that is exact stays so."""
    if slope.span is None or slope.low == slope.high:
        return slope
    low, high = slope.span
    if max(low.denominator.bit_length(), high.denominator.bit_length()) <= 2 * _FIGURES:
        return slope
    steep = max(abs(low), abs(high))
    scale = steep.numerator.bit_length() - steep.denominator.bit_length()
    unit = Fraction(2) ** (scale - _FIGURES)
    return Slope(low // unit * unit, -(-high // unit) * unit, slope.bend)


def extremes(
    slopes: Slopes, value: Callable[[Place], Fraction]
) -> tuple[Fraction, Fraction] | None:  # fmt: skip
    """The least and greatest `value` over every place of the pieces, exactly; None where that is not shown.

    Where a slope keeps its sign, the piece's own limit gives the extreme, wherever the
    others lie. Where it may not, yet the size rises or falls throughout (either way,
    as the others lie), both limits are tried.
    """
    free: list[Piece] = []
    least: Place = {}
    most: Place = {}
    for piece, slope in slopes.items():
        if slope.low is not None and slope.low >= 0:
            least[piece], most[piece] = piece.low, piece.high
        elif slope.high is not None and slope.high <= 0:
            least[piece], most[piece] = piece.high, piece.low
        elif slope.bend < TURNING:
            free.append(piece)
        else:
            return None
    if len(free) > _MOST_FREE:
        return None
    corners = [dict(zip(free, ends, strict=True)) for ends in product(*((p.low, p.high) for p in free))]
    return min(value(least | corner) for corner in corners), max(value(most | corner) for corner in corners)


def about_the_middle(slopes: Slopes, value: Callable[[Place], Fraction]) -> tuple[Fraction, Fraction] | None:
    """A range that holds every value: the middle's, and as far as the slopes reach (mean value theorem)."""
    reach = _ZERO
    for piece, slope in slopes.items():
        if slope.span is None:
            return None
        reach += max(abs(slope.span[0]), abs(slope.span[1])) * piece.half
    middle = value({piece: (piece.low + piece.high) / 2 for piece in slopes})
    return middle - reach, middle + reach
