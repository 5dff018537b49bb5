"""What is cut in the parts of a sheet: as a table with a row for each place, and each line in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from fractions_shop.figures.figure import in_decimals
from fractions_shop.figures.plain import Lines, laid_out
from fractions_shop.figures.table import Cell, Table, in_prose, without_empty
from fractions_shop.figures.wording import as_it_ends_cell, so_many
from fractions_shop.layout.features import Cut, Hole, Size, Slot, datum_words
from fractions_shop.layout.notches import Notch
from fractions_shop.layout.places import Place
from fractions_shop.sheet.cut_parts import CutPart
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.show.doubt_marks import marked
from fractions_shop.show.part_table import part_size
from fractions_shop.show.size_table import UNDONE, where_told
from fractions_shop.size.quantity import Angle, Quantity

NOTE = (
    "From the lower left corner of the face of a part's first two sizes, across and up; "
    "on the end of round, hex or tube stock from its centre."
)
HEADER = ("part", "", "cut", "across", "up", "depth", "sunk", "line")
THROUGH = "through"
#: A row under HEADER.
_Row = tuple[str, str, Cell | str, Cell | str, Cell | str, Cell | str, str, str]


def features(
    parts: Mapping[str, CutPart], doubts: Doubts = NO_DOUBTS, undone: Sequence[Worked] = ()
) -> Table:
    """One row a hole or slot, lettered as on the drawing, one for a corner radius, and one for each line that is `undone`."""
    return without_empty(Table(tuple(_every_row(parts, doubts, undone)), HEADER))


def features_in_brief(
    parts: Mapping[str, CutPart], doubts: Doubts = NO_DOUBTS, undone: Sequence[Worked] = ()
) -> Table:
    """The same in three columns for a narrow screen, the name of each part in a row of its own."""
    rows: list[tuple[Cell | str, ...]] = []
    for name, which, what, across, up, depth, sunk, _ in _every_row(parts, doubts, undone):
        rows += [(name, "", "")] if name else []
        place = _both_ways(across, up)
        deep = "" if not depth else THROUGH if depth == THROUGH else f"{in_prose(depth)} deep"
        cut = filter(None, (in_prose(what), deep, sunk and f"sunk {sunk}"))
        rows.append((f"  {which}", place, "; ".join(cut)))
    return Table(tuple(rows), ("part", "across, up", "cut"))


def _every_row(parts: Mapping[str, CutPart], doubts: Doubts, undone: Sequence[Worked]) -> Iterator[_Row]:
    """The rows of every part, what it lacks at their end; then those of parts that are not there."""
    left = list(undone)
    for part in parts.values():
        rows = list(_rows(part, doubts))
        own = [item for item in left if item.line.cut_in.casefold() == part.part.name.casefold()]
        left = [item for item in left if item not in own]
        yield from rows
        yield from _undone_rows(own, bool(rows))
    yield from _undone_rows(left, False)


def _undone_rows(undone: Sequence[Worked], named: bool) -> Iterator[_Row]:
    """A row for each line that cuts and was not worked out; the part is named where it is not yet."""
    last = undone[0].line.cut_in if undone and named else ""
    for item in undone:
        line = item.line
        name = "" if line.cut_in == last else line.cut_in
        last = line.cut_in
        yield name, "", f"{line.feature_word}, {UNDONE}: {where_told(item)}", "", "", "", "", str(line.number)


def _both_ways(across: Cell | str, up: Cell | str) -> Cell | str:
    """A place in one cell, in the leading unit: the other stands in the working."""
    if isinstance(across, str) or isinstance(up, str):
        return ""
    return Cell("size", (*across.pieces, ", ", *up.pieces))


def _rows(part: CutPart, doubts: Doubts) -> Iterator[_Row]:
    name = part.part.name
    named: set[str] = set()
    for cut in part.cuts:
        what: Cell | str = cut_cell(cut.feature)
        depth, sunk = depth_cell(cut.cut), sunk_words(cut.cut)
        for place, point in enumerate(cut.cut.at):
            across, up = map(place_cell, point)
            called = _once(marked(name, cut.line, doubts), named)
            yield called, cut.place_name(place), what, across, up, depth, sunk, str(cut.line)
            what, depth, sunk = "", "", ""
    if part.corner is not None:
        line, feature = part.corner
        yield _once(marked(name, line, doubts), named), "", cut_cell(feature), "", "", "", "", str(line)


def _once(name: str, named: set[str]) -> str:
    """A name where it is told for the first time."""
    if name in named:
        return ""
    named.add(name)
    return name


def cut_cell(feature: Feature) -> Cell:
    """What is cut: `hole 1/8 in (3.175 mm), tapping 6 BA`, a slot's length by width, a corner's radius."""
    return Cell("words", (cut_words(feature),))


def cut_words(feature: Feature) -> str:
    """The same as text."""
    return f"{'' if feature.cut is None else f'{feature.word} '}{what_words(feature)}"


def what_words(feature: Feature) -> str:
    """What is cut without the word hole or slot: `1/8 in (3.175 mm), tapping 6 BA`."""
    cut = feature.cut
    if isinstance(cut, Hole):
        return f"{sized(cut.diameter, feature.called[0])}{_for_thread(feature)}"
    if isinstance(cut, Slot):
        return f"{' by '.join(map(sized, (cut.length, cut.width), feature.called))}{lies_words(cut)}"
    assert feature.size is not None
    what = "corner radius" if feature.word == "corner" else "no wall under"
    return f"{what} {sized(feature.size)}"


def sized(size: Size, called: str = "") -> str:
    """A size in both units, behind the name that it is drilled by: `No 29 drill (0.136 in, 3.4544 mm)`."""
    cell = place_cell(size) if isinstance(size, Quantity) else part_size(size)
    if not called:
        return in_prose(cell)
    units = (in_prose(Cell(cell.kind, pieces)) for pieces in (cell.pieces, cell.beside) if pieces)
    return f"{called} ({', '.join(units)})"


def place_cell(size: Quantity) -> Cell:
    """A length in both units, millimetres first where only they end and neither was asked to lead."""
    return as_it_ends_cell(size, 4)


def length(size: Quantity) -> str:
    """The same as text."""
    return in_prose(place_cell(size))


def angle_words(angle: Angle) -> str:
    """An angle in degrees: `82 deg`."""
    return in_prose(Cell("size", (in_decimals(angle.degrees, "deg", 4, angle.standing),)))


def _for_thread(feature: Feature) -> str:
    return f", {feature.purpose} {feature.thread}" if feature.thread else ""


def lies_words(cut: Slot) -> str:
    """What a slot is besides its sizes: its corners and how it lies; of a notch the edge that it is cut in."""
    if isinstance(cut, Notch):
        return f" into the {cut.edge} edge"
    return f"{square_words(cut)}{turned_words(cut)}"


def square_words(cut: Slot) -> str:
    """That a slot has no round ends: `, square corners`."""
    return ", square corners" if cut.square else ""


def turned_words(cut: Slot) -> str:
    """How a slot lies, where that is not across: `, turned 30 deg`."""
    return f", turned {angle_words(cut.turned)}" if cut.turned.degrees else ""


def depth_cell(cut: Cut) -> Cell | str:
    """How deep, or that it goes through."""
    return THROUGH if cut.deep is None else place_cell(cut.deep)


def sunk_words(cut: Cut) -> str:
    """The countersink: its diameter at the surface, its angle, and how far down it reaches."""
    if not isinstance(cut, Hole) or cut.sunk is None or cut.angle is None or cut.sink_depth is None:
        return ""
    return f"{length(cut.sunk)} at {angle_words(cut.angle)}, {length(cut.sink_depth)} down"


# One line


def feature_lines(feature: Feature) -> Lines:
    """A feature line worked out: a sentence, and a table of its places."""
    if feature.cut is None:
        return [feature_words(feature)]
    counted = f"counted from {datum_words(feature.from_centre)}"
    if isinstance(feature.cut, Notch):
        counted += " to the middle of each mouth"
    return [f"{feature_words(feature, with_places=False)}, {counted}", places_of(feature.cut)]


def places_of(cut: Cut) -> Table:
    """The places of holes or slots by their numbers."""
    rows: tuple[tuple[Cell | str, ...], ...] = tuple(
        (str(n), *(place_cell(size) for size in point)) for n, point in enumerate(cut.at, 1)
    )
    return Table(rows, ("", "across", "up"))


def feature_text(feature: Feature, width: int) -> str:
    """A feature as text, its notes last."""
    notes = [f"note: {note.text}" for note in feature.notes]
    return laid_out([*feature_lines(feature), *notes], width)


def feature_words(feature: Feature, with_places: bool = True) -> str:
    """A feature in one sentence: `2 holes in label frame, 3 mm, through, at 1/4 in, 1/4 in and ...`."""
    cut = feature.cut
    if cut is None:
        said = f"{cut_words(feature)}{_in_part(feature)}"
        if feature.thinnest is not None:
            said += f"; the thinnest is {length(feature.thinnest)}"
        return said
    many = so_many(len(cut.at), feature.word)
    depth = THROUGH if cut.deep is None else f"{length(cut.deep)} deep"
    sunk = sunk_words(cut)
    said = f"{many}{_in_part(feature)}, {what_words(feature)}, {depth}{f', sunk {sunk}' if sunk else ''}"
    return f"{said}, {places_words(cut.at)}" if with_places else said


def _in_part(feature: Feature) -> str:
    """The part, where it is one of a sheet."""
    return f" in {feature.part}" if feature.part else ""


def places_words(at: Iterable[Place], most: int = 3) -> str:
    """Where some places are, the first of them: `at 1/4 in, 1/4 in`."""
    points = list(at)
    said = [
        ", ".join(in_prose(Cell("size", place_cell(size).pieces)) for size in point)
        for point in points[:most]
    ]
    more = f" and {len(points) - most} more" if len(points) > most else ""
    return f"at {'; '.join(said)}{more}"
