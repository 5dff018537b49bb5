"""snap: the nearest division of a rule, and a ladder of the common ones."""

from __future__ import annotations

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    both,
    in_rule,
    in_rule_cell,
    over_under,
    rule_word,
    signed_cell,
)
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, Snap, first_that_carries, snap


def _answer(given: Inputs) -> tuple[Snap, Quantity]:
    size = given.length(0)
    result = snap(
        size, given.rule_after("to"), direction=given.direction, within=given.optional_length("within")
    )
    return result, result.size


def _lines(result: Snap) -> Lines:
    """The division found, and the ladder of the common rules."""
    lines: Lines = [
        f"{in_rule(result.size, result.rule)}, a mark of the {rule_word(_coarsest(result))}, {over_under(result.error)}"
    ]
    if result.within is not None:
        lines.append(f"the most readable mark within {both(result.within)}")
    rows = ((str(r.rule), in_rule_cell(r.size, r.rule), signed_cell(r.error)) for r in result.ladder)
    return [*lines, Table(tuple(rows))]


def _coarsest(result: Snap) -> Rule:
    """The coarsest rule of the drawer that has the mark: 11/16 in is one of the 16ths."""
    rules = [rule for rule in result.rule.coarser if rule.metric or rule.parts >= 8]
    return first_that_carries(rules, result.size) or result.rule


ROOM = Room(
    word="snap",
    forms=("snap SIZE [to RULE] [up | down] [within SIZE]",),
    example="snap 10.3 mm to 64ths",
    answer=_answer,
    lines=_lines,
    # The ladder is a table, of which no row says anything by itself.
    gist=lambda result, lines: lines[:1],
    on_a_rule=lambda result: ((result.size,), result.rule),
)
