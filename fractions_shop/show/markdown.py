"""A sheet as Markdown, with tables as GitHub and most other readers take them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

from fractions_shop.figures.html import SEEN
from fractions_shop.figures.plain import Lines, without_pictures
from fractions_shop.figures.table import Cell, Table, each_cell, lines_in
from fractions_shop.show import own_mark
from fractions_shop.show.document import Document, Listing, Prose, Step

#: Signs that Markdown would take for marking up.
_SIGNS = re.compile(r"([\\`*_{}\[\]<>|#~&])")
#: Signs that it would so take at the beginning of a line.
_OPENING = re.compile(r"^(\s*)([-+=]|[0-9]+[.)])(?=\s|$)")


def markdown(document: Document) -> str:
    """The whole document; pictures are told in words, since Markdown has no place for them."""
    blocks = [f"# {plain(document.heading)}", own_mark.COMMENT, *map(paragraph, document.notes)]
    blocks.append(f"**{plain(document.verdict)}**")
    blocks += [block for listing in document.listings for block in _listing(listing)]
    led_to = frozenset(line for each in document.listings for line in (*each.lines, *each.sees))
    for section in document.sections:
        blocks.append(f"## {plain(section.title) if section.title else 'The working'}")
        for item in section.items:
            blocks += (
                [paragraph(item.words)] if isinstance(item, Prose) else _step(item, item.number in led_to)
            )
    return "\n\n".join(blocks) + "\n"


def plain(text: str) -> str:
    """Text in which no sign is taken for marking up."""
    return _SIGNS.sub(r"\\\1", " ".join(text.split()))


def paragraph(text: str) -> str:
    """`plain` text to stand on a line of its own, where a figure and a point would begin a list."""
    escaped = plain(text)
    match = _OPENING.match(escaped)
    return f"{escaped[: match.end() - 1]}\\{escaped[match.end() - 1 :]}" if match else escaped


def code(text: str) -> str:
    """Text shown as it was typed, whatever back quotes it holds."""
    longest = max((len(run) for run in re.findall("`+", text)), default=0)
    fence, pad = "`" * (longest + 1), " " if longest else ""
    return f"{fence}{pad}{text}{pad}{fence}"


def _listing(listing: Listing) -> list[str]:
    note = [paragraph(listing.note)] if listing.note else []
    beneath = map(paragraph, filter(None, (*listing.remarks, listing.readings)))
    return [f"## {plain(listing.title)}", *note, table(listing.table, listing.lines), *beneath]


def _step(item: Step, is_led_to: bool) -> list[str]:
    comment = f", {plain(item.comment)}" if item.comment else ""
    anchor = f'<a id="line-{item.number}"></a>' if is_led_to else ""
    blocks = [f"{anchor}Line {item.number}: {code(item.statement)}{comment}"]
    blocks += _lines(item.lines)
    blocks += [f"Picture: {plain(picture.words)}" for picture in item.pictures]
    return blocks


def _lines(lines: Lines) -> list[str]:
    """Sentences as one list, tables between them."""
    blocks = []
    for is_table, run in groupby(without_pictures(lines), lambda line: isinstance(line, Table)):
        if is_table:
            blocks += [table(line) for line in run if isinstance(line, Table)]
        else:
            blocks.append("\n".join(f"- {plain(line)}" for line in run if isinstance(line, str)))
    return blocks


def table(table: Table, lines: Sequence[int] = ()) -> str:
    """A table; one without a header gets an empty one, which Markdown insists on.

    The first cell of each row leads to its line, if there are such, as do the lines where something is to be seen.
    """
    width = len(table.rows[0]) if table.rows else len(table.header)
    header = table.heads or ("",) * width
    written = [
        [
            _linked(cell, lines[n])
            if lines and not k
            else _seen(table.rows[n][k])
            if header[k] == SEEN
            else plain(cell)
            for k, cell in enumerate(row)
        ]
        for n, row in enumerate(each_cell(table))
    ]
    rows = [list(map(plain, header)), ["---"] * width, *written]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


def _linked(cell: str, line: int | str) -> str:
    return f"[{plain(cell)}](#line-{line})" if cell else ""


def _seen(cell: Cell | str) -> str:
    return ", ".join(_linked(number, number) for number in lines_in(cell))
