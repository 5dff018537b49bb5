"""Laws of walls: what holes and slots leave standing, against every boundary point tried one by one, in exact rationals."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import cos, radians, sin

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fractions_shop import Angle, Quantity, face, hole, slot, walls
from fractions_shop.layout.features import Cut, Face
from fractions_shop.layout.walls import outside

F = Fraction
Pair = tuple[F, F]
#: Pieces that a line or an arc is tried in: nothing lies further between two of them than a step.
TRIED = 6

mm = st.fractions(F(0), F(40), max_denominator=8)
sizes = st.fractions(F(1, 4), F(8), max_denominator=8)


def length(x: F) -> Quantity:
    return Quantity(x)


@st.composite
def cuts(draw: st.DrawFn) -> Cut:
    at = (length(draw(mm)), length(draw(mm)))
    wide = draw(sizes)
    if draw(st.booleans()):
        return hole(length(wide), at)
    turned = Angle(F(draw(st.sampled_from([0, 90, 180, 270]))))
    return slot(length(wide + draw(sizes)), length(wide), at, turned=turned, square=draw(st.booleans()))


def middle_line(cut: Cut) -> list[Pair]:
    """Places along the middle of a hole or slot, or all over one with square corners, a 6th of it apart, exactly."""
    (outline,) = cut.outlines
    if len(outline.corners) == 4:
        (left, low), (right, high) = outline.corners[0], outline.corners[2]
        return [
            (left + (right - left) * j / TRIED, low + (high - low) * k / TRIED)
            for j in range(TRIED + 1) for k in range(TRIED + 1)
        ]  # fmt: skip
    (x1, y1), (x2, y2) = outline.corners[0], outline.corners[-1]
    steps = 1 if outline.corners[0] == outline.corners[-1] else TRIED
    return [(x1 + (x2 - x1) * k / steps, y1 + (y2 - y1) * k / steps) for k in range(steps + 1)]


def step(cut: Cut) -> F:
    line = middle_line(cut)
    if len(line) > TRIED + 1:
        return max(abs(line[-1][n] - line[0][n]) / TRIED for n in (0, 1))
    return max(abs(line[1][0] - line[0][0]), abs(line[1][1] - line[0][1]))


def radius(cut: Cut) -> F:
    return cut.outlines[0].radius


def squared(a: Pair, b: Pair) -> F:
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2


def boundary(made: Face) -> list[Pair]:
    """Places on the edge of a face, on its corners by the rational points of a circle."""
    wide, tall = made.across.mm, made.up.mm  # type: ignore[union-attr]
    corner = F(0) if made.corner is None else made.corner.mm  # type: ignore[union-attr]
    places = []
    for k in range(TRIED + 1):
        t = F(k, TRIED)
        x, y = corner + (wide - 2 * corner) * t, corner + (tall - 2 * corner) * t
        places += [(x, F(0)), (x, tall), (F(0), y), (wide, y)]
        # (1 - t^2, 2 t) / (1 + t^2) lies on a circle of radius 1, whatever t.
        along, up = corner * (1 - t * t) / (1 + t * t), corner * 2 * t / (1 + t * t)
        for cx, sx in ((corner, -1), (wide - corner, 1)):
            places += [(cx + sx * along, cy + sy * up) for cy, sy in ((corner, -1), (tall - corner, 1))]
    return places


@given(st.lists(cuts(), min_size=2, max_size=5), st.fractions(F(1, 8), F(4), max_denominator=8))
def test_just_the_pairs_nearer_than_a_wall_are_found(listed: list[Cut], wall: F) -> None:
    roomy = face("400 mm", "400 mm")
    moved = [type(cut)(**{**cut.__dict__, "at": tuple((x + length(F(100)), y + length(F(100))) for x, y in cut.at)})
             for cut in listed]  # fmt: skip
    near = {(each.other[0], each.cut) for each in walls(roomy, moved, wall=length(wall)) if each.other}
    for (n, a), (m, b) in combinations(enumerate(moved), 2):
        if a.outlines[0].middle == b.outlines[0].middle:
            assert (n, m) not in near
            continue
        tried = min(squared(p, q) for p in middle_line(a) for q in middle_line(b))
        apart = radius(a) + radius(b) + wall
        if tried < apart * apart:
            assert (n, m) in near  # a place was found that is nearer
        # No place between those tried is nearer than a step of each line.
        slack = apart + step(a) + step(b)
        if tried >= slack * slack:
            assert (n, m) not in near


def square(x: F) -> Cut:
    return slot(length(F(6)), length(F(2)), (length(x), length(F(20))), square=True)


#: The first two run half a millimetre into one another, the second and third leave a tenth between them.
BESIDE = [square(F(10)), square(F(31, 2)), square(F(108, 5))]


@given(st.lists(cuts(), min_size=2, max_size=4))
@example(BESIDE)
@example(BESIDE[::-1])
@example([BESIDE[1], BESIDE[2], BESIDE[0]])
def test_the_thinnest_is_the_least_of_all_pairs_and_edges(listed: list[Cut]) -> None:
    made = face(length(F(200)), length(F(200)))
    every = [walls(made, [cut])[0].left for cut in listed]
    for pair in combinations(listed, 2):
        every += [each.left for each in walls(made, pair)]
    (least,) = walls(made, listed)
    assert least.left == min(every)


@given(st.lists(cuts(), min_size=1, max_size=4), sizes, mm, mm, st.fractions(0, 1, max_denominator=4))
def test_what_is_left_to_the_edge_is_the_least_over_the_whole_edge(
    listed: list[Cut], more: F, x: F, y: F, part: F
) -> None:
    wide, tall = x + more, y + more
    corner = min(wide, tall) / 2 * part
    made = face(length(wide), length(tall), corner=length(corner) if corner else None)
    edge = boundary(made)
    past = {each.cut for each in outside(made, listed)}
    for n, cut in enumerate(listed):
        (least,) = walls(made, [cut])
        ends = cut.outlines[0].corners
        inside = all(corner <= px <= wide - corner and corner <= py <= tall - corner for px, py in ends)
        if inside:
            assert not least.left.approximate
        if all(0 <= px <= wide and 0 <= py <= tall for px, py in ends) and least.left.value >= 0:
            reach = least.left.mm + radius(cut)
            assert all(squared(end, place) >= (reach - F(1, 10**20)) ** 2 for end in ends for place in edge)
        outermost = [(px + sx * radius(cut), py + sy * radius(cut)) for px, py in ends for sx, sy in ((1, 0), (-1, 0), (0, 1), (0, -1))]  # fmt: skip
        if any(not (0 <= px <= wide and 0 <= py <= tall) for px, py in outermost):
            assert n in past
        elif not corner:
            assert n not in past


places = st.fractions(F(-12), F(12), max_denominator=8)


@given(places, places, st.integers(1, 8))
def test_to_the_flats_of_a_hexagon_is_the_least_along_their_six_normals(x: F, y: F, wide: int) -> None:
    """Flats above and below, as a hexagon lies; the normals of the others are 60 degrees apart from theirs."""
    (least,) = walls(face(length(F(26)), shape="hex"), [hole(length(F(wide)), (length(x), length(y)))])
    along = [float(x) * cos(radians(turn)) + float(y) * sin(radians(turn)) for turn in range(30, 390, 60)]
    assert float(least.left.mm) == pytest.approx(13 - max(along) - wide / 2, abs=1e-9)
    assert least.edge == "edge"


@given(cuts(), st.integers(1, 89))
def test_a_turned_slot_is_marked_as_approximate_and_as_long_as_it_was(cut: Cut, degrees: int) -> None:
    if not hasattr(cut, "length") or cut.square:
        return
    turned = slot(cut.length, cut.width, cut.at, turned=Angle(F(degrees)))
    (a, b) = turned.ends(turned.at[0])
    assert a[0].approximate
    long = squared((a[0].mm, a[1].mm), (b[0].mm, b[1].mm))
    assert abs(long - (cut.length.mm - cut.width.mm) ** 2) < F(1, 10**20)  # type: ignore[union-attr]
