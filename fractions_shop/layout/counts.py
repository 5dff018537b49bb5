"""Totals that fall into several numbers of equal spaces at once, all of them on a rule."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, gcd, lcm
from typing import ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.layout.room import NOTHING, Fixed, OneOfSeveral, in_direction
from fractions_shop.size.arguments import SizeLike, above_zero, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_direction, as_rule
from fractions_shop.size.told import Told


@dataclass(frozen=True)
class CommonLayout:
    """One total that divides in every way: `spaces` holds the space of each count.

    `change` is what the total moves by, `ends` what is left at each end.
    """

    total: Quantity
    spaces: tuple[Quantity, ...]
    change: Quantity
    ends: Quantity


@dataclass(frozen=True, repr=False)
class CommonSpacing(Told, OneOfSeveral):
    """The answer to `divide` for several counts.

    `nearest`, `above` (total not less than asked) and `below` (not more; None when some
    space would vanish) move the total; `kept_total` keeps it and moves the ends instead,
    all on the rule, None when that does not work or nothing needs to move.

    >>> [str(space) for space in divide_in_all("2 in", (5, 7), direction="up").spaces]
    ['7/16 in', '5/16 in']
    """

    told_as: ClassVar[str] = "divide"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("total", "spaces", "change", "exact")

    asked: Quantity
    counts: tuple[int, ...]
    rule: Rule
    direction: str
    ends: Quantity | None
    bodies: Quantity | None
    outer: bool
    nearest: CommonLayout
    above: CommonLayout
    below: CommonLayout | None
    kept_total: CommonLayout | None

    @property
    def chosen(self) -> CommonLayout:
        """The layout in the direction asked for."""
        return in_direction(self.direction, self.nearest, self.below, self.above)

    @property
    def spaces(self) -> tuple[Quantity, ...]:
        """The space of each count."""
        return self.chosen.spaces

    @property
    def exact(self) -> tuple[Quantity, ...]:
        """The space of each count that the total asked for gives, whether or not the rule has it."""
        fixed = Fixed(self.ends, self.bodies, self.outer)
        return tuple((self.asked - fixed.taken(n)) / n for n in self.counts)


@dataclass(frozen=True)
class _Totals:
    """The totals that divide: first + k x apart in divisions, k from `least` up.

    What is counted is the total without its ends, and without one body (or with one,
    where none stands outside): n spaces s and n bodies b, n (b + s) for every n.
    """

    first: Fraction
    apart: int
    least: int


@options_by_name("divide_in_all('2 in', (5, 7), direction='up')")
def divide_in_all(
    size: SizeLike,
    counts: tuple[int, ...],
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    ends: SizeLike | None = None,
    bodies: SizeLike | None = None,
    outer: bool = True,
) -> CommonSpacing:
    """The totals nearest to `size` that fall into each of `counts` equal spaces on the rule.

    What `divide` does for several counts; its other arguments are as there. Without
    bodies these are the multiples of the least common multiple of the counts, in
    divisions. Bodies whose width is on the rule move them all alike; others are brought
    together by the Chinese remainder theorem, and NoAnswer says when they cannot be.

    >>> both = divide_in_all("2 in", (5, 7), direction="up")
    >>> str(both.total.inch), [str(space.inch) for space in both.spaces]
    ('35/16', ['7/16', '5/16'])
    """
    total, rule = above_zero(size, "the total to divide"), as_rule(rule)
    as_direction(direction)
    fixed = Fixed.given(ends, bodies, outer)
    for n in counts:
        fixed.room(total, n)
    step = rule.division.mm
    outside = (fixed.body if outer else -fixed.body) if bodies is not None else NOTHING
    totals = _totals(counts, fixed.body.mm / step)

    def layout(turn: int, end: Quantity) -> CommonLayout:
        made = Quantity((totals.first + turn * totals.apart) * step)
        whole = made + outside + 2 * end
        spaces = tuple(Quantity(made.mm / n - fixed.body.mm) for n in counts)
        return CommonLayout(whole, spaces, whole - total, end)

    turns = ((total - 2 * fixed.end - outside).mm / step - totals.first) / totals.apart
    under = floor(turns)
    kept = _kept(totals, (total - outside).mm / step, fixed.end.mm / step)
    spacing = CommonSpacing(
        total, counts, rule, direction, fixed.ends, fixed.bodies, outer,
        layout(max(totals.least, round(turns)), fixed.end),
        layout(max(totals.least, ceil(turns)), fixed.end),
        layout(under, fixed.end) if under >= totals.least else None,
        None if kept is None else layout(kept[0], Quantity(kept[1] * step)),
    )  # fmt: skip
    spacing.chosen  # noqa: B018 - raises now rather than when it is looked at
    return spacing


def _totals(counts: tuple[int, ...], body: Fraction) -> _Totals:
    """Every n (b + s) that is the same for all counts n, with whole s above zero; in divisions.

    With b = B + p/q (B whole), q times it is n p over n q for each n.
    """
    part = body - floor(body)
    parts = part.denominator
    rest, apart = 0, 1
    for n in counts:
        rest, apart = _together(rest, apart, n * part.numerator, n * parts)
    first = Fraction(rest, parts)
    step = lcm(*counts)
    return _Totals(first, step, ceil((max(counts) * (body + 1) - first) / step))


def _together(rest: int, apart: int, other: int, other_apart: int) -> tuple[int, int]:
    """The numbers that leave `rest` over `apart` and `other` over `other_apart`: Chinese remainders."""
    common = gcd(apart, other_apart)
    turns, odd = divmod(other - rest, common)
    if odd:
        raise NoAnswer(
            "bodies of that width are not on the rule, and no total brings the spaces of both numbers "
            "onto it: take bodies on the rule, or a finer one"
        )
    apart_left, other_left = apart // common, other_apart // common
    turn = turns * pow(apart_left, -1, other_left) % other_left
    return rest + turn * apart, apart * other_left


def _kept(totals: _Totals, whole: Fraction, wanted: Fraction) -> tuple[int, Fraction] | None:
    """The turn and the end that keep the whole total, the end moved the least; None without one.

    Two ends and a total that divides make the whole: an odd step between totals lets
    only every second one leave a whole end, so two neighbours each way are enough.
    """
    guess = floor((whole - totals.first - 2 * wanted) / totals.apart)
    best: tuple[int, Fraction] | None = None
    for turn in range(max(totals.least, guess - 1), max(totals.least, guess - 1) + 4):
        end = (whole - totals.first - turn * totals.apart) / 2
        if end < 0 or end.denominator != 1:
            continue
        if best is None or abs(end - wanted) < abs(best[1] - wanted):
            best = turn, end
    return None if best is None or best[1] == wanted else best
