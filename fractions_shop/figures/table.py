"""Tables of what is told: cells that know what they hold, before any writer has made them into text."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from fractions_shop.figures.figure import Figure
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Record
from fractions_shop.size.standing import mark_of, worse


class Same(Record):
    """One size told in several ways, as `2/5 in = 0.4 in`: exact or rounded all together."""

    figures: tuple[Figure, ...]


#: What is told is words and figures in turn. Words are written as they are; every writer says in
#: its own way which figures are rounded.
Piece = str | Figure | Same


class Cell(Record, metaclass=Drafted):
    """What one place of a table tells, in words and figures; `beside` is the same in another unit.

    `kind` is `size`, `difference`, `name`, `lines` (numbers of lines, with what stands between them) or `words`.
    """

    kind: str
    pieces: tuple[Piece, ...]
    beside: tuple[Piece, ...] = ()


def words(text: str) -> Cell:
    """Words, to be written as they are."""
    return Cell("words", (text,) if text else ())


def lines_cell(numbers: Iterable[int]) -> Cell:
    """Numbers of lines, each once."""
    pieces = [piece for number in dict.fromkeys(numbers) for piece in (", ", str(number))]
    return Cell("lines", tuple(pieces[1:]))


def lines_in(cell: Cell | str) -> tuple[str, ...]:
    """The numbers of lines that a cell tells, of one that is words the words."""
    if isinstance(cell, Cell) and cell.kind == "lines":
        return tuple(str(piece) for piece in cell.pieces[::2])
    return (in_prose(cell),)


class Table(Record):
    """Rows of cells; a plain text is a cell of words or a name. `header` names the columns.

    Without a header the first cell of a row is its label. `matters` heads columns behind the first that are
    kept before the others where there is no room for all. Of the first `carried` columns a blank says the same as the
    row above, for a writer that sets its rows apart.
    """

    rows: tuple[tuple[Cell | str, ...], ...]
    header: tuple[Cell | str, ...] = ()
    matters: tuple[str, ...] = ()
    carried: int = 0

    @property
    def heads(self) -> tuple[str, ...]:
        """The names of the columns as text."""
        return tuple(map(in_prose, self.header))


def in_prose(cell: Cell | str, rounded: str = "about ") -> str:
    """A cell as text on one line, what stands beside it in brackets; `rounded` is put before a rounded figure."""
    if isinstance(cell, str):
        return cell
    said, beside = in_parts(cell, rounded)
    return f"{said} {beside}" if beside else said


def in_parts(cell: Cell | str, rounded: str = "about ") -> tuple[str, str]:
    """The same as what is told, and in brackets what stands beside it; behind the last of them how far it is trusted."""
    if isinstance(cell, str):
        return cell, ""
    beside = cell.beside
    said, least = _read(cell.pieces, rounded)
    if not beside:
        return (said + mark_of(least) if least else said), ""
    more, other = _read(beside, rounded)
    if other:
        least = worse(least, other)
    return said, f"({more}){mark_of(least) if least else ''}"


def standing_mark(cell: Cell) -> str:
    """`, from memory`: the least trusted standing of a cell's figures, where that needs a word."""
    return mark_of(_read((*cell.pieces, *cell.beside), "")[1])


def written(pieces: tuple[Piece, ...], rounded: str = "about ") -> str:
    """Words and figures as text."""
    return _read(pieces, rounded)[0]


def _read(pieces: tuple[Piece, ...], rounded: str) -> tuple[str, str]:
    """Words and figures as text, and the least trusted standing of these."""
    said = least = ""
    for piece in pieces:
        if type(piece) is Figure:
            said += piece.bare if piece.exact else rounded + piece.bare
            if piece.standing:  # few have one
                least = worse(least, piece.standing)
        elif isinstance(piece, Same):
            ways = " = ".join([figure.bare for figure in piece.figures])
            said += rounded + ways if False in [figure.exact for figure in piece.figures] else ways
            for figure in piece.figures:
                if figure.standing:
                    least = worse(least, figure.standing)
        else:
            assert isinstance(piece, str)
            said += piece
    return said, least


def without_empty(table: Table) -> Table:
    """The table without the columns in which no row says anything."""
    kept = [n for n in range(len(table.header)) if any(in_prose(row[n]) for row in table.rows)]
    return Table(
        tuple(tuple(row[n] for n in kept) for row in table.rows),
        tuple(table.header[n] for n in kept),
        table.matters,
        sum(n < table.carried for n in kept),
    )


def each_cell(table: Table, write: Callable[[Cell | str], str] = in_prose) -> tuple[tuple[str, ...], ...]:
    """The rows of a table, each cell written by `write`."""
    return tuple(tuple(write(cell) for cell in row) for row in table.rows)
