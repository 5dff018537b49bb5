"""What is made of pieces by more than adding up: a product, a root, the least of several.

Each knows the range it can come to, its slopes against its pieces, and (while it is not
too long) how to be worked out again with the pieces elsewhere. Two that are made alike
from the same pieces are one, so that they cancel as a name does.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import reduce
from itertools import product
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.pieces import (  # fmt: skip
    HYPERBOLA,
    STEADY,
    STRAIGHT,
    TURNING,
    Piece,
    Place,
    Slope,
    Slopes,
    about_the_middle,
    blended,
    extremes,
    multiplied,
    raised,
)
from fractions_shop.size.quantity import Quantity

#: Steps that are kept for working out again; what took more is kept as its range alone.
_MOST_STEPS = 64
_ONE = (Fraction(1), Fraction(1))

#: Said of a divisor that may be zero.
ACROSS = "cannot divide by a size whose limits reach across zero"

Span = tuple[Fraction, Fraction]


class Made(Frozen):
    """`work` done on `parts`: sizes with limits (Limits), and what is exact.

    `nominal` is what it comes to with every part at its nominal size, `low` and `high`
    how far off that it may lie, all in mm to its power. `wide` says that nobody has
    shown these to be reached.
    """

    work: Callable[..., Quantity]
    parts: tuple[Any, ...]
    nominal: Fraction
    low: Fraction
    high: Fraction
    slopes: Slopes
    wide: bool
    approximate: bool
    weight: int
    open: bool
    key: bytes

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Made) and self.key == other.key

    def __hash__(self) -> int:
        return hash(self.key)

    def off(self, place: Place) -> Fraction:
        """How far off nominal it lies with its pieces at `place`."""
        if self not in place:
            place[self] = self.value(place) - self.nominal
        return place[self]

    def value(self, place: Place) -> Fraction:
        """What it comes to with its pieces at `place`."""
        return _at(self.work, self.parts, place)


def _at(work: Callable[..., Quantity], parts: tuple[Any, ...], place: Place) -> Fraction:
    return work(*(part.at(place) if hasattr(part, "terms") else part for part in parts)).value


def _made(
    work: Callable[..., Quantity], parts: tuple[Any, ...], nominal: Quantity, natural: Span,
    slopes: Slopes, approximate: bool, alike: Any,
) -> Made:  # fmt: skip
    """The range `natural` is right if every part varies by itself; if not, it is worked out anew.

    What is made by one work of things with the same `alike` is the same.
    """
    varying = [part for part in parts if hasattr(part, "terms")]
    weight = 1 + sum(part.weight for part in varying)
    known = all(part.open for part in varying) and weight <= _MOST_STEPS
    apart = _apart([part.slopes for part in varying])
    span, wide = natural, not apart or any(part.wide for part in varying)
    if wide and known:
        span, wide = looked_at(slopes, lambda place: _at(work, parts, place), natural)
    if not known:  # the steps are let go, so that a long chain neither grows nor nests without end
        work, parts, key, weight = _gone, (), os.urandom(12), 1
    else:
        key = digest((work.__name__, alike))
    low, high = span[0] - nominal.value, span[1] - nominal.value
    return Made(work, parts, nominal.value, low, high, slopes, wide, approximate, weight, known, key)


def digest(content: Any) -> bytes:
    """A short key for plain content, the same in every process."""
    from hashlib import blake2b  # only what is more than a sum of pieces needs it

    return blake2b(repr(content).encode(), digest_size=16).digest()


def looked_at(slopes: Slopes, value: Callable[[Place], Fraction], natural: Span) -> tuple[Span, bool]:
    """The exact range where it can be shown, else the narrowest that is sure; and whether it may be wide."""
    if not any(piece.wide for piece in slopes):
        shown = extremes(slopes, value)
        if shown is not None:
            return shown, False
    near = about_the_middle(slopes, value)
    if near is None:
        return natural, True
    return (max(natural[0], near[0]), min(natural[1], near[1])), True


def _gone(*_: Any) -> Quantity:
    raise ShopError("how this was made is not kept")  # never called: such a thing is not open


def _apart(all_slopes: Sequence[Slopes]) -> bool:
    """Whether no piece stands in two of them."""
    met: set[Piece] = set()
    for slopes in all_slopes:
        if not met.isdisjoint(slopes):
            return False
        met.update(slopes)
    return True


# Products


def times(*factors: Any) -> Quantity:
    """The product of sizes, each followed by its whole power."""
    powers = (size**exponent for size, exponent in zip(factors[::2], factors[1::2], strict=True))
    return reduce(Quantity.__mul__, powers, Quantity(Fraction(1), 0))


def product_of(factors: Sequence[tuple[Any, int]]) -> Made:
    """The product of sizes with limits to whole powers; ShopError for a divisor that reaches across zero.

    No size stands twice: whoever calls has added the powers up.
    """
    spans = [(size.lower.value, size.upper.value) for size, _ in factors]
    for (low, high), (_, exponent) in zip(spans, factors, strict=True):
        if exponent < 0 and low <= 0 <= high:
            raise ShopError(ACROSS)
    powers = [raised(span, exponent) for span, (_, exponent) in zip(spans, factors, strict=True)]
    steps = []
    for n, (size, exponent) in enumerate(factors):
        others = reduce(multiplied, (power for m, power in enumerate(powers) if m != n), _ONE)
        own = _raised_slope(spans[n], exponent)
        through = multiplied(own.span or _ONE, others)
        steps.append((size.slopes, Slope(*through, own.bend)))
    slopes = _quotients(blended(steps), factors)
    parts: tuple[Any, ...] = tuple(part for pair in factors for part in pair)
    nominal = times(*(part.nominal if hasattr(part, "terms") else part for part in parts))
    approximate = any(size.approximate for size, _ in factors)
    alike = sorted((size.form, exponent) for size, exponent in factors)
    return _made(times, parts, nominal, reduce(multiplied, powers), slopes, approximate, alike)


def _raised_slope(span: Span, exponent: int) -> Slope:
    """The slope of a whole power over a span, and its bend."""
    low, high = (exponent * end for end in raised(span, exponent - 1)) if exponent != 1 else _ONE
    low, high = min(low, high), max(low, high)
    if exponent == 1:
        return Slope(low, high, STRAIGHT)
    if exponent == -1:
        return Slope(low, high, HYPERBOLA)
    turns = exponent % 2 == 0 and span[0] < 0 < span[1]  # of a divisor no span holds nought
    return Slope(low, high, TURNING if turns else STEADY)


def _quotients(slopes: dict[Piece, Slope], factors: Sequence[tuple[Any, int]]) -> dict[Piece, Slope]:
    """The slopes, knowing that one straight thing over another rises or falls throughout."""
    for piece, slope in slopes.items():
        own = [(size.slopes[piece].bend, exponent) for size, exponent in factors if piece in size.slopes]
        if len(own) == 2 and {own[0], own[1]} == {(STRAIGHT, 1), (STRAIGHT, -1)}:
            slopes[piece] = slope._replace(bend=HYPERBOLA)
    return slopes


# Anything else


def worked(
    work: Callable[..., Quantity], values: Sequence[Any], slopes: Callable[..., Sequence[Fraction | None]]
) -> Made:
    """`work` on `values`, of which it rises or falls throughout in each that has limits.

    `slopes` gives, for exact values, the slope against each (None: without bound); each
    must itself rise or fall throughout, so that the corners show its range.
    """
    ends = [(v.lower, v.upper) if hasattr(v, "terms") else (v,) for v in values]
    corners = list(product(*ends))
    results = [work(*corner) for corner in corners]
    steep = list(zip(*(slopes(*corner) for corner in corners), strict=True))
    steps = [(value.slopes, _through(steep[n])) for n, value in enumerate(values) if hasattr(value, "terms")]
    nominal = work(*(v.nominal if hasattr(v, "terms") else v for v in values))
    natural = (min(results).value, max(results).value)
    approximate = any(size.approximate for size in results)
    alike = [v.form if hasattr(v, "terms") else v for v in values]
    return _made(work, tuple(values), nominal, natural, blended(steps), approximate, alike)


def _through(steep: Sequence[Fraction | None]) -> Slope:
    known = [slope for slope in steep if slope is not None]
    return Slope(min(known), max(known), STEADY) if len(known) == len(steep) else Slope(None, None, STEADY)


def size_of(size: Quantity) -> Quantity:
    """A size without its sign."""
    return abs(size)


def least(*sizes: Quantity) -> Quantity:
    """The least of several."""
    return min(sizes)


def greatest(*sizes: Quantity) -> Quantity:
    """The greatest of several."""
    return max(sizes)


def without_sign(size: Any) -> Made:
    """A size whose limits lie either side of zero, without its sign."""
    top = max(size.upper, -size.lower)
    through = Slope(Fraction(-1), Fraction(1), TURNING)
    slopes = blended([(size.slopes, through)])
    natural = (Fraction(0), top.value)
    return _made(size_of, (size,), abs(size.nominal), natural, slopes, top.approximate, size.form)


def extreme_of(sizes: Sequence[Any], which: Callable[..., Any]) -> Made:
    """The least (`which` = min) or greatest (max) of sizes none of which is surely out of it."""
    natural = which(s.lower.value for s in sizes), which(s.upper.value for s in sizes)
    steps = [(size.slopes, Slope(Fraction(0), Fraction(1), STEADY)) for size in sizes]
    shares = blended(steps)
    slopes: dict[Piece, Slope] = {}
    for piece, share in shares.items():
        # At each place it is one of the sizes, so its slope is one of theirs.
        own = [size.slopes.get(piece, Slope(Fraction(0), Fraction(0))) for size in sizes]
        spans = [slope.span for slope in own]
        if None in spans:
            slopes[piece] = Slope(None, None, share.bend)
            continue
        lows, highs = zip(*(span for span in spans if span is not None), strict=True)
        slopes[piece] = Slope(min(lows), max(highs), share.bend)
    work = least if which is min else greatest
    nominal = which(s.nominal for s in sizes)
    approximate = any(size.approximate for size in sizes)
    alike = sorted(size.form for size in sizes)
    return _made(work, tuple(sizes), nominal, natural, slopes, approximate, alike)
