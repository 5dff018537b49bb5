"""The quantum found against plain search over a very fine range of 1/q."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from fractions_shop import Quantity
from fractions_shop.meant.quantogram import phi, quantogram

FINE = 4_000


def lengths(values: list[float]) -> list[Quantity]:
    return [Quantity(Fraction(round(v * 100), 100)) for v in values]


def searched(values: list[float], low: float, high: float) -> float:
    """The greatest phi that even steps of 1/q, some four thousand, come upon."""
    turns = (1 / high + (1 / low - 1 / high) * k / FINE for k in range(FINE + 1))
    return max(phi(values, 1 / turn) for turn in turns)


@pytest.mark.parametrize("seed", range(25))
def test_no_quantum_of_the_range_explains_the_sizes_better(seed: int) -> None:
    random = Random(seed)
    sizes = lengths([random.uniform(8, 60) for _ in range(random.randint(3, 7))])
    values = [float(s.mm) for s in sizes]
    found = quantogram(sizes, "0.3 mm", low="2 mm", trials=1)
    low, high = float(found.low.mm), float(found.high.mm)
    assert found.score >= searched(values, low, high) - 1e-6
    # The score is that of the quantum told, which is rounded to 0.00001 mm.
    assert phi(values, float(found.quantum.mm)) == pytest.approx(found.score, abs=1e-3)


@pytest.mark.parametrize(
    ("sizes", "low", "high", "quantum"),
    [
        # The best quantum at the very ends of the range, where a peak has a neighbour on one side only.
        pytest.param((10, 20, 30, 40), "2 mm", "10 mm", 10, id="the largest sought"),
        pytest.param((10, 20, 25, 35), "5 mm", "9 mm", 5, id="the smallest sought"),
        # Three and five are both in the range; the sizes are multiples of three alone.
        pytest.param((9, 12, 15, 21, 33), "2 mm", "6 mm", 3, id="in the middle"),
        # 4 and 2 do equally well: the larger is given, though the smaller comes later in the range.
        pytest.param((12, 20, 28, 36), "1 mm", "8 mm", 4, id="of two alike the larger"),
    ],
)
def test_the_quantum_of_exact_multiples_wherever_it_lies_in_the_range(
    sizes: tuple[int, ...], low: str, high: str, quantum: int
) -> None:
    found = quantogram([Quantity(Fraction(s)) for s in sizes], "0.05 mm", low=low, high=high, trials=1)
    assert float(found.quantum.mm) == pytest.approx(quantum, abs=2e-5)
    assert found.score == pytest.approx((2 * len(sizes)) ** 0.5, abs=1e-6)


def test_how_far_to_trust_the_sizes_must_be_above_nought() -> None:
    for trust in ("0 mm", "-1 mm"):
        with pytest.raises(ValueError, match="above zero"):
            quantogram(["10 mm", "20 mm", "25 mm"], trust)


def test_the_quantum_and_its_trust_are_told_to_a_hundred_thousandth_of_a_millimetre() -> None:
    # A third of 10 mm never ends: 3.33333, and so much the standard deviation.
    sizes = [Quantity(Fraction(k * 10, 3)) for k in (4, 5, 7, 9)]
    found = quantogram(sizes, "0.2 mm", low="3 mm", high="4 mm", trials=1)
    assert found.quantum.mm == Fraction("3.33333")
    assert found.quantum.approximate
    within = found.quantum.within
    assert within is not None
    # q (w / sqrt 3) / sqrt(sum x^2), by propagation of error.
    spread = 10 / 3 * 0.2 / 3**0.5 / (10 / 3 * (16 + 25 + 49 + 81) ** 0.5)
    assert within.mm == Fraction(f"{spread:.5f}")


def test_a_least_quantum_that_the_trust_sets_is_approximate_for_it_holds_a_root() -> None:
    assert quantogram(["10 mm", "20 mm", "25 mm"], "1 mm", trials=1).low.approximate
    assert not quantogram(["10 mm", "20 mm", "25 mm"], "1 mm", low="3 mm", trials=1).low.approximate


def test_its_repr_leaves_the_curve_out() -> None:
    assert "curve" not in repr(quantogram(["10 mm", "20 mm", "25 mm"], "0.1 mm", trials=1))


@pytest.mark.parametrize("sizes", [(10, 20, 25), (9, 12, 15, 21, 33), (17, 29, 31, 43, 8, 12)])
def test_only_the_peaks_of_nearly_the_greatest_height_are_climbed(
    sizes: tuple[int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each climb costs 120 scores of an answer that is waited for, so no other place is worth one."""
    from fractions_shop.meant import quantogram as module

    climbed: list[float] = []
    climb = module._climbed

    def recorded(values: list[float], step: float, width: float) -> tuple[float, float]:
        climbed.append(step)
        return climb(values, step, width)

    monkeypatch.setattr(module, "_climbed", recorded)
    curve = quantogram([Quantity(Fraction(s)) for s in sizes], "0.1 mm", trials=1).curve
    scores = [score for _, score in curve]
    # A peak is no lower than its neighbours; the ends of the range have one neighbour each.
    padded = [float("-inf"), *scores, float("-inf")]
    peaks = [
        1 / q
        for n, (q, score) in enumerate(curve, 1)
        if score >= max(padded[n - 1], padded[n + 1]) and score >= 0.8 * max(scores)
    ]
    assert climbed == pytest.approx(peaks)
    assert len(peaks) < len(curve) / 3
