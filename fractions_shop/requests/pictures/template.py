"""Places on two axes true to size: a template to lay on the work, with a cross at each centre."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from fractions_shop.figures.drawing import Arc, Drawing, NotDrawn, Shape, Stroke, Words, text_width
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.figures.wording import both, off_by, rule_word
from fractions_shop.layout.places import Place, Places
from fractions_shop.layout.scale import Stretch, stretches
from fractions_shop.requests.pictures.frame import FOUR_INCHES, MARGIN, foot, foot_height, heading
from fractions_shop.requests.pictures.free_room import FreeRoom, Spot
from fractions_shop.requests.pictures.strip import OVERLAP, match_letter
from fractions_shop.requests.pictures.strip_labels import place_in_short
from fractions_shop.size.approx import square_root
from fractions_shop.size.cached import cached_property

#: More sheets of paper than this are no template.
MOST_SHEETS = 40
#: More places than this are left to the table.
MOST_PLACES = 1000

#: How far a centre's cross reaches each way.
CROSS = Fraction(3)
#: What the picture shows beyond the outermost place.
_AROUND = Fraction(12)
_TOP = Fraction(8)
_TEXT = Fraction(24, 10)
_DATUM = "datum"
#: How far from a point its words begin, across and upwards, the nearest first.
_OFF = tuple((Fraction(a, 10), Fraction(b, 10)) for a, b in ((8, 8), (36, 8), (8, 34), (20, 20), (36, 36)))


def template(
    placed: Places, title: str, paper: PaperSize = A4, circle: bool = False
) -> tuple[Drawing, ...] | NotDrawn:
    """The places on as many sheets as it takes, each with its number; `circle`: all lie on one about the datum.

    Every cross stands at its exact place, not at the nearest division.
    """
    if len(placed.points) > MOST_PLACES:
        return NotDrawn(f"no template is drawn of {len(placed.points):,} places: the most is {MOST_PLACES:,}")
    whole = _Template(placed, title, paper, circle)
    columns, rows = whole.columns, whole.rows
    if len(columns) * len(rows) > MOST_SHEETS:
        return NotDrawn(
            f"no template is drawn of it: it would be {len(columns) * len(rows):,} sheets, and the most is {MOST_SHEETS}"
        )
    grid = [(column, row) for row in range(len(rows)) for column in range(len(columns))]
    return tuple(
        _TemplateSheet(whole, column, row, k, len(grid)).drawn() for k, (column, row) in enumerate(grid)
    )


@dataclass(frozen=True)
class _Template:
    """All of a template, before it is cut into sheets; places are in mm, upwards from the datum."""

    placed: Places
    title: str
    paper: PaperSize
    circle: bool

    @cached_property
    def radius(self) -> Fraction | None:
        """The radius of the circle that the places lie on, if they do."""
        if not self.circle:
            return None
        x, y = self.placed.points[0]
        return square_root(x.mm**2 + y.mm**2)

    def _reach(self, axis: int) -> tuple[Fraction, Fraction]:
        ends = [Fraction(0), *(point[axis].mm for point in self.placed.points)]
        along, radius = self.placed.along[axis], self.radius
        ends += [along.mm] if along is not None else []
        ends += [radius, -radius] if radius is not None else []
        return min(ends) - _AROUND, max(ends) + _AROUND

    @cached_property
    def columns(self) -> tuple[Stretch, ...]:
        """What each sheet shows across."""
        return stretches(*self._reach(0), self.paper.across - 2 * MARGIN, OVERLAP)

    @cached_property
    def rows(self) -> tuple[Stretch, ...]:
        """What each sheet shows upwards, the lowest first."""
        below = foot_height([_long_note(len(self.placed.points))], FOUR_INCHES + 2 * MARGIN)
        return stretches(*self._reach(1), self.paper.down - _TOP - 6 - below, OVERLAP)


def _long_note(many: int) -> str:
    return f"no room here: every place is drawn, {many} of {many} numbers are left out"


@dataclass(frozen=True)
class _TemplateSheet:
    """One sheet of a template: which column and row of it, and the `k`-th of `count`."""

    whole: _Template
    column: int
    row: int
    k: int
    count: int

    @property
    def across(self) -> Stretch:
        return self.whole.columns[self.column]

    @property
    def up(self) -> Stretch:
        return self.whole.rows[self.row]

    def x(self, place: Fraction) -> Fraction:
        """Where on the paper a place across stands."""
        return MARGIN + place - self.across.start

    def y(self, place: Fraction) -> Fraction:
        """Where on the paper a place upwards stands."""
        return _TOP + self.up.end - place

    def drawn(self) -> Drawing:
        placed = self.whole.placed
        rule = rule_word(placed.rule)
        width = max(self.across.end - self.across.start, FOUR_INCHES) + 2 * MARGIN
        floor = _TOP + self.up.end - self.up.start
        behind = ""
        if self.count > 1:
            behind = f", sheet {self.k + 1} of {self.count}"
        shapes = [*heading(self.whole.title, behind, rule, width), *self._lines(), *self._joints()]
        labels, left_out = self._numbers()
        shapes += [*self._crosses(), *labels]
        own = [n for n, point in enumerate(placed.points) if self._owns(point)]
        notes = []
        if left_out:
            notes.append(f"no room here: every place is drawn, {left_out} of {len(own)} numbers are left out")
        below, _ = foot(notes, floor + 6, width)
        height = floor + 6 + foot_height(notes, width)
        named = f"{self.whole.title}{behind}, {rule}"
        return Drawing(width, height, named, self._in_words(notes), (*shapes, *below), true_size=True)

    # Lines

    def _lines(self) -> list[Shape]:
        """The axes through the datum, the outline as far as it is known, and the circle."""
        shapes: list[Shape] = []
        along = self.whole.placed.along
        zero = Fraction(0)
        if self._within(zero, self.across):
            shapes.append(self._upright(zero, self.up.start, self.up.end, "centre"))
        if self._within(zero, self.up):
            shapes.append(self._level(zero, self.across.start, self.across.end, "centre"))
        wide, tall = (each.mm if each is not None else None for each in along)
        up = self.up.end if tall is None else tall
        far = self.across.end if wide is None else wide
        sides = [] if wide is None else [each for each in (zero, wide) if self._within(each, self.across)]
        levels = [] if tall is None else [each for each in (zero, tall) if self._within(each, self.up)]
        shapes += [self._upright(place, zero, up, "edge") for place in sides]
        shapes += [self._level(place, zero, far, "edge") for place in levels]
        return [*shapes, *self._circle()]

    def _upright(self, x: Fraction, low: Fraction, high: Fraction, kind: str) -> Stroke:
        low, high = max(low, self.up.start), min(high, self.up.end)
        return Stroke(self.x(x), self.y(low), self.x(x), self.y(max(low, high)), kind)

    def _level(self, y: Fraction, left: Fraction, right: Fraction, kind: str) -> Stroke:
        left, right = max(left, self.across.start), min(right, self.across.end)
        return Stroke(self.x(left), self.y(y), self.x(max(left, right)), self.y(y), kind)

    def _circle(self) -> list[Shape]:
        radius = self.whole.radius
        if radius is None:
            return []
        if self.count == 1:
            return [Arc(self.x(Fraction(0)), self.y(Fraction(0)), radius, kind="centre")]
        # Cut at the edges of the sheet: short strokes, which leave the circle by less than ink is thick.
        points = _round(radius)
        inside = [self._shows(x, y) for x, y in points]
        return [
            Stroke(self.x(a[0]), self.y(a[1]), self.x(b[0]), self.y(b[1]), "thin")
            for (a, b), both_in in zip(pairwise(points), (p and q for p, q in pairwise(inside)), strict=True)
            if both_in
        ]

    def _joints(self) -> list[Shape]:
        """Dashed lines where sheets meet, with what both bear: letters across, numbers upwards."""
        shapes: list[Shape] = []
        left, right = MARGIN, MARGIN + self.across.end - self.across.start
        top, bottom = _TOP, _TOP + self.up.end - self.up.start
        for place, n in ((self.across.meets_before, self.column - 1), (self.across.meets_after, self.column)):
            if place is not None:
                x = self.x(place)
                shapes.append(Stroke(x, top - 1, x, bottom + 1, "match"))
                shapes.append(Words(x + 1, top + 3, match_letter(n), 3))
        for place, n in ((self.up.meets_before, self.row - 1), (self.up.meets_after, self.row)):
            if place is not None:
                y = self.y(place)
                shapes.append(Stroke(left - 1, y, right + 1, y, "match"))
                shapes.append(Words(left, y - 1, str(n + 1), 3))
        return shapes

    # Places

    def _shows(self, x: Fraction, y: Fraction) -> bool:
        return self._within(x, self.across) and self._within(y, self.up)

    def _within(self, place: Fraction, stretch: Stretch) -> bool:
        return stretch.start <= place <= stretch.end

    def _owns(self, point: Place) -> bool:
        """Whether a place's number stands on this sheet."""
        return _own(point[0].mm, self.across) and _own(point[1].mm, self.up)

    def _crosses(self) -> list[Shape]:
        shapes: list[Shape] = []
        for point in self.whole.placed.points:
            if self._shows(point[0].mm, point[1].mm):
                x, y = self.x(point[0].mm), self.y(point[1].mm)
                shapes.append(Stroke(x - CROSS, y, x + CROSS, y, "cross"))
                shapes.append(Stroke(x, y - CROSS, x, y + CROSS, "cross"))
        return shapes

    def _numbers(self) -> tuple[list[Shape], int]:
        """The number of each place beside it, where nothing else stands, with the place itself if all have room."""
        best: tuple[list[Shape], int] | None = None
        for with_place in (True, False):
            made, left_out = self._written(with_place)
            if not left_out:
                return made, 0
            best = made, left_out
        assert best is not None
        return best

    def _written(self, with_place: bool) -> tuple[list[Shape], int]:
        room = self._taken()
        shapes: list[Shape] = []
        left_out = 0
        for n, point in enumerate(self.whole.placed.points, 1):
            if not self._owns(point):
                continue
            text = f"{n}: {self._place(point)}" if with_place else str(n)
            words = self._free(point, text, room)
            if words is None:
                left_out += 1
                continue
            shapes.append(words)
        if self._shows(Fraction(0), Fraction(0)):
            zero = Fraction(0)
            words = _first_free(self.x(zero), self.y(zero), _DATUM, room)
            shapes += [words] if words is not None else []
        return shapes, left_out

    def _place(self, point: Place) -> str:
        return ", ".join(place_in_short(x, self.whole.placed.rule) for x in point)

    def _free(self, point: Place, text: str, room: FreeRoom) -> Words | None:
        return _first_free(self.x(point[0].mm), self.y(point[1].mm), text, room)

    def _taken(self) -> FreeRoom:
        """What is drawn already, and what lies beyond the sheet's own part of the picture."""
        room = FreeRoom()
        for shape in [*self._lines(), *self._joints(), *self._crosses()]:
            for spot in _spots(shape):
                room.take(spot)
        left, right = float(MARGIN), float(MARGIN + self.across.end - self.across.start)
        top, bottom = float(_TOP), float(_TOP + self.up.end - self.up.start)
        # A frame about the picture keeps every number inside it.
        for spot in (
            (left - 200, top - 20, left, bottom + 20), (right, top - 20, right + 200, bottom + 20),
            (left - 20, top - 20, right + 20, top), (left - 20, bottom, right + 20, bottom + 20),
        ):  # fmt: skip
            room.take(spot)
        return room

    def _in_words(self, notes: list[str]) -> str:
        placed = self.whole.placed
        worst = max(placed.worst)
        read = f"the worst would be {off_by(worst)} off" if worst.value else f"every one is {off_by(worst)}"
        named = f"Sheet {self.k + 1} of {self.count} of a template" if self.count > 1 else "A template"
        joint = (
            " Sheets meet at the dashed lines that bear the same letter or number." if self.count > 1 else ""
        )
        radius = self.whole.radius
        round_about = "" if radius is None else " on a circle about the datum"
        low, high = (
            ", ".join(both(pick(point[axis] for point in placed.points), 4) for axis in (0, 1))
            for pick in (min, max)
        )
        return (
            f"{named} to print true to size: a cross at each of {len(placed.points)} places{round_about}, from {low} "
            f"to {high}, across and upwards from the datum, at their exact places; read in "
            f"{rule_word(placed.rule)} {read}.{joint}"
            + "".join(f" On paper there is {note}." for note in notes)
        )


