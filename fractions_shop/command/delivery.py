"""Writes what a command has made to a file, whole or not at all, or to standard output."""

from __future__ import annotations

import sys

from fractions_shop.command.interrupts import raise_instead
from fractions_shop.command.streams import FAILED, MISUSED, Stop, put, shows_unicode
from fractions_shop.errors import visible
from fractions_shop.files.whole import write_whole


def deliver(made: str | bytes, out: str | None) -> None:
    """Write what was made to the file `out`, or to standard output for None; Stop when it cannot be written."""
    if out is not None:
        raise_instead()
        try:
            write_whole(out, made if isinstance(made, bytes) else made.encode("utf-8", "surrogateescape"))
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or error
            raise Stop(f"{visible(out)} cannot be written: {reason}", MISUSED) from None
        return
    if sys.stdout is None:
        raise Stop("standard output is closed, so there is nowhere to write", FAILED)
    if isinstance(made, bytes) or not (made.isascii() or shows_unicode(sys.stdout)):
        sys.stdout.flush()
        sys.stdout.buffer.write(made if isinstance(made, bytes) else made.encode("utf-8"))
        sys.stdout.buffer.flush()
    else:
        # put() ends the line itself.
        put(made.removesuffix("\n"))
