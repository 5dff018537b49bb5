"""Sizes to text and plain text to sizes: worked cases. The laws are in property/."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from fractions_shop.errors import ShopError
from fractions_shop.figures.figure import in_feet
from fractions_shop.size.notation import (
    GLYPHS,
    as_meant,
    decimal,
    inch_text,
    mixed,
    mm_text,
    number_value,
    read_plain,
    readable,
    shown,
)
from fractions_shop.size.quantity import Quantity

with (Path(__file__).parent / "data" / "rounding_published.csv").open(newline="", encoding="utf-8") as _file:
    PUBLISHED = list(csv.DictReader(_file))


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda r: f"{r['exact']} to {r['places']}")
def test_decimals_round_as_published(row: dict[str, str]) -> None:
    assert decimal(Fraction(row["exact"]), int(row["places"]))[0] == row["result"]


@pytest.mark.parametrize(
    ("value", "text"),
    [("65/32", "2 1/32"), ("-65/32", "-2 1/32"), ("1/64", "1/64"), ("-1/64", "-1/64"), ("3", "3"), ("0", "0"),
     ("-3", "-3"), ("130/64", "2 1/32")],
)  # fmt: skip
def test_mixed(value: str, text: str) -> None:
    assert mixed(Fraction(value)) == text


@pytest.mark.parametrize(
    ("value", "places", "text", "whole"),
    [
        ("1/64", 6, "0.015625", True),
        ("1/128", 6, "0.007812", False),
        ("3/128", 6, "0.023438", False),
        ("1/3", 3, "0.333", False),
        ("-1/3", 3, "-0.333", False),
        ("2/3", 0, "1", False),
        ("5/2", 0, "2", False),
        ("10", 0, "10", True),
        ("100", 6, "100", True),
        ("1/1000", 2, "0", False),
        ("-1/1000", 2, "0", False),
        ("0", 6, "0", True),
        ("0.05", 1, "0", False),
        ("0.15", 1, "0.2", False),
    ],
)
def test_decimal(value: str, places: int, text: str, whole: bool) -> None:
    assert decimal(Fraction(value), places) == (text, whole)


def test_a_small_figure_never_reads_as_nought() -> None:
    assert shown(Fraction(1, 10**9), "in") == "0.000000001 in"
    assert shown(Fraction(-1, 3 * 10**9), "in") == "about -0.0000000003 in"
    assert shown(Fraction(0), "in") == "0 in"
    assert shown(Fraction(1, 3), "") == "about 0.333333"


@pytest.mark.parametrize(
    ("inch", "is_readable"),
    [
        ("1/64", True),
        ("1/128", True),
        ("1/256", False),
        ("5/127", False),
        ("1/3", True),
        ("3", True),
        ("1/12", True),
        ("1/10", True),
        ("1/100", False),
        ("3/40", False),
    ],
)
def test_readable(inch: str, is_readable: bool) -> None:
    assert readable(Fraction(inch)) == is_readable
    size = Quantity.inches(Fraction(inch))
    assert readable(size.inch) == is_readable


def test_a_length_in_each_way() -> None:
    size = Quantity.inches(Fraction(127, 2))
    assert (inch_text(size), mm_text(size), in_feet(size).bare) == (
        "5 ft 3 1/2 in",
        "1612.9 mm",
        "5 ft 3 1/2 in",
    )
    assert inch_text(Quantity.millimetres(Fraction("51.5"))) == "about 2.0276 in"
    assert in_feet(Quantity.inches(-63)).bare == "-5 ft 3 in"
    assert in_feet(Quantity.inches(24)).bare == "2 ft"
    assert in_feet(Quantity.inches(Fraction(1, 2))).bare == "0 ft 1/2 in"


@pytest.mark.parametrize(
    ("text", "value"),
    [("2 1/32", "65/32"), ("2-1/32", "65/32"), ("2  1/32", "65/32"), ("65/32", "65/32"), (".193", "0.193"),
     ("2.", "2"), ("½", "1/2"), ("2½", "5/2"), ("2 ½", "5/2"), ("2-½", "5/2"), ("007", "7"), ("0/4", "0"), ("⅒", "1/10")],
)  # fmt: skip
def test_number_value(text: str, value: str) -> None:
    assert number_value(text) == Fraction(value)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1/0", "1/0 has a denominator of zero"),
        ("2 1/0", "2 1/0 has a denominator of zero"),
        ("2 5/4", "5/4 is not a proper fraction, so 2 5/4 is not a mixed number"),
        ("2 4/4", "4/4 is not a proper fraction, so 2 4/4 is not a mixed number"),
        ("1" * 41, "a number of more than 40 characters is not a size"),
    ],
)
def test_what_is_no_number(text: str, said: str) -> None:
    with pytest.raises(ShopError) as caught:
        number_value(text)
    assert str(caught.value) == said


def test_every_vulgar_fraction_glyph_is_known() -> None:
    # Unicode has these eighteen whose numerator and denominator are both written out.
    assert sorted(GLYPHS) == sorted("¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("2–1⁄32″", '2-1/32"'),
        ("５′ ３″", "5' 3\""),
        ("0·193", "0.193"),
        ("a·b", "a·b"),
        ("−½", "-½"),
        ("2\u00a0in", "2 in"),
        ("2\tin", "2 in"),
        ("３　ｍｍ", "3 mm"),
        ("12 μm", "12 µm"),
        ("2 in", "2 in"),
    ],
)
def test_typographic_signs_are_read_as_what_they_mean(written: str, meant: str) -> None:
    assert as_meant(written) == meant
    assert len(as_meant(written)) == len(written)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("2 1/32 in", "51.59375"),
        ('2-1/32"', "51.59375"),
        ("2½in", "63.5"),
        ("-1/64 in", "-0.396875"),
        ("+1/64 in", "0.396875"),
        ("130 64ths", "51.59375"),
        ("3 16ths", "4.7625"),
        (".193 in", "4.9022"),
        ("193 thou", "4.9022"),
        ("5' 3 1/2\"", "1612.9"),
        ("5'-3 1/2\"", "1612.9"),
        ("-5'-3 1/2\"", "-1612.9"),
        ("5 ft 3 1/2 in", "1612.9"),
        ("5 ft", "1524"),
        ("51.5 mm", "51.5"),
        ("5.15 cm", "51.5"),
        ("0.0515 m", "51.5"),
        ("12 µm", "0.012"),
        ("1 yd", "914.4"),
        ("2″", "50.8"),
    ],
)
def test_read_plain(text: str, mm: str) -> None:
    assert read_plain(text) == Quantity(Fraction(mm))


@pytest.mark.parametrize("text", ["2 1/32", "3", "1/2", "½", "2-1/32"])
def test_a_bare_number_is_a_plain_number(text: str) -> None:
    found = read_plain(text)
    assert found is not None
    assert found.power == 0


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "in", "2 5/4 in", "1/0 in", "5' 12\"", "5'-", "51,5 mm", "2 - 1/32 in", "1 / 2 in", "2 in 3",
        "2 in + 1 in", "3 mil", "2 tenths", "1 furlong", "18 SWG", "1e3 mm", "nan", "inf in", "0x10 mm", "2 in\n3 in",
        "٣ in", "2_000 mm", "1/2/4 in", "3 0ths", "3 999999ths", "9" * 41 + " in", "3.5.1 mm", "½½ in", "--2 in",
        "- 1/64 in", "13/32 mm", "3/8'", "11/1 in", "0193 in", "2\u00ad1/32 in", "2\u200b1/32 in",
    ],
)  # fmt: skip
def test_what_is_doubtful_is_left_to_the_full_reader(text: str) -> None:
    assert read_plain(text) is None


@pytest.mark.parametrize("text", ["1/64th", "3/64ths", "64ths", "3.564ths", "12ths", "1/2th"])
def test_a_number_is_never_split_to_find_parts(text: str) -> None:
    assert read_plain(text) is None


def test_what_is_not_nought_is_shown_with_so_many_places_up_to_sixty_that_it_does_not_read_so():
    for places in (6, 7, 8):
        for n in (7, 20, 58, 60):
            figures = shown(Fraction(1, 10**n), "in", places).removeprefix("about ").removesuffix(" in")
            assert Fraction(figures) == Fraction(1, 10**n)
        assert shown(Fraction(-1, 10**63), "in", places).endswith("0 in")
