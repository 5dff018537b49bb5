"""Readings weighed under every way in which they may have come about, and the ways added up.

A way is how the reader's instrument was divided (`steps`) together with how large the errors are
that readings have in common (`shared`). Under each the shop is weighed (`shops`); the ways
are then mixed by how well they explain the readings. The common errors are taken on a grid, half a
standard deviation of the most sensitive reading apart. Two of them that no reading shares are first
narrowed, each by its own readings, so that both can be tried as finely as one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise, product
from math import exp, log, sqrt

from fractions_shop.errors import ShopError
from fractions_shop.meant.likelihood import UNMOVED, Likely, Moved, PreparedReading, Ratio
from fractions_shop.meant.priors import Division
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.shared import CommonError, Shared, Zero, limits_of, prior
from fractions_shop.meant.shops import GainRow, Shop, one_division, shop
from fractions_shop.meant.steps import Read, told_way, ways
from fractions_shop.size.frozen import Record

#: Errors in common that are told apart in one list.
MOST_COMMON = 2
#: Values of one common error that are tried, and of all together.
_MOST_VALUES, _MOST_MOVES = 400, 900
#: Of two that were narrowed: the values of the one that has fewer left, and all together.
_MOST_OF_FEWER, _MOST_NARROWED = 16, 1800
#: Least that a value of one error may weigh by its own readings against its best, to be tried with those of another.
_LEAST_VALUE = 1e-3
#: Fewer would tell less of an error than was known of it before.
_FEWEST_VALUES = 13
#: Ways weighed in full, and the least that one may weigh against the best.
_IN_FULL, _LEAST = 24, 1e-3
#: Of two errors in common, which are open in every pairing.
_IN_FULL_OF_TWO = 96
#: Readings keep to round sizes when it is no likelier than this that they are off all marks.
_KEEPING = 0.25


class Weighing(Record):
    """The ways mixed. `masses[i]` gives each size of reading i its probability by division; `off[i]` that of none.

    `read` and `shop` are of the likeliest way of the likeliest step, `likely` its marks; `sure` how likely its step is.
    """

    masses: tuple[dict[Ratio, dict[int, float]], ...]
    off: tuple[float, ...]
    shop: Shop
    read: Read
    sure: float
    common: tuple[CommonError, ...]
    evidence: float

    def stands_out(self, place: int) -> bool:
        """Whether the other readings keep to round sizes, so that one that does not is to be named."""
        others = [*self.off[:place], *self.off[place + 1 :]]
        return len(others) > 1 and sum(others) / len(others) < _KEEPING


class _WeighedWay(Record):
    read: Read
    moved: Moved
    before: float
    mass: float
    likely: tuple[Likely, ...]
    gains: list[GainRow]


def weigh(readings: Sequence[Reading], divisions: Sequence[Division]) -> Weighing:
    """Every size that may have been meant by each reading, with its probability."""
    ways_weighed = []
    moves = tuple(_moves(readings, divisions))
    # Two common errors leave too much open for the reader's step to be told besides.
    taken = ways(readings) if len(moves[0][0].unknowns) < 2 else ways(readings)[:1]
    every: dict[tuple[Reading, bool], PreparedReading] = {}
    for read in taken:
        prepared = []
        for place, reading in enumerate(read.readings):
            key = reading, place not in read.slips
            if key not in every:
                every[key] = PreparedReading(reading, divisions, key[1])
            prepared.append(every[key])
        for moved, before in moves:
            likely = tuple(reading.at(moved) for reading in prepared)
            gains = [marks.gains for marks in likely]
            mass = read.prior + before
            if len(moves) > 1 or len(readings) > 1:
                masses, _ = one_division(gains, divisions)
                top = max(masses)
                mass += top + log(sum(exp(each_mass - top) for each_mass in masses))
            ways_weighed.append(_WeighedWay(read, moved, before, mass, likely, gains))
    ways_weighed.sort(key=lambda way: -way.mass)
    in_full = _IN_FULL if len(moves[0][0].unknowns) < MOST_COMMON else _IN_FULL_OF_TWO
    kept = [way for way in ways_weighed[:in_full] if way.mass > ways_weighed[0].mass + log(_LEAST)]
    weighed = [(way, shop(way.gains, divisions)) for way in kept]
    logs = [way.read.prior + way.before + its_shop.evidence for way, its_shop in weighed]
    top = max(logs)
    total = sum(exp(logarithm - top) for logarithm in logs)
    shares = [exp(logarithm - top) / total for logarithm in logs]
    best, sure = told_way([way.read for way in kept], shares)
    way, its_shop = weighed[best]
    mixed = _mixed(weighed, shares)
    return Weighing(
        mixed,
        tuple(max(0.0, 1.0 - sum(sum(parts.values()) for parts in sizes.values())) for sizes in mixed),
        its_shop,
        way.read,
        sure,
        _common(readings, moves, kept, shares),
        top + log(total),
    )


def _mixed(
    weighed: Sequence[tuple[_WeighedWay, Shop]], shares: Sequence[float]
) -> tuple[dict[Ratio, dict[int, float]], ...]:
    count = len(weighed[0][0].likely)
    mixed: tuple[dict[Ratio, dict[int, float]], ...] = tuple({} for _ in range(count))
    for (way, its_shop), share in zip(weighed, shares, strict=True):
        for i, likely in enumerate(way.likely):
            for k, together, sizes in likely.sizes:
                each = share * its_shop.beliefs[i][k] / together
                for size, d in sizes:
                    parts = mixed[i].setdefault(size, {})
                    parts[k] = parts.get(k, 0.0) + each * d
    return mixed


def _moves(readings: Sequence[Reading], divisions: Sequence[Division]) -> Iterator[tuple[Moved, float]]:
    """Every value of the common errors together, with the logarithm of how likely it is before measuring."""
    common = list(dict.fromkeys(error for reading in readings for error in reading.shared))
    if not common:
        yield UNMOVED, 0.0
        return
    if len(common) > MOST_COMMON:
        raise ShopError("at most two common errors can be told apart in one list")
    apart = not any(set(common) <= set(reading.shared) for reading in readings)
    most = _MOST_VALUES if len(common) == 1 or apart else int(sqrt(_MOST_MOVES))
    tried = [_values(error, readings, most) for error in common]
    if len(common) == MOST_COMMON and apart:
        tried = _thinned(
            [
                _narrowed(error, values, readings, divisions)
                for error, values in zip(common, tried, strict=True)
            ]
        )
    for values in product(*tried):
        before = sum(log(share) for _, share in values)
        yield Moved(tuple(zip(common, (u for u, _ in values), strict=True))), before


def _values(shared: Shared, readings: Sequence[Reading], most: int) -> list[tuple[float, float]]:
    """Values of one common error with their shares of the prior."""
    low, high = limits_of(shared)
    carriers = [reading for reading in readings if shared in reading.shared]
    if isinstance(shared, Zero):
        apart = min(reading.width for reading in carriers) / 2
    else:
        apart = min(reading.width / float(reading.size.mm) for reading in carriers) / 2
    count = max(_FEWEST_VALUES, min(most, int((high - low) / apart) + 2))
    values = [low + (high - low) * k / (count - 1) for k in range(count)]
    weights = [prior(shared, u) for u in values]
    total = sum(weights)
    return [(u, weight / total) for u, weight in zip(values, weights, strict=True)]


def _narrowed(
    shared: Shared,
    values: list[tuple[float, float]],
    readings: Sequence[Reading],
    divisions: Sequence[Division],
) -> list[tuple[float, float]]:
    """Those of the values that the readings which carry the error leave open by themselves."""
    carriers = [PreparedReading(reading, divisions, True) for reading in readings if shared in reading.shared]
    logs = []
    for u, share in values:
        moved = Moved(((shared, u),))
        masses, _ = one_division([Likely(carrier, moved).gains for carrier in carriers], divisions)
        top = max(masses)
        logs.append(log(share) + top + log(sum(exp(mass - top) for mass in masses)))
    least = max(logs) + log(_LEAST_VALUE)
    return [value for value, logarithm in zip(values, logs, strict=True) if logarithm > least]


def _thinned(tried: list[list[tuple[float, float]]]) -> list[list[tuple[float, float]]]:
    """The values of two errors, the more numerous thinned evenly until all together are not too many."""
    few = min(_MOST_OF_FEWER, *(len(values) for values in tried))
    fewer = min(range(len(tried)), key=lambda place: len(tried[place]))
    return [
        _every(values, few if place == fewer else _MOST_NARROWED // few) for place, values in enumerate(tried)
    ]


def _every(values: list[tuple[float, float]], most: int) -> list[tuple[float, float]]:
    """At most so many of the values, evenly; each stands for those left out beside it."""
    step = -(-len(values) // most)
    return [(u, share * step) for u, share in values[step // 2 :: step]] if step > 1 else values


def _common(
    readings: Sequence[Reading],
    moves: Sequence[tuple[Moved, float]],
    kept: Sequence[_WeighedWay],
    shares: Sequence[float],
) -> tuple[CommonError, ...]:
    """What was found of each; an error is known no more finely than the values that were tried lie apart."""
    errors = []
    for place, (shared, _) in enumerate(kept[0].moved.unknowns):
        values = [way.moved.unknowns[place][1] for way in kept]
        mean = sum(u * share for u, share in zip(values, shares, strict=True))
        between = sum(share * (u - mean) ** 2 for u, share in zip(values, shares, strict=True))
        tried = sorted({moved.unknowns[place][1] for moved, _ in moves})
        apart = min((upper - lower for lower, upper in pairwise(tried)), default=0.0)
        spread = max(sqrt(between), apart / sqrt(12))
        errors.append(
            CommonError(shared, mean, spread, sum(shared in reading.shared for reading in readings))
        )
    return tuple(errors)
