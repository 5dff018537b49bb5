"""Every thread of every series, made from the records and the tables of sizes."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Collection, Iterable
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.tables import born, rows
from fractions_shop.threads.record import Series
from fractions_shop.threads.records import BY_KEY, FAMILIES, GROUPS, SERIES
from fractions_shop.threads.thread import Thread

#: Nanometres in a millimetre.
_NANO = 10**6
#: A float is nearer than this to what it is made of.
_LESS, _MORE = 1 - 1e-9, 1 + 1e-9


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


class Listed(Frozen):
    """A thread as its table or its rule has it, `major` and `pitch` in mm; it is made when it is asked for."""

    series: str
    size: str
    major: Fraction
    pitch: Fraction
    make: Callable[[], Thread]

    @cached_property
    def thread(self) -> Thread:
        """The thread itself."""
        return self.make()

    @property
    def exactly(self) -> tuple[int, int, int, int]:
        """Major and pitch as whole numbers, which are told apart far quicker than Fractions of thirty figures."""
        return (*self.major.as_integer_ratio(), *self.pitch.as_integer_ratio())


@cache
def all_threads() -> tuple[Thread, ...]:
    """Every thread of every series, smallest major first; of equals, the series that stands first in the tables."""
    return tuple(each.thread for each in _all_listed())


@cache
def told_apart() -> tuple[Thread, ...]:
    """The same, without those that are the very same screw as one of another series (`same_as` of its record)."""
    return tuple(each.thread for each in listed_apart())


@cache
def of_series(key: str) -> tuple[Thread, ...]:
    """The threads of one series, smallest first; no table of another sort of size is loaded."""
    return tuple(each.thread for each in listed(key))


def threads_of(keys: Collection[str]) -> tuple[Thread, ...]:
    """Those of `all_threads` that are of some series."""
    return tuple(each.thread for each in listed_of(keys))


def listed_of(keys: Collection[str]) -> tuple[Listed, ...]:
    """What `threads_of` has, as it is listed."""
    return tuple(each for each in _all_listed() if each.series in keys)


@cache
def _all_listed() -> tuple[Listed, ...]:
    return _by_size(each for key in _keys() for each in listed(key))


@cache
def listed_apart() -> tuple[Listed, ...]:
    """What `told_apart` has, as it is listed."""
    return _apart(_all_listed())


def apart_between(low: Fraction, high: Fraction) -> tuple[Thread, ...]:
    """Those of `told_apart` whose majors in mm lie so; no others are looked at more closely."""
    majors, places = _majors()
    first, last = bisect_left(majors, float(low) * _LESS), bisect_right(majors, float(high) * _MORE)
    near = map(_listed_at, sorted(places[first:last]))
    between = _by_size(each for each in near if low <= each.major <= high)
    return tuple(each.thread for each in _apart(between))


@cache
def _majors() -> tuple[list[float], list[int]]:
    """The majors in mm of all entries, rising, and the place of each among them."""
    rising = sorted((_nearly(entry), place) for place, entry in enumerate(_entries()))
    return [major for major, _ in rising], [place for _, place in rising]


def _apart(threads: tuple[Listed, ...]) -> tuple[Listed, ...]:
    """Of all threads of some majors those that are not the very same screw as one of another series."""
    copied = {key for series in SERIES for key in series.same_as}
    sizes = {(each.series, each.exactly) for each in threads if each.series in copied}
    return tuple(
        each
        for each in threads
        if not any((key, each.exactly) in sizes for key in BY_KEY[each.series].same_as)
    )


@cache
def listed(key: str) -> tuple[Listed, ...]:
    """The threads of one series as they are listed, smallest first: what looks for a few need not make all."""
    return _by_size(map(_list, _entries_of(key)))


#: A series with a number of its rule, or with a table and a row of it: what is listed when it is asked for.
_Entry = tuple[Series, int] | tuple[Series, "_SizeTable", dict[str, str]]


def _keys() -> tuple[str, ...]:
    """Every series, in the order of rules and tables."""
    numbered = (series.key for series in SERIES if series.numbers)
    in_tables = (row["series"] for tables in _TABLES.values() for table in tables for row in rows(table))
    return tuple(dict.fromkeys((*numbered, *in_tables)))


@cache
def _entries() -> tuple[_Entry, ...]:
    return tuple(entry for key in _keys() for entry in _entries_of(key))


def _entries_of(key: str) -> list[_Entry]:
    """Those of one series; no table of another sort of size is loaded."""
    series = BY_KEY[key]
    rule = series.numbers
    entries: list[_Entry] = [(series, number) for number in range(rule.first, rule.last + 1)] if rule else []
    for name, table in _TABLES.get(series.size_is, {}).items():
        entries += [(series, table, row) for row in _rows_of(name).get(key, ())]
    return entries


def _list(entry: _Entry) -> Listed:
    if len(entry) == 2:
        return _by_rule(*entry)
    series, table, row = entry
    return table.of_row(series, row)


@cache
def _listed_at(place: int) -> Listed:
    return _list(_entries()[place])


def _nearly(entry: _Entry) -> float:
    """The major of an entry in mm, as near as a float comes; it is made into no size."""
    if len(entry) == 2:
        series, number = entry
        assert series.numbers is not None
        return float(series.numbers.major(number))
    _, table, row = entry
    whole, _, last = row[table.major].rpartition(" ")
    top, _, bottom = last.partition("/")
    return (float(whole or 0) + float(top) / float(bottom or 1)) * table.unit


@cache
def _rows_of(table: str) -> dict[str, list[dict[str, str]]]:
    """The rows of a table by the series that they are of."""
    of_key: dict[str, list[dict[str, str]]] = {}
    for row in rows(table):
        of_key.setdefault(row["series"], []).append(row)
    return of_key


def _by_size(threads: Iterable[Listed]) -> tuple[Listed, ...]:
    return tuple(sorted(threads, key=lambda each: (_nanometres(each.major), -_nanometres(each.pitch))))


def _nanometres(size: Fraction) -> int:
    """Exact for every size there is, and far quicker to compare."""
    return size.numerator * _NANO // size.denominator


def _by_rule(series: Series, number: int) -> Listed:
    rule = series.numbers
    assert rule is not None
    major, pitch = rule.major(number), rule.pitch(number)

    def make() -> Thread:
        beyond = number > rule.standard_last
        standing = "beyond the standard" if beyond else rule.standing
        return Thread(
            series.key,
            series.style.format(size=number),
            str(number),
            Quantity(major, approximate=rule.rooted, standing=standing),
            Quantity(pitch, standing=standing),
            rule.beyond if beyond else series.form,
            series.system,
            rule.beyond_source if beyond else rule.source,
            standing,
            (*series.notes, *((rule.beyond_note,) if beyond else ()), *filter(None, (series.note,))),
        )

    return Listed(series.key, str(number), major, pitch, make)


def _of_row(
    series: Series,
    row: dict[str, str],
    size: str,
    major: Fraction,
    pitch: Fraction,
    gauge_plane: Fraction | None = None,
    tap_drill: Callable[[], Quantity | None] = lambda: None,
) -> Listed:
    """What the rows of all tables have in common; lengths in mm, `gauge_plane` the effective diameter there."""

    def make() -> Thread:
        return Thread(
            series.key,
            series.style.format(size=size, tpi=row.get("threads_per_inch"), pitch=row.get("pitch_mm")),
            size,
            born(row, major, "mm"),
            born(row, pitch, "mm"),
            series.form,
            series.system,
            f"{series.standard} by its formula; size from: {row['source']}",
            row["standing"],
            (*series.notes, *filter(None, (row["note"], series.note))),
            None if gauge_plane is None else born(row, gauge_plane, "mm", "rule"),
            tap_drill(),
        )

    return Listed(series.key, size, major, pitch, make)


# The same figures stand in many rows: each is read once.


@cache
def _inches(printed: str) -> Fraction:
    return number_value(printed) * INCH


@cache
def _per_inch(printed: str) -> Fraction:
    return INCH / Fraction(printed)


@cache
def _mm(printed: str) -> Fraction:
    return Fraction(printed)


def _inch(series: Series, row: dict[str, str]) -> Listed:
    return _of_row(series, row, row["size"], _inches(row["major_in"]), _per_inch(row["threads_per_inch"]))


def _metric(series: Series, row: dict[str, str]) -> Listed:
    return _of_row(series, row, row["major_mm"], _mm(row["major_mm"]), _mm(row["pitch_mm"]))


def _pipe(series: Series, row: dict[str, str]) -> Listed:
    def tap_drill() -> Quantity | None:
        return born(row, Fraction(row["tap_drill_mm"]), "mm") if row["tap_drill_mm"] else None

    major, pitch = _mm(row["major_mm"]), _per_inch(row["threads_per_inch"])
    return _of_row(series, row, row["size"], major, pitch, tap_drill=tap_drill)


def _npt(series: Series, row: dict[str, str]) -> Listed:
    """E0 = D - (0.05 D + 1.1)/n at the small end, E1 = E0 + L1/16 at the gauge plane (ASME B1.20.1)."""

    def tap_drill() -> Quantity | None:
        return born(row, number_value(row["tap_drill_in"]), "in") if row["tap_drill_in"] else None

    outside, tpi = Fraction(row["pipe_outside_in"]), Fraction(row["threads_per_inch"])
    small_end = outside - (Fraction("0.05") * outside + Fraction("1.1")) / tpi
    gauge_plane = small_end + Fraction(row["hand_engagement_in"]) / 16
    return _of_row(series, row, row["size"], outside * INCH, INCH / tpi, gauge_plane * INCH, tap_drill)


class _SizeTable(Frozen):
    """How a table of threads is read: its column of majors, their unit in mm, and what lists a thread of a row."""

    major: str
    unit: float
    of_row: Callable[[Series, dict[str, str]], Listed]


#: The tables by what the sizes of a series say.
_TABLES: dict[str, dict[str, _SizeTable]] = {
    "inch": {"thread_inch": _SizeTable("major_in", 25.4, _inch)},
    "mm": {"thread_metric": _SizeTable("major_mm", 1.0, _metric)},
    "bore": {
        "thread_pipe": _SizeTable("major_mm", 1.0, _pipe),
        "thread_npt": _SizeTable("pipe_outside_in", 25.4, _npt),
    },
}
