"""Quantity: an exact size, and Angle: exact degrees."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from numbers import Integral, Rational, Real
from typing import Any

from fractions_shop.errors import ArgumentError, DimensionError, FloatRefused, ShopError
from fractions_shop.size import borrowed, numberlike, ratios, units
from fractions_shop.size.numberlike import NumberLike, ToldSize, figures_in_short, in_short, printed
from fractions_shop.size.standing import worse
from fractions_shop.size.units import a_power

Exact = int | Fraction | Decimal


def exact(value: Any) -> Fraction:
    """`value` as a Fraction; FloatRefused for a float, DimensionError for an angle, ArgumentError for the rest.

    A Decimal is what its figures say. Whole numbers of other libraries are taken too.
    """
    if isinstance(value, Fraction):
        return value
    if type(value) is int:
        return Fraction(value)
    if isinstance(value, Rational) and not isinstance(value, bool):
        return Fraction(int(value.numerator), int(value.denominator))
    if isinstance(value, Decimal):
        if not value.is_finite():
            raise ShopError(f"{value} is not a size")
        return Fraction(value)
    if isinstance(value, Real) and not isinstance(value, bool):
        raise FloatRefused(
            f"a float ({value!r}) is not an exact size; write it as text or a Fraction, "
            "or say how far to trust it: Quantity.measured(10.31, 'mm', within='0.01 mm')"
        )
    if isinstance(value, Angle):
        raise DimensionError("this is an angle, where a size is needed")
    raise numberlike.no_number(value)


def as_whole(value: Any, what: str) -> int:
    """`value` as an int; ArgumentError, naming `what`, for anything but a whole number."""
    if isinstance(value, Quantity) and value.power == 0:
        value = value.value
    if isinstance(value, Rational) and not isinstance(value, bool) and value.denominator == 1:
        return int(value.numerator)
    shown = str(value) if isinstance(value, Real | Decimal) else type(value).__name__
    raise ArgumentError(f"{what} must be a whole number, such as 2, not {shown}")


@dataclass(frozen=True, slots=True, eq=False, repr=False, init=False)
class Quantity(NumberLike):
    """An exact number of millimetres to a whole power.

    `value` is a Fraction in mm**power; `power` 0 is a plain number, 1 a length, 2 an
    area, 3 a volume, -1 a number per length. `approximate` says that a root, an angle
    function or a measured float went into it, and every sum and product carries it on.
    `within` is how far a measured figure is to be trusted, if that was said. `standing` is
    how far the figures of tables that went into it may be trusted (see STANDINGS), empty
    where none did; every sum and product has the least trusted of its parts.

    Equality and order look at the size alone, so an approximate 1 in equals an exact one.
    A plain number equals the same number of Python's, and zero is zero in every unit:
    it equals 0 and compares with any size. A written size is taken as `value` too.

    >>> Quantity("2 1/32 in") / 5 == Quantity("13/32 in")
    True
    >>> f"{Quantity('2 1/32 in')}, {Quantity('51.5 mm'):in.3}, {Quantity('2 1/32 in'):64ths}"
    '2 1/32 in, 2.028 in, 130 64ths'
    >>> from fractions import Fraction
    >>> (Quantity.inches(Fraction(65, 32)) / 5).inch
    Fraction(13, 32)
    >>> Quantity.inches(1) == Quantity.millimetres(Fraction("25.4"))
    True
    """

    value: Fraction
    power: int = 1
    approximate: bool = False
    within: Quantity | None = None
    standing: str = ""

    #: numpy is to leave arithmetic with its numbers to us.
    __array_ufunc__ = None

    def __init__(
        self, value: Exact | str, power: int = 1, approximate: bool = False, within: Quantity | None = None,
        standing: str = "",
    ) -> None:  # fmt: skip
        if type(value) is not Fraction:
            if isinstance(value, str):
                size = _written(value, power != 1 or approximate or within is not None or standing)
                value, power, approximate = size.value, size.power, size.approximate
                within, standing = size.within, size.standing
            else:
                value = exact(value)
        _put_value(self, value)
        _put_power(self, power if type(power) is int else as_whole(power, "the power of a size"))
        _put_approximate(self, approximate)
        _put_within(self, within)
        _put_standing(self, standing)

    def __repr__(self) -> str:
        return f"Quantity({figures_in_short(self)})"

    # Making one

    @classmethod
    def inches(cls, number: Exact) -> Quantity:
        """A length of so many inches."""
        return cls(exact(number) * units.INCH)

    @classmethod
    def millimetres(cls, number: Exact) -> Quantity:
        """A length of so many millimetres."""
        return cls(exact(number))

    @classmethod
    def number(cls, number: Exact) -> Quantity:
        """A plain number, which has no unit."""
        return cls(exact(number), 0)

    @classmethod
    def of(cls, number: Exact, unit: str) -> Quantity:
        """A size in a named unit: `Quantity.of(5, "thou")`; ShopError if it is not known."""
        if not isinstance(unit, str):
            raise ArgumentError(f"a unit is named by text such as 'mm', not by {type(unit).__name__}")
        known = units.find(unit)
        if known is None:
            raise ShopError(units.two_meanings(unit) or f"{unit!r} is not a unit known here")
        return cls(exact(number) * known.mm, known.power)

    @classmethod
    def measured(cls, number: Any, unit: str, within: str | Quantity) -> Quantity:
        """A size from a float that an instrument gave, trusted to plus or minus `within`.

        The shortest decimal that the float prints as is taken, and the size is marked
        approximate; any real number will do. ShopError if it is not finite or `within`
        is not a length above zero.
        """
        size, trust = cls.of(printed(number), unit), _trust(within)
        return cls(size.value, size.power, True, trust)

    # Reading it

    @property
    def mm(self) -> Fraction:
        """Millimetres, for a length; DimensionError for anything else."""
        if self.power != 1:
            raise self._no_length()
        return self.value

    @property
    def inch(self) -> Fraction:
        """Inches, for a length; DimensionError for anything else."""
        if self.power != 1:
            raise self._no_length()
        return units.in_inches(self.value)

    def in_unit(self, unit: str) -> Fraction:
        """How many of `unit` (to this power) it is: an area in `in` gives square inches."""
        known = units.find(unit)
        if known is None or known.power != 1:
            raise ShopError(f"{unit!r} is not a unit of length known here")
        return self.value / known.mm**self.power

    def _no_length(self) -> DimensionError:
        return DimensionError(f"this is {a_power(self.power)}, where a length is needed")

    def resting_on(self, standing: str) -> Quantity:
        """The same size, trusted no further than figures of this standing."""
        least = worse(self.standing, standing)
        if least == self.standing:
            return self
        return Quantity(self.value, self.power, self.approximate, self.within, least)

    @property
    def unmarked(self) -> Quantity:
        """The same size without its standing, for where that is said beside it."""
        return Quantity(self.value, self.power, self.approximate, self.within) if self.standing else self

    # Arithmetic

    def _same(self, other: Any, doing: str) -> Quantity:
        same = other if isinstance(other, Quantity) else Quantity(exact(other), 0)
        if same.power != self.power:
            raise DimensionError(f"cannot {doing} {a_power(self.power)} and {a_power(same.power)}")
        return same

    def __add__(self, other: Any) -> Quantity:
        if type(other) is not Quantity or other.power != self.power:
            if not isinstance(other, OPERANDS):
                return borrowed.with_pint(self, other, "__add__")
            if is_zero(other):
                return self  # as sum() begins
            other = self._same(other, "add")
        return _joined(self, other, ratios.added(self.value, other.value), self.power)

    __radd__ = __add__

    def __neg__(self) -> Quantity:
        return unchecked(-self.value, self.power, self.approximate, self.within, self.standing)

    def __pos__(self) -> Quantity:
        return self

    def __abs__(self) -> Quantity:
        return -self if self.value < 0 else self

    def __sub__(self, other: Any) -> Quantity:
        if type(other) is not Quantity or other.power != self.power:
            if not isinstance(other, OPERANDS):
                return borrowed.with_pint(self, other, "__sub__")
            if is_zero(other):
                return self
            other = self._same(other, "subtract")
        return _joined(self, other, ratios.less(self.value, other.value), self.power)

    def __rsub__(self, other: Any) -> Quantity:
        return (-self).__add__(other)

    def __mul__(self, other: Any) -> Quantity:
        if isinstance(other, Quantity):
            return _joined(self, other, ratios.times(self.value, other.value), self.power + other.power)
        if not isinstance(other, OPERANDS):
            return borrowed.with_pint(self, other, "__mul__")
        value = ratios.times(self.value, exact(other))
        return unchecked(value, self.power, self.approximate, None, self.standing)

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Quantity:
        if not isinstance(other, Quantity):
            if not isinstance(other, OPERANDS):
                return borrowed.with_pint(self, other, "__truediv__")
            other = Quantity(exact(other), 0)
        if not other.value:
            raise ZeroDivisionError("nothing can be divided by zero")
        return _joined(self, other, ratios.over(self.value, other.value), self.power - other.power)

    def __rtruediv__(self, other: Any) -> Quantity:
        if not isinstance(other, OPERANDS):
            return borrowed.with_pint(self, other, "__rtruediv__")
        return (other if isinstance(other, Quantity) else Quantity(exact(other), 0)).__truediv__(self)

    def __pow__(self, exponent: Any) -> Quantity:
        if not isinstance(exponent, Integral):
            return numberlike.no_power(exponent)
        exponent = int(exponent)
        if exponent < 0 and self.value == 0:
            raise ZeroDivisionError("nothing can be divided by zero")
        return Quantity(self.value**exponent, self.power * exponent, self.approximate, None, self.standing)

    # Comparing

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Quantity):
            return self.value == other.value and (self.power == other.power or not self.value)
        if isinstance(other, Real | Decimal) and (self.power == 0 or not self.value):
            return self.value == other
        return borrowed.same_in_pint(self, other)

    def __hash__(self) -> int:
        return hash((self.value, self.power)) if self.power and self.value else hash(self.value)

    def __bool__(self) -> bool:
        return bool(self.value)

    def _compared(self, other: Any) -> int:
        if type(other) is Quantity and other.power == self.power:
            return ratios.compared(self.value, other.value)
        if not isinstance(other, OPERANDS):
            other = borrowed.known(other)
        size = other if isinstance(other, Quantity) else Quantity(exact(other), 0)
        if self.value and size.value:
            self._same(size, "compare")
        return ratios.compared(self.value, size.value)


#: Each sets one field of a new Quantity, at half the cost of `object.__setattr__`.
_put_value, _put_power, _put_approximate, _put_within, _put_standing = (
    vars(Quantity)[name].__set__ for name in ("value", "power", "approximate", "within", "standing")
)


def unchecked(
    value: Fraction, power: int, approximate: bool = False, within: Quantity | None = None, standing: str = ""
) -> Quantity:
    """A Quantity of parts that are known to be right for one, as those of sums and products are."""
    size = object.__new__(Quantity)
    _put_value(size, value)
    _put_power(size, power)
    _put_approximate(size, approximate)
    _put_within(size, within)
    _put_standing(size, standing)
    return size


def _joined(left: Quantity, right: Quantity, value: Fraction, power: int) -> Quantity:
    """What two sizes come to: approximate if either is, and as little trusted as either."""
    standing = left.standing if left.standing == right.standing else worse(left.standing, right.standing)
    return unchecked(value, power, left.approximate or right.approximate, None, standing)


#: What a size does arithmetic with; a float is among these so that it is refused by name.
OPERANDS = (Quantity, int, Fraction, Real, Decimal)
borrowed.stand_above_pint(Quantity)


def _written(text: str, more: object) -> Quantity:
    """The one size that a written form says; ArgumentError where `more` was given beside it."""
    if more:
        raise ArgumentError("a written size is given alone: it says its own unit")
    size = borrowed.plain(text) or borrowed.read(text)
    if isinstance(size, Quantity):
        return size
    raise ShopError(f"{text!r} has limits, where one size is needed: read() takes it")


def is_zero(other: Any) -> bool:
    """Whether it is Python's own 0, which adds to a size of any kind."""
    return not isinstance(other, Quantity) and isinstance(other, Rational) and not other


