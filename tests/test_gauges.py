"""Gauges: each series against a formula, a printed table or fluids, and names as written."""

from __future__ import annotations

import csv
from decimal import Decimal, localcontext
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from fluids.piping import wire_schedules
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Session
from fractions_shop.errors import ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import rows
from fractions_shop.tables.awg import awg_inches
from fractions_shop.tables.gauge_records import SERIES
from fractions_shop.tables.gauges import (
    all_gauges,
    find_gauge,
    gauges,
    other_country,
    series_gauges,
)

DATA = Path(__file__).parent / "data"


def awg_printed() -> list[dict[str, str]]:
    with (DATA / "awg_printed.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


# The series


@pytest.mark.parametrize(
    ("series", "count", "thickest", "thinnest"),
    [
        pytest.param("SWG", 57, "7/0 SWG", "50 SWG", id="SWG"),
        pytest.param("AWG", 48, "4/0 AWG", "44 AWG", id="AWG"),
        pytest.param("BWG", 41, "5/0 BWG", "36 BWG", id="BWG"),
        pytest.param("MSG", 36, "3 MSG", "38 MSG", id="MSG"),
        pytest.param("US 1893", 45, "7/0 US 1893", "38 US 1893", id="US-1893"),
        pytest.param("galvanised", 25, "8 galvanised", "32 galvanised", id="galvanised"),
        pytest.param("Stubs steel", 80, "1 Stubs steel", "80 Stubs steel", id="Stubs-steel"),
        pytest.param("zinc", 28, "28 zinc", "1 zinc", id="zinc"),
        pytest.param("US steel wire", 57, "7/0 US steel wire", "50 US steel wire", id="US-steel-wire"),
        pytest.param("spring wire", 51, "45 spring wire", "6/0 spring wire", id="spring-wire"),
        pytest.param("US wood screw", 25, "US No 24 wood screw", "US No 0 wood screw", id="US-wood-screw"),
        pytest.param(
            "British wood screw",
            33,
            "British No 32 wood screw",
            "British No 0 wood screw",
            id="British-wood-screw",
        ),
    ],
)
def test_a_series_is_complete_and_rises(series, count, thickest, thinnest):
    found = series_gauges(series)
    sizes = [gauge.size.mm for gauge in found]
    assert len(found) == count
    assert (found[-1].name, found[0].name) == (thickest, thinnest)
    assert all(one < two for one, two in pairwise(sizes))


def test_every_series_is_there_once():
    assert tuple(dict.fromkeys(gauge.series for gauge in all_gauges())) == tuple(SERIES)


def test_every_gauge_names_its_source_and_a_known_standing():
    assert all(gauge.source for gauge in all_gauges())
    assert {gauge.standing for gauge in all_gauges()} == {"printed", "rule", "one source"}


def test_the_zinc_gauge_says_that_it_has_one_source():
    assert {gauge.standing for gauge in series_gauges("zinc")} == {"one source"}


def test_swg_says_that_it_is_the_british_one():
    assert find_gauge("18 SWG").meaning.startswith("British")


# Against fluids 1.3.1, which carries the wire tables of Machinery's Handbook, 29th ed.

#: Ours less theirs, in inches. SWG 28: the Board of Trade list of 1883 prints 0.0148, and so do the
#: University of North Carolina dictionary and an open unit-definition data file.
SWG_EXCEPTIONS = {28: Fraction("-0.0001")}


def fluids_table(schedule: str) -> dict[int, Fraction]:
    """Their table by number; they write n/0 as 1/n (0.33 for 3/0), and 0 for 1/0."""
    numbers, sizes = wire_schedules[schedule][:2]
    by = [int(n) if n >= 1 or n == 0 else 1 - round(1 / n) for n in numbers]
    return dict(zip(by, (Fraction(str(size)) for size in sizes), strict=True))


def ours(series: str) -> dict[int, Fraction]:
    found = {}
    for gauge in series_gauges(series):
        head, slash, _ = gauge.number.partition("/")
        found[1 - int(head) if slash else int(head)] = gauge.size.inch
    return found


# Of Stubs steel only 1 to 13, 28 to 40 and 55 to 67 were read elsewhere (Hawkins Electrical Guide,
# vol. 4, 1914); the rest come from this same handbook, so that here only the copying is checked.
@pytest.mark.parametrize(
    ("series", "schedule", "exceptions"),
    [
        pytest.param("SWG", "BSWG", SWG_EXCEPTIONS, id="SWG"),
        pytest.param("BWG", "BWG", {}, id="BWG"),
        pytest.param("Stubs steel", "SSWG", {}, id="Stubs-steel"),
    ],
)
def test_a_printed_series_agrees_with_fluids(series, schedule, exceptions):
    theirs, mine = fluids_table(schedule), ours(series)
    assert mine.keys() == theirs.keys()
    assert {n: mine[n] - theirs[n] for n in mine if mine[n] != theirs[n]} == exceptions


# These two were carried over from it, so that only the copying is checked: both are of one source.
@pytest.mark.parametrize(
    ("series", "schedule"),
    [
        pytest.param("US steel wire", "SWG", id="US-steel-wire"),
        pytest.param("spring wire", "MWG", id="spring-wire"),
    ],
)
def test_a_series_carried_over_from_fluids_is_copied_whole(series, schedule):
    assert ours(series) == fluids_table(schedule)
    assert {gauge.standing for gauge in series_gauges(series)} == {"one source"}


def test_the_us_steel_wire_gauge_crosses_the_british_one():
    assert find_gauge("8 US steel wire").size.inch == Fraction("0.162")
    assert find_gauge("8 SWG").size.inch == Fraction("0.160")
    differences = {n: ours("US steel wire")[n] - ours("SWG")[n] for n in range(51)}
    assert {difference > 0 for difference in differences.values() if difference} == {True, False}


def test_the_spring_wire_gauge_grows_with_its_number():
    sizes = ours("spring wire")
    assert sorted(sizes, key=sizes.__getitem__) == sorted(sizes)


# AWG: the handbook prints some thin sizes to five places, where ASTM B258 stops at 0.0001 in.
AWG_FINER_IN_PRINT = {31, 32, 33, 35, 37, 38, 39, 40, 42, 43, 44}


def test_awg_agrees_with_fluids_to_the_places_that_b258_allows():
    theirs, mine = fluids_table("AWG"), ours("AWG")
    shared = mine.keys() & theirs.keys()
    assert shared == set(range(-3, 45))
    assert {n for n in shared if mine[n] != theirs[n]} == AWG_FINER_IN_PRINT
    assert all(abs(mine[n] - theirs[n]) <= Fraction(1, 20_000) for n in shared)


#: The North Carolina dictionary cuts the figures off where B258 rounds them.
AWG_CUT = {7, 8, 10, 13, 14, 15, 17, 19, 20, 21, 23, 27, 29, 32, 33, 37, 38}


def test_awg_agrees_with_a_second_printed_table_but_where_it_cuts_figures_off():
    cut = set()
    for row in awg_printed():
        difference = find_gauge(f"{row['gauge']} AWG").size.inch - Fraction(row["second_in"])
        if difference:
            cut.add(int(row["gauge"]))
            assert difference == Fraction(1, 10_000)
    assert cut == AWG_CUT
    assert len(awg_printed()) == 44


def test_awg_is_the_formula_rounded():
    # ASTM B258: 0.005 in x 92^((36 - n)/39), here by decimal logarithms instead of whole powers.
    with localcontext(prec=40):
        for n in range(-3, 45):
            exact = Decimal("0.005") * Decimal(92) ** (Decimal(36 - n) / 39)
            assert abs(Fraction(exact) - awg_inches(n)) < Fraction(1, 20_000)


# Sheet


@pytest.mark.parametrize("row", rows("gauge_msg"), ids=lambda row: row["gauge"])
def test_manufacturers_gauge_is_its_published_size(row):
    # Two published sheet gauge charts; weight over 16 oz and 41.82 lb per square foot and inch.
    assert find_gauge(f"{row['gauge']} MSG").size.inch == Fraction(row["printed_in"])


def test_the_1893_gauge_rounds_to_its_published_size():
    # A published sheet gauge chart, 7/0 to 22, to four places; half a figure goes up there.
    checked = [row for row in rows("gauge_us_1893") if row["printed_in"]]
    assert [row["gauge"] for row in checked][0::28] == ["7/0", "22"]
    for row in checked:
        size = find_gauge(f"{row['gauge']} US 1893").size.inch
        assert Fraction(int(size * 10_000 + Fraction(1, 2)), 10_000) == Fraction(row["printed_in"])


def test_the_two_us_sheet_gauges_are_not_the_same():
    assert find_gauge("16 US 1893").size.inch == Fraction(1, 16)
    assert find_gauge("16 MSG").size.inch == Fraction("0.0598")


#: No. 32 is printed 0.0134 where the pattern of all other rows gives 0.0135.
def test_galvanised_sheet_is_the_bare_sheet_and_two_and_a_half_ounces_of_zinc():
    # A pattern found by computation over two published charts, not a published rule.
    weights = {row["gauge"]: Fraction(row["weight_oz_per_ft2"]) for row in rows("gauge_msg")}
    differ = {}
    for row in rows("gauge_galvanised"):
        thickness = (weights[row["gauge"]] + Fraction("2.5")) / 16 / Fraction("41.82")
        found = Fraction(round(thickness * 10_000), 10_000)
        if found != Fraction(row["size_in"]):
            differ[row["gauge"]] = found
    assert differ == {"32": Fraction("0.0135")}


# Wood screws


def test_wood_screws_agree_with_published_sizes():
    # Published fastener gauge tables after ASME B18.6.1, numbers 2 to 14.
    printed = {
        row["number"]: row["printed_nominal_in"] for row in rows("woodscrews") if row["printed_nominal_in"]
    }
    assert list(printed) == ["2", "3", "4", "5", "6", "7", "8", "9", "10", "12", "14"]
    for number, size in printed.items():
        assert find_gauge(f"No {number} wood screw").size.inch == Fraction(size)


def test_wood_screw_bodies_are_four_thou_over_at_most():
    # An open CAD data file after ASME B18.6.1 lists the largest body.
    listed = [row for row in rows("woodscrews") if row["body_max_in"]]
    assert len(listed) == 17
    for row in listed:
        over = Fraction(row["body_max_in"]) - find_gauge(f"{row['number']} wood screw").size.inch
        assert over == Fraction("0.004")


def test_british_wood_screws_rise_by_fourteen_thou_from_sixty_six():
    # A cabinet-making handbook's rule: No 1 is 0.066 in, and 0.014 in more for each number.
    for gauge in series_gauges("British wood screw"):
        assert gauge.size.inch == Fraction("0.066") + Fraction("0.014") * (int(gauge.number) - 1)


def test_a_british_wood_screw_beyond_the_examples_says_so():
    notes = {int(gauge.number): gauge.note for gauge in series_gauges("British wood screw")}
    assert {n for n, note in notes.items() if "BS 1210" in note and "from memory" in note} == {0, 1}
    assert {n for n, note in notes.items() if note.startswith("extrapolated")} == set(range(11, 33))


@pytest.mark.parametrize(
    ("text", "other"),
    [
        ("No 2 wood screw", "British No 2 wood screw"),
        ("US No 2 wood screw", None),
        ("2 British wood screw", None),
        ("18 SWG", None),
    ],
)
def test_a_wood_screw_without_a_country_may_be_the_other_countrys(text, other):
    found = other_country(text)
    assert (found and found.name) == other


# Names as written


@pytest.mark.parametrize(
    ("text", "name", "inches"),
    [
        pytest.param("18 SWG", "18 SWG", "0.048", id="plain"),
        pytest.param("18swg", "18 SWG", "0.048", id="case-and-blanks-free"),
        pytest.param("No. 18 s.w.g.", "18 SWG", "0.048", id="number-and-dots"),
        pytest.param("18 SWG gauge", "18 SWG", "0.048", id="gauge-said-twice"),
        pytest.param("22AWG", "22 AWG", "0.0253", id="AWG"),
        pytest.param("22 B&S", "22 AWG", "0.0253", id="B-and-S"),
        pytest.param("4/0 AWG", "4/0 AWG", "0.46", id="four-noughts"),
        pytest.param("0000 AWG", "4/0 AWG", "0.46", id="four-noughts-in-full"),
        pytest.param("0 AWG", "1/0 AWG", "0.3249", id="one-nought"),
        pytest.param("1/0 SWG", "0 SWG", "0.324", id="one-nought-written-1/0"),
        pytest.param("No 8 BWG", "8 BWG", "0.165", id="BWG"),
        pytest.param("8 Stubs' iron", "8 BWG", "0.165", id="Stubs-iron-is-BWG"),
        pytest.param("8 Stubs’ steel wire gauge", "8 Stubs steel", "0.197", id="Stubs-steel"),
        pytest.param("16 manufacturers' standard gauge", "16 MSG", "0.0598", id="MSG-in-full"),
        pytest.param("16 US standard 1893", "16 US 1893", "0.0625", id="US-1893"),
        pytest.param("22 galvanized sheet gauge", "22 galvanised", "0.0336", id="galvanised"),
        pytest.param("9 zinc", "9 zinc", "0.018", id="zinc"),
        pytest.param("No 8 US steel wire gauge", "8 US steel wire", "0.162", id="US-steel-wire"),
        pytest.param("American No 8 steel wire", "8 US steel wire", "0.162", id="American-steel-wire"),
        pytest.param("20 music wire", "20 spring wire", "0.045", id="music-wire"),
        pytest.param("#20 spring-steel wire", "20 spring wire", "0.045", id="spring-steel-wire"),
        pytest.param("00 M.W.G.", "2/0 spring wire", "0.008", id="MWG"),
        pytest.param("#8 woodscrew", "US No 8 wood screw", "0.164", id="wood-screw"),
        pytest.param("American 2 wood screw", "US No 2 wood screw", "0.086", id="American-wood-screw"),
        pytest.param("British No 2 wood screw", "British No 2 wood screw", "0.080", id="British-wood-screw"),
        pytest.param(
            "No 14 British wood screw", "British No 14 wood screw", "0.248", id="country-behind-the-number"
        ),
        pytest.param("UK 8 woodscrew", "British No 8 wood screw", "0.164", id="UK-wood-screw"),
    ],
)
def test_a_gauge_is_found_by_name(text, name, inches):
    assert find_gauge(text).name == name
    assert find_gauge(text).size == Quantity.inches(Fraction(inches))


def test_every_gauge_is_found_by_its_own_name():
    assert all(find_gauge(gauge.name) == gauge for gauge in all_gauges())


@pytest.mark.parametrize("text", ["44", "44 gauge", "No 44 gage", "44 ga", "44 sheet gauge"])
def test_a_bare_number_is_refused_with_the_series_that_have_it(text):
    with pytest.raises(ShopError) as caught:
        find_gauge(text)
    assert str(caught.value) == (
        "44 gauge of which series? 44 SWG is 0.0032 in; 44 AWG is 0.002 in; 44 Stubs steel is 0.085 in; "
        "44 US steel wire is 0.0058 in; 44 spring wire is 0.17 in"
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("60 SWG", "there is no 60 in the SWG series: it runs from 7/0 to 50, and the nearest is 50 SWG", id="past-the-end"),
        pytest.param("8/0 BWG", "there is no 8/0 in the BWG series: it runs from 5/0 to 36, and the nearest is 5/0 BWG", id="past-the-noughts"),
        pytest.param("2 MSG", "there is no 2 in the MSG series: it runs from 3 to 38, and the nearest is 3 MSG", id="before-the-start"),
        pytest.param("0/0 SWG", "0/0 is not a gauge number: write 0, 2/0, 3/0 and so on", id="nought-noughts"),
        pytest.param("16 US standard", "US standard means two gauges: write MSG for the manufacturers' one of today, or US 1893 for the old one", id="two-meanings"),
        pytest.param("8 W & M", "W&M are a maker's initials for the US steel wire gauge: write US steel wire", id="makers-initials"),
        pytest.param("8 steel wire", "steel wire goes by two gauges: write SWG for the British one, or US steel wire for the American one, which is also shortened to SWG", id="steel-wire"),
        pytest.param("8 XWG", "'XWG' is not a gauge series known here: SWG, AWG, BWG, MSG, US 1893, galvanised, Stubs steel, zinc, US steel wire, spring wire, US wood screw, British wood screw", id="unknown-series"),
        pytest.param("99 gauge", "99 gauge of which series? no series has that number: write one of SWG, AWG, BWG, MSG, US 1893, galvanised, Stubs steel, zinc, US steel wire, spring wire, US wood screw, British wood screw", id="bare-and-nowhere"),
        pytest.param("1.5 SWG", "'1.5 SWG' is not a gauge; write 18 SWG, 22 AWG, 4/0 AWG or US No 8 wood screw", id="decimal"),
    ],
)  # fmt: skip
def test_what_is_no_gauge_is_refused(text, message):
    with pytest.raises(ShopError) as caught:
        find_gauge(text)
    assert str(caught.value) == message


