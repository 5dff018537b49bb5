"""Columns of sizes in two units, each unit of which stands in a column of its own, point below point.

What fills up a figure so that all points of a column stand below one another is seen by nobody.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fractions_shop.figures.figure import Figure
from fractions_shop.figures.table import Cell, Table, in_prose, standing_mark, written
from fractions_shop.size.digits import to_places

#: So many cells in two units make a column worth parting.
_FEWEST = 2


#: A half of more signs than this may be broken.
_TIGHT = 14
#: More signs than this in a row that is not broken have no room on paper, and a browser prints what is too wide
#: smaller, with strips that are to be true to size.
_ON_PAPER = 90


class Half(NamedTuple):
    """One unit of a size: its number, what fills it up unseen, and what stands behind."""

    number: str
    pad: str
    behind: str

    @property
    def is_short(self) -> bool:
        """Whether it stays on one line where there is room."""
        return len(self.number) + len(self.behind) <= _TIGHT

    @property
    def least(self) -> int:
        """How many signs wide it is at least."""
        words = (
            [f"{self.number}{self.pad}{self.behind}"] if self.is_short else [*self.number.split(), self.pad]
        )
        return max(map(len, words))


Halves = tuple[Half, Half]


def in_halves(shown: Table) -> dict[int, tuple[Halves | None, ...]]:
    """By column behind the first, the halves of each cell of one that mostly tells sizes in two units; None for other cells."""
    if not shown.header:
        return {}
    halved = {}
    for n in range(1, len(shown.header)):
        column = [row[n] for row in shown.rows]
        two = [figures for cell in column if (figures := _two_figures(cell)) is not None]
        if len(two) >= _FEWEST and 2 * len(two) >= sum(map(_says, column)):
            decimals = [max(map(behind_point, half)) for half in zip(*two, strict=True)]
            halved[n] = tuple(_halves(cell, decimals) for cell in column)
    return halved


def fits_paper(shown: Table, halved: Mapping[int, Sequence[Halves | None]]) -> bool:
    """Whether a table has room on paper with every short half on one line."""
    wide = 0
    for n in range(len(shown.header)):
        if n in halved:
            pairs = [pair for pair in halved[n] if pair is not None]
            wide += sum(max(half.least for half in half_column) for half_column in zip(*pairs, strict=True))
        else:
            column = [in_prose(row[n]) for row in shown.rows]
            wide += max(len(word) for cell in column for word in cell.split() or [""])
    return wide <= _ON_PAPER


def _says(cell: Cell | str) -> bool:
    return bool(cell if isinstance(cell, str) else cell.pieces)


def _two_figures(cell: Cell | str) -> tuple[Figure, Figure] | None:
    """The figures of a cell that tells one size in two units and nothing else."""
    if isinstance(cell, str) or len(cell.pieces) != 1 or len(cell.beside) != 1:
        return None
    first, second = cell.pieces[0], cell.beside[0]
    return (first, second) if isinstance(first, Figure) and isinstance(second, Figure) else None


def _halves(cell: Cell | str, decimals: Sequence[int]) -> Halves | None:
    figures = _two_figures(cell)
    if figures is None or isinstance(cell, str):
        return None
    first, second = map(_half, figures, decimals)
    return first, Half(f"({second.number}", second.pad, f"{second.behind}){standing_mark(cell)}")


def _half(figure: Figure, decimals: int) -> Half:
    if figure.form != "decimal":
        return Half(written((figure,)), "", "")
    unit = f" {figure.unit}" if figure.unit else ""
    return Half(written((figure.without_unit(),)), filled_up(behind_point(figure), decimals), unit)


def behind_point(figure: Figure) -> int:
    """How many decimals a figure is written with; none for a fraction."""
    if figure.form != "decimal":
        return 0
    scaled, places = to_places(figure.above, figure.below, figure.places)[0], figure.places
    while places and scaled % 10 == 0:
        scaled, places = scaled // 10, places - 1
    return places


def filled_up(has: int, decimals: int) -> str:
    """What a figure that has so many decimals wants to as many as any has."""
    if not decimals:
        return ""
    return "0" * (decimals - has) if has else f".{'0' * decimals}"
