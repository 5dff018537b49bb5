"""The outline of a rectangular face with what is cut out of its edges, counter-clockwise."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction

from fractions_shop.layout.features import Cut, Face, Size
from fractions_shop.layout.notches import Notch
from fractions_shop.size.limits import nominal_of

#: A corner (x, y), and whether the outline goes on from it in a quarter of a circle.
Turning = tuple[Fraction, Fraction, bool]
_NONE = Fraction(0)


def outline_of(face: Face, cuts: Iterable[Cut], mm: Callable[[Size], Fraction]) -> tuple[Turning, ...]:
    """The corners in mm from the lower left one, a size with limits taken as `mm` has it."""
    across, up = mm(face.across), mm(face.up)
    radius = _NONE if face.corner is None else mm(face.corner)
    mouths: dict[str, list[tuple[Fraction, Fraction, Fraction]]] = {}
    for cut in cuts:
        if isinstance(cut, Notch):
            axis = 1 if cut.edge in ("left", "right") else 0
            half, deep, edge_size = mm(cut.length) / 2, mm(cut.width), (face.across, face.up)[axis]
            for place in cut.at:
                begin, end = place[axis].mm - half, place[axis].mm + half
                # One that takes off the corner does so whatever size within the limits is drawn.
                if place[axis] + nominal_of(cut.length) / 2 == nominal_of(edge_size):
                    end = mm(edge_size)
                if place[axis] == nominal_of(cut.length) / 2:
                    begin = _NONE
                mouths.setdefault(cut.edge, []).append((begin, end, deep))
    corners: list[Turning] = []
    # Each edge as it is walked: where it begins, which way it goes, how long it is, and which way is into the face.
    for edge, start, way, length, into in (
        ("lower", (_NONE, _NONE), (1, 0), across, (0, 1)), ("right", (across, _NONE), (0, 1), up, (-1, 0)),
        ("upper", (across, up), (-1, 0), across, (0, -1)), ("left", (_NONE, up), (0, -1), up, (1, 0)),
    ):  # fmt: skip
        backward = way[0] + way[1] < 0
        cut_out = [
            (length - end, length - begin, deep) if backward else (begin, end, deep)
            for begin, end, deep in mouths.get(edge, ())
        ]
        for far, deep, turns in _walked(sorted(cut_out), length, radius):
            corners.append((
                start[0] + far * way[0] + deep * into[0], start[1] + far * way[1] + deep * into[1], turns,
            ))  # fmt: skip
    return tuple(_without_needless(corners)) if mouths else tuple(corners)


def _walked(
    mouths: Sequence[tuple[Fraction, Fraction, Fraction]], length: Fraction, radius: Fraction
) -> Iterator[tuple[Fraction, Fraction, bool]]:
    """One edge: how far along, how deep, and whether a rounded corner begins there."""
    yield radius, _NONE, False
    for begin, end, deep in mouths:
        yield begin, _NONE, False
        yield begin, deep, False
        yield end, deep, False
        yield end, _NONE, False
    if radius:
        yield length - radius, _NONE, True


def _without_needless(corners: list[Turning]) -> list[Turning]:
    """The corners without those on a straight line, and without the spurs that taking off a corner leaves."""
    kept = list(corners)
    n = 0
    while n < len(kept):
        before, here, behind = kept[n - 1], kept[n], kept[(n + 1) % len(kept)]
        straight = not (before[2] or here[2]) and any(
            before[axis] == here[axis] == behind[axis] for axis in (0, 1)
        )
        if straight:
            del kept[n]
            n = max(0, n - 2)
        else:
            n += 1
    return kept
