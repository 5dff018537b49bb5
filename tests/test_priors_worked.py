"""The prior in figures: every weight, step and name as the module's text states them, and readings' spread."""

from __future__ import annotations

from fractions import Fraction
from math import inf, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from weighed_readings import density_of

from fractions_shop.errors import ShopError
from fractions_shop.meant.catalogue import series
from fractions_shop.meant.priors import Division, scheme, span_about
from fractions_shop.meant.readings import CALIPER, MADE, STOCK, Reading, take
from fractions_shop.size.quantity import Quantity

INCH = Fraction(254, 10)
NOTHING = Quantity(Fraction(0))

# Judgements about the trade (common practice, no source), as the module's text gives them.
PLAIN = [
    # system, name, step in mm, share of its system in hundredths
    ("inch fractions", "whole inches", "25.4", 5),
    ("inch fractions", "halves", "12.7", 10),
    ("inch fractions", "quarters", "6.35", 15),
    ("inch fractions", "8ths", "3.175", 20),
    ("inch fractions", "16ths", "1.5875", 25),
    ("inch fractions", "32nds", "0.79375", 15),
    ("inch fractions", "64ths", "0.396875", 10),
    ("decimal inch", "0.1 in", "2.54", 15),
    ("decimal inch", "0.05 in", "1.27", 15),
    ("decimal inch", "0.01 in", "0.254", 30),
    ("decimal inch", "0.005 in", "0.127", 15),
    ("decimal inch", "0.001 in", "0.0254", 25),
    ("metric", "10 mm", "10", 15),
    ("metric", "5 mm", "5", 25),
    ("metric", "1 mm", "1", 40),
    ("metric", "0.5 mm", "0.5", 15),
    ("metric", "0.1 mm", "0.1", 5),
]
SYSTEMS = {"inch fractions": 0.85, "decimal inch": 0.15, "metric": 1.0}


@pytest.mark.parametrize("odds", [20.0, 1.0, 0.25])
def test_the_plain_divisions_and_their_weights(odds: float) -> None:
    found = scheme((), odds)
    assert [(d.system, d.name, d.step) for d in found] == [(s, n, Fraction(t)) for s, n, t, _ in PLAIN]
    inches, metric = odds / (1 + odds), 1 / (1 + odds)
    wanted = [(metric if s == "metric" else inches) * SYSTEMS[s] * w / 100 for s, _, _, w in PLAIN]
    assert [d.weight for d in found] == pytest.approx(wanted)
    assert [d.pitch(Fraction(1)) for d in found] == [float(Fraction(t)) for _, _, t, _ in PLAIN]


def test_128ths_take_their_part_from_the_other_fractions() -> None:
    found = {d.name: d for d in scheme("128ths") if d.system == "inch fractions"}
    assert found["128ths"].step == INCH / 128
    assert found["128ths"].weight == pytest.approx(20 / 21 * 0.85 * 3 / 103)
    assert found["16ths"].weight == pytest.approx(20 / 21 * 0.85 * 25 / 103)


@pytest.mark.parametrize("odds", [20.0, 0.25])
def test_tables_share_half_and_in_each_its_sizes_are_alike_but_metric_ones_not_screws_by_the_odds(
    odds: float,
) -> None:
    found = scheme(["drills", "threads", "drills"], odds)
    assert sum(d.weight for d in found if d.step is not None) == pytest.approx(0.5)
    for table in ("drills", "threads"):
        listed = [d for d in found if d.system == table]
        raw = [
            len(one.marks) * (1 / odds if one.metric and table != "threads" else 0.1 if one.rare else 1.0)
            for one in series(table)
        ]
        assert [d.weight for d in listed] == pytest.approx([0.25 * w / sum(raw) for w in raw])
        assert [d.name for d in listed] == [one.name for one in series(table)]


@pytest.mark.parametrize("name", ["", "100ths", "64ths", "Drills", "zinc"])
def test_no_other_word_is_a_table(name: str) -> None:
    with pytest.raises(ShopError, match="is not a table to look among"):
        scheme([name])


def test_a_table_not_known_is_refused_with_those_that_are() -> None:
    with pytest.raises(ShopError) as refused:
        scheme(["drills", "nails", "tacks"])
    assert str(refused.value) == (
        "'nails' is not a table to look among: expected some of drills, gauges, threads, stock, 128ths, old inches"
    )


