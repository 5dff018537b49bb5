"""places: points of one or two axes from one datum, with their running and chain figures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fractions_shop.figures.figure import in_decimals
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table
from fractions_shop.figures.wording import (
    in_rule,
    in_rule_cell,
    off_by,
    over_under,
    rule_word,
    signed_cell,
    so_many,
)
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Name, Node, RowOfPlaces, Several
from fractions_shop.layout.chain import Axis
from fractions_shop.layout.places import Coordinates, Places, places
from fractions_shop.requests.gists import size_row, worst_off
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.place_data import PlacesResult
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing, NotDrawn
    from fractions_shop.figures.paper import PaperSize

#: Nobody reads an answer of more places than this; the library sets out ten thousand.
MOST_PLACES = 500
_AXES = ("across", "up")


# What is asked


def _answer(given: Inputs) -> tuple[PlacesResult, None]:
    rule = given.rule_after("on")
    subjects = given.request.subjects
    along = _pair(given, "along")
    first = _pair(given, "first at")
    if isinstance(subjects[0], RowOfPlaces):
        rows = {
            row.way: (given.whole_of(row.count), given.length_of(row.pitch))
            for row in subjects
            if isinstance(row, RowOfPlaces)
        }
        placed = places(across=rows["across"], up=rows.get("up"), first=first, rule=rule, along=along)
    else:
        if first is not None:
            option = given.option("first at")
            assert option is not None
            raise Fault(
                "where the first stands is said of rows", option.start, option.end,
                "write it like this: places 3 across by 2 in first at 1/2 in",
            )  # fmt: skip
        placed = _listed(given, subjects, rule, along)
    if len(placed.points) > MOST_PLACES:
        node = subjects[0]
        raise Fault(
            f"one answer sets out at most {MOST_PLACES} places", node.start, node.end, "take it in parts"
        )
    return PlacesResult(placed), None


def _listed(given: Inputs, subjects: tuple[Node, ...], rule: Rule, along: Any) -> Places:
    if len(subjects) == 1 and isinstance(subjects[0], Several) and len(subjects[0].members) == 1:
        subjects = subjects[0].members
    if len(subjects) == 1 and isinstance(subjects[0], Name):
        named = given.evaluator.placed.get(subjects[0].word)
        if named is not None:
            given.evaluator.use(subjects[0].word)
            own = rule if given.option("on") is not None else named.rule
            return places(named, rule=own, along=along or tuple(filter(None, named.along)) or None)
    return places(*(_place(given, node) for node in subjects), rule=rule, along=along)


def _place(given: Inputs, node: Node) -> tuple[Quantity, ...]:
    members = node.members if isinstance(node, Several) else (node,)
    return tuple(map(given.length_of, members))


def _pair(given: Inputs, word: str) -> tuple[Quantity, ...] | None:
    option = given.option(word)
    return None if option is None or option.value is None else _place(given, option.value)


# Sentences


def _lines(result: PlacesResult) -> Lines:
    """The places by their numbers, then for each axis its running and chain figures, then a machine's."""
    placed = result.places
    rule = placed.rule
    two = len(placed.axes) == 2
    lines: Lines = []
    if result.given == "bolt_circle":
        lines.append("to the right and upward from the centre; roots and angles make these approximate")
    if two:
        rows: tuple[tuple[Cell | str, ...], ...] = tuple(
            (str(n), *(_read_cell(exact, read, rule) for exact, read in zip(point, reading, strict=True)))
            for n, (point, reading) in enumerate(zip(placed.points, placed.read, strict=True), 1)
        )
        lines.append(Table(rows, ("", "across", "up")))
    for n, (name, axis) in enumerate(zip(_AXES, placed.axes, strict=False)):
        lines += _axis_lines(axis, name if two else "", rule, placed.numbers(n))
    for numbers in placed.alike:
        lines.append(f"places {' and '.join(map(str, numbers))} are one and the same")
    made = placed.coordinates()
    return [*lines, *_machine_lines(made)]


