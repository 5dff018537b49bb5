"""Crown: the check value, brute force in floats, and a fit by scipy."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.layout.curve import crown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

COUNTS = st.integers(1, 12)
PITCHES = st.integers(1, 64).map(lambda n: Quantity.inches(Fraction(n, 64)))
RADII = st.integers(16, 16 * 30).map(lambda n: Quantity.inches(Fraction(n, 16)))
RULES = st.sampled_from(("8ths", "32nds", "64ths", "100ths", "mm", "half mm"))


def fits_the_circle(count: int, across: Quantity, radius: Quantity) -> bool:
    return across * (count - 1) <= 2 * radius


@st.composite
def crowns(draw):
    count, across, radius = draw(COUNTS), draw(PITCHES), draw(RADII)
    if not fits_the_circle(count, across, radius):
        across = radius / count
    return crown(count, across=across, radius=radius, tallest=2 * radius, rule=draw(RULES))


def test_the_curved_tube_rack():
    """Common practice, no source: six supports, from the middle out 11/32, 5/16, 9/32 in."""
    rack = crown(6, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds")
    read = [str(height.inch) for height in rack.read]
    assert read == ["9/32", "5/16", "11/32", "11/32", "5/16", "9/32"]
    assert [place.inch * 64 for place in rack.places] == [-65, -39, -13, 13, 39, 65]
    assert rack.exact[2] == rack.exact[3] == Quantity.inches(Fraction(11, 32))
    assert not rack.exact[2].approximate
    assert rack.exact[0].approximate
    assert [round(float(r.inch), 5) for r in rack.residual] == [0.00614, -0.00844, 0, 0, -0.00844, 0.00614]
    assert rack.worst == -rack.residual[1]


def test_without_a_tallest_height_the_outermost_stand_at_nought():
    rack = crown(5, across="3 in", radius="10 in")
    assert rack.exact[0] == rack.exact[4] == Quantity(Fraction(0))
    assert rack.tallest == rack.exact[2] == rack.drops[0]
    assert [d.inch for d in crown(5, across="3 in", radius="10 in").drops][::2] == [2, 0, 2]


def test_one_support_is_flat():
    assert crown(1, across="1 in", radius="5 in", tallest="1/2 in").fitted_radius is None
    assert crown(1, across="1 in", radius="5 in", tallest="1/2 in").read == (Quantity.inches(Fraction(1, 2)),)


def test_two_supports_are_alike_and_their_height_is_exactly_nought():
    pair = crown(2, across="1 in", radius="7 in")
    assert [(height.mm, height.approximate) for height in (*pair.exact, pair.tallest)] == [(0, False)] * 3


def test_flat_steps_have_no_radius():
    assert crown(4, across="1/16 in", radius="20 in", tallest="1/2 in", rule="16ths").fitted_radius is None


@pytest.mark.parametrize(
    ("args", "message"),
    [
        pytest.param((6, "3 in", "5 in", "1 in"), "the supports span 15 in (381 mm), which is wider than the circle: a radius of 5 in (127 mm) is 10 in (254 mm) across", id="too-wide"),
        pytest.param((3, "3 in", "5 in", "1 in"), "the outermost supports fall to nothing: the arc drops 1 in (25.4 mm) to them, so the tallest must be higher than that", id="to-nothing"),
        pytest.param((3, "3 in", "5 in", "1 1/32 in", "8ths"), "the outermost supports come to 1/32 in (0.79375 mm), which reads as nothing on 8ths: take a finer rule or a greater tallest height", id="reads-as-nothing"),
        pytest.param((0, "3 in", "5 in"), "the number of supports must be from 1 to 1,000, not 0", id="none"),
        pytest.param((3, "0 in", "5 in"), "the pitch must be above zero", id="no-pitch"),
        pytest.param((3, "1 in", "-5 in"), "the radius must be above zero", id="hollow"),
        pytest.param((3, "1 in", "5 in", "0 in"), "the tallest height must be above zero", id="no-height"),
    ],
)  # fmt: skip
def test_refusals(args, message):
    with pytest.raises(ShopError) as caught:
        crown(args[0], **dict(zip(("across", "radius", "tallest", "rule"), args[1:], strict=False)))
    assert str(caught.value) == message


def test_units_are_checked():
    with pytest.raises(DimensionError):
        crown(3, across=Quantity.number(1), radius="5 in")


@given(crowns())
def test_heights_follow_the_arc_as_math_has_it(rack):
    radius = float(rack.radius.inch)
    middle = (rack.count - 1) / 2
    falls = []
    for k in range(rack.count):
        x = (k - middle) * float(rack.across.inch)
        falls.append(radius - math.sqrt(max(0.0, radius * radius - x * x)))
    for fall, height, drop in zip(falls, rack.exact, rack.drops, strict=True):
        assert abs(float(drop.inch) - fall) < 1e-6
        assert abs(float(height.inch) - (float(rack.tallest.inch) - fall + min(falls))) < 1e-6


@given(crowns())
def test_every_height_read_is_a_mark_within_half_a_division(rack):
    for read, residual in zip(rack.read, rack.residual, strict=True):
        assert rack.rule.carries(read)
        assert abs(residual) <= rack.rule.division / 2


@given(crowns())
def test_a_crown_is_the_same_from_both_ends_and_falls_outwards(rack):
    assert rack.exact == rack.exact[::-1]
    assert rack.read == rack.read[::-1]
    half = rack.exact[rack.count // 2 :]
    assert list(half) == sorted(half, reverse=True)
    assert max(rack.exact) == rack.tallest


def squares(rack, radius: float) -> float:
    """Sum of squares of height errors of an arc of this radius at its best level."""
    heights = [float(h.inch) for h in rack.read]
    falls = []
    for place in rack.places:
        x = float(place.inch)
        falls.append(x * x / (radius + math.sqrt(max(0.0, radius * radius - x * x))))
    errors = [h + f for h, f in zip(heights, falls, strict=True)]
    level = sum(errors) / len(errors)
    return sum((e - level) ** 2 for e in errors)


@settings(max_examples=60)
@given(crowns())
def test_no_other_radius_fits_the_steps_better(rack):
    """Brute force over radii from the smallest circle that reaches to an almost flat one."""
    if rack.fitted_radius is None:
        assert len(set(rack.read)) == 1
        return
    least = float(rack.places[-1].inch)
    fitted = float(rack.fitted_radius.inch)
    assert fitted >= least * (1 - 1e-12)
    best = squares(rack, max(fitted, least))
    for k in range(1, 400):
        assert best <= squares(rack, least / (k / 400)) + 1e-12


@given(st.integers(3, 4), PITCHES, RADII)
def test_two_heights_are_met_exactly(count, across, radius):
    if not fits_the_circle(count, across, radius):
        across = radius / count
    rack = crown(count, across=across, radius=radius, tallest=2 * radius)
    if rack.fitted_radius is None:
        return
    inner, outer = rack.places[-2] if count == 4 else rack.places[1], rack.places[-1]
    step = rack.read[-2] - rack.read[-1]
    # With the centre on the middle line, `down` below the outer supports: r^2 = X^2 + down^2.
    down = (outer.mm**2 - inner.mm**2 - step.mm**2) / (2 * step.mm)
    expected = outer.mm**2 + down**2
    if down >= 0:
        assert abs(rack.fitted_radius.mm**2 / expected - 1) < Fraction(1, 10**16)
    else:  # steeper than any arc that reaches: the half circle is the nearest
        assert abs(rack.fitted_radius.mm / outer.mm - 1) < Fraction(1, 10**16)


def test_a_fine_rule_gives_the_radius_back():
    rack = crown(9, across="1/2 in", radius="7 1/4 in", tallest="2 in", rule=Rule("10000ths"))
    assert abs(rack.fitted_radius.inch - Fraction(29, 4)) < Fraction(1, 1000)
    assert rack.fitted_radius.approximate


@pytest.mark.parametrize(
    ("count", "across", "radius", "tallest", "rule"),
    [
        (6, "13/32 in", "7 1/4 in", "11/32 in", "32nds"),
        (7, "1/2 in", "5 in", "2 in", "16ths"),
        (12, "3/8 in", "9 in", "2 in", "64ths"),
        (9, "10 mm", "60 mm", "30 mm", "mm"),
    ],
)
def test_fitted_radius_as_scipy_finds_it(count, across, radius, tallest, rule):
    optimize = pytest.importorskip("scipy.optimize")
    rack = crown(count, across=across, radius=radius, tallest=tallest, rule=rule)
    least = float(rack.places[-1].inch)
    found = optimize.minimize_scalar(
        lambda k: squares(rack, 1 / k), bounds=(1e-6, 1 / least), method="bounded", options={"xatol": 1e-12}
    )
    assert abs(float(rack.fitted_radius.inch) * found.x - 1) < 1e-5
