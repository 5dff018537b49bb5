"""What is cut in each part of a sheet, taken together: where it lies outside, and what walls it leaves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from fractions_shop.errors import InputError
from fractions_shop.figures.wording import both
from fractions_shop.language.notes import Note, remark
from fractions_shop.layout.features import Cut, Face, Hole, Size, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.layout.walls import Wall, outside, running_together, touching, walls
from fractions_shop.sheet.feature_lines import EXAMPLES, ONE_A_PART
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.worked_features import Feature, face_of
from fractions_shop.size.limits import nominal_of
from fractions_shop.size.quantity import Quantity

#: Letters of drawings leave out those that are taken for figures (common practice, no source).
_LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"


@dataclass(frozen=True)
class Lettered:
    """A hole or slot line of a part: the `letter` that its places bear on a drawing, its line, and what it cuts."""

    letter: str
    line: int
    feature: Feature

    @property
    def cut(self) -> Cut:
        """What is cut."""
        assert self.feature.cut is not None
        return self.feature.cut

    def place_name(self, place: int) -> str:
        """What one of its places is called, from 0: `A2`, or `A` where it has one alone."""
        return self.letter if len(self.cut.at) == 1 else f"{self.letter}{place + 1}"


@dataclass(frozen=True)
class CutPart:
    """A part and all that is cut in it.

    `face` has its corner radius; it is None for a part without a face. `cuts` are the holes and slots in
    the order of their lines, `corner` and `wall` the lines of the radius and of the least wall.
    """

    part: Part
    line: int
    face: Face | None
    cuts: tuple[Lettered, ...] = ()
    corner: tuple[int, Feature] | None = None
    wall: tuple[int, Feature] | None = None

    @property
    def is_cut(self) -> bool:
        """Whether a line cuts anything in it."""
        return bool(self.cuts) or self.corner is not None

    @property
    def has_one_face(self) -> bool:
        """Whether it matters from which face it is cut: something is deep, or sunk."""
        return any(
            each.cut.deep is not None or (isinstance(each.cut, Hole) and each.cut.sunk is not None)
            for each in self.cuts
        )

    @property
    def features(self) -> tuple[tuple[int, Feature], ...]:
        """Every feature with the number of its line, in order."""
        own = [(each.line, each.feature) for each in self.cuts]
        return tuple(
            sorted([*own, *(each for each in (self.corner, self.wall) if each)], key=lambda each: each[0])
        )


def cut_part(part: Part, line: int, features: Sequence[tuple[int, Feature]]) -> CutPart:
    """A part with the features, by line, that are cut in it."""
    by_word = {feature.word: (number, feature) for number, feature in features if feature.word in ONE_A_PART}
    cuts = [(number, feature) for number, feature in features if feature.cut is not None]
    corner = by_word.get("corner")
    return CutPart(
        part, line, face_of(part, None if corner is None else corner[1].size),
        tuple(Lettered(letter(n), *each) for n, each in enumerate(cuts)), corner, by_word.get("wall"),
    )  # fmt: skip


def letter(n: int) -> str:
    """The n-th letter of drawings, from 0: A to Z without I, O and Q, then AA.

    >>> letter(0), letter(8), letter(23)
    ('A', 'J', 'AA')
    """
    head, last = divmod(n, len(_LETTERS))
    return (letter(head - 1) if head else "") + _LETTERS[last]


# What is refused


@dataclass
class Findings:
    """What comes of taking a part's features together, by their place among them."""

    faults: dict[int, tuple[str, str]] = field(default_factory=dict)
    notes: dict[int, list[Note]] = field(default_factory=dict)
    thinnest: Quantity | None = None
    #: What they are of: kept, so that another thing is never taken for it.
    of: tuple[object, ...] = ()


def taken_together(part: Part, features: Sequence[Feature], lines: Sequence[Line]) -> Findings:
    """What lies outside, or closer than the stated wall: message and advice for each that does.

    Where no wall is stated, what runs into another is only said.
    """
    said = Findings(of=(part, *features))
    sizes: dict[str, tuple[Size, int]] = {
        feature.word: (feature.size, line.number)
        for feature, line in zip(features, lines, strict=True)
        if feature.word in ONE_A_PART and feature.size is not None
    }
    surface = face_of(part, sizes["corner"][0] if "corner" in sizes else None)
    where = [n for n, feature in enumerate(features) if feature.cut is not None]
    cuts = [cut for feature in features if (cut := feature.cut) is not None]
    if surface is None or not cuts:
        return said
    for past in sorted(outside(surface, cuts), key=lambda each: each.left):
        cut = cuts[past.cut]
        said.faults.setdefault(where[past.cut], (
            f"{_which(cut, past.place)} reaches {both(-past.left, 4)} past the {past.edge} of {_in_words(surface)}",
            _from_where(surface, cut, lines[where[past.cut]]) + _thickness_first(part),
        ))  # fmt: skip
    if "wall" in sizes:
        _against_wall(surface, cuts, where, lines, sizes["wall"], said)
        left = [cut for n, cut in zip(where, cuts, strict=True) if n not in said.faults]
        said.thinnest = next((each.left for each in walls(surface, left)), None)
    else:
        for each in touching(surface, cuts):
            said.notes.setdefault(where[each.cut], []).append(
                remark(
                    f"{_which(cuts[each.cut], each.place)} just reaches the {each.edge}: no wall is left there"
                )
            )
        for each in running_together(cuts):
            assert each.other is not None
            line = lines[where[each.other[0]]].number
            said.notes.setdefault(where[each.cut], []).append(
                remark(f"{_which(cuts[each.cut], each.place)} runs into that of line {line}")
            )
    return said


