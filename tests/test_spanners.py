"""Which spanner goes on a hexagon, and how loose: against the sizes of hexagons, and by search."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import InputError, Session, ShopError, spanner, thread
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import STANDINGS
from fractions_shop.threads.spanners import SYSTEMS, all_spanners


def told(line: str) -> str:
    return " ".join(Session().answer(line).text().split())


@pytest.mark.parametrize(
    ("head", "mark"),
    [
        # BS 1083 hexagons and a bench list of jaws; ISO 4014, ISO 272; ASME B18.2.1; BA by rule.
        ("1/4 BSW", "3/16 W or 1/4 BSF"),
        ("1/2 BSF", "7/16 W or 1/2 BSF"),
        ("1 BSW", "7/8 W or 1 BSF"),
        ("M6", "10 mm"),
        ("M16", "24 mm"),
        ("1/4-20 UNC", "7/16 AF"),
        ("1/2-13 UNC", "3/4 AF"),
        ("2 BA", "2 BA"),
    ],
)
def test_a_hexagon_has_the_spanner_that_is_made_for_it(head: str, mark: str) -> None:
    best = spanner(head).hexagons[0].best
    assert best is not None
    assert (best.spanner.mark, best.verdict) == (mark, "fits")
    assert abs(best.least.inch) <= Fraction(1, 1000)


def test_the_hexagon_of_a_spanners_w_mark_is_the_old_large_one() -> None:
    """A spanner of 3/8 W has 0.710 in, one step over the BS 1083 hexagon of 3/8 BSW (a table of spanners)."""
    new, old = spanner("3/8 BSW").hexagons
    assert new.best is not None
    assert old.best is not None
    assert "3/8 W" in old.best.spanner.mark
    assert "3/8 BSF" in new.best.spanner.mark
    assert (new.largest.inch, old.largest.inch) == (Fraction("0.6"), Fraction("0.71"))


def test_whitworth_jaws_are_the_greatest_hexagons_of_bs_1083() -> None:
    jaws = {each.mark: each.jaw.inch for each in all_spanners() if each.system == "Whitworth"}
    for mark, jaw in jaws.items():
        *_, bsf = mark.partition(" or ")
        if bsf and bsf not in ("11/16 BSF",):
            hexagon = thread(bsf).heads[0]
            assert (hexagon.dimension, hexagon.largest.inch) == ("across flats", jaw), mark


def test_with_af_alone_a_3_8_bsw_nut_has_no_spanner_and_the_answer_says_what_comes_near() -> None:
    said = told("spanner 3/8 BSW nut from AF")
    assert "no AF spanner fits: 19/32 AF is about 0.0062 in (about 0.159 mm) under and may go on" in said
    assert "5/8 AF, 0.025 in (0.635 mm) over, too loose" in said


@pytest.mark.parametrize(
    ("line", "mark", "verdict"),
    [
        ("spanner 3/4 in from metric", "19 mm", "may go on"),
        ("spanner 5/8 in from metric", "16 mm", "fits"),
        ("spanner 1/2 AF from metric", "13 mm", "loose"),
        ("spanner 8 mm from AF", "5/16 AF", "may go on"),
        ("spanner M5 from BA", "2 BA", "loose"),
        ("spanner 14 mm from BSW", "5/16 W or 3/8 BSF", "too loose"),
    ],
)
def test_the_known_stand_ins_of_other_systems(line: str, mark: str, verdict: str) -> None:
    """Pairs that are known at the bench (common practice, no source); the sizes are the marks' own."""
    result = Session().answer(line).result
    assert (mark, verdict) in [(fit.spanner.mark, fit.verdict) for fit in result.hexagons[0].spanners]


@given(st.integers(3000, 70_000), st.sampled_from(tuple(SYSTEMS)))
def test_what_is_told_of_a_system_is_the_nearest_on_either_side_by_search(um: int, system: str) -> None:
    _hold_by_search(Quantity(Fraction(um, 1000)), system)


@pytest.mark.parametrize("hundredths", [-10, -1, 0, 2, 4, 10])
def test_and_so_it_is_at_the_last_that_is_called_so_and_just_beyond(hundredths: int) -> None:
    for each in all_spanners()[::3]:
        at_the_end = each.jaw.mm / (1 + Fraction(hundredths, 100))
        for more in (-1, 0, 1):
            _hold_by_search(Quantity(at_the_end * (1 + Fraction(more, 10**4))), each.system)


def _verdict(over: Fraction) -> str:
    """What a jaw so much wider, as a part of the hexagon, is called: our own rule, in its own figures."""
    if over < 0:
        return "may go on" if over >= Fraction(-1, 100) else "too small"
    return "fits" if over <= Fraction(2, 100) else "loose" if over <= Fraction(4, 100) else "too loose"


