"""Kendall's cosine quantogram: the formula, planted quanta, and honest significance."""

from fractions import Fraction
from math import cos, pi, sqrt
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.quantogram import phi, quantogram
from fractions_shop.size.quantity import Quantity


def inches(*numbers):
    return [Quantity.inches(Fraction(n)) for n in numbers]


@pytest.mark.parametrize(
    ("sizes", "quantum", "score"),
    [
        pytest.param([2, 4, 6, 8], 2, sqrt(8), id="all-multiples-sqrt-2N"),
        pytest.param([1, 3, 5, 7], 2, -sqrt(8), id="all-half-way"),
        pytest.param([1, 2, 3, 4], 4, 0, id="quarters-cancel"),
    ],
)
def test_phi_at_its_landmarks(sizes, quantum, score):
    # Kendall 1974: phi(q) = sqrt(2/N) sum cos(2 pi e / q); these follow by arithmetic.
    assert phi(sizes, quantum) == pytest.approx(score, abs=1e-9)


@settings(max_examples=40)
@given(st.lists(st.floats(1, 100), min_size=2, max_size=8), st.floats(0.5, 20))
def test_phi_looks_only_at_remainders(sizes, quantum):
    remainders = [x - round(x / quantum) * quantum for x in sizes]
    assert phi(sizes, quantum) == pytest.approx(phi(remainders, quantum), abs=1e-6)
    assert abs(phi(sizes, quantum)) <= sqrt(2 * len(sizes)) + 1e-9
    assert phi(remainders, quantum) == pytest.approx(
        sqrt(2 / len(sizes)) * sum(cos(2 * pi * e / quantum) for e in remainders), abs=1e-6
    )


@pytest.mark.parametrize(
    ("sizes", "quantum_mm"),
    [
        pytest.param(inches("3/8", "5/8", "7/8", "9/8", "13/8", "2"), 3.175, id="8ths"),
        pytest.param([f"{k} mm" for k in (10, 20, 25, 30, 45, 65)], 5.0, id="5-mm"),
        pytest.param(inches("0.3", "0.7", "0.8", "1.1", "1.9", "2.5"), 2.54, id="tenths-of-an-inch"),
    ],
)
def test_finds_the_largest_quantum_of_exact_multiples(sizes, quantum_mm):
    found = quantogram(sizes, "0.05 mm")
    assert float(found.quantum.mm) == pytest.approx(quantum_mm, abs=1e-4)
    assert found.score == pytest.approx(sqrt(12), abs=1e-6)
    assert found.significance < 0.05
    assert found.quantum.approximate
    assert found.low < found.quantum < found.high + Quantity(Fraction(1))


@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10**6), quantum=st.sampled_from([3.175, 5.0, 6.35]))
def test_a_planted_quantum_comes_back_within_its_stated_trust(seed, quantum):
    random = Random(seed)
    counts = [random.randint(2, 20) for _ in range(11)] + [2]
    sizes = [Quantity(Fraction(round((quantum * n + random.gauss(0, 0.05)) * 1000), 1000)) for n in counts]
    found = quantogram(sizes, Quantity(Fraction("0.0866")), low="2 mm", trials=39)
    # The counts may share a factor, and then the quantum is that many times as large.
    ratio = round(float(found.quantum.mm) / quantum)
    assert ratio in (1, 2)
    assert abs(float(found.quantum.mm) - ratio * quantum) < 5 * float(found.quantum.within.mm)


def test_sizes_at_random_are_seldom_called_significant():
    # 40 sets without a quantum: at the 0.1 level about 4 are expected; 11 or more would
    # happen once in a thousand (binomial).
    random = Random(7)
    hits = 0
    for _ in range(40):
        sizes = [Quantity(Fraction(round(random.uniform(10, 60) * 1000), 1000)) for _ in range(7)]
        hits += quantogram(sizes, "0.3 mm", trials=59).significance <= 0.1
    assert hits <= 10


def test_the_same_question_has_the_same_answer():
    sizes = inches("3/8", "5/8", "7/8")
    assert quantogram(sizes, "0.1 mm", trials=50) == quantogram(sizes, "0.1 mm", trials=50)


@pytest.mark.parametrize(
    ("sizes", "within", "error"),
    [
        pytest.param(["1 mm", "2 mm"], "0.1 mm", ShopError, id="two"),
        pytest.param(["1 mm", "2 mm", "-3 mm"], "0.1 mm", ShopError, id="negative"),
        pytest.param(["1 mm", "2 mm", "3 mm"], "0 mm", ShopError, id="endless-trust"),
        pytest.param(["1 mm", "2 mm", "3 mm"], "1 mm", NoAnswer, id="too-rough"),
        pytest.param(["0.1 mm", "2 mm", "300 mm"], "0.01 mm", NoAnswer, id="too-small"),
    ],
)
def test_refuses(sizes, within, error):
    with pytest.raises(error):
        quantogram(sizes, within)
