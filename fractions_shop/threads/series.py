"""Every thread of every series, made from the records and the tables of sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import born, rows
from fractions_shop.threads.record import Series
from fractions_shop.threads.records import BY_KEY, FAMILIES, GROUPS, SERIES
from fractions_shop.threads.thread import Thread

_NANO = 10**6


def series_keys(name: str) -> tuple[str, ...]:
    """The series that `name` means: `M`, `UNF`, `metric`, `unified` ...; ShopError for another."""
    word = " ".join(name.lower().replace(".", "").rstrip("'").split())
    for key in BY_KEY:
        if key.lower() == word:
            return (key,)
    if word in GROUPS:
        return GROUPS[word]
    raise ShopError(
        f"{name!r} is not a thread series: {', '.join(BY_KEY)}, or {', '.join(reversed(FAMILIES))}"
    )


@cache
def all_threads() -> tuple[Thread, ...]:
    """Every thread of every series, smallest major first; of equals, the series that stands first in the tables."""
    numbered = (series.key for series in SERIES if series.numbers)
    listed = (row["series"] for tables in _TABLES.values() for table in tables for row in rows(table))
    return _by_size(thread for key in dict.fromkeys((*numbered, *listed)) for thread in of_series(key))


@cache
def told_apart() -> tuple[Thread, ...]:
    """The same, without those that are the very same screw as one of another series (`same_as` of its record)."""
    sizes: dict[str, set[tuple[Fraction, Fraction]]] = {}
    for thread in all_threads():
        sizes.setdefault(thread.series, set()).add((thread.major.mm, thread.pitch.mm))
    return tuple(
        thread
        for thread in all_threads()
        if not any((thread.major.mm, thread.pitch.mm) in sizes[key] for key in thread.record.same_as)
    )


@cache
def of_series(key: str) -> tuple[Thread, ...]:
    """The threads of one series, smallest first; no table of another sort of size is loaded."""
    series = BY_KEY[key]
    made: list[Thread] = list(_numbered(series))
    for table, made_of in _TABLES.get(series.size_is, {}).items():
        made += [made_of(series, row) for row in _rows_of(table).get(key, ())]
    return _by_size(made)


@cache
def _rows_of(table: str) -> dict[str, list[dict[str, str]]]:
    """The rows of a table by the series that they are of."""
    of_key: dict[str, list[dict[str, str]]] = {}
    for row in rows(table):
        of_key.setdefault(row["series"], []).append(row)
    return of_key


def _by_size(threads: Iterable[Thread]) -> tuple[Thread, ...]:
    # In whole nanometres: exact for every size there is, and far quicker to compare.
    return tuple(sorted(threads, key=lambda t: (int(t.major.mm * _NANO), -int(t.pitch.mm * _NANO))))


def _numbered(series: Series) -> Iterator[Thread]:
    rule = series.numbers
    for number in range(rule.last + 1) if rule else ():
        assert rule is not None
        beyond = number > rule.standard_last
        standing = "beyond the standard" if beyond else rule.standing
        yield Thread(
            series.key,
            series.style.format(size=number),
            str(number),
            Quantity(rule.major(number), approximate=rule.rooted, standing=standing),
            Quantity(rule.pitch(number), standing=standing),
            rule.beyond if beyond else series.form,
            series.system,
            rule.beyond_source if beyond else rule.source,
            standing,
            (*series.notes, *((rule.beyond_note,) if beyond else ()), *filter(None, (series.note,))),
        )


def _of_row(
    series: Series,
    row: dict[str, str],
    size: str,
    major: Quantity,
    pitch: Quantity,
    gauge_effective: Quantity | None = None,
    tap_drill: Quantity | None = None,
) -> Thread:
    """What the rows of all tables have in common."""
    return Thread(
        series.key,
        series.style.format(size=size, tpi=row.get("threads_per_inch"), pitch=row.get("pitch_mm")),
        size,
        major,
        pitch,
        series.form,
        series.system,
        f"{series.standard} by its formula; size from: {row['source']}",
        row["standing"],
        (*series.notes, *filter(None, (row["note"], series.note))),
        gauge_effective,
        tap_drill,
    )


def _inch(series: Series, row: dict[str, str]) -> Thread:
    major, pitch = number_value(row["major_in"]), 1 / Fraction(row["threads_per_inch"])
    return _of_row(series, row, row["size"], born(row, major, "in"), born(row, pitch, "in"))


def _metric(series: Series, row: dict[str, str]) -> Thread:
    major, pitch = Fraction(row["major_mm"]), Fraction(row["pitch_mm"])
    return _of_row(series, row, row["major_mm"], born(row, major, "mm"), born(row, pitch, "mm"))


def _pipe(series: Series, row: dict[str, str]) -> Thread:
    major, pitch = Fraction(row["major_mm"]), 1 / Fraction(row["threads_per_inch"])
    drill = born(row, Fraction(row["tap_drill_mm"]), "mm") if row["tap_drill_mm"] else None
    return _of_row(series, row, row["size"], born(row, major, "mm"), born(row, pitch, "in"), tap_drill=drill)


def _npt(series: Series, row: dict[str, str]) -> Thread:
    """E0 = D - (0.05 D + 1.1)/n at the small end, E1 = E0 + L1/16 at the gauge plane (ASME B1.20.1)."""
    outside, tpi = Fraction(row["pipe_outside_in"]), Fraction(row["threads_per_inch"])
    small_end = outside - (Fraction("0.05") * outside + Fraction("1.1")) / tpi
    gauge_plane = small_end + Fraction(row["hand_engagement_in"]) / 16
    drill = born(row, number_value(row["tap_drill_in"]), "in") if row["tap_drill_in"] else None
    return _of_row(
        series, row, row["size"], born(row, outside, "in"), born(row, 1 / tpi, "in"),
        born(row, gauge_plane, "in", "rule"), drill,
    )  # fmt: skip


#: What makes a thread of a row, by what the sizes of its series say and by the table.
_TABLES: dict[str, dict[str, Callable[[Series, dict[str, str]], Thread]]] = {
    "inch": {"thread_inch": _inch},
    "mm": {"thread_metric": _metric},
    "bore": {"thread_pipe": _pipe, "thread_npt": _npt},
}
