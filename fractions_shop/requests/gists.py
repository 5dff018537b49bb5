"""Pieces of the one line that the prompt shows of an answer."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fractions_shop.figures.figure import Figure, in_decimals, in_inches, in_mm
from fractions_shop.figures.plain import Lines, laid_out, without_pictures
from fractions_shop.figures.table import Cell, Piece, in_prose
from fractions_shop.figures.wording import both_decimals, off_by, too_small
from fractions_shop.requests.rooms import Room
from fractions_shop.size.notation import feet_lead, mm_leads
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: Of more sizes in a row only the first ones and the last are shown.
_MOST = 6
#: A first line that is longer fills the row alone.
_LONG = 100
#: A repr is one line of so many characters at most.
_REPR = 120


def gist_of(room: Room | None, result: Any, lines: Lines) -> list[str]:
    """An answer in few sentences, what was asked for first: its room's gist, or the first of its lines."""
    said = laid_out(without_pictures(lines), 1000)
    plain = [" ".join(line.split()) for line in said.splitlines() if line.strip()]
    gist = room.gist(result, plain) if room is not None and room.gist is not None else []
    return gist or plain[: 2 if len(plain[0]) < _LONG else 1]


def in_short(called: str, said: list[str], whole: bool = False) -> str:
    """What is called so in one line, for a console, as far as there is room: what is cut is seen to be cut.

    `whole` leaves out what follows the first of what is said, where it has no room.
    """
    line, room = "; ".join(said), _REPR - len(f"<{called}: >")
    if whole and len(line) > room:
        line = said[0]
    if len(line) > room:
        line = f"{line[: room - 3].rpartition(' ')[0].rstrip(',;')} ..."
    return f"<{called}: {line}>"


def worst_off(error: Quantity) -> str:
    """The worst error among several, whichever way it lies."""
    if not error.value:
        return f"every one {off_by(error)}"
    if too_small(error):
        return f"the worst {off_by(error)} off"
    return f"the worst {in_prose(both_decimals(error, 4), '~')} off"


def size_row(sizes: Sequence[Quantity], rule: Rule) -> str:
    """Sizes in the unit that leads, which is said once: `0, 13/32, 13/16 in`; feet are said with each."""
    metric = mm_leads(rule.metric)
    each = not metric and any(map(feet_lead, sizes))
    unit = "" if each else " mm" if metric else " in"
    figures = [in_mm(size) if metric else in_inches(size) for size in sizes]
    figures = figures if each else [figure.without_unit() for figure in figures]
    said = [in_prose(Cell("size", (figure,))) for figure in figures]
    if len(said) > _MOST:
        said = [*said[: _MOST - 2], "...", said[-1]]
    return f"{', '.join(said)}{unit}"


def span(low: Quantity, high: Quantity | None, metric: bool, places: int = 5) -> str:
    """One size, or one to another, in both units, each unit said once.

    Inches that do not end are told in so many places; a difference in 4.
    """
    ends = [low] if high is None else [low, high]
    mm = _to([in_decimals(size.mm, "", 4, size.standing) for size in ends], " mm")
    inches = _to([_inches(size, places) for size in ends], " in")
    return in_prose(Cell("size", *((mm, inches) if mm_leads(metric) else (inches, mm))), "~")


def _inches(size: Quantity, places: int) -> Figure:
    whole = in_decimals(size.inch, "", 5, size.standing)
    return whole if whole.exact else in_decimals(size.inch, "", places, size.standing)


def _to(figures: list[Figure], unit: str) -> tuple[Piece, ...]:
    """One figure, or one to another, and the unit."""
    first, *second = figures
    return (first, *(piece for figure in second for piece in (" to ", figure)), unit)
