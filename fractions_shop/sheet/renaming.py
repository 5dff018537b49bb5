"""A name changed wherever it stands: where it is set, where it is drawn on, and as `[name]` in notes; or a part's."""

from __future__ import annotations

import re
from collections.abc import Sequence

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.nodes import Name, Naming
from fractions_shop.requests.reading import statement
from fractions_shop.sheet.feature_lines import WORDS as FEATURES
from fractions_shop.sheet.last_size import LAST, put
from fractions_shop.sheet.line_nodes import nodes_of
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.rows import Rows

_OPENING = rf"\s*(?:parts?|(?:{'|'.join(FEATURES)})\s+in)\s+"
#: A part line, or one that cuts in a part, down to the part's name.
_OF_PART = re.compile(rf"{_OPENING}([^\s:;,#](?:[^:;,#]*[^\s:;,#])?)", re.IGNORECASE)


def renamed_rows(rows: Rows, lines: Sequence[Line], old: str, new: str) -> Rows:
    """The rows with `new` for `old`; ShopError when there is no such name, or the new one cannot be one."""
    names = {line.sets for line in lines if line.sets}
    if old not in names:
        raise ShopError(f"nothing is named {old}; names lists what is")
    if new in names:
        raise ShopError(f"{new} is a name already; choose another, or drop it first")
    if not _can_be_a_name(new):
        raise ShopError(
            f"{new or 'nothing'} cannot be a name: a name is letters, figures and _, such as tray_2"
        )
    for line in lines:
        if line.also:
            continue
        if line.fault is not None and re.search(rf"\b{re.escape(old)}\b", line.text):
            raise ShopError(
                f"line {line.number} cannot be read, and says {old}: set it right first, or drop it"
            )
        text = put(rows.texts[line.row], _places(line, old), new)
        if text != rows.texts[line.row]:
            rows = rows.with_row(line.row, text)
    return rows


def renamed_part_rows(rows: Rows, lines: Sequence[Line], old: str, new: str) -> Rows:
    """The rows with `new` for the part `old`, where it is made and where it is cut in.

    ShopError when there is no such part, or the new name is another part's or cannot be one.
    """
    old, new = (" ".join(name.split()) for name in (old, new))
    parts = {line.part_name.casefold() for line in lines if line.part_name}
    if new.casefold() in parts and new.casefold() != old.casefold():
        raise ShopError(f"{new} is a part already; choose another name, or drop it first")
    if read_lines(f"part {new}: 1")[0].part_name != new:
        raise ShopError(f"{new or 'nothing'} cannot be the name of a part, such as back rail")
    for line in lines:
        span = _part_span(line, old.casefold())
        if span is not None:
            rows = rows.with_row(line.row, put(rows.texts[line.row], [span], new))
    return rows


def _part_span(line: Line, old: str) -> tuple[int, int] | None:
    """Where a line that makes the part or cuts in it has its name."""
    if line.also:
        return None
    if old in (line.part_name.casefold(), line.cut_in.casefold()):
        match = _OF_PART.match(line.text)
    else:
        # `hole in rail 1/8 in`, without its colon: what it says of the part is seen, though not where its name ends.
        of_it = rf"{_OPENING}{re.escape(old)}\b"
        if line.fault is None or re.match(of_it, " ".join(line.text.split()), re.IGNORECASE) is None:
            return None
        match = None
    if match is None:
        raise ShopError(f"line {line.number} cannot be read, and says {old}: set it right first, or drop it")
    return match.span(1)


def _places(line: Line, old: str) -> set[tuple[int, int]]:
    """Where a name stands in a line: set, drawn on, or between square brackets in words."""
    places = {
        (node.start, node.end) for node in nodes_of(line) if isinstance(node, Name) and node.word == old
    }
    name = re.escape(old)
    if isinstance(line.node, Naming) and old in (line.sets, *line.node.each):
        places |= {match.span() for match in re.finditer(rf"\b{name}\b", line.text[: line.node.answer.start])}
    in_words = {match.span(1) for match in re.finditer(rf"\[\s*({name})\s*\]", line.text)}
    return places | in_words


def _can_be_a_name(word: str) -> bool:
    try:
        read = statement(f"{word} = 1 in")
    except InputError:
        return False
    return isinstance(read, Naming) and read.name == word and word != LAST
