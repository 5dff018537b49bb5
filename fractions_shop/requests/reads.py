"""reads: what an instrument said of a name, which then carries the size that was probably meant."""

from __future__ import annotations

from typing import Any

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.plain import Lines
from fractions_shop.language.fault import Fault
from fractions_shop.language.notes import doubt, remark
from fractions_shop.meant.found import Ask, Recovered
from fractions_shop.meant.reconciled import Reconciled
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.requests.heap import Heap
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.meant_pictures import as_lines, drawn, of_name
from fractions_shop.requests.meant_words import (
    accused,
    acted_on,
    befallen_line,
    belief_line,
    believed_of_set,
    by_chance,
    common_lines,
    group_lines,
    if_other_set,
    if_other_work,
    in_own_unit,
    in_row,
    odds_on_best,
    old_lines,
    resting,
    scale_lines,
    step_lines,
    trusted_to,
    verdict_line,
)
from fractions_shop.requests.measured import said_of_one
from fractions_shop.requests.odds import odds_text
from fractions_shop.requests.read_name import ReadName, sizes_of
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value


def _answer(given: Inputs) -> tuple[Any, Value | None]:
    known: Heap = given.evaluator.heap or Heap()
    name = given.evaluator.naming or "it"
    heap = known.reading(name, said_of_one(given))
    try:
        read = heap.weighed(name)
    except NoAnswer as error:
        node = given.request
        advice = "read it again; or set it as a size, with = in place of reads"
        raise Fault(str(error), node.start, node.end, advice) from None
    for known_name in heap.draws_on(name):
        given.evaluator.use(known_name)
    for moves in moved(given, heap, name):
        given.evaluator.note(remark(moves))
    doubted = _doubt(read)
    if doubted:
        given.evaluator.note(doubt(doubted))
    return read, read.size


def moved(given: Inputs, heap: Heap, *but: str) -> list[str]:
    """What is said of the other names whose sizes are not what they were."""
    if heap == given.evaluator.heap:
        return []  # in a sheet every reading is known from the start
    every = heap.every()
    sizes = sizes_of(every)
    moves = []
    for other in heap.said:
        before, size = given.evaluator.names.get(other), sizes.get(other)
        if other in but or size == before:
            continue
        was = f", it was {in_own_unit(before)}" if isinstance(before, Quantity) else ""
        now = "has no size" if size is None else f"is {in_own_unit(size)}"
        moves.append(f"{other} {now} now{_if_open(every.get(other))}{was}")
    return moves


def _if_open(read: ReadName | None) -> str:
    return "" if read is None or read.size is None or _open_odds(read) is None else ", not settled"


def _doubt(read: ReadName) -> str:
    if read.verdict is not SizeVerdict.UNSETTLED or read.odds is None:
        return read.lacks
    return f"{read.called} is not settled, {odds_text(read.odds)}: read {(read.ask or Ask.NEIGHBOUR).value}"


def _lines(read: ReadName) -> Lines:
    asked = read.reading.written or in_own_unit(read.reading.size)
    others = [other for other in read.names if other != read.name]
    if read.size is None:
        return [f"Not settled: {read.name} has no size yet; do not cut yet", *_with(others)]
    if read.stated:
        return [
            f"{read.name} is {in_own_unit(read.size)} in truth, which reads {asked}: the scale of others rests on it"
        ]
    assert read.odds is not None
    said = f"{asked} read within {trusted_to(read.reading.within)}: {read.called}"
    lines: Lines = [_verdict(read)]
    if isinstance(read.found, Reconciled):
        whole = f"{odds_text(read.found.sets[0].odds)} {believed_of_set(read.found)}".rstrip()
        lines += [
            f"{said}, {odds_text(read.odds)} {_resting(read)}".rstrip(),
            *([f"tied to {in_row(others, 'and')}; the whole set {whole}"] if others else []),
        ]
        return [
            *lines,
            belief_line(read.found.belief, if_other_set(read.found)),
            *_shared(read),
            *as_lines(of_name(read)),
        ]
    assert read.weighed is not None
    assert isinstance(read.found, Recovered)
    lines += [
        *old_lines(read.old),
        f"{said}, {odds_on_best(read.weighed)}; {by_chance(read.candidates[0].chance)}",
        *_with(others),
    ]
    if read.alike:
        lines.append(f"{in_row(read.alike, 'and')} read alike and count once: read a neighbouring size")
    lines.append(belief_line(read.found.belief, if_other_work(read.weighed)))
    return [*lines, *step_lines(read.found.steps, read.names), *_shared(read), *as_lines(of_name(read))]


def _with(others: list[str]) -> Lines:
    return [f"weighed together with {in_row(others, 'and')}"] if others else []


def _shared(read: ReadName) -> Lines:
    """What was found of the errors that it shares, of what it was read off, and what else is allowed for."""
    reading = read.reading
    besides = befallen_line(reading.made, reading.worn, reading.plated)
    systems = (
        [read.found.sets[0].system]
        if isinstance(read.found, Reconciled)
        else [candidate.system for candidate in read.candidates[:1]]
    )
    return [
        *common_lines(read.common),
        *scale_lines(read.scale),
        *([besides] if besides else []),
        *group_lines(systems),
    ]


def _verdict(read: ReadName) -> str:
    if read.weighed is not None:
        return verdict_line(read.weighed)
    if read.verdict is not SizeVerdict.UNSETTLED:
        return acted_on(read.verdict, (read.called,), read.ask, _resting(read))
    assert isinstance(read.found, Reconciled)
    if read.found.suspect == read.name:
        return accused(read.found)
    near = dict.fromkeys(other.names[read.name] for other in read.found.sets[:3])
    others = in_row(list(near), "or") if len(near) > 1 else f"{read.called}, or another size"
    return f"Not settled: {others}; do not cut yet"


def _resting(read: ReadName) -> str:
    """What a tied name's size rests on being believed; nothing where it does not."""
    assert isinstance(read.found, Reconciled)
    return believed_of_set(read.found, read.name)


def _open_odds(read: ReadName) -> float | None:
    return read.odds if read.verdict is SizeVerdict.UNSETTLED else None


def _believed(read: ReadName) -> str:
    if isinstance(read.found, Reconciled):
        return _resting(read)
    return "" if read.weighed is None else resting(read.weighed)


ROOM = Room(
    word="reads",
    forms=(
        "NAME reads SIZE, SIZE ... [within SIZE] [by INSTRUMENT] [worn SIZE] [in inch work] [among old inches]",
        "NAME reads SIZE [off a print | scale 1:2 | scale from NAME = SIZE]",
    ),
    example="rack reads 75.4 mm",
    answer=_answer,
    lines=_lines,
    pictures=drawn(of_name),
    reads_rule=False,
    odds=_open_odds,
    believed=_believed,
    verdicts=lambda read: 1,
)