def _own(place: Fraction, stretch: Stretch) -> bool:
    """Whether a place belongs to this stretch and not, past a joint, to its neighbour."""
    first = stretch.start if stretch.meets_before is None else stretch.meets_before
    last = stretch.end if stretch.meets_after is None else stretch.meets_after
    return first <= place < last or (place == last and stretch.meets_after is None)


def _first_free(x: Fraction, y: Fraction, text: str, room: FreeRoom) -> Words | None:
    """Words in the first free corner about a point, which take that corner; None when all are taken."""
    wide = text_width(text, _TEXT)
    for along, aside in _OFF:
        for right, above in ((True, True), (True, False), (False, True), (False, False)):
            start = x + along if right else x - along - wide
            base = y - aside if above else y + aside + _TEXT * Fraction(75, 100)
            spot = _box(start, base, wide)
            if room.is_free(spot):
                room.take(spot)
                return Words(start, base, text, _TEXT)
    return None


def _box(left: Fraction, base: Fraction, wide: Fraction) -> Spot:
    """What a line of text takes: a little above its letters, and their tails below."""
    return (
        float(left), float(base - _TEXT * Fraction(75, 100)),
        float(left + wide), float(base + _TEXT * Fraction(22, 100)),
    )  # fmt: skip


def _spots(shape: Shape) -> list[Spot]:
    """Boxes over what is drawn; a circle is left to be written over, as its line is thin and long."""
    match shape:
        case Stroke():
            xs, ys = sorted((shape.x1, shape.x2)), sorted((shape.y1, shape.y2))
            thin = 0.2
            return [(float(xs[0]) - thin, float(ys[0]) - thin, float(xs[1]) + thin, float(ys[1]) + thin)]
        case Words():
            return [_box(Fraction(shape.x), Fraction(shape.y), text_width(shape.text, shape.size))]
        case Arc():
            points = [(shape.x + x, shape.y - y) for x, y in _round(Fraction(shape.radius))]
            return [
                (
                    float(min(a[0], b[0])),
                    float(min(a[1], b[1])),
                    float(max(a[0], b[0])),
                    float(max(a[1], b[1])),
                )
                for a, b in pairwise(points)
            ]
    return []


def _round(radius: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Points on a circle, so close that its chords leave it by less than 0.02 mm; the last is the first."""
    from math import cos, pi, sin, sqrt

    many = max(48, int(pi / sqrt(2 * 0.02 / max(float(radius), 0.1))) + 1)
    return [
        (Fraction(cos(2 * pi * k / many)) * radius, Fraction(sin(2 * pi * k / many)) * radius)
        for k in range(many + 1)
    ]
