"""What a sheet can be written down as: one row for each way."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from fractions_shop.command.streams import width
from fractions_shop.show.sheet import Sheet


class SheetForm(NamedTuple):
    """What a sheet is written down as: the ending of a file that means it, its meaning, its writer.

    The writer is given the sheet, the paper, and whether what is written must say that we wrote it. Without the
    `extra` of this package it says how that is installed.
    """

    ending: str
    meaning: str
    write: Callable[[Sheet, str, bool], str | bytes]
    extra: str = ""

    @property
    def listed(self) -> str:
        """Its meaning, with what must be installed for it."""
        return f"{self.meaning} (needs the extra `{self.extra}`)" if self.extra else self.meaning


FORMS = {
    "text": SheetForm(
        ".txt", "every line with its answer, then parts, sizes, limits and checks",
        lambda sheet, _, marked: sheet.to_text(width(), marked=marked),
    ),
    "md": SheetForm(".md", "the same as Markdown", lambda sheet, *_: sheet.to_markdown()),
    "csv": SheetForm(
        ".csv", "one row a size: named ones, places, parts, heights, checks, revisions", lambda sheet, *_: sheet.to_csv()
    ),
    "json": SheetForm(".json", "one object", lambda sheet, *_: sheet.to_json()),
    "html": SheetForm(
        ".html", "one page that needs no other file, pictures in it",
        lambda sheet, paper, _: sheet.to_html(paper),
    ),
    "svg": SheetForm(".svg", "the pictures alone, strips true to size", lambda sheet, paper, _: sheet.to_svg(paper)),
    "pdf": SheetForm(
        ".pdf", "to print, strips true to size",
        lambda sheet, paper, _: sheet.to_pdf(paper=paper), "print",
    ),
    "dxf": SheetForm(
        ".dxf", "for a machine: outlines, holes, slots, places in mm",
        lambda sheet, *_: sheet.to_dxf(), "machine",
    ),
    "xy": SheetForm(".xy", "the coordinates of the same as text, in mm", lambda sheet, *_: sheet.to_coordinates()),
}  # fmt: skip
