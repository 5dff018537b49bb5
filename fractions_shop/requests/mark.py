"""mark: every mark from one datum, and what stepping would build up."""

from __future__ import annotations

from fractions_shop.figures.drawing import Drawing
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    OFF,
    both_cell,
    in_rule,
    in_rule_cell,
    off_by,
    over_under,
    rule_word,
    signed_cell,
)
from fractions_shop.layout.marks import Marks, mark
from fractions_shop.requests.gists import size_row, worst_off
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room

#: More marks than this are no answer that a person reads; the library sets out ten thousand.
MOST_MARKS = 500


def _answer(given: Inputs) -> tuple[Marks, None]:
    count = given.at_most(1, MOST_MARKS, "spaces")
    result = mark(given.length(0), count, given.rule_after("on"), start=given.optional_length("from"))
    return result, None


def _lines(result: Marks) -> Lines:
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


def _gist(result: Marks, lines: list[str]) -> list[str]:
    return [size_row(result.read, result.rule), worst_off(result.worst)]


def _pictures(result: Marks, title: str) -> tuple[Drawing, ...]:
    from fractions_shop.requests.pictures.strip import strips

    return strips(result, title)


ROOM = Room(
    word="mark",
    forms=("mark SIZE into N [on RULE] [from SIZE]",),
    example="mark 2 in into 5 on 32nds from 1/4 in",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    on_a_rule=lambda result: (result.read, result.rule),
    pictures=_pictures,
)
