"""A file watched: something is done whenever it is saved. What is looked at is the file's own time."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from fractions_shop.command.interrupts import raise_instead

#: Seconds from one look at the file to the next.
_LOOK_EVERY = 0.4
_TIME = "%Y-%m-%d %H:%M:%S"


#: A file's time, size and number.
Look = tuple[int, int, int]


def watch(
    file: str,
    since: Look | None,
    make: Callable[[str], None],
    gone: Callable[[bool], None] = lambda is_gone: None,
    pause: Callable[[float], None] = time.sleep,
) -> None:
    """Call `make` with the time of saving whenever `file` is saved after the look `since`, until Ctrl-C.

    A file that an editor has taken away for a moment is waited for, and one that is still being
    written: `make` is called when two looks have shown the same. `gone` is called with True when two looks have
    not found the file, and with False when it is there again.
    """
    raise_instead()
    made = seen = since
    is_gone = False
    try:
        while True:
            pause(_LOOK_EVERY)
            seen_now = look(file)
            if seen_now == seen and (seen_now is None) != is_gone:
                is_gone = not is_gone
                gone(is_gone)
            if seen_now is not None and seen_now == seen and seen_now != made:
                made = seen_now
                make(saved_when(file))
            seen = seen_now
    except KeyboardInterrupt:
        return


def saved_when(file: str) -> str:
    """When a file was saved by its own time: `2026-11-28 04:32:10`, in the time of this place."""
    seen = look(file)
    return "" if seen is None else f"{datetime.fromtimestamp(seen[0] / 1e9):{_TIME}}"


def now() -> str:
    """The time of this place, told as that of a file is."""
    return f"{datetime.now():{_TIME}}"


def look(file: str) -> Look | None:
    """The file's time, size and number; None while it is not there."""
    try:
        status = Path(file).stat()
    except (OSError, ValueError):
        return None
    return status.st_mtime_ns, status.st_size, status.st_ino
