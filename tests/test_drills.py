"""Drills: the series against their rules and a second source, and names as written."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from over_all import over

from fractions_shop.errors import ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.drills import SERIES, all_drills, drills, find_drill, series_drills
from fractions_shop.tables.nearest import MadeWhenAsked, neighbours

DATA = Path(__file__).parent / "data"


def second_source() -> list[dict[str, str]]:
    with (DATA / "drills_second_source.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def inch(text: str) -> Quantity:
    return Quantity.inches(Fraction(text))


# The series


@pytest.mark.parametrize(
    ("series", "count", "smallest", "largest"),
    [
        pytest.param("number", 97, "No 97", "No 1", id="number"),
        pytest.param("letter", 26, "letter A", "letter Z", id="letter"),
        pytest.param("fractional", 64, "1/64 in", "1 in", id="fractional"),
        pytest.param("metric", 227, "0.2 mm", "25 mm", id="metric"),
    ],
)
def test_a_series_is_complete_and_rises(series, count, smallest, largest):
    found = series_drills(series)
    sizes = [drill.size.mm for drill in found]
    assert len(found) == count
    assert (found[0].name, found[-1].name) == (smallest, largest)
    assert all(one < two for one, two in pairwise(sizes))
    assert {drill.series for drill in found} == {series}


def test_every_drill_names_its_source_and_a_known_standing():
    assert all(drill.source for drill in all_drills())
    assert {drill.standing for drill in all_drills()} == {"printed", "rule", "from memory"}


def test_number_drills_past_80_are_marked_from_memory():
    marked = {drill.name for drill in all_drills() if drill.standing == "from memory"}
    assert marked == {f"No {n}" for n in range(81, 98)}


#: An open CAD data file of drill sizes prints these to three places, some cut and some
#: rounded; the four-place values are those of the trade tables. Every other row agrees to the last figure.
THREE_PLACES = {"5": "0.205", "10": "0.193", "18": "0.17", "25": "0.15", "28": "0.14", "69": "0.029"}


@over(second_source())
def test_number_and_letter_drills_agree_with_a_second_source(row):
    name = f"No {row['drill']}" if row["series"] == "number" else f"letter {row['drill']}"
    ours, printed = find_drill(name).size.inch, Fraction(row["printed_in"])
    if row["drill"] in THREE_PLACES:
        assert row["printed_in"] == THREE_PLACES[row["drill"]]
        assert 0 < abs(ours - printed) <= Fraction("0.0005")
    else:
        assert ours == printed


def test_the_second_source_covers_1_to_80_and_a_to_z():
    assert len(second_source()) == 80 + 26


@over(range(1, 65))
def test_fractional_drills_are_64ths(n):
    # By arithmetic; no table is needed.
    assert drills(Quantity.inches(Fraction(n, 64)))["fractional"].exact.size.inch == Fraction(n, 64)


# Spot values of each stretch of BS 328, as given in an encyclopaedia article on drill sizes.
@pytest.mark.parametrize(
    "made",
    ["0.2", "0.22", "0.25", "0.28", "0.98", "1", "1.05", "2.95", "3.1", "13.9", "14", "14.25", "24.75", "25"],
)
def test_metric_steps_are_made(made):
    assert find_drill(f"{made} mm drill").size.mm == Fraction(made)


@pytest.mark.parametrize("not_made", ["0.21", "0.24", "0.3001", "1.02", "2.98", "3.05", "14.1", "14.3"])
def test_sizes_between_the_metric_steps_are_not_made(not_made):
    with pytest.raises(ShopError, match=f"no {re.escape(not_made)} mm drill"):
        find_drill(f"{not_made} mm drill")


# Names as written


@pytest.mark.parametrize(
    ("text", "name", "inches"),
    [
        pytest.param("No 43 drill", "No 43", "0.089", id="no"),
        pytest.param("No. 43", "No 43", "0.089", id="no-with-dot"),
        pytest.param("no.43 DRILL", "No 43", "0.089", id="case-and-blanks-free"),
        pytest.param("number 43 drill", "No 43", "0.089", id="number-in-full"),
        pytest.param("#43", "No 43", "0.089", id="hash"),
        pytest.param("＃43 drill", "No 43", "0.089", id="full-width-hash"),
        pytest.param("No. 43 twist drill", "No 43", "0.089", id="twist-drill"),
        pytest.param("letter F drill", "letter F", "0.257", id="letter"),
        pytest.param("f drill", "letter F", "0.257", id="letter-alone"),
        pytest.param("13/64 drill", "13/64 in", "0.203125", id="fraction"),
        pytest.param("13⁄64″ drill", "13/64 in", "0.203125", id="typographic-fraction"),
        pytest.param("26/128 in drill", "13/64 in", "0.203125", id="unreduced-fraction"),
        pytest.param('1" drill', "1 in", "1", id="whole-inch"),
    ],
)
def test_a_drill_is_found_by_name(text, name, inches):
    found = find_drill(text)
    assert found.name == name
    assert found.size == inch(inches)


@over(all_drills(), lambda drill: drill.name)
def test_every_drill_is_found_by_its_own_name(drill):
    assert find_drill(drill.name) == find_drill(f"{drill.name} drill") == drill


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("No 98 drill", "there is no No 98 drill: they run from No 1 to No 97, and No 97 is nearest", id="past-the-end"),
        pytest.param("#0", "there is no No 0 drill: they run from No 1 to No 97, and No 1 is nearest", id="nought"),
        pytest.param("5.12 mm drill", "there is no 5.12 mm drill: the nearest metric ones are 5.1 mm and 5.2 mm", id="between-metric"),
        pytest.param("13/100 drill", "there is no 13/100 in drill: the nearest fractional ones are 1/8 in and 9/64 in", id="between-64ths"),
        pytest.param("1 1/4 drill", "there is no 1 1/4 in drill here: the fractional ones known here end at 1 in", id="past-an-inch"),
        pytest.param("6 drill", "6 of what? write 6 mm drill or No 6 drill", id="no-series"),
        pytest.param("5.1 drill", "5.1 of what? write 5.1 mm drill or 5.1 in as a size", id="no-unit"),
        pytest.param("3/0 drill", "3/0 has a denominator of zero", id="zero-denominator"),
        pytest.param("AB drill", "'AB drill' is not a drill's name; write No 43 drill, letter F drill, 13/64 drill or 5.1 mm drill", id="two-letters"),
        pytest.param("", "'' is not a drill's name; write No 43 drill, letter F drill, 13/64 drill or 5.1 mm drill", id="nothing"),
    ],
)  # fmt: skip
def test_what_is_no_drill_is_refused(text, message):
    with pytest.raises(ShopError) as caught:
        find_drill(text)
    assert str(caught.value) == message


# By size


def test_the_neighbours_of_a_size_that_is_made_leave_it_out():
    near = drills("1/4 in")["letter"]
    assert (near.below.name, near.exact.name, near.above.name) == ("letter D", "letter E", "letter F")
    assert near.nearest.name == "letter E"


def test_past_the_ends_there_is_no_neighbour():
    assert drills("30 mm")["metric"].above is None
    assert drills("0.1 mm")["number"].below is None
    assert drills("30 mm").nearest.name == "1 in"


def test_a_drill_name_is_taken_as_its_size():
    assert drills("No 7 drill")["metric"].exact is None
    assert drills("#7").asked == inch("0.201")
    assert drills("1/4 in").asked == inch("0.25")


def test_every_series_is_answered_with_its_source():
    near = drills("5 mm")
    assert tuple(near) == tuple(SERIES)
    assert [series for series, _ in near.sources] == list(SERIES)
    assert all(source for _, source in near.sources)


@pytest.mark.parametrize("size", [Quantity.inches(0), Quantity.inches(-1)], ids=["nought", "negative"])
def test_a_size_not_above_zero_is_refused(size):
    with pytest.raises(ShopError, match="a drill's size must be above zero"):
        drills(size)


sizes = st.fractions(min_value=Fraction(1, 1000), max_value=40, max_denominator=2000).map(Quantity)


@given(sizes)
def test_neighbours_are_the_next_below_and_above_by_brute_force(size):
    for series, near in drills(size).items():
        made = [drill.size.mm for drill in series_drills(series)]
        below = max((mm for mm in made if mm < size.mm), default=None)
        above = min((mm for mm in made if mm > size.mm), default=None)
        assert (near.below.size.mm if near.below else None) == below
        assert (near.above.size.mm if near.above else None) == above
        assert (near.exact is not None) == (size.mm in made)


def test_the_neighbours_of_a_size_make_few_drills_of_a_series():
    made = []
    series = MadeWhenAsked(range(1, 1000), lambda n: made.append(n) or _Stock(f"{n}", Quantity(Fraction(n))))
    near = neighbours(Quantity(Fraction(7)), "whole", series)
    assert (near.below.name, near.exact.name, near.above.name) == ("6", "7", "8")
    assert len(made) <= 12
    assert series[6] is near.exact
    assert [each.name for each in series[2:4]] == ["3", "4"]
    assert series[-1].name == "999"
    assert len(list(series)) == len(series) == 999


class _Stock(NamedTuple):
    name: str
    size: Quantity


@given(sizes)
def test_errors_are_the_drill_less_the_size(size):
    for near in drills(size).values():
        if near.below:
            assert near.below_error == near.below.size - size < Quantity(Fraction(0))
        if near.above:
            assert near.above_error == near.above.size - size > Quantity(Fraction(0))
        assert abs(near.nearest.size - size) <= min(
            abs(error) for error in (near.below_error, near.above_error) if error is not None
        )
