"""Drawings as SVG, in millimetres: one unit of the picture is one millimetre on paper."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from html import escape
from itertools import count, groupby

from fractions_shop.figures.drawing import THICKNESS, Box, Drawing, Number, Shape, Stroke, Words
from fractions_shop.show import own_mark
from fractions_shop.size.notation import decimal

#: Decimals of a millimetre in the file: a thousandth of what a printer can place.
PLACES = 6
_GAP = 6


def inline(drawing: Drawing, identity: str) -> str:
    """A drawing to stand inside a page, in the page's own colour; `identity` is unique in it."""
    name, words = f"{identity}-title", f"{identity}-words"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(drawing.width)}mm" height="{_n(drawing.height)}mm" '
        f'viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" role="img" aria-labelledby="{name} {words}">'
        f'<title id="{name}">{_text(drawing.title)}</title><desc id="{words}">{_text(drawing.words)}</desc>'
        f"{_body(drawing)}</svg>"
    )


def standalone(drawings: Sequence[Drawing], title: str) -> str:
    """Drawings one below another as a file of its own, black on white."""
    width = max((d.width for d in drawings), default=Fraction(1))
    height = sum((d.height + _GAP for d in drawings), start=Fraction(0)) or Fraction(1)
    top, groups = Fraction(0), []
    for drawing, n in zip(drawings, count(1)):
        groups.append(
            f'<g id="drawing-{n}" transform="translate(0 {_n(top)})">'
            f"<title>{_text(drawing.title)}</title><desc>{_text(drawing.words)}</desc>{_body(drawing)}</g>\n"
        )
        top += drawing.height + _GAP
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n{own_mark.COMMENT}\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}" role="img" color="#000">'
        f"<title>{_text(title)}</title>\n"
        f'<rect width="{_n(width)}" height="{_n(height)}" fill="#fff"/>\n{"".join(groups)}</svg>\n'
    )


def _body(drawing: Drawing) -> str:
    """Areas first, then strokes, those of one kind in a group, then words over all of them."""
    drawn_shapes = []
    for (_, kind), shapes in groupby(sorted(drawing.shapes, key=_layer), key=_layer):
        drawn = "".join(map(_shape, shapes))
        if kind:
            dashes = ' stroke-dasharray="1.5 1"' if kind == "match" else ""
            width = _n(THICKNESS[kind])
            drawn = f'<g class="{kind}" stroke="currentColor" stroke-width="{width}"{dashes}>{drawn}</g>'
        drawn_shapes.append(drawn)
    return "".join(drawn_shapes)


def _layer(shape: Shape) -> tuple[int, str]:
    match shape:
        case Box():
            return 0, ""
        case Stroke():
            return 1, shape.kind
    return 2, ""


def _shape(shape: Shape) -> str:
    match shape:
        case Stroke():
            return f'<line x1="{_n(shape.x1)}" y1="{_n(shape.y1)}" x2="{_n(shape.x2)}" y2="{_n(shape.y2)}"/>'
        case Box():
            light = shape.fill == "light"
            return (
                f'<rect class="{shape.kind}" x="{_n(shape.x)}" y="{_n(shape.y)}" width="{_n(shape.width)}" '
                f'height="{_n(shape.height)}" fill="{"currentColor" if light else "none"}" '
                f'fill-opacity="0.15" stroke="currentColor" stroke-width="{_n(THICKNESS[shape.kind])}"/>'
            )
        case Words():
            turn = f' transform="rotate(-90 {_n(shape.x)} {_n(shape.y)})"' if shape.turned else ""
            anchor = "" if shape.anchor == "start" else f' text-anchor="{shape.anchor}"'
            return (
                f'<text x="{_n(shape.x)}" y="{_n(shape.y)}" font-family="Helvetica, Arial, sans-serif" '
                f'font-size="{_n(shape.size)}" fill="currentColor"{anchor}{turn}>{_text(shape.text)}</text>'
            )


def _n(number: Number) -> str:
    return decimal(Fraction(number), PLACES)[0]


def _text(text: str) -> str:
    """Text that is safe in XML: marked up, and without signs that XML forbids."""
    return escape("".join(c if c >= " " or c in "\t\n" else "\ufffd" for c in text))
