"""substitute: the threads that may stand in for another."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from fractions_shop.figures.plain import Caution, Lines
from fractions_shop.figures.table import in_prose
from fractions_shop.figures.wording import (
    over_under,
)
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.thread_figures import in_both, named

if TYPE_CHECKING:
    from fractions_shop.threads.substitute import Substitutes


def _answer(given: Inputs) -> tuple[Substitutes, None]:
    from fractions_shop.threads.substitute import substitute

    name, _, series = re.sub(r"\s+from\s+", "\0", given.word(0), flags=re.IGNORECASE).partition("\0")
    return substitute(name, series or None), None


def _lines(result: Substitutes) -> Lines:
    """What may stand in, as it is, after re-tapping, and in a bush."""
    lines: Lines = [
        f"in place of {result.old.name}: {in_prose(in_both(result.old.major))} x {in_prose(in_both(result.old.pitch))}"
    ]
    for candidate in result.candidates:
        lines.append(
            f"{named(candidate.thread)}: major {over_under(candidate.major_off, 4)}, pitch {over_under(candidate.pitch_off, 4)}"
        )
        lines.append(f"  as it is: {candidate.as_it_is.fit}; {'; '.join(candidate.as_it_is.happens)}")
        lines.append(f"  re-tapped: {candidate.retap.verdict}; {candidate.retap.happens}")
        lines.append(f"  bushed: {candidate.bush.happens}")
    for candidate in result.own_series:
        lines.append(
            f"{named(candidate.thread)}, of its own series: {candidate.retap.verdict}; {candidate.retap.happens}"
        )
    best = ", ".join(named(each.thread) for each in result.for_retapping[:4])
    if best:
        lines.append(f"best for re-tapping the old hole: {best}")
    return [*lines, Caution(f"caution: {result.caution}", result.old.name)]


def _gist(result: Substitutes, lines: list[str]) -> list[str]:
    asked = [f"{named(each.thread)} {each.as_it_is.fit}" for each in result.candidates[:3]]
    retapped = [named(each.thread) for each in result.for_retapping[:2]]
    said = [f"as they are: {', '.join(asked)}"]
    return [*said, f"re-tapped: {' or '.join(retapped)}"] if retapped else said


ROOM = Room(
    word="substitute",
    forms=("substitute NAME [from SERIES]",),
    example="substitute 6 BA from metric",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
