"""What sort of shop it was: against the exact sum over every way in which the sizes may have been divided."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import exp, lgamma, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.meant.priors import Division, scheme
from fractions_shop.meant.shops import Kind, _counts, dirichlet, shop

WORLD = (
    Division("inch", "16ths", 0.5, Fraction(127, 80)),
    Division("inch", "32nds", 0.2, Fraction(127, 160)),
    Division("metric", "1 mm", 0.3, Fraction(1)),
)
OFF = 0.05 + 0.03  # no round size, and misreadings in lists of three or more
gains = st.lists(
    st.lists(st.sampled_from([0.0, 0.3, 1.0, 4.0, 20.0]), min_size=3, max_size=3), min_size=3, max_size=5
)


def exact_mixture(rows, base):
    """Every assignment of readings to divisions or to none, by the urn: strength 2 about the base."""
    prior = [2 * (1 - OFF) * one for one in base] + [2 * OFF]
    masses, beliefs = 0.0, [[0.0] * len(prior) for _ in rows]
    for ways in product([k for k, p in enumerate(prior) if p], repeat=len(rows)):
        mass = exp(lgamma(2) - lgamma(2 + len(rows)))
        for k in set(ways):
            mass *= exp(lgamma(prior[k] + ways.count(k)) - lgamma(prior[k]))
        for row, k in zip(rows, ways, strict=True):
            mass *= [*row, 1.0][k]
        masses += mass
        for i, k in enumerate(ways):
            beliefs[i][k] += mass
    return masses, [[one / masses for one in row] for row in beliefs]


@settings(max_examples=60, deadline=None)
@given(gains, st.sampled_from([(0.5, 0.2, 0.3), (5 / 7, 2 / 7, 0.0), (0.0, 0.0, 1.0)]))
def test_the_mixture_is_near_the_exact_one_and_its_evidence_never_above_it(rows, base):
    found = dirichlet(rows, base, Kind.MIXED, 1.0)
    evidence, beliefs = found.evidence, found.beliefs()
    whole, exact = exact_mixture(rows, base)
    assert evidence <= log(whole) + 1e-9
    assert evidence == pytest.approx(log(whole), abs=1.0)
    for mine, true in zip(beliefs, exact, strict=True):
        # First-order cavities count whole readings where the urn counts shares of them.
        assert mine == pytest.approx(true[:-1], abs=0.2)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from([0.0, 0.5, 3.0, 40.0]), min_size=3, max_size=3))
def test_a_single_reading_is_weighed_by_the_prior_itself(row):
    found = shop([row], WORLD)
    masses = [0.95 * d.weight * gain for d, gain in zip(WORLD, row, strict=True)]
    whole = sum(masses) + 0.05
    assert found.beliefs[0] == pytest.approx([mass / whole for mass in masses])
    assert found.off[0] == pytest.approx(0.05 / whole)


@settings(max_examples=30, deadline=None)
@given(gains)
def test_beliefs_are_probabilities_and_order_does_not_matter(rows):
    found, turned = shop(rows, WORLD), shop(rows[::-1], WORLD)
    for row, off in zip(found.beliefs, found.off, strict=True):
        assert all(one >= 0 for one in row)
        assert sum(row) + off == pytest.approx(1)
    for one, two in zip(found.beliefs, turned.beliefs[::-1], strict=True):
        assert one == pytest.approx(two, abs=1e-6)
    assert sum(found.kinds.values()) == pytest.approx(1)
    assert sum(found.divisions) == pytest.approx(1)


def test_one_metric_part_among_inch_ones_makes_a_mixed_shop():
    rows = [[12.0, 6.0, 0.0]] * 5 + [[0.0, 0.0, 10.0]]
    found, pure = shop(rows, WORLD), shop([[12.0, 6.0, 0.0]] * 6, WORLD)
    assert found.kinds[Kind.MIXED] > 2 * pure.kinds[Kind.MIXED]
    assert found.beliefs[5][2] > 0.5
    assert found.beliefs[0][0] > 0.8
    assert pure.kinds[Kind.ONE_DIVISION] == max(pure.kinds.values())


def test_counts_of_independent_things():
    assert _counts([0.5, 0.5]) == pytest.approx([0.25, 0.5, 0.25])
    assert _counts([0.0, 1.0]) == pytest.approx([0.0, 1.0])
    assert sum(_counts([d.weight for d in scheme()])) == pytest.approx(1)
