"""The divisions of one system as lattices of sets: which sets lie on them, and how readable they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import exp, gcd, lcm, log
from operator import mul

from fractions_shop.meant.priors import Division
from fractions_shop.size.cached import cached_property

#: A shop keeps to one division throughout as often as it chooses afresh for each size.
KEEPS = 0.5
#: Residues that fractional counts may have; more are no counts of parts.
_MOST_RESIDUES = 4096

Row = tuple[tuple[Fraction, ...], Fraction]


@dataclass(frozen=True)
class Chain:
    """Divisions of one system, coarsest first, each a whole number of times the next; `place` is that among all."""

    system: str
    divisions: tuple[Division, ...]
    place: int = 0

    @cached_property
    def steps(self) -> tuple[Fraction, ...]:
        """Their steps in mm."""
        return tuple(division.step for division in self.divisions if division.step is not None)

    @cached_property
    def weights(self) -> tuple[float, ...]:
        """How likely each is to be worked to, of all that are weighed."""
        return tuple(division.weight for division in self.divisions)

    def on(self, rows: Sequence[Row], names: Sequence[str], loose: str | None, place: int) -> Grid | None:
        """The sets whose sizes are all multiples of the step at `place`; None if there is none at all."""
        step = self.steps[place]
        followers, k = [], len(rows[0][0])
        for (counts, constant), name in zip(rows, names, strict=True):
            if name == loose or (not constant and sum(map(abs, counts)) == 1 == max(counts)):
                continue  # a free size is on its mark by itself
            shares = [*counts, constant / step]
            common = lcm(*(share.denominator for share in shares))
            followers.append((tuple(int(share * common) for share in shares), common))
        index = _index([(row[:-1], row[-1], common) for row, common in followers if common > 1], k)
        return None if index is None else Grid(self, place, tuple(followers), index, k)


@dataclass(frozen=True)
class Grid:
    """Sets on one step of a chain: `rows` give each size that follows, in steps from the free ones, as whole numbers over a divisor.

    `index` is how many times fewer sets there are than free sizes alone would make.
    """

    chain: Chain
    place: int
    rows: tuple[tuple[tuple[int, ...], int], ...]
    index: int
    free: int

    @cached_property
    def _times(self) -> tuple[int, ...]:
        """How many of its own steps each division down to it takes."""
        own = self.chain.steps[self.place]
        return tuple(int(step / own) for step in self.chain.steps[: self.place + 1])

    @cached_property
    def _cells(self) -> tuple[float, ...]:
        """For each division, its weight times the volume of one cell of its lattice."""
        return tuple(
            weight * float(step) ** self.free * self.index
            for step, weight in zip(self.chain.steps, self.chain.weights, strict=False)
        )[: self.place + 1]

    @cached_property
    def _readable(self) -> dict[int, float]:
        return {}

    @cached_property
    def _kept(self) -> dict[int, tuple[float, str]]:
        return {}

    @cached_property
    def _total(self) -> float:
        return sum(self.chain.weights[: self.place + 1])

    @cached_property
    def most(self) -> float:
        """The logarithm of the prior of the most readable set there could be, every size of it on all divisions."""
        each = self._total * exp(self._readability(0) * self.free)
        return log(self._shared(0)[0] + (1 - KEEPS) * each)

    @cached_property
    def weights(self) -> dict[tuple[int, ...], tuple[float, str] | None]:
        """What `weight` has found so far, for those that ask very often."""
        return {}

    def weight(self, chosen: tuple[int, ...]) -> tuple[float, str] | None:
        """The logarithm of the prior of a set, and the coarsest division it lies on; None if it is no set."""
        if chosen not in self.weights:
            self.weights[chosen] = self._weighed(chosen)
        return self.weights[chosen]

    def _weighed(self, chosen: tuple[int, ...]) -> tuple[float, str] | None:
        if min(chosen) <= 0:
            return None
        shared, product = gcd(*chosen), 0.0
        readable, times = self._readable, self._times[0]
        for n in chosen:
            weight = readable.get(n % times)
            product += self._readability(n % times) if weight is None else weight
        for row, common in self.rows:
            steps = row[-1] + sum(map(mul, row, chosen))
            if common > 1:
                steps, left = divmod(steps, common)
                if left:
                    return None
            if steps <= 0:
                return None
            shared = gcd(shared, steps)
            weight = readable.get(steps % times)
            product += self._readability(steps % times) if weight is None else weight
        together, coarsest = self._shared(shared)
        each = self._total * exp(product * self.free / (self.free + len(self.rows)))
        return log(together + (1 - KEEPS) * each), coarsest

    def _shared(self, shared: int) -> tuple[float, str]:
        """The prior of a set whose sizes have so many steps in common, by one division for all; the coarsest such."""
        key = shared % self._times[0]
        known = self._kept.get(key)
        if known is None:
            carrying = [place for place, times in enumerate(self._times) if not key % times]
            together = KEEPS * sum(self._cells[place] for place in carrying)
            known = self._kept[key] = together, self.chain.divisions[carrying[0]].name
        return known

    def _readability(self, key: int) -> float:
        """The logarithm of the prior by the mm of a size in this system, by its steps beyond those of the coarsest division."""
        parts = zip(self._times, self.chain.steps, self.chain.weights, strict=False)
        weight = log(sum(w * float(step) for times, step, w in parts if not key % times) / self._total)
        self._readable[key] = weight
        return weight


@lru_cache(maxsize=8)
def chains(divisions: tuple[Division, ...]) -> tuple[Chain, ...]:
    """The plain divisions by system; a system of 8ths and of lines has more than one."""
    chained: list[Chain] = []
    left = [division for division in divisions if division.step is not None]
    while left:
        chosen: list[Division] = []
        for division in left:
            if division.system == left[0].system and (not chosen or _divides(division, chosen[-1])):
                chosen.append(division)
        chained.append(Chain(left[0].system, tuple(chosen), len(chained)))
        left = [division for division in left if division not in chosen]
    return tuple(chained)


def _divides(finer: Division, coarser: Division) -> bool:
    """Whether a step goes a whole number of times into another."""
    return finer.step is not None and coarser.step is not None and not coarser.step % finer.step


def _index(rows: Sequence[tuple[tuple[int, ...], int, int]], free: int) -> int | None:
    """How many whole choices of the free sizes there are to one at which all rows come out whole.

    None when no choice does. The remainders that choices can leave form a group; its order is the
    answer, and the constants' remainder must be in it.
    """
    if not rows:
        return 1
    steps = [tuple(row[j] % common for row, _, common in rows) for j in range(free)]
    zero = tuple(0 for _ in rows)
    seen, waiting = {zero}, [zero]
    while waiting:
        residue = waiting.pop()
        for step in steps:
            more = tuple((a + b) % common for a, b, (_, _, common) in zip(residue, step, rows, strict=True))
            if more not in seen:
                if len(seen) > _MOST_RESIDUES:
                    return None
                seen.add(more)
                waiting.append(more)
    wanted = tuple(-constant % common for _, constant, common in rows)
    return len(seen) if wanted in seen else None
