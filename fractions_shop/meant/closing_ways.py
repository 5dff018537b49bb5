"""Tied readings weighed under every way in which they may have been taken, and the ways added up.

How the reader's instrument was divided (`steps`) says how far to trust each reading, and so which sets close
near them. Each way that is plausible by the readings alone is closed for itself; the sets are mixed by how
likely the ways are, their relations known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import exp, lcm, log

from fractions_shop.meant.closing import Closed, ClosedSet, closing
from fractions_shop.meant.likelihood import Likely, PreparedReading, trusted
from fractions_shop.meant.planes import Problem
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.shops import one_division
from fractions_shop.meant.steps import Read, told_way, ways

#: Ways closed for themselves, and the least that one may weigh against the best by the readings alone.
_MOST, _LEAST = 4, 0.05
#: How far each of several slips is trusted: a normal error of 1 mm.
_SLIP = Fraction(1732, 1000)


#: All in which one reading differs from way to way: whether it slips, how far it is trusted, and the maker with it.
_Heard = tuple[bool, tuple[int, int], tuple[int, int]]


def _heard(reading: Reading, slips: bool) -> _Heard:
    return slips, reading.within.mm.as_integer_ratio(), reading.made.mm.as_integer_ratio()


@dataclass(frozen=True)
class ClosedByWays:
    """The sets of all ways together, with the `read` that is told and how `sure` its step is.

    `evidence` is that of the way that is told.
    """

    closed: Closed
    read: Read
    readings: Mapping[str, Reading]
    sure: float
    evidence: float


def closing_by_ways(problem: Problem) -> ClosedByWays:
    """Every set that closes near the readings, in whatever way they were taken."""
    names = tuple(problem.readings)
    different = list(dict.fromkeys(problem.readings.values()))
    place_of = {name: different.index(reading) for name, reading in problem.readings.items()}
    every = ways(different)
    plausible = _with_slips(_plausible(different, every, problem), every)
    parts: list[tuple[Read, Mapping[str, Reading], Closed]] = []
    done: dict[tuple[_Heard, ...], Closed] = {}
    for read, slips in plausible:
        heard = [
            trusted(reading, _SLIP) if place in read.slips else reading
            for place, reading in enumerate(read.readings)
        ]
        key = tuple(_heard(reading, place in slips) for place, reading in enumerate(heard))
        if key not in done:
            taken = {name: heard[place_of[name]] for name in names}
            wrong = frozenset(name for name in names if place_of[name] in slips)
            done[key] = closing(replace(problem, readings=taken, slips=wrong))
        parts.append((read, {name: read.readings[place_of[name]] for name in names}, done[key]))
    logs = [read.prior + closed.evidence if closed.sets else -1e300 for read, _, closed in parts]
    top = max(logs)
    shares = [exp(logarithm - top) for logarithm in logs]
    shares = [share / sum(shares) for share in shares]
    best, sure = told_way([read for read, _ in plausible], shares)
    read, readings, closed = parts[best]
    if len(parts) > 1:
        slipped = [[place_of[name] in read.slips for name in names] for read, _ in plausible]
        closed = _mixed([closed for _, _, closed in parts], shares, slipped, names)
    return ClosedByWays(closed, read, readings, sure, parts[best][2].evidence)


def _plausible(readings: Sequence[Reading], every: Sequence[Read], problem: Problem) -> list[Read]:
    """The ways that the readings alone do not speak against, the likeliest first; errors that they share apart."""
    if len(every) == 1:
        return list(every)
    masses = []
    gained: dict[tuple[int, _Heard], list[float]] = {}
    for read in every:
        gains = []
        for place, reading in enumerate(read.readings):
            slips = place in read.slips
            key = place, _heard(reading, slips)
            if key not in gained:
                gained[key] = Likely(PreparedReading(reading, problem.divisions, not slips)).gains
            gains.append(gained[key])
        logs, _ = one_division(gains, problem.divisions)
        top = max(logs)
        masses.append(read.prior + top + log(sum(exp(each - top) for each in logs)))
    order = sorted(range(len(every)), key=lambda k: -masses[k])[:_MOST]
    return [every[k] for k in order if masses[k] > masses[order[0]] + log(_LEAST)]


def _with_slips(some: Sequence[Read], every: Sequence[Read]) -> list[tuple[Read, frozenset[int]]]:
    """Some of the ways, each with the place of a reading that is as likely wrong as not.

    Where one reading slips it is enough to close the sets once: to doubt a reading is how a set is closed without it.
    """
    slips: dict[Read, frozenset[int]] = {}
    for read in some:
        same = [each for each in every if not each.slips and each.readings == read.readings]
        if len(read.slips) == 1 and same:
            slips[same[0]] = frozenset(read.slips)
        else:
            slips.setdefault(read, frozenset())
    return list(slips.items())


def _mixed(
    parts: Sequence[Closed],
    shares: Sequence[float],
    slipped: Sequence[Sequence[bool]],
    names: tuple[str, ...],
) -> Closed:
    """The sets of all ways, each way by its share."""
    divisor = lcm(*(each.divisor for closed in parts for each in closed.sets))
    sums: dict[tuple[int, ...], float] = {}
    likeliest: dict[tuple[int, ...], tuple[float, ClosedSet]] = {}
    for closed, share in zip(parts, shares, strict=True):
        for each in closed.sets:
            times = divisor // each.divisor
            marks = each.marks if times == 1 else tuple([mark * times for mark in each.marks])
            mass = share * each.probability
            sums[marks] = sums.get(marks, 0.0) + mass
            if marks not in likeliest or mass > likeliest[marks][0]:
                likeliest[marks] = (mass, each)
    sets = tuple(
        replace(likeliest[marks][1], marks=marks, divisor=divisor, probability=sums[marks])
        for marks in sorted(sums, key=lambda marks: (-sums[marks], marks))
    )
    suspicions = {
        name: sum(
            share * (1.0 if slips[place] else closed.suspicions[name])
            for closed, share, slips in zip(parts, shares, slipped, strict=True)
        )
        for place, name in enumerate(names)
    }
    complete = all(closed.complete for closed, share in zip(parts, shares, strict=True) if share > _LEAST)
    return Closed(sets, suspicions, complete)
