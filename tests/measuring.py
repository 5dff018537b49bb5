"""Lays a rule against drawings as written: strokes of SVG and PDF files, in millimetres.

Nothing here is taken from the package but how thick each kind of stroke is said to be.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from pypdf import PdfReader
from pypdf.generic import ContentStream

from fractions_shop.figures.drawing import THICKNESS

POINT = 25.4 / 72
SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Line:
    """A straight stroke: its ends in mm, y growing upwards, how thick it is, and on which page."""

    x1: float
    y1: float
    x2: float
    y2: float
    thick: float
    dashed: bool
    page: int = 0

    @property
    def upright(self) -> bool:
        return abs(self.x1 - self.x2) < 1e-3 < abs(self.y1 - self.y2)

    @property
    def level(self) -> bool:
        return abs(self.y1 - self.y2) < 1e-3 < abs(self.x1 - self.x2)

    def is_a(self, kind: str) -> bool:
        return abs(self.thick - float(THICKNESS[kind])) < 4e-3 and self.dashed == (kind == "match")


# Reading strokes


def svg_lines(text: str) -> list[Line]:
    """Every line of an SVG file whose user unit is checked to be a millimetre on paper."""
    root = ET.fromstring(text.partition("?>")[2] if text.startswith("<?xml") else text)
    box = [float(v) for v in root.attrib["viewBox"].split()]
    width = float(root.attrib["width"].removesuffix("mm"))
    height = float(root.attrib["height"].removesuffix("mm"))
    assert root.attrib["width"].endswith("mm")
    assert root.attrib["height"].endswith("mm")
    return list(_svg_lines(root, width / box[2], height / box[3], 0.0, 0.0, {}))


def _svg_lines(
    node: ET.Element, across: float, down: float, x: float, y: float, style: dict[str, str]
) -> Iterator[Line]:
    style = {**style, **{k: v for k, v in node.attrib.items() if k.startswith("stroke")}}
    move = node.attrib.get("transform", "")
    if move.startswith("translate"):
        dx, dy = (float(v) for v in move[len("translate(") : -1].split())
        x, y = x + dx, y + dy
    if node.tag == f"{SVG}line":
        x1, y1, x2, y2 = (float(node.attrib[k]) for k in ("x1", "y1", "x2", "y2"))
        yield Line(
            (x1 + x) * across, -(y1 + y) * down, (x2 + x) * across, -(y2 + y) * down,
            float(style["stroke-width"]) * across, "stroke-dasharray" in style,
        )  # fmt: skip
    for child in node:
        yield from _svg_lines(child, across, down, x, y, style)


def pdf_lines(raw: bytes) -> list[Line]:
    """Every straight stroke of a PDF, in mm from the lower left corner of its page."""
    reader = PdfReader(io.BytesIO(raw))
    found: list[Line] = []
    for number, page in enumerate(reader.pages):
        found += _Pen(number, page, reader).lines
    return found


class _Pen:
    """Follows a page's drawing: the matrix, the thickness, dashes, and the point it has reached."""

    def __init__(self, number: int, page: object, reader: PdfReader) -> None:
        self.number = number
        self.lines: list[Line] = []
        self.state = ((1.0, 0.0, 0.0, 1.0, 0.0, 0.0), 1.0, False)
        resources = page["/Resources"].get_object()  # type: ignore[index]
        self.styles = resources.get("/ExtGState", {})
        self.stack: list[tuple[tuple[float, ...], float, bool]] = []
        self.path: list[tuple[float, float, float, float]] = []
        self.at = (0.0, 0.0)
        for operands, operator in ContentStream(page.get_contents(), reader).operations:  # type: ignore[attr-defined]
            self._do(operator, operands)

    def _do(self, operator: bytes, operands: list[object]) -> None:
        matrix, thick, dashed = self.state
        match operator:
            case b"q":
                self.stack.append(self.state)
            case b"Q":
                self.state = self.stack.pop()
            case b"cm":
                self.state = (_times([float(v) for v in operands], matrix), thick, dashed)  # type: ignore[arg-type]
            case b"w":
                self.state = (matrix, float(operands[0]), dashed)  # type: ignore[arg-type]
            case b"d":
                self.state = (matrix, thick, bool(operands[0]))
            case b"gs":
                style = self.styles[operands[0]].get_object()
                self.state = (
                    matrix,
                    float(style.get("/LW", thick)),
                    bool(style["/D"][0]) if "/D" in style else dashed,
                )
            case b"m":
                self.at = (float(operands[0]), float(operands[1]))  # type: ignore[arg-type]
            case b"l":
                to = (float(operands[0]), float(operands[1]))  # type: ignore[arg-type]
                self.path.append((*self.at, *to))
                self.at = to
            case b"S" | b"s" | b"B" | b"b":
                self._stroke()
            case b"n" | b"f" | b"F" | b"f*":
                self.path = []

    def _stroke(self) -> None:
        matrix, thick, dashed = self.state
        scale = abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]) ** 0.5
        for x1, y1, x2, y2 in self.path:
            one, two = _at(x1, y1, matrix), _at(x2, y2, matrix)
            self.lines.append(
                Line(*(v * POINT for v in (*one, *two)), thick * scale * POINT, dashed, self.number)
            )
        self.path = []


def _times(one: list[float], two: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = two
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _at(x: float, y: float, matrix: tuple[float, ...]) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


# Measuring strips


def pieces(lines: list[Line]) -> list[list[Line]]:
    """The strokes of each strip, its calibration bar first, in the order of the pages.

    A strip stands over its bar, from 3 to 46 mm above it.
    """
    bars = [line for line in lines if line.level and line.is_a("bar") and abs(line.x1 - line.x2) < 103]
    found = []
    for bar in sorted(bars, key=lambda line: (line.page, -line.y1)):
        over = [
            line for line in lines
            if line.page == bar.page and line.upright and 3 < (line.y1 + line.y2) / 2 - bar.y1 < 46
        ]  # fmt: skip
        if any(line.is_a("tick") for line in over):  # a drawing of a part has a bar too, and no rule
            found.append([bar, *over])
    return found


def joined(strips: list[list[Line]], kind: str) -> list[float]:
    """The places of one kind of stroke along strips laid together at their match marks, each once.

    The joints are taken in order: a strip's last match mark lies on the next one's first.
    """
    places: list[float] = []
    shift = 0.0
    after: float | None = None
    for strip in strips:
        meets = sorted(line.x1 for line in strip if line.is_a("match"))
        if after is not None:
            shift += after - meets.pop(0)
        after = meets[0] if meets else None
        places += [line.x1 + shift for line in strip if line.upright and line.is_a(kind)]
    places.sort()
    return [p for n, p in enumerate(places) if n == 0 or p - places[n - 1] > 0.02]
