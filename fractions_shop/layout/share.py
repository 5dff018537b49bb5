"""Share: so many pieces of one size and so many of another that make a total, each on a rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Any, ClassVar, Generic, TypeVar

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.layout.room import Moving, OneOfSeveral
from fractions_shop.layout.whole_numbers import DivisionRange, Mixture, most_readable, next_totals
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, as_length, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_direction, as_rule
from fractions_shop.size.told import Told

#: So many ways are as many as a person weighs against one another.
SHOWN = 12
#: Of so many kinds at most, and so many pieces of a kind.
_KINDS, _PIECES = 3, 1000


@dataclass(frozen=True)
class Choice:
    """One way to share: the `sizes`, one for each count, which make `total`.

    `rule` is the coarsest that carries every one of them, and `change` what the total
    moves by (above zero when it grows).
    """

    sizes: tuple[Quantity, ...]
    total: Quantity
    change: Quantity
    rule: Rule

    @property
    def division(self) -> Quantity:
        """The coarsest division of which all the sizes are whole numbers."""
        return self.rule.division


_W = TypeVar("_W", bound=Moving)


class Ways(OneOfSeveral, Generic[_W]):
    """An answer that lists the ways to make a total, and the nearest totals that have one where it has none."""

    direction: str
    choices: tuple[_W, ...]
    below: _W | None
    above: _W | None

    @property
    def chosen(self) -> _W:
        """The first choice, else the nearest total in the direction asked for (the lower of a tie)."""
        if self.choices:
            return self.choices[0]
        if self.direction == "up":
            if self.above is None:
                raise NoAnswer("no total so great can be made of these sizes")
            return self.above
        if self.direction == "down":
            if self.below is None:
                raise NoAnswer("no total so small can be made of these sizes")
            return self.below
        nearest = (way for way in (self.below, self.above) if way is not None)
        return min(nearest, key=lambda way: abs(way.change))


@dataclass(frozen=True, repr=False)
class Share(Told, Ways[Choice]):
    """The answer to `share`.

    `choices` make the total asked for exactly: the most readable first, of those as
    readable the most alike; `many` is how many there are in all. When there is none,
    `below` and `above` are the nearest totals that can be shared so, each in its most
    readable way; None where there is no such total, and both when there are choices.

    >>> [str(size) for size in share("2 5/8 in", (4, 2)).choices[0].sizes]
    ['7/16 in', '7/16 in']
    """

    told_as: ClassVar[str] = "share"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("sizes", "total", "change", "exact")

    asked: Quantity
    counts: tuple[int, ...]
    rule: Rule
    direction: str
    least: Quantity | None
    most: Quantity | None
    choices: tuple[Choice, ...]
    many: int
    below: Choice | None
    above: Choice | None

    @property
    def sizes(self) -> tuple[Quantity, ...]:
        """The sizes of the way chosen, one for each count."""
        return self.chosen.sizes

    @property
    def division(self) -> Quantity:
        """The coarsest division that carries them."""
        return self.chosen.division

    @property
    def exact(self) -> Quantity:
        """The size of every piece if all were alike, whether or not the rule has it."""
        return self.asked / sum(self.counts)


@options_by_name("share('2 5/8 in', (4, 2), least='1/4 in')")
def share(
    size: SizeLike,
    counts: Sequence[int],
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    least: SizeLike | None = None,
    most: SizeLike | None = None,
    shown: int = SHOWN,
) -> Share:
    """The ways to make `size` of `counts` pieces: so many of one size, so many of another.

    `counts` are two or three. Every size is on `rule`, above zero, and from `least`
    to `most` where they are given. All ways are counted and the first `shown` given;
    which come first is `Rule.readability`, then the least difference between the sizes.
    No way is left out (in divisions of the rule, A a + B b = T is solved in whole
    numbers). Where there is none, the nearest totals that have one; `direction`
    (nearest, up or down) then says which is chosen.

    ShopError for a total or limits not above zero, limits with no division of the rule
    between them, or more ways of three kinds than can be counted.

    >>> found = share("2 5/8 in", (4, 2))
    >>> [[str(size.inch) for size in way.sizes] for way in found.choices[:2]], found.many
    ([['7/16', '7/16'], ['3/8', '9/16']], 41)
    >>> [str(size.inch) for size in share("2 5/8 in", (4, 2), least="13/32 in", most="1/2 in").choices[1].sizes]
    ['13/32', '1/2']
    """
    total, rule = above_zero(size, "the total to share"), as_rule(rule)
    as_direction(direction)
    kinds = _counts(counts)
    among = range_on(rule, least, most)
    mixture = Mixture(kinds, (among,) * len(kinds))
    ways = ways_to_make(mixture, total, rule, as_count(shown, "how many ways are shown"))
    return Share(
        total, kinds, rule, direction,
        None if least is None else as_length(least), None if most is None else as_length(most),
        *ways,
    )  # fmt: skip


def ways_to_make(
    mixture: Mixture, total: Quantity, rule: Rule, shown: int
) -> tuple[tuple[Choice, ...], int, Choice | None, Choice | None]:
    """The first choices, how many there are, and the nearest totals below and above when there is none."""
    step = rule.division.mm
    wanted = total.mm / step

    def choices(divisions: int, most: int) -> tuple[Choice, ...]:
        made = Quantity(divisions * step)
        return tuple(
            Choice(
                tuple(Quantity(n * step) for n in sizes),
                made,
                made - total,
                rule.coarser[rule.multiples.index(multiple)],
            )
            for multiple, sizes in most_readable(mixture, divisions, rule, most)
        )

    def nearest(divisions: int | None) -> Choice | None:
        return None if divisions is None else choices(divisions, 1)[0]

    many = mixture.many(int(wanted)) if wanted.denominator == 1 else 0
    if many:
        return choices(int(wanted), shown), many, None, None
    below, above = next_totals(mixture, wanted)
    return (), 0, nearest(below), nearest(above)


def range_on(rule: Rule, least: Any, most: Any) -> DivisionRange:
    """The divisions of `rule` from `least` to `most`, from one division where nothing was given."""
    step = rule.division.mm
    low = 1 if least is None else ceil(_limit(least, "the least size") / step)
    high = None if most is None else floor(_limit(most, "the greatest size") / step)
    if high is not None and high < low:
        raise ShopError(f"no division of {rule.name} lies between the least size and the greatest")
    return DivisionRange(low, high)


def _limit(size: Any, what: str) -> Fraction:
    return above_zero(size, what).mm


def _counts(counts: Any) -> tuple[int, ...]:
    if isinstance(counts, (str, int, Quantity)) or not isinstance(counts, Sequence):
        raise ShopError("how many pieces of each size are given together, such as (4, 2)")
    if not 2 <= len(counts) <= _KINDS:
        raise ShopError(f"a total is shared among two or three kinds of piece, not {len(counts)}")
    return tuple(as_count(n, "the number of pieces of a size", _PIECES) for n in counts)
