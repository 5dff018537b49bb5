"""Patterns by which a bar is cut, in whole numbers: the worthiest, and bars filled one by one.

A pattern says how many pieces of each kind one bar gives. A piece takes its length and one saw cut, and
a bar has room for its own length and one saw cut, since the last cut may run out of its end: so whatever
fits is what adds up to no more than the room.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

#: How many pieces of each kind a bar gives, the longest kind first.
Pattern = tuple[int, ...]
#: Bars that are cut alike, and how many of them.
Repeated = tuple[Pattern, int]


@dataclass
class StepsLeft:
    """Steps that a search may still take: it is bounded in work, not in time, and so always ends alike."""

    left: int

    def spend(self) -> bool:
        """Take one step; False when there is none left."""
        self.left -= 1
        return self.left >= 0


def worthiest(
    values: Sequence[int], sizes: Sequence[int], counts: Sequence[int], room: int, work: StepsLeft
) -> tuple[Pattern, int, bool]:
    """The pattern of the most value that fits, its value, and whether the search came to its end.

    Depth first, the most value for its size first; what the rest could add at best ends a branch.
    """
    order = sorted((k for k in range(len(sizes)) if values[k] > 0), key=lambda k: -values[k] / sizes[k])
    best, most = [0] * len(sizes), 0
    taken = [0] * len(sizes)

    def go(place: int, room: int, value: int) -> bool:
        nonlocal most, best
        if value > most:
            most, best = value, taken.copy()
        if place == len(order):
            return True
        k = order[place]
        # No more value for its size is to come than that of this kind, and values are whole numbers.
        if value + room * values[k] // sizes[k] <= most:
            return True
        for many in range(min(counts[k], room // sizes[k]), -1, -1):
            if not work.spend():
                return False
            taken[k] = many
            done = go(place + 1, room - many * sizes[k], value + many * values[k])
            taken[k] = 0
            if not done:
                return False
        return True

    done = go(0, room, 0)
    return tuple(best), most, done


def greedy(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[Repeated]:
    """Each bar filled with the longest pieces that still fit (first fit, decreasing)."""

    def fill(left: Sequence[int]) -> Pattern:
        taken, free = [], room
        for size, many in zip(sizes, left, strict=True):
            taken.append(min(many, free // size))
            free -= taken[-1] * size
        return tuple(taken)

    return list(_repeated(counts, fill))


def fullest(sizes: Sequence[int], counts: Sequence[int], room: int, steps: int) -> list[Repeated]:
    """Each bar filled so that least is left over, with at least one of the longest pieces that remain."""

    def fill(left: Sequence[int]) -> Pattern:
        longest = next(k for k, many in enumerate(left) if many)
        rest = [many - (k == longest) for k, many in enumerate(left)]
        filled, _, _ = worthiest(sizes, sizes, rest, room - sizes[longest], StepsLeft(steps))
        return tuple(many + (k == longest) for k, many in enumerate(filled))

    return list(_repeated(counts, fill))


def _repeated(counts: Sequence[int], fill: object) -> Iterator[Repeated]:
    """Bars by `fill`, each repeated as long as what is left has all that it holds."""
    left = list(counts)
    assert callable(fill)
    while any(left):
        pattern: Pattern = fill(left)
        times = min(many // taken for many, taken in zip(left, pattern, strict=True) if taken)
        yield pattern, times
        left = less(left, pattern, times)


def less(counts: Sequence[int], pattern: Pattern, times: int = 1) -> list[int]:
    """What is left of `counts` when so many bars are cut by a pattern."""
    return [many - taken * times for many, taken in zip(counts, pattern, strict=True)]


def bars_in(patterns: Sequence[Repeated]) -> int:
    """How many bars these are."""
    return sum(times for _, times in patterns)


def in_so_many(
    sizes: Sequence[int], counts: Sequence[int], room: int, bars: int, work: StepsLeft
) -> tuple[list[Pattern] | None, bool]:
    """The pieces laid out in at most so many bars, or None; and whether the search came to its end.

    The longest piece that is left goes into the next bar, beside whatever may stand there with it; a bar
    with room for one more piece need not be tried. All bars together may waste so much and no more.
    """
    failed: set[tuple[tuple[int, ...], int]] = set()
    cut: list[Pattern] = []

    def go(left: list[int], bars: int, spare: int) -> bool | None:
        """Whether the rest fits; None when the work is used up."""
        if not any(left):
            return True
        state = tuple(left), bars
        if bars == 0 or spare < 0 or state in failed:
            return False
        longest = next(k for k, many in enumerate(left) if many)
        for pattern, waste in _maximal(sizes, left, room, longest, spare, work):
            cut.append(pattern)
            fits = go(less(left, pattern), bars - 1, spare - waste)
            if fits or fits is None:
                return fits
            cut.pop()
        if work.left < 0:
            return None
        failed.add(state)
        return False

    needed = sum(size * many for size, many in zip(sizes, counts, strict=True))
    fits = go(list(counts), bars, bars * room - needed)
    return (cut if fits else None), fits is not None


def _maximal(
    sizes: Sequence[int], left: Sequence[int], room: int, longest: int, spare: int, work: StepsLeft
) -> Iterator[tuple[Pattern, int]]:
    """Patterns with the longest piece that no further piece fits into and that waste at most `spare`; with the waste."""
    taken = [0] * len(sizes)

    def go(place: int, free: int, smallest_left: int | None) -> Iterator[tuple[Pattern, int]]:
        if not work.spend():
            return
        if place == len(sizes):
            if free <= spare and (smallest_left is None or smallest_left > free):
                yield tuple(taken), free
            return
        size, many = sizes[place], left[place]
        if not many:
            yield from go(place + 1, free, smallest_left)
            return
        for number in range(min(many, free // size), (1 if place == longest else 0) - 1, -1):
            taken[place] = number
            yield from go(place + 1, free - number * size, size if number < many else smallest_left)
        taken[place] = 0

    yield from go(0, room, None)
