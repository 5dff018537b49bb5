"""A sheet worked out: its lines and all that can be known of it, before anything is written."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from fractions_shop.errors import ArgumentError, InputError, ShopError, visible
from fractions_shop.requests import room
from fractions_shop.requests.check import CheckResult
from fractions_shop.sheet.at_end import session_at_end
from fractions_shop.sheet.changes import (
    AnswerChange,
    Change,
    PartChange,
    answer_changes,
    part_changes,
    size_changes,
)
from fractions_shop.sheet.check_causes import Feed, Feeder
from fractions_shop.sheet.cut_changes import CutChange, StockChange, cut_changes, stock_changes
from fractions_shop.sheet.cut_parts import CutPart, cut_part
from fractions_shop.sheet.doubts import Doubts, doubts
from fractions_shop.sheet.front import Front, front
from fractions_shop.sheet.lacking import walls_told
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.list_changes import ListChanges, list_changes
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.revisions import Revision, in_order, with_revision
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.solve import FIRST_RULE, Worked, Working
from fractions_shop.sheet.source import text_of
from fractions_shop.sheet.to_buy import ToBuy, to_buy
from fractions_shop.sheet.tools import Tool, tools
from fractions_shop.sheet.undone_lines import UndoneLines, undone_lines
from fractions_shop.sheet.verdict import Verdict, verdict
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.size.cached import cached_property
from fractions_shop.size.notation import AS_USUAL, UnitsShown
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from typing import Self

    from fractions_shop.figures.plain import Lines

#: Failed checks whose feeds are worked out; the first ones matter.
_MOST_EXPLAINED = 50
#: Names of parts that are offered where another was asked for.
_MOST_NAMES = 8


@dataclass(frozen=True, slots=True)
class SheetCheck:
    """A check of a sheet: its line, its result, and for a failed one what feeds it."""

    line: int
    statement: str
    result: CheckResult
    feeds: tuple[Feed, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether it holds."""
        return self.result.holds

    def lines(self) -> Lines:
        """Whether it holds, in words, and by how much not."""
        return room("check").lines(self.result)


