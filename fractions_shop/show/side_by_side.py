"""Several sheets side by side, in words and as an object."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated, Any, Literal, TypedDict, TypeVar

from fractions_shop.errors import cells
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import difference_cell
from fractions_shop.figures.table import Cell, Table, words
from fractions_shop.figures.wording import so_many
from fractions_shop.requests.data import SCHEMA, encode
from fractions_shop.requests.place_data import PlaceData, by_axis
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.side_by_side import AnswerBeside, Made, MadeBeside, SizeBeside
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.show.answer_changes import NOT_THERE, missing, value_cell
from fractions_shop.show.changes import cut_in_words, stock_words
from fractions_shop.show.feature_data import FeatureData, feature
from fractions_shop.show.feature_table import length
from fractions_shop.show.part_table import part_line
from fractions_shop.show.sheet_data import LineData, PartData, line_data, part
from fractions_shop.show.stock_data import CutFromData, cut_from
from fractions_shop.size.value import Value

#: A longer name of a sheet would push the columns apart.
_LONG_NAME = 16


def lines(
    rows: Sequence[SizeBeside],
    made: Sequence[MadeBeside],
    names: Sequence[str],
    answers: Sequence[AnswerBeside] = (),
) -> Lines:
    """How much differs, a row for each size and all that is made, those that differ first, and for each answer that differs."""
    if not rows and not made and not answers:
        return ["none of these sheets names a size, makes a part, has places or answers"]
    heads, said = list(names), []
    if max(map(cells, names)) > _LONG_NAME or len(set(names)) < len(names):
        heads = [chr(ord("A") + n) if n < 26 else str(n + 1) for n in range(len(names))]
        said = [f"{head} is {name}" for head, name in zip(heads, names, strict=True)]
    sheets = so_many(len(names), "sheet")
    shown: Lines = [*said]
    if rows:
        table: list[tuple[Cell | str, ...]] = [
            (row.name, *map(value_cell, row.values, row.undone or [0] * len(row.values)), _differs(row))
            for row in _differing_first(rows)
        ]
        shown += [_counted(sheets, "named size", rows), Table(tuple(table), ("size", *heads, "differs by"))]
    if made:
        written = tuple(
            (
                row.kind, row.name, *map(_in_words, row.values, row.undone or [0] * len(row.values)),
                "" if row.same else "differs",
            )
            for row in _differing_first(made)
        )  # fmt: skip
        shown += [
            _counted(
                sheets,
                "part, cut, stock and name of places",
                made,
                "parts, cuts, stocks and names of places",
            ),
            Table(written, ("what", "name", *heads, "")),
        ]
    if answers:
        shown.append(_counted(sheets, "answer without a name", answers, "answers without a name"))
        shown += [line for row in answers if not row.same for line in _answers(row, heads)]
    return shown


def _answers(row: AnswerBeside, heads: Sequence[str]) -> Iterator[str]:
    """What was asked first, and each answer in one line with the sheets that give it, behind what these asked otherwise."""
    asked = next(item.line.statement for item in row.values if item is not None)
    yield asked
    given: dict[tuple[str, str], list[str]] = {}
    for item, head in zip(row.values, heads, strict=True):
        given.setdefault(_answer(item, asked), []).append(head)
    for (otherwise, answer), sheets in given.items():
        yield f"  {' and '.join(filter(None, (', '.join(sheets[:-1]), sheets[-1])))}{otherwise}: {answer}"


def _answer(item: Worked | None, asked: str) -> tuple[str, str]:
    """What else was asked, in words, and the answer in one line."""
    if item is None or item.answer is None:
        return "", NOT_THERE
    statement = item.line.statement
    return "" if statement == asked else f", asking {statement}", item.answer.gist()


Row = TypeVar("Row", SizeBeside, MadeBeside)


def _differing_first(rows: Sequence[Row]) -> list[Row]:
    return sorted(rows, key=lambda row: row.same)


def _counted(
    sheets: str, what: str, rows: Sequence[SizeBeside | MadeBeside | AnswerBeside], many: str = ""
) -> str:
    differ = sum(not row.same for row in rows)
    how = f"{differ:,} of them differ{'s' if differ == 1 else ''}" if differ else "all alike"
    listed = f"{len(rows):,} {many}" if many and len(rows) > 1 else so_many(len(rows), what)
    return f"{sheets} with {listed}: {how}"


def _in_words(each: Made | None, undone: int = 0) -> str:
    match each:
        case None:
            return missing(undone)
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
    """A size in each sheet, null where one does not have it; `apart` is the largest less the smallest.

    `undone` has for each sheet the line that should have given it and was not worked out, else null.
    """

    name: str
    values: tuple[Value | None, ...]
    apart: Annotated[Any, "size"] | None
    same: bool
    undone: list[int | None]


class MadeBesideData(TypedDict):
    """A part, a cut, a stock or named places in each sheet, null where one does not have it."""

    kind: Literal["part", "cut", "stock", "places"]
    name: str
    values: list[PartData | FeatureData | CutFromData | tuple[PlaceData, ...] | None]
    same: bool
    undone: list[int | None]


class AnswerBesideData(TypedDict):
    """An answer without a name in each sheet, null where one has none like it: `kind` is the word of its request, or size."""

    kind: str
    values: list[LineData | None]
    same: bool


class SideBySideData(TypedDict):
    """Several sheets side by side, as `compare` of three or more gives it."""

    schema: Literal[1]
    kind: Literal["side by side"]
    same: bool
    sheets: list[str]
    sizes: list[SizeBesideData]
    made: list[MadeBesideData]
    answers: list[AnswerBesideData]


def data(
    rows: Sequence[SizeBeside],
    made: Sequence[MadeBeside],
    names: Sequence[str],
    answers: Sequence[AnswerBeside] = (),
) -> SideBySideData:
    """The same as an object; what a sheet does not have is null."""
    return {
        "schema": SCHEMA,
        "kind": "side by side",
        "same": all_same(rows, made, answers),
        "sheets": list(names),
        "sizes": [
            {
                "name": row.name,
                "values": encode(row.values),
                "apart": encode(row.apart),
                "same": row.same,
                "undone": _lines_or_null(row),
            }
            for row in rows
        ],
        "made": [
            {
                "kind": row.kind,
                "name": row.name,
                "values": list(map(_made_data, row.values)),
                "same": row.same,
                "undone": _lines_or_null(row),
            }
            for row in made
        ],
        "answers": [
            {
                "kind": next(
                    item.answer.kind for item in row.values if item is not None and item.answer is not None
                ),
                "values": [None if item is None else line_data(item, ()) for item in row.values],
                "same": row.same,
            }
            for row in answers
        ],
    }


def all_same(rows: Sequence[SizeBeside], made: Sequence[MadeBeside], answers: Sequence[AnswerBeside]) -> bool:
    """Whether nothing differs."""
    return not any(not row.same for kind in (rows, made, answers) for row in kind)


def _lines_or_null(row: SizeBeside | MadeBeside) -> list[int | None]:
    return [line or None for line in row.undone or [0] * len(row.values)]


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
