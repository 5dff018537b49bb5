"""A part as a dimensioned drawing in third-angle projection, to a named scale, with a table of what is cut in it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Drawing, NotDrawn, Shape
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.layout.features import datum_words
from fractions_shop.requests.pictures.frame import FOUR_INCHES, MARGIN, foot, foot_height, heading
from fractions_shop.sheet.cut_parts import CutPart
from fractions_shop.show.cut_shapes import corner_target, letters, targets
from fractions_shop.show.feature_table import feature_words
from fractions_shop.show.hole_table import HoleTable, Row, rows_of
from fractions_shop.show.part_table import part_sizes
from fractions_shop.show.part_views import TOP, Views
from fractions_shop.show.title_block import HEIGHT, TitleBlock, Titles
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits

#: Full size where it has room, else the reductions of ISO 5455.
SCALES = tuple(Fraction(1, n) for n in (1, 2, 5, 10, 20, 50, 100))
PROJECTION = "third-angle projection, drawn after ISO 128 and ISO 129-1 in general terms"
#: From what stands above to the table, to the foot, and from that to the title block.
_TABLE, _FOOT, _BLOCK = Fraction(6), Fraction(9), Fraction(3)


def part_drawings(
    cut: CutPart, titles: Titles, paper: PaperSize = A4, before: str = ""
) -> tuple[Drawing, ...] | NotDrawn:
    """The drawing of a part with all that is cut in it, on more than one sheet where its table takes more.

    `before` stands before its title. None for flat stock with one size, and why not for a part too large. Sizes with limits
    are drawn at one size that lies within them; the figures tell the limits.
    """
    if len(cut.part.sizes) < (1 if cut.part.section else 2):
        return ()
    for scale in SCALES:
        made = _PartDrawing(cut, Views(cut, scale), titles, paper, before)
        if made.width <= paper.across and made.floor + made.below <= paper.down:
            return made.sheets()
    return NotDrawn(f"no drawing is made of {cut.part.name}: it has no room at {_named(SCALES[-1])}")


def _named(scale: Fraction) -> str:
    return f"{scale.numerator}:{scale.denominator}"


@dataclass(frozen=True)
class _PartDrawing:
    """The drawing of a part at one scale: its views, and the table beneath them and on further sheets."""

    cut: CutPart
    views: Views
    titles: Titles
    paper: PaperSize
    before: str

    @cached_property
    def table(self) -> HoleTable:
        return HoleTable(rows_of(self.cut))

    @property
    def scale(self) -> str:
        return _named(self.views.scale)

    @property
    def made(self) -> str:
        part = self.cut.part
        return f"{part.count} of {part.material}" if part.material else str(part.count)

    @cached_property
    def width(self) -> Fraction:
        """How wide each sheet is."""
        return max(self.views.right + MARGIN, max(FOUR_INCHES, self.table.width) + 2 * MARGIN)

    @property
    def floor(self) -> Fraction:
        """Where the views and their dimensions end."""
        return self.views.line

    @cached_property
    def notes(self) -> list[str]:
        """What stands beneath the bar."""
        notes = [PROJECTION]
        if self.views.scale != 1:
            notes.append(f"drawn at {self.scale}; the bar checks the print, not the scale")
        sizes = (*self.cut.part.sizes, *(size for _, feature in self.cut.features for size in feature.sizes))
        if any(isinstance(size, Limits) for size in sizes):
            notes.append("a size with limits is drawn at one that lies within them")
        if self.cut.cuts:
            assert self.cut.face is not None
            notes.append(
                f"across and up are counted from {datum_words(self.cut.face.from_centre)}, in the small circle"
            )
            if self.views.length is not None:
                notes.append("what is cut is shown in the face alone: how deep it goes stands in the table")
            running = ("across", self.views.running_across), ("up", self.views.running_up)
            notes += [
                f"there are too many places {way} to dimension: the table has them all"
                for way, figures in running if figures.too_many
            ]  # fmt: skip
        return notes

    @cached_property
    def below(self) -> Fraction:
        """How much room stands beneath the table, the longest note on letters among it."""
        notes = (
            [*self.notes, _left_out([row[0][0] for row in self.table.rows])] if self.cut.cuts else self.notes
        )
        return _FOOT + foot_height(notes, self.width) + _BLOCK + HEIGHT + 1

    # Sheets

    def sheets(self) -> tuple[Drawing, ...]:
        """The first with the views, and as many more as the rest of the table takes."""
        if not self.table.rows:
            return (self._first((), 1),)
        first, *others = self.table.pieces(
            self.paper.down - self.floor - _TABLE - self.below, self.paper.down - TOP - _BLOCK - HEIGHT - 6
        )
        count = 1 + len(others)
        return (
            self._first(first, count),
            *(self._further(rows, n, count) for n, rows in enumerate(others, 2)),
        )

    def _first(self, rows: tuple[Row, ...], count: int) -> Drawing:
        shapes: list[Shape] = [*self._heading(1, count), *self.views.drawn()]
        floor = self.floor
        if rows:
            table, floor = self.table.drawn(rows, MARGIN, floor + _TABLE)
            shapes += table
        lettered, without = self._letters(shapes)
        notes = [*self.notes, *([_left_out(without)] if without else [])]
        under, end = foot(notes, floor + _FOOT, self.width)
        shapes += [*lettered, *under]
        return self._drawing(shapes, end + _BLOCK, 1, count, true_size=True)

    def _further(self, rows: tuple[Row, ...], n: int, count: int) -> Drawing:
        table, floor = self.table.drawn(rows, MARGIN, TOP)
        return self._drawing([*self._heading(n, count), *table], floor + _BLOCK, n, count, true_size=False)

    def _drawing(self, shapes: list[Shape], end: Fraction, n: int, count: int, true_size: bool) -> Drawing:
        numbered = f"sheet {n} of {count}" if count > 1 else ""
        block = TitleBlock(self.titles, self.cut.part.name, self.made, self.scale, numbered)
        shapes += block.drawn(self.width, end)
        title = ", ".join(
            filter(None, (f"{self.before}{self.cut.part.name}", f"scale {self.scale}", numbered))
        )
        words = (
            self._in_words() if n == 1 else f"The table of what is cut in {self.cut.part.name}, {numbered}."
        )
        return Drawing(self.width, end + HEIGHT + 1, title, words, tuple(shapes), true_size=true_size)

    def _heading(self, n: int, count: int) -> list[Shape]:
        behind = f", sheet {n} of {count}" if count > 1 else ""
        return heading(
            f"{self.before}{self.cut.part.name}: {self.made}", behind, f"scale {self.scale}", self.width
        )

    def _letters(self, drawn: list[Shape]) -> tuple[list[Shape], list[str]]:
        views = self.views
        named = targets(self.cut, views.on)
        if views.corner:
            named.append(corner_target(views.left, views.top, views.corner))
        return letters(named, drawn, self.width)

    def _in_words(self) -> str:
        seen = "its face" if self.views.length is None else "its end and its side"
        cuts = "".join(
            f"; {feature_words(feature)}" for _, feature in self.cut.features if feature.word != "wall"
        )
        return (
            f"{self.before}Drawing of {self.cut.part.name}, {self.made}, {PROJECTION}, scale {self.scale}: "
            f"{seen}, {part_sizes(self.cut.part)}{cuts}."
        )


def _left_out(names: list[str]) -> str:
    """That letters had no room on the view."""
    listed = ", ".join(names[:8]) + (f" and {len(names) - 8} more" if len(names) > 8 else "")
    return f"no room for the letters {listed}: their places stand in the table"
