"""Drawings as SVG, in millimetres: one unit of the picture is one millimetre on paper."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import count, groupby
from math import ceil

from fractions_shop.figures import html
from fractions_shop.figures.drawing import DASHES, THICKNESS, Arc, Box, Drawing, Number, Shape, Stroke, Words
from fractions_shop.figures.paper import paper_called
from fractions_shop.show import own_mark
from fractions_shop.size.approx import cosine, sine
from fractions_shop.size.notation import decimal

#: Decimals of a millimetre in the file: a thousandth of what a printer can place.
PLACES = 6
_GAP = 6
#: A browser's dot in mm, and three of them: a browser makes every picture whole dots wide and high, and
#: stretches or squeezes one that is not.
_DOT = Fraction(254, 10) / 96
_DOTS = 3 * _DOT
#: What a browser is told to leave on every side when it prints a file of drawings: whole dots too.
_PAGE_MARGIN = Fraction(127, 10)
#: What a drawing keeps off the place where a browser begins a new page, which differs by a dot.
_OFF_BREAK = 2


def inline(drawing: Drawing, identity: str) -> str:
    """A drawing to stand inside a page, in the page's own colour; `identity` is unique in it."""
    name, words = f"{identity}-title", f"{identity}-words"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {_extent(drawing.width, drawing.height)} '
        f'role="img" aria-labelledby="{name} {words}">'
        f'<title id="{name}">{html.text(drawing.title)}</title><desc id="{words}">{html.text(drawing.words)}</desc>'
        f"{_body(drawing)}</svg>"
    )


def standalone(drawings: Sequence[Drawing], title: str, paper: str = "A4") -> str:
    """Drawings one below another as a file of its own, black on white.

    Printed by a browser, it comes out on `paper`, and no page begins in the midst of a drawing.
    """
    chosen = paper_called(paper)
    page = Fraction(ceil(chosen.height / _DOT)) * _DOT - 2 * _PAGE_MARGIN
    width = max((d.width for d in drawings), default=Fraction(1))
    top, bottom, groups = Fraction(0), Fraction(1), []
    for drawing, n in zip(drawings, count(1)):
        left = page - top % page
        if drawing.height + _OFF_BREAK > left and left < page:
            top += left + _OFF_BREAK
        groups.append(
            f'<g id="drawing-{n}" transform="translate(0 {_n(top)})">'
            f"<title>{html.text(drawing.title)}</title><desc>{html.text(drawing.words)}</desc>{_body(drawing)}</g>\n"
        )
        bottom = top + drawing.height
        top = bottom + _GAP
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n{own_mark.COMMENT}\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" {_extent(width, bottom)} role="img" color="#000">'
        f"<title>{html.text(title)}</title>\n"
        f"<style>@page {{ size: {chosen.name}; margin: {_n(_PAGE_MARGIN)}mm; }}</style>\n"
        f'<rect width="{_n(width)}" height="{_n(bottom)}" fill="#fff"/>\n{"".join(groups)}</svg>\n'
    )


def _extent(width: Number, height: Number) -> str:
    """The size of a picture on paper, one unit of it a millimetre, made up to whole dots at the right and below."""
    across, down = (_n(ceil(size / _DOTS) * _DOTS) for size in (width, height))
    return f'width="{across}mm" height="{down}mm" viewBox="0 0 {across} {down}"'


def _body(drawing: Drawing) -> str:
    """Areas first, then strokes, those of one kind in a group, then words over all of them."""
    drawn_shapes = []
    for (_, kind), shapes in groupby(sorted(drawing.shapes, key=_layer), key=_layer):
        drawn = "".join(map(_shape, shapes))
        if kind:
            broken = " ".join(map(_n, DASHES.get(kind, ())))
            dashes = f' stroke-dasharray="{broken}"' if broken else ""
            width = _n(THICKNESS[kind])
            drawn = f'<g class="{kind}" stroke="currentColor" stroke-width="{width}"{dashes}>{drawn}</g>'
        drawn_shapes.append(drawn)
    return "".join(drawn_shapes)


def _layer(shape: Shape) -> tuple[int, str]:
    match shape:
        case Box():
            return 0, ""
        case Stroke() | Arc():
            return 1, shape.kind
    return 2, ""


def _shape(shape: Shape) -> str:
    match shape:
        case Stroke():
            return f'<line x1="{_n(shape.x1)}" y1="{_n(shape.y1)}" x2="{_n(shape.x2)}" y2="{_n(shape.y2)}"/>'
        case Arc():
            return _arc(shape)
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
                f'font-size="{_n(shape.size)}" fill="currentColor"{anchor}{turn}>{html.text(shape.text)}</text>'
            )


def _arc(arc: Arc) -> str:
    if arc.sweep == 360:
        return f'<circle cx="{_n(arc.x)}" cy="{_n(arc.y)}" r="{_n(arc.radius)}" fill="none"/>'
    ends = []
    for degrees in (arc.start, arc.start + arc.sweep):
        turned = Fraction(degrees)
        ends.append(f"{_n(arc.x + arc.radius * cosine(turned))} {_n(arc.y - arc.radius * sine(turned))}")
    radius, large = _n(arc.radius), int(arc.sweep > 180)
    return f'<path d="M {ends[0]} A {radius} {radius} 0 {large} 0 {ends[1]}" fill="none"/>'


def _n(number: Number) -> str:
    if isinstance(number, int):
        return str(number)
    return _written(number.numerator, number.denominator)


@lru_cache(maxsize=20_000)
def _written(above: int, below: int) -> str:
    """A fraction as a decimal; many of a drawing are the same, and whole numbers are found again sooner than fractions."""
    return decimal(Fraction(above, below), PLACES)[0]
