"""The common words of every answer: sizes in both units, differences, rules."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import ceil

from fractions_shop.figures.figure import (
    LEAST_TOLD,
    Figure,
    as_fraction,
    decimal_figure,
    decimal_inches_figure,
    in_decimal_inches,
    in_decimals,
    in_inches,
    in_mm,
    inches_figure,
)
from fractions_shop.figures.table import Cell, Piece, in_prose
from fractions_shop.size.notation import UnitsShown, decimal, feet_lead, mm_leads, places_shown, units_shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: The bound below which differences are not told, in inches, and in millimetres rounded up.
_LEAST_IN, _LEAST_MM = (
    decimal(LEAST_TOLD.inch, 4)[0],
    decimal(Fraction(ceil(LEAST_TOLD.mm * 1000), 1000), 3)[0],
)
_LEAST_TOP, _LEAST_BOTTOM = LEAST_TOLD.mm.as_integer_ratio()
#: Nobody reads an exact fraction with a longer denominator.
_LONGEST_DENOMINATOR = 10_000
#: The heading of a column of differences.
OFF = Cell("words", ("off",), ("+ is over",))


# Lengths in both units, as cells of tables and as text


def both_cell(size: Quantity, places: int | None = None) -> Cell:
    """A length in inches and beside that in millimetres, or the other way about where these lead."""
    return _length_cell(
        *size.mm.as_integer_ratio(), size.approximate, size.standing, places, places_shown.get(), units_shown.get()
    )  # fmt: skip


def in_rule_cell(size: Quantity, rule: Rule, places: int | None = None) -> Cell:
    """A length in both, the rule's own unit first unless another leads; decimals of so many `places`."""
    return _length_cell(
        *size.mm.as_integer_ratio(), size.approximate, size.standing, places, places_shown.get(), units_shown.get(),
        rule.metric,
    )  # fmt: skip


# One answer tells a length over and over, and so do those below it, which draw on that: the last ones are kept, both as
# cells and as text. They are found by whole numbers, since a Fraction takes longer to be looked up than to be told.


@lru_cache(2048)
def _length_cell(
    above: int, below: int, approximate: bool, standing: str, places: int | None, shown: int, units: UnitsShown,
    metric: bool = False,
) -> Cell:  # fmt: skip
    """A length of so many mm in both, `places` asked for and `shown` otherwise, and `units` leading."""
    feet = units.feet_from(above, below)
    inches = inches_figure(above, below, places, shown, standing, approximate, feet)
    mm = decimal_figure(above, below, "mm", places, shown, standing, approximate)
    return Cell("size", (mm,), (inches,)) if units.mm_leads(metric) else Cell("size", (inches,), (mm,))


@lru_cache(2048)
def _length_text(
    above: int, below: int, approximate: bool, standing: str, places: int | None, shown: int, units: UnitsShown,
    metric: bool = False,
) -> str:  # fmt: skip
    """The same as text."""
    return in_prose(_length_cell(above, below, approximate, standing, places, shown, units, metric))


def _in_order(kind: str, inches: Figure, mm: Figure, metric: bool = False) -> Cell:
    """Two figures of one length in the order in which they are told."""
    return Cell(kind, (mm,), (inches,)) if mm_leads(metric) else Cell(kind, (inches,), (mm,))


def exact_cell(size: Quantity, rule: Rule) -> Cell:
    """A length that need not be on the rule: the exact fraction (2 8/11 in) and beside it three decimals."""
    metric = mm_leads(rule.metric)
    number, unit = (size.mm, "mm") if metric else (size.inch, "in")
    rounded = in_decimals(number, unit, 3, size.standing)
    if decimal(number, 9)[1] or size.approximate or number.denominator > _LONGEST_DENOMINATOR:
        return in_rule_cell(size, rule)
    if not metric and feet_lead(size):
        return Cell("size", (Figure.of(number, unit, 0, True, "feet and fraction"),), (rounded,))
    return Cell("size", (as_fraction(number, unit),), (rounded,))


def both(size: Quantity, places: int | None = None) -> str:
    """A length in both: `13/32 in (10.31875 mm)`."""
    return _length_text(
        *size.mm.as_integer_ratio(), size.approximate, size.standing, places, places_shown.get(), units_shown.get()
    )  # fmt: skip


