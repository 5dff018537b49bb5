"""Errors that several readings have in common: a scale, a shrinkage, a zero that was not set.

Each is one unknown for all the readings that carry it, so that many readings tell it.
With the unknown u, a reading x of a size that was meant as m is

    m = x * (1 + u)     for a scale (Print, and a Drawing of known scale) and for Shrunk
    m = x - u           for a Zero

apart from its own error. Before measuring, u is

    Print      even from -most to +most (3 % unless given: a copy, a print, paper that has stretched)
    Measured   normal about zero: what is left of a scale that one known size has told
    Shrunk     even from zero to most: wood across the grain, castings
    Zero       normal about zero, `spread` its standard deviation (0.15 mm: common practice, no source)
"""

from __future__ import annotations

from fractions import Fraction
from math import exp, sqrt
from numbers import Rational

from fractions_shop.errors import ArgumentError, ShopError
from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity

PRINT_WITHIN = Fraction(3, 100)
ZERO_SPREAD = Quantity(Fraction(15, 100))


class Print(Record):
    """One scale, near 1 to 1, for all that was read off the print of this `name`."""

    name: str = ""
    most: Fraction = PRINT_WITHIN

    def __init__(self, name: str = "", most: Fraction = PRINT_WITHIN) -> None:
        super().__init__(name, _share(most, "how far a print may be from its scale"))


class Shrunk(Record):
    """All have shrunk alike, by zero to `most` of what they were."""

    most: Fraction

    def __init__(self, most: Fraction) -> None:
        super().__init__(_share(most, "how far something has shrunk"))


class Zero(Record):
    """The instrument was not set to zero: all readings are too large or too small by as much."""

    name: str = "caliper"
    spread: Quantity = ZERO_SPREAD


class Measured(Record):
    """A scale told by one known size, and allowed for: what is left of it, one `spread` about zero."""

    name: str
    spread: Fraction


Shared = Print | Shrunk | Zero | Measured


def _share(value: Fraction, what: str) -> Fraction:
    """The share itself; ShopError for one that is none."""
    if not isinstance(value, Fraction | int) or not 0 < value <= Fraction(1, 4):
        raise ShopError(f"{what} must be above zero and at most 25 %, as a Fraction: Fraction(3, 100)")
    return value


class CommonError(Record):
    """What was found of an error that `readings` readings share: `estimate` of u, one `spread` about it."""

    shared: Shared
    estimate: float
    spread: float
    readings: int

    @property
    def factor(self) -> float:
        """What a reading is multiplied by, for a scale or a shrinkage; 1 for a zero."""
        return 1.0 if isinstance(self.shared, Zero) else 1 + self.estimate


#: No error is known more finely than this, as a share or in mm; below it squares of floats come to zero.
_FINEST = 1e-12


def shared_by_all(shrunk: Fraction | None = None, unzeroed: bool = False) -> tuple[Shared, ...]:
    """The errors common to a whole list, as the options say them; ShopError for a share that is a float."""
    errors: list[Shared] = []
    if shrunk is not None:
        if isinstance(shrunk, float):
            raise ShopError("how far it has shrunk is an exact share: Fraction(3, 100)")
        if not isinstance(shrunk, Rational):
            raise ArgumentError(
                f"how far it has shrunk is a share, Fraction(3, 100), not {type(shrunk).__name__}"
            )
        errors.append(Shrunk(Fraction(shrunk)))
    if unzeroed:
        errors.append(Zero())
    return tuple(errors)


def limits_of(shared: Shared) -> tuple[float, float]:
    """From and to what unknown u it is sought."""
    if isinstance(shared, Print):
        most = float(shared.most)
        return 1 / (1 + most) - 1, 1 / (1 - most) - 1
    if isinstance(shared, Shrunk):
        return 0.0, 1 / (1 - float(shared.most)) - 1
    reach = 4 * _spread(shared)
    return -reach, reach


def prior(shared: Shared, u: float) -> float:
    """How likely u is before measuring, up to a factor."""
    if isinstance(shared, Zero | Measured):
        return exp(-((u / _spread(shared)) ** 2) / 2)
    return 1.0


def moments(shared: Shared) -> tuple[float, float]:
    """Mean and standard deviation of u before measuring."""
    if isinstance(shared, Zero | Measured):
        return 0.0, _spread(shared)
    low, high = limits_of(shared)
    return (low + high) / 2, (high - low) / sqrt(12)


def _spread(shared: Zero | Measured) -> float:
    spread = float(shared.spread.mm) if isinstance(shared, Zero) else float(shared.spread)
    return max(spread, _FINEST)
