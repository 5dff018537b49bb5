"""What a statement answers, as typed results; the requests of the library bring their own."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.language.arithmetic import Value
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, Snap, snap

if TYPE_CHECKING:
    from fractions_shop.layout.spacing import Spacing

#: The rules in a maker's drawer, in the order in which they are reached for.
DRAWER = ("8ths", "16ths", "32nds", "64ths", "10ths", "50ths", "100ths", "mm", "half mm")


@dataclass(frozen=True)
class Target:
    """The unit or parts that `as` asked for: `mm` is the size of one of it, in mm to its power.

    `turned` says that the size was turned about for it: threads to the inch into a pitch, or a
    pitch into threads to the inch.
    """

    name: str
    mm: Fraction
    rule: Rule | None = None
    turned: bool = False


@dataclass(frozen=True)
class SizeResult:
    """An expression worked out: its `value`, and what the working rule makes of it."""

    value: Value
    rule: Rule
    target: Target | None = None
    divided: tuple[Quantity, int] | None = None

    @property
    def length(self) -> Quantity | None:
        """The one length it is, or None for areas, angles and sizes with limits."""
        return self.value if isinstance(self.value, Quantity) and self.value.power == 1 else None

    @cached_property
    def carried_by(self) -> Rule | None:
        """The first rule of the drawer, the working rule before its equals, with a mark at the size."""
        if self.length is None:
            return None
        own = self.rule.coarsest_that_carries(self.length)
        for rule in map(Rule, DRAWER):
            if rule.carries(self.length):
                return rule if own is None or rule in self.rule.coarser else self.rule
        return self.rule if own is not None else None

    @cached_property
    def nearest(self) -> Snap | None:
        """The nearest division, when the working rule has no mark at the size."""
        if self.length is None or self.rule.carries(self.length):
            return None
        return snap(self.length, self.rule)

    @cached_property
    def spacing(self) -> Spacing | None:
        """For a length divided by a whole number that misses the rule: the totals that do not."""
        from fractions_shop.layout.spacing import divide  # only a size that misses the rule needs it

        if self.divided is None or self.nearest is None:
            return None
        try:
            return divide(*self.divided, rule=self.rule)
        except ShopError:
            return None


@dataclass(frozen=True)
class PlacesResult:
    """Several points by coordinates, each with its `x` and `y`."""

    points: tuple[Any, ...]


@dataclass(frozen=True)
class CheckResult:
    """Whether two sizes agree: `difference` is left less right, `allowed` how far apart they may be."""

    left: Quantity | Limits
    right: Quantity | Limits
    difference: Quantity
    allowed: Quantity | None
    holds: bool


@dataclass(frozen=True)
class RuleResult:
    """The working rule, as it now is."""

    rule: Rule
