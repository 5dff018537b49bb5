"""Sizes taken from a reading whose likeliest meaning is less likely than not, and what rests on them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from fractions_shop.sheet.solve import Worked, Working


@dataclass(frozen=True, slots=True)
class Doubt:
    """A named size that `recover` chose although something else is likelier; `odds` to one on it."""

    name: str
    line: int
    odds: float


@dataclass(frozen=True, slots=True)
class Doubts:
    """The doubtful readings of a sheet, and the numbers of the lines that draw on one, directly or not."""

    readings: tuple[Doubt, ...] = ()
    resting: frozenset[int] = frozenset()

    @property
    def lines(self) -> frozenset[int]:
        """The numbers of the lines with a doubtful reading."""
        return frozenset(doubt.line for doubt in self.readings)


NO_DOUBTS = Doubts()


def doubts(working: Working) -> Doubts:
    """Every doubtful reading that was given a name or is drawn on by another line."""
    found = {n: odds for n, item in enumerate(working.worked) if (odds := _odds(item)) is not None}
    if not found:
        return NO_DOUBTS
    resting = _resting(working, found)
    drawn_on = {source for n in resting for source in working.plan.draws[n].values()}
    lines = working.lines
    return Doubts(
        tuple(
            Doubt(lines[n].sets or "the size", lines[n].number, odds)
            for n, odds in found.items()
            if lines[n].sets or n in drawn_on
        ),
        frozenset(lines[n].number for n in resting),
    )


def _odds(item: Worked) -> float | None:
    """The odds on a size that `recover` gave, where they are against it."""
    if item.line.request != "recover" or item.outcome is None or item.value is None:
        return None
    odds: float = item.outcome.result.candidates[0].odds
    return odds if odds < 1 else None


def _resting(working: Working, found: Iterable[int]) -> set[int]:
    """The lines that draw on one of these, directly or through others."""
    feeds: dict[int, list[int]] = {}
    for n, draws in enumerate(working.plan.draws):
        for source in draws.values():
            feeds.setdefault(source, []).append(n)
    resting: set[int] = set()
    waiting = list(found)
    while waiting:
        for n in feeds.get(waiting.pop(), ()):
            if n not in resting:
                resting.add(n)
                waiting.append(n)
    return resting
