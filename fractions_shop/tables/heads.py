"""Head sizes of metric screws (M1.6 to M12) and of wood screws, with washers.

Every figure keeps its own source and standing: the two diameters of a countersunk
metric head are from memory, and where two sources differ the note says what the other
one prints.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import born, rows

if TYPE_CHECKING:
    from fractions_shop.tables.gauges import Gauge


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


_METRIC = r"(?i)M[ ]?([0-9]{1,3}(?:\.[0-9]{1,3})?)(?:[ ]*[x×*][ ]*[0-9.]+)?"
_WOOD = "ASME B18.6.1"


def heads(text: str) -> tuple[ScrewHead, ...]:
    """The heads that a screw called `text` (`M3`, `M3 x 0.5`, `US No 8 wood screw`) may have.

    ShopError if `text` is no such screw, or there is no table for its size, with the
    nearest size that there is.

    >>> {head.standard: head["across flats"].size.mm for head in heads("M6") if head.kind == "hexagon head"}
    {'ISO 4014': Fraction(10, 1)}
    """
    plain = as_meant(text).strip()
    match = re.fullmatch(_METRIC, plain)
    if match is None:
        return (_wood_head(plain),)
    known = _metric_rows()
    wanted = Fraction(match[1])
    if wanted not in known:
        close = min(known, key=lambda size: abs(size - wanted))
        raise ShopError(f"there is no table of heads for {plain}: the nearest is {known[close][0]['size']}")
    return _metric(wanted)


@cache
def _metric_rows() -> dict[Fraction, list[dict[str, str]]]:
    """The rows of the table by the diameter after the M."""
    sizes: dict[Fraction, list[dict[str, str]]] = {}
    for row in rows("screw_heads_metric"):
        sizes.setdefault(Fraction(row["size"][1:]), []).append(row)
    return sizes


@cache
def _metric(size: Fraction) -> tuple[ScrewHead, ...]:
    """The heads of one diameter, in the order of the table."""
    dimensions_of: dict[tuple[str, str, str], list[Dimension]] = {}
    for row in _metric_rows()[size]:
        dimensions_of.setdefault((row["standard"], row["head"], row["size"]), []).append(_dimension(row))
    return tuple(ScrewHead(*head, tuple(dimensions)) for head, dimensions in dimensions_of.items())


def _dimension(row: dict[str, str]) -> Dimension:
    size = born(row, Fraction(row["value_mm"]), "mm")
    source = "; ".join(filter(None, (row["source"], row["second_source"])))
    return Dimension(row["dimension"], size, source, row["standing"], row["note"])


def _wood_head(text: str) -> ScrewHead:
    if not re.search(r"wood[ ]*screw", text, re.IGNORECASE):
        raise ShopError(f"{text!r} is not a screw with a table of heads here: write M3 or US No 8 wood screw")
    from fractions_shop.tables.gauge_records import SERIES  # metric screws need none of it
    from fractions_shop.tables.gauges import find_gauge

    gauge = find_gauge(text)
    row = next(row for row in rows(SERIES[gauge.series].table) if row["number"] == gauge.number)
    if "head_in" in row:
        return _british_head(gauge, row)
    if not row["flat_head_max_in"]:
        raise ShopError(f"there is no head size for a {gauge.name}: it is {row['note']}")
    columns = {
        "body diameter, maximum": "body_max_in",
        "head diameter, maximum": "flat_head_max_in",
        "head diameter, minimum": "flat_head_min_in",
        "head height": "head_height_in",
        "slot width, maximum": "slot_width_max_in",
    }
    source = "open CAD data file after ASME B18.6.1"
    return ScrewHead(
        _WOOD, "countersunk (flat) head", gauge.name,
        tuple(
            Dimension(name, born(row, Fraction(row[column]), "in", "one source"), source, "one source")
            for name, column in columns.items()
        ),
    )  # fmt: skip


def _british_head(gauge: Gauge, row: dict[str, str]) -> ScrewHead:
    """Twice the shank, by the rule that gives the shank, and by a second rule of the same handbook."""
    head = Dimension(
        "head diameter",
        born(row, Fraction(row["head_in"]), "in"),
        row["source"],
        row["standing"],
        row["note"],
    )
    other = Dimension(
        "head diameter by a second rule",
        born(row, Fraction(row["second_rule_head_in"]), "in", "one source"),
        "the same handbook: the number is the head in 32nds of an inch, less 3",
        "one source",
    )
    return ScrewHead("British rule", "countersunk (flat) head", gauge.name, (head, other))
