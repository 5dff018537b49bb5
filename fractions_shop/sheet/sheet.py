"""Sheet: a job written down, as the library has it."""

from __future__ import annotations

import gc
import os
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import InputError, ShopError, visible
from fractions_shop.figures.plain import Lines
from fractions_shop.files.bounded import first_bytes
from fractions_shop.files.whole import write_whole
from fractions_shop.requests import room
from fractions_shop.requests.check import CheckResult
from fractions_shop.sheet.changes import (
    AnswerChange,
    Change,
    PartChange,
    answer_changes,
    part_changes,
    size_changes,
)
from fractions_shop.sheet.check_causes import Feed, Feeder
from fractions_shop.sheet.doubts import Doubts, doubts
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked, Working
from fractions_shop.sheet.verdict import Verdict, verdict
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.show.document import Document

#: Of a larger file no more than this is read, and then it is refused.
MOST_BYTES = 32_000_000
#: Failed checks whose feeds are worked out; the first ones matter.
_MOST_EXPLAINED = 50
#: Drawings are made for the first so many pictures of one page.
_MOST_PICTURES = 2_000


@dataclass(frozen=True, slots=True)
class SheetCheck:
    """A check of a sheet: its line, its result, and for a failed one what feeds it."""

    line: int
    statement: str
    result: CheckResult
    feeds: tuple[Feed, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether it holds."""
        return self.result.holds

    def lines(self) -> Lines:
        """Whether it holds, in words, and by how much not."""
        return room("check").lines(self.result)


class Sheet:
    r"""A sheet of statements; worked out when it is first asked for anything.

    >>> job = Sheet.from_text("bay = total / 5\ntotal = 2 1/32 in\ncheck bay * 5 = total")
    >>> job.ok, job.sizes["bay"].inch
    (True, Fraction(13, 32))
    """

    def __init__(self, text: str, title: str = "Sheet") -> None:
        self.text = text
        self._title = visible(title)

    @classmethod
    def from_text(cls, text: str, title: str = "Sheet") -> Sheet:
        """A sheet from its text; `title` serves unless the text has a title of its own."""
        return cls(text, title)

    @classmethod
    def read(cls, path: str | os.PathLike[str]) -> Sheet:
        """A sheet from a file in UTF-8; ShopError, with the reason, if it cannot be read."""
        path = Path(path)
        name = visible(str(path))
        try:
            raw = first_bytes(path, MOST_BYTES + 1)
        except (OSError, ValueError) as error:
            raise ShopError(f"{name} cannot be read: {getattr(error, 'strerror', None) or error}") from None
        return cls(decoded(raw, name), path.stem.replace("-", " ").replace("_", " "))

    def run(self) -> Sheet:
        """The same sheet, worked out."""
        _ = self.worked
        return self

    @cached_property
    def _working(self) -> Working:
        # Nothing here refers to itself in a ring, and looking for rings among so many small
        # things would cost more with every line.
        collecting = gc.isenabled()
        gc.disable()
        try:
            return Working(read_lines(self.text))
        finally:
            if collecting:
                gc.enable()

    @cached_property
    def worked(self) -> tuple[Worked, ...]:
        """Every line with what came of it, in the order of the file."""
        return self._working.worked

    @cached_property
    def sizes(self) -> Mapping[str, Value]:
        """The named sizes, in the order of the file."""
        return MappingProxyType(
            {w.line.sets: w.value for w in self.worked if w.line.sets and w.value is not None}
        )

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        """The parts to make, by name, in the order of the file."""
        return MappingProxyType({w.part.name: w.part for w in self.worked if w.part is not None})

    @cached_property
    def checks(self) -> tuple[SheetCheck, ...]:
        """The checks; failed ones with what feeds them."""
        feeder = Feeder(self._working)
        found, explained = [], 0
        for n, item in enumerate(self.worked):
            result = item.check
            if result is None:
                continue
            feeds: tuple[Feed, ...] = ()
            if not result.holds and explained < _MOST_EXPLAINED:
                explained += 1
                feeds = feeder.feeds(n, result)
            found.append(SheetCheck(item.line.number, item.line.statement, result, feeds))
        return tuple(found)

    @cached_property
    def faults(self) -> tuple[InputError, ...]:
        """What is wrong, each with its line and place."""
        return tuple(w.fault for w in self.worked if w.fault is not None)

    @cached_property
    def doubts(self) -> Doubts:
        """The sizes that may not be the ones meant, and the lines that rest on them."""
        return doubts(self._working)

    @property
    def waiting(self) -> tuple[Worked, ...]:
        """The lines that wait for one at fault."""
        return tuple(w for w in self.worked if w.waits)

    @cached_property
    def verdict(self) -> Verdict:
        """How the sheet went, in counts."""
        return verdict(self.worked, self.doubts)

    @property
    def ok(self) -> bool:
        """Whether every line is answered and every check holds."""
        return self.verdict.ok

    @property
    def title(self) -> str:
        """What the sheet is called."""
        return self._document(False).title

    def changes(self, newer: Sheet) -> tuple[Change, ...]:
        """The named sizes that differ in a newer sheet."""
        return size_changes(self.sizes, newer.sizes)

    def part_changes(self, newer: Sheet) -> tuple[PartChange, ...]:
        """The parts that differ in a newer sheet, in count, material, sizes or note."""
        return part_changes(self.parts, newer.parts)

    def answer_changes(self, newer: Sheet) -> tuple[AnswerChange, ...]:
        """The answers that differ in a newer sheet: marks, heights, fits, checks, threads and the like."""
        return answer_changes(self.worked, newer.worked)

    # Outputs, all from one document

    def _feeds(self) -> dict[int, tuple[Feed, ...]]:
        return {check.line: check.feeds for check in self.checks if not check.holds}

    def _document(self, pictures: bool = True) -> Document:
        from fractions_shop.show.document import document

        most = _MOST_PICTURES if pictures else 0
        return document(self.worked, self._feeds(), self._title, self.verdict, most, self.doubts)

    def to_text(self, width: int = 80, *, marked: bool = False) -> str:
        """The sheet as plain text; `marked` says beneath the title what worked it out.

        The command marks the files that it writes, so as to know them again.
        """
        from fractions_shop.show.sheet_text import text

        return text(self._document(False), width, marked)

    def to_markdown(self) -> str:
        """The sheet as Markdown; its pictures are told in words."""
        from fractions_shop.show.markdown import markdown

        return markdown(self._document())

    def to_csv(self) -> str:
        """The named sizes, one row each."""
        from fractions_shop.show.columns import csv_text

        return csv_text(self.worked, self.doubts)

    def to_data(self) -> dict[str, Any]:
        """The sheet as an object for JSON."""
        from fractions_shop.show.sheet_data import sheet

        return {**sheet(self.worked, self._feeds(), self.title, self.verdict, self.doubts)}

    def to_json(self, indent: int | None = 1) -> str:
        """`to_data` as text."""
        from fractions_shop.requests.data import json_text

        return json_text(self.to_data(), indent=indent) + "\n"

    def to_html(self) -> str:
        """The sheet as one page that needs no other file."""
        from fractions_shop.show.page import page

        return page(self._document())

    def to_svg(self) -> str:
        """Every picture of the sheet, one below another, strips true to size.

        ShopError when nothing in the sheet has a picture.
        """
        from fractions_shop.show.svg import standalone

        document = self._document()
        if not document.pictures:
            raise ShopError("nothing in this sheet has a picture: mark, crown and fit have one")
        return standalone(document.pictures, document.title)

    def to_pdf(self, path: str | os.PathLike[str] | None = None, paper: str = "A4") -> bytes:
        """The sheet as PDF, strips true to size, on `paper` A4 or letter; written to `path` if given.

        Needs the extra `print` (pip install 'fractions-shop[print]'); ShopError without it, and
        InputError, with its place, for a sign that no font of the page has.
        A file is written whole or not at all, and OSError says why not.
        """
        from fractions_shop.show.pdf import pdf

        made = pdf(self._document(), paper, ((w.line.number, w.line.text) for w in self.worked))
        if path is not None:
            write_whole(path, made)
        return made

    def _repr_html_(self) -> str:
        from fractions_shop.show.page import sheet_html

        return sheet_html(self._document(False))


def decoded(raw: bytes, name: str) -> str:
    """The text of a file in UTF-8; ShopError, with the place, for anything else or for too much of it."""
    if len(raw) > MOST_BYTES:
        raise ShopError(f"{name} is larger than any sheet: {MOST_BYTES:,} bytes is the most that is read")
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise ShopError(f"{name} is in UTF-16: save it in UTF-8")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise ShopError(f"{name} is not text in UTF-8 (line {line}): save it in UTF-8") from None
