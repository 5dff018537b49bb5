"""How high a cosine sum gets by luck: figures of the Bessel functions, trial, and the order of strengths."""

from __future__ import annotations

from fractions import Fraction
from math import cos, exp, log, pi, sin, sqrt
from random import Random

import pytest

from fractions_shop.meant.quantogram import CLOSED, _frequencies, _refined, phi, quantogram
from fractions_shop.meant.quantogram_tail import _concentration, _log_i0, _ratio, reached_by_luck
from fractions_shop.size.quantity import Quantity

# Abramowitz and Stegun, table 9.8 (NBS AMS 55): exp(-x) I0(x) and exp(-x) I1(x).
BESSEL = [
    (1.0, 0.4657596077, 0.2079104154),
    (5.0, 0.1835408126, 0.1639722669),
    (10.0, 0.1278333372, 0.1212626814),
]


@pytest.mark.parametrize(("x", "i0", "i1"), BESSEL)
def test_bessel_functions_as_printed(x: float, i0: float, i1: float) -> None:
    assert _log_i0(x) == pytest.approx(log(i0) + x, abs=1e-8)
    assert _ratio(x) == pytest.approx(i1 / i0, rel=1e-8)
    assert _concentration(i1 / i0) == pytest.approx(x, rel=1e-6)


@pytest.mark.parametrize("x", [29.9999, 199.9999])
def test_series_meet_where_one_takes_over(x: float) -> None:
    assert _log_i0(x) == pytest.approx(_log_i0(x + 2e-4) - 2e-4 * _ratio(x), abs=1e-6)
    assert _ratio(x) == pytest.approx(_ratio(x + 2e-4), abs=1e-6)


def test_false_alarms_come_as_often_as_they_say() -> None:
    """200 sets without a quantum: 10 at 1 in 20 and 2 at 1 in 100 are expected; the bounds are of 1 in 1000 (binomial)."""
    random = Random(3)
    twentieth = hundredth = 0
    for _ in range(200):
        values = [random.uniform(8, 40) for _ in range(CLOSED)]
        steps = _frequencies(values, 2.0, min(values))
        _, score = _refined(values, steps, [phi(values, 1 / step) for step in steps])
        luck = reached_by_luck(values, score, steps[0], steps[-1])
        twentieth += luck <= 0.05
        hundredth += luck <= 0.01
    assert 2 <= twentieth <= 21
    assert hundredth <= 8


def sixteenths(count: int) -> list[Quantity]:
    return [Quantity.inches(Fraction(n, 16)) for n in (3, 5, 7, 9, 10, 11, 13, 16, 17, 19, 22, 23)[:count]]


def test_twelve_perfect_sixteenths_are_stronger_than_eleven() -> None:
    eleven, twelve = (
        quantogram(sixteenths(count), "0.05 mm", trials=None, work=250_000) for count in (11, 12)
    )
    assert eleven.reached == 0
    assert eleven.trials > 0
    assert twelve.trials == 0
    assert twelve.significance < eleven.significance


def test_a_score_that_sizes_at_random_often_reach_is_worth_nothing() -> None:
    values = [9.0 + k for k in range(12)]
    assert reached_by_luck(values, 1.0, 0.05, 1.0) == pytest.approx(1, abs=1e-3)
    assert reached_by_luck(values, -1.0, 0.05, 1.0) == 1
    assert reached_by_luck(values, 24**0.5, 0.05, 1.0) == 0


# Against sums of cosines worked out by themselves: their density from the characteristic function, which for a cosine
# of an even phase is J0 (DLMF 10.9.1), and the slope there from the phases that make such a sum.


def bessel_j0(x: float) -> float:
    """J0 by the trapezoidal rule on its integral, which is exact to rounding for a smooth period (DLMF 10.9.1)."""
    return sum(cos(x * sin(pi * (k + 0.5) / 64)) for k in range(64)) / 64


FREQUENCIES = [0.04 * k for k in range(1, 1500)]
POWERS = {n: [bessel_j0(w) ** n for w in FREQUENCIES] for n in (11, 12)}


def density_of_sum(count: int, total: float) -> float:
    """How dense sums of so many cosines of even phases lie at `total`."""
    terms = (power * cos(w * total) for w, power in zip(FREQUENCIES, POWERS[count], strict=True))
    return 0.04 / pi * (0.5 + sum(terms))


