"""divide: totals that fall into equal spaces on the rule."""

from __future__ import annotations

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table
from fractions_shop.figures.wording import (
    both,
    in_rule,
    in_rule_cell,
    moved,
    moved_cell,
    rule_word,
)
from fractions_shop.layout.spacing import Layout, Spacing, divide
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


def _answer(given: Inputs) -> tuple[Spacing, Quantity]:
    result = divide(
        given.length(0),
        given.whole(1),
        given.rule_after("on"),
        direction=given.direction,
        ends=given.optional_length("leaving"),
        bodies=given.optional_length("between"),
    )
    return result, result.space


def _lines(result: Spacing) -> Lines:
    """The total that divides, what it moves by, the other totals, and the ends moved instead."""
    chosen = result.chosen
    lines: Lines = [
        f"{in_rule(chosen.total, result.rule)} falls into {result.count} spaces of {in_rule(chosen.space, result.rule)} on the {rule_word(result.rule)}"
    ]
    if result.ends is not None:
        lines.append(f"with {both(result.ends)} left at each end")
    if result.bodies is not None:
        lines.append(
            f"with {result.count + 1} bodies of {both(result.bodies)}, one outside each end space and one between each two"
        )
    lines.append(
        "it divides as it stands" if chosen.change.value == 0
        else f"the total is {moved(chosen.change, result.rule)} than {in_rule(result.asked, result.rule)}"
    )  # fmt: skip
    rows = tuple(_layout_row(name, layout, result) for name, layout in _others(result))
    if rows:
        lines.append(Table(rows))
    if result.kept_total is not None:
        kept = result.kept_total
        lines.append(
            f"or keep {in_rule(kept.total, result.rule)}: spaces of {in_rule(kept.space, result.rule)} "
            f"and {in_rule(kept.ends, result.rule)} left at each end"
        )
    return lines


def _others(result: Spacing) -> list[tuple[str, Layout]]:
    """The totals on either side that are not the one chosen, each once."""
    found = [("or nearest", result.nearest), ("or above", result.above), ("or below", result.below)]
    kept: list[tuple[str, Layout]] = []
    for name, layout in found:
        if layout is not None and layout != result.chosen and all(layout != other for _, other in kept):
            kept.append((name, layout))
    return kept


def _layout_row(name: str, layout: Layout, result: Spacing) -> tuple[Cell | str, ...]:
    rule = result.rule
    space = in_rule_cell(layout.space, rule)
    each = Cell("size", (*space.pieces, " (", *space.beside, ") each"))
    return name, in_rule_cell(layout.total, rule), each, moved_cell(layout.change, rule)


def _on_a_rule(result: Spacing) -> tuple[list[Quantity], Rule] | None:
    """The ends of the spaces; bodies between them would need two lines each."""
    if result.bodies is not None:
        return None
    return [result.chosen.ends + result.space * n for n in range(result.count + 1)], result.rule


def _moved(result: Spacing) -> tuple[Quantity, Quantity] | None:
    return (result.asked, result.change) if result.change.value else None


ROOM = Room(
    word="divide",
    forms=(
        "divide SIZE into N [on RULE] [up | down]",
        "divide SIZE into N leaving SIZE each end",
        "divide SIZE into N between WIDTH (of equal bars, one more than the spaces)",
    ),
    example="divide 2 in into 5 up",
    answer=_answer,
    lines=_lines,
    on_a_rule=_on_a_rule,
    moved=_moved,
)
