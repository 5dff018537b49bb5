"""Dimensions of a drawing: lines with arrows and their figures, none over another (ISO 129-1 in general terms)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Shape, Stroke, Words, text_width

TEXT, LINE = Fraction(24, 10), Fraction(32, 10)
#: An arrow is so long, and opens so far to either side.
_ARROW, _OPENS = Fraction(25, 10), Fraction(6, 10)
#: What an extension line leaves free at the outline, and how far it goes past the dimension line.
_GAP, _PAST = Fraction(1), Fraction(15, 10)
#: From a dimension line to the figure over it.
_OVER = Fraction(9, 10)
#: How far a dimension line goes on past an arrow that stands outside.
_TAIL = Fraction(5)


@dataclass(frozen=True)
class Figured:
    """What a dimension says, in lines, the leading unit first."""

    lines: tuple[str, ...]

    @property
    def wide(self) -> Fraction:
        """The room of its longest line."""
        return max(text_width(line, TEXT) for line in self.lines)

    @property
    def tall(self) -> Fraction:
        """The room that its lines take, one over another."""
        return LINE * len(self.lines) + _OVER

    def overhang(self, length: Fraction) -> Fraction:
        """How far it reaches past the second end of a dimension of that length; nothing where it stands within."""
        return Fraction(0) if self.wide + 2 * _ARROW + 1 <= length else self.wide + _TAIL + 1


def across(
    figured: Figured, left: Fraction, right: Fraction, outline: Fraction, line: Fraction
) -> list[Shape]:
    """A level dimension at height `line` under an outline that ends at `outline`, its figure over the line."""
    over = figured.overhang(right - left)
    middle = (left + right) / 2 if not over else right + _TAIL + figured.wide / 2
    shapes: list[Shape] = [
        Stroke(place, outline + _GAP, place, line + _PAST, "dimension") for place in (left, right)
    ]
    shapes += _level(left, right, line, over)
    shapes += [
        Words(middle, line - _OVER - LINE * n, text, TEXT, "middle")
        for n, text in enumerate(reversed(figured.lines))
    ]
    return shapes


def _level(left: Fraction, right: Fraction, y: Fraction, over: Fraction) -> list[Stroke]:
    start, end, way = (left, right, 1) if not over else (left - _TAIL, right + over, -1)
    strokes = [Stroke(start, y, end, y, "dimension")]
    for x, turn in ((left, way), (right, -way)):
        strokes += [Stroke(x, y, x + turn * _ARROW, y + side * _OPENS, "dimension") for side in (-1, 1)]
    return strokes


def upright(
    figured: Figured, bottom: Fraction, top: Fraction, outline: Fraction, line: Fraction
) -> list[Shape]:
    """An upright dimension at `line`, on either side of an outline that ends at `outline`; its figure reads upwards.

    The figure stands to the left of its line.
    """
    over = figured.overhang(bottom - top)
    middle = (bottom + top) / 2 if not over else top - _TAIL - figured.wide / 2
    aside = 1 if line > outline else -1
    shapes: list[Shape] = [
        Stroke(outline + aside * _GAP, place, line + aside * _PAST, place, "dimension")
        for place in (bottom, top)
    ]
    start, end, way = (bottom, top, -1) if not over else (bottom + _TAIL, top - over, 1)
    shapes.append(Stroke(line, start, line, end, "dimension"))
    for y, turn in ((bottom, way), (top, -way)):
        shapes += [Stroke(line, y, line + side * _OPENS, y + turn * _ARROW, "dimension") for side in (-1, 1)]
    shapes += [
        Words(line - _OVER - LINE * n, middle + text_width(text, TEXT) / 2, text, TEXT, turned=True)
        for n, text in enumerate(reversed(figured.lines))
    ]
    return shapes
