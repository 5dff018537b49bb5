"""A crown as a dimensioned drawing: its supports from the front, the arc over them, and a table of their heights.

Places and heights stand at one scale, unlike those of its profile. What is drawn of a support is its middle
and where it ends: how thick it is does not follow from the crown.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product

from fractions_shop.figures.drawing import Drawing, NotDrawn, Shape, Stroke
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.figures.wording import both, rule_word, so_many
from fractions_shop.layout.circle import drop
from fractions_shop.layout.curve import Crown
from fractions_shop.requests.pictures.frame import MARGIN
from fractions_shop.show.cut_shapes import Lettering
from fractions_shop.show.drawing_sheets import SCALES, STANDARD, TOP, DrawingSheets, scale_name
from fractions_shop.show.hole_table import HoleTable, Row
from fractions_shop.show.running_dimensions import TOO_MANY, Running, both_units, datum_mark
from fractions_shop.show.title_block import TitleBlock, Titles
from fractions_shop.size.cached import cached_property
from fractions_shop.size.notation import size_text
from fractions_shop.size.quantity import Quantity

#: How far centre lines go past a support and its foot, and the base past the outermost supports.
_BEYOND, _BASE = Fraction(3), Fraction(5)
#: The most that is drawn of the end of a support.
_END = Fraction(5)
#: More supports than this are left to the table of the answer.
MOST_SUPPORTS = 100
#: Chords that the arc is drawn in: far finer than ink.
_CHORDS = 64
ARC = "R"


def crown_drawings(
    crown: Crown, name: str, titles: Titles, paper: PaperSize = A4, before: str = ""
) -> tuple[Drawing, ...] | NotDrawn:
    """The drawing of a crown called `name`, on more than one sheet where its table takes more.

    `before` stands before its title. Why there is none, for one too large, without height, or of too many supports.
    """
    if not 2 <= crown.count <= MOST_SUPPORTS:
        return NotDrawn(f"no drawing is made of {crown.count} supports: it shows 2 to {MOST_SUPPORTS}")
    if max(crown.read).value <= 0:
        return NotDrawn("no drawing is made of supports without height")
    table = HoleTable(_rows(crown), ("", "across", f"height, {rule_word(crown.rule)}", "exact height"))
    for with_running, scale in product((True, False), SCALES):
        made = _sheets(_View(crown, scale, with_running), name, titles, paper, before, table)
        if made.fits:
            return made.drawn()
    return NotDrawn(f"no drawing is made of {name}: it has no room at {scale_name(SCALES[-1])}")


def _rows(crown: Crown) -> tuple[Row, ...]:
    """A row a support, from the left, and one for the arc."""
    rows: list[Row] = [
        ((str(n),), both_units(place - crown.places[0]), both_units(read), both_units(exact))
        for n, (place, read, exact) in enumerate(zip(crown.places, crown.read, crown.exact, strict=True), 1)
    ]
    first, second = both_units(crown.radius)
    fitted = () if crown.fitted_radius is None else both_units(crown.fitted_radius)
    fits = tuple(f"fit {ARC} {each}" for each in fitted) or ("fit no arc",)
    rows.append(((ARC,), ("the arc",), fits, (f"{ARC} {first}", f"{ARC} {second}")))
    return tuple(rows)


def _sheets(
    view: _View, name: str, titles: Titles, paper: PaperSize, before: str, table: HoleTable
) -> DrawingSheets:
    crown = view.crown
    made = so_many(crown.count, "support")
    block = TitleBlock(titles, name, made, scale_name(view.scale))
    notes = [f"seen from the front, {STANDARD}"]
    if view.scale != 1:
        notes.append(f"drawn at {block.scale}; the bar checks the print, not the scale")
    notes += [
        "across is counted from the middle of the first support, heights from the level that all stand on",
        "the curve is the exact arc; how thick a support is does not follow from it",
    ]
    for way, figures in (("places", view.running_across), ("heights", view.running_up)):
        if figures.too_many:
            notes.append(f"the {way} have no room to be dimensioned here: the table has them all")
    heights = ", ".join(size_text(height, crown.rule.metric) for height in crown.read)
    words = (
        f"{before}Drawing of {name}, {made} {both(crown.across)} apart under an arc of radius {both(crown.radius)}, "
        f"{STANDARD}, scale {block.scale}: from the front, heights from left to right {heights}."
    )

    return DrawingSheets(
        block, before, words, paper, view.right, view.floor, view.drawn, view.targets, table, tuple(notes)
    )


@dataclass(frozen=True)
class _View:
    """A crown from the front at a scale, the middle of its first support and its base the datum.

    Its running figures are left to the table where they have no room (`with_running`).
    """

    crown: Crown
    scale: Fraction
    with_running: bool = True

    # Where things stand

    @property
    def left(self) -> Fraction:
        """Where the first support stands."""
        return MARGIN + _BASE + 2

    @cached_property
    def top(self) -> Fraction:
        """What the figures along the top stand above: the highest of arc and supports."""
        return TOP + max(_BEYOND, self._across.reach) + _BEYOND

    @cached_property
    def base(self) -> Fraction:
        """The level that all stand on."""
        highest = max(self.summit, *(height.mm for height in self.crown.read))
        return self.top + highest * self.scale

    @property
    def last(self) -> Fraction:
        """Where the last support stands."""
        return self.left + self.crown.span.mm * self.scale

    @cached_property
    def right(self) -> Fraction:
        """Where the last of the figures ends."""
        up = self.running_up
        beside = self.last + _BASE + max(up.reach, _BEYOND)
        return max(beside, self.running_across.farthest(self.least))

    @cached_property
    def floor(self) -> Fraction:
        """Where the numbers beneath the supports end."""
        return max(self.base + _BEYOND + 9, self.running_up.lowest(self.top))

    @property
    def least(self) -> Fraction:
        """How far left the figures along the top may go."""
        return MARGIN + 2

    @cached_property
    def summit(self) -> Fraction:
        """How high the arc's own highest point lies, in mm: a support's exact height and its drop."""
        return (self.crown.exact[0] + self.crown.drops[0]).mm

    def _x(self, size: Quantity) -> Fraction:
        return self.left + size.mm * self.scale

    def _y(self, size: Quantity) -> Fraction:
        return self.base - size.mm * self.scale

    # Figures

    @cached_property
    def _across(self) -> Running:
        return Running.of((place - self.crown.places[0] for place in self.crown.places), self.with_running)

    @cached_property
    def running_across(self) -> Running:
        """The figures along the top."""
        return self._across.placed(self._x)

    @cached_property
    def running_up(self) -> Running:
        """The figures of the heights, at the right; none where they would be bunched, for the table has them."""
        figures = Running.of(self.crown.read, self.with_running).placed(self._y)
        return TOO_MANY if figures.bunched else figures

    @cached_property
    def targets(self) -> list[Lettering]:
        """What is numbered beneath the base, and the arc."""
        numbered = [
            Lettering(str(n), self._x(place - self.crown.places[0]), self.base + _BEYOND, Fraction(0))
            for n, place in enumerate(self.crown.places, 1)
        ]
        x = self.crown.across / 2
        return [Lettering(ARC, self._x(x), self._arc_at(x), Fraction(0)), *numbered]

    def _arc_at(self, across: Quantity) -> Fraction:
        fall = drop(across + self.crown.places[0], self.crown.radius).mm
        # Six figures after the point are far finer than ink, and keep the file small.
        return round(self.base - (self.summit - fall) * self.scale, 6)

    # What is drawn

    def drawn(self) -> list[Shape]:
        """The supports, the level they stand on, the arc and the figures."""
        base = Stroke(self.left - _BASE, self.base, self.last + _BASE, self.base, "outline")
        return [
            base, *self._supports(), *self._arc(), datum_mark(self.left, self.base),
            *self.running_across.along_top(self.top - _BEYOND, self.least),
            *self.running_up.up_the_right(self.last + _BASE, self.top),
        ]  # fmt: skip

    def _supports(self) -> list[Shape]:
        half = min(self.crown.across.mm * self.scale / 4, _END)
        shapes: list[Shape] = []
        for place, height in zip(self.crown.places, self.crown.read, strict=True):
            x, y = self._x(place - self.crown.places[0]), self._y(height)
            shapes += [
                Stroke(x - half, y, x + half, y, "outline"),
                Stroke(x, y - _BEYOND, x, self.base + _BEYOND, "centre"),
            ]
        return shapes

    def _arc(self) -> list[Shape]:
        span = self.crown.span
        points = [
            (self._x(across), self._arc_at(across))
            for across in (span * Fraction(k, _CHORDS) for k in range(_CHORDS + 1))
        ]
        return [Stroke(*start, *end, "exact") for start, end in pairwise(points)]
