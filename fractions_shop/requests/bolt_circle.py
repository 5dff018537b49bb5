"""The points of a bolt circle, by their coordinates."""

from __future__ import annotations

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    both_cell,
)
from fractions_shop.requests.expression import PlacesResult
from fractions_shop.requests.rooms import Room


def _lines(result: PlacesResult) -> Lines:
    """Coordinates of several points from the centre."""
    rows = tuple((str(n), both_cell(p.x, 5), both_cell(p.y, 5)) for n, p in enumerate(result.points, 1))
    return [
        Table(rows, ("", "to the right", "upward")),
        "from the centre; roots and angles make these approximate",
    ]


ROOM = Room(
    word="places",
    forms=("bolt_circle(N, DIAMETER, ANGLE)",),
    example="bolt_circle(6, 2 in, 0 deg)",
    lines=_lines,
)
