"""The step of the reader's instrument, and readings that are off it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import log
from random import Random

import pytest
from trying import times
from weighed_readings import suspects

from fractions_shop import Session, reconcile, recover
from fractions_shop.meant.readings import take
from fractions_shop.meant.steps import FEWEST, ways
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.size.arguments import as_length

INCH = Fraction(127, 5)
#: Sixteenths read with a half-millimetre rule, and what was meant.
READ = ["38.0", "25.5", "12.5", "6.5", "51.0", "19.0", "9.5", "44.5", "28.5", "16.0"]
MEANT = [Fraction(n, 16) * INCH for n in (24, 16, 8, 4, 32, 12, 6, 28, 18, 10)]


def readings(*figures: str) -> list[str]:
    return [f"{figure} mm" for figure in figures]


def best(found) -> list[Fraction | None]:
    return [row.candidates[0].size.mm if row.candidates else None for row in found.readings]


class TestOneOffTheStep:
    @pytest.mark.parametrize("place", [0, 5, 9])
    @pytest.mark.parametrize("off", ["-0.2", "0.1", "0.2"])
    def test_does_not_undo_the_step_of_the_rest(self, place, off):
        figures = list(READ)
        figures[place] = str(Fraction(READ[place]) + Fraction(off))
        found = recover([f"{float(Fraction(figure)):.1f} mm" for figure in figures])
        assert (found.step.step.mm, found.step.odd) == (Fraction(1, 2), (place,))
        assert found.step.on == tuple(k for k in range(10) if k != place)
        others = [size for k, size in enumerate(best(found)) if k != place]
        assert others == [size for k, size in enumerate(MEANT) if k != place]
        assert found.system.system == "inch fractions"

    def test_is_not_told_to_be_cut_to_on_the_word_of_the_others(self):
        found = recover(readings(*READ[:5], "19.2", *READ[6:]))
        assert found.readings[5].candidates[0].size.inch == Fraction(3, 4)
        assert found.readings[5].verdict in (SizeVerdict.PROBABLE, SizeVerdict.UNSETTLED)

    def test_is_named_where_the_division_found_does_not_explain_it(self):
        found = recover(readings(*READ[:5], "19.9", *READ[6:]))
        assert suspects(found) == [5]
        assert found.readings[5].verdict is SizeVerdict.UNSETTLED
        assert found.step.odd == (5,)

    def test_among_quarters_is_of_no_weight_to_them(self):
        quarters = [Fraction(n, 4) * INCH for n in (2, 4, 1, 3, 5, 8, 7, 6, 9, 10, 11, 12)]
        figures = [float(round(size * 2)) / 2 for size in quarters]
        figures[2] = 6.3
        found = recover([f"{figure:.1f} mm" for figure in figures])
        assert best(found) == quarters
        assert not any(row.candidates[0].metric for row in found.readings)

    def test_two_of_twelve_are_off(self):
        figures = [*READ, "63.7", "31.6"]
        found = recover(readings(*figures))
        assert found.step.odd == (10, 11)
        assert best(found)[:10] == MEANT

    @pytest.mark.parametrize("odd", ["19.2", "19.3", "18.7", "19.7"])
    def test_among_three_leaves_them_unsure(self, odd):
        found = recover(readings("38.0", "25.5", odd))
        for row, true in zip(found.readings[:2], MEANT[:2], strict=True):
            first = row.candidates[0]
            assert first.odds < 10 or first.size.mm == true
            assert row.verdict is not SizeVerdict.CUT

    def test_is_said_with_the_step(self):
        told = Session().answer("recover " + ", ".join(readings(*READ[:5], "19.2", *READ[6:]))).text(400)
        assert (
            "9 of 10 stand on 0.5 mm, so they are taken as read to 0.5 mm and trusted to half of that; "
            "19.2 mm does not, and is read more finely, judged between the marks, or wrong; "
            "say within what, if they are finer" in told
        )

    def test_of_a_rule_of_the_inch_is_weighed_as_well(self):
        read = take(["1 1/2 in", "15/16 in", "7/16 in", "1 3/16 in", "2 1/16 in", "1 13/64 in"])
        odd = {shown.step.inch: shown.odd for way in ways(read) for shown in way.shown}
        assert odd == {Fraction(1, 16): (5,), Fraction(1, 32): (5,), Fraction(1, 64): ()}

    def test_has_three_causes_that_share_its_way_evenly_and_is_none_where_all_stand(self):
        """Each step is one way where all stand on it; one off it was read more finely, misjudged, or is wrong."""
        whole = [*READ[:5], "19.0", *READ[6:]]
        ways_of = [
            [way for way in ways(take(readings(*figures))) if way.shown]
            for figures in (whole, [*whole[:5], "19.2", *whole[6:]])
        ]
        half = [[way for way in each if way.steps == (Fraction(1, 2),)] for each in ways_of]
        assert [len(each) for each in half] == [1, 3]
        assert len({way.prior for way in half[1]}) == 1
        trusts = [(way.readings[5].within.mm, way.slips) for way in half[1]]
        assert trusts == [(Fraction(1, 20), ()), (Fraction(1, 4), ()), (Fraction(1, 20), (5,))]

    def test_three_readings_may_show_a_step_and_two_never(self):
        for count in (1, 2, 3, 4):
            read = take(readings(*READ[:count]))
            assert any(way.shown for way in ways(read)) == (count >= 3)
            rule = take(["1 1/2 in", "15/16 in", "7/16 in", "1 3/16 in"][:count])
            assert any(way.shown for way in ways(rule)) == (count >= 3)


class TestOtherInstruments:
    """What is read in another unit, or named, shows nothing of the step and does not undo it."""

    @pytest.mark.parametrize("other", ["3/4 in", "0.75 in"])
    def test_one_reading_in_another_unit(self, other):
        found = recover([*readings(*READ), other])
        assert (found.step.step.mm, found.step.odd) == (Fraction(1, 2), ())
        assert best(found)[:10] == MEANT

    def test_each_unit_shows_its_own_step(self):
        inch = ["0.50 in", "0.75 in", "1.25 in", "0.35 in", "0.90 in"]
        found = recover([*readings(*READ), *inch])
        assert [str(step.step) for step in found.steps] == ["0.5 mm", "0.05 in"]
        assert [step.on for step in found.steps] == [tuple(range(10)), tuple(range(10, 15))]

    def test_a_size_read_again_is_trusted_like_the_others(self):
        found = recover([*readings(*READ[:6]), readings("9.5", "9.5")])
        assert found.readings[6].within.mm == Fraction(1, 4)

    def test_a_reading_with_its_own_trust_is_let_be(self):
        found = recover(readings(*READ), within=["0.05 mm", *[None] * 9])
        assert found.readings[0].within.mm == Fraction(1, 20)
        assert found.step.on == tuple(range(1, 10))


class TestTied:
    def test_one_off_the_step_does_not_undo_it(self):
        true = {"whole": 60, "end": 13, "middle": 34, "post": 7, "rail": 27, "lath": 11, "sill": 40}
        read = {name: f"{round(float(INCH * k / 32) * 2) / 2:.1f} mm" for name, k in true.items()}
        read["rail"] = "21.3 mm"
        found = reconcile(read, ["whole = 2 * end + middle"])
        assert (found.step.step.mm, found.step.odd) == (Fraction(1, 2), (4,))
        assert {n: found.sizes[n].inch * 32 for n in ("whole", "end", "middle")} == {
            n: true[n] for n in ("whole", "end", "middle")
        }

    def test_few_that_may_be_coarse_are_not_settled(self):
        found = reconcile(
            {"whole": "95.0 mm", "end": "20.5 mm", "middle": "54.2 mm"}, ["whole = 2 * end + middle"]
        )
        assert found.verdict is SizeVerdict.UNSETTLED


def lists(count: int) -> Iterator[tuple[list[Fraction], list[Fraction], int]]:
    """Lists of a shop's sizes read with a step, the first reading or two then off it: finer, by eye, or a slip.

    Fewer than six are not read to the whole millimetre: 60.0 and 70.0 beside one other are a metric shop's by any odds.
    """
    random = Random(1304)
    for k in range(count):
        unit = INCH / random.choice((4, 8, 16, 32))
        marks = [n * unit for n in range(1, 90) if 6 <= n * unit <= 60]
        sizes = random.choice((3, 4, 6, 8, 10, 12))
        meant = random.sample(marks, min(sizes, len(marks)))
        step = Fraction(random.choice(("0.5", "1"))) if sizes > 4 else Fraction(1, 2)
        many = 2 if sizes > 8 and k % 2 else 1
        read = []
        for place, size in enumerate(meant):
            figure = round((float(size) + random.gauss(0, 0.03)) / float(step)) * step
            while place < many and not figure % step:
                away = random.choice(
                    (0.0, random.uniform(-0.25, 0.25), random.choice((-1, 1)) * random.uniform(0.3, 1))
                )
                figure = Fraction(round((float(size) + away) * 10 + random.uniform(-1, 1)), 10)
            read.append(figure)
        yield meant, read, many


def test_of_lists_with_a_reading_off_the_step_no_odds_promise_too_much():
    """Answers for the other readings at 10 to 1 or better are right as often as their odds say, or oftener."""
    sure, promised = [], 0.0
    for meant, read, many in lists(times(40, 60)):
        found = recover([f"{float(figure):.1f} mm" for figure in read])
        for row, size in list(zip(found.readings, meant, strict=True))[many:]:
            if row.candidates and row.candidates[0].odds >= 10:
                sure.append(row.candidates[0].size.mm == size)
                promised += row.candidates[0].probability
    assert len(sure) > 100
    # Two standard errors of so many answers are granted to chance.
    assert sum(sure) >= promised - 2 * (promised * (1 - promised / len(sure))) ** 0.5


class TestWays:
    def test_fewer_than_three_show_nothing(self):
        (way,) = ways(take(readings(*READ[: FEWEST - 1])))
        assert not way.shown

    def test_more_than_a_third_off_is_no_step(self):
        every = ways(take(readings("38.0", "25.5", "12.5", "19.2", "31.7")))
        assert all(Fraction(1, 2) not in way.steps for way in every)

    def test_a_named_instrument_is_believed(self):
        (way,) = ways(take(readings(*READ), by="caliper"))
        assert not way.shown

    def test_fractions_that_no_rule_carries_pass_as_written(self):
        (way,) = ways(take(["3/128 in", "5/128 in", "7/128 in"]))
        assert not way.shown


class TestFiguresWrittenToDifferentPlaces:
    """12.7 and 55.55 mm of one list were read with one instrument: either noughts were left out, or pains were taken."""

    def test_share_the_step_on_which_all_stand(self):
        for read in (["12.7 mm", "55.55 mm"], ["12.7 mm", "55.55 mm", "19.1 mm", "25.4 mm"]):
            found = recover(read)
            assert found.step is not None
            assert found.step.step.mm == Fraction(1, 20)
            assert found.step.on == tuple(range(len(read)))
            assert {row.within.mm for row in found.readings} == {Fraction(1, 40)}

    def test_are_trusted_as_they_were_written_where_too_many_noughts_would_have_been_left_out(self):
        found = recover(["12.7 mm", "19.1 mm", "25.4 mm", "38.1 mm", "50.8 mm", "55.57 mm"])
        assert found.step is None
        assert [row.within.mm for row in found.readings] == [Fraction(1, 20)] * 5 + [Fraction(1, 200)]

    def test_are_weighed_by_the_figures_that_each_way_leaves_to_choose_from(self):
        """Worked by hand. On 0.05 mm 12.7 is one of twice as many figures as in tenths, 55.55 of a fifth as many as in hundredths."""
        every = {
            (read.steps, float(read.readings[0].made.mm)): read.prior
            for read in ways(take(["12.7 mm", "55.55 mm"]))
        }
        finest, twentieth, hundredth = (), (Fraction(1, 20),), (Fraction(1, 100),)
        assert every[finest, 0.05] == pytest.approx(log(0.8 * 0.05))
        # Of the steps between the two places, 0.02 and 0.05 mm, one will do.
        assert every[twentieth, 0.05] == pytest.approx(log(0.8 * 0.95 * 0.15 * 0.92**2 * 0.5 * 5))
        assert every[hundredth, 0.05] == pytest.approx(log(0.8 * 0.95 * 0.7 * 0.92**2 * 0.1))
        assert len(every) == 3

    def test_are_so_in_decimals_of_an_inch_too(self):
        found = recover(["0.5 in", "2.185 in", "0.75 in", "1.125 in"])
        assert found.step is not None
        assert {row.within for row in found.readings} == {found.step.step / 2}

    def test_leave_a_coarser_step_to_be_found_as_before(self):
        found = recover(["38.0 mm", "25.5 mm", "12.5 mm", "51 mm", "19.0 mm", "9.5 mm"])
        assert found.step is not None
        assert found.step.step.mm == Fraction(1, 2)

    @pytest.mark.parametrize(
        ("by", "read", "within"),
        [
            ("caliper", ["12.7 mm", "55.55 mm"], "0.03 mm"),
            ("caliper", ["12.7 mm", "55.5 mm"], "0.05 mm"),
            ("micrometer", ["5 mm", "12.7 mm"], "0.005 mm"),
            ("rule", ["38 mm", "25.5 mm"], "0.25 mm"),
        ],
    )
    def test_by_one_named_instrument_are_all_trusted_as_the_finest(self, by, read, within):
        wanted = {as_length(within)}
        assert {row.within for row in recover(read, by=by).readings} == wanted
        named = reconcile(dict(zip("ab", read, strict=True)), ["b = 5 * a"], by=by)
        assert {reading.within for reading in named.readings.values()} == wanted

    def test_by_different_instruments_or_with_a_trust_of_their_own_are_left_alone(self):
        rows = recover(["12.7 mm", "55.55 mm", "38 mm"], by=["caliper", "micrometer", "rule"]).readings
        assert [float(row.within.mm) for row in rows] == [0.05, 0.005, 0.5]
        told = recover(["12.7 mm", "55.55 mm"], within=["0.1 mm", None], by="caliper").readings
        assert [float(row.within.mm) for row in told] == [0.1, 0.03]
        mixed = recover(["1 1/2 in", "25.4 mm"], by="rule").readings
        assert [row.within for row in mixed] == [as_length("1/64 in"), as_length("0.25 mm")]
