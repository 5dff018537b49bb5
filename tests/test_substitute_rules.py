"""Stand-ins against the stated rules worked again by plain search, and whole sentences."""

from __future__ import annotations

from fractions import Fraction
from math import radians, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.requests.thread_figures import named
from fractions_shop.size.quantity import Quantity
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.records import BY_KEY
from fractions_shop.threads.series import GROUPS, SERIES, all_threads, of_series
from fractions_shop.threads.substitute import StandIn, substitute
from fractions_shop.threads.thread import Thread

EVERY = all_threads()
OLD = st.sampled_from([one for one in EVERY if one.major.mm < 40])
GROUP = st.sampled_from(["metric", "unified", "british", "pipe"])
PIPES = {"G", "R", "NPT"}


def far(old: Thread, new: Thread) -> Fraction:
    """A part in the major counts twice a part in the pitch."""
    return 2 * abs(new.major.mm / old.major.mm - 1) + abs(new.pitch.mm / old.pitch.mm - 1)


def only(name: str, series: str, new: str) -> StandIn:
    (found,) = [one for one in substitute(name, series, count=40) if one.thread.name == new]
    return found


# Which are looked at


def asked_for(group: str) -> tuple[str, ...]:
    """The series of a group without those met with seldom, where it has others."""
    keys = GROUPS[group]
    return tuple(key for key in keys if not BY_KEY[key].rare) or keys


@given(OLD, GROUP, st.integers(1, 12))
@settings(max_examples=25)
def test_the_nearest_of_the_series_asked_for_are_all_there(old: Thread, group: str, count: int) -> None:
    keys = asked_for(group)
    expected = sorted(far(old, one) for one in EVERY if one.series in keys and one != old)[:count]
    assert [far(old, one.thread) for one in substitute(old, group, count=count)] == expected


@given(OLD)
@settings(max_examples=12)
def test_without_a_series_two_of_every_other_series_of_the_kind_are_compared(old: Thread) -> None:
    pipe = old.series in PIPES
    keys = [s.key for s in SERIES if (s.key in PIPES) == pipe and s.key != old.series and not s.rare]
    expected = sorted(d for key in keys for d in sorted(far(old, one) for one in of_series(key))[:2])
    assert [far(old, one.thread) for one in substitute(old, count=100)] == expected
    assert len(substitute(old)) == min(6, len(expected))


def test_as_many_as_asked_for_and_one_at_least() -> None:
    assert [len(substitute("6 BA", "metric", count=n)) for n in (-1, 0, 1, 2, 9)] == [1, 1, 1, 2, 9]
    answer = substitute("6 BA", "metric")
    assert answer[1:] == answer.candidates[1:]


def by_growth(threads: list[Thread]) -> list[Thread]:
    return sorted(threads, key=lambda one: (one.major.mm, -one.pitch.mm, one.name))


def sizes_up(old: Thread, keys: tuple[str, ...]) -> list[Thread]:
    return by_growth(
        [
            one
            for one in EVERY
            if one.series in keys and not one.taper and old.major < one.major <= old.major * 2
        ]
    )


def with_clean(old: Thread, larger: list[Thread], taken: list[Thread]) -> list[Thread]:
    clean = [one for one in larger if verdict(old, one) == "clean"][:1]
    return by_growth([*taken, *(one for one in clean if one not in taken)])


def good(old: Thread, threads: list[Thread]) -> list[Thread]:
    return [one for one in threads if verdict(old, one) in ("clean", "partial")]


@given(OLD.filter(lambda one: not one.taper), GROUP)
@settings(max_examples=25)
def test_for_retapping_are_the_three_smallest_sizes_up_that_leave_half_or_more_and_one_that_taps_clean(
    old: Thread, group: str
) -> None:
    larger = sizes_up(old, asked_for(group))
    expected = with_clean(old, larger, good(old, larger)[:3])
    found = substitute(old, group)
    assert [one.thread for one in found.for_retapping] == expected
    assert found.own_series == ()


