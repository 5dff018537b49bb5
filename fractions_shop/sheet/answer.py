"""Answer: what one statement answers, as value, text, notebook table or object."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from fractions_shop import requests
from fractions_shop.language.notes import Note, doubts_of
from fractions_shop.size.digits import PLACES
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import (
    AS_USUAL,
    UnitsShown,
    places_asked,
    places_shown,
    told_in,
    units_shown,
)
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.figures.plain import Lines
    from fractions_shop.requests.rooms import Room


#: Names that an answer rests on are listed one by one up to so many; that there are others is said.
TOLD = 4


@dataclass(frozen=True, repr=False)
class Answer:
    """What one statement answers.

    `kind` is the request's word, or `size` for an expression; `value` the one size of the
    answer (a Quantity, Limits or Angle), or None; `result` the typed answer, as the
    library's function of the same word gives it; `notes` what is said beside it: forms
    said back, doubts, remarks; `name` what it was named; `used` the names it drew on;
    `units` which figure of a size leads in its text.

    >>> from fractions_shop import Session
    >>> answer = Session().answer("snap 10.3 mm to 32nds")
    >>> answer.kind, answer.value.inch
    ('snap', Fraction(13, 32))
    >>> answer.data()["size"]
    {'inch': '13/32', 'mm': '1651/160', 'approximate': False}
    """

    statement: str
    kind: str
    value: Value | None
    result: Any
    notes: tuple[Note, ...] = ()
    name: str | None = None
    used: tuple[str, ...] = ()
    units: UnitsShown = AS_USUAL
    open_roots: tuple[str, ...] = ()

    @property
    def room(self) -> Room:
        """All that is said of answers of its kind."""
        return requests.room(self.kind)

    @property
    def named(self) -> Mapping[str, Value]:
        """The sizes that it names; several for a list that gives a name to each."""
        if self.name is None or self.value is None:
            return {}
        each: Mapping[str, Value] = getattr(self.result, "each", {})
        return each or {self.name: self.value}

    @property
    def names_several(self) -> bool:
        """Whether it names several sizes, one each."""
        each = getattr(self.result, "each", None)
        return each is not None and len(each) > 1 and self.name is not None and self.value is not None

    @property
    def lacks_size(self) -> bool:
        """Whether it names what has no size yet: a reading off a print whose scale is still open."""
        return self.name is not None and self.value is None and getattr(self.result, "points", None) is None

    @property
    def doubts(self) -> tuple[Note, ...]:
        """The notes that tell of a second meaning."""
        return doubts_of(self.notes) if self.notes else ()

    @property
    def moved(self) -> bool:
        """Whether it is the space of a total that `divide` had to move."""
        return self.room.moved is not None and self.room.moved(self.result) is not None

    @property
    def ok(self) -> bool:
        """False for a check that failed."""
        holds = self.room.holds
        return holds is None or holds(self.result)

    def lines(self) -> Lines:
        """Sentences and tables, the size it names first, its notes last."""
        if units_shown.get() is self.units:
            return self._lines()
        with told_in(self.units):
            return self._lines()

    def _lines(self) -> Lines:
        room, result, name = self.room, self.result, self.name
        lines = room.lines(result)
        offers = [str(note) for note in self.notes if note.kind == "offer"] if self.notes else []
        if offers and isinstance(
            lines[0], str
        ):  # the first says how to ask for the other form of what was asked
            lines = ["; ".join([lines[0], *offers]), *lines[1:]]
        verdicts = room.verdicts(result) if room.verdicts is not None else 0
        if self.open_roots and verdicts:
            lines = [*self._held_back(lines[:verdicts]), *lines[verdicts:]]
            verdicts += 1
        if name is not None:
            if self.value is not None and self.kind == "size":
                lines = [f"{name} = {lines[0]}", *lines[1:]]
            elif named := self.named:
                lines = [*lines[:verdicts], *self._named_lines(named), *lines[verdicts:]]
            elif not self.lacks_size:
                lines = [self._placed(name), *lines]
        if not self.notes:
            return [*lines]
        return [*lines, *(f"note: {note}" for note in self.notes if note.kind != "offer")]

    def _named_lines(self, named: Mapping[str, Value]) -> list[str]:
        """A line for each size that it names."""
        from fractions_shop.figures.size_words import size_line, taken_as

        return [
            f"{name} is taken as {taken_as(value)}, which is not settled"
            if self._is_open(name)
            else f"{name} = {size_line(value)}"
            for name, value in named.items()
        ]

    @property
    def _not_yet(self) -> str:
        """The verdict on what rests on a size that is not settled, whatever the odds on it are."""
        return f"Not settled: it rests on {self._roots}, which may be another size; do not cut yet"

    def _held_back(self, verdicts: Lines) -> Lines:
        """What may be done if what it rests on is right."""
        right = f"{self._roots} {'are' if len(self.open_roots) > 1 else 'is'} right"
        return [self._not_yet, *(f"If {right}: {said}" for said in verdicts)]

    @property
    def _roots(self) -> str:
        from fractions_shop.requests.meant_words import in_row  # whatever has a verdict has read it

        return in_row(self.open_roots, "and")

    def _is_open(self, name: str) -> bool:
        """Whether its size was taken from a reading that does not settle it, or rests on such a one."""
        if self.open_roots and self.room.verdicts is not None:
            return True
        several = getattr(self.result, "unsettled", None)
        if several is not None:
            return name in several
        return self.room.odds is not None and self.room.odds(self.result) is not None

    def _placed(self, name: str) -> str:
        """What is named where that is no size: how many places, and on what rule."""
        from fractions_shop.figures.wording import rule_word, so_many

        names = getattr(self.result, "names", ("1",))
        first = "" if names[0] == "1" else f", of which mark {names[0]} is the first"
        return (
            f"{name}: {so_many(len(self.result.points), 'place')} on the {rule_word(self.result.rule)}{first}"
        )

    def text(self, width: int = 80, digits: int = PLACES, pictures: bool = True) -> str:
        """Sentences and columns for a person, at most `width` columns where words allow.

        Figures that do not end are rounded to `digits` decimals, and say so. Without `pictures`
        what is drawn in letters is left out.
        """
        from fractions_shop.figures.plain import laid_out, without_pictures

        token = places_shown.set(places_asked(digits))
        try:
            lines = self.lines()
            return laid_out(lines if pictures else without_pictures(lines), width)
        finally:
            places_shown.reset(token)

    def gist(self, digits: int = PLACES) -> str:
        """The answer in one line, what was asked for first."""
        token = places_shown.set(places_asked(digits))
        try:
            with told_in(self.units):
                return "; ".join(self._gist())
        finally:
            places_shown.reset(token)

    def _gist(self) -> list[str]:
        from fractions_shop.requests.gists import gist_of

        room = self.room if self.name is None else None
        # That it may be another size, or a wrong one, must be seen, whatever else the row has no room for.
        seen = ("doubt", "standing")
        plain = replace(self, notes=tuple(note for note in self.notes if note.kind not in seen))
        gist = gist_of(room, self.result, plain.lines())
        if self.open_roots and self.room.verdicts is not None:
            gist = [self._not_yet]
        standings = [note.text for note in self.notes if note.kind == "standing"]
        return [*(gist[:1] if self.doubts else gist), *(note.text for note in self.doubts), *standings]

    def data(self) -> dict[str, Any]:
        """A plain object for JSON, exact rationals as text."""
        from fractions_shop.requests.data import SCHEMA, encode, name_beside, size

        data: dict[str, Any] = {
            "schema": SCHEMA,
            "statement": self.statement,
            "kind": self.kind,
            "ok": self.ok,
            "name": self.name,
            "value": encode(self.value),
            "notes": [note.text for note in self.notes],
            "doubts": [note.text for note in self.doubts],
        }
        if isinstance(self.value, Limits) and self.value.stacked:
            data["root_sum_square"] = encode(self.value.root_sum_square)
            data["contributions"] = [
                {"name": label, "reach": size(reach)} for label, reach in self.value.contributions
            ]
        for key, value in encode(self.result).items():
            # A result's own name or kind (a thread's, a fit's) stands beside the statement's.
            data[name_beside(data, self.kind, key)] = value
        return data

    def __repr__(self) -> str:
        from fractions_shop.requests.gists import in_short

        return in_short(f"Answer {self.statement.strip()}", self._gist())

    def _repr_html_(self) -> str:
        """For a notebook: the answer as it stands on a sheet's page."""
        from fractions_shop.figures.html import html_lines, text

        return f"<p><code>{text(self.statement.strip())}</code></p>\n{html_lines(self.lines())}"