# By size


def test_a_gauge_name_is_taken_as_its_size():
    near = gauges("18 SWG")
    assert near["SWG"].exact.name == "18 SWG"
    assert (near["BWG"].below.name, near["BWG"].above.name) == ("19 BWG", "18 BWG")


def test_every_series_is_answered_with_its_source():
    near = gauges("1 mm")
    assert tuple(near) == tuple(SERIES)
    assert [series for series, source in near.sources if source] == list(SERIES)


def test_a_bare_number_is_no_size_to_look_up():
    with pytest.raises(ShopError, match="18 gauge of which series"):
        gauges("18")


@pytest.mark.parametrize("size", [Quantity.inches(0), Quantity.inches(-1)], ids=["nought", "negative"])
def test_a_size_not_above_zero_is_refused(size):
    with pytest.raises(ShopError, match="a gauge's size must be above zero"):
        gauges(size)


@given(st.fractions(min_value=Fraction(1, 1000), max_value=20, max_denominator=5000).map(Quantity))
def test_neighbours_are_the_next_below_and_above_by_brute_force(size):
    for series, near in gauges(size).items():
        made = [gauge.size.mm for gauge in series_gauges(series)]
        assert (near.below.size.mm if near.below else None) == max(
            (mm for mm in made if mm < size.mm), default=None
        )
        assert (near.above.size.mm if near.above else None) == min(
            (mm for mm in made if mm > size.mm), default=None
        )
        assert (near.exact is not None) == (size.mm in made)


