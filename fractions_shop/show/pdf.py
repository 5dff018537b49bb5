"""A sheet as PDF, strips true to size. Needs reportlab (extra `print`)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from io import BytesIO
from typing import Any

from fractions_shop.errors import ShopError

try:
    from reportlab.lib import colors
    from reportlab.lib.enums import TA_RIGHT
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.lib.units import mm
    from reportlab.pdfbase.pdfmetrics import stringWidth
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.platypus import CondPageBreak, Flowable, Paragraph, SimpleDocTemplate, Spacer
    from reportlab.platypus import Table as Grid

    from fractions_shop.show import fonts
    from fractions_shop.show.pdf_picture import Picture, points, write
except ImportError:
    raise ShopError(
        "printing to PDF needs reportlab, which is not installed: pip install 'fractions-shop[print]'"
    ) from None

from fractions_shop.figures.figure import Figure
from fractions_shop.figures.html import SEEN, Aligned, aligned
from fractions_shop.figures.paper import paper_called
from fractions_shop.figures.plain import Lines, without_pictures
from fractions_shop.figures.table import Cell, each_cell, in_prose, lines_in, standing_mark, written
from fractions_shop.figures.table import Table as Columns
from fractions_shop.sheet.revisions import with_revision
from fractions_shop.show import own_mark
from fractions_shop.show.document import DRAWINGS, STRIPS, WORKING, Document, Listing, Prose, Step

#: Longer sheets are for a screen.
MOST_STATEMENTS = 20_000
_MARGIN = 15 * mm
#: What reportlab keeps free inside the margins.
_PADDING = 6
#: Headings and sentences that may stand above a table and still keep with it.
_LEADING = 6
#: A table need not be whole beneath its statement, if so much of it is (in points).
_ROWS_KEPT = 120.0

#: A blank that no line ends at.
_HARD_BLANK = "\u00a0"

_PLAIN = ParagraphStyle("plain", fontName=fonts.TEXT, fontSize=9.5, leading=12.5, spaceAfter=2)
_SMALL = ParagraphStyle("small", _PLAIN, fontSize=8, leading=10, spaceAfter=0)
_SMALL_BOLD = ParagraphStyle("small bold", _SMALL, fontName=fonts.BOLD)
_TITLE = ParagraphStyle("title", _PLAIN, fontName=fonts.BOLD, fontSize=17, leading=21, spaceAfter=5)
_HEADING = ParagraphStyle(
    "heading", _PLAIN, fontName=fonts.BOLD, fontSize=12.5, leading=16, spaceBefore=10, keepWithNext=1
)
_VERDICT = ParagraphStyle("verdict", _PLAIN, fontName=fonts.BOLD, fontSize=10.5, leading=14, spaceBefore=3)
_ASKED = ParagraphStyle("asked", _PLAIN, fontName=fonts.BOLD, fontSize=9.5, spaceBefore=7)
_ANSWER = ParagraphStyle("answer", _PLAIN, leftIndent=14)


def pdf(document: Document, paper: str = "A4", lines: Iterable[tuple[int, str]] = ()) -> bytes:
    """The document as PDF, the same bytes for the same document; ShopError for an unknown paper.

    `lines` are those of the sheet, with their numbers: InputError for one with a sign that no font has.
    """
    chosen = paper_called(paper)
    size = points(chosen.width), points(chosen.height)
    if sum(len(section.items) for section in document.sections) > MOST_STATEMENTS:
        raise ShopError(f"a sheet of more than {MOST_STATEMENTS:,} statements is not printed")
    fonts.load()
    fonts.check(document.heading, lines)
    out = BytesIO()
    title = document.heading
    template = SimpleDocTemplate(
        out, pagesize=size, title=title, lang="en", invariant=1, creator=own_mark.MAKER,
        leftMargin=_MARGIN - _PADDING, rightMargin=_MARGIN - _PADDING, topMargin=_MARGIN, bottomMargin=_MARGIN + 4 * mm,
    )  # fmt: skip

    def footer(canvas: Canvas, template: Any) -> None:
        # A viewer that obeys this prints at 100 % without being asked.
        canvas.setViewerPreference("PrintScaling", "None")
        canvas.setAuthor("")  # who drew it up is not known; the library would say that nobody did
        canvas.setSubject(document.verdict)
        write(canvas, with_revision(document.title, document.revision, 100), 7.5, _MARGIN, 10 * mm)

    width = size[0] - 2 * _MARGIN
    template.build(
        list(_story(document, width)), onFirstPage=footer, onLaterPages=footer, canvasmaker=_Numbered
    )
    return out.getvalue()


class _Numbered(Canvas):
    """A canvas that says on each page which of how many it is, once it knows."""

    def __init__(self, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        self._pages: list[dict[str, Any]] = []
        self._size: tuple[float, float] = options["pagesize"]

    def showPage(self) -> None:  # noqa: N802 - the library's own name
        """Keep a finished page until all of them are."""
        self._pages.append(dict(self.__dict__))
        super()._startPage()  # type: ignore[misc]  # of the library, without types

    def save(self) -> None:
        """Number the pages and write them."""
        for number, page in enumerate(self._pages, 1):
            self.__dict__.update(page)
            said = f"page {number} of {len(self._pages)}"
            write(self, said, 7.5, self._size[0] - _MARGIN, 10 * mm, "end")
            super().showPage()
        super().save()


def _story(document: Document, width: float) -> Iterator[Flowable]:
    yield _paragraph(document.heading, _TITLE)
    for note in document.notes:
        yield _paragraph(note, _PLAIN)
    yield _paragraph(document.verdict, _VERDICT)
    for listing in document.front_listings:
        yield from _listing(listing, width)
    for title, what in ((DRAWINGS, "parts"), (STRIPS, "strips")):
        yield from _drawn(title, document.drawn_with(what), width)
    for listing in document.other_listings:
        yield from _listing(listing, width)
    heading = [Paragraph(WORKING, _HEADING)]
    for section in document.sections:
        heading += [_paragraph(section.title, _HEADING)] if section.title else []
        for item in section.items:
            if isinstance(item, Prose):
                # It leads to what stands below it as a heading does.
                heading.append(_paragraph(item.words, _PLAIN))
                continue
            yield from _kept([*heading, *_step(item, width)], width)
            heading = []
    yield from heading


def _drawn(title: str, steps: Sequence[Step], width: float) -> Iterator[Flowable]:
    """Pictures under a heading, each with the statement that it is of."""
    heading = [_paragraph(title, _HEADING)]
    for step in steps:
        pictures = [Picture(drawing) for drawing in step.pictures]
        yield from _kept([*heading, _asked(step, drawn=True), Spacer(1, 2), *pictures], width)
        heading = []


def _kept(flowables: list[Flowable], width: float) -> Iterator[Flowable]:
    """These on the next page if their beginning has no room on this one.

    The beginning goes down to the first table, and so much of it as tells what it is;
    without a table near the top it is the first few lines.
    """
    table = next((n for n, flowable in enumerate(flowables[:_LEADING]) if isinstance(flowable, Grid)), None)
    if table is None:
        need = _tall(flowables[:_LEADING], width)
    else:
        need = _tall(flowables[:table], width) + min(_tall([flowables[table]], width), _ROWS_KEPT)
    yield CondPageBreak(need)
    yield from flowables


def _tall(flowables: list[Flowable], width: float) -> float:
    """How high these stand in all."""
    return float(sum(f.wrap(width, 1e6)[1] + f.getSpaceBefore() + f.getSpaceAfter() for f in flowables))


def _listing(listing: Listing, width: float) -> Iterator[Flowable]:
    made = [_paragraph(listing.title, _HEADING)]
    made += [_paragraph(listing.note, _SMALL)] if listing.note else []
    yield from _kept([*made, _grid(listing.table, width, lines=listing.lines)], width)
    for remark in listing.remarks:
        yield _paragraph(remark, _SMALL_BOLD)
    if listing.readings:
        yield _paragraph(listing.readings, _SMALL)


def _asked(item: Step, drawn: bool = False) -> Flowable:
    """A statement under its line number, a place that a list can lead to where it is the first of its line."""
    comment = f" &nbsp; {_marked(item.comment, fonts.TEXT)}" if item.comment else ""
    number = f"<font name='{fonts.TEXT}' size='7.5'>{item.number}</font>"
    first = drawn or not item.pictures or item.shown_with == "working"
    here = f"<a name='line-{item.number}'/>" if first else ""
    return Paragraph(f"{here}{number} {_marked(item.statement, fonts.BOLD)}{comment}", _ASKED)


def _step(item: Step, width: float) -> Iterator[Flowable]:
    yield _asked(item)
    yield from _lines(item.lines, width)
    if item.shown_with != "working":
        return
    for drawing in item.pictures:
        yield Spacer(1, 4)
        yield Picture(drawing)


def _lines(lines: Lines, width: float) -> Iterator[Flowable]:
    for line in without_pictures(lines):
        if isinstance(line, Columns):
            yield _grid(line, width, indent=12)
        elif isinstance(line, str):
            yield _paragraph(line, _ANSWER)


def _grid(table: Columns, width: float, indent: float = 0, lines: Sequence[int] = ()) -> Flowable:
    """A table whose columns share the width by what they hold, cells folded; `indent` stands before it."""
    body = each_cell(table, _unbroken)
    rows = [*([table.heads] if table.header else []), *body]
    if not rows:
        return Spacer(1, 1)
    points = _before_points(table)
    widths = _shared(rows, width - indent, _figures_wide(table, points))
    cells = [[_paragraph(cell, _SMALL_BOLD) for cell in table.heads]] if table.header else []
    cells += [
        [
            _seen(table.rows[k][n])
            if cell and table.header and table.heads[n] == SEEN
            else _cell(cell, points[k][n], lines[k] if lines and not n else 0)
            for n, cell in enumerate(row)
        ]
        for k, row in enumerate(body)
    ]
    first = 1 if indent else 0
    # An empty column, and no flowable about the table: one would part it from the heading that it is kept with.
    grid = Grid(
        [[""] * first + row for row in cells], [indent] * first + widths,
        repeatRows=1 if table.header else 0, hAlign="LEFT", spaceAfter=5,
        # A line of thousands of signs is higher than a page, which no row of a table may be.
        splitInRow=int(any(len(cell) > _HIGH_CELL for row in rows for cell in row)),
    )  # fmt: skip
    grid.setStyle([
        ("LINEBELOW", (first, 0), (-1, -1), 0.4, colors.Color(0.7, 0.7, 0.7)),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 2), ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 2), ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
    ])  # fmt: skip
    return grid


def _unbroken(cell: Cell | str) -> str:
    """A cell as text, in which a figure and its unit stay on one line: `1 1/4 in`, then `(31.75 mm)`."""
    if isinstance(cell, str) or len(cell.pieces) != 1 or not isinstance(cell.pieces[0], Figure):
        return in_prose(cell)
    said, beside = (
        written(pieces, "about ").replace(" ", _HARD_BLANK) for pieces in (cell.pieces, cell.beside)
    )
    return f"{said}{f' ({beside})' if beside else ''}{standing_mark(cell)}"


def _figures_wide(table: Columns, points: Sequence[Sequence[float | None]]) -> list[float]:
    """How much room the figures of each column take with what stands aside for their points; zero for others."""
    wide = [
        [0.0 if aside is None else _wide(cell) + aside for cell, aside in zip(row, asides, strict=True)]
        for row, asides in zip(each_cell(table), points, strict=True)
    ]
    return [max(column, default=0.0) for column in zip(*wide, strict=True)]


def _before_points(table: Columns) -> list[list[float | None]]:
    """How far each figure stands from the right, for the points of a column to stand below one another; else None."""
    tails = [
        [None if figure is None else _behind(cell, figure) for cell, figure in zip(row, figures, strict=True)]
        for row, figures in zip(each_cell(table), aligned(table), strict=True)
    ]
    widest = [
        max((tail for tail in column if tail is not None), default=0.0) for column in zip(*tails, strict=True)
    ]
    return [
        [None if tail is None else most - tail for tail, most in zip(row, widest, strict=True)]
        for row in tails
    ]


def _behind(cell: str, figure: Aligned) -> float:
    """How wide a figure is from its point on."""
    return float(
        stringWidth(cell[-figure.decimals - 1 :] if figure.decimals else "", fonts.TEXT, _SMALL.fontSize)
    )


def _seen(cell: Cell | str) -> Paragraph:
    """Lines where something is to be seen, each led to."""
    return Paragraph(", ".join(_led(number, number) for number in lines_in(cell)), _SMALL)


def _cell(cell: str, aside: float | None, line: int) -> Paragraph:
    """A cell: a figure with its point below the others', or words, the first of a row leading to its line."""
    if aside is not None:
        return _paragraph(cell, ParagraphStyle("figure", _SMALL, alignment=TA_RIGHT, rightIndent=aside))
    if line and cell:
        return Paragraph(_led(cell, line), _SMALL)
    return _paragraph(cell, _SMALL)


