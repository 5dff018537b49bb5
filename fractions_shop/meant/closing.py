"""The weighing behind `reconcile`: every near set of round sizes that closes, by its probability.

The model. Readings y of sizes m are normal with the standard deviations that `readings`
states; errors in common (`shared`) add to the covariance of those that share them: an
unknown u with standard deviation s adds s^2 v v', where v is the reading itself for a scale
and 1 for a zero. The relations confine m to m = A f + c with the free sizes f, and what was
meant is one of

- sizes that all lie on one division d of the scheme (half): each of the sets on that
  lattice alike, so that a set weighs as much as the lattice is coarse: w_d * cell_d;
- sizes of one system, each on a division of its own (half): the product of their
  readabilities, to the power k / N, since k of the N sizes are free to choose;
- no round sizes (1 in 20): f anywhere.

Each is compared on the plane of the relations, by its volume in mm^k, so that it does not
matter which names are called free. One reading may be a misreading, 3 in 100 for each, and is
then off by `log_misread`: by little or by much. Where no lattice has a set near, one name is let off the
marks at a time, at 1 in 20: it follows from the others.

Sets are all those within a distance beyond the least squares at which their mass is lost.
A division whose lattice has more points there than can be weighed, or steps of an eighth of
the spread, says nothing and counts as no round size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import exp, lcm, log
from operator import mul

from fractions_shop.meant.grids import Chain
from fractions_shop.meant.lattice import (
    TooMany,
    expected_count,
    points,
)
from fractions_shop.meant.planes import Plane, Problem, Unsettled
from fractions_shop.meant.priors import MISREAD, STRAY
from fractions_shop.meant.relations import Solved, solve
from fractions_shop.size.cached import cached_property

#: Points looked for on one lattice, and steps of the search for them.
_POINTS, _STEPS = 200, 4000
#: Sets kept of each weighing: those less likely than this share of the best are dropped.
_LOST = 1e-5


@dataclass(frozen=True)
class ClosedSet:
    """One set that closes, and how likely it is; `marks` are its sizes as whole numbers over `divisor`, in mm.

    There are many sets, and Fractions are slow to make and to compare.
    """

    names: tuple[str, ...]
    marks: tuple[int, ...]
    divisor: int
    system: str
    division: str
    probability: float

    @property
    def sizes(self) -> dict[str, Fraction]:
        """The size of each name in mm."""
        return {name: Fraction(mark, self.divisor) for name, mark in zip(self.names, self.marks, strict=True)}


@dataclass(frozen=True)
class Closed:
    """All sets by their probability, best first; how likely each name was misread.

    `evidence` is the logarithm of how likely the readings are, to compare ways in which they may have been taken.
    """

    sets: tuple[ClosedSet, ...]
    suspicions: Mapping[str, float]
    complete: bool
    evidence: float = 0.0


def closing(problem: Problem) -> Closed:
    """Every set that closes near the readings, weighed."""
    try:
        return _settled(problem) if not problem.solved.free else _weighed(problem)
    except Unsettled:
        return Closed((), dict.fromkeys(problem.readings, 0.0), False)


def _weighed(problem: Problem) -> Closed:
    sums = _Sums()
    names = tuple(problem.readings)
    sound = log(1 - MISREAD) * len(names)
    _weigh(sums, Plane(problem, problem.solved, None), sound, None)
    for name in names:
        if name in problem.tied and len(problem.solved.free) < len(names):
            doubt = sound if name in problem.slips else sound + log(MISREAD) - log(1 - MISREAD)
            _weigh(sums, Plane(problem, problem.solved, name), doubt, name)
    if sums.flat > sums.of_sets():
        for name in problem.tied:
            turned = solve(problem.relations, names, (name,))
            if name in turned.rows:
                _weigh(sums, Plane(problem, turned, None, name), sound + log(STRAY), None, False)
    return sums.closed(names)


def _settled(problem: Problem) -> Closed:
    """What the relations alone settle; the readings only tell whether one of them is a misreading."""
    sizes = problem.solved.sizes(())
    if min(sizes.values()) <= 0:
        return Closed((), dict.fromkeys(problem.readings, 0.0), False)  # `conflicts` says why
    names = tuple(problem.readings)
    masses: dict[str | None, float] = {None: Plane(problem, problem.solved, None).common + log(1 - MISREAD)}
    for name in names:
        doubt = 1 - MISREAD if name in problem.slips else MISREAD
        plane = Plane(problem, problem.solved, name)
        masses[name] = plane.common + plane.wrong(plane.reads) + log(doubt)
    top = max(masses.values())
    total = sum(exp(mass - top) for mass in masses.values())
    home = next(
        (d for d in problem.divisions if d.step and all(d.carries(size) for size in sizes.values())),
        problem.divisions[0],
    )
    doubts = {name: exp(masses[name] - top) / total for name in names}
    divisor = lcm(*(size.denominator for size in sizes.values()))
    marks = tuple(int(sizes[name] * divisor) for name in names)
    return Closed(
        (ClosedSet(names, marks, divisor, home.system, home.name, 1.0),), doubts, True, top + log(total)
    )


@dataclass(frozen=True)
class _Kept:
    """Sets of one lattice: the plane and chain they are on, kept as whole numbers of its finest step."""

    plane: Plane
    chain: Chain

    @cached_property
    def steps(self) -> list[tuple[list[Fraction], Fraction]]:
        """For each name, what each whole number adds to its size in mm, and what it has besides."""
        finest = self.chain.steps[-1]
        return [([count * finest for count in counts], constant) for counts, constant in self.plane.rows]

    def over(self, divisor: int) -> list[tuple[list[int], int]]:
        """The same as whole numbers over a divisor of all of them."""
        return [
            ([int(step * divisor) for step in steps], int(constant * divisor))
            for steps, constant in self.steps
        ]


class _Sums:
    """What the weighings find: masses as logarithms and sets as whole numbers, until they can be shared out."""

    def __init__(self) -> None:
        self.sets: dict[tuple[int, Solved], dict[tuple[int, ...], list[tuple[float, str, str | None]]]] = {}
        self.homes: dict[tuple[int, Solved], _Kept] = {}
        self.flats: list[tuple[float, str | None]] = []
        self.best = self.flat = -1e300
        self.complete = False

    def of(self, kept: _Kept) -> dict[tuple[int, ...], list[tuple[float, str, str | None]]]:
        """The sets of one lattice, each with the masses that were found for it, to be added to."""
        home = (kept.chain.place, kept.plane.solution)
        self.homes.setdefault(home, kept)
        return self.sets.setdefault(home, {})

    def of_sets(self) -> float:
        """The logarithm of the mass of all sets together."""
        masses = self._masses()
        # The likeliest may lie far below `best`, the bound of all of its lattice, where a reading is absurd.
        top = max(masses, default=self.best)
        return top + log(sum(exp(mass - top) for mass in masses)) if masses else self.best

    def _masses(self) -> list[float]:
        return [part[0] for lattice in self.sets.values() for parts in lattice.values() for part in parts]

    def closed(self, names: tuple[str, ...]) -> Closed:
        best = max(self._masses(), default=self.best)
        top = max(best, self.flat)
        doubted: dict[str | None, float] = dict.fromkeys((*names, None), 0.0)
        rest = 0.0
        for mass, doubt in self.flats:
            share = exp(mass - top)
            rest += share
            doubted[doubt] += share
        sums: dict[tuple[int, ...], float] = {}
        likeliest: dict[tuple[int, ...], tuple[float, str, str]] = {}
        divisor = lcm(
            *(
                part.denominator
                for kept in self.homes.values()
                for steps, more in kept.steps
                for part in (*steps, more)
            )
        )
        least = _LOST * exp(best - top)
        for home, lattice in self.sets.items():
            kept = self.homes[home]
            rows, system = kept.over(divisor), kept.chain.system
            for finest, parts in lattice.items():
                mass = 0.0
                for part, _, doubt in parts:
                    share = exp(part - top)
                    mass += share
                    doubted[doubt] += share
                if mass < least:
                    rest += mass
                    continue
                marks = tuple([sum(map(mul, steps, finest), more) for steps, more in rows])
                if min(marks) <= 0:
                    continue  # one let off the marks must still be a size
                sums[marks] = sums.get(marks, 0.0) + mass
                if marks not in likeliest or mass > likeliest[marks][0]:
                    likeliest[marks] = (mass, system, max(parts, key=_mass_of)[1])
        total = rest + sum(sums.values())
        sets = tuple(
            ClosedSet(names, marks, divisor, *likeliest[marks][1:], sums[marks] / total)
            for marks in sorted(sums, key=lambda marks: (-sums[marks], marks))
        )
        return Closed(sets, {name: doubted[name] / total for name in names}, self.complete, top + log(total))


def _mass_of(part: tuple[float, str, str | None]) -> float:
    return part[0]


def _weigh(sums: _Sums, plane: Plane, prior: float, doubt: str | None, with_flat: bool = True) -> None:
    """Adds all sets on one plane, and what is no round size."""
    unheard = 0.0
    for chain in plane.chains:
        grid, fine = _finest(chain, plane)
        unheard += fine
        if grid is None:
            continue
        sums.complete = True
        try:
            _add_points(sums, plane, chain, grid, prior, doubt)
        except TooMany:
            unheard += sum(chain.weights[: grid + 1])
    if with_flat:
        mass = prior + plane.flat() + log(STRAY + (1 - STRAY) * unheard)
        sums.flats.append((mass, doubt))
        sums.flat = max(sums.flat, mass)


def _finest(chain: Chain, plane: Plane) -> tuple[int | None, float]:
    """The finest division of the chain whose sets can all be weighed, and the weight of those finer."""
    unheard = 0.0
    for place in reversed(range(len(chain.steps))):
        step = float(chain.steps[place])
        scaled = [[entry * step for entry in row] for row in plane.upper or []]
        if expected_count(scaled, plane.bound) <= _POINTS and 8 * step >= plane.narrowest:
            return place, unheard
        unheard += chain.weights[place]
    return None, unheard


def _add_points(sums: _Sums, plane: Plane, chain: Chain, place: int, prior: float, doubt: str | None) -> None:
    step = chain.steps[place]
    grid = plane.grid(chain, place)
    if grid is None:
        return
    size = float(step)
    scaled = [[entry * size for entry in row] for row in plane.upper or []]
    centre = [coordinate / size for coordinate in plane.centre]
    base = prior + log(1 - STRAY) + plane.common + plane.volume
    near: list[tuple[float, tuple[int, ...], str]] = []
    # What is lost against the best of all lattices is not even counted, if it is a tenth of that.
    top, behind = sums.best - base + log(0.1), log(_LOST)
    known, weight = grid.weights.get, grid.weight
    for n, distance in points(scaled, centre, plane.bound, _STEPS):
        weighed = known(n) or weight(n)
        if weighed is None:
            continue
        mass = weighed[0] - distance / 2
        if doubt is not None:
            mass += plane.wrong(plane.reads - size * sum(map(mul, plane.counts, n)))
        if mass > top + behind:
            top = max(top, mass)
            near.append((mass, n, weighed[1]))
    if not near:
        return
    times = int(step / chain.steps[-1])
    lattice = sums.of(_Kept(plane, chain))
    sums.best = max(sums.best, base + top)
    for mass, n, division in near:
        if mass > top + behind:
            finest = n if times == 1 else tuple([times * count for count in n])
            lattice.setdefault(finest, []).append((base + mass, division, doubt))
