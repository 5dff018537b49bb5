"""From weights to what is told: the candidates of each reading, and how divisions explain them all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import exp

from fractions_shop.meant.belief import Belief
from fractions_shop.meant.chance import Surroundings
from fractions_shop.meant.found import NO_SYSTEM, Explanation, SizeCandidate, Weighed
from fractions_shop.meant.likelihood import Ratio
from fractions_shop.meant.priors import Division
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.shared import CommonError, Zero
from fractions_shop.meant.shops import Shop
from fractions_shop.meant.unsaid import held_alike
from fractions_shop.meant.verdict import odds_on
from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity

#: Candidates kept for one reading, and the least probability worth telling.
_MOST, _LEAST = 8, 1e-4
#: So many of the first are looked at for a thread whose pitch would tell it.
_FIRST = 3
#: A reading is said to be of no round size, or wrong, when that is so many times as likely as its best candidate. At 0.6 a
#: misreading is named in some 80 of 100 lists, and a sound one in 3; see tests/bench/bench_lists.py.
_DOUBTFUL = 0.6

Masses = Mapping[Ratio, Mapping[int, float]]


class Lost(Record):
    """One reading weighed as if its part had lost some of its size; `likelier` is the logarithm of how much likelier that makes all readings."""

    masses: Masses
    likelier: float


def weighed(
    asked: Reading,
    true: Reading,
    masses: Masses,
    off: float,
    divisions: Sequence[Division],
    belief: Belief,
    may_doubt: bool,
    if_lost: Lost | None = None,
) -> Weighed:
    """One reading with its candidates; `true` is the reading with the common errors taken out.

    `if_lost` is the same weighing of parts that have not kept their size, where that is left unsaid.
    """
    sums = {mark: sum(parts.values()) for mark, parts in masses.items()}
    best = sorted(sums, key=lambda mark: (-sums[mark], mark[0] / mark[1]))[:_MOST]
    best = [mark for mark in best if sums[mark] >= _LEAST]
    about = Surroundings(true, tuple(divisions))
    candidates = tuple(_candidate(about, Fraction(*mark), masses[mark]) for mark in best)
    first = candidates[0].probability if candidates else 0.0
    return Weighed(
        asked.size,
        true.within,
        *true.bounds,
        candidates,
        max(0.0, 1.0 - sum(sums[mark] for mark in best)),
        off,
        asked.figures,
        alike=(),
        full=true.size if true.size != asked.size else None,
        suspect=may_doubt and off > _DOUBTFUL * first,
        threads=any(candidate.system == "threads" for candidate in candidates[:_FIRST]),
        even_odds=_even_odds(best[0], masses, off, divisions, belief) if candidates else 0.0,
        kept_odds=_kept_odds(best[0], first, if_lost) if candidates else 0.0,
        made=asked.made,
        worn=asked.worn,
        plated=asked.plated,
    )


def _even_odds(
    best: Ratio, masses: Masses, off: float, divisions: Sequence[Division], belief: Belief
) -> float:
    """The odds on one mark if inch and metric work were equally likely; by the belief itself where it was stated."""
    even = [1.0 if belief.said else belief.made_even(division.system) for division in divisions]
    every = {mark: sum(even[k] * part for k, part in parts.items()) for mark, parts in masses.items()}
    return odds_on(every[best] / (sum(every.values()) + off))


def _kept_odds(best: Ratio, probability: float, if_lost: Lost | None) -> float:
    """The odds on one mark if the parts were as likely as not to have kept their size."""
    if if_lost is None:
        return odds_on(probability)
    lost = sum(if_lost.masses.get(best, {}).values())
    return odds_on(held_alike(probability, lost, if_lost.likelier))


def _candidate(about: Surroundings, mark: Fraction, parts: Mapping[int, float]) -> SizeCandidate:
    """One mark as a candidate, from how likely it is by each division that it is on."""
    mass = sum(parts.values())
    ranked = _by_readability([(part, about.divisions[k]) for k, part in parts.items()])
    name, *others = dict.fromkeys(division.called(mark) for division in ranked)
    size = ranked[0].size(mark)
    return SizeCandidate(
        size=size,
        name=name,
        system=ranked[0].system,
        division=ranked[0].name,
        off=about.reading.size - size,
        probability=min(1.0, mass),
        odds=odds_on(mass),
        chance=about.chance(mark, ranked[0].undersize(mark)),
        also=tuple(others),
    )


def _by_readability(parts: Sequence[tuple[float, Division]]) -> list[Division]:
    """The divisions that a mark is on, its likeliest system first.

    In each the coarsest first, as they are listed; of tables the likeliest, and a screw of usual
    pitch before the fine one of its size.
    """
    systems: dict[str, float] = {}
    for mass, division in parts:
        systems[division.system] = systems.get(division.system, 0.0) + mass

    def place(part: tuple[float, Division]) -> tuple[float, str, bool, float]:
        mass, division = part
        return (
            -systems[division.system],
            division.system,
            division.fine,
            -mass if division.step is None else 0.0,
        )

    return [division for _, division in sorted(parts, key=place)]


def taken_out(reading: Reading, common: Sequence[CommonError]) -> Reading:
    """The reading without the errors that were found of it; its size is then approximate."""
    mine = [error for error in common if error.shared in reading.shared]
    if not mine:
        return reading
    size, factor = reading.size.mm, Fraction(1)
    for error in mine:
        if isinstance(error.shared, Zero):
            size -= Fraction(round(error.estimate, 6)).limit_denominator(10**6)
        else:
            factor *= Fraction(error.factor).limit_denominator(10**6)
    return reading.but(size=Quantity(Fraction(round(size * factor * 10**5), 10**5), approximate=True))


def explanations(
    readings: Sequence[Reading], divisions: Sequence[Division], shop: Shop
) -> tuple[Explanation, ...]:
    """Every division, if one serves for all, and sizes at random; the likeliest first."""
    explained = []
    for k, division in enumerate(divisions):
        meant = tuple(_meant(reading, division) for reading in readings)
        offs = [abs(r.size - m) for r, m in zip(readings, meant, strict=True) if m is not None]
        explained.append(
            Explanation(
                division.system,
                division.name,
                exp(min(700.0, shop.better[k])),
                shop.divisions[k],
                odds_on(shop.divisions[k]),
                meant,
                max(offs, default=None),
                division.old.inches if division.old else (),
            )
        )
    none = shop.divisions[-1]
    explained.append(Explanation(NO_SYSTEM, "none", 1.0, none, odds_on(none), (), None))
    return tuple(sorted(explained, key=lambda explanation: -explanation.probability))


def _meant(reading: Reading, division: Division) -> Quantity | None:
    """The division's likeliest mark for a reading; None where it has none within reach."""
    true = reading if division.step else reading.bought
    low, high = true.sought
    if division.under:
        marks = division.between(low, high + division.most_under)
        best = min(marks, key=lambda mark: true.off_centre(mark, division.undersize(mark)), default=None)
    else:
        best = division.nearest(reading.middle, low, high)
    return None if best is None else division.size(best)
