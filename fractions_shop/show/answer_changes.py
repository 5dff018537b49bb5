"""How an answer of one sheet differs from that of another, in the words that each of them is told in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest
from typing import NamedTuple

from fractions_shop.figures.plain import Lines, without_pictures
from fractions_shop.figures.size_words import short_cell
from fractions_shop.figures.table import Cell, Table, in_prose, words
from fractions_shop.figures.wording import both_cell
from fractions_shop.sheet.changes import AnswerChange
from fractions_shop.sheet.solve import Worked
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

#: So many cells of one answer's tables are told, and so many of its sentences; the rest are counted.
_MOST, _MOST_SAID = 8, 4
NOT_THERE = "is not there"
#: What is said of two answers that differ in nothing that they tell.
_FINER = "they differ by less than is told"


def answer_lines(change: AnswerChange, old: str, new: str) -> Lines:
    """What was asked, and all that the answer says otherwise."""
    before, after = change.old, change.new
    if before is None or after is None:
        sheet, line = (new, after) if before is None else (old, before)
        assert line is not None
        return [f"{line.line.statement} (line {line.line.number}): in {sheet} alone"]
    was, now = _in_words(before), _in_words(after)
    said, rows = _sentences(was.said, now.said), _rows(was, now)
    lines: Lines = [_asked(before, after)]
    for pair in said[:_MOST_SAID]:
        lines += [f"  {sheet}: {line}" for sheet, line in zip((old, new), pair, strict=True) if line]
    lines += [Table(tuple(rows[:_MOST]), ("", old, new))] if rows else []
    more = len(said[_MOST_SAID:]) + len(rows[_MOST:])
    lines += [f"  and {more:,} more of what it tells"] if more else []
    return lines if said or rows else [*lines, f"  {_FINER}"]


def _asked(old: Worked, new: Worked) -> str:
    was, now = old.line, new.line
    if was.statement == now.statement:
        return f"{now.statement} (line {now.number})"
    return f"{was.statement} (line {was.number}), now {now.statement} (line {now.number})"


Row = tuple[Cell | str, Cell | str, Cell | str]


def _sentences(old: Sequence[str], new: Sequence[str]) -> list[tuple[str, str]]:
    """The sentences that one alone says, taken together in their order."""
    return list(zip_longest(_without(old, new), _without(new, old), fillvalue=""))


def _rows(was: _InWords, now: _InWords) -> list[Row]:
    """What differs in tables, cell by cell."""
    rows: list[Row] = []
    for name in dict.fromkeys((*was.cells, *now.cells)):
        first, second = was.cells.get(name, NOT_THERE), now.cells.get(name, NOT_THERE)
        if in_prose(first) != in_prose(second):
            rows.append((", ".join(filter(None, name[:2])), first, second))
    return rows


def _without(lines: Iterable[str], others: Iterable[str]) -> list[str]:
    """Sentences that are not among others; each takes out one of its like."""
    left = Counter(others)
    kept = []
    for line in lines:
        if left[line]:
            left[line] -= 1
        else:
            kept.append(line)
    return kept


class _InWords(NamedTuple):
    """An answer's sentences, and the cells of its tables: each by the name of its row, its heading and where it stands."""

    said: tuple[str, ...]
    cells: dict[tuple[str, str, int, int], Cell | str]


def _in_words(item: Worked) -> _InWords:
    assert item.answer is not None
    lines = without_pictures(item.answer.lines())
    cells: dict[tuple[str, str, int, int], Cell | str] = {}
    for number, table in enumerate(line for line in lines if isinstance(line, Table)):
        for name, row in _named_rows(table.rows):
            for n, cell in enumerate(row):
                head = table.heads[n + 1] if table.header else ""
                cells[name, head, number, n] = cell
    return _InWords(tuple(line for line in lines if isinstance(line, str)), cells)


def _named_rows(rows: Sequence[Sequence[Cell | str]]) -> Iterator[tuple[str, Sequence[Cell | str]]]:
    """Each row behind its first cell, which names it; of rows of one name each further is told by its number."""
    seen: Counter[str] = Counter()
    name = ""
    for first, *others in rows:
        name = in_prose(first) or name
        seen[name] += 1
        yield (name if seen[name] == 1 else f"{name} ({seen[name]})"), others


def missing(undone: int) -> str:
    """What is said of what a sheet has not: that it is not there, or that its line was not worked out."""
    return f"not worked out, line {undone}" if undone else NOT_THERE


def value_cell(value: Value | None, undone: int = 0) -> Cell:
    """A named size as it stands in a table of what changed; of one that is missing, the line that is `undone`."""
    match value:
        case None:
            return words(missing(undone))
        case Quantity():
            return both_cell(value) if value.power == 1 else short_cell(value)
    return short_cell(value)
