"""A sheet being written: lines set, set again, dropped and renamed, each change with what it moved, and undone.

A state of the sheet is never altered. A change makes a new one, in which only what rests on the
change is worked out anew.
"""

from __future__ import annotations

from fractions_shop.errors import ShopError
from fractions_shop.sheet import last_size
from fractions_shop.sheet.changes import alike
from fractions_shop.sheet.entering import entered, refuse_halves
from fractions_shop.sheet.last_size import LAST
from fractions_shop.sheet.renaming import renamed_part_rows, renamed_rows
from fractions_shop.sheet.rows import Rows
from fractions_shop.sheet.solve import FIRST_RULE
from fractions_shop.sheet.states import Edit, State, last_sized, next_state
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.size.notation import AS_USUAL, UnitsShown
from fractions_shop.size.rule import Rule


class LivingSheet:
    """A sheet that is written line by line; `made` is the sheet to begin with."""

    def __init__(
        self,
        made: WorkedSheet,
        rows: Rows | None = None,
        first_rule: Rule | None = None,
        first_units: UnitsShown = AS_USUAL,
    ) -> None:
        rows = rows or Rows()
        sheet = made.edited(rows.text)
        self.state = State(rows, sheet, last_sized(sheet), first_rule or Rule(FIRST_RULE), first_units)
        self._past: list[Edit] = []
        self._undone: list[Edit] = []

    # Changes

    def tried(self, text: str) -> Edit | None:
        """What entering a line would change, done to nothing; None for a blank one.

        InputError, placed in `text`, for a line that cannot be read or worked out.
        """
        return entered(self.state, text)

    def take(self, edit: Edit) -> None:
        """Take a change that was made from the state as it is."""
        assert edit.before is self.state
        self._past.append(edit)
        self._undone.clear()
        self.state = edit.after

    def enter(self, text: str) -> Edit | None:
        """Enter a line; InputError as `tried` raises it, and nothing is changed then."""
        edit = self.tried(text)
        if edit is not None:
            self.take(edit)
        return edit

    def drop(self, what: str) -> Edit:
        """Drop a line by its number, or by the name or part that it sets; ShopError when there is none."""
        state = self.state
        n = self.find(what)
        row = state.lines[n].row
        for m, source in last_size.sources(state.lines).items():
            if source is not None and state.lines[source].row == row != state.lines[m].row:
                number = state.lines[m].number
                raise ShopError(
                    f"ans on line {number} stands for the size of line {row + 1}; drop line {number} first"
                )
        rows_now = tuple(None if k == row else k - (k > row) for k in range(len(state.rows.rows)))
        after, where, called = next_state(state, state.rows.without(row), rows_now, None)
        edit = Edit(state, after, "dropped", None, n, where, called)
        self.take(edit)
        return edit

    def rename(self, old: str, new: str) -> Edit:
        """Give a name or a part another name wherever it stands; ShopError when that cannot be."""
        refuse_halves(new)
        state = self.state
        part = self.part_named(old) if old not in state.homes else None
        if part is None:
            rows, names = renamed_rows(state.rows, state.lines, old, new), {old: new}
        else:
            rows, names = renamed_part_rows(state.rows, state.lines, state.lines[part].part_name, new), {}
        sheet = state.sheet.edited(rows.text)
        same = {names.get(name, name): value for name, value in state.sheet.sizes.items()}
        if [w.state for w in sheet.worked] != [w.state for w in state.sheet.worked] or not (
            list(same) == list(sheet.sizes) and all(alike(same[name], sheet.sizes[name]) for name in same)
        ):
            raise ShopError(f"{new} would be read otherwise somewhere in the sheet; choose another name")
        home = state.homes[old] if part is None else part
        after = State(rows, sheet, state.last, state.first_rule, state.first_units)
        edit = Edit(state, after, "renamed", home, home, tuple(range(len(state.lines))))
        self.take(edit)
        return edit

    def part_named(self, what: str) -> int | None:
        """The line that makes a part, by its name, behind the word part or alone; None where there is none."""
        part = " ".join(what.split()).casefold()
        return self.state.parts.get(part, self.state.parts.get(part.removeprefix("part ")))

    def undo(self) -> Edit | None:
        """Take the last change back; None when there is none."""
        return self._back(self._past, self._undone, "before")

    def redo(self) -> Edit | None:
        """Do again what was last taken back; None when there is nothing."""
        return self._back(self._undone, self._past, "after")

    def _back(self, source: list[Edit], target: list[Edit], to: str) -> Edit | None:
        if not source:
            return None
        edit = source.pop()
        target.append(edit)
        self.state = getattr(edit, to)
        return edit

    def find(self, what: str) -> int:
        """The index of a line by its number, its name or its part; ShopError when there is none."""
        state, word = self.state, what.strip()
        number = word.removeprefix("line ").strip()
        if number.isdecimal() and number.isascii():
            count = len(state.rows.rows)
            if not 1 <= int(number[:9]) <= count:
                last = f"the last is line {count}" if count else "the sheet is empty"
                raise ShopError(f"there is no line {number}: {last}")
            return state.first_in(int(number) - 1)
        if word == LAST and state.last is not None:
            return state.last
        home = state.homes.get(word)
        if home is None:
            home = self.part_named(word)
        if home is None:
            raise ShopError(f"no line sets {word or 'that'}; sheet lists the lines with their numbers")
        return home