def sine_squared(total: float) -> float:
    """The mean square of the sine of one of twelve phases whose cosines add up to `total`."""
    angles = [2 * pi * (k + 0.5) / 240 for k in range(240)]
    shares = [density_of_sum(11, total - cos(angle)) for angle in angles]
    return sum(sin(a) ** 2 * share for a, share in zip(angles, shares, strict=True)) / sum(shares)


@pytest.mark.parametrize("u", [2.2, 2.9, 3.6])
def test_the_rate_of_climbs_is_density_times_mean_slope(u: float) -> None:
    """By Rice's formula; the saddlepoint and the von Mises phases are true to some three per cent of it for twelve sizes."""
    values = [9.0 + 2.3 * k for k in range(12)]
    total = u * sqrt(6)
    density = density_of_sum(12, total) * sqrt(6)  # of phi, which is the sum over sqrt(N / 2)
    slope = sqrt(2 / 12 * sum((2 * pi * x) ** 2 for x in values) * sine_squared(total))

    def climbs(last: float) -> float:
        return -log(1 - reached_by_luck(values, u, 0.1, last))

    # The start adds the same to both, and drops out.
    assert climbs(0.3) - climbs(0.2) == pytest.approx(0.1 * density * slope / sqrt(2 * pi), rel=0.03)


@pytest.mark.parametrize("u", [0.1, 0.2, 0.3, 2.2, 2.9, 3.6])
def test_of_no_way_at_all_only_the_start_is_left(u: float) -> None:
    """The chance of being above u at one place: the density summed from there, to a fifth (see the comment in the code)."""
    values = [9.0 + 2.3 * k for k in range(12)]
    tail = sum(
        density_of_sum(12, u * sqrt(6) + 0.02 * (k + 0.5)) * 0.02
        for k in range(int((12 - u * sqrt(6)) / 0.02))
    )
    assert reached_by_luck(values, u, 0.2, 0.2) == pytest.approx(tail, rel=0.2)


@pytest.mark.parametrize(("t", "within"), [(30.5, 2e-7), (60.0, 1e-8), (150.0, 5e-10)])
def test_the_asymptotic_series_of_log_i0_is_true_to_its_first_term_left_out(t: float, within: float) -> None:
    """Against the integral of I0, by the trapezoidal rule (DLMF 10.32.1); the next term is 11025 / (98304 t^4)."""
    scaled = sum(exp(t * (cos(pi * (k + 0.5) / 400) - 1)) for k in range(400)) / 400
    assert abs(_log_i0(t) - (t + log(scaled))) < within


@pytest.mark.parametrize(("t", "within"), [(3.0, 1e-12), (150.0, 1e-12), (200.0, 2e-10), (1000.0, 1e-12)])
def test_the_ratio_is_that_of_the_integrals(t: float, within: float) -> None:
    """I1 / I0 by the integrals of both (DLMF 10.32.3); past 200 the first term left out is 25 / (128 t^4)."""
    weights = [exp(t * (cos(pi * (k + 0.5) / 900) - 1)) for k in range(900)]
    mean = sum(w * cos(pi * (k + 0.5) / 900) for k, w in enumerate(weights)) / sum(weights)
    assert abs(_ratio(t) - mean) < within


def test_a_perfect_quantum_is_told_from_no_greater_concentration() -> None:
    assert 1e7 <= _concentration(1 - 1e-12) <= 2e7


def test_thirteen_sizes_are_in_the_closed_form_too() -> None:
    thirteen = [Quantity.inches(Fraction(n, 16)) for n in (3, 5, 7, 9, 10, 11, 13, 16, 17, 19, 22, 23, 26)]
    found = quantogram(thirteen, "0.05 mm")
    assert (found.trials, found.reached) == (0, 0)
    assert found.significance < 1e-6


def test_its_worth_is_that_of_the_whole_way_that_was_searched() -> None:
    random = Random(11)
    values = [random.uniform(9, 40) for _ in range(14)]
    found = quantogram([Quantity(Fraction(round(v * 1000), 1000)) for v in values], "0.1 mm", low="1 mm")
    sizes = [round(v * 1000) / 1000 for v in values]
    first, last = 1 / found.curve[0][0], 1 / found.curve[-1][0]
    assert last >= 1 > last - 1 / (5 * max(sizes)) - 1e-9
    assert found.significance == pytest.approx(reached_by_luck(sizes, found.score, first, last))
    assert found.significance > 2 * reached_by_luck(sizes, found.score, first, first)
