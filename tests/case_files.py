"""Reads tests/cases: one size a line, or statements with the whole text of their answers."""

from __future__ import annotations

import re
from pathlib import Path

from fractions_shop import Session
from fractions_shop.errors import InputError

HERE = Path(__file__).parent / "cases"


def sizes(name: str) -> list[tuple[str, str]]:
    """Written text and expected value of every line `text -> value`."""
    found = []
    for line in (HERE / name).read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("##"):
            text, _, value = line.rpartition(" -> ")
            found.append((unescaped(text), value))
    return found


def unescaped(text: str) -> str:
    r"""The text with \t and \uXXXX as the signs they stand for."""
    text = text.replace("\\t", "\t")
    return re.sub(r"\\u([0-9a-f]{4})", lambda m: chr(int(m[1], 16)), text)


def blocks(name: str) -> list[tuple[str, ...]]:
    """The lines of every block, without comments; an empty line parts blocks."""
    found: list[list[str]] = [[]]
    for line in (HERE / name).read_text(encoding="utf-8").splitlines():
        if not line:
            found.append([])
        elif not line.startswith("##"):
            found[-1].append(line)
    return [tuple(block) for block in found if block]


def statements(block: tuple[str, ...]) -> list[str]:
    """The statements of a block: its lines that begin with `> `."""
    return [line[2:] for line in block if line.startswith("> ")]


def answered(block: tuple[str, ...]) -> list[str]:
    """The block as the program gives it: each statement, then all that it says, in one session."""
    bench, lines = Session(), []
    for statement in statements(block):
        lines.append(f"> {statement}")
        try:
            answer = bench.answer(unescaped(statement))
            text = "(nothing)" if answer is None else answer.text(100)
        except InputError as error:
            text = str(error)
        lines += text.splitlines()
    return lines
