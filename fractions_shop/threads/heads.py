"""Head sizes of screws by their thread, where a table was read; nothing is guessed for the rest."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import born, rows
from fractions_shop.tables import heads as metric_tables
from fractions_shop.threads.records import METRIC_HEADS, Series


@dataclass(frozen=True)
class Head:
    """One dimension of one kind of head: its `largest` size, and its `smallest` where that is printed.

    A dimension that says `nominal` or `minimum` has that size as its `largest`.
    """

    kind: str
    dimension: str
    largest: Quantity
    smallest: Quantity | None
    standing: str
    source: str
    note: str = ""

    @property
    def across_flats(self) -> bool:
        """Whether it is what a spanner is made for: a hexagon across its flats."""
        return self.dimension.startswith("across flats")


def heads(series: Series, size: str, major: Quantity) -> tuple[Head, ...]:
    """The head dimensions known for one size of a series; empty where none was read.

    BA hexagons by rule, BSW and BSF hexagons from BS 1083 (and the older, larger ones),
    metric screws from M1.6 to M12 from the ISO product standards.
    """
    if not size:
        return ()  # a thread that no table has
    rule = series.flats
    if rule is not None:
        flats = (major * rule.factor).resting_on("rule")
        return (Head("hexagon head", "across flats, nominal", flats, None, "rule", rule.source, rule.note),)
    if series.heads == METRIC_HEADS:
        return _metric(size)
    return _british().get((series.key, size), ()) if series.heads else ()


def _metric(size: str) -> tuple[Head, ...]:
    try:
        known = metric_tables.heads(f"M{size}")
    except ShopError:
        return ()
    return tuple(
        Head(f"{head.kind} ({head.standard})", d.name, d.size, None, d.standing, d.source, d.note)
        for head in known
        for d in head.dimensions
    )


@cache
def _british() -> dict[tuple[str, str], tuple[Head, ...]]:
    heads_of: dict[tuple[str, str], tuple[Head, ...]] = {}
    for row in rows("thread_heads_in"):
        head = Head(
            f"{row['head']} ({row['standard']})",
            row["dimension"],
            born(row, Fraction(row["max_in"]), "in"),
            born(row, Fraction(row["min_in"]), "in") if row["min_in"] else None,
            row["standing"],
            row["source"],
            row["note"],
        )
        key = row["series"], row["size"]
        heads_of[key] = (*heads_of.get(key, ()), head)
    return heads_of
