"""What is cut in the parts of a sheet, as objects for JSON."""

from __future__ import annotations

from typing import Literal, TypedDict

from fractions_shop.language.notes import doubts_of
from fractions_shop.layout.features import Hole, Size, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.requests.data import encode
from fractions_shop.requests.place_data import PlaceData, by_axis
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value


class SeesData(TypedDict):
    """A name that a part draws on, and the line where it is set out."""

    name: str
    line: int


class FeatureData(TypedDict):
    """What is cut in a part: `feature` is hole, slot, notch, corner or wall; what it does not have is null.

    `letter` is that of the drawing. `sizes` are the diameter; the length and the width; the radius; the least wall,
    and `called` the names by which they are given, or nothing. `points` are counted from `datum`: corner is
    the lower left corner of the face, centre that of the end. `deep` is null for what goes through. `sunk` is the diameter of the
    countersink, which opens by `angle` and reaches `sink_depth` down; `ends` are the centres of each slot's round
    ends, or the middles of its ends if it is `square`, or those of a notch's mouth and floor, which is cut in the `edge`. `thinnest` is the thinnest wall there is.
    """

    part: str
    feature: str
    letter: str
    sizes: tuple[Value, ...]
    called: list[str]
    thread: str
    purpose: str
    datum: Literal["corner", "centre"]
    points: tuple[PlaceData, ...]
    ends: tuple[tuple[PlaceData, ...], ...]
    turned: Value | None
    square: bool | None
    edge: str | None
    deep: Quantity | None
    sunk: Quantity | None
    angle: Value | None
    sink_depth: Quantity | None
    thinnest: Quantity | None
    notes: list[str]
    doubts: list[str]
    sees: list[SeesData]


def features_data(sheet: WorkedSheet) -> dict[int, FeatureData]:
    """What is cut in the parts, by line."""
    made = {}
    for cut in sheet.cut_parts.values():
        letters = {each.line: each.letter for each in cut.cuts}
        for line, each in cut.features:
            made[line] = feature(each, letters.get(line, ""))
    return dict(sorted(made.items()))


def feature(made: Feature, letter: str) -> FeatureData:
    """What a line cuts in a part, as an object."""
    cut = made.cut
    data: FeatureData = {
        "part": made.part, "feature": made.word, "letter": letter,
        "sizes": encode(_sizes(made)), "called": list(made.called), "thread": made.thread, "purpose": made.purpose,
        "datum": "centre" if made.from_centre else "corner", "points": encode(tuple(map(by_axis, () if cut is None else cut.at))), "ends": (),
        "turned": None, "square": None, "edge": None, "deep": encode(None if cut is None else cut.deep),
        "sunk": None, "angle": None, "sink_depth": None, "thinnest": encode(made.thinnest),
        "notes": [note.text for note in made.notes],
        "doubts": [note.text for note in doubts_of(made.notes)],
        "sees": [{"name": name, "line": line} for name, line in made.sees],
    }  # fmt: skip
    if isinstance(cut, Hole):
        data["sunk"], data["angle"] = encode(cut.sunk), encode(cut.angle)
        data["sink_depth"] = encode(cut.sink_depth)
    elif isinstance(cut, Notch):
        data["edge"] = cut.edge
        data["ends"] = encode(tuple(tuple(map(by_axis, cut.ends(place))) for place in cut.at))
    elif isinstance(cut, Slot):
        data["turned"], data["square"] = encode(cut.turned), cut.square
        data["ends"] = encode(tuple(tuple(map(by_axis, cut.ends(place))) for place in cut.at))
    return data


def _sizes(made: Feature) -> tuple[Size, ...]:
    match made.cut:
        case Hole():
            return (made.cut.diameter,)
        case Slot():
            return made.cut.length, made.cut.width
    return () if made.size is None else (made.size,)
