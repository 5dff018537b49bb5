"""Sizes, angles and limits in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from fractions_shop.figures.figure import (
    Figure,
    as_fraction,
    in_decimals,
    in_feet,
    in_inches,
    in_minutes,
    in_mm,
)
from fractions_shop.figures.table import Cell, Piece, Same, Table, in_prose, words
from fractions_shop.language.arithmetic import Value
from fractions_shop.language.results import SizeResult, Target
from fractions_shop.show.words import (
    Lines,
    both,
    both_cell,
    in_rule,
    moved,
    off_by,
    over_under,
    rule_word,
    too_small,
)
from fractions_shop.size.limits import RSS_ASSUMPTION, Limits
from fractions_shop.size.notation import decimal, readable
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule, Snap

if TYPE_CHECKING:
    from fractions_shop.layout.spacing import Spacing

#: What moves a size is told by so many names at most.
_MOST_NAMED = 5
#: An exact value whose decimals never end is still shown exactly as a fraction up to this.
_LONGEST_DENOMINATOR = 10_000
_Figured = Callable[[Quantity], Figure]
_TENS = {10**n for n in range(16)}


def size_line(value: Value) -> str:
    """A value in every unit that says something, and whether exactly.

    `2/5 in = 0.4 in = 10.16 mm exactly`; `51.5 mm exactly, about 2.027559 in`.
    """
    return in_prose(size_cell(value))


def short_line(value: Value) -> str:
    """The same without the word that an exact one is exact, for where that goes without saying."""
    return in_prose(short_cell(value))


def size_cell(value: Value) -> Cell:
    """A value in every unit that says something, and whether exactly, as words and figures."""
    return _told(value, " exactly")


def short_cell(value: Value) -> Cell:
    """The same without the word that an exact one is exact."""
    return _told(value, "")


def difference_cell(size: Quantity) -> Cell:
    """How far a size is from another, without its sign: never more finely than is told."""
    size = abs(size)
    if size.power != 1:
        return short_cell(size)
    return words(off_by(size)) if too_small(size) else both_cell(size)


def _told(value: Value, exactly: str) -> Cell:
    if isinstance(value, Limits):
        return _with_limits(value)
    figures = _figures(value)
    whole = tuple(f for f in figures if f.exact)
    rounded = tuple(f for f in figures if not f.exact)
    if value.approximate:
        known = tuple(replace(f, exact=False) for f in (*whole, *rounded))
        return Cell("size", (Same(known), ", approximate"))
    if not whole:
        return Cell("size", (Same(rounded), ", rounded here and exact within"))
    beside: tuple[Piece, ...] = (", ", Same(rounded)) if rounded else ()
    # What is rounded beside it shows that the rest is exact, unless that is said.
    return Cell("size", (Same(whole), exactly if exactly or not beside else " exactly", *beside))


def _figures(value: Quantity | Angle) -> tuple[Figure, ...]:
    """A value in every unit that says something, each way of writing it once."""
    found = _angle_figures(value) if isinstance(value, Angle) else _size_figures(value)
    told: dict[str, Figure] = {}
    for figure in found:
        told.setdefault(figure.bare, figure)
    return tuple(told.values())


def _angle_figures(angle: Angle) -> list[Figure]:
    return [in_decimals(angle.degrees, "deg"), in_minutes(angle.degrees)]


def _size_figures(value: Quantity) -> list[Figure]:
    if value.power == 1:
        return _length_figures(value)
    inches = value.in_unit("in")
    unit = _unit("in", value.power)
    figures = [as_fraction(inches, unit)] if readable(inches) else []
    figures.append(in_decimals(inches, unit))
    if value.power:
        figures.append(in_decimals(value.value, _unit("mm", value.power)))
    if value.power == -1 and inches.numerator != 0 and readable(1 / inches):
        figures.append(Figure(inches, "in", 0, True, "every"))
    return _some_exact(figures, inches, unit)


def _unit(unit: str, power: int) -> str:
    """A unit to a power as the bench writes it, and as it can be read again: `sq in`."""
    if power == -1:
        return "per inch" if unit == "in" else f"per {unit}"
    named = {0: "", 2: f"sq {unit}", 3: f"cu {unit}"}
    return named.get(power, f"{unit}^{power}")


def _length_figures(size: Quantity) -> list[Figure]:
    figures = [as_fraction(size.inch, "in")] if readable(size.inch) else []
    if figures and abs(size.inch) >= 12:
        figures.append(in_feet(size))
    figures += [in_decimals(size.inch, "in"), in_mm(size)]
    if size.mm.denominator < size.inch.denominator:
        return _some_exact(figures, size.mm, "mm")
    return _some_exact(figures, size.inch, "in")


def _some_exact(figures: list[Figure], number: Fraction, unit: str) -> list[Figure]:
    """The figures, with a fraction put first where no decimal of them ends."""
    if not any(f.exact for f in figures) and number.denominator <= _LONGEST_DENOMINATOR:
        return [as_fraction(number, unit), *figures]
    return figures


# What an expression answers


def size_lines(result: SizeResult) -> Lines:
    """An expression's answer: the size, the rule that carries it, the nearest division, hints."""
    if result.target is not None:
        return _in_target(result, result.target)
    lines: Lines = [size_line(result.value)]
    if isinstance(result.value, Limits):
        return lines + limits_lines(result.value)
    if result.carried_by is not None:
        lines.append(f"a mark of the {rule_word(result.carried_by)}")
    if result.nearest is not None:
        lines.append(_nearest_mark(result.nearest, result.rule))
    if result.spacing is not None:
        lines.append(_does_divide(result.spacing))
    return lines


