"""Drawings as SVG, in millimetres: one unit of the picture is one millimetre on paper."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from html import escape
from itertools import count

from fractions_shop.notation import decimal
from fractions_shop.show.drawing import THICKNESS, Box, Drawing, Number, Shape, Stroke, Words

#: Decimals of a millimetre in the file: a thousandth of what a printer can place.
PLACES = 6
_GAP = 6


def inline(drawing: Drawing, identity: str) -> str:
    """A drawing to stand inside a page, in the page's own colour; `identity` is unique in it."""
    return _svg(drawing, identity, "")


def standalone(drawings: Sequence[Drawing], title: str) -> str:
    """Drawings one below another as a file of its own, black on white."""
    width = max((d.width for d in drawings), default=Fraction(1))
    height = sum((d.height + _GAP for d in drawings), start=Fraction(0)) or Fraction(1)
    top, groups = Fraction(0), []
    for drawing, n in zip(drawings, count(1)):
        body = "".join(_shape(shape) for shape in drawing.shapes)
        groups.append(
            f'<g id="drawing-{n}" transform="translate(0 {_n(top)})">'
            f"<title>{_text(drawing.title)}</title><desc>{_text(drawing.words)}</desc>{body}</g>\n"
        )
        top += drawing.height + _GAP
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}" role="img" color="#000">'
        f"<title>{_text(title)}</title>\n"
        f'<rect width="{_n(width)}" height="{_n(height)}" fill="#fff"/>\n{"".join(groups)}</svg>\n'
    )


def _svg(drawing: Drawing, identity: str, extra: str) -> str:
    name, words = f"{identity}-title", f"{identity}-words"
    body = "".join(_shape(shape) for shape in drawing.shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(drawing.width)}mm" height="{_n(drawing.height)}mm" '
        f'viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" role="img" '
        f'aria-labelledby="{name} {words}"{extra}>'
        f'<title id="{name}">{_text(drawing.title)}</title><desc id="{words}">{_text(drawing.words)}</desc>{body}</svg>'
    )


def _shape(shape: Shape) -> str:
    match shape:
        case Stroke():
            dashes = ' stroke-dasharray="1.5 1"' if shape.kind == "match" else ""
            return (
                f'<line class="{shape.kind}" x1="{_n(shape.x1)}" y1="{_n(shape.y1)}" x2="{_n(shape.x2)}" '
                f'y2="{_n(shape.y2)}" stroke="currentColor" stroke-width="{_n(THICKNESS[shape.kind])}"{dashes}/>'
            )
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
