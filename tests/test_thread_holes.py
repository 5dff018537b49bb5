"""Tapping drills and clearance holes against printed tables and worked figures."""

from __future__ import annotations

import csv
from fractions import Fraction
from itertools import pairwise, product
from pathlib import Path

import pytest
from over_all import over

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worse
from fractions_shop.size.units import INCH
from fractions_shop.tables import rows
from fractions_shop.tables.drills import all_drills, find_drill
from fractions_shop.threads.holes import SYSTEMS, drill_of
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.series import all_threads
from fractions_shop.threads.thread import Thread


def printed(name: str) -> list[dict[str, str]]:
    with (Path(__file__).parent / "data" / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


TAP_DRILLS = printed("thread_tap_drills")


def drill_size(text: str) -> Quantity:
    number, unit = text.rsplit(" ", 1)
    return Quantity.of(number_value(number), unit)


# Percent of thread


@pytest.mark.parametrize(
    ("name", "hole", "percent"),
    [
        ("No 0-80", "1.30 mm", 54),
        ("No 0-80", "1.20 mm", 79),
        ("No 1-64", "1.55 mm", 59),
        ("No 1-64", "0.0595 in", 66),
        ("No 1-64", "1.50 mm", 69),
        ("1/4-20 UNC", "0.201 in", 75),
    ],
)
def test_percent_of_full_thread(name: str, hole: str, percent: int) -> None:
    """Machinery's Handbook 31st ed. p.2155, which counts on 3H/4; whole percents, some of them cut."""
    assert abs(thread(name).engagement(hole, "3H/4") - percent) < 1


def test_the_same_hole_on_the_other_basis() -> None:
    """1/4-20 with No 7: 75 % on 3H/4 is 91 % on the basic depth (the ratio is 1.2)."""
    quarter = thread("1/4-20 UNC")
    trade, basic = quarter.engagement("0.201 in", "3H/4"), quarter.engagement("0.201 in", "basic")
    assert round(trade) == 75
    assert round(basic) in (90, 91)
    assert abs(basic / trade - Fraction(6, 5)) < Fraction(1, 100_000)


@over([r for r in TAP_DRILLS if "BS 1157" in r["source"]])
def test_bs_1157_drills_give_what_is_claimed_for_them(row: dict[str, str]) -> None:
    """A web copy of BS 84 says 77 to 87 % for BSW with BS 1157 drills; BSF came out 75 to 90 %."""
    percent = thread(row["name"]).engagement(drill_size(row["drill"]))
    low, high = (77, 87) if row["name"].endswith("BSW") else (75, 90)
    assert low <= round(percent) <= high


# Choosing a drill


@over([r for r in TAP_DRILLS if "75 %" in r["source"]])
def test_no_chart_drill_comes_nearer_to_75_per_cent(row: dict[str, str]) -> None:
    """The 75 % column of a drill and tap chart (two web copies), on the 3H/4 basis.

    It prints drills to 0.0001 in, up to 1/4 of a percent; its 33/64 for 9/16-24 UNEF lies
    below the minor diameter and is not followed.
    """
    one = thread(row["name"])
    chart = one.engagement(drill_size(row["drill"]), "3H/4")
    chosen = one.tapping()
    assert chosen.asked == 75
    assert chosen.basis is not None
    assert chosen.basis.name == "3H/4"
    assert chosen.engagement is not None
    if row["name"] == "9/16-24 UNEF":
        assert drill_size(row["drill"]) < one.minor <= chosen.size
    else:
        assert abs(chosen.engagement - 75) <= abs(chart - 75) + Fraction(1, 4)


@over([r for r in TAP_DRILLS if "Data Handbook" in r["source"]])
def test_metric_drills_are_the_handbook_ones(row: dict[str, str]) -> None:
    """Mechanical Engineer's Data Handbook p.299; 75 % of thread gives the same but for M12 (10.3 mm)
    and what is above 25 mm, where no drill is listed and the bore is computed.
    """
    one, handbook = thread(row["name"]), drill_size(row["drill"])
    assert (one.tapping().size, one.tapping().asked, one.tapping().rule) == (handbook, None, "as printed")
    computed = one.tapping(75)
    off = abs(computed.size - handbook).mm
    if computed.drill is None:
        assert off <= Fraction(1, 5)
    else:
        assert off == (Fraction(1, 10) if row["name"] == "M12" else 0)


@over([r for r in TAP_DRILLS if "BS 1157" in r["source"]])
def test_whitworth_drills_are_those_of_bs_1157(row: dict[str, str]) -> None:
    """The same copies as above; the drill named by default is theirs and not that of 75 %."""
    assert thread(row["name"]).tapping().size == drill_size(row["drill"])


LISTED = rows("thread_tap_drills")


@over(LISTED)
def test_a_printed_drill_is_given_as_printed_and_a_computed_one_when_asked(row: dict[str, str]) -> None:
    """Every row is of a thread that there is; a list that is not followed is told beside."""
    one, drill = thread(row["name"]), drill_size(row["drill"])
    found = one.tapping()
    if row["use"] == "beside":
        assert found.asked == 75
        assert found.beside == f"a bench list has {row['drill']}"
    else:
        assert (found.size, found.rule, found.source) == (drill, "as printed", row["source"])
        assert found.size.standing in (row["standing"], "rule")  # the thread may be trusted less
        assert found.drill is not None or drill.mm > 25
        assert found.note == ""
    computed = one.tapping(75)
    assert (computed.asked, computed.source) == (75, "")
    # Between the minor diameter and the least thread that the lists of these trades leave.
    assert one.minor <= drill
    assert one.engagement(drill) >= (57 if row["name"].endswith("BSB") else 65)


#: ISO 228-1, greatest internal minor diameter, from memory.
GREATEST_MINOR = {
    "G 1/8": "8.848", "G 1/4": "11.890", "G 3/8": "15.395", "G 1/2": "19.172", "G 3/4": "24.658",
    "G 1": "30.931",
}  # fmt: skip


@pytest.mark.parametrize(("name", "most"), GREATEST_MINOR.items())
def test_a_parallel_pipe_drill_is_within_the_minor_diameters_of_iso_228(name: str, most: str) -> None:
    one = thread(name)
    assert one.minor <= one.tapping().size <= Quantity(Fraction(most))
    # 75 % of thread would be too large, and says so with the limit itself.
    assert f"ISO 228-1, {most.rstrip('0')} mm" in one.tapping(75).note
    assert "it is larger than the greatest" in one.thread_left(one.tapping(75).size)


@over([t for t in all_threads() if t.series == "G"], lambda t: t.name)
def test_every_parallel_pipe_drill_lies_within_the_tolerance(one: Thread) -> None:
    """ISO 228-1, from memory: 0.282, 0.445, 0.541 and 0.640 mm for 28, 19, 14 and 11 threads to the inch."""
    room = {28: "0.282", 19: "0.445", 14: "0.541", 11: "0.640"}[int(one.tpi)]
    assert one.minor <= one.tapping().size <= one.minor + Quantity(Fraction(room))


@pytest.mark.parametrize(
    ("name", "drill"),
    [("M8 x 0.75", "7.25"), ("M5 x 0.75", "4.25"), ("M16", "14"), ("M30", "26.5"), ("M33 x 2", "31")],
)
def test_a_metric_thread_of_no_list_takes_major_less_pitch(name: str, drill: str) -> None:
    """M33 x 2 from an open CAD data file; the others by the rule, whether or not a drill is of just that size."""
    found = thread(name).tapping()
    assert found.size.mm == Fraction(drill)
    assert found.rule == "the major less the pitch, the rule of ISO 2306"


@pytest.mark.parametrize(
    ("name", "hole", "said"),
    [
        ("6 BA", "2.3 mm", "the 2.3 mm drill leaves 79 % of the full depth of thread"),
        # (6 - 5.03) of 1.299038 and of 1.082532 mm.
        (
            "M6", "5.03 mm",
            "a hole of 5.03 mm leaves 75 % of thread as drill charts count it (90 % of the basic depth)",
        ),
        ("1/4-20", "0.201 in",
         "the No 7 drill leaves 75 % of thread as drill charts count it (91 % of the basic depth)"),
    ],
)  # fmt: skip
def test_what_a_hole_leaves_is_told_in_bench_words(name: str, hole: str, said: str) -> None:
    assert thread(name).thread_left(hole) == said


@over([r for r in TAP_DRILLS if r["name"].endswith("BA")])
def test_ba_drills_are_the_printed_ones(row: dict[str, str]) -> None:
    """Model engineers' tables page, 75 % in steel."""
    assert thread(row["name"]).tapping().size == drill_size(row["drill"])


@pytest.mark.parametrize(
    ("name", "drill"),
    [
        ("6 BA", "2.3 mm"),
        ("1/4-20 UNC", "No 7"),
        ("No 6-32 UNC", "No 36"),
        ("No 10-24 UNC", "No 25"),
        ("5/16-18 UNC", "letter F"),
        ("3/8-16 UNC", "5/16 in"),
        ("M3", "2.5 mm"),
        ("M6", "5 mm"),
    ],
)
def test_customary_drill(name: str, drill: str) -> None:
    """Drill and tap chart (two web copies); Mechanical Engineer's Data Handbook; trade page for 6 BA."""
    chosen = thread(name).tapping().drill
    assert chosen is not None
    assert chosen.name == drill


@over(
    product([t for t in all_threads() if not t.taper][::7], (55, 75, 95)),
    lambda case: f"{case[0].name} at {case[1]} %",
)
def test_no_drill_of_the_system_lies_nearer(one: object, percent: int) -> None:
    """Against a search of every drill; one below the minor diameter is never chosen."""
    chosen = one.tapping(percent)  # type: ignore[attr-defined]
    allowed = [
        d for d in all_drills()
        if d.series in SYSTEMS[one.system] and d.size >= one.minor  # type: ignore[attr-defined]
    ]  # fmt: skip
    if chosen.drill is None:
        assert chosen.size == chosen.ideal
        assert (
            not allowed
            or all(d.size < chosen.ideal for d in allowed)
            or all(d.size > chosen.ideal for d in allowed)
        )
    else:
        assert abs(chosen.size - chosen.ideal) == min(abs(d.size - chosen.ideal) for d in allowed)
        assert chosen.engagement == one.engagement(chosen.size, chosen.basis.name)  # type: ignore[attr-defined]
        assert chosen.size >= one.minor  # type: ignore[attr-defined]


def test_of_two_drills_equally_near_the_larger_is_taken() -> None:
    # 6 - 5.05 mm is 95/1.082532 % of the basic depth; 5 and 5.1 mm lie 0.05 mm on either side.
    chosen = thread("M6").tapping(Fraction(95) / Fraction("1.082532"), "basic")
    assert chosen.ideal.mm == Fraction("5.05")
    assert chosen.size.mm == Fraction("5.1")


def test_a_hole_of_the_minor_diameter_itself_will_do() -> None:
    # 0 BA: 6 - 2 x 0.6 = 4.8 mm, and there is a 4.8 mm drill: the whole thread.
    chosen = thread("0 BA").tapping(100)
    assert chosen.drill is not None
    assert (chosen.drill.name, chosen.engagement, chosen.note) == ("4.8 mm", 100, "")


@pytest.mark.parametrize("percent", [1, 100, Quantity.number(1), Quantity.number(100)])
def test_a_percentage_may_be_from_1_to_100_and_a_plain_quantity(percent: int | Quantity) -> None:
    asked = thread("M6").tapping(percent).asked
    assert asked == (percent.value if isinstance(percent, Quantity) else percent)


@pytest.mark.parametrize("power", [-1, 1, 2])
def test_a_percentage_is_no_length(power: int) -> None:
    with pytest.raises(ShopError, match="a percentage of thread from 1 to 100, such as 75"):
        thread("M6").tapping(Quantity(Fraction(75), power))


@pytest.mark.parametrize(
    ("name", "percent", "note"),
    [
        ("M6", 75, ""),
        # 100 % of 3H/4 is below the basic minor diameter, which stops at 5H/8.
        (
            "1/4-20 UNC", 100,
            "so much thread would want a hole below the minor diameter, where a tap jams: "
            "the next drill up is given",
        ),
        ("M64", 75, "no drill of this size is listed here: bore the hole"),
    ],
)  # fmt: skip
def test_what_is_unusual_about_a_tapping_drill_is_noted(name: str, percent: int, note: str) -> None:
    assert thread(name).tapping(percent).note == note


def test_drills_are_looked_for_in_the_system_asked_for() -> None:
    # 0.201 in is No 7; 5.1 mm and 13/64 in are the nearest of the other kinds (1/4-20 at 75 % of 3H/4:
    # 6.35 - 0.75 x 1.299038 x 1.27 = 5.113 mm).
    chosen = thread("1/4-20 UNC").tapping(drills="metric").drill
    assert chosen is not None
    assert chosen.name == "5.1 mm"
    with pytest.raises(ShopError, match="'wood' is not a set of drills: metric, inch, any"):
        thread("M6").tapping(drills="wood")


def test_tapping_says_its_basis_and_the_others() -> None:
    found = thread("M6").tapping(75, "basic")
    assert found.basis is not None
    assert found.basis.name == "basic"
    assert found.ideal.mm == 6 - Fraction("1.082532") * Fraction(3, 4)
    assert {basis.name for basis, _ in found.on_each} == {"3H/4", "basic"}
    assert {choice.drill.series for choice in found.others} == {
        "number",
        "letter",
        "fractional",
        "metric",
    } - {"letter"}


def test_forming_needs_a_larger_hole_than_cutting() -> None:
    """Forming basis 0.68p (D - 0.0068 %/n), read with its formula."""
    assert (
        thread("1/4-20 UNC").tapping(75, "forming").ideal.inch
        == Fraction(1, 4) - Fraction("0.68") * 75 / 2000
    )


def test_taper_pipe_has_the_printed_drill_and_no_percentage() -> None:
    """ASME B1.20.1 chart: 1/8 NPT letter R, 1/4 NPT 7/16; ISO 7-1 list: R 1/4 11.5 mm."""
    eighth = thread("1/8 NPT").tapping()
    assert eighth.drill is not None
    assert (eighth.drill.name, eighth.engagement) == ("letter R", None)
    assert thread("1/4 NPT").tapping().size.inch == Fraction(7, 16)
    assert thread("R 1/4").tapping().size.mm == Fraction("11.5")
    with pytest.raises(NoAnswer, match="no tapping drill was read"):
        thread("6 NPT").tapping()
    with pytest.raises(NoAnswer, match="no single engagement"):
        thread("1/8 NPT").tapping(75)


@pytest.mark.parametrize("percent", [0, Fraction(3, 4), 101])
def test_an_impossible_engagement_is_refused(percent: int) -> None:
    with pytest.raises(ShopError, match="a percentage of thread from 1 to 100"):
        thread("6 BA").tapping(percent)


def test_a_float_engagement_is_refused() -> None:
    with pytest.raises(ShopError, match="float"):
        thread("6 BA").tapping(0.75)  # type: ignore[arg-type]


def test_an_unknown_basis_names_those_there_are() -> None:
    with pytest.raises(ShopError, match=r"full \(the whole depth"):
        thread("6 BA").tapping(75, "3H/4")


# Clearance


@pytest.mark.parametrize(
    ("name", "close", "medium", "free"),
    [
        ("M3", "3.2", "3.4", "3.6"),
        ("M6", "6.4", "6.6", "7"),
        ("M12", "13", "13.5", "14.5"),
        ("M14", "15", "15.5", "16.5"),
        ("M16", "17", "17.5", "18.5"),
        ("M64", "66", "70", "74"),
        ("M8 x 1", "8.4", "9", "10"),
    ],
)
def test_iso_273(name: str, close: str, medium: str, free: str) -> None:
    """ISO 273; one open CAD data file prints 14/16/18 for medium M12, M14, M16 and is not followed."""
    one = thread(name)
    assert [one.clearance(fit).size.mm for fit in ("close", "medium", "free")] == [
        Fraction(close), Fraction(medium), Fraction(free),
    ]  # fmt: skip
    assert one.clearance().rule == "ISO 273"


def test_unified_clearance_is_the_drill_named() -> None:
    """ASME B18.2.8 as an open CAD data file gives it, drills by name (No 6: 23, 18, 13)."""
    six = thread("No 6-32")
    assert [six.clearance(fit).size for fit in ("close", "medium", "free")] == [
        find_drill(f"No {n} drill").size for n in (23, 18, 13)
    ]


@pytest.mark.parametrize(
    ("name", "close", "medium", "free"),
    [
        # Bench charts give about 3.7 and 2.9 mm (from memory); the room is 0.1 mm at least.
        ("4 BA", "3.65", "3.7", "3.8"),
        ("6 BA", "2.85", "2.9", "3"),
        # 5.3 / 40 = 0.1325 mm.
        ("1 BA", "5.36625", "5.4325", "5.565"),
        # 5/16 in / 40 = 0.1984375 mm.
        ("5/16 BSW", "8.03671875", "8.1359375", "8.334375"),
        # 3/4 in / 40 would be 0.476 mm: 1/64 in is the most.
        ("3/4 BSW", "19.2484375", "19.446875", "19.84375"),
    ],
)
def test_a_british_screw_is_cleared_by_a_fortieth(name: str, close: str, medium: str, free: str) -> None:
    found = [thread(name).clearance(fit) for fit in ("close", "medium", "free")]
    assert [hole.size.mm for hole in found] == [Fraction(close), Fraction(medium), Fraction(free)]
    assert all("our own rule" in hole.rule for hole in found)


BENCH = rows("thread_clearance_bench")


@over(BENCH, lambda r: f"{r['name']}-{r['use']}")
def test_printed_clearance_is_the_medium_hole_and_near_our_rule(row: dict[str, str]) -> None:
    """Bench lists of small threads and of old engines (rows name which)."""
    one, printed = thread(row["name"]), drill_size(row["hole"])
    found = one.clearance()
    if row["use"] == "default":
        assert (found.size, found.rule, found.source) == (printed, "as printed", row["source"])
        assert found.size.standing == worse(row["standing"], one.standing)
        room = printed - one.major
        assert one.clearance("close").size == one.major + room / 2
        assert one.clearance("free").size == one.major + room * 2
    else:
        assert row["hole"] in found.beside
    rule = max(Fraction(1, 10), min(INCH / 64, one.major.mm / 40))
    assert one.major < printed
    assert abs(printed.mm - one.major.mm - rule) <= Fraction(1, 4)


def test_clearance_elsewhere_states_its_rule() -> None:
    """G 1/8 is 9.728 mm; the next metric size up is M10, whose medium hole is 1 mm over."""
    hole = thread("G 1/8").clearance()
    assert hole.size.mm == Fraction("10.728")
    assert "next metric size up" in hole.rule


@over([t for t in all_threads() if t.major.mm <= 64][::5], lambda t: t.name)
def test_clearance_clears_and_fits_widen(one: object) -> None:
    holes = [one.clearance(fit) for fit in ("close", "medium", "free")]  # type: ignore[attr-defined]
    assert one.major < holes[0].size < holes[1].size < holes[2].size  # type: ignore[attr-defined]
    for hole in holes:
        if hole.drill is not None:
            assert hole.drill.size >= hole.size
            assert not any(hole.size <= d.size < hole.drill.size for d in all_drills())


@pytest.mark.parametrize(("name", "mm"), [("M9", "10"), ("M11", "12.5"), ("M11 x 1", "12.5")])
def test_a_metric_size_that_iso_273_lacks_takes_the_allowance_of_the_next(name: str, mm: str) -> None:
    # ISO 273 medium: M10 is cleared by 11 mm and M12 by 13.5 mm, 1 and 1.5 mm more than their size.
    hole = thread(name).clearance()
    assert hole.size.mm == Fraction(mm)
    assert "our own rule" in hole.rule


def test_the_drill_is_the_next_up_and_of_equal_ones_the_metric() -> None:
    # M4.5 and M12 (ISO 273 medium): 5 mm, and 13.5 mm; 5/32-32 BSC (3.96875 + 0.1 mm) takes
    # No 20, 4.0894 mm, before 4.1 mm.
    assert [thread(n).clearance().drill.name for n in ("M4.5", "M12", "5/32-32 BSC")] == [
        "5 mm", "13.5 mm", "No 20",
    ]  # fmt: skip
    # 1/2 in and 12.7 mm are one size.
    assert drill_of(Quantity.inches(Fraction(1, 2)), "metric").name == "12.7 mm"
    assert drill_of(Quantity.inches(Fraction(1, 2)), "inch").name == "1/2 in"
    assert thread("M64").clearance().drill is None


@pytest.mark.parametrize(
    ("word", "fit"),
    [("fine", "close"), ("Normal", "medium"), ("coarse", "free"), ("loose", "free"), ("CLOSE", "close")],
)
def test_other_words_for_a_fit(word: str, fit: str) -> None:
    assert thread("M6").clearance(word) == thread("M6").clearance(fit)
    assert thread("M6").clearance(word).fit == fit


def test_clearance_refuses_what_it_does_not_know() -> None:
    # G 3 is 87.884 mm (ISO 228-1).
    with pytest.raises(NoAnswer, match=r"up to 64 mm, not for 87\.884 mm"):
        thread("G 3").clearance()
    with pytest.raises(ShopError, match="write close, medium or free"):
        thread("M3").clearance("snug")


def test_clearance_tables_rise() -> None:
    for name, unit in (("thread_clearance_mm", "mm"), ("thread_clearance_in", "in")):
        found = [[number_value(r[f"{f}_{unit}"]) for f in ("close", "medium", "free")] for r in rows(name)]
        assert all(a[i] < b[i] for a, b in pairwise(found) for i in range(3))
        assert all(row[0] < row[1] < row[2] for row in found)


@pytest.mark.parametrize("table", ["thread_tap_drills", "thread_clearance_bench"])
def test_a_row_is_printed_only_if_two_sources_agree(table: str) -> None:
    keys = [(row["name"], row["use"]) for row in rows(table)]
    assert len(keys) == len(set(keys))
    for row in rows(table):
        assert row["use"] in ("default", "beside")
        assert row["standing"] == ("printed" if "; " in row["source"] else "one source")


@pytest.mark.parametrize(
    ("name", "drills", "smaller", "larger"),
    [
        ("M6", "any", "No 9", "5 mm"),
        ("M6", "metric", "5 mm", "5.1 mm"),
        ("1/4 BSW", "inch", "No 7", "13/64 in"),
        ("1/4-20 UNC", "any", "No 8", "5.1 mm"),
    ],
)
def test_of_two_drills_as_near_the_larger_is_taken_for_it_spares_the_tap(
    name: str, drills: str, smaller: str, larger: str
) -> None:
    tapped = thread(name)
    sizes = [find_drill(each).size.mm for each in (smaller, larger)]
    basis = tapped.tapping().basis
    assert basis is not None
    between = (tapped.major.mm - sum(sizes) / 2) / (basis.factor * tapped.pitch.mm) * 100
    drill = tapped.tapping(between, drills=drills).drill
    assert drill is not None
    assert drill.name == larger
