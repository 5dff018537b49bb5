"""identify: the threads that a measured screw may be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    both,
    signed_cell,
)
from fractions_shop.language.arithmetic import kind_name
from fractions_shop.language.evaluate import as_size
from fractions_shop.language.fault import Fault
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
    return identify(given.length(0), pitch), None


def _lines(result: Identified) -> Lines:
    """The threads that two readings may mean, best first, and what passes for them."""
    lines: Lines = [f"major {both(result.major, 5)} and pitch {both(result.pitch, 5)} may be"]
    rows = tuple(
        (
            named(c.thread),
            signed_cell(c.major_off),
            signed_cell(c.pitch_off),
            "likely" if c.likely else "doubtful",
        )
        for c in result.candidates
    )
    lines.append(Table(rows, ("", "major reads", "pitch reads", "")))
    lines += [f"{c.thread.name}: {c.remark}" for c in result.candidates[:3]]
    best = result.candidates[0]
    if best.lookalikes:
        lines.append(f"{best.thread.name} is easily taken for")
        lines += [f"  {_alike(thread)}" for thread in best.lookalikes[:4]]
    return [*lines, f"caution: {result.caution}"]


def _alike(look_alike: LookAlike) -> str:
    angle = "" if look_alike.same_angle else ", another angle"
    if look_alike.half_pitch_after is None:
        return f"{named(look_alike.thread)}: the same pitch{angle}"
    return f"{named(look_alike.thread)}: half a thread out after {look_alike.half_pitch_after} turns{angle}"


def _gist(result: Identified, lines: list[str]) -> list[str]:
    likely = [named(each.thread) for each in result.candidates if each.likely]
    others = [named(each.thread) for each in result.candidates if not each.likely]
    said = [" or ".join(likely)] if likely else []
    if others:
        said.append(f"{'less likely ' if likely else 'none is likely; nearest '}{', '.join(others)}")
    return said


ROOM = Room(
    word="identify",
    forms=("identify MAJOR, PITCH",),
    example="identify 0.108 in, 48 tpi",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
