"""The public face of the language: a Session, and its Answers as value, text or object."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import Any

from fractions_shop.errors import ArgumentError, DoubtfulReading, InputError, ShopError
from fractions_shop.language.arithmetic import Value
from fractions_shop.language.notes import Note
from fractions_shop.language.results import CheckResult
from fractions_shop.sheet.workbench import Outcome, Workbench
from fractions_shop.size import quantity
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import PLACES, places_shown
from fractions_shop.size.quantity import Quantity, exact
from fractions_shop.size.rule import Rule


@dataclass(frozen=True)
class Answer:
    """What one statement answers.

    `outcome` holds the typed result; `value` is the one size of the answer (a
    Quantity, Limits or Angle) or None.

    >>> answer = Session().answer("snap 10.3 mm to 32nds")
    >>> answer.kind, answer.value.inch
    ('snap', Fraction(13, 32))
    >>> answer.data()["size"]
    {'inch': '13/32', 'mm': '1651/160', 'approximate': False}
    """

    outcome: Outcome

    @property
    def value(self) -> Value | None:
        """The one size of the answer, or None when it has none."""
        return self.outcome.value

    @property
    def notes(self) -> tuple[Note, ...]:
        """What is said beside the answer: forms said back, doubts, remarks."""
        return self.outcome.notes

    @property
    def kind(self) -> str:
        """The request's word, or `size`."""
        return self.outcome.kind

    @property
    def result(self) -> Any:
        """The typed result, as the library's function of the same word gives it."""
        return self.outcome.result

    @property
    def ok(self) -> bool:
        """False for a check that failed."""
        return not (isinstance(self.result, CheckResult) and not self.result.holds)

    def text(self, width: int = 80, digits: int = PLACES) -> str:
        """Sentences and columns for a person, at most `width` columns where words allow.

        Figures that do not end are rounded to `digits` decimals, and say so.
        """
        from fractions_shop.show import text

        token = places_shown.set(digits)
        try:
            return text.answer(self.outcome, width)
        finally:
            places_shown.reset(token)

    def _repr_html_(self) -> str:
        """For a notebook: the answer as it stands on a sheet's page."""
        from fractions_shop.show.fragment import answer_html

        return answer_html(self.outcome)

    def data(self) -> dict[str, Any]:
        """A plain object for JSON, exact rationals as text."""
        from fractions_shop.show import data

        return data.answer(self.outcome)


def _size_for_notebook(size: Quantity | Limits) -> str:
    from fractions_shop.show.fragment import size_html

    return size_html(size)


quantity.notebook = _size_for_notebook


class Session:
    """Statements answered one after another; names, `ans` and the rule last between them.

    >>> bench = Session()
    >>> bench.answer("pitch = 2 1/32 in / 5").value.inch
    Fraction(13, 32)
    >>> print(bench.answer("pitch * 5").text())
    2 1/32 in = 2.03125 in = 51.59375 mm exactly
    a mark of the 32nds
    """

    def __init__(self, rule: Rule | str = "64ths", lookups: bool = True) -> None:
        self.workbench = Workbench(Rule(rule), lookups=lookups)

    @property
    def rule(self) -> Rule:
        """The working rule."""
        return self.workbench.rule

    @property
    def names(self) -> dict[str, Value]:
        """What is named, `ans` among it."""
        return dict(self.workbench.names)

    def answer(self, statement: str) -> Answer | None:
        """Answer one statement; None for a blank or comment line, InputError for a fault."""
        outcome = self.workbench.answer(statement)
        return None if outcome is None else Answer(outcome)


def read(text: str, *, doubtful: str = "refuse") -> Quantity | Limits:
    """The size that one written form says: a Quantity, or Limits.

    Takes every form that the language takes as a size (and arithmetic on sizes).
    InputError, with the place and how to write it, for what cannot be read, and for a
    form with a second sensible meaning (`5' - 3"`); with `doubtful="note"` such a form is
    read as the language reads it, and a DoubtfulReading is warned of.

    >>> read("2 1/32 in").inch
    Fraction(65, 32)
    >>> read("1/2 in +1/-2 thou").upper.inch
    Fraction(501, 1000)
    """
    if doubtful not in ("refuse", "note"):
        raise ShopError(f"doubtful is 'refuse' or 'note', not {doubtful!r}")
    size, doubts = read_with_doubts(text)
    if doubts and doubtful == "refuse":
        raise in_doubt(text, doubts)
    for found in doubts:
        warnings.warn(f"{text.strip()}: {found.text}", DoubtfulReading, stacklevel=2)
    return size


def read_with_doubts(text: str) -> tuple[Quantity | Limits, tuple[Note, ...]]:
    """The size that one written form says, and the doubts about it; InputError as `read`."""
    if not isinstance(text, str):
        if isinstance(text, float):
            exact(text)  # refused by name
        raise ArgumentError(f"read takes a written size, not {type(text).__name__}")
    outcome = Workbench().answer(text)
    if outcome is None:
        raise InputError("there is no size here", text, 0, 0, "write a size such as 2 1/32 in", ended=True)
    if outcome.name is not None:
        said = text.partition("=")[2].strip()
        raise InputError(
            f"this names a size {outcome.name}, where a size alone is read", text, 0, text.index("=") + 1,
            f"write {said}",
        )  # fmt: skip
    if outcome.kind != "size" or not isinstance(outcome.value, (Quantity, Limits)):
        raise InputError("this is not a size", text, 0, len(text), "write a size such as 2 1/32 in")
    return outcome.value, outcome.doubts


def in_doubt(text: str, doubts: tuple[Note, ...]) -> InputError:
    """The refusal of a doubtful form, with a statement for each of its meanings where there is one."""
    whole = doubts[0].advice if len(doubts) == 1 else ""
    return InputError(f"this has more than one meaning ({doubts[0].text})", text, 0, len(text), whole)
