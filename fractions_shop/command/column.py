"""A column of sizes in a CSV stream: figures added to each row, a bad row kept and marked.

Lines go in and lines come out, one record at a time, so that a file of any length
takes the same memory. What stands in a row already is passed on as it was written,
quotes and line endings included: the new cells are put behind it.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from fractions_shop.errors import ShopError
from fractions_shop.layout.bulk import SizeTexts, plain_pair
from fractions_shop.layout.decimal_cells import DecimalCells
from fractions_shop.sheet.column_cells import CellReader, reason
from fractions_shop.size.digits import PLACES
from fractions_shop.size.rule import Rule
from fractions_shop.size.standing import in_words, is_sound

#: The heading of the cell that says why a row has no figures.
FAULT = "fault"
#: The heading of the cell that says what else a size may mean, where such sizes are taken.
DOUBT = "doubt"
#: A quoted cell that has not ended after so many characters is taken as never closed.
LONGEST_RECORD = 100_000
#: A longer line is no row of sizes; nothing beyond it is read.
LONGEST_LINE = 1_000_000

_BYTE_ORDER_MARK = "\ufeff"
_POINT = re.compile(r"[0-9]\.[0-9]|(?<![A-Za-z.])\.[0-9]")
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])|(?<![0-9A-Za-z]),(?=[0-9])")
#: Sizes remembered, and the longest cell that is; so memory does not grow with the file.
_REMEMBERED, _LONGEST_REMEMBERED = 16_384, 80

#: The new cells of a row, the reason when there is no size, and whether it is in doubt.
_Added = tuple[str, str, bool]


class HeaderError(ShopError):
    """The header does not name the column that was asked for, or cannot be read."""


@dataclass
class Column:
    """Works through the column headed `size`, or the column of that number from 1, row by row.

    The nearest division is one of `rule`; `unit` is what a number without a unit is
    in (such a number is a fault otherwise); decimals have `places`. A size with a second
    sensible meaning is a fault, or with `doubtful="note"` is read as the language reads it
    and its doubt told in a column of its own. With `decimal="comma"` a comma between figures
    is the decimal sign, in what is read and in what is added. With `mm_first` figures in millimetres stand
    before those in inches. `rows`, `bad`, `doubted` and `first_fault`
    (line and reason) count as the rows pass.

    >>> list(Column("width", delimiter=";").widen(["part;width", "tray;2 1/32 in"]))[1]
    'tray;2 1/32 in;2 1/32 in;2.03125;51.59375;2 1/32 in;0;0;;'
    """

    size: str
    rule: Rule = field(default_factory=lambda: Rule("64ths"))
    unit: str | None = None
    places: int = PLACES
    delimiter: str = ","
    doubtful: str = "fault"
    decimal: str = "point"
    mm_first: bool = False
    rows: int = field(default=0, init=False)
    bad: int = field(default=0, init=False)
    doubted: int = field(default=0, init=False)
    first_fault: tuple[int, str] | None = field(default=None, init=False)
    #: Added columns whose usual heading stood in the file already, and what they are called instead.
    renamed: dict[str, str] = field(default_factory=dict, init=False)

    def __post_init__(self) -> None:
        self._cells = CellReader(self.unit, self.doubtful)
        if self.decimal not in ("point", "comma"):
            raise ShopError(f"decimal is 'point' or 'comma', not {self.decimal!r}")
        self._figures = SizeTexts(self.rule, self.places, self.mm_first)
        self._names = (*self._figures.names, *((DOUBT,) if self.doubtful == "note" else ()), FAULT)
        self._added: dict[str, _Added] = {}
        self._end = self.delimiter * (len(self._names) - len(self._figures.names))
        sign = "." if self.decimal == "point" else ","
        self._decimals = DecimalCells(self._figures, self._cells.bare, self.delimiter, self._end, sign)
        self._blank = self.delimiter * len(self._names)

    def widen(self, lines: Iterable[str]) -> Iterator[str]:
        """Each record with its new cells, as text that ends as the record did.

        `lines` keep their line endings (a file opened with newline=""). HeaderError
        when the header does not name the column once.
        """
        source = _Source(lines)
        width, place, heading = self._head(source)
        yield heading
        added, delimiter, decimals = self._added, self.delimiter, self._decimals.of
        for line in source:
            if '"' in line:
                number = source.number
                cells, text, reason = self._quoted_record(line, source)
                body = text.rstrip("\r\n")
            else:
                text, reason, number = line, "", source.number
                body = line.rstrip("\r\n")
                cells = body.split(delimiter)
            if len(cells) <= 1 and not text.strip():
                yield text  # a blank line is no row
                continue
            self.rows += 1
            if len(cells) == width and not reason:
                cell = cells[place]
                known = added.get(cell)
                if known is None and (quick := decimals(cell)) is not None:
                    more = quick
                    if len(added) < _REMEMBERED:
                        added[cell] = more, "", False
                else:
                    more, reason, doubtful = known if known is not None else self._kept(cell)
                    if doubtful:
                        self.doubted += 1
                yield f"{body}{more}{text[len(body) :]}"
            else:
                reason = reason or _uneven(len(cells), width)
                yield self._marked(cells, width, reason, text)
            if reason:
                self.bad += 1
                if self.first_fault is None:
                    self.first_fault = number, reason

    def _kept(self, cell: str) -> _Added:
        """The new cells for a size, kept for when it comes again."""
        added = self._work_out(cell)
        if len(cell) <= _LONGEST_REMEMBERED:
            if len(self._added) == _REMEMBERED:
                self._added.clear()
            self._added[cell] = added
        return added

    # One cell

    def _work_out(self, cell: str) -> _Added:
        """The new cells for a size as they are written, the reason when there is no size, and if it is doubtful."""
        try:
            said = cell if self.decimal == "point" else _with_points(cell)
            pair = plain_pair(said, self._cells.bare)
            if pair is not None:
                return f"{self.delimiter}{self.delimiter.join(self._told(*pair))}{self._end}", "", False
            size, doubts = self._cells.read(said)
        except ShopError as error:
            why = reason(error, cell)
            return f"{self._blank}{self._cell(why)}", why, False
        texts = list(self._told(size.mm.numerator, size.mm.denominator))
        if size.approximate:
            texts[-1] = "approximate"
        if not is_sound(size.standing):
            trust = in_words(size.standing)
            texts[-1] = self._cell(f"approximate, {trust}" if size.approximate else trust)
        if self.doubtful == "note":
            texts.append(self._cell("; ".join(note.text for note in doubts)))
        return f"{self.delimiter}{self.delimiter.join(texts)}{self.delimiter}", "", bool(doubts)

    def _told(self, above: int, below: int) -> Sequence[str]:
        """The figures of a size, with the decimal sign of the column."""
        texts = self._figures.of(above, below)
        if self.decimal == "point":
            return texts
        return [self._cell(text.replace(".", ",")) for text in texts]

    def _cell(self, text: str) -> str:
        """A text as a cell, in quotes where it must be."""
        if any(sign in text for sign in (self.delimiter, '"', "\r", "\n")):
            return '"' + text.replace('"', '""') + '"'
        return text

    # Records

    def _head(self, source: _Source) -> tuple[int, int, str]:
        """How many columns there are, which one holds the sizes, and the widened header."""
        before = ""
        for line in source:
            mark = _BYTE_ORDER_MARK if line.startswith(_BYTE_ORDER_MARK) else ""
            before += mark
            line = line.removeprefix(mark)
            if not line.strip():
                before += line
                continue
            cells, text, reason = self._quoted_record(line, source)
            if reason:
                raise HeaderError(f"the header cannot be read: {reason}")
            body = text.rstrip("\r\n")
            names = [self._cell(name) for name in self._headings(cells)]
            ending = text[len(body) :]
            return len(cells), _place(self.size, cells), before + self.delimiter.join([body, *names]) + ending
        raise HeaderError("this is empty: a first line with the names of the columns is needed")

    def _headings(self, there: list[str]) -> list[str]:
        """The names of the new columns, other than those that are there."""
        taken = set(there)
        headings = []
        for name in self._names:
            free = name
            number = 1
            while free in taken:
                free = f"{name} of {self.size}" + (f" {number}" if number > 1 else "")
                number += 1
            if free != name:
                self.renamed[name] = free
            taken.add(free)
            headings.append(free)
        return headings

    def _quoted_record(self, line: str, source: _Source) -> tuple[list[str], str, str]:
        """A record that begins with `line`: its cells, its text as written, and what is wrong with it.

        A quote that is never closed would swallow the rest of the file: then the line
        alone is the record, as one cell, and what was looked at beyond it is put back.
        """
        source.begin(line)
        try:
            cells = next(csv.reader(source.record(), delimiter=self.delimiter), [])
        except csv.Error:
            cells = []
        if cells and not source.ran_out:
            return cells, "".join(source.used), ""
        source.put_back()
        body = line.rstrip("\r\n")
        return [body], line, f"a quote in this row is not closed within {LONGEST_RECORD:,} characters"

    def _marked(self, cells: list[str], width: int, reason: str, text: str) -> str:
        """A row that does not fit the header, with the reason under its own heading.

        Cells that are missing are left empty; cells too many stand after the new ones.
        """
        ending = text[len(text.rstrip("\r\n")) :]
        texts = [self._cell(cell) for cell in cells]
        texts += [""] * (width - len(texts))
        new = [""] * (len(self._names) - 1) + [self._cell(reason)]
        return self.delimiter.join([*texts[:width], *new, *texts[width:]]) + ending


def ends_as_ours(header: list[str]) -> bool:
    """Whether a header ends with the columns that are added here, on any rule, with doubts or without."""
    on = "64ths"
    orders = [SizeTexts(Rule(on), PLACES, mm_first).names for mm_first in (False, True)]
    return any(
        len(header) >= len(names)
        and all(_is_called(cell, name, on) for cell, name in zip(header[-len(names) :], names, strict=True))
        for usual in orders
        for names in ([*usual, FAULT], [*usual, DOUBT, FAULT])
    )


def _is_called(cell: str, name: str, on: str) -> bool:
    # A column whose name was taken has "of" and the sizes' column behind it.
    return cell == name or cell.startswith(
        (f"{name} of ", name.removesuffix(on) if name.endswith(on) else f"{name} of ")
    )


class _Source:
    """Lines, counted, of which a few can be looked at and put back."""

    def __init__(self, lines: Iterable[str]) -> None:
        self._waiting: list[str] = []
        self.number = 0
        self.used: list[str] = []
        self.ran_out = False
        self._lines = iter(lines)

    def __iter__(self) -> Iterator[str]:
        waiting, lines = self._waiting, self._lines
        while True:
            if waiting:
                line = waiting.pop()
            elif (line := next(lines, "")) == "":  # no line is empty: it has its ending, or is the last
                return
            self.number += 1
            yield line

    def begin(self, line: str) -> None:
        """Start a record with `line`."""
        self.used, self.ran_out = [line], False

    def record(self) -> Iterator[str]:
        """The lines of the record that was begun, as many as are asked for."""
        length = len(self.used[0])
        yield self.used[0]
        for line in self:
            self.used.append(line)
            length += len(line)
            if length > LONGEST_RECORD:
                break
            yield line
        # Asked for more when there was none: some quote is still open.
        self.ran_out = True

    def put_back(self) -> None:
        """Put back what was looked at beyond the first line."""
        self._waiting.extend(reversed(self.used[1:]))
        self.number -= len(self.used) - 1
        self.used = self.used[:1]


def _place(size: str, headings: list[str]) -> int:
    """Which column is headed `size` or has that number; HeaderError, naming those there are, when not just one is."""
    wanted = size.strip().casefold()
    places = [n for n, name in enumerate(headings) if name == size]
    places = places or [n for n, name in enumerate(headings) if name.strip().casefold() == wanted]
    if len(places) == 1:
        return places[0]
    if not places and wanted.isascii() and wanted.isdecimal() and 1 <= int(wanted[:6]) <= len(headings):
        return int(wanted) - 1
    if places:
        raise HeaderError(f"{len(places)} columns are headed {size!r}, and the sizes can stand in one only")
    there = ", ".join(repr(name) for name in headings[:40])
    raise HeaderError(
        f"no column is headed {size!r}; there are {there}{' ...' if len(headings) > 40 else ''}"
    )


def _with_points(cell: str) -> str:
    """A size written with decimal commas, with points; ShopError where a point stands among its figures."""
    if _POINT.search(cell):
        raise ShopError("a point stands among figures whose decimals are said to be behind a comma")
    return _COMMA.sub(".", cell)


def _uneven(count: int, width: int) -> str:
    return f"this row has {count} cell{'s' if count != 1 else ''} and the header has {width}"
