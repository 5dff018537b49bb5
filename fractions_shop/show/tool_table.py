"""Drills and taps: the tools that a sheet's holes and slots ask for, in one list."""

from __future__ import annotations

from collections.abc import Iterable

from fractions_shop.figures.figure import in_inches, in_mm
from fractions_shop.figures.table import Cell, Table, each_cell, in_prose, lines_cell, without_empty
from fractions_shop.figures.wording import over_under
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.tools import Tool
from fractions_shop.show.doubt_marks import marked
from fractions_shop.show.part_table import part_size
from fractions_shop.size.limits import limits_of
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_brackets

#: Series of drills whose names are their sizes.
_NAMED_BY_SIZE = ("metric", "fractional")
NOTE = "How many holes or slots each makes in all pieces."


def tool_list(tools: Iterable[Tool], doubts: Doubts = NO_DOUBTS) -> Table:
    """One row a tool; parts whose lines are doubtful are marked."""
    rows: list[tuple[Cell | str, ...]] = []
    for tool in tools:
        parts = ", ".join(dict.fromkeys(marked(name, line, doubts) for name, line in tool.parts))
        lines = lines_cell(line for _, line in tool.parts)
        rows.append((tool_called(tool), f"{tool.many:,}", parts, _made(tool), lines))
    return without_empty(Table(tuple(rows), ("tool", "how many", "in", "remark", "line")))


def tool_lines(tools: Iterable[Tool], worked: Iterable[Worked]) -> list[Worked]:
    """The lines that stand in the list of tools."""
    numbers = {line for tool in tools for _, line in tool.parts}
    return [item for item in worked if item.line.number in numbers]


def tools_in_brief(tools: Table) -> Table:
    """The same in fewer columns."""
    rows: list[tuple[Cell | str, ...]] = []
    for row, texts in zip(tools.rows, each_cell(tools), strict=True):
        cell = dict(zip(tools.heads, texts, strict=True))
        said = "; ".join(filter(None, (cell["tool"], f"in {cell['in']}", cell.get("remark", ""))))
        rows.append((row[-1], cell["how many"], said))
    return Table(tuple(rows), ("line", "how many", "tool"))


def tool_called(tool: Tool) -> str:
    """`No 29 drill, 0.136 in (3.4544 mm)`, `drill 2.5 mm (about 0.0984 in)`, `tap M3`, `countersink 90 deg, to 6 mm`."""
    if tool.kind == "tap":
        return f"tap {tool.name}{in_brackets(tool.standing)}"
    assert tool.size is not None
    drill = tool.made_exactly
    if drill is not None and drill.series in _NAMED_BY_SIZE and isinstance(tool.size, Quantity):
        # Its size is its name, whatever leads elsewhere.
        units = (in_inches(tool.size, 4),), (in_mm(tool.size, 4),)
        name, other = reversed(units) if drill.series == "metric" else units
        return f"drill {in_prose(Cell('size', name, other))}"
    size = in_prose(part_size(tool.size))
    if tool.kind == "countersink":
        angle = "" if tool.angle is None else f" {decimal(tool.angle.degrees, 3)[0]} deg"
        return f"countersink{angle}, to {size}"
    if not tool.name:
        return f"{tool.kind} {size}"
    return f"{tool.name if tool.kind in tool.name else f'{tool.kind} {tool.name}'}, {size}"


def _made(tool: Tool) -> str:
    """By what name a bare drill is sold, or what is next to it where none is made of its size."""
    near = tool.stocked
    if near is None or tool.size is None or tool.name:
        return ""
    drill = tool.fits
    if tool.made_exactly is not None and drill is not None and drill.series in _NAMED_BY_SIZE:
        return ""
    if drill is not None:
        return f"sold as {drill.name}"
    nearest = near.nearest
    off = over_under(nearest.size - limits_of(tool.size).nominal, 4)
    return f"none is made so: the nearest is {nearest.name}, {off}"
