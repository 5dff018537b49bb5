"""The title block of a drawing: what it is of, its sheet, revision and date if there are such, scale and projection."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Arc, Shape, Stroke, Words, fitting
from fractions_shop.requests.pictures.frame import MARGIN
from fractions_shop.sheet.revisions import Revision
from fractions_shop.show.dimension import TEXT

HEIGHT = Fraction(18)
_ROW = Fraction(6)
#: The columns at the right: how many, scale, revision; then the sign of the projection.
_FACTS, _SIGN = Fraction(36), Fraction(26)
_NAME = Fraction(3)


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
class TitleBlock:
    """One block: the `name` and how it is `made` (3 of brass), the `scale` (1:1), which `sheet` of how many."""

    titles: Titles
    name: str
    made: str
    scale: str
    numbered: str = ""

    def drawn(self, width: Fraction, top: Fraction) -> list[Shape]:
        """The block across a drawing of that width."""
        left, right = MARGIN, width - MARGIN
        facts, sign = right - _SIGN - _FACTS, right - _SIGN
        bottom = top + HEIGHT
        shapes: list[Shape] = [Stroke(left, y, right, y, "dimension") for y in (top, bottom)]
        shapes += [Stroke(x, top, x, bottom, "dimension") for x in (left, facts, sign, right)]
        shapes += [Stroke(left, top + _ROW * k, sign, top + _ROW * k, "thin") for k in (1, 2)]
        names = (
            self.name,
            self.titles.sheet,
            ", ".join(filter(None, ("third-angle projection", self.numbered))),
        )
        facts_told = (self.made, f"scale {self.scale}", self.titles.revised)
        for n, text in enumerate(names):
            size = TEXT if n else _NAME
            shapes.append(_words(left, top + _ROW * (n + 1), text, facts - left, size))
        shapes += [
            _words(facts, top + _ROW * (n + 1), text, _FACTS, TEXT)
            for n, text in enumerate(facts_told)
            if text
        ]
        return [*shapes, *third_angle(sign + _SIGN / 2, top + HEIGHT / 2)]


def _words(left: Fraction, bottom: Fraction, text: str, room: Fraction, size: Fraction) -> Words:
    return Words(left + Fraction(15, 10), bottom - Fraction(19, 10), fitting(text, room - 3, size), size)


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
