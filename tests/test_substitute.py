"""What can stand in for a thread, and what happens."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.errors import ShopError
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.series import all_threads
from fractions_shop.threads.substitute import StandIn, substitute

PARALLEL = st.sampled_from([one for one in all_threads() if not one.taper and one.major.mm < 30])
TARGETS = st.sampled_from(["metric", "unified", "british", "UNF", "BA"])


def only(name: str, series: str, new: str) -> StandIn:
    (found,) = [one for one in substitute(name, series, count=12) if one.thread.name == new]
    return found


def test_the_same_pitch_and_another_angle() -> None:
    """1/4 BSW and 1/4-20 UNC: one pitch, 55 and 60 degrees (BS 84, ASME B1.1)."""
    found = only("1/4 BSW", "UNC", "1/4-20 UNC")
    assert not found.same_angle
    assert (found.as_it_is.fit, found.as_it_is.binds_after) == ("near", None)
    assert "the angle is 60 degrees against 55" in " ".join(found.as_it_is.happens)
    assert found.retap.verdict == "chased"


def test_a_larger_thread_cuts_the_old_one_out() -> None:
    """M3.5 takes a 2.9 mm drill, and 6 BA is 2.8 mm outside."""
    found = only("6 BA", "metric", "M3.5")
    assert found.as_it_is.fit == "tight"
    assert found.retap.verdict == "clean"
    assert "2.9 mm drill" in found.retap.happens


def test_a_little_larger_leaves_old_grooves() -> None:
    """M3 in an old 6 BA: (3 - 2.8) of (3 - 2.5) mm is sound, 40 %."""
    found = only("6 BA", "metric", "M3")
    assert (found.retap.verdict, found.retap.sound) == ("poor", 40)
    assert found.retap.grows.mm == Fraction("0.2")


def test_a_smaller_thread_is_loose_and_wants_a_bush() -> None:
    """M2.5 in 6 BA: (2.5 - 2.16) of (2.8 - 2.16) mm still overlaps, 53 %."""
    found = only("6 BA", "metric", "M2.5")
    assert found.as_it_is.fit == "loose"
    assert round(found.as_it_is.grip) == 53
    assert found.retap.verdict == "no"
    assert "bush the hole" in found.retap.happens


@given(PARALLEL, TARGETS)
@settings(max_examples=40, deadline=None)
def test_binding_is_when_the_pitch_error_fills_the_play(old: object, series: str) -> None:
    """Play on the effective diameter x tan(a/2), worked again in floats."""
    for one in substitute(old, series):  # type: ignore[arg-type]
        turns = one.as_it_is.binds_after
        if turns is None or one.as_it_is.fit == "tight":
            continue
        play = float((old.effective - one.thread.effective).mm) + 0.1 * float(old.pitch.mm)  # type: ignore[attr-defined]
        slack = play * math.tan(math.radians(float(old.angle.degrees) / 2))  # type: ignore[attr-defined]
        assert turns == pytest.approx(slack / abs(float(one.pitch_off.mm)), abs=1.001)


@given(PARALLEL, TARGETS)
@settings(max_examples=40, deadline=None)
def test_clean_retapping_leaves_no_old_thread(old: object, series: str) -> None:
    answer = substitute(old, series)  # type: ignore[arg-type]
    for one in (*answer, *answer.for_retapping):
        retap = one.retap
        assert one.major_off == one.thread.major - old.major  # type: ignore[attr-defined]
        if retap.verdict == "clean":
            assert retap.drill is not None
            assert retap.drill.size >= old.major  # type: ignore[attr-defined]
        if retap.verdict in ("clean", "partial"):
            assert one.thread.major > old.major  # type: ignore[attr-defined]
            assert retap.sound >= 50


@given(PARALLEL, TARGETS)
@settings(max_examples=40, deadline=None)
def test_a_bush_has_a_wall_and_clears_the_old_thread(old: object, series: str) -> None:
    for one in substitute(old, series):  # type: ignore[arg-type]
        bush = one.bush
        if bush.outside is None:
            assert bush.happens
            continue
        assert bush.drill is not None
        assert bush.wall is not None
        assert bush.drill.size >= old.major  # type: ignore[attr-defined]
        assert bush.wall >= one.thread.pitch
        assert bush.wall == (min(m.size for m in bush.outside.minors) - one.thread.major) / 2


@given(PARALLEL)
@settings(max_examples=30, deadline=None)
def test_nearest_come_first_and_never_the_thread_itself(old: object) -> None:
    answer = substitute(old)  # type: ignore[arg-type]
    far = [
        2 * abs(one.major_off.mm) / old.major.mm + abs(one.pitch_off.mm) / old.pitch.mm  # type: ignore[attr-defined]
        for one in answer
    ]
    assert far == sorted(far)
    assert all(one.thread.series != old.series for one in answer)  # type: ignore[attr-defined]


def test_pipe_stands_in_for_pipe_only() -> None:
    answer = substitute("1/2 BSP")
    assert {one.thread.series for one in answer} <= {"R", "NPT"}
    assert "pressure" in answer.caution
    assert all(one.retap.verdict == "no" for one in answer)


def test_the_caution_and_the_refusals() -> None:
    assert "licensed engineer" in substitute("6 BA", "metric").caution
    with pytest.raises(ShopError, match="not a thread series"):
        substitute("6 BA", "buttress")
    with pytest.raises(ShopError, match="there is no 26 BA"):
        substitute("26 BA")


def test_the_old_thread_may_be_given_as_one() -> None:
    assert substitute(thread("6 BA"), "metric") == substitute("6 BA", "metric")


# Tapers, the series' own neighbours, and drills of another system


@pytest.mark.parametrize(
    ("old", "series", "new", "told"),
    [
        ("G 1/2", None, "1/2 NPT", "a taper thread in a parallel one: it wedges and will not seal"),
        ("G 1/2", None, "R 1/2", "a taper thread in a parallel one: it wedges and will not seal"),
        ("1/2 NPT", "G", "G 1/2", "a parallel thread in a taper one: it wedges and will not seal"),
        ("1/2 NPT", "R", "R 1/2", "two tapers of different angle or pitch: it wedges and will not seal"),
    ],
)
def test_a_taper_where_none_belongs_wedges_and_will_not_seal(
    old: str, series: str | None, new: str, told: str
) -> None:
    (mine,) = [each for each in substitute(old, series) if each.thread.name == new]
    assert (mine.as_it_is.fit, mine.as_it_is.binds_after) == ("wedges", None)
    assert mine.as_it_is.happens == (told,)


def test_no_parallel_pair_is_said_to_wedge() -> None:
    for name in ("6 BA", "1/4 BSW", "M6"):
        assert not [each for each in substitute(name) if each.as_it_is.fit == "wedges"]


@pytest.mark.parametrize(
    ("name", "sizes"),
    [
        ("2 BA", ["1 BA", "0 BA"]),
        ("0 BA", []),
        ("1/4 BSW", ["5/16 BSW", "3/8 BSW"]),
        ("G 1/2", ["G 5/8", "G 3/4"]),
    ],
)
def test_the_next_sizes_of_its_own_series_count(name: str, sizes: list[str]) -> None:
    found = substitute(name)
    assert [each.thread.name for each in found.own_series] == sizes
    assert all(each in found.for_retapping for each in found.own_series)
    assert substitute(name, "metric").own_series == ()


def test_a_drill_of_another_system_is_taken_where_its_own_leaves_too_little() -> None:
    """9/16-24 UNEF: (14.2875 - 13.3) / (1.299038 x 1.05833) is 72 %, and 17/32 in leaves 58 %."""
    screw = thread("9/16-24 UNEF")
    usual, inch = screw.tapping(), screw.tapping(drills="inch")
    assert usual.drill is not None
    assert inch.drill is not None
    assert (usual.drill.name, inch.drill.name) == ("13.3 mm", "17/32 in")
    assert (round(usual.engagement or 0), round(inch.engagement or 0)) == (72, 58)
    assert usual.nearer is None
    assert inch.nearer is not None
    assert inch.nearer.drill.name == "13.3 mm"


def test_a_metric_drill_is_told_beside_where_it_is_nearer() -> None:
    """No 8-32 UNC: No 29 leaves 69 % and 3.4 mm 74 % of 3H/4."""
    tap = thread("No 8-32 UNC").tapping()
    assert tap.nearer is not None
    assert (tap.drill and tap.drill.name, tap.nearer.drill.name) == ("No 29", "3.4 mm")
    told = substitute("No 6-32 UNC", "UNC").for_retapping
    assert any(", or with the" in each.retap.happens and "mm drill" in each.retap.happens for each in told)
    assert thread("1/4-20 UNC").tapping().nearer is None
    assert thread("M6").tapping().nearer is None  # printed: no percentage decided
