"""A sheet as one HTML page that needs nothing else: no script, no other file."""

from __future__ import annotations

from functools import cache
from html import escape
from pathlib import Path

from fractions_shop.figures.drawing import Drawing
from fractions_shop.figures.table import Table, each_cell
from fractions_shop.show.document import Document, Listing, Note, Section, Shown
from fractions_shop.show.pictures.strip import CHECK_THE_BAR
from fractions_shop.show.svg import inline
from fractions_shop.show.words import Lines

#: Nothing may be loaded and nothing run, whatever a name or a note says.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
#: Cells of up to so many characters are not broken.
_TIGHT = 14


def page(document: Document) -> str:
    """The whole page. Parts and sizes come first, for whoever cuts; then the working."""
    lines = frozenset(i.number for s in document.sections for i in s.items if isinstance(i, Shown))
    notes = "".join(f"<p>{text(note)}</p>\n" for note in document.notes)
    body = "".join(_listing(listing, lines) for listing in document.listings)
    working = "".join(_section(section) for section in document.sections)
    verdict = "verdict" if document.ok else "verdict bad"
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{text(document.title)}</title>\n<style>\n{_style()}</style>\n</head>\n<body>\n<main>\n"
        f'<header>\n<h1>{text(document.title)}</h1>\n{notes}<p class="{verdict}">{text(document.verdict)}</p>\n</header>\n'
        f"{body}<section>\n<h2>The working</h2>\n{working}</section>\n</main>\n</body>\n</html>\n"
    )


@cache
def _style() -> str:
    return Path(__file__).with_name("page.css").read_text(encoding="utf-8")


def text(words: str) -> str:
    """Words as HTML: marked up, and without signs that HTML forbids."""
    return escape("".join(c if c >= " " or c in "\t\n" else "\ufffd" for c in words))


def _listing(listing: Listing, lines: frozenset[int]) -> str:
    note = f'<p class="note">{text(listing.note)}</p>\n' if listing.note else ""
    return (
        f"<section>\n<h2>{text(listing.title)}</h2>\n{note}"
        f"{table(listing.table, 'listing', lines)}{_remarks(listing)}</section>\n"
    )


def _remarks(listing: Listing) -> str:
    remarks = "".join(f'<p class="said doubtful">{text(remark)}</p>\n' for remark in listing.remarks)
    return remarks + (f'<p class="note">{text(listing.readings)}</p>\n' if listing.readings else "")


def _section(section: Section) -> str:
    title = f"<h3>{text(section.title)}</h3>\n" if section.title else ""
    items = "".join(
        f'<p class="note">{text(item.words)}</p>\n' if isinstance(item, Note) else _shown(item)
        for item in section.items
    )
    return f"{title}{items}"


def _shown(item: Shown) -> str:
    comment = f' <span class="comment">{text(item.comment)}</span>' if item.comment else ""
    pictures = "".join(figure(d, f"line-{item.number}-picture-{k}") for k, d in enumerate(item.pictures, 1))
    return (
        f'<div class="step" id="line-{item.number}">\n<p class="asked">'
        f'<a class="number" href="#line-{item.number}" aria-label="line {item.number}">{item.number}</a>'
        f"<code>{_spotted(item)}</code>{comment}</p>\n"
        f'<div class="answer">\n{html_lines(item.lines, item.state)}{pictures}</div>\n</div>\n'
    )


def _spotted(item: Shown) -> str:
    """The statement, the place of a fault marked in it."""
    if item.spot is None:
        return text(item.statement)
    start, end = item.spot
    end = max(end, start + 1)
    spot = item.statement[start:end] or " "
    return f"{text(item.statement[:start])}<mark>{text(spot)}</mark>{text(item.statement[end:])}"


def html_lines(lines: Lines, state: str = "answered") -> str:
    """Sentences as paragraphs, tables as tables; the first sentence stands out for a check or fault."""
    kind = f' class="said {state}"' if state in ("holds", "fails", "fault", "waits") else ""
    return "".join(
        table(line) if isinstance(line, Table) else f"<p{'' if n else kind}>{text(line)}</p>\n"
        for n, line in enumerate(lines)
    )


def table(shown: Table, kind: str = "", lines: frozenset[int] = frozenset()) -> str:
    """A table whose cells know their column's name, so that a narrow screen can stack them."""
    kind = kind if shown.header else f"{kind} bare".strip()
    opening = f'<table class="{kind}">' if kind else "<table>"
    head = ""
    if shown.header:
        cells = "".join(f'<th scope="col">{text(name)}</th>' for name in shown.heads)
        head = f"<thead><tr>{cells}</tr></thead>"
    rows = "".join(_row(row, shown.heads, lines) for row in each_cell(shown))
    return f"{opening}{head}<tbody>{rows}</tbody></table>\n"


def _row(row: tuple[str, ...], header: tuple[str, ...], lines: frozenset[int]) -> str:
    cells = []
    for n, cell in enumerate(row):
        name = header[n] if header else ""
        inner = _linked(cell, lines) if name == "line" else text(cell)
        if n == 0:
            cells.append(f'<th scope="row">{inner}</th>')
            continue
        label = f' data-label="{text(name)}"' if name else ""
        # Where cells of a table without headings run on in one line, a figure need not be said twice.
        again = not header and cell == row[n - 1] and n < len(row) - 1
        cells.append(f"<td{label}{_kind(cell, again)}>{inner}</td>")
    return f"<tr>{''.join(cells)}</tr>"


def _kind(cell: str, again: bool) -> str:
    """The class of a cell: a verdict stands out, and a figure and its unit stay on one line."""
    verdict = {"holds": "said holds", "FAILS": "said fails"}.get(cell)
    kind = verdict or ("tight" if 0 < len(cell) <= _TIGHT else "")
    kind = f"{kind} again".strip() if again else kind
    return f' class="{kind}"' if kind else ""


def _linked(cell: str, lines: frozenset[int]) -> str:
    """The number of a line, leading to that line when it is on this page."""
    if cell.isdecimal() and int(cell) in lines:
        return f'<a href="#line-{cell}" aria-label="line {cell}">{cell}</a>'
    return text(cell)


def figure(drawing: Drawing, identity: str) -> str:
    """A picture with its caption; one that is true to size is never shrunk, but scrolled."""
    if not drawing.true_size:
        return f'<figure><div class="paper shrinks">{inline(drawing, identity)}</div></figure>\n'
    # A region that scrolls must be within reach of the keyboard.
    return (
        f'<figure><div class="paper" tabindex="0" role="group" aria-label="{text(drawing.title)}">'
        f"{inline(drawing, identity)}</div>"
        f"<figcaption>True to size: {CHECK_THE_BAR}.</figcaption></figure>\n"
    )
