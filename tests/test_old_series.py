"""The series that are met with on old work or in one trade alone: figures, names, and what is told of them.

The rows of data/thread_old_printed.csv are figures carried over from the sources named in each. An
effective or minor diameter that a source prints must agree to half a unit of its last place; those of the
metric series from before ISO were worked out by the ISO formula, apart from the package.
"""

from __future__ import annotations

import csv
import math
from fractions import Fraction
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest
from over_all import over

from fractions_shop import Session, find_sizes, read, recover, substitute, thread, written
from fractions_shop.command.column import Column
from fractions_shop.errors import InputError, ShopError
from fractions_shop.threads import thury
from fractions_shop.threads.identify import identify
from fractions_shop.threads.lookup import matching
from fractions_shop.threads.series import all_threads, of_series, told_apart

PRINTED = Path(__file__).parent / "data" / "thread_old_printed.csv"
with PRINTED.open(newline="", encoding="utf-8") as file:
    ROWS = list(csv.DictReader(file))

#: Rows of each series; those of today have what the older ones share with them.
COUNTS = {
    "UNM": 14, "Loewenherz": 31, "Thury": 26, "old SI": 24, "old SI fine": 24, "old DIN": 13,
    "old DIN fine": 18, "old JIS": 9, "UNS": 8, "ASME 1907": 48, "camera": 2, "RMS": 1, "BSC old": 3,
}  # fmt: skip


@over(ROWS, lambda row: row["name"])
def test_every_row_has_the_figures_of_its_source(row: dict[str, str]) -> None:
    screw = thread(row["name"])
    inch = row["unit"] == "in"
    assert screw.series == row["series"]
    assert screw.standing == row["standing"]
    pitch = row["pitch"]
    own = screw.tpi if inch else screw.pitch.mm
    printed = Fraction(pitch.removesuffix(" tpi"))
    assert own == printed or abs(own - printed) <= half_a_place(pitch)
    for column in ("major", "effective", "minor"):
        if row[column]:
            part = f"{'' if row['minor_part'] == 'both' else row['minor_part']}_minor".lstrip("_")
            size = getattr(screw, part if column == "minor" else column)
            off = abs((size.inch if inch else size.mm) - Fraction(row[column]))
            assert off <= half_a_place(row[column]), column


def half_a_place(figure: str) -> Fraction:
    return Fraction(1, 2) / 10 ** len(figure.partition(".")[2])


def test_the_series_are_whole() -> None:
    assert {key: len(of_series(key)) for key in COUNTS} == COUNTS
    printed = {row["name"] for row in ROWS}
    # Of these few no figure but size and pitch was read: they are tried by name below.
    assert {one.name for key in COUNTS for one in of_series(key)} - printed == {
        "1-14 UNS", "1/4-20 camera", "3/8-16 camera", "RMS", "5/16-24 old BSC", "7/16-24 old BSC", "1/2-24 old BSC",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("0.40 UNM", "0.40 UNM"), (".4 unm", "0.40 UNM"), ("0.4 U.N.M.", "0.40 UNM"), ("0.40UNM", "0.40 UNM"),
        ("0.40 unified miniature", "0.40 UNM"), ("0.40 mm UNM", "0.40 UNM"),
        ("Loewenherz 4", "Loewenherz 4"), ("Löwenherz 4", "Loewenherz 4"), ("lo\u0308wenherz 4", "Loewenherz 4"),
        ("LOEWENHERZ 4 mm", "Loewenherz 4"), ("4 Loewenherz", "Loewenherz 4"), ("4 mm Loewenherz", "Loewenherz 4"),
        ("Loewenherz 4 x 0.7", "Loewenherz 4"), ("Loewenherz 4 × .7", "Loewenherz 4"),
        ("Thury 5", "Thury 5"), ("thury No 5", "Thury 5"), ("Thury No. 5", "Thury 5"), ("Thury #5", "Thury 5"),
        ("5 Thury", "Thury 5"), ("No 5 Thury", "Thury 5"), ("Thury5", "Thury 5"), ("Thury-5", "Thury 5"),
        ("M5 x 0.9", "M5 x 0.9 old JIS"), ("M5x0.9", "M5 x 0.9 old JIS"), ("M5×.9", "M5 x 0.9 old JIS"),
        ("M5-0.9", "M5 x 0.9 old JIS"), ("M5 x 0.9 old JIS", "M5 x 0.9 old JIS"),
        ("M1.7 x 0.35", "M1.7 x 0.35 old SI"), ("M1.7", "M1.7 x 0.35 old SI"), ("M1.7 x 0.2", "M1.7 x 0.2 old SI fine"),
        ("M4 x 0.35", "M4 x 0.35 old DIN fine"), ("M6 x 1 SI 1898", "M6 x 1 old SI"), ("M6 old SI", "M6 x 1 old SI"),
        ("No 4-36", "No 4-36 UNS"), ("#4-36", "No 4-36 UNS"), ("No. 4 x 36", "No 4-36 UNS"), ("4-36 NS", "No 4-36 UNS"),
        ("No 6-36", "No 6-36 UNS"), ("No 14-24", "No 14-24 UNS"), ("#14-24", "No 14-24 UNS"),
        ("No 4-36 ASME 1907", "No 4-36 ASME 1907"), ("No 9-32", "No 9-32 ASME 1907"),
        ("No 00-90", "No 00-90 UNS"), ("#000-120", "No 000-120 UNS"), ("No 0000-160", "No 0000-160 UNS"),
        ("1-14 UNS", "1-14 UNS"), ("RMS", "RMS"), ("RMS objective", "RMS"), ("0.8-36 RMS", "RMS"),
        ("1/4 camera", "1/4-20 camera"), ("3/8-16 tripod", "3/8-16 camera"), ("5/16-24 old BSC", "5/16-24 old BSC"),
    ],
)  # fmt: skip
def test_a_name_is_read_however_an_old_drawing_writes_it(text: str, name: str) -> None:
    """By `thread`, in a sum, alone as a line, and in a column."""
    screw = thread(name)
    assert thread(text) == screw
    assert read(f"{text} + 1 mm").mm == screw.major.mm + 1
    answer = Session().answer(text)
    assert answer is not None
    assert answer.text()
    cell = list(Column("s", unit="mm", delimiter=";").widen(["s\n", f"{text}\n"]))[1].split(";")
    assert abs(Fraction(cell[3]) - screw.major.mm) < Fraction(1, 10_000), cell


