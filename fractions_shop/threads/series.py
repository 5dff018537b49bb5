"""The series: what each is called, its form, and all its sizes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import rows
from fractions_shop.threads import ba, forms
from fractions_shop.threads.thread import Thread


@dataclass(frozen=True)
class Series:
    """A thread series: its `key` is what `Thread.series` says; `style` is how a name is put together."""

    key: str
    title: str
    standard: str
    form: forms.Form
    system: str
    style: str
    note: str = ""


_NANO = 10**6
_NO_STANDARD = "no British Standard: trade practice, and makers differ"

SERIES = (
    Series("BA", "British Association", "BS 93", forms.BA, "metric", "{size} BA"),
    Series("BSW", "British Standard Whitworth", "BS 84", forms.WHITWORTH, "any", "{size} BSW"),
    Series("BSF", "British Standard Fine", "BS 84", forms.WHITWORTH, "any", "{size} BSF"),
    Series("BSC", "British Standard Cycle", "BS 811", forms.CYCLE, "any", "{size}-{tpi} BSC"),
    Series(
        "ME", "model engineer", "Whitworth form", forms.WHITWORTH, "any", "{size} x {tpi} ME", _NO_STANDARD
    ),
    Series(
        "BSB", "British brass, 26 tpi", "Whitworth form", forms.WHITWORTH, "any", "{size} BSB", _NO_STANDARD
    ),
    Series("G", "British Standard pipe, parallel", "ISO 228-1", forms.PIPE, "metric", "G {size}"),
    Series("R", "British Standard pipe, taper", "ISO 7-1", forms.PIPE_TAPER, "metric", "R {size}"),
    Series("NPT", "American taper pipe", "ASME B1.20.1", forms.NPT, "inch", "{size} NPT"),
    Series("UNC", "unified coarse", "ASME B1.1", forms.UNIFIED, "inch", "{size}-{tpi} UNC"),
    Series("UNF", "unified fine", "ASME B1.1", forms.UNIFIED, "inch", "{size}-{tpi} UNF"),
    Series("UNEF", "unified extra fine", "ASME B1.1", forms.UNIFIED, "inch", "{size}-{tpi} UNEF"),
    Series("M", "ISO metric, coarse", "ISO 261 and 724", forms.METRIC, "metric", "M{size}"),
    Series("M fine", "ISO metric, fine", "ISO 261 and 724", forms.METRIC, "metric", "M{size} x {pitch}"),
)
BY_KEY = {series.key: series for series in SERIES}

#: Words for several series at once, for `substitute ... from metric` and the like.
GROUPS = {
    "metric": ("M", "M fine"),
    "iso metric": ("M", "M fine"),
    "metric coarse": ("M",),
    "m coarse": ("M",),
    "metric fine": ("M fine",),
    "unified": ("UNC", "UNF", "UNEF"),
    "un": ("UNC", "UNF", "UNEF"),
    "american": ("UNC", "UNF", "UNEF"),
    "whitworth": ("BSW",),
    "whit": ("BSW",),
    "pipe": ("G", "R", "NPT"),
    "bsp": ("G", "R"),
    "bspp": ("G",),
    "bspt": ("R",),
    "cei": ("BSC",),
    "cycle": ("BSC",),
    "brass": ("BSB",),
    "model engineer": ("ME",),
    "british": ("BA", "BSW", "BSF", "BSC", "ME", "BSB"),
}


def series_keys(name: str) -> tuple[str, ...]:
    """The series that `name` means: `M`, `UNF`, `metric`, `unified` ...; ShopError for another."""
    word = " ".join(name.lower().replace(".", "").split())
    for key in BY_KEY:
        if key.lower() == word:
            return (key,)
    if word in GROUPS:
        return GROUPS[word]
    raise ShopError(
        f"{name!r} is not a thread series: {', '.join(BY_KEY)}, or metric, unified, pipe, british"
    )


@cache
def all_threads() -> tuple[Thread, ...]:
    """Every thread of every series, smallest major first."""
    every = [*_association(), *_inch(), *_metric(), *_pipe(), *_npt()]
    # In whole nanometres: exact for every size there is, and far quicker to compare.
    return tuple(sorted(every, key=lambda t: (int(t.major.mm * _NANO), -int(t.pitch.mm * _NANO))))


@cache
def of_series(key: str) -> tuple[Thread, ...]:
    """The threads of one series, smallest first."""
    return tuple(thread for thread in all_threads() if thread.series == key)


def _association() -> Iterator[Thread]:
    series = BY_KEY["BA"]
    for number in range(ba.LAST + 1):
        beyond = number > ba.LAST_OF_STANDARD
        notes = (
            (f"beyond the standard: BS 93 stops at {ba.LAST_OF_STANDARD} BA; the formula is carried on",)
            if beyond
            else ()
        )
        yield Thread(
            "BA",
            f"{number} BA",
            str(number),
            Quantity(ba.major(number)),
            Quantity(ba.pitch(number)),
            forms.BA_BEYOND if beyond else series.form,
            series.system,
            "formula of BS 93 carried on, no printed table read" if beyond else "BS 93:1951, by its formula",
            "rule",
            notes,
        )


def _notes(series: Series, row: dict[str, str]) -> tuple[str, ...]:
    memory = (
        "the size is listed from memory: check before relying on it"
        if row["standing"] == "from memory"
        else ""
    )
    return tuple(note for note in (row["note"], series.note, memory) if note)


def _source(series: Series, row: dict[str, str]) -> str:
    return f"{series.standard} by its formula; size from: {row['source']}"


def _inch() -> Iterator[Thread]:
    for row in rows("thread_inch"):
        series = BY_KEY[row["series"]]
        tpi = row["threads_per_inch"]
        yield Thread(
            series.key,
            series.style.format(size=row["size"], tpi=tpi),
            row["size"],
            Quantity.inches(number_value(row["major_in"])),
            forms.pitch_of(Fraction(tpi)),
            series.form,
            series.system,
            _source(series, row),
            row["standing"],
            _notes(series, row),
        )


def _metric() -> Iterator[Thread]:
    for row in rows("thread_metric"):
        series = BY_KEY[row["series"]]
        yield Thread(
            series.key,
            series.style.format(size=row["major_mm"], pitch=row["pitch_mm"]),
            row["major_mm"],
            Quantity(Fraction(row["major_mm"])),
            Quantity(Fraction(row["pitch_mm"])),
            series.form,
            series.system,
            _source(series, row),
            row["standing"],
            _notes(series, row),
        )


def _pipe() -> Iterator[Thread]:
    for row in rows("thread_pipe"):
        series = BY_KEY[row["series"]]
        note = "the size is the bore of an old pipe, not a diameter to measure"
        taper = ("diameters at the gauge plane; taper 1 in 16 on the diameter",) if series.key == "R" else ()
        yield Thread(
            series.key,
            series.style.format(size=row["size"]),
            row["size"],
            Quantity(Fraction(row["major_mm"])),
            forms.pitch_of(Fraction(row["threads_per_inch"])),
            series.form,
            series.system,
            _source(series, row),
            row["standing"],
            (*taper, note, *_notes(series, row)),
            tap_drill=Quantity(Fraction(row["tap_drill_mm"])) if row["tap_drill_mm"] else None,
        )


def _npt() -> Iterator[Thread]:
    """E0 = D - (0.05 D + 1.1)/n at the small end, E1 = E0 + L1/16 at the gauge plane (ASME B1.20.1)."""
    for row in rows("thread_npt"):
        series = BY_KEY["NPT"]
        outside, tpi = Fraction(row["pipe_outside_in"]), Fraction(row["threads_per_inch"])
        small_end = outside - (Fraction("0.05") * outside + Fraction("1.1")) / tpi
        gauge_plane = small_end + Fraction(row["hand_engagement_in"]) / 16
        yield Thread(
            "NPT",
            series.style.format(size=row["size"]),
            row["size"],
            Quantity.inches(outside),
            forms.pitch_of(tpi),
            series.form,
            series.system,
            _source(series, row),
            row["standing"],
            (
                "major is the outside of the pipe; effective and minor are at the gauge plane",
                "taper 1 in 16 on the diameter; the size is the bore of an old pipe",
                *_notes(series, row),
            ),
            Quantity.inches(gauge_plane),
            Quantity.inches(number_value(row["tap_drill_in"])) if row["tap_drill_in"] else None,
        )
