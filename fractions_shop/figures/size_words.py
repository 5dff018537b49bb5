"""Sizes and angles in words: in every unit that says something, and whether exactly."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from fractions_shop.figures.figure import (
    Figure,
    as_fraction,
    decimal_figure,
    feet_figure,
    fraction_figure,
    in_decimals,
    in_inches,
    in_minutes,
    in_mm,
)
from fractions_shop.figures.table import Cell, Piece, Same, in_prose, words
from fractions_shop.figures.wording import as_it_ends, both_cell, off_by, too_small
from fractions_shop.size.digits import is_readable
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import mm_leads, places_shown, readable, units_shown
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import is_sound
from fractions_shop.size.units import inches_of
from fractions_shop.size.value import Value

#: An exact value whose decimals never end is still shown exactly as a fraction up to this.
_LONGEST_DENOMINATOR = 10_000
_Figured = Callable[[Quantity, int], Figure]


def size_line(value: Value) -> str:
    """A value in every unit that says something, and whether exactly.

    `2/5 in = 0.4 in = 10.16 mm exactly`; `51.5 mm exactly, about 2.027559 in`.
    """
    return in_prose(size_cell(value))


def size_cell(value: Value) -> Cell:
    """A value in every unit that says something, and whether exactly, as words and figures."""
    return _told(value, " exactly")


def short_cell(value: Value) -> Cell:
    """The same without the word that an exact one is exact, for where that goes without saying."""
    return _told(value, "")


def taken_as(value: Value) -> str:
    """A value by its exact figures alone, where it has any, and without the word that it is exact."""
    if isinstance(value, Limits):
        return in_prose(short_cell(value))
    figures = figures_of(value)
    exact = tuple(figure for figure in figures if figure.exact)
    return in_prose(Cell("size", (Same(exact or figures),)))


def difference_cell(size: Quantity) -> Cell:
    """How far a size is from another, without its sign: never more finely than is told."""
    size = abs(size)
    if size.power != 1:
        return short_cell(size)
    return words(off_by(size)) if too_small(size) else both_cell(size)


def _told(value: Value, exactly: str) -> Cell:
    if isinstance(value, Limits):
        return _with_limits(value)
    figures = figures_of(value)
    sound = is_sound(value.standing)  # an exact figure that may be wrong is not called exact
    whole = tuple([f for f in figures if f.exact])
    rounded = tuple([f for f in figures if not f.exact]) if len(whole) < len(figures) else ()
    if value.approximate:
        known = tuple(f.but(exact=False) for f in (*whole, *rounded))
        return Cell("size", (Same(known), f", approximate{_trusted(value)}"))
    if not whole:
        return Cell("size", (Same(rounded), f", rounded here{' and exact within' if sound else ''}"))
    if rounded and figures[0] is rounded[0] and units_shown.get().lead:
        # The unit that was asked for leads, even where only the other one ends.
        return Cell("size", (Same(rounded), ", ", Same(whole), " exactly" if sound else ""))
    beside: tuple[Piece, ...] = (", ", Same(rounded)) if rounded else ()
    # What is rounded beside it shows that the rest is exact, unless that is said.
    exactly = (exactly if exactly or not beside else " exactly") if sound else ""
    return Cell("size", (Same(whole), exactly, *beside))


def _trusted(value: Quantity | Angle) -> str:
    """How far what was measured is to be trusted, where that was said."""
    within = None if isinstance(value, Angle) else value.within
    return "" if within is None else f", within {as_it_ends(within)}"


def figures_of(value: Quantity | Angle) -> tuple[Figure, ...]:
    """A value in every unit that says something, each way of writing it once."""
    figures = _angle_figures(value) if isinstance(value, Angle) else _size_figures(value)
    distinct: dict[str, Figure] = {}
    for figure in figures:
        distinct.setdefault(figure.bare, figure)
    return tuple(distinct.values())


def _angle_figures(angle: Angle) -> list[Figure]:
    return [in_decimals(angle.degrees, "deg", standing=angle.standing), in_minutes(angle.degrees)]


def _size_figures(value: Quantity) -> list[Figure]:
    if value.power == 1:
        return _length_figures(value)
    inches = value.in_unit("in")
    unit = _unit("in", value.power)
    standing = value.standing
    figures = [as_fraction(inches, unit, standing)] if readable(inches) else []
    figures.append(in_decimals(inches, unit, standing=standing))
    if value.power:
        figures.append(in_decimals(value.value, _unit("mm", value.power), standing=standing))
    if value.power == -1 and inches.numerator != 0 and readable(1 / inches):
        figures.append(Figure.of(inches, "in", 0, True, "every"))
    return _some_exact(figures, inches, unit)


def _unit(unit: str, power: int) -> str:
    """A unit to a power as the bench writes it, and as it can be read again: `sq in`."""
    if power == -1:
        return "per inch" if unit == "in" else f"per {unit}"
    named = {0: "", 2: f"sq {unit}", 3: f"cu {unit}"}
    return named.get(power, f"{unit}^{power}")


def _length_figures(size: Quantity) -> list[Figure]:
    mm_above, mm_below = size.mm.as_integer_ratio()
    above, below = inches_of(mm_above, mm_below)
    shown, units, standing, approximate = (
        places_shown.get(),
        units_shown.get(),
        size.standing,
        size.approximate,
    )
    inches = [decimal_figure(above, below, "in", None, shown, standing, False)]
    if is_readable(below):
        inches.insert(0, fraction_figure(above, below, "in", True, standing))
    if units.feet and abs(above) >= 12 * below:
        if units.feet_from(mm_above, mm_below):
            inches.insert(0, feet_figure(above, below, None, shown, standing, approximate))
        elif len(inches) > 1:
            inches.insert(1, feet_figure(above, below, None, shown, standing, approximate))
    mm = decimal_figure(mm_above, mm_below, "mm", None, shown, standing, approximate)
    figures = [mm, *inches] if units.mm_leads() else [*inches, mm]
    if approximate or True in [figure.exact for figure in figures]:
        return figures  # of an approximate one no fraction is the whole, whatever its figures end in
    if mm_below < below:
        return _some_exact(figures, size.mm, "mm")
    return _some_exact(figures, size.inch, "in")


def _some_exact(figures: list[Figure], number: Fraction, unit: str) -> list[Figure]:
    """The figures, with a fraction put first where no decimal of them ends."""
    if True not in [figure.exact for figure in figures] and number.denominator <= _LONGEST_DENOMINATOR:
        if any(figure.form == "feet" for figure in figures) and unit == "in":
            return [Figure.of(number, unit, 0, True, "feet and fraction"), *figures]
        return [as_fraction(number, unit), *figures]
    return figures


# Limits


def _with_limits(value: Limits) -> Cell:
    nominal, plus, minus = value.nominal, value.plus, value.minus
    mark = ", approximate" if value.approximate else ""
    if value.power != 1:
        return Cell("size", (Same(figures_of(nominal)), f", with limits{mark}"))
    both_of = _both(in_mm, in_inches) if mm_leads(_ends_in_mm(value)) else _both(in_inches, in_mm)
    if plus == minus:
        return Cell("size", (*both_of(nominal), " ± ", *both_of(plus), mark))
    return Cell("size", (*both_of(nominal), " ", *both_of(plus, True), " / ", *both_of(-minus, True), mark))


def _ends_in_mm(value: Limits) -> bool:
    """Whether limits end in millimetres and not in inches, as those do that were given in millimetres."""
    sizes = (value.nominal, value.plus, value.minus)
    return not all(in_inches(size).exact for size in sizes) and all(in_mm(size).exact for size in sizes)


def _both(first: _Figured, second: _Figured) -> Callable[..., tuple[Piece, ...]]:
    """Writes a length in both units, one after the other; both with their signs for a limit.

    In as many decimals as are shown: limits may be finer than a bench measures.
    """
    places = places_shown.get()

    def pieces(size: Quantity, signed: bool = False) -> tuple[Piece, ...]:
        leading, beside = first(size, places), second(size, places)
        if signed:
            leading, beside = leading.with_sign(), beside.with_sign()
        return leading, " (", beside, ")"

    return pieces
