"""The answers to snap, divide, mark, check and rule in words."""

from __future__ import annotations

from fractions_shop.figures.table import Cell, Table
from fractions_shop.language.results import CheckResult, RuleResult
from fractions_shop.layout.spacing import Layout, Marks, Spacing
from fractions_shop.show.sizes import size_cell, size_line
from fractions_shop.show.words import (
    OFF,
    Lines,
    both,
    both_cell,
    in_rule,
    in_rule_cell,
    moved,
    moved_cell,
    off_by,
    over_under,
    rule_word,
    signed_cell,
)
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, Snap


def snap_lines(result: Snap) -> Lines:
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
    return next((rule for rule in rules if rule.carries(result.size)), result.rule)


def divide_lines(result: Spacing) -> Lines:
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


def mark_lines(result: Marks) -> Lines:
    """Every mark from the datum, the worst error, and what stepping would build up."""
    rows = tuple(
        (str(n), in_rule_cell(read, result.rule), signed_cell(error), both_cell(exact, 4))
        for n, (read, exact, error) in enumerate(zip(result.read, result.exact, result.errors, strict=True))
    )
    lines: Lines = [Table(rows, ("", f"on the {rule_word(result.rule)}", OFF, "exact place"))]
    if result.worst.value:
        lines.append(f"the worst mark is {off_by(result.worst)} off")
    else:
        lines.append("every mark is exact")
    if result.stepping.value:
        lines.append(
            f"stepping {in_rule(result.step, result.rule)} along {result.count} times would end "
            f"{over_under(result.stepping)}; marks from one datum do not build up"
        )
    return lines


def check_lines(result: CheckResult) -> Lines:
    """Whether it holds, and by how much not; limits are told from the nominal sizes."""
    said = f"{'holds' if result.holds else 'FAILS'}: {check_said(result)}"
    return [said, Table((("first", size_cell(result.left)), ("second", size_cell(result.right))))]


def check_said(result: CheckResult) -> str:
    """By how much a check holds or fails; of limits, how they lie, and the nominal sizes."""
    limits = isinstance(result.left, Limits) or isinstance(result.right, Limits)
    off = result.difference
    if not off.value:
        by = "the two are the same"
    elif off.power == 1:
        by = f"the first is {over_under(off)}"
    else:
        by = f"they differ by {size_line(abs(off))}"
    if result.allowed is not None and not limits and off.value and off.power == 1:
        by += f", {'within' if result.holds else 'more than'} what is allowed, {both(result.allowed)}"
    return f"{_zones_said(result)}; nominally {by}" if limits else by


def _zones_said(result: CheckResult) -> str:
    if isinstance(result.left, Limits) and isinstance(result.right, Quantity) and result.allowed is None:
        return f"the limits of the first {'take in' if result.holds else 'leave out'} the second"
    room = "the second" if result.allowed is None else "what is allowed about the second"
    if not isinstance(result.left, Limits):
        return f"the first lies {'inside' if result.holds else 'outside'} the limits of {room}"
    return f"the limits of the first {'lie inside' if result.holds else 'reach outside'} {room}"


def rule_lines(result: RuleResult) -> Lines:
    """The working rule as it now is."""
    return [
        f"the working rule is now the {rule_word(result.rule)}, in divisions of {both(result.rule.division)}"
    ]
