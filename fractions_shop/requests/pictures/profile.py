"""The profile of a crown: its supports side by side, stepped, under the arc that they carry."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import floor

from fractions_shop.figures.drawing import Box, Drawing, NotDrawn, Shape, Stroke, Words, text_width
from fractions_shop.figures.wording import both, rule_word
from fractions_shop.layout.circle import drop
from fractions_shop.layout.curve import Crown
from fractions_shop.size.notation import mm_leads, size_text
from fractions_shop.size.quantity import Quantity

#: More supports than this are left to the table.
MOST_SUPPORTS = 40

_WIDTH, _SIDE = Fraction(160), Fraction(12)
#: The most that the tallest support takes, and what stands above it: the title and a little air.
_TALLEST, _ABOVE = Fraction(40), Fraction(10)
_POINTS = 48
_TEXT, _UPRIGHT = Fraction(24, 10), Fraction(22, 10)


def profile(crown: Crown, title: str) -> Drawing | NotDrawn:
    """A picture of the heights as read, and of the arc; not of more supports than can be told apart.

    Spacing and heights have each their own scale, and the picture says which.
    """
    if not 2 <= crown.count <= MOST_SUPPORTS:
        return NotDrawn(f"no profile is drawn of {crown.count} supports: it shows 2 to {MOST_SUPPORTS}")
    across = _scale((_WIDTH - 2 * _SIDE - 6) / crown.span.mm)
    tallest = max(*(h.mm for h in crown.read), *(h.mm for h in crown.exact))
    if tallest <= 0:
        return NotDrawn("no profile is drawn of supports without height")
    upright = _scale(_TALLEST / tallest)
    base = _ABOVE + round(max(tallest, _summit(crown)) * upright, 2)
    shapes: list[Shape] = [Words(_SIDE, 5, title[:90], 3)]
    supports, below = _supports(crown, base, across, upright)
    shapes += supports
    shapes += _arc(crown, base, across, upright)
    shapes.append(Stroke(_SIDE / 2, base, _WIDTH - _SIDE / 2, base, "bar"))
    shapes.append(Words(_SIDE, base + below + 5, f"spacing drawn {_times(across)}, heights {_times(upright)}; "
                        "the curve is the exact arc", _TEXT))  # fmt: skip
    return Drawing(_WIDTH, base + below + 8, title, _in_words(crown), tuple(shapes))


def _scale(most: Fraction) -> Fraction:
    """The largest plain scale not over `most`: a whole number, or one over a whole number."""
    return Fraction(floor(most)) if most >= 1 else Fraction(1, -floor(-1 / most))


def _times(scale: Fraction) -> str:
    if scale == 1:
        return "to size"
    return f"{scale} times size" if scale > 1 else f"at 1/{scale.denominator} of size"


def _supports(
    crown: Crown, base: Fraction, across: Fraction, upright: Fraction
) -> tuple[list[Shape], Fraction]:
    """The supports, each with its height, and how far the figures reach below them.

    Every one is labelled: beneath where they stand far enough apart, else upright within, and where the
    shortest has no room for that upright beneath.
    """
    width = min(crown.across.mm * across * Fraction(7, 10), Fraction(14))
    flat, metric = crown.across.mm * across >= 14, crown.rule.metric
    labels = [size_text(height, metric, 2 if mm_leads(metric) else 4) for height in crown.read]
    longest = max(text_width(label, _UPRIGHT) for label in labels)
    within = min(height.mm for height in crown.read) * upright > longest + 3
    shapes: list[Shape] = []
    for place, height, label in zip(crown.places, crown.read, labels, strict=True):
        x, top = _WIDTH / 2 + place.mm * across, base - height.mm * upright
        if height.value > 0:
            shapes.append(Box(x - width / 2, top, width, base - top, "light"))
        if flat:
            shapes.append(Words(x, base + 4, label, _TEXT, "middle"))
        elif within:
            shapes.append(Words(x + Fraction(8, 10), base - 2, label, _UPRIGHT, turned=True))
        else:
            shapes.append(Words(x + Fraction(8, 10), base + 2, label, _UPRIGHT, "end", turned=True))
    return shapes, Fraction(4) if flat or within else longest + 2


def _summit(crown: Crown) -> Fraction:
    """How high the arc's own highest point lies, in mm: a support's exact height plus its drop."""
    return (crown.exact[0] + crown.drops[0]).mm


def _arc(crown: Crown, base: Fraction, across: Fraction, upright: Fraction) -> list[Shape]:
    """The arc that the exact heights follow, as a chain of short strokes."""
    half = crown.span / 2
    summit, middle = _summit(crown), _WIDTH / 2
    points = []
    for k in range(_POINTS + 1):
        x = Quantity(half.mm * Fraction(2 * k - _POINTS, _POINTS))
        fall = drop(x, crown.radius).mm
        # Six figures after the point are far finer than ink, and keep the file small.
        points.append((middle + x.mm * across, round(base - (summit - fall) * upright, 6)))
    return [Stroke(x1, y1, x2, y2, "exact") for (x1, y1), (x2, y2) in pairwise(points)]


def _in_words(crown: Crown) -> str:
    heights = ", ".join(size_text(height, crown.rule.metric) for height in crown.read)
    fitted = ""
    if crown.fitted_radius is not None:
        fitted = f" On the {rule_word(crown.rule)} they fit a radius of {both(crown.fitted_radius, 4)}."
    return (
        f"{crown.count} supports at a pitch of {both(crown.across)} under an arc of radius "
        f"{both(crown.radius)}; heights from left to right {heights}.{fitted}"
    )
