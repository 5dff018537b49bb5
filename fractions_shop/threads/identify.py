"""Which threads a worn screw may have, from its measured major diameter and pitch.

How probable two readings are of a screw of each thread stands in `worn`; here they are put in order, and
told with what is likely, what is met with seldom, and what passes for what.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Any, ClassVar, overload

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.size.arguments import SizeLike, as_quantity, options_by_name
from fractions_shop.size.frozen import Record, Result
from fractions_shop.size.notation import as_meant, decimal, mm_text, number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.size.units import a_power
from fractions_shop.threads.forms import pitch_of
from fractions_shop.threads.series import apart_between, series_keys, threads_of, told_apart
from fractions_shop.threads.thread import Thread
from fractions_shop.threads.worn import LIKELY_PITCH, Readings, seldom_met, usual_undersize

#: Two threads are look-alikes if a used screw of one passes for the other.
_ALIKE_MAJOR, _ALIKE_PITCH = Fraction(1, 3), Fraction(45, 1000)

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


class Identified(Told, Result, Sequence[Candidate]):
    """The candidates for a pair of readings, most likely first; a sequence of them.

    `best` has the names of the first and of all that have its very major and pitch (of those met with
    seldom only if the first is one). It is empty
    where none is `known`: no thread of the tables is near, and the candidates are the least far. `by` is what the pitch was read with, `leaf` or `rule`.

    >>> identify("2.75 mm", "0.53 mm")[0].thread.name
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
    gauge, or a `rule` laid over ten threads. Where no thread is near, none is `known`: those
    least far in major and pitch together, each by its ratio, come all the same, none of them
    `likely`. ShopError if a reading is not above zero or `by` is another word, DimensionError
    if a reading is not of the right kind.

    >>> [one.thread.name for one in identify("2.75 mm", "0.53 mm")][:2]
    ['6 BA', 'No 4-48 UNF']
    """
    if by not in LIKELY_PITCH:
        raise ShopError(f"a pitch is read by leaf or by rule, not by {by!r}")
    readings = Readings(_length(major, "major diameter"), _pitch(pitch), by)
    pool = readings.window() if series is None else threads_of(series_keys(series))
    near = [thread for thread in pool if readings.near(thread)]
    if near:
        in_order = sorted(near, key=readings.chance, reverse=True)
    else:
        in_order = sorted(told_apart() if series is None else pool, key=readings.away)
    ranked = _worth_telling(in_order, readings)
    candidates = _told(tuple(_candidate(thread, readings) for thread in _first(ranked, max(1, count))))
    first = ranked[0]
    tied = tuple(
        thread.name
        for thread in near
        if _size(thread) == _size(first) and (seldom_met(first) or not seldom_met(thread))
    )
    return Identified(readings.major, readings.pitch, candidates, tied, by)


def _worth_telling(ranked: list[Thread], readings: Readings) -> list[Thread]:
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
    """The candidates; of those that the readings fit, the ones met with seldom step back behind others, unless first."""
    if not any(each.likely and not seldom_met(each.thread) for each in candidates):
        return candidates
    first, *rest = candidates
    return (
        first,
        *(
            each.but(likely=False, seldom=True) if each.likely and seldom_met(each.thread) else each
            for each in rest
        ),
    )


def _size(thread: Thread) -> tuple[Fraction, Fraction]:
    return thread.major.mm, thread.pitch.mm


def lookalikes(thread: Thread) -> tuple[LookAlike, ...]:
    """The threads that a used screw may pass for: major within p/3, pitch within 4 1/2 %."""
    reach = _ALIKE_MAJOR * thread.pitch.mm
    alike = [
        _alike(other, thread)
        for other in apart_between(thread.major.mm - reach, thread.major.mm + reach)
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


def _candidate(thread: Thread, readings: Readings) -> Candidate:
    """What is told of it."""
    major_off, pitch_off = readings.major - thread.major, readings.pitch - thread.pitch
    own, usual = thread.pitch.mm, usual_undersize(thread)
    right_pitch, right_major = readings.right_pitch(thread), readings.right_major(thread)
    remark = _about_major(major_off, usual, right_major)
    off = decimal(abs(pitch_off.mm) / own * 100, 1)[0]
    way = "coarser" if pitch_off.mm > 0 else "finer"
    if not right_pitch:
        tool = "a pitch gauge" if readings.by == "leaf" else "a rule"
        remark += f"; the pitch reads {off} % {way}, more than {tool} errs"
    elif readings.foreign(thread) and abs(pitch_off.mm) > LIKELY_PITCH[readings.by] * own:
        remark += f"; the pitch reads {off} % {way}, as the nearest leaf of another system does"
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