@given(OLD.filter(lambda one: not one.taper))
@settings(max_examples=12)
def test_without_a_series_its_own_next_sizes_count_and_one_of_them_taps_clean(old: Thread) -> None:
    own = sizes_up(old, (old.series,))
    next_sizes = with_clean(old, own, own[:2])
    found = substitute(old)
    assert [one.thread for one in found.own_series] == next_sizes
    recommended = [one.thread for one in found.for_retapping]
    assert set(good(old, next_sizes)) <= set(recommended)
    assert recommended == by_growth(recommended)
    others = tuple(s.key for s in SERIES if s.key != old.series and not s.rare and s.key not in PIPES)
    if old.series not in PIPES:
        larger = sizes_up(old, others)
        assert set(recommended) == {
            *good(old, next_sizes),
            *with_clean(old, larger, good(old, larger)[:3]),
        }


@given(OLD)
@settings(max_examples=10)
def test_whatever_is_recommended_is_described_with_its_drill_and_what_it_leaves(old: Thread) -> None:
    found = substitute(old)
    told = found.text(10_000).splitlines()
    assert "best for re-tapping" not in told[-2]
    for one in (*found.for_retapping, *found.own_series):
        name = f"  {named(one.thread)}{', of its own series' if one in found.own_series else ''}: major "
        (line,) = [line for line in told if line.startswith(name)]
        drill = one.thread.tapping()
        assert f"; {one.retap.verdict}; " in line
        assert (drill.drill.name if drill.drill else "bore the old hole") in line or "large enough" in line
        assert "% of " in line
        assert "of the old thread" in line


@given(OLD.filter(lambda one: not one.taper))
@settings(max_examples=12)
def test_what_is_left_of_both_threads_is_by_the_hole_as_it_then_is(old: Thread) -> None:
    """Of the old depth what lies outside the hole, of the new one the hole's share of the charts' depth."""
    found = substitute(old)
    for one in (*found, *found.for_retapping, *found.own_series):
        retap, new = one.retap, one.thread
        if retap.verdict in ("no", "chased"):
            assert (retap.old_left, retap.engagement) == (None, None)
            continue
        hole = max(new.tapping().size.mm, old.minor.mm)
        left = max(Fraction(0), 100 * (old.major.mm - hole) / (old.major.mm - old.minor.mm))
        assert retap.old_left == left
        assert retap.engagement == new.engagement(Quantity(hole))
        assert (left == 0) == (retap.verdict == "clean")


# The new screw in the old hole


def fit(old: Thread, new: Thread) -> str:
    """Usual play on the effective diameter is a tenth of the pitch, twice that is loose."""
    room, usual = old.effective.mm - new.effective.mm, old.pitch.mm / 10
    if room < -usual:
        return "tight"
    if new.major <= old.minor:
        return "falls through"
    error = abs(new.pitch.mm - old.pitch.mm)
    half = tan(radians(float(old.angle.degrees) / 2))
    if error and float(room + usual) * half < float(error):
        return "binds"
    if room < 0:
        return "stiff"
    return "loose" if room > 2 * usual else "near"


@given(OLD, st.sampled_from([*GROUPS]))
@settings(max_examples=60)
def test_the_fit_is_by_effective_diameters_and_the_grip_by_what_overlaps(old: Thread, group: str) -> None:
    for one in substitute(old, group, count=8):
        new, found = one.thread, one.as_it_is
        matched = old.taper == new.taper and (
            not old.taper or (old.angle, old.pitch) == (new.angle, new.pitch)
        )
        by_diameters = fit(old, new)
        if not matched and by_diameters not in ("tight", "falls through"):
            assert (found.fit, found.binds_after) == ("wedges", None)
            continue
        assert found.fit == by_diameters
        overlap = (new.major - old.minor) / (old.major - old.minor)
        assert found.grip == 100 * min(1, max(0, overlap.value))
        assert (found.binds_after is None) == (new.pitch == old.pitch or found.fit == "falls through")
        assert one.same_angle == (new.angle == old.angle)
        if found.fit == "tight":
            assert found.binds_after in (0, None)


