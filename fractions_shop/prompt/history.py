"""What was entered, kept from one session to the next in a private file, one statement a line.

Nothing that is wrong with the file stops the prompt: the session then keeps its lines
to itself, and `trouble` says so once.
"""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import time
from collections.abc import Iterator
from pathlib import Path

from fractions_shop.files.whole import write_whole

#: Lines kept; older ones go.
MOST = 5_000
#: What a session starts from, so that it need not shorten the file with every line.
_ROOM = 200
_LONGEST = 2_000
_MAX_BYTES = 8_000_000


class LineStore:
    """Lines in a file, newest last, and those of this session.

    `lines` holds them all, at most MOST, and `recalled` also those of this session that were put by unanswered;
    `trouble` is a sentence when the file cannot serve, else empty.
    """

    def __init__(self, path: Path | None) -> None:
        self.path = path
        self.trouble = ""
        self.lines: list[str] = []
        if path is not None:
            self._begin(path)
        self.recalled = list(self.lines)

    def put_by(self, text: str) -> None:
        """Keep a line that is not answered, for this session."""
        if text.strip() and not (self.recalled and self.recalled[-1] == text):
            self.recalled.append(text)
            del self.recalled[:-MOST]

    def add(self, line: str) -> None:
        """Keep a line, unless it is blank or the one before it again."""
        line = _in_one(line)
        if not (self.recalled and _in_one(self.recalled[-1]) == line):
            self.put_by(line)
        if not line or (self.lines and self.lines[-1] == line):
            return
        self.lines.append(line)
        del self.lines[:-MOST]
        if self.path is None or self.trouble or not line.isprintable():
            return  # half of a sign, as a terminal gives bytes that are no text, is nothing to come back
        try:
            with _held(self.path) as number:
                _append(number, line)
                if _count(number) > MOST:
                    _shorten(self.path, number, MOST - _ROOM)
        except OSError as error:
            self._fail(self.path, error)

    def _begin(self, path: Path) -> None:
        try:
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            with _held(path) as number:
                if not stat.S_ISREG(os.fstat(number).st_mode):
                    raise OSError(errno.EINVAL, "it is not a plain file")
                path.chmod(0o600)
                self.lines = _lines(number)
                if len(self.lines) > MOST - _ROOM:
                    self.lines = self.lines[-(MOST - _ROOM) :]
                    _shorten(path, number, MOST - _ROOM)
        except OSError as error:
            self._fail(path, error)

    def _fail(self, path: Path, error: OSError) -> None:
        self.trouble = f"earlier lines are not kept: {path}: {error.strerror or error}"


def _in_one(text: str) -> str:
    return " ".join(text.splitlines()).strip()[:_LONGEST]


@contextlib.contextmanager
def _held(path: Path) -> Iterator[int]:
    """The open file, locked against other prompts while it is in use."""
    number = _opened(path)
    try:
        _lock(number)
        # Another prompt may have put a shortened file in this one's place while we waited.
        while not os.path.samestat(os.fstat(number), path.stat()):
            other = _opened(path)
            os.close(number)
            number = other
            _lock(number)
        yield number
    finally:
        os.close(number)


def _opened(path: Path) -> int:
    flags = os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_NONBLOCK", 0)
    return os.open(path, flags, 0o600)


def _lock(number: int) -> None:
    """Lock the file if that takes no time: a lost line is better than a prompt that waits."""
    if not hasattr(os, "lockf"):
        return
    for _ in range(25):
        try:
            os.lockf(number, os.F_TLOCK, 0)
        except (BlockingIOError, PermissionError):  # another prompt holds it
            time.sleep(0.01)
        except OSError:  # a file system without locks
            return
        else:
            return


def _data(number: int) -> bytes:
    os.lseek(number, 0, os.SEEK_SET)
    parts = []
    left = _MAX_BYTES
    while left > 0 and (part := os.read(number, min(left, 1 << 20))):
        parts.append(part)
        left -= len(part)
    return b"".join(parts)


def _lines(number: int) -> list[str]:
    """The lines of the file; what is no text, or too long to be a statement, is passed over."""
    lines = []
    for raw in _data(number).split(b"\n"):
        try:
            line = raw.decode("utf-8").strip()
        except UnicodeDecodeError:
            continue
        if line and len(line) <= _LONGEST and line.isprintable():
            lines.append(line)
    return lines


def _count(number: int) -> int:
    return _data(number).count(b"\n")


def _append(number: int, line: str) -> None:
    data = _data(number)
    # A write that was cut short must not run into the next line.
    start = b"" if not data or data.endswith(b"\n") else b"\n"
    before = os.fstat(number).st_size
    added = start + line.encode("utf-8") + b"\n"
    if os.write(number, added) < len(added):
        # Half a statement would come back as another size.
        os.ftruncate(number, before)
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _shorten(path: Path, number: int, most: int) -> None:
    """Put the newest lines in the file's place, all at once."""
    text = "".join(f"{line}\n" for line in _lines(number)[-most:])
    write_whole(path, text.encode("utf-8"))
