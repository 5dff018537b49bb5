"""`read_column`: a column of cells as exact sizes, Fractions and floats, each bad cell kept and told."""

from __future__ import annotations

import math
import subprocess
import sys
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import ArgumentError, Quantity, ShopError, read, read_column
from fractions_shop.command.column import Column
from fractions_shop.testing import WrittenForm, written_sizes


@given(st.lists(written_sizes(), max_size=8))
def test_each_written_size_is_what_read_gives(cells: list[WrittenForm]) -> None:
    found = read_column([cell.text for cell in cells])
    assert found.sizes == tuple(cell.size for cell in cells) == tuple(read(cell.text) for cell in cells)
    assert (found.faults, found.doubts, len(found)) == ({}, {}, len(cells))
    assert list(found.exact("in")) == [cell.size.inch for cell in cells]
    assert found.floats().tolist() == [float(cell.size.mm) for cell in cells]


CELLS = [
    "2 1/32 in",
    "oak",
    "",
    None,
    float("nan"),
    pd.NA,
    1.5,
    "2 in +1/-2 thou",
    "3 in²",
    "13",
    13,
    "5' - 3\"",
    pd.NaT,
    [1, 2],
]
FAULTS = {
    1: "this is not a size; write one such as 2 1/32 in",
    2: "there is no size here",
    3: "there is no size here",
    4: "there is no size here",
    5: "there is no size here",
    6: "a float (1.5) is not an exact size; write it as text, or say how far to trust it with within",
    7: "this has limits, where one size is needed",
    8: "this is an area, where a length is needed",
    9: "this has no unit; write it with one, or say what such numbers are in",
    10: "this has no unit; write it with one, or say what such numbers are in",
    12: "there is no size here",
    13: "expected a size such as '2 1/32 in', not list",
}


def test_every_bad_cell_is_told_and_none_raises() -> None:
    found = read_column(CELLS)
    assert {place: reason for place, reason in found.faults.items() if place != 11} == FAULTS
    assert "more than one meaning" in found.faults[11]
    assert found.sizes[0] == Quantity("2 1/32 in")
    assert found.sizes[1:] == (None,) * 13
    assert repr(found) == f"<ColumnSizes: 1 of 14 are sizes; the first at fault is at 1: {FAULTS[1]}>"
    assert [math.isnan(value) for value in found.floats()] == [False] + 13 * [True]
    assert list(found.exact()) == [Fraction(1651, 32)] + 13 * [None]


def test_numbers_are_in_the_unit_and_floats_come_in_by_the_callers_word() -> None:
    found = read_column(
        [1.5, 13, Fraction(13, 32), Decimal("2.5"), np.int64(7), np.float64(0.5), "3"],
        unit="in",
        within="0.01 in",
    )
    assert [size.inch for size in found.sizes if size] == [
        Fraction(3, 2), 13, Fraction(13, 32), Fraction(5, 2), 7, Fraction(1, 2), 3,
    ]  # fmt: skip
    assert [size.approximate for size in found.sizes if size] == [
        True,
        False,
        False,
        False,
        False,
        True,
        False,
    ]


def test_a_doubtful_form_is_at_fault_or_noted_as_in_a_csv_column() -> None:
    noted = read_column(["5' - 3\"", "2 in"], doubtful="note")
    assert noted.sizes[0] == Quantity("57 in")
    assert list(noted.doubts) == [0]
    (_, row, _) = Column("size", doubtful="note").widen(
        ["size\n", '5\' - 3""\n'.replace('""', '"'), "2 in\n"]
    )
    assert noted.doubts[0].split(";")[0] in row
    assert "1 in doubt" in repr(noted)


def test_the_standing_of_a_figure_goes_with_it() -> None:
    from fractions_shop import read_size

    text = "No 90 drill"
    assert read_column([text]).sizes == (read_size(text),)
    assert read_column([text]).sizes[0].standing == read_size(text).standing  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "options", [{"unit": "oak"}, {"unit": "tpi"}, {"doubtful": "perhaps"}, {"within": "2"}]
)
def test_options_that_make_no_sense_are_refused_at_once(options: dict[str, str]) -> None:
    with pytest.raises(ShopError):
        read_column([], **options)  # type: ignore[arg-type]


def test_what_is_no_column_is_refused() -> None:
    """Of a table and of a dict its headings were read."""
    with pytest.raises(ArgumentError, match="read"):
        read_column("2 in")
    for table in (pd.DataFrame({"2 in": ["3 in"]}), {"2 in": "3 in"}):
        with pytest.raises(ArgumentError, match="is several columns"):
            read_column(table)
    for none in (None, 5):
        with pytest.raises(ArgumentError, match="a column is many cells"):
            read_column(none)  # type: ignore[arg-type]
    with pytest.raises(ArgumentError, match="a unit is named by text"):
        read_column(["2 in"], unit=25)  # type: ignore[arg-type]


def test_a_column_is_a_sequence_of_its_sizes() -> None:
    found = read_column(["2 in", "oak", "3 in"])
    assert list(found) == [found[0], None, found[2]] == list(found.sizes)
    assert found[1:] == found.sizes[1:]


def test_arrays_count_what_a_size_counts() -> None:
    found = read_column(["2 1/32 in", "oak", "51.5 mm"])
    for unit in ("mm", "in", "thou", "64ths", "half mm"):
        counted = [None if size is None else size.to(unit) for size in found]
        assert found.exact(unit).tolist() == counted
        assert found.floats(unit).tolist()[::2] == [float(many) for many in counted if many is not None]
    with pytest.raises(ShopError, match="660 ft, or 660 US survey ft"):
        found.floats("furlong")
    with pytest.raises(ShopError, match="is an area"):
        found.exact("sq in")


def test_where_the_first_fault_is_stands_in_the_repr_however_long_its_reason() -> None:
    assert "the first at fault is at 1" in repr(read_column(["2 in", "5' - 3\""]))


def test_a_pandas_column_goes_in_and_arrays_come_out() -> None:
    frame = pd.DataFrame({"width": ["2 1/32 in", "51.5 mm", None]})
    found = read_column(frame["width"])
    frame["mm"], frame["exact"] = found.floats("mm"), found.exact("in")
    assert frame["mm"].dtype == float
    assert frame["exact"][0] + 1 == Fraction(97, 32)


def test_sizes_need_no_numpy_and_arrays_say_what_they_need() -> None:
    code = (
        "import sys; sys.modules['numpy'] = None\n"
        "from fractions_shop import ShopError, read_column\n"
        "found = read_column(['2 in'])\n"
        "print(found.sizes[0])\n"
        "try: found.floats()\n"
        "except ShopError as error: print(error)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (
        done.stdout
        == "2 in\narrays need numpy, which is not installed: pip install 'fractions-shop[arrays]'\n"
    )