def _trust(within: Any) -> Quantity:
    if isinstance(within, str):
        within = Quantity.of(*numberlike.trust_as_written(within))
    if not isinstance(within, Quantity):
        raise ArgumentError(f"expected how far to trust it, such as '0.01 mm', not {type(within).__name__}")
    if within.power == 1 and within.value > 0:
        return within
    raise ShopError("how far to trust a measurement must be a length above zero")


@dataclass(frozen=True, slots=True, order=True, repr=False)
class Angle(ToldSize):
    """An angle of an exact number of `degrees`; for functions only, it is not a size.

    TypeError for a float.

    >>> Angle(Fraction(25, 2)) * 3
    Angle(75/2 deg)
    """

    degrees: Fraction
    approximate: bool = field(default=False, compare=False)
    standing: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        if isinstance(self.degrees, str):
            raise ArgumentError("an angle is made of its degrees, not of text: Angle(Fraction(25, 2))")
        object.__setattr__(self, "degrees", exact(self.degrees))

    def __repr__(self) -> str:
        return f"Angle({in_short(self.degrees)} deg{', approximate' if self.approximate else ''})"

    def __str__(self) -> str:
        """Its degrees exactly: `12.5 deg`."""
        return borrowed.text_of(self)

    def __format__(self, spec: str) -> str:
        """Written as `spec` says: `deg`, or `deg.2` for so many decimals at most."""
        return borrowed.text_of(self, spec)

    def __add__(self, other: Angle | int) -> Angle:
        if not isinstance(other, Angle):
            return self if is_zero(other) else NotImplemented  # as sum() begins
        approximate = self.approximate or other.approximate
        return Angle(self.degrees + other.degrees, approximate, worse(self.standing, other.standing))

    __radd__ = __add__

    def resting_on(self, standing: str) -> Angle:
        """The same angle, trusted no further than figures of this standing."""
        return Angle(self.degrees, self.approximate, worse(self.standing, standing))

    def __sub__(self, other: Angle) -> Angle:
        return self + -other if isinstance(other, Angle) else NotImplemented

    def __neg__(self) -> Angle:
        return Angle(-self.degrees, self.approximate, self.standing)

    def __abs__(self) -> Angle:
        return Angle(abs(self.degrees), self.approximate, self.standing)

    def __mul__(self, other: Exact) -> Angle:
        if not isinstance(other, (int, Fraction)):
            return NotImplemented
        return Angle(self.degrees * other, self.approximate, self.standing)

    __rmul__ = __mul__

    def __truediv__(self, other: Exact) -> Angle:
        if not isinstance(other, (int, Fraction)):
            return NotImplemented
        return Angle(self.degrees / other, self.approximate, self.standing)