def _does_divide(spacing: Spacing) -> str:
    near = spacing.nearest
    return (
        f"{in_rule(near.total, spacing.rule)} does divide by {spacing.count} on the "
        f"{rule_word(spacing.rule)}: {in_rule(near.space, spacing.rule)} each, the total {moved(near.change, spacing.rule)}"
    )


def _in_target(result: SizeResult, target: Target) -> Lines:
    value = result.value
    if isinstance(value, Limits):
        named = (("upper limit", value.upper), ("nominal", value.nominal), ("lower limit", value.lower))
        inward = inward_lines(value) if value.power == 1 else []
        return [Table(tuple((name, _count(size, target)) for name, size in named)), *inward]
    assert isinstance(value, Quantity)
    lines: Lines = [in_prose(_count(value, target))]
    if target.rule is not None:
        whole = round(value.value / target.mm)
        error = Quantity(whole * target.mm) - value
        if error.value:
            lines.append(f"the nearest whole number is {whole} {_target_word(target)}, {over_under(error)}")
    elif result.nearest is not None and _is_metric(target) == result.rule.metric:
        lines.append(_nearest_mark(result.nearest, result.rule))
    return lines


def _is_metric(target: Target) -> bool:
    """Whether a unit is a power of ten in millimetres."""
    return all(int(n) in _TENS for n in (target.mm.numerator, target.mm.denominator))


def _nearest_mark(near: Snap, rule: Rule) -> str:
    return f"not on the {rule_word(rule)}: the nearest mark is {in_rule(near.size, rule)}, {over_under(near.error)}"


def _target_word(target: Target) -> str:
    return f"x {target.name}" if target.rule is not None and target.rule.metric else target.name


def _count(size: Quantity, target: Target) -> Cell:
    count = in_decimals(size.value / target.mm, _target_word(target))
    if size.approximate:
        return Cell("size", (replace(count, exact=False), ", approximate"))
    if count.exact:
        return Cell("size", (count, " exactly"))
    if size.power != 1:
        return Cell("size", (count, ", rounded"))
    by = Quantity((Fraction(decimal(count.value, count.places)[0]) - count.value) * target.mm)
    return Cell("size", (count, f", rounded by {off_by(by) if too_small(by) else over_under(by)}"))


# Limits


def _with_limits(value: Limits) -> Cell:
    nominal, plus, minus = value.nominal, value.plus, value.minus
    mark = ", approximate" if value.approximate else ""
    if value.power != 1:
        return Cell("size", (Same(_figures(nominal)), f", with limits{mark}"))
    both_of = _both(in_mm, in_inches) if _ends_in_mm(value) else _both(in_inches, in_mm)
    if plus == minus:
        return Cell("size", (*both_of(nominal), " ± ", *both_of(plus), mark))
    return Cell("size", (*both_of(nominal), " ", *both_of(plus, True), " / ", *both_of(-minus, True), mark))


