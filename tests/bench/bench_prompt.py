"""How much a key and the start of the prompt cost, beside what they cannot be without.

Run it by hand: python tests/bench/bench_prompt.py. Each figure is a ratio, so that it
means the same on another machine: the time from a key to its sign on the screen against that
of a bare prompt_toolkit prompt at a screen of the same kind, key by key in turn; how long until the
reading of it stands beneath; the start of the prompt against that of a bare Python, and
against loading prompt_toolkit alone.
"""

from __future__ import annotations

import os
import pty
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1] / "prompt"))
os.environ.setdefault("XDG_CACHE_HOME", tempfile.mkdtemp())

from emulator import Glass, Terminal
from prompt_toolkit import PromptSession
from prompt_toolkit.application import create_app_session
from prompt_toolkit.data_structures import Size
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output.vt100 import Vt100_Output

from fractions_shop.prompt.colours import pieces
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.word_offers import word_offers

LINE = "pitch = divide 2 1/32 in + 51.5 mm into 5 up"
SIGN = "64ths: "
ROUNDS = 5
#: Between one key and the next; nobody types quicker.
BETWEEN_KEYS = 0.04
START = "import sys; from fractions_shop.prompt import run; sys.exit(run())"


class Bare:
    """A prompt of prompt_toolkit with nothing to it, at a screen like that of the tests; use it as a context."""

    def __init__(self) -> None:
        self.glass = Glass(80, 40, "utf-8")

    def __enter__(self) -> Bare:
        self._pipe = create_pipe_input()
        self.keys = self._pipe.__enter__()
        self._output = Vt100_Output(self.glass, lambda: Size(rows=40, columns=80), term="xterm-256color")
        self._output.enable_cpr = False
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()
        _until(lambda: self.glass.cursor()[1] == len(SIGN))
        return self

    def __exit__(self, *raised: object) -> None:
        self.press("\x04")
        self._thread.join(10)
        self._pipe.__exit__(None, None, None)

    def _run(self) -> None:
        # In an app session of its own: two applications in one would take each other's screen.
        with create_app_session(input=self.keys, output=self._output):
            session: PromptSession[str] = PromptSession(SIGN)
            while True:
                try:
                    session.prompt()
                except KeyboardInterrupt:
                    continue
                except EOFError:
                    return

    def press(self, *keys: str) -> None:
        for key in keys:
            self.keys.send_text(key)


def _until(holds: Callable[[], bool]) -> None:
    while not holds():
        time.sleep(0.0001)


def typed(terminal: Terminal | Bare, last: Callable[[], bool] | None = None) -> list[float]:
    """Seconds from each key of the line to its sign on the screen, or until it is as `last` says."""
    taken = []
    for n, key in enumerate(LINE):
        time.sleep(BETWEEN_KEYS)
        place = len(SIGN) + n + 1
        begun = time.perf_counter()
        terminal.press(key)
        _until(lambda place=place: terminal.glass.cursor()[1] == place)  # type: ignore[misc]
        if last is not None:
            _until(last)
        taken.append(time.perf_counter() - begun)
    terminal.press("\x03")
    _until(lambda: terminal.glass.cursor()[1] == len(SIGN))
    return taken


def start(code: str) -> float:
    """Seconds until a program on a pseudo-terminal shows a sign of life."""
    master, slave = pty.openpty()
    begun = time.perf_counter()
    child = subprocess.Popen(
        [sys.executable, "-c", code],
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env={**os.environ, "TERM": "xterm"},
    )
    seen = b""
    while b"64ths" not in seen and b"ready" not in seen:
        seen += os.read(master, 4096)
    taken = time.perf_counter() - begun
    child.kill()
    child.wait()
    os.close(slave)
    os.close(master)
    return taken


def starts(*codes: str) -> list[float]:
    """The median for each, taken in turn so that a busy moment falls on all alike."""
    rounds = [[start(code) for code in codes] for _ in range(12)]
    return [median(times) for times in zip(*rounds[1:], strict=True)]


def our_share() -> float:
    """Median seconds that our own work takes for a key: a fresh reading, colours and offers."""
    model = PromptModel()
    taken = []
    for _ in range(ROUNDS):
        model.forget()
        pieces.cache_clear()
        for n in range(1, len(LINE) + 1):
            text = LINE[:n]
            begun = time.perf_counter()
            model.reading(text)
            pieces(text)
            word_offers(text, model.names)
            taken.append(time.perf_counter() - begun)
    return median(taken)


def _is_read(terminal: Terminal) -> bool:
    """Whether the reading of the line as it stands is the one on the screen."""
    reading = terminal.model.reading(terminal.shown.buffer.text, None)
    return reading is not None and reading.words[:40] in terminal.beneath()


def _told(times: list[float]) -> str:
    return f"{median(times) * 1000:.2f} ms median, {sorted(times)[int(len(times) * 0.95)] * 1000:.2f} ms at the 95th of 100"


def keys() -> tuple[list[float], list[float], list[float]]:
    """Seconds of each key to the screen: ours, a bare prompt's, and ours until its reading stands beneath."""
    ours, bare, read = [], [], []
    with Terminal() as terminal, Bare() as other:
        typed(terminal)
        typed(other)
        for _ in range(ROUNDS):
            terminal.model.forget()
            ours += typed(terminal)
            bare += typed(other)
        for _ in range(ROUNDS):
            terminal.model.forget()
            read += typed(terminal, lambda: _is_read(terminal))
    return ours, bare, read


def main() -> None:
    """Print the figures."""
    ours, bare, read = keys()
    print(
        f"a key to the screen       {_told(ours)}: {median(ours) / median(bare):.2f} times bare prompt_toolkit ({_told(bare)})"
    )
    print(f"with its reading beneath  {_told(read)}")
    print(f"of it our own work        {our_share() * 1000:6.2f} ms")
    python, toolkit, ours_start = starts(
        "print('ready')", "import prompt_toolkit.application; print('ready')", START
    )
    print(f"start of the prompt       {ours_start * 1000:6.0f} ms: {ours_start / python:.1f} times a bare Python, "
          f"{ours_start / toolkit:.2f} times prompt_toolkit alone")  # fmt: skip


if __name__ == "__main__":
    main()
