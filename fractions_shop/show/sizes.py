"""Sizes, angles and limits in words."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from fractions_shop.language.arithmetic import Value
from fractions_shop.language.results import SizeResult, Target
from fractions_shop.show.words import Lines, Table, both, in_rule, moved, over_under, rule_word
from fractions_shop.size.limits import RSS_ASSUMPTION, Limits
from fractions_shop.size.notation import decimal, feet_text, inch_fraction, mixed, mm_text, readable, shown
from fractions_shop.size.quantity import Angle, Quantity

if TYPE_CHECKING:
    from fractions_shop.layout.spacing import Spacing

#: An exact value whose decimals never end is still shown exactly as a fraction up to this.
_LONGEST_DENOMINATOR = 10_000


def size_line(value: Value) -> str:
    """A value in every unit that says something, and whether exactly.

    `2/5 in = 0.4 in = 10.16 mm exactly`; `51.5 mm exactly, about 2.027559 in`.
    """
    if isinstance(value, Limits):
        return _with_limits(value)
    figures = list(dict.fromkeys(_figures(value)))
    whole = [f for f in figures if not f.startswith("about ")]
    rounded = [f.removeprefix("about ") for f in figures if f.startswith("about ")]
    if value.approximate:
        return f"about {' = '.join([*whole, *rounded])}, approximate"
    if not whole:
        return f"about {' = '.join(rounded)}, rounded here and exact within"
    line = f"{' = '.join(whole)} exactly"
    return f"{line}, about {' = '.join(rounded)}" if rounded else line


def _figures(value: Quantity | Angle) -> list[str]:
    if isinstance(value, Angle):
        return [shown(value.degrees, "deg"), _minutes(value)]
    if value.power == 1:
        return _length_figures(value)
    inches = value.in_unit("in")
    unit = _unit("in", value.power)
    figures = [f"{mixed(inches)} {unit}".rstrip()] if readable(inches) else []
    figures.append(shown(inches, unit))
    if value.power:
        figures.append(shown(value.value, _unit("mm", value.power)))
    if value.power == -1 and inches.numerator != 0 and readable(1 / inches):
        figures.append(f"one in every {mixed(abs(1 / inches))} in")
    return _some_exact(figures, inches, unit)


def _unit(unit: str, power: int) -> str:
    """A unit to a power as the bench writes it, and as it can be read again: `sq in`."""
    if power == -1:
        return "per inch" if unit == "in" else f"per {unit}"
    words = {0: "", 2: f"sq {unit}", 3: f"cu {unit}"}
    return words.get(power, f"{unit}^{power}")


def _length_figures(size: Quantity) -> list[str]:
    fraction = inch_fraction(size)
    figures = [fraction] if fraction else []
    if fraction and abs(size.inch) >= 12:
        figures.append(feet_text(size))
    figures += [shown(size.inch, "in"), mm_text(size)]
    if size.mm.denominator < size.inch.denominator:
        return _some_exact(figures, size.mm, "mm")
    return _some_exact(figures, size.inch, "in")


def _some_exact(figures: list[str], number: Fraction, unit: str) -> list[str]:
    """The figures, with a fraction put first where no decimal of them ends."""
    if all(f.startswith("about ") for f in figures) and number.denominator <= _LONGEST_DENOMINATOR:
        return [f"{mixed(number)} {unit}".rstrip(), *figures]
    return figures


def _minutes(angle: Angle) -> str:
    sign, degrees = ("-" if angle.degrees < 0 else ""), abs(angle.degrees)
    seconds = round(degrees * 3600)
    text = f"{sign}{seconds // 3600}°{seconds // 60 % 60:02d}'{seconds % 60:02d}\""
    return text if seconds == degrees * 3600 else f"about {text}"


# What an expression answers


def size_lines(result: SizeResult) -> Lines:
    """An expression's answer: the size, the rule that carries it, the nearest division, hints."""
    if result.target is not None:
        return _in_target(result.value, result.target)
    lines: Lines = [size_line(result.value)]
    if isinstance(result.value, Limits):
        return lines + limits_lines(result.value)
    if result.carried_by is not None:
        lines.append(f"a mark of the {rule_word(result.carried_by)}")
    if result.nearest is not None:
        near = result.nearest
        lines.append(
            f"not on the {rule_word(result.rule)}: the nearest mark is {in_rule(near.size, result.rule)}, "
            f"{over_under(near.error)}"
        )
    if result.spacing is not None:
        lines.append(_does_divide(result.spacing))
    return lines


