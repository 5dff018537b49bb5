"""Equal spaces that come out on a rule, and marks set out from one datum."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.size.arguments import as_count, as_length, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import DIRECTIONS, Rule, as_rule, rung

_NOTHING = Quantity(Fraction(0))


@dataclass(frozen=True)
class Layout:
    """One way to divide: `count` spaces of `space` make `total` with the `ends` and bodies.

    `change` is what the total moves by, `ends` what is left at each end.
    """

    total: Quantity
    space: Quantity
    change: Quantity
    ends: Quantity


@dataclass(frozen=True)
class Spacing:
    """The answer to `divide`: the layout chosen, and those about it.

    `nearest`, `above` (total not less than asked) and `below` (not more; None when the
    spaces would vanish) move the total. `kept_total` keeps it and moves the ends
    instead, all on the rule; None when that does not work or nothing needs to move.
    """

    asked: Quantity
    count: int
    rule: Rule
    direction: str
    ends: Quantity | None
    bodies: Quantity | None
    nearest: Layout
    above: Layout
    below: Layout | None
    kept_total: Layout | None

    @property
    def chosen(self) -> Layout:
        """The layout in the direction asked for."""
        if self.direction == "up":
            return self.above
        if self.direction == "down":
            if self.below is None:
                raise NoAnswer("a smaller total leaves no space at all")
            return self.below
        return self.nearest

    @property
    def total(self) -> Quantity:
        """The total that divides."""
        return self.chosen.total

    @property
    def space(self) -> Quantity:
        """Each space."""
        return self.chosen.space

    @property
    def change(self) -> Quantity:
        """What the total moves by; above zero when it grows."""
        return self.chosen.change

    @property
    def exact(self) -> Quantity:
        """The space that the total asked for gives, whether or not the rule has it."""
        return (self.asked - self._fixed) / self.count

    @property
    def _fixed(self) -> Quantity:
        return _fixed(self.count, self.ends, self.bodies)


@options_by_name("divide('2 in', 5, direction='up', ends='1/4 in')")
def divide(
    size: Quantity | str,
    count: int,
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    ends: Quantity | str | None = None,
    bodies: Quantity | str | None = None,
) -> Spacing:
    """The totals nearest to `size` that fall into `count` equal spaces, each on the rule.

    `ends` is a margin kept at each end, `bodies` the width of the count + 1 equal
    bodies (bars, posts) that stand between and outside the spaces. `direction` is
    nearest, up (the smallest total not less than `size`) or down. A tie goes to the
    even number of divisions. No total nearer than `nearest` divides: totals that do are
    count divisions apart, so the nearest is at most half of that away.

    ShopError if a length is missing, negative, or no room is left for the spaces.

    >>> two = divide("2 in", 5, direction="up")
    >>> two.total.inch, two.space.inch
    (Fraction(65, 32), Fraction(13, 32))
    """
    size, rule, count = as_length(size), as_rule(rule), as_count(count)
    if direction not in DIRECTIONS:
        raise ShopError(f"a direction is nearest, up or down, not {direction!r}")
    if size.value <= 0:
        raise ShopError("the total to divide must be above zero")
    ends = None if ends is None else _not_negative(ends, "the margin at each end")
    bodies = None if bodies is None else _not_negative(bodies, "the width of a body")
    fixed = _fixed(count, ends, bodies)
    room = size - fixed
    if room.value <= 0:
        raise ShopError("the ends and bodies take up the whole total: no room is left for spaces")

    step = rule.division.mm
    parts = room.mm / count / step

    def layout(divisions: int) -> Layout:
        space = Quantity(divisions * step)
        total = fixed + space * count
        return Layout(total, space, total - size, ends or _NOTHING)

    below = floor(parts)
    spacing = Spacing(
        size, count, rule, direction, ends, bodies,
        layout(max(1, round(parts))), layout(max(1, ceil(parts))),
        layout(below) if below else None,
        _kept_total(size, count, rule, ends, bodies),
    )  # fmt: skip
    spacing.chosen  # noqa: B018 - raises now rather than when it is looked at
    return spacing


def _fixed(count: int, ends: Quantity | None, bodies: Quantity | None) -> Quantity:
    """What the margins and bodies take up."""
    return 2 * (ends or _NOTHING) + (count + 1) * (bodies or _NOTHING)


def _not_negative(size: Quantity | str, what: str) -> Quantity:
    size = as_length(size)
    if size.value < 0:
        raise ShopError(f"{what} must not be negative")
    return size


def _kept_total(
    size: Quantity, count: int, rule: Rule, ends: Quantity | None, bodies: Quantity | None
) -> Layout | None:
    """The whole total kept, spaces on the rule, the ends moved the least (and on the rule).

    With 2m + n k = T in divisions (m the end, k the space), k and T decide m; an odd
    count lets only every second k give a whole m, so two neighbours each way are enough.
    """
    step = rule.division.mm
    wanted = ends or _NOTHING
    free = size.mm - (count + 1) * (bodies or _NOTHING).mm
    best: Layout | None = None
    guess = floor((free - 2 * wanted.mm) / count / step)
    for divisions in range(max(1, guess - 1), guess + 3):
        end = Quantity((free - count * divisions * step) / 2)
        if end.value < 0 or not rule.carries(end):
            continue
        layout = Layout(size, Quantity(divisions * step), _NOTHING, end)
        if best is None or abs(end - wanted) < abs(best.ends - wanted):
            best = layout
    if best is not None and best.ends == wanted:
        return None
    return best


@dataclass(frozen=True)
class Marks:
    """Marks set out from one datum: `exact` distances, and as `read` on the rule.

    Both hold count + 1 distances, the ends included. `worst` is the largest error of
    a mark so read; `stepping` is what stepping one snapped space along builds up by
    the last mark (above zero: too long).
    """

    total: Quantity
    count: int
    rule: Rule
    start: Quantity
    exact: tuple[Quantity, ...]
    read: tuple[Quantity, ...]

    @property
    def errors(self) -> tuple[Quantity, ...]:
        """Each mark as read, less its exact place."""
        return tuple(r - e for r, e in zip(self.read, self.exact, strict=True))

    @property
    def worst(self) -> Quantity:
        """The largest error of any mark, without its sign."""
        return max(map(abs, self.errors))

    @property
    def step(self) -> Quantity:
        """One space, as read on the rule."""
        return rung(self.total / self.count, self.rule).size

    @property
    def stepping(self) -> Quantity:
        """What stepping that one space along builds up by the last mark."""
        return self.step * self.count - self.total


@options_by_name("mark('2 in', 5, start='1/4 in')")
def mark(
    size: Quantity | str,
    count: int,
    rule: Rule | str = "64ths",
    *,
    start: Quantity | str | None = None,
) -> Marks:
    """The distances of the marks that divide `size` into `count`, all from one datum.

    `start` is where the first mark stands from the datum, nought if not given. Each is
    read on `rule` to the nearest division. ShopError if `size` is not above zero.

    >>> [str(m.inch) for m in mark("2 in", 5).read]
    ['0', '13/32', '51/64', '77/64', '51/32', '2']
    """
    size, rule, count = as_length(size), as_rule(rule), as_count(count)
    if size.value <= 0:
        raise ShopError("the length to mark out must be above zero")
    datum = _NOTHING if start is None else as_length(start)
    exact = tuple(datum + size * Fraction(k, count) for k in range(count + 1))
    read = tuple(rung(m, rule).size for m in exact)
    return Marks(size, count, rule, datum, exact, read)
