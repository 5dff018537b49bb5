"""A picture as plain shapes in exact millimetres, y downwards, for every kind of paper."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

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
}


@dataclass(frozen=True, slots=True)
class Stroke:
    """A straight line. `kind` names what it stands for and so how thick it is; `match` is dashed."""

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


Shape = Stroke | Box | Words


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture of `width` by `height` mm. `words` tells what it shows to those who cannot see it.

    `true_size` says that it is to be printed at 100 %.
    """

    width: Number
    height: Number
    title: str
    words: str
    shapes: tuple[Shape, ...]
    true_size: bool = False


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
    """About how wide text is, in mm: enough to keep words off one another."""
    return Fraction(len(text)) * size * Fraction(54, 100)
