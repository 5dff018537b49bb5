"""How far a reading is trusted: by its instrument, by being read again, and by what a list shows of its reader."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.errors import ShopError
from fractions_shop.meant.instruments import INSTRUMENTS
from fractions_shop.meant.readings import reading, take
from fractions_shop.meant.recover import recover
from fractions_shop.meant.steps import ways
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH


@pytest.mark.parametrize(
    ("written", "by", "within_mm"),
    [
        # common practice, no source: half of what the instrument is divided into
        pytest.param("51.5 mm", "rule", Fraction(1, 4), id="rule-of-half-mm"),
        pytest.param("51 mm", "rule", Fraction(1, 2), id="written-rougher-than-the-rule"),
        pytest.param("51.5 mm", "tape", Fraction(1, 2), id="tape"),
        pytest.param("1/2 in", "rule", INCH / 64, id="16-32nds"),
        pytest.param("33/64 in", "rule", INCH / 128, id="a-64th-shows-a-finer-rule"),
        pytest.param("1/2 in", "tape", INCH / 32, id="8-16ths"),
        # ISO 13385-1 and ISO 3611, from memory
        pytest.param("51.52 mm", "caliper", Fraction(3, 100), id="caliper"),
        pytest.param("51.5 mm", "caliper", Fraction(1, 20), id="caliper-read-to-a-tenth"),
        pytest.param("51.523 mm", "micrometer", Fraction(4, 1000), id="micrometer"),
        pytest.param("2.031 in", "micrometer", INCH / 2000, id="micrometer-in-thou"),
        # common practice, no source: a figure without decimals has lost its noughts
        pytest.param("5 mm", "caliper", Fraction(1, 20), id="whole-mm-by-caliper"),
        pytest.param("5 mm", "micrometer", Fraction(1, 200), id="whole-mm-by-micrometer"),
        pytest.param("5 cm", "caliper", Fraction(1, 20), id="whole-cm-by-caliper"),
        pytest.param("10.5 mm", "micrometer", Fraction(1, 20), id="a-tenth-by-micrometer-is-a-tenth"),
    ],
)
def test_an_instrument_sets_the_least_trust(written, by, within_mm):
    assert reading(written, by=by).within.mm == within_mm


def test_within_overrides_the_instrument_and_both_may_be_one_for_each():
    found = take(["51.5 mm", "10.3 mm", "8.7 mm"], ["0.2 mm", None, None], by=["rule", "rule", None])
    assert [one.within.mm for one in found] == [Fraction(1, 5), Fraction(1, 4), Fraction(1, 20)]


def test_an_instrument_not_known_and_lists_of_another_length_are_refused():
    with pytest.raises(ShopError, match="expected one of rule, tape, caliper, micrometer"):
        reading("3 mm", by="laser")
    with pytest.raises(ShopError, match="2 given for 3 readings"):
        take(["1 mm", "2 mm", "3 mm"], ["0.1 mm", "0.2 mm"])
    assert all(one.source for one in INSTRUMENTS.values())


class TestReadAgain:
    def test_figures_pool_to_their_mean_and_only_different_ones_add_trust(self):
        same, apart = reading(["51.5 mm"] * 4), reading(["51.5 mm", "51.6 mm"])
        assert (same.size.mm, same.within.mm) == (Fraction(103, 2), Fraction(1, 20))
        assert apart.size.mm == Fraction("51.55")
        assert float(apart.within.mm) == pytest.approx(max(0.05 / sqrt(2), 0.05 * sqrt(3)))
        assert len(same.figures) == 4

    def test_scatter_beyond_the_trust_is_believed(self):
        # Three figures with a standard deviation of 0.3 mm: of their mean 0.3 / sqrt(3), as a half width 0.3.
        found = reading(["51.2 mm", "51.5 mm", "51.8 mm"])
        assert float(found.within.mm) == pytest.approx(0.3, rel=1e-4)

    def test_one_size_read_thrice_is_no_three_witnesses(self):
        once, thrice = recover("51.5 mm"), recover([["51.5 mm"] * 3])
        assert [c.odds for c in once.candidates] == pytest.approx([c.odds for c in thrice.candidates])

    def test_equal_readings_of_a_list_keep_their_rows_and_count_once(self):
        once, thrice = recover("51.5 mm"), recover(["51.5 mm"] * 3)
        assert len(thrice.readings) == 3
        assert thrice.alike == ((0, 1, 2),)
        for row in thrice.readings:
            assert [c.odds for c in row.candidates] == pytest.approx([c.odds for c in once.candidates])
        two = recover(["51.5 mm", "66.7 mm", "51.5 mm"])
        assert [c.odds for c in two.readings[0].candidates] == [c.odds for c in two.readings[2].candidates]
        assert two.readings[1].alike == ()


HALF_MM = ["38.0", "25.5", "12.5", "6.5", "51.0", "19.0", "9.5", "44.5", "28.5", "16.0"]


class TestStep:
    def test_a_half_millimetre_rule_shows_though_it_is_written_to_the_tenth(self):
        found = recover([f"{one} mm" for one in HALF_MM])
        assert found.step.step.mm == Fraction(1, 2)
        assert found.system.system == "inch fractions"
        wanted = [24, 16, 8, 4, 32, 12, 6, 28, 18, 10]  # the same in sixteenths, rounded to half a millimetre
        assert [c.size.inch * 16 for c in found.candidates] == wanted
        assert all(row.within.mm == Fraction(1, 4) for row in found.readings)

    def test_what_is_told_is_not_guessed(self):
        read = [f"{one} mm" for one in HALF_MM]
        assert recover(read, within="0.05 mm").step is None
        assert recover(read, by="caliper").step is None
        assert recover(read[:2]).step is None

    def test_good_metric_work_is_no_coarse_reader(self):
        found = recover(["10.0 mm", "20.0 mm", "25.0 mm", "30.0 mm", "45.0 mm"])
        assert found.step is None
        assert [c.name for c in found.candidates] == ["10 mm", "20 mm", "25 mm", "30 mm", "45 mm"]

    def test_fractions_share_a_rule_whose_divisions_their_writing_hides(self):
        found = recover(["1/2 in", "3/8 in", "11/16 in", "1 1/4 in", "7/16 in"])
        assert found.step.step in {Quantity(INCH / 16), Quantity(INCH / 32)}
        assert all(row.within.mm <= INCH / 32 for row in found.readings)
        assert [c.name for c in found.candidates] == ["1/2 in", "3/8 in", "11/16 in", "1 1/4 in", "7/16 in"]

    @settings(max_examples=40)
    @given(st.lists(st.integers(60, 900), min_size=3, max_size=8))
    def test_only_steps_that_all_but_a_few_stand_on_are_tried_and_none_is_trusted_finer_than_written(
        self, tenths
    ):
        read = take([f"{one / 10:.1f} mm" for one in tenths])
        for way in ways(read):
            off = 0
            for before, after in zip(read, way.readings, strict=True):
                assert after.size == before.size
                if all((before.size.mm / step).denominator == 1 for step in way.steps):
                    assert after.within >= before.within
                else:
                    off += 1
            assert off <= len(read) // 3
