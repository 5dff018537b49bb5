"""Things that come in fixed sizes, by kind: shims, feelers, drills and gauges alike.

For shim packs and for guessing which stock an old part was made from. The feeler sets
are from memory and the shims are one retail list, not a standard; both say so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import blocks, born, drills, gauges, rows
from fractions_shop.tables.gauge_records import SERIES
from fractions_shop.tables.nearest import Stock


@dataclass(frozen=True)
class Thickness:
    """A shim or a feeler blade: its `name`, the `item` it belongs to and its nominal `size`.

    `source` says where the size is from, `standing` how far to trust it (STANDINGS of
    the tables) and `note` what is odd about it.
    """

    name: str
    item: str
    size: Quantity
    source: str
    standing: str
    note: str = ""


@cache
def thicknesses(item: str) -> tuple[Thickness, ...]:
    """The shims or blades called `item` (of `items`), thinnest first; ShopError for another word."""
    listed = tuple(_thickness(row) for row in rows("thickness_stock") if row["item"] == item)
    if not listed:
        raise ShopError(f"{item!r} is not a kind of stock: {', '.join(items())}")
    return tuple(sorted(listed, key=lambda thickness: thickness.size.mm))


def items() -> tuple[str, ...]:
    """The kinds of shims and feelers that there are tables of."""
    return tuple(dict.fromkeys(row["item"] for row in rows("thickness_stock")))


@cache
def is_metric(item: str) -> bool:
    """Whether the shims or blades of an item are made in millimetres."""
    return all(row["thickness_mm"] for row in rows("thickness_stock") if row["item"] == item)


def kinds() -> tuple[str, ...]:
    """Every kind of stock: the shims and feelers, `drills` by series, the gauges, and `blocks` by set."""
    return (
        *items(), "drills", *(f"{series} drills" for series in drills.SERIES), *SERIES,
        *(f"blocks {pieces}" for pieces in blocks.block_sets()),
    )  # fmt: skip


def stock(kind: str) -> Sequence[Stock]:
    """The stock of one of `kinds`, smallest first; ShopError for another word.

    >>> [piece.name for piece in stock("shims")][-1]
    '0.12 in shim'
    >>> len(stock("letter drills"))
    26
    """
    if kind in SERIES:
        return gauges.series_gauges(kind)
    if kind == "drills":
        return drills.drills_by_size()
    if kind.endswith(" drills") and kind[: -len(" drills")] in drills.SERIES:
        return drills.series_drills(kind[: -len(" drills")])
    if kind.startswith("blocks "):
        return blocks.blocks(kind.removeprefix("blocks "))
    if kind in items():
        return thicknesses(kind)
    raise ShopError(f"{kind!r} is not a kind of stock: {', '.join(kinds())}")


def _thickness(row: dict[str, str]) -> Thickness:
    if row["thickness_in"]:
        size = born(row, Fraction(row["thickness_in"]), "in")
        said = f"{decimal(size.inch)[0]} in"
    else:
        size = born(row, Fraction(row["thickness_mm"]), "mm")
        said = mm_text(size)
    kind = "shim" if row["item"] == "shims" else "feeler"
    return Thickness(f"{said} {kind}", row["item"], size, row["source"], row["standing"], row["note"])
