"""reconcile: the set of round sizes that makes relations among names that read close exactly."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.figure import in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, without_empty
from fractions_shop.figures.wording import both_cell, signed_cell
from fractions_shop.language.fault import Fault
from fractions_shop.language.notes import remark
from fractions_shop.meant.reconciled import NO_SET, Reconciled, SizeSet
from fractions_shop.meant.relations import Relation
from fractions_shop.meant.scale import ScaleFound, scale_found
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.requests.heap import Heap, Tie
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.linear import relations
from fractions_shop.requests.meant_pictures import as_lines, drawn, of_set
from fractions_shop.requests.meant_words import (
    accused,
    acted_on,
    befallen_line,
    belief_line,
    believed_of_set,
    common_lines,
    group_lines,
    if_other_set,
    in_row,
    reading_as_read,
    scale_lines,
    step_lines,
    suspects,
)
from fractions_shop.requests.measured import tables_of, trust_of, work_of
from fractions_shop.requests.odds import odds_text
from fractions_shop.requests.read_name import own_errors
from fractions_shop.requests.reads import moved
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

#: Sets told besides the best, and how far behind it they may be.
_NEXT, _NEAR = 3, 0.01


@dataclass(frozen=True)
class Tied(Reconciled):
    """What came of a `reconcile`: of all that it ties, directly or through others.

    `scales` are those that its names were read at, `tie` is what it said.
    """

    data_left_out: ClassVar[tuple[str, ...]] = ("tie",)

    scales: tuple[ScaleFound, ...] = ()
    tie: Tie = field(default_factory=lambda: Tie(()))


def _answer(given: Inputs) -> tuple[Any, Value | None]:
    known: Heap = given.evaluator.heap or Heap()
    tie = tie_of(given)
    heap = known.tied(tie)
    try:
        result = heap.closed(tie)
        result.sizes  # noqa: B018 - NoAnswer where there is no set
    except NoAnswer as error:
        first, last = given.request.subjects[0], given.request.subjects[-1]
        advice = "read again what is doubtful, or see whether the relation holds of what stands there"
        raise Fault(str(error), first.start, last.end, advice) from None
    for known_name in dict.fromkeys(other for name in result.readings for other in heap.draws_on(name)):
        given.evaluator.use(known_name)
    for sentence in moved(given, heap, *result.readings):
        given.evaluator.note(remark(sentence))
    said = {heap.at_scale[name].scale: heap.at_scale[name] for name in result.readings}
    scales = (scale_found(scale, own_errors(chosen, result.common)) for scale, chosen in said.items())
    return Tied(
        **vars(result), scales=tuple(chosen for chosen in scales if chosen is not None), tie=tie
    ), None


def tie_of(given: Inputs) -> Tie:
    """The relations of a request, and what it says of the work and of the readings."""
    tied = relations(given)
    known = given.evaluator
    draws_on = tuple(name for name in known.used if name in known.names and name not in known.readings)
    return Tie(tied, work_of(given), *trust_of(given), tables_of(given), draws_on)


def _lines(result: Tied) -> Lines:
    if not result.sets:
        return [*_verdicts(result)]
    best = result.sets[0]
    lines: Lines = [*_verdicts(result)]
    if result.suspect is not None:
        again = in_row(suspects(result), "and")
        misread = f"if {result.suspect} was misread, it is {best.names[result.suspect]}"
        lines.append(f"read next: {again} again; {misread}")
    elif result.verdict is SizeVerdict.UNSETTLED:
        lines.append("read next: a neighbouring size, or one of these again")
    lines += [_closing(relation, best) for relation in result.relations]
    odds = f"{odds_text(best.odds)} {believed_of_set(result)}".rstrip()
    if not result.complete:
        odds += ", of those that were weighed: there are too many to weigh them all"
    lines.append(f"the whole set: {best.system}, {best.division}, {odds}")
    lines += [
        belief_line(result.belief, if_other_set(result)),
        *step_lines(result.steps, tuple(result.readings)),
        *common_lines(result.common),
        *(line for scale in result.scales for line in scale_lines(scale)),
        *_besides(result),
        *group_lines([best.system]),
    ]
    rows = tuple(
        (name, reading_as_read(result, name), _right(result, name), both_cell(size), signed_cell(best.departures[name]),
         odds_text(result.size_odds(name)))
        for name, size in best.sizes.items()
    )  # fmt: skip
    lines.append(
        without_empty(
            Table(
                rows,
                ("", "reads", "put right", "meant", "the reading is", "odds of each"),
                ("meant", "the reading is"),
            )
        )
    )
    near = [other for other in result.sets[1 : _NEXT + 1] if other.probability > best.probability * _NEAR]
    if near:
        lines.append("next best:")
        lines.append(Table(tuple((odds_text(other.odds), _differing(other)) for other in near)))
    return [*lines, *as_lines(of_set(result))]


def _besides(result: Tied) -> Lines:
    """What is allowed for besides the readings' own errors, with the names where it is not so of all."""
    said: dict[str, list[str]] = {}
    for name, reading in result.readings.items():
        said.setdefault(befallen_line(reading.made, reading.worn, reading.plated), []).append(name)
    return [
        line if len(names) == len(result.readings) else f"{in_row(names, 'and')}: {line}"
        for line, names in said.items() if line
    ]  # fmt: skip


