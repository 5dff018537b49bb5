"""A sheet as it stands while it is written, and what leads from one such state to the next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.sheet import last_size
from fractions_shop.sheet.last_size import LAST
from fractions_shop.sheet.line_nodes import has_a_size
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.moved import MovedLines, moved
from fractions_shop.sheet.rows import Rows
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.size.cached import cached_property
from fractions_shop.size.notation import AS_USUAL, UnitsShown
from fractions_shop.size.rule import Rule


@dataclass(frozen=True, eq=False)
class State:
    """A sheet as it stands: its rows, worked out, and the line whose size `ans` is now, by its index.

    A row that sets several names has a line for each. `first_rule` is the working rule until the sheet
    says one, `first_units` which figures lead until then.
    """

    rows: Rows
    sheet: WorkedSheet
    last: int | None
    first_rule: Rule
    first_units: UnitsShown = AS_USUAL

    @property
    def lines(self) -> tuple[Line, ...]:
        """The sheet's lines."""
        return self.sheet.lines

    @property
    def rule(self) -> Rule:
        """The working rule at the end of the sheet."""
        return self.sheet.last_rule if any(line.works for line in self.lines) else self.first_rule

    @cached_property
    def homes(self) -> dict[str, int]:
        """The line that sets each name, by index."""
        homes: dict[str, int] = {}
        for n, line in enumerate(self.lines):
            if line.sets:
                homes.setdefault(line.sets, n)
        return homes

    @cached_property
    def parts(self) -> dict[str, int]:
        """The line that makes each part, by its name in small letters."""
        return {
            line.part_name.casefold(): n
            for n, line in reversed(tuple(enumerate(self.lines)))
            if line.part_name
        }

    @cached_property
    def revisions(self) -> dict[str, int]:
        """The line of each revision, by its label in small letters."""
        revisions: dict[str, int] = {}
        for n, line in enumerate(self.lines):
            if line.revision is not None:
                revisions.setdefault(line.revision.label.casefold(), n)
        return revisions

    @cached_property
    def session(self) -> Session:
        """What the sheet knows, for a line that is to follow."""
        session = self.sheet.session(self.last)
        session.rule = self.rule
        if not any(line.works for line in self.lines):
            session.units = self.first_units
        return session

    def resting_on(self, n: int) -> tuple[int, ...]:
        """The lines that rest on line `n`, directly or through others, in order."""
        feeds: dict[int, list[int]] = {}
        for m, draws in enumerate(self.sheet.draws):
            for source in draws.values():
                feeds.setdefault(source, []).append(m)
        resting: set[int] = set()
        waiting = [n]
        while waiting:
            for m in feeds.get(waiting.pop(), ()):
                if m not in resting:
                    resting.add(m)
                    waiting.append(m)
        return tuple(sorted(resting - {n}))

    def first_in(self, row: int) -> int:
        """The first line of a row."""
        return next(n for n, line in enumerate(self.lines) if line.row == row)


@dataclass(frozen=True, eq=False)
class Edit:
    """A change of a sheet from one state to another.

    `kind` is added, replaced, moved (replaced at the end of the sheet), dropped or renamed. `line` is
    the index of the line entered, now, and `was` of the one that it replaces or that was dropped,
    before. `where` tells for each line before where it is now, None for one that is gone. `called`
    has names that lines were given so that `ans` goes on meaning them.
    """

    before: State
    after: State
    kind: str
    line: int | None = None
    was: int | None = None
    where: tuple[int | None, ...] = ()
    called: tuple[str, ...] = ()

    @property
    def worked(self) -> Worked | None:
        """The line that was entered, with what came of it."""
        return None if self.line is None else self.after.sheet.worked[self.line]

    @property
    def replaced(self) -> Worked | None:
        """The line that gave way, with what had come of it."""
        return None if self.was is None else self.before.sheet.worked[self.was]

    def turned_back(self) -> Edit:
        """The change from the state after to the one before."""
        where: list[int | None] = [None] * len(self.after.lines)
        for old, new in enumerate(self.where):
            if new is not None:
                where[new] = old
        was = None if self.was is None else self.line
        return Edit(self.after, self.before, self.kind, self.was, was, tuple(where))

    @cached_property
    def moved(self) -> MovedLines:
        """What else it changed in the sheet."""
        return moved(self.before.sheet, self.after.sheet, self.where, self.line)


def next_state(
    state: State, rows: Rows, rows_now: Sequence[int | None], entered: int | None
) -> tuple[State, tuple[int | None, ...], tuple[str, ...]]:
    """The state with other rows, in which each `ans` stands for the line that it stood for before.

    `rows_now` tells for each row before where it is now, `entered` is the row that was entered. Also where the
    lines are now, and the names that some were given so that `ans` goes on meaning them.
    """
    lines = read_lines(rows.text, state.lines)
    where = _lines_now(state.lines, lines, rows_now)
    meant: dict[int, int] = {}
    for n, source in last_size.sources(state.lines).items():
        _note(meant, lines, where[n], None if source is None else where[source])
    last = None if state.last is None else where[state.last]
    for n, line in enumerate(lines):
        if line.row == entered:
            _note(meant, lines, n, last)
    rows, called = last_size.tied(rows, lines, meant)
    sheet = state.sheet.edited(rows.text)
    own = [n for n, line in enumerate(lines) if line.row == entered and has_a_size(line)]
    if own and sheet.worked[own[-1]].value is not None:
        last = own[-1]
    last = last_sized(sheet) if last is None else last
    return State(rows, sheet, last, state.first_rule, state.first_units), where, called


def last_sized(sheet: WorkedSheet) -> int | None:
    """The last line that has a size; None where none has."""
    worked = sheet.worked
    sized = (n for n in reversed(range(len(worked))) if has_a_size(worked[n].line))
    return next((n for n in sized if worked[n].value is not None), None)


def _note(meant: dict[int, int], lines: Sequence[Line], n: int | None, source: int | None) -> None:
    if n is not None and source is not None and LAST in lines[n].uses:
        meant[n] = source


def _lines_now(
    old: Sequence[Line], new: Sequence[Line], rows_now: Sequence[int | None]
) -> tuple[int | None, ...]:
    """Where each line is now: in its row, the one that sets the same name."""
    places: dict[tuple[int, str], int] = {}
    for n, line in enumerate(new):
        places.setdefault((line.row, line.sets), n)
    return tuple(
        None if row is None else places.get((row, line.sets)) for line in old for row in [rows_now[line.row]]
    )
