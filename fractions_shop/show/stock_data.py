"""Stock, how it is cut and what to buy as plain objects for JSON."""

from __future__ import annotations

from typing import TypedDict

from fractions_shop.requests.data import encode
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.to_buy import Hardware, ToBuy
from fractions_shop.sheet.tools import Tool
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value


class PieceData(TypedDict):
    """What is cut for a part: so many pieces of `size`, each cut to `largest`; of a sheet `size` by `across`."""

    part: str
    line: int
    how_many: int
    size: Value
    across: Value | None
    largest: Quantity


class CutPiecesData(TypedDict):
    """Pieces of one part in a bar."""

    part: str
    how_many: int
    size: Quantity


class BarData(TypedDict):
    """Bars cut alike: how many, what is cut from each, and what is left of each."""

    times: int
    cuts: list[CutPiecesData]
    left: Quantity


class TakenData(TypedDict):
    """A part that an earlier stock line has."""

    part: str
    line: int


class CutFromData(TypedDict):
    """What parts are cut from; `section` is sheet, or the shape of a bar, empty for flat stock.

    `bars` tells how each is cut, `many` how many there are, `at_least` how few can do and `proved` whether they are the
    fewest: all null where nothing is cut, and for sheets, of which only the `area` is known and what that takes at least.
    """

    material: str
    section: str
    sizes: tuple[Value, ...]
    bought: list[str]
    measures: tuple[Value, ...]
    saw: Value | None
    note: str
    notes: list[str]
    pieces: list[PieceData]
    elsewhere: list[TakenData]
    bars: list[BarData] | None
    many: int | None
    at_least: int | None
    proved: bool | None
    area: Value | None


class StockData(CutFromData):
    """What parts are cut from, and the line that says so."""

    line: int


class BoughtPartData(TypedDict):
    """A part, and the line that makes it."""

    part: str
    line: int


class HardwareData(TypedDict):
    """What is bought by name: so many in all, for these parts."""

    name: str
    how_many: int
    material: str
    section: str
    sizes: tuple[Value, ...]
    parts: list[BoughtPartData]


class ToBuyData(TypedDict):
    """Hardware by name, and the parts that no stock line has; what stock it takes is told of each stock.

    `undone_stock` are the lines of stock that were not worked out, and may be meant for those parts.
    """

    hardware: list[HardwareData]
    without_stock: list[BoughtPartData]
    undone_stock: list[int]


def stock(item: Worked) -> StockData:
    """The stock of a worked line, as an object."""
    assert item.stock is not None
    return {"line": item.line.number, **cut_from(item.stock)}


def cut_from(made: PartStock) -> CutFromData:
    """A stock and what is cut from it, as an object."""
    cutting = made.cutting
    return {
        "material": made.material, "section": made.section,
        "sizes": encode(made.sizes), "bought": list(made.bought), "measures": encode(made.measures),
        "saw": encode(made.saw), "note": made.note, "notes": [note.text for note in made.notes],
        "pieces": [
            {"part": p.name, "line": p.line, "how_many": p.count, "size": encode(p.size),
             "across": encode(p.across), "largest": encode(p.largest)} for p in made.pieces
        ],
        "elsewhere": [{"part": name, "line": line} for name, line in made.elsewhere],
        "bars": None if cutting is None else _bars(made),
        "many": None if cutting is None else cutting.many,
        "at_least": made.at_least,
        "proved": None if cutting is None else cutting.proved,
        "area": encode(made.area),
    }  # fmt: skip


def _bars(made: PartStock) -> list[BarData]:
    assert made.cutting is not None
    return [
        {"times": bar.times, "left": encode(bar.left),
         "cuts": [{"part": cut.name, "how_many": cut.count, "size": encode(cut.size)} for cut in bar.cuts]}
        for bar in made.cutting.bars
    ]  # fmt: skip


def to_buy(needs: ToBuy) -> ToBuyData:
    """What to buy, as an object."""
    return {
        "hardware": list(map(_hardware, needs.hardware)),
        "without_stock": [{"part": w.line.part_name, "line": w.line.number} for w in needs.without_stock],
        "undone_stock": list(needs.undone_stock),
    }


def _hardware(each: Hardware) -> HardwareData:
    return {
        "name": each.name, "how_many": each.count, "material": each.material, "section": each.section,
        "sizes": encode(each.sizes), "parts": [{"part": name, "line": line} for name, line in each.parts],
    }  # fmt: skip


class ToolData(TypedDict):
    """A drill, tap, countersink or slot cutter, and how many holes or slots it makes in all pieces.

    `standing` says how far its size may be trusted, of a tap that of its thread; empty where no table gave it.
    """

    kind: str
    size: Value | None
    standing: str
    name: str
    angle: Value | None
    sold_as: str | None
    how_many: int
    parts: list[BoughtPartData]


def tool_data(tool: Tool) -> ToolData:
    """A tool, as an object."""
    drill = tool.fits
    return {
        "kind": tool.kind, "size": encode(tool.size), "standing": tool.standing, "name": tool.name,
        "angle": encode(tool.angle), "sold_as": None if drill is None else drill.name, "how_many": tool.many,
        "parts": [{"part": name, "line": line} for name, line in tool.parts],
    }  # fmt: skip
