"""What changed between two sheets, in sizes, parts and answers rather than in text."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from fractions_shop.layout.features import Cut, Hole, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.requests.data import encode, json_text
from fractions_shop.requests.expression import SizeResult
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.undone_lines import UndoneLines
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

#: Of two sheets without a line at fault.
BOTH_DONE = UndoneLines(), UndoneLines()


@dataclass(frozen=True, slots=True)
class Change:
    """A named size that differs: `old` is None for a new one, `new` None for one that is gone.

    `by` is new less old where both are sizes of one kind (their nominals, for limits). Where one is missing,
    `old_undone` or `new_undone` is the line that should have given it and was not worked out, zero without one.
    """

    name: str
    old: Value | None
    new: Value | None
    by: Quantity | None
    old_undone: int
    new_undone: int


@dataclass(frozen=True, slots=True)
class PartChange:
    """A part that differs, in count, material, sizes or note; undone as of a Change."""

    name: str
    old: Part | None
    new: Part | None
    old_undone: int
    new_undone: int


@dataclass(frozen=True, slots=True)
class AnswerChange:
    """An answer that differs, with its lines: `old` is None for a new one, `new` None for one that is gone.

    The two are of one kind. A named size is told as a Change, and here only if what the same
    request says beside that size differs.
    """

    old: Worked | None
    new: Worked | None

    @property
    def kind(self) -> str:
        """The request's word, or `size`."""
        line = self.new or self.old
        assert line is not None
        assert line.answer is not None
        return line.answer.kind


def answer_changes(old: Iterable[Worked], new: Iterable[Worked]) -> tuple[AnswerChange, ...]:
    """The answers that differ, named ones first, then in the order of the old sheet, new ones last.

    Answers without a name are the same if they tell the same, wherever they stand and however
    they are written. What is left is taken together by its words, or else in its order.
    """
    before, after = ([w for w in worked if w.answer is not None] for worked in (old, new))
    named = {w.line.sets: w for w in after if w.line.sets}
    named_changes = {
        # A line that names several sizes has one answer for all of them.
        (w.line.number, named[w.line.sets].line.number): AnswerChange(w, named[w.line.sets])
        for w in before
        if w.line.sets in named and not _tells_the_same(w, named[w.line.sets])
    }
    # A named size that one sheet alone has is told as a Change; places and other answers without a size are not.
    old_names = {item.line.sets for item in before}
    alone = [
        AnswerChange(w, None) for w in before if w.line.sets and w.line.sets not in named and w.value is None
    ]
    alone += [
        AnswerChange(None, w)
        for w in after
        if w.line.sets and w.line.sets not in old_names and w.value is None
    ]
    return (*named_changes.values(), *alone, *_unnamed(before, after))


def _unnamed(before: Iterable[Worked], after: Iterable[Worked]) -> list[AnswerChange]:
    pairs = unnamed_pairs(before, after)
    return [AnswerChange(*pair) for pair in pairs if None in pair or not _tell_alike(*pair)]


Pair = tuple[Worked | None, Worked | None]


def unnamed_pairs(before: Iterable[Worked], after: Iterable[Worked]) -> list[Pair]:
    """The answers without a name of two sheets, each with its like in the other, in the order of the first.

    Those that tell the same are taken together first, then those of the same words, then those of one kind in their
    order; those of the second sheet alone come last.
    """
    left = [w for w in before if not w.line.sets]
    added = [w for w in after if not w.line.sets]
    pairs: list[Pair] = []
    for alike_by in (what_it_tells, _words, _kind):
        gone, come = _grouped(left, alike_by), _grouped(added, alike_by)
        for key in gone:
            pairs += zip(gone[key], come.get(key, ()), strict=False)
        paired = {id(w) for pair in pairs for w in pair}
        left = [w for w in left if id(w) not in paired]
        added = [w for w in added if id(w) not in paired]
    pairs += [(w, None) for w in left]
    pairs.sort(key=lambda pair: pair[0].line.number if pair[0] is not None else 0)
    return [*pairs, *((None, w) for w in added)]


def _tell_alike(old: Worked | None, new: Worked | None) -> bool:
    return old is not None and new is not None and what_it_tells(old) == what_it_tells(new)


def _grouped(items: Iterable[Worked], key: Any) -> dict[Hashable, list[Worked]]:
    groups: dict[Hashable, list[Worked]] = {}
    for item in items:
        groups.setdefault(key(item), []).append(item)
    return groups