class WorkedSheet:
    """A sheet of statements; each fact about it is worked out once, when it is first asked for."""

    def __init__(self, text: str, title: str = "Sheet") -> None:
        if not isinstance(text, str):
            raise ArgumentError(
                f"a sheet is made of its text, not of {type(text).__name__}; read() takes a file"
            )
        self.written = text
        self._title = visible(title)
        self._earlier: Working | None = None

    @classmethod
    def from_text(cls, text: str, title: str = "Sheet") -> Self:
        """A sheet from its text; `title` serves unless the text has a title of its own."""
        return cls(text, title)

    @classmethod
    def read(cls, path: str | os.PathLike[str]) -> Self:
        """A sheet from a file in UTF-8; ShopError, with the reason, if it cannot be read."""
        path = Path(path)
        return cls(text_of(path), path.stem.replace("-", " ").replace("_", " "))

    def __reduce__(self) -> tuple[type[Self], tuple[str, str]]:
        """Its text and title, in a pickle or a copy: there it is worked out when it is first asked for anything."""
        return type(self), (self.written, self._title)

    def run(self) -> Self:
        """The same sheet, worked out."""
        _ = self.worked
        return self

    def edited(self, text: str) -> Self:
        """The same sheet with another text; only what rests on what differs is worked out anew."""
        made = type(self)(text, self._title)
        made._earlier = self._working
        return made

    @cached_property
    def _working(self) -> Working:
        earlier, self._earlier = self._earlier, None  # not to keep every sheet that there was
        known = earlier.lines if earlier is not None else ()
        return Working(read_lines(self.written, known), earlier)

    def session(self, last: int | None) -> Session:
        """A session that knows what the sheet knows at its end, `ans` being the size of line `last`."""
        return session_at_end(self._working, last)

    @property
    def lines(self) -> tuple[Line, ...]:
        """The lines as they were read."""
        return self._working.lines

    @property
    def rules(self) -> Sequence[Rule]:
        """The working rule that each line stands under."""
        return self._working.rules

    @property
    def last_rule(self) -> Rule:
        """The working rule at the end."""
        return self._working.rules[-1] if self._working.rules else Rule(FIRST_RULE)

    @property
    def draws(self) -> tuple[Mapping[str, int], ...]:
        """For each line the line, by its index, behind each name that it draws on."""
        return self._working.plan.draws

    @cached_property
    def worked(self) -> tuple[Worked, ...]:
        """Every line with what came of it, in the order of the file."""
        return walls_told(self._working.worked)

    @cached_property
    def front(self) -> Front:
        """The sheet's own title and the notes on the whole of it."""
        return front(self._working.lines)

    @property
    def title(self) -> str:
        """What the sheet is called."""
        return self.front.title or self._title

    @cached_property
    def revisions(self) -> tuple[Revision, ...]:
        """What its `rev` lines say, the oldest first; those at fault are left out."""
        revisions = (w.line.revision for w in self.worked if w.fault is None)
        return in_order([revision for revision in revisions if revision is not None])

    @property
    def revision(self) -> Revision | None:
        """The revision that stands: the newest of them; None for a sheet without one."""
        return self.revisions[-1] if self.revisions else None

    @property
    def heading(self) -> str:
        """Its title, and which revision it is."""
        return with_revision(self.title, self.revision.label if self.revision else "")

    @cached_property
    def units(self) -> UnitsShown:
        """Which figures lead in its lists: what its last `units` line says."""
        answers = (item.answer for item in reversed(self.worked) if item.line.is_units)
        return next((answer.result.units for answer in answers if answer is not None), AS_USUAL)

    @cached_property
    def sizes(self) -> Mapping[str, Value]:
        """The named sizes, in the order of the file."""
        return MappingProxyType(
            {w.line.sets: w.value for w in self.worked if w.line.sets and w.value is not None}
        )

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        """The parts to make, by name, in the order of the file."""
        return MappingProxyType({w.part.name: w.part for w in self.worked if w.part is not None})

    @cached_property
    def cut_parts(self) -> Mapping[str, CutPart]:
        """Every part with what is cut in it, by name, in the order of the file."""
        features: dict[str, list[tuple[int, Feature]]] = {}
        for item in self.worked:
            if item.feature is not None:
                features.setdefault(item.feature.part, []).append((item.line.number, item.feature))
        return MappingProxyType({
            item.part.name: cut_part(item.part, item.line.number, features.get(item.part.name, ()))
            for item in self.worked if item.part is not None
        })  # fmt: skip

    def part_called(self, name: str) -> CutPart:
        """The part of that name, however it is spaced and in capitals or not; ShopError where there is none."""
        wanted = " ".join(name.split()).casefold()
        for known, cut in self.cut_parts.items():
            if known.casefold() == wanted:
                return cut
        known_names = ", ".join(list(self.cut_parts)[:_MOST_NAMES])
        raise ShopError(
            f"no part here is called {visible(name)}"
            + (f"; write one of {known_names}" if known_names else "")
        )

    @cached_property
    def to_buy(self) -> ToBuy:
        """The stock that parts are cut from, what is bought by name, and the parts that no stock has."""
        return to_buy(self.worked)

    @cached_property
    def tools(self) -> tuple[Tool, ...]:
        """The drills, taps, countersinks and cutters that its holes and slots ask for."""
        return tools(self.cut_parts.values())

    @cached_property
    def checks(self) -> tuple[SheetCheck, ...]:
        """The checks; failed ones with what feeds them."""
        feeder = Feeder(self._working)
        checks, explained = [], 0
        for n, item in enumerate(self.worked):
            result = item.check
            if result is None:
                continue
            feeds: tuple[Feed, ...] = ()
            if not result.holds and explained < _MOST_EXPLAINED:
                explained += 1
                feeds = feeder.feeds(n, result)
            checks.append(SheetCheck(item.line.number, item.line.statement, result, feeds))
        return tuple(checks)

    @property
    def feeds(self) -> Mapping[int, tuple[Feed, ...]]:
        """What feeds each failed check, by the number of its line."""
        return {check.line: check.feeds for check in self.checks if not check.holds}

    @cached_property
    def faults(self) -> tuple[InputError, ...]:
        """What is wrong, each with its line and place."""
        return tuple(w.fault for w in self.worked if w.fault is not None)

    @cached_property
    def doubts(self) -> Doubts:
        """The sizes that may not be the ones meant, and the lines that rest on them."""
        return doubts(self._working)

    @property
    def waiting(self) -> tuple[Worked, ...]:
        """The lines that wait for one at fault."""
        return tuple(w for w in self.worked if w.waits and not w.line.also)

    @cached_property
    def verdict(self) -> Verdict:
        """How the sheet went, in counts."""
        return verdict(self.worked, self.doubts)

    @property
    def ok(self) -> bool:
        """Whether every line is answered and every check holds."""
        return self.verdict.ok

    @cached_property
    def undone_lines(self) -> UndoneLines:
        """What its lines that were not worked out would have given."""
        return undone_lines(self.worked)

    def changes(self, newer: WorkedSheet) -> tuple[Change, ...]:
        """The named sizes that differ in a newer sheet."""
        return size_changes(self.sizes, newer.sizes, (self.undone_lines, newer.undone_lines))

    def part_changes(self, newer: WorkedSheet) -> tuple[PartChange, ...]:
        """The parts that differ in a newer sheet, in count, material, sizes or note."""
        return part_changes(self.parts, newer.parts, (self.undone_lines, newer.undone_lines))

    def cut_changes(self, newer: WorkedSheet) -> tuple[CutChange, ...]:
        """The holes, slots, corners and least walls that differ in a newer sheet, part by part."""
        return cut_changes(self.worked, newer.worked)

    def stock_changes(self, newer: WorkedSheet) -> tuple[StockChange, ...]:
        """The stock that differs in a newer sheet, in its sizes, its saw, or in what is cut from it."""
        return stock_changes(self.worked, newer.worked)

    def answer_changes(self, newer: WorkedSheet) -> tuple[AnswerChange, ...]:
        """The answers that differ in a newer sheet: marks, heights, fits, checks, threads and the like."""
        return answer_changes(self.worked, newer.worked)

    def list_changes(self, newer: WorkedSheet) -> ListChanges:
        """The revisions that differ in a newer sheet, and the tools that only one of the two asks for."""
        return list_changes((self.revisions, newer.revisions), (self.tools, newer.tools))
