"""What is cut in a face as it is drawn: circles, slots, rounded corners, centre lines, and letters beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise

from fractions_shop.figures.drawing import Arc, Number, Shape, Stroke, Words, text_width
from fractions_shop.layout.features import Cut, Face, Hole, Size, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.layout.places import Place
from fractions_shop.requests.pictures.free_room import FreeRoom, Spot
from fractions_shop.sheet.cut_parts import CutPart, Lettered
from fractions_shop.show.dimension import TEXT
from fractions_shop.show.hole_table import CORNER
from fractions_shop.show.notched_outline import outline_of
from fractions_shop.show.size_table import size_within
from fractions_shop.size.approx import cosine, sine
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity

#: How far centre lines go past what they are the centre of.
_PAST = Fraction(15, 10)
#: How far from what it names a letter may stand, and in how many steps it is looked for.
_NEAR, _STEP, _STEPS = Fraction(8, 10), Fraction(2), 8
#: Ways to go from a hole, nearest corners first.
_WAYS = tuple((Fraction(x, 10), Fraction(y, 10)) for x, y in (
    (7, -7), (-7, -7), (7, 7), (-7, 7), (10, 0), (-10, 0), (0, -10), (0, 10)))  # fmt: skip
_ARC_PARTS = 24
_FRAME, _HIGHEST = 20.0, 320.0


@dataclass(frozen=True)
class OnPaper:
    """Where a face lies on paper: its datum in mm, y downwards, and the scale that it is drawn at."""

    x: Fraction
    y: Fraction
    scale: Fraction

    def across(self, size: Quantity) -> Fraction:
        """Where a distance across lies."""
        return self.x + size.mm * self.scale

    def up(self, size: Quantity) -> Fraction:
        """Where a distance up lies."""
        return self.y - size.mm * self.scale

    def long(self, size: Size) -> Fraction:
        """How long a size is; of one with limits, one that lies within them."""
        return (size_within(size, False) if isinstance(size, Limits) else size).mm * self.scale


@dataclass(frozen=True)
class Lettering:
    """What a letter names: from `reach` about (`x`, `y`) on."""

    name: str
    x: Fraction
    y: Fraction
    reach: Fraction


def cut_shapes(part: CutPart, on: OnPaper) -> list[Shape]:
    """Every hole and slot, with its centre lines."""
    shapes: list[Shape] = []
    for cut in part.cuts:
        for place in cut.cut.at:
            x, y = on.across(place[0]), on.up(place[1])
            if isinstance(cut.cut, Hole):
                shapes += _hole(cut.cut, x, y, on)
            elif isinstance(cut.cut, Notch):
                shapes += _notch_centre(cut.cut, place, on)
            else:
                shapes += _slot(cut.cut, place, on)
    return shapes


def _hole(cut: Hole, x: Fraction, y: Fraction, on: OnPaper) -> Iterator[Shape]:
    radius = on.long(cut.diameter) / 2
    yield Arc(x, y, radius, kind="outline")
    if cut.sunk is not None:
        yield Arc(x, y, on.long(cut.sunk) / 2, kind="outline")
    reach = _hole_reach(cut, on) + _PAST
    yield Stroke(x - reach, y, x + reach, y, "centre")
    yield Stroke(x, y - reach, x, y + reach, "centre")


def _hole_reach(cut: Hole, on: OnPaper) -> Fraction:
    return max(on.long(cut.diameter), Fraction(0) if cut.sunk is None else on.long(cut.sunk)) / 2


def _slot(cut: Slot, place: Place, on: OnPaper) -> Iterator[Shape]:
    along, up = cut.way
    half = (on.long(cut.length) - on.long(cut.width)) / 2
    radius = on.long(cut.width) / 2
    x, y = on.across(place[0]), on.up(place[1])
    if cut.square:
        corners = [
            (on.x + across * on.scale, on.y - rise * on.scale)
            for across, rise in cut.corners_at(
                place, on.long(cut.length) / on.scale, on.long(cut.width) / on.scale
            )
        ]
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
            yield Stroke(*start, *end, "outline")
        yield from _slot_centre(cut, x, y, half + radius + _PAST, radius + _PAST)
        return
    # On paper y falls where the slot rises.
    ends = [(x + side * half * along, y - side * half * up) for side in (-1, 1)]
    for side in (-1, 1):
        aside = (-side * radius * up, -side * radius * along)
        (x1, y1), (x2, y2) = ((end[0] + aside[0], end[1] + aside[1]) for end in ends)
        yield Stroke(x1, y1, x2, y2, "outline")
    turned = cut.turned.degrees
    yield Arc(*ends[1], radius, (turned - 90) % 360, 180, "outline")
    yield Arc(*ends[0], radius, (turned + 90) % 360, 180, "outline")
    yield from _slot_centre(cut, x, y, half + radius + _PAST, radius + _PAST)


def _slot_centre(cut: Slot, x: Fraction, y: Fraction, long: Fraction, short: Fraction) -> Iterator[Shape]:
    """The centre lines of a slot."""
    along, up = cut.way
    yield Stroke(x - long * along, y + long * up, x + long * along, y - long * up, "centre")
    yield Stroke(x - short * up, y - short * along, x + short * up, y + short * along, "centre")


def _notch_centre(cut: Notch, place: Place, on: OnPaper) -> Iterator[Shape]:
    """The centre line of a notch, whose sides the outline has."""
    x, y = on.across(place[0]), on.up(place[1])
    (across, up), far = cut.inward, on.long(cut.width) + _PAST
    yield Stroke(x - _PAST * across, y + _PAST * up, x + far * across, y - far * up, "centre")


def notched(face: Face, cuts: Sequence[Cut], on: OnPaper) -> list[Shape]:
    """The sides of a face with what is cut out of its edges; rounded corners are drawn by themselves."""
    corners = outline_of(face, cuts, lambda size: on.long(size) / on.scale)
    shapes: list[Shape] = []
    for (x1, y1, turns), (x2, y2, _) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if not turns:
            shapes.append(Stroke(
                on.x + x1 * on.scale, on.y - y1 * on.scale, on.x + x2 * on.scale, on.y - y2 * on.scale, "outline",
            ))  # fmt: skip
    return shapes


def rounded(left: Fraction, top: Fraction, wide: Fraction, high: Fraction, radius: Fraction) -> list[Shape]:
    """A rectangle with rounded corners."""
    right, bottom = left + wide, top + high
    shapes: list[Shape] = [Stroke(left + radius, y, right - radius, y, "outline") for y in (top, bottom)]
    shapes += [Stroke(x, top + radius, x, bottom - radius, "outline") for x in (left, right)]
    shapes += [
        Arc(x, y, radius, start, 90, "outline")
        for x, y, start in (
            (right - radius, top + radius, 0), (left + radius, top + radius, 90),
            (left + radius, bottom - radius, 180), (right - radius, bottom - radius, 270),
        )
    ]  # fmt: skip
    return shapes


# Letters


def targets(part: CutPart, on: OnPaper) -> list[Lettering]:
    """What is lettered."""
    return [target for cut in part.cuts for target in _targets(cut, on)]


def _targets(cut: Lettered, on: OnPaper) -> Iterator[Lettering]:
    for n, place in enumerate(cut.cut.at):
        made = cut.cut
        middle = made.middle_of(place) if isinstance(made, Notch) else place
        x, y = on.across(middle[0]), on.up(middle[1])
        reach = _hole_reach(made, on) if isinstance(made, Hole) else on.long(made.width) / 2
        yield Lettering(cut.place_name(n), x, y, reach)


def corner_target(left: Fraction, top: Fraction, radius: Fraction) -> Lettering:
    """The upper left rounded corner, at the middle of its arc."""
    off = radius * (1 - cosine(Fraction(45)))
    return Lettering(CORNER, left + off, top + off, Fraction(0))


def letters(
    named: Sequence[Lettering], drawn: Sequence[Shape], width: Fraction, floor: Fraction
) -> tuple[list[Shape], list[str]]:
    """A letter beside each target where nothing else stands, a line to it where it stands off; and those without room.

    None stands beyond `width` or beneath `floor`.
    """
    if not named:
        return [], []
    ink, text = FreeRoom(), FreeRoom()
    for shape in drawn:
        for spot in spots(shape):
            ink.take(spot)
            if isinstance(shape, Words):
                text.take(spot)
    # A frame about the drawing keeps every letter inside it.
    for left in (-_FRAME, float(width)):
        ink.take((left, -_FRAME, left + _FRAME, _HIGHEST))
    ink.take((-_FRAME, float(floor), float(width) + _FRAME, float(floor) + _FRAME))
    shapes: list[Shape] = []
    without: list[str] = []
    for target in named:
        made = _letter(target, ink, text)
        if made is None:
            without.append(target.name)
            continue
        for shape in made:
            for spot in spots(shape):
                ink.take(spot)
                if isinstance(shape, Words):
                    text.take(spot)
        shapes += made
    return shapes, without


def _letter(target: Lettering, ink: FreeRoom, text: FreeRoom) -> list[Shape] | None:
    wide, tall = text_width(target.name, TEXT), TEXT * Fraction(75, 100)
    for step in range(_STEPS):
        off = target.reach + _NEAR + _STEP * step
        for way_x, way_y in _WAYS:
            near_x, near_y = target.x + way_x * off, target.y + way_y * off
            # The side or corner of the letter that lies towards what it names stands there.
            left = near_x - wide * (1 - _sign(way_x)) / 2
            base = near_y + tall * (1 + _sign(way_y)) / 2
            words = Words(left, base, target.name, TEXT)
            if not all(map(ink.is_free, spots(words))):
                continue
            if not step:
                return [words]
            line = Stroke(
                target.x + way_x * target.reach, target.y + way_y * target.reach,
                near_x - way_x * Fraction(4, 10), near_y - way_y * Fraction(4, 10), "thin",
            )  # fmt: skip
            if all(map(text.is_free, spots(line))) and not any(
                _over(a, b) for a in spots(line) for b in spots(words)
            ):
                return [line, words]
    return None


def _sign(way: Fraction) -> int:
    return (way > 0) - (way < 0)


def _over(a: Spot, b: Spot) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def spots(shape: Shape) -> list[Spot]:
    """Boxes over what is drawn; a circle takes those of its line alone."""
    match shape:
        case Stroke():
            xs, ys = sorted((shape.x1, shape.x2)), sorted((shape.y1, shape.y2))
            thin = 0.2
            return [(float(xs[0]) - thin, float(ys[0]) - thin, float(xs[1]) + thin, float(ys[1]) + thin)]
        case Arc():
            return _along(shape)
        case Words():
            wide, tall, tail = (
                float(text_width(shape.text, shape.size)), float(shape.size) * 0.75, float(shape.size) * 0.22,
            )  # fmt: skip
            x, y = float(shape.x), float(shape.y)
            before = {"start": 0.0, "middle": wide / 2, "end": wide}[shape.anchor]
            if shape.turned:
                return [(x - tall, y + before - wide, x + tail, y + before)]
            return [(x - before, y - tall, x - before + wide, y + tail)]
    return []


def _along(arc: Arc) -> list[Spot]:
    """Boxes over the pieces of an arc."""
    x, y, radius = float(arc.x), float(arc.y), float(arc.radius)
    points = [(x + radius * along, y - radius * up) for along, up in _ways_along(arc.start, arc.sweep)]
    pieces = []
    # The arc leaves its chord by less than this.
    out = 0.2 + radius * 0.01
    for (x1, y1), (x2, y2) in pairwise(points):
        pieces.append((min(x1, x2) - out, min(y1, y2) - out, max(x1, x2) + out, max(y1, y2) + out))
    return pieces


@cache
def _ways_along(start: Number, sweep: Number) -> tuple[tuple[float, float], ...]:
    """Which way each point of an arc lies from its centre, for ink alone."""
    turns = (Fraction(start) + Fraction(sweep) * k / _ARC_PARTS for k in range(_ARC_PARTS + 1))
    return tuple((float(cosine(turn)), float(sine(turn))) for turn in turns)
