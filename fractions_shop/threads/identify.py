"""Which threads a worn screw may have, from its measured major diameter and pitch.

A real screw measures under its nominal major: BS 93 lets the major of a normal bolt
lie up to 0.20p + 0.025 mm low (Machinery's Handbook 31st ed. p.2115), and that is
taken here for every series; common practice, no source, beyond BA. Over nominal is
unlikely. The ranking weighs the two readings so:

  major   (under / 0.20p)^2, or (over / 0.05p)^2
  pitch   (error / 1 %)^2, what a pitch gauge or ten threads on a rule will tell

and the smallest sum comes first.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any, ClassVar, overload

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.size.arguments import as_quantity, options_by_name
from fractions_shop.size.notation import as_meant, decimal, mm_text, number_value
from fractions_shop.size.quantity import Quantity, a_power
from fractions_shop.threads.forms import pitch_of
from fractions_shop.threads.series import all_threads, series_keys
from fractions_shop.threads.thread import Thread

_UNDER = Fraction(1, 5)  # of a pitch
_UNDER_MORE = Fraction(1, 40)  # 0.025 mm
_OVER = Fraction(1, 20)  # of a pitch
_PITCH = Fraction(1, 100)
#: Beyond these a thread is not offered while a nearer one is.
_MOST_UNDER, _MOST_OVER, _MOST_PITCH = Fraction(1), Fraction(1, 4), Fraction(8, 100)
#: Two threads are look-alikes if a used screw of one passes for the other.
_ALIKE_MAJOR, _ALIKE_PITCH = Fraction(1, 3), Fraction(45, 1000)
_LIKELY_PITCH = Fraction(2, 100)

_TPI = re.compile(
    r"[ ]*(?P<number>[0-9]+(?:\.[0-9]+)?(?:[ ]+[0-9]+/[0-9]+)?)[ ]*(?:tpi|threads? per inch)[ ]*", re.I
)


@dataclass(frozen=True)
class LookAlike:
    """A thread that passes for another: differences are this one less the other.

    `half_pitch_after` is the number of turns after which their pitches are half a
    thread apart, None if the pitches are the same.
    """

    thread: Thread
    major_off: Quantity
    pitch_off: Quantity
    same_angle: bool
    half_pitch_after: int | None


@dataclass(frozen=True)
class Candidate:
    """A thread that the readings may mean.

    `major_off` and `pitch_off` are the readings less the nominal sizes. `likely` says
    that the major is within the usual undersize of a real screw and the pitch within
    2 %; `remark` says so in words. `lookalikes` are the threads that pass for it.
    """

    thread: Thread
    major_off: Quantity
    pitch_off: Quantity
    likely: bool
    remark: str
    lookalikes: tuple[LookAlike, ...]


@dataclass(frozen=True)
class Identified(Sequence[Candidate]):
    """The candidates for a pair of readings, most likely first; a sequence of them."""

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "certain",
        "caution",
    )

    major: Quantity
    pitch: Quantity
    candidates: tuple[Candidate, ...]

    @overload
    def __getitem__(self, index: int) -> Candidate: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[Candidate, ...]: ...
    def __getitem__(self, index: int | slice) -> Candidate | tuple[Candidate, ...]:
        return self.candidates[index]

    def __len__(self) -> int:
        return len(self.candidates)

    @property
    def certain(self) -> bool:
        """Whether one candidate alone is likely."""
        return sum(candidate.likely for candidate in self.candidates) == 1

    @property
    def caution(self) -> str:
        """What the answer must not be taken for."""
        return (
            "two readings do not prove a thread: try a known nut or a profile gauge for the angle; "
            + self.candidates[0].thread.caution
        )


@options_by_name("identify('2.75 mm', '0.53 mm', series='BA')")
def identify(major: Any, pitch: Any, *, series: str | None = None, count: int = 6) -> Identified:
    """The threads that a screw of measured `major` diameter and `pitch` may have, best first.

    `pitch` is a length, or a number per length (`26 tpi`); both may be Quantities or
    text. `series` looks in one only. If no thread is near the nearest come all the
    same, none of them `likely`. ShopError if a reading is not above zero, DimensionError
    if it is not of the right kind.

    >>> [one.thread.name for one in identify("2.75 mm", "0.53 mm")][:2]
    ['6 BA', 'No 4-48 UNF']
    """
    across, along = _length(major, "major diameter"), _pitch(pitch)
    keys = None if series is None else series_keys(series)
    threads = _window(across.mm, along.mm)
    near = [
        thread
        for thread in threads
        if (keys is None or thread.series in keys) and _near(thread, across.mm, along.mm)
    ]
    if not near:
        near = [thread for thread in all_threads() if keys is None or thread.series in keys]
    ranked = sorted(near, key=lambda thread: _misfit(thread, across.mm, along.mm))
    return Identified(
        across, along, tuple(_candidate(thread, across, along) for thread in ranked[: max(1, count)])
    )


def lookalikes(thread: Thread) -> tuple[LookAlike, ...]:
    """The threads that a used screw may pass for: major within p/3, pitch within 4 1/2 %."""
    reach = _ALIKE_MAJOR * thread.pitch.mm
    alike = [
        _alike(other, thread)
        for other in _between(thread.major.mm - reach, thread.major.mm + reach)
        if other != thread and abs(other.pitch.mm - thread.pitch.mm) <= _ALIKE_PITCH * thread.pitch.mm
    ]
    return tuple(sorted(alike, key=lambda a: (abs(a.pitch_off), abs(a.major_off))))


def _alike(other: Thread, thread: Thread) -> LookAlike:
    off = other.pitch - thread.pitch
    turns = round(thread.pitch.mm / 2 / abs(off.mm)) if off.mm else None
    return LookAlike(other, other.major - thread.major, off, other.angle == thread.angle, turns)


# Readings


def _length(value: Any, what: str) -> Quantity:
    size = as_quantity(value)
    if size.power != 1:
        raise DimensionError(f"the {what} is a length, with its unit, and this is {a_power(size.power)}")
    if size.value <= 0:
        raise ShopError(f"the {what} must be above zero")
    return size


def _pitch(value: Any) -> Quantity:
    if isinstance(value, str):
        match = _TPI.fullmatch(as_meant(value))
        if match is not None:
            tpi = number_value(match["number"])
            if tpi == 0:
                raise ShopError("the pitch must be above zero")
            return pitch_of(tpi)
    size = as_quantity(value)
    if size.power == -1 and size.value > 0:
        return 1 / size
    if size.power == 0:
        number = decimal(size.value)[0]
        raise DimensionError(f"a pitch of {number} what? write {number} tpi or {number} mm")
    return _length(size, "pitch")


# Ranking


@cache
def _majors() -> tuple[Fraction, ...]:
    return tuple(thread.major.mm for thread in all_threads())


def _between(low: Fraction, high: Fraction) -> tuple[Thread, ...]:
    majors = _majors()
    return all_threads()[bisect_left(majors, low) : bisect_right(majors, high)]


def _window(major: Fraction, pitch: Fraction) -> tuple[Thread, ...]:
    coarsest = pitch * (1 + 2 * _MOST_PITCH)
    return _between(major - _MOST_OVER * coarsest, major + _MOST_UNDER * coarsest + _UNDER_MORE)


def _near(thread: Thread, major: Fraction, pitch: Fraction) -> bool:
    own = thread.pitch.mm
    if abs(pitch - own) > _MOST_PITCH * own:
        return False
    return -_MOST_OVER * own <= thread.major.mm - major <= _MOST_UNDER * own + _UNDER_MORE


def usual_undersize(thread: Thread) -> Fraction:
    """How far in mm the major of a real screw commonly lies below nominal, at most: 0.20p + 0.025."""
    return _UNDER * thread.pitch.mm + _UNDER_MORE


def _misfit(thread: Thread, major: Fraction, pitch: Fraction) -> Fraction:
    own, under = thread.pitch.mm, thread.major.mm - major
    scale = _UNDER if under >= 0 else _OVER
    across: Fraction = (under / (scale * own)) ** 2
    along: Fraction = ((pitch - own) / (_PITCH * own)) ** 2
    return across + along


def _candidate(thread: Thread, major: Quantity, pitch: Quantity) -> Candidate:
    major_off, pitch_off = major - thread.major, pitch - thread.pitch
    own = thread.pitch.mm
    usual = usual_undersize(thread)
    right_pitch = abs(pitch_off.mm) <= _LIKELY_PITCH * own
    right_major = -usual <= major_off.mm <= _OVER * own
    remark = _about_major(major_off, usual, right_major)
    if not right_pitch:
        off = decimal(abs(pitch_off.mm) / own * 100, 1)[0]
        way = "coarser" if pitch_off.mm > 0 else "finer"
        remark += f"; the pitch reads {off} % {way}, more than a pitch gauge errs"
    return Candidate(thread, major_off, pitch_off, right_major and right_pitch, remark, lookalikes(thread))


def _about_major(off: Quantity, usual: Fraction, right: bool) -> str:
    if off.mm == 0:
        return "the major is nominal"
    side = "under" if off.mm < 0 else "over"
    remark = f"the major is {mm_text(Quantity(abs(off.mm)), 3)} {side} nominal"
    if right:
        return (
            f"{remark}, as a real screw may be" if side == "under" else f"{remark}, within a reading's error"
        )
    if side == "under":
        return f"{remark}: more than the usual {decimal(usual, 2)[0]} mm, so badly worn or not this one"
    return f"{remark}: a screw is seldom over size"
