"""Reads no more of a file than was meant, and knows one open file under two names."""

from __future__ import annotations

import os
import stat
from pathlib import Path

TYPE_CHECKING = False  # typing itself takes a few milliseconds to import
if TYPE_CHECKING:
    from typing import BinaryIO


def first_bytes(path: str | os.PathLike[str], count: int, *, waits: bool = True) -> bytes:
    """At most the first `count` bytes of a file; so whoever asks for one too many sees that it is too long.

    A device without end is cut off too. With `waits` false, a pipe that nobody writes
    to is empty, rather than waited for. OSError or ValueError when it cannot be read.
    """
    flags = os.O_RDONLY | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
    number = os.open(path, flags | (0 if waits else getattr(os, "O_NONBLOCK", 0)))
    parts = []
    try:
        while count > 0 and (part := os.read(number, min(count, 1 << 20))):
            parts.append(part)
            count -= len(part)
    finally:
        os.close(number)
    return b"".join(parts)


def state_of(file: BinaryIO | str | os.PathLike[str] | None) -> os.stat_result | None:
    """What the system says of an open file or of a path, links followed; None where there is none."""
    try:
        if file is None:
            return None
        return Path(file).stat() if isinstance(file, (str, os.PathLike)) else os.fstat(file.fileno())
    except (OSError, ValueError, AttributeError):
        return None


def are_one_file(first: os.stat_result | None, second: os.stat_result | None) -> bool:
    """Whether both are the same plain file, whatever led to it.

    A terminal or the null device is no file in this sense: it can be read and written at once.
    """
    return (
        first is not None
        and second is not None
        and stat.S_ISREG(first.st_mode)
        and os.path.samestat(first, second)
    )
