"""Recover: the sizes that a maker may have meant, from readings of what he made.

The rule is Bayes'. `priors` says how likely each size is before measuring and
`readings` how likely a size makes the reading; their product, over the sum of all such
products, is the probability of the size. A wrong prior gives a wrong answer with a
straight face, so two guards come along: `inch_odds` moves the one belief that decides
most close calls, and each candidate's `chance` says how often a size picked at random
would come as near to something as readable. Every size lies within 1/128 in of a 64th:
a match like that is worth nothing, and its chance says so.

Several readings are weighed together. For each division, how much better it explains
them all than sizes at random would; and for each reading, what the other readings say
about its maker's division, which is then trusted half (`KEEPS`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import exp, log
from typing import Any, ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.meant.chance import Surroundings
from fractions_shop.meant.priors import INCH_ODDS, STRAY, Division, scheme, span_about
from fractions_shop.meant.quantogram import QUICK, Quantogram, quantogram
from fractions_shop.meant.readings import MADE, Reading, take
from fractions_shop.size.arguments import options_by_name
from fractions_shop.size.quantity import Quantity

#: A maker keeps to one division throughout as often as he chooses afresh for each size.
KEEPS = 0.5
#: Candidates kept for one reading, and the least probability worth telling.
_MOST, _LEAST = 8, 1e-4
#: A division this many times finer than the reading's own spread says nothing about it.
_TOO_FINE = 8
#: The system of sizes that keep to none.
NO_SYSTEM = "no system"


@dataclass(frozen=True)
class Candidate:
    """A size that may have been meant.

    `off` is the reading less the size. `probability` is of this size; `odds` the same
    as so many to one on it. `chance` is how often a random size, read in the same way,
    would come as near as this to some size at least as readable. `name`, `system` and
    `division` say what the size is, the more readable way where there are two; `also`
    holds its other names.
    """

    size: Quantity
    name: str
    system: str
    division: str
    off: Quantity
    probability: float
    odds: float
    chance: float
    also: tuple[str, ...] = ()


@dataclass(frozen=True)
class Weighed:
    """One reading with its `candidates`, best first; `other` is the probability of anything else.

    That is: sizes too unlikely to list, divisions finer than the reading can tell, and
    no round size at all.
    """

    asked: Quantity
    within: Quantity
    candidates: tuple[Candidate, ...]
    other: float


@dataclass(frozen=True)
class Explanation:
    """How one division explains all the readings.

    `better` is how many times likelier it makes them than sizes at random would; the
    prior for the division comes on top in `probability` and `odds`. `meant` holds its
    mark for each reading (None where it has none near), `worst` the largest difference
    from one. For "no system",
    sizes at random, `better` is 1 and the other two are empty and None.
    """

    system: str
    division: str
    better: float
    probability: float
    odds: float
    meant: tuple[Quantity | None, ...]
    worst: Quantity | None


@dataclass(frozen=True)
class Recovered:
    """The answer to `recover`: each reading weighed, and what explains them together."""

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "candidates",
        "system",
    )

    readings: tuple[Weighed, ...]
    explanations: tuple[Explanation, ...] = ()

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        """For one reading its candidates, best first; for several the best of each, in order.

        A reading that nothing fits has none, so of several there may be fewer.
        """
        if len(self.readings) == 1:
            return self.readings[0].candidates
        return tuple(one.candidates[0] for one in self.readings if one.candidates)

    @property
    def system(self) -> Explanation | None:
        """What explains several readings best; None for a single one."""
        return self.explanations[0] if self.explanations else None

    @cached_property
    def quantogram(self) -> Quantogram | None:
        """Kendall's cosine quantogram of three readings or more, made on first use.

        None for fewer, for readings trusted without limit, and where they are too small or rough to look for a quantum.
        """
        trust = max(reading.within for reading in self.readings)
        if len(self.readings) < 3 or not trust.value:
            return None  # a quantum is sought as finely as the readings are trusted
        try:
            sizes, roughest = [r.asked for r in self.readings], max(r.within for r in self.readings)
            return quantogram(sizes, roughest, work=QUICK)
        except NoAnswer:
            return None


@options_by_name(
    "several readings are one list, recover(['51.5 mm', '66.7 mm']); a trust is recover('51.5 mm', within='0.1 mm')"
)
def recover(
    sizes: Any,
    *,
    within: Any = None,
    worn: Any = None,
    among: Sequence[str] = (),
    inch_odds: float = INCH_ODDS,
    made: Any = MADE,
) -> Recovered:
    """The sizes that a maker may have meant by a part that reads so; one reading or several.

    `within` is how far to trust a reading, by default half a unit of its last written
    place for text, a Quantity's own `within`, or 0.05 mm; `readings` says how it becomes
    a standard deviation. `made` is how near the maker worked to what he meant. `worn` is
    the most that may have been lost since, the part now reading smaller. `among` names
    tables to look in as well (drills, gauges, threads, stock) and `128ths`; what is in a
    table was bought, true to 0.02 mm whatever the maker's hand, and a screw measures under
    its nominal major as screws do (`threads.identify` says how far). `inch_odds`
    is how likely inch work is against metric, before measuring; see `priors`.

    ShopError for a size that is not a length above zero, or a table not known.

    >>> best = recover("51.5 mm").candidates[0]
    >>> best.name, float(best.off.mm)
    ('2 1/32 in', -0.09375)
    """
    readings = take(sizes, within, worn, made)
    divisions = scheme(among, inch_odds)
    gains = [[log(_gain(reading, division)) for division in divisions] for reading in readings]
    better = [sum(row[k] for row in gains) for k in range(len(divisions))]
    weighed = tuple(
        _weighed(reading, divisions, _expected(divisions, _without(better, own) if len(gains) > 1 else None))
        for reading, own in zip(readings, gains, strict=True)
    )
    if len(readings) == 1:
        return Recovered(weighed)
    return Recovered(weighed, _explanations(readings, divisions, better))


def _without(better: Sequence[float], own: Sequence[float]) -> list[float]:
    """What the other readings say of each division: all of them, less this one."""
    return [every - one for every, one in zip(better, own, strict=True)]


def _gain(reading: Reading, division: Division) -> float:
    """How many times likelier `division` makes the reading than a size at random would.

    A maker strays from his division at 1 in 20, so that one odd size does not rule it out.
    """
    pitch = division.pitch(span_about(reading.size))
    likely = _densities(reading, division, pitch)
    if likely is None:
        return 1.0
    density = sum(one for _, one in likely)
    return STRAY + (1 - STRAY) * (pitch * density if density else 0.0)


def _densities(reading: Reading, division: Division, pitch: float) -> list[tuple[Fraction, float]] | None:
    """The division's marks near a reading, and how likely each makes it; None if it is too fine to tell."""
    if division.step is None:
        reading = reading.bought
    if _too_fine(reading, pitch):
        return None
    return [(mark, reading.density(mark, division.undersize(mark))) for mark in _near(reading, division)]


