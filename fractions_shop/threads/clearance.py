"""The hole that clears a screw.

ISO 273 for metric sizes and ASME B18.2.8 for unified ones. British screws are cleared
far closer than either (bench lists of small threads and of old engines leave
0.1 mm at 1/8 in and never more than 1/64 in), so they have the printed hole as `medium`,
or where none was read our own rule, which comes within about 0.1 mm of most of those
printed: a fortieth of the major, but 0.1 mm at least and 1/64 in at most. `close` has
half of that room and `free` twice as much (our own rule).
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import ClassVar

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.size.frozen import Result
from fractions_shop.size.notation import mm_text, number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worse
from fractions_shop.size.told import Told
from fractions_shop.size.units import INCH
from fractions_shop.tables import born, rows
from fractions_shop.tables.drills import SERIES, Drill, series_drills
from fractions_shop.tables.nearest import neighbours

FITS = ("close", "medium", "free")
_FIT_WORDS = {"fine": "close", "normal": "medium", "coarse": "free", "loose": "free"}
_ISO = "ISO 273"
_NEXT_UP = "major with the room that ISO 273 leaves the next metric size up (our own rule)"
_ASME = "ASME B18.2.8"
#: The rule of screws that go through holes as close as the British lists print.
_BRITISH = "British"
#: The rules for clearance that a series' record may name; without one it is the next metric size up.
RULES = (_ISO, _ASME, _BRITISH)
_ROOM = {"close": Fraction(1, 2), "medium": Fraction(1), "free": Fraction(2)}
_BRITISH_RULE = {
    "close": "half the room of medium (our own rule)",
    "medium": "major + 1/40 of it, from 0.1 mm to 1/64 in (our own rule)",
    "free": "twice the room of medium (our own rule)",
}
_LEAST_ROOM, _MOST_ROOM, _PART = Fraction(1, 10), INCH / 64, Fraction(1, 40)
_LARGEST = 64


class ClearanceHole(Told, Result):
    """A hole that the screw passes through.

    `size` by `rule`, from `source`, and the `drill` that makes it: the smallest not under
    it, or None where no drill is so large. `beside` is what a list that is not followed prints.

    >>> from fractions_shop import thread
    >>> thread("M3").clearance("close")
    <ClearanceHole: 3.2 mm (~0.126 in), close, ISO 273>
    """

    told_as: ClassVar[str] = "clearance"

    size: Quantity
    fit: str
    drill: Drill | None
    rule: str
    source: str
    beside: str = ""


def clearance(major: Quantity, rule: str, size: str, fit: str = "medium", name: str = "") -> ClearanceHole:
    """The clearance hole for a screw of `major` diameter by a rule of RULES; `fit` is close, medium or free.

    ISO 273 for metric sizes that it has, ASME B18.2.8 for unified sizes that it has, the
    printed hole or the stated rule for British ones, another stated rule for all else.
    NoAnswer above 64 mm, ShopError for another fit.
    """
    word = _FIT_WORDS.get(fit.lower(), fit.lower())
    if word not in FITS:
        raise ShopError(f"{fit!r} is not a clearance fit: write close, medium or free")
    if rule == _ASME and size in _unified():
        row = _unified()[size]
        hole = born(row, number_value(row[f"{word}_in"]), "in")
        return ClearanceHole(hole, word, _drill_for(hole), _ASME, row["source"])
    exactly = _metric().get(major.mm)
    if rule == _ISO and exactly is not None:
        hole = born(exactly, Fraction(exactly[f"{word}_mm"]), "mm")
        return ClearanceHole(hole, word, _drill_for(hole), _ISO, exactly["source"])
    if major.mm > _LARGEST:
        raise NoAnswer(f"clearance holes are known here up to {_LARGEST} mm, not for {mm_text(major, 3)}")
    if rule == _BRITISH:
        return _british(major, name, word)
    hole, row = _by_next_up(major, word)
    return ClearanceHole(hole, word, _drill_for(hole), _NEXT_UP, row["source"])


def _british(major: Quantity, name: str, fit: str) -> ClearanceHole:
    printed, beside = _printed(name, "default"), _printed(name, "beside")
    said = f"a bench list has {beside['note']}, {beside['hole']}" if beside else ""
    if printed is None:
        room = min(_MOST_ROOM, max(_LEAST_ROOM, major.mm * _PART))
        rule, source = _BRITISH_RULE[fit], "our own rule"
    else:
        room = _hole(printed).mm - major.mm
        rule, source = _BRITISH_RULE[fit], printed["source"]
        if fit == "medium":
            rule = "as printed"
    standing = (
        "rule" if printed is None else worse(printed["standing"], "printed" if fit == "medium" else "rule")
    )
    hole = major + Quantity(room * _ROOM[fit], standing=standing)
    return ClearanceHole(hole, fit, _drill_for(hole), rule, source, said)


def _printed(name: str, use: str) -> dict[str, str] | None:
    return _bench().get((name, use))


@cache
def _bench() -> dict[tuple[str, str], dict[str, str]]:
    return {(row["name"], row["use"]): row for row in rows("thread_clearance_bench")}


def _hole(row: dict[str, str]) -> Quantity:
    number, unit = row["hole"].rsplit(" ", 1)
    return born(row, number_value(number), unit)


def _by_next_up(major: Quantity, fit: str) -> tuple[Quantity, dict[str, str]]:
    listed, row = next((listed, row) for listed, row in _metric().items() if listed >= major.mm)
    return major + born(row, Fraction(row[f"{fit}_mm"]) - listed, "mm", "rule"), row


@cache
def _metric() -> dict[Fraction, dict[str, str]]:
    """The rows of ISO 273 by major diameter in mm, in order."""
    return {Fraction(row["major_mm"]): row for row in rows("thread_clearance_mm")}


@cache
def _unified() -> dict[str, dict[str, str]]:
    return {row["size"]: row for row in rows("thread_clearance_in")}


def _drill_for(hole: Quantity) -> Drill | None:
    """The smallest drill not under the hole; a preferred metric one wins a tie."""
    near = (neighbours(hole, series, series_drills(series)) for series in SERIES)
    able = [drill for each in near if (drill := each.exact or each.above) is not None]
    return min(able, key=lambda drill: (drill.size.mm, drill.series != "metric"), default=None)
