"""What lies next to a size in every series of stock, as rows of a table."""

from __future__ import annotations

from typing import Any

from fractions_shop.figures.table import Cell
from fractions_shop.figures.wording import both_cell, signed_cell
from fractions_shop.size.standing import in_words, worst


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


def source_line(source: str, standing: str) -> str:
    """Where figures are from, and how far to trust them: `source: ... (printed)`."""
    return f"source: {source} ({in_words(standing)})"


def source_lines(near: Any) -> list[str]:
    """How far to trust the figures of each series that a table of stock shows, and where the nearest is from."""
    series_of: dict[str, list[str]] = {}
    for neighbours in near.values():
        shown = (neighbours.exact,) if neighbours.exact is not None else (neighbours.below, neighbours.above)
        standing = worst(stock for stock in shown if stock is not None)
        series_of.setdefault(in_words(standing), []).append(neighbours.series)
    trusts = "; ".join(f"{', '.join(series)} {standing}" for standing, series in series_of.items())
    nearest = near.nearest
    return [f"source: {trusts}; of {nearest.name}, {nearest.source}"]
