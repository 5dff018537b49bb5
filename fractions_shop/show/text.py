"""Answers as sentences and columns for people, in inches and millimetres alike."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fractions_shop.language.results import CheckResult, RuleResult, SizeResult
from fractions_shop.language.workbench import Outcome
from fractions_shop.rule import Snap
from fractions_shop.show import requests, sizes
from fractions_shop.show.words import Lines, laid_out
from fractions_shop.spacing import Marks, Spacing

#: How each type of result is put into words.
RENDERERS: dict[type, Callable[[Any], Lines]] = {
    SizeResult: sizes.size_lines,
    Snap: requests.snap_lines,
    Spacing: requests.divide_lines,
    Marks: requests.mark_lines,
    CheckResult: requests.check_lines,
    RuleResult: requests.rule_lines,
}


def answer_lines(outcome: Outcome) -> Lines:
    """One answered statement as lines and tables, the size it names first."""
    lines = RENDERERS[type(outcome.result)](outcome.result)
    if outcome.name is not None and outcome.value is not None:
        if outcome.kind == "size":
            lines = [f"{outcome.name} = {lines[0]}", *lines[1:]]
        else:
            lines = [f"{outcome.name} = {sizes.size_line(outcome.value)}", *lines]
    return [*lines, *(f"note: {note}" for note in outcome.notes)]


def answer(outcome: Outcome, width: int = 80) -> str:
    """One answered statement as text of at most `width` columns where words allow."""
    return laid_out(answer_lines(outcome), width)
