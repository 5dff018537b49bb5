"""Answers as sentences and columns for people, in inches and millimetres alike."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from fractions_shop.show.sizes import size_line
from fractions_shop.show.words import Lines, laid_out

if TYPE_CHECKING:
    from fractions_shop.sheet.workbench import Outcome

#: The module that puts each kind of answer into words, in its function `<kind>_lines`.
HOMES = {
    "size": "sizes",
    "snap": "requests",
    "divide": "requests",
    "mark": "requests",
    "check": "requests",
    "rule": "requests",
    "places": "making",
    "recover": "making",
    "crown": "making",
    "pack": "making",
    "fit": "making",
    "thread": "hardware",
    "identify": "hardware",
    "substitute": "hardware",
    "drill": "hardware",
    "gauge": "hardware",
}


def answer_lines(outcome: Outcome) -> Lines:
    """One answered statement as lines and tables, the size it names first."""
    home = import_module(f"fractions_shop.show.{HOMES[outcome.kind]}")
    lines: Lines = getattr(home, f"{outcome.kind}_lines")(outcome.result)
    if outcome.name is not None and outcome.value is not None:
        if outcome.kind == "size":
            lines = [f"{outcome.name} = {lines[0]}", *lines[1:]]
        else:
            lines = [f"{outcome.name} = {size_line(outcome.value)}", *lines]
    return [*lines, *(f"note: {note.text}" for note in outcome.notes)]


def answer(outcome: Outcome, width: int = 80) -> str:
    """One answered statement as text of at most `width` columns where words allow."""
    return laid_out(answer_lines(outcome), width)
