"""Equal spaces that come out on a rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any, ClassVar, Literal, overload

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.layout.room import (
    NOTHING,
    Fixed,
    NoRoom,
    OneOfSeveral,
    as_counts,
    in_direction,
)
from fractions_shop.size import ratios
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, as_length, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Direction, Rule, as_direction, as_rule, how_often
from fractions_shop.size.told import Told

if TYPE_CHECKING:  # one number of spaces is the usual question, and loads neither
    from fractions_shop.layout.bodies import AnyBodies
    from fractions_shop.layout.counts import CommonSpacing


@dataclass(frozen=True)
class Layout:
    """One way to divide: `count` spaces of `space` make `total` with the `ends` and bodies.

    `change` is what the total moves by, `ends` what is left at each end.
    """

    total: Quantity
    space: Quantity
    change: Quantity
    ends: Quantity


@dataclass(frozen=True, repr=False)
class Spacing(Told, OneOfSeveral):
    """The answer to `divide`: the layout chosen, and those about it.

    `nearest`, `above` (total not less than asked) and `below` (not more; None when the
    spaces would vanish) move the total. `kept_total` keeps it and moves the ends
    instead, all on the rule; None when that does not work or nothing needs to move.
    `outer` says whether a body stands outside each end space too.

    >>> divide("2 in", 5, direction="up")
    <Spacing: 2 1/32 in (51.59375 mm) falls into 5 spaces of 13/32 in (10.31875 mm) on the 64ths>
    """

    told_as: ClassVar[str] = "divide"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "total",
        "space",
        "change",
        "exact",
    )

    asked: Quantity
    count: int
    rule: Rule
    direction: Direction
    ends: Quantity | None
    bodies: Quantity | None
    nearest: Layout
    above: Layout
    below: Layout | None
    kept_total: Layout | None
    outer: bool = True

    @property
    def chosen(self) -> Layout:
        """The layout in the direction asked for."""
        return in_direction(self.direction, self.nearest, self.below, self.above)

    @property
    def space(self) -> Quantity:
        """Each space."""
        return self.chosen.space

    @property
    def exact(self) -> Quantity:
        """The space that the total asked for gives, whether or not the rule has it."""
        return (self.asked - self.fixed.taken(self.count)) / self.count

    @property
    def fixed(self) -> Fixed:
        """The margins and bodies beside the spaces."""
        return Fixed(self.ends, self.bodies, self.outer)

    @property
    def body_count(self) -> int:
        """How many bodies stand about the spaces, those outside the end spaces counted too."""
        return self.fixed.count(self.count)

    @property
    def other(self) -> Spacing | None:
        """As many spaces of the other form: with no body outside them, or with one at each end.

        None without bodies, where that form has no body or no room.
        """
        if self.bodies is None or (self.outer and self.count == 1):
            return None
        try:
            return divide(
                self.asked, self.count, self.rule, direction=self.direction,
                ends=self.ends, bodies=self.bodies, outer=not self.outer,
            )  # fmt: skip
        except (NoRoom, NoAnswer):
            return None


@overload
def divide(  # type: ignore[overload-overlap]
    size: SizeLike,
    count: int,
    rule: Rule | str = ...,
    *,
    direction: str = ...,
    ends: SizeLike | None = ...,
    bodies: Literal["any"],
    outer: bool = ...,
    least: SizeLike | None = ...,
    most: SizeLike | None = ...,
) -> AnyBodies: ...
@overload
def divide(
    size: SizeLike,
    count: int,
    rule: Rule | str = ...,
    *,
    direction: str = ...,
    ends: SizeLike | None = ...,
    bodies: SizeLike | None = ...,
    outer: bool = ...,
) -> Spacing: ...
@overload
def divide(
    size: SizeLike,
    count: Sequence[int],
    rule: Rule | str = ...,
    *,
    direction: str = ...,
    ends: SizeLike | None = ...,
    bodies: SizeLike | None = ...,
    outer: bool = ...,
) -> CommonSpacing: ...


@options_by_name("divide('2 in', 5, direction='up', ends='1/4 in')")
def divide(
    size: SizeLike,
    count: int | Sequence[int],
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    ends: SizeLike | None = None,
    bodies: SizeLike | None = None,
    outer: bool = True,
    least: SizeLike | None = None,
    most: SizeLike | None = None,
) -> Spacing | CommonSpacing | AnyBodies:
    """The totals nearest to `size` that fall into `count` equal spaces, each on the rule.

    `ends` is a margin kept at each end, `bodies` the width of the equal bodies (bars,
    posts) that stand between the spaces: count + 1 of them, one outside each end space
    too, or with `outer=False` the count - 1 inside. `direction` is nearest, up (the
    smallest total not less than `size`) or down. A tie goes to the even number of
    divisions. No total nearer than `nearest` divides: totals that do are count divisions
    apart, so the nearest is at most half of that away.

    Several counts, `(5, 7)`, give the totals that fall into each of them: see
    `counts.divide_in_all`. With `bodies="any"` body and space are both chosen on the
    rule, the body from `least` to `most` where they are given: see `bodies.any_bodies`.

    ShopError if a length is missing or negative; NoRoom, which holds the other form
    where that fits, if no room is left for the spaces.

    >>> two = divide("2 in", 5, direction="up")
    >>> two.total.inch, two.space.inch
    (Fraction(65, 32), Fraction(13, 32))
    >>> [str(space.inch) for space in divide("2 in", (5, 7), direction="up").spaces]
    ['7/16', '5/16']
    >>> slats = divide("2 1/32 in", 5, bodies="any")
    >>> str(slats.body.inch), str(slats.space.inch), slats.many
    ('5/32', '7/32', 4)
    """
    if bodies != "any" and not (least is None and most is None):
        raise ShopError('from what width to what width goes with bodies="any"')
    counts = as_counts(count)
    if bodies == "any":
        if counts is not None:
            raise ShopError('bodies="any" goes with one number of spaces')
        from fractions_shop.layout.bodies import any_bodies

        return any_bodies(
            size, count, rule,  # type: ignore[arg-type]
            direction=direction, ends=ends, outer=outer, least=least, most=most,
        )  # fmt: skip
    if counts is not None:
        from fractions_shop.layout.counts import divide_in_all

        return divide_in_all(size, counts, rule, direction=direction, ends=ends, bodies=bodies, outer=outer)
    return _divide(as_length(size), as_count(count), as_rule(rule), direction, ends, bodies, outer)


def _divide(
    size: Quantity, count: int, rule: Rule, direction: str, ends: Any, bodies: Any, outer: bool
) -> Spacing:
    way = as_direction(direction)
    above_zero(size, "the total to divide")
    fixed = Fixed.given(ends, bodies, outer)
    try:
        room = fixed.room(size, count)
    except NoRoom as error:
        raise NoRoom(str(error), _inside(size, count, rule, direction, fixed)) from None
    step = ratios.times(rule.division.mm, Fraction(count))
    near, above = max(1, how_often(room.mm, step)), max(1, how_often(room.mm, step, "up"))
    below = how_often(room.mm, step, "down")
    layouts = {n: _layout(size, count, rule, fixed, n) for n in {near, above, below} if n}
    spacing = Spacing(
        size, count, rule, way, fixed.ends, fixed.bodies, layouts[near], layouts[above], layouts.get(below),
        _kept_total(size, count, rule, fixed), outer,
    )  # fmt: skip
    spacing.chosen  # noqa: B018 - raises now rather than when it is looked at
    return spacing


def _layout(size: Quantity, count: int, rule: Rule, fixed: Fixed, divisions: int) -> Layout:
    """Spaces of so many divisions, and what they make of the total."""
    space = rule.divisions(divisions)
    total = rule.divisions(divisions * count)
    if not fixed.nothing:
        total = fixed.taken(count) + total
    return Layout(total, space, total - size, fixed.end)


def nearest_layout(size: Quantity, count: int, rule: Rule) -> Layout:
    """The `nearest` of `divide` alone, for spaces without margins or bodies; `size` is a length above zero.

    >>> str(nearest_layout(Quantity("2 in"), 5, Rule("64ths")).total)
    '2 1/32 in'
    """
    divisions = how_often(size.mm, rule.division.mm * count)
    return _layout(size, count, rule, Fixed(None, None, True), max(1, divisions))


def _inside(size: Quantity, count: int, rule: Rule, direction: str, fixed: Fixed) -> Spacing | None:
    """The same spaces with no body outside them, where they have room so."""
    if not fixed.bodies or not fixed.outer or count == 1:
        return None
    try:
        return _divide(size, count, rule, direction, fixed.ends, fixed.bodies, False)
    except (NoRoom, NoAnswer):
        return None


def _kept_total(size: Quantity, count: int, rule: Rule, fixed: Fixed) -> Layout | None:
    """The whole total kept, spaces on the rule, the ends moved the least (and on the rule).

    With 2m + n k = T in divisions (m the end, k the space), k and T decide m; an odd
    count lets only every second k give a whole m, so two neighbours each way are enough.
    """
    step = rule.division.mm
    free = size.mm if fixed.nothing else size.mm - fixed.taken(count).mm + 2 * fixed.end.mm
    whole, parts = ratios.over(free, step).as_integer_ratio()
    if parts != 1:
        return None  # no ends make up for a part of a division
    # The end asked for need be no whole number of divisions: it is `top / bottom` of one.
    top, bottom = (0, 1) if fixed.ends is None else ratios.over(fixed.ends.mm, step).as_integer_ratio()
    guess = (whole * bottom - 2 * top) // (count * bottom)
    lefts = ((n, whole - count * n) for n in range(max(1, guess - 1), guess + 3))
    moves = [(abs(left // 2 * bottom - top), n, left // 2) for n, left in lefts if left >= 0 and not left % 2]
    if not moves or not min(moves)[0]:
        return None
    _, space, end = min(moves)
    return Layout(size, rule.divisions(space), NOTHING, rule.divisions(end))
