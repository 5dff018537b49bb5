"""Which lines of a sheet tell something else than an older sheet did, to be marked on its page."""

from __future__ import annotations

from typing import NamedTuple

from fractions_shop.figures.plain import Lines
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.show.changes import comparison
from fractions_shop.size.notation import told_in


class MarkedChanges(NamedTuple):
    """What changed from an older sheet, in words, and the lines of the newer one that it is of."""

    in_words: Lines
    lines: frozenset[int]


def changes_from(older: WorkedSheet, newer: WorkedSheet, called: str) -> MarkedChanges:
    """The changes of `newer` from an older sheet that is `called` so."""
    sizes, parts = older.changes(newer), older.part_changes(newer)
    cuts, stock, answers = older.cut_changes(newer), older.stock_changes(newer), older.answer_changes(newer)
    with told_in(newer.units):
        in_words = comparison(
            sizes, parts, answers, called, newer.title, cuts, stock, older.list_changes(newer)
        )
    names = {change.name for change in sizes}
    changed = [
        *(change.new for change in parts), *(change.new for change in cuts), *(change.new for change in stock)
    ]  # fmt: skip
    lines = {change.new.line.number for change in answers if change.new is not None}
    for item in newer.worked:
        made = item.part or item.feature or item.stock
        if item.line.sets in names or (made is not None and any(made is each for each in changed)):
            lines.add(item.line.number)
    return MarkedChanges(in_words, frozenset(lines))
