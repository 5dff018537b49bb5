"""Which threads a worn screw may have, from its measured major diameter and pitch.

A real screw measures under its nominal major: BS 93 lets the major of a normal bolt
lie up to 0.20p + 0.025 mm low (Machinery's Handbook 31st ed. p.2115), and that is
taken here for every series; common practice, no source, beyond BA. It does not measure
over, but for the error of a reading. The ranking weighs the two readings so:

  major   (under / U)^2 up to U = 0.20p + 0.025 mm, and 1 + 16 (under / U - 1)^2 beyond;
          (over / (0.02p + 0.01 mm))^2
  pitch   (error / 2 %)^2 by leaf, which is seldom 3 % out; but no more than 1 where the
          reading is a leaf of another system than the thread's, and of that system the one
          that comes nearest to it: inch leaves on an M10. By rule, over ten threads, (error / 1 %)^2

and the smallest sum comes first, after 2.5 more for a thread that is met with seldom (of a rare series,
or beyond its standard). How often that finds the thread of worn screws is measured by
`tests/bench/bench_identify.py`; the limits are common practice, no source.
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
from fractions_shop.size.arguments import SizeLike, as_quantity, options_by_name
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import as_meant, decimal, mm_text, number_value
from fractions_shop.size.quantity import Quantity, a_power
from fractions_shop.size.told import Told
from fractions_shop.threads.forms import pitch_of
from fractions_shop.threads.leaves import Leaf, leaves_read
from fractions_shop.threads.series import all_threads, series_keys, told_apart
from fractions_shop.threads.thread import Thread

_UNDER = Fraction(1, 5)  # of a pitch
_UNDER_MORE = Fraction(1, 40)  # 0.025 mm
_OVER, _OVER_MORE = Fraction(2, 100), Fraction(1, 100)  # of a pitch, and 0.01 mm
_WORN = 16
#: How far out a pitch commonly is that was read by leaf, or by rule over ten threads.
_PITCH = {"leaf": Fraction(2, 100), "rule": Fraction(1, 100)}
_FOREIGN = Fraction(1)
#: What a thread that is met with seldom stands behind: 3 1/2 to 1 against it before measuring (our own judgement).
_SELDOM = Fraction(5, 2)
#: Beyond these a thread is not offered; none is known where none is left. Over size nearly excludes.
_MOST_UNDER, _MOST_OVER, _MOST_PITCH = Fraction(1), Fraction(1, 10), Fraction(8, 100)
#: Two threads are look-alikes if a used screw of one passes for the other.
_ALIKE_MAJOR, _ALIKE_PITCH = Fraction(1, 3), Fraction(45, 1000)
_LIKELY_PITCH = {"leaf": Fraction(3, 100), "rule": Fraction(2, 100)}

_TPI = re.compile(
    r"[ ]*(?P<number>[0-9]+(?:\.[0-9]+)?(?:[ ]+[0-9]+/[0-9]+)?)[ ]*(?:tpi|threads? per inch)[ ]*", re.I
)


class LookAlike(Record):
    """A thread that passes for another: differences are this one less the other.

    `half_pitch_after` is the number of turns after which their pitches are half a
    thread apart, None if the pitches are the same.
    """

    thread: Thread
    major_off: Quantity
    pitch_off: Quantity
    same_angle: bool
    half_pitch_after: int | None


class Candidate(Record):
    """A thread that the readings may mean.

    `major_off` and `pitch_off` are the readings less the nominal sizes. `likely` says
    that the major is within the usual undersize of a real screw and the pitch within
    what a leaf or a rule errs, and `seldom` the same of a thread that is met with seldom, where
    one that is not is likely; `remark` says so in words. `lookalikes` are the threads that pass for it.
    """

    thread: Thread
    major_off: Quantity
    pitch_off: Quantity
    likely: bool
    remark: str
    lookalikes: tuple[LookAlike, ...]
    seldom: bool = False


@dataclass(frozen=True, repr=False)
class Identified(Told, Sequence[Candidate]):
    """The candidates for a pair of readings, most likely first; a sequence of them.

    `best` has the names of the first and of all that have its very major and pitch (of those met with
    seldom only if the first is one). It is empty
    where none is `known`: no thread of the tables is near, and the candidates are the least far. `by` is what the pitch was read with, `leaf` or `rule`.

    >>> identify("0.108 in", "1/48 in")[0].thread.name
    '6 BA'
    """

    told_as: ClassVar[str] = "identify"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "known",
        "certain",
        "caution",
    )

    major: Quantity
    pitch: Quantity
    candidates: tuple[Candidate, ...]
    best: tuple[str, ...] = ()
    by: str = "leaf"

    @property
    def known(self) -> bool:
        """Whether any thread of the tables is near."""
        return bool(self.best)

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
def identify(
    major: SizeLike, pitch: SizeLike, *, series: str | None = None, count: int = 6, by: str = "leaf"
) -> Identified:
    """The threads that a screw of measured `major` diameter and `pitch` may have, best first.

    `pitch` is a length, or a number per length (`26 tpi`); both may be Quantities or
    text. `series` looks in one only. `by` says what the pitch was read with: a `leaf` of a
    gauge, or a `rule` laid over ten threads. If no thread is near none is `known`, and the
    least far come all the same, none of them `likely`. ShopError if a reading is not above
    zero or `by` is another word, DimensionError if a reading is not of the right kind.

    >>> [one.thread.name for one in identify("2.75 mm", "0.53 mm")][:2]
    ['6 BA', 'No 4-48 UNF']
    """
    if by not in _PITCH:
        raise ShopError(f"a pitch is read by leaf or by rule, not by {by!r}")
    readings = _Readings(_length(major, "major diameter"), _pitch(pitch), by)
    pool = readings.window() if series is None else _of(series_keys(series))
    near = [thread for thread in pool if readings.near(thread)]
    able = near or (told_apart() if series is None else pool)
    ranked = _worth_telling(sorted(able, key=readings.misfit), readings)
    candidates = _told(tuple(readings.candidate(thread) for thread in _first(ranked, max(1, count))))
    first = ranked[0]
    tied = tuple(
        thread.name
        for thread in near
        if _size(thread) == _size(first) and (seldom_met(first) or not seldom_met(thread))
    )
    return Identified(readings.major, readings.pitch, candidates, tied, by)


def _worth_telling(ranked: list[Thread], readings: _Readings) -> list[Thread]:
    """A ranking without those met with seldom that the readings do not fit, where any other is fitted."""
    usual = any(readings.fits(thread) for thread in ranked if not seldom_met(thread))
    return [thread for thread in ranked if not (usual and seldom_met(thread) and not readings.fits(thread))]


def _first(ranked: list[Thread], count: int) -> list[Thread]:
    """So many of a ranking with its first: those met with seldom crowd out no others, and are a third at most."""
    usual = [thread for thread in ranked if not seldom_met(thread)]
    seldom = [thread for thread in ranked if seldom_met(thread)]
    of_seldom = max(count // 3, count - len(usual), int(seldom_met(ranked[0])))
    names = {thread.name for thread in (*seldom[:of_seldom], *usual[: count - min(of_seldom, len(seldom))])}
    return [thread for thread in ranked if thread.name in names]


def _told(candidates: tuple[Candidate, ...]) -> tuple[Candidate, ...]:
    """The candidates, where of those that the readings fit the ones met with seldom step back."""
    if not any(each.likely and not seldom_met(each.thread) for each in candidates):
        return candidates
    return tuple(
        each.but(likely=False, seldom=True) if each.likely and seldom_met(each.thread) else each
        for each in candidates
    )


def _of(keys: tuple[str, ...]) -> tuple[Thread, ...]:
    return tuple(thread for thread in all_threads() if thread.series in keys)


def _size(thread: Thread) -> tuple[Fraction, Fraction]:
    return thread.major.mm, thread.pitch.mm


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
    return tuple(thread.major.mm for thread in told_apart())


def _between(low: Fraction, high: Fraction) -> tuple[Thread, ...]:
    majors = _majors()
    return told_apart()[bisect_left(majors, low) : bisect_right(majors, high)]


def usual_undersize(thread: Thread) -> Fraction:
    """How far in mm the major of a real screw commonly lies below nominal, at most: 0.20p + 0.025."""
    return _UNDER * thread.pitch.mm + _UNDER_MORE


def seldom_met(thread: Thread) -> bool:
    """Whether a screw is seldom of it: of a rare series, or beyond what its standard makes."""
    return thread.record.rare or thread.standing == "beyond the standard"


class _Readings(Record):
    """A pair of readings, and how well threads agree with them."""

    major: Quantity
    pitch: Quantity
    by: str

    def window(self) -> tuple[Thread, ...]:
        """The threads whose majors are near enough, of whatever pitch is read as this."""
        coarsest = self.pitch.mm * 2
        high = self.major.mm + _MOST_UNDER * coarsest + _UNDER_MORE
        return _between(self.major.mm - _MOST_OVER * coarsest - 2 * _OVER_MORE, high)

    @cached_property
    def leaves(self) -> tuple[Leaf, ...]:
        """The leaves that the pitch may have been read with."""
        return leaves_read(self.pitch.mm) if self.by == "leaf" else ()

    def near(self, thread: Thread) -> bool:
        """Whether it is worth offering."""
        own, under = thread.pitch.mm, thread.major.mm - self.major.mm
        if abs(self.pitch.mm - own) > _MOST_PITCH * own and not self.foreign(thread):
            return False
        return -_MOST_OVER * own - 2 * _OVER_MORE <= under <= _MOST_UNDER * own + _UNDER_MORE

    def foreign(self, thread: Thread) -> bool:
        """Whether the pitch may be read by the nearest leaf of another system than the thread's."""
        return any(leaf.stands_for(thread.pitch.mm) for leaf in self.leaves)

    def misfit(self, thread: Thread) -> Fraction:
        """How badly it agrees with them; the least comes first."""
        own, under = thread.pitch.mm, thread.major.mm - self.major.mm
        along: Fraction = ((self.pitch.mm - own) / (_PITCH[self.by] * own)) ** 2
        if along > _FOREIGN and self.foreign(thread):
            along = _FOREIGN
        along += _SELDOM if seldom_met(thread) else 0
        if under < 0:
            return (under / (_OVER * own + _OVER_MORE)) ** 2 + along
        part = under / usual_undersize(thread)
        return (part**2 if part <= 1 else 1 + _WORN * (part - 1) ** 2) + along

    def right_pitch(self, thread: Thread) -> bool:
        """Whether the pitch is within what a leaf or a rule errs."""
        own = thread.pitch.mm
        return abs(self.pitch.mm - own) <= _LIKELY_PITCH[self.by] * own or self.foreign(thread)

    def right_major(self, thread: Thread) -> bool:
        """Whether the major is within the usual undersize of a real screw."""
        off = self.major.mm - thread.major.mm
        return -usual_undersize(thread) <= off <= 2 * (_OVER * thread.pitch.mm + _OVER_MORE)

    def fits(self, thread: Thread) -> bool:
        """Whether both are."""
        return self.right_major(thread) and self.right_pitch(thread)

    def candidate(self, thread: Thread) -> Candidate:
        """What is told of it."""
        major_off, pitch_off = self.major - thread.major, self.pitch - thread.pitch
        own, usual = thread.pitch.mm, usual_undersize(thread)
        right_pitch, right_major = self.right_pitch(thread), self.right_major(thread)
        remark = _about_major(major_off, usual, right_major)
        off = decimal(abs(pitch_off.mm) / own * 100, 1)[0]
        way = "coarser" if pitch_off.mm > 0 else "finer"
        if not right_pitch:
            tool = "a pitch gauge" if self.by == "leaf" else "a rule"
            remark += f"; the pitch reads {off} % {way}, more than {tool} errs"
        elif self.foreign(thread) and abs(pitch_off.mm) > _LIKELY_PITCH[self.by] * own:
            remark += f"; the pitch reads {off} % {way}, as the nearest leaf of another system does"
        return Candidate(
            thread, major_off, pitch_off, right_major and right_pitch, remark, lookalikes(thread)
        )


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
