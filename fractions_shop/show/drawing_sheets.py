"""A dimensioned drawing on paper: its views, the table beneath them and on further sheets, notes and title blocks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fractions_shop.figures.drawing import Drawing, Shape
from fractions_shop.figures.paper import PaperSize
from fractions_shop.requests.pictures.frame import FOUR_INCHES, MARGIN, foot, foot_height, heading
from fractions_shop.show.cut_shapes import Lettering, letters
from fractions_shop.show.hole_table import HoleTable, Row
from fractions_shop.show.title_block import TitleBlock
from fractions_shop.size.cached import cached_property

#: Full size where it has room, else the reductions of ISO 5455.
SCALES = tuple(Fraction(1, n) for n in (1, 2, 5, 10, 20, 50, 100))
STANDARD = "drawn after ISO 128 and ISO 129-1 in general terms"
#: What stands above the views: the heading.
TOP = Fraction(9)
#: From what stands above to the table, to the foot, and from that to the title block.
_TABLE, _FOOT, _BLOCK = Fraction(6), Fraction(9), Fraction(3)


FULL_SIZE = "1:1"


def scale_name(scale: Fraction) -> str:
    """A scale as drawings name it: 1:2."""
    return f"{scale.numerator}:{scale.denominator}"


@dataclass(frozen=True)
class DrawingSheets:
    """A drawing at one scale: what `block` names, its views up to `right` and down to `floor`, and its table.

    `lettered` gets its letters, `before` stands before the title, `notes` beneath the bar, and `words` tell the
    drawing to those who cannot see it.
    """

    block: TitleBlock
    before: str
    words: str
    paper: PaperSize
    right: Fraction
    floor: Fraction
    views: Callable[[], list[Shape]]
    lettered: Sequence[Lettering]
    table: HoleTable
    notes: tuple[str, ...]

    @cached_property
    def width(self) -> Fraction:
        """How wide each sheet is."""
        return max(self.right + MARGIN, max(FOUR_INCHES, self.table.width) + 2 * MARGIN)

    @cached_property
    def block_height(self) -> Fraction:
        """How high the title block is, which sheet it is among the longest of its rows."""
        return replace(self.block, numbered="sheet 99 of 99").height(self.width)

    @cached_property
    def _drawn_views(self) -> tuple[list[Shape], list[str]]:
        """The views with their letters, and the names that have no room."""
        shapes = self.views()
        named, without = letters(self.lettered, shapes, self.width, self.floor + _TABLE)
        return [*shapes, *named], without

    @cached_property
    def _all_notes(self) -> list[str]:
        without = self._drawn_views[1]
        return [*self.notes, *([_left_out(without)] if without else [])]

    @cached_property
    def below(self) -> Fraction:
        """How much room stands beneath the table."""
        return _FOOT + foot_height(self._all_notes, self.width) + _BLOCK + self.block_height + 1

    @property
    def fits(self) -> bool:
        """Whether the views have room on the paper."""
        return self.width <= self.paper.across and self.floor + self.below <= self.paper.down

    def drawn(self) -> tuple[Drawing, ...]:
        """The first sheet with the views, and as many more as the rest of the table takes."""
        if not self.table.rows:
            return (self._first((), 1),)
        first, *others = self.table.pieces(
            self.paper.down - self.floor - _TABLE - self.below,
            self.paper.down - TOP - _BLOCK - self.block_height - 6,
        )
        count = 1 + len(others)
        return (
            self._first(first, count),
            *(self._further(rows, n, count) for n, rows in enumerate(others, 2)),
        )

    def _first(self, rows: tuple[Row, ...], count: int) -> Drawing:
        shapes: list[Shape] = [*self._heading(1, count), *self._drawn_views[0]]
        floor = self.floor
        if rows:
            table, floor = self.table.drawn(rows, MARGIN, floor + _TABLE)
            shapes += table
        under, end = foot(self._all_notes, floor + _FOOT, self.width)
        return self._drawing([*shapes, *under], end + _BLOCK, 1, count, true_size=True)

    def _further(self, rows: tuple[Row, ...], n: int, count: int) -> Drawing:
        table, floor = self.table.drawn(rows, MARGIN, TOP)
        return self._drawing([*self._heading(n, count), *table], floor + _BLOCK, n, count, true_size=False)

    def _drawing(self, shapes: list[Shape], end: Fraction, n: int, count: int, true_size: bool) -> Drawing:
        numbered = f"sheet {n} of {count}" if count > 1 else ""
        block = replace(self.block, numbered=numbered)
        shapes += block.drawn(self.width, end)
        scale = f"scale {self.block.scale}"
        title = ", ".join(filter(None, (f"{self.before}{self.block.name}", scale, numbered)))
        words = self.words if n == 1 else f"The table of {self.block.name}, {numbered}."
        height = end + block.height(self.width) + 1
        drawn_at = "" if self.block.scale == FULL_SIZE else self.block.scale
        return Drawing(
            self.width, height, title, words, tuple(shapes), true_size=true_size, drawn_at=drawn_at
        )

    def _heading(self, n: int, count: int) -> list[Shape]:
        behind = f", sheet {n} of {count}" if count > 1 else ""
        named = f"{self.before}{self.block.name}: {self.block.made}"
        return heading(named, behind, f"scale {self.block.scale}", self.width)


def _left_out(names: list[str]) -> str:
    """That letters had no room on the view."""
    listed = ", ".join(names[:8]) + (f" and {len(names) - 8} more" if len(names) > 8 else "")
    return f"no room for the letters {listed}: their places stand in the table"
