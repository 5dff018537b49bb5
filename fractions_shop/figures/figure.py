"""A figure: one number as it is to be told, before any writer has made it into text."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from fractions_shop.size import digits
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import places_shown, units_shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import inches_of

#: No difference is told more finely: a tenth of a thou is the least that a bench measures
#: (common practice, no source).
LEAST_TOLD = Quantity.inches(Fraction(1, 10_000))


class Figure(Record, metaclass=Drafted):
    """`above` over `below` in `unit`, to be written in at most `places` decimals; `exact` if that is the whole of it.

    `form` says how the digits stand: `decimal`; `fraction` (2 1/32); `feet` and inches, of a
    number of inches, or `feet and fraction`; `minutes`, an angle of degrees in degrees, minutes and seconds; `every`,
    a number per inch told as 1 every so much. `signed` puts a + before what is not below zero.
    `standing` is that of the size it tells, which a cell says once of all its figures.
    `bare` is all that in figures: the digits, with their unit, without a word on whether they are exact.

    Its text is made with it: a dozen are told in every answer. `Figure.of` makes one of a number.
    """

    above: int
    below: int
    unit: str
    places: int
    exact: bool
    form: str
    signed: bool
    standing: str
    bare: str

    @classmethod
    def of(
        cls, value: Fraction, unit: str, places: int, exact: bool, form: str = "decimal", signed: bool = False,
        standing: str = "",
    ) -> Figure:  # fmt: skip
        """The figure of a number in one of the forms, its text made of it."""
        above, below = value.as_integer_ratio()
        bare = _digits(above, below, unit, places, form)
        figure = cls(above, below, unit, places, exact, form, False, standing, bare)
        return figure.with_sign() if signed else figure

    @property
    def value(self) -> Fraction:
        """The number, of which `bare` may tell but so many places."""
        return Fraction(self.above, self.below)

    def with_sign(self) -> Figure:
        """The same with a + before what is not below zero."""
        signless = self.above < 0 or self.form in _SIGNLESS
        return Figure(
            self.above, self.below, self.unit, self.places, self.exact, self.form, True, self.standing,
            self.bare if signless else f"+{self.bare}",
        )  # fmt: skip

    def without_unit(self) -> Figure:
        """The same, for where a heading or a neighbour says the unit."""
        return Figure.of(self.value, "", self.places, self.exact, self.form, self.signed, self.standing)


#: The forms that no sign is put before.
_SIGNLESS = ("minutes", "every")


def _digits(above: int, below: int, unit: str, places: int, form: str) -> str:
    """What a number comes to in that form, with its unit."""
    match form:
        case "fraction":
            number = digits.mixed(above, below)
        case "feet" | "feet and fraction":
            return digits.in_feet(above, below, places, form != "feet")[0]
        case "minutes":
            return _minutes(Fraction(above, below))
        case "every":
            number = f"1 every {digits.mixed(below, abs(above))}"
        case _:
            number = digits.pointed(digits.to_places(above, below, places)[0], places)
    return f"{number} {unit}".rstrip()


def in_decimals(value: Fraction, unit: str, places: int | None = None, standing: str = "") -> Figure:
    """A number as a decimal in at most `places` (those shown now), or in more where it would read as zero.

    A length that does not end is told in fewer, where no `places` are asked for.
    """
    above, below = value.as_integer_ratio()
    return decimal_figure(above, below, unit, places, places_shown.get(), standing, False)


@lru_cache(2048)
def decimal_figure(
    above: int, below: int, unit: str, asked: int | None, shown: int, standing: str, approximate: bool
) -> Figure:
    """A number of `unit` as a decimal, in as many places as were `asked` for or are `shown`, or as `digits.decimals` has it."""
    text, places, whole = digits.decimals(above, below, unit, asked, shown)
    return Figure(
        above, below, unit, places, whole and not approximate, "decimal", False, standing,
        f"{text} {unit}" if unit else text,
    )  # fmt: skip


def as_fraction(value: Fraction, unit: str, standing: str = "") -> Figure:
    """A number as a mixed fraction, which is always exact."""
    above, below = value.as_integer_ratio()
    return fraction_figure(above, below, unit, True, standing)


def fraction_figure(above: int, below: int, unit: str, exact: bool, standing: str) -> Figure:
    """A number of `unit` as a mixed fraction."""
    number = digits.mixed(above, below)
    bare = f"{number} {unit}" if unit else number
    return Figure(above, below, unit, 0, exact, "fraction", False, standing, bare)


def feet_figure(
    above: int, below: int, asked: int | None, shown: int, standing: str, approximate: bool
) -> Figure:
    """A number of inches in feet and inches."""
    places = shown if asked is None else asked
    bare, exact = digits.in_feet(above, below, places)
    if not exact and (fewer := digits.rounded_places("in", asked, shown)) != places:
        places = fewer
        bare = digits.in_feet(above, below, places)[0]
    return Figure(above, below, "in", places, exact and not approximate, "feet", False, standing, bare)


@lru_cache(2048)
def inches_figure(
    above: int, below: int, asked: int | None, shown: int, standing: str, approximate: bool, feet: bool
) -> Figure:
    """A number of mm in inches: in `feet` and inches, or else a readable fraction where there is one, else decimals.

    In as many decimals as were `asked` for, or are `shown`.
    """
    above, below = inches_of(above, below)
    if feet:
        return feet_figure(above, below, asked, shown, standing, approximate)
    if digits.is_readable(below):
        return fraction_figure(above, below, "in", not approximate, standing)
    return decimal_figure(above, below, "in", asked, shown, standing, approximate)


def decimal_inches_figure(
    above: int, below: int, asked: int | None, shown: int, standing: str, approximate: bool, feet: bool,
    unit: str = "in",
) -> Figure:  # fmt: skip
    """A number of mm in decimals of an inch, or in `feet` and inches; without `unit` where that is said beside it."""
    above, below = inches_of(above, below)
    if feet:
        return feet_figure(above, below, asked, shown, standing, approximate)
    return decimal_figure(above, below, unit, asked, shown, standing, approximate)


def in_inches(size: Quantity, places: int | None = None) -> Figure:
    """A length in inches, from 2 ft in feet and inches: the readable fraction where there is one, else decimals."""
    above, below = size.mm.as_integer_ratio()
    return inches_figure(
        above,
        below,
        places,
        places_shown.get(),
        size.standing,
        size.approximate,
        units_shown.get().feet_from(above, below),
    )


def in_mm(size: Quantity, places: int | None = None) -> Figure:
    """A length in millimetres."""
    above, below = size.mm.as_integer_ratio()
    return decimal_figure(above, below, "mm", places, places_shown.get(), size.standing, size.approximate)


def in_bare_mm(size: Quantity, places: int) -> Figure:
    """The same in at most so many places and without its unit, for where a neighbour says it."""
    above, below = size.mm.as_integer_ratio()
    return decimal_figure(above, below, "", places, places_shown.get(), size.standing, size.approximate)


def in_decimal_inches(size: Quantity, places: int | None = None) -> Figure:
    """A length in decimals of an inch, from 2 ft in feet and inches."""
    above, below = size.mm.as_integer_ratio()
    feet = units_shown.get().feet_from(above, below)
    return decimal_inches_figure(
        above, below, places, places_shown.get(), size.standing, size.approximate, feet
    )


def in_feet(size: Quantity, places: int | None = None) -> Figure:
    """A length in feet and inches."""
    above, below = inches_of(*size.mm.as_integer_ratio())
    return feet_figure(above, below, places, places_shown.get(), size.standing, size.approximate)


def in_minutes(degrees: Fraction) -> Figure:
    """An angle in degrees, minutes and whole seconds."""
    return Figure.of(degrees, "", 0, (degrees * 3600).denominator == 1, "minutes")


def _minutes(degrees: Fraction) -> str:
    sign, seconds = ("-" if degrees < 0 else ""), round(abs(degrees) * 3600)
    return f"{sign}{seconds // 3600}°{seconds // 60 % 60:02d}'{seconds % 60:02d}\""
