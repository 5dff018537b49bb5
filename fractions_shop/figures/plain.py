"""Sentences and tables laid out as plain text, in as many columns as there are."""

from __future__ import annotations

from collections.abc import Sequence

from fractions_shop.errors import cells
from fractions_shop.figures.close_up import CloseUp
from fractions_shop.figures.table import Cell, Table, each_cell, in_prose, standing_mark, written

#: A last column narrower than this is not worth folding into.
_LEAST_LAST = 24
#: Nothing is folded to less, which would leave a word a row.
_NARROWEST = 12


class PictureLine(str):
    """A line of a picture drawn in letters, which a writer that draws the picture itself leaves out."""

    __slots__ = ()


class Caution(str):
    """What an answer must not be used for without more; `of` is what it is said of, such as the name of a thread."""

    __slots__ = ("of",)
    of: str

    def __new__(cls, text: str, of: str) -> Caution:
        """The sentence, and what it is said of."""
        made = super().__new__(cls, text)
        made.of = of
        return made

    def __reduce__(self) -> tuple[type[Caution], tuple[str, str]]:
        return Caution, (str(self), self.of)


#: What an answer says: sentences, tables and pictures in turn.
Lines = list[str | Table | CloseUp]


def without_pictures(lines: Lines) -> Lines:
    """What is said without the pictures, for a writer that draws them itself or has no place for them."""
    return [line for line in lines if not isinstance(line, PictureLine | CloseUp)]


def in_columns(table: Table, width: int) -> list[str]:
    """A table in at most `width` columns, where words allow: in columns, or its rows one below another.

    A figure that is about so much is marked ~ here, where room is dear.
    """
    if (columns := _side_by_side(table, width)) is not None:
        return columns
    return [line for row in _carried_down(table) for line in _folded(row, table.heads, width)]


def _carried_down(table: Table) -> list[tuple[str, ...]]:
    """The rows as text, what a blank carries on from the row above written out."""
    rows: list[tuple[str, ...]] = []
    for row in each_cell(table, _marked):
        first = row[: table.carried]
        rows.append((*rows[-1][: table.carried], *row[table.carried :]) if rows and not any(first) else row)
    return rows


def fits(table: Table, width: int) -> bool:
    """Whether a table has room in columns, all of it."""
    return _side_by_side(table, width) is not None


def _side_by_side(table: Table, width: int) -> list[str] | None:
    """The rows in columns, what stands in brackets beneath its figure and the last column folded where need be."""
    header = (table.header,) if table.header else ()
    rows = (*(table.heads for _ in header), *each_cell(table, _marked))
    if not rows:
        return []
    if (plain := _columns(rows, width)) is not None:
        return plain
    parts = [part for row in table.rows for part in _stacked(row)]
    heads_stacked = [head for row in header for head in _stacked(row)]
    for heads in (heads_stacked, _heads_folded(table.heads, parts)) if header else ([],):
        if (stacked := _columns([*heads, *parts], width)) is not None:
            return stacked
    widths = _widths(rows)
    room = width - sum(widths[:-1]) - 2 * len(widths)
    if room >= _LEAST_LAST and len(widths) > 1:
        return [line for row in rows for line in _last_folded(row, [*widths[:-1], room])]
    return None


