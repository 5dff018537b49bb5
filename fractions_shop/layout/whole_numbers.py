"""Whole numbers in given ranges that make a total, so many of each: A a + B b (+ C c) = T.

Two kinds are one progression, found by the inverse of A modulo B (Bezout); a third is
gone through one by one, the kind of which there are most, so that it takes the fewest
turns. Sizes on a rule are whole numbers of its divisions, which is what this is for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, gcd

from fractions_shop.errors import ShopError
from fractions_shop.size.cached import cached_property
from fractions_shop.size.rule import Rule

#: So many turns of the third kind at most: a twentieth of a second.
_TURNS = 50_000


@dataclass(frozen=True)
class DivisionRange:
    """Whole numbers from `low` to `high`, both included; no upper end where `high` is None."""

    low: int = 1
    high: int | None = None

    def of(self, multiple: int) -> DivisionRange:
        """The same range counted in steps of `multiple`."""
        return DivisionRange(-(-self.low // multiple), None if self.high is None else self.high // multiple)

    def inside(self, low: int, high: int) -> DivisionRange:
        """What both ranges hold."""
        return DivisionRange(max(self.low, low), high if self.high is None else min(self.high, high))


@dataclass(frozen=True)
class Mixture:
    """So many of each of two or three kinds (`counts`), and the `ranges` their sizes lie in."""

    counts: tuple[int, ...]
    ranges: tuple[DivisionRange, ...]

    def of(self, multiple: int) -> Mixture:
        """The same with every size counted in steps of `multiple`."""
        return Mixture(self.counts, tuple(each.of(multiple) for each in self.ranges))

    def inside(self, low: int, high: int) -> Mixture:
        """The same with every size kept from `low` to `high`."""
        return Mixture(self.counts, tuple(each.inside(low, high) for each in self.ranges))

    @property
    def least(self) -> int:
        """The least total that they make."""
        return sum(n * each.low for n, each in zip(self.counts, self.ranges, strict=True))

    @property
    def most(self) -> int | None:
        """The greatest total, None where some range has no upper end."""
        highs = [each.high for each in self.ranges]
        if None in highs:
            return None
        return sum(n * high for n, high in zip(self.counts, highs, strict=True) if high is not None)

    @property
    def empty(self) -> bool:
        """Whether some range holds no number at all."""
        return any(each.high is not None and each.high < each.low for each in self.ranges)

    def bounded(self, total: int) -> Mixture:
        """The same with the upper ends that `total` sets, every other size being its least."""
        rest = total - self.least
        return Mixture(
            self.counts,
            tuple(
                each.inside(each.low, each.low + rest // n)
                for n, each in zip(self.counts, self.ranges, strict=True)
            ),
        )

    def many(self, total: int) -> int:
        """How many solutions there are. ShopError when that takes too long to count."""
        return sum(_length(firsts) for firsts, _ in self._rows(total))

    def makes(self, total: int) -> bool:
        """Whether there is any solution."""
        return any(firsts for firsts, _ in self._rows(total))

    def solutions(self, total: int) -> Iterator[tuple[int, ...]]:
        """Every solution, each a size for each kind in the order of `counts`."""
        (first_kind, second_kind), third = self._order
        for firsts, last in self._rows(total):
            rest = total - (self.counts[third] * last if third is not None else 0)
            for first in firsts:
                sizes = [last] * len(self.counts)
                sizes[first_kind] = first
                sizes[second_kind] = (rest - self.counts[first_kind] * first) // self.counts[second_kind]
                yield tuple(sizes)

    @cached_property
    def _order(self) -> tuple[tuple[int, int], int | None]:
        """The places of the pair that is solved at once, and of the third kind if there is one."""
        if len(self.counts) == 2:
            return (0, 1), None
        third = max(range(3), key=lambda place: self.counts[place])
        first_kind, second_kind = (place for place in range(3) if place != third)
        return (first_kind, second_kind), third

    def _rows(self, total: int) -> Iterator[tuple[range, int]]:
        """For each size of the third kind (0 without one), the sizes of the first of the pair."""
        if self.empty or total < self.least:
            return
        whole = self.bounded(total)
        (first_kind, second_kind), third = self._order
        pair = _Pair(self.counts[first_kind], self.counts[second_kind])
        if third is None:
            yield pair.firsts(total, whole.ranges[first_kind], whole.ranges[second_kind]), 0
            return
        # A pair makes multiples of what its counts have in common, so the third makes up the rest.
        makes = _Pair(self.counts[third], pair.common)
        lasts = makes.firsts(total, whole.ranges[third], DivisionRange(0, total // pair.common))
        if _length(lasts) > _TURNS:
            raise ShopError(
                f"there are more than {_TURNS:,} sizes to try of one kind alone: say from what size "
                "to what size they may be, or take a coarser rule"
            )
        for last in lasts:
            rest = total - self.counts[third] * last
            yield pair.firsts(rest, whole.ranges[first_kind], whole.ranges[second_kind]), last


def _length(numbers: range) -> int:
    """How many there are: `len` refuses a range of more than a machine's word, and a rule has no end."""
    return max(0, -((numbers.start - numbers.stop) // numbers.step))


class _Pair:
    """A a + B b = R for whole numbers a and b, for many R."""

    def __init__(self, first: int, second: int) -> None:
        self.common = gcd(first, second)
        self.first, self.second = first // self.common, second // self.common
        self.inverse = pow(self.first, -1, self.second)

    def firsts(self, rest: int, first: DivisionRange, second: DivisionRange) -> range:
        """Every `a` in `first` that goes with a `b` in `second`; both must have an upper end."""
        rest, odd = divmod(rest, self.common)
        if odd or first.high is None or second.high is None:
            return range(0)
        low = max(first.low, -((self.second * second.high - rest) // self.first))
        high = min(first.high, (rest - self.second * second.low) // self.first)
        low += (rest * self.inverse - low) % self.second
        return range(low, high + 1, self.second)


def most_readable(mixture: Mixture, total: int, rule: Rule, wanted: int) -> list[tuple[int, tuple[int, ...]]]:
    """The first `wanted` solutions in divisions of `rule`, each with its readability.

    The most readable first (`Rule.readability`); of those equally so the most alike
    (greatest less least), then those with the smaller first size.
    """
    choices: list[tuple[int, tuple[int, ...]]] = []
    for multiple in rule.multiples:
        if total % multiple or len(choices) >= wanted:
            continue
        alike = _most_alike(mixture.of(multiple), total // multiple, rule, multiple, wanted - len(choices))
        choices += [(multiple, tuple(multiple * n for n in sizes)) for sizes in alike]
    return choices


def _most_alike(
    mixture: Mixture, total: int, rule: Rule, multiple: int, wanted: int
) -> list[tuple[int, ...]]:
    """The most alike of the solutions that no coarser rule carries, in steps of `multiple`.

    All sizes alike would be total / pieces; that lies between the least and the greatest
    of any solution, so those of a spread up to w all lie within w of it. The window is
    widened until it holds enough of them, or everything.
    """
    if mixture.empty or total < mixture.least:
        return []
    whole = mixture.bounded(total)
    centre = Fraction(total, sum(mixture.counts))
    reach = max(mixture.counts) + sum(mixture.counts) // 2
    while True:
        low, high = ceil(centre - reach), floor(centre + reach)
        nearest, wider = [], False
        for sizes in whole.inside(low, high).solutions(total):
            spread = max(sizes) - min(sizes)
            if spread > reach:
                wider = True
            elif rule.readability([multiple * n for n in sizes]) == multiple:
                nearest.append((spread, sizes))
        everything = all(each.low >= low and (each.high or 0) <= high for each in whole.ranges)
        if len(nearest) >= wanted or (everything and not wider):
            return [sizes for _, sizes in sorted(nearest)[:wanted]]
        reach *= 2


def next_totals(mixture: Mixture, wanted: Fraction) -> tuple[int | None, int | None]:
    """The greatest total not over `wanted` that has a solution, and the least one not under it.

    Adding one to a size moves the total by its count, so from any total that is made the
    next is no farther than the greatest count, and as few are tried.
    """
    step = gcd(*mixture.counts)
    least, most = mixture.least, mixture.most
    below: int | None = floor((wanted if most is None else min(wanted, Fraction(most))) / step) * step
    above: int | None = ceil(max(wanted, Fraction(least)) / step) * step
    while below is not None and not mixture.makes(below):
        below = below - step if below - step >= least else None
    while above is not None and not mixture.makes(above):
        above = above + step if most is None or above + step <= most else None
    return below, above
