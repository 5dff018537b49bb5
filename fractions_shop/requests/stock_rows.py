"""What lies next to a size in every series of stock, as rows of a table."""

from __future__ import annotations

from typing import Any

from fractions_shop.figures.table import Cell
from fractions_shop.figures.wording import both_cell, signed_cell


def stock_rows(near: Any) -> list[tuple[Cell | str, ...]]:
    """The rows of one series: what is exactly the size, or what lies below and above it."""
    if near.exact is not None:
        return [(near.series, near.exact.name, both_cell(near.exact.size), "exact")]
    sides = ((near.below, near.below_error, "none smaller"), (near.above, near.above_error, "none larger"))
    return [
        (near.series if n == 0 else "", none, "", "") if stock is None
        else (near.series if n == 0 else "", stock.name, both_cell(stock.size, 5), signed_cell(error))
        for n, (stock, error, none) in enumerate(sides)
    ]  # fmt: skip
