"""An answer in one line, what was asked for first: there is one row for it beneath the line.

The whole answer begins with what it answers to, which is still in sight above the row.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from fractions_shop.figures.figure import Figure, in_decimals, in_inches, in_mm
from fractions_shop.figures.table import Cell, Piece, in_prose
from fractions_shop.language.results import RuleResult
from fractions_shop.sheet.session import Answer
from fractions_shop.sheet.workbench import Outcome
from fractions_shop.show.making import pieces_said
from fractions_shop.show.words import both, both_decimals, off_by, over_under, too_small
from fractions_shop.size.notation import places_shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: More sizes in a row are told by the first ones and the last.
_MOST = 6
#: A first line that is longer fills the row alone.
_LONG = 100


def in_one_line(outcome: Outcome, digits: int) -> str:
    """The gist of an answer."""
    if isinstance(outcome.result, RuleResult):
        return f"sets the working rule to {outcome.result.rule}"
    if outcome.doubts:
        # That it may be another size must be seen before Enter, whatever else the row has no room for.
        plain = replace(outcome, notes=tuple(note for note in outcome.notes if note.kind != "doubt"))
        shown = in_one_line(plain, digits)
        return "; ".join([shown.partition("; ")[0], *(note.text for note in outcome.doubts)])
    text = Answer(outcome).text(1000, digits)
    lines = [" ".join(line.split()) for line in text.splitlines() if line.strip()]
    gist = _GISTS.get(outcome.kind) if outcome.name is None else None
    if gist is not None:
        token = places_shown.set(digits)
        try:
            found = gist(outcome.result, lines)
        finally:
            places_shown.reset(token)
        if found:
            return found
    return "; ".join(lines[: 2 if len(lines[0]) < _LONG else 1])


def _mark(result: Any, lines: list[str]) -> str:
    return f"{_row(result.read, result.rule)}; {_worst(result.worst)}"


def _crown(result: Any, lines: list[str]) -> str:
    return f"heights {_row(result.read, result.rule)}; {_worst(result.worst)}"


def _worst(error: Quantity) -> str:
    if not error.value:
        return "every one exact"
    if too_small(error):
        return f"the worst {off_by(error)} off"
    return f"the worst {in_prose(both_decimals(error, 4), '~')} off"


def _row(sizes: Sequence[Quantity], rule: Rule) -> str:
    """Sizes in the rule's own unit, which is said once: `0, 13/32, 13/16 in`."""
    unit = "mm" if rule.metric else "in"
    figures = [(in_mm(size) if rule.metric else in_inches(size)).without_unit() for size in sizes]
    said = [in_prose(Cell("size", (figure,))) for figure in figures]
    if len(said) > _MOST:
        said = [*said[: _MOST - 2], "...", said[-1]]
    return f"{', '.join(said)} {unit}"


def _recover(result: Any, lines: list[str]) -> str:
    if len(result.readings) < 2:
        return ""
    meant = [one.candidates[0].name if one.candidates else "no round size" for one in result.readings]
    return f"{', '.join(meant)}; {lines[0]}"


def _identify(result: Any, lines: list[str]) -> str:
    likely = [one.thread.name for one in result.candidates if one.likely]
    others = [one.thread.name for one in result.candidates if not one.likely]
    said = [" or ".join(likely)] if likely else []
    said += (
        [f"{'less likely ' if likely else 'none is likely; nearest '}{', '.join(others)}"] if others else []
    )
    return "; ".join(said)


def _substitute(result: Any, lines: list[str]) -> str:
    asked = [f"{one.thread.name} {one.as_it_is.fit}" for one in result.candidates[:3]]
    retapped = [one.thread.name for one in result.for_retapping[:2]]
    said = f"as they are: {', '.join(asked)}"
    return f"{said}; re-tapped: {' or '.join(retapped)}" if retapped else said


def _fit(result: Any, lines: list[str]) -> str:
    limits = getattr(result, "limits", None)
    if limits is not None:
        return f"{_span(limits.lower, limits.upper, metric=True)}; {lines[0]}"
    metric = result.metric
    if result.kind == "transition":
        tight, loose = (_span(size, None, metric) for size in (-result.least, result.most))
        return f"from {tight} interference to {loose} clearance; {lines[0]}"
    ends = (-result.most, -result.least) if result.kind == "interference" else (result.least, result.most)
    return f"{result.kind} {_span(*ends, metric)}; {lines[0]}"


def _span(low: Quantity, high: Quantity | None, metric: bool) -> str:
    """One size, or one to another, in both units, each unit said once."""
    ends = [low] if high is None else [low, high]
    mm = _to([in_decimals(size.mm, "", 4) for size in ends], " mm")
    inches = _to([in_decimals(size.inch, "", 5) for size in ends], " in")
    return in_prose(Cell("size", *((mm, inches) if metric else (inches, mm))), "~")


def _to(figures: list[Figure], unit: str) -> tuple[Piece, ...]:
    """One figure, or one to another, and the unit."""
    first, *second = figures
    return (first, *(piece for figure in second for piece in (" to ", figure)), unit)


def _pack(result: Any, lines: list[str]) -> str:
    if result.exact:
        return f"{pieces_said(result.nearest)}, exact"
    near = result.nearest
    return f"not exactly: the nearest is {both(near.total)}, {over_under(near.error, 4)}"


def _thread(result: Any, lines: list[str]) -> str:
    return "; ".join(lines[1:4])


_GISTS: dict[str, Callable[[Any, list[str]], str]] = {
    "mark": _mark,
    "crown": _crown,
    "recover": _recover,
    "identify": _identify,
    "substitute": _substitute,
    "fit": _fit,
    "pack": _pack,
    "thread": _thread,
}
