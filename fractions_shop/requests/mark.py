"""mark: every mark from one datum, and what stepping would build up."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table, in_prose
from fractions_shop.figures.wording import (
    OFF,
    exact_cell,
    in_rule,
    in_rule_cell,
    off_by,
    over_under,
    rule_word,
    signed_cell,
)
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.fault import Fault
from fractions_shop.layout.marks import Marks, mark
from fractions_shop.layout.room import NoRoom
from fractions_shop.requests.gists import size_row, worst_off
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing, NotDrawn
    from fractions_shop.figures.paper import PaperSize

#: Nobody reads an answer of more marks than this; the library sets out ten thousand.
MOST_MARKS = 500


def _answer(given: Inputs) -> tuple[Marks, None]:
    inside = given.inside
    between = given.option("between")
    if inside is not None and between is not None:
        raise Fault(
            "the width of the bodies is given here twice", between.start, between.end,
            "it is said behind 'of': leave 'between' out",
        )  # fmt: skip
    count = given.whole_of(inside.count) + 1 if inside is not None else given.whole(1)
    if count > MOST_MARKS:
        node = given.subject(1)
        raise Fault(
            f"one answer sets out at most {MOST_MARKS} spaces", node.start, node.end, "take it in parts"
        )
    bodies = given.length_of(inside.size) if inside is not None else given.optional_length("between")
    of = _of(given, bodies)

    def marked(outer: bool) -> Marks:
        return mark(
            given.length(0), count, given.rule_after("on"), start=given.optional_length("from"),
            ends=given.optional_length("leaving"), bodies=bodies, outer=outer, of=of,
        )  # fmt: skip

    try:
        return marked(inside is None), None
    except NoRoom as error:
        raise Fault(
            str(error), given.subject(0).start, given.subject(0).end, _inside_only(given, marked)
        ) from None


def _inside_only(given: Inputs, marked: Callable[[bool], Marks]) -> str:
    """Advice to mark the same spaces with bodies inside only, where these have room."""
    between = given.option("between")
    if between is None or between.value is None or given.inside is not None:
        return ""
    try:
        inside = marked(False)
    except ShopError:
        return ""
    width = given.written_part(between.value)
    rest = "".join(f" {given.written_part(o)}" for o in given.request.options if o is not between)
    statement = f"mark {given.written_part(given.subject(0))} for {inside.count - 1} of {width}{rest}"
    return write(Offer(statement, worked=True))


def _of(given: Inputs, bodies: Quantity | None) -> str:
    """What is marked of each body: `edges`, `centres`, or what the library takes if nothing is said."""
    option = next((o for o in given.request.options if o.word in ("edges", "centres", "centers")), None)
    if option is None:
        return ""
    if bodies is None:
        raise Fault(
            f"{option.word} are those of bodies, and none stand here", option.start, option.end,
            "give the width of the bodies, such as between 1/2 in",
        )  # fmt: skip
    return "edges" if option.word == "edges" else "centres"


def _lines(result: Marks) -> Lines:
    """The worst error, every mark from the datum, and what stepping would build up."""
    rows = tuple(
        (name, in_rule_cell(read, result.rule), signed_cell(error), in_rule_cell(exact, result.rule, 4))
        for name, read, exact, error in zip(
            result.names, result.read, result.exact, result.errors, strict=True
        )
    )
    worst = (
        f"the worst mark is {off_by(result.worst)} off"
        if result.worst.value
        else f"every mark is {off_by(result.worst)}"
    )
    lines: Lines = [worst, *_bodies_said(result)]
    lines.append(Table(rows, ("", f"on the {rule_word(result.rule)}", OFF, "exact place")))
    if result.stepping.value:
        between = ", the bodies laid between," if result.of == "edges" else ""
        steps = len(result.exact) - 1 if result.of == "centres" else result.count
        lines.append(
            f"stepping {in_rule(result.step, result.rule)} along {'once' if steps == 1 else f'{steps} times'}{between} would end "
            f"{over_under(result.stepping)}; marks from one datum do not build up"
        )
    return lines


def _bodies_said(result: Marks) -> Lines:
    """The bodies that are marked, and the exact space between them."""
    if result.bodies is None:
        return []
    many = len(result.exact) // (2 if result.of == "edges" else 1)
    named = "1 body" if many == 1 else f"{many} bodies"
    stand = "one at each end" if result.outer else "a space at each end"
    marked = "both edges of each" if result.of == "edges" else "the centre of each"
    spaces = "1 space" if result.count == 1 else f"{result.count} spaces"
    return [
        f"{marked} of {named} of {in_rule(result.bodies, result.rule)}, {stand}",
        f"{spaces} of {in_prose(exact_cell(result.space, result.rule))}",
    ]


def _gist(result: Marks, lines: list[str]) -> list[str]:
    return [size_row(result.read, result.rule), worst_off(result.worst)]


def _pictures(result: Marks, title: str, paper: PaperSize) -> tuple[Drawing, ...] | NotDrawn:
    from fractions_shop.requests.pictures.strip import strips

    return strips(result, title, paper)


ROOM = Room(
    word="mark",
    forms=(
        "mark SIZE into N [on RULE] [from SIZE] [leaving SIZE each end]",
        "mark SIZE into N between WIDTH [edges | centres]",
        "mark SIZE for N of WIDTH [edges | centres] (bars inside two posts)",
    ),
    example="mark 2 in into 5 on 32nds from 1/4 in",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    on_a_rule=lambda result: (result.read, result.rule),
    pictures=_pictures,
    further=(
        (r"\bfor\b", "mark 72 in for 13 of 1 1/2 in centres"),
        (r"\bbetween\b", "mark 10 in into 4 between 1 in edges"),
    ),
)
