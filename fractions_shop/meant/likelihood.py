"""How likely the marks of a division make a reading: floats, and fast, for weights alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil, exp, floor, gcd, pi, sqrt

from fractions_shop.meant.priors import Division, span_about
from fractions_shop.meant.readings import Reading, density
from fractions_shop.meant.shared import Shared, Zero
from fractions_shop.meant.shops import GainRow
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record

#: A size in mm as its numerator and denominator in lowest terms: a Fraction takes far longer to be looked up.
Ratio = tuple[int, int]
#: A division this many times finer than the reading's own spread says nothing about it.
TOO_FINE = 8
#: Marks farther than this many standard deviations are not looked at.
_REACH = 6


class Moved(Record):
    """What the common errors have done, if they are so large: `unknowns` gives each its value u (see `shared`)."""

    unknowns: tuple[tuple[Shared, float], ...] = ()

    def of(self, reading: Reading) -> tuple[float, float]:
        """The factor and the length in mm that turn what the reading says into what it should say."""
        factor, away = 1.0, 0.0
        for shared, u in self.unknowns:
            if shared in reading.shared:
                if isinstance(shared, Zero):
                    away += u
                else:
                    factor *= 1 + u
        return factor, away


UNMOVED = Moved()


class PreparedReading:
    """What the likelihoods of one reading need, whatever the common errors are; worked out once.

    One that `tells` nothing, a slip, is as likely by every division as by chance.
    """

    def __init__(self, reading: Reading, divisions: Sequence[Division], tells: bool = True) -> None:
        self.reading, self.divisions = reading, tuple(divisions)
        span = span_about(reading.size)
        self.pitches = [division.pitch(span) for division in divisions]
        self.size, self.sigma = float(reading.size.mm), reading.sigma
        self.bought = reading.bought.sigma
        self.lost, self.gained = float(reading.worn.mm), float(reading.plated.mm)
        self.steps = [None if division.step is None else float(division.step) for division in divisions]
        self.fine = [not tells or pitch * TOO_FINE < reading.width for pitch in self.pitches]
        self._likely: dict[tuple[float, float], Likely] = {}

    def at(self, moved: Moved) -> Likely:
        """Its likelihoods where the common errors are so large; one that it does not share changes nothing."""
        key = moved.of(self.reading)
        kept = self._likely.get(key)
        if kept is None:
            kept = self._likely[key] = Likely(self, moved)
        return kept


class Likely:
    """The marks of every division near one reading, each with its likelihood by the mm; None for one too fine to tell."""

    def __init__(self, prepared: PreparedReading, moved: Moved = UNMOVED) -> None:
        self.divisions, self.pitches = prepared.divisions, prepared.pitches
        factor, away = moved.of(prepared.reading) if moved.unknowns else (1.0, 0.0)
        size, lost, gained = prepared.size * factor - away, prepared.lost * factor, prepared.gained * factor
        own, bought = prepared.sigma * factor, prepared.bought * factor
        self.marks: list[list[tuple[int, float]] | list[tuple[Fraction, float]] | None] = [
            None if fine else
            self._listed(division, size, bought, lost, gained) if step is None else
            self._plain(step, size, own, lost, gained)
            for division, step, fine in zip(prepared.divisions, prepared.steps, prepared.fine, strict=True)
        ]  # fmt: skip

    @cached_property
    def gains(self) -> GainRow:
        """How many times likelier each division makes the reading than sizes at random; 1 where it is too fine."""
        return GainRow(
            1.0 if marks is None else pitch * sum(d for _, d in marks) if marks else 0.0
            for marks, pitch in zip(self.marks, self.pitches, strict=True)
        )

    @cached_property
    def sizes(self) -> list[tuple[int, float, list[tuple[Ratio, float]]]]:
        """Each division that has marks near: how likely all of them are, and each of them, in mm."""
        every = []
        for k, marks in enumerate(self.marks):
            together = sum(d for _, d in marks) if marks else 0.0
            if marks and together:
                every.append((k, together, [(self.ratio_of(k, mark), d) for mark, d in marks]))
        return every

    def _plain(
        self, step: float, size: float, sigma: float, lost: float, gained: float
    ) -> list[tuple[int, float]]:
        """Marks as multiples of the step."""
        first = max(1, ceil((size - gained - _REACH * sigma) / step))
        last = floor((size + lost + _REACH * sigma) / step)
        if last < first:
            return []
        if lost or gained:
            return [(n, density(size - n * step, sigma, lost, gained)) for n in range(first, last + 1)]
        top, half = 1 / (sigma * sqrt(2 * pi)), -1 / (2 * sigma * sigma)
        return [(n, top * exp(half * (size - n * step) ** 2)) for n in range(first, last + 1)]

    def _listed(
        self, division: Division, size: float, sigma: float, lost: float, gained: float
    ) -> list[tuple[Fraction, float]]:
        """Marks of a table, in mm."""
        low, high = size - gained - _REACH * sigma, size + lost + _REACH * sigma + float(division.most_under)
        return [
            (mark, density(size - float(mark), sigma, lost + float(division.undersize(mark)), gained))
            for mark in division.between(Fraction(low), Fraction(high))
        ]

    def ratio_of(self, k: int, mark: int | Fraction) -> Ratio:
        """A mark of division k in mm."""
        step = self.divisions[k].step
        if step is None or isinstance(mark, Fraction):
            return mark.as_integer_ratio()
        over, under = mark * step.numerator, step.denominator
        common = gcd(over, under)
        return over // common, under // common


def trusted(reading: Reading, within: Fraction) -> Reading:
    """The same reading with another trust in mm."""
    return reading.but(within=replace(reading.within, value=within))
