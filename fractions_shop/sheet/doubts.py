"""Sizes of a sheet that may not be the ones meant, and what rests on them.

A size is doubtful when it is taken from a reading whose likeliest meaning is not settled
(`meant.verdict`), or from a form with a second sensible meaning; and a space of `divide` is not
that of the total asked for when the total had to move. A size may also be settled only on what nobody
said and is believed: that it is inch work, or that it has kept its size.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from fractions_shop.language.notes import Note
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.solve import Worked, Working
from fractions_shop.size.cached import cached_property
from fractions_shop.size.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Doubt:
    """A doubtful size: its `name` (or the part's, or `the size`) and line; `feeds` others or does not.

    Either `odds` to one are those on what was taken from a reading although it is not
    settled, or `notes` tell what else its written form may mean.
    """

    name: str
    line: int
    odds: float | None = None
    notes: tuple[Note, ...] = ()
    feeds: bool = False


@dataclass(frozen=True, slots=True)
class MovedTotal:
    """A size that is the space of a `divide` whose total, `asked`, was moved by `change`.

    `feeds` says whether others are worked out from it.
    """

    name: str
    line: int
    asked: Quantity
    change: Quantity
    feeds: bool = False


@dataclass(frozen=True, slots=True)
class BelievedSize:
    """A size taken from a reading that is settled only on what is believed: `said`, as in `if it is inch work`.

    `feeds` says whether others are worked out from it.
    """

    name: str
    line: int
    said: str
    feeds: bool = False


@dataclass(frozen=True)
class Doubts:
    """The doubtful sizes, moved totals and believed sizes of a sheet, and what rests on them.

    `resting` has the numbers of the lines that draw on a doubtful size, directly or not,
    `on_moved` of those that draw on the space of a moved total, and `on_belief` of those that draw on
    a believed size. `settled` are names of which no
    doubt is told although their line, which sets several, has one.
    """

    readings: tuple[Doubt, ...] = ()
    moved: tuple[MovedTotal, ...] = ()
    resting: frozenset[int] = frozenset()
    on_moved: frozenset[int] = frozenset()
    settled: frozenset[str] = frozenset()
    believed: tuple[BelievedSize, ...] = ()
    on_belief: frozenset[int] = frozenset()

    @cached_property
    def lines(self) -> frozenset[int]:
        """The numbers of the lines with a doubtful size."""
        return frozenset(doubt.line for doubt in self.readings)

    @cached_property
    def doubtful(self) -> frozenset[int]:
        """The numbers of the lines that are doubtful or rest on one that is."""
        return self.lines | self.resting

    @cached_property
    def of_moved(self) -> frozenset[int]:
        """The numbers of the lines whose size is that of a moved total, or rests on one."""
        return frozenset(moved.line for moved in self.moved) | self.on_moved

    @cached_property
    def of_belief(self) -> frozenset[int]:
        """The numbers of the lines whose size is a believed one, or rests on one."""
        return frozenset(belief.line for belief in self.believed) | self.on_belief

    @cached_property
    def marked(self) -> frozenset[int]:
        """The numbers of the lines whose size may not be the one meant, or rests on such a one."""
        return self.doubtful | self.of_moved | self.of_belief


NO_DOUBTS = Doubts()


def doubts(working: Working) -> Doubts:
    """Every doubt about a size that is listed or drawn on by another line."""
    worked = working.worked
    asked = [(n, item) for n, item in enumerate(worked) if _may_be_doubted(item)]
    doubtful = {n: doubt for n, item in asked if (doubt := _doubt(item)) is not None}
    moved = {n: each for n, item in asked if (each := _moved(item)) is not None}
    believed = {n: belief for n, item in asked if (belief := _belief(item)) is not None}
    if not doubtful and not moved and not believed:
        return NO_DOUBTS
    resting, on_moved = _resting(working, doubtful), _resting(working, moved)
    on_belief = _resting(working, believed)
    touched = resting | on_moved | on_belief
    drawn_on = {source for n in touched for source in working.plan.draws[n].values()}
    marked = doubtful.keys() | believed.keys() | touched
    return Doubts(
        tuple(
            replace(each, feeds=n in drawn_on)
            for n, each in doubtful.items()
            if worked[n].is_listed or n in drawn_on
        ),
        tuple(
            replace(each, feeds=n in drawn_on)
            for n, each in moved.items()
            if worked[n].is_listed or n in drawn_on
        ),
        frozenset(working.lines[n].number for n in resting),
        frozenset(working.lines[n].number for n in on_moved),
        frozenset(
            line.sets for n, line in enumerate(working.lines)
            if _is_one_of_several(working, n) and n not in marked
        ),
        tuple(
            replace(each, feeds=n in drawn_on)
            for n, each in believed.items()
            if worked[n].is_listed or n in drawn_on
        ),
        frozenset(working.lines[n].number for n in on_belief),
    )  # fmt: skip


def _is_one_of_several(working: Working, n: int) -> bool:
    """Whether a line's row sets further names."""
    lines = working.lines
    return lines[n].also or (n + 1 < len(lines) and lines[n + 1].also)


def _may_be_doubted(item: Worked) -> bool:
    """Whether anything is said beside a line, or its answer is of a kind that any doubt is told of."""
    if item.notes:
        return True
    if item.answer is None:
        return False
    room = item.answer.room
    return room.odds is not None or room.moved is not None or room.believed is not None


def _doubt(item: Worked) -> Doubt | None:
    """The doubt about a line's own size."""
    odds = _odds(item)
    if odds is not None:
        return Doubt(called_or_kind(item.line), item.line.number, odds)
    written = tuple(note for note in item.notes if note.kind == "doubt")
    guessed = item.answer is not None and item.answer.room.odds is not None and not item.answer.lacks_size
    if not written or guessed:
        return None
    return Doubt(called_or_kind(item.line), item.line.number, notes=written)


def _odds(item: Worked) -> float | None:
    """The odds on a size that was taken although it is not settled."""
    if item.answer is None or item.answer.room.odds is None or item.value is None:
        return None
    return item.answer.room.odds(item.answer.result)


def _belief(item: Worked) -> BelievedSize | None:
    """What the size of a line rests on being believed, which nobody said."""
    if item.answer is None or item.answer.room.believed is None or item.value is None:
        return None
    said = item.answer.room.believed(item.answer.result)
    return (
        BelievedSize(called_or_kind(item.line), item.line.number, said)
        if said and _odds(item) is None
        else None
    )


def _moved(item: Worked) -> MovedTotal | None:
    """The total that is not the one asked for."""
    if item.answer is None or item.answer.room.moved is None:
        return None
    return moved_total(item.answer, called_or_kind(item.line), item.line.number)


def moved_total(answer: Answer, name: str, line: int) -> MovedTotal | None:
    """The total of an answer, where it is not the one asked for."""
    moved = None if answer.room.moved is None else answer.room.moved(answer.result)
    return None if moved is None else MovedTotal(name, line, *moved)


def called_or_kind(line: Line) -> str:
    """What a line is called, or what kind of line it is: `pitch`, `the stock of brass`, `the check`, `the size`."""
    if line.kind == "stock":
        return "the stock" if line.stock is None else f"the stock of {line.stock.material}"
    return line.called or ("the check" if line.is_check else "the size")


def _resting(working: Working, sources: Iterable[int]) -> set[int]:
    """The lines that draw on one of these, directly or through others."""
    waiting = list(sources)
    if not waiting:
        return set()
    feeds: dict[int, list[int]] = {}
    for n, draws in enumerate(working.plan.draws):
        for source in draws.values():
            feeds.setdefault(source, []).append(n)
    resting: set[int] = set()
    while waiting:
        for n in feeds.get(waiting.pop(), ()):
            if n not in resting:
                resting.add(n)
                waiting.append(n)
    return resting
