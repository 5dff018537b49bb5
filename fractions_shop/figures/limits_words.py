"""Limits in words: the limits themselves, inward rounding, the likely limits and what feeds them."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from fractions_shop.figures.figure import Figure, decimal_figure, in_decimals, in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import figures_of
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import both
from fractions_shop.size.limits import RSS_ASSUMPTION, Limits
from fractions_shop.size.notation import decimal, feet_lead, mm_leads, places_shown, readable
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import inches_of

#: What moves a size is told by so many names at most.
_MOST_NAMED = 5


def limits_lines(value: Limits) -> Lines:
    """The limits themselves, their inward rounding, the likely limits and what feeds them."""
    lower, upper = value.lower, value.upper
    named = [("upper limit", upper), ("lower limit", lower), ("spread", value.spread)]
    if value.power == 1:
        lines: Lines = [Table(tuple([_limit_row(name, size) for name, size in named]))]
        lines += _inward_lines(lower, upper)
        if lower.value < 0 < value.nominal.value:
            lines.append("the lower limit lies below zero")
    else:
        named = named[:2]
        figures = [figures_of(size)[-2:] for _, size in named]
        most = max(map(len, figures))
        rows = [("",) * (most - len(row)) + tuple(map(_cell, row)) for row in figures]
        lines = [Table(tuple((name, *row) for (name, _), row in zip(named, rows, strict=True)))]
    if value.stacked:
        likely = value.root_sum_square
        lines.append("that is the worst case, every part at its limit at once")
        lines.append(
            f"likely {_short(likely.lower)} to {_short(likely.upper)}: the root of the sum of squares, {RSS_ASSUMPTION}"
        )
        lines += _tighten_first(value)
    return lines


def _tighten_first(value: Limits) -> list[str]:
    """What moves it most, those that move it alike together, _MOST_NAMED at most by name."""
    moving = [(name, reach) for name, reach in value.contributions if reach.value]
    named, parts = moving[:_MOST_NAMED], []
    for reach, group in groupby(named, key=lambda pair: pair[1]):
        names = [name for name, _ in group]
        unnamed = names.count("")
        parts_named = [name for name in names if name]
        if unnamed:
            parts_named.append("an unnamed size" if unnamed == 1 else f"{unnamed} unnamed sizes")
        each = f"{_short(reach)} each way{', each' if len(names) > 1 else ''}"
        parts_named = [" and ".join(parts_named[-2:]), *parts_named[-3::-1]][::-1]
        parts.append(f"{', '.join(parts_named)} ({each})")
    more = len(moving) - len(named)
    if more:
        parts.append(f"{more} more that move it less" if moving[-1][1] < named[-1][1] else f"{more} more")
    return [f"tighten first: {', then '.join(parts)}"] if parts else []


def _limit_row(name: str, size: Quantity) -> tuple[Cell | str, ...]:
    # The standing is said once in a row, behind its last figure.
    # Limits may be finer than a bench measures: they have all the decimals that are shown.
    places = places_shown.get()
    unmarked, mm = size.unmarked, _cell(in_mm(size, places))
    fraction = _cell(in_inches(unmarked, places)) if readable(size.inch) or feet_lead(size) else ""
    inches: tuple[Cell | str, Cell] = (fraction, _cell(in_decimals(size.inch, "in", places)))
    if mm_leads():
        return (
            name,
            _cell(in_mm(unmarked, places)),
            fraction,
            _cell(in_decimals(size.inch, "in", places, size.standing)),
        )
    return name, *inches, mm


def _cell(figure: Figure) -> Cell:
    return Cell("size", (figure,))


def inward_lines(value: Limits) -> Lines:
    """Limits rounded so that they never leave the written ones, where they do not end by themselves.

    The rounding is to the power of ten next below a twentieth of the spread. Inward
    rounding is that of ANSI/IEEE 268 and of ISO 370, method B.
    """
    return _inward_lines(value.lower, value.upper)


def _inward_lines(lower: Quantity, upper: Quantity) -> Lines:
    if lower == upper:
        return []
    sentences = [_inward(lower.mm, upper.mm, "mm", "for a metric machine")]
    # Fractions of an inch stand as they are; limits given in mm may have no end in inches.
    if not (_ends(lower) and _ends(upper)):
        sentences.append(_inward(lower.inch, upper.inch, "in", "in inches"))
    return [line for line in sentences if line]


def _ends(size: Quantity) -> bool:
    """Whether a length ends in decimals of an inch, as they are shown."""
    return decimal_figure(
        *inches_of(*size.mm.as_integer_ratio()), "in", None, places_shown.get(), "", False
    ).exact


def inward_ends(value: Limits) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    """Both limits in inches and both in millimetres, as a list has them: rounded as `inward_lines` says.

    Inches that end by themselves stand as they are; limits without a spread do too.
    """
    lower, upper = value.lower, value.upper
    inches = lower.inch, upper.inch
    metric = lower.mm, upper.mm
    if lower == upper:
        return inches, metric
    if not (_ends(lower) and _ends(upper)):
        inches = _rounded(*inches)[:2]
    return inches, _rounded(*metric)[:2]


def _rounded(lower: Fraction, upper: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """The ends rounded inward, and the power of ten that they are rounded to."""
    # In whole numbers, since every list of limits asks it.
    (low, low_below), (high, high_below) = lower.as_integer_ratio(), upper.as_integer_ratio()
    spread, below = high * low_below - low * high_below, low_below * high_below
    parts = 1
    while 20 * below > spread * parts:
        parts *= 10
    raised, cut = -(-low * parts // low_below), high * parts // high_below
    return Fraction(raised, parts), Fraction(cut, parts), Fraction(1, parts)


def _inward(lower: Fraction, upper: Fraction, unit: str, whom: str) -> str:
    raised, cut, step = _rounded(lower, upper)
    if (raised, cut) == (lower, upper):
        return ""
    return (
        f"{whom}: {decimal(raised, 12)[0]} {unit} to {decimal(cut, 12)[0]} {unit}, rounded inward to "
        f"{decimal(step, 12)[0]} {unit} so that no part leaves the limits (ANSI/IEEE 268; ISO 370, method B)"
    )


def _short(size: Quantity) -> str:
    """The first figure of a size, in inches."""
    return both(size, 5) if size.power == 1 else in_prose(Cell("size", (figures_of(size)[0],)))