def _against_wall(
    surface: Face,
    cuts: Sequence[Cut],
    where: Sequence[int],
    lines: Sequence[Line],
    wall: tuple[Size, int],
    said: Findings,
) -> None:
    least, number = wall
    assert isinstance(least, Quantity)
    for thin in walls(surface, cuts, wall=least):
        cut = cuts[thin.cut]
        if thin.other is not None and where[thin.other[0]] in said.faults:
            continue  # that one is not cut
        to = f"the {thin.edge}" if thin.other is None else _other(thin, cuts, where, lines)
        if thin.left.value < 0:
            left = f"runs {both(-thin.left, 4)} into {to}"
        else:
            left = f"leaves {both(thin.left, 4)} to {to}"
        said.faults.setdefault(where[thin.cut], (
            f"{_which(cut, thin.place)} {left}: {both(least - thin.left, 4)} less than the wall of line {number}",
            f"move it, or state another wall than {both(least, 4)}",
        ))  # fmt: skip


def _other(thin: Wall, cuts: Sequence[Cut], where: Sequence[int], lines: Sequence[Line]) -> str:
    assert thin.other is not None
    n, place = thin.other
    if n == thin.cut:
        return f"the one at {_place(cuts[n], place)}"
    return f"the {lines[where[n]].feature_word} of line {lines[where[n]].number} at {_place(cuts[n], place)}"


def _which(cut: Cut, place: int) -> str:
    counted = f"place {place + 1} of {len(cut.at)}, " if len(cut.at) > 1 else ""
    return f"{counted}{'at ' if not counted else ''}{_place(cut, place)},"


def _place(cut: Cut, place: int) -> str:
    x, y = cut.at[place]
    return f"{both(x, 4)} across and {both(y, 4)} up"


def _in_words(surface: Face) -> str:
    across = nominal_of(surface.across)
    if surface.from_centre:
        return f"the end, {both(across, 4)} {'across flats' if surface.shape == 'hex' else 'wide'}"
    return f"the face, {both(across, 4)} by {both(nominal_of(surface.up), 4)}"


def _from_where(surface: Face, cut: Cut, line: Line) -> str:
    counted = f"places are counted from {surface.datum}"
    if isinstance(cut, Slot) and not isinstance(cut, Notch) and not surface.from_centre:
        counted += f"; what is open at an edge is a notch, such as {EXAMPLES['notch']}"
    moved = line.feature is not None and bool(line.feature.start)
    if not moved and not surface.from_centre and any(size.value < 0 for place in cut.at for size in place):
        return f"{counted}; those of a bolt circle from its own: say where that stands, such as from 1 in, 1/2 in"
    return counted


def _thickness_first(part: Part) -> str:
    """What is said where the least of a flat part's three sizes stands among the two that make its face."""
    if part.section or len(part.sizes) != 3:
        return ""
    sizes = [nominal_of(size) for size in part.sizes]
    least = min(sizes)
    if sizes[2] == least:
        return ""
    return f"; the face is of the first two sizes of {part.name}: if it is {both(least, 4)} thick, that size stands last in its line"


def settled_features(
    part: Part, features: Sequence[Feature], lines: Sequence[Line], known: Mapping[object, Findings]
) -> tuple[tuple[Feature | InputError, ...], tuple[object, Findings]]:
    """The features of a part as they are when taken together, or what is wrong with each; with what to keep of it.

    `known` has what was kept before: the same part with the same features is not gone through again.
    """
    key = (id(part), *((id(feature), line.number) for feature, line in zip(features, lines, strict=True)))
    said = known.get(key) or taken_together(part, features, lines)
    made: list[Feature | InputError] = []
    for n, (feature, line) in enumerate(zip(features, lines, strict=True)):
        if n in said.faults:
            made.append(_placed(line, *said.faults[n]))
        elif n in said.notes:
            made.append(replace(feature, notes=(*feature.notes, *dict.fromkeys(said.notes[n]))))
        elif feature.word == "wall":
            made.append(replace(feature, thinnest=said.thinnest))
        else:
            made.append(feature)
    return tuple(made), (key, said)


def _placed(line: Line, message: str, advice: str) -> InputError:
    """A fault of places, where these stand in the line."""
    form = line.feature
    assert form is not None
    return InputError(message, line.text, *form.places_span, advice, line.number)