@pytest.mark.parametrize(
    ("old", "series", "new", "happens"),
    [
        pytest.param(
            "6 BA", "metric", "M3",
            ["its effective diameter is too large: it will not start in the old thread"],
            id="2.655 against 2.48 mm effective",
        ),
        pytest.param(
            "5/8 BSW", "BA", "0 BA", ["it passes through the old hole without touching the thread"],
            id="6 mm in a 12.9 mm hole",
        ),
        pytest.param(
            "0 BA", "metric", "M6",
            [
                "it enters with about the usual play", "the pitch is the same",
                "the angle is 60 degrees against 47.5: the flanks bear on a line and will wear",
            ],
            id="one major and one pitch",
        ),
        pytest.param(
            "6 BA", "metric", "M2.5",
            [
                # (2.5 - 2.16) of (2.8 - 2.16) mm; 0.45 against 0.53 mm; room of 0.305 + 0.053 mm on
                # the effective diameter, times tan 23.75 deg, is 0.157 mm: 1.97 turns of 0.08 mm.
                "too loose: 53 % of the old thread's depth still bears",
                "the pitch is 15.1 % finer: it binds after about 1 turn",
                "the angle is 60 degrees against 47.5: the flanks bear on a line and will wear",
            ],
            id="smaller and finer",
        ),
        pytest.param(
            "1/4 BSW", "UNC", "No 12-24 UNC",
            [
                # 5.537 and 4.799 mm effective: 0.738 + 0.127 mm of room, times tan 27.5 deg, is 0.450 mm:
                # 2.13 turns of 0.2117 mm; the pitch is 20/24 of the old.
                "too loose: 47 % of the old thread's depth still bears",
                "the pitch is 16.7 % finer: it binds after about 2 turns",
                "the angle is 60 degrees against 55: the flanks bear on a line and will wear",
            ],
            id="two turns",
        ),
        pytest.param(
            "1/4 BSW", "metric", "M6",
            [
                # 1 against 1.27 mm; (5.5368 - 5.3505 + 0.127) x tan 27.5 deg is 0.163 mm, less than 0.27 mm.
                "the diameters would let it in, but the pitch is 21.3 % finer: it binds at once",
            ],
            id="at once",
        ),
        pytest.param(
            "2 BA", "BSF", "3/16 BSF",
            [
                # Effective: 0.1875 in - 0.640327/32 = 4.2542 mm against 4.215 mm; (0.081 - 0.0392) x
                # tan 23.75 deg is 0.0184 mm, and the pitches are 0.81 and 0.79375 mm apart by 0.01625 mm.
                "its effective diameter is about 0.039 mm over: it starts only if the screw is thin "
                "or the nut slack",
                "the pitch is 2 % finer: it binds after about 1 turn",
                "the angle is 55 degrees against 47.5: the flanks bear on a line and will wear",
            ],
            id="a little over",
        ),
        pytest.param(
            "2 BA", "metric fine", "M4.5 x 0.5",
            [
                "the diameters would let it in, but the pitch is 38.3 % finer: it binds at once",
            ],
            id="much too fine",
        ),
        pytest.param(
            "0 BA", "BSF", "7/32 BSF",
            [
                # Effective: 5.5563 - 0.640327 x 0.90714 = 4.9754 mm against 5.4 mm, overlap (5.5563 - 4.8)/1.2.
                "too loose: 63 % of the old thread's depth still bears",
                "the pitch is 9.3 % finer: it binds after about 2 turns",
                "the angle is 55 degrees against 47.5: the flanks bear on a line and will wear",
            ],
            id="small and finer",
        ),
    ],
)  # fmt: skip
def test_what_happens_as_it_is(old: str, series: str, new: str, happens: list[str]) -> None:
    assert list(only(old, series, new).as_it_is.happens) == happens


def test_a_coarser_pitch_is_called_coarser_and_one_angle_is_not_remarked_on() -> None:
    # 1/4 BSF has 26 threads to the inch and 1/4 BSW 20: 26/20 is 30 % coarser, both 55 degrees.
    # Effective: 1/4 in - 0.640327/20 = 0.21798 in against 0.25 - 0.640327/26 = 0.22537 in.
    told = only("1/4 BSF", "BSW", "1/4 BSW").as_it_is
    assert told.fit == "binds"
    assert told.happens == ("the diameters would let it in, but the pitch is 30 % coarser: it binds at once",)


