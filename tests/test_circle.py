"""Arcs, chords, bolt circles and tapers against handbook figures, `math` and each other."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Session
from fractions_shop.errors import DimensionError, FloatRefused, ShopError
from fractions_shop.layout.circle import (
    FUNCTIONS,
    arc,
    bolt_circle,
    chord,
    girth,
    per_foot,
    pi,
    radius_from,
    sagitta,
    set_over,
    step_chord,
    taper_angle,
    taper_at,
    taper_per_foot,
)
from fractions_shop.layout.marks import mark
from fractions_shop.requests.help import topic
from fractions_shop.size.quantity import Angle, Quantity

LENGTHS = st.integers(1, 64 * 40).map(lambda n: Quantity.inches(Fraction(n, 64)))
COUNTS = st.integers(2, 200)


def degrees(*parts: int | str) -> Angle:
    """Degrees, minutes and seconds as an angle."""
    return Angle(sum((Fraction(p) / 60**k for k, p in enumerate(parts)), Fraction(0)))


def near(size: Quantity, inch: float, places: float = 1e-12) -> bool:
    return abs(float(size.inch) - inch) <= places * max(1.0, abs(inch))


# Handbook figures


@pytest.mark.parametrize(
    ("count", "length"),
    [
        # Machinery's Handbook, lengths of chords for a circle of diameter 1 (from memory).
        (3, "0.866025"), (4, "0.707107"), (5, "0.587785"), (6, "0.500000"), (7, "0.433884"),
        (8, "0.382683"), (9, "0.342020"), (10, "0.309017"), (12, "0.258819"), (16, "0.195090"),
        (20, "0.156434"), (24, "0.130526"), (32, "0.098017"),
    ],
)  # fmt: skip
def test_step_chords_of_a_unit_circle(count, length):
    assert round(step_chord("1 in", count).inch, 6) == Fraction(length)


@pytest.mark.parametrize(
    ("large", "small", "length", "per_foot"),
    [
        # Morse tapers 0 to 5 (ANSI/ASME B5.10, from memory): the plug's diameters at gauge
        # line and small end, its depth, and the taper per foot listed for it.
        pytest.param("0.3561 in", "0.252 in", "2 in", "0.62460", id="Morse-0"),
        pytest.param("0.475 in", "0.369 in", "2 1/8 in", "0.59859", id="Morse-1"),
        pytest.param("0.700 in", "0.572 in", "2 9/16 in", "0.59941", id="Morse-2"),
        pytest.param("0.938 in", "0.778 in", "3 3/16 in", "0.60235", id="Morse-3"),
        pytest.param("1.231 in", "1.020 in", "4 1/16 in", "0.62326", id="Morse-4"),
        pytest.param("1.748 in", "1.475 in", "5 3/16 in", "0.63151", id="Morse-5"),
        # Jarno tapers (common practice, no source): number N is N/8 in large, N/10 in
        # small and N/2 in long, so 0.6 in to the foot throughout.
        pytest.param("5/8 in", "0.5 in", "2 1/2 in", "0.6", id="Jarno-5"),
        pytest.param("2 1/2 in", "2 in", "10 in", "0.6", id="Jarno-20"),
        # The steep spindle taper of 7 in 24 (ISO 297, from memory): 3 1/2 in to the foot.
        pytest.param("7 in", "0 in", "24 in", "3.5", id="7-in-24"),
    ],
)
def test_tapers_per_foot(large, small, length, per_foot):
    assert abs(taper_per_foot(large, small, length).inch - Fraction(per_foot)) < Fraction(1, 100_000)


@pytest.mark.parametrize(
    ("per_foot", "angle", "seconds"),
    [
        # Machinery's Handbook, tapers per foot and corresponding angles (from memory). The
        # remembered figures are a few seconds low, as in the older printings: by
        # 2 atan(t/24) the taper of 1/2 in is 2° 23' 13".
        ("1/8 in", (0, 35, 48), 2),
        ("1/4 in", (1, 11, 36), 2),
        ("1/2 in", (2, 23, 10), 4),
        ("3/4 in", (3, 34, 44), 6),
        ("1 in", (4, 46, 18), 2),
        # 7 in 24: 16° 35' 40" (ISO 297, from memory).
        ("3.5 in", (16, 35, 40), 1),
    ],
)
def test_included_angles_of_tapers(per_foot, angle, seconds):
    found = taper_angle(per_foot, "0 in", "12 in")
    assert abs(found - degrees(*angle)) <= degrees(0, 0, seconds)
    assert found.approximate
    back = taper_at(found)
    assert near(back, float(taper_per_foot(per_foot, "0 in", "1 ft").inch), 1e-25)


def test_half_inch_to_the_foot_to_a_tenth_of_a_second():
    assert abs(taper_angle("1/2 in", "0 in", "1 ft") - degrees(2, 23, "13.1")) < degrees(0, 0, "0.05")


# By plain geometry: right triangles with whole sides are exact, and are not marked.


@pytest.mark.parametrize(
    ("found", "inches"),
    [
        pytest.param(sagitta("8 in", "5 in"), "2", id="sagitta-3-4-5"),
        pytest.param(sagitta("10 in", "5 in"), "5", id="sagitta-half-circle"),
        pytest.param(radius_from("8 in", "2 in"), "5", id="radius-3-4-5"),
        pytest.param(radius_from("8 in", "8 in"), "5", id="radius-greater-arc"),
        pytest.param(radius_from("24 in", "8 in"), "13", id="radius-5-12-13"),
        pytest.param(chord("2 in", Angle(Fraction(60))), "2", id="chord-sixth"),
        pytest.param(chord("2 in", Angle(Fraction(180))), "4", id="chord-diameter"),
        pytest.param(chord("2 in", Angle(Fraction(360))), "0", id="chord-all-round"),
        pytest.param(step_chord("3 in", 6), "3/2", id="hexagon"),
        pytest.param(step_chord("3 in", 2), "3", id="two-steps"),
        pytest.param(taper_at(Angle(Fraction(90))), "24", id="right-angle-taper"),
        pytest.param(taper_at(Angle(Fraction(0))), "0", id="no-taper"),
    ],
)
def test_exact_results_are_exact(found, inches):
    assert (found.inch, found.approximate) == (Fraction(inches), False)


def test_exact_angles_are_exact():
    assert taper_angle("24 in", "0 in", "12 in") == Angle(Fraction(90))
    assert not taper_angle("24 in", "0 in", "12 in").approximate
    assert taper_angle("1 in", "1 in", "12 in") == Angle(Fraction(0))
    assert not taper_angle("1 in", "1 in", "12 in").approximate


@pytest.mark.parametrize(
    "found",
    [
        sagitta("4 in", "7 1/4 in"),
        chord("2 in", Angle(Fraction(45))),
        chord("2 in", Angle(Fraction(60), True)),
        step_chord("3 in", 7),
        taper_at(Angle(Fraction(3))),
        bolt_circle(3, "3 in")[1].y,
        sagitta(Quantity.measured(8.0, "in", "0.01 in"), "5 in"),
    ],
)
def test_what_is_not_exact_says_so(found):
    assert found.approximate


# Laws


@given(LENGTHS, LENGTHS)
def test_sagitta_as_math_has_it(length, radius):
    if length > 2 * radius:
        with pytest.raises(ShopError):
            sagitta(length, radius)
        return
    r, c = float(radius.inch), float(length.inch)
    assert near(sagitta(length, radius), r - math.sqrt(max(0.0, r * r - c * c / 4)), 1e-9)


@given(LENGTHS, LENGTHS)
def test_radius_from_undoes_sagitta(length, radius):
    if length <= 2 * radius:
        height = sagitta(length, radius)
        assert abs(radius_from(length, height).inch - radius.inch) < Fraction(1, 10**15)


@given(LENGTHS, st.fractions(min_value="1/100", max_value=360, max_denominator=3600))
def test_chord_as_math_has_it(radius, angle):
    expected = 2 * float(radius.inch) * math.sin(math.radians(float(angle)) / 2)
    assert near(chord(radius, Angle(angle)), expected)


@given(LENGTHS, COUNTS)
def test_a_step_is_the_chord_of_its_share_of_the_circle(diameter, count):
    step = step_chord(diameter, count)
    assert abs(step.mm - chord(diameter / 2, Angle(Fraction(360, count))).mm) < Fraction(1, 10**20)


@given(LENGTHS, COUNTS, st.fractions(min_value=-360, max_value=360, max_denominator=60))
def test_holes_lie_on_the_circle_one_step_apart(diameter, count, start):
    holes = bolt_circle(count, diameter, Angle(start))
    assert len(holes) == count
    step = step_chord(diameter, count)
    tiny = Fraction(1, 10**20)
    for one, two in zip(holes, (*holes[1:], holes[0]), strict=True):
        assert abs(one.x.mm**2 + one.y.mm**2 - (diameter.mm / 2) ** 2) < tiny
        assert abs((one.x - two.x).mm ** 2 + (one.y - two.y).mm ** 2 - step.mm**2) < tiny
    assert near(holes[0].x, float(diameter.inch) / 2 * math.cos(math.radians(float(start))))
    assert near(holes[0].y, float(diameter.inch) / 2 * math.sin(math.radians(float(start))))


@given(LENGTHS, LENGTHS, LENGTHS)
def test_taper_angle_as_math_has_it(one, other, length):
    small, large = sorted((one, other))
    expected = 2 * math.degrees(math.atan(float((large - small).inch) / 2 / float(length.inch)))
    assert abs(float(taper_angle(large, small, length).degrees) - expected) < 1e-10
    assert taper_per_foot(large, small, length) * length == (large - small) * Quantity.of(1, "ft")


# Refusals


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: sagitta("11 in", "5 in"), "a chord of 11 in (279.4 mm) does not fit in a circle of radius 5 in (127 mm): it is 10 in (254 mm) wide"),
        (lambda: sagitta("0 in", "5 in"), "the chord must be above zero, not 0 in (0 mm)"),
        (lambda: radius_from("4 in", "-1 in"), "the height must be above zero, not -1 in (-25.4 mm)"),
        (lambda: chord("2 in", Angle(Fraction(361))), "the angle must be over 0 up to 360 degrees, not 361"),
        (lambda: chord("2 in", Angle(Fraction(0))), "the angle must be over 0 up to 360 degrees, not 0"),
        (lambda: step_chord("2 in", 1), "one step does not divide a circle: give 2 or more"),
        (lambda: bolt_circle(0, "2 in"), "the number of holes must be from 1 to 1,000, not 0"),
        (lambda: taper_angle("1 in", "2 in", "3 in"), "a taper goes from its large diameter to its small one: 1 in (25.4 mm) and 2 in (50.8 mm) do not"),
        (lambda: taper_angle("2 in", "1 in", "0 in"), "the length of the taper must be above zero, not 0 in (0 mm)"),
        (lambda: taper_at(Angle(Fraction(180))), "an included angle of taper is from 0 to under 180 degrees, not 180"),
    ],
)  # fmt: skip
def test_refusals(call, message):
    with pytest.raises(ShopError) as caught:
        call()
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("call", "error"),
    [
        (lambda: chord("2 in", 45), DimensionError),
        (lambda: chord("2 in", "45 in"), DimensionError),
        (lambda: bolt_circle(3, "2 in", Fraction(30)), DimensionError),
        (lambda: sagitta(4, "5 in"), DimensionError),
        (lambda: radius_from(Quantity(Fraction(1), 2), "5 in"), DimensionError),
        (lambda: sagitta(4.0, "5 in"), FloatRefused),
    ],
)
def test_units_are_checked(call, error):
    with pytest.raises(error):
        call()


def test_every_function_for_the_language_has_help_and_an_example_of_itself():
    for name, (function, helped, example) in FUNCTIONS.items():
        assert function.__name__ == name
        assert helped
        assert example.startswith(f"{name}(")


# The way round


def test_help_tells_of_pi():
    found = topic("pi")
    assert found is not None
    assert Session().answer(found.example).value.mm == girth("48 in").mm


def test_pi_to_thirty_figures():
    # The first 30 figures of pi (from memory), and Python's own float.
    assert pi().value == Fraction("3.14159265358979323846264338328")
    assert float(pi().value) == math.pi
    assert (pi().power, pi().approximate) == (0, True)


@given(LENGTHS, st.fractions(Fraction(1, 100), 360))
def test_an_arc_is_its_part_of_the_girth_and_never_shorter_than_its_chord(radius, part):
    angle = Angle(part)
    along = arc(radius, angle)
    assert along.approximate
    assert near(along, math.radians(float(part)) * float(radius.inch))
    assert abs(along.inch - girth(2 * radius).inch * part / 360) < Fraction(1, 10**24) * along.inch
    assert along > chord(radius, angle)


def test_a_girth_divides_into_marks():
    # Worked with Python's float: 48 pi / 32 in.
    found = mark(girth("48 in"), 32)
    assert near(found.exact[1], 48 * math.pi / 32)
    assert all(exact.approximate for exact in found.exact[1:])


@pytest.mark.parametrize("size", ["0 in", "-1 in"])
def test_a_girth_needs_a_circle(size):
    with pytest.raises(ShopError, match="the diameter must be above zero"):
        girth(size)
    with pytest.raises(ShopError, match="the radius must be above zero"):
        arc(size, degrees(45))
    with pytest.raises(ShopError, match="over 0 up to 360"):
        arc("1 in", degrees(361))


# Per foot and set over


@pytest.mark.parametrize(
    ("per", "length", "over"),
    [
        # Worked by hand: half of what the taper gains over the whole length between centres.
        ("1/2 in", "9 in", "3/16"),
        ("1/8 in", "12 in", "1/16"),
        ("5/8 in", "8 in", "5/24"),
        ("0 in", "8 in", "0"),
    ],
)
def test_set_over_of_a_tailstock(per, length, over):
    found = set_over(per_foot(per), length)
    assert (found.inch, found.approximate) == (Fraction(over), False)


@given(LENGTHS, LENGTHS, LENGTHS)
def test_a_set_over_is_half_the_difference_of_a_taper_as_long_as_the_work(small, more, length):
    slope = per_foot(taper_per_foot(small + more, small, length))
    assert set_over(slope, length) == more / 2


def test_a_taper_is_a_plain_number():
    with pytest.raises(DimensionError, match=r"such as per_foot\(1/2 in\) if that is gained in a foot"):
        set_over("1/2 in", "9 in")
    with pytest.raises(DimensionError, match="a taper is a plain number"):
        set_over(Quantity(Fraction(1), 2), "9 in")
    with pytest.raises(ShopError, match="must not be negative"):
        set_over(Quantity.number(-1), "9 in")
    with pytest.raises(ShopError, match="must not be negative"):
        per_foot("-1 in")
    with pytest.raises(ShopError, match="the length between centres must be above zero"):
        set_over(per_foot("1/2 in"), "0 in")
