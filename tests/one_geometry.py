"""Which threads nobody who measures a screw can tell apart; for the tests of identify and its bench."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.threads.thread import Thread


def one_geometry(thread: Thread, other: Thread) -> bool:
    """Whether majors are within the error of a reading, and pitches within 1 %: 5 BA and Thury 5.

    That is 0.02p + 0.01 mm, far less than wear takes off, and what a rule over ten threads errs. The angle may
    differ still.
    """
    own = min(thread.pitch.mm, other.pitch.mm)
    return (
        abs(thread.major.mm - other.major.mm) <= own / 50 + Fraction(1, 100)
        and abs(thread.pitch.mm - other.pitch.mm) * 100 <= own
    )