@pytest.mark.parametrize(
    ("mm", "span"), [("51.5", "103"), ("12.7", "25.4"), ("12.8", "25.6"), ("1", "25.4"), ("0.001", "25.4")]
)
def test_makers_chose_from_up_to_twice_the_size_and_an_inch_at_least(mm: str, span: str) -> None:
    assert span_about(Quantity(Fraction(mm))) == Fraction(span)


SHELF = Division(
    "shelf", "sizes", 1.0, None, ((Fraction(2), "two"), (Fraction(3), "three"), (Fraction(7), "seven"))
)


class TestATable:
    def test_its_marks_between_two_sizes_both_included(self) -> None:
        assert SHELF.between(Fraction(2), Fraction(3)) == [2, 3]
        assert SHELF.between(Fraction(21, 10), Fraction(69, 10)) == [3]
        assert SHELF.between(Fraction(0), Fraction(100)) == [2, 3, 7]
        assert SHELF.between(Fraction(8), Fraction(9)) == []

    def test_its_mean_step_up_to_a_span(self) -> None:
        assert [SHELF.pitch(Fraction(s)) for s in (1, 2, 6, 7, 30)] == [inf, 2.0, 3.0, 7 / 3, 10.0]

    def test_it_carries_and_calls_its_own(self) -> None:
        assert [SHELF.carries(Fraction(n)) for n in (2, 3, 4)] == [True, True, False]
        assert SHELF.called(Fraction(7)) == "seven"

    @pytest.mark.parametrize(
        ("target", "low", "high", "found"),
        [
            ("2.4", "0", "10", 2), ("2.5", "0", "10", 2), ("2.6", "0", "10", 3), ("5.1", "0", "10", 7),
            ("100", "0", "10", 7), ("0.1", "0", "10", 2), ("2.4", "3", "10", 3), ("6.9", "0", "6.9", 3),
            ("5", "4", "6", None), ("3", "3", "3", 3),
        ],
    )  # fmt: skip
    def test_its_nearest_mark_within_a_stretch_and_of_two_the_lower(
        self, target: str, low: str, high: str, found: int | None
    ) -> None:
        assert SHELF.nearest(Fraction(target), Fraction(low), Fraction(high)) == found


@given(
    st.sampled_from([*scheme(["128ths"]), SHELF]),
    st.fractions(0, 40, max_denominator=64),
    st.fractions(0, 40, max_denominator=64),
    st.fractions(0, 6, max_denominator=64),
)
def test_the_nearest_mark_is_the_nearest_of_those_between(
    division: Division, target: Fraction, low: Fraction, length: Fraction
) -> None:
    found = division.nearest(target, low, low + length)
    between = division.between(low, low + length)
    assert found == min(between, key=lambda mark: (abs(mark - target), mark), default=None)


@pytest.mark.parametrize(
    ("name", "mm", "called"),
    [
        ("8ths", "3.175", "1/8 in"),
        ("halves", "63.5", "2 1/2 in"),
        ("whole inches", "50.8", "2 in"),
        ("0.001 in", "4.9022", "0.193 in"),
        ("0.1 in", "25.4", "1 in"),
        ("0.5 mm", "51.5", "51.5 mm"),
        ("10 mm", "50", "50 mm"),
    ],
)
def test_a_mark_is_called_as_a_maker_would(name: str, mm: str, called: str) -> None:
    (division,) = [d for d in scheme() if d.name == name]
    assert division.carries(Fraction(mm))
    assert not division.carries(Fraction(mm) + Fraction(1, 1000))
    assert division.called(Fraction(mm)) == called


# Readings


def one(size: str, within: str, made: str = "0", worn: str = "0") -> Reading:
    return Reading(*(Quantity(Fraction(t)) for t in (size, within, made, worn)))


def test_what_is_assumed_when_nothing_is_said() -> None:
    assert (CALIPER.mm, MADE.mm) == (Fraction("0.05"), Fraction("0.05"))
    (found,) = take(Quantity(Fraction(10)))
    assert (found.within.mm, found.made.mm, found.worn.mm) == (Fraction("0.05"), Fraction("0.05"), 0)
    assert Reading(Quantity(Fraction(10)), CALIPER) == found