def _near(reading: Reading, division: Division) -> list[Fraction]:
    low, high = reading.sought
    return division.between(low, high + division.most_under)


def _too_fine(reading: Reading, pitch: float) -> bool:
    return pitch * _TOO_FINE < reading.width


def _posterior(divisions: Sequence[Division], better: Sequence[float]) -> list[float]:
    """The probability of each division, and last of none (sizes at random).

    `better` is the logarithm of how much better each explains the readings than sizes
    at random would.
    """
    logs = [log(d.weight * (1 - STRAY)) + gain for d, gain in zip(divisions, better, strict=True)]
    logs.append(log(STRAY))
    top = max(logs)
    shares = [exp(one - top) for one in logs]
    total = sum(shares)
    return [share / total for share in shares]


def _expected(divisions: Sequence[Division], others: Sequence[float] | None) -> list[float]:
    """How likely each division is for one reading, from all the other readings (None: there are none).

    Half by the division that the others share, half by their system alone. Its own
    reading is left out, so that no evidence counts twice.
    """
    found = _posterior(divisions, others or [0.0] * len(divisions))
    if others is None:
        return found
    systems: dict[str, float] = {}
    weights: dict[str, float] = {}
    for division, share in zip(divisions, found, strict=False):
        systems[division.system] = systems.get(division.system, 0.0) + share
        weights[division.system] = weights.get(division.system, 0.0) + division.weight
    afresh = [systems[d.system] * d.weight / weights[d.system] for d in divisions] + [found[-1]]
    return [KEEPS * one + (1 - KEEPS) * two for one, two in zip(found, afresh, strict=True)]


