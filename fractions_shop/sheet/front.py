"""What stands before the working of a sheet: its title, and the notes on the whole of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.sheet.lines import Line


@dataclass(frozen=True, slots=True)
class Front:
    """The sheet's own title, if it has one, the notes on the whole sheet, and how many lines they take up."""

    title: str = ""
    notes: tuple[str, ...] = ()
    length: int = 0


def front(lines: Sequence[Line]) -> Front:
    """The front of a sheet.

    The first title is the sheet's, if no statement stands above it. When a statement follows
    before another title does, it heads that too: then it belongs to the working, and so do
    the notes below it.
    """
    first = _first_but_notes(lines, 0)
    if first == len(lines) or lines[first].kind != "title":
        return Front()
    end = _first_but_notes(lines, first + 1)
    if end < len(lines) and lines[end].kind != "title":
        return Front(lines[first].words)
    return Front(lines[first].words, tuple(paragraphs(lines[:end])), end)


def _first_but_notes(lines: Sequence[Line], start: int) -> int:
    """The index of the first line from `start` on that is neither blank nor a note, nor tells of a revision."""
    return next(
        (n for n in range(start, len(lines)) if lines[n].kind not in ("blank", "note", "revision")),
        len(lines),
    )


def paragraphs(lines: Sequence[Line]) -> list[str]:
    """The notes among some lines, neighbouring ones joined; any other line ends a paragraph."""
    runs: list[list[str]] = [[]]
    for line in lines:
        if line.kind == "note" and line.words:
            runs[-1].append(line.words)
        else:
            runs.append([])
    return [" ".join(run) for run in runs if run]
