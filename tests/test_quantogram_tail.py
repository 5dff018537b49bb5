"""How high a cosine sum gets by luck: figures of the Bessel functions, trial, and the order of strengths."""

from __future__ import annotations

from fractions import Fraction
from math import log
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
