"""Places on one or two axes from one datum: unequal marks, pairs, rows and grids."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar, Protocol, overload

from fractions_shop.errors import DimensionError, ShopError
from fractions_shop.figures.wording import both
from fractions_shop.layout.chain import Axis, marked_by
from fractions_shop.layout.circle import Point
from fractions_shop.layout.room import NOTHING
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, as_length
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_rule, multiple, rung
from fractions_shop.size.told import Told

_AXES = ("across", "up")
_MOST = 10_000
#: What a metric machine is told its coordinates to.
_STEP = Quantity(Fraction(1, 1000))

Place = tuple[Quantity, ...]


class HasPoints(Protocol):
    """What has places of its own, such as what `mark` and `places` give."""

    @property
    def points(self) -> tuple[Any, ...]:
        """The places: distances, pairs or points."""


@dataclass(frozen=True)
class Coordinates:
    """Places rounded to whole steps in mm, for a machine; `worst` is the largest rounding on each axis.

    A tie goes to the even step.
    """

    points: tuple[Place, ...]
    step: Quantity
    worst: tuple[Quantity, ...]


@dataclass(frozen=True, repr=False)
class Places(Told):
    """Places from one datum: `points`, each one distance or two (across, then up).

    `axes` holds the running and chain figures of each axis as read on `rule`, every
    coordinate once and rising; `along` the whole length of each axis where it is known. `names`
    says what the marks of a `mark` are called, where that is not their number from 1. It is a
    sequence of its points.

    >>> [tuple(map(str, point)) for point in places(across=(2, "1 in"), up=(2, "1/2 in"))]
    [('0 in', '0 in'), ('1 in', '0 in'), ('0 in', '1/2 in'), ('1 in', '1/2 in')]
    """

    told_as: ClassVar[str] = "places"

    points: tuple[Place, ...]
    rule: Rule
    axes: tuple[Axis, ...]
    along: tuple[Quantity | None, ...]
    names: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.points)

    def __iter__(self) -> Iterator[Place]:
        return iter(self.points)

    @overload
    def __getitem__(self, place: int) -> Place: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[Place, ...]: ...
    def __getitem__(self, place: int | slice) -> Place | tuple[Place, ...]:
        return self.points[place]

    @property
    def read(self) -> tuple[Place, ...]:
        """The points as read on the rule, in their order."""
        return tuple(tuple(rung(x, self.rule).size for x in point) for point in self.points)

    @property
    def worst(self) -> tuple[Quantity, ...]:
        """The largest error of any running figure, for each axis."""
        return tuple(axis.running.worst for axis in self.axes)

    def numbers(self, axis: int) -> tuple[tuple[int, ...], ...]:
        """The places, by their numbers from 1, that each running figure of an axis belongs to."""
        return tuple(numbers for _, numbers in marked_by(point[axis] for point in self.points))

    @property
    def alike(self) -> tuple[tuple[int, ...], ...]:
        """The numbers of places that are one and the same, where some are."""
        by_marks: dict[tuple[int, ...], list[int]] = {}
        ranks = [
            {n: rank for rank, numbers in enumerate(self.numbers(axis)) for n in numbers}
            for axis in range(len(self.axes))
        ]
        for n in range(1, len(self.points) + 1):
            by_marks.setdefault(tuple(rank[n] for rank in ranks), []).append(n)
        return tuple(tuple(numbers) for numbers in by_marks.values() if len(numbers) > 1)

    def coordinates(self, step: SizeLike = _STEP) -> Coordinates:
        """The points in whole steps, a thousandth of a millimetre if nothing is said."""
        size = above_zero(step, "the step of the coordinates")
        points = tuple(tuple(Quantity(multiple(x.mm, size.mm)) for x in point) for point in self.points)
        pairs = [zip(new, old, strict=True) for new, old in zip(points, self.points, strict=True)]
        errors = [tuple(abs(a - b) for a, b in pair) for pair in pairs]
        return Coordinates(points, size, tuple(map(max, zip(*errors, strict=True))))

    def moved(self, *by: SizeLike) -> Places:
        """The same places from a datum so far back on each axis: what `from X, Y` does.

        The whole lengths belong to the old datum and are no longer known.
        """
        shift = _place(by if len(by) > 1 else by[0] if by else ())
        if len(shift) != len(self.axes):
            raise ShopError(f"these places have {_axes_in_words(len(self.axes))}: give as many distances")
        points = tuple(tuple(x + d for x, d in zip(point, shift, strict=True)) for point in self.points)
        return _places(points, self.rule, (None,) * len(shift), self.names)


def places(
    *marks: SizeLike | Sequence[SizeLike] | Point | HasPoints,
    rule: Rule | str | None = None,
    along: SizeLike | Sequence[SizeLike] | None = None,
    across: tuple[int, SizeLike] | None = None,
    up: tuple[int, SizeLike] | None = None,
    first: SizeLike | Sequence[SizeLike] | None = None,
) -> Places:
    """Places of one or two axes from one datum, with their figures on `rule` (64ths if not said).

    `marks` are lengths (one axis), pairs of lengths (across, up) or the points of a
    `bolt_circle`; or one thing that has points of its own, such as what `mark` gives.
    In place of marks, `across=(6, "1 in")` is a row of 6 at that pitch and
    `up=(3, "2 in")` makes a grid of it, row by row from the lowest; `first` is where the
    first stands, one distance or a pair, zero if not given. `along` is the whole
    length, or a pair of whole lengths, which no place may pass.

    ShopError for places of one and two axes together, or outside the whole length.

    >>> hinges = places("1 1/2 in", "7 in", "15 3/8 in", along="18 in")
    >>> [str(size.inch) for size in hinges.axes[0].chain.exact], str(hinges.axes[0].rest.inch)
    (['11/2', '67/8'], '21/8')
    >>> tray = places(across=(3, "2 in"), up=(2, "1 in"), first=("1/2 in", "3/4 in"))
    >>> [tuple(str(size.inch) for size in point) for point in tray.points][:4]
    [('1/2', '3/4'), ('5/2', '3/4'), ('9/2', '3/4'), ('1/2', '7/4')]
    """
    if across is None:
        if up is not None or first is not None:
            raise ShopError("up and first belong to a row or grid: say how many across too")
        points, own = _listed(marks)
    else:
        if marks:
            raise ShopError("either the marks themselves or a row across is given")
        points, own = _grid(across, up, first), None
    ruled = Rule("64ths") if rule is None and own is None else as_rule(rule or own or "64ths")
    return _places(points, ruled, _whole(along, len(points[0])), _names(marks))


def _names(marks: tuple[Any, ...]) -> tuple[str, ...]:
    """What the places of one thing are called there, where that is not their number from 1."""
    alone = marks[0] if len(marks) == 1 and not isinstance(marks[0], Places) else None
    names = tuple(getattr(alone, "names", ()))
    return () if names == tuple(map(str, range(1, len(names) + 1))) else names


def _places(
    points: tuple[Place, ...], rule: Rule, along: tuple[Quantity | None, ...], names: tuple[str, ...] = ()
) -> Places:
    columns = list(zip(*points, strict=True))
    for name, column, whole in zip(_AXES, columns, along, strict=False):
        if whole is None:
            continue
        for x in column:
            if not NOTHING <= x <= whole:
                raise ShopError(f"{both(x)} {name} lies outside the whole length, {both(whole)}")
    axes = tuple(Axis.of(column, rule, whole) for column, whole in zip(columns, along, strict=True))
    return Places(points, rule, axes, along, names)


def _listed(marks: tuple[Any, ...]) -> tuple[tuple[Place, ...], Rule | None]:
    """The points given one by one, or those of one thing with points, and its rule."""
    own = None
    if len(marks) == 1 and hasattr(marks[0], "points"):
        own, marks = getattr(marks[0], "rule", None), marks[0].points
    if not 1 <= len(marks) <= _MOST:
        raise ShopError(f"places are 1 to {_MOST:,} distances or pairs, not {len(marks):,}")
    points = tuple(map(_place, marks))
    if len(set(map(len, points))) > 1:
        raise ShopError("some of these places are one distance and some are pairs: give all alike")
    return points, own


def _place(mark: Any) -> Place:
    if isinstance(mark, Point):
        return mark.x, mark.y
    if isinstance(mark, Sequence) and not isinstance(mark, str):
        if not 1 <= len(mark) <= len(_AXES):
            raise ShopError(f"a place is one distance or a pair, across and up, not {len(mark)} of them")
        return tuple(map(as_length, mark))
    return (as_length(mark),)


def _grid(across: Any, up: Any, first: Any) -> tuple[Place, ...]:
    start = (NOTHING,) if first is None else _place(first)
    columns, pitch = _row(across, "across")
    if up is None:
        rest = start[1:]
        return tuple((start[0] + pitch * k, *rest) for k in range(columns))
    rows, rise = _row(up, "up")
    if columns * rows > _MOST:
        raise ShopError(f"a grid has at most {_MOST:,} places, and this one would have {columns * rows:,}")
    base = start[1] if len(start) > 1 else NOTHING
    return tuple((start[0] + pitch * k, base + rise * n) for n in range(rows) for k in range(columns))


def _row(row: Any, way: str) -> tuple[int, Quantity]:
    if not isinstance(row, tuple) or len(row) != 2:
        raise ShopError(f'how many {way} and their pitch are given together: {way}=(6, "1 in")')
    return as_count(row[0], f"how many {way}", _MOST), above_zero(row[1], f"the pitch {way}")


def _whole(along: Any, axes: int) -> tuple[Quantity | None, ...]:
    if along is None:
        return (None,) * axes
    lengths = _place(along)
    if len(lengths) > axes:
        raise DimensionError("these places have one axis, so one whole length")
    whole = tuple(above_zero(length, "the whole length") for length in lengths)
    return whole + (None,) * (axes - len(whole))


def _axes_in_words(axes: int) -> str:
    return "one axis" if axes == 1 else "two axes"
