"""Sheet: a job written down, as the library has it; a worked sheet that writes itself."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.files.whole import write_whole
from fractions_shop.sheet.worked_sheet import WorkedSheet

if TYPE_CHECKING:
    from fractions_shop.show.document import Document

#: Drawings are made for the first so many pictures of one page.
_MOST_PICTURES = 2_000


class Sheet(WorkedSheet):
    r"""A sheet of statements; worked out when it is first asked for anything.

    >>> job = Sheet.from_text("bay = total / 5\ntotal = 2 1/32 in\ncheck bay * 5 = total")
    >>> job.ok, job.sizes["bay"].inch
    (True, Fraction(13, 32))
    """

    def _document(self, pictures: bool = True, paper: str = "A4", brief: bool = False) -> Document:
        """What text, Markdown, page, drawing and PDF are written from."""
        from fractions_shop.figures.paper import paper_called
        from fractions_shop.show.document import document

        return document(self, _MOST_PICTURES if pictures else None, paper_called(paper), brief)

    def to_text(self, width: int = 80, *, marked: bool = False) -> str:
        """The sheet as plain text; `marked` says beneath the title what worked it out.

        The command marks the files that it writes, so as to know them again.
        """
        from fractions_shop.show.sheet_text import text

        return text(self._document(False, brief=True), width, marked)

    def text(self, width: int = 80) -> str:
        """The same, by the name that it has in every answer."""
        return self.to_text(width)

    def data(self) -> dict[str, Any]:
        """`to_data`, by the name that it has in every answer."""
        return self.to_data()

    def to_markdown(self) -> str:
        """The sheet as Markdown; its pictures are told in words."""
        from fractions_shop.show.markdown import markdown

        return markdown(self._document())

    def to_csv(self, what: str = "all") -> str:
        """The named sizes, places, parts, heights, checks and revisions, one row a size; `what` names one of these alone."""
        from fractions_shop.show.columns import csv_text

        return csv_text(self, what)

    def to_data(self) -> dict[str, Any]:
        """The sheet as an object for JSON."""
        from fractions_shop.show.sheet_data import sheet_data

        return {**sheet_data(self)}

    def to_json(self, indent: int | None = 1) -> str:
        """`to_data` as text."""
        from fractions_shop.requests.data import json_text
        from fractions_shop.show.sheet_data import sheet_data

        # With an indent it is written piece by piece, and no line is held as an object for longer than that takes.
        return json_text(sheet_data(self, in_turn=indent is not None), indent=indent) + "\n"

    def to_html(self, paper: str = "A4", watched: str = "") -> str:
        """The sheet as one page that needs no other file; strips as wide as `paper` lets them be.

        `paper` is A4 (what is drawn for it has room on letter too), letter, A4 landscape or letter landscape.
        With `watched`, words on what it was made from and when, the page loads itself anew every two seconds.
        """
        from fractions_shop.show.page import page

        return page(self._document(paper=paper), paper, watched)

    def changes_page(self, older: WorkedSheet, called: str = "the older sheet", paper: str = "A4") -> str:
        """The page of this sheet with what differs from an `older` one told first, and marked in lists and working."""
        from fractions_shop.show.changed_lines import changes_from
        from fractions_shop.show.page import page

        return page(self._document(paper=paper), paper, changes=changes_from(older, self, called))

    def to_svg(self, paper: str = "A4", part: str | None = None) -> str:
        """Every picture of the sheet, one below another, strips true to size and as wide as `paper` lets them be.

        `part` names one part, whose drawing then stands alone. Black on a white ground of its own.
        ShopError when nothing in the sheet, or in that part, has a picture.
        """
        from fractions_shop.show.svg import standalone

        document = self._document(paper=paper)
        if part is not None:
            cut = self.part_called(part)
            drawn = document.pictures_at(cut.line)
            if not drawn:
                raise ShopError(
                    f"no drawing is made of {cut.part.name}; the working of line {cut.line} says why"
                )
            return standalone(drawn, f"{document.heading}: {cut.part.name}", paper)
        if not document.pictures:
            raise ShopError("nothing in this sheet has a picture: mark, places, crown and fit have one")
        return standalone(document.pictures, document.heading, paper)

    def to_pdf(self, path: str | os.PathLike[str] | None = None, paper: str = "A4") -> bytes:
        """The sheet as PDF, strips true to size, on `paper` A4 or letter, or either landscape; written to `path` if given.

        Needs the extra `print` (pip install 'fractions-shop[print]'); ShopError without it, and
        InputError, with its place, for a sign that no font of the page has.
        A file is written whole or not at all, and OSError says why not.
        """
        from fractions_shop.show.pdf import pdf

        written = pdf(self._document(paper=paper), paper, ((w.line.number, w.line.text) for w in self.worked))
        if path is not None:
            write_whole(path, written)
        return written

    def to_dxf(self, path: str | os.PathLike[str] | None = None, part: str | None = None) -> str:
        """What a machine is to cut, as DXF at full size in mm: flat parts, parts with holes, named places.

        `part` names one of them, which then stands with its datum at zero; else all stand side by side. Written to
        `path` if given, whole or not at all.

        Needs the extra `machine` (pip install 'fractions-shop[machine]'); ShopError without it, and where nothing is for a machine.
        """
        from fractions_shop.show.dxf import dxf
        from fractions_shop.show.machine_plan import machine_plan

        written = dxf(machine_plan(self, part))
        if path is not None:
            write_whole(path, written.encode("utf-8"))
        return written

    def to_coordinates(self, part: str | None = None) -> str:
        """The places of the same as text, in mm from the datum of each part, with the rounding said."""
        from fractions_shop.show.machine_plan import machine_plan
        from fractions_shop.show.machine_text import machine_text

        return machine_text(machine_plan(self, part))

    def __repr__(self) -> str:
        from fractions_shop.requests.gists import in_short
        from fractions_shop.show.verdict import verdict_text

        called = "Sheet" if self.title == "Sheet" else f"Sheet {self.title}"
        return in_short(called, [verdict_text(self.verdict)])

    def _repr_html_(self) -> str:
        """For a notebook: the sheet as it stands on its page."""
        from fractions_shop.show.page import sheet_html

        return sheet_html(self._document(False))