def _read_cell(exact: Quantity, read: Quantity, rule: Rule) -> Cell:
    return in_rule_cell(exact, rule, None if exact == read else 4)


def _axis_lines(axis: Axis, name: str, rule: Rule, numbers: tuple[tuple[int, ...], ...]) -> Lines:
    """The worst of the running and of the chain figures, then these, each by the numbers of its places."""
    steps: list[tuple[Cell | str, Cell | str]] = [("", "")]
    steps += [
        (in_rule_cell(read, rule), signed_cell(error))
        for read, error in zip(axis.chain.read, axis.chain.errors, strict=True)
    ]
    # On two axes a figure is that of a whole row of places, whose numbers are told above.
    rows = tuple(
        ("" if name else ", ".join(map(str, which)), in_rule_cell(read, rule), signed_cell(error), *step)
        for which, read, error, step in zip(
            numbers, axis.running.read, axis.running.errors, steps, strict=True
        )
    )
    called = f"{name}, " if name else ""
    header = ("", f"{called}from the datum", "off", "from the one before", "off")
    lines: Lines = []
    if not axis.running.worst.value and not axis.chain.worst.value:
        lines.append(f"{called}every figure is {off_by(axis.running.worst)} on the {rule_word(rule)}")
    else:
        lines.append(
            f"{called}on the {rule_word(rule)} the worst is {off_by(axis.running.worst)} off from the datum, "
            f"{off_by(axis.chain.worst)} from the one before"
        )
    lines.append(Table(rows, header))
    if axis.rest is not None:
        lines.append(f"{called}{in_rule(axis.rest, rule)} from the last to the far end")
    if axis.built_up.value:
        lines.append(f"{called}one after another they would end {over_under(axis.built_up)}")
    return lines


def _machine_lines(made: Coordinates) -> Lines:
    """The coordinates in mm, and how far they are rounded."""
    rows: tuple[tuple[Cell | str, ...], ...] = tuple(
        (str(n), *(Cell("size", (in_decimals(size.mm, "", 3),)) for size in point))
        for n, point in enumerate(made.points, 1)
    )
    header = ("", *(f"{axis} in mm" for axis in "XY"))
    worst = max(made.worst)
    step = in_decimals(made.step.mm, "mm").bare
    said = (
        f"rounded to {step}, off by {off_by(worst)} at most" if worst.value else f"{off_by(worst)}, to {step}"
    )
    return [Table(rows, header[: 1 + len(made.worst)]), f"for a machine they are {said}"]


def _gist(result: PlacesResult, lines: list[str]) -> list[str]:
    placed = result.places
    if len(placed.axes) == 2:
        return [so_many(len(placed.points), "place"), worst_off(max(placed.worst))]
    return [size_row([read for (read,) in placed.read], placed.rule), worst_off(placed.worst[0])]


def _pictures(result: PlacesResult, title: str, paper: PaperSize) -> tuple[Drawing, ...] | NotDrawn:
    from fractions_shop.requests.pictures.strip import strips
    from fractions_shop.requests.pictures.template import template

    if len(result.places.axes) == 1:
        return strips(result.places, title, paper)
    return template(result.places, title, paper, circle=result.given == "bolt_circle")


ROOM = Room(
    word="places",
    forms=(
        "places SIZE, SIZE ... [along SIZE] [on RULE]",
        "places X by Y, X by Y ...",
        "places N across by PITCH [, M up by PITCH] [first at X, Y]",
        "bolt_circle(N, DIAMETER, ANGLE)",
    ),
    example="places 1 1/2 in, 7 in, 15 3/8 in along 18 in",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    pictures=_pictures,
    further=(
        (r"\bacross\b", "places 3 across by 2 in, 2 up by 1 in first at 1/2 in, 3/4 in"),
        (r"\bby\b", "places 1 in by 2 in, 3 in by 2 in"),
    ),
)
