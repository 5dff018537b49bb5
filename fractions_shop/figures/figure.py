"""A figure: one number as it is to be told, before any writer has made it into text."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import (
    decimal,
    feet_lead,
    feet_text,
    mixed,
    places_shown,
    readable,
    rounded_places,
    to_places,
    units_shown,
)
from fractions_shop.size.quantity import Quantity

#: More decimals than this are never asked for; a number that is still zero then is told as zero.
_MOST_PLACES = 60
#: No difference is told more finely: a tenth of a thou is the least that a bench measures
#: (common practice, no source).
LEAST_TOLD = Quantity.inches(Fraction(1, 10_000))


class Figure(Record):
    """`value` in `unit`, to be written in at most `places` decimals; `exact` if that is the whole of it.

    `form` says how the digits stand: `decimal`; `fraction` (2 1/32); `feet` and inches, of a
    number of inches, or `feet and fraction`; `minutes`, an angle of degrees in degrees, minutes and seconds; `every`,
    a number per inch told as 1 every so much. `signed` puts a + before what is not below zero.
    `standing` is that of the size it tells, which a cell says once of all its figures.
    """

    value: Fraction
    unit: str
    places: int
    exact: bool
    form: str = "decimal"
    signed: bool = False
    standing: str = ""

    @cached_property
    def bare(self) -> str:
        """The digits, with their unit, without a word on whether they are exact."""
        match self.form:
            case "fraction":
                digits = mixed(self.value)
            case "feet" | "feet and fraction":
                digits = feet_text(self.value, self.places, self.form != "feet")[0]
                return f"+{digits}" if self.signed and self.value >= 0 else digits
            case "minutes":
                return _minutes(self.value)
            case "every":
                return f"1 every {mixed(abs(1 / self.value))} {self.unit}"
            case _:
                digits = decimal(self.value, self.places)[0]
        sign = "+" if self.signed and self.value >= 0 else ""
        return f"{sign}{digits} {self.unit}".rstrip()

    def without_unit(self) -> Figure:
        """The same, for where a heading or a neighbour says the unit."""
        return self.but(unit="")


def in_decimals(value: Fraction, unit: str, places: int | None = None, standing: str = "") -> Figure:
    """A number as a decimal in at most `places` (those shown now), or in more where it would read as zero.

    A length that does not end is told in fewer, where no `places` are asked for.
    """
    return _decimals(value.numerator, value.denominator, unit, places, places_shown.get(), standing)


# A size is told several times, in an answer and in the lists that hold it: the last figures are kept, and their
# digits with them. They are found by whole numbers, since a Fraction takes longer to be looked up than to be told.


@lru_cache(4096)
def _decimals(above: int, below: int, unit: str, asked: int | None, shown: int, standing: str) -> Figure:
    value = Fraction(above, below)
    places = shown if asked is None else asked
    digits, whole = to_places(value, places)
    if not whole and (fewer := rounded_places(unit, asked)) < places:
        places = fewer
        digits = to_places(value, places)[0]
    while not digits and not whole and places < _MOST_PLACES:
        places += 3
        digits, whole = to_places(value, places)
    return Figure(value, unit, places, whole, standing=standing)


@lru_cache(4096)
def _mixed(above: int, below: int, unit: str, exact: bool, standing: str) -> Figure:
    return Figure(Fraction(above, below), unit, 0, exact, "fraction", standing=standing)


@lru_cache(4096)
def _feet(above: int, below: int, places: int, fewer: int, approximate: bool, standing: str) -> Figure:
    inches = Fraction(above, below)
    exact = feet_text(inches, places)[1]
    places = places if exact else fewer
    return Figure(inches, "in", places, exact and not approximate, "feet", standing=standing)


def as_fraction(value: Fraction, unit: str, standing: str = "") -> Figure:
    """A number as a mixed fraction, which is always exact."""
    return _mixed(value.numerator, value.denominator, unit, True, standing)


def in_inches(size: Quantity, places: int | None = None) -> Figure:
    """A length in inches, from 2 ft in feet and inches: the readable fraction where there is one, else decimals."""
    mm = size.mm
    return _inches(
        mm.numerator, mm.denominator, size.approximate, size.standing, places, places_shown.get(),
        units_shown.get().feet,
    )  # fmt: skip


@lru_cache(4096)
def _inches(
    above: int, below: int, approximate: bool, standing: str, places: int | None, shown: int, feet: bool
) -> Figure:
    """The same of so many mm; `shown` and `feet` are what is asked for now."""
    size = Quantity(Fraction(above, below), 1, approximate, None, standing)
    if feet_lead(size):
        return in_feet(size, places)
    inches = size.inch
    if readable(inches):
        return _mixed(inches.numerator, inches.denominator, "in", not size.approximate, size.standing)
    return _in_decimals_of(size, inches, "in", places)


def in_mm(size: Quantity, places: int | None = None) -> Figure:
    """A length in millimetres."""
    return _in_decimals_of(size, size.mm, "mm", places)


def in_decimal_inches(size: Quantity, places: int | None = None) -> Figure:
    """A length in decimals of an inch, from 2 ft in feet and inches."""
    if feet_lead(size):
        return in_feet(size, places)
    return _in_decimals_of(size, size.inch, "in", places)


def in_feet(size: Quantity, places: int | None = None) -> Figure:
    """A length in feet and inches."""
    inches = size.inch
    shown, fewer = places_shown.get() if places is None else places, rounded_places("in", places)
    return _feet(inches.numerator, inches.denominator, shown, fewer, size.approximate, size.standing)


def _in_decimals_of(size: Quantity, value: Fraction, unit: str, places: int | None) -> Figure:
    """A number of units of a size as a decimal, which is never the whole of an approximate one."""
    figure = in_decimals(value, unit, places, size.standing)
    return figure.but(exact=False) if size.approximate else figure


def in_minutes(degrees: Fraction) -> Figure:
    """An angle in degrees, minutes and whole seconds."""
    return Figure(degrees, "", 0, (degrees * 3600).denominator == 1, "minutes")


def _minutes(degrees: Fraction) -> str:
    sign, seconds = ("-" if degrees < 0 else ""), round(abs(degrees) * 3600)
    return f"{sign}{seconds // 3600}°{seconds // 60 % 60:02d}'{seconds % 60:02d}\""
