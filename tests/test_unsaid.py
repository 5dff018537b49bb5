"""What nobody said and no reading shows is no evidence: one law for one reading, a list, and a set that closes."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Session, reconcile, recover
from fractions_shop.meant.shared import Shrunk
from fractions_shop.meant.unsaid import SURE, SURE_OF_KEPT, Unsaid, allowed, held_alike, rests_on
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.show.sheet import Sheet

INCH = Fraction(127, 5)
HABIT = {INCH / 4: 0.2, INCH / 8: 0.3, INCH / 16: 0.3, INCH / 32: 0.2}


class TestTheLaw:
    @given(st.floats(0, 1e6), st.floats(0, 1e6), st.floats(0, 1e6))
    def test_what_rests_on_a_belief_is_cut_to_by_none_and_on_the_work_is_no_more_than_probable(
        self, odds, even, kept
    ):
        unsaid = rests_on(odds, even, kept)
        verdict = allowed(odds, unsaid)
        assert verdict.value <= SizeVerdict.of(odds).value
        if unsaid:
            assert odds >= SURE
            most = SizeVerdict.PROBABLE if Unsaid.WORK in unsaid else SizeVerdict.CHECK
            assert verdict is min(SizeVerdict.of(odds), most, key=lambda each: each.value)
        else:
            assert verdict is SizeVerdict.of(odds)

    def test_what_is_as_sure_without_it_rests_on_nothing(self):
        assert rests_on(12, 12, 12) == ()
        assert rests_on(400, SURE, SURE_OF_KEPT) == ()
        assert rests_on(400, SURE - 1, SURE_OF_KEPT - 1) == (Unsaid.WORK, Unsaid.KEPT)
        assert rests_on(SURE - 1, 0, 0) == ()

    def test_a_belief_and_its_contrary_held_alike(self):
        assert held_alike(0.9, 0.5, 0.0) == pytest.approx(0.7)
        assert held_alike(0.9, 0.5, 5000.0) == pytest.approx(0.5)
        assert held_alike(0.9, 0.5, -5000.0) == pytest.approx(0.9)


def shrunk_lists(random, parts, count, by=Fraction(3, 100)):
    """Inch parts that have all lost up to 3 %, read with a caliper of 0.1 mm; nobody says so."""
    for _ in range(parts // count):
        kept = 1 - random.random() * float(by)
        steps = random.choices(list(HABIT), list(HABIT.values()), k=count)
        meant = [step * random.randint(int(6 / step) + 1, int(60 / step)) for step in steps]
        yield meant, [f"{(float(size) + random.uniform(-0.05, 0.05)) * kept:.1f} mm" for size in meant]


@pytest.mark.parametrize(("count", "parts"), [(1, 400), (2, 160), (3, 120)])
def test_of_shrunk_parts_that_are_told_as_sure_most_are_right(count, parts):
    sure = right = sure_by_odds = 0
    for meant, read in shrunk_lists(Random(77 + count), parts, count):
        for row, size in zip(recover(read).readings, meant, strict=True):
            best = row.candidates[0]
            sure_by_odds += best.odds >= SURE
            if best.odds >= SURE and not row.rests_on:
                sure += 1
                right += best.size.mm == size
    assert sure_by_odds > sure
    # One in twenty may be wrong, and two standard errors of so many answers are granted to chance.
    assert sure - right <= 0.05 * sure + 2 * (0.05 * 0.95 * sure) ** 0.5


class TestKeptItsSize:
    def test_one_reading_near_which_a_larger_mark_may_have_shrunk_to_it(self):
        found = recover("66.7 mm").readings[0]
        assert found.candidates[0].odds > 80
        assert found.rests_on == (Unsaid.KEPT,)
        assert found.kept_odds < SURE_OF_KEPT
        assert found.verdict is SizeVerdict.CHECK

    @pytest.mark.parametrize(
        "said",
        [
            {"worn": "0 mm"},
            {"plated": "0 mm"},
            {"worn": "0.2 mm"},
            {"plated": "0.02 mm"},
            {"shrunk": Fraction(1, 100)},
        ],
    )
    def test_nothing_is_unsaid_where_it_was_said_what_befell_it(self, said):
        row = recover("66.7 mm", **said).readings[0]
        assert row.kept_odds == pytest.approx(row.candidates[0].odds)

    def test_many_readings_bear_witness_to_each_other(self):
        found = recover(["51.5 mm", "66.7 mm", "10.3 mm", "8.7 mm", "7.95 mm"])
        assert all(Unsaid.KEPT not in row.rests_on for row in found.readings)

    def test_of_few_tied_sizes_a_sum_tells_nothing_of_it(self):
        """A sum closes at any scale: 5 bays and their rack may all have lost alike."""
        found = reconcile({"rack": "51.6 mm", "bay": "10.3 mm"}, ["rack = 5 * bay"])
        plain = reconcile({"rack": "51.6 mm", "bay": "10.3 mm"}, ["rack = 5 * bay"], shrunk=Fraction(3, 100))
        assert found.kept_odds < found.sets[0].odds
        assert plain.kept_odds == pytest.approx(plain.sets[0].odds)
        assert any(isinstance(error.shared, Shrunk) for error in plain.common)


class TestTiedSizes:
    READ = ("a reads 9.5 mm", "b reads 19.0 mm", "reconcile b = 2 * a")

    def test_on_the_belief_in_inch_work_alone_are_no_more_than_probable(self):
        found = reconcile({"a": "9.5 mm", "b": "19.0 mm"}, ["b = 2 * a"])
        assert found.sets[0].odds > SURE > found.even_odds
        assert found.rests_on == (Unsaid.WORK,)
        assert found.verdict is SizeVerdict.PROBABLE
        assert [found.size_verdict(name) for name in "ab"] == [SizeVerdict.PROBABLE] * 2

    def test_even_odds_are_those_of_either_work(self):
        read, sums = {"a": "9.5 mm", "b": "19.0 mm"}, ["b = 2 * a"]
        even = reconcile(read, sums, work="either")
        wanted = next(s for s in even.sets if s.sizes == reconcile(read, sums).sizes)
        assert reconcile(read, sums).even_odds == pytest.approx(wanted.odds, rel=0.05)

    def test_what_somebody_said_is_no_belief(self):
        found = reconcile({"a": "9.5 mm", "b": "19.0 mm"}, ["b = 2 * a"], work="inch")
        assert Unsaid.WORK not in found.rests_on
        assert found.even_odds == pytest.approx(found.sets[0].odds)

    def test_verdict_odds_and_words_agree_in_every_line_and_object(self):
        bench = Session()
        *_, name, whole = [bench.answer(line) for line in (*self.READ[:2], self.READ[2])]
        told = whole.text(200).splitlines()
        assert told[0] == "Probably a 3/8 in and b 3/4 in, if it is inch work; read a neighbouring size"
        assert "the whole set: inch fractions, 8ths, 43.4 to 1 on if it is inch work" in told
        assert "held to be inch work, 20 to 1 before measuring; if metric, a 9.5 mm and b 19 mm" in told
        assert whole.data()["rests_on"] == ["work"]
        assert whole.data()["verdict"] == "probable"
        assert name.data()["rests_on"] == ["work"]
        sheet = Sheet.from_text("\n".join(self.READ))
        said = sheet.to_text(200)
        assert "9.5 mm read within 0.05 mm: 3/8 in, 43.4 to 1 on if it is inch work" in said
        assert said.count("if it is inch work; read a neighbouring size") == 3

    def test_every_form_of_a_sheet_tells_on_what_a_size_rests(self):
        sheet = Sheet.from_text("\n".join([*self.READ, "c = recover 9.5 mm", "d = recover 25.4 mm"]))
        for written in (sheet.to_text(200), sheet.to_markdown(), sheet.to_html()):
            assert written.count("if it is inch work; read a neighbouring size") == 4
        rows = [line for line in sheet.to_csv("sizes").splitlines() if line[:2] in ("a,", "b,", "c,", "d,")]
        assert ["taken from a reading, if it is inch work" in row for row in rows] == [
            True,
            True,
            True,
            False,
        ]
        told = [line["answer"]["rests_on"] for line in sheet.to_data()["lines"][:2]]
        assert told == [["work"], ["work"]]
