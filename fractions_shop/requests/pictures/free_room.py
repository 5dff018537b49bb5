"""Which of several spots for a label is free: boxes that have been taken, found again by where they lie."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

#: Left, top, right and bottom, in mm. Ink only: no size is made of these.
Spot = tuple[float, float, float, float]

_CELL = 15.0
#: A box of more than this many square millimetres would be kept in too many cells.
_LARGE = 20 * _CELL * _CELL


class FreeRoom:
    """Boxes taken on a picture; a box that touches none of them is free."""

    def __init__(self) -> None:
        self._taken: dict[tuple[int, int], list[Spot]] = defaultdict(list)
        self._large: list[Spot] = []

    def take(self, spot: Spot) -> None:
        """Keep a box for what is drawn there."""
        left, top, right, bottom = spot
        if (right - left) * (bottom - top) > _LARGE:
            self._large.append(spot)
            return
        for cell in _cells(spot):
            self._taken[cell].append(spot)

    def is_free(self, spot: Spot) -> bool:
        """Whether nothing that was taken lies over the box."""
        left, top, right, bottom = spot
        for others in (self._large, *(self._taken.get(cell, ()) for cell in _cells(spot))):
            for other in others:
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    return False
        return True


def _cells(spot: Spot) -> Iterator[tuple[int, int]]:
    left, top, right, bottom = (int(edge // _CELL) for edge in spot)
    for column in range(left, right + 1):
        for row in range(top, bottom + 1):
            yield column, row
