"""A file held by one process: others see that it is, and it is free again when that process ends, however it ends."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

try:
    import fcntl
except ImportError:  # not a POSIX system
    fcntl = None  # type: ignore[assignment]


class HeldFile:
    """An empty file that this process holds until it lets go or ends."""

    def __init__(self, path: Path, number: int) -> None:
        self.path = path
        self._number = number

    def let_go(self) -> None:
        """Remove the file and let go of it."""
        with contextlib.suppress(OSError):
            self.path.unlink()
        with contextlib.suppress(OSError):
            os.close(self._number)


def hold(path: Path) -> HeldFile | None:
    """Hold a file, made if it is not there; None when another process holds it. OSError when it cannot be made."""
    flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0)
    number = os.open(path, flags, 0o600)
    if _locked(number):
        return HeldFile(path, number)
    os.close(number)
    return None


def is_held(path: Path) -> bool:
    """Whether a process holds a file; also one of which that cannot be known."""
    try:
        number = os.open(path, os.O_RDWR)
    except FileNotFoundError:
        return False
    except OSError:
        return True
    try:
        return not _locked(number)
    finally:
        os.close(number)


def _locked(number: int) -> bool:
    """Whether we have the lock of an open file now."""
    try:
        if fcntl is not None:
            fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return True
        import msvcrt

        msvcrt.locking(number, msvcrt.LK_NBLCK, 1)
    except OSError:
        return False
    return True
