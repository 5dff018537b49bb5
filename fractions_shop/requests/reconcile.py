"""reconcile: the set of round sizes that makes relations among names that read close exactly."""

from __future__ import annotations

from typing import Any

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.figure import in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import both_cell, signed_cell
from fractions_shop.language.fault import Fault
from fractions_shop.meant.reconcile import Reconciled, SizeSet
from fractions_shop.meant.relations import Relation
from fractions_shop.meant.verdict import SizeVerdict, odds_on
from fractions_shop.requests.heap import Heap
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.linear import relations
from fractions_shop.requests.meant_words import (
    acted_on,
    belief_line,
    common_lines,
    in_own_unit,
    in_row,
    scale_lines,
    step_lines,
)
from fractions_shop.requests.odds import odds_text
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

#: Sets told besides the best, and how far behind it they may be.
_NEXT, _NEAR = 3, 0.01


def _answer(given: Inputs) -> tuple[Any, Value | None]:
    known: Heap = given.evaluator.heap or Heap({})
    own = relations(given)
    heap = known.tied(own)
    names, every = heap.with_it(own[0].names[0])
    try:
        found = heap.reconciled(every, names)
        found.sizes  # noqa: B018 - NoAnswer where there is no set
    except NoAnswer as error:
        first, last = given.request.subjects[0], given.request.subjects[-1]
        advice = "read again what is doubtful, or see whether the relation holds of what stands there"
        raise Fault(str(error), first.start, last.end, advice) from None
    return found, None


def _lines(found: Reconciled) -> Lines:
    best = found.sets[0]
    lines: Lines = [_verdict(found)]
    if found.suspect is not None:
        asked = _as_read(found, found.suspect)
        lines.append(f"{found.suspect}, {asked}, disagrees with the rest: read it again")
    elif found.verdict is SizeVerdict.UNSETTLED:
        lines.append("read next: a neighbouring size, or one of these again")
    lines += [_closing(one, best) for one in found.relations]
    lines.append(f"the whole set: {best.system}, {best.division}, {odds_text(best.odds)}")
    if not found.complete:
        lines.append("there are too many sets to weigh them all")
    lines += [
        belief_line(found.belief),
        *step_lines(found.step),
        *common_lines(found.common),
        *scale_lines(found.scale),
    ]
    rows = tuple(
        (name, _as_read(found, name), both_cell(size), signed_cell(best.departures[name]),
         odds_text(odds_on(found.chances[name])))
        for name, size in best.sizes.items()
    )  # fmt: skip
    lines.append(Table(rows, ("", "reads", "meant", "the reading is", "odds by itself")))
    near = [one for one in found.sets[1 : _NEXT + 1] if one.probability > best.probability * _NEAR]
    if near:
        lines.append("next best:")
        lines.append(Table(tuple((odds_text(one.odds), _differing(one)) for one in near)))
    return lines


def _verdict(found: Reconciled) -> str:
    best = found.sets[0]
    if found.verdict is SizeVerdict.UNSETTLED:
        return f"Not settled: {_named(best)}, or another set; do not cut yet"
    return acted_on(found.verdict, (_named(best),))


def _named(one: SizeSet) -> str:
    return in_row([f"{name} {called}" for name, called in one.names.items()], "and")


def _differing(one: SizeSet) -> str:
    return ", ".join(f"{name} {one.names[name]}" for name in one.differs)


def _as_read(found: Reconciled, name: str) -> str:
    reading = found.readings[name]
    return reading.written or in_own_unit(reading.size)


def _closing(relation: Relation, best: SizeSet) -> str:
    """A relation in figures, what is several times in it on the left: `5 of 13/32 in + ... = 2 31/32 in`."""
    sides: tuple[list[str], list[str]] = ([], [])
    for name, count in relation.terms:
        size = _size(best.sizes[name])
        many = size if abs(count) == 1 else f"{abs(count)} of {size}"
        sides[count > 0].append(many)
    if relation.constant.value:
        sides[relation.constant.value > 0].append(_size(abs(relation.constant)))
    several, single = sorted(sides, key=len, reverse=True)
    return f"{' + '.join(several)} = {' + '.join(single) or '0'}"


def _size(size: Quantity) -> str:
    inches = in_inches(size)
    return (inches if inches.exact else in_mm(size)).bare


def _gist(found: Reconciled, lines: list[str]) -> list[str]:
    return [_verdict(found)]


ROOM = Room(
    word="reconcile",
    forms=("reconcile SUM = SUM, SUM = SUM ...",),
    before=("rack reads 75.4 mm", "bay reads 10.3 mm", "slat reads 4.0 mm"),
    example="reconcile rack = 5 of bay + 6 of slat",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
