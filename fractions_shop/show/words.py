"""The common words of every answer: sizes in both units, errors, tables that fold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil

from fractions_shop.errors import cells
from fractions_shop.figures.figure import LEAST_TOLD, in_decimals, in_inches, in_mm
from fractions_shop.figures.table import Cell, Table, each_cell, in_prose, written
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: A last column narrower than this is not worth folding into.
_LEAST_LAST = 24
#: The bound below which differences are not told, in inches, and in millimetres rounded up.
_LEAST_IN, _LEAST_MM = (
    decimal(LEAST_TOLD.inch, 4)[0],
    decimal(Fraction(ceil(LEAST_TOLD.mm * 1000), 1000), 3)[0],
)


#: The heading of a column of differences.
OFF = Cell("words", ("off",), ("+ is over",))
Lines = list["str | Table"]


def in_columns(table: Table, width: int) -> list[str]:
    """A table in at most `width` columns, where words allow: in columns, or its rows one below another.

    A figure that is about so much is marked ~ here, where room is dear.
    """
    header = (table.header,) if table.header else ()
    rows = (*(table.heads for _ in header), *each_cell(table, _marked))
    if not rows:
        return []
    if (plain := _columns(rows, width)) is not None:
        return plain
    parts = [part for row in (*header, *table.rows) for part in _stacked(row)]
    if (stacked := _columns(parts, width)) is not None:
        return stacked
    widths = _widths(rows)
    room = width - sum(widths[:-1]) - 2 * len(widths)
    if room >= _LEAST_LAST and len(widths) > 1:
        return [line for row in rows for line in _last_folded(row, [*widths[:-1], room])]
    return [line for row in rows[len(header) :] for line in _folded(row, table.heads, width)]


def _marked(cell: Cell | str) -> str:
    return in_prose(cell, "~")


def _folded(row: tuple[str, ...], header: tuple[str, ...], width: int) -> list[str]:
    if header:
        parts = [f"{name} {cell}".strip() for name, cell in zip(header, row, strict=True) if cell]
        return folded("  " + "; ".join(parts), width)
    label, *cells_ = row
    said = ", ".join(c for c in cells_ if c)
    return folded(f"  {label}: {said}" if label else f"    {said}", width)


def _widths(rows: Sequence[tuple[str, ...]]) -> list[int]:
    return [max(cells(row[n]) for row in rows) for n in range(len(rows[0]))]


def _columns(rows: Sequence[tuple[str, ...]], width: int) -> list[str] | None:
    """The rows in columns, or None where they are wider than `width`."""
    widths = _widths(rows)
    return [_row(row, widths) for row in rows] if sum(widths) + 2 * len(widths) <= width else None


def _stacked(row: tuple[Cell | str, ...]) -> list[tuple[str, ...]]:
    """A row in two: what stands in brackets behind a figure goes beneath it."""
    beneath = tuple(f"({written(c.beside, '~')})" if isinstance(c, Cell) and c.beside else "" for c in row)
    if not any(beneath):
        return [tuple(map(_marked, row))]
    return [tuple(c if isinstance(c, str) else written(c.pieces, "~") for c in row), beneath]


def _last_folded(row: tuple[str, ...], widths: list[int]) -> list[str]:
    """A row whose last cell is cut into lines that stand in its column."""
    parts = folded(row[-1], widths[-1])
    first = _row((*row[:-1], parts[0].strip()), widths)
    blank = ("",) * (len(row) - 1)
    return [first, *(_row((*blank, part.strip()), widths) for part in parts[1:])]


def _row(row: tuple[str, ...], widths: list[int]) -> str:
    padded = (cell + " " * (width - cells(cell)) for cell, width in zip(row, widths, strict=True))
    return ("  " + "  ".join(padded)).rstrip()


def folded(line: str, width: int) -> list[str]:
    """A line cut to `width` between words, what follows indented under it."""
    if cells(line) <= width:
        return [line]
    from textwrap import wrap  # most lines fit

    lead = line[: len(line) - len(line.lstrip())]
    return wrap(
        line.strip(), max(width, 20), initial_indent=lead, subsequent_indent=lead + "    ",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip


def laid_out(lines: Lines, width: int) -> str:
    """Lines and tables as one text of at most `width` columns, where words allow."""
    out: list[str] = []
    for line in lines:
        out += in_columns(line, width) if isinstance(line, Table) else folded(line, width)
    return "\n".join(out)


# Lengths in both units, as cells of tables and as text


def both_cell(size: Quantity, places: int | None = None) -> Cell:
    """A length in inches, and beside that in millimetres."""
    return Cell("size", (in_inches(size, places),), (in_mm(size, places),))


def in_rule_cell(size: Quantity, rule: Rule) -> Cell:
    """A length in both, the rule's own unit first."""
    return Cell("size", (in_mm(size),), (in_inches(size),)) if rule.metric else both_cell(size)


