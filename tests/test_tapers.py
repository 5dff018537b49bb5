"""Machine tapers and taper pins: against printed ends, the rules of pins, and plain geometry.

Sources: two tables of machine tapers and a copy of Machinery's Handbook (Morse, Jacobs); the rule of the Jarno taper,
number/8, number/10 and number/2 in; inch pins 1/4 in per foot; ISO 2339 metric pins 1 in 50.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from over_all import over

from fractions_shop import Session, ShopError, taper
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import STANDINGS
from fractions_shop.tables.taper_words import KINDS
from fractions_shop.tables.tapers import tapers

MACHINE = [each for each in tapers().values() if not each.pin]


@over(MACHINE, lambda each: each.name)
def test_the_small_end_by_the_taper_is_the_printed_one_to_the_rounding_of_its_length(each) -> None:
    """A length printed to 0.01 in moves the end by up to 0.005 in times the taper, and the ends are to 0.0001 in."""
    assert each.computed_small_end is not None
    assert each.small_end is not None
    off = abs(each.computed_small_end.inch - each.small_end.inch)
    assert off <= Fraction(5, 1000) * each.rate.value + Fraction(1, 10_000)


def test_which_printed_small_ends_differ_from_the_taper_is_said() -> None:
    differ = {each.name for each in MACHINE if each.ends_differ}
    assert "Morse 2" in differ
    assert "Jarno 7" not in differ
    assert "by its taper the small end at that length is ~0.5721 in" in _text("taper Morse 2")
    assert "by its taper" not in _text("taper Jarno 7")


@pytest.mark.parametrize("number", range(2, 21))
def test_jarno_tapers_are_their_rule(number: int) -> None:
    each = taper(f"Jarno {number}")
    assert each.large_end == Quantity.inches(Fraction(number, 8))
    assert each.small_end == Quantity.inches(Fraction(number, 10))
    assert each.length == Quantity.inches(Fraction(number, 2))
    assert each.per_foot.inch == Fraction(6, 10)
    assert each.standing == "rule"


@pytest.mark.parametrize(
    ("number", "large"),
    [("7/0", "1/16"), ("0", "5/32"), ("2/0", "9/64"), ("4", "1/4"), ("3", "7/32"), ("1", "11/64")],
)
def test_inch_pins_are_fractions_rounded_to_a_thou_and_taper_a_quarter_in_a_foot(
    number: str, large: str
) -> None:
    each = taper(f"pin No {number}")
    assert abs(each.size.inch - Fraction(large)) <= Fraction(1, 2000)
    assert each.per_foot.inch == Fraction(1, 4)


@given(st.integers(1, 3000))
def test_a_pins_other_end_goes_by_its_length_and_its_diameter_is_between(thou: int) -> None:
    length = Quantity.inches(Fraction(thou, 1000))
    pin = taper("pin No 7", length=length)
    assert pin.small_end is not None
    assert pin.small_end.inch == Fraction("0.409") - length.inch / 48
    metric = taper("pin 8 mm", length=length)
    assert metric.large_end is not None
    assert metric.large_end.mm == 8 + length.mm / 50
    assert pin.diameter(length) == pin.small_end
    assert pin.diameter(length, from_small=True) == pin.large_end


@over(MACHINE, lambda each: each.name)
def test_the_angle_is_that_of_half_the_taper_a_side(each) -> None:
    half = math.degrees(math.atan(float(each.rate.value) / 2))
    assert abs(float(each.half.degrees) - half) < 1e-9
    assert each.included.degrees == 2 * each.half.degrees
    assert each.included.approximate


def test_the_diameter_at_a_distance_is_told_from_both_ends_and_named_from_one() -> None:
    said = _text("taper Morse 2 at 1 in")
    assert "1 in (25.4 mm) from the large end: ~0.65 in (~16.5112 mm) across" in said
    assert "from the small end: ~0.622 in" in said
    session = Session()
    session.answer("d = taper Morse 2 at 1 in from the small end")
    assert session.answer("d").value.inch == Fraction("0.572") + Fraction("0.59941") / 12
    with pytest.raises(ShopError):
        Session().answer("d = taper Morse 2 at 1 in")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("taper Morse 2", "Morse 2"),
        ("taper No. 2 Morse", "Morse 2"),
        ("Morse taper No 2", "Morse 2"),
        ("No 2 Morse taper", "Morse 2"),
        ("MT2", "Morse 2"),
        ("2 M.T.", "Morse 2"),
        ("taper MT 4 1/2", "Morse 4 1/2"),
        ("taper Jacobs 2 short", "Jacobs 2 short"),
        ("JT33", "Jacobs 33"),
        ("taper B&S 7", "Brown & Sharpe 7"),
        ("No 7 Brown & Sharpe taper", "Brown & Sharpe 7"),
        ("No 7 B&S taper", "Brown & Sharpe 7"),
        ("B&S 7 taper", "Brown & Sharpe 7"),
        ("B. & S. taper No. 7", "Brown & Sharpe 7"),
        ("taper No 4 pin", "taper pin No 4"),
        ("taper pin No 4 reamer", "taper pin No 4"),
        ("taper Jarno 10", "Jarno 10"),
        ("taper pin No 4", "taper pin No 4"),
        ("taper pin #4", "taper pin No 4"),
        ("No. 4 taper pin", "taper pin No 4"),
        ("taper pins 000", "taper pin No 3/0"),
        ("taper pin 2/0", "taper pin No 2/0"),
        ("taper pin 13", "taper pin No 13"),
        ("5 mm taper pin", "taper pin 5 mm"),
        ("taper pin 2.5 mm", "taper pin 2.5 mm"),
    ],
)
def test_a_taper_is_read_as_drawings_write_it(text: str, name: str) -> None:
    assert Session().answer(text).result.name == name


@pytest.mark.parametrize(
    "text",
    [
        "taper pin No 4 x 1 1/2 in",
        "taper pin No 4 × 1 1/2 in",
        "No 4 taper pin x 1 1/2 in",
        "taper pin No 4, 1 1/2 in long",
    ],
)
def test_a_pins_length_is_read_as_drawings_write_it(text: str) -> None:
    answer = Session().answer(text)
    assert answer.value == Quantity.inches(Fraction(7, 32))
    assert "7/32 in drill" in " ".join(answer.text().split())


def test_a_pin_by_a_number_alone_may_be_inch_or_metric_and_both_are_named() -> None:
    with pytest.raises(
        ShopError, match=r"may be taper pin No 5, 0\.289 in at the large end, or taper pin 5 mm"
    ):
        Session().answer("taper pin 5")
    assert Session().answer("taper pin No 5").value == Quantity.inches(Fraction("0.289"))
    assert Session().answer("taper pin 5 mm").value == Quantity.millimetres(5)


def test_a_taper_with_its_word_is_never_the_wire_gauge_of_that_number() -> None:
    for text in ("7 B&S taper", "No 7 B&S taper", "7 B. & S. taper"):
        assert Session().answer(text).kind == "taper"


def test_words_that_became_the_languages_are_still_left_out_beside_a_size() -> None:
    for text in ("3/8 in long", "2 in at the top"):
        assert Session().answer(text).value == Session().answer(" ".join(text.split()[:2])).value


def test_a_number_of_b_and_s_without_the_word_taper_is_still_the_wire_gauge() -> None:
    assert Session().answer("7 B&S").value == Session().answer("7 AWG").value


def test_the_words_may_still_be_names() -> None:
    session = Session()
    session.answer("taper = 1/4 in")
    assert session.answer("taper * 2").value == Quantity.inches(Fraction(1, 2))
    session.answer("MT2 = 3 in")
    assert session.answer("MT2 * 2").value == Quantity.inches(6)
    with pytest.raises(ShopError, match="MT2 is a size named here, and a taper"):
        session.answer("MT2")


def test_every_taper_has_its_source_and_standing_and_so_have_its_sizes() -> None:
    for each in tapers().values():
        assert each.standing in STANDINGS
        assert each.source
        for size in (each.large_end, each.small_end, each.length, each.rate):
            assert size is None or size.standing == each.standing
    assert {kind for kind, _ in tapers()} == {*KINDS, "pin", "metric pin"}


@pytest.mark.parametrize("line", ["taper pin No 4", "taper pin 5 mm x 40 mm"])
def test_a_pin_says_what_its_figures_do_not(line: str) -> None:
    assert "do not say what a pin will bear" in _text(line)


def test_the_misprint_of_one_table_is_said() -> None:
    assert taper("pin No 2/0").size.inch == Fraction("0.141")
    assert "one table misprints it as 0.0625 in" in _text("taper pin 2/0")


def _text(line: str) -> str:
    return " ".join(Session().answer(line).text().split())


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("taper pin 1/4 in", "expected a taper such as Morse 2"),
        ("taper pin No 7/0 x 4 in", "taper pin No 7/0 tapers to nothing before it is so long"),
        ("taper pin No 15", "there is no taper pin No 15 in the tables"),
    ],
)
def test_what_is_no_taper_is_never_answered_as_a_size(line: str, said: str) -> None:
    with pytest.raises(ShopError) as caught:
        Session().answer(line)
    assert said in str(caught.value)
