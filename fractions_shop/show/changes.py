"""What changed between two sheets, in words."""

from __future__ import annotations

from collections.abc import Sequence

from fractions_shop.errors import cells
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import difference_cell
from fractions_shop.figures.table import Cell, Table, in_prose, words
from fractions_shop.figures.wording import so_many
from fractions_shop.sheet.changes import AnswerChange, Change, PartChange, alike
from fractions_shop.sheet.cut_changes import CutChange, StockChange
from fractions_shop.sheet.list_changes import NO_LISTS, ListChanges, RevisionChange, ToolChange
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.revisions import Revision
from fractions_shop.sheet.tools import Tool
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_stock import CutPiece, PartStock
from fractions_shop.show.answer_changes import answer_lines, missing, value_cell
from fractions_shop.show.feature_table import feature_words, places_words
from fractions_shop.show.part_table import part_note, part_size, part_sizes
from fractions_shop.show.stock_table import stock_sentence
from fractions_shop.show.tool_table import tool_called
from fractions_shop.size.limits import Limits

#: A longer name of a sheet would push the columns that it heads apart.
_LONG_NAME = 16


def comparison(
    sizes: Sequence[Change],
    parts: Sequence[PartChange],
    answers: Sequence[AnswerChange],
    old: str,
    new: str,
    cuts: Sequence[CutChange] = (),
    stock: Sequence[StockChange] = (),
    lists: ListChanges = NO_LISTS,
) -> Lines:
    """Sentences and tables; one sentence when nothing changed."""
    if not (sizes or parts or answers or cuts or stock or lists):
        return [f"every size, part and answer of {new} is as in {old}"]
    lines: Lines = []
    if max(cells(old), cells(new)) > _LONG_NAME:
        lines.append(f"{old} is the old sheet, {new} the new one")
        old, new = "old", "new"
    if sizes:
        rows = tuple(
            (c.name, value_cell(c.old, c.old_undone), value_cell(c.new, c.new_undone), _by(c)) for c in sizes
        )
        lines += [f"{so_many(len(sizes), 'size')} changed", Table(rows, ("size", old, new, "by"))]
    if parts:
        part_rows = tuple(row for change in parts for row in _part_rows(change))
        lines += [f"{so_many(len(parts), 'part')} changed", Table(part_rows, ("part", "", old, new))]
    if cuts:
        cut_rows = tuple(
            (each.part, cut_in_words(each.old, each.old_undone), cut_in_words(each.new, each.new_undone))
            for each in cuts
        )
        lines += [f"{so_many(len(cuts), 'cut')} in parts changed", Table(cut_rows, ("part", old, new))]
    if stock:
        stock_rows = tuple(
            (_material(each), stock_words(each.old, each.old_undone), stock_words(each.new, each.new_undone))
            for each in stock
        )
        lines += [f"{so_many(len(stock), 'stock')} changed", Table(stock_rows, ("stock", old, new))]
    if answers:
        lines.append(f"{so_many(len(answers), 'answer')} changed")
        lines += [line for change in answers for line in answer_lines(change, old, new)]
    if lists.tools:
        tools = tuple((_tool(each), _asked(each.old), _asked(each.new)) for each in lists.tools)
        lines += [f"{so_many(len(tools), 'tool')} changed", Table(tools, ("tool", old, new))]
    if lists.revisions:
        revised = tuple((_label(each), _revised(each.old), _revised(each.new)) for each in lists.revisions)
        lines += [f"{so_many(len(revised), 'revision')} changed", Table(revised, ("revision", old, new))]
    return lines


def _tool(change: ToolChange) -> str:
    made = change.new or change.old
    return "" if made is None else tool_called(made)


def _asked(tool: Tool | None) -> str:
    return (
        "not asked for"
        if tool is None
        else so_many(tool.many, "hole" if tool.kind != "slot cutter" else "slot")
    )


def _label(change: RevisionChange) -> str:
    made = change.new or change.old
    return "" if made is None else f"rev {made.label}"


def _revised(revision: Revision | None) -> str:
    return missing(0) if revision is None else ", ".join(filter(None, (revision.words, revision.date)))


def _material(change: StockChange) -> str:
    made = change.new or change.old
    return "" if made is None else made.material


def stock_words(stock: PartStock | None, undone: int = 0) -> str:
    """A stock, its saw, how much of it is bought, and what is cut from it."""
    if stock is None:
        return missing(undone)
    saw = "" if stock.saw is None else f"saw {in_prose(part_size(stock.saw))}"
    pieces = ", ".join(f"{each.count} of {each.name}, {_piece(each)}" for each in stock.pieces)
    return "; ".join(filter(None, (stock_sentence(stock), saw, pieces, stock.note)))


def _piece(piece: CutPiece) -> str:
    """What a piece is cut to: its length, or of a sheet both its sizes."""
    sizes = (piece.size,) if piece.across is None else (piece.size, piece.across)
    return " by ".join(in_prose(part_size(size)) for size in sizes)


def cut_in_words(feature: Feature | None, undone: int = 0) -> str:
    """What is cut, and where."""
    if feature is None:
        return missing(undone)
    said = feature_words(feature, with_places=False)
    if feature.cut is None:
        return said
    places = places_words(feature.cut.at, len(feature.cut.at))
    return f"{said}, {places}{', from the centre' if feature.from_centre else ''}"


def _by(change: Change) -> Cell:
    by = change.by
    if by is None:
        return words("")
    if not by.value:
        limits = isinstance(change.old, Limits) or isinstance(change.new, Limits)
        return words("the limits alone" if limits else "")
    cell = difference_cell(by)
    larger, smaller = ("larger", "smaller") if by.power == 1 else ("more", "less")
    way = larger if by.value > 0 else smaller
    return Cell("difference", (*cell.pieces, f" {way}"), cell.beside)


def _part_rows(change: PartChange) -> list[tuple[Cell | str, ...]]:
    """One row for each thing that differs between two parts, the part's name before the first."""
    old, new = change.old, change.new
    if old is None or new is None:
        return [(change.name, "", _part(old, change.old_undone), _part(new, change.new_undone))]
    rows: list[tuple[Cell | str, ...]] = [
        (word, was, now)
        for word, was, now in (
            ("how many", str(old.count), str(new.count)),
            ("material", old.material or "none", new.material or "none"),
            ("section", old.section or "flat", new.section or "flat"),
            ("bought", _bought(old), _bought(new)),
            ("note", part_note(old) or "none", part_note(new) or "none"),
        )
        if was != now
    ]
    if len(old.sizes) != len(new.sizes):
        rows.append(("size", part_sizes(old) or "none", part_sizes(new) or "none"))
    else:
        sized = enumerate(zip(old.sizes, new.sizes, strict=True), 1)
        rows += [
            (f"size {n}", part_size(was), part_size(now)) for n, (was, now) in sized if not alike(was, now)
        ]
    return [(change.name if n == 0 else "", *row) for n, row in enumerate(rows)]


def _bought(part: Part) -> str:
    return ", ".join(filter(None, part.bought)) or "by size"


def _part(part: Part | None, undone: int) -> str:
    if part is None:
        return missing(undone)
    said = [str(part.count), part.material, part_sizes(part), part_note(part)]
    return ", ".join(word for word in said if word)
