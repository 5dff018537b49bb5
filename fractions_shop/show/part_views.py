"""The views of a part on paper: its end or face, its side, and where the dimensions of both stand."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Arc, Shape, Stroke
from fractions_shop.layout.notches import Notch
from fractions_shop.requests.pictures.frame import MARGIN
from fractions_shop.sheet.cut_parts import CutPart
from fractions_shop.sheet.part_lines import Part
from fractions_shop.show.cut_shapes import OnPaper, cut_shapes, notched, rounded
from fractions_shop.show.dimension import Figured, across, upright
from fractions_shop.show.drawing_sheets import TOP
from fractions_shop.show.hole_table import size_lines
from fractions_shop.show.running_dimensions import Running, datum_mark
from fractions_shop.show.size_table import size_within
from fractions_shop.size.approx import square_root
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits

#: From one upright dimension line to the outline or to the next, beside what its figure takes.
_ASIDE, _BELOW = Fraction(7), Fraction(5)
_BETWEEN = Fraction(20)
#: How far a centre line goes past the outline.
_BEYOND = Fraction(3)


@dataclass(frozen=True)
class Views:
    """The two views of a part at a scale: its end at the left, and the side that is seen from the right.

    Running figures are left to the table where they have no room (`with_running`).
    """

    cut: CutPart
    scale: Fraction
    with_running: bool = True

    @property
    def part(self) -> Part:
        """The part itself."""
        return self.cut.part

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
        return TOP + max(_BEYOND + 1, self._places_across.reach, *reach)

    @property
    def bottom(self) -> Fraction:
        """Where both views end."""
        return self.top + self.end[1]

    @cached_property
    def side_left(self) -> Fraction:
        """Where the side begins."""
        over = Fraction(0) if self.part.section else self.figured[0].overhang(self.end[0])
        return self.left + self.end[0] + max(_BETWEEN, over + 2 * _BEYOND + 6, self._places_up.reach + 6)

    @cached_property
    def line(self) -> Fraction:
        """Where the level dimension lines lie."""
        level = [self.figured[-1]] if self.length is not None else []
        level += [] if self.part.section else [self.figured[0]]
        tall = max((figured.tall for figured in level), default=Fraction(0))
        # What stands outside an upright dimension reaches down by its tail.
        return max(self.bottom, self.running_up.lowest(self.top)) + max(tall + _BELOW, Fraction(8))

    @cached_property
    def right(self) -> Fraction:
        """Where the last of the views and figures ends."""
        if self.length is None:
            over = Fraction(0) if self.part.section else self.figured[0].overhang(self.end[0])
        else:
            over = self.figured[-1].overhang(self.length)
        # The running figures up the face stand beside it, and those along its top may go on over the side.
        beside = self.left + self.end[0] + self._places_up.reach
        return max(
            self.views_right + max(over, _BEYOND, self.bore_aside + 2),
            beside,
            self.running_across.farthest(self.least),
        )

    @property
    def views_right(self) -> Fraction:
        """Where the last view ends."""
        return self.left + self.end[0] if self.length is None else self.side_left + self.length

    @property
    def bore_aside(self) -> Fraction:
        """How far right of the views a bore's dimension line stands; nothing where there is none."""
        return self.uprights[1][0].tall + _ASIDE if len(self.uprights) > 1 else Fraction(0)

    def drawn(self) -> list[Shape]:
        """Both views with what is cut, and all their dimensions."""
        return [*self._end(), *self._side(), *self._dimensions(), *self._cut()]

    # What is cut

    @cached_property
    def on(self) -> OnPaper:
        """Where the face lies that is cut."""
        wide, high = self.end
        if self.cut.face is not None and self.cut.face.from_centre:
            return OnPaper(self.left + wide / 2, self.top + high / 2, self.scale)
        return OnPaper(self.left, self.bottom, self.scale)

    @cached_property
    def _places_across(self) -> Running:
        return Running.of((place[0] for cut in self.cut.cuts for place in cut.cut.at), self.with_running)

    @cached_property
    def _places_up(self) -> Running:
        return Running.of((place[1] for cut in self.cut.cuts for place in cut.cut.at), self.with_running)

    @cached_property
    def running_across(self) -> Running:
        """The running figures along the top."""
        return self._places_across.placed(self.on.across)

    @cached_property
    def running_up(self) -> Running:
        """The running figures up the right of the face."""
        return self._places_up.placed(self.on.up)

    @property
    def least(self) -> Fraction:
        """How far left the figures along the top may go, clear of an upright dimension."""
        return self.left - _BEYOND - 1

    @property
    def corner(self) -> Fraction:
        """The radius of the corners on paper; zero without one."""
        radius = None if self.cut.face is None else self.cut.face.corner
        return Fraction(0) if radius is None else self.on.long(radius)

    def _cut(self) -> list[Shape]:
        if not self.cut.cuts:
            return []
        wide = self.left + self.end[0]
        return [
            *cut_shapes(self.cut, self.on), datum_mark(self.on.x, self.on.y),
            *self.running_across.along_top(self.top, self.least), *self.running_up.up_the_right(wide, self.top),
        ]  # fmt: skip

    # What is drawn

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
        cuts = [each.cut for each in self.cut.cuts]
        if self.cut.face is not None and any(isinstance(each, Notch) for each in cuts):
            arcs = rounded(self.left, self.top, wide, high, self.corner) if self.corner else []
            return [
                *notched(self.cut.face, cuts, self.on), *(arc for arc in arcs if isinstance(arc, Arc)),
            ]  # fmt: skip
        if self.corner:
            return rounded(self.left, self.top, wide, high, self.corner)
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
    name = part.size_names[n]
    before = "\u2300 " if name in ("diameter", "outside", "bore") else ""
    bought = part.bought[n] if part.bought else ""
    behind = " across flats" if name == "across flats" else ""
    return Figured(size_lines(part.sizes[n], before, bought, behind))
