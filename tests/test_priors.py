"""The prior as it is stated: weights, the order of readability, tables and their shares."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import ShopError
from fractions_shop.meant.catalogue import TABLES, series
from fractions_shop.meant.priors import DECIMALS, FRACTIONS, METRIC, scheme
from fractions_shop.size.units import INCH

SPAN = Fraction(50)
amongs = st.lists(st.sampled_from([*TABLES, "128ths"]), unique=True)


def prior(size, divisions):
    return sum(d.weight * d.pitch(SPAN) for d in divisions if d.carries(size))


@given(amongs, st.floats(0.01, 1000))
def test_the_weights_of_a_scheme_add_up_to_one(among, odds):
    assert sum(d.weight for d in scheme(among, odds)) == pytest.approx(1)


@given(st.floats(0.01, 1000))
def test_inches_stand_against_metric_as_the_caller_says(odds):
    found = scheme((), odds)
    inches = sum(d.weight for d in found if d.system in (FRACTIONS, DECIMALS))
    assert inches / sum(d.weight for d in found if d.system == METRIC) == pytest.approx(odds)


@pytest.mark.parametrize(
    ("readable", "less"),
    [
        pytest.param(2 * INCH, INCH * 3 / 2, id="inch-before-half"),
        pytest.param(INCH * 3 / 2, INCH * 5 / 4, id="half-before-quarter"),
        pytest.param(INCH * 5 / 4, INCH * 9 / 8, id="quarter-before-8th"),
        pytest.param(INCH * 9 / 8, INCH * 17 / 16, id="8th-before-16th"),
        pytest.param(INCH * 17 / 16, INCH * 33 / 32, id="16th-before-32nd"),
        pytest.param(INCH * 33 / 32, INCH * 65 / 64, id="32nd-before-64th"),
        pytest.param(INCH * 65 / 64, INCH * Fraction("1.013"), id="64th-before-thou"),
        pytest.param(Fraction(20), Fraction(25), id="10-mm-before-5"),
        pytest.param(Fraction(25), Fraction(24), id="5-mm-before-1"),
        pytest.param(Fraction(24), Fraction("24.5"), id="1-mm-before-half"),
        pytest.param(Fraction("24.5"), Fraction("24.3"), id="half-mm-before-tenth"),
        pytest.param(INCH * 33 / 32, Fraction("51.5"), id="32nd-before-half-mm"),
    ],
)
def test_the_coarser_mark_is_the_more_readable(readable, less):
    divisions = scheme()
    assert prior(readable, divisions) > prior(less, divisions) > 0


def test_128ths_come_only_when_asked_for():
    size = INCH * Fraction(1, 128)
    assert not any(d.carries(size) for d in scheme())
    assert any(d.carries(size) for d in scheme(["128ths"]))


@pytest.mark.parametrize("table", TABLES)
def test_a_table_asked_for_weighs_as_much_as_all_plain_divisions(table):
    assert sum(d.weight for d in scheme([table]) if d.system == table) == pytest.approx(0.5)


@pytest.mark.parametrize("table", TABLES)
def test_every_size_of_a_table_is_a_mark_with_its_name(table):
    for one, division in zip(series(table), [d for d in scheme([table]) if d.system == table], strict=True):
        sizes = [size for size, _ in one.marks]
        assert sizes == sorted(set(sizes))
        assert division.between(Fraction(0), Fraction(10**6)) == sizes
        assert [division.called(size) for size in sizes] == [name for _, name in one.marks]


@pytest.mark.parametrize(
    ("table", "name", "metric"),
    [
        ("drills", "metric drills", True),
        ("drills", "number drills", False),
        ("threads", "M threads", True),
        ("threads", "BA threads", False),
        ("stock", "shims", False),
        ("gauges", "SWG", False),
    ],
)
def test_which_series_are_metric(table, name, metric):
    assert {one.name: one.metric for one in series(table)}[name] is metric


@given(st.sampled_from(scheme(["128ths"])), st.fractions(0, 60), st.fractions(0, 10))
def test_between_gives_every_mark_and_no_other(division, low, length):
    found = division.between(low, low + length)
    assert all(low <= mark <= low + length and division.carries(mark) and mark > 0 for mark in found)
    assert all(b - a == division.step for a, b in pairwise(found))
    if found:
        assert found[0] - division.step < max(low, Fraction(1, 10**9))
        assert found[-1] + division.step > low + length
    else:
        assert length < division.step


@pytest.mark.parametrize(
    ("among", "odds", "words"),
    [
        pytest.param(["nails"], 20, "not a table", id="unknown-table"),
        pytest.param((), 0, "odds", id="no-odds"),
        pytest.param((), float("inf"), "odds", id="endless-odds"),
        pytest.param((), float("nan"), "odds", id="no-number"),
    ],
)
def test_refuses(among, odds, words):
    with pytest.raises(ShopError, match=words):
        scheme(among, odds)
