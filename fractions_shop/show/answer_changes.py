"""How an answer of one sheet differs from that of another, figure by figure, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from fractions_shop.figures.figure import in_decimals
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import short_cell
from fractions_shop.figures.table import Cell, Table, words
from fractions_shop.figures.wording import both_cell
from fractions_shop.requests.data import has_fields, parts_of
from fractions_shop.requests.expression import SizeResult
from fractions_shop.sheet.changes import AnswerChange
from fractions_shop.sheet.solve import Worked
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule

#: So many figures of one answer are told; the rest are counted.
_MOST = 8
#: Typed parts that are told whole, and not taken apart.
_WHOLE = (Quantity, Limits, Angle, Rule, Fraction, str, bool, int, float)
_NOT_THERE = "is not there"


def answer_lines(change: AnswerChange, old: str, new: str) -> Lines:
    """What was asked, and every figure of the answer that differs."""
    before, after = change.old, change.new
    if before is None or after is None:
        sheet, line = (new, after) if before is None else (old, before)
        assert line is not None
        return [f"{line.line.statement} (line {line.line.number}): in {sheet} alone"]
    rows = list(_rows(before, after))
    more = len(rows) - _MOST
    table = Table(tuple(rows[:_MOST]), ("", old, new))
    return [_asked(before, after), table, *([f"  and {more:,} more of its figures"] if more > 0 else [])]


def _asked(old: Worked, new: Worked) -> str:
    was, now = old.line, new.line
    if was.statement == now.statement:
        return f"{now.statement} (line {now.number})"
    return f"{was.statement} (line {was.number}), now {now.statement} (line {now.number})"


def _rows(old: Worked, new: Worked) -> Iterator[tuple[Cell | str, ...]]:
    before, after = _figures(old), _figures(new)
    for name in dict.fromkeys((*before, *after)):
        was, now = before.get(name), after.get(name)
        if type(was) is not type(now) or was != now:
            yield name, value_cell(was), value_cell(now)


def _figures(item: Worked) -> dict[str, Any]:
    """Every single figure of an answer, by a name that says where it stands in it."""
    assert item.answer is not None
    result = item.answer.result
    if isinstance(result, SizeResult):
        return {"size": result.value, "told in": result.target.name if result.target else None}
    return dict(_parts((), result))


def _parts(path: tuple[str, ...], value: Any) -> Iterator[tuple[str, Any]]:
    if value is None or isinstance(value, _WHOLE):
        yield " ".join(path).replace("_", " "), value
    elif isinstance(value, Mapping):
        for name, part in value.items():
            yield from _parts((*path, str(name)), part)
    elif isinstance(value, (tuple, list)):
        for n, part in enumerate(value, 1):
            yield from _parts((*path, str(n)), part)
    elif has_fields(value):
        for name, part in parts_of(value).items():
            yield from _parts((*path, name), part)


def value_cell(value: Any) -> Cell:
    """A figure of an answer, or a named size, as it stands in a table of what changed; empty for one that is not there."""
    match value:
        case None:
            return words(_NOT_THERE)
        case bool():
            return words("yes" if value else "no")
        case Quantity():
            return both_cell(value) if value.power == 1 else short_cell(value)
        case Limits() | Angle():
            return short_cell(value)
        case Fraction():
            return Cell("size", (in_decimals(value, ""),))
        case float():
            return words(f"{value:.3g}")
    return words(str(value))
