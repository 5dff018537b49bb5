"""Holes and slots in a face: what is cut, where, how deep and how wide at the surface.

A rectangular face is counted from its lower left corner, across then up. The end of round, hexagonal
or tubular stock has no corner and is counted from its centre.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.figures.wording import both
from fractions_shop.layout.places import Place, Places, places
from fractions_shop.size.approx import cosine, sine, tangent
from fractions_shop.size.arguments import AngleLike, SizeLike, above_zero, as_angle, as_length
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import worse, worst
from fractions_shop.size.told import Told

Size = Quantity | Limits
#: What a countersink opens by where nothing is said (common practice, no source); it is always told.
USUAL_SINK = Angle(Fraction(90))
NOT_TURNED = Angle(Fraction(0))
#: Cosine and sine of the right angles, which are exact.
_SQUARE = {
    Fraction(degrees): (Fraction(x), Fraction(y))
    for degrees, x, y in ((0, 1, 0), (90, 0, 1), (180, -1, 0), (270, 0, -1))
}
#: The shapes of a face that have no corner to count from.
ROUND_ABOUT = ("round", "hex", "tube")


@dataclass(frozen=True)
class Outline:
    """What one hole or slot takes of the face, in mm: all within `radius` of what lies between `corners`.

    Of a hole these are one point, of a slot with round ends two, of one with square corners those four, in
    turn. `approximate` says that a sine went into them. Of what is open at an edge, `left` is what is left of
    the edge before and behind it (None where it takes off the corner) and behind its floor. `standing` is that
    of the least trusted of its sizes.
    """

    corners: tuple[tuple[Fraction, Fraction], ...]
    radius: Fraction
    approximate: bool = False
    left: tuple[Fraction | None, ...] = ()
    standing: str = ""

    @property
    def middle(self) -> tuple[Fraction, Fraction]:
        """Its centre."""
        xs, ys = zip(*self.corners, strict=True)
        return sum(xs, Fraction(0)) / len(xs), sum(ys, Fraction(0)) / len(ys)


@dataclass(frozen=True, repr=False)
class Hole(Told):
    """Holes of one `diameter` at each of `at`: through, unless they are `deep`.

    `sunk` is the diameter of a countersink at the surface, which opens by `angle`.

    >>> pins = hole("3 mm", ("1/4 in", "1/2 in"))
    >>> [[str(along.inch) for along in place] for place in pins.at], pins.deep
    ([['1/4', '1/2']], None)
    """

    told_as: ClassVar[str] = "hole"

    diameter: Size
    at: tuple[Place, ...]
    deep: Quantity | None = None
    sunk: Quantity | None = None
    angle: Angle | None = None

    @property
    def sink_depth(self) -> Quantity | None:
        """How far down the countersink reaches: half the difference of the diameters over tan(angle/2)."""
        if self.sunk is None or self.angle is None:
            return None
        step = self.sunk - limits_of(self.diameter).nominal
        if self.angle.degrees == 90:
            return step / 2
        made = Quantity(step.mm / 2 / tangent(self.angle.degrees / 2), 1, approximate=True)
        return made.resting_on(step.standing)

    @cached_property
    def outlines(self) -> tuple[Outline, ...]:
        """What each takes at most of the face."""
        widest = max(limits_of(self.diameter).upper.mm, Fraction(0) if self.sunk is None else self.sunk.mm)
        own = worst((self.diameter, self.sunk))
        return tuple(
            Outline(((x.mm, y.mm),), widest / 2, x.approximate or y.approximate, standing=worse(own, worst((x, y))))
            for x, y in self.at
        )  # fmt: skip


@dataclass(frozen=True, repr=False)
class Slot(Told):
    """Slots `length` over all by `width`, the middle of each at one of `at`: with round ends, or `square` corners.

    They lie across, or `turned` from there, counter-clockwise; through, unless they are `deep`.

    >>> finger = slot("1 in", "1/4 in", ("1 in", "1/2 in"))
    >>> [str(along.inch) for along in finger.ends(finger.at[0])[0]]
    ['5/8', '1/2']
    """

    told_as: ClassVar[str] = "slot"

    length: Size
    width: Size
    at: tuple[Place, ...]
    turned: Angle = NOT_TURNED
    deep: Quantity | None = None
    square: bool = False

    @property
    def apart(self) -> Size:
        """From centre to centre of its round ends."""
        return self.length - self.width

    @property
    def way(self) -> tuple[Fraction, Fraction]:
        """Which way it lies: cosine and sine of the angle by which it is turned."""
        square = _SQUARE.get(self.turned.degrees % 360)
        return square or (cosine(self.turned.degrees), sine(self.turned.degrees))

    @property
    def is_turned_off(self) -> bool:
        """Whether it lies neither across nor up, so that where it ends is approximate."""
        return self.turned.degrees % 90 != 0

    def ends(self, place: Place) -> tuple[Place, Place]:
        """The centres of the two round ends of the one at `place`, or the middles of its square ends, nominal."""
        half = limits_of(self.length if self.square else self.apart).nominal / 2
        rounded = self.is_turned_off or half.approximate
        along = [Quantity(half.mm * part, 1, rounded, standing=half.standing) for part in self.way]
        x, y = place
        return (x - along[0], y - along[1]), (x + along[0], y + along[1])

    @cached_property
    def outlines(self) -> tuple[Outline, ...]:
        """What each takes at most of the face."""
        longest, widest = limits_of(self.length).upper.mm, limits_of(self.width).upper.mm
        radius = Fraction(0) if self.square else widest / 2
        return tuple(
            Outline(
                self.corners_at(place, longest, widest), radius, self.is_turned_off or any(each.approximate for each in place),
                standing=worst((self.length, self.width, *place)),
            )
            for place in self.at
        )  # fmt: skip

    def corners_at(
        self, place: Place, long: Fraction, wide: Fraction
    ) -> tuple[tuple[Fraction, Fraction], ...]:
        """What bounds one `long` by `wide`, in mm: the centres of its round ends, or its corners counter-clockwise."""
        (along, up), (x, y) = self.way, (each.mm for each in place)
        if not self.square:
            half = (long - wide) / 2
            return tuple((x + side * half * along, y + side * half * up) for side in (-1, 1))
        corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        return tuple(
            (
                x + (end * long * along - side * wide * up) / 2,
                y + (end * long * up + side * wide * along) / 2,
            )
            for end, side in corners
        )


Cut = Hole | Slot
#: A pair (across, up), several pairs, or what has places.
PlacesLike = Places | Sequence[SizeLike] | Sequence[Sequence[SizeLike]]


def hole(
    diameter: SizeLike | Limits,
    at: PlacesLike,
    *,
    start: Sequence[SizeLike] | None = None,
    deep: SizeLike | None = None,
    sunk: SizeLike | None = None,
    angle: AngleLike | None = None,
) -> Hole:
    """Holes of a diameter at some places: a pair (across, up), several pairs, or what has places.

    They go through unless they are `deep`. `sunk` is the diameter of a countersink at the
    surface, of 90 degrees unless another `angle` is given. `start` is the place that `at` is
    counted from; the datum itself if it is not given.

    ShopError for places of one axis without a start, or a countersink no wider than its hole.

    >>> pins = hole("3 mm", ("1/4 in", "1/4 in"), sunk="6 mm")
    >>> str(pins.sink_depth.mm), pins.angle.degrees
    ('3/2', Fraction(90, 1))
    """
    size = size_of_a_cut(diameter, "the diameter of a hole")
    wide = None if sunk is None else above_zero(sunk, "the diameter of a countersink")
    sunk_by = None if angle is None else as_angle(angle)
    if sunk_by is not None and (wide is None or not 0 < sunk_by.degrees < 180):
        raise ShopError(
            "the angle of a countersink is over 0 and below 180 degrees, and stands with its diameter"
        )
    widest = limits_of(size).upper
    if wide is not None and wide <= widest:
        raise ShopError(f"a countersink of {both(wide, 4)} is no wider than the hole, {both(widest, 4)}")
    depth = None if deep is None else above_zero(deep, "the depth of a hole")
    made = Hole(size, _at(at, start), depth, wide, None if wide is None else sunk_by or USUAL_SINK)
    _refuse_deep_sink(made, depth, "the hole is {} deep")
    return made


def slot(
    length: SizeLike | Limits,
    width: SizeLike | Limits,
    at: PlacesLike,
    *,
    start: Sequence[SizeLike] | None = None,
    turned: AngleLike | None = None,
    deep: SizeLike | None = None,
    square: bool = False,
) -> Slot:
    """Slots, their length over all and their width, each with its middle at a place.

    They have round ends, or `square` corners. Places as of `hole`. ShopError for one with round ends that is not longer than wide.

    >>> slot("1 in", "1/4 in", ("1 in", "1/2 in")).apart.inch
    Fraction(3, 4)
    """
    longest, widest = (
        size_of_a_cut(length, "the length of a slot"),
        size_of_a_cut(width, "the width of a slot"),
    )
    if not square and limits_of(longest).lower <= limits_of(widest).upper:
        raise ShopError("a slot is longer than wide: its length over all stands first, then its width")
    depth = None if deep is None else above_zero(deep, "the depth of a slot")
    return Slot(
        longest, widest, _at(at, start), NOT_TURNED if turned is None else as_angle(turned), depth, square
    )


def size_of_a_cut(value: Any, what: str) -> Size:
    """A length above zero, with or without limits; ShopError for anything else."""
    if isinstance(value, Limits):
        if value.power != 1 or value.lower.value <= 0:
            raise ShopError(f"{what} must be a length above zero")
        return value
    return above_zero(value, what)


def _at(at: PlacesLike, start: Sequence[SizeLike] | None) -> tuple[Place, ...]:
    """Places on two axes from the datum of the face."""
    if start is not None and (isinstance(start, str) or len(start) != 2):
        raise ShopError("places are counted from a place on two axes: give a pair, across and up")
    origin = None if start is None else tuple(map(as_length, start))
    points = _points(at)
    if len(points[0]) == 1:
        if origin is None:
            raise ShopError("these places are on one axis: say how far across and up they are counted from")
        points = tuple((x, Quantity(Fraction(0))) for (x,) in points)
    if origin is None:
        return points
    return tuple((x + origin[0], y + origin[1]) for x, y in points)


def _points(at: PlacesLike) -> tuple[Place, ...]:
    if isinstance(at, Places):
        return at.points
    if hasattr(at, "points") or isinstance(at, str):
        return places(at).points
    if isinstance(at, Sequence) and at and all(_is_size(each) for each in at):
        return places(tuple(at)).points  # type: ignore[arg-type]  # one pair
    return places(*at).points


def _is_size(value: Any) -> bool:
    return isinstance(value, str | Quantity)


def _refuse_deep_sink(made: Hole, room: Quantity | None, what: str) -> None:
    reach = made.sink_depth
    if reach is not None and room is not None and reach > room:
        raise ShopError(f"the countersink reaches {both(reach, 4)} down, and {what.format(both(room, 4))}")


@dataclass(frozen=True, repr=False)
class Face(Told):
    """The face that is cut: `across` by `up`, and how `thick` the part is behind it, where that is known.

    `shape` is empty for a rectangle, else round, hex (`across` flats, which lie above and below) or
    tube, whose `bore` is cut already. `corner` is the radius of all four corners.

    >>> face("2 in", "1 in").datum
    'the lower left corner of its face'
    """

    told_as: ClassVar[str] = "face"

    across: Size
    up: Size
    thick: Size | None = None
    shape: str = ""
    bore: Size | None = None
    corner: Size | None = None

    @property
    def from_centre(self) -> bool:
        """Whether places are counted from its centre; else from its lower left corner."""
        return self.shape in ROUND_ABOUT

    @property
    def datum(self) -> str:
        """What places are counted from, in words."""
        return datum_words(self.from_centre)

    def refuse(self, cut: Cut) -> None:
        """ShopError for what is cut through where it was to be deep, or sunk deeper than the part is thick."""
        if self.thick is None:
            return
        least = limits_of(self.thick).lower
        if cut.deep is not None and cut.deep >= least:
            raise ShopError(
                f"{both(cut.deep, 4)} deep goes through {both(least, 4)}: leave deep out, and it is cut through"
            )
        if isinstance(cut, Hole):
            _refuse_deep_sink(cut, least, "the part is {} thick")


def face(
    across: SizeLike | Limits,
    up: SizeLike | Limits | None = None,
    *,
    thick: SizeLike | Limits | None = None,
    corner: SizeLike | Limits | None = None,
    shape: str = "",
    bore: SizeLike | Limits | None = None,
) -> Face:
    """A face `across` by `up` (square, or as high as it is wide, if only one is given).

    ShopError for a corner radius over half of the lesser side, or on a face without corners.

    >>> face("2 in", "1 in", corner="1/8 in").corner.inch
    Fraction(1, 8)
    """
    if shape not in ("", *ROUND_ABOUT):
        raise ShopError(f"{shape!r} is no shape of a face: leave it out, or say {', '.join(ROUND_ABOUT)}")
    wide = size_of_a_cut(across, "a face")
    tall = wide if up is None or shape else size_of_a_cut(up, "a face")
    if (bore is not None) != (shape == "tube"):
        raise ShopError("a tube has a bore, and nothing else has")
    made = Face(
        wide, tall, None if thick is None else size_of_a_cut(thick, "the thickness"), shape,
        None if bore is None else size_of_a_cut(bore, "the bore"), None if corner is None else size_of_a_cut(corner, "a corner radius"),
    )  # fmt: skip
    if made.corner is not None:
        refuse_corner(made, made.corner)
    return made


def datum_words(from_centre: bool) -> str:
    """What places on a face are counted from, in words."""
    return "the centre of its end" if from_centre else "the lower left corner of its face"


def refuse_corner(made: Face, radius: Size) -> None:
    """ShopError for a corner radius that the face has no room for."""
    if made.from_centre:
        raise ShopError(f"the end of {made.shape} stock has no corners to round")
    least = min(limits_of(made.across).lower, limits_of(made.up).lower)
    most = limits_of(radius).upper
    if most * 2 > least:
        raise ShopError(
            f"a radius of {both(most, 4)} is {both(most - least / 2, 4)} over half of the lesser side, {both(least / 2, 4)}"
        )
