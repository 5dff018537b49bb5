"""What a sheet can be written down as: one row for each way."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from fractions_shop.command.streams import width
from fractions_shop.show.sheet import Sheet


class Asked(NamedTuple):
    """What is asked of a writer: the paper, and whether what is written must say that we wrote it.

    `what` names the rows of a table, `part` the one part or places that are wanted alone; `watched` says what a page
    was made from and when that was saved, while it is made anew at every saving.
    """

    paper: str = "A4"
    marked: bool = False
    what: str = "all"
    part: str | None = None
    watched: str = ""


#: The options of which not every form can make something, each with what it asks for where nothing is asked.
OPTIONS = {"what": "all", "part": None}


class SheetForm(NamedTuple):
    """What a sheet is written down as: the ending of a file that means it, its meaning, its writer.

    The writer is given the sheet and what else was asked. Without the `extra` of this package it says how that is
    installed. `takes` names the options, of OPTIONS, that the writer does as it is asked; the others are refused.
    """

    ending: str
    meaning: str
    write: Callable[[Sheet, Asked], str | bytes]
    extra: str = ""
    takes: tuple[str, ...] = ()

    @property
    def listed(self) -> str:
        """Its meaning, with what must be installed for it."""
        return f"{self.meaning} (needs the extra `{self.extra}`)" if self.extra else self.meaning


FORMS = {
    "text": SheetForm(
        ".txt", "every line with its answer, then parts, sizes, limits and checks",
        lambda sheet, asked: sheet.to_text(width(), marked=asked.marked),
    ),
    "md": SheetForm(".md", "the same as Markdown", lambda sheet, _: sheet.to_markdown()),
    "csv": SheetForm(
        ".csv", "one row a size: named ones, places, parts, heights, checks, revisions",
        lambda sheet, asked: sheet.to_csv(asked.what), takes=("what",),
    ),
    "json": SheetForm(".json", "one object", lambda sheet, _: sheet.to_json()),
    "html": SheetForm(
        ".html", "one page that needs no other file, pictures in it",
        lambda sheet, asked: sheet.to_html(asked.paper, asked.watched),
    ),
    "svg": SheetForm(
        ".svg", "the pictures alone, strips true to size",
        lambda sheet, asked: sheet.to_svg(asked.paper, asked.part), takes=("part",),
    ),
    "pdf": SheetForm(
        ".pdf", "to print, strips true to size",
        lambda sheet, asked: sheet.to_pdf(paper=asked.paper), "print",
    ),
    "dxf": SheetForm(
        ".dxf", "for a machine: outlines, holes, slots, places in mm",
        lambda sheet, asked: sheet.to_dxf(part=asked.part), "machine", takes=("part",),
    ),
    "xy": SheetForm(
        ".xy", "the coordinates of the same as text, in mm",
        lambda sheet, asked: sheet.to_coordinates(asked.part), takes=("part",),
    ),
}  # fmt: skip


def taking(option: str) -> str:
    """The forms that take an option, in words: `svg, dxf and xy`."""
    *others, last = [word for word, form in FORMS.items() if option in form.takes]
    return f"{', '.join(others)} and {last}" if others else last
