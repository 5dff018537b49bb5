"""crown: heights of supports that follow an arc."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    OFF,
    both,
    in_rule_cell,
    off_by,
    rule_word,
    signed_cell,
)
from fractions_shop.layout.curve import Crown
from fractions_shop.requests.gists import size_row, worst_off
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing, NotDrawn
    from fractions_shop.figures.paper import PaperSize

#: What one answer shows; the library takes more.
MOST_SUPPORTS = 100


def _answer(given: Inputs) -> tuple[Crown, None]:
    from fractions_shop.layout.curve import crown

    result = crown(
        given.at_most(0, MOST_SUPPORTS, "supports"),
        across=given.length(1),
        radius=given.length(2),
        tallest=given.optional_length("from"),
        rule=given.rule_after("on"),
    )
    return result, None


def _lines(result: Crown) -> Lines:
    """The heights of the supports, left to right, and the radius that these fit on the rule."""
    rows = tuple(
        (str(n), in_rule_cell(read, result.rule), signed_cell(off), in_rule_cell(exact, result.rule, 4))
        for n, (read, off, exact) in enumerate(
            zip(result.read, result.residual, result.exact, strict=True), 1
        )
    )
    lines: Lines = [
        f"{result.count} supports {both(result.across)} apart on a radius of {both(result.radius)}, "
        f"the tallest {both(result.tallest)}",
        Table(rows, ("", f"height on the {rule_word(result.rule)}", OFF, "exact height")),
        f"they stand at {_places(result.places)} from the middle",
    ]
    on_rule = f"on the {rule_word(result.rule)}, the heights"
    if result.fitted_radius is None:
        lines.append(f"{on_rule} are all alike and follow no arc")
    else:
        lines.append(f"{on_rule} fit a radius of {both(result.fitted_radius, 4)}")
    worst = (
        f"the worst height is {off_by(result.worst, 5)} off"
        if result.worst.value
        else f"every height is {off_by(result.worst)}"
    )
    lines.append(worst)
    return lines


def _places(places: Sequence[Quantity]) -> str:
    """The distances of supports from the middle, each once: the two sides are alike."""
    listed = [place for place in places if place.value >= 0]
    text = ", ".join(both(place) for place in listed if place.value)
    return text if listed[0].value else f"zero and {text}" if text else "zero"


def _gist(result: Crown, lines: list[str]) -> list[str]:
    return [f"heights {size_row(result.read, result.rule)}", worst_off(result.worst)]


def _pictures(result: Crown, title: str, _: PaperSize) -> tuple[Drawing, ...] | NotDrawn:
    from fractions_shop.figures import drawing
    from fractions_shop.requests.pictures.profile import profile

    picture = profile(result, title)
    return (picture,) if isinstance(picture, drawing.Drawing) else picture


ROOM = Room(
    word="crown",
    forms=("crown N across PITCH radius SIZE [from TALLEST] [on RULE]",),
    example="crown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    pictures=_pictures,
    heights=lambda result: result.exact,
    crown=lambda result: result,
)
