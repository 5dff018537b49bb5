"""Sizes of heads, nuts and washers by their thread, where a table was read; nothing is guessed for the rest."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import born, rows
from fractions_shop.tables.head_records import Measure, measure
from fractions_shop.threads.record import Series
from fractions_shop.threads.records import METRIC_HEADS

#: Kinds that are nuts, as the tables call them.
_NUTS = ("hexagon nut", "thin hexagon nut", "lock-nut", "machine-screw nut", "square nut")


class Head(Record):
    """One dimension of one kind of head, nut or washer: its `largest` size, and its `smallest` where that is printed.

    A dimension that says `nominal`, `mean` or `minimum` has that size as its `largest`; `unit` is the
    one in which its table prints it, and `of_nut` says that it is of a nut.
    """

    kind: str
    dimension: str
    largest: Quantity
    smallest: Quantity | None
    unit: str
    standing: str
    source: str
    note: str = ""
    of_nut: bool = False

    @property
    def measure(self) -> Measure:
        """What its dimension measures."""
        return measure(self.dimension)


def heads(series: Series, size: str, major: Quantity) -> tuple[Head, ...]:
    """The head and nut dimensions known for one size of a series; empty where none was read.

    BA hexagons by rule, BSW and BSF hexagons from BS 1083 (and the older, larger ones),
    American heads, nuts and washers from ASME B18, metric ones from the ISO product standards.
    """
    if not size:
        return ()  # a thread that no table has
    known: tuple[Head, ...] = ()
    rule = series.flats
    if rule is not None:
        flats = (major * rule.factor).resting_on("rule")
        known = (
            Head("hexagon head", "across flats, nominal", flats, None, "mm", "rule", rule.source, rule.note),
        )
    for group in series.heads:
        known += _metric(size) if group == METRIC_HEADS else _printed(group, size)
    return known


def _metric(size: str) -> tuple[Head, ...]:
    from fractions_shop.tables import heads as metric_tables  # other screws need none of it

    try:
        known = metric_tables.heads(f"M{size}")
    except ShopError:
        return ()
    return tuple(
        Head(
            f"{head.kind} ({head.standard})", d.name, d.size, None, "mm", d.standing, d.source, d.note,
            head.kind in _NUTS,
        )
        for head in known
        for d in head.dimensions
    )  # fmt: skip


@cache
def _printed(group: str, size: str) -> tuple[Head, ...]:
    """The heads of inch and numbered screws: of one size of a series, or of several series that share them."""
    return tuple(_of_row(row) for row in _rows_by_size().get((group, size), ()))


@cache
def _rows_by_size() -> dict[tuple[str, str], list[dict[str, str]]]:
    # A screw asks for a few rows of many: only those are made heads of.
    by_size: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in rows("thread_heads_in"):
        by_size.setdefault((row["series"], row["size"]), []).append(row)
    return by_size


def _of_row(row: dict[str, str]) -> Head:
    return Head(
        f"{row['head']} ({row['standard']})",
        row["dimension"],
        born(row, Fraction(row["max_in"]), "in"),
        born(row, Fraction(row["min_in"]), "in") if row["min_in"] else None,
        "in",
        row["standing"],
        row["source"],
        row["note"],
        row["head"] in _NUTS,
    )
