"""What a machine is to cut and drill: outlines, holes, slots and places at full size, exact, in millimetres.

Each part stands as it is set out, X to the right and Y upward from its own datum. A size with limits is
taken at one that lies within them, as on the drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.figures.wording import both
from fractions_shop.layout.features import Face, Hole, Size, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.sheet.cut_parts import CutPart, Lettered
from fractions_shop.sheet.doubts import Doubts
from fractions_shop.sheet.lacking import lacking, numbered
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.show.feature_table import square_words
from fractions_shop.show.notched_outline import outline_of
from fractions_shop.show.part_table import part_note
from fractions_shop.show.place_table import named_places
from fractions_shop.show.size_table import UNDONE, limit_figures, size_within
from fractions_shop.size.approx import square_root
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_words, is_sound, worst

#: tan(90 deg / 4) and tan(180 deg / 4): how far an arc of a quarter, and of a half circle, bulges from its chord.
_QUARTER, _HALF = square_root(Fraction(2)) - 1, Fraction(1)
_STRAIGHT = Fraction(0)


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle about (`x`, `y`)."""

    x: Fraction
    y: Fraction
    radius: Fraction


@dataclass(frozen=True, slots=True)
class Loop:
    """A closed line through corners, each (x, y, bulge): from there the line runs on straight, or in an arc.

    The bulge is the tangent of a quarter of the arc's angle, above zero to the left, as in the file.
    """

    corners: tuple[tuple[Fraction, Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Middle:
    """A place: the middle of what is cut there."""

    x: Fraction
    y: Fraction


@dataclass(frozen=True, slots=True)
class Layered:
    """A shape, and the `layer` that says what is to be done there: its `kind`, and the tool where one is meant."""

    kind: str
    layer: str
    shape: Ring | Loop | Middle


@dataclass(frozen=True, slots=True)
class CutRow:
    """A hole, slot or place as it stands in a list: what it is called, the tool, how deep, and where, from the datum."""

    called: str
    what: str
    x: Fraction
    y: Fraction


@dataclass(frozen=True, slots=True)
class Machined:
    """One part, or the places of one name: its shapes, the list of what stands where, and its datum in words.

    `doubtful` is what must be known before it is cut; `box` is left, bottom, right and top of its outline,
    `told` are the figures in mm that stand in words, `note` what its line asks for beside them. `limited` tells of each
    shape that has a size with limits, and `from_the_face` says that something is deep or sunk.
    """

    name: str
    made: str
    line: int
    datum: str
    shapes: tuple[Layered, ...]
    rows: tuple[CutRow, ...]
    box: tuple[Fraction, Fraction, Fraction, Fraction]
    told: tuple[Fraction, ...] = ()
    outline: str = ""
    limited: tuple[str, ...] = ()
    from_the_face: bool = False
    approximate: bool = False
    doubtful: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class MachinePlan:
    """All of a sheet that a machine can cut, and the parts that have nothing for it, with why."""

    title: str
    parts: tuple[Machined, ...]
    left_out: tuple[tuple[str, str], ...]


def machine_plan(sheet: WorkedSheet, only: str | None = None) -> MachinePlan:
    """What a machine is to cut of a sheet, or of the one part or places called `only`.

    ShopError where there is nothing for it, and for a name that is none of them.
    """
    warnings = _Warnings(sheet.doubts, sheet.worked)
    parts: list[Machined] = []
    left_out = [
        (item.line.part_name or f"line {item.line.number}", UNDONE)
        for item in sheet.worked
        if item.undone and item.line.kind == "part"
    ]
    for name, cut in sheet.cut_parts.items():
        why = _not_machined(cut)
        if why:
            left_out.append((name, why))
        else:
            parts.append(_part(cut, warnings))
    for item in sheet.worked:
        made = named_places(item)
        if made is not None:
            points = [
                (_mm(point[0]), _mm(point[1]) if len(point) > 1 else Fraction(0)) for point in made.points
            ]
            sizes = [size for point in made.points for size in point]
            approximate = any(size.approximate for size in sizes)
            doubtful = warnings.of([item.line.number], sizes)
            parts.append(_places(item.line.sets, item.line.number, points, approximate, doubtful))
    if only is not None:
        parts = [each for each in parts if each.name.casefold() == " ".join(only.split()).casefold()]
        if not parts:
            why = next((why for name, why in left_out if name.casefold() == only.casefold()), "")
            raise ShopError(f"{only}: {why}" if why else f"no part and no places here are called {only}")
    if not parts:
        raise ShopError(
            "nothing in this sheet is for a machine: a flat part, a part with holes, or named places"
        )
    return MachinePlan(sheet.heading, tuple(parts), tuple(left_out) if only is None else ())


class _Warnings:
    """What is said of a part whose lines may not be the ones meant, or that lacks what a line at fault cuts in it."""

    def __init__(self, doubts: Doubts, worked: Sequence[Worked]) -> None:
        self.doubts = doubts
        self.lacking = lacking(worked)

    def of(self, lines: Sequence[int], sizes: Iterable[Size], part: str = "") -> str:
        said = []
        if part and (lacks := self.lacking.said_of(part)):
            said.append(lacks)
        if doubtful := self.doubts.doubtful.intersection(lines):
            said.append(f"DOUBTFUL, see the sheet, {numbered(doubtful)}")
        if moved := self.doubts.of_moved.intersection(lines):
            said.append(f"RESTS ON A MOVED TOTAL, see the sheet, {numbered(moved)}")
        if believed := self.doubts.of_belief.intersection(lines):
            said.append(f"RESTS ON A BELIEF, see the sheet, {numbered(believed)}")
        standing = worst(sizes)
        if not is_sound(standing):
            said.append(f"{in_words(standing)}, see the sheet")
        return "; ".join(said)


def _not_machined(cut: CutPart) -> str:
    """Why there is nothing for a machine in a part; empty where there is."""
    if cut.face is None:
        return "it has no face of two sizes"
    if cut.is_cut:
        return ""
    if cut.part.screw:
        return f"it is bought, as {cut.part.screw}"
    if cut.part.section:
        return "it is cut from a bar, and nothing is cut in its end"
    sizes = [nominal_of(size) for size in cut.part.sizes]
    if len(sizes) > 2 and sizes[2] > max(sizes[:2]):
        return "its first two sizes are the section of a bar, and nothing is cut in its end"
    return ""


def _mm(size: Size) -> Fraction:
    """A size in mm; with limits one that lies within them, as it is drawn."""
    return (size_within(size, False) if isinstance(size, Limits) else size).mm


# A part


def _part(cut: CutPart, warnings: _Warnings) -> Machined:
    face, part = cut.face, cut.part
    assert face is not None
    outline = tuple(_outline(face, cut.cuts))
    shapes: list[Layered] = [Layered("outline", "OUTLINE", shape) for shape in outline]
    rows: list[CutRow] = []
    for lettered in cut.cuts:
        shapes += _cut_shapes(lettered)
        rows += _rows(lettered)
    sizes = [size for size in (face.across, face.up, face.corner, face.bore) if size is not None]
    sizes += [size for each in cut.cuts for size in each.feature.sizes]
    lines = [cut.line, *(line for line, _ in cut.features)]
    return Machined(
        part.name, _made(part, face), cut.line, face.datum, tuple(shapes), tuple(rows), _box(outline),
        told=tuple(map(_mm, sizes)), outline=_outline_words(face), limited=tuple(_limited(face, cut.cuts)),
        from_the_face=cut.has_one_face,
        approximate=any(size.approximate for size in sizes) or any(
            size.approximate for each in cut.cuts for place in each.cut.at for size in place
        ),
        doubtful=warnings.of(lines, (*sizes, *(size for each in cut.cuts for place in each.cut.at for size in place)), part.name),
        note=part_note(part),
    )  # fmt: skip


def _made(part: Part, face: Face) -> str:
    made = f"{part.count:,} of {part.material}" if part.material else f"{part.count:,}"
    if face.thick is None:
        return made
    within = f" ({limit_figures(face.thick)[1]} mm)" if isinstance(face.thick, Limits) else ""
    return f"{made}, {both(nominal_of(face.thick), 4)}{within} {'long' if part.section else 'thick'}"


def _outline_words(face: Face) -> str:
    said = f"{_told(face.across)} by {_told(face.up)}"
    if face.shape == "hex":
        return f"hexagon, {_told(face.across)} across flats, which lie above and below"
    if face.shape in ("round", "tube"):
        said = f"diameter {_told(face.across)}"
        return said if face.bore is None else f"{said}, bore {_told(face.bore)}"
    return said if face.corner is None else f"{said}, corners of radius {_told(face.corner)}"


def _outline(face: Face, lettered: Sequence[Lettered]) -> Iterator[Ring | Loop]:
    across = _mm(face.across)
    zero = Fraction(0)
    if face.shape in ("round", "tube"):
        yield Ring(zero, zero, across / 2)
        if face.bore is not None:
            yield Ring(zero, zero, _mm(face.bore) / 2)
    elif face.shape == "hex":
        half = across / 2
        corner = across / square_root(Fraction(3))  # from the centre to a corner
        ends = ((corner, zero), (corner / 2, half), (-corner / 2, half),
                (-corner, zero), (-corner / 2, -half), (corner / 2, -half))  # fmt: skip
        yield Loop(tuple((x, y, _STRAIGHT) for x, y in ends))
    else:
        cuts = [each.cut for each in lettered]
        yield Loop(tuple(
            (x, y, _QUARTER if turns else _STRAIGHT) for x, y, turns in outline_of(face, cuts, _mm)
        ))  # fmt: skip


def _cut_shapes(lettered: Lettered) -> Iterator[Layered]:
    cut = lettered.cut
    if isinstance(cut, Notch):
        return  # the outline has it
    deep = "" if cut.deep is None else f"_DEEP_{_named(cut.deep.mm)}"
    for place in cut.at:
        x, y = place[0].mm, place[1].mm
        if isinstance(cut, Hole):
            size = _mm(cut.diameter)
            yield Layered("drill", f"DRILL_{_named(size)}{deep}", Ring(x, y, size / 2))
            if cut.sunk is not None and cut.angle is not None:
                opens = f"SINK_{_named(cut.sunk.mm)}_ANGLE_{_named(cut.angle.degrees)}"
                yield Layered("sink", opens, Ring(x, y, cut.sunk.mm / 2))
        else:
            square = "_SQUARE" if cut.square else ""
            yield Layered("slot", f"SLOT_{_named(_mm(cut.width))}{square}{deep}", _slot(cut, place))
        yield Layered("centre", "CENTRE", Middle(x, y))


def _named(number: Fraction) -> str:
    """A figure as it stands in the name of a layer, to a thousandth."""
    return decimal(number, 3)[0]


def _limited(face: Face, cuts: Sequence[Lettered]) -> Iterator[str]:
    """What has a size with limits, in words: the outline, and what is cut."""
    if any(isinstance(size, Limits) for size in (face.across, face.up, face.corner, face.bore)):
        yield f"outline {_outline_words(face)}"
    for lettered in cuts:
        if any(isinstance(size, Limits) for size in lettered.feature.sizes):
            yield from (f"{row.called}: {row.what}" for row in list(_rows(lettered))[:1])


def _told(size: Size) -> str:
    """A figure as it stands in the list, with the limits that it must come out between, rounded inward."""
    within = f" ({limit_figures(size)[1]})" if isinstance(size, Limits) else ""
    return f"{_named(_mm(size))}{within}"


def _slot(slot: Slot, place: Sequence[Quantity]) -> Loop:
    """Two straight sides, and a half circle round either end or square corners, counter-clockwise."""
    if slot.square:
        corners = slot.corners_at((place[0], place[1]), _mm(slot.length), _mm(slot.width))
        return Loop(tuple((x, y, _STRAIGHT) for x, y in corners))
    half, radius = (_mm(slot.length) - _mm(slot.width)) / 2, _mm(slot.width) / 2
    cosine, sine = slot.way
    x, y = place[0].mm, place[1].mm

    def at(along: Fraction, aside: Fraction, bulge: Fraction) -> tuple[Fraction, Fraction, Fraction]:
        return x + along * cosine - aside * sine, y + along * sine + aside * cosine, bulge

    return Loop((
        at(-half, -radius, _STRAIGHT), at(half, -radius, _HALF), at(half, radius, _STRAIGHT), at(-half, radius, _HALF),
    ))  # fmt: skip


def _rows(lettered: Lettered) -> Iterator[CutRow]:
    cut, feature = lettered.cut, lettered.feature
    deep = "through" if cut.deep is None else f"{_named(cut.deep.mm)} deep"
    if isinstance(cut, Hole):
        tool = f"drill {_told(cut.diameter)}"
        called = feature.called[0] if feature.called else ""
        called = called or (f"{feature.purpose} {feature.thread}" if feature.thread else "")
        what = f"{tool} ({called})" if called else tool
        if cut.sunk is not None and cut.angle is not None:
            deep += f", sunk {_named(cut.sunk.mm)} at {_named(cut.angle.degrees)} deg"
    elif isinstance(cut, Notch):
        what = f"notch {_told(cut.length)} wide, {_told(cut.width)} into the {cut.edge} edge, at its middle"
    else:
        turned = f", turned {_named(cut.turned.degrees)} deg" if cut.turned.degrees else ""
        what = f"slot {_told(cut.length)} by {_told(cut.width)}{square_words(cut)}{turned}"
    for n, place in enumerate(cut.at):
        yield CutRow(lettered.place_name(n), f"{what}, {deep}", place[0].mm, place[1].mm)


def _box(outline: Sequence[Ring | Loop]) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    xs: list[Fraction] = []
    ys: list[Fraction] = []
    for shape in outline:
        if isinstance(shape, Ring):
            xs += [shape.x - shape.radius, shape.x + shape.radius]
            ys += [shape.y - shape.radius, shape.y + shape.radius]
        else:  # the arcs of an outline never go past its corners
            xs += [x for x, _, _ in shape.corners]
            ys += [y for _, y, _ in shape.corners]
    return min(xs), min(ys), max(xs), max(ys)


# Places


def _places(
    name: str, line: int, points: Sequence[tuple[Fraction, Fraction]], approximate: bool, doubtful: str
) -> Machined:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    zero = Fraction(0)
    return Machined(
        name, "places", line, "their own datum",
        tuple(Layered("centre", "CENTRE", Middle(x, y)) for x, y in points),
        tuple(CutRow(str(n), "place", x, y) for n, (x, y) in enumerate(points, 1)),
        (min(zero, *xs), min(zero, *ys), max(zero, *xs), max(zero, *ys)),
        approximate=approximate, doubtful=doubtful,
    )  # fmt: skip


def layers(parts: Sequence[Machined]) -> Mapping[str, str]:
    """The layers of these parts, and what is to be done on each, in the order in which they first stand."""
    return {each.layer: each.kind for part in parts for each in part.shapes}
