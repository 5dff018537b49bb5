"""How much a key and the start of the prompt cost, beside what they cannot be without.

Run it by hand: python tests/bench/bench_prompt.py. Each figure is a ratio, so that it
means the same on another machine: our own work for a key (a fresh reading, colours and
offers) against the whole time from the key to the screen; the start of the prompt
against that of a bare Python, and against loading prompt_toolkit alone.
"""

from __future__ import annotations

import os
import pty
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1] / "prompt"))
os.environ.setdefault("XDG_CACHE_HOME", tempfile.mkdtemp())

from emulator import Terminal

from fractions_shop.prompt.colours import pieces
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.word_offers import word_offers

LINE = "pitch = divide 2 1/32 in + 51.5 mm into 5 up"
ROUNDS = 5
START = "import sys; from fractions_shop.prompt import run; sys.exit(run())"


def typed(terminal: Terminal) -> list[float]:
    """Seconds from each key of the line to its sign on the screen."""
    taken = []
    for n, key in enumerate(LINE):
        wanted = LINE[: n + 1].rstrip()
        begun = time.perf_counter()
        terminal.press(key)
        while (
            not terminal.typed.startswith(wanted)
            or terminal.glass.cursor()[1] != len(terminal.replies.sign) + n + 1
        ):
            time.sleep(0.0001)
        taken.append(time.perf_counter() - begun)
    terminal.press("\x03")
    terminal.see_last("")
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


def main() -> None:
    """Print the figures."""
    with Terminal() as terminal:
        typed(terminal)
        keys = sorted(t for _ in range(ROUNDS) for t in typed(terminal))
    full = median(keys)
    slow = keys[int(len(keys) * 0.95)]
    ours = our_share()
    print(f"a key to the screen       {full * 1000:6.2f} ms median, {slow * 1000:.2f} ms at the 95th of 100")
    print(f"of it our own work        {ours * 1000:6.2f} ms: {ours / full:.2f} of the whole")
    python, toolkit, ours_start = starts(
        "print('ready')", "import prompt_toolkit.application; print('ready')", START
    )
    print(f"start of the prompt       {ours_start * 1000:6.0f} ms: {ours_start / python:.1f} times a bare Python, "
          f"{ours_start / toolkit:.2f} times prompt_toolkit alone")  # fmt: skip


if __name__ == "__main__":
    main()
