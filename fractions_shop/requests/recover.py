"""recover: the sizes that a maker may have meant, best first."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.figures.figure import in_decimals, in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import (
    both,
    signed_cell,
)
from fractions_shop.language.evaluate import as_length
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Node, Text
from fractions_shop.language.notes import doubt
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.odds import odds_text
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.meant.quantogram import Quantogram
    from fractions_shop.meant.recover import Candidate, Recovered

#: What one answer can weigh while it is waited for; the library takes more.
MOST_READINGS, MOST_AMONG = 12, 3


def _answer(given: Inputs) -> tuple[Recovered, Quantity | None]:
    from fractions_shop.meant.recover import recover

    option = given.option("among")
    most = MOST_READINGS if option is None else MOST_AMONG
    if len(given.request.subjects) > most:
        node = given.subject(most)
        raise Fault(
            f"at most {most} readings are weighed in one line{' among tables' if option else ''}",
            node.start, node.end, "weigh them in groups: what holds for all shows in each",
        )  # fmt: skip
    readings = [_reading(given, node) for node in given.request.subjects]
    tables = option.value.text.split(", ") if option and isinstance(option.value, Text) else []
    within, worn = given.optional_length("within"), given.optional_length("worn")
    found = recover(readings[0] if len(readings) == 1 else readings, within=within, worn=worn, among=tables)
    best = found.candidates[0] if len(readings) == 1 and found.candidates else None
    if best is not None and best.probability < 0.5:
        given.evaluator.note(
            doubt(f"{best.name} is the likeliest, yet likelier wrong than right: take more readings")
        )
    return found, None if best is None else best.size


def _reading(given: Inputs, node: Node) -> Quantity:
    """A reading, trusted as finely as it was written."""
    from fractions_shop.meant.readings import written_within

    size = as_length(given.value(node), node)
    written = given.written(node)
    if written is None or size.within is not None:
        return size
    try:
        return replace(size, within=written_within(written))
    except ShopError:
        return size


def _lines(result: Recovered) -> Lines:
    """The candidates of each reading, and what explains several together."""
    lines: Lines = []
    several = len(result.readings) > 1
    if several:
        lines += _system_lines(result)
    for reading in result.readings:
        asked = f"{_as_read(reading.asked)} read within {_as_read(reading.within)}"
        if not reading.candidates:
            lines.append(f"no round size is near enough to be likely: {asked}")
            continue
        best = reading.candidates[0]
        if reading.suspect:
            lines.append(f"{_as_read(reading.asked)} may be misread, or no round size: read it again")
        lines.append(f"most likely {best.name}, {odds_text(best.odds)}: {asked}")
        # Far behind the best, the rest are only noise; two are told in any case.
        near = [
            c for n, c in enumerate(reading.candidates) if n < 2 or c.probability * 100 > best.probability
        ]
        rows = tuple(_candidate_row(c) for c in near[: 2 if several else 6])
        lines.append(Table(rows, ("meant", "", "the reading is", "odds", "by chance")))
    lines.append(
        "by chance: how often a size at random would come as near to one as readable; near 100 % proves nothing"
    )
    return lines


def _as_read(size: Quantity) -> str:
    """A reading in the unit that it ends in."""
    inches = in_inches(size)
    return in_prose(Cell("size", (inches if inches.exact else in_mm(size),)))


def _candidate_row(candidate: Candidate) -> tuple[Cell | str, ...]:
    return (
        candidate.name, _otherwise(candidate), signed_cell(candidate.off), odds_text(candidate.odds),
        _percent(candidate.chance),
    )  # fmt: skip


def _otherwise(candidate: Candidate) -> Cell:
    """A candidate's size in the units that its name does not say it in."""
    figures = in_inches(candidate.size), in_mm(candidate.size)
    unsaid = [figure for figure in figures if figure.bare != candidate.name]
    return Cell("size", tuple(unsaid[:1]), tuple(unsaid[1:]))


def _percent(share: float) -> str:
    return f"{100 * share:.2g} %" if share < 0.995 else "100 %"


def _times(better: float) -> str:
    if better > 1e6:
        return "over a million times"
    return f"{better:,.0f} times" if better >= 10 else f"{better:.2g} times"


def _likelier(better: float) -> str:
    return (
        "no likelier than sizes at random"
        if better <= 1.05
        else f"{_times(better)} as likely as sizes at random"
    )


def _system_lines(result: Recovered) -> Lines:
    best = result.explanations[0]
    lines: Lines = []
    if best.worst is None:
        lines.append(f"no division explains all {len(result.readings)} readings better than sizes at random")
    else:
        lines.append(
            f"all {len(result.readings)} together: {best.system}, {best.division}, {odds_text(best.odds)}; "
            f"{_likelier(best.better)}; the worst is {both(best.worst)} off"
        )
    others = tuple(
        (e.system, e.division, odds_text(e.odds), _likelier(e.better)) for e in result.explanations[1:4]
    )
    if others:
        lines.append(Table(others))
    gram = result.quantogram
    if gram is not None:
        lines.append(
            f"quantogram (Kendall, 1974): best quantum about {in_decimals(gram.quantum.inch, 'in', 5).bare} "
            f"({in_mm(gram.quantum, 4).bare}), as strong by chance {_by_luck(gram)}"
        )
    return lines + _held_in_common(result)


def _by_luck(gram: Quantogram) -> str:
    """How often sizes at random score as well: worked out, or tried."""
    if not gram.trials:
        often = 1 / max(gram.significance, 1e-9)
        return f"once in {often:,.0f}" if often < 1e6 else "less than once in a million"
    tried = f"of {gram.trials} trials"
    return f"in {_percent(gram.significance)} {tried}" if gram.reached else f"in none {tried}"


def _held_in_common(result: Recovered) -> Lines:
    """What was taken of all readings: the reader's step, equal ones as one, an old inch that explains them."""
    lines: Lines = []
    if result.step is not None:
        step = _as_read(result.step.step)
        lines.append(
            f"all stand on {step}, so they are taken as read to {step} and trusted to half of that; "
            "say within what, if they are finer"
        )
    for places in result.alike:
        same = _as_read(result.readings[places[0]].asked)
        lines.append(f"{same} stands {len(places)} times and counts once: read a neighbouring size")
    if result.old is not None:
        names = " or ".join(one.called for one in result.old.inches)
        lines.append(
            f"an old inch explains them: {names} inch, {result.old.division}, {odds_text(result.old.odds)} "
            f"({'; '.join(dict.fromkeys(one.source for one in result.old.inches))})"
        )
    return lines


def _gist(result: Recovered, lines: list[str]) -> list[str]:
    if len(result.readings) < 2:
        return []
    meant = [
        reading.candidates[0].name if reading.candidates else "no round size" for reading in result.readings
    ]
    return [", ".join(meant), lines[0]]


ROOM = Room(
    word="recover",
    forms=("recover SIZE, SIZE ... [within SIZE] [worn SIZE] [among TABLE, TABLE ...]",),
    example="recover 51.5 mm, 66.7 mm within 0.05 mm",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
    takes_long=True,
    odds=lambda result: result.candidates[0].odds,
)