def both(size: Quantity, places: int | None = None) -> str:
    """A length in inches and in millimetres: `13/32 in (10.31875 mm)`."""
    return in_prose(both_cell(size, places))


def in_rule(size: Quantity, rule: Rule) -> str:
    """A length in both, the rule's own unit first."""
    return in_prose(in_rule_cell(size, rule))


# Differences


def too_small(error: Quantity) -> bool:
    """Whether a length is a difference that no bench would measure, though not nought."""
    return bool(error.value) and abs(error) < LEAST_TOLD


def off_by(error: Quantity, places: int | None = None) -> str:
    """How far off, whichever way: `0.00625 in (0.15875 mm)`, `under 0.0001 in (0.003 mm)`, or `exact`."""
    if error.value == 0:
        return "exact"
    if too_small(error):
        return f"under {_LEAST_IN} in ({_LEAST_MM} mm)"
    return in_prose(both_decimals(error, places))


def both_decimals(error: Quantity, places: int | None = None) -> Cell:
    """A difference without its sign, in decimals of an inch and in millimetres."""
    size = abs(error)
    return Cell("difference", (in_decimals(size.inch, "in", places),), (in_mm(size, places),))


def over_under(error: Quantity, places: int | None = None) -> str:
    """An error in words: `0.00625 in (0.15875 mm) over`, `over by under 0.0001 in (0.003 mm)`, or `exact`."""
    if error.value == 0:
        return "exact"
    way = "over" if error.value > 0 else "under"
    return f"{way} by {off_by(error)}" if too_small(error) else f"{off_by(error, places)} {way}"


def signed_cell(error: Quantity, units: bool = True) -> Cell:
    """An error in a table: `+0.0063 in (+0.159 mm)`, above zero when over; or `exact`.

    Without `units` for a column whose heading says them.
    """
    if error.value == 0:
        return Cell("difference", ("exact",))
    inch, mm = (" in", " mm") if units else ("", "")
    if too_small(error):
        return Cell("difference", (f"under {_LEAST_IN}{inch}",), (f"{_LEAST_MM}{mm}",))
    figures = (in_decimals(error.inch, inch.strip(), 4), in_decimals(error.mm, mm.strip(), 3))
    return Cell("difference", *((replace(figure, signed=True),) for figure in figures))


def signed(error: Quantity) -> str:
    """The same as text."""
    return in_prose(signed_cell(error))


def moved(change: Quantity, rule: Rule) -> str:
    """What a total moves by, in words: `1/32 in (0.79375 mm) longer`."""
    return in_prose(moved_cell(change, rule))


def moved_cell(change: Quantity, rule: Rule) -> Cell:
    """What a total moves by, in words and figures."""
    if change.value == 0:
        return Cell("difference", ("unchanged",))
    way = "longer" if change.value > 0 else "shorter"
    cell = in_rule_cell(abs(change), rule)
    return Cell("difference", (*cell.pieces, " (", *cell.beside, f") {way}"))


def rule_word(rule: Rule) -> str:
    """A rule as it stands in a sentence: `64ths`, `whole inches`, `half mm rule`."""
    if rule.metric:
        return f"{rule.name} rule"
    return {"1sts": "whole inches", "2nds": "halves", "4ths": "quarters"}.get(rule.name, rule.name)