def _ends_in_mm(value: Limits) -> bool:
    """Whether limits end in millimetres and not in inches, as those do that were given in millimetres."""
    sizes = (value.nominal, value.plus, value.minus)
    return all(in_mm(size).exact for size in sizes) and not all(in_inches(size).exact for size in sizes)


def _both(one: _Figured, other: _Figured) -> Callable[..., tuple[Piece, ...]]:
    """Writes a length in both units, one after the other; both with their signs for a limit."""

    def pieces(size: Quantity, signed: bool = False) -> tuple[Piece, ...]:
        return replace(one(size), signed=signed), " (", replace(other(size), signed=signed), ")"

    return pieces


def _short(size: Quantity) -> str:
    """The first figure of a size, in inches."""
    return both(size, 5) if size.power == 1 else in_prose(Cell("size", (_figures(size)[0],)))


def limits_lines(value: Limits) -> Lines:
    """The limits themselves, their inward rounding, the likely limits and what feeds them."""
    named = [("upper limit", value.upper), ("lower limit", value.lower), ("spread", value.spread)]
    if value.power == 1:
        lines: Lines = [Table(tuple(_limit_row(name, size) for name, size in named)), *inward_lines(value)]
        if value.lower.value < 0 < value.nominal.value:
            lines.append("the lower limit lies below nought")
    else:
        named = named[:2]
        found = [_figures(size)[-2:] for _, size in named]
        most = max(map(len, found))
        told = [("",) * (most - len(figures)) + tuple(map(_cell, figures)) for figures in found]
        lines = [Table(tuple((name, *row) for (name, _), row in zip(named, told, strict=True)))]
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
    found = [(name, reach) for name, reach in value.contributions if reach.value]
    named, parts = found[:_MOST_NAMED], []
    for reach, group in groupby(named, key=lambda pair: pair[1]):
        names = [name for name, _ in group]
        unnamed = names.count("")
        told = [name for name in names if name]
        if unnamed:
            told.append("an unnamed size" if unnamed == 1 else f"{unnamed} unnamed sizes")
        each = f"{_short(reach)} each way{', each' if len(names) > 1 else ''}"
        told = [" and ".join(told[-2:]), *told[-3::-1]][::-1]
        parts.append(f"{', '.join(told)} ({each})")
    more = len(found) - len(named)
    if more:
        parts.append(f"{more} more that move it less" if found[-1][1] < named[-1][1] else f"{more} more")
    return [f"tighten first: {', then '.join(parts)}"] if parts else []


def _limit_row(name: str, size: Quantity) -> tuple[Cell | str, ...]:
    fraction = _cell(in_inches(size)) if readable(size.inch) else ""
    return name, fraction, _cell(in_decimals(size.inch, "in")), _cell(in_mm(size))


def _cell(figure: Figure) -> Cell:
    return Cell("size", (figure,))


def inward_lines(value: Limits) -> Lines:
    """Limits rounded so that they never leave the written ones, where they do not end by themselves.

    The rounding is to the power of ten next below a twentieth of the spread. Inward
    rounding is that of ANSI/IEEE 268 and of ISO 370, method B.
    """
    if not value.spread.value:
        return []
    found = [_inward(value.lower.mm, value.upper.mm, "mm", "for a metric machine")]
    # Fractions of an inch stand as they are; limits given in mm may have no end in inches.
    if not all(in_decimals(size.inch, "in").exact for size in (value.lower, value.upper)):
        found.append(_inward(value.lower.inch, value.upper.inch, "in", "in inches"))
    return [line for line in found if line]


def _inward(lower: Fraction, upper: Fraction, unit: str, whom: str) -> str:
    step = Fraction(1)
    while step * 20 > upper - lower:
        step /= 10
    if lower % step == 0 and upper % step == 0:
        return ""
    raised, cut = -(-lower // step) * step, upper // step * step
    return (
        f"{whom}: {decimal(raised, 12)[0]} {unit} to {decimal(cut, 12)[0]} {unit}, rounded inward to "
        f"{decimal(step, 12)[0]} {unit} so that no part leaves the limits (ANSI/IEEE 268; ISO 370, method B)"
    )
