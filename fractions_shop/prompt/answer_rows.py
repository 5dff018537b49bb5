"""An answer at the prompt: what has room in the window, what is folded away, and cautions in full once."""

from __future__ import annotations

from typing import NamedTuple

from fractions_shop.figures.plain import Caution, Lines, fits, folded, laid_out, without_pictures
from fractions_shop.figures.table import Table
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.states import Edit
from fractions_shop.show.feature_table import feature_text
from fractions_shop.show.moved_words import part_text
from fractions_shop.show.stock_table import stock_lines
from fractions_shop.size.notation import places_shown, told_in

#: In a window of fewer columns a table becomes a list of what matters.
_NARROW = 60
_LINES_OF_A_READING = 3


class AnswerRows(NamedTuple):
    """The rows of an answer that are shown now, those folded away, and whether a table of it was shortened."""

    shown: list[str]
    folded: list[str]
    shortened: bool = False


class Cautions:
    """The cautions told in full in this session, each with what it was told of."""

    def __init__(self) -> None:
        self._told: dict[str, str] = {}

    def once(self, line: Caution) -> str:
        """The sentence; where it was told before, of what."""
        before = self._told.get(line)
        if before is None:
            self._told[line] = line.of
            return line
        return f"caution as for {before}"


class Window(NamedTuple):
    """What an answer has room in: columns, and rows (None where they have no end); and how it is to be told."""

    width: int
    room: int | None
    digits: int
    pictures: bool


def answer_rows(answer: Answer, number: int, cautions: Cautions, window: Window) -> AnswerRows:
    """The rows of the answer of line `number` that are shown in a window.

    A caution is never folded away: it stands behind what is shown. A table that the window is too narrow
    for becomes a list of what matters, and that it is one is said.
    """
    width = window.width
    token = places_shown.set(window.digits)
    try:
        with told_in(answer.units):
            lines = answer.lines()
            lines = lines if window.pictures else without_pictures(lines)
            last = [
                row
                for line in lines
                if isinstance(line, Caution)
                for row in folded(cautions.once(line), width)
            ]
            rest: Lines = [line for line in lines if not isinstance(line, Caution)]
            short = width < _NARROW
            rows = laid_out(rest, width, short).splitlines()
            shortened = short and any(isinstance(line, Table) and not fits(line, width) for line in rest)
            if shortened:
                last += folded(f"shortened to the window: show {number} has the rest", width)
    finally:
        places_shown.reset(token)
    shown, rest_of_rows, _ = in_window(rows, None if window.room is None else max(1, window.room - len(last)))
    return AnswerRows([*shown, *last], rest_of_rows, shortened)


def reading_rows(answer: Answer, window: Window) -> list[str]:
    """What is told of a reading while the next figure waits: its verdict, its size and how it was read, whole, and remarks."""
    token = places_shown.set(window.digits)
    try:
        said = [line for line in answer.lines() if isinstance(line, str)][:_LINES_OF_A_READING]
    finally:
        places_shown.reset(token)
    said += [f"note: {note}" for note in answer.notes if note.kind == "remark"]
    return [row for line in said for row in folded(line, window.width)]


def in_window(rows: list[str], room: int | None) -> AnswerRows:
    """Rows in a window of `room` rows; the last is not folded away alone, which would save nothing."""
    if room is None or len(rows) <= room + 1:
        return AnswerRows(rows, [])
    return AnswerRows(rows[:room], rows[room:])


def line_rows(edit: Edit, width: int) -> list[str]:
    """What came of a line that is no statement: a part, a cut in one, stock, a revision."""
    worked = edit.worked
    if worked is None:
        return []
    with told_in(worked.units):
        return _line_rows(edit, worked, width)


def note_rows(worked: Worked, width: int) -> list[str]:
    """What is said of how the sizes were read of a line that is no statement."""
    return [row for note in worked.notes for row in folded(f"note: {note.text}", width)]


def _line_rows(edit: Edit, worked: Worked, width: int) -> list[str]:
    if worked.part is not None:
        return [*folded(part_text(worked.part), width), *note_rows(worked, width)]
    if worked.feature is not None:
        return feature_text(worked.feature, width).splitlines()
    if worked.stock is not None:
        return [*laid_out(stock_lines(worked.stock), width).splitlines(), *note_rows(worked, width)]
    return folded(edit.after.sheet.heading, width) if worked.line.revision is not None else []
