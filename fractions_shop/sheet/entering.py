"""One line on its way into a sheet: where it belongs, what gives way to it, and what is refused."""

from __future__ import annotations

from collections.abc import Sequence

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Name, Naming
from fractions_shop.sheet.last_size import LAST
from fractions_shop.sheet.line_nodes import nodes_of
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.rows import Rows
from fractions_shop.sheet.self_reference import refuse_itself
from fractions_shop.sheet.solve import FIRST_RULE, Worked
from fractions_shop.sheet.states import Edit, State, next_state
from fractions_shop.sheet.worked_stock import PartStock, same_stock, work_out_stock
from fractions_shop.size.notation import AS_USUAL, words_of
from fractions_shop.size.rule import Rule


class Entering:
    """A line that is to be entered, read from `text`; a statement or part that is at fault is no such line."""

    def __init__(self, state: State, text: str, line: Line) -> None:
        self.state, self.text, self.line = state, text, line

    def edit(self) -> Edit:
        """The change that it makes; InputError, placed in the text, when it cannot be worked out."""
        homes = self._homes()
        count = len(self.state.rows.rows)
        if not homes:
            rows = self.state.rows
            for text in (*self._begun_with(), self.text):
                rows = rows.added(text)
            return self._made(rows, tuple(range(count)), "added", len(rows.rows) - 1, None)
        home, *others = sorted({self.state.lines[n].row for n in homes})
        was = self.state.first_in(home)
        text = _with_comment(self.text, self.state.lines[was])
        stays = self.state.sheet.rules[was] == self.state.rule
        rows = self.state.rows.with_row(home, text) if stays else self.state.rows.added(text)
        gone = set(others) if stays else {home, *others}
        for row in sorted(gone, reverse=True):
            rows = rows.without(row)
        place = home if stays else len(rows.rows) - 1
        left = [row for row in range(count) if row not in gone]
        rows_now = tuple(place if row in {home, *others} else left.index(row) for row in range(count))
        moves = not stays and home != count - 1
        return self._made(rows, rows_now, "moved" if moves else "replaced", place, was)

    def _homes(self) -> list[int]:
        """The lines that set the same names, make the same part or tell of the same revision.

        InputError where they cannot give way.
        """
        state, line = self.state, self.line
        if line.kind == "part":
            home = state.parts.get(line.part_name.casefold())
            return [] if home is None else [home]
        if line.revision is not None:
            home = state.revisions.get(line.revision.label.casefold())
            return [] if home is None else [home]
        if line.stock is not None:
            return self._stock_homes()
        if line.one_a_part:
            return [n for n, other in enumerate(state.lines) if other.one_a_part == line.one_a_part][:1]
        each = line.node.each if isinstance(line.node, Naming) else ()
        names = each or ((line.sets,) if line.sets else ())
        homes = [state.homes[name] for name in names if name in state.homes]
        for n in homes:
            refuse_itself(line, state.lines[n], names, ans_is_it=state.last == n)
            self._refuse_to_lose(state.lines[n], names)
        return homes

    def _stock_homes(self) -> list[int]:
        """The first stock line of the same material and section, though no part may fit it yet."""
        stock = self._stock_alone(self.line)
        for n, line in enumerate(self.state.lines):
            other = None if line.stock is None else self._stock_alone(line)
            if stock is not None and other is not None and same_stock(other, stock):
                return [n]
        return []

    def _stock_alone(self, line: Line) -> PartStock | None:
        """A stock without its parts; None for one that cannot be worked out, which the sheet itself tells."""
        try:
            return work_out_stock(line, self.state.session, {}, (), ())
        except InputError:
            return None

    def _refuse_to_lose(self, old: Line, names: Sequence[str]) -> None:
        others = [line.sets for line in self.state.lines if line.row == old.row and line.sets not in names]
        if others:
            start = self.line.text.find(old.sets)
            raise InputError(
                f"line {old.number} sets {old.sets} together with {' and '.join(others)}",
                self.text, start, start + len(old.sets), f"set all of them again, or drop line {old.number} first",
            )  # fmt: skip

    def _begun_with(self) -> list[str]:
        """The lines that set the rule and the units begun with, before the first that they could matter to."""
        state, line = self.state, self.line
        if not line.works or any(line.works for line in state.lines):
            return []
        said = []
        if state.first_rule != Rule(FIRST_RULE) and not line.is_rule:
            said.append(f"rule {state.first_rule}")
        if state.first_units != AS_USUAL and not line.is_units:
            said.append(f"units {words_of(state.first_units)}")
        return said

    def _made(self, rows: Rows, rows_now: Sequence[int], kind: str, row: int, was: int | None) -> Edit:
        after, where, called = next_state(self.state, rows, rows_now, row)
        place = after.first_in(row)
        self._refuse(after.sheet.worked[place])
        return Edit(self.state, after, kind, place, was, where, called)

    def _refuse(self, item: Worked) -> None:
        """InputError for a line that was not worked out, placed in it as it was typed."""
        if item.fault is not None:
            row = item.line.text.removesuffix(item.line.comment) + self.line.comment
            raise _placed_back(item.fault, row, self.line, self.text)
        if item.waits:
            wait = item.waits[0]
            node = self.line.uses.get(wait.name)
            start, end = (node.start, node.end) if node else (0, len(self.text))
            raise InputError(
                f"{wait.name} has no size, because line {wait.line} is not worked out", self.text, start, end,
                f"set line {wait.line} right first, or drop it",
            )  # fmt: skip


def entered(state: State, text: str, line: Line | None = None) -> Edit | None:
    """What entering a line would change; None for a blank one, InputError for one at fault.

    `line` is the text as it is read, for a caller who has read it.
    """
    refuse_halves(text)
    if line is None:
        line = next(iter(read_lines(text)), None)
    if line is None or line.kind == "blank":
        return None
    if line.fault is not None:
        raise line.fault
    return Entering(state, text, line).edit()


def _with_comment(text: str, old: Line) -> str:
    """A line's new text with the comment that stood behind the old one, unless it has its own."""
    comment = old.comment
    return text if not comment or read_lines(text)[0].comment else f"{text.rstrip()}{comment}"


def _placed_back(error: InputError, row: str, typed: Line, text: str) -> InputError:
    """A fault of a row, in which names were put for `ans`, placed in the line as it was typed."""
    places = sorted(
        {(node.start, node.end) for node in nodes_of(typed) if isinstance(node, Name) and node.word == LAST}
    )
    grown = (len(row) - len(text)) // len(places) if places else 0

    def back(place: int, inside: int) -> int:
        shift = 0
        for span in places:
            if span[0] + shift < place < span[1] + shift + grown:
                return span[inside]
            shift += grown if span[1] + shift + grown <= place else 0
        return place - shift

    start, end = back(error.start, 0), back(error.end, 1)
    return InputError(error.message, text, start, end, error.advice, 1, error.ended, error.expected)


def refuse_halves(text: str) -> None:
    """InputError for half a sign, as which a terminal gives bytes that are no UTF-8: no file could hold it."""
    half = next((place for place, sign in enumerate(text) if "\ud800" <= sign <= "\udfff"), None)
    if half is not None:
        raise InputError(
            "this is no sign of UTF-8 text", text, half, half + 1, "type it anew, or leave it out"
        )
