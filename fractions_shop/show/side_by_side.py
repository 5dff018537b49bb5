"""Several sheets side by side, in words and as an object."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any, Literal, TypedDict, TypeVar

from fractions_shop.errors import cells
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import difference_cell
from fractions_shop.figures.table import Cell, Table, words
from fractions_shop.figures.wording import so_many
from fractions_shop.requests.data import SCHEMA, encode
from fractions_shop.requests.place_data import PlaceData, by_axis
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.side_by_side import Made, MadeBeside, SizeBeside
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.show.answer_changes import value_cell
from fractions_shop.show.changes import cut_in_words, stock_words
from fractions_shop.show.feature_data import FeatureData, feature
from fractions_shop.show.feature_table import length
from fractions_shop.show.part_table import part_line
from fractions_shop.show.sheet_data import PartData, part
from fractions_shop.show.stock_data import CutFromData, cut_from
from fractions_shop.size.value import Value

#: A longer name of a sheet would push the columns apart.
_LONG_NAME = 16


def lines(rows: Sequence[SizeBeside], made: Sequence[MadeBeside], names: Sequence[str]) -> Lines:
    """How much differs, and a row for each size and all that is made, those that differ first."""
    if not rows and not made:
        return ["none of these sheets names a size, makes a part or has places"]
    heads, said = list(names), []
    if max(map(cells, names)) > _LONG_NAME or len(set(names)) < len(names):
        heads = [chr(ord("A") + n) if n < 26 else str(n + 1) for n in range(len(names))]
        said = [f"{head} is {name}" for head, name in zip(heads, names, strict=True)]
    sheets = so_many(len(names), "sheet")
    shown: Lines = [*said]
    if rows:
        table: list[tuple[Cell | str, ...]] = [
            (row.name, *map(value_cell, row.values), _differs(row)) for row in _differing_first(rows)
        ]
        shown += [_counted(sheets, "named size", rows), Table(tuple(table), ("size", *heads, "differs by"))]
    if made:
        written = tuple(
            (row.kind, row.name, *map(_in_words, row.values), "" if row.same else "differs")
            for row in _differing_first(made)
        )
        shown += [
            _counted(
                sheets,
                "part, cut, stock and name of places",
                made,
                "parts, cuts, stocks and names of places",
            ),
            Table(written, ("what", "name", *heads, "")),
        ]
    return shown


Row = TypeVar("Row", SizeBeside, MadeBeside)


def _differing_first(rows: Sequence[Row]) -> list[Row]:
    return sorted(rows, key=lambda row: row.same)


def _counted(sheets: str, what: str, rows: Sequence[SizeBeside | MadeBeside], many: str = "") -> str:
    differ = sum(not row.same for row in rows)
    how = f"{differ:,} of them differ{'s' if differ == 1 else ''}" if differ else "all alike"
    listed = f"{len(rows):,} {many}" if many and len(rows) > 1 else so_many(len(rows), what)
    return f"{sheets} with {listed}: {how}"


def _in_words(each: Made | None) -> str:
    match each:
        case None:
            return "is not there"
        case Part():
            return part_line(each)
        case Feature():
            return cut_in_words(each)
        case PartStock():
            return stock_words(each)
    return "; ".join(", ".join(map(length, point)) for point in each.points)


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


class SizeBesideData(TypedDict):
    """A size in each sheet, null where one does not have it; `apart` is the largest less the smallest."""

    name: str
    values: tuple[Value | None, ...]
    apart: Annotated[Any, "size"] | None
    same: bool


class MadeBesideData(TypedDict):
    """A part, a cut, a stock or named places in each sheet, null where one does not have it."""

    kind: Literal["part", "cut", "stock", "places"]
    name: str
    values: list[PartData | FeatureData | CutFromData | tuple[PlaceData, ...] | None]
    same: bool


class SideBySideData(TypedDict):
    """Several sheets side by side, as `compare` of three or more gives it."""

    schema: Literal[1]
    kind: Literal["side by side"]
    same: bool
    sheets: list[str]
    sizes: list[SizeBesideData]
    made: list[MadeBesideData]


def data(rows: Sequence[SizeBeside], made: Sequence[MadeBeside], names: Sequence[str]) -> SideBySideData:
    """The same as an object; what a sheet does not have is null."""
    return {
        "schema": SCHEMA,
        "kind": "side by side",
        "same": all(row.same for row in rows) and all(row.same for row in made),
        "sheets": list(names),
        "sizes": [
            {"name": row.name, "values": encode(row.values), "apart": encode(row.apart), "same": row.same}
            for row in rows
        ],
        "made": [
            {
                "kind": row.kind,
                "name": row.name,
                "values": list(map(_made_data, row.values)),
                "same": row.same,
            }
            for row in made
        ],
    }


def _made_data(each: Made | None) -> Any:
    match each:
        case None:
            return None
        case Part():
            return part(each)
        case Feature():
            return feature(each, "")
        case PartStock():
            return cut_from(each)
    return encode(tuple(map(by_axis, each.points)))
