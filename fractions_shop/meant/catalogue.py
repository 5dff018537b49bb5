"""Sizes that a maker may have bought rather than chosen: drills, gauges, threads, shim and feeler stock.

What `recover` looks among when asked. Each table is opened when it is first named here.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity


class SizeSeries(Record):
    """A named series of sizes: (mm, what a maker calls it), in order of size.

    `under` says of screws how far in mm under its size one commonly measures, at most;
    `standings` of each size in mm how far to trust it; `rare` that it is met with on old work or in
    one trade alone.
    """

    name: str
    metric: bool
    marks: tuple[tuple[Fraction, str], ...]
    under: tuple[tuple[Fraction, Fraction], ...] = ()
    standings: tuple[tuple[Fraction, str], ...] = ()
    rare: bool = False


#: The tables, each with what it holds.
TABLES = {
    "drills": "twist drills, inch and metric",
    "gauges": "wire and sheet gauges",
    "threads": "majors of threads, and screws worn under them",
    "stock": "shim and feeler stock",
}

Entry = tuple[str, str, Quantity]


@cache
def series(table: str) -> tuple[SizeSeries, ...]:
    """The series of one of TABLES; of equal sizes in one series the first name is kept."""
    makers = {"drills": _drills, "gauges": _gauges, "threads": _threads, "stock": _stock}
    groups: dict[str, dict[Fraction, tuple[str, str]]] = {}
    under = _undersizes() if table == "threads" else {}
    for name, called, size in makers[table]():
        groups.setdefault(name, {}).setdefault(size.mm, (called, size.standing))
    return tuple(
        SizeSeries(
            name,
            _is_metric(name),
            tuple(sorted((mm, called) for mm, (called, _) in sizes.items())),
            tuple(sorted(under.get(name, {}).items())),
            tuple(sorted((mm, standing) for mm, (_, standing) in sizes.items())),
            table == "threads" and name in _rare_threads(),
        )
        for name, sizes in groups.items()
    )


def _is_metric(name: str) -> bool:
    """Whether only metric work would take sizes from this series.

    BA screws have metric sizes and fill British work in inches, so they do not count.
    """
    return name.startswith("metric") or name in _metric_threads() or name.endswith("feelers")


@cache
def _metric_threads() -> tuple[str, ...]:
    from fractions_shop.threads.records import METRIC_FAMILIES, keys_of

    return tuple(f"{key} threads" for key in keys_of(lambda series: series.family in METRIC_FAMILIES))


@cache
def _rare_threads() -> tuple[str, ...]:
    from fractions_shop.threads.records import keys_of

    return tuple(f"{key} threads" for key in keys_of(lambda series: series.rare))


def _drills() -> Iterator[Entry]:
    from fractions_shop.tables.drills import all_drills

    return ((f"{drill.series} drills", f"{drill.name} drill", drill.size) for drill in all_drills())


def _gauges() -> Iterator[Entry]:
    from fractions_shop.tables.gauges import all_gauges

    return ((gauge.series, gauge.name, gauge.size) for gauge in all_gauges())


def _threads() -> Iterator[Entry]:
    from fractions_shop.threads.series import told_apart

    return ((f"{thread.series} threads", thread.name, thread.major) for thread in told_apart())


def _undersizes() -> dict[str, dict[Fraction, Fraction]]:
    """By series and major, how far under it a real screw measures at most; of the coarsest pitch."""
    from fractions_shop.threads.series import told_apart
    from fractions_shop.threads.worn import usual_undersize

    undersizes: dict[str, dict[Fraction, Fraction]] = {}
    for thread in told_apart():
        undersizes.setdefault(f"{thread.series} threads", {}).setdefault(
            thread.major.mm, usual_undersize(thread)
        )
    return undersizes


def _stock() -> Iterator[Entry]:
    from fractions_shop.tables import stock

    return (
        (item, thickness.name, thickness.size)
        for item in stock.items()
        for thickness in stock.thicknesses(item)
    )
