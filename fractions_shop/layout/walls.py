"""What holes and slots leave standing of a face: to its edge, to its bore, and between one another.

Whether a wall is thick enough is decided exactly: a root is only taken of what is told, and one that
does not end can be no rational wall. Of sizes with limits the worst of them counts.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from fractions_shop.errors import ArgumentError
from fractions_shop.layout.features import Cut, Face, Outline
from fractions_shop.size.approx import square_root
from fractions_shop.size.arguments import SizeLike, above_zero
from fractions_shop.size.limits import limits_of
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worst
from fractions_shop.size.told import Told

_Pair = tuple[Fraction, Fraction]
_Side = tuple[_Pair, _Pair]
_NONE = Fraction(0)


@dataclass(frozen=True, repr=False)
class Wall(Told):
    """What is left between a hole or slot (`cut`, `place`, both counted from 0) and what is nearest there.

    `other` is another one, as (cut, place), or None where it is the face's `edge`, named edge or bore.
    `left` is below zero where one runs into the other.

    >>> from fractions_shop.layout.features import face, hole
    >>> (thin,) = walls(face("2 in", "1 in"), [hole("1/8 in", ("1/8 in", "1/2 in"))])
    >>> thin.edge, str(thin.left.inch)
    ('edge', '1/16')
    """

    told_as: ClassVar[str] = "wall"

    cut: int
    place: int
    left: Quantity
    other: tuple[int, int] | None = None
    edge: str = "edge"


class Walls(Told, tuple[Wall, ...]):
    """Walls in turn, those to the edge first; empty where none is thinner than was asked.

    >>> from fractions_shop.layout.features import face, hole
    >>> walls(face("2 in", "1 in"), [hole("1/8 in", ("1/8 in", "1/2 in"))])
    <Walls: 1/16 in (1.5875 mm) between cut 1 place 1 and the edge>
    """

    __slots__ = ()

    told_as: ClassVar[str] = "walls"

    def as_data(self) -> dict[str, tuple[Wall, ...]]:
        """What they tell, by name."""
        return {"walls": tuple(self)}


def walls(face: Face, cuts: Sequence[Cut], *, wall: SizeLike | None = None) -> Walls:
    """The walls that are thinner than `wall`, edges first; without one the thinnest there is.

    Holes about one centre, as those of a step, have no wall between them.

    >>> from fractions_shop.layout.features import face, hole
    >>> frame = face("2 in", "1 in")
    >>> [str(thin.left.inch) for thin in walls(frame, [hole("1/8 in", ("1/8 in", "1/2 in"))])]
    ['1/16']
    """
    if not isinstance(face, Face) or not isinstance(cuts, Sequence):
        raise ArgumentError(
            "walls are those of a face and of a list of what is cut in it: walls(plate, [pins])"
        )
    outlines = [(n, k, outline) for n, cut in enumerate(cuts) for k, outline in enumerate(cut.outlines)]
    at_edges = [_at_edge(face, *each) for each in outlines]
    if wall is not None:
        least = above_zero(wall, "a wall")
        thin = [each for each in at_edges if each.left < least]
        return Walls((*thin, *_between(outlines, least.mm)))
    if not outlines:
        return Walls()
    every = [*at_edges, *_thinnest(outlines, min(each.left.mm for each in at_edges))]
    return Walls([min(every, key=lambda each: each.left)])


def outside(face: Face, cuts: Sequence[Cut]) -> tuple[Wall, ...]:
    """What reaches past the edge, or into the bore, and by how much (below zero)."""
    return tuple(each for each in _at_edges(face, cuts) if each.left.value < 0)


def touching(face: Face, cuts: Sequence[Cut]) -> tuple[Wall, ...]:
    """What just reaches the edge, or the bore, so that no wall is left."""
    return tuple(each for each in _at_edges(face, cuts) if each.left.value == 0)


def running_together(cuts: Sequence[Cut]) -> tuple[Wall, ...]:
    """Holes and slots that run into one another."""
    outlines = [(n, k, outline) for n, cut in enumerate(cuts) for k, outline in enumerate(cut.outlines)]
    return tuple(_between(outlines, _NONE))


# To the edge


def _at_edges(face: Face, cuts: Sequence[Cut]) -> Iterator[Wall]:
    for n, cut in enumerate(cuts):
        yield from (_at_edge(face, n, k, outline) for k, outline in enumerate(cut.outlines))


def _at_edge(face: Face, cut: int, place: int, outline: Outline) -> Wall:
    left, edge, root = min(_gaps(face, outline), key=lambda gap: gap[0])
    standing = worst((outline, face.across, face.up, face.bore, face.corner))
    return Wall(cut, place, Quantity(left, 1, root or outline.approximate, None, standing), None, edge)


def _gaps(face: Face, outline: Outline) -> Iterator[tuple[Fraction, str, bool]]:
    """What is left to each edge that could be nearest, what it is, and whether that is approximate.

    A face is convex, so the nearest place of a slot is one of its ends or corners.
    """
    ends = outline.corners
    if outline.left:
        yield from _beside_a_mouth(face, outline)
        return
    if not face.from_centre:
        for end in ends:
            for left, root in _in_rectangle(face, *end):
                yield left - outline.radius, "edge", root
        return
    half = limits_of(face.across).lower.mm / 2
    if face.shape == "hex":
        for end in ends:
            for left, root in _in_hexagon(half, *end):
                yield left - outline.radius, "edge", root
        return
    far, root = max(_length(*end) for end in ends)
    yield half - far - outline.radius, "edge", root
    if face.bore is not None:
        near, root = _root(_apart_squared(Outline(((_NONE, _NONE),), _NONE), outline))
        yield near - limits_of(face.bore).upper.mm / 2 - outline.radius, "bore", root


def _beside_a_mouth(face: Face, outline: Outline) -> Iterator[tuple[Fraction, str, bool]]:
    """What is left beside one that is open at an edge; where it takes off the corner nothing is to be left."""
    radius = _NONE if face.corner is None else limits_of(face.corner).upper.mm
    *beside, behind = outline.left
    assert behind is not None
    yield behind, "edge", False
    for left in beside:
        if radius and (left is None or left < radius):
            yield (left or _NONE) - radius, "rounded corner", False
        elif left is not None:
            yield left, "edge", False


def _in_rectangle(face: Face, x: Fraction, y: Fraction) -> Iterator[tuple[Fraction, bool]]:
    wide, tall = limits_of(face.across).lower.mm, limits_of(face.up).lower.mm
    aside, up = min(x, wide - x), min(y, tall - y)
    yield min(aside, up), False
    radius = _NONE if face.corner is None else limits_of(face.corner).upper.mm
    if aside < radius and up < radius:
        far, root = _length(radius - aside, radius - up)
        yield radius - far, root


def _in_hexagon(half: Fraction, x: Fraction, y: Fraction) -> Iterator[tuple[Fraction, bool]]:
    """To the flats above and below, then to the slanting ones, whose direction has a root of three in it."""
    yield half - abs(y), False
    if x:
        yield half - abs(y) / 2 - abs(x) * square_root(Fraction(3)) / 2, True
    else:
        yield half - abs(y) / 2, False


def _length(x: Fraction, y: Fraction) -> tuple[Fraction, bool]:
    return _root(x * x + y * y)


def _root(square: Fraction) -> tuple[Fraction, bool]:
    """A root, and whether it is approximate."""
    root = square_root(square)
    return root, root * root != square


# Between one another


def _between(outlines: Sequence[tuple[int, int, Outline]], wall: Fraction) -> Iterator[Wall]:
    """The walls thinner than `wall`, the later of the two first, in the order of the later ones."""
    thin = [_wall(*pair) for pair in _near(outlines, wall) if _is_nearer(pair[0][2], pair[1][2], wall)]
    return iter(sorted(thin, key=lambda each: (each.cut, each.place, each.other)))


def _near(
    outlines: Sequence[tuple[int, int, Outline]], wall: Fraction
) -> Iterator[tuple[tuple[int, int, Outline], tuple[int, int, Outline]]]:
    """Pairs that lie no further apart across than `wall`, thin by going along the face."""
    along = sorted(((*_reach(each[2]), each) for each in outlines), key=lambda item: item[0])
    for n, (_, right, first) in enumerate(along):
        for left, _, second in along[n + 1 :]:
            if left - right >= wall:
                break
            if first[2].middle != second[2].middle:
                yield first, second


def _reach(outline: Outline) -> _Pair:
    xs = [corner[0] for corner in outline.corners]
    return min(xs) - outline.radius, max(xs) + outline.radius


def _is_nearer(a: Outline, b: Outline, wall: Fraction) -> bool:
    apart = a.radius + b.radius + wall
    if not apart:
        return _overlap(a, b)[0] > 0
    return apart > 0 and _apart_squared(a, b) < apart * apart


def _wall(a: tuple[int, int, Outline], b: tuple[int, int, Outline]) -> Wall:
    first, later = sorted((a, b), key=lambda each: each[:2])
    apart, root = _root(_apart_squared(a[2], b[2]))
    radii = a[2].radius + b[2].radius
    if not apart and not radii:
        over, root = _overlap(a[2], b[2])
        radii = max(over, _NONE)
    rounded = root or a[2].approximate or b[2].approximate
    left = Quantity(apart - radii, 1, rounded, None, worst((a[2], b[2])))
    return Wall(later[0], later[1], left, first[:2])


def _thinnest(outlines: Sequence[tuple[int, int, Outline]], most: Fraction) -> list[Wall]:
    """The thinnest wall between two, of those below `most`; none where there is no such."""
    best: Wall | None = None
    for a, b in _near(outlines, max(_NONE, most)):
        if _is_nearer(a[2], b[2], most if best is None else best.left.mm):
            best = _wall(a, b)
    return [] if best is None else [best]


def _apart_squared(a: Outline, b: Outline) -> Fraction:
    """The square of the least distance between what lies within the corners of two: zero where they meet."""
    if len(a.corners) == len(b.corners) == 1:
        return _square(a.corners[0], b.corners[0])
    sides_a, sides_b = _sides(a), _sides(b)
    if _holds(a, b.corners[0]) or _holds(b, a.corners[0]):
        return _NONE
    if any(_cross(first, second) for first in sides_a for second in sides_b):
        return _NONE
    return min(
        *(_to_side(corner, side) for corner in a.corners for side in sides_b),
        *(_to_side(corner, side) for corner in b.corners for side in sides_a),
    )


def _overlap(a: Outline, b: Outline) -> tuple[Fraction, bool]:
    """How far two with square corners would have to be moved apart, and whether that is approximate.

    Zero or less where they do not overlap: some side of one has all of the other beyond it.
    """
    least: tuple[Fraction, bool] | None = None
    for outline in (a, b):
        for (x1, y1), (x2, y2) in _sides(outline)[:2]:
            along = [x1 - x2, y1 - y2]
            spans = [[along[0] * x + along[1] * y for x, y in each.corners] for each in (a, b)]
            over = min(max(spans[0]) - min(spans[1]), max(spans[1]) - min(spans[0]))
            length, root = _length(along[0], along[1])
            if least is None or over / length < least[0]:
                least = over / length, root
    assert least is not None
    return least


def _sides(outline: Outline) -> tuple[_Side, ...]:
    """From each corner to the next: one side of no length for a point, one for a line."""
    corners = outline.corners
    return tuple(zip(corners, (*corners[1:], corners[0]), strict=True))[: None if len(corners) > 2 else 1]


def _holds(outline: Outline, point: _Pair) -> bool:
    """Whether a point lies within square corners, which go about them counter-clockwise."""
    return len(outline.corners) > 2 and all(_aside(side, point) >= 0 for side in _sides(outline))


def _square(a: _Pair, b: _Pair) -> Fraction:
    x, y = a[0] - b[0], a[1] - b[1]
    return x * x + y * y


def _to_side(point: _Pair, side: _Side) -> Fraction:
    """The square of the distance from a point to the nearest place of a side."""
    start, end = side
    x, y = end[0] - start[0], end[1] - start[1]
    length = x * x + y * y
    if not length:
        return _square(point, start)
    part = ((point[0] - start[0]) * x + (point[1] - start[1]) * y) / length
    part = min(max(part, _NONE), Fraction(1))
    return _square(point, (start[0] + x * part, start[1] + y * part))


def _cross(a: _Side, b: _Side) -> bool:
    """Whether two sides cross, ends left out: those are measured from."""
    return _aside(a, b[0]) * _aside(a, b[1]) < 0 and _aside(b, a[0]) * _aside(b, a[1]) < 0


def _aside(side: _Side, point: _Pair) -> Fraction:
    """Above zero for a point at the left of a side, as one goes along it."""
    (start, end) = side
    x, y = end[0] - start[0], end[1] - start[1]
    return x * (point[1] - start[1]) - y * (point[0] - start[0])
