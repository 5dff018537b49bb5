"""Several sheets of one thing side by side: each named size, part, cut, stock and place in every one of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Literal

from fractions_shop.layout.places import Places
from fractions_shop.sheet.changes import alike, same_feature, same_part, unnamed_pairs, what_it_tells
from fractions_shop.sheet.cut_changes import same_stock
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.session import places_of
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.undone_lines import UndoneLines, undone_lines
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.size.limits import nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value


@dataclass(frozen=True, slots=True)
class SizeBeside:
    """A named size in each of several sheets, None where one has no such name.

    `apart` is the largest less the smallest (their nominals, for limits); None where these are not all of one
    kind. `same` says that every sheet has it, with the same limits. `undone` has for each sheet the line that should have
    given it and was not worked out, zero without one.
    """

    name: str
    values: tuple[Value | None, ...]
    apart: Quantity | None
    same: bool
    undone: tuple[int, ...] = ()


def side_by_side(
    sheets: Sequence[Mapping[str, Value]], undone: Sequence[UndoneLines] = ()
) -> tuple[SizeBeside, ...]:
    """A row a name, in the order of the first sheet, then of those behind it."""
    rows = []
    for name in dict.fromkeys(name for sizes in sheets for name in sizes):
        values = tuple(sizes.get(name) for sizes in sheets)
        same = all(alike(values[0], value) for value in values)
        lines = undone or [UndoneLines()] * len(values)
        missing = [each.size(name) if value is None else 0 for value, each in zip(values, lines, strict=True)]
        rows.append(SizeBeside(name, values, _apart(values), same, tuple(missing)))
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

    `kind` is part, cut, stock or places. `undone` as of a SizeBeside.
    """

    kind: Kind
    name: str
    values: tuple[Made | None, ...]
    same: bool
    undone: tuple[int, ...] = ()


def made_beside(sheets: Sequence[Sequence[Worked]]) -> tuple[MadeBeside, ...]:
    """A row for each part, cut, stock and name of places, in the order of the first sheet, then of those behind it.

    Of several of one kind and name those that are the same are taken together first, the rest in their order.
    """
    listed = [_listed(worked) for worked in sheets]
    undone = [undone_lines(worked) for worked in sheets]
    rows: list[MadeBeside] = []
    for kind, name in dict.fromkeys(key for made in listed for key in made):
        columns = _together([made.get((kind, name), []) for made in listed])
        missing = [0] * len(sheets)
        for values in columns:
            lines = []
            for n, value in enumerate(values):
                lines.append(
                    0 if value is not None else _undone_of(undone[n], kind, name, values, missing[n])
                )
                missing[n] += value is None
            same = all(_same(values[0], value) for value in values)
            rows.append(MadeBeside(kind, name, tuple(values), same, tuple(lines)))
    return tuple(sorted(rows, key=lambda row: _KINDS.index(row.kind)))


def _together(listed: Sequence[Sequence[Made]]) -> list[list[Made | None]]:
    """Rows of what is made in each sheet, all of one kind and name."""
    rows: list[list[Made | None]] = []
    for n, made in enumerate(listed):
        left, open_rows = list(made), list(rows)
        for row in rows:
            latest = next(each for each in reversed(row) if each is not None)
            like = next((each for each in left if _same(latest, each)), None)
            if like is not None:
                row.append(like)
                left.remove(like)
                open_rows.remove(row)
        for row, other in zip_longest(open_rows, left[: len(open_rows)]):
            row.append(other)
        rows += [[*[None] * n, other] for other in left[len(open_rows) :]]
    return rows


def _undone_of(lines: UndoneLines, kind: Kind, name: str, values: Sequence[Made | None], nth: int) -> int:
    """The line of a sheet that should have given the `nth` of those that it lacks, and was not worked out."""
    like = next(value for value in values if value is not None)
    match like:
        case Part():
            return lines.part(name, nth)
        case Feature():
            return lines.cut(like.word, like.part, nth)
        case PartStock():
            return lines.stock(like.material, nth)
    return lines.size(name, nth)


@dataclass(frozen=True, slots=True)
class AnswerBeside:
    """An answer without a name in each of several sheets, None where one has none like it; `same` if all tell the same."""

    values: tuple[Worked | None, ...]
    same: bool


def answers_beside(sheets: Sequence[Sequence[Worked]]) -> tuple[AnswerBeside, ...]:
    """A row for each answer without a name, taken together as of two sheets: by what they tell, their words, their kind."""
    rows: list[list[Worked | None]] = []
    for n, worked in enumerate(sheets):
        latest = [next(item for item in reversed(row) if item is not None) for row in rows]
        at = {id(item): row for item, row in zip(latest, rows, strict=True)}
        for known, item in unnamed_pairs(latest, [w for w in worked if w.answer is not None]):
            if known is None:
                rows.append([*[None] * n, item])
            else:
                at[id(known)].append(item)
    return tuple(AnswerBeside(tuple(row), _all_alike(row)) for row in rows)


def _all_alike(row: Sequence[Worked | None]) -> bool:
    answers = [what_it_tells(item) for item in row if item is not None]
    return len(answers) == len(row) and all(each == answers[0] for each in answers)


_KINDS: tuple[Kind, ...] = ("part", "cut", "stock", "places")


def _listed(worked: Sequence[Worked]) -> dict[tuple[Kind, str], list[Made]]:
    """What a sheet makes, by kind and name."""
    listed: dict[tuple[Kind, str], list[Made]] = {}
    for item in worked:
        for kind, name, each in _of_line(item):
            listed.setdefault((kind, name), []).append(each)
    return listed


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
