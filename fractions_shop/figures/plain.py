"""Sentences and tables laid out as plain text, in as many columns as there are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from fractions_shop.errors import cells
from fractions_shop.figures.close_up import CloseUp
from fractions_shop.figures.table import Cell, Table, each_cell, in_parts, in_prose, standing_mark, written

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


#: The cells of a row as text, each with what stands beneath it where it has no room beside it.
_RowInText = list[tuple[str, str]]


def in_columns(table: Table, width: int) -> list[str]:
    """A table in at most `width` columns, where words allow: in columns, or its rows one below another.

    A figure that is about so much is marked ~ here, where room is dear.
    """
    in_text = _in_text(table.rows)
    if (columns := _side_by_side(table, in_text, width)) is not None:
        return columns
    rows = _carried_down(list(map(_in_one_line, in_text)), table.carried)
    return [line for row in rows for line in _folded(row, table.heads, width)]


def _in_text(rows: Sequence[tuple[Cell | str, ...]]) -> list[_RowInText]:
    """The rows as text, each cell written once for all the ways in which they are tried."""
    return [[(cell, "") if isinstance(cell, str) else in_parts(cell, "~") for cell in row] for row in rows]


def _in_one_line(row: _RowInText) -> tuple[str, ...]:
    return tuple([f"{said} {beside}" if beside else said for said, beside in row])


def _carried_down(rows: Sequence[tuple[str, ...]], carried: int) -> list[tuple[str, ...]]:
    """The rows, what a blank of the first columns carries on from the row above written out."""
    if not carried:
        return [*rows]
    out: list[tuple[str, ...]] = []
    for row in rows:
        out.append((*out[-1][:carried], *row[carried:]) if out and not any(row[:carried]) else row)
    return out


def fits(table: Table, width: int) -> bool:
    """Whether a table has room in columns, all of it."""
    return _side_by_side(table, _in_text(table.rows), width) is not None


def _side_by_side(table: Table, in_text: list[_RowInText], width: int) -> list[str] | None:
    """The rows in columns, what stands in brackets beneath its figure and the last column folded where need be."""
    header = _in_text((table.header,)) if table.header else []
    rows = [*(table.heads for _ in header), *map(_in_one_line, in_text)]
    if not rows:
        return []
    if (plain := _columns(rows, width)) is not None:
        return plain
    parts = [part for row in in_text for part in _stacked(row)]
    heads_stacked = [head for row in header for head in _stacked(row)]
    if (stacked := _columns([*heads_stacked, *parts], width)) is not None:
        return stacked
    if header and (stacked := _columns([*_heads_folded(table.heads, parts), *parts], width)) is not None:
        return stacked
    widths = _widths(rows, _measured_by(rows))
    room = width - sum(widths[:-1]) - 2 * len(widths)
    if room >= _LEAST_LAST and len(widths) > 1:
        return [line for row in rows for line in _last_folded(row, [*widths[:-1], room])]
    return None


def _heads_folded(heads: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The heads of columns in as many rows as it takes for none to be wider than what stands below it."""
    narrow = [
        folded(head, max(width, *map(cells, head.split()))) if head else [""]
        for head, width in zip(heads, _widths(rows, cells), strict=True)
    ]
    return [
        tuple(parts[n].strip() if n < len(parts) else "" for parts in narrow)
        for n in range(max(map(len, narrow)))
    ]


def short_list(table: Table, width: int) -> list[str]:
    """A table in columns if it fits, else a row for each of its rows: its first cells, each figure in one unit.

    A column that has no room is left out. How far a figure may be trusted stays with it.
    """
    if (columns := _side_by_side(table, _in_text(table.rows), width)) is not None:
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


def _measured_by(rows: Iterable[tuple[str, ...]]) -> Callable[[str], int]:
    """What tells the width of each cell: their length will do for all of them, unless any may have wider signs."""
    return len if "".join(map("".join, rows)).isascii() else cells


def _widths(rows: Sequence[tuple[str, ...]], measured: Callable[[str], int]) -> list[int]:
    return [max(map(measured, column)) for column in zip(*rows, strict=True)]


def _columns(rows: Sequence[tuple[str, ...]], width: int) -> list[str] | None:
    """The rows in columns, or None where they are wider than `width`."""
    measured = _measured_by(rows)
    widths = _widths(rows, measured)
    if sum(widths) + 2 * len(widths) > width:
        return None
    if measured is len:
        return [f"  {'  '.join(map(str.ljust, row, widths))}".rstrip() for row in rows]
    return [_row(row, widths) for row in rows]


def _stacked(row: _RowInText) -> list[tuple[str, ...]]:
    """A row in two: what stands in brackets behind a figure goes beneath it."""
    first, beneath = zip(*row, strict=True)
    return [first, beneath] if any(beneath) else [first]


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
    words = line.strip()
    lead, room = line[: len(line) - len(line.lstrip())], max(width, _NARROWEST)
    spaced = not words or "  " in words or not words.isprintable()
    if spaced and words.split() != words.split(" "):  # blanks or breaks that are no single space
        from textwrap import wrap  # for the few with more blanks than one between words

        return wrap(
                words, room, initial_indent=lead, subsequent_indent=lead + "    ",
                break_long_words=False, break_on_hyphens=False,
            )  # fmt: skip
    rows, indent, start, end = [], lead, 0, len(words)
    while (has := room - len(indent)) < end - start:
        # The last blank that leaves no more before it than there is room for, or else the first one.
        at = words.rfind(" ", start, start + has + 1) if has > 0 else -1
        if at < 0:
            at = words.find(" ", start)
            if at < 0:
                break
        rows.append(indent + words[start:at])
        start, indent = at + 1, f"{lead}    "
    return [*rows, indent + words[start:]]


def laid_out(lines: Lines, width: int, short: bool = False) -> str:
    """Lines, tables and pictures as one text of at most `width` columns, where words allow.

    `short` makes a list of what matters out of a table that does not fit.
    """
    out: list[str] = []
    for line in lines:
        if isinstance(line, str):
            if len(line) <= width and line.isascii():
                out.append(line)
            else:
                out += folded(line, width)
        elif isinstance(line, Table):
            out += short_list(line, width) if short else in_columns(line, width)
        else:
            drawn = line.letters(width)
            out += [*drawn, *(folded(f"  {line.caption}", width) if drawn else ())]
    return "\n".join(out)
