"""Sizes written by str and format, read by Quantity, and what they do as Python's own numbers do."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fractions_shop import (
    ArgumentError,
    DimensionError,
    FloatRefused,
    InputError,
    Limits,
    Quantity,
    Rule,
    ShopError,
    divide,
    mark,
    places,
    read,
    read_limits,
    snap,
)
from fractions_shop.size.quantity import Angle

IN = Quantity.inches
SIZES = st.fractions(-3000, 3000, max_denominator=2000)


@pytest.mark.parametrize(
    ("written", "text"),
    [
        ("2 1/32 in", "2 1/32 in"), ("65/32 in", "2 1/32 in"), ("51.5 mm", "51.5 mm"), ("50.8 mm", "2 in"),
        ("8.62 ft", "8 ft 7.44 in"), ("2700 mm", "2700 mm"), ("2 ft", "2 ft"), ("10/37 in", "10/37 in"),
        ("1/3 mm", "1/3 mm"), ("0.193 in", "0.193 in"), ("12 um", "0.012 mm"), ("2 sq in", "2 sq in"), ("1/3 cu in", "1/3 cu in"),
        ("48 tpi", "48 tpi"), ("3", "3"), ("1/3", "1/3"), ("-1/64 in", "-1/64 in"), ("0 in", "0 in"),
        ("sqrt(2) * 1 in", "about 1.4142 in"), ("2 in ± 1/64 in", "2 in ± 1/64 in"),
        ("1/2 in +1/-2 thou", "1/2 in +0.001/-0.002 in"), ("10 mm +0.1/-0 mm", "10 mm +0.1/+0 mm"),
    ],
)  # fmt: skip
def test_a_size_is_written_as_short_as_it_can_be_read_again(written: str, text: str) -> None:
    size = read(written)
    assert str(size) == text
    assert f"{size}" == text
    if not text.startswith("about"):
        again = read(text)
        assert (
            (again.lower, again.upper) == (size.lower, size.upper)
            if isinstance(size, Limits)
            else again == size
        )


@given(SIZES, st.sampled_from((1, Fraction(5, 127))))
def test_every_exact_length_is_read_again_as_itself(number: Fraction, unit: Fraction) -> None:
    size = IN(number * unit)
    assert read(str(size)) == size
    assert Quantity(str(size)) == size
    assert eval(repr(size.inch), {"Fraction": Fraction}) == size.inch


@given(SIZES, st.sampled_from((0, 2, 3, -1)))
def test_every_other_kind_too(number: Fraction, power: int) -> None:
    size = Quantity(number * Fraction(127, 5) ** power, power)
    assert read(str(size)) == size


@given(SIZES, st.fractions(0, 10, max_denominator=500), st.fractions(0, 10, max_denominator=500))
@example(Fraction(-1), Fraction(0), Fraction(1))
@example(Fraction(-1), Fraction(1), Fraction(1))
def test_limits_are_read_again_as_they_are(number: Fraction, plus: Fraction, minus: Fraction) -> None:
    limits = Limits(IN(number), IN(plus), IN(minus))
    text = str(limits)
    if " to " not in text:
        again = read(text)
        assert isinstance(again, Limits) or not (plus or minus)
        if isinstance(again, Limits):
            assert (again.nominal, again.lower, again.upper) == (limits.nominal, limits.lower, limits.upper)


@pytest.mark.parametrize(
    ("written", "spec", "text"),
    [
        ("2 1/32 in", "in", "2 1/32 in"), ("2 1/32 in", "mm", "51.59375 mm"), ("2 1/32 in", "mm.3", "51.594 mm"),
        ("2 1/32 in", "in.3", "2.031 in"), ("2 1/32 in", "64ths", "130 64ths"), ("2 1/32 in", "both", "2 1/32 in (51.59375 mm)"),
        ("2 1/32 in", "both.1", "2 in (51.6 mm)"), ("103 7/16 in", "ft in", "8 ft 7 7/16 in"), ("103 7/16 in", "in", "103 7/16 in"),
        ("2 in", "ft in", "0 ft 2 in"), ("1 m", "ft in", "about 3 ft 3.370079 in"), ("1 m", "ft in.2", "3 ft 3.37 in"),
        ("51.5 mm", "in", "about 2.0276 in"), ("51.5 mm", "in.3", "2.028 in"),
        ("2/5 in", "64ths", "25.6 64ths"), ("2 sq in", "mm", "1290.32 sq mm"), ("2 sq in", "sq mm", "1290.32 sq mm"),
        ("48 tpi", "tpi", "48 tpi"), ("sqrt(2) * 1 in", "mm.2", "35.92 mm"), ("2 1/2 in", "in.0", "2 in"),
        ("2 in ± 1/64 in", "mm.2", "50.41 to 51.19 mm"), ("2 in ± 1/64 in", "in", "1 63/64 in to 2 1/64 in"),
    ],
)  # fmt: skip
def test_a_spec_says_the_unit_and_how_many_decimals(written: str, spec: str, text: str) -> None:
    assert format(read(written), spec) == text


@given(SIZES, st.sampled_from(("in", "mm", "ft", "thou", "64ths")), st.integers(0, 6))
def test_decimals_are_rounded_to_nearest(number: Fraction, unit: str, decimals: int) -> None:
    size = IN(number)
    written, _ = format(size, f"{unit}.{decimals}").split(" ")
    assert Fraction(written) == round(size.to(unit), decimals)


@given(SIZES, st.fractions("1/50", 10, max_denominator=500), st.sampled_from(("in", "mm")), st.integers(2, 6))
def test_limits_are_rounded_inward(number: Fraction, spread: Fraction, unit: str, decimals: int) -> None:
    limits = Limits(IN(number), IN(spread), IN(0))
    lower, _, upper, _ = format(limits, f"{unit}.{decimals}").split(" ")
    assert limits.lower.to(unit) <= Fraction(lower) <= Fraction(upper) <= limits.upper.to(unit)


def test_limits_closer_than_the_decimals_are_refused() -> None:
    with pytest.raises(ShopError, match="1 decimals are too few"):
        format(read("1.234 mm ± 0.001 mm"), "mm.1")


def test_an_angle_is_written_in_degrees() -> None:
    assert f"{Angle(Fraction(25, 2))}, {Angle(Fraction(1, 3)):deg.2}" == "12.5 deg, 0.33 deg"
    with pytest.raises(ShopError, match="an angle is written in deg"):
        format(Angle(Fraction(1)), "mm")


@pytest.mark.parametrize(
    ("spec", "said"),
    [
        (">12", r"text first, f'\{size!s:>12\}'"), ("12", r"text first, f'\{size!s:12\}'"),
        (".2f", "neither a unit nor a rule: write in, mm, ft in, 64ths or both"),
        (".3", "a format says a unit first"), ("mil", "write thou or mm"), ("mm.99", "at most 40 decimals"),
        ("sq in", "this is a length, and sq in is an area"),
    ],
)  # fmt: skip
def test_a_spec_that_is_none_is_refused(spec: str, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        format(IN(2), spec)


@pytest.mark.parametrize("unit", ["mm", "in", "thou", "sq in", "64ths", "ft in", "both"])
def test_a_plain_number_is_in_no_unit(unit: str) -> None:
    """It was so many mm, silently."""
    ratio = IN(1) / IN(7)
    with pytest.raises(DimensionError, match="this is a plain number"):
        ratio.to(unit)
    with pytest.raises(DimensionError, match="this is a plain number"):
        format(ratio, unit)
    assert (f"{ratio}", f"{ratio:.3}", f"{Quantity.number(3):.2}") == ("1/7", "0.143", "3")


# Read


@pytest.mark.parametrize("text", ['2-1/32"', "5' 3 1/2\"", "6 BA", "18 SWG", "2 in * 3 in", "½ in"])
def test_quantity_takes_what_read_takes(text: str) -> None:
    assert Quantity(text) == read(text)
    if Quantity(text).power == 1:
        assert snap(text).asked == read(text)


def test_what_is_no_one_size_is_refused() -> None:
    with pytest.raises(ShopError, match="has limits, where one size is needed"):
        Quantity("1/2 in ± 1/64 in")
    with pytest.raises(InputError, match="has more than one meaning"):
        Quantity("5' - 3\"")
    with pytest.raises(InputError, match="a letter where a figure was meant"):
        snap("2 1/O in")
    with pytest.raises(ArgumentError, match="given alone"):
        Quantity("2 in", 2)


# As other numbers


def test_to_counts_units_and_divisions_exactly() -> None:
    size = read("2 1/32 in")
    assert isinstance(size, Quantity)
    assert (size.to("64ths"), size.to(Rule(64)), size.to("mm"), size.to("thou")) == (
        130, 130, Fraction(1651, 32), Fraction("2031.25"),
    )  # fmt: skip
    assert Quantity("2 sq in").to("sq mm") == Quantity("2 sq in").to("mm") == Fraction("1290.32")
    with pytest.raises(DimensionError):
        Quantity("2 sq in").to("64ths")


def test_a_rule_is_named_by_its_divisions_to_the_inch() -> None:
    assert Rule(64) == Rule("64ths")
    assert Rule(1).name == "1sts"
    for wrong in (0, -8, 100_000):
        with pytest.raises(ShopError, match="a rule has 1 to 99,999"):
            Rule(wrong)
    with pytest.raises(ShopError):
        Rule(True)
    assert divide("2 in", 5, Rule(64)).total == divide("2 in", 5).total


@given(SIZES, st.sampled_from(("64ths", "10ths", "mm", "half mm")))
def test_round_gives_what_snap_gives(number: Fraction, rule: str) -> None:
    assert round(IN(number), Rule(rule)) == round(IN(number), rule) == snap(IN(number), rule).size  # type: ignore[call-overload]


@given(SIZES, st.fractions("1/2000", 50, max_denominator=2000))
def test_whole_division_and_its_rest_are_python_s_own(number: Fraction, by: Fraction) -> None:
    size, divisor = IN(number), IN(by)
    whole, rest = divmod(size, divisor)
    assert (whole, rest.inch) == divmod(number, by)
    assert (size // divisor, size % divisor) == (whole, rest)
    assert divisor * whole + rest == size
    plain = Quantity.number(number)
    assert (plain // by, (plain % by).value) == divmod(number, by)
    assert divmod(number, Quantity.number(by))[0] == number // by


def test_a_plain_number_is_a_number_and_a_length_says_its_unit_first() -> None:
    half, five = Quantity.number(Fraction(5, 2)), Quantity.number(5)
    assert (float(half), int(five), round(half), math.floor(half), math.ceil(half), math.trunc(half)) == (
        2.5,
        5,
        2,
        2,
        3,
        2,
    )
    assert round(Quantity.number(Fraction(1, 3)), 2) == Fraction(33, 100)
    with pytest.raises(ArgumentError, match="5/2 is no whole number"):
        int(half)
    for work in (float, int, math.floor, math.ceil, math.trunc):
        with pytest.raises(DimensionError, match="say in what unit"):
            work(IN(2))
    for work in (round, lambda size: round(size, 2)):
        with pytest.raises(ArgumentError, match="rounded to a rule"):
            work(IN(2))
    for work in (lambda: IN(2) // 2, lambda: 2 % IN(2), lambda: divmod(IN(2), Quantity("2 sq in"))):
        with pytest.raises(DimensionError):
            work()
    with pytest.raises(FloatRefused):
        IN(2) // 0.5
    with pytest.raises(ZeroDivisionError):
        IN(2) % IN(0)


@pytest.mark.parametrize("unit", [64, None, 0.5, Quantity("1 mm")])
def test_a_unit_is_named_by_text(unit: object) -> None:
    with pytest.raises(ArgumentError, match="a unit is named by text"):
        IN(2).to(unit)  # type: ignore[arg-type]


def test_what_stands_beside_a_size_is_refused_with_what_to_write() -> None:
    limits = read_limits("1/2 in +1/-2 thou")
    for work in (lambda: IN(2) < "3 in", lambda: IN(2) >= "3 in"):
        with pytest.raises(ArgumentError, match=r"write Quantity\('3 in'\)"):
            work()
    for work in (lambda: IN(2) < limits, lambda: IN(2) // limits, lambda: IN(2) % limits):
        with pytest.raises(ArgumentError, match=r"take its \.lower, \.upper or \.nominal"):
            work()
    for power in (0.5, Fraction(1, 2)):
        with pytest.raises(ArgumentError, match="whole powers; a root is read"):
            IN(2) ** power
    with pytest.raises(DimensionError, match="cannot work out a remainder of a length and a plain number"):
        IN(2) // 3


def test_sizes_are_summed() -> None:
    assert sum([Angle(Fraction(1)), Angle(Fraction(2), True)]) == Angle(Fraction(3))
    assert sum([IN(1), IN(2)]) == IN(3)
    assert str(sum(map(Quantity, ("1/2 in", "1/4 in")), Quantity(0))) == "3/4 in"


def test_marks_and_places_have_a_length_and_are_gone_through() -> None:
    marks = mark("2 in", 5)
    assert len(marks) == 6
    assert [str(place) for place in marks] == ["0 in", "2/5 in", "4/5 in", "1 1/5 in", "1 3/5 in", "2 in"]
    assert marks[1] == marks.exact[1]
    assert list(marks[1:3]) == list(marks.exact[1:3])
    grid = places(across=(2, "1 in"), up=(2, "1 in"))
    assert len(grid) == 4
    assert [tuple(map(str, point)) for point in grid][3] == ("1 in", "1 in")
    assert grid[-1] == grid.points[-1]
    assert marks
    assert grid


def test_what_is_no_length_or_does_not_end_is_written_with_about_and_its_unit():
    edge = read("sqrt(2 in * 3 in)")
    # The square root of 6 is 2.449490 to six places.
    assert str(edge * read("1 in")) == "about 2.44949 sq in"
    assert str(edge / read("1 in")) == "about 2.44949"
    assert str(read("2 in") * read("2 in")) == "4 sq in"


def test_angles_are_written_in_degrees_and_say_that_they_are_rounded():
    third = Angle(Fraction(100, 3), True)
    assert (str(Angle(Fraction(25, 2))), str(third)) == ("12.5 deg", "about 33.333333 deg")
    assert (f"{third:deg.2}", f"{third:°.0}") == ("33.33 deg", "33 deg")
    with pytest.raises(ShopError, match="written in deg, not in 'mm'"):
        format(third, "mm")


def test_limits_are_rounded_inward_in_both_units_and_those_of_an_area_are_told_by_their_ends():
    window = read_limits("1/2 in +- 1/64 in")
    assert f"{window:both.3}" == "0.485 to 0.515 in (12.304 to 13.096 mm)"
    # 31/64 and 33/64 squared
    assert str(window * window) == "0.234619140625 sq in to 0.265869140625 sq in"
