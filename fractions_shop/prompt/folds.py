"""Rows that a terminal folds when it is made narrower."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from prompt_toolkit.application import Application


class Folds:
    """Goes up by the rows that folding has added, so that no second prompt stays on the screen.

    prompt_toolkit goes up to where it began by the rows that it wrote. Most terminals
    fold what was written before they tell of their new width, and the cursor with it.
    """

    def __init__(self) -> None:
        #: The width at which the rows were written, and that of the drawing now begun.
        self._columns = self._drawn_at = 0
        self._above: list[int] = []
        self._cursor = 0

    def remember(self, application: Application[Any]) -> None:
        """Keep how wide the rows are down to the cursor, as they were last written."""
        screen = application.renderer.last_rendered_screen
        # Not the width of now: the terminal may have been made narrower since the rows were written.
        self._columns = self._drawn_at
        if screen is None or application.is_done:
            self._above, self._cursor = [], 0
            return
        cursor = screen.get_cursor_position(application.layout.current_window)
        self._above = [_written(screen.data_buffer[row]) for row in range(cursor.y)]
        self._cursor = cursor.x

    def make_good(self, application: Application[Any]) -> None:
        """Go up by what has been folded since."""
        columns = self._drawn_at = application.output.get_size().columns
        if 0 < columns < self._columns:
            added = sum(max(0, width - 1) // columns for width in self._above) + self._cursor // columns
            if added:
                application.output.cursor_up(added)
        self._columns = 0


def _written(row: Mapping[int, Any]) -> int:
    return max((column + 1 for column, cell in row.items() if cell.char.strip()), default=0)
