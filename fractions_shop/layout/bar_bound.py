"""How many bars it takes at least, by linear programming in exact fractions.

Patterns may be cut a fraction of a time each; the fewest bars so are no more than those cut whole. The
patterns are found as they are needed, by the worth that each kind has in those found before (the column
generation of P. C. Gilmore and R. E. Gomory, Operations Research 9, 1961). At any stage the worths, made
smaller so that no pattern is worth more than one bar, bound the number from below (A. A. Farley, 1990).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm

from fractions_shop.layout.bar_patterns import Pattern, StepsLeft, worthiest

#: More kinds of length, and more rounds, than this are left to the total of lengths alone.
_KINDS, _ROUNDS = 30, 300
_ZERO, _ONE = Fraction(0), Fraction(1)


@dataclass(frozen=True)
class Bound:
    """So many bars at least; `shares` are patterns and how often each is cut where fractions may be."""

    least: int
    shares: tuple[tuple[Pattern, Fraction], ...] = ()


def bound(sizes: Sequence[int], counts: Sequence[int], room: int, steps: int) -> Bound:
    """The least number of bars for so many pieces of each size; `steps` bounds the work of each round."""
    needed = sum(size * many for size, many in zip(sizes, counts, strict=True))
    simple = -(-needed // room)
    if len(sizes) > _KINDS:
        return Bound(simple)
    base = _Base(sizes, counts, room)
    least = simple
    for _ in range(_ROUNDS):
        worths = base.worths()
        surplus = next((k for k, worth in enumerate(worths) if worth < 0), None)
        if surplus is not None:
            base.enter(tuple(-1 if k == surplus else 0 for k in range(len(sizes))), _ZERO)
            continue
        scale = lcm(*(worth.denominator for worth in worths))
        whole = [int(worth * scale) for worth in worths]
        pattern, value, done = worthiest(whole, sizes, counts, room, StepsLeft(steps))
        if done:
            total = sum(worth * many for worth, many in zip(whole, counts, strict=True))
            least = max(least, ceil(Fraction(total, max(value, scale))))
        if value <= scale:
            break
        base.enter(pattern, _ONE)
    return Bound(least, base.shares())


class _Base:
    """The patterns in use, as many as there are kinds, and the inverse of their matrix."""

    def __init__(self, sizes: Sequence[int], counts: Sequence[int], room: int) -> None:
        kinds = range(len(sizes))
        most = [min(many, room // size) for size, many in zip(sizes, counts, strict=True)]
        self.columns: list[Pattern] = [tuple(most[k] if k == j else 0 for j in kinds) for k in kinds]
        self.costs = [_ONE] * len(sizes)
        self.inverse = [[Fraction(1, most[k]) if k == j else _ZERO for j in kinds] for k in kinds]
        self.amounts = [Fraction(counts[k], most[k]) for k in kinds]

    def worths(self) -> list[Fraction]:
        """What a piece of each kind is worth, as a share of a bar."""
        return [
            sum((cost * row[j] for cost, row in zip(self.costs, self.inverse, strict=True) if cost and row[j]), _ZERO)
            for j in range(len(self.costs))
        ]  # fmt: skip

    def enter(self, pattern: Pattern, cost: Fraction) -> None:
        """Take a pattern into use in the place of the one that it drives to zero first."""
        column = [sum((row[k] * n for k, n in enumerate(pattern) if n), _ZERO) for row in self.inverse]
        ratios = [(self.amounts[k] / each, k) for k, each in enumerate(column) if each > 0]
        if not ratios:
            return
        amount, out = min(ratios)
        pivot = [each / column[out] for each in self.inverse[out]]
        for k, factor in enumerate(column):
            if k != out and factor:
                self.inverse[k] = [a - factor * b for a, b in zip(self.inverse[k], pivot, strict=True)]
                self.amounts[k] -= factor * amount
        self.inverse[out], self.amounts[out] = pivot, amount
        self.columns[out], self.costs[out] = pattern, cost

    def shares(self) -> tuple[tuple[Pattern, Fraction], ...]:
        """The patterns in use, and how often each is cut."""
        return tuple(
            (pattern, amount)
            for pattern, cost, amount in zip(self.columns, self.costs, self.amounts, strict=True)
            if cost and amount > 0
        )
