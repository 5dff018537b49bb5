"""Errors that readings share: shrinkage, a zero not set, plating, a print's scale; and mixed or old shops."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from weighed_readings import density_of, suspects

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.belief import Work, belief_in
from fractions_shop.meant.found import Ask
from fractions_shop.meant.priors import scheme
from fractions_shop.meant.readings import Reading, density, reading
from fractions_shop.meant.recover import recover
from fractions_shop.meant.scale import as_scale, scale_from
from fractions_shop.meant.shared import Print, Shrunk, Zero, limits_of, moments
from fractions_shop.meant.spread import common_errors
from fractions_shop.meant.verdict import SizeVerdict, about
from fractions_shop.meant.weighing import _values, weigh
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.tables import STANDINGS
from fractions_shop.tables.old_inches import groups, old_inches

#: metre = 443.296 Paris lignes: the law of 19 frimaire VIII (10 December 1799).
LIGNE = Fraction(1000) / Fraction("443.296")
SIXTEENTHS = (9, 15, 22, 5, 11, 30)


def tenths(*sizes):
    return [f"{float(size):.1f} mm" for size in sizes]


def inches(*parts):
    return [Fraction(part, 16) for part in parts]


class TestCommon:
    def test_wood_that_has_shrunk_is_made_whole(self):
        read = tenths(*(INCH * n / 16 * Fraction(98, 100) for n in SIXTEENTHS[:3]))
        found = recover(read, shrunk=Fraction(3, 100))
        assert [c.size.inch for c in found.candidates] == inches(*SIXTEENTHS[:3])
        assert found.common[0].factor == pytest.approx(1 / 0.98, abs=0.003)
        assert found.common[0].readings == 3
        assert found.readings[0].full.approximate
        assert found.readings[0].asked == Quantity(Fraction(read[0].split()[0]))

    def test_a_zero_that_was_not_set_is_found(self):
        read = tenths(*(INCH * n / 16 + Fraction(17, 100) for n in SIXTEENTHS[:4]))
        found = recover(read, unzeroed=True)
        assert [c.size.inch for c in found.candidates] == inches(*SIXTEENTHS[:4])
        assert found.common[0].estimate == pytest.approx(0.17, abs=0.05)

    def test_two_errors_at_once_are_told_apart(self):
        """Wood 6 thousandths short, read with a zero 0.2 mm high: each is found, and the sizes are as meant."""
        read = [f"{float(INCH * n / 16 * Fraction(994, 1000) + Fraction(1, 5)):.2f} mm" for n in SIXTEENTHS]
        found = recover(read, unzeroed=True, shrunk=Fraction(1, 100), within="0.05 mm")
        assert [c.size.inch for c in found.candidates] == inches(*SIXTEENTHS)
        shrunk, zero = found.common
        assert shrunk.factor == pytest.approx(1 / 0.994, abs=0.002)
        assert zero.estimate == pytest.approx(0.2, abs=0.05)
        assert zero.factor == 1

    @pytest.mark.parametrize("within", ["0.02", "0.2", "2"])
    def test_an_error_in_common_lies_between_what_is_usual_and_what_is_seen_by_their_precisions(self, within):
        """Two normals make a third: what is held of shrinkage before, and 2 % seen once, each by one over its variance."""
        shared = Shrunk(Fraction(3, 100))
        mean, sigma = moments(shared)
        read = replace(reading(Quantity(Fraction(98)), within=f"{within} mm"), shared=(shared,))
        (found,) = common_errors({"a": read}, {"a": Quantity(Fraction(100))})
        seen, trusted = (100 - float(read.middle)) / 98, read.width / 98
        held, weighs = 1 / sigma**2, 1 / trusted**2
        assert found.estimate == pytest.approx((mean * held + seen * weighs) / (held + weighs))
        assert found.spread == pytest.approx((held + weighs) ** -0.5)

    def test_a_print_has_one_scale_for_all(self):
        read = tenths(*(INCH * n / 16 * Fraction(983, 1000) for n in SIXTEENTHS))
        found = recover(read, scale="print")
        assert [c.size.inch for c in found.candidates] == inches(*SIXTEENTHS)
        assert found.common[0].factor == pytest.approx(1 / 0.983, abs=0.002)
        # The odds are on what the scale leaves open, and the spread says how much that is.
        assert abs(found.common[0].factor * 0.983 - 1) < 4 * found.common[0].spread
        assert (found.scale.readings, found.scale.known) == (6, None)

    def test_a_known_size_tells_the_scale_of_any_photograph(self):
        read = tenths(*(INCH * n / 16 / 3 for n in SIXTEENTHS[:3]))
        at = scale_from("25.1 mm", "2 31/32 in", within="0.05 mm")
        assert float(at.factor) == pytest.approx(3, abs=0.02)
        found = recover(read, scale=at, within="0.03 mm")
        assert [c.size.inch for c in found.candidates] == inches(*SIXTEENTHS[:3])

    def test_a_drawing_to_scale_is_multiplied_exactly(self):
        full, half = recover("25.4 mm", within="0.1 mm"), recover("12.7 mm", within="0.05 mm", scale="1:2")
        assert [c.size for c in half.candidates] == [c.size for c in full.candidates]
        assert half.readings[0].asked.mm == Fraction("25.4")
        assert (half.scale.factor, half.scale.spread, half.scale.readings) == (2, 0, 0)
        assert full.scale is None

    @pytest.mark.parametrize("given", ["half", "1:0", "-1:2", 0.5, Fraction(0)])
    def test_what_is_no_scale_is_refused(self, given):
        with pytest.raises(ShopError, match="is no scale"):
            as_scale(given)

    def test_a_print_is_not_settled_by_three_sizes_nor_by_one_size_four_times(self):
        for read in (tenths(10, 20, 30), tenths(10, 10, 10, 10)):
            with pytest.raises(NoAnswer, match=r"not settled by \d sizes?: read 4 different ones"):
                recover(read, scale="print")

    def test_errors_that_cannot_be_told_apart_are_refused(self):
        with pytest.raises(ShopError, match="at most two common errors"):
            recover(tenths(10, 20, 30, 40), scale="print", unzeroed=True, shrunk=Fraction(1, 100))
        with pytest.raises(ShopError, match="exact share"):
            recover("3 mm", shrunk=0.03)
        for share in (Fraction(0), Fraction(1, 2)):
            with pytest.raises(ShopError, match="above zero and at most 25 %"):
                Shrunk(share)
            with pytest.raises(ShopError, match="above zero and at most 25 %"):
                Print("", share)

    def test_plating_is_taken_off_as_wear_is_put_on(self):
        assert recover("12.9 mm", plated="0.3 mm").candidates[0].name == "1/2 in"
        assert recover("12.9 mm").candidates[0].name != "1/2 in"
        one, nought = Quantity(Fraction(50)), Quantity(Fraction(0))
        worn = Reading(one, Quantity(Fraction(1, 20)), worn=Quantity(Fraction(3, 10)))
        plated = Reading(one, Quantity(Fraction(1, 20)), plated=Quantity(Fraction(3, 10)))
        assert worn.plated == nought == plated.worn
        for off in (Fraction(n, 20) for n in range(-12, 13)):
            assert density_of(worn, 50 + off) == pytest.approx(density_of(plated, 50 - off), rel=1e-9)

    def test_a_density_with_wear_and_plating_adds_up_to_one(self):
        step = 0.002
        total = sum(density(n * step, 0.05, 0.3, 0.1) for n in range(-500, 500)) * step
        assert total == pytest.approx(1, rel=1e-3)


class TestShops:
    def test_a_metric_part_among_inch_ones_is_offered_first(self):
        found = recover(["38.10 mm", "25.42 mm", "12.69 mm", "50.81 mm", "19.06 mm", "20.00 mm"])
        assert found.candidates[-1].name == "20 mm"
        assert [c.size.inch for c in found.candidates[:5]] == [Fraction(n, 4) for n in (6, 4, 2, 8, 3)]

    def test_a_misreading_is_named_and_not_explained(self):
        sizes = [INCH * n / 16 for n in (3, 5, 7, 8, 10, 11, 13)]
        found = recover(tenths(*sizes, INCH * Fraction(15, 16) + Fraction(6, 10)))
        assert suspects(found) == [7]
        assert found.readings[7].verdict is SizeVerdict.UNSETTLED
        assert found.readings[7].ask is Ask.AGAIN
        assert not found.readings[7].candidates or found.readings[7].candidates[0].odds < 10
        assert suspects(recover(tenths(*sizes))) == []

    def test_a_screw_measures_under_its_major_and_its_pitch_is_asked(self):
        found = recover("5.88 mm", among="threads").readings[0]
        assert "M6" in {name for c in found.candidates[:3] for name in (c.name, *c.also)}
        assert found.candidates[0].name == "M6"
        assert found.ask is Ask.PITCH
        assert recover("5.88 mm").readings[0].ask is Ask.NEIGHBOUR

    def test_no_round_size_is_taken_once(self):
        # The stated prior and likelihood worked by hand give 1.95 to 1 against, and 87.5 to 1 on.
        assert recover("51.5 mm").candidates[0].odds == pytest.approx(1 / 1.95, rel=0.005)
        assert recover("66.7 mm").candidates[0].odds == pytest.approx(87.5, rel=0.005)

    def test_the_belief_is_said_in_words_or_odds(self):
        assert recover("51.5 mm", work="metric").candidates[0].name == "51.5 mm"
        assert recover("51.5 mm", work="inch").candidates[0].name == "2 1/32 in"
        assert belief_in("either").inch_odds == Work.EITHER.value == 1
        assert not belief_in().said
        both = recover("51.5 mm").readings[0]
        assert (both.best(metric=False).name, both.best(metric=True).name) == ("2 1/32 in", "51.5 mm")
        with pytest.raises(ShopError, match="expected one of inch, metric, either"):
            recover("51.5 mm", work="wood")
        with pytest.raises(ShopError, match="not both"):
            recover("51.5 mm", work="inch", inch_odds=2)


class TestOldInches:
    READ = tenths(*(LIGNE * n for n in (3, 5, 7, 8, 10, 11, 13, 16, 17, 19, 22, 23)))

    def test_paris_lignes_are_offered_where_todays_systems_fail(self):
        found = recover(self.READ)
        assert found.old.inches[0].name == "Paris"
        assert found.old.odds > 100
        assert found.old.meant[0].mm == 3 * LIGNE

    def test_asked_for_they_name_the_sizes(self):
        found = recover(self.READ, among="old inches")
        assert [c.name for c in found.candidates[:3]] == ["1/4 Paris inch", "5 Paris lines", "7 Paris lines"]
        assert not found.candidates[1].size.approximate
        assert all(0 <= c.chance <= 1 for c in found.candidates)
        assert found.old is None

    def test_todays_sizes_bring_no_old_inch(self):
        assert recover(tenths(*(INCH * n / 16 for n in SIXTEENTHS))).old is None

    def test_sizes_on_no_marks_at_all_bring_none_either(self):
        read = ["18.09 mm", "34.93 mm", "25.35 mm", "38.22 mm", "39.41 mm", "8.60 mm"]
        assert recover(read).old is None
        assert recover([*read, "44.44 mm"]).old is None

    def test_units_that_rods_cannot_tell_apart_stand_together(self):
        names = [{one.name for one in group} for group in groups()]
        assert {"Prussia and the Rhine", "Denmark", "Norway", "Rijnland"} in names
        assert {"Baden", "Switzerland"} in names
        found = recover(
            tenths(*(Fraction("2.1795383") * n for n in (5, 7, 9, 11, 13, 17, 20))), among="old inches"
        )
        assert {one.name for one in found.system.inches} == {
            "Prussia and the Rhine",
            "Denmark",
            "Norway",
            "Rijnland",
        }
        assert found.candidates[0].size.approximate

    def test_every_row_names_its_source_and_standing(self):
        for one in old_inches():
            assert one.standing in STANDINGS
            assert one.source
            assert one.size.approximate is not one.exact

    def test_the_paris_foot_in_today_s_inches(self):
        # 12 pouces of 12 lignes; 1 toise = 1.949036 m of 6 pieds (law of 1799, by arithmetic).
        paris = old_inches()[0]
        assert float(paris.size.mm * 12 * 6) == pytest.approx(1949.036, abs=0.001)


@pytest.mark.parametrize(
    ("odds", "verdict"),
    [
        (101, SizeVerdict.CUT),
        (100, SizeVerdict.CHECK),
        (30, SizeVerdict.PROBABLE),
        (3, SizeVerdict.UNSETTLED),
        (0.2, SizeVerdict.UNSETTLED),
    ],
)
def test_the_odds_say_what_may_be_done(odds, verdict):
    assert SizeVerdict.of(odds) is verdict


@pytest.mark.parametrize(
    ("chance", "told"),
    [
        (0, (0, 1)),
        (1, (1, 1)),
        (0.25, (2, 10)),
        (0.69, (7, 10)),
        (0.031, (1, 30)),
        (0.0004, (1, 3000)),
        (0.97, (29, 30)),
    ],
)
def test_chance_as_so_many_in_so_many(chance, told):
    assert about(chance) == told if chance != 0.0004 else about(chance) in {(1, 2000), (1, 3000)}


def test_a_reading_of_everything_at_once_keeps_each_fact():
    one = reading(["3.1 mm", "3.2 mm"], by="rule", worn="0.1 mm", plated="0.02 mm", made="0.1 mm")
    assert (one.by, one.told, one.worn.mm, one.plated.mm, one.made.mm) == (
        "rule",
        False,
        Fraction(1, 10),
        Fraction(1, 50),
        Fraction(1, 10),
    )


#: Round sizes off copies that came out 2.4 % small: 3 1/4, 1, 2 1/2 and 5/8 in; 12 3/8, 8 1/8, 2 1/2 and 5/8 in.
COPIED = ("80.6 mm", "24.8 mm", "62.0 mm", "15.5 mm")
COPIED_LONG = ("306.9 mm", "201.4 mm", "62.0 mm", "15.5 mm")


class TestErrorsOfDifferentReadings:
    """An error that no reading of a print carries tells nothing of that print's scale, and takes nothing from it."""

    @staticmethod
    def weighed(copied):
        prints = [reading(text, shared=(Print(),)) for text in copied]
        shrunk = reading("301.5 mm", shared=(Shrunk(Fraction(3, 100)),))
        return weigh(prints, scheme()), weigh([*prints, shrunk], scheme())

    @pytest.mark.parametrize("copied", [COPIED, COPIED_LONG])
    def test_the_scale_is_found_as_if_nothing_had_shrunk(self, copied):
        alone, beside = self.weighed(copied)
        (scale,) = alone.common
        other = next(error for error in beside.common if isinstance(error.shared, Print))
        assert other.estimate == pytest.approx(scale.estimate, abs=1e-4)
        assert other.spread > 5e-5
        for place in range(len(copied)):
            assert beside.off[place] < 0.1


@pytest.mark.parametrize("within", ["0.005 mm", "0.02 mm", "0.05 mm"])
@pytest.mark.parametrize("shared", [Zero(), Print(), Shrunk(Fraction(3, 100))])
def test_values_of_a_common_error_lie_half_a_spread_apart_as_far_as_so_many_are_allowed(shared, within):
    """Nearer together they would tell no more of it: with two fewer they lie farther apart, or there are no fewer."""
    carriers = [
        reading("25.4 mm", within=within, shared=(shared,)),
        reading("50.8 mm", within="0.1 mm", shared=(shared,)),
    ]
    widths = [
        each.width if isinstance(shared, Zero) else each.width / float(each.size.mm) for each in carriers
    ]
    low, high = limits_of(shared)
    values = _values(shared, carriers, 400)
    assert (values[0][0], values[-1][0]) == (pytest.approx(low), pytest.approx(high))
    assert sum(share for _, share in values) == pytest.approx(1.0)
    between = (high - low) / (len(values) - 1)
    assert between <= min(widths) / 2 or len(values) == 400
    assert (high - low) / (len(values) - 2) >= min(widths) / 2 or len(values) == 13
    assert len(_values(shared, carriers, 30)) == min(30, len(values))
