"""Cut from bars: pieces laid out on bars of one length with the saw's own width, in the fewest bars.

Lengths are whole numbers of their largest common division, so nothing is rounded. Several ways of laying
out are tried, and the best is kept; a lower bound, or a search that comes to its end, proves it the least.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor, lcm
from typing import Any, ClassVar

from fractions_shop.errors import ArgumentError, ShopError
from fractions_shop.layout.bar_bound import bound
from fractions_shop.layout.bar_patterns import (
    Pattern,
    Repeated,
    StepsLeft,
    bars_in,
    fullest,
    greedy,
    in_so_many,
    less,
)
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, as_length, options_by_name
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told

#: Steps of one filling or bound, and of the search for fewer bars: some tenths of a second in all.
_STEPS, _SEARCH = 2_000, 60_000
#: More bars than this are not searched one by one.
_BARS = 150
#: So many pieces of one part, and so many parts.
MOST_PIECES, MOST_PARTS = 1_000_000, 500


@dataclass(frozen=True)
class Cut:
    """So many pieces of one part next to one another in a bar."""

    name: str
    size: Quantity
    count: int


@dataclass(frozen=True)
class Bar:
    """Bars cut alike, `times` of them: the pieces in the order of cutting, and what is `left` of each bar."""

    times: int
    cuts: tuple[Cut, ...]
    left: Quantity


@dataclass(frozen=True, repr=False)
class Cutting(Told):
    """Pieces laid out on bars; `many` bars, of which `at_least` are needed in any case.

    `proved` says that no fewer will do. `needed` is the length of all pieces, without saw cuts.

    >>> cutting = cut_from("100 in", {"rail": ("45 in", 3), "post": ("36 in", 2)})
    >>> [[(cut.count, cut.name) for cut in bar.cuts] for bar in cutting.bars], cutting.at_least
    ([[(2, 'rail')], [(1, 'rail'), (1, 'post')], [(1, 'post')]], 3)
    """

    told_as: ClassVar[str] = "bars"
    #: What is told beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("many", "proved", "needed")

    length: Quantity
    saw: Quantity
    bars: tuple[Bar, ...]
    at_least: int

    @property
    def many(self) -> int:
        """How many bars it takes."""
        return sum(bar.times for bar in self.bars)

    @property
    def proved(self) -> bool:
        """Whether no layout at all takes fewer bars."""
        return self.many == self.at_least

    @property
    def needed(self) -> Quantity:
        """The length of all pieces together, saw cuts left out."""
        zero = self.length * 0
        return sum((cut.size * cut.count * bar.times for bar in self.bars for cut in bar.cuts), zero)

    @property
    def left(self) -> Quantity:
        """What is left of all bars together, saw cuts not counted."""
        return sum((bar.left * bar.times for bar in self.bars), self.length * 0)


@dataclass(frozen=True)
class TooLong(ShopError):
    """A piece that is longer than the bar it is to be cut from."""

    name: str
    size: Quantity
    length: Quantity

    def __str__(self) -> str:
        from fractions_shop.figures.wording import both

        called = f"{self.name}, " if self.name else "a piece of "
        over = self.size - self.length
        return f"{called}{both(self.size)}, is longer than the bar, {both(self.length)}: by {both(over)}"


_PIECES = "pieces have each a size and how many, {'runner': ('11 in', 24)}"


@options_by_name("cut_from('36 in', {'runner': ('11 in', 24)}, saw='1/32 in')")
def cut_from(
    bar: SizeLike, pieces: Mapping[str, tuple[SizeLike | Limits, int]], *, saw: SizeLike = "0 in"
) -> Cutting:
    """Pieces laid out on bars of one length, in the fewest bars that are found, each cut taking the width of the `saw`.

    `pieces` has for each name a size (or its limits, which count by the largest) and how many. The first end of a
    bar is taken as square; a cut is made behind every piece, and the last one may run out of the end. `at_least`
    is a lower bound: where `many` equals it, no layout takes fewer (`proved`). The work is bounded, not the time.

    TooLong for a piece that no bar holds; ShopError for sizes not above zero.

    >>> cutting = cut_from("36 in", {"runner": ("11 in", 24)}, saw="1/32 in")
    >>> cutting.many, cutting.proved
    (8, True)
    """
    length = above_zero(bar, "the bar's length")
    width = as_length(saw)
    if width.value < 0:
        raise ShopError("the saw's width cannot be below zero")
    if not isinstance(pieces, Mapping):
        raise ArgumentError(f"{_PIECES}, not {type(pieces).__name__}")
    wanted = [_wanted(name, each) for name, each in pieces.items()]
    if not wanted:
        raise ArgumentError("there is nothing to cut: name at least one piece")
    if len(wanted) > MOST_PARTS:
        raise ShopError(f"at most {MOST_PARTS:,} parts are laid out at once")
    for cut in wanted:
        above_zero(cut.size, "a piece's length")
        if cut.size > length:
            raise TooLong(cut.name, cut.size, length)
    return _laid_out(length, width, wanted)


def _wanted(name: str, each: Any) -> Cut:
    if not isinstance(each, tuple | list) or len(each) != 2:
        raise ArgumentError(f"{_PIECES}, not {name!r}: {each!r}")
    size, many = each
    return Cut(name, _largest(size), _counted(name, many))


def _largest(size: SizeLike | Limits) -> Quantity:
    return size.upper if isinstance(size, Limits) else as_length(size)


def _counted(name: str, many: int) -> int:
    return as_count(many, f"how many of {name}" if name else "how many", MOST_PIECES)


def _laid_out(length: Quantity, saw: Quantity, wanted: Sequence[Cut]) -> Cutting:
    scale = lcm(*(each.value.denominator for each in (length, saw, *(cut.size for cut in wanted))))
    room = int((length + saw).value * scale)
    by_size: dict[int, list[Cut]] = {}
    for cut in wanted:
        by_size.setdefault(int((cut.size + saw).value * scale), []).append(cut)
    sizes = sorted(by_size, reverse=True)
    counts = [sum(cut.count for cut in by_size[size]) for size in sizes]
    patterns, least = fewest(sizes, counts, room)
    return Cutting(
        length, saw, tuple(_named(patterns, [by_size[size] for size in sizes], length, saw)), least
    )


def fewest(sizes: Sequence[int], counts: Sequence[int], room: int) -> tuple[list[Repeated], int]:
    """Patterns and how often each is cut, and the number of bars that is needed at least; `sizes` longest first."""
    bounded = bound(sizes, counts, room, _STEPS)
    ways = [greedy(sizes, counts, room), fullest(sizes, counts, room, _STEPS)]
    whole, left = _whole_shares(bounded.shares, counts)
    if whole and any(left):
        ways += [[*whole, *greedy(sizes, left, room)], [*whole, *fullest(sizes, left, room, _STEPS)]]
    elif whole:
        ways.append(whole)
    best = min(ways, key=bars_in)
    least = bounded.least
    for fixed, rest in ((whole, left), ([], list(counts))):
        while least < bars_in(best) and 0 < (bars := least - bars_in(fixed)) <= _BARS:
            laid_out, ended = in_so_many(sizes, rest, room, bars, StepsLeft(_SEARCH))
            if laid_out is not None:
                best = [*fixed, *((pattern, 1) for pattern in laid_out)]
            elif ended and not fixed:
                least += 1
            else:
                break
    return best, least


def _whole_shares(
    shares: Sequence[tuple[Pattern, Fraction]], counts: Sequence[int]
) -> tuple[list[Repeated], list[int]]:
    """How often each pattern is cut in whole bars of those that the bound found, and what is left to cut."""
    left, whole = list(counts), []
    for pattern, amount in shares:
        fits = min(many // taken for many, taken in zip(left, pattern, strict=True) if taken)
        times = min(floor(amount), fits)
        if times:
            whole.append((pattern, times))
            left = less(left, pattern, times)
    return whole, left


def _named(
    patterns: Sequence[Repeated], kinds: Sequence[Sequence[Cut]], length: Quantity, saw: Quantity
) -> list[Bar]:
    """Bars of named pieces: parts of one length are cut in turn, the first to its last piece."""
    waiting = [[[cut, cut.count] for cut in kind] for kind in kinds]
    bars: dict[tuple[Cut, ...], int] = {}
    for pattern, times in patterns:
        while times:
            cuts: list[Cut] = []
            for taken, queue in zip(pattern, waiting, strict=True):
                cuts += _taken(queue, taken)
            again = min(_left_of(waiting, cut) // cut.count for cut in cuts)
            many = min(times, max(again, 1))
            for cut in cuts:
                _take(waiting, cut, many)
            key = tuple(cuts)
            bars[key] = bars.get(key, 0) + many
            times -= many
    return [Bar(times, cuts, _left(cuts, length, saw)) for cuts, times in bars.items()]


def _taken(queue: list[list[Any]], many: int) -> list[Cut]:
    """The next so many pieces of one length, by name."""
    cuts = []
    for cut, left in queue:
        number = min(many, left)
        if number:
            cuts.append(Cut(cut.name, cut.size, number))
            many -= number
    return cuts


def _left_of(waiting: Sequence[list[list[Any]]], wanted: Cut) -> int:
    number: int = next(left for queue in waiting for cut, left in queue if cut.name == wanted.name)
    return number


def _take(waiting: Sequence[list[list[Any]]], wanted: Cut, bars: int) -> None:
    for queue in waiting:
        for entry in queue:
            if entry[0].name == wanted.name:
                entry[1] -= wanted.count * bars


def _left(cuts: Sequence[Cut], length: Quantity, saw: Quantity) -> Quantity:
    """What is left behind the last cut; nothing where that cut runs out of the bar's end."""
    used = sum(((cut.size + saw) * cut.count for cut in cuts), length * 0)
    return max(length - used, length * 0)
