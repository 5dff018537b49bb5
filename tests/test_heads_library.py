"""Heads, nuts and washers against a library of the registry: bd-warehouse 0.4.0 (PyPI, 2026, Apache-2.0).

Its figures stand in data/parts_bd_warehouse.csv, as data beside the tests alone; what its figures of metric nuts and of
hexagons over M12 are, the tables here carry over from it, so that they are not compared.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from fractions_shop.tables import rows

ROWS = list(
    csv.DictReader(
        (Path(__file__).parent / "data" / "parts_bd_warehouse.csv").read_text("utf-8").splitlines()
    )
)


def _ours() -> dict[tuple[str, str, str], Fraction]:
    metric = {
        (row["standard"], row["size"], row["dimension"]): Fraction(row["value_mm"])
        for row in rows("screw_heads_metric")
    }
    pan = {
        (row["standard"], row["size"], row["dimension"]): Fraction(row["max_in"])
        for row in rows("thread_heads_in")
        if row["head"] == "pan head"
    }
    return metric | pan


#: What is compared figure by figure.
ALIKE = [
    ("ISO 1207", "head diameter, maximum", 10),
    ("ISO 1207", "head height, maximum", 10),
    ("ISO 1207", "slot depth, minimum", 10),
    ("ISO 1580", "head diameter, maximum", 10),
    ("ISO 1580", "head height, maximum", 10),
    ("ISO 4762", "head height, maximum", 10),
    ("ISO 4762", "key across flats", 10),
    ("ISO 4762", "socket depth, minimum", 10),
    ("ISO 4014", "across flats", 11),
    ("ISO 4017", "across flats", 11),
    ("ISO 7089", "hole, minimum", 11),
    ("ISO 7089", "outside diameter, maximum", 11),
    ("ISO 7089", "thickness, maximum", 11),
    ("ASME B18.6.3", "diameter", 10),
]


@pytest.mark.parametrize(("standard", "dimension", "count"), ALIKE)
def test_a_dimension_agrees_in_every_size(standard: str, dimension: str, count: int) -> None:
    theirs = {
        (standard, row["size"], dimension): Fraction(row["value"])
        for row in ROWS
        if (row["standard"], row["dimension"]) == (standard, dimension)
    }
    assert len(theirs) == count
    ours = _ours()
    assert {key: ours[key] for key in theirs} == theirs


def _apart(standard: str, dimension: str) -> dict[str, Fraction]:
    """Theirs less ours, by the size, where the two differ."""
    ours = _ours()
    apart = {
        row["size"]: Fraction(row["value"]) - ours[standard, row["size"], dimension]
        for row in ROWS
        if (row["standard"], row["dimension"]) == (standard, dimension)
    }
    return {size: by for size, by in apart.items() if by}


def test_where_it_has_another_dimension_under_the_same_name_it_is_larger() -> None:
    """Its slots are the greatest ones, its cap heads knurled, its low hexagons those of the greatest height."""
    assert len(_apart("ISO 1207", "slot width, minimum")) == 10
    for standard, dimension in (
        ("ISO 1207", "slot width, minimum"),
        ("ISO 4762", "head diameter, maximum"),
        ("ISO 4014", "head height, nominal"),
        ("ISO 4017", "head height, nominal"),
    ):
        assert all(by > 0 for by in _apart(standard, dimension).values())
    assert set(_apart("ISO 4014", "head height, nominal")) == {"M1.6", "M2", "M2.5", "M3.5"}


def test_its_countersunk_heads_are_those_of_the_older_standard() -> None:
    """DIN 963 has 7.5 for M4 where ISO 2009 has 8.4: ours are from memory of the latter, and say so."""
    assert _apart("ISO 2009/7046", "head diameter, maximum")["M4"] == Fraction("-0.9")
