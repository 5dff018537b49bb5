"""A stretch of rule magnified, inches along its upper edge and millimetres along its lower, readings between.

Typed as every figure is: `letters` lays it out in columns, and a drawing is made of the same record.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction

from fractions_shop.errors import cells
from fractions_shop.size.frozen import Record

#: Narrower than this it shows no more than the words do; wider, it only grows emptier.
LEAST_COLUMNS, MOST_COLUMNS = 24, 90
#: So many readings have a row each, with their name; of more each is one letter.
MOST_ROWS = 3
_MARGIN = "  "
_Column = Callable[[Fraction], int]


class LabelledMark(Record):
    """A mark at `place` mm; `named` where it may have been meant, and is not only there to count by."""

    place: Fraction
    label: str
    named: bool = False


class ReadingBand(Record):
    """What was read `at` some place in mm, trusted from `low` to `high`.

    What was meant lies from `least` to `most`, the maker's own departure, wear and plating allowed
    for. `meant` is what it was taken for, where several stand in one picture.
    """

    at: Fraction
    low: Fraction
    high: Fraction
    least: Fraction
    most: Fraction
    label: str
    meant: str = ""


class CloseUp(Record):
    """The stretch from `start` to `end` in mm, its marks the likeliest first, and the readings that fall in it.

    `caption` says what the two shades of a band are, or in what order several readings stand;
    `words` tell the picture to those who cannot see it.
    """

    start: Fraction
    end: Fraction
    inches: tuple[LabelledMark, ...]
    millimetres: tuple[LabelledMark, ...]
    readings: tuple[ReadingBand, ...]
    caption: str
    words: str

    def letters(self, width: int) -> list[str]:
        """The picture in at most `width` columns, in six or seven lines; none where there is no room."""
        rows = self.readings if len(self.readings) <= MOST_ROWS else ()
        heads = ["inch", "mm", *(reading.label for reading in rows)]
        gutter = max(map(cells, heads))
        columns = min(width - len(_MARGIN) - gutter - 1, MOST_COLUMNS)
        if columns < LEAST_COLUMNS:
            return []

        def at(place: Fraction) -> int:
            column = round((place - self.start) / (self.end - self.start) * (columns - 1))
            return max(0, min(columns - 1, column))

        between = (
            [(row.label, self._beyond(row, columns) or _band(row, at, columns)) for row in rows]
            if rows
            else [("", line) for line in _lettered(self.readings, at, columns)]
        )
        drawn = [
            ("", _labels(self.inches, at, columns)),
            ("inch", _edge(self.inches, at, columns, "┴")),
            *between,
            ("mm", _edge(self.millimetres, at, columns, "┬")),
            ("", _labels(self.millimetres, at, columns)),
        ]
        lines = [f"{_MARGIN}{head}{' ' * (gutter - cells(head))} {line}".rstrip() for head, line in drawn]
        return [line for line in lines if line]

    def _beyond(self, reading: ReadingBand, columns: int) -> str:
        """A sign at the end past which a reading lies; nothing for one that lies within."""
        if self.start <= reading.at <= self.end:
            return ""
        return "<" if reading.at < self.start else ">".rjust(columns)


def _edge(marks: Iterable[LabelledMark], at: _Column, columns: int, tick: str) -> str:
    row = ["─"] * columns
    for mark in marks:
        row[at(mark.place)] = tick
    return "".join(row)


def _labels(marks: Sequence[LabelledMark], at: _Column, columns: int) -> str:
    """Labels over or under their marks, the first marks first; those that would touch another are left out.

    A label with no room astride its mark may end or begin there.
    """
    row = [" "] * columns
    for mark in marks:
        long, place = len(mark.label), at(mark.place)
        for left in (place - long // 2, place - long + 1, place):
            left = max(0, min(columns - long, left))
            around = row[max(0, left - 2) : left + long + 2]
            if long <= columns and not "".join(around).strip():
                row[left : left + long] = mark.label
                break
    return "".join(row)


def _band(reading: ReadingBand, at: _Column, columns: int) -> str:
    """A reading as a band: pale as far as the maker may have departed, dense as far as the reading is trusted."""
    row = [" "] * columns
    for low, high, sign in (
        (reading.least, reading.most, "░"), (reading.low, reading.high, "▒"), (reading.at, reading.at, "│"),
    ):  # fmt: skip
        row[at(low) : at(high) + 1] = sign * (at(high) - at(low) + 1)
    return "".join(row)


def _lettered(readings: Sequence[ReadingBand], at: _Column, columns: int) -> list[str]:
    """Each reading as its letter where it falls, those at one place one above another, at most MOST_ROWS."""
    rows: list[list[str]] = []
    for n, reading in enumerate(readings):
        place = at(reading.at)
        row = next((row for row in rows if row[place] == " "), None)
        if row is None and len(rows) < MOST_ROWS:
            row = [" "] * columns
            rows.append(row)
        if row is None:
            rows[-1][place] = "+"
        else:
            row[place] = letter(n)
    return ["".join(row) for row in reversed(rows)]


def letter(n: int) -> str:
    """The letter of the n-th reading, from a; they are at most 26 in a picture."""
    return chr(ord("a") + n)
