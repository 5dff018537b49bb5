"""Lines as they are typed: brackets still open, several lines made one, a paste taken apart."""

from __future__ import annotations

import re

from fractions_shop.errors import InputError
from fractions_shop.figures.plain import folded

_COMMENT = re.compile(r"#(?![0-9])[^\n]*")
_OPEN, _CLOSE = "(（", ")）"
#: A bracket not closed within so many lines was left open by mistake.
_FARTHEST = 20


def open_brackets(text: str) -> int:
    """How many brackets are opened and not closed again; below zero when too many are closed."""
    code = _COMMENT.sub("", text)
    return sum((sign in _OPEN) - (sign in _CLOSE) for sign in code)


def joined(text: str) -> str:
    r"""Several lines as one statement, each character in its place; notes before the last line go.

    >>> joined("(1 in # wide\n+ 2 in)")
    '(1 in        + 2 in)'
    """
    if "\n" not in text:
        return text
    *front, last = text.split("\n")
    blanked = (_COMMENT.sub(lambda note: " " * len(note[0]), line) for line in front)
    return " ".join([*blanked, last])


def fault_lines(error: InputError, width: int, before: str = "") -> list[str]:
    """A fault with its caret, the sentences folded between words; the piece of the line stays whole."""
    message, *drawn = str(error).splitlines()
    return [
        *folded(before + message, width),
        *drawn[:2],
        *(row for line in drawn[2:] for row in folded(line, width)),
    ]


def plain_line(text: str) -> str:
    """Text for one line: tabs as blanks, other control characters left out."""
    return "".join(c for c in text.replace("\t", " ") if c.isprintable() or c in " \u00a0\u2009\u202f\u3000")


def statements(text: str) -> list[str]:
    """The statements of a text of several lines, blank ones left out.

    Lines are one statement where a bracket opened in one is closed in a later one; a
    bracket that is never closed swallows nothing.
    """
    lines = [plain_line(line) for line in text.replace("\r\n", "\n").replace("\r", "\n").split("\n")]
    whole = []
    while lines:
        count = next((n for n in range(1, min(len(lines), _FARTHEST) + 1) if _closed(lines[:n])), 1)
        if lines[0].strip():
            whole.append(joined("\n".join(lines[:count])))
        lines = lines[count:]
    return whole


def _closed(lines: list[str]) -> bool:
    return open_brackets("\n".join(lines)) <= 0
