"""reads: what an instrument said of a name, which then carries the size that was probably meant."""

from __future__ import annotations

from typing import Any

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.plain import Lines
from fractions_shop.language.fault import Fault
from fractions_shop.language.notes import doubt, remark
from fractions_shop.meant.found import Ask
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.requests.heap import MOST_READ, Heap, ReadName
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.meant_words import (
    acted_on,
    belief_line,
    by_chance,
    in_own_unit,
    in_row,
    trusted_to,
    verdict_line,
)
from fractions_shop.requests.measured import own_reading
from fractions_shop.requests.odds import odds_text
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value


def _answer(given: Inputs) -> tuple[Any, Value | None]:
    known: Heap = given.evaluator.heap or Heap({})
    name = given.evaluator.naming or "it"
    heap = known.reading(name, own_reading(given))
    if len(heap.readings) > MOST_READ:
        node = given.request
        raise Fault(f"at most {MOST_READ} names that read are weighed together", node.start, node.end)
    try:
        read = heap.weighed(name)
    except NoAnswer as error:
        node = given.request
        advice = "read it again; or set it as a size, with = in place of reads"
        raise Fault(str(error), node.start, node.end, advice) from None
    for other, size in read.sizes.items():
        before = given.evaluator.names.get(other)
        if other != name and isinstance(before, Quantity) and before != size:
            given.evaluator.note(remark(f"{other} is {in_own_unit(size)} now, it was {in_own_unit(before)}"))
    doubted = _doubt(read)
    if doubted:
        given.evaluator.note(doubt(doubted))
    return read, read.size


def _doubt(read: ReadName) -> str:
    if read.verdict is not SizeVerdict.UNSETTLED:
        return ""
    return f"{read.called} is not settled, {odds_text(read.odds)}: read {(read.ask or Ask.NEIGHBOUR).value}"


def _lines(read: ReadName) -> Lines:
    asked = read.reading.written or in_own_unit(read.reading.size)
    lines: Lines = [_verdict(read)]
    said = f"{asked} read within {trusted_to(read.reading.within)}: {read.called}, {odds_text(read.odds)}"
    others = [other for other in read.names if other != read.name]
    if read.tied is not None:
        best = read.tied.sets[0]
        lines += [said, f"tied to {in_row(others, 'and')}; the whole set {odds_text(best.odds)}"]
        lines.append(belief_line(read.tied.belief))
        return lines
    assert read.together is not None
    weighed = read.together.readings[read.names.index(read.name)]
    lines.append(f"{said}; {by_chance(weighed.candidates[0].chance)}")
    if others:
        lines.append(f"weighed together with {in_row(others, 'and')}")
    lines.append(belief_line(read.together.belief))
    return lines


def _verdict(read: ReadName) -> str:
    if read.together is not None:
        return verdict_line(read.together.readings[read.names.index(read.name)])
    if read.verdict is not SizeVerdict.UNSETTLED:
        return acted_on(read.verdict, (read.called,), read.ask)
    assert read.tied is not None
    near = dict.fromkeys(sizes.names[read.name] for sizes in read.tied.sets[:3])
    return f"Not settled: {in_row(list(near), 'or')}; do not cut yet"


def _open_odds(read: ReadName) -> float | None:
    return read.odds if read.verdict is SizeVerdict.UNSETTLED else None


ROOM = Room(
    word="reads",
    forms=("NAME reads SIZE, SIZE ... [within SIZE] [by INSTRUMENT] [worn SIZE] [off a print]",),
    example="rack reads 75.4 mm",
    answer=_answer,
    lines=_lines,
    reads_rule=False,
    odds=_open_odds,
)
