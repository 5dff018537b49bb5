"""Where a quantum is sought, how finely and how often it is tried by luck, in figures."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import sqrt
from random import Random

import pytest

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.quantogram import Quantogram, phi, quantogram
from fractions_shop.size.quantity import Quantity

THREE = ["10 mm", "20 mm", "25 mm"]


def sought(sizes: list[str], within: str, **more: object) -> Quantogram:
    return quantogram(sizes, within, trials=1, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("sizes", "within", "more", "low", "high"),
    [
        pytest.param(THREE, "0.05 mm", {}, 25.4 / 64, 10, id="no rule is finer than 64ths"),
        pytest.param(THREE, "0.3 mm", {}, 4 * 0.3 / sqrt(3), 10, id="nothing finer can be told"),
        pytest.param(["100 mm", "200 mm", "300 mm"], "0.05 mm", {}, 300 / 256, 100, id="256 in the largest"),
        pytest.param(THREE, "0.05 mm", {"low": "2 mm", "high": "6 mm"}, 2, 6, id="as given"),
        pytest.param(THREE, "0.05 mm", {"low": "0.1 mm"}, 0.1, 10, id="finer than a rule, if asked"),
        pytest.param(THREE, "0.05 mm", {"low": "0.01 mm"}, 25 / 256, 10, id="but not finer than that"),
    ],
)
def test_from_what_to_what(
    sizes: list[str], within: str, more: dict[str, str], low: float, high: float
) -> None:
    found = sought(sizes, within, **more)
    assert float(found.low.mm) == pytest.approx(low, rel=1e-6)
    assert float(found.high.mm) == high


def test_an_empty_range_has_no_quantum() -> None:
    for more in ({"low": "10 mm"}, {"low": "5 mm", "high": "5 mm"}, {"low": "6 mm", "high": "5 mm"}):
        with pytest.raises(NoAnswer, match="too small, or too roughly read, to look for a quantum"):
            sought(THREE, "0.05 mm", **more)


@pytest.mark.parametrize(
    ("sizes", "within", "said"),
    [
        (THREE[:2], "0.05 mm", "three sizes or more: two always have one"),
        (["0 mm", *THREE], "0.05 mm", "must be above zero"),
        (THREE, "0 mm", "must be above zero"),
        (["-1 mm", *THREE], "0.05 mm", "must be above zero"),
    ],
)
def test_what_has_no_quantum_is_refused(sizes: list[str], within: str, said: str) -> None:
    with pytest.raises(ShopError, match=said):
        sought(sizes, within)


def test_the_curve_meets_every_peak_in_even_steps_of_frequency() -> None:
    # Five steps of 1/q to a turn of the largest: 125 (64/25.4 - 1/10) = 302.5 of them, and one at each end.
    found = sought(THREE, "0.05 mm")
    assert len(found.curve) == 304
    turns = [1 / q for q, _ in found.curve]
    assert turns[0] == pytest.approx(1 / 10)
    assert turns[-1] >= 64 / 25.4 > turns[-2]
    assert [b - a for a, b in pairwise(turns)] == pytest.approx([1 / 125] * 303)
    assert [score for _, score in found.curve] == pytest.approx(
        [phi([10, 20, 25], q) for q, _ in found.curve]
    )


@pytest.mark.parametrize(
    ("work", "trials"),
    # So many cosines over 3 sizes and 304 quanta, from 19 to 999 trials.
    [(1_500_000, 999), (911_999, 999), (400_000, 438), (18_240, 20), (18_000, 19), (1, 19)],
)
def test_as_many_trials_as_the_work_allows(work: int, trials: int) -> None:
    assert quantogram(THREE, "0.05 mm", work=work).trials == trials


@pytest.mark.parametrize("trials", [1, 39, 200])
def test_worth_is_how_often_luck_does_as_well_the_observed_counted_in(trials: int) -> None:
    sizes = [f"{k} mm" for k in (10, 20, 25, 30, 45, 65, 70, 95, 110, 15, 35, 55)]
    assert quantogram(sizes, "0.05 mm", trials=trials).significance == 1 / (1 + trials)


def test_sizes_shaken_by_the_same_seed_say_how_often_luck_does_as_well() -> None:
    """Kendall's trial written out afresh: each size between half and one and a half of itself."""
    sizes = [13.37, 29.11, 41.83, 17.67, 36.23]
    found = quantogram([Quantity(Fraction(round(s * 100), 100)) for s in sizes], "0.3 mm", trials=50)
    best = max(score for _, score in found.curve)
    random, reached = Random(1974), 0
    for _ in range(50):
        shaken = [size * (0.5 + random.random()) for size in sizes]
        reached += max(phi(shaken, q) for q, _ in found.curve) >= best - 1e-9
    assert 1 < reached < 50
    assert found.significance == pytest.approx((1 + reached) / 51)


def test_the_best_quantum_is_climbed_to_between_the_steps() -> None:
    # Three multiples of 3.17 mm: the top of the peak is there whatever the steps are.
    found = quantogram(["12.68 mm", "19.02 mm", "28.53 mm"], "0.05 mm", trials=1)
    assert float(found.quantum.mm) == pytest.approx(3.17, abs=1e-5)
    assert found.score == pytest.approx(sqrt(6), abs=1e-9)
    assert found.score >= max(score for _, score in found.curve)


def test_the_quantum_says_one_standard_deviation_and_never_nought() -> None:
    # q (w / sqrt 3) / sqrt(sum x^2), by propagation of error; 0.00001 mm at least.
    found = quantogram(THREE, "0.3 mm", trials=1)
    assert found.quantum.within is not None
    assert float(found.quantum.within.mm) == pytest.approx(5 * 0.3 / sqrt(3) / sqrt(1125), abs=6e-6)
    fine = quantogram(THREE, "0.000001 mm", trials=1).quantum.within
    assert fine is not None
    assert fine.mm == Fraction(1, 100_000)


def test_a_larger_quantum_that_fits_less_well_is_not_taken() -> None:
    # Ten multiples of 10 mm and one 15 mm: at 10 mm phi is 9/11 of its height at 5 mm, and 5 is meant.
    sizes = [f"{10 * k} mm" for k in range(1, 11)] + ["15 mm"]
    found = quantogram(sizes, "0.05 mm", trials=1)
    assert float(found.quantum.mm) == pytest.approx(5, abs=1e-4)
    assert found.score == pytest.approx(sqrt(2 * 11), abs=1e-6)
    assert phi([*range(10, 101, 10), 15], 10) == pytest.approx(9 / 11 * sqrt(22))


def test_of_a_quantum_and_its_half_the_larger_is_taken() -> None:
    found = quantogram(["12 mm", "24 mm", "30 mm"], "0.05 mm", trials=1)
    assert float(found.quantum.mm) == pytest.approx(6, abs=1e-4)
