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
then normal with BLUNDER mm more. Where no lattice has a set near, one name is let off the
marks at a time, at 1 in 20: it follows from the others.

Sets are all those within a distance beyond the least squares at which their mass is lost.
A division whose lattice has more points there than can be weighed, or steps of an eighth of
the spread, says nothing and counts as no round size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import exp, lcm, log, pi

from fractions_shop.meant.grids import Chain, Grid, chains
from fractions_shop.meant.lattice import (
    TooMany,
    cholesky,
    determinant_root,
    expected_count,
    points,
    solved,
)
from fractions_shop.meant.priors import MISREAD, STRAY, Division
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.relations import Relation, Solved, names_tied, solve
from fractions_shop.meant.spread import covariance, shift
from fractions_shop.size.cached import cached_property

#: The standard deviation in mm that a misreading has besides its own.
BLUNDER = 1.0
#: Points looked for on one lattice, and steps of the search for them.
_POINTS, _STEPS = 200, 4000
#: Sets kept of each weighing: less likely than this share of the best is lost.
_LOST = 1e-5


@dataclass(frozen=True)
class Problem:
    """Readings by name, their relations, which names are free, and the divisions that are weighed."""

    readings: Mapping[str, Reading]
    relations: tuple[Relation, ...]
    solved: Solved
    divisions: tuple[Division, ...]
    #: Lattices of sets, by chain, solution, place, and the name let off the marks; the readings have no part in them, so that
    #: they serve every way in which these may have been taken.
    lattices: dict[tuple[int, Solved, int, str | None], Grid | None] = field(
        default_factory=dict, compare=False, repr=False
    )

    @cached_property
    def tied(self) -> frozenset[str]:
        """The names that some relation ties."""
        return frozenset(names_tied(self.relations))

    def carries(self, system: str, size: Fraction) -> bool:
        """Whether a size of so many mm is on a mark of that system."""
        return any(d.carries(size) for d in self.divisions if d.system == system)

    def division(self, system: str, size: Fraction) -> Division:
        """The division of `system` that a size of so many mm is on, or its last where none has it."""
        of = [d for d in self.divisions if d.system == system] or list(self.divisions)
        return next((d for d in of if d.carries(size)), of[-1])


class Unsettled(Exception):
    """The readings hardly bear on some size: counts too unlike for one reading to say anything of another."""


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
            doubt = sound + log(MISREAD) - log(1 - MISREAD)
            _weigh(sums, Plane(problem, problem.solved, name), doubt, name)
    if sums.flat > sums.best:
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
    masses.update({name: Plane(problem, problem.solved, name).common + log(MISREAD) for name in names})
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
        self.sets: dict[tuple[int, Solved, tuple[int, ...]], list[tuple[float, str, str | None]]] = {}
        self.homes: dict[tuple[int, Solved], _Kept] = {}
        self.flats: list[tuple[float, str | None]] = []
        self.best = self.flat = -1e300
        self.complete = False

    def add(
        self, kept: _Kept, finest: tuple[int, ...], mass: float, division: str, doubt: str | None
    ) -> None:
        home = (kept.chain.place, kept.plane.solution)
        self.homes.setdefault(home, kept)
        self.sets.setdefault((*home, finest), []).append((mass, division, doubt))

    def closed(self, names: tuple[str, ...]) -> Closed:
        top = max(self.best, self.flat)
        doubted = dict.fromkeys(names, 0.0)
        rest = 0.0
        for mass, doubt in self.flats:
            rest += exp(mass - top)
            if doubt is not None:
                doubted[doubt] += exp(mass - top)
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
        rows = {home: kept.over(divisor) for home, kept in self.homes.items()}
        least = _LOST * exp(self.best - top)
        for (chain, solution, finest), parts in self.sets.items():
            mass = 0.0
            for part, _, doubt in parts:
                share = exp(part - top)
                mass += share
                if doubt is not None:
                    doubted[doubt] += share
            if mass < least:
                rest += mass
                continue
            marks = tuple(
                more + sum(step * n for step, n in zip(steps, finest, strict=True))
                for steps, more in rows[chain, solution]
            )
            if min(marks) <= 0:
                continue  # one let off the marks must still be a size
            sums[marks] = sums.get(marks, 0.0) + mass
            if marks not in likeliest or mass > likeliest[marks][0]:
                system = self.homes[chain, solution].chain.system
                likeliest[marks] = (mass, system, max(parts, key=_mass_of)[1])
        total = rest + sum(sums.values())
        sets = tuple(
            ClosedSet(names, marks, divisor, *likeliest[marks][1:], sums[marks] / total)
            for marks in sorted(sums, key=lambda marks: (-sums[marks], marks))
        )
        return Closed(
            sets, {name: mass / total for name, mass in doubted.items()}, self.complete, top + log(total)
        )


