"""An expression: a size in every unit, the rule that carries it, the nearest division."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from fractions_shop.figures.figure import in_decimals, in_feet
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import size_line
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import (
    in_rule,
    moved,
    off_by,
    over_under,
    rule_word,
    too_small,
)
from fractions_shop.requests.expression import SizeResult, Target
from fractions_shop.requests.rooms import Room
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal, places_shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, Rung
from fractions_shop.size.standing import is_sound
from fractions_shop.size.units import INCH

if TYPE_CHECKING:
    from fractions_shop.layout.spacing import Layout

_TENS = {10**n for n in range(16)}


def _lines(result: SizeResult) -> Lines:
    """An expression's answer: the size, the rule that carries it, the nearest division, hints."""
    if result.target is not None:
        return _in_target(result, result.target)
    lines: Lines = [size_line(result.value)]
    if isinstance(result.value, Limits):
        from fractions_shop.figures.limits_words import limits_lines

        return lines + limits_lines(result.value)
    if result.carried_by is not None:
        lines.append(f"a mark of the {rule_word(result.carried_by)}")
    if result.nearest is not None:
        lines.append(_nearest_mark(result.nearest, result.rule))
    if result.divided is not None and result.divides is not None:
        lines.append(_does_divide(result.divides, result.divided[1], result.rule))
    return lines


def _does_divide(near: Layout, count: int, rule: Rule) -> str:
    return (
        f"{in_rule(near.total, rule)} does divide by {count} on the "
        f"{rule_word(rule)}: {in_rule(near.space, rule)} each, the total {moved(near.change, rule)}"
    )


def _in_target(result: SizeResult, target: Target) -> Lines:
    value = result.value
    if isinstance(value, Limits):
        named = (("upper limit", value.upper), ("nominal", value.nominal), ("lower limit", value.lower))
        from fractions_shop.figures.limits_words import inward_lines

        inward = inward_lines(value) if value.power == 1 else []
        return [
            Table(tuple((name, _count(size, target, places_shown.get())) for name, size in named)),
            *inward,
        ]
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


def _nearest_mark(near: Rung, rule: Rule) -> str:
    return f"not on the {rule_word(rule)}: the nearest mark is {in_rule(near.size, rule)}, {over_under(near.error)}"


def _target_word(target: Target) -> str:
    if target.rule is None:
        return target.name
    return f"x {target.name}" if target.rule.metric else rule_word(target.rule)


def _count(size: Quantity, target: Target, places: int | None = None) -> Cell:
    size = size.resting_on(target.standing)
    if target.in_feet:
        count = in_feet(size, places)
    else:
        count = in_decimals(size.value / target.mm, _target_word(target), places, size.standing)
    if size.approximate or target.approximate:
        return Cell("size", (count.but(exact=False), ", approximate"))
    if count.exact:
        return Cell("size", (count, " exactly" if is_sound(size.standing) else ""))
    if size.power != 1:
        return Cell("size", (count, ", rounded"))
    # A figure in feet and inches is a number of inches.
    unit = INCH if target.in_feet else target.mm
    by = Quantity((Fraction(decimal(count.value, count.places)[0]) - count.value) * unit)
    return Cell("size", (count, f", rounded by {off_by(by) if too_small(by) else over_under(by)}"))


def _on_a_rule(result: SizeResult) -> tuple[tuple[Quantity], Rule] | None:
    length = result.length if result.target is None else None
    return None if length is None else ((length,), result.rule)


ROOM = Room(
    word="size",
    forms=("SIZE", "SIZE as UNIT", "SIZE as 64ths"),
    example="2 1/32 in / 5",
    lines=_lines,
    on_a_rule=_on_a_rule,
)
