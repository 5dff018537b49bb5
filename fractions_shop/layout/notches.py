"""Notches: what is cut out of an edge of a face, open there and square at its floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.figures.wording import both
from fractions_shop.layout.features import NOT_TURNED, Face, Outline, Size, Slot, size_of_a_cut
from fractions_shop.layout.places import Place, Places, places
from fractions_shop.size.arguments import SizeLike
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits, limits_of, nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import worst

#: Each edge, and which way into the face it is from there: across, and up.
EDGES = {"left": (1, 0), "right": (-1, 0), "lower": (0, 1), "upper": (0, -1)}
_UPRIGHT = Angle(Fraction(90))


@dataclass(frozen=True, repr=False)
class Notch(Slot):
    """Notches `length` along an `edge` by `width` into the face `of` it; the middle of each mouth is at one of `at`.

    They go through. The edge is left, right, lower or upper. One that ends where the edge does takes off the corner.

    >>> from fractions_shop.layout.features import face
    >>> ends = notch("1/2 in", "1/4 in", ("1/4 in", "10 3/4 in"), edge="lower", of=face("11 in", "3/4 in"))
    >>> [[str(along.inch) for along in place] for place in ends.at]
    [['1/4', '0'], ['43/4', '0']]
    """

    told_as: ClassVar[str] = "notch"

    edge: str = "lower"
    of: Face | None = None

    @property
    def inward(self) -> tuple[int, int]:
        """Which way into the face: across, and up."""
        return EDGES[self.edge]

    @property
    def _whole(self) -> tuple[Size, Size]:
        """How long the edge is, and how far it is from there to the other."""
        assert self.of is not None
        return (
            (self.of.up, self.of.across) if self.edge in ("left", "right") else (self.of.across, self.of.up)
        )

    def ends(self, place: Place) -> tuple[Place, Place]:
        """The middle of the mouth of the one at `place`, and that of its floor, nominal."""
        return place, self._inside(place, nominal_of(self.width))

    def middle_of(self, place: Place) -> Place:
        """The middle of the one at `place`, nominal."""
        return self._inside(place, nominal_of(self.width) / 2)

    def _inside(self, place: Place, far: Quantity) -> Place:
        x, y = self.inward
        return place[0] + far * x, place[1] + far * y

    def corners_at(
        self, place: Place, long: Fraction, wide: Fraction
    ) -> tuple[tuple[Fraction, Fraction], ...]:
        """The corners of one `long` by `wide`, in mm, counter-clockwise."""
        return super().corners_at(self._inside(place, Quantity(wide / 2, 1)), long, wide)

    @cached_property
    def outlines(self) -> tuple[Outline, ...]:
        """What each takes at most of the face, and what it leaves at either end of its edge and behind its floor."""
        longest, deepest = limits_of(self.length).upper.mm, limits_of(self.width).upper.mm
        edge, across_it = self._whole
        behind = limits_of(across_it).lower.mm - deepest
        return tuple(
            Outline(
                self.corners_at(place, longest, deepest), Fraction(0), any(each.approximate for each in place),
                left=(*self._beside(place, edge), behind), standing=worst((self.length, self.width, *place)),
            )
            for place in self.at
        )  # fmt: skip

    def _beside(self, place: Place, edge: Size) -> tuple[Fraction | None, Fraction | None]:
        """What is left of the edge before and behind one; None where it is to take off the corner."""
        along = place[1 if self.edge in ("left", "right") else 0].mm
        half, most = nominal_of(self.length).mm / 2, limits_of(self.length).upper.mm / 2
        before = None if along == half else along - most
        behind = None if along + half == nominal_of(edge).mm else limits_of(edge).lower.mm - along - most
        return before, behind


def notch(
    width: SizeLike | Limits,
    depth: SizeLike | Limits,
    at: Places | SizeLike | Sequence[SizeLike],
    *,
    edge: str,
    of: Face,
) -> Notch:
    """Notches in an edge of a face: `width` along the edge, `depth` into the face, each with its middle at a distance.

    The `edge` is left, right, lower or upper; distances are counted along it from the lower left corner. ShopError for
    another edge, a face that has none, and a depth that leaves nothing.

    >>> from fractions_shop.layout.features import face
    >>> notch("1/2 in", "1/4 in", ("1 in", "3 in"), edge="upper", of=face("4 in", "1 in")).at[0][1].inch
    Fraction(1, 1)
    """
    if edge not in EDGES:
        raise ShopError(f"{edge!r} is no edge: it is {', '.join([*EDGES][:-1])} or {[*EDGES][-1]}")
    if of.from_centre:
        raise ShopError(f"the end of {of.shape} stock has no edge to cut a notch in")
    wide, deep = size_of_a_cut(width, "the width of a notch"), size_of_a_cut(depth, "the depth of a notch")
    upright = edge in ("left", "right")
    behind = of.across if upright else of.up
    if limits_of(deep).upper >= limits_of(behind).lower:
        raise ShopError(
            f"a notch {both(limits_of(deep).upper, 4)} deep leaves nothing of {both(limits_of(behind).lower, 4)}"
        )
    far = Quantity(Fraction(0)) if edge in ("left", "lower") else nominal_of(behind)
    points = tuple((far, along) if upright else (along, far) for along in _along(at))
    return Notch(wide, deep, points, _UPRIGHT if upright else NOT_TURNED, None, True, edge, of)


def _along(at: Any) -> tuple[Quantity, ...]:
    """Distances on one axis."""
    if not isinstance(at, Places):
        at = places(*([at] if isinstance(at, str | Quantity) else at))
    if any(len(point) != 1 for point in at.points):
        raise ShopError("a notch is placed by its distance along the edge, and these places are on two axes")
    return tuple(point[0] for point in at.points)
