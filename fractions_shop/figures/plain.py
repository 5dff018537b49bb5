"""Sentences and tables laid out as plain text, in as many columns as there are."""

from __future__ import annotations

from collections.abc import Sequence

from fractions_shop.errors import cells
from fractions_shop.figures.close_up import CloseUp
from fractions_shop.figures.table import Cell, Table, each_cell, in_prose, standing_mark, written

#: A last column narrower than this is not worth folding into.
_LEAST_LAST = 24


class PictureLine(str):
    """A line of a picture drawn in letters, which a writer that draws the picture itself leaves out."""

    __slots__ = ()


#: What an answer says: sentences, tables and pictures in turn.
Lines = list["str | Table | CloseUp"]


def without_pictures(lines: Lines) -> Lines:
    """What is said without the pictures, for a writer that draws them itself or has no place for them."""
    return [line for line in lines if not isinstance(line, PictureLine | CloseUp)]


def in_columns(table: Table, width: int) -> list[str]:
    """A table in at most `width` columns, where words allow: in columns, or its rows one below another.

    A figure that is about so much is marked ~ here, where room is dear.
    """
    header = (table.header,) if table.header else ()
    rows = (*(table.heads for _ in header), *each_cell(table, _marked))
    if not rows:
        return []
    if (plain := _columns(rows, width)) is not None:
        return plain
    parts = [part for row in (*header, *table.rows) for part in _stacked(row)]
    if (stacked := _columns(parts, width)) is not None:
        return stacked
    widths = _widths(rows)
    room = width - sum(widths[:-1]) - 2 * len(widths)
    if room >= _LEAST_LAST and len(widths) > 1:
        return [line for row in rows for line in _last_folded(row, [*widths[:-1], room])]
    return [line for row in rows[len(header) :] for line in _folded(row, table.heads, width)]


def _marked(cell: Cell | str) -> str:
    return in_prose(cell, "~")


def _folded(row: tuple[str, ...], header: tuple[str, ...], width: int) -> list[str]:
    if header:
        parts = [f"{name} {cell}".strip() for name, cell in zip(header, row, strict=True) if cell]
        return folded("  " + "; ".join(parts), width)
    label, *cells_ = row
    said = ", ".join(c for c in cells_ if c)
    return folded(f"  {label}: {said}" if label else f"    {said}", width)


def _widths(rows: Sequence[tuple[str, ...]]) -> list[int]:
    return [max(cells(row[n]) for row in rows) for n in range(len(rows[0]))]


def _columns(rows: Sequence[tuple[str, ...]], width: int) -> list[str] | None:
    """The rows in columns, or None where they are wider than `width`."""
    widths = _widths(rows)
    return [_row(row, widths) for row in rows] if sum(widths) + 2 * len(widths) <= width else None


def _stacked(row: tuple[Cell | str, ...]) -> list[tuple[str, ...]]:
    """A row in two: what stands in brackets behind a figure goes beneath it."""
    beneath = tuple(
        f"({written(c.beside, '~')}){standing_mark(c)}" if isinstance(c, Cell) and c.beside else ""
        for c in row
    )
    if not any(beneath):
        return [tuple(map(_marked, row))]
    return [tuple(map(_without_beside, row)), beneath]


def _without_beside(cell: Cell | str) -> str:
    if isinstance(cell, Cell) and cell.beside:
        return written(cell.pieces, "~")
    return _marked(cell)


def _last_folded(row: tuple[str, ...], widths: list[int]) -> list[str]:
    """A row whose last cell is cut into lines that stand in its column."""
    parts = folded(row[-1], widths[-1])
    first = _row((*row[:-1], parts[0].strip()), widths)
    blank = ("",) * (len(row) - 1)
    return [first, *(_row((*blank, part.strip()), widths) for part in parts[1:])]


def _row(row: tuple[str, ...], widths: list[int]) -> str:
    padded = (cell + " " * (width - cells(cell)) for cell, width in zip(row, widths, strict=True))
    return ("  " + "  ".join(padded)).rstrip()


def folded(line: str, width: int) -> list[str]:
    """A line cut to `width` between words, what follows indented under it."""
    if cells(line) <= width:
        return [line]
    from textwrap import wrap  # most lines fit

    lead = line[: len(line) - len(line.lstrip())]
    return wrap(
        line.strip(), max(width, 20), initial_indent=lead, subsequent_indent=lead + "    ",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip


def laid_out(lines: Lines, width: int) -> str:
    """Lines, tables and pictures as one text of at most `width` columns, where words allow."""
    out: list[str] = []
    for line in lines:
        match line:
            case Table():
                out += in_columns(line, width)
            case CloseUp():
                drawn = line.letters(width)
                out += [*drawn, *(folded(f"  {line.caption}", width) if drawn else ())]
            case _:
                out += folded(line, width)
    return "\n".join(out)
