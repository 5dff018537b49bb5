"""Rules by name, and snapping to them: worked cases. The laws are in property/."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop.errors import DimensionError, FloatRefused, NoAnswer, ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import LADDER, Rule, multiple, nths, rung, snap


@pytest.mark.parametrize(
    ("name", "shown", "mm"),
    [
        ("64ths", "64ths", "127/320"),
        ("32nds", "32nds", "127/160"),
        ("32ths", "32nds", "127/160"),
        ("64THS", "64ths", "127/320"),
        ("1st", "1sts", "127/5"),
        ("21sts", "21sts", "127/105"),
        ("12ths", "12ths", "127/60"),
        ("113ths", "113ths", "127/565"),
        ("100ths", "100ths", "127/500"),
        ("halves", "2nds", "127/10"),
        ("half", "2nds", "127/10"),
        ("quarters", "4ths", "127/20"),
        ("quarter", "4ths", "127/20"),
        ("eighths", "8ths", "127/40"),
        ("sixteenths", "16ths", "127/80"),
        ("mm", "mm", "1"),
        ("1 mm", "mm", "1"),
        ("half mm", "half mm", "1/2"),
        ("  half   MM ", "half mm", "1/2"),
        ("0.5 mm", "half mm", "1/2"),
        ("5 mm", "5 mm", "5"),
        ("cm", "10 mm", "10"),
    ],
)
def test_a_rule_is_named(name: str, shown: str, mm: str) -> None:
    rule = Rule(name)
    assert (rule.name, rule.division.mm) == (shown, Fraction(mm))
    assert str(rule) == shown
    assert Rule(rule) == rule


@pytest.mark.parametrize(
    "name", ["64", "0ths", "-8ths", "64 ths", "yards", "", "2 mm", "999999ths", "tenths", "½ mm"]
)
def test_what_is_no_rule_is_refused_with_those_that_are(name: str) -> None:
    with pytest.raises(ShopError, match="is not a rule: write 64ths"):
        Rule(name)


def test_a_rule_is_named_by_text_or_its_divisions() -> None:
    assert Rule(64) == Rule("64ths")
    with pytest.raises(TypeError):
        Rule(0.5)  # type: ignore[arg-type]


def test_what_a_person_reads_on_a_rule() -> None:
    assert [r.name for r in Rule("64ths").coarser] == [
        "1sts",
        "2nds",
        "4ths",
        "8ths",
        "16ths",
        "32nds",
        "64ths",
    ]
    assert [r.name for r in Rule("10ths").coarser] == ["1sts", "2nds", "5ths", "10ths"]
    assert [r.name for r in Rule("half mm").coarser] == ["10 mm", "5 mm", "mm", "half mm"]
    assert (Rule("64ths").parts, Rule("mm").parts) == (64, 0)


def test_which_rule_carries_a_size() -> None:
    rule = Rule("64ths")
    assert rule.coarsest_that_carries(Quantity.inches(Fraction(3, 8))) == Rule("8ths")
    assert rule.coarsest_that_carries(Quantity.inches(2)) == Rule("1sts")
    assert rule.coarsest_that_carries(Quantity.inches(Fraction(1, 5))) is None
    assert not rule.carries(Quantity.millimetres(1))


@pytest.mark.parametrize("n", [1, 2, 3, 4, 11, 12, 13, 21, 22, 23, 64, 101, 111, 112, 113])
def test_the_name_of_parts_is_how_one_says_it(n: int) -> None:
    ending = {1: "sts", 2: "nds", 3: "rds"}.get(n % 10, "ths")
    expected = "ths" if n % 100 in (11, 12, 13) else ending
    assert nths(n) == f"{n}{expected}"


SNAPS = [
    # size in inches or mm, rule, direction, snapped: worked by hand; common practice, no source.
    ("0.4", "in", "64ths", "nearest", "13/32"),
    ("10.3", "mm", "64ths", "nearest", "13/32"),
    ("51.5", "mm", "64ths", "nearest", "65/32"),
    ("0.4", "in", "64ths", "up", "13/32"),
    ("0.4", "in", "64ths", "down", "25/64"),
    ("-0.4", "in", "64ths", "up", "-25/64"),
    ("-0.4", "in", "64ths", "down", "-13/32"),
    ("1/128", "in", "64ths", "nearest", "0"),
    ("3/128", "in", "64ths", "nearest", "1/32"),
    ("5/128", "in", "64ths", "nearest", "1/32"),
    ("-3/128", "in", "64ths", "nearest", "-1/32"),
    ("1/2", "in", "16ths", "up", "1/2"),
    ("0", "in", "64ths", "up", "0"),
    ("0.193", "in", "32nds", "nearest", "3/16"),
]


@pytest.mark.parametrize(("number", "unit", "rule", "direction", "inch"), SNAPS)
def test_snap(number: str, unit: str, rule: str, direction: str, inch: str) -> None:
    size = Quantity.of(Fraction(number), unit)
    found = snap(size, rule, direction=direction)
    assert found.size.inch == Fraction(inch)
    assert found.error == found.size - size
    assert (found.asked, found.rule, found.direction) == (size, Rule(rule), direction)


def test_snap_on_a_metric_rule() -> None:
    assert snap("2 1/32 in", "mm").size.mm == 52
    assert snap("2 1/32 in", "half mm").size.mm == Fraction("51.5")


def test_the_ladder_is_that_of_the_drawer() -> None:
    found = snap("0.4 in")
    assert [r.name for r in LADDER] == ["8ths", "16ths", "32nds", "64ths", "mm"]
    assert [str(r.size.inch) for r in found.ladder[:4]] == ["3/8", "3/8", "13/32", "13/32"]
    assert found.ladder[4].size.mm == 10


def test_within_asks_for_the_most_readable() -> None:
    assert snap("0.49 in", within="0.02 in").size.inch == Fraction(1, 2)
    assert snap("0.49 in", within="0.02 in").rule.name == "2nds"
    assert snap("0.49 in", within="0.006 in").rule.name == "64ths"
    assert snap("0.5 in", within="0 in").rule.name == "2nds"
    with pytest.raises(NoAnswer, match="no division of 64ths lies within that"):
        snap("0.4 in", within="0.001 in")
    with pytest.raises(ShopError, match="must not be negative"):
        snap("0.4 in", within="-0.001 in")


def test_an_approximate_size_snaps_to_an_exact_mark() -> None:
    found = snap(Quantity.measured(10.31, "mm", "0.01 mm"))
    assert not found.size.approximate
    assert found.error.approximate


def test_what_is_no_length_is_refused() -> None:
    with pytest.raises(DimensionError, match="plain number"):
        snap("0.4")
    with pytest.raises(FloatRefused):
        snap(0.4)  # type: ignore[arg-type]
    # Words that sort before, between and after the three that are known.
    for other in ("along", "left", "sideways", "upwards", ""):
        with pytest.raises(ShopError, match="direction"):
            snap("0.4 in", direction=other)
    with pytest.raises(ShopError, match="needs a number before it"):
        snap("inches")


def test_multiple_and_rung() -> None:
    assert multiple(Fraction(5, 2), Fraction(1)) == 2
    assert multiple(Fraction(7, 2), Fraction(1)) == 4
    assert rung(Quantity.millimetres(Fraction("10.3")), Rule("mm")).error.mm == Fraction("-0.3")
