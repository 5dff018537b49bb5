"""What the odds allow one to do: the one place for the thresholds, and chance as a fraction."""

from __future__ import annotations

from enum import Enum


class SizeVerdict(Enum):
    """What may be done with a size, by the odds on it; `value` is how many to one it needs.

    >>> SizeVerdict.of(143), SizeVerdict.of(2.5)
    (<SizeVerdict.CUT: 100.0>, <SizeVerdict.UNSETTLED: 0.0>)
    """

    #: Cut to it.
    CUT = 100.0
    #: Take it, and check one neighbour.
    CHECK = 30.0
    #: Probably this: read a neighbouring size.
    PROBABLE = 3.0
    #: Not settled: do not cut yet.
    UNSETTLED = 0.0

    @classmethod
    def of(cls, odds: float) -> SizeVerdict:
        """The verdict for so many to one on."""
        return next(verdict for verdict in cls if odds > verdict.value or verdict is cls.UNSETTLED)


def odds_on(probability: float) -> float:
    """So many to one on; a certainty beyond what a float can hold counts as 10^15 to 1."""
    return probability / max(1 - probability, 1e-15)


def about(chance: float) -> tuple[int, int]:
    """A chance as so many in so many, as one says it: (3, 10) for 0.29.

    In tenths from a tenth up to nine tenths; beyond, one (or all but one) in a round number.

    >>> about(0.29), about(0.031), about(0.995), about(1.0)
    ((3, 10), (1, 30), (199, 200), (1, 1))
    """
    if chance >= 1 - 1e-9:
        return 1, 1
    if chance <= 1e-9:
        return 0, 1
    if chance > 0.94:
        left, of = about(1 - chance)
        return of - left, of
    if chance >= 0.095:
        return max(1, min(9, round(chance * 10))), 10
    count = 1 / chance
    digits = 10 ** (len(str(int(count))) - 1)
    return 1, int(round(count / digits) * digits)
