"""A sheet as plain text for a terminal or a file."""

from __future__ import annotations

from fractions_shop.errors import cells
from fractions_shop.figures.plain import folded, in_columns, laid_out
from fractions_shop.show import own_mark
from fractions_shop.show.document import Document, Listing, Prose, Section, Step

_INDENT = "     "


def text(document: Document, width: int = 80, marked: bool = False) -> str:
    """The whole document in at most `width` columns where words allow.

    `marked` adds the line by which a file of ours is known again.
    """
    blocks = [_title(document, width, marked)]
    blocks += [_section(section, width) for section in document.sections]
    blocks += [_listing(listing, width) for listing in document.listings]
    blocks.append("\n".join(folded(document.verdict, width)))
    return "\n\n".join(block for block in blocks if block) + "\n"


def _title(document: Document, width: int, marked: bool) -> str:
    lines = [document.heading, "=" * cells(document.heading)]
    lines += [own_mark.TEXT] if marked else []
    for note in document.notes:
        lines += ["", *folded(note, width)]
    return "\n".join(lines)


def _section(section: Section, width: int) -> str:
    blocks = [f"{section.title}\n{'-' * cells(section.title)}"] if section.title else []
    blocks += [
        "\n".join(folded(item.words, width)) if isinstance(item, Prose) else _step(item, width)
        for item in section.items
    ]
    return "\n\n".join(blocks)


def _step(item: Step, width: int = 80) -> str:
    """A statement under its line number, the place of a fault, and the answer below it."""
    comment = f"   # {item.comment}" if item.comment else ""
    lines = [f"{item.number:>4} {item.statement}{comment}"]
    if item.spot is not None:
        start, end = item.spot
        under = cells(item.statement[:start])
        lines.append(f"{_INDENT}{' ' * under}{'^' * max(1, cells(item.statement[start:end]))}")
    body = laid_out(item.lines, max(width - len(_INDENT), 20))
    return f"\n{_INDENT}".join(["\n".join(lines), *body.splitlines()])


def _listing(listing: Listing, width: int) -> str:
    lines = [listing.title, "-" * cells(listing.title)]
    if listing.note:
        lines += folded(listing.note, width)
    lines += in_columns(listing.table, width)
    for remark in filter(None, (*listing.remarks, listing.readings)):
        lines += folded(f"  {remark}", width)
    return "\n".join(lines)
