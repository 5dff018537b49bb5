"""A terminal for tests: keys go in through a pipe, what comes out is shown by an emulator.

Nothing sleeps for a fixed time: a test waits until the screen says what it should.
"""

from __future__ import annotations

import io
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

import pyte
from prompt_toolkit.data_structures import Size
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output.vt100 import Vt100_Output

from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.replies import Replies
from fractions_shop.prompt.screen import Screen

#: Far more than anything takes, so that a busy machine fails no test.
PATIENCE = 120.0
ENTER, BACKSPACE, TAB, ESCAPE = "\r", "\x7f", "\t", "\x1b"
UP, DOWN, RIGHT, LEFT, HOME = "\x1b[A", "\x1b[B", "\x1b[C", "\x1b[D", "\x01"


class Glass(io.TextIOBase):
    """What a program writes, as an emulated screen and as it came."""

    def __init__(self, columns: int, rows: int, encoding: str) -> None:
        super().__init__()
        self._encoding = encoding
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.Stream(self.screen)
        self._lock = threading.Lock()
        self.raw = ""
        self.buffer = _Bytes(self)

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return self._encoding

    def fileno(self) -> int:
        raise io.UnsupportedOperation

    def isatty(self) -> bool:
        return True

    def write(self, text: str) -> int:
        if self._encoding == "ascii":
            text.encode("ascii")
        with self._lock:
            self.raw += text
            self._stream.feed(text.replace("\r\n", "\n").replace("\n", "\r\n"))
        return len(text)

    def flush(self) -> None:
        pass

    def lines(self) -> list[str]:
        """The rows of the screen, without the empty ones at the end."""
        with self._lock:
            rows = [row.rstrip() for row in self.screen.display]
        while rows and not rows[-1]:
            rows.pop()
        return rows

    def cursor(self) -> tuple[int, int]:
        """Row and column of the cursor, from 0."""
        with self._lock:
            return self.screen.cursor.y, self.screen.cursor.x

    def looks(self, text: str, number: int) -> set[tuple[str, bool, bool, bool]]:
        """How `text` is shown in that row: colour, bold, italic and reversed."""
        with self._lock:
            column = self.screen.display[number].index(text)
            row = self.screen.buffer[number]
            cells = [row[column + n] for n in range(len(text))]
            return {(c.fg, c.bold, c.italics, c.reverse) for c in cells}


class _Bytes:
    """The way by which prompt_toolkit writes: bytes, already in the encoding of the stream."""

    def __init__(self, glass: Glass) -> None:
        self._glass = glass

    def write(self, data: bytes) -> int:
        self._glass.write(data.decode(self._glass.encoding))
        return len(data)


class Terminal:
    """The full prompt at an emulated terminal; use it as a context."""

    def __init__(
        self,
        columns: int = 80,
        rows: int = 40,
        history: Path | None = None,
        rule: str = "64ths",
        pictures: bool = False,
        encoding: str = "utf-8",
        model: PromptModel | None = None,
    ) -> None:
        self.glass = Glass(columns, rows, encoding)
        self.size = Size(rows=rows, columns=columns)
        self.model = PromptModel(rule) if model is None else model
        self.store = LineStore(history)
        self.replies = Replies(self.model, self.store, self.glass, pictures)
        self.status: int | None = None
        self.fault: BaseException | None = None

    def __enter__(self) -> Terminal:
        self._pipe = create_pipe_input()
        self.keys = self._pipe.__enter__()
        output = Vt100_Output(self.glass, lambda: self.size, term="xterm-256color")
        self.shown = Screen(self.replies, self.keys, output)
        self.thread = threading.Thread(target=self._run, daemon=True)
        self.thread.start()
        self.see(lambda: self.last.startswith(self.replies.sign.rstrip()))
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if kind is None and self.thread.is_alive():
            self.press("\x03", "\x04")
        self.thread.join(PATIENCE if kind is None else 1)
        self._pipe.__exit__(None, None, None)
        if kind is None:
            assert self.fault is None, self.fault
            assert self.status == 0

    def _run(self) -> None:
        try:
            self.status = self.shown.run()
        except BaseException as error:
            self.fault = error

    def press(self, *keys: str) -> None:
        """Send keys as they would be typed."""
        for key in keys:
            self.keys.send_text(key)

    def see(self, wanted: str | Callable[[], bool]) -> list[str]:
        """Wait until the screen shows something; the rows then."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            rows = self.glass.lines()
            if any(wanted in row for row in rows) if isinstance(wanted, str) else _holds(wanted):
                return rows
            time.sleep(0.005)
        raise AssertionError(f"not seen: {wanted!r}\n" + "\n".join(self.glass.lines()))

    def see_last(self, wanted: str) -> list[str]:
        """Wait until the newest line begins so, the sign of the prompt left out."""
        return self.see(lambda: self.typed.startswith(wanted))

    def answer(self, text: str, wanted: str) -> list[str]:
        """Type a line, enter it, and wait for its answer and the next prompt."""
        prompts = self.prompts
        self.press(text)
        self.see_last(text)
        self.press(ENTER)
        return self.see(lambda: self.prompts > prompts and any(wanted in row for row in self.glass.lines()))

    def looks(self, text: str) -> set[tuple[str, bool, bool, bool]]:
        """How `text` is shown in the row of the newest prompt."""
        return self.glass.looks(text, self.row)

    @property
    def prompts(self) -> int:
        """How many prompts stand on the screen."""
        return sum(row.startswith(self.replies.sign.rstrip()) for row in self.glass.lines())

    @property
    def row(self) -> int:
        """Where the newest prompt stands."""
        rows = self.glass.lines()
        return next(n for n in reversed(range(len(rows))) if rows[n].startswith(self.replies.sign.rstrip()))

    @property
    def last(self) -> str:
        """The newest prompt and what is typed behind it."""
        rows = self.glass.lines()
        return next((row for row in reversed(rows) if row.startswith(self.replies.sign.rstrip())), "")

    @property
    def typed(self) -> str:
        """What is typed at the newest prompt."""
        return self.last.removeprefix(self.replies.sign.rstrip()).removeprefix(" ")

    def beneath(self, number: int = 1) -> str:
        """The row that many rows beneath the newest prompt."""
        rows = self.glass.lines()
        place = self.row + number
        return rows[place] if place < len(rows) else ""


def _holds(wanted: Callable[[], bool]) -> bool:
    try:
        return wanted()
    except StopIteration:
        return False
