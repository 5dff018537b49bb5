"""identify: the threads that a measured screw may be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.figures.plain import Caution, Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    both,
    signed_cell,
)
from fractions_shop.language.arithmetic import kind_name
from fractions_shop.language.fault import Fault
from fractions_shop.language.kinds import as_size
from fractions_shop.language.nodes import Text
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.thread_figures import named

if TYPE_CHECKING:
    from fractions_shop.threads.identify import Identified, LookAlike


def _answer(given: Inputs) -> tuple[Identified, None]:
    from fractions_shop.threads.identify import identify

    node = given.subject(1)
    pitch = as_size(given.value(node), node)
    if pitch.power not in (1, -1):
        raise Fault(
            f"this is a {kind_name(pitch)}, where a pitch is needed", node.start, node.end,
            "write 0.9 mm, or 26 tpi for threads to the inch",
        )  # fmt: skip
    return identify(given.length(0), pitch, by=_tool(given)), None


def _tool(given: Inputs) -> str:
    """What the pitch was read with: a leaf of a gauge unless another thing is said."""
    option = given.option("by")
    if option is None or not isinstance(option.value, Text):
        return "leaf"
    tool = option.value.text.lower()
    if tool not in ("leaf", "rule"):
        raise Fault(
            f"a pitch is not read by {tool}", option.value.start, option.value.end,
            "write by leaf, of a pitch gauge, or by rule, over ten threads",
        )  # fmt: skip
    return tool


def _lines(result: Identified) -> Lines:
    """The threads that two readings may mean, best first, and what passes for them."""
    read = f"major {both(result.major, 5)} and pitch {both(result.pitch, 5)} by {result.by}"
    lines: Lines = [
        f"{read}: {_or(result)}" if result.known
        else f"{read}: none known; the least far of the tables are"
    ]  # fmt: skip
    rows = tuple(
        (
            named(c.thread),
            signed_cell(c.major_off),
            signed_cell(c.pitch_off),
            "likely" if c.likely else "seldom met" if c.seldom else "doubtful",
        )
        for c in result.candidates
    )
    lines.append(Table(rows, ("", "major reads", "pitch reads", ""), ("",)))
    lines += [f"{c.thread.name}: {c.remark}" for c in result.candidates[:3]]
    best = result.candidates[0]
    if result.known and best.lookalikes:
        lines.append(f"{best.thread.name} is easily taken for")
        lines += [f"  {_alike(thread)}" for thread in best.lookalikes[:4]]
    return [*lines, Caution(f"caution: {result.caution}", result.candidates[0].thread.name)]


def _or(result: Identified) -> str:
    """The best and what cannot be told from it by two readings, and what else is likely."""
    tied = list(result.best)
    others = [each.thread.name for each in result.candidates if each.likely and each.thread.name not in tied]
    more = f"; or {', '.join(others)}" if others else ""
    alike = ", of one major and pitch" if len(tied) > 1 else ""
    return f"{' or '.join(tied)}{alike}{more}"


def _alike(look_alike: LookAlike) -> str:
    angle = "" if look_alike.same_angle else ", another angle"
    if look_alike.half_pitch_after is None:
        return f"{named(look_alike.thread)}: the same pitch{angle}"
    return f"{named(look_alike.thread)}: half a thread out after {look_alike.half_pitch_after} turns{angle}"


def _gist(result: Identified, lines: list[str]) -> list[str]:
    if not result.known:
        return [
            f"none known; the least far {', '.join(named(each.thread) for each in result.candidates[:3])}"
        ]
    likely = [named(each.thread) for each in result.candidates if each.likely]
    others = [named(each.thread) for each in result.candidates if not each.likely and not each.seldom]
    said = [" or ".join(likely)] if likely else []
    if others:
        said.append(f"{'less likely ' if likely else 'none is likely; nearest '}{', '.join(others)}")
    return said


ROOM = Room(
    word="identify",
    forms=("identify MAJOR, PITCH [by leaf|rule]",),
    example="identify 0.108 in, 48 tpi",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
