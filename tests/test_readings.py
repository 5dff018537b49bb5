"""Readings: trust as written, and likelihood against numerical integration."""

from fractions import Fraction
from math import exp, inf, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from weighed_readings import density_of

from fractions_shop.errors import DimensionError, FloatRefused, ShopError
from fractions_shop.meant.readings import CALIPER, Reading, take, written_within
from fractions_shop.size.quantity import Quantity

NOTHING = Quantity(Fraction(0))


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        pytest.param("51.5 mm", "0.05", id="tenths"),
        pytest.param("51.50 mm", "0.005", id="a-written-nought-counts"),
        pytest.param("45 mm", "0.5", id="whole"),
        pytest.param("45. mm", "0.5", id="bare-point"),
        pytest.param("5.15 cm", "0.05", id="centimetres"),
        pytest.param("12 µm", "0.0005", id="microns"),
        pytest.param("2.03 in", "0.127", id="decimal-inch"),
        pytest.param(".193 in", "0.0127", id="no-leading-nought"),
        pytest.param("0·193 in", "0.0127", id="raised-point"),
        pytest.param("193 thou", "0.0127", id="thou"),
        pytest.param("2 1/32 in", "0.396875", id="32nds"),
        pytest.param('2-1/32"', "0.396875", id="old-drawing"),
        pytest.param("130/64 in", "0.1984375", id="as-written-not-as-reduced"),
        pytest.param("2½ in", "6.35", id="glyph"),
        pytest.param("130 64ths", "0.1984375", id="nths"),
        pytest.param("5' 3 1/2\"", "6.35", id="feet-and-inches"),
        pytest.param("5 ft", "152.4", id="feet"),
    ],
)
def test_trust_is_half_the_last_written_place(text, mm):
    assert written_within(text).mm == Fraction(mm)


#: Numbers and units put together in all ways, most of them no size, and none that only the full reader knows.
_NUMBERS = (
    "051",
    "0193",
    "0.5",
    "00.5",
    "13/32",
    "11/1",
    "51",
    "51.5",
    "51.",
    ".5",
    "2 1/32",
    "1/2",
    "0/4",
    "5/4",
    "21/2",
    "3/0",
    "1 2",
    "1 1/2 3",
    "2 1.5",
    "-3",
    "",
)


def _trust(text):
    try:
        return written_within(text)
    except ShopError as error:
        return type(error)


def test_a_usual_form_is_trusted_as_the_patterns_have_it(monkeypatch):
    units = ("in", "mm", "thou", '"', "tpi", "wide", "")
    texts = [f"{number}{blank}{unit}" for number in _NUMBERS for blank in (" ", "", "  ") for unit in units]
    quickly = {text: _trust(text) for text in texts}
    monkeypatch.setattr("fractions_shop.meant.readings._last_place", lambda text: None)
    assert quickly == {text: _trust(text) for text in texts}


@pytest.mark.parametrize(
    "text", ["51.5", "51.5 km^2", "wide", "", "2 hands", "2 1/2 hands", "18 SWG", "1/4 BSW"]
)
def test_trust_needs_a_plain_length(text):
    with pytest.raises(ShopError):
        written_within(text)


def test_trust_comes_from_the_argument_then_the_size_then_the_writing_then_the_caliper():
    measured = Quantity.measured(10.31, "mm", within="0.02 mm")
    bare = Quantity.millimetres(10)
    assert [r.within.mm for r in take([measured, "10.3 mm", bare])] == [
        Fraction("0.02"), Fraction("0.05"), CALIPER.mm,
    ]  # fmt: skip
    assert {r.within.mm for r in take([measured, "10.3 mm", bare], within="0.1 mm")} == {Fraction("0.1")}


@pytest.mark.parametrize(
    ("arguments", "error"),
    [
        pytest.param({"values": []}, ShopError, id="none"),
        pytest.param({"values": ["1 mm"] * 201}, ShopError, id="too-many"),
        pytest.param({"values": "0 mm"}, ShopError, id="nought"),
        pytest.param({"values": "-3 mm"}, ShopError, id="negative"),
        pytest.param({"values": "51.5"}, DimensionError, id="no-unit"),
        pytest.param({"values": 51.5}, FloatRefused, id="float"),
        pytest.param({"values": "3 mm", "within": "-1 mm"}, ShopError, id="negative-trust"),
        pytest.param({"values": "3 mm", "worn": "-1 mm"}, ShopError, id="negative-wear"),
        pytest.param({"values": "3 mm", "within": "0 mm", "made": "0 mm"}, ShopError, id="endless-trust"),
    ],
)
def test_refuses(arguments, error):
    with pytest.raises(error):
        take(**arguments)


def test_sigma_adds_two_rectangular_variances():
    # JCGM 100:2008 (GUM) 4.3.7: half-width a has standard deviation a / sqrt(3).
    one = Reading(Quantity(Fraction(10)), Quantity(Fraction(3, 10)), NOTHING)
    both = Reading(Quantity(Fraction(10)), Quantity(Fraction(3, 10)), Quantity(Fraction(4, 10)))
    assert one.sigma == pytest.approx(0.3 / sqrt(3))
    assert both.sigma == pytest.approx(0.5 / sqrt(3))


lengths = st.fractions(min_value=Fraction(1, 100), max_value=3, max_denominator=100)


@settings(max_examples=50)
@given(off=st.fractions(min_value=-2, max_value=2, max_denominator=100), within=lengths, worn=lengths)
def test_wear_is_the_normal_averaged_over_losses(off, within, worn):
    reading = Reading(Quantity(10 + off), Quantity(within), NOTHING, Quantity(worn))
    sigma = reading.sigma
    # Midpoint rule over the loss, in steps of a fortieth of sigma: (6.4 / 40)^2 / 24 is the worst
    # share that it is off by, where the density is still above what is told apart here.
    steps = 2000 + int(40 * worn / sigma)
    losses = [float(worn) * (k + 0.5) / steps for k in range(steps)]
    mean = sum(exp(-(((float(off) + x) / sigma) ** 2) / 2) for x in losses) / steps
    assert density_of(reading, Fraction(10)) == pytest.approx(
        mean / (sigma * sqrt(2 * pi)), rel=2e-3, abs=1e-9
    )


@settings(max_examples=50)
@given(within=lengths, worn=lengths)
def test_a_part_is_likeliest_to_read_half_its_wear_small(within, worn):
    def density(off):
        return density_of(
            Reading(Quantity(20 + off), Quantity(within), NOTHING, Quantity(worn)), Fraction(20)
        )

    middle = density(-worn / 2)
    for step in (Fraction(1, 10), Fraction(1, 2), Fraction(3)):
        assert density(-worn / 2 + step) == pytest.approx(density(-worn / 2 - step), rel=1e-6, abs=1e-12)
        assert density(-worn / 2 + step) <= middle * (1 + 1e-9)


def test_the_far_tail_of_a_worn_reading_keeps_its_figures():
    reading = Reading(Quantity(Fraction(10)), Quantity(Fraction(1, 10)), NOTHING, Quantity(Fraction(1, 2)))
    left, right = Fraction(10) + Fraction(1, 4), Fraction(1)
    one, two = density_of(reading, left + right), density_of(reading, left - right)
    assert 0 < one < inf
    assert one == pytest.approx(two, rel=1e-6)
