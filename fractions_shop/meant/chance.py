"""How often a random size comes as near to something as readable, so that chance is not taken for evidence.

A size is picked evenly from a stretch about the reading and read in the same way. It
comes `as near` when it lies no farther from some size than the reading lies from the
candidate, and differences below the reading's own `within` count as that much, for
nothing finer can be told. `As readable` are all sizes with at least the candidate's
prior (see `priors`), so a whole inch competes with few and a 64th with many.

Inch and millimetre marks repeat together every 5 in, so for the plain divisions the
share of one such period is exact; tables add their sizes within that of the reading.
"""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate
from math import lcm

from fractions_shop.meant.priors import PERIOD, Division, span_about
from fractions_shop.meant.readings import Reading
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record

#: Sums of the same weights in another order may differ by this much.
_ALIKE = 1 - 1e-9
_NONE = Fraction(0)


class Surroundings(Record):
    """The sizes about a reading that compete with its candidates, among `divisions`."""

    reading: Reading
    divisions: tuple[Division, ...]

    def readability(self, mark: Fraction) -> float:
        """The prior for a size of `mark` mm, by the mm."""
        span = span_about(self.reading.size)
        return sum(d.weight * d.pitch(span) for d in self.divisions if d.carries(mark))

    def chance(self, mark: Fraction, under: Fraction = _NONE) -> float:
        """The share of sizes hereabouts that lie as near to some mark as readable as `mark`.

        A screw of nominal `mark` may measure up to `under` less: what lies in that stretch
        is no distance off, and the marks of other screws have each their own stretch.
        """
        if any(d.old is not None for d in self.divisions):
            return self._chance_among_old(mark, under)
        least = self.readability(mark) * _ALIKE
        off = max(_NONE, self.reading.off_centre(mark, under) - under / 2)
        reach = 2 * float(max(off, self.reading.within.mm))
        if all(d.step is not None for d in self.divisions):
            return min(1.0, _plain_share(self.divisions, least, reach) / float(PERIOD))
        half = reach / 2
        spans = sorted((at - less - half, at + half) for at, weight, less in self._places if weight >= least)
        if not spans:
            return 0.0
        share, covered = 0.0, max(end for _, end in spans) - float(PERIOD)
        for start, end in spans:
            if end > covered:
                share += end - max(start, covered)
                covered = end
        return min(1.0, share / float(PERIOD))

    def _chance_among_old(self, mark: Fraction, under: Fraction) -> float:
        """The old inches share no period with today's: each kind of mark is held against its own kind."""
        old = [d for d in self.divisions if d.old is not None and d.carries(mark)]
        if not old:
            today = tuple(d for d in self.divisions if d.old is None)
            return Surroundings(self.reading, today).chance(mark, under)
        reach = 2 * max(abs(self.reading.size.mm - mark), self.reading.within.mm)
        return min(1.0, float(reach / max(d.step for d in old if d.step)))

    @cached_property
    def _places(self) -> tuple[tuple[float, float, float], ...]:
        """Where marks stand in one period (mm), how readable each is, and how far under it may measure."""
        plain = _plain_places(tuple(d for d in self.divisions if d.step is not None))
        tables = [d for d in self.divisions if d.step is None]
        low, high = self.reading.size.mm - PERIOD / 2, self.reading.size.mm + PERIOD / 2
        span = span_about(self.reading.size)
        listed: dict[Fraction, float] = {}
        under: dict[Fraction, Fraction] = {}
        for table in tables:
            weight = table.weight * table.pitch(span)
            for size in table.between(low, high):
                listed[size] = listed.get(size, 0.0) + weight
                if table.under:
                    under[size] = max(under.get(size, _NONE), table.undersize(size))
        ruled = tuple(d for d in self.divisions if d.step is not None)
        known = _ruled_weights(ruled)
        for size in listed.keys() - known.keys():
            known[size] = sum(d.weight * float(d.step or 0) for d in ruled if d.carries(size))
        # A size that stands on a plain mark as well comes twice; its greater weight is here.
        sizes = (
            (float(size % PERIOD), weight + known[size], float(under.get(size, _NONE)))
            for size, weight in listed.items()
        )
        return (*((place, weight, 0.0) for place, weight in plain), *sizes)


def _plain_share(plain: tuple[Division, ...], least: float, reach: float) -> float:
    """How much of a period lies within half of `reach` of marks at least so readable."""
    if any(step <= reach and weight >= least for step, weight in _shares(plain)):
        return float(PERIOD)  # one division alone leaves nothing out of reach
    gaps, sums = _plain_gaps(plain, least)
    # Gaps that the reach covers count whole, each wider one as far as the reach.
    covered = bisect_right(gaps, reach)
    return sums[covered] + (len(gaps) - covered) * reach


@lru_cache(maxsize=16)
def _ruled_weights(plain: tuple[Division, ...]) -> dict[Fraction, float]:
    """What the plain divisions weigh at the sizes of tables, filled in as they are asked for."""
    return {}


@lru_cache(maxsize=256)
def _plain_gaps(plain: tuple[Division, ...], least: float) -> tuple[list[float], list[float]]:
    """The gaps between marks so readable, narrowest first, and the sums of the first so many.

    Kept, because many readings ask for the same few degrees of readability.
    """
    places = [place for place, _ in _plain_places(plain, least)]
    if not places:
        return [], [0.0]
    ends = (*places[1:], places[0] + float(PERIOD))
    gaps = sorted(b - a for a, b in zip(places, ends, strict=True))
    return gaps, [0.0, *accumulate(gaps)]


@lru_cache(maxsize=16)
def _shares(plain: tuple[Division, ...]) -> tuple[tuple[float, float], ...]:
    """The step (mm) of each division and how readable its marks are by it alone."""
    return tuple((float(d.step), d.weight * float(d.step)) for d in plain if d.step is not None)


@lru_cache(maxsize=16)
def _plain_places(plain: tuple[Division, ...], least: float = 0.0) -> tuple[tuple[float, float], ...]:
    """The marks of one period (mm) that are readable by at least so much, in order, and how readable each is."""
    # Whole numbers of a unit that all the steps share are counted several times faster.
    unit = lcm(*(d.step.denominator for d in plain if d.step is not None))
    steps = sorted((d.weight * float(d.step), int(d.step * unit)) for d in plain if d.step is not None)
    # A mark that only the first few of these carry, which are the finest, cannot come to so much.
    fine, together = 0, 0.0
    while fine < len(steps) and (together := together + steps[fine][0]) < least:
        fine += 1
    weights: dict[int, float] = {}
    for share, step in steps[fine:]:
        for place in range(0, int(PERIOD * unit), step):
            weights[place] = weights.get(place, 0.0) + share
    for share, step in steps[:fine]:
        for place in weights:
            if not place % step:
                weights[place] += share
    return tuple((place / unit, weights[place]) for place in sorted(weights) if weights[place] >= least)
