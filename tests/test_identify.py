"""From worn readings to threads."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.quantity import Quantity
from fractions_shop.threads.identify import identify, lookalikes
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.series import all_threads

# The pipe threads' majors are at a gauge plane and are as good as any for this law.
THREADS = st.sampled_from(all_threads())


@given(THREADS)
def test_nominal_readings_find_the_thread_first_or_its_twin(one: object) -> None:
    """A twin has the same major and pitch in another series (1/4 BSW and 1/4-20 UNC)."""
    found = identify(one.major, one.pitch, count=8)  # type: ignore[attr-defined]
    best = [c.thread for c in found if not c.major_off.value and not c.pitch_off.value]
    assert one in best
    assert found[0].thread in best
    assert found[0].likely


@given(THREADS, st.integers(0, 20))
def test_a_real_screw_a_fifth_of_a_pitch_under_is_still_likely(one: object, under: int) -> None:
    """BS 93 lets the major of a normal bolt lie 0.20p low (Machinery's Handbook 31st ed. p.2115)."""
    reading = one.major - one.pitch * Fraction(under, 100)  # type: ignore[attr-defined]
    found = identify(reading, one.pitch, series=one.series, count=8)  # type: ignore[attr-defined]
    (mine,) = [c for c in found if c.thread == one]
    assert mine.likely
    assert mine.major_off == reading - one.major  # type: ignore[attr-defined]


@given(THREADS)
def test_a_pitch_may_be_given_per_inch(one: object) -> None:
    per_length = 1 / one.pitch  # type: ignore[attr-defined]
    assert identify(one.major, per_length)[0] == identify(one.major, one.pitch)[0]  # type: ignore[attr-defined]


def names(major: str, pitch: str, **more: str) -> list[str]:
    return [c.thread.name for c in identify(major, pitch, **more) if c.likely]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("major", "pitch", "likely"),
    [
        ("2.75 mm", "0.53 mm", ["6 BA", "No 4-48 UNF"]),
        ("5.95 mm", "1 mm", ["0 BA", "M6"]),
        ("0.247 in", "20 tpi", ["1/4 BSW", "1/4-20 UNC"]),
        ("6.2 mm", "26 tpi", ["1/4 BSF", "1/4-26 BSC", "1/4 BSB"]),
        ("13.0 mm", "19 tpi", ["G 1/4", "R 1/4"]),
        ("11.95 mm", "1.25 mm", ["M12 x 1.25"]),
        ("0.136 in", "32 threads per inch", ["No 6-32 UNC"]),
    ],
)
def test_worn_readings(major: str, pitch: str, likely: list[str]) -> None:
    """Which threads have these sizes is from the tables; how far under is usual, from BS 93."""
    assert names(major, pitch) == likely


def test_one_series_may_be_asked_for() -> None:
    assert names("0.247 in", "20 tpi", series="whitworth") == ["1/4 BSW"]


def test_a_wide_miss_is_offered_but_not_as_likely() -> None:
    found = identify("100 mm", "0.1 mm")
    assert len(found) == 6
    assert not any(c.likely for c in found)


def test_the_answer_says_how_far_off_and_why() -> None:
    first, second = identify("2.75 mm", "0.53 mm")[:2]
    assert first.remark == "the major is 0.05 mm under nominal, as a real screw may be"
    assert second.pitch_off.mm == Fraction("0.53") - Fraction(254, 480)
    worn = next(c for c in identify("3.1 mm", "40 tpi") if c.thread.name == "No 6-40 UNF")
    assert "more than the usual 0.15 mm" in worn.remark


@pytest.mark.parametrize(
    ("major", "pitch", "error", "told"),
    [
        ("6 mm", "26", DimensionError, "a pitch of 26 what. write 26 tpi or 26 mm"),
        ("6", "1 mm", DimensionError, "the major diameter is a length"),
        ("0 mm", "1 mm", ShopError, "must be above zero"),
        ("6 mm", "0 tpi", ShopError, "must be above zero"),
        ("-6 mm", "1 mm", ShopError, "must be above zero"),
        ("6 mm", "what", ShopError, "not a plain size"),
    ],
)
def test_readings_that_are_none(major: str, pitch: str, error: type[Exception], told: str) -> None:
    with pytest.raises(error, match=told):
        identify(major, pitch)


# Look-alikes


@pytest.mark.parametrize(
    ("name", "other", "same_angle", "half_pitch"),
    [
        ("0 BA", "M6", False, None),
        ("6 BA", "No 4-48 UNF", False, 318),
        ("2 BA", "No 10-32 UNF", False, 25),
        ("11 BA", "No 0-80 UNF", False, 21),
        ("1/4 BSW", "1/4-20 UNC", False, None),
        ("1/8 BSW", "1/8 x 40 ME", True, None),
        ("3/16 BSF", "No 10-32 UNF", False, None),
        ("7/16-20 BSC", "7/16-20 UNF", True, None),
        ("M8 x 1", "5/16-26 BSC", True, 22),
    ],
)
def test_lookalikes_are_named(name: str, other: str, same_angle: bool, half_pitch: int | None) -> None:
    """By arithmetic from the two pitches; that these pass for each other is common practice, no source."""
    (found,) = [a for a in lookalikes(thread(name)) if a.thread.name == other]
    assert (found.same_angle, found.half_pitch_after) == (same_angle, half_pitch)


@given(THREADS)
def test_no_thread_is_its_own_lookalike(one: object) -> None:
    assert all(a.thread != one for a in lookalikes(one))  # type: ignore[arg-type]


def test_the_usual_caution_is_there() -> None:
    assert "licensed engineer" in identify("6 mm", "1 mm").caution
    assert "pressure" in identify("13 mm", Quantity.of(19, "tpi")).caution
