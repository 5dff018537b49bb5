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
    one trade alone, `fine` that it is of the fine threads of its sizes.
    """

    name: str
    metric: bool
    marks: tuple[tuple[Fraction, str], ...]
    under: tuple[tuple[Fraction, Fraction], ...] = ()
    standings: tuple[tuple[Fraction, str], ...] = ()
    rare: bool = False
    fine: bool = False


class _Bought(Record):
    """What is known of a series beside its sizes.

    `metric` says that only metric work would take sizes from it: BA screws have metric sizes and fill British
    work in inches, so they do not count.
    """

    name: str
    metric: bool = False
    rare: bool = False
    fine: bool = False


#: The tables, each with what it holds.
TABLES = {
    "drills": "twist drills, inch and metric",
    "gauges": "wire and sheet gauges",
    "threads": "majors of threads, and screws worn under them",
    "stock": "shim and feeler stock",
}

_Entry = tuple[_Bought, str, Quantity]


@cache
def series(table: str) -> tuple[SizeSeries, ...]:
    """The series of one of TABLES; of equal sizes in one series the first name is kept."""
    makers = {"drills": _drills, "gauges": _gauges, "threads": _threads, "stock": _stock}
    groups: dict[str, dict[Fraction, tuple[str, str]]] = {}
    kinds: dict[str, _Bought] = {}
    under = _undersizes() if table == "threads" else {}
    for kind, called, size in makers[table]():
        kinds[kind.name] = kind
        groups.setdefault(kind.name, {}).setdefault(size.mm, (called, size.standing))
    return tuple(
        SizeSeries(
            name,
            kinds[name].metric,
            tuple(sorted((mm, called) for mm, (called, _) in sizes.items())),
            tuple(sorted(under.get(name, {}).items())),
            tuple(sorted((mm, standing) for mm, (_, standing) in sizes.items())),
            kinds[name].rare,
            kinds[name].fine,
        )
        for name, sizes in groups.items()
    )


def _drills() -> Iterator[_Entry]:
    from fractions_shop.tables.drills import SERIES, all_drills

    kinds = {series: _Bought(f"{series} drills", metric=series == "metric") for series in SERIES}
    return ((kinds[drill.series], f"{drill.name} drill", drill.size) for drill in all_drills())


def _gauges() -> Iterator[_Entry]:
    from fractions_shop.tables.gauges import all_gauges

    return ((_Bought(gauge.series), gauge.name, gauge.size) for gauge in all_gauges())


def _threads() -> Iterator[_Entry]:
    from fractions_shop.threads.records import METRIC_FAMILIES, SERIES
    from fractions_shop.threads.series import told_apart

    kinds = {
        series.key: _Bought(
            _threads_of(series.key), series.family in METRIC_FAMILIES, series.rare, series.kind == "fine"
        )
        for series in SERIES
    }
    return ((kinds[thread.series], thread.name, thread.major) for thread in told_apart())


def _threads_of(series: str) -> str:
    return f"{series} threads"


def _undersizes() -> dict[str, dict[Fraction, Fraction]]:
    """By series and major, how far under it a real screw measures at most; of the coarsest pitch."""
    from fractions_shop.threads.series import told_apart
    from fractions_shop.threads.worn import usual_undersize

    undersizes: dict[str, dict[Fraction, Fraction]] = {}
    for thread in told_apart():
        undersizes.setdefault(_threads_of(thread.series), {}).setdefault(
            thread.major.mm, usual_undersize(thread)
        )
    return undersizes


def _stock() -> Iterator[_Entry]:
    from fractions_shop.tables import stock

    return (
        (_Bought(item, stock.is_metric(item)), thickness.name, thickness.size)
        for item in stock.items()
        for thickness in stock.thicknesses(item)
    )
