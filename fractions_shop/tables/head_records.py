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


class Measure(Record):
    """What a dimension of the tables measures: how it is `told` in a row of its head, and what follows from it.

    `across_flats` is what a spanner is made for; `mean` says that the figure is the middle of its limits, and not the
    size by which the head is called.
    """

    told: str
    across_flats: bool = False
    mean: bool = False


#: The words in the column `dimension` of the tables of heads that say more than what they are told as.
_MEASURES = {
    "across flats": Measure("across flats", across_flats=True),
    "across flats, nominal": Measure("across flats", across_flats=True),
    "across flats, mean": Measure("across flats, mean", across_flats=True, mean=True),
    "diameter, mean": Measure("diameter, mean", mean=True),
    "slot depth, mean": Measure("slot depth, mean", mean=True),
    "thickness, mean": Measure("thickness, mean", mean=True),
    "thickness, nominal": Measure("thickness"),
    "thickness, maximum": Measure("thickness max"),
    "head height, nominal": Measure("height"),
    "head height, maximum": Measure("height max"),
    "head diameter, minimum": Measure("diameter min"),
    "head diameter, maximum": Measure("diameter max"),
    "head diameter to sharp edge, maximum": Measure("diameter to sharp edge max"),
    "outside diameter, maximum": Measure("outside diameter max"),
    "hole, minimum": Measure("hole min"),
    "slot width, minimum": Measure("slot width min"),
    "slot depth, minimum": Measure("slot depth min"),
    "socket depth, minimum": Measure("socket depth min"),
}


def measure(dimension: str) -> Measure:
    """What a word of that column measures."""
    return _MEASURES.get(dimension) or Measure(dimension)


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
