"""A part as a dimensioned drawing: its end and its side in third-angle projection, to a named scale."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Arc, Drawing, NotDrawn, Shape, Stroke, Words, fitting
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.requests.pictures.frame import FOUR_INCHES, MARGIN, foot, foot_height, heading
from fractions_shop.sheet.part_lines import Part
from fractions_shop.show.dimension import Figured, across, upright
from fractions_shop.show.part_table import limits_in_words, part_sizes
from fractions_shop.show.size_table import size_within
from fractions_shop.size.approx import square_root
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.notation import inch_text, mm_leads, mm_text
from fractions_shop.size.standing import mark_of

#: Full size where it has room, else the reductions of ISO 5455.
SCALES = tuple(Fraction(1, n) for n in (1, 2, 5, 10, 20, 50, 100))
PROJECTION = "third-angle projection, drawn after ISO 128 and ISO 129-1 in general terms"

_TOP = Fraction(12)
#: From one upright dimension line to the outline or to the next, beside what its figure takes.
_ASIDE, _BELOW = Fraction(7), Fraction(5)
_BETWEEN = Fraction(20)
#: How far a centre line goes past the outline.
_BEYOND = Fraction(3)
_SMALL = Fraction(22, 10)


def part_drawing(
    part: Part, sheet: str, paper: PaperSize = A4, before: str = ""
) -> Drawing | NotDrawn | None:
    """The drawing of a part; None for flat stock with one size, and why there is none for a part too large.

    `sheet` is what the sheet is called; `before` stands before the title. Sizes with limits are drawn at one
    size that lies within them; the figures tell the limits.
    """
    if len(part.sizes) < (1 if part.section else 2):
        return None
    for scale in SCALES:
        view = _Views(part, scale)
        if view.width <= paper.across and view.height <= paper.down:
            return view.drawn(sheet, before)
    return NotDrawn(f"no drawing is made of {part.name}: it has no room at {_named(SCALES[-1])}")


def _named(scale: Fraction) -> str:
    return f"{scale.numerator}:{scale.denominator}"


@dataclass(frozen=True)
class _Views:
    """The two views of a part at a scale: its end at the left, and the side that is seen from the right."""

    part: Part
    scale: Fraction

    @cached_property
    def drawn_sizes(self) -> tuple[Fraction, ...]:
        """The sizes on paper, in mm."""
        return tuple(
            (size_within(size, False) if isinstance(size, Limits) else size).mm * self.scale
            for size in self.part.sizes
        )

    @cached_property
    def end(self) -> tuple[Fraction, Fraction]:
        """How wide and how high the end is on paper."""
        first = self.drawn_sizes[0]
        if self.part.section == "hex":
            return first * 2 / square_root(Fraction(3)), first
        return first, first if self.part.section else self.drawn_sizes[1]

    @cached_property
    def length(self) -> Fraction | None:
        """How long the side is on paper; None where the part has only an end."""
        sizes = self.drawn_sizes
        at = {"": 2, "tube": 2}.get(self.part.section, 1)
        return sizes[at] if len(sizes) > at else None

    @cached_property
    def figured(self) -> tuple[Figured, ...]:
        """What each size says."""
        return tuple(_figured(self.part, n) for n in range(len(self.part.sizes)))

    @cached_property
    def uprights(self) -> tuple[tuple[Figured, Fraction], ...]:
        """The upright dimensions, each with its length on paper: at the left of the end, then a bore's at the right."""
        sizes, figured = self.drawn_sizes, self.figured
        if not self.part.section:
            return ((figured[1], sizes[1]),)
        return tuple(zip(figured, sizes, strict=True))[: 2 if self.part.section == "tube" else 1]

    # Where things stand

    @cached_property
    def left(self) -> Fraction:
        """Where the end begins."""
        return MARGIN + self.uprights[0][0].tall + _ASIDE + _BEYOND

    @cached_property
    def top(self) -> Fraction:
        """Where both views begin."""
        high = self.end[1]
        reach = [figured.overhang(length) - (high - length) / 2 for figured, length in self.uprights]
        return _TOP + max(_BEYOND + 1, *reach)

    @property
    def bottom(self) -> Fraction:
        """Where both views end."""
        return self.top + self.end[1]

    @cached_property
    def side_left(self) -> Fraction:
        """Where the side begins."""
        over = Fraction(0) if self.part.section else self.figured[0].overhang(self.end[0])
        return self.left + self.end[0] + max(_BETWEEN, over + 2 * _BEYOND + 6)

    @cached_property
    def line(self) -> Fraction:
        """Where the level dimension lines lie."""
        level = [self.figured[-1]] if self.length is not None else []
        level += [] if self.part.section else [self.figured[0]]
        tall = max((figured.tall for figured in level), default=Fraction(0))
        # What stands outside an upright dimension reaches down by its tail.
        return self.bottom + max(tall + _BELOW, Fraction(8))

    @cached_property
    def right(self) -> Fraction:
        """Where the last of the views and figures ends."""
        if self.length is None:
            over = Fraction(0) if self.part.section else self.figured[0].overhang(self.end[0])
        else:
            over = self.figured[-1].overhang(self.length)
        return self.views_right + max(over, _BEYOND, self.bore_aside + 2)

    @property
    def views_right(self) -> Fraction:
        """Where the last view ends."""
        return self.left + self.end[0] if self.length is None else self.side_left + self.length

    @property
    def bore_aside(self) -> Fraction:
        """How far right of the views a bore's dimension line stands; nothing where there is none."""
        return self.uprights[1][0].tall + _ASIDE if len(self.uprights) > 1 else Fraction(0)

    @cached_property
    def notes(self) -> list[str]:
        """What stands beneath the bar."""
        notes = [PROJECTION]
        if self.scale != 1:
            notes.append(f"drawn at {_named(self.scale)}; the bar checks the print, not the scale")
        if any(isinstance(size, Limits) for size in self.part.sizes):
            notes.append("a size with limits is drawn at one that lies within them")
        return notes

    @cached_property
    def width(self) -> Fraction:
        """How wide the drawing is."""
        return max(self.right + MARGIN, FOUR_INCHES + 2 * MARGIN)

    @cached_property
    def height(self) -> Fraction:
        """How high the drawing is."""
        return self.line + 9 + foot_height(self.notes, self.width)

    # What is drawn

    def drawn(self, sheet: str, before: str) -> Drawing:
        """The whole drawing, `before` standing before its title."""
        part, scale = self.part, f"scale {_named(self.scale)}"
        made = f"{part.count} of {part.material}" if part.material else str(part.count)
        shapes: list[Shape] = [
            *heading(f"{before}{part.name}: {made}", "", scale, self.width),
            Words(MARGIN, 8, fitting(sheet, self.width - 2 * MARGIN, _SMALL), _SMALL),
            *self._end(),
            *self._side(),
            *self._dimensions(),
            *foot(self.notes, self.line + 9, self.width)[0],
        ]
        words = (
            f"{before}Drawing of {part.name}, {made}, {PROJECTION}, {scale}: "
            f"{'its end and its side' if self.length is not None else 'its face'}, {part_sizes(part)}."
        )
        return Drawing(
            self.width, self.height, f"{before}{part.name}, {scale}", words, tuple(shapes), true_size=True
        )

    def _end(self) -> list[Shape]:
        wide, high = self.end
        x, y = self.left + wide / 2, self.top + high / 2
        match self.part.section:
            case "round" | "tube":
                every = self.drawn_sizes[: 2 if self.part.section == "tube" else 1]
                circles: list[Shape] = [Arc(x, y, size / 2, kind="outline") for size in every]
                return [*circles, *self._centre(x, y, wide, high)]
            case "hex":
                corners = [(x + wide / 2, y), (x + wide / 4, self.top), (x - wide / 4, self.top), (x - wide / 2, y),
                           (x - wide / 4, self.bottom), (x + wide / 4, self.bottom)]  # fmt: skip
                sides: list[Shape] = [Stroke(*corners[k], *corners[(k + 1) % 6], "outline") for k in range(6)]
                return [*sides, *self._centre(x, y, wide, high)]
        return _rectangle(self.left, self.top, wide, high)

    def _centre(self, x: Fraction, y: Fraction, wide: Fraction, high: Fraction) -> list[Shape]:
        return [
            Stroke(x - wide / 2 - _BEYOND, y, x + wide / 2 + _BEYOND, y, "centre"),
            Stroke(x, y - high / 2 - _BEYOND, x, y + high / 2 + _BEYOND, "centre"),
        ]

    def _side(self) -> list[Shape]:
        if self.length is None:
            return []
        left, right, middle = self.side_left, self.side_left + self.length, self.top + self.end[1] / 2
        shapes: list[Shape] = [*_rectangle(left, self.top, self.length, self.end[1])]
        if self.part.section == "hex":
            # The corner that points to whoever looks.
            shapes.append(Stroke(left, middle, right, middle, "outline"))
        if self.part.section == "tube":
            half = self.drawn_sizes[1] / 2
            shapes += [Stroke(left, y, right, y, "hidden") for y in (middle - half, middle + half)]
        if self.part.section in ("round", "tube"):
            shapes.append(Stroke(left - _BEYOND, middle, right + _BEYOND, middle, "centre"))
        return shapes

    def _dimensions(self) -> list[Shape]:
        shapes: list[Shape] = []
        middle = self.top + self.end[1] / 2
        lines = (self.left - _BEYOND - _ASIDE, self.views_right + self.bore_aside)
        edges = (self._edge, self.views_right if self.length is not None else self._edge)
        for (figured, length), line, edge in zip(self.uprights, lines, edges, strict=False):
            shapes += upright(figured, middle + length / 2, middle - length / 2, edge, line)
        if not self.part.section:
            shapes += across(self.figured[0], self.left, self.left + self.end[0], self.bottom, self.line)
        if self.length is not None:
            figured = self.figured[-1]
            shapes += across(figured, self.side_left, self.side_left + self.length, self.bottom, self.line)
        return shapes

    @property
    def _edge(self) -> Fraction:
        """Where the extension lines of an upright dimension begin: at a circle's highest point, or a corner."""
        wide = self.end[0]
        if self.part.section in ("round", "tube"):
            return self.left + wide / 2
        return self.left + wide / 4 if self.part.section == "hex" else self.left


def _rectangle(x: Fraction, y: Fraction, wide: Fraction, high: Fraction) -> list[Shape]:
    return [
        Stroke(x, y, x + wide, y, "outline"), Stroke(x, y + high, x + wide, y + high, "outline"),
        Stroke(x, y, x, y + high, "outline"), Stroke(x + wide, y, x + wide, y + high, "outline"),
    ]  # fmt: skip


def _figured(part: Part, n: int) -> Figured:
    """The figure of a part's size: inches over millimetres, or what leads first; its limits beneath each."""
    size = part.sizes[n]
    name = part.size_names[n]
    before = "\u2300 " if name in ("diameter", "outside", "bore") else ""
    behind = " across flats" if name == "across flats" else ""
    bought = part.bought[n] if part.bought else ""
    nominal = nominal_of(size).unmarked
    inches, metric = [f"{before}{inch_text(nominal, 4)}{behind}"], [f"{before}{mm_text(nominal, 4)}"]
    if isinstance(size, Limits):
        within = limits_in_words(size)
        inches.append(within[0])
        metric.append(within[1])
    lines = [*metric, *inches] if mm_leads() else [*inches, *metric]
    lines[-1] += mark_of(size.standing)
    return Figured(tuple([bought, *lines] if bought else lines))