def _mass_of(part: tuple[float, str, str | None]) -> float:
    return part[0]


class Plane:
    """The sizes that the relations allow, and how likely each makes the readings.

    `doubted` is the name whose reading is taken for a misreading, `loose` one that need
    not be on a mark.
    """

    def __init__(
        self, problem: Problem, solution: Solved, doubted: str | None, loose: str | None = None
    ) -> None:
        self.names = tuple(problem.readings)
        self.solution, self.doubted, self.loose = solution, doubted, loose
        self.lattices = problem.lattices
        self.chains = chains(problem.divisions)
        read = [problem.readings[name] for name in self.names]
        spread = covariance(read, [BLUNDER if name == doubted else 0.0 for name in self.names])
        rows = [solution.row(name) for name in self.names]
        self.rows = rows
        a = [[float(count) for count in counts] for counts, _ in rows]
        y = [float(r.middle) + shift(r) - float(c) for r, (_, c) in zip(read, rows, strict=True)]
        upper = cholesky(spread)
        assert upper is not None  # a reading has a spread of its own
        k = len(solution.free)
        columns = [solved(upper, [row[j] for row in a]) for j in range(k)]
        weighed = solved(upper, y)
        gram = [[_dot([row[i] for row in a], columns[j]) for j in range(k)] for i in range(k)]
        self.k, self.gram = k, gram
        self.upper = cholesky(gram) if k else []
        if self.upper is None:
            raise Unsettled
        right = [_dot([row[i] for row in a], weighed) for i in range(k)]
        self.centre = solved(self.upper, right)
        self.least = _dot(y, weighed) - _dot(right, self.centre)
        #: The logarithm of what all masses on this plane have in common.
        self.common = -log(determinant_root(upper)) - self.least / 2
        plain = cholesky([[_dot([r[i] for r in a], [r[j] for r in a]) for j in range(k)] for i in range(k)])
        self.volume = log(determinant_root(plain)) if plain else 0.0
        self.narrowest = min((u[i] ** -1 for i, u in enumerate(self.upper)), default=1.0)

    @property
    def bound(self) -> float:
        """How much farther than the least squares a set is still looked for."""
        return 12.0 + 2.0 * self.k if self.doubted else 20.0 + 3.0 * self.k

    def grid(self, chain: Chain, place: int) -> Grid | None:
        """The lattice of one division on this plane, made once for all the weighings on it."""
        key = (chain.place, self.solution, place, self.loose)
        if key not in self.lattices:
            self.lattices[key] = chain.on(self.rows, self.names, self.loose, place)
        return self.lattices[key]

    def flat(self) -> float:
        """The logarithm of the mass of no round sizes."""
        return self.common + self.volume + self.k / 2 * log(2 * pi) - log(determinant_root(self.upper or []))


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
        if expected_count(scaled, plane.bound) <= _POINTS and (not plane.k or 8 * step >= plane.narrowest):
            return place, unheard
        unheard += chain.weights[place]
    return None, unheard


def _add_points(sums: _Sums, plane: Plane, chain: Chain, place: int, prior: float, doubt: str | None) -> None:
    step = chain.steps[place]
    grid = plane.grid(chain, place)
    if grid is None:
        return
    scaled = [[entry * float(step) for entry in row] for row in plane.upper or []]
    centre = [coordinate / float(step) for coordinate in plane.centre]
    near: list[tuple[float, tuple[int, ...], str]] = []
    top, behind = -1e300, log(_LOST)
    for n, distance in points(scaled, centre, plane.bound, _STEPS):
        weighed = grid.weight(n)
        if weighed is None:
            continue
        mass = weighed[0] - distance / 2
        if mass > top + behind:
            top = max(top, mass)
            near.append((mass, n, weighed[1]))
    base = prior + log(1 - STRAY) + plane.common + plane.volume
    times = int(step / chain.steps[-1])
    kept = _Kept(plane, chain)
    sums.best = max(sums.best, base + top)
    for mass, n, division in near:
        if mass > top + behind:
            sums.add(kept, tuple(times * count for count in n), base + mass, division, doubt)


def _dot(left: list[float], right: list[float]) -> float:
    return sum(a * b for a, b in zip(left, right, strict=True))
