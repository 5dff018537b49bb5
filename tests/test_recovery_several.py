"""Several readings weighed together: the stated rule worked again in plain numbers."""

from __future__ import annotations

from fractions import Fraction
from math import exp, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.meant.recover import Recovered, recover
from fractions_shop.size.quantity import Quantity

INCH = Fraction(254, 10)
MADE = 0.05  # mm, bench work to a rule: common practice, no source

# The prior as its module states it, written out afresh: hundredths of each system.
FRACTIONS = {1: 5, 2: 10, 4: 15, 8: 20, 16: 25, 32: 15, 64: 10}
DECIMALS = {"0.1": 15, "0.05": 15, "0.01": 30, "0.005": 15, "0.001": 25}
METRIC = {"10": 15, "5": 25, "1": 40, "0.5": 15, "0.1": 5}

Way = tuple[str, Fraction, float]  # system, step in mm, weight


def ways(odds: float = 20.0) -> list[Way]:
    inch, metric = odds / (1 + odds), 1 / (1 + odds)
    found = [("inch fractions", INCH / n, inch * 0.85 * w / 100) for n, w in FRACTIONS.items()]
    found += [("decimal inch", INCH * Fraction(t), inch * 0.15 * w / 100) for t, w in DECIMALS.items()]
    return found + [("metric", Fraction(t), metric * w / 100) for t, w in METRIC.items()]


def spread(within: float) -> float:
    """Two rectangular errors as one normal (JCGM 100:2008, 4.3.7)."""
    return sqrt((within**2 + MADE**2) / 3)


def offsets(size: Fraction, step: Fraction, sigma: float) -> list[tuple[Fraction, float]]:
    """The marks within six sigma, as far as they are sought, and how many sigma they are off."""
    nearest, reach = round(size / step), int(6 * sigma / float(step)) + 2
    marks = [k * step for k in range(max(1, nearest - reach), nearest + reach + 1)]
    offs = [(mark, float(size - mark) / sigma) for mark in marks]
    return [(mark, off) for mark, off in offs if abs(off) <= 6]


def likelihood(size: Fraction, step: Fraction, sigma: float) -> float:
    """The step times the density of the reading, summed over the marks about it."""
    densities = [exp(-off * off / 2) for _, off in offsets(size, step, sigma)]
    return float(step) * sum(densities) / (sigma * sqrt(2 * pi))


def gain(size: Fraction, step: Fraction, sigma: float, count: int) -> float:
    """A shop with a division strays from it at half of 1 in 20; of three or more 3 in 100 are misread.

    A division eight times finer than the spread tells nothing.
    """
    if 8 * float(step) < sigma:
        return 1.0
    stray = 0.025 / 0.975 + (0.03 if count > 2 else 0)
    return stray + (1 - stray) * likelihood(size, step, sigma)


def shares(sizes: list[Fraction], sigma: float) -> list[float]:
    """The probability of every way, and last of none, which is the other half of 1 in 20."""
    masses = []
    for _, step, weight in ways():
        mass = 0.975 * weight
        for size in sizes:
            mass *= gain(size, step, sigma, len(sizes))
        masses.append(mass)
    masses.append(0.025)
    return [mass / sum(masses) for mass in masses]


hundredths = st.integers(200, 9000).map(lambda n: Fraction(n, 100))
on_8ths = st.integers(2, 24).map(lambda n: round(n * INCH / 8, 2))
on_5_mm = st.integers(1, 12).map(lambda n: Fraction(5 * n))
several = (
    st.lists(hundredths, min_size=2, max_size=5, unique=True)
    | st.lists(on_8ths, min_size=2, max_size=5, unique=True)
    | st.lists(on_5_mm | hundredths, min_size=2, max_size=5, unique=True)
)
trusts = st.sampled_from([Fraction(1, 100), Fraction(1, 20), Fraction(1, 5), Fraction(3, 4)])


def asked(sizes: list[Fraction], within: Fraction) -> Recovered:
    return recover([Quantity(size) for size in sizes], within=Quantity(within))


@settings(max_examples=30)
@given(several, trusts)
def test_each_way_explains_the_readings_as_well_as_the_products_of_their_likelihoods(
    sizes: list[Fraction], within: Fraction
) -> None:
    sigma = spread(float(within))
    found = asked(sizes, within).explanations
    worked = shares(sizes, sigma)
    assert [e.probability for e in found] == sorted((e.probability for e in found), reverse=True)
    assert [e.probability for e in found] == pytest.approx(sorted(worked, reverse=True), rel=1e-6, abs=1e-12)
    assert len(found) == len(ways()) + 1
    for one in found:
        assert one.odds == pytest.approx(one.probability / max(1 - one.probability, 1e-15), rel=1e-6)
        if one.system == "no system":
            assert (one.better, one.meant, one.worst, one.division) == (1, (), None, "none")
            assert one.probability == pytest.approx(worked[-1], rel=1e-6, abs=1e-12)


