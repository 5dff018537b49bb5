"""Bodies and spaces both chosen on a rule, so that they make a total."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.layout.room import NOTHING, Fixed, bodies_about
from fractions_shop.layout.share import SHOWN, Choice, Ways, range_on, ways_to_make
from fractions_shop.layout.whole_numbers import DivisionRange, Mixture
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, as_length, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_direction, as_rule
from fractions_shop.size.told import Told


@dataclass(frozen=True)
class BodyChoice:
    """One way: spaces of `space` and bodies of `body` that make `total` with the ends.

    `rule` is the coarsest that carries both, `change` what the total moves by.
    """

    total: Quantity
    space: Quantity
    body: Quantity
    change: Quantity
    rule: Rule


@dataclass(frozen=True, repr=False)
class AnyBodies(Told, Ways[BodyChoice]):
    """The answer to `divide` with `bodies="any"`: `count` spaces and `bodies` bodies, both on the rule.

    `choices` keep the total asked for: the most readable first, of those as readable the
    pair most alike, then the narrower body; `many` is how many there are in all. When
    there is none, `below` and `above` are the nearest totals that have one; None where
    there is no such total, and both when there are choices. `outer` says whether a body
    stands outside each end space too.

    >>> str(any_bodies("2 1/32 in", 5).body), str(any_bodies("2 1/32 in", 5).space)
    ('5/32 in', '7/32 in')
    """

    told_as: ClassVar[str] = "divide"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("total", "space", "body", "change", "exact")

    asked: Quantity
    count: int
    bodies: int
    outer: bool
    ends: Quantity | None
    rule: Rule
    direction: str
    least: Quantity | None
    most: Quantity | None
    choices: tuple[BodyChoice, ...]
    many: int
    below: BodyChoice | None
    above: BodyChoice | None

    @property
    def space(self) -> Quantity:
        """Each space of the way chosen."""
        return self.chosen.space

    @property
    def body(self) -> Quantity:
        """Each body of the way chosen."""
        return self.chosen.body

    @property
    def exact(self) -> Quantity:
        """The width of body and space if both were alike, whether or not the rule has it."""
        return (self.asked - 2 * (self.ends or NOTHING)) / (self.count + self.bodies)


@options_by_name("any_bodies('2 1/32 in', 5, ends='1/4 in')")
def any_bodies(
    size: SizeLike,
    count: int,
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    ends: SizeLike | None = None,
    outer: bool = True,
    least: SizeLike | None = None,
    most: SizeLike | None = None,
    shown: int = SHOWN,
) -> AnyBodies:
    """The widths of body and space, each on `rule`, of which `count` spaces make `size`.

    What `divide` does with `bodies="any"`. `ends` is a margin kept at each end; `outer`
    puts a body outside each end space too (count + 1 of them, else count - 1 inside);
    the body lies from `least` to `most` where they are given, and neither is nothing.

    In divisions a total T is n s + (n + 1) b: b leaves the same over n as T, and each n
    more on the body takes n + 1 off the space. So none is left out.

    >>> found = any_bodies("2 1/32 in", 5)
    >>> [(str(way.body.inch), str(way.space.inch)) for way in found.choices]
    [('5/32', '7/32'), ('5/16', '1/32'), ('15/64', '1/8'), ('5/64', '5/16')]
    """
    total, rule = above_zero(size, "the total to divide"), as_rule(rule)
    as_direction(direction)
    spaces = as_count(count)
    fixed = Fixed.given(ends, NOTHING, outer)
    between = bodies_about(spaces, outer)
    if not between:
        raise ShopError("one space has no body inside it: divide into 2 or more, or with a body at each end")
    room = fixed.room(total, spaces)
    mixture = Mixture((between, spaces), (range_on(rule, least, most), DivisionRange()))
    choices, many, below, above = ways_to_make(
        mixture, room, rule, as_count(shown, "how many ways are shown")
    )

    def with_ends(way: Choice) -> BodyChoice:
        body, space = way.sizes
        return BodyChoice(way.total + 2 * fixed.end, space, body, way.change, way.rule)

    return AnyBodies(
        total, spaces, between, outer, fixed.ends, rule, direction,
        None if least is None else as_length(least), None if most is None else as_length(most),
        tuple(map(with_ends, choices)), many,
        None if below is None else with_ends(below), None if above is None else with_ends(above),
    )  # fmt: skip
