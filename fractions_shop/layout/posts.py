"""Bodies inside two posts, and how many there are for a space of about, or at most, so much."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import Any, ClassVar, Literal, overload

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.figures.wording import both, rule_word
from fractions_shop.layout.room import NOTHING, Fixed
from fractions_shop.layout.spacing import Spacing, divide
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_rule
from fractions_shop.size.told import Told

#: Beside every answer that keeps gaps between bodies under a width.
GAP_CAUTION = (
    "where the gaps guard against a fall or keep a child out, local building codes set the widest gap "
    "and what the bars must bear: follow them and, where they ask for it, a licensed tradesman"
)
_MOST = 10_000


@dataclass(frozen=True, repr=False)
class HowMany(Told):
    """The answer to `how_many`: the numbers of spaces on either side of the one asked for.

    `fewer` spaces are wider than `about` and `more` of them narrower; both are the same
    where the space asked for comes out exactly. With `most`, `more` is the least number
    of spaces that are not wider, and `fewer` one less, which would be. Either is None
    where there is no room for it. Each has its `exact` space beside the one on the rule.

    >>> how_many("109 in", about="7 in")
    <HowMany: 9 ft 1 in (2768.6 mm) into 16 spaces comes nearest to 7 in (177.8 mm)>
    """

    told_as: ClassVar[str] = "divide"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("count", "body_count", "exact", "space", "caution")

    asked: Quantity
    about: Quantity | None
    most: Quantity | None
    fewer: Spacing | None
    more: Spacing | None

    @property
    def chosen(self) -> Spacing:
        """`more` where there is a widest space; else the nearer to the space asked for, `fewer` of a tie.

        NoAnswer where no number of spaces is narrow enough.
        """
        if self.most is not None:
            if self.more is None:
                raise NoAnswer("no number of spaces is so narrow: one more body has no room")
            return self.more
        either = [spacing for spacing in (self.fewer, self.more) if spacing is not None]
        wanted = self.about or NOTHING
        return min(either, key=lambda spacing: abs(spacing.exact - wanted))

    @property
    def count(self) -> int:
        """How many spaces."""
        return self.chosen.count

    @property
    def body_count(self) -> int:
        """How many bodies; 0 where none was given."""
        return self.chosen.body_count

    @property
    def exact(self) -> Quantity:
        """The space that the total gives, whether or not the rule has it."""
        return self.chosen.exact

    @property
    def space(self) -> Quantity:
        """The space on the rule."""
        return self.chosen.space

    @property
    def caution(self) -> str:
        """What to mind where the gaps between bodies keep something safe; else empty."""
        spacing = self.more or self.fewer
        return GAP_CAUTION if self.most is not None and spacing is not None and spacing.bodies else ""


@options_by_name("how_many('109 in', about='7 in')")
def how_many(
    size: SizeLike,
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    ends: SizeLike | None = None,
    bodies: SizeLike | None = None,
    about: SizeLike | None = None,
    most: SizeLike | None = None,
    outer: bool = True,
) -> HowMany:
    """How many equal spaces `size` has for a space of `about` so much, or at `most` so much.

    One of the two is given; `ends`, `bodies` and `outer` are as in `divide`. From
    n s + (n + 1) b = T the number is (T - b) / (s + b), or (T + b) / (s + b) with the
    bodies inside only; the whole numbers about it are the answer. A space that must not
    be wider is not rounded up on the rule beyond that either.

    >>> found = how_many("109 in", about="7 in")
    >>> found.fewer.count, str(found.fewer.exact.inch), found.more.count, str(found.more.exact.inch)
    (15, '109/15', 16, '109/16')
    >>> how_many("109 in", most="4 in").count
    28
    """
    total, rule = above_zero(size, "the total to divide"), as_rule(rule)
    if (about is None) == (most is None):
        raise ShopError("either about what space is wanted, or the most it may be, is given")
    wanted = above_zero(most if about is None else about, "the space wanted")
    if most is not None and wanted < rule.division:
        raise NoAnswer(f"no space on the {rule_word(rule)} is so narrow: the least is {both(rule.division)}")
    fixed = Fixed.given(ends, bodies, outer)
    room = total - 2 * fixed.end
    free = room - fixed.body if outer or fixed.bodies is None else room + fixed.body
    turns = (free / (wanted + fixed.body)).value
    upper = max(1, ceil(turns))
    lower = floor(turns) if most is None else upper - 1
    if upper > _MOST:
        raise ShopError(f"that makes more than {_MOST:,} spaces: take a wider one")

    def spacing(count: int) -> Spacing | None:
        if count < 1 or total <= fixed.taken(count):
            return None
        spaced = divide(total, count, rule, direction=direction, ends=ends, bodies=bodies, outer=outer)
        if most is None or spaced.space <= wanted or spaced.exact > wanted:
            return spaced
        return divide(total, count, rule, direction="down", ends=ends, bodies=bodies, outer=outer)

    fewer, more = spacing(lower), spacing(upper)
    if fewer is None and more is None:
        fixed.room(total, 1)  # raises: not even one space has room
    return HowMany(total, wanted if most is None else None, None if most is None else wanted, fewer, more)


@overload
def divide_for(
    size: SizeLike,
    count: int,
    of: SizeLike,
    rule: Rule | str = ...,
    *,
    direction: str = ...,
    ends: SizeLike | None = ...,
) -> Spacing: ...
@overload
def divide_for(
    size: SizeLike,
    count: Literal["any"],
    of: SizeLike,
    rule: Rule | str = ...,
    *,
    direction: str = ...,
    ends: SizeLike | None = ...,
    about: SizeLike | None = ...,
    most: SizeLike | None = ...,
) -> HowMany: ...


@options_by_name("divide_for('72 in', 13, '1 1/2 in', ends='1 in')")
def divide_for(
    size: SizeLike,
    count: int | Literal["any"],
    of: SizeLike,
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    ends: SizeLike | None = None,
    about: SizeLike | None = None,
    most: SizeLike | None = None,
) -> Spacing | HowMany:
    """`count` bodies of a width `of` inside two posts `size` apart, with a space at each end.

    They leave count + 1 spaces, so this is `divide` into that many with `outer=False`;
    `.other` is the same spaces with a body at each end too. For "any" number of bodies,
    `about` or at `most` how far they stand apart, it is `how_many` with them inside.

    >>> divide_for("72 in", 13, "1 1/2 in").space.inch
    Fraction(15, 4)
    >>> rail = divide_for("72 in", "any", "1 1/2 in", most="4 in")
    >>> rail.body_count, str(rail.exact.inch)
    (13, '15/4')
    """
    if count == "any":
        width = above_zero(of, "the width of a body")
        return how_many(
            size, rule, direction=direction, ends=ends, bodies=width, about=about, most=most, outer=False
        )
    if about is not None or most is not None:
        raise ShopError("how far apart is asked of any number of bodies, and here their number is given")
    return divide(size, _spaces(count), rule, direction=direction, ends=ends, bodies=of, outer=False)


def _spaces(bodies: Any) -> int:
    return as_count(bodies, "the number of bodies", _MOST - 1) + 1
