"""Products, roots and extremes of sizes with limits.

A product is kept as an exact size times different factors to whole powers, so that what
is multiplied and divided by one piece is rid of it: `x / y * y` is x.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.size import made
from fractions_shop.size.limits import Limits, limits_of, of_one
from fractions_shop.size.made import Made
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worst


def product(limits: Limits, by: Any, exponent: int) -> Limits:
    """`limits` times `by` to the power 1 or -1."""
    other = limits_of(by)
    _refuse_zero(other, exponent)
    if not other.terms:
        return limits.scaled(other.nominal**exponent)
    if not limits.terms and exponent > 0:
        return other.scaled(limits.nominal)
    scale, factors = _factored(limits)
    more_scale, more = _factored(other)
    return _multiplied(
        scale * more_scale**exponent, [*factors, *((size, own * exponent) for size, own in more)]
    )


def power(limits: Limits, exponent: int) -> Limits:
    """`limits` to a whole power other than 0."""
    _refuse_zero(limits, exponent)
    if not limits.terms:
        return limits_of(limits.nominal**exponent)
    scale, factors = _factored(limits)
    return _multiplied(scale**exponent, [(size, own * exponent) for size, own in factors])


def _refuse_zero(size: Limits, exponent: int) -> None:
    if exponent < 0 and size.lower.value <= 0 <= size.upper.value:
        raise ShopError(made.ACROSS)


def _factored(size: Limits) -> tuple[Quantity, list[tuple[Limits, int]]]:
    """A size as an exact one times its factors; itself, brought to 1, where it is no product."""
    if not size.terms:
        return size.nominal, []
    if len(size.terms) == 1:
        ((term, share),) = size.terms.items()
        if isinstance(term, Made) and term.work is made.times and size.nominal.value == share * term.nominal:
            power = size.power - sum(
                p.power * n for p, n in zip(term.parts[::2], term.parts[1::2], strict=True)
            )
            scale = Quantity(share, power, size.nominal.approximate)
            return scale, list(zip(term.parts[::2], term.parts[1::2], strict=True))
    if not size.nominal.value:
        return Quantity(Fraction(1), 0), [(size, 1)]
    return size.nominal, [(size.scaled(1 / size.nominal), 1)]


def _multiplied(scale: Quantity, factors: Iterable[tuple[Limits, int]]) -> Limits:
    """The product of an exact size and factors, those that are alike put together."""
    powers: dict[bytes, tuple[Limits, int]] = {}
    for size, exponent in factors:
        form = size.form
        powers[form] = (size, exponent + powers.get(form, (size, 0))[1])
    left = [(size, exponent) for size, exponent in powers.values() if exponent]
    if not left:
        return limits_of(scale)
    if len(left) == 1 and left[0][1] == 1:
        return left[0][0].scaled(scale)
    term = made.product_of(left)
    power = sum(size.power * exponent for size, exponent in left)
    approximate = scale.approximate or term.approximate
    nominal = Quantity(term.nominal, power, approximate) * scale
    return of_one(nominal, term, scale.value)


def extreme(sizes: Iterable[Limits], which: Callable[..., Any]) -> Limits:
    """The least (`which` = min) or greatest (max) of several, with the limits it can take."""
    left = list(sizes)
    sign = 1 if which is min else -1
    # A size that another never passes is out of it.
    for size in tuple(left):
        if any(other is not size and (sign * (size - other)).lower.value >= 0 for other in left):
            left = [other for other in left if other is not size]
    if len(left) == 1:
        return left[0]
    nominal = which(size.nominal for size in left).resting_on(worst(left))
    return of_one(nominal, made.extreme_of(left, which))


def through(
    work: Callable[..., Quantity], values: Sequence[Any], slopes: Callable[..., Sequence[Fraction | None]]
) -> Limits:
    """`work` on sizes of which some have limits, as `made.worked` does it."""
    result = made.worked(work, values, slopes)
    nominal = work(*(v.nominal if isinstance(v, Limits) else v for v in values))
    return of_one(nominal, result).resting_on(worst(values))
