"""Faults of a sheet's lines told with advice that its other names give."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from fractions_shop.errors import InputError
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.session import Session
from fractions_shop.size.quantity import Quantity

#: Faults that get advice drawn from the names of the whole sheet, and how many of these are looked at.
_ADVISED = 100
_NAMES = 300


class NamesForAdvice:
    """The names of a sheet that advice may offer; the first faults alone ask for it."""

    def __init__(self, names: Sequence[str]) -> None:
        self._names = names[:_NAMES]
        self._left = _ADVISED

    def advised(self, error: InputError, line: Line, drawn: Collection[str], session: Session) -> InputError:
        """The same fault, placed in the sheet, with advice that its other names give; `drawn` are those that the line has."""
        return self._found_again(error, line, drawn, session).at(line.text, 0, line.number)

    def _found_again(
        self, error: InputError, line: Line, drawn: Collection[str], session: Session
    ) -> InputError:
        unknown = [name for name in line.uses if name not in drawn]
        if not (unknown or line.looks_at_names) or line.node is None or not self._left:
            return error
        self._left -= 1
        # None of these is used by the line, so none of them can change its answer.
        session.known = {**dict.fromkeys(self._names, Quantity.number(0)), **session.known}
        for name in (*unknown, line.sets):
            session.known.pop(name, None)
        try:
            session.work_out(line.node, line.text)
        except InputError as advised:
            return advised
        return error
