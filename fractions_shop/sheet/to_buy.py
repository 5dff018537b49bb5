"""What a sheet's parts are made of that must be bought: bars and sheets, screws by name, and what no stock has."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Hardware:
    """What is bought by name, such as screws: `count` in all, for the parts on these lines."""

    name: str
    material: str
    section: str
    sizes: tuple[Quantity | Limits, ...]
    bought: tuple[str, ...]
    count: int
    parts: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class ToBuy:
    """`stock` are the lines of bars and sheets, `hardware` what is bought by name.

    `without_stock` are parts with sizes that no stock line has, where the sheet has stock lines at all; a stock
    that was not worked out, on a line of `undone_stock`, may be the one meant for them.
    """

    stock: tuple[Worked, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    without_stock: tuple[Worked, ...] = ()
    undone_stock: tuple[int, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.stock or self.hardware)


def to_buy(worked: Sequence[Worked]) -> ToBuy:
    """What must be bought for the parts of a sheet; hardware of one name, material and size together."""
    stock = tuple(item for item in worked if item.stock is not None)
    has_stock = {piece.line for item in stock if item.stock is not None for piece in item.stock.pieces}
    of_one_kind: dict[tuple[object, ...], list[Worked]] = {}
    without: list[Worked] = []
    for item in worked:
        part = item.part
        if part is None or item.line.number in has_stock:
            continue
        if part.screw:
            of_one_kind.setdefault(_kind(part), []).append(item)
        elif part.sizes:
            without.append(item)
    undone = tuple(item.line.number for item in worked if item.line.kind == "stock" and item.undone)
    return ToBuy(stock, tuple(map(_hardware, of_one_kind.values())), tuple(without) if stock else (), undone)


def _kind(part: Part) -> tuple[object, ...]:
    return part.screw.casefold(), part.material.casefold(), part.section, part.sizes


def _hardware(items: Sequence[Worked]) -> Hardware:
    parts = [item.part for item in items if item.part is not None]
    first = parts[0]
    named = tuple((item.line.part_name, item.line.number) for item in items)
    return Hardware(
        first.screw, first.material, first.section, first.sizes, first.bought, sum(part.count for part in parts), named
    )  # fmt: skip
