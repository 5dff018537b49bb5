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
    from fractions_shop.threads.substitute import StandIn, Substitutes


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
    lines += _retapping(result)
    return [*lines, Caution(f"caution: {result.caution}", result.old.name)]


def _retapping(result: Substitutes) -> list[str]:
    """What is best for re-tapping, each with what is cut and what is left; then its own next sizes that are not."""
    poor = [each for each in result.own_series if each not in result.for_retapping]
    lines = []
    if result.for_retapping:
        lines.append("best for re-tapping the old hole, least growth first:")
        lines += [f"  {_retapped(result, each)}" for each in result.for_retapping]
    if poor:
        lines.append("next in its own series, but not good for it:")
        lines += [f"  {_retapped(result, each)}" for each in poor]
    return lines


def _retapped(result: Substitutes, candidate: StandIn) -> str:
    own = ", of its own series" if candidate in result.own_series else ""
    grown = f"major {over_under(candidate.major_off, 4)}"
    return f"{named(candidate.thread)}{own}: {grown}; {candidate.retap.verdict}; {candidate.retap.happens}"


def _gist(result: Substitutes, lines: list[str]) -> list[str]:
    asked = [f"{named(each.thread)} {each.as_it_is.fit}" for each in result.candidates[:3]]
    said = [f"as they are: {', '.join(asked)}"]
    retapped = _least_and_clean(result)
    return [*said, f"re-tapped: {', '.join(retapped)}"] if retapped else said


def _least_and_clean(result: Substitutes) -> list[str]:
    """The smallest that is good for re-tapping, and the smallest that leaves nothing of the old thread."""
    clean = [each for each in result.for_retapping if each.retap.verdict == "clean"]
    both = dict.fromkeys((*result.for_retapping[:1], *clean[:1]))
    return [f"{named(each.thread)} {each.retap.verdict}" for each in both]


ROOM = Room(
    word="substitute",
    forms=("substitute NAME [from SERIES]",),
    example="substitute 6 BA from metric",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
