"""Threads against libraries of the registry (PyPI).

bd-warehouse 0.4.0 (2026, Apache-2.0) has parallel pipe threads after ISO 228-1, cqparts-fasteners 0.1.0 (2018,
Apache-2.0) a catalogue of American and metric bolts and nuts with major, pitch and size across flats; their figures
stand in data/threads_registry.csv, as data beside the tests alone. fluids 1.3.1 has the outside diameters of pipe
(ASME B36.10), and is asked itself. For BA, Whitworth, cycle, model engineers', Loewenherz, Thury, old metric and
unified miniature threads, tapers and taper pins no package was found there in 2026: of those
the tests hold the standards' formulas and printed tables alone.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from fluids.piping import nearest_pipe

from fractions_shop.size.notation import number_value
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.series import all_threads, of_series
from fractions_shop.threads.thread import Thread

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data" / "threads_registry.csv").read_text("utf-8").splitlines())
)
PIPE = [row for row in ROWS if row["library"] == "bd-warehouse"]
PARTS = [row for row in ROWS if row["library"] == "cqparts-fasteners"]
#: Majors that the catalogue gives to two figures of an inch: No 2, 4, 6 and 8 (0.060 + 0.013 N in ASME B1.1).
CUT_SHORT = {"2.032": "No 2", "2.794": "No 4", "3.302": "No 6", "4.064": "No 8"}
#: Across flats as ours are not: flange bolts of 1/4 in, and metric nuts after DIN 934, which is older than ISO 4032.
OTHER_BOLTS, OTHER_NUTS = ["1/4 9.525"], ["10 17.0", "12 19.0", "14 22.0"]


@pytest.mark.parametrize("row", PIPE, ids=[row["size"] for row in PIPE])
def test_parallel_pipe_threads_agree_to_the_last_figure(row: dict[str, str]) -> None:
    ours = thread(f"G {row['size']}")
    assert ours.tpi == Fraction(row["tpi_or_pitch_mm"])
    assert ours.major.mm == Fraction(row["major_mm"])
    # ISO 228 rounds the depth to 0.001 mm before it takes it off.
    assert abs(ours.effective.mm - Fraction(row["effective_mm"])) <= Fraction("0.0011")
    assert abs(ours.minor.mm - Fraction(row["minor_mm"])) <= Fraction("0.0021")


def test_the_room_of_the_bore_agrees() -> None:
    room = dict(thread("G 1/2").record.tapping.room)
    theirs = {int(row["tpi_or_pitch_mm"]): Fraction(row["minor_room_mm"]) for row in PIPE}
    assert room == theirs


def _of_part(row: dict[str, str]) -> list[Thread]:
    """The American and metric threads of the major and pitch of a part."""
    pitch = Fraction(row["tpi_or_pitch_mm"])
    named = CUT_SHORT.get(row["major_mm"])
    return [
        each
        for each in all_threads()
        if each.series in ("UNC", "UNF", "UNS", "M", "M fine")
        and abs(each.pitch.mm - pitch) < Fraction(1, 10**6)
        and (
            each.size == named
            if named
            else abs(each.major.mm - Fraction(row["major_mm"])) < Fraction(1, 10**5)
        )
    ]


def test_every_thread_of_the_catalogue_is_one_of_ours() -> None:
    """It says No 2-56 UNC and the like by majors cut short, which are the only ones that differ."""
    missing = [(row["major_mm"], row["tpi_or_pitch_mm"]) for row in PARTS if not _of_part(row)]
    assert missing == []


@pytest.mark.parametrize(("kind", "least", "others"), [("bolt", 30, OTHER_BOLTS), ("nut", 40, OTHER_NUTS)])
def test_bolts_and_nuts_are_as_wide_across_flats(kind: str, least: int, others: list[str]) -> None:
    """Heads of ISO 4014 and ASME B18.2.1, nuts of ISO 4032 and ASME B18.2.2."""
    compared, differ = 0, []
    for row in PARTS:
        ours = _of_part(row)[0]
        flats = {
            round(float(head.largest.mm), 3)
            for head in ours.spanners
            if head.of_nut == (kind == "nut") and not head.measure.mean
        }
        if row["kind"] == kind and flats:
            compared += 1
            if round(float(row["across_flats_mm"]), 3) not in flats:
                differ.append(f"{ours.size} {row['across_flats_mm']}")
    assert sorted(set(differ)) == others
    assert compared >= least


@pytest.mark.parametrize("ours", of_series("NPT")[1:], ids=[each.name for each in of_series("NPT")[1:]])
def test_the_outside_of_american_pipe_agrees(ours: Thread) -> None:
    """Nominal pipe size to outside diameter in metres; theirs is rounded to 0.1 mm, and begins at 1/8 (ASME B36.10M)."""
    outside = nearest_pipe(NPS=float(number_value(ours.size)))[2] * 1000
    assert abs(float(ours.major.mm) - outside) <= 0.16
