"""How probable two readings of a worn screw are, if it has a certain thread.

A real screw measures under its nominal major: BS 93 lets the major of a normal bolt lie up to
U = 0.20p + 0.025 mm low (Machinery's Handbook 31st ed. p.2115), and that is taken here for every series;
common practice, no source, beyond BA. It does not measure over, but for the error of a reading. Of a
hundred screws 95 lie evenly between nominal and U, read to 0.008 mm (one standard deviation); three are
as good as new; two are worn further, the fewer the further; one in a million is over size. So the finer
the thread, the more a major within its room says, since there is less room for another.

A pitch is read by leaf or by rule (over ten threads). It is as probable as any up to two thirds of what such a
reading errs, 3 % or 1 %, and soon hardly probable beyond. Half as probable again is a reading that is the
thread's own pitch. A thread that has no leaf in either system, such as a BA, is read by the leaf that comes nearest in
any, as probably as any reading within bounds and a little more; one that has a leaf of its own is seldom read by the
nearest of another system (1 to 2): inch leaves on an M10.

A thread that is met with seldom is 3 1/2 times less probable before anything is read. Where both readings are
the very figures of a thread, they are taken to be said of it. How often this finds the thread of worn screws is
measured by `tests/bench/bench_identify.py`. All shares are common practice, no source: our own judgement.
"""

from __future__ import annotations

from fractions import Fraction
from math import erfc, exp, pi, sqrt

from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity
from fractions_shop.threads.leaves import Leaf, gauge_leaves, leaves_read
from fractions_shop.threads.series import apart_between
from fractions_shop.threads.thread import Thread

_UNDER = Fraction(1, 5)  # of a pitch
_UNDER_MORE = Fraction(1, 40)  # 0.025 mm
_OVER, _OVER_MORE = Fraction(2, 100), Fraction(1, 100)  # of a pitch, and 0.01 mm
#: Of all screws: those between nominal and the usual undersize, as good as new, worn further, and over size.
_USUAL, _NEW, _WORN, _BIG = 0.95, 0.03, 0.02, 1e-6
_READ = 0.008  # mm, one standard deviation of a reading of the major
#: What a reading of the pitch errs, as a part of it, at most.
_PITCH_ERRS = {"leaf": 0.03, "rule": 0.01}
_GROSS, _GROSS_REACH = 0.003, 0.04  # pitches read quite wrong, and how far these go
_OWN_PITCH, _NO_LEAF, _OTHER_GAUGE = 1.5, 1.2, 0.5
_SELDOM, _SAID = 3.5, 4.0
#: Beyond these a thread is not offered; none is known where none is left. Over size nearly excludes.
_MOST_UNDER, _MOST_OVER, _MOST_PITCH = Fraction(1), Fraction(1, 10), Fraction(8, 100)
#: Within these a pitch is called right.
LIKELY_PITCH = {"leaf": Fraction(3, 100), "rule": Fraction(2, 100)}


def usual_undersize(thread: Thread) -> Fraction:
    """How far in mm the major of a real screw commonly lies below nominal, at most: 0.20p + 0.025."""
    return _UNDER * thread.pitch.mm + _UNDER_MORE


def seldom_met(thread: Thread) -> bool:
    """Whether a screw is seldom of it: of a rare series, or beyond what its standard makes."""
    return thread.record.rare or thread.standing == "beyond the standard"


class Readings(Record):
    """A pair of readings, and how well threads agree with them."""

    major: Quantity
    pitch: Quantity
    by: str

    def window(self) -> tuple[Thread, ...]:
        """The threads whose majors are near enough, of whatever pitch is read as this."""
        coarsest = self.pitch.mm * 2
        high = self.major.mm + _MOST_UNDER * coarsest + _UNDER_MORE
        return apart_between(self.major.mm - _MOST_OVER * coarsest - 2 * _OVER_MORE, high)

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

    def away(self, thread: Thread) -> Fraction:
        """How far the readings are from it: how many times the larger is the smaller, of majors and of pitches, added."""
        pairs = ((self.major.mm, thread.major.mm), (self.pitch.mm, thread.pitch.mm))
        return sum((max(pair) / min(pair) for pair in pairs), Fraction())

    def foreign(self, thread: Thread) -> bool:
        """Whether the pitch may be read by the nearest leaf of another system than the thread's."""
        return any(leaf.stands_for(thread.pitch.mm) for leaf in self.leaves)

    def chance(self, thread: Thread) -> float:
        """How probable the readings are of a screw of it, met with as often as it is; comparable only."""
        probable = self._of_major(thread) * self._of_pitch(thread)
        if self.major.mm == thread.major.mm and self.pitch.mm == thread.pitch.mm:
            probable *= _SAID
        return probable / _SELDOM if seldom_met(thread) else probable

    def _of_major(self, thread: Thread) -> float:
        """How dense the reading lies, for each mm: see the module's first words."""
        under, room = float(thread.major.mm - self.major.mm), float(usual_undersize(thread))
        usual = _share_below((room - under) / _READ) - _share_below(-under / _READ)
        new = exp(-((under / _READ) ** 2) / 2) / (_READ * sqrt(2 * pi))
        worn = exp(-2 * max(0.0, under / room - 1)) if under > 0 else 0.0
        return (_USUAL * usual + _WORN * worn + _BIG * exp(-abs(under) / room)) / room + _NEW * new

    def _of_pitch(self, thread: Thread) -> float:
        """How probable it is beside one within bounds: see the module's first words."""
        own, most = thread.pitch.mm, _PITCH_ERRS[self.by]
        if own == self.pitch.mm:
            return _OWN_PITCH
        out = abs(float(self.pitch.mm / own - 1))
        probable = exp(-((max(0.0, out - most * 2 / 3) / (most / 5)) ** 2) / 2)
        probable += _GROSS * exp(-out / _GROSS_REACH)
        if not self.foreign(thread):
            return probable
        return max(probable, _OTHER_GAUGE if any(own in leaves for leaves in gauge_leaves()) else _NO_LEAF)

    def right_pitch(self, thread: Thread) -> bool:
        """Whether the pitch is within what a leaf or a rule errs."""
        own = thread.pitch.mm
        return abs(self.pitch.mm - own) <= LIKELY_PITCH[self.by] * own or self.foreign(thread)

    def right_major(self, thread: Thread) -> bool:
        """Whether the major is within the usual undersize of a real screw."""
        off = self.major.mm - thread.major.mm
        return -usual_undersize(thread) <= off <= 2 * (_OVER * thread.pitch.mm + _OVER_MORE)

    def fits(self, thread: Thread) -> bool:
        """Whether both are."""
        return self.right_major(thread) and self.right_pitch(thread)


def _share_below(deviations: float) -> float:
    """The share of the normal distribution below so many standard deviations."""
    return erfc(-deviations / sqrt(2)) / 2