def _does_divide(spacing: Spacing) -> str:
    near = spacing.nearest
    return (
        f"{in_rule(near.total, spacing.rule)} does divide by {spacing.count} on the "
        f"{rule_word(spacing.rule)}: {in_rule(near.space, spacing.rule)} each, the total {moved(near.change, spacing.rule)}"
    )


def _in_target(value: Value, target: Target) -> Lines:
    if isinstance(value, Limits):
        named = (("upper limit", value.upper), ("nominal", value.nominal), ("lower limit", value.lower))
        return [Table(tuple((name, _count(size, target)) for name, size in named)), *inward_lines(value)]
    assert isinstance(value, Quantity)
    lines: Lines = [_count(value, target)]
    if target.rule is not None:
        whole = round(value.mm / target.mm)
        error = Quantity(whole * target.mm) - value
        if error.value:
            lines.append(f"the nearest whole number is {whole} {_target_word(target)}, {over_under(error)}")
    return lines


def _target_word(target: Target) -> str:
    return f"x {target.name}" if target.rule is not None and target.rule.metric else target.name


def _count(size: Quantity, target: Target) -> str:
    count = size.mm / target.mm
    text, whole = decimal(count)
    figure = f"{text} {_target_word(target)}"
    if size.approximate:
        return f"about {figure}, approximate"
    if whole:
        return f"{figure} exactly"
    return f"about {figure}, rounded by {over_under(Quantity((Fraction(text) - count) * target.mm))}"


# Limits


def _with_limits(value: Limits) -> str:
    nominal, plus, minus = value.nominal, value.plus, value.minus
    mark = ", approximate" if value.approximate else ""
    if value.power != 1:
        return f"{' = '.join(dict.fromkeys(_figures(nominal)))}, with limits{mark}"
    if plus == minus:
        return f"{both(nominal)} ± {both(plus)}{mark}"
    return f"{both(nominal)} {_signed(plus)} / {_signed(-minus)}{mark}"


def _signed(size: Quantity) -> str:
    sign = "-" if size.value < 0 else "+"
    text = both(abs(size))
    return f"about {sign}{text.removeprefix('about ')}" if text.startswith("about ") else f"{sign}{text}"


def _short(size: Quantity) -> str:
    """The first figure of a size, in inches."""
    return both(size, 5) if size.power == 1 else _figures(size)[0]


def limits_lines(value: Limits) -> Lines:
    """The limits themselves, their inward rounding, the likely limits and what feeds them."""
    named = [("upper limit", value.upper), ("lower limit", value.lower), ("spread", value.spread)]
    if value.power == 1:
        rows = tuple((n, f"{inch_fraction(s) or ''}", shown(s.inch, "in"), mm_text(s)) for n, s in named)
        lines: Lines = [Table(rows), *inward_lines(value)]
        if value.lower.value < 0 < value.nominal.value:
            lines.append("the lower limit lies below nought")
    else:
        named = named[:2]
        found = [_figures(size)[-2:] for _, size in named]
        most = max(map(len, found))
        cells = ([""] * (most - len(figures)) + figures for figures in found)
        lines = [Table(tuple((name, *row) for (name, _), row in zip(named, cells, strict=True)))]
    if len(value.effects) > 1:
        likely = value.root_sum_square
        lines.append("that is the worst case, every part at its limit at once")
        lines.append(
            f"likely {_short(likely.lower)} to {_short(likely.upper)}: the root of the sum of squares, {RSS_ASSUMPTION}"
        )
        parts = [
            f"{name or 'an unnamed size'} ({_short(reach)} each way)"
            for name, reach in value.contributions
            if reach.value
        ]
        if parts:
            lines.append(f"tighten first: {', then '.join(parts)}")
    return lines


def inward_lines(value: Limits) -> Lines:
    """Limits rounded so that they never leave the written ones, where they do not end by themselves.

    The rounding is to the power of ten next below a twentieth of the spread. Inward
    rounding is that of ANSI/IEEE 268 and of ISO 370, method B.
    """
    if not value.spread.value:
        return []
    found = [_inward(value.lower.mm, value.upper.mm, "mm", "for a metric machine")]
    # Fractions of an inch stand as they are; limits given in mm may have no end in inches.
    if any(shown(size.inch, "in").startswith("about ") for size in (value.lower, value.upper)):
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