def _weighed(reading: Reading, divisions: Sequence[Division], expected: Sequence[float]) -> Weighed:
    """The candidates of one reading, `expected` being how likely each division is for it."""
    span = span_about(reading.size)
    masses: dict[Fraction, list[tuple[float, int]]] = {}
    rest = expected[-1]
    for k, division in enumerate(divisions):
        pitch = division.pitch(span)
        likely = _densities(reading, division, pitch)
        if likely is None:
            rest += expected[k]
            continue
        rest += expected[k] * STRAY
        for mark, density in likely:
            mass = expected[k] * (1 - STRAY) * pitch * density
            masses.setdefault(mark, []).append((mass, k))
    sums = {mark: sum(mass for mass, _ in parts) for mark, parts in masses.items()}
    total = rest + sum(sums.values())
    best = sorted(sums, key=lambda mark: (-sums[mark], mark))[:_MOST]
    best = [mark for mark in best if sums[mark] >= _LEAST * total]
    about = Surroundings(reading, tuple(divisions))
    found = tuple(_candidate(about, mark, masses[mark], total) for mark in best)
    other = (total - sum(sums[mark] for mark in best)) / total
    return Weighed(reading.size, reading.within, found, max(0.0, other))


def _candidate(
    about: Surroundings, mark: Fraction, parts: Sequence[tuple[float, int]], total: float
) -> Candidate:
    """One mark as a candidate: its mass in each division it is on, and the `total` of all masses."""
    mass = sum(part for part, _ in parts)
    ranked = _by_readability([(part, about.divisions[k]) for part, k in parts])
    name, *others = dict.fromkeys(division.called(mark) for division in ranked)
    return Candidate(
        size=Quantity(mark),
        name=name,
        system=ranked[0].system,
        division=ranked[0].name,
        off=about.reading.size - Quantity(mark),
        probability=mass / total,
        odds=_odds(mass, total),
        chance=about.chance(mark, ranked[0].undersize(mark)),
        also=tuple(others),
    )


def _by_readability(parts: Sequence[tuple[float, Division]]) -> list[Division]:
    """The divisions that a mark is on, its likeliest system first, in each the coarsest first."""
    systems: dict[str, float] = {}
    for mass, division in parts:
        systems[division.system] = systems.get(division.system, 0.0) + mass
    # Sorting keeps the order inside a system, in which divisions are listed coarsest first.
    return sorted((division for _, division in parts), key=lambda d: (-systems[d.system], d.system))


def _odds(mass: float, total: float) -> float:
    """So many to one on; a certainty beyond what a float can hold counts as 10^15 to 1."""
    return mass / max(total - mass, total * 1e-15)


def _explanations(
    readings: Sequence[Reading], divisions: Sequence[Division], better: Sequence[float]
) -> tuple[Explanation, ...]:
    found = []
    shares = _posterior(divisions, better)
    for k, division in enumerate(divisions):
        meant = tuple(_meant(reading, division) for reading in readings)
        offs = [abs(r.size - m) for r, m in zip(readings, meant, strict=True) if m is not None]
        found.append(
            Explanation(
                division.system,
                division.name,
                exp(min(700.0, better[k])),
                shares[k],
                _odds(shares[k], 1.0),
                meant,
                max(offs, default=None),
            )
        )
    found.append(Explanation(NO_SYSTEM, "none", 1.0, shares[-1], _odds(shares[-1], 1.0), (), None))
    return tuple(sorted(found, key=lambda one: -one.probability))


def _meant(reading: Reading, division: Division) -> Quantity | None:
    """The division's likeliest mark for a reading; None where it has none within reach."""
    if division.under:
        off = reading.bought.off_centre
        marks = _near(reading.bought, division)
        best = min(marks, key=lambda mark: off(mark, division.undersize(mark)), default=None)
    else:
        true = reading if division.step else reading.bought
        best = division.nearest(reading.size.mm + reading.worn.mm / 2, *true.sought)
    return None if best is None else Quantity(best)
