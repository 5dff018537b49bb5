"""The plane of the sizes that relations allow, and how likely each point of it makes the readings: see `closing`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import log, pi, prod, sqrt
from operator import mul

from fractions_shop.meant.grids import Chain, Grid, chains
from fractions_shop.meant.lattice import cholesky, determinant_root, solved
from fractions_shop.meant.priors import Division
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.relations import Relation, Solved, names_tied
from fractions_shop.meant.spread import covariance, shift
from fractions_shop.size.cached import cached_property

#: A misreading is off by so much or by as little, and how fast its likelihood falls beyond; see `log_misread`.
_NEAR, _TAIL = 0.5, 0.5
_LOG_TAIL = log(_TAIL / 2) + _TAIL * log(_NEAR)
#: Sets are looked for as if a misreading had this standard deviation in mm, so that the others alone say where they are.
_WIDE = 10.0


@dataclass(frozen=True, eq=False)
class Span:
    """The plane of the sizes that relations allow: `rows` give each name by the free ones, exactly; `a` has for each free
    one, as floats, how many of it every name takes.

    `constants` are in mm; `volume` is the logarithm of what a unit of every free size spans.
    """

    rows: list[tuple[tuple[Fraction, ...], Fraction]]
    a: list[list[float]]
    constants: list[float]
    volume: float

    @classmethod
    def of(cls, solution: Solved, names: Sequence[str]) -> Span:
        """That of a solution, for names in this order."""
        rows = [solution.row(name) for name in names]
        a = [[float(counts[j]) for counts, _ in rows] for j in range(len(solution.free))]
        gram = [[_dot(left, right) for right in a] for left in a]
        plain = cholesky(gram)
        volume = log(determinant_root(plain)) if plain else 0.0
        return cls(rows, a, [float(constant) for _, constant in rows], volume)


@dataclass(frozen=True)
class Problem:
    """Readings by name, their relations, which names are free, and the divisions that are weighed."""

    readings: Mapping[str, Reading]
    relations: tuple[Relation, ...]
    solved: Solved
    divisions: tuple[Division, ...]
    #: The names whose readings are as likely wrong as not, by the step that the others stand on.
    slips: frozenset[str] = frozenset()
    #: Lattices of sets, by chain, solution, place, and the name let off the marks; the readings have no part in them, so that
    #: they serve every way in which these may have been taken.
    lattices: dict[tuple[int, Solved, int, str | None], Grid | None] = field(
        default_factory=dict, compare=False, repr=False
    )

    #: What each solution spans; see `spanned`.
    spans: dict[Solved, Span] = field(default_factory=dict, compare=False, repr=False)

    def spanned(self, solution: Solved) -> Span:
        """What the free sizes of a solution span, made once for all the weighings on it."""
        if solution not in self.spans:
            self.spans[solution] = Span.of(solution, tuple(self.readings))
        return self.spans[solution]

    @cached_property
    def told(self) -> tuple[list[float], list[float]]:
        """What size each reading tells of on average, in mm, and its variance."""
        read = self.readings.values()
        return [float(each.middle) + shift(each) for each in read], [each.width**2 for each in read]

    @cached_property
    def tied(self) -> frozenset[str]:
        """The names that some relation ties."""
        return frozenset(names_tied(self.relations))

    def carries(self, system: str, size: Fraction) -> bool:
        """Whether a size of so many mm is on a mark of that system."""
        return any(d.carries(size) for d in self.divisions if d.system == system)

    def division(self, system: str, size: Fraction) -> Division:
        """The division of `system` that a size of so many mm is on, or its last where none has it."""
        of = [d for d in self.divisions if d.system == system]
        return next((d for d in of if d.carries(size)), of[-1])


class Unsettled(Exception):
    """The readings hardly bear on some size: counts too unlike for one reading to say anything of another."""


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
        span = problem.spanned(solution)
        self.rows, a, self.volume = span.rows, span.a, span.volume
        more = [_WIDE if name == doubted else 0.0 for name in self.names]
        means, variances = problem.told
        y = [mean - constant for mean, constant in zip(means, span.constants, strict=True)]
        k = len(solution.free)
        read = tuple(problem.readings.values())
        if any(reading.shared for reading in read):
            upper = cholesky(covariance(read, more))
            assert upper is not None  # a reading has a spread of its own
            root = determinant_root(upper)
            columns = [solved(upper, counts) for counts in a]
            weighed = solved(upper, y)
        else:
            # Errors of one's own alone: each reading by its variance.
            of = [variance + extra**2 for variance, extra in zip(variances, more, strict=True)]
            root = sqrt(prod(of))
            columns = [[count / v for count, v in zip(counts, of, strict=True)] for counts in a]
            weighed = [each / v for each, v in zip(y, of, strict=True)]
        gram = [[_dot(counts, column) for column in columns] for counts in a]
        self.k = k
        self.upper = cholesky(gram) if k else []
        if self.upper is None:
            raise Unsettled
        right = [_dot(counts, weighed) for counts in a]
        self.centre = solved(self.upper, right)
        self.least = _dot(y, weighed) - _dot(right, self.centre)
        #: The logarithm of what all masses on this plane have in common.
        self.common = -log(root) - self.least / 2
        if doubted is not None:
            place = self.names.index(doubted)
            self.counts = [counts[place] for counts in a]
            self.reads, self.spread = y[place], variances[place] + _WIDE**2
            self.common += log(2 * pi * self.spread) / 2

    @cached_property
    def narrowest(self) -> float:
        """The least spread of a free size in mm, those behind it known."""
        return min(1 / row[i] for i, row in enumerate(self.upper or []))

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

    def wrong(self, off: float) -> float:
        """The logarithm of how likely a misreading is so far off, in place of the wide spread that it was looked for with."""
        return off * off / (2 * self.spread) + log_misread(off)

    def flat(self) -> float:
        """The logarithm of the mass of no round sizes."""
        off = self.wrong(self.reads - _dot(self.counts, self.centre)) if self.doubted else 0.0
        return (
            off
            + self.common
            + self.volume
            + self.k / 2 * log(2 * pi)
            - log(determinant_root(self.upper or []))
        )


def log_misread(off: float) -> float:
    """The logarithm of how likely by the mm a misreading is so many mm off.

    A line miscounted, a figure miswritten or left out: half are off by less than 1.5 mm, a quarter by more than 7. Whichever
    reading is wrong, none is so merely because its error would be the smaller one (a judgement, common practice, no source).
    """
    return _LOG_TAIL - (1 + _TAIL) * log(_NEAR + abs(off))


def _dot(left: list[float], right: list[float]) -> float:
    return float(sum(map(mul, left, right)))
