"""The title block of a drawing: what it is of, its sheet, revision and date if there are such, scale and projection."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Arc, Shape, Stroke, Words
from fractions_shop.requests.pictures.frame import MARGIN, folded
from fractions_shop.sheet.revisions import Revision
from fractions_shop.show.dimension import TEXT

#: How high a row of one line is.
_LEAST = Fraction(6)
#: The columns at the right: how many, scale, revision; then the sign of the projection.
_FACTS, _SIGN = Fraction(36), Fraction(26)
_NAME = Fraction(3)
#: From one line of a row to the next, as a part of its letters.
_PITCH = Fraction(13, 10)
#: A title of more lines than this is cut short.
_MOST_LINES = 8


@dataclass(frozen=True)
class Titles:
    """What a drawing bears beside what it is of: the sheet's name, and the revision that stands, if there is one."""

    sheet: str
    revision: Revision | None = None

    @property
    def revised(self) -> str:
        """The revision with its date as far as one is given: `rev B, 3 May 2026`; empty for none."""
        if self.revision is None:
            return ""
        return ", ".join(filter(None, (f"rev {self.revision.label}", self.revision.date)))


NO_TITLES = Titles("")


@dataclass(frozen=True)
class _Entry:
    """A text of the block in lines, and how large its letters are."""

    lines: tuple[str, ...]
    size: Fraction

    @property
    def tall(self) -> Fraction:
        """How high the row is that it takes."""
        return _LEAST + self.size * _PITCH * (len(self.lines) - 1)

    def drawn(self, left: Fraction, top: Fraction) -> list[Shape]:
        """The lines in a row that begins at `top`."""
        first = top + _LEAST - Fraction(19, 10)
        return [
            Words(left + Fraction(15, 10), first + self.size * _PITCH * n, line, self.size)
            for n, line in enumerate(self.lines)
            if line
        ]


@dataclass(frozen=True)
class TitleBlock:
    """One block: the `name` and how it is `made` (3 of brass), the `scale` (1:1), which sheet of how many."""

    titles: Titles
    name: str
    made: str
    scale: str
    numbered: str = ""

    def height(self, width: Fraction) -> Fraction:
        """How high it is across a drawing of that width: a long title takes more lines."""
        return sum((max(left.tall, right.tall) for left, right in self._rows(width)), Fraction(0))

    def drawn(self, width: Fraction, top: Fraction) -> list[Shape]:
        """The block across a drawing of that width."""
        left, right = MARGIN, width - MARGIN
        facts, sign = right - _SIGN - _FACTS, right - _SIGN
        y, shapes = top, list[Shape]()
        for named, fact in self._rows(width):
            if y > top:
                shapes.append(Stroke(left, y, sign, y, "thin"))
            shapes += [*named.drawn(left, y), *fact.drawn(facts, y)]
            y += max(named.tall, fact.tall)
        shapes += [Stroke(left, level, right, level, "dimension") for level in (top, y)]
        shapes += [Stroke(x, top, x, y, "dimension") for x in (left, facts, sign, right)]
        return [*shapes, *third_angle(sign + _SIGN / 2, (top + y) / 2)]

    def _rows(self, width: Fraction) -> list[tuple[_Entry, _Entry]]:
        room = width - 2 * MARGIN - _SIGN - _FACTS
        projection = ", ".join(filter(None, ("third-angle projection", self.numbered)))
        return [
            (_told(self.name, room, _NAME), _told(self.made, _FACTS, TEXT)),
            (_told(self.titles.sheet, room, TEXT), _told(f"scale {self.scale}", _FACTS, TEXT)),
            (_told(projection, room, TEXT), _told(self.titles.revised, _FACTS, TEXT)),
        ]


def _told(text: str, room: Fraction, size: Fraction) -> _Entry:
    return _Entry(tuple(folded(text, room - 3, size, _MOST_LINES)), size)


def third_angle(x: Fraction, y: Fraction) -> list[Shape]:
    """The sign of third-angle projection (ISO 5456-2): a cone cut short, and at its left its end as seen from there."""
    circles, cone = x - 6, x + 6
    small, large, half = Fraction(2), Fraction(4), Fraction(5)
    shapes: list[Shape] = [Arc(circles, y, radius, kind="bar") for radius in (small, large)]
    left, right = cone - half, cone + half
    shapes += [
        Stroke(left, y - small, left, y + small, "bar"), Stroke(right, y - large, right, y + large, "outline"),
        Stroke(left, y - small, right, y - large, "bar"), Stroke(left, y + small, right, y + large, "outline"),
    ]  # fmt: skip
    shapes += [
        Stroke(circles - large - 1, y, circles + large + 1, y, "centre"),
        Stroke(left - 1, y, right + 1, y, "centre"),
        Stroke(circles, y - large - 1, circles, y + large + 1, "centre"),
    ]
    return shapes
