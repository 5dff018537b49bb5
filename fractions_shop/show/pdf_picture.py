"""A drawing on a page of a PDF, at its own size, and lines of text in faces that have their signs."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from reportlab.lib import colors
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from fractions_shop.figures.drawing import DASHES, THICKNESS, Arc, Box, Drawing, Number, Shape, Stroke, Words
from fractions_shop.show import fonts


class Picture(Flowable):
    """A drawing at its own size."""

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        self.drawing = drawing
        self.width, self.height = points(drawing.width), points(drawing.height)

    def wrap(self, aW: float, aH: float) -> tuple[float, float]:  # noqa: N803 - the library's own names
        """The room it takes, which is never changed to fit."""
        return self.width, self.height

    def draw(self) -> None:
        """Every shape, in points from the lower left corner."""
        self.canv.setStrokeColor(colors.black)
        for shape in self.drawing.shapes:
            _draw(self.canv, shape, self.drawing.height)


def points(size: Number) -> float:
    """Millimetres as points, 72 to the inch."""
    return float(Fraction(size) * 720 / 254)


def _draw(canvas: Canvas, shape: Shape, height: Number) -> None:
    match shape:
        case Stroke():
            _pen(canvas, shape.kind)
            canvas.line(
                points(shape.x1), points(height - shape.y1), points(shape.x2), points(height - shape.y2)
            )
        case Arc():
            _pen(canvas, shape.kind)
            x, y, radius = (points(each) for each in (shape.x, height - shape.y, shape.radius))
            if shape.sweep == 360:
                canvas.circle(x, y, radius)
            else:
                path: Any = canvas.beginPath()
                path.arc(
                    x - radius, y - radius, x + radius, y + radius, float(shape.start), float(shape.sweep)
                )
                canvas.drawPath(path)
        case Box():
            _pen(canvas, shape.kind)
            canvas.setFillColor(colors.Color(0.85, 0.85, 0.85))
            bottom = points(height - shape.y - shape.height)
            canvas.rect(
                points(shape.x),
                bottom,
                points(shape.width),
                points(shape.height),
                stroke=1,
                fill=int(shape.fill == "light"),
            )
        case Words():
            canvas.saveState()
            canvas.setFillColor(colors.black)
            canvas.translate(points(shape.x), points(height - shape.y))
            if shape.turned:
                canvas.rotate(90)
            write(canvas, shape.text, points(shape.size), 0, 0, shape.anchor)
            canvas.restoreState()


def _pen(canvas: Canvas, kind: str) -> None:
    canvas.setLineWidth(points(THICKNESS[kind]))
    canvas.setDash([points(each) for each in DASHES.get(kind, ())])


def write(canvas: Canvas, text: str, size: float, x: float, y: float, anchor: str = "start") -> None:
    """One line of text, each sign in a face that has it."""
    runs = [(face, run, stringWidth(run, face, size)) for face, run in fonts.runs(text)]
    wide = sum(width for _, _, width in runs)
    x -= {"start": 0, "middle": wide / 2, "end": wide}[anchor]
    for face, run, width in runs:
        canvas.setFont(face, size)
        canvas.drawString(x, y, run)
        x += width
