"""What an answer to readings says first, on what odds, and what those rest on."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import Session, recover
from fractions_shop.meant.belief import Belief, belief_in
from fractions_shop.meant.found import Ask, SizeCandidate, Weighed
from fractions_shop.meant.priors import DECIMALS, FRACTIONS, METRIC, scheme
from fractions_shop.meant.unsaid import SURE, Unsaid
from fractions_shop.meant.verdict import SizeVerdict, about
from fractions_shop.requests.meant_words import by_chance, verdict_line, verdict_lines
from fractions_shop.size.quantity import Quantity


def told(line: str, *before: str) -> list[str]:
    bench = Session()
    for other in before:
        bench.answer(other)
    return bench.answer(line).text(200).splitlines()


def weighed(odds: float, even_odds: float = 1e9, **more: object) -> Weighed:
    """One reading whose best size has these odds."""
    size = Quantity.inches(Fraction(11, 32))
    best = SizeCandidate(size, "11/32 in", FRACTIONS, "32nds", size - size, odds / (1 + odds), odds, 0.1)
    usual: dict[str, object] = {
        "off_marks": 0.0,
        "figures": (),
        "alike": (),
        "full": None,
        "suspect": False,
        "threads": False,
    }
    odds_without = {"even_odds": even_odds, "kept_odds": 1e9}
    return Weighed(size, size, size, size, (best,), 0.0, **usual | odds_without | more)  # type: ignore[arg-type]


class TestTheThresholds:
    @pytest.mark.parametrize(
        ("odds", "line"),
        [
            (1e6, "Cut to 11/32 in"),
            (100.01, "Cut to 11/32 in"),
            (100, "Take 11/32 in; check one neighbour"),
            (30.01, "Take 11/32 in; check one neighbour"),
            (30, "Probably 11/32 in; read a neighbouring size"),
            (3.01, "Probably 11/32 in; read a neighbouring size"),
            (3, "Not settled: 11/32 in, or none of the round sizes; do not cut yet"),
            (0.01, "Not settled: 11/32 in, or none of the round sizes; do not cut yet"),
        ],
    )
    def test_what_may_be_done_at_such_odds(self, odds, line):
        assert verdict_line(weighed(odds)) == line

    def test_of_a_list_what_is_alike_in_one_sentence(self):
        assert verdict_lines([weighed(40), weighed(200), weighed(40), weighed(40, 5)]) == [
            "Cut to 11/32 in",
            "Take 11/32 in; check one neighbour",
            "Probably 11/32 in, if it is inch work; read a neighbouring size",
        ]

    def test_a_misreading_is_to_be_read_again(self):
        one = weighed(200, suspect=True, written="8.7 mm")
        assert verdict_line(one) == "Not settled: 8.7 mm may be misread, or no round size; do not cut yet"
        assert Ask.AGAIN.value == "the same size again"


class TestTheChance:
    @pytest.mark.parametrize(
        ("chance", "said"),
        [
            (0.0, "never as near by chance"),
            (0.001, "by chance about 1 in 1,000"),
            (0.031, "by chance about 1 in 30"),
            (0.049, "by chance about 1 in 20"),
            (0.0951, "by chance about 1 in 10"),
            (0.29, "by chance about 3 in 10"),
            (0.5, "by chance about 5 in 10"),
            (0.93, "by chance about 9 in 10"),
            (0.94, "by chance about 9 in 10"),
            (0.941, "by chance about 19 in 20"),
            (0.95, "by chance about 19 in 20"),
            (0.995, "by chance about 199 in 200"),
            (1.0, "always as near by chance"),
        ],
    )
    def test_as_one_says_it(self, chance, said):
        assert by_chance(chance) == said

    @given(st.floats(1e-6, 1 - 1e-6))
    def test_it_is_true_to_a_twentieth_and_a_rare_one_to_its_half(self, chance):
        many, of = about(chance)
        rare = min(chance, 1 - chance)
        assert abs(many / of - chance) <= (0.05 if 0.095 <= chance <= 0.94 else rare / 2) + 1e-9

    @given(st.integers(30, 900).map(lambda tenths: f"{tenths / 10:.1f} mm"))
    @settings(max_examples=20, deadline=None)
    def test_what_is_always_as_near_by_chance_is_left_out(self, read):
        found = recover(read).readings[0]
        # The best is told whatever its chance, and so is what the verdict names; what else is always as near proves nothing.
        answer = Session().answer(f"recover {read}").text(200, pictures=False)
        verdict = re.split(r": |, | or |;", answer.splitlines()[0])
        left_out = [c for c in found.candidates[1:] if c.chance >= 0.995 and c.name not in verdict]
        rows = "\n".join(line for line in answer.splitlines() if line.startswith("  "))
        assert not [c.name for c in left_out if f"  {c.name} " in rows]
        assert "10 in 10" not in rows


class TestTheReadingIsToldAsItWasWritten:
    @pytest.mark.parametrize(
        "read", ["25.4 mm", "25.40 mm", "1.000 in", "2 2/4 in", "1 1/2 inches", "12.70mm", "500 thou"]
    )
    def test_alone(self, read):
        assert any(line.startswith(f"{read} read within ") for line in told(f"recover {read}"))

    def test_in_a_list_again_and_by_name(self):
        lines = told("recover 25.40 mm, 50.8 mm, 2 2/4 in")
        rows = [line.split("  ")[1] for line in lines if line.startswith("  ")]
        assert {"25.40 mm", "50.8 mm", "2 2/4 in"} <= set(rows)
        assert any(
            line.startswith("51.4 mm, 51.6 mm read within") for line in told("recover 51.4 mm again 51.6 mm")
        )
        assert any(line.startswith("edge read within") for line in told("recover edge", "edge = 25.4 mm"))

    def test_of_names_and_of_tied_sizes(self):
        assert any(line.startswith("25.40 mm read within") for line in told("a reads 25.40 mm"))
        rows = told("reconcile b = 2 of a", "a reads 25.40 mm", "b reads 50.8 mm")
        assert any("a  25.40 mm  1 in" in line for line in rows)
        assert any("b  50.8 mm   2 in" in line for line in rows)


class TestTheBeliefIsNamed:
    @pytest.mark.parametrize(
        ("line", "said"),
        [
            ("recover 51.5 mm", "held to be inch work, 20 to 1 before measuring; if metric, 51.5 mm"),
            ("recover 51.5 mm in inch work", "said to be inch work, 200 to 1 before measuring"),
            ("recover 38.0 mm in metric work", "said to be metric work, 200 to 1 before measuring; if inch, 1 1/2 in"),
            ("recover 51.5 mm in either work", "held of the work: inch and metric alike; if inch, 2 1/32 in"),
            ("recover 51.5 mm, 66.7 mm, 10.3 mm", "held to be inch work, 20 to 1 before measuring"),
        ],
    )  # fmt: skip
    def test_before_anything_that_rests_on_it(self, line, said):
        assert any(one.startswith(said) for one in told(line))


class TestWhatRestsOnTheBeliefAlone:
    """Metric parts whose readings lie near a sixteenth must not be told to be cut in inches (27 mm is 1 1/16 in, near enough)."""

    @pytest.mark.parametrize(
        ("read", "meant", "else_", "kept"), [("27.0 mm", "1 1/16 in", "27 mm", " and it has kept its size"), ("9.5 mm", "3/8 in", "9.5 mm", ""), ("44.5 mm", "1 3/4 in", "44.5 mm", " and it has kept its size")]
    )  # fmt: skip
    def test_is_no_more_than_probable_and_says_if_what(self, read, meant, else_, kept):
        found = recover(read).readings[0]
        assert found.candidates[0].odds >= SURE > found.even_odds
        assert found.rests_on_belief
        assert found.verdict is SizeVerdict.PROBABLE
        lines = told(f"recover {read}")
        assert lines[0] == f"Probably {meant}, if it is inch work{kept}; read a neighbouring size"
        assert f"to 1 on if it is inch work{kept}; by chance" in lines[1]
        assert f"if metric, {else_}" in lines[2]

    @pytest.mark.parametrize("read", ["66.7 mm", "25.4 mm"])
    def test_what_no_millimetre_explains_does_not(self, read):
        assert Unsaid.WORK not in recover(read).readings[0].rests_on

    def test_nor_does_what_somebody_said(self):
        found = recover("9.5 mm", work="inch").readings[0]
        assert found.even_odds == pytest.approx(found.candidates[0].odds)
        assert found.verdict is SizeVerdict.CHECK
        assert not recover("9.5 mm", inch_odds=20).readings[0].rests_on_belief
        assert recover("66.7 mm", worn="0.1 mm").readings[0].rests_on == ()

    @pytest.mark.parametrize("read", ["27.0 mm", "9.5 mm", "51.5 mm", "66.7 mm", "12.7 mm"])
    def test_the_even_odds_are_those_of_either_work(self, read):
        """By asking anew with even odds: of a single reading both are Bayes' rule for one prior."""
        believed, even = recover(read).readings[0], recover(read, work="either").readings[0]
        best = believed.candidates[0].size
        again = next(c for c in even.candidates if c.size == best)
        assert believed.even_odds == pytest.approx(again.odds, rel=1e-9)

    @pytest.mark.parametrize("odds", [0.05, 1.0, 20.0, 300.0])
    def test_made_even_every_kind_of_work_has_half(self, odds):
        belief = Belief(odds)
        parts = {FRACTIONS: 0.0, DECIMALS: 0.0, METRIC: 0.0}
        for division in scheme((), odds):
            parts[division.system] += division.weight * belief.made_even(division.system)
        assert parts[METRIC] == pytest.approx(0.5)
        assert parts[FRACTIONS] + parts[DECIMALS] == pytest.approx(0.5)
        assert belief.made_even("drills") == 1

    def test_it_is_told_of_names_and_in_the_object(self):
        lines = told("edge reads 9.5 mm")
        assert lines[0] == "Probably 3/8 in, if it is inch work; read a neighbouring size"
        assert "3/8 in, 63 to 1 on if it is inch work;" in lines[2]
        (one,) = Session().answer("recover 9.5 mm").data()["readings"]
        assert one["rests_on_belief"] is True
        assert 5 < float(one["even_odds"]) < 10

    def test_ten_to_one_exactly_is_sure(self):
        assert weighed(SURE, SURE - 1).rests_on_belief
        assert not weighed(SURE - 0.1, 1).rests_on_belief
        assert not weighed(1000, SURE).rests_on_belief
        assert weighed(1000, SURE - 0.1).verdict is SizeVerdict.PROBABLE
        assert replace(weighed(1000, 1), candidates=()).rests_on_belief is False

    def test_the_work_in_its_own_words(self):
        assert belief_in("inch").said
        assert not belief_in().said
