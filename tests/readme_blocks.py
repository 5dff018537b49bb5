"""The README's examples: what they are, what they answer now, and writing that back.

Three kinds of fenced block are run: `python` (as doctests), `console` (lines after `$ `
are commands, run in a folder that holds the examples and the README's own sheets, each
a block called by its file) and `shop` (statements of one session, each with its answer indented
under it). A line `...` in an answer stands for what is left out there: as many lines as
stand before and behind it are held. `python tests/readme_blocks.py` writes the answers
of `console` and `shop` blocks anew, to be read before they are committed.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from fractions_shop import InputError, Session

TOP = Path(__file__).parents[1]
README = TOP / "README.md"
FENCE = re.compile(r"^```(python|console|shop)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
SHEET = re.compile(r"^```([\w-]+\.shop)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
INDENT = "    "
LEFT_OUT = "..."


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


def sheets() -> dict[str, str]:
    """The README's own sheets by the names of their files."""
    return dict(SHEET.findall(README.read_text(encoding="utf-8")))


def shop(text: str) -> str:
    """The statements of a `shop` block with their answers of now."""
    session = Session()
    out = []
    for line, told in _asked(text, lambda row: not row.startswith(INDENT) and bool(row.strip())):
        if not line:
            out.append("")
            continue
        try:
            answer = session.answer(line)
            said = "" if answer is None else answer.text(width=84)
        except InputError as error:
            said = str(error)
        out += [line, *(f"{INDENT}{part}".rstrip() for part in _cut(said.splitlines(), told))]
    return "\n".join(out) + "\n"


def console(text: str) -> str:
    """The commands of a `console` block with what they print now, one after another in one folder."""
    out = []
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "examples").symlink_to(TOP / "examples")
        for name, sheet in sheets().items():
            (Path(folder) / name).write_text(sheet, encoding="utf-8")
        for line, told in _asked(text, lambda row: row.startswith("$ ")):
            if line:
                out += [line, *_cut(_printed(line[2:], folder).splitlines(), told)]
    return "\n".join(out) + "\n"


def _asked(text: str, opens: Callable[[str], bool]) -> list[tuple[str, list[str]]]:
    """Each line that asks with the lines told beneath it; a blank line between two stands as ``."""
    asked: list[tuple[str, list[str]]] = []
    rows = text.splitlines()
    for row, after in zip(rows, [*rows[1:], ""], strict=True):
        if opens(row):
            asked.append((row, []))
        elif not row.strip() and opens(after):
            asked.append(("", []))
        elif asked:
            asked[-1][1].append(row.strip())
    return asked


def _cut(said: list[str], told: list[str]) -> list[str]:
    """What is said, with as much left out as was left out of what was told."""
    if LEFT_OUT not in told:
        return said
    head = told.index(LEFT_OUT)
    tail = len(told) - head - 1
    if head + tail >= len(said):
        return said
    return [*said[:head], LEFT_OUT, *said[len(said) - tail :]]


def _printed(command: str, folder: str) -> str:
    found = os.pathsep.join([str(Path(sys.executable).parent), os.environ.get("PATH", "")])
    places = {"PATH": found, "COLUMNS": "88", "PYTHONPATH": str(TOP), "PYTHONIOENCODING": "utf-8"}
    done = subprocess.run(
        command, shell=True, cwd=folder, capture_output=True, text=True, encoding="utf-8",
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
