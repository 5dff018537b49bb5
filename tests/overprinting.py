"""Finds words of a drawing that lie over others, over strokes, over arcs or off the picture.

How wide words are is measured by another library, in the faces that they are printed in.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import cos, radians, sin

import pytest

from fractions_shop.figures.drawing import Arc, Drawing, Stroke, Words

stringWidth = pytest.importorskip("reportlab.pdfbase.pdfmetrics").stringWidth  # noqa: N816


def face_width(text: str, size: Fraction | int) -> float:
    """How wide text is in Helvetica (as Arial is) and in the face of the PDF, the wider of the two."""
    from fractions_shop.show import fonts

    fonts.load()
    pdf = sum(stringWidth(run, face, float(size)) for face, run in fonts.runs(text))
    return max(stringWidth(text, "Helvetica", float(size)), pdf)


Spot = tuple[float, float, float, float]


def spot(words: Words) -> Spot:
    """The box that words take: capitals stand 0.73 of their size above the line, tails 0.21 below (Helvetica)."""
    long, size, x, y = face_width(words.text, words.size), float(words.size), float(words.x), float(words.y)
    before = {"start": 0.0, "middle": long / 2, "end": long}[words.anchor]
    if words.turned:
        return (x - 0.73 * size, y + before - long, x + 0.21 * size, y + before)
    return (x - before, y - 0.73 * size, x - before + long, y + 0.21 * size)


def over(one: Spot, two: Spot) -> bool:
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


def crosses(arc: Arc, box: Spot) -> bool:
    """Whether an arc goes through a box: tried at so many of its points that none lie 0.1 mm apart."""
    left, top, right, bottom = box
    x, y, r = float(arc.x), float(arc.y), float(arc.radius)
    if x + r < left or x - r > right or y + r < top or y - r > bottom:
        return False
    many = int(r * radians(float(arc.sweep)) / 0.1) + 2
    turns = (radians(float(arc.start) + float(arc.sweep) * k / many) for k in range(many + 1))
    return any(left < x + r * cos(turn) < right and top < y - r * sin(turn) < bottom for turn in turns)


def overprinted(drawing: Drawing) -> list[str]:
    """Words that lie over other words, over a stroke or an arc, or off the picture."""
    words = [(s, spot(s)) for s in drawing.shapes if isinstance(s, Words)]
    faults = [f"{a.text} over {b.text}" for (a, one), (b, two) in combinations(words, 2) if over(one, two)]
    strokes = [
        (s, (float(min(s.x1, s.x2)), float(min(s.y1, s.y2)), float(max(s.x1, s.x2)), float(max(s.y1, s.y2))))
        for s in drawing.shapes
        if isinstance(s, Stroke)
    ]
    arcs = [s for s in drawing.shapes if isinstance(s, Arc)]
    for each, box in words:
        faults += [f"{each.text} over a {s.kind}" for s, line in strokes if over(box, line)]
        faults += [f"{each.text} over an arc, {s.kind}" for s in arcs if crosses(s, box)]
        if box[0] < 0 or box[1] < 0 or box[2] > drawing.width or box[3] > drawing.height:
            faults.append(f"{each.text} off the picture")
    return faults
