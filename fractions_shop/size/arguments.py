"""What the library's functions take as a size: a Quantity, text, or a pint length."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, ParamSpec, Protocol, TypeVar

from fractions_shop.errors import ArgumentError, DimensionError, ShopError
from fractions_shop.size import borrowed
from fractions_shop.size.approx import simple_fraction
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import read_plain
from fractions_shop.size.quantity import OPERANDS, Angle, Quantity, as_whole, exact
from fractions_shop.size.units import a_power


class PintLength(Protocol):
    """A length of pint's, as far as it is looked at here."""

    @property
    def magnitude(self) -> Any:
        """Its number, of the kind that its registry works in."""

    @property
    def units(self) -> Any:
        """Its unit, of the registry's own class."""


#: What is taken for a size wherever one is asked for: text is read as `read` reads it.
SizeLike = Quantity | str | PintLength
#: And for an angle: `Angle(Fraction(30))`, `"30 deg"`.
AngleLike = Angle | str
P = ParamSpec("P")
T = TypeVar("T")


def options_by_name(advice: str) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """Makes the TypeError for an argument too many say how the function is called.

    Its options are given by name alone, so that a second size is never taken for how
    far to trust the first.
    """

    def decorate(work: Callable[P, T]) -> Callable[P, T]:
        most = work.__code__.co_argcount

        @wraps(work)
        def called(*args: P.args, **options: P.kwargs) -> T:
            if len(args) > most:
                counted = "one thing" if most == 1 else f"{most} things"
                raise TypeError(f"{work.__name__} takes {counted} and its options by name: {advice}")
            return work(*args, **options)

        return called

    return decorate


def as_quantity(value: Any) -> Quantity:
    """`value` as a Quantity: one already, a written size, a pint quantity, or a number.

    Text is what `read` takes. InputError for what cannot be read or has two meanings,
    ShopError for a size with limits; FloatRefused for a float.
    """
    if isinstance(value, Quantity):
        return value
    if isinstance(value, str):
        size = read_plain(value)
        if size is not None:
            return size
        value = borrowed.read(value)
        if isinstance(value, Quantity):
            return value
    if isinstance(value, Limits):
        raise ShopError(
            "a size with limits was given where one size is needed: take its .nominal, .lower or .upper"
        )
    if isinstance(value, Angle):
        raise DimensionError("this is an angle, where a size is needed")
    if type(value).__module__.partition(".")[0] == "pint":
        from fractions_shop.size import pint_bridge  # few sizes are given as those of pint

        return pint_bridge.from_pint(value)
    if not isinstance(value, OPERANDS):
        raise ArgumentError(f"expected a size such as '2 1/32 in', not {type(value).__name__}")
    return Quantity(exact(value), 0)


def as_angle(value: Any) -> Angle:
    """`value` as an Angle: one already, or written; DimensionError for anything else, a bare number too."""
    angle = borrowed.read_angle(value) if isinstance(value, str) else value
    if not isinstance(angle, Angle):
        raise DimensionError("an angle is needed here, with its sign or word, such as 30 deg")
    return angle


def as_length(value: Any) -> Quantity:
    """`value` as a length, an approximate one as the simple one that it hardly misses; DimensionError for an area or a plain number."""
    size = as_quantity(value)
    if size.power != 1:
        raise DimensionError(f"a length is needed here, with its unit, and this is {a_power(size.power)}")
    return simple(size) if size.approximate else size


def simple(size: Quantity) -> Quantity:
    """An approximate size that misses a simple one in its last figures alone, as that one: approximate still."""
    value = simple_fraction(size.value)
    return size if value == size.value else Quantity(value, size.power, True, size.within, size.standing)


def above_zero(size: Any, what: str) -> Quantity:
    """`size` as a length above zero; ShopError otherwise."""
    length = as_length(size)
    if length.value <= 0:
        raise ShopError(f"{what} must be above zero")
    return length


def not_negative(size: Any, what: str) -> Quantity:
    """`size` as a length of zero or more; ShopError otherwise."""
    length = as_length(size)
    if length.value < 0:
        raise ShopError(f"{what} must not be negative")
    return length


def as_count(value: Any, what: str = "the number of spaces", most: int = 10_000) -> int:
    """`value` as a whole number from 1 to `most`; ShopError otherwise."""
    try:
        count = as_whole(value, what)
    except ArgumentError:
        raise ArgumentError(f"{what} must be a whole number such as 5") from None
    if not 1 <= count <= most:
        raise ShopError(f"{what} must be from 1 to {most:,}, not {count:,}")
    return count
