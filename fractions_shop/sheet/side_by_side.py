"""Several sheets of one thing side by side: each named size, part, cut, stock and place in every one of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from fractions_shop.layout.places import Places
from fractions_shop.sheet.changes import alike, same_feature, same_part
from fractions_shop.sheet.cut_changes import same_stock
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.session import places_of
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.size.limits import nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value


@dataclass(frozen=True, slots=True)
class SizeBeside:
    """A named size in each of several sheets, None where one has no such name.

    `apart` is the largest less the smallest (their nominals, for limits); None where these are not all of one
    kind. `same` says that every sheet has it, with the same limits.
    """

    name: str
    values: tuple[Value | None, ...]
    apart: Quantity | None
    same: bool


def side_by_side(sheets: Sequence[Mapping[str, Value]]) -> tuple[SizeBeside, ...]:
    """A row a name, in the order of the first sheet, then of those behind it."""
    rows = []
    for name in dict.fromkeys(name for sizes in sheets for name in sizes):
        values = tuple(sizes.get(name) for sizes in sheets)
        same = all(alike(values[0], value) for value in values)
        rows.append(SizeBeside(name, values, _apart(values), same))
    return tuple(rows)


def _apart(values: Sequence[Value | None]) -> Quantity | None:
    sizes = [nominal_of(value) for value in values if value is not None and not isinstance(value, Angle)]
    known = [value for value in values if value is not None]
    if len(sizes) < 2 or len(sizes) != len(known) or len({size.power for size in sizes}) > 1:
        return None
    return max(sizes) - min(sizes)


#: What is set side by side beside sizes: a part, what one line cuts in it, stock, or named places.
Kind = Literal["part", "cut", "stock", "places"]
Made = Part | Feature | PartStock | Places


@dataclass(frozen=True, slots=True)
class MadeBeside:
    """Something that is made, cut, cut from or placed, in each of several sheets; None where one has it not.

    `kind` is part, cut, stock or places. What is cut in one part is taken in its order, hole by hole, as stock of one
    material and section is.
    """

    kind: Kind
    name: str
    values: tuple[Made | None, ...]
    same: bool


def made_beside(sheets: Sequence[Sequence[Worked]]) -> tuple[MadeBeside, ...]:
    """A row for each part, cut, stock and name of places, in the order of the first sheet, then of those behind it."""
    listed = [dict(_listed(worked)) for worked in sheets]
    rows = []
    for key in dict.fromkeys(key for made in listed for key in made):
        values = tuple(made.get(key) for made in listed)
        rows.append(MadeBeside(key[0], key[1], values, all(_same(values[0], value) for value in values)))
    return tuple(sorted(rows, key=lambda row: _KINDS.index(row.kind)))


_KINDS: tuple[Kind, ...] = ("part", "cut", "stock", "places")


def _listed(worked: Sequence[Worked]) -> Iterator[tuple[tuple[Kind, str, int], Made]]:
    """What a sheet makes, by kind and name, and which of several of one name it is."""
    seen: dict[tuple[Kind, str], int] = {}
    for item in worked:
        for kind, name, each in _of_line(item):
            n = seen[kind, name] = seen.get((kind, name), 0) + 1
            yield (kind, name, n), each


def _of_line(item: Worked) -> Iterator[tuple[Kind, str, Made]]:
    if item.part is not None:
        yield "part", item.part.name, item.part
    elif item.feature is not None:
        yield "cut", f"{item.feature.word} in {item.feature.part}", item.feature
    elif item.stock is not None:
        yield "stock", " ".join(filter(None, (item.stock.material, item.stock.section))), item.stock
    elif item.answer is not None and item.line.sets:
        placed = places_of(item.answer.result)
        if placed is not None:
            yield "places", item.line.sets, placed


def _same(first: Made | None, other: Made | None) -> bool:
    match first, other:
        case Part(), Part():
            return same_part(first, other)
        case Feature(), Feature():
            return same_feature(first, other)
        case PartStock(), PartStock():
            return same_stock(first, other)
        case Places(), Places():
            return first.points == other.points and first.along == other.along
    return first is other