@given(OLD, st.sampled_from([*GROUPS]))
@settings(max_examples=60)
def test_what_is_said_of_a_screw_in_the_old_hole_agrees_with_its_figures(old: Thread, group: str) -> None:
    for one in substitute(old, group, count=8):
        told, said = one.as_it_is, "; ".join(one.as_it_is.happens)
        over = one.thread.effective > old.effective
        assert not (over and "play" in said)
        assert ("binds at once" in said) == (told.fit == "binds")
        assert told.fit != "binds" or told.binds_after == 0
        assert told.fit not in ("stiff", "near", "loose") or told.binds_after != 0


# Re-tapping


def verdict(old: Thread, new: Thread) -> str:
    """As the class Retap says it, from the tapping drill."""
    if old.taper or new.taper:
        return "no"
    grows, hole = new.major.mm - old.major.mm, new.tapping().size.mm
    if new.pitch == old.pitch and abs(grows) <= old.pitch.mm / 5:
        return "chased"
    if grows <= 0:
        return "no"
    if hole >= old.major.mm:
        return "clean"
    return "partial" if sound(old, new) >= 50 else "poor"


def sound(old: Thread, new: Thread) -> Fraction:
    """Percent of the new thread's depth that lies outside the old major diameter."""
    hole = max(new.tapping().size.mm, old.minor.mm)
    return 100 * (new.major.mm - old.major.mm) / (new.major.mm - hole)


@given(OLD, st.sampled_from([*GROUPS]))
@settings(max_examples=40)
def test_the_verdict_on_re_tapping_is_by_what_lies_outside_the_old_thread(old: Thread, group: str) -> None:
    for one in substitute(old, group, count=8):
        found = one.retap
        assert found.verdict == verdict(old, one.thread)
        assert found.grows == one.thread.major - old.major == one.major_off
        if found.verdict == "clean":
            assert found.sound == 100
        elif found.verdict in ("partial", "poor"):
            assert found.sound == sound(old, one.thread)
        else:
            assert found.sound == 0
        assert (found.drill is None) == (old.taper or one.thread.taper)
        if found.drill is not None:
            assert found.drill == one.thread.tapping()


@pytest.mark.parametrize(
    ("old", "series", "new", "happens"),
    [
        # M3.5 - 0.6 = 2.9 mm, and 6 BA is 2.8 mm outside.
        ("6 BA", "metric", "M3.5", "open the old hole with the 2.9 mm drill (one source), for 77 % of thread as drill charts count it, "
         "tap M3.5: nothing of the old thread is left"),
        # (3 - 2.8) of (3 - 2.5) mm, (2.8 - 2.5) of (2.8 - 2.16) mm, and (3 - 2.5) of 1.299038 x 0.5 mm.
        ("6 BA", "metric", "M3",
         "open the old hole with the 2.5 mm drill, for 77 % of thread as drill charts count it, tap M3: "
         "47 % of the old thread's depth is left, and 40 % of the new one is in sound metal"),
        # (7 - 6.35) of (7 - 6) mm, (6.35 - 6) of 1.280654 x 1.27 mm, and (7 - 6) of 1.299038 x 1 mm.
        ("1/4 BSW", "metric", "M7",
         "open the old hole with the 6 mm drill (one source), for 77 % of thread as drill charts count it, "
         "tap M7: 22 % of the old thread's depth is left, and 65 % of the new one is in sound metal"),
        ("6 BA", "metric", "M2.5", "the old grooves are as deep as the new thread or deeper: bush the hole"),
        ("0 BA", "metric", "M6",
         "the pitch is the same: a M6 tap run through follows the old groove and trues the flanks"),
        ("R 1/4", "G", "G 1/4", "a taper thread is not re-tapped to another: fit a new part"),
    ],
)  # fmt: skip
def test_what_happens_on_re_tapping(old: str, series: str, new: str, happens: str) -> None:
    assert only(old, series, new).retap.happens == happens


