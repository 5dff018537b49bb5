"""Lines on trial: whether they can be read is all that is asked of them.

The prompt tries many endings of a line at each key, most of them in vain. Meanwhile no fault is explained,
which costs ten times the reading, and a piece that stands in several of the lines is read once.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Statement

#: What each piece was read as, or its fault, by its text.
Readings = dict[str, Statement | InputError | None]
_READINGS: ContextVar[Readings | None] = ContextVar("readings", default=None)


@contextmanager
def trial() -> Iterator[None]:
    """Lines are on trial as long as this lasts."""
    token = _READINGS.set({})
    try:
        yield
    finally:
        _READINGS.reset(token)


def readings() -> Readings | None:
    """What was read since the trial began; None while there is none."""
    return _READINGS.get()


def on_trial() -> bool:
    """Whether no more is asked of a line than whether it can be read."""
    return _READINGS.get() is not None