@pytest.mark.parametrize(
    "name",
    ["Loewenherz 4", "Thury 5", "M5 x 0.9", "No 4-36", "0.40 UNM", "1/4-20 camera", "RMS thread", "No 00-90"],
)
def test_it_is_found_in_running_text(name: str) -> None:
    found = [
        item.value.thread.name
        for item in find_sizes(f"Item 3: screw, {name}, brass")
        if item.kind == "thread" and item.value.thread
    ]
    assert found == [thread(name).name]
    assert written(name)


def test_roughness_in_running_text_is_no_microscope_thread() -> None:
    assert not [
        item for item in find_sizes("finish 63 RMS all over; RMS 125 elsewhere") if item.kind == "thread"
    ]


# What might be taken for another


def test_a_name_of_today_means_what_it_meant() -> None:
    """Where a series of today has the size, no older one is meant or named beside it."""
    for screw in told_apart():
        if screw.record.rare:
            continue
        for text in (screw.name, screw.name.removesuffix(f" {screw.series}")):
            assert not any(match.record.rare for match in matching(text)), text


@pytest.mark.parametrize(
    ("name", "note"),
    [
        ("M5 x 0.9", "M5 of today has a pitch of 0.8 mm: neither its nut nor its tap will do"),
        ("No 4-36", "of this size there is today No 4-40 UNC or No 4-48 UNF: neither nut nor tap of it will do"),
        ("M4 x 0.5 old SI", "it is the M4 x 0.5 of today"),
        ("Loewenherz 4", "the M4 of today has the same pitch, and another angle"),
        ("No 6-32 ASME 1907", "it is the No 6-32 UNC of today"),
        ("1/4 camera", "it is the 1/4-20 UNC of today"),
        ("Thury 5", "BA of the same number is this one with major and pitch rounded to two figures: a worn "
         "screw of the one can hardly be told from the other"),
    ],
)  # fmt: skip
def test_the_thread_of_today_is_told_beside_it(name: str, note: str) -> None:
    assert note in thread(name).notes


def test_a_number_of_noughts_is_not_nought() -> None:
    """No 00 is 0.047 in, 0.013 in under No 0 (a bench list, by the rule for American numbers)."""
    assert [thread(f"No {size}").major.inch for size in ("00-90", "000-120", "0-80")] == [
        Fraction("0.047"), Fraction("0.034"), Fraction("0.060"),
    ]  # fmt: skip
    with pytest.raises(ShopError):
        thread("00 BA")


@pytest.mark.parametrize("text", ["4 mm BSW", "1/4 mm x 20 UNC", "6 mm", "4 mm x 0.7 mm"])
def test_millimetres_make_no_inch_thread(text: str) -> None:
    with pytest.raises(InputError, match="millimetres"):
        thread(text)


def test_a_thread_s_name_is_no_name_for_a_size() -> None:
    with pytest.raises(InputError, match="RMS is read as a thread, so it cannot be a name") as caught:
        Session().answer("RMS = 2 in")
    assert "write rms or another word" in str(caught.value)


def test_an_odd_pitch_is_refused_with_the_way_to_give_it() -> None:
    with pytest.raises(ShopError) as caught:
        thread("1/4-24")
    *_, forms = str(caught.value).split("like this: ")
    for form in forms.split(", or "):
        assert thread(form).pitch == thread("1/4-20 UNC").pitch * 20 / 24


# Forms and standing


