"""The terminal while an answer is worked out: what is typed then waits for the next prompt, and a signal to end tidies up."""

from __future__ import annotations

import contextlib
import signal
import threading
from collections.abc import Iterator
from typing import Any

#: What a shell expects of a program that SIGTERM has ended.
TERMINATED = 143


@contextlib.contextmanager
def keys_wait(number: int) -> Iterator[None]:
    """Keep the terminal from showing, and from acting upon, what is typed while no prompt stands; Ctrl-C alone still stops.

    `number` is the terminal's descriptor; what is none is left alone.
    """
    try:
        import termios

        before = termios.tcgetattr(number)
    except (ImportError, OSError, ValueError):
        yield
        return
    except termios.error:
        yield
        return
    kept = [*before]
    kept[3] &= ~(termios.ECHO | termios.ICANON)
    termios.tcsetattr(number, termios.TCSANOW, kept)
    try:
        yield
    finally:
        termios.tcsetattr(number, termios.TCSANOW, before)


@contextlib.contextmanager
def ended_by_signal() -> Iterator[None]:
    """Let SIGTERM end what is done by an exception, so that the terminal is tidied up."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def leave(number: int, frame: Any) -> None:
        raise SystemExit(TERMINATED)

    before = signal.signal(signal.SIGTERM, leave)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)
