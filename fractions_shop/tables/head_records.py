"""What is known of the head of a screw: its dimensions, each with its source and standing."""

from __future__ import annotations

from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity


class Dimension(Record):
    """One figure of a head: what it is (`name`), its `size`, and how far to trust it."""

    name: str
    size: Quantity
    source: str
    standing: str
    note: str = ""


class ScrewHead(Record):
    """A head (or washer) for a screw of one `size`, by a standard.

    `kind` is what it looks like; `dimensions` are in the order of the table.
    """

    standard: str
    kind: str
    size: str
    dimensions: tuple[Dimension, ...]

    def __getitem__(self, name: str) -> Dimension:
        for dimension in self.dimensions:
            if dimension.name == name:
                return dimension
        raise KeyError(name)
