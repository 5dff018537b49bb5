"""Several sheets side by side, in words and as an object."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fractions_shop.errors import cells
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import difference_cell
from fractions_shop.figures.table import Cell, Table, words
from fractions_shop.figures.wording import so_many
from fractions_shop.requests.data import SCHEMA, encode
from fractions_shop.sheet.side_by_side import SizeBeside
from fractions_shop.show.answer_changes import value_cell

#: A longer name of a sheet would push the columns apart.
_LONG_NAME = 16


def lines(rows: Sequence[SizeBeside], names: Sequence[str]) -> Lines:
    """How many sizes differ, and a row a named size, those that differ first."""
    if not rows:
        return ["none of these sheets names a size"]
    heads, said = list(names), []
    if max(map(cells, names)) > _LONG_NAME or len(set(names)) < len(names):
        heads = [chr(ord("A") + n) if n < 26 else str(n + 1) for n in range(len(names))]
        said = [f"{head} is {name}" for head, name in zip(heads, names, strict=True)]
    differ = sum(not row.same for row in rows)
    count = f"{so_many(len(names), 'sheet')} with {so_many(len(rows), 'named size')}"
    how = f"{differ:,} of them differ{'s' if differ == 1 else ''}" if differ else "all alike"
    ordered = sorted(rows, key=lambda row: row.same)
    table: list[tuple[Cell | str, ...]] = [
        (row.name, *map(value_cell, row.values), _differs(row)) for row in ordered
    ]
    return [*said, f"{count}: {how}", Table(tuple(table), ("size", *heads, "differs by"))]


def _differs(row: SizeBeside) -> Cell:
    if row.same:
        return words("alike")
    missing = any(value is None for value in row.values)
    if row.apart is None or (missing and not row.apart.value):
        return words("not in every sheet" if missing else "of two kinds")
    if not row.apart.value:
        return words("the limits alone")
    cell = difference_cell(row.apart)
    return Cell("difference", (*cell.pieces, ", not in every sheet"), cell.beside) if missing else cell


def data(rows: Sequence[SizeBeside], names: Sequence[str]) -> dict[str, Any]:
    """The same as an object; a size that a sheet does not have is null."""
    return {
        "schema": SCHEMA,
        "kind": "side by side",
        "same": all(row.same for row in rows),
        "sheets": list(names),
        "sizes": [
            {"name": row.name, "values": encode(row.values), "apart": encode(row.apart), "same": row.same}
            for row in rows
        ],
    }
