"""Pack: the fewest shims that make a height, exactly, or the heights next to it.

All shims are whole numbers of their largest common division, so a set of heights is one
long whole number, bit n standing for n divisions, and laying a shim on every stack is
one shift of it. Stacks of at most 0, 1, 2 ... shims follow one another until the height
appears; nothing is tried twice and nothing is rounded. Where each shim is used once, the
last figures of a height mostly settle it first (`last_figures`), in a small part of the time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, isqrt, lcm
from typing import Any, ClassVar, NamedTuple

from fractions_shop.errors import ShopError
from fractions_shop.layout.last_figures import fewest_of
from fractions_shop.size.arguments import SizeLike, above_zero, as_length, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.tables.nearest import Stock

#: What shims are taken from: one size, several, sizes with names, or things that have both.
StockLike = SizeLike | Mapping[str, SizeLike] | Sequence[SizeLike | tuple[str, SizeLike] | Stock]
#: So many common divisions to the height at most, and so many sizes.
_DIVISIONS, _SIZES = 4_000_000, 500
#: So many bits to shift and to keep in all: a seventh of a second, some tens of megabytes.
_WORK, _KEPT = 1_500_000_000, 200_000_000
#: Nobody stacks more shims than this.
_PIECES = 1000


@dataclass(frozen=True)
class Stack:
    """Shims of `total` height, thickest first; `error` is the total less the height asked for.

    `names` goes with `pieces`; it is empty text for a shim that was given without one.
    """

    pieces: tuple[Quantity, ...]
    names: tuple[str, ...]
    total: Quantity
    error: Quantity


@dataclass(frozen=True, repr=False)
class Pack(Told):
    """The answer to `pack`.

    `nearest` is the stack chosen: exact where one is, else the nearer of `below` and
    `above` (fewer shims when they are as near, then the lower). Those two are None when
    the height is met, and where there is no stack on that side. `marked_in` is the unit, in or mm, in whose
    decimals gauge blocks are marked, and so told; empty for shims.

    >>> pack("1/2 in", ["1/4 in"])
    <Pack: 2 of 1/4 in (6.35 mm) (2 pieces), exact>
    """

    told_as: ClassVar[str] = "pack"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "pieces",
        "total",
        "error",
        "exact",
    )

    height: Quantity
    each_once: bool
    nearest: Stack
    below: Stack | None
    above: Stack | None
    marked_in: str = ""

    @property
    def pieces(self) -> tuple[Quantity, ...]:
        """The shims of the stack chosen, thickest first."""
        return self.nearest.pieces

    @property
    def names(self) -> tuple[str, ...]:
        """Their names, in the same order."""
        return self.nearest.names

    @property
    def total(self) -> Quantity:
        """What they add up to."""
        return self.nearest.total

    @property
    def error(self) -> Quantity:
        """The total less the height asked for."""
        return self.nearest.error

    @property
    def exact(self) -> bool:
        """Whether the height is met."""
        return self.error.value == 0


class _Shim(NamedTuple):
    size: Quantity
    name: str
    units: int


@options_by_name("pack('1/2 in', ['1/4 in', '3/32 in'], each_once=True)")
def pack(height: SizeLike, stock: StockLike, *, each_once: bool = False) -> Pack:
    """The fewest shims from `stock` that make `height`; of as few, the thicker first.

    `stock` holds sizes (Quantity, text or a pint length), or pairs of a name and a size,
    or things that have both (such as `stock` and `blocks` give), or maps names to sizes.
    Each may be used any number of times, or with `each_once` as often as it is listed; a
    set of gauge blocks has each once in any case. When no stack is exact, the nearest
    below and above are given.

    ShopError for sizes not above zero, an empty stock, or a stock whose common division
    is too fine to work through.

    >>> made = pack("5/8 in", ["1/4 in", "1/8 in", "3/16 in"])
    >>> [str(piece.inch) for piece in made.pieces]
    ['1/4', '1/4', '1/8']
    """
    if not isinstance(each_once, bool):
        raise ShopError("each_once is True or False; several shims are given as one list")
    goal = above_zero(height, "the height to pack")
    marked_in = str(getattr(stock, "marked_in", ""))
    each_once = each_once or getattr(stock, "each_once", False) is True
    shims, division = _divided(_listed(stock))
    # The height need not be a multiple of what the shims have in common: then no stack of them makes it.
    wanted = goal.mm / division
    # No stack is higher than all the shims together, where each is used once.
    most = Fraction(sum(shim.units for shim in shims)) if each_once else wanted
    _bounded(min(wanted, most) + max(shim.units for shim in shims), division)
    shims.sort(key=lambda shim: -shim.units)
    if not each_once:
        shims = list({shim.units: shim for shim in reversed(shims)}.values())[::-1]

    target = int(min(wanted, most))
    exact, below, above = _around(shims, target, target == wanted, each_once)
    if exact:
        return Pack(goal, each_once, _stack(exact, goal), None, None, marked_in)
    lower, upper = (_stack(shims, goal) if shims else None for shims in (below, above))
    return Pack(goal, each_once, _nearer(lower, upper), lower, upper, marked_in)


def _stack(shims: Sequence[_Shim], goal: Quantity) -> Stack:
    total = sum((shim.size for shim in shims), Quantity(Fraction(0)))
    return Stack(tuple(shim.size for shim in shims), tuple(shim.name for shim in shims), total, total - goal)


#: The shims that make the height, or else those of the heights next to it; none is no such stack.
_Around = tuple[Sequence[_Shim], Sequence[_Shim], Sequence[_Shim]]


def _around(shims: Sequence[_Shim], target: int, whole: bool, each_once: bool) -> _Around:
    """Stacks of `target` divisions, if the height is `whole`, or of those next below and above it."""
    if each_once:
        # Most heights, and most between two divisions, are settled without every height's being known.
        if whole and (exact := _by_last_figures(shims, target)):
            return exact, (), ()
        if (
            not whole
            and (below := _by_last_figures(shims, target))
            and (above := _by_last_figures(shims, target + 1))
        ):
            return (), below, above
    heights = _reached(shims, target, each_once)
    fewest = _fewest_once if each_once else _fewest
    if whole and heights >> target & 1:
        return fewest(shims, target), (), ()
    lower = (heights & ((1 << target + 1) - 1)).bit_length() - 1
    higher = heights >> target + 1
    upper = target + (higher & -higher).bit_length() if higher else 0
    return (), fewest(shims, lower) if lower else (), fewest(shims, upper) if upper else ()


def _by_last_figures(shims: Sequence[_Shim], target: int) -> list[_Shim]:
    """The fewest shims that make `target`, if that is found soon."""
    return [shims[place] for place in fewest_of([shim.units for shim in shims], target) or ()]


def _nearer(below: Stack | None, above: Stack | None) -> Stack:
    stacks = [stack for stack in (below, above) if stack is not None]
    return min(stacks, key=lambda stack: (abs(stack.error), len(stack.pieces), stack.total))


def _listed(stock: Any) -> list[tuple[Quantity, str]]:
    """The stock as sizes with names, each a length above zero."""
    if isinstance(stock, Mapping):
        stock = list(stock.items())
    if isinstance(stock, str) or not isinstance(stock, Sequence):
        stock = [stock]
    listed = []
    for item in stock:
        if isinstance(item, tuple) and len(item) == 2:
            name, size = item
        elif hasattr(item, "name") and hasattr(
            item, "size"
        ):  # many times as quick as asking for the Protocol
            name, size = item.name, item.size
        else:
            name, size = "", item
        length = as_length(size)
        if length.value.numerator <= 0:
            raise ShopError("a shim must be thicker than zero")
        listed.append((length, str(name)))
    if not 1 <= len(listed) <= _SIZES:
        raise ShopError(f"a stock of 1 to {_SIZES} shims is needed to pack from, not {len(listed)}")
    return listed


def _divided(listed: Sequence[tuple[Quantity, str]]) -> tuple[list[_Shim], Fraction]:
    """Each as so many of the largest length that goes into them all, and that length in mm."""
    lengths = [size.mm for size, _ in listed]
    below = lcm(*(length.denominator for length in lengths))
    over = [length.numerator * (below // length.denominator) for length in lengths]
    common = gcd(*over)
    return (
        [_Shim(size, name, whole // common) for (size, name), whole in zip(listed, over, strict=True)],
        Fraction(common, below),
    )


def _bounded(units: Fraction, division: Fraction) -> None:
    if units > _DIVISIONS:
        raise ShopError(
            f"these shims have only {division} mm in common, which goes {int(units):,} times into the "
            f"height and the thickest shim ({_DIVISIONS:,} is the most): round the shims, or keep to "
            "inch or to metric ones"
        )


def _reached(shims: Sequence[_Shim], target: int, each_once: bool) -> int:
    """Every height that some stack has, up to the first above the target.

    A stack just above the target falls to it or below by any shim taken off, so it is
    higher by no more than its thinnest shim.
    """
    top = target + max(shim.units for shim in shims)
    steps = len(shims) if each_once else sum((top // shim.units).bit_length() for shim in shims)
    if top * steps > _WORK:
        raise ShopError(
            "these shims have too little in common to try so many: pack it from fewer of them, or round them"
        )
    inside = (1 << (top + 1)) - 1
    heights = 1
    for shim in shims:
        shift = shim.units
        # Doubling the shift lays any number of shims in as many steps as that number has bits.
        while shift <= top:
            heights |= heights << shift & inside
            if each_once:
                break
            shift *= 2
    return heights


def _fewest(shims: Sequence[_Shim], target: int) -> list[_Shim]:
    """The stack of `target` with the fewest shims, each free to repeat, thickest first."""
    inside = (1 << (target + 1)) - 1
    usable = [shim for shim in shims if shim.units <= target]
    levels = [1]  # levels[n]: the heights of at most n shims
    while not levels[-1] >> target & 1:
        last = levels[-1]
        new = last
        for shim in usable:
            new |= last << shim.units
        levels.append(new & inside)
        if (
            len(levels) * len(usable) * target > _WORK
            or len(levels) * target > _KEPT
            or len(levels) > _PIECES + 1
        ):
            raise ShopError("that takes too many thin shims to work out: pack it from thicker ones")
    chosen = []
    for level in reversed(levels[:-1]):
        shim = next(s for s in usable if s.units <= target and level >> (target - s.units) & 1)
        chosen.append(shim)
        target -= shim.units
    return chosen


def _fewest_once(shims: Sequence[_Shim], target: int) -> list[_Shim]:
    """The same with each shim used once at most."""
    if target == sum(shim.units for shim in shims):
        return [*shims]
    if soon := _by_last_figures(shims, target):
        return soon
    usable = [shim for shim in shims if shim.units <= target]
    count = _count_once(usable, target)
    chosen = []
    for shim, rest in zip(usable, _counted_down(usable, target, count), strict=False):
        left = target - shim.units
        if count and left >= 0 and rest[count - 1] >> left & 1:
            chosen.append(shim)
            target, count = left, count - 1
            if not count:
                break
    return chosen


def _count_once(usable: Sequence[_Shim], target: int) -> int:
    """How few shims, each used once at most, make `target`: a few are tried before many."""
    most = 4
    while True:
        if most * len(usable) * target > _WORK:
            raise ShopError("that takes too many thin shims to work out: pack it from thicker ones")
        *_, heights = _counting(usable[::-1], target, _none(most))
        for count, level in enumerate(heights):
            if level >> target & 1:
                return count
        most *= 2


def _counted_down(usable: Sequence[_Shim], target: int, most: int) -> Iterator[list[int]]:
    """For each of `usable` (thickest first): the heights of exactly n, n to `most`, of those after it.

    They are worked out from the thinnest up and wanted from the thickest down, so every
    so many are kept, and those between are worked out again from there.
    """
    thinnest_first = usable[::-1]
    step = isqrt(len(usable)) + 1
    if 2 * step * most * target > _KEPT:
        raise ShopError("that takes too many thin shims to work out: pack it from thicker ones")
    kept = [
        heights
        for place, heights in enumerate(_counting(thinnest_first, target, _none(most)))
        if place % step == 0
    ]
    for place in reversed(range(0, len(usable), step)):
        between = _counting(thinnest_first[place : place + step], target, kept[place // step])
        yield from [*between][-2::-1]


def _none(most: int) -> list[int]:
    """The heights of exactly n shims, n to `most`, before there is any shim: zero, of none."""
    return [1] + [0] * most


def _counting(shims: Sequence[_Shim], target: int, heights: list[int]) -> Iterator[list[int]]:
    """The heights of exactly n shims, and again after each more of `shims` that may be laid."""
    inside = (1 << (target + 1)) - 1
    yield heights
    for shim in shims:
        laid = [level << shim.units & inside for level in heights[:-1]]
        heights = [1, *(level | more for level, more in zip(heights[1:], laid, strict=True))]
        yield heights