def _heads_folded(heads: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The heads of columns in as many rows as it takes for none to be wider than what stands below it."""
    narrow = [
        folded(head, max(width, *map(cells, head.split()))) if head else [""]
        for head, width in zip(heads, _widths(rows), strict=True)
    ]
    return [
        tuple(parts[n].strip() if n < len(parts) else "" for parts in narrow)
        for n in range(max(map(len, narrow)))
    ]


def short_list(table: Table, width: int) -> list[str]:
    """A table in columns if it fits, else a row for each of its rows: its first cells, each figure in one unit.

    A column that has no room is left out. How far a figure may be trusted stays with it.
    """
    if (columns := _side_by_side(table, width)) is not None:
        return columns
    bare = each_cell(table, _in_one_unit)
    if not table.header:
        return [line for row in bare for line in _labelled(row, width)]
    kept = [0]
    for n in _by_what_matters(table):
        if _columns([_only(row, sorted([*kept, n])) for row in (table.heads, *bare)], width) is not None:
            kept.append(n)
    if len(kept) == 1:
        return [line for row in bare for line in _folded(row, table.heads, width)]
    heads = _only(table.heads, sorted(kept))
    listed = [_only(row, sorted(kept)) for row in bare]
    return _columns([heads, *listed] if any(heads) else listed, width) or []


def _in_one_unit(cell: Cell | str) -> str:
    if isinstance(cell, Cell) and cell.beside:
        return f"{written(cell.pieces, '~')}{standing_mark(cell)}"
    return _marked(cell)


def _by_what_matters(table: Table) -> list[int]:
    """The columns behind the first, those that matter most before the others."""
    behind = range(1, len(table.header))
    rank = {word: place for place, word in enumerate(table.matters)}
    return sorted(behind, key=lambda n: rank.get(table.heads[n], len(rank)))


def _only(row: tuple[str, ...], kept: Sequence[int]) -> tuple[str, ...]:
    return tuple(row[n] for n in kept)


def _labelled(row: tuple[str, ...], width: int) -> list[str]:
    """A row behind its label: as many of its cells as fit in one row, the first of them whole in any case."""
    label, *rest = row
    front = f"  {label}: " if label else "    "
    said = ""
    for cell in filter(None, rest):
        longer = f"{said}, {cell}" if said else cell
        if said and cells(front) + cells(longer) > width:
            break
        said = longer
    return folded(f"{front}{said}".rstrip(), width)


def _marked(cell: Cell | str) -> str:
    return cell if isinstance(cell, str) else in_prose(cell, "~")


def _folded(row: tuple[str, ...], header: tuple[str, ...], width: int) -> list[str]:
    if header:
        parts = [f"{name} {cell}".strip() for name, cell in zip(header, row, strict=True) if cell]
        return folded("  " + "; ".join(parts), width)
    label, *cells_ = row
    said = ", ".join(c for c in cells_ if c)
    return folded(f"  {label}: {said}" if label else f"    {said}", width)


def _widths(rows: Sequence[tuple[str, ...]]) -> list[int]:
    return [max(map(cells, column)) for column in zip(*rows, strict=True)]


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
    padded = [
        cell.ljust(width) if cell.isascii() else cell + " " * (width - cells(cell))
        for cell, width in zip(row, widths, strict=True)
    ]
    return ("  " + "  ".join(padded)).rstrip()


def folded(line: str, width: int) -> list[str]:
    """A line cut to `width` between words, what follows indented under it."""
    if cells(line) <= width:
        return [line]
    lead, room = line[: len(line) - len(line.lstrip())], max(width, _NARROWEST)
    words = line.split()
    if words != line.strip().split(" "):
        from textwrap import wrap  # for the few with more blanks than one between words

        return wrap(
            line.strip(), room, initial_indent=lead, subsequent_indent=lead + "    ",
            break_long_words=False, break_on_hyphens=False,
        )  # fmt: skip
    rows, row = [], lead + words[0]
    for word in words[1:]:
        if len(row) + 1 + len(word) > room:
            rows.append(row)
            row = f"{lead}    {word}"
        else:
            row = f"{row} {word}"
    return [*rows, row]


def laid_out(lines: Lines, width: int, short: bool = False) -> str:
    """Lines, tables and pictures as one text of at most `width` columns, where words allow.

    `short` makes a list of what matters out of a table that does not fit.
    """
    out: list[str] = []
    for line in lines:
        match line:
            case Table():
                out += short_list(line, width) if short else in_columns(line, width)
            case CloseUp():
                drawn = line.letters(width)
                out += [*drawn, *(folded(f"  {line.caption}", width) if drawn else ())]
            case _:
                out += folded(line, width)
    return "\n".join(out)