def _hold_by_search(across: Quantity, system: str) -> None:
    (hexagon,) = spanner(across, systems=system).hexagons
    jaws = [each.jaw for each in all_spanners() if each.system == system]
    near = [jaw for jaw in jaws if abs(jaw.mm - across.mm) <= across.mm / 10]
    above = min((jaw for jaw in near if jaw >= across), default=None, key=lambda jaw: jaw.mm)
    told_above = [fit for fit in hexagon.spanners if fit.least.value >= 0]
    assert [fit.spanner.jaw for fit in told_above] == ([] if above is None else [above])
    for fit in hexagon.spanners:
        assert fit.least == fit.spanner.jaw - across
        assert fit.verdict == _verdict(fit.least.mm / across.mm)
        assert fit.usable == (0 <= fit.least.mm <= across.mm / 25)
        if fit.least.value < 0:
            assert fit.spanner.jaw == max((jaw for jaw in near if jaw < across), key=lambda jaw: jaw.mm)


def test_a_hexagon_with_limits_takes_what_clears_its_largest() -> None:
    for fit in spanner("3/8 BSW").hexagons[0].spanners:
        assert fit.most - fit.least == Quantity.inches(Fraction("0.008"))


def test_nut_and_head_are_asked_for_apart() -> None:
    nuts = {each.kind for each in spanner("7/16-14 UNC", part="nut").hexagons}
    heads = {each.kind for each in spanner("7/16-14 UNC", part="head").hexagons}
    assert nuts == {"hexagon nut (ASME B18.2.2)", "square nut (ASME B18.2.2)"}
    assert heads == {"hexagon head (ASME B18.2.1)"}
    best = spanner("7/16-14 UNC", part="nut").hexagons[0].best
    assert best is not None
    assert (best.spanner.mark, spanner("7/16-14 UNC", part="nut").hexagons[0].standing) == (
        "11/16 AF",
        "from memory",
    )


@pytest.mark.parametrize(
    "text",
    [
        "spanner M10 from BSF",
        "spanner M10 from whitworth",
        "spanner M10 from W",
        "Spanner for M10 from BSW, W",
    ],
)
def test_a_system_is_read_by_its_trade_words(text: str) -> None:
    assert Session().answer(text).result.systems == ("Whitworth",)


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("which spanner for a 3/8 BSW nut", "spanner 3/8 BSW nut"),
        ("wrench 3/8 BSW", "spanner 3/8 BSW"),
        ("what size wrench fits 1/4-20 UNC", "spanner 1/4-20 UNC"),
        ("M10 spanner", "spanner M10"),
    ],
)
def test_a_question_in_bench_words_is_never_the_size_of_the_screw(line: str, offer: str) -> None:
    with pytest.raises(ShopError) as caught:
        Session().answer(line)
    assert f"write {offer}" in str(caught.value)
    assert Session().answer(offer).kind == "spanner"


def test_a_bare_fraction_before_af_is_inches_and_a_large_number_is_asked_about() -> None:
    assert Session().answer("spanner 9/16 AF").result.size == Quantity.inches(Fraction(9, 16))
    with pytest.raises(ShopError, match="this has no unit"):
        Session().answer("spanner 14 AF")


def test_a_line_that_names_it_stands_for_the_size_across_flats_with_its_standing() -> None:
    session = Session()
    session.answer("af = spanner M16")
    twice = session.answer("2 * af")
    assert twice.value == Quantity.millimetres(48)
    assert twice.value.standing == "one source"


def test_two_hexagons_are_a_doubt_that_says_both() -> None:
    answer = Session().answer("af = spanner 3/8 BSW")
    (doubt,) = [note for note in answer.notes if note.kind == "doubt"]
    assert doubt.meanings == ("spanner 0.6 in", "spanner 0.71 in")
    assert [Session().answer(each).value for each in doubt.meanings] == [
        each.largest for each in answer.result.hexagons
    ]


def test_the_word_may_still_be_a_name() -> None:
    session = Session()
    session.answer("spanner = 3 in")
    assert session.answer("spanner / 2").value == Quantity.inches(Fraction(3, 2))


def test_its_object_has_every_standing_and_source() -> None:
    data = Session().answer("spanner 3/8 BSW").data()
    for hexagon in data["hexagons"]:
        assert hexagon["standing"] in STANDINGS
        assert hexagon["source"]
        for fit in hexagon["spanners"]:
            assert fit["spanner"]["standing"] in STANDINGS
            assert fit["spanner"]["source"]
    assert "a hand is hurt" in data["caution"]


def test_a_screw_without_its_no_is_asked_about() -> None:
    with pytest.raises(ShopError, match="write No 10-32 for the screw"):
        Session().answer("spanner 10-32 nut")
    assert Session().answer("spanner No 10-32 nut").result.name == "No 10-32 UNF"


@pytest.mark.parametrize(
    ("asked", "lacks"),
    [("M1.2 nut", "hexagon of M1.2"), ("M1.2", "hexagon of M1.2"), ("G 1/4 head", "hexagon of G 1/4")],
)
def test_a_thread_without_any_hexagon_lacks_that_whatever_part_is_asked(asked: str, lacks: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(f"spanner {asked}")
    assert caught.value.message.startswith(f"no {lacks} was read")