def _kind(item: Worked) -> Hashable:
    assert item.answer is not None
    return item.answer.kind


def _words(item: Worked) -> Hashable:
    return " ".join(item.line.statement.split())


def what_it_tells(item: Worked) -> Hashable:
    """What an answer tells, so that two that tell the same are equal."""
    assert item.answer is not None
    result = item.answer.result
    if isinstance(result, SizeResult):
        return "size", result.value, result.target
    try:
        hash(result)
    except TypeError:
        return item.answer.kind, json_text(encode(result))
    return item.answer.kind, result


def _tells_the_same(old: Worked, new: Worked) -> bool:
    """Whether two answers to one name differ in nothing, or in nothing but their size."""
    assert old.answer is not None
    assert new.answer is not None
    if _kind(old) != _kind(new) or isinstance(old.answer.result, SizeResult):
        return True  # their sizes are compared as such
    return what_it_tells(old) == what_it_tells(new)


def size_changes(
    old: Mapping[str, Value], new: Mapping[str, Value], undone: tuple[UndoneLines, UndoneLines] = BOTH_DONE
) -> tuple[Change, ...]:
    """The named sizes that differ, in the order of the old sheet, new names last."""
    names = [*old, *(name for name in new if name not in old)]
    before, after = undone
    return tuple(
        Change(
            name, old.get(name), new.get(name), _by(old.get(name), new.get(name)),
            0 if name in old else before.size(name), 0 if name in new else after.size(name),
        )
        for name in names
        if not alike(old.get(name), new.get(name))
    )  # fmt: skip


def part_changes(
    old: Mapping[str, Part], new: Mapping[str, Part], undone: tuple[UndoneLines, UndoneLines] = BOTH_DONE
) -> tuple[PartChange, ...]:
    """The parts that differ, in the order of the old sheet, new parts last."""
    names = [*old, *(name for name in new if name not in old)]
    before, after = undone
    return tuple(
        PartChange(
            name, old.get(name), new.get(name),
            0 if name in old else before.part(name), 0 if name in new else after.part(name),
        )
        for name in names
        if not same_part(old.get(name), new.get(name))
    )  # fmt: skip


def alike(old: Value | None, new: Value | None) -> bool:
    """Whether two values are the same size, with the same limits."""
    if isinstance(old, Limits) and isinstance(new, Limits):
        return (old.nominal, old.plus, old.minus) == (new.nominal, new.plus, new.minus)
    return type(old) is type(new) and old == new


def _by(old: Value | None, new: Value | None) -> Quantity | None:
    before, after = (value.nominal if isinstance(value, Limits) else value for value in (old, new))
    if isinstance(before, Quantity) and isinstance(after, Quantity) and before.power == after.power:
        return after - before
    return None


def same_part(old: Part | None, new: Part | None) -> bool:
    """Whether two parts are the same in count, material, section, sizes and note, its figures among them."""
    if old is None or new is None:
        return old is new
    same = "count", "material", "note", "section", "bought"
    if any(getattr(old, name) != getattr(new, name) for name in same):
        return False
    if len(old.sizes) != len(new.sizes) or len(old.figures) != len(new.figures):
        return False
    named = zip(old.figures, new.figures, strict=True)
    return all(map(alike, old.sizes, new.sizes)) and all(alike(a.value, b.value) for a, b in named)


def same_feature(old: Feature | None, new: Feature | None) -> bool:
    """Whether two lines cut the same in a part: sizes with their limits, names and places."""
    if old is None or new is None:
        return old is new
    if replace(old, cut=None, size=None, thinnest=None) != replace(new, cut=None, size=None, thinnest=None):
        return False
    if old.cut is None or new.cut is None:
        return old.cut is new.cut and alike(old.size, new.size)
    same = len(old.sizes) == len(new.sizes) and all(map(alike, old.sizes, new.sizes))
    return same and type(old.cut) is type(new.cut) and _bare(old.cut) == _bare(new.cut)


def _bare(cut: Cut) -> Hashable:
    """All of a cut but its sizes and their limits, which are compared as such."""
    match cut:
        case Hole():
            return cut.at, cut.angle, cut.deep is None
        case Notch():
            return cut.at, cut.edge
        case Slot():
            return cut.at, cut.turned, cut.square, cut.deep is None