def test_a_hole_past_the_list_of_drills_is_bored() -> None:
    # M30 with a pitch of 3.5 mm wants 30 - 3.5 = 26.5 mm (ISO 2306); the drills listed end at 25 mm.
    found = only("1 BSW", "metric coarse", "M30")
    assert found.retap.happens.startswith(
        "bore the old hole to 26.5 mm (one source), for 77 % of thread as drill charts count it, tap M30: "
    )


# Bushing


@given(OLD, st.sampled_from(["metric", "unified", "BA", "bspp"]))
@settings(max_examples=25)
def test_the_bush_is_the_smallest_of_the_trade_that_leaves_a_wall_of_one_pitch(
    old: Thread, group: str
) -> None:
    families = {
        "metric": ("M", "M fine"), "unified": ("UNC", "UNF", "UNEF"),
        "BA": ("BA", "BSW", "BSF", "BSC", "ME", "BSB"), "bspp": ("G",),
    }  # fmt: skip
    for one in substitute(old, group, count=2):
        new, bush = one.thread, one.bush
        if old.taper or new.taper:
            assert (bush.outside, bush.drill, bush.wall) == (None, None, None)
            assert bush.happens == "a taper thread is not bushed so: fit a new part"
            continue
        able = [
            (other.major.mm, other.pitch.mm)
            for other in EVERY
            if other.series in families[group]
            and min(m.size for m in other.minors) >= new.major + new.pitch * 2
            and other.tapping().size >= old.major
        ]
        if not able:
            assert (bush.outside, bush.drill, bush.wall) == (None, None, None)
            assert bush.happens == (
                f"no outside thread of the kind leaves a wall: press in a plain bush tapped {new.name}"
            )
            continue
        assert bush.outside is not None
        assert bush.drill == bush.outside.tapping()
        assert (bush.outside.major.mm, bush.outside.pitch.mm) == min(able)
        assert bush.wall == (min(m.size for m in bush.outside.minors) - new.major) / 2


def test_a_bush_for_a_worn_ba_hole() -> None:
    # M5 x 0.5 outside: 5 - 1.226869 x 0.5 = 4.3866 mm at the root, less 3 mm, halved, is 0.693 mm;
    # 0.5 mm wall and more would be one pitch of M3. The hole: 5 - 0.75 x 1.299038 x 0.5 = 4.51 mm.
    bush = only("6 BA", "metric", "M3").bush
    assert bush.happens == (
        "open the old hole with the 4.5 mm drill, tap M5 x 0.5, screw in a bush tapped M3: "
        "its wall is about 0.69 mm"
    )
    assert bush.wall is not None
    assert bush.wall.mm == (5 - Fraction("1.226869") / 2 - 3) / 2


# The caution


def test_pressure_is_spoken_of_wherever_a_pipe_thread_is() -> None:
    for name, series in (("1/4 BSW", "pipe"), ("G 1/4", "metric"), ("R 1/4", None), ("1/4 NPT", None)):
        assert "pressure" in substitute(name, series).caution
    for name, series in (("1/4 BSW", "metric"), ("6 BA", None)):
        assert "pressure" not in substitute(name, series).caution
        assert "carries load" in substitute(name, series).caution


def test_the_differences_are_the_new_less_the_old() -> None:
    found = only("6 BA", "metric", "M2.5")
    assert (found.major_off.mm, found.pitch_off.mm) == (Fraction("-0.3"), Fraction("-0.08"))
    assert found.major_off == Quantity(Fraction("-0.3"))
    assert thread("6 BA").pitch.mm == Fraction("0.53")


def test_the_drill_beside_is_told_with_the_thread_that_it_leaves_in_whole_percent() -> None:
    """15 BA is 0.9 mm by 0.21 mm and 0.6 pitches deep (BS 93), and drill No 70 is 0.028 in (ASME B94.11M)."""
    leaves = (Fraction("0.9") - Fraction("0.028") * Fraction("25.4")) / (
        2 * Fraction("0.6") * Fraction("0.21")
    )
    assert f", or with the No 70 drill, for {round(leaves * 100)} %, tap 15 BA" in substitute("16 BA").text(
        400
    )
