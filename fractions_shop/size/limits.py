"""Limits: a nominal size with a plus and a minus, and how spreads add up."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import product
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.size import quantity
from fractions_shop.size.approx import square_root
from fractions_shop.size.quantity import Quantity, exact

#: What the root-sum-square figure takes for granted; shown wherever it is.
RSS_ASSUMPTION = (
    "taking the parts as independent, each centred between its limits, and their spreads alike in kind"
)


class Source:
    """Where a spread came from: one toleranced size, told apart by identity."""

    __slots__ = ("label",)

    def __init__(self, label: str) -> None:
        self.label = label


Effects = tuple[tuple[Source, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Limits:
    """A `nominal` size that may be `plus` over and `minus` under.

    All three are Quantities of one power. `plus` and `minus` may be negative (both
    limits on one side of the nominal), but the upper limit is never below the lower.
    `effects` says how far each toleranced size in it moves the result, to first
    order, for half of that size's own spread; it feeds `root_sum_square`.

    >>> size = Limits(Quantity.inches(2), Quantity.inches(Fraction(1, 64)), Quantity.inches(0))
    >>> size.upper.inch
    Fraction(129, 64)
    """

    nominal: Quantity
    plus: Quantity
    minus: Quantity
    effects: Effects = field(default=(), compare=False, repr=False)

    def __post_init__(self) -> None:
        if not self.nominal.power == self.plus.power == self.minus.power:
            raise ShopError("a size and its plus and minus must be of one kind")
        if self.plus.value + self.minus.value < 0:
            raise ShopError("the upper limit lies below the lower one")
        if not self.effects:
            object.__setattr__(self, "effects", ((Source(""), self.half_spread.value),))

    @classmethod
    def between(cls, nominal: Quantity, lower: Quantity, upper: Quantity, effects: Effects = ()) -> Limits:
        """Limits from the two limits of size themselves."""
        return cls(nominal, upper - nominal, nominal - lower, effects)

    @property
    def upper(self) -> Quantity:
        """The upper limit of size."""
        return self.nominal + self.plus

    @property
    def lower(self) -> Quantity:
        """The lower limit of size."""
        return self.nominal - self.minus

    @property
    def spread(self) -> Quantity:
        """Upper less lower: the tolerance."""
        return self.plus + self.minus

    @property
    def half_spread(self) -> Quantity:
        """Half the tolerance."""
        return self.spread / 2

    @property
    def middle(self) -> Quantity:
        """Half-way between the limits."""
        return (self.upper + self.lower) / 2

    @property
    def power(self) -> int:
        """The power of the length, as for Quantity."""
        return self.nominal.power

    @property
    def approximate(self) -> bool:
        """Whether a root, an angle function or a measured float went into it."""
        return self.nominal.approximate or self.plus.approximate or self.minus.approximate

    @property
    def root_sum_square(self) -> Limits:
        """The likely limits: the effects added as the root of the sum of squares.

        Approximate, about the middle of the zone; see RSS_ASSUMPTION for what it
        takes for granted. One toleranced size gives its own limits back.
        """
        if len(self.effects) == 1:
            reach = Quantity(abs(self.effects[0][1]), self.power)
        else:
            total = sum((e * e for _, e in self.effects), Fraction(0))
            reach = Quantity(square_root(total), self.power, True)
        return Limits.between(self.nominal, self.middle - reach, self.middle + reach, self.effects)

    @property
    def contributions(self) -> tuple[tuple[str, Quantity], ...]:
        """Each toleranced size and how far it alone moves the result, largest first."""
        found = [(source.label, Quantity(abs(e), self.power)) for source, e in self.effects]
        return tuple(sorted(found, key=lambda pair: -pair[1].value))

    def labelled(self, label: str) -> Limits:
        """The same limits, with their one source called `label` (many keep their names)."""
        if len(self.effects) != 1 or self.effects[0][0].label:
            return self
        return replace(self, effects=((Source(label), self.effects[0][1]),))

    def _repr_html_(self) -> str | None:
        """For a notebook: the limits as a small table, once `session` is loaded."""
        return None if quantity.notebook is None else quantity.notebook(self)

    def __contains__(self, size: Quantity) -> bool:
        return self.lower <= size <= self.upper

    # Arithmetic: limits by exact interval corners, effects by first derivatives.

    def __add__(self, other: Any) -> Limits:
        other = limits_of(other)
        return Limits(
            self.nominal + other.nominal,
            self.plus + other.plus,
            self.minus + other.minus,
            merged((self.effects, Fraction(1)), (other.effects, Fraction(1))),
        )

    __radd__ = __add__

    def __neg__(self) -> Limits:
        return Limits(-self.nominal, self.minus, self.plus, merged((self.effects, Fraction(-1))))

    def __sub__(self, other: Any) -> Limits:
        return self + -limits_of(other)

    def __rsub__(self, other: Any) -> Limits:
        return (-self).__add__(other)

    def __mul__(self, other: Any) -> Limits:
        other = limits_of(other)
        return _corners(
            self, other, Quantity.__mul__, (other.middle.value, self.middle.value)
        )  # fmt: skip

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Limits:
        other = limits_of(other)
        if other.lower.value <= 0 <= other.upper.value:
            raise ShopError("cannot divide by a size whose limits reach across zero")
        below = other.middle.value
        return _corners(
            self, other, Quantity.__truediv__, (1 / below, -self.middle.value / below**2)
        )  # fmt: skip

    def __rtruediv__(self, other: Any) -> Limits:
        return limits_of(other) / self

    def __pow__(self, exponent: int) -> Limits:
        if exponent == 0:
            return limits_of(self.nominal**0)
        if exponent < 0 and self.lower.value <= 0 <= self.upper.value:
            raise ShopError("cannot divide by a size whose limits reach across zero")
        ends = [self.lower**exponent, self.upper**exponent]
        if exponent % 2 == 0 and self.lower.value < 0 < self.upper.value:
            ends.append(Quantity(Fraction(0), self.power * exponent))
        nominal = self.nominal**exponent
        middle = self.middle.value
        # At a middle of zero only the first power has a first-order effect.
        slope = exponent * middle ** (exponent - 1) if middle or exponent == 1 else Fraction(0)
        return Limits.between(nominal, min(ends), max(ends), merged((self.effects, slope)))

    def __abs__(self) -> Limits:
        if self.lower.value >= 0:
            return self
        if self.upper.value <= 0:
            return -self
        top = max(self.upper, -self.lower)
        return Limits.between(abs(self.nominal), Quantity(Fraction(0), self.power), top, self.effects)

    def mapped(self, rising: Callable[[Quantity], Quantity], slope: Fraction) -> Limits:
        """Through a function that rises or falls throughout, of first derivative `slope` at the middle."""
        nominal, one, two = rising(self.nominal), rising(self.lower), rising(self.upper)
        return Limits.between(nominal, min(one, two), max(one, two), merged((self.effects, slope)))


def limits_of(value: Any) -> Limits:
    """`value` as Limits: an exact size has no spread."""
    if isinstance(value, Limits):
        return value
    if not isinstance(value, Quantity):
        value = Quantity(exact(value), 0)
    nothing = Quantity(Fraction(0), value.power)
    return Limits(value, nothing, nothing)


def extreme(sizes: Iterable[Limits], which: Callable[..., Any]) -> Limits:
    """The least (`which` = min) or greatest (max) of several, with the limits it can take."""
    sizes = list(sizes)
    chosen: Limits = which(sizes, key=lambda s: s.nominal)
    lower, upper = which(s.lower for s in sizes), which(s.upper for s in sizes)
    return Limits.between(chosen.nominal, lower, upper, chosen.effects)


def _corners(
    one: Limits,
    two: Limits,
    operation: Callable[[Quantity, Quantity], Quantity],
    slopes: tuple[Fraction, Fraction],
) -> Limits:
    found = [operation(a, b) for a, b in product((one.lower, one.upper), (two.lower, two.upper))]
    effects = merged((one.effects, slopes[0]), (two.effects, slopes[1]))
    return Limits.between(operation(one.nominal, two.nominal), min(found), max(found), effects)


def merged(*scaled: tuple[Effects, Fraction]) -> Effects:
    """Effects scaled and added by source, so that a size used twice counts as one."""
    totals: dict[Source, Fraction] = {}
    for effects, scale in scaled:
        for source, effect in effects:
            if effect:
                totals[source] = totals.get(source, Fraction(0)) + effect * scale
    return tuple(totals.items()) or ((Source(""), Fraction(0)),)
