"""The leaves of pitch gauges, and the pitches that each of them stands for."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from fractions_shop.size.frozen import Record
from fractions_shop.size.units import INCH

#: The leaves of common pitch gauges, in threads to the inch and in mm (common practice, no source).
_INCH_LEAVES = (
    "4 4.5 5 6 7 8 9 10 11 11.5 12 13 14 16 18 19 20 22 24 26 27 28 30 32 36 40 44 48 56 60 64 72 80"
)
_MM_LEAVES = "0.2 0.25 0.3 0.35 0.4 0.45 0.5 0.6 0.7 0.75 0.8 1 1.25 1.5 1.75 2 2.5 3 3.5 4 4.5 5 5.5 6"


@cache
def gauge_leaves() -> tuple[tuple[Fraction, ...], ...]:
    """The pitches of the leaves of each system in mm, rising."""
    inch = sorted(INCH / Fraction(tpi) for tpi in _INCH_LEAVES.split())
    return tuple(inch), tuple(map(Fraction, _MM_LEAVES.split()))


class Leaf(Record):
    """A leaf that a reading is, as its system has it: it stands for pitches up to half way to the leaves beside it."""

    system: frozenset[Fraction]
    least: Fraction
    most: Fraction

    def stands_for(self, own: Fraction) -> bool:
        """Whether it is the leaf that comes nearest to a pitch for which its system has none."""
        return self.least <= own <= self.most and own not in self.system


def leaves_read(reading: Fraction) -> tuple[Leaf, ...]:
    """The leaves that a reading may be, one of each system that has it."""
    read: list[Leaf] = []
    for leaves in gauge_leaves():
        if reading in leaves:
            place = leaves.index(reading)
            low = leaves[place - 1] if place else reading * Fraction(8, 10)
            high = leaves[place + 1] if place + 1 < len(leaves) else reading * Fraction(12, 10)
            read.append(Leaf(frozenset(leaves), (low + reading) / 2, (reading + high) / 2))
    return tuple(read)