def _led(text: str, line: int | str) -> str:
    return f"<a href='#line-{line}'>{_marked(text)}</a>"


#: Signs of a cell that may be too high for a page.
_HIGH_CELL = 1000
#: What stands beside the text of a cell, and a cell that may be folded beyond this, in points.
_BESIDE, _LONG_CELL = 9.0, 190.0
#: A cell that is not folded while there is room for it: a size in both units.
_SHORT_CELL = 100.0


def _shared(rows: Sequence[Sequence[str]], width: float, figures: Sequence[float]) -> list[float]:
    """How wide each column is: as its cells are where there is room, and never so narrow that a word is broken.

    `figures` is what its figures take whose points stand below one another.
    """
    columns = list(zip(*rows, strict=True))
    least = [
        max(wide, *(_wide(word) for cell in column for word in cell.split(" "))) + _BESIDE
        for column, wide in zip(columns, figures or [0.0] * len(columns), strict=True)
    ]
    most = [
        max(min(max(map(_wide, column)) + _BESIDE, _LONG_CELL), low)
        for column, low in zip(columns, least, strict=True)
    ]
    if sum(most) <= width:
        return most
    # Short cells are left whole where the long ones have room beside them.
    whole = [high if high <= _SHORT_CELL else low for low, high in zip(least, most, strict=True)]
    least = whole if sum(whole) <= width else least
    spare = width - sum(least)
    if spare <= 0:
        return _narrowed(least, width)
    wished = sum(most) - sum(least)
    return [low + (high - low) * spare / wished for low, high in zip(least, most, strict=True)]


def _narrowed(least: Sequence[float], width: float) -> list[float]:
    """What columns with words that no page has room for are given: the others keep theirs, so that the long words alone are broken."""
    given, left = list(least), width
    by_width = sorted(range(len(least)), key=lambda n: least[n])
    for done, n in enumerate(by_width):
        given[n] = min(least[n], left / (len(least) - done))
        left -= given[n]
    return given


def _wide(text: str) -> float:
    """How wide a text of a table may be: the bold face is the wider."""
    return float(stringWidth(text.replace(_HARD_BLANK, " "), fonts.BOLD, _SMALL.fontSize))


# Text


def _paragraph(text: str, style: ParagraphStyle) -> Paragraph:
    return Paragraph(_marked(text, style.fontName), style)


def _marked(text: str, face: str = fonts.TEXT) -> str:
    """Text marked up with the faces of its signs."""
    return "&nbsp;".join(
        "".join(f"<font name='{name}'>{escape(run)}</font>" for name, run in fonts.runs(part, face))
        for part in text.split(_HARD_BLANK)
    )
