"""Sums of pieces and of what is made of them: the range, the likely range, batches cut alike."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from fractions_shop.errors import ShopError
from fractions_shop.size.approx import square_root
from fractions_shop.size.made import Made, looked_at
from fractions_shop.size.pieces import Piece, Place, Slope, Slopes, blended

#: More pieces than this in one size would make every sum of it slow.
MOST_PIECES = 500

Term = Piece | Made
#: What a sum is made of, and how many times each.
Terms = Mapping[Term, Fraction]


class TooManyPieces(ShopError):
    """More toleranced sizes feed one size than are kept apart."""


class Sum(NamedTuple):
    """How far a sum may lie off nominal, its slopes, and whether that may be wide or is rounded."""

    low: Fraction
    high: Fraction
    slopes: Slopes
    wide: bool
    approximate: bool


def counted(slopes: Slopes) -> None:
    """TooManyPieces when more pieces feed a size than are kept apart."""
    if len(slopes) > MOST_PIECES:
        raise TooManyPieces(f"more than {MOST_PIECES} toleranced sizes feed this")


def summed(terms: Terms) -> Sum:
    """The range of a sum whose terms may share pieces."""
    slopes = blended([(term.slopes, Slope(share, share)) for term, share in terms.items()], summed=True)
    counted(slopes)
    ends = [sorted((share * term.low, share * term.high)) for term, share in terms.items()]
    low, high = sum((end[0] for end in ends), Fraction(0)), sum((end[1] for end in ends), Fraction(0))
    wide = any(term.wide for term in terms) or _shared(terms)
    if wide and all(term.open for term in terms):

        def off(place: Place) -> Fraction:
            return sum((share * term.off(place) for term, share in terms.items()), Fraction(0))

        (low, high), wide = looked_at(slopes, off, (low, high))
    return Sum(low, high, slopes, wide, any(term.approximate for term in terms))


def _shared(terms: Terms) -> bool:
    """Whether one piece stands in two of the terms."""
    return sum(len(term.slopes) for term in terms) > len({piece for term in terms for piece in term.slopes})


def likely_reach(slopes: Slopes, half: Fraction) -> tuple[Fraction, bool]:
    """How far a size is likely off its middle, of at most `half`, and whether that is rounded.

    The root of the sum of squares of how far each piece moves it; `half` where a slope
    is without bound.
    """
    total = Fraction(0)
    for piece, slope in slopes.items():
        typical = slope.typical
        if typical is None:
            return half, False
        total += typical**2 * piece.square
    root = square_root(total)
    return (root, root * root != total) if root < half else (half, False)


def batched(terms: Terms, own: Sum, count: int, label: str) -> dict[Term, Fraction]:
    """`count` of a sum, each of pieces of its own, as terms; `own` is what the one comes to.

    Pieces stay told apart by name where no two terms share one; else the sum becomes
    one piece. `label` is for what has no name.
    """
    if own.wide or _shared(terms):
        reach = likely_reach(own.slopes, (own.high - own.low) / 2)[0]
        whole = Piece.cut(own.low, own.high, label).but(square=reach**2, wide=own.wide)
        return {Piece.batch(count, whole): Fraction(1)}
    return {Piece.batch(count, _as_piece(term, label)): share for term, share in terms.items()}


def _as_piece(term: Term, label: str) -> Piece:
    if isinstance(term, Piece):
        return term if term.label else term.but(label=label)
    reach = likely_reach(term.slopes, (term.high - term.low) / 2)[0]
    return Piece.cut(term.low, term.high, label).but(square=reach**2, wide=term.wide)
