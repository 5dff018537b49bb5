"""Running dimensions: distances from one datum, along the top and up the right of a view, none over another.

ISO 129-1 in general terms: the datum is marked with a small circle, and each figure stands at the end of
its own extension line, bent aside where its neighbour is near.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fractions_shop.figures.drawing import Arc, Shape, Stroke, Words, text_width
from fractions_shop.figures.wording import ends_in_mm_alone
from fractions_shop.show.dimension import LINE, TEXT
from fractions_shop.size.notation import inch_text, mm_leads, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of

#: From one figure to the next: two lines and a little air.
PITCH = Fraction(7)
#: More figures than this along one side are left to the table.
MOST = 16
#: Where an extension line begins, bends, ends, and where its figure begins, from the outline.
_BEGINS, _BENDS, _ENDS, _TEXT_FROM = Fraction(1), Fraction(3), Fraction(7), Fraction(8)
#: From the middle of a figure to the line that its first letters stand on.
_FIRST = Fraction(6, 10)
_DATUM = Fraction(12, 10)


def both_units(size: Quantity) -> tuple[str, str]:
    """A distance as a drawing has it: inches over millimetres, or the other way about, as where only these end."""
    inch, mm = inch_text(size.unmarked, 4), mm_text(size.unmarked, 4)
    first, second = (mm, inch) if mm_leads(ends_in_mm_alone(size, 4)) else (inch, mm)
    return first, f"{second}{mark_of(size.standing)}"


@dataclass(frozen=True)
class Running:
    """The running figures of one side: `sizes` from the datum, rising, and where each stands on paper."""

    sizes: tuple[Quantity, ...]
    at: tuple[Fraction, ...]
    too_many: bool = False

    @classmethod
    def of(cls, sizes: Iterable[Quantity], has_room: bool = True) -> Running:
        """Each different distance once, and zero, which is the datum itself; none where there are too many.

        There are too many without room for any, too. Where they stand is not known yet.
        """
        rising = sorted({*sizes, Quantity(Fraction(0))})
        if len(rising) > (MOST if has_room else 1):
            return TOO_MANY
        return cls(tuple(rising) if len(rising) > 1 else (), ())

    def placed(self, place: Callable[[Quantity], Fraction]) -> Running:
        """The same where they stand on paper."""
        return replace(self, at=tuple(map(place, self.sizes))) if self.sizes else self

    @property
    def bunched(self) -> bool:
        """Whether the figures take more than twice the room that what they are of takes: their lines would lie in a fan."""
        if not self.at:
            return False
        return PITCH * (len(self.at) - 1) > 2 * abs(self.at[-1] - self.at[0]) + PITCH

    @property
    def lines(self) -> tuple[tuple[str, ...], ...]:
        """What each figure says."""
        return tuple(both_units(size) if size.value else ("0",) for size in self.sizes)

    @property
    def reach(self) -> Fraction:
        """How far the longest figure reaches from the outline."""
        if not self.sizes:
            return Fraction(0)
        return _TEXT_FROM + max(text_width(line, TEXT) for lines in self.lines for line in lines) + 1

    def along_top(self, top: Fraction, least: Fraction) -> list[Shape]:
        """The figures above an outline whose top is at `top`, reading upwards, none to the left of `least`."""
        shapes: list[Shape] = []
        for x, middle, lines in zip(self.at, spread(self.at, PITCH, least), self.lines, strict=True):
            shapes += [
                Stroke(x, top - _BEGINS, x, top - _BENDS, "dimension"),
                Stroke(x, top - _BENDS, middle, top - _ENDS, "dimension"),
            ]
            shapes += [
                Words(middle + offset, top - _TEXT_FROM, line, TEXT, turned=True)
                for offset, line in zip(_offsets(lines), lines, strict=True)
            ]
        return shapes

    def farthest(self, least: Fraction) -> Fraction:
        """Where the last figure along the top ends."""
        return spread(self.at, PITCH, least)[-1] + PITCH / 2 if self.at else Fraction(0)

    def up_the_right(self, right: Fraction, top: Fraction) -> list[Shape]:
        """The figures beside an outline whose right is at `right`, none above `top`."""
        shapes: list[Shape] = []
        for y, middle, lines in zip(self._down, self._spread_down(top), reversed(self.lines), strict=True):
            shapes += [
                Stroke(right + _BEGINS, y, right + _BENDS, y, "dimension"),
                Stroke(right + _BENDS, y, right + _ENDS, middle, "dimension"),
            ]
            shapes += [
                Words(right + _TEXT_FROM, middle + offset, line, TEXT)
                for offset, line in zip(_offsets(lines), lines, strict=True)
            ]
        return shapes

    def lowest(self, top: Fraction) -> Fraction:
        """Where the last figure down the right ends."""
        return self._spread_down(top)[-1] + PITCH / 2 if self.at else Fraction(0)

    @property
    def _down(self) -> tuple[Fraction, ...]:
        """Heights on paper from the top: y falls as the distance from the datum grows."""
        return tuple(reversed(self.at))

    def _spread_down(self, top: Fraction) -> list[Fraction]:
        return spread(self._down, PITCH, top + PITCH / 2)


TOO_MANY = Running((), (), too_many=True)


def datum_mark(x: Fraction, y: Fraction) -> Arc:
    """The small circle about a datum."""
    return Arc(x, y, _DATUM, kind="dimension")


def _offsets(lines: Sequence[str]) -> list[Fraction]:
    """Where the lines of a figure stand, from its middle."""
    if len(lines) == 1:
        return [Fraction(9, 10)]
    return [LINE * n - _FIRST for n in range(len(lines))]


def spread(places: Sequence[Fraction], pitch: Fraction, least: Fraction) -> list[Fraction]:
    """Rising places moved apart to `pitch` with the least squares of moving, none below `least`.

    >>> [str(place) for place in spread([Fraction(0), Fraction(1), Fraction(20)], Fraction(4), Fraction(-9))]
    ['-3/2', '5/2', '20']
    """
    groups: list[list[Fraction]] = []  # each a sum of places less what their turn takes, and a number
    for n, place in enumerate(places):
        groups.append([place - pitch * n, Fraction(1)])
        while len(groups) > 1 and groups[-2][0] / groups[-2][1] >= groups[-1][0] / groups[-1][1]:
            total, many = groups.pop()
            groups[-1] = [groups[-1][0] + total, groups[-1][1] + many]
    apart = [total / many for total, many in groups for _ in range(int(many))]
    return [max(place, least) + pitch * n for n, place in enumerate(apart)]
