"""A sheet as one HTML page that needs nothing else: no script, no other file."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from fractions_shop.figures.drawing import Drawing
from fractions_shop.figures.html import CHANGED, Links, html_lines, table, text
from fractions_shop.figures.paper import A4, paper_called
from fractions_shop.figures.plain import Lines
from fractions_shop.requests.pictures.frame import CHECK_THE_BAR
from fractions_shop.show import own_mark
from fractions_shop.show.changed_lines import MarkedChanges
from fractions_shop.show.document import DRAWINGS, STRIPS, WORKING, Document, Listing, Prose, Section, Step
from fractions_shop.show.svg import inline

#: Nothing may be loaded and nothing run, whatever a name or a note says.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"


#: Seconds after which a page that is watched loads itself anew, from whatever it was opened from.
_ANEW_AFTER = 2


def page(
    document: Document, paper: str = "A4", watched: str = "", changes: MarkedChanges | None = None
) -> str:
    """The whole page, to print on `paper`: for whoever cuts what is at fault, parts, drawings and strips, then lists, then the working.

    `watched` says what the page was made from and when that was saved, while it is made anew at every
    saving; it then loads itself anew, which takes no script. `changes` from an older sheet are told first, and marked.
    """
    lines = frozenset(step.number for step in document.steps)
    notes = "".join(f"<p>{text(note)}</p>\n" for note in document.notes)
    drawn = frozenset(
        step.number for step in document.steps if step.pictures and step.shown_with != "working"
    )
    changed = frozenset() if changes is None else changes.lines
    links = Links(lines, drawn, changed)
    blocks = [] if changes is None else [(_CHANGED, f"<h2>{_CHANGED}</h2>\n{html_lines(changes.in_words)}")]
    blocks += [(each.title, _listing(each, links)) for each in document.front_listings]
    blocks += [(title, _drawings(title, document.drawn_with(what))) for title, what in _DRAWN]
    blocks += [(each.title, _listing(each, links)) for each in document.other_listings]
    working = "".join(_section(section, changed) for section in document.sections)
    blocks.append((WORKING, f"<h2>{WORKING}</h2>\n{working}"))
    body = "".join(
        f'<section id="{_identity(title)}">\n{block}</section>\n' for title, block in blocks if block
    )
    verdict = "verdict" if document.ok else "verdict bad"
    return _whole(
        document.heading, f"{_size(paper)}{_feet(document)}",
        f'<header>\n<h1>{text(document.heading)}</h1>\n{notes}<p class="{verdict}">{text(document.verdict)}</p>\n{_made(watched)}</header>\n'
        f"{_contents([title for title, block in blocks if block])}<main>\n{body}</main>\n",
        _anew(watched),
    )  # fmt: skip


def lines_page(title: str, lines: Lines) -> str:
    """Sentences and tables as a page of their own."""
    return _whole(
        title, "",
        f"<header>\n<h1>{text(title)}</h1>\n</header>\n<main>\n<section>\n{html_lines(lines)}</section>\n</main>\n",
    )  # fmt: skip


def _whole(title: str, style: str, body: str, anew: str = "") -> str:
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n{own_mark.HTML}'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n{anew}'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{text(title)}</title>\n<style>\n{_style()}{style}</style>\n</head>\n<body>\n"
        f"{body}</body>\n</html>\n"
    )


_CHANGED = "What changed"
_DRAWN = ((DRAWINGS, "parts"), (STRIPS, "strips"))


def _identity(title: str) -> str:
    """What a heading is known by in links: `parts-to-make`."""
    return "-".join("".join(sign if sign.isalnum() else " " for sign in title.lower()).split())


def _contents(titles: Sequence[str]) -> str:
    """Links to what the page holds, for a narrow screen above all."""
    links = "".join(f'<li><a href="#{_identity(title)}">{text(title)}</a></li>' for title in titles)
    return f'<nav aria-label="contents">\n<ul>{links}</ul>\n</nav>\n'


def _drawings(title: str, steps: Sequence[Step]) -> str:
    """Pictures that stand above the working, each leading to its line there."""
    drawn = "".join(
        f'<h3 class="drawn"><a href="#line-{step.number}">line {step.number}</a> '
        f"<code>{text(step.statement)}</code></h3>\n{_figures(step)}"
        for step in steps
    )
    return f"<h2>{title}</h2>\n{drawn}" if drawn else ""


def _figures(step: Step) -> str:
    return "".join(figure(d, f"line-{step.number}-picture-{k}") for k, d in enumerate(step.pictures, 1))


def _anew(watched: str) -> str:
    return f'<meta http-equiv="refresh" content="{_ANEW_AFTER}">\n' if watched else ""


def _made(watched: str) -> str:
    return f'<p class="note">{text(watched)}; this page loads itself anew</p>\n' if watched else ""


def _size(paper: str) -> str:
    """What tells a browser for which paper the drawings are; nothing for A4, whose drawings fit on letter too."""
    chosen = paper_called(paper)
    return "" if chosen is A4 else f"@page {{ size: {chosen.name}; }}\n"


def _feet(document: Document) -> str:
    """What stands at the foot of each printed page: the title with its revision, and which page of how many."""
    # A name may hold whatever ends a string, or the style itself.
    said = "".join(
        sign if sign.isalnum() or sign in " .,:;-()" else f"\\{ord(sign):x} " for sign in document.heading
    )
    return (
        f'@page {{ @bottom-left {{ content: "{said}"; }} '
        '@bottom-right { content: "page " counter(page) " of " counter(pages); } }\n'
    )


@cache
def _style() -> str:
    return Path(__file__).with_name("page.css").read_text(encoding="utf-8")


def _listing(listing: Listing, links: Links) -> str:
    note = f'<p class="note">{text(listing.note)}</p>\n' if listing.note else ""
    listed = table(listing.table, "listing", links, listing.lines)
    return f"<h2>{text(listing.title)}</h2>\n{note}{listed}{_remarks(listing)}"


def _remarks(listing: Listing) -> str:
    remarks = "".join(f'<p class="said doubtful">{text(remark)}</p>\n' for remark in listing.remarks)
    return remarks + (f'<p class="note">{text(listing.readings)}</p>\n' if listing.readings else "")


def _section(section: Section, changed: frozenset[int]) -> str:
    title = f"<h3>{text(section.title)}</h3>\n" if section.title else ""
    items = "".join(
        f'<p class="note">{text(item.words)}</p>\n'
        if isinstance(item, Prose)
        else _step(item, item.number in changed)
        for item in section.items
    )
    return f"{title}{items}"


def _step(item: Step, is_changed: bool) -> str:
    comment = f' <span class="comment">{text(item.comment)}</span>' if item.comment else ""
    if item.shown_with == "working":
        pictures = _figures(item)
    else:
        pictures = "".join(
            f'<p class="note"><a href="#line-{item.number}-picture-{k}">{text(drawing.title)}</a></p>\n'
            for k, drawing in enumerate(item.pictures, 1)
        )
    mark = f" {CHANGED}" if is_changed else ""
    return (
        f'<div class="step" id="line-{item.number}">\n<p class="asked">'
        f'<a class="number" href="#line-{item.number}" aria-label="line {item.number}">{item.number}</a>'
        f"<code>{_spotted(item)}</code>{comment}{mark}</p>\n"
        f'<div class="answer">\n{html_lines(item.lines, item.state)}{pictures}</div>\n</div>\n'
    )


def _spotted(item: Step) -> str:
    """The statement, the place of a fault marked in it."""
    if item.spot is None:
        return text(item.statement)
    start, end = item.spot
    end = max(end, start + 1)
    spot = item.statement[start:end] or " "
    return f"{text(item.statement[:start])}<mark>{text(spot)}</mark>{text(item.statement[end:])}"


def figure(drawing: Drawing, identity: str) -> str:
    """A picture with its caption; one that is true to size, or to its scale, is never shrunk, but scrolled."""
    if not drawing.true_size:
        return (
            f'<figure id="{identity}"><div class="paper shrinks">{inline(drawing, identity)}</div></figure>\n'
        )
    size = f"Drawn at {drawing.drawn_at}, not full size" if drawing.drawn_at else "True to size"
    # A region that scrolls must be reachable by keyboard.
    return (
        f'<figure id="{identity}"><div class="paper" tabindex="0" role="group" aria-label="{text(drawing.title)}">'
        f"{inline(drawing, identity)}</div>"
        f"<figcaption>{size}: {CHECK_THE_BAR}.</figcaption></figure>\n"
    )


def sheet_html(document: Document) -> str:
    """A sheet in a notebook: its verdict and its tables, without the working."""
    listings = "".join(
        f"<h4>{text(each.title)}</h4>\n{table(each.table)}"
        + "".join(f"<p><strong>{text(remark)}</strong></p>\n" for remark in each.remarks)
        + (f"<p>{text(each.readings)}</p>\n" if each.readings else "")
        for each in document.listings
    )
    return f"<h3>{text(document.heading)}</h3>\n<p><strong>{text(document.verdict)}</strong></p>\n{listings}"