def test_sigma_and_width_add_their_variances() -> None:
    # JCGM 100:2008 4.3.7: a^2/3 for half-widths 0.3 and 0.4 mm, and 1.2^2/12 for the wear.
    found = one("10", "0.3", "0.4", "1.2")
    assert found.sigma == pytest.approx(sqrt(0.25 / 3))
    assert found.width == pytest.approx(sqrt(0.25 / 3 + 0.12))


def test_sizes_are_sought_six_sigma_away_and_the_wear_above_and_never_below_nought() -> None:
    # 0.3 mm alone: six sigma are 0.6 sqrt(3) = 1.03923 mm.
    low, high = one("10", "0.3", worn="0.5").sought
    assert (float(low), float(high)) == pytest.approx((10 - 1.0392305, 10.5 + 1.0392305))
    assert one("1", "0.3").sought[0] == 0


@pytest.mark.parametrize(("meant", "off"), [("10", "0.25"), ("10.25", "0"), ("10.5", "0.25"), ("9", "1.25")])
def test_a_worn_part_is_likeliest_to_read_half_its_wear_small(meant: str, off: str) -> None:
    assert one("10", "0.3", worn="0.5").off_centre(Fraction(meant)) == Fraction(off)


@pytest.mark.parametrize("meant", ["10", "10.1", "9.7"])
def test_a_reading_is_normal_about_what_was_meant(meant: str) -> None:
    sigma = 0.3 / sqrt(3)
    off = float(Fraction(meant) - 10) / sigma
    wanted = 2.718281828459045 ** (-off * off / 2) / (sigma * sqrt(2 * pi))
    assert density_of(one("10", "0.3"), Fraction(meant)) == pytest.approx(wanted)


def test_from_one_reading_to_two_hundred() -> None:
    assert len(take(["1 mm"] * 200)) == 200
    assert len(take(("1 mm",))) == len(take("1 mm")) == 1
    for number in (0, 201):
        with pytest.raises(ShopError, match=f"from 1 to 200 readings can be weighed at once, not {number}"):
            take(["1 mm"] * number)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"made": "-1 mm"}, "how near the maker worked must not be negative"),
        ({"worn": "-1 mm"}, "the wear must not be negative"),
        ({"within": "-1 mm"}, "how far to trust a reading must not be negative"),
        ({"within": "0 mm", "made": "0 mm"}, "a reading cannot be trusted without limit"),
    ],
)
def test_a_trust_that_is_none_is_refused(more: dict[str, str], said: str) -> None:
    with pytest.raises(ShopError, match=said):
        take("3 mm", **more)


@pytest.mark.parametrize(
    "more", [{"within": "0 mm"}, {"made": "0 mm"}, {"worn": "0 mm"}, {"within": "0 mm", "made": "0.1 mm"}]
)
def test_one_of_two_trusts_may_be_nought(more: dict[str, str]) -> None:
    (found,) = take("3 mm", **more)
    assert found.sigma > 0


def test_a_reading_of_nought_is_none() -> None:
    for size in ("0 mm", "-1 mm"):
        with pytest.raises(ShopError, match="a reading must be above zero"):
            take(size)
    assert take("0.001 mm")[0].size.mm == Fraction("0.001")
    assert isinstance(take(Quantity(Fraction(1, 2)))[0].worn, Quantity)
    assert take("1 mm")[0].worn == NOTHING


def test_what_was_bought_owes_nothing_to_the_maker_s_hand() -> None:
    (one,) = take("1.22 mm")
    assert (one.made, one.bought.made) == (MADE, STOCK)
    assert STOCK.mm == Fraction("0.02")
    (perfect,) = take("1.22 mm", made="0 mm")
    assert perfect.bought is perfect


def test_a_screw_is_likeliest_half_its_undersize_small_and_worn_ones_smaller_still() -> None:
    (one,) = take("3.9 mm", "0.005 mm", "0.1 mm")
    # 4 - (0.1 + 0.16) / 2 = 3.87 mm is the middle of what a 4 mm screw would read.
    assert one.off_centre(Fraction(4), Fraction("0.16")) == Fraction("0.03")
    # Even over 0.26 mm, but for what its ends lose.
    assert density_of(one, Fraction(4), Fraction("0.16")) == pytest.approx(1 / 0.26, rel=1e-2)