def ends_in_mm_alone(size: Quantity, places: int | None = None) -> bool:
    """Whether a length ends in millimetres but in no figure of inches, as one of 2.5 mm does."""
    return not in_inches(size, places).exact and in_mm(size, places).exact


def as_it_ends_cell(size: Quantity, places: int | None = None) -> Cell:
    """A length in both, millimetres first where only they end, as of a block of 1.005 mm, unless another leads."""
    inches, mm = in_inches(size, places), in_mm(size, places)
    return _in_order("size", inches, mm, mm.exact and not inches.exact)


def as_it_ends(size: Quantity) -> str:
    """The same as text."""
    return in_prose(as_it_ends_cell(size))


def in_decimal_inches_first(size: Quantity) -> str:
    """A length in both, in decimals as gauges are marked: `0.8 in (20.32 mm)`."""
    return in_prose(Cell("size", (in_decimal_inches(size),), (in_mm(size),)))


def in_mm_first(size: Quantity) -> str:
    """A length in both, millimetres first: `20.32 mm (0.8 in)`."""
    return in_prose(Cell("size", (in_mm(size),), (in_decimal_inches(size),)))


def in_rule(size: Quantity, rule: Rule) -> str:
    """A length in both, the rule's own unit first."""
    return _length_text(
        *size.mm.as_integer_ratio(), size.approximate, size.standing, None, places_shown.get(), units_shown.get(),
        rule.metric,
    )  # fmt: skip


# Differences


def too_small(error: Quantity) -> bool:
    """Whether a length is a difference that no bench would measure, though not zero."""
    if not error.value:
        return False
    above, below = error.mm.as_integer_ratio()
    # Compared crosswise, since it is asked of every difference.
    return abs(above) * _LEAST_BOTTOM < below * _LEAST_TOP


#: A tenth of a thou, and about as much in millimetres.
_INCH_PLACES, _MM_PLACES = 4, 3


def off_by(error: Quantity, places: int | None = None) -> str:
    """How far off, whichever way: `0.00625 in (0.15875 mm)`, `under 0.0001 in (0.003 mm)`, or `exact`."""
    if error.value == 0:
        return no_error(error)
    if too_small(error):
        inch, mm = f"{_LEAST_IN} in", f"{_LEAST_MM} mm"
        return f"under {mm} ({inch})" if mm_leads() else f"under {inch} ({mm})"
    return _off_as_asked(error, places)


def _off_as_asked(error: Quantity, places: int | None) -> str:
    return _off_text(
        *error.mm.as_integer_ratio(), error.approximate, places, places_shown.get(), units_shown.get()
    )


def no_error(error: Quantity) -> str:
    """What is told of no difference: between sizes of which one rests on a root or an angle it may not be exact."""
    return "approximate" if error.approximate else "exact"


def both_decimals(error: Quantity, places: int | None = None) -> Cell:
    """A difference without its sign, in decimals of an inch and in millimetres.

    It says nothing of its standing: the size that it is off does.
    """
    return _off_cell(
        *error.mm.as_integer_ratio(), error.approximate, places, places_shown.get(), units_shown.get()
    )


def _off_cell(
    above: int, below: int, approximate: bool, places: int | None, shown: int, units: UnitsShown
) -> Cell:
    above, feet = abs(above), units.feet_from(above, below)
    inch = decimal_inches_figure(above, below, places, shown, "", approximate, feet)
    mm = decimal_figure(above, below, "mm", places, shown, "", approximate)
    # One that does not end is not told more finely than anybody measures.
    if not inch.exact and inch.places > _INCH_PLACES:
        inch = decimal_inches_figure(above, below, _INCH_PLACES, shown, "", approximate, feet)
    if not mm.exact and mm.places > _MM_PLACES:
        mm = decimal_figure(above, below, "mm", _MM_PLACES, shown, "", approximate)
    return Cell("difference", (mm,), (inch,)) if units.mm_leads() else Cell("difference", (inch,), (mm,))


@lru_cache(1024)
def _off_text(
    above: int, below: int, approximate: bool, places: int | None, shown: int, units: UnitsShown
) -> str:
    return in_prose(_off_cell(above, below, approximate, places, shown, units))


