"""Crown: heights of equally pitched supports that follow an arc."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import TYPE_CHECKING, ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.figures.wording import both
from fractions_shop.layout.circle import drop
from fractions_shop.layout.room import NOTHING, errors_of, largest
from fractions_shop.size.approx import FIGURES, as_decimal
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_rule, rung
from fractions_shop.size.standing import worst
from fractions_shop.size.told import Told

if TYPE_CHECKING:
    from fractions_shop.layout.places import Places

_MOST = 1000
#: Figures of a fitted radius.
_FITTED = 20


@dataclass(frozen=True, repr=False)
class Crown(Told):
    """Supports that follow an arc, left to right; every tuple has one entry for each.

    `places` are measured from the middle (negative to the left), `drops` is how far
    the arc has fallen there below its own highest point, `exact` the height of each
    support and `read` the height as read on the rule. `fitted_radius` is the radius
    that the heights as read really follow, None when they are all alike (see `crown`).

    >>> str(crown(3, across="1 in", radius="9 in", tallest="1 in").read[0])
    '15/16 in'
    """

    told_as: ClassVar[str] = "crown"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "residual",
        "worst",
        "span",
    )

    count: int
    across: Quantity
    radius: Quantity
    tallest: Quantity
    rule: Rule
    places: tuple[Quantity, ...]
    drops: tuple[Quantity, ...]
    exact: tuple[Quantity, ...]
    read: tuple[Quantity, ...]
    fitted_radius: Quantity | None

    @property
    def residual(self) -> tuple[Quantity, ...]:
        """The height read less the exact height, for each support."""
        return errors_of(self.read, self.exact)

    @property
    def worst(self) -> Quantity:
        """The largest residual, without its sign."""
        return largest(self.residual)

    @property
    def points(self) -> tuple[tuple[Quantity, Quantity], ...]:
        """Where the supports end: across from the middle of the first, and up from the level that all stand on."""
        return tuple((x - self.places[0], up) for x, up in zip(self.places, self.exact, strict=True))

    @property
    def placed(self) -> Places:
        """The same as places of two axes, to be named and given to a machine."""
        from fractions_shop.layout.places import places

        return places(*self.points, rule=self.rule)

    @property
    def span(self) -> Quantity:
        """From the first support to the last."""
        return self.across * (self.count - 1)


@options_by_name("crown(6, across='13/32 in', radius='7 1/4 in')")
def crown(
    count: int,
    *,
    across: SizeLike,
    radius: SizeLike,
    tallest: SizeLike | None = None,
    rule: Rule | str = "64ths",
) -> Crown:
    """The heights of `count` supports at a pitch of `across` that carry an arc of `radius`.

    The arc is highest in the middle and has dropped by r - sqrt(r^2 - x^2) at x from
    it. `tallest` is the height of the tallest support: the middle one, or with an even
    count the middle two, which stand a little below the top of the arc and are given
    that height exactly; every other height is counted down from them. Without
    `tallest` the outermost supports stand at zero. Each height is read on `rule` to
    the nearest division.

    `fitted_radius` is by least squares in height: of all arcs centred over the middle,
    at any level, the one whose heights at the supports differ least from the heights
    read, by the sum of squares (never less than half the span). Two heights (three or
    four supports) it meets exactly. It is a root found to 20 figures, so approximate.

    ShopError when the supports span more than the circle is wide, or when a height
    falls to nothing.

    >>> rack = crown(6, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds")
    >>> [str(h.inch) for h in rack.read]
    ['9/32', '5/16', '11/32', '11/32', '5/16', '9/32']
    """
    count, rule = as_count(count, "the number of supports", _MOST), as_rule(rule)
    across, radius = above_zero(across, "the pitch"), above_zero(radius, "the radius")
    _check_span(across * (count - 1), radius)
    places = tuple(across * Fraction(2 * k - count + 1, 2) for k in range(count))
    drops = _mirrored(tuple(drop(x, radius) for x in places[: (count + 1) // 2]), count)
    least, most = min(drops), max(drops)
    if tallest is None:
        top = most - least if most > least else NOTHING
        exact = tuple(most - d if d < most else NOTHING for d in drops)
    else:
        top = above_zero(tallest, "the tallest height")
        exact = tuple(top - (d - least) if d > least else top for d in drops)
    read = tuple(rung(height, rule).size for height in exact)
    if tallest is not None:
        _check_heights(exact, read, most - least, rule)
    fitted = _fitted_radius(places, read)
    fitted = None if fitted is None else fitted.resting_on(worst(exact))
    return Crown(count, across, radius, top, rule, places, drops, exact, read, fitted)


def _mirrored(left: tuple[Quantity, ...], count: int) -> tuple[Quantity, ...]:
    return left + left[: count // 2][::-1]


def _check_span(span: Quantity, radius: Quantity) -> None:
    if span > 2 * radius:
        raise ShopError(
            f"the supports span {both(span)}, which is wider than the circle: "
            f"a radius of {both(radius)} is {both(2 * radius)} across"
        )


def _check_heights(
    exact: tuple[Quantity, ...], read: tuple[Quantity, ...], fall: Quantity, rule: Rule
) -> None:
    if exact[0].value <= 0:
        raise ShopError(
            f"the outermost supports fall to nothing: the arc drops {both(fall)} to them, "
            "so the tallest must be higher than that"
        )
    if read[0].value <= 0:
        raise ShopError(
            f"the outermost supports come to {both(exact[0])}, which reads as nothing on {rule.name}: "
            "take a finer rule or a greater tallest height"
        )


# The radius that heights really follow


def _fitted_radius(places: tuple[Quantity, ...], heights: tuple[Quantity, ...]) -> Quantity | None:
    """The radius of the arc nearest to these heights in the least squares sense; None if flat.

    With curvature k = 1/r the drop at x is d = k x^2 / (1 + s), s = sqrt(1 - k^2 x^2),
    which stays smooth as k goes to 0. The level of the arc drops out by taking every
    height and drop from its own mean. What is left is a sum of squares in k alone,
    whose slope rises from below zero at k = 0: halving finds where it crosses. When it
    stays below zero to the end, the smallest circle that reaches is the best.
    """
    if len(set(heights)) < 2:
        return None
    with localcontext() as context:
        context.prec = FIGURES + 10
        squares = [as_decimal(x.mm) ** 2 for x in places]
        levels = [as_decimal(h.mm) for h in heights]
        steps = [level - _mean(levels) for level in levels]
        low, high = Decimal(0), 1 / max(squares).sqrt()
        while high - low > high * Decimal(10) ** -(_FITTED + 4):
            # Until the two are near, halve the exponent: a nearly flat row is found as soon.
            middle = (low + high) / 2 if high < 4 * low else (max(low, high / 10**12) * high).sqrt()
            if _slope(middle, squares, steps) < 0:
                low = middle
            else:
                high = middle
        radius = 2 / (low + high)
        context.prec = _FITTED
        return Quantity(Fraction(+radius), 1, True)


def _slope(curvature: Decimal, squares: list[Decimal], steps: list[Decimal]) -> Decimal:
    """Half the derivative, in the curvature, of the sum of squares of height errors."""
    roots = [(1 - curvature * curvature * square).sqrt() for square in squares]
    drops = [curvature * square / (1 + s) for square, s in zip(squares, roots, strict=True)]
    growth = [square / (s * (1 + s)) for square, s in zip(squares, roots, strict=True)]
    mean = _mean(drops)
    errors = [(step + d - mean) * g for step, d, g in zip(steps, drops, growth, strict=True)]
    return sum(errors, Decimal(0))


def _mean(values: list[Decimal]) -> Decimal:
    return sum(values, Decimal(0)) / len(values)
