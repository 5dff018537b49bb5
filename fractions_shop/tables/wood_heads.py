"""Heads of wood screws: American ones of a table, British ones by the two rules of one handbook."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.tables import born, rows
from fractions_shop.tables.gauge_records import SERIES
from fractions_shop.tables.head_records import Dimension, ScrewHead

_WOOD = "ASME B18.6.1"


def wood_heads(series: str, number: str, name: str) -> tuple[ScrewHead, ...]:
    """The head of the wood screw `name` of a gauge series; none where its list has none, or for another gauge."""
    if not SERIES[series].screw:
        return ()
    row = next(row for row in rows(SERIES[series].table) if row["number"] == number)
    if "head_in" in row:
        return (_british_head(name, row),)
    if not row["flat_head_max_in"]:
        return ()
    columns = {
        "body diameter, maximum": "body_max_in",
        "head diameter, maximum": "flat_head_max_in",
        "head diameter, minimum": "flat_head_min_in",
        "head height": "head_height_in",
        "slot width, maximum": "slot_width_max_in",
    }
    source = "open CAD data file after ASME B18.6.1"
    dimensions = tuple(
        Dimension(each, born(row, Fraction(row[column]), "in", "one source"), source, "one source")
        for each, column in columns.items()
    )
    return (ScrewHead(_WOOD, "countersunk (flat) head", name, dimensions),)


def _british_head(name: str, row: dict[str, str]) -> ScrewHead:
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
    return ScrewHead("British rule", "countersunk (flat) head", name, (head, other))