def play(size: Quantity, metric: bool = False) -> str:
    """A clearance or interference, without its sign: whole where it ends, else to a tenth of a thou.

    `metric` puts millimetres first unless another unit leads. What rounds to nothing is not told as zero: its bound is given.
    """
    size = abs(size).unmarked
    inch, mm = in_decimal_inches(size), in_mm(size)
    mm = mm if mm.exact else in_mm(size, _MM_PLACES)
    if not inch.exact and not too_small(size):
        inch = in_decimal_inches(size, _INCH_PLACES)
    inches: Piece = inch if inch.exact or not too_small(size) else f"under {_LEAST_IN} in"
    return in_prose(Cell("difference", *(((mm,), (inches,)) if mm_leads(metric) else ((inches,), (mm,)))))


def over_under(error: Quantity, places: int | None = None) -> str:
    """An error in words: `0.00625 in (0.15875 mm) over`, `less than 0.0001 in (0.003 mm) over`, or `exact`."""
    if error.value == 0:
        return no_error(error)
    way = "over" if error.value > 0 else "under"
    if too_small(error):
        return (
            f"less than {_LEAST_IN} in ({_LEAST_MM} mm) {way}"  # `under 0.0001 in under` would be read twice
        )
    return f"{_off_as_asked(error, places)} {way}"


def signed_cell(error: Quantity, units: bool = True) -> Cell:
    """An error in a table: `+0.0063 in (+0.159 mm)`, above zero when over; or `exact`.

    Without `units` for a column whose heading says them.
    """
    if error.value == 0:
        return Cell("difference", (no_error(error),))
    inch, mm = (" in", " mm") if units else ("", "")
    if too_small(error):
        least = f"{_LEAST_IN}{inch}", f"{_LEAST_MM}{mm}"
        first, second = reversed(least) if mm_leads() else least
        return Cell("difference", (f"under {first}",), (second,))
    # The size that it is off tells its standing.
    above, below = error.mm.as_integer_ratio()
    shown_units = units_shown.get()
    feet, approximate = units and shown_units.feet_from(above, below), error.approximate
    inches = decimal_inches_figure(
        above, below, _INCH_PLACES, 0, "", approximate, feet, inch.strip()
    ).with_sign()
    millimetres = decimal_figure(above, below, mm.strip(), _MM_PLACES, 0, "", approximate).with_sign()
    leading, beside = (millimetres, inches) if shown_units.mm_leads() else (inches, millimetres)
    return Cell("difference", (leading,), (beside,))


def signed(error: Quantity) -> str:
    """The same as text."""
    return in_prose(signed_cell(error))


def moved(change: Quantity, rule: Rule) -> str:
    """What a total moves by, in words: `1/32 in (0.79375 mm) longer`."""
    if change.value == 0:
        return "unchanged"
    return f"{in_rule(abs(change).unmarked, rule)} {_way(change)}"


def _way(change: Quantity) -> str:
    return "longer" if change.value > 0 else "shorter"


def moved_cell(change: Quantity, rule: Rule) -> Cell:
    """What a total moves by, in words and figures."""
    if change.value == 0:
        return Cell("difference", ("unchanged",))
    cell = in_rule_cell(abs(change).unmarked, rule)
    return Cell("difference", (*cell.pieces, " (", *cell.beside, f") {_way(change)}"))


def rule_word(rule: Rule) -> str:
    """A rule as it stands in a sentence: `64ths`, `whole inches`, `half mm rule`."""
    return f"{rule.name} rule" if rule.metric else rule_name(rule)


_SPOKEN = {"1sts": "whole inches", "2nds": "halves", "4ths": "quarters"}


def rule_name(rule: Rule) -> str:
    """A rule's name where no sentence is: `64ths`, `halves`, `half mm`."""
    return _SPOKEN.get(rule.name, rule.name)


_PLURALS = {"notch": "notches"}


def so_many(number: int, word: str) -> str:
    """`1 check`, `2,000 checks`, `2 notches`."""
    return f"{number:,} {word if number == 1 else _PLURALS.get(word, f'{word}s')}"