def _verdicts(result: Reconciled) -> list[str]:
    """What may be done; of a reading that disagrees, that it or the relation itself may be wrong."""
    if not result.sets:
        return [NO_SET]
    best, suspect = result.sets[0], result.suspect
    disagrees = [] if suspect is None else [accused(result)]
    named = [f"{name} {called}" for name, called in best.names.items() if name != suspect]
    if not named:
        return disagrees
    sizes = in_row(named, "and")
    if result.rest_verdict is SizeVerdict.UNSETTLED:
        return [f"Not settled: {sizes}, or another set; do not cut yet", *disagrees]
    return [acted_on(result.rest_verdict, (sizes,), None, believed_of_set(result)), *disagrees]


def _differing(chosen: SizeSet) -> str:
    return ", ".join(f"{name} {chosen.names[name]}" for name in chosen.differs)


def _right(result: Tied, name: str) -> Cell | str:
    """A reading at full size and without what it shares with others, where that is not as it was read."""
    if name not in result.put_right and not result.scales:
        return ""
    return Cell("size", (in_mm(result.put_right.get(name, result.readings[name].size), 3),))


def _closing(relation: Relation, best: SizeSet) -> str:
    """A relation in figures, what is several times in it on the left: `5 of 13/32 in + ... = 2 31/32 in`."""
    sides: tuple[list[str], list[str]] = ([], [])
    for name, count in relation.terms:
        size = best.names[name]
        many = size if abs(count) == 1 else f"{abs(count)} of {size}"
        sides[count > 0].append(many)
    if relation.constant.value:
        sides[relation.constant.value > 0].append(_size(abs(relation.constant)))
    several, single = sorted(sides, key=len, reverse=True)
    return f"{' + '.join(several)} = {' + '.join(single) or '0'}"


def _size(size: Quantity) -> str:
    inches = in_inches(size)
    return (inches if inches.exact else in_mm(size)).bare


def _gist(result: Tied, lines: list[str]) -> list[str]:
    return _verdicts(result)


ROOM = Room(
    word="reconcile",
    forms=(
        "reconcile SUM = SUM, SUM = SUM ... [within SIZE] [by INSTRUMENT] [in inch work] [among old inches]",
    ),
    before=("rack reads 75.4 mm", "bay reads 10.3 mm", "slat reads 4.0 mm"),
    example="reconcile rack = 5 of bay + 6 of slat",
    answer=_answer,
    lines=_lines,
    pictures=drawn(of_set),
    gist=_gist,
    reads_rule=False,
    verdicts=lambda result: len(_verdicts(result)),
)
