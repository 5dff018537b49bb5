"""A picture as plain shapes in exact millimetres, y downwards, for every kind of paper."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

Number = Fraction | int

#: How thick each kind of stroke is drawn, in mm.
THICKNESS = {
    "tick": Fraction(12, 100),
    "mark": Fraction(20, 100),
    "bar": Fraction(35, 100),
    "match": Fraction(15, 100),
    "edge": Fraction(15, 100),
    "exact": Fraction(30, 100),
    "thin": Fraction(10, 100),
    "cross": Fraction(18, 100),
    "centre": Fraction(13, 100),
    "outline": Fraction(50, 100),
    "dimension": Fraction(25, 100),
    "hidden": Fraction(26, 100),
}

#: Strokes that are broken: by kind, the lengths of dash and gap in turn, in mm.
DASHES: dict[str, tuple[Number, ...]] = {
    "match": (Fraction(3, 2), 1),
    "centre": (6, 1, 1, 1),
    "hidden": (2, 1),
}

_NARROW = frozenset(" .,:;'|/!()[]ijltfI")
_WIDE = frozenset("mwMW@%&")


@dataclass(frozen=True, slots=True)
class Stroke:
    """A straight line. `kind` names what it stands for and so how thick it is, and whether it is broken."""

    x1: Number
    y1: Number
    x2: Number
    y2: Number
    kind: str = "edge"


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, outlined; `fill` is none, light or hatched."""

    x: Number
    y: Number
    width: Number
    height: Number
    fill: str = "none"
    kind: str = "edge"


@dataclass(frozen=True, slots=True)
class Words:
    """Text of `size` mm on a base line at `y`; `anchor` start, middle or end; turned reads upwards."""

    x: Number
    y: Number
    text: str
    size: Number = Fraction(5, 2)
    anchor: str = "start"
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle about (`x`, `y`), counter-clockwise: from `start` degrees through `sweep`, 360 for all of it.

    Zero degrees lies to the right.
    """

    x: Number
    y: Number
    radius: Number
    start: Number = 0
    sweep: Number = 360
    kind: str = "edge"


Shape = Stroke | Box | Arc | Words


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture of `width` by `height` mm. `words` tells what it shows to those who cannot see it.

    `true_size` says that it is to be printed at 100 %; `drawn_at` is the scale of one that is not full size then, `1:5`.
    """

    width: Number
    height: Number
    title: str
    words: str
    shapes: tuple[Shape, ...]
    true_size: bool = False
    drawn_at: str = ""


@dataclass(frozen=True, slots=True)
class NotDrawn:
    """That there is no picture where one could be looked for, and why, in a few words."""

    why: str


def hatching(box: Box, gap: Number = 2) -> list[Stroke]:
    """Slanting strokes that fill a box, each cut off at its edges."""
    left, top, right, bottom = box.x, box.y, box.x + box.width, box.y + box.height
    strokes = []
    # Each stroke runs up to the right along x + y = offset.
    offset = Fraction(left + top + gap)
    while offset < right + bottom:
        x1, x2 = max(Fraction(left), offset - bottom), min(Fraction(right), offset - top)
        strokes.append(Stroke(x1, offset - x1, x2, offset - x2, "thin"))
        offset += gap
    return strokes


def text_width(text: str, size: Number) -> Fraction:
    """The most room that text takes across, in mm, in any of the faces it is written in."""
    return size * Fraction(sum(map(_hundredths, text)), 100)


def fitting(text: str, width: Number, size: Number) -> str:
    """Text that is no wider, its end left out where it has no room."""
    if text_width(text, size) <= width:
        return text
    most, taken, kept = 100 * Fraction(width) / Fraction(size) - 3 * _hundredths("."), 0, 0
    for sign in text:
        taken += _hundredths(sign)
        if taken > most:
            break
        kept += 1
    return f"{text[:kept].rstrip()}..."


@cache
def _hundredths(sign: str) -> int:
    """The most that a sign takes of its height, over Helvetica, Arial, Liberation Sans and Fira Sans."""
    if sign in _NARROW:
        return 35
    if sign in _WIDE or not sign.isascii():
        return 95
    return 73 if sign.isupper() else 60
