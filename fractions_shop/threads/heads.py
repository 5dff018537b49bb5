"""Head sizes of screws, where a table of them was read; nothing is guessed for the rest."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from fractions_shop.quantity import Quantity
from fractions_shop.tables import rows
from fractions_shop.units import INCH

_BA_FLATS = Fraction("1.75")
_BA_SOURCE = "rule of 1.75 times the major diameter (two encyclopaedia pages on British Association threads)"


@dataclass(frozen=True)
class Head:
    """One dimension of one kind of head: its largest size, and its smallest where that is printed."""

    kind: str
    dimension: str
    largest: Quantity
    smallest: Quantity | None
    standing: str
    source: str
    note: str = ""


def heads(series: str, size: str, major: Quantity) -> tuple[Head, ...]:
    """The head dimensions known for one size of a series; empty where none was read."""
    if series == "BA":
        flats = major * _BA_FLATS
        return (Head("hexagon", "across flats, nominal", flats, None, "rule", _BA_SOURCE),)
    return _table().get((series.partition(" ")[0], size), ())


@cache
def _table() -> dict[tuple[str, str], tuple[Head, ...]]:
    found: dict[tuple[str, str], tuple[Head, ...]] = {}
    for unit, factor in (("in", INCH), ("mm", Fraction(1))):
        for row in rows(f"thread_heads_{unit}"):
            head = Head(
                row["head"],
                row["dimension"],
                Quantity(Fraction(row[f"max_{unit}"]) * factor),
                Quantity(Fraction(row[f"min_{unit}"]) * factor) if row[f"min_{unit}"] else None,
                row["standing"],
                row["source"],
                row["note"],
            )
            key = row["series"], row["size"]
            found[key] = (*found.get(key, ()), head)
    return found