def test_the_nearest_gauge_is_of_the_series_that_stock_is_sold_by() -> None:
    # 0.7 mm is 0.02756 in: 22 SWG is 0.028 in and 24 galvanised 0.0276 in, nearer by far.
    found = gauges("0.7 mm")
    assert found.nearest.name == "22 SWG"
    assert found["galvanised"].nearest.name == "24 galvanised"
    assert list(found)[:4] == ["SWG", "AWG", "BWG", "MSG"]


# Wood screws


@pytest.mark.parametrize(
    ("name", "rest"),
    [
        # A cabinet-making handbook: the head twice the shank of 0.066 + 0.014 (N - 1) in, or 32nds of the number + 3.
        ("British No 8 wood screw", {"head diameter": "0.328", "head diameter by a second rule": "0.34375"}),
        # Open CAD data after ASME B18.6.1.
        ("US No 8 wood screw", {"head diameter, maximum": "0.332", "head diameter, minimum": "0.292"}),
    ],
)
def test_a_wood_screw_alone_is_told_with_its_head(name: str, rest: dict[str, str]) -> None:
    answer = Session().answer(name)
    assert answer is not None
    assert answer.kind == "gauge"
    assert "countersunk (flat) head" in answer.text(100)
    (head,) = answer.data()["heads"]
    told = {each["name"]: Fraction(each["size"]["inch"]) for each in head["dimensions"]}
    assert {each: told[each] for each in rest} == {each: Fraction(size) for each, size in rest.items()}
    # In a sum and behind a name it is its size.
    summed = Session().answer(f"{name} + 1 in")
    assert summed is not None
    assert summed.kind == "size"


def test_only_a_wood_screw_has_heads() -> None:
    assert [each.name for each in all_gauges() if each.heads and "wood screw" not in each.name] == []
    assert find_gauge("US No 11 wood screw").heads == ()
