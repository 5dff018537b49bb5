"""`ans` tied to the line that it was typed about: wherever lines go, it never comes to stand for another size."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from fractions_shop.language.nodes import Name
from fractions_shop.sheet.line_nodes import nodes_of
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.order import last_sizes
from fractions_shop.sheet.rows import Rows

LAST = "ans"
#: What a line without a name is called, before its number, when `ans` must go on meaning it.
_CALLED = "size_"


def sources(lines: Sequence[Line]) -> dict[int, int | None]:
    """For each line that says `ans`, the line that it stands for there, as a sheet takes it."""
    return {n: source for n, source in enumerate(last_sizes(lines)) if LAST in lines[n].uses}


def tied(rows: Rows, lines: Sequence[Line], meant: Mapping[int, int]) -> tuple[Rows, tuple[str, ...]]:
    """The rows where each `ans` that would stand for another line than is `meant` gives way to a name.

    `lines` are those of `rows`. The second answer has the names that lines without one were given.
    """
    now = sources(lines)
    named: dict[int, str] = {}
    taken = {line.sets for line in lines if line.sets}
    for n, source in meant.items():
        if now.get(n) == source or lines[n].also:
            continue
        name = lines[source].sets or named.get(source)
        if name is None:
            name = named[source] = _free(lines[source].number, taken)
            taken.add(name)
        row = lines[n].row
        rows = rows.with_row(row, renamed(rows.texts[row], lines[n], LAST, name))
    for source, name in named.items():
        row = lines[source].row
        text = rows.texts[row]
        start = len(text) - len(text.lstrip())
        rows = rows.with_row(row, f"{text[:start]}{name} = {text[start:]}")
    return rows, tuple(named.values())


def renamed(text: str, line: Line, old: str, new: str) -> str:
    """The text of a line where one name is put for another, in what is worked out."""
    places = {
        (node.start, node.end) for node in nodes_of(line) if isinstance(node, Name) and node.word == old
    }
    return put(text, places, new)


def put(text: str, places: Iterable[tuple[int, int]], new: str) -> str:
    """A text with something else in some of its places."""
    for start, end in sorted(places, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def _free(number: int, taken: Iterable[str]) -> str:
    while f"{_CALLED}{number}" in taken:
        number += 1
    return f"{_CALLED}{number}"