def test_loewenherz_triangle_is_as_high_as_the_pitch() -> None:
    """53 degrees 8 minutes is the angle whose half has a tangent of 1/2 (Euclid), to half a minute."""
    degrees = thread("Loewenherz 4").angle.degrees
    assert abs(float(degrees) - math.degrees(2 * math.atan(0.5))) < 0.5 / 60
    assert degrees == 53 + Fraction(8, 60)


def test_thury_is_british_association_before_it_is_rounded() -> None:
    """BS 93 gives 6 p^1.2 to two figures, p not rounded (Machinery's Handbook 31st ed. p.2115)."""
    for number in range(17):
        association = thread(f"{number} BA")
        major, pitch = thury.major(number), thury.pitch(number)
        assert abs(association.pitch.mm - pitch) <= Fraction(5, 1000)
        assert abs(association.major.mm - major) <= Fraction(5, 100)
        assert thread(f"Thury {number}").major.approximate


def test_what_a_form_has_from_memory_is_told_wherever_it_goes() -> None:
    screw = thread("Thury 5")
    assert (screw.major.standing, screw.effective.standing, screw.minor.standing) == (
        "rule",
        "from memory",
        "from memory",
    )
    metric = thread("M5 x 0.9")
    assert metric.effective.standing == "one source"
    assert (metric.nut_minor.standing, metric.screw_minor.standing) == ("one source", "from memory")
    assert metric.screw_depth.standing == "from memory"
    for line in ("minor(Thury 5)", "screw_minor(M5 x 0.9)"):
        answer = Session().answer(line)
        assert answer is not None
        assert "from memory" in answer.text()


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("screw No 4-36 brass", "rests on No 4-36, one source"),
        ("8 zinc brass", "rests on 8 zinc, one source"),
    ],
)
def test_what_is_read_among_words_is_told_by_its_own_name(line: str, said: str) -> None:
    answer = Session().answer(line)
    assert answer is not None
    assert said in answer.text()


# Elsewhere


def test_what_another_stands_for_is_offered_by_no_reading() -> None:
    left_out = {one.name for one in all_threads()} - {one.name for one in told_apart()}
    assert {"M6 x 1 old SI", "No 6-32 ASME 1907", "1/4-20 camera"} <= left_out
    assert not left_out & {one.thread.name for one in identify("5.95 mm", "1 mm", count=500)}


def test_what_is_met_with_seldom_steps_back() -> None:
    found = identify("3.18 mm", "0.59 mm")
    assert found[0].thread.name == "5 BA"
    (other,) = [each for each in found if each.thread.name == "Thury 5"]
    assert (other.likely, other.seldom) == (False, True)
    assert identify("4.95 mm", "0.9 mm").best == ("M5 x 0.9 old JIS",)
    assert identify("4.95 mm", "0.9 mm").certain
    answer = Session().answer("identify 3.18 mm, 0.59 mm")
    assert answer is not None
    assert "seldom met" in answer.text()


def test_a_rare_size_is_recovered_where_the_reading_says_so() -> None:
    found = [each.name for each in recover("1.68 mm", within="0.005 mm", among="threads").candidates]
    assert found[0] == "10 BA"
    assert "Thury 10" in found


def test_it_is_stood_in_for_by_what_is_made_today() -> None:
    for name in ("M5 x 0.9", "No 4-36", "Loewenherz 4", "Thury 5", "RMS"):
        found = substitute(name)
        assert not any(each.thread.record.rare for each in found), name
    assert {each.thread.series for each in substitute("6 BA", "Thury")} == {"Thury"}


def test_the_simulation_of_worn_screws_keeps_its_figures() -> None:
    """100 screws of the series of today, read 3 % out at most: the right size is first nineteen times in twenty."""
    place = Path(__file__).parent / "bench" / "bench_identify.py"
    spec = spec_from_file_location("bench_identify", place)
    assert spec is not None
    assert spec.loader is not None
    bench = module_from_spec(spec)
    spec.loader.exec_module(bench)
    today = [one for one in all_threads() if not one.record.rare and one.standing != "beyond the standard"]
    first, third, *_ = bench.shares(today, "up to 3 % out", 100)
    assert first >= 0.95
    assert third >= 0.99


def test_the_manual_counts_the_sizes_of_each_old_series_and_its_names_are_read() -> None:
    manual = (Path(__file__).parent.parent / "README.md").read_text("utf-8")
    rows = [line.strip("| \n").split(" | ") for line in manual.splitlines() if line.startswith("| ")]
    told = {row[0]: row for row in rows if row[0] in COUNTS and len(row) == 5}
    assert {key: int(row[2]) for key, row in told.items()} == COUNTS
    for key, row in told.items():
        for name in row[1].split(", "):
            assert thread(name.strip("`")).series == key, name


def test_the_loewenherz_triangle_is_as_high_as_its_pitch():
    """Handbook: 53 degrees 8 minutes, sharp height one pitch, so that half the angle has a tangent of one half."""
    angle = thread("Loewenherz 4").angle.degrees
    assert angle == 53 + Fraction(8, 60)
    assert abs(angle - 2 * Fraction(math.degrees(math.atan(0.5)))) < Fraction(1, 60)
