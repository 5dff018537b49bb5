"""Spaces and bodies in words, and the tables of the ways to choose both, or how many."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.figures.plain import Caution, Lines
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import exact_cell, in_rule, in_rule_cell, moved_cell, rule_word
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

if TYPE_CHECKING:
    from fractions_shop.layout.bodies import AnyBodies, BodyChoice
    from fractions_shop.layout.posts import HowMany


def any_lines(result: AnyBodies) -> Lines:
    """The ways to choose body and space, or the nearest totals that have one."""
    rule = result.rule
    made = f"{spaces_said(result.count)} and {bodies_said(result.bodies)}{where_said(result.outer)}"
    header = ("bodies of", "spaces of", "marks of")
    if not result.choices:
        rows = [
            (name, in_rule_cell(way.total, rule), moved_cell(way.change, rule), *_pair(way, rule))
            for name, way in (("below", result.below), ("above", result.above))
            if way is not None
        ]
        return [
            f"no width on the {rule_word(rule)} makes {in_rule(result.asked, rule)} of {made}",
            *left_said(result.ends, rule),
            *([Table(tuple(rows), ("", "total", "moved", *header))] if rows else []),
        ]
    ways = "1 way" if result.many == 1 else f"{result.many:,} ways"
    first = "" if result.many == len(result.choices) else f"; {len(result.choices)} of them are shown"
    shown = ", the most readable first" if len(result.choices) > 1 else ""
    alike = in_prose(exact_cell(result.exact, rule))
    return [
        f"{in_rule(result.asked, rule)} makes {made}, in {ways} on the {rule_word(rule)}{shown}{first}",
        *left_said(result.ends, rule),
        Table(tuple(_pair(way, rule) for way in result.choices), header),
        f"with body and space alike, each would be {alike}",
    ]


def many_lines(result: HowMany) -> Lines:
    """How many spaces, and the numbers on either side."""
    chosen = result.chosen
    rule = chosen.rule
    about = about_said(chosen.body_count, chosen.bodies, chosen.outer, rule)
    comma = "," * bool(about) + " "
    bodies = () if chosen.bodies is None else ("bodies",)
    if result.most is not None:
        said = f"{in_rule(result.asked, rule)} takes {spaces_said(chosen.count)}{about}{comma}for none to be wider than {in_rule(result.most, rule)}"
    else:
        assert result.about is not None
        said = f"{in_rule(result.asked, rule)} into {spaces_said(chosen.count)}{about}{comma}comes nearest to {in_rule(result.about, rule)}"
    rows: tuple[tuple[Cell | str, ...], ...] = tuple(
        (
            str(way.count), *((str(way.body_count),) if bodies else ()), exact_cell(way.exact, rule),
            in_rule_cell(way.space, rule), in_rule_cell(way.total, rule),
        )
        for way in dict.fromkeys((result.fewer, result.more))
        if way is not None
    )  # fmt: skip
    lines: Lines = [
        said,
        *left_said(chosen.ends, rule),
        Table(rows, ("spaces", *bodies, "exact space", f"on the {rule_word(rule)}", "which makes")),
    ]
    return [*lines, *([Caution(result.caution, "the gaps above")] if result.caution else [])]


def _pair(way: BodyChoice, rule: Rule) -> tuple[Cell | str, ...]:
    return in_rule_cell(way.body, rule), in_rule_cell(way.space, rule), f"the {rule_word(way.rule)}"


def left_said(ends: Quantity | None, rule: Rule) -> Lines:
    """What is left at each end, where something was said of it."""
    return [] if ends is None else [f"with {in_rule(ends, rule)} left at each end"]


def about_said(many: int, width: Quantity | None, outer: bool, rule: Rule) -> str:
    """How many bodies stand about the spaces, and where; nothing without bodies."""
    if width is None:
        return ""
    return f", with {bodies_said(many)} of {in_rule(width, rule)}{where_said(outer)}"


def where_said(outer: bool) -> str:
    """Where the bodies stand."""
    return ", one at each end" if outer else " inside, a space at each end"


def spaces_said(count: int) -> str:
    """So many spaces."""
    return "1 space" if count == 1 else f"{count} spaces"


def bodies_said(count: int) -> str:
    """So many bodies."""
    return "1 body" if count == 1 else f"{count} bodies"
