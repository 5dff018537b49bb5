"""The fewest shims, each used once at most, that make a height: settled from its last figure.

So gauge blocks are wrung at the bench: first the block that takes the last figure away, then
the one for the figure before it, and so on to the whole inches. Here the figures are the
steps of the shims themselves: the thicker shims have a coarser step in common, so what the
height is over that step only the finer shims can bring. Every way is tried with one shim,
then with two, so the first number that does it is the fewest, and nothing is left out.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from math import gcd

#: So many shims are tried before it is left to another way: some milliseconds.
_TRIED = 30_000


def fewest_of(sizes: Sequence[int], target: int) -> list[int] | None:
    """The places in `sizes` of the fewest that make `target`; of as few, those that come first.

    `sizes` are whole numbers above zero, largest first. None when that takes too long to
    find, or when there is no such stack: the two are not told apart.
    """
    search = _StackSearch(sizes, target)
    try:
        for count in range(1, len(sizes) + 1):
            search.from_group(0, count, target)
            if search.best:
                return search.best
    except _TriedTooMany:
        pass
    return None


class _TriedTooMany(Exception):
    """More shims were tried than is worth while."""


class _OfOneStep:
    """Shims that are multiples of one step and not of the next coarser one, `over`."""

    def __init__(self, over: int) -> None:
        self.over = over
        #: Place and size of each, thickest first; and the same by what they are over the coarser step.
        self.shims: list[tuple[int, int]] = []
        self.by_rest: dict[int, list[tuple[int, int]]] = {}
        #: All sizes of this group and the coarser ones, thinnest first.
        self.sizes: list[int] = []


class _StackSearch:
    """Every stack of so many shims that makes the target, of which the best is kept."""

    def __init__(self, sizes: Sequence[int], target: int) -> None:
        self.groups = _groups(sizes, target)
        self.best: list[int] = []
        self.laid: list[int] = []
        self.left = _TRIED

    def from_group(self, at: int, count: int, rest: int) -> None:
        """Lay `count` more shims, from the group `at` and coarser ones, that make `rest`."""
        if not count:
            if not rest and (not self.best or sorted(self.laid) < self.best):
                self.best = sorted(self.laid)
            return
        if at == len(self.groups):
            return
        group = self.groups[at]
        if count * group.sizes[0] <= rest <= count * group.sizes[-1]:
            if not rest % group.over:
                self.from_group(at + 1, count, rest)
            self.in_group(at, 0, count, rest)

    def in_group(self, at: int, first: int, count: int, rest: int) -> None:
        """The same with one at least from the group `at`, none of its `first` thickest."""
        group = self.groups[at]
        # One more from this group: it must leave a multiple of the coarser step.
        beyond = group.shims[first - 1][0] if first else -1
        for place, size in group.by_rest.get(rest % group.over, ()):
            if place > beyond and size <= rest:
                self.laid.append(place)
                self.from_group(at + 1, count - 1, rest - size)
                self.laid.pop()
        if not self.has_room_for_two(group, count, rest):
            return
        self.left -= len(group.shims) - first
        if self.left < 0:
            raise _TriedTooMany
        for after in range(first + 1, len(group.shims)):
            place, size = group.shims[after - 1]
            if size < rest:
                self.laid.append(place)
                self.in_group(at, after, count - 1, rest - size)
                self.laid.pop()

    @staticmethod
    def has_room_for_two(group: _OfOneStep, count: int, rest: int) -> bool:
        """Whether two or more of a group may be among `count` shims of it and coarser ones that make `rest`."""
        if count < 2:
            return False
        least = rest - 2 * group.shims[0][1]
        if count == 2:
            return least <= 0
        if count == 3:
            # There must be a third that is neither too thin nor too thick.
            sizes = group.sizes
            at = bisect_left(sizes, least)
            return at < len(sizes) and sizes[at] <= rest - 2 * group.shims[-1][1]
        return True


def _groups(sizes: Sequence[int], target: int) -> list[_OfOneStep]:
    """The shims no thicker than the target, by their steps, finest first."""
    steps = [0]
    for size in sizes:
        if size % steps[-1] if steps[-1] else True:
            steps.append(gcd(steps[-1], size))
    # Beyond the coarsest step nothing may be left at all.
    groups = [_OfOneStep(over or target + 1) for over in steps[:-1]]
    for place, size in enumerate(sizes):
        if size <= target:
            at = 0
            while size % steps[at + 1]:
                at += 1
            group = groups[at]
            group.shims.append((place, size))
            group.by_rest.setdefault(size % group.over, []).append((place, size))
    groups = [group for group in groups if group.shims]
    within: list[int] = []
    for group in groups:
        within += [size for _, size in group.shims]
        group.sizes = sorted(within)
    return groups[::-1]
