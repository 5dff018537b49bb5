"""rule: sets the working rule."""

from __future__ import annotations

from dataclasses import dataclass

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.wording import (
    both,
    rule_name,
    rule_word,
)
from fractions_shop.requests.inputs import Inputs, named_rule
from fractions_shop.requests.rooms import Room
from fractions_shop.size.rule import Rule


@dataclass(frozen=True)
class RuleResult:
    """The working rule, as it now is."""

    rule: Rule


def _answer(given: Inputs) -> tuple[RuleResult, None]:
    return RuleResult(named_rule(given.subject(0))), None


def _lines(result: RuleResult) -> Lines:
    """The working rule as it now is."""
    return [
        f"the working rule is now the {rule_word(result.rule)}, in divisions of {both(result.rule.division)}"
    ]


def _gist(result: RuleResult, lines: list[str]) -> list[str]:
    return [f"sets the working rule to {rule_name(result.rule)}"]


ROOM = Room(
    word="rule",
    forms=("rule RULE",),
    example="rule 32nds",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
    sets_rule=lambda result: result.rule,
)
