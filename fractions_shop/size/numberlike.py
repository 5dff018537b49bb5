"""What a size does as other numbers of Python do: it is written, rounded, divided with a rest, made a float."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import ceil, floor, trunc
from numbers import Rational, Real
from typing import TYPE_CHECKING, Any, Protocol, Self

from fractions_shop.errors import ArgumentError, DimensionError, ShopError
from fractions_shop.size import borrowed
from fractions_shop.size.standing import mark_of

if TYPE_CHECKING:
    from fractions_shop.size.quantity import Quantity


class HasDivision(Protocol):
    """A rule, as far as a size need know one."""

    @property
    def division(self) -> Quantity:
        """Its finest division."""


class ToldSize:
    """How a size of any kind is told: in sentences, as an object, in a notebook."""

    __slots__ = ()

    def text(self, width: int = 80, digits: int = 6) -> str:
        """In sentences, as the language answers with it on 64ths, at most `width` columns where words allow.

        Figures that do not end are rounded to `digits` decimals, and say so.
        """
        return borrowed.told(self, width, digits)

    def data(self) -> dict[str, Any]:
        """A plain object for JSON, exact rationals as text: `{"inch": "13/32", "mm": "1651/160", ...}`.

        Every answer has it, so `json.dumps` writes whatever holds some when it is told so:

        >>> import json
        >>> from fractions_shop import Quantity
        >>> json.dumps({"bay": Quantity("13/32 in")}, default=lambda answer: answer.data())
        '{"bay": {"inch": "13/32", "mm": "1651/160", "approximate": false}}'
        """
        return borrowed.object_of(self)

    def _repr_html_(self) -> str:
        """For a notebook: a small table."""
        return borrowed.html_of(self)


class NumberLike(ToldSize):
    """How a Quantity is written and rounded, and its whole division; its `value` is in mm to the `power`."""

    __slots__ = ()

    value: Fraction
    power: int

    def __str__(self) -> str:
        """The exact size, as short as it can be read again: `2 1/32 in`; `about` before an approximate one."""
        return borrowed.text_of(self)

    def __format__(self, spec: str) -> str:
        """Written as `spec` says: `in`, `mm.3`, `64ths`, `ft in` or `both`; see the README for each.

        Decimals asked for are rounded to nearest, a tie to even; without a number of them a
        figure that does not end in six says `about`.
        """
        return borrowed.text_of(self, spec)

    def to(self, unit: str | HasDivision) -> Fraction:
        """How many of a unit, or of a rule's divisions, it is, exactly.

        ShopError for what is neither, DimensionError where it measures something else.
        """
        return borrowed.many_of(self, unit)

    # Order

    def __lt__(self, other: Any) -> bool:
        return self._compared(other) < 0

    def __le__(self, other: Any) -> bool:
        return self._compared(other) <= 0

    def __gt__(self, other: Any) -> bool:
        return self._compared(other) > 0

    def __ge__(self, other: Any) -> bool:
        return self._compared(other) >= 0

    def _compared(self, other: Any) -> int:
        """Above zero where it is larger than another size of its kind, below where it is smaller."""
        raise NotImplementedError

    # Rounded, and as a number

    def __round__(self, rule: Any = None) -> Any:
        """The division of a rule that is nearest to a length, a tie to the even one; a plain number's whole one.

        `round(q, Rule(64))`, `round(q, "64ths")`; a plain number as Python's own are rounded.
        """
        if self.power == 0:
            rounded = round(self.value) if rule is None else round(self.value, rule)
            return rounded if rule is None else type(self)(rounded, 0)  # type: ignore[call-arg]
        if rule is None or isinstance(rule, int):
            raise ArgumentError("a length is rounded to a rule: round(size, '64ths') or round(size, 'mm')")
        return borrowed.on_rule(self, rule)

    def __floor__(self) -> int:
        return floor(self._number("floor"))

    def __ceil__(self) -> int:
        return ceil(self._number("ceil"))

    def __trunc__(self) -> int:
        return trunc(self._number("trunc"))

    def __float__(self) -> float:
        """A plain number as a float; DimensionError for a length, whose unit must be said: float(q.to("mm"))."""
        return float(self._number("float"))

    def __int__(self) -> int:
        """A whole plain number; ArgumentError for one that is not whole."""
        number = self._number("int")
        if number.denominator != 1:
            raise ArgumentError(f"{number} is no whole number: say round, floor or ceil")
        return int(number)

    def _number(self, doing: str) -> Fraction:
        if self.power:
            raise DimensionError(
                f"{doing} is of plain numbers: say in what unit, such as {doing}(size.to('mm'))"
            )
        return self.value

    # Whole division: how many go in, and what is left

    def __floordiv__(self, other: Any) -> int:
        return self.__divmod__(other)[0]

    def __mod__(self, other: Any) -> Self:
        return self.__divmod__(other)[1]

    def __divmod__(self, other: Any) -> tuple[int, Self]:
        """How many of another size of the same kind go in, and what is left; DimensionError for other kinds."""
        divisor: Quantity = self._same(borrowed.known(other), "work out a remainder of")  # type: ignore[attr-defined]
        if not divisor.value:
            raise ZeroDivisionError("nothing can be divided by zero")
        whole = self.value // divisor.value
        # The rest is a difference, which carries on what both sizes are marked with.
        rest: Self = self - divisor * whole  # type: ignore[assignment]
        return whole, rest

    def __rfloordiv__(self, other: Any) -> int:
        return self.__rdivmod__(other)[0]

    def __rmod__(self, other: Any) -> Self:
        return self.__rdivmod__(other)[1]

    def __rdivmod__(self, other: Any) -> tuple[int, Self]:
        other = borrowed.known(other)
        number: Self = other if isinstance(other, type(self)) else type(self)(other, 0)  # type: ignore[call-arg]
        return number.__divmod__(self)


def no_number(value: object) -> ArgumentError:
    """The refusal of what is no number, with what to write where it is a size."""
    said = f"expected an int, a Fraction or a Decimal, not {type(value).__name__}"
    if isinstance(value, str):
        return ArgumentError(f"{said}: write Quantity({value!r}) where it is a size")
    limits = isinstance(value, ToldSize)
    return ArgumentError(f"{said}: take its .lower, .upper or .nominal" if limits else said)


def no_power(exponent: object) -> Quantity:
    """What a power gives that is not whole: a refusal, or NotImplemented where it is no number."""
    if isinstance(exponent, Real | Decimal):
        raise ArgumentError("a size is raised to whole powers; a root is read: read('sqrt(2 sq in)')")
    return NotImplemented  # type: ignore[no-any-return]


def trust_as_written(within: str) -> tuple[Fraction, str]:
    """How many of which unit a measured size is trusted to, as `0.01 mm` says it."""
    number, _, unit = within.strip().partition(" ")
    try:
        return Fraction(number), unit.strip()
    except (ValueError, ZeroDivisionError):
        raise ShopError(f"expected how far to trust it, such as '0.01 mm', not {within!r}") from None


def printed(number: Any) -> Fraction:
    """A real number as the shortest decimal that it prints as."""
    if not isinstance(number, Real | Decimal) or isinstance(number, bool):
        raise ArgumentError(f"expected what an instrument gave, a number, not {type(number).__name__}")
    if isinstance(number, Rational):
        return Fraction(int(number.numerator), int(number.denominator))
    text = float.__repr__(number) if isinstance(number, float) else str(number)
    try:
        return Fraction(text)
    except ValueError:
        raise ShopError(f"{number} is not a size") from None


#: A rational of more bits than this, some 30 figures, is not written out in a repr.
_LONGEST = 100


def in_short(value: Fraction) -> str:
    """A rational exactly, or where it is long what it is about: `~0.7853981634`."""
    if value.numerator.bit_length() + value.denominator.bit_length() <= _LONGEST:
        return str(value)
    return f"~{Decimal(value.numerator) / Decimal(value.denominator):.10g}"


def figures_in_short(size: Quantity) -> str:
    """A size for a repr: exactly, in both units where it is a length, and how far it may be trusted."""
    mark = ", approximate" if size.approximate else ""
    if size.approximate and size.within is not None:
        mark += f", within {in_short(size.within.mm)} mm"
    mark += mark_of(size.standing)
    if size.power == 1:
        return f"{in_short(size.inch)} in = {in_short(size.mm)} mm{mark}"
    return f"{in_short(size.value)}{f' mm^{size.power}' if size.power else ''}{mark}"
