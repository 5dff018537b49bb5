"""The README's examples: what they are, what they answer now, and writing that back.

Three kinds of fenced block are run: `python` (as doctests), `console` (lines after `$ `
are commands, run at the top of the checkout) and `shop` (statements of one session, each
with its answer indented under it). `python tests/readme_blocks.py` writes the answers
of `console` and `shop` blocks anew, to be read before they are committed.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from fractions_shop import InputError, Session

TOP = Path(__file__).parents[1]
README = TOP / "README.md"
FENCE = re.compile(r"^```(python|console|shop)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
INDENT = "    "


@dataclass(frozen=True)
class Block:
    """A fenced block: its kind, its text, and the line of the README it begins on."""

    kind: str
    text: str
    line: int


def blocks() -> list[Block]:
    """Every block of the README that is run."""
    text = README.read_text(encoding="utf-8")
    return [Block(m[1], m[2], text.count("\n", 0, m.start()) + 1) for m in FENCE.finditer(text)]


def shop(text: str) -> str:
    """The statements of a `shop` block with their answers of now."""
    session = Session()
    out = []
    for line in text.splitlines():
        if line.startswith(INDENT) or not line.strip():
            if not line.strip():
                out.append("")
            continue
        out.append(line)
        try:
            answer = session.answer(line)
            said = "" if answer is None else answer.text(width=84)
        except InputError as error:
            said = str(error)
        out += [f"{INDENT}{part}".rstrip() for part in said.splitlines()]
    return "\n".join(out) + "\n"


def console(text: str) -> str:
    """The commands of a `console` block with what they print now."""
    out = []
    for line in text.splitlines():
        if line.startswith("$ "):
            out += [line, *_printed(line[2:]).splitlines()]
    return "\n".join(out) + "\n"


def _printed(command: str) -> str:
    folder = os.pathsep.join([str(Path(sys.executable).parent), os.environ.get("PATH", "")])
    places = {"PATH": folder, "COLUMNS": "88", "PYTHONPATH": str(TOP), "PYTHONIOENCODING": "utf-8"}
    done = subprocess.run(
        command, shell=True, cwd=TOP, capture_output=True, text=True, encoding="utf-8",
        env={**os.environ, **places}, timeout=120, check=False, stdin=subprocess.DEVNULL,
    )  # fmt: skip
    return done.stdout + done.stderr


WORK = {"shop": shop, "console": console}


def renewed() -> str:
    """The README with the answers of now."""

    def again(match: re.Match[str]) -> str:
        work = WORK.get(match[1])
        return match[0] if work is None else f"```{match[1]}\n{work(match[2])}```"

    return FENCE.sub(again, README.read_text(encoding="utf-8"))


if __name__ == "__main__":
    README.write_text(renewed(), encoding="utf-8")