@settings(max_examples=30)
@given(several, trusts)
def test_how_much_better_is_the_product_of_the_gains(sizes: list[Fraction], within: Fraction) -> None:
    sigma = spread(float(within))
    products = []
    for _, step, _ in ways():
        product = 1.0
        for size in sizes:
            product *= gain(size, step, sigma, len(sizes))
        products.append(product)
    found = [e.better for e in asked(sizes, within).explanations if e.system != "no system"]
    assert sorted(found) == pytest.approx(sorted(products), rel=1e-6)


@settings(max_examples=30)
@given(several, st.sampled_from([Fraction(1, 100), Fraction(1, 20)]))
def test_what_was_meant_is_the_nearest_mark_within_six_sigma(sizes: list[Fraction], within: Fraction) -> None:
    steps = {"metric": {f"{t} mm": Fraction(t) for t in METRIC}}
    steps["decimal inch"] = {f"{t} in": Fraction(t) * INCH for t in DECIMALS}
    names = {1: "whole inches", 2: "halves", 4: "quarters", 8: "8ths", 16: "16ths", 32: "32nds", 64: "64ths"}
    steps["inch fractions"] = {name: INCH / n for n, name in names.items()}
    reach = 6 * spread(float(within))
    for one in asked(sizes, within).explanations:
        if one.system == "no system":
            continue
        step, offs = steps[one.system][one.division], []
        for size, meant in zip(sizes, one.meant, strict=True):
            nearest = max(1, round(size / step)) * step
            if abs(nearest - size) > reach:
                assert meant is None
                continue
            assert meant is not None
            assert (meant.mm / step).denominator == 1
            assert abs(meant.mm - size) == abs(nearest - size)
            offs.append(abs(nearest - size))
        assert (one.worst and one.worst.mm) == (max(offs) if offs else None)


def test_what_was_meant_by_worn_parts_is_nearest_to_half_the_wear_above() -> None:
    found = recover(["12.55 mm", "25.25 mm"], worn="0.3 mm")
    (tenths,) = [e for e in found.explanations if e.division == "0.1 mm"]
    assert [m and m.mm for m in tenths.meant] == [Fraction("12.7"), Fraction("25.4")]
    assert tenths.worst == Quantity(Fraction("0.15"))


@pytest.mark.parametrize(
    ("sizes", "quantum"),
    [
        pytest.param(["10.0 mm", "20.0 mm", "25.0 mm"], 5, id="three"),
        pytest.param(["10.0 mm", "20.0 mm"], None, id="two always have one"),
    ],
)
def test_a_quantum_is_sought_in_three_readings_or_more(sizes: list[str], quantum: float | None) -> None:
    found = recover(sizes).quantogram
    assert (found and float(found.quantum.mm)) == (quantum and pytest.approx(quantum, abs=0.01))


def test_the_roughest_reading_says_how_far_the_quantum_is_to_be_trusted() -> None:
    # One standard deviation of a common factor of sizes x each good to w evenly:
    # q (w / sqrt 3) / sqrt(sum of x^2), by propagation of error.
    found = recover(["10.0 mm", "20.00 mm", "25.00 mm"]).quantogram
    assert found is not None
    assert found.quantum.within is not None
    wanted = 5 * 0.05 / sqrt(3) / sqrt(10**2 + 20**2 + 25**2)
    assert float(found.quantum.within.mm) == pytest.approx(wanted, abs=1e-5)


class TestOneReading:
    @pytest.mark.parametrize(
        ("reading", "chance"),
        [
            # Five whole inches in 5 in (127 mm), each 0.02 mm on either side; nothing else is as readable.
            pytest.param("50.82 mm", 5 * 0.04 / 127, id="inches"),
            # Ten halves in 127 mm, 0.05 mm on either side.
            pytest.param("12.75 mm", 10 * 0.10 / 127, id="halves"),
            # Read to the tenth, a difference of 0.03 mm counts as the 0.05 mm of the reading itself.
            pytest.param("76.2 mm", 5 * 0.10 / 127, id="within"),
        ],
    )
    def test_the_chance_of_as_good_a_match_with_whole_and_half_inches(
        self, reading: str, chance: float
    ) -> None:
        assert recover(reading).candidates[0].chance == pytest.approx(chance, rel=1e-9)

    def test_a_certainty_has_odds_that_a_float_can_hold(self) -> None:
        found = recover([f"{10 * n}.000 mm" for n in range(1, 61)], made="0 mm")
        assert found.system is not None
        assert found.system.division == "10 mm"
        assert 1e9 < found.system.odds <= 1.0000001e15
        assert found.system.better <= exp(700)

    def test_several_of_which_one_fits_nothing_give_fewer_candidates(self) -> None:
        found = recover(["51.5 mm", Quantity.measured(51.5, "mm", within="2000 mm")])
        assert len(found.readings) == 2
        assert [c.name for c in found.candidates] == ["2 1/32 in"]


def test_readings_trusted_without_limit_are_weighed_without_a_quantogram() -> None:
    """Found by fuzzing: `within 0 in` of three readings could not be shown."""
    from fractions_shop import Session

    answer = Session().answer("recover 51.5 mm, 66.7 mm, 10.3 mm within 0 in")
    assert answer is not None
    assert answer.result.quantogram is None
    assert "quantogram" not in answer.text()
    assert len(answer.result.candidates) == 3
