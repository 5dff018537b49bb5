"""A sheet as one plain object for JSON, exact rationals as text."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fractions_shop.language.notes import doubts_of
from fractions_shop.requests import data
from fractions_shop.requests.data import SCHEMA, encode
from fractions_shop.sheet.changes import AnswerChange, Change, PartChange
from fractions_shop.sheet.check_causes import Feed
from fractions_shop.sheet.doubts import Doubt, Doubts
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.verdict import Verdict
from fractions_shop.show.size_table import why_undone
from fractions_shop.show.verdict import verdict_text


def sheet(
    worked: Sequence[Worked], feeds: dict[int, tuple[Feed, ...]], title: str, verdict: Verdict, doubts: Doubts
) -> dict[str, Any]:
    """The whole sheet. `lines` has every line that is not blank; `sizes` and `parts` pick from it.

    `ok` is false when a check fails, a line is at fault, or one waits; `counts` is the
    verdict in numbers. `doubtful` has the sizes that may well be others, `moved` the spaces
    of totals that had to move, `resting` and `resting_on_moved` the lines that draw on them.
    """
    return {
        "schema": SCHEMA,
        "kind": "sheet",
        "title": title,
        "ok": verdict.ok,
        "verdict": verdict_text(verdict),
        "counts": encode(verdict),
        "sizes": {w.line.sets: encode(w.value) for w in worked if w.line.sets and w.value is not None},
        "parts": [_listed_part(w) for w in worked if w.line.kind == "part"],
        "doubtful": [_doubt(doubt) for doubt in doubts.readings],
        "moved": [
            {"name": m.name, "line": m.line, "asked": encode(m.asked), "change": encode(m.change)}
            for m in doubts.moved
        ],
        "resting": sorted(doubts.resting),
        "resting_on_moved": sorted(doubts.on_moved),
        "lines": [_line(w, feeds.get(w.line.number, ())) for w in worked if w.line.kind != "blank"],
    }


def _line(item: Worked, feeds: Sequence[Feed]) -> dict[str, Any]:
    """One line: its number and state, and under `answer`, `part`, `fault` or `waits` what came of it."""
    line = item.line
    found: dict[str, Any] = {"line": line.number, "state": item.state}
    if not line.works:
        return found | {"words": line.words}
    found |= {"statement": line.statement, "comment": line.words, "working_rule": item.rule.name}
    if item.fault is not None:
        found["fault"] = data.fault(item.fault)
    elif item.waits:
        found["waits"] = [{"name": wait.name, "line": wait.line} for wait in item.waits]
    elif item.part is not None:
        found["part"] = part(item.part)
    elif item.answer is not None:
        found["answer"] = item.answer.data()
        if item.state == "fails":
            found["feeds"] = [_feed(feed) for feed in feeds]
    return found


def part(found: Part) -> dict[str, Any]:
    """A part to make, as an object."""
    return {
        "part": found.name, "how_many": found.count, "material": found.material,
        "sizes": encode(found.sizes), "note": found.note,
        "notes": [note.text for note in found.notes],
        "doubts": [note.text for note in doubts_of(found.notes)],
    }  # fmt: skip


def _listed_part(item: Worked) -> dict[str, Any]:
    """A part of the sheet's list; one that was not worked out has a `fault` and nulls for its figures."""
    if item.part is not None:
        return part(item.part)
    form = item.line.part
    return {
        "part": item.line.part_name, "how_many": None, "material": form.material if form else None, "sizes": None,
        "note": form.note if form else None, "notes": [], "doubts": [], "fault": why_undone(item),
    }  # fmt: skip


def _doubt(doubt: Doubt) -> dict[str, Any]:
    odds = None if doubt.odds is None else encode(doubt.odds)
    return {
        "name": doubt.name,
        "line": doubt.line,
        "odds": odds,
        "notes": [note.text for note in doubt.notes],
    }


def _feed(feed: Feed) -> dict[str, Any]:
    return {
        "name": feed.name, "line": feed.line, "value": encode(feed.value), "step": encode(feed.step),
        "moves": encode(feed.moves), "closes": encode(feed.closes), "reach": encode(feed.reach),
    }  # fmt: skip


def comparison(
    sizes: Sequence[Change], parts: Sequence[PartChange], answers: Sequence[AnswerChange]
) -> dict[str, Any]:
    """What changed between two sheets, as an object."""
    return {
        "schema": SCHEMA,
        "kind": "comparison",
        "same": not sizes and not parts and not answers,
        "sizes": [
            {"name": c.name, "old": encode(c.old), "new": encode(c.new), "by": encode(c.by)} for c in sizes
        ],
        "parts": [
            {"part": c.name, "old": c.old and part(c.old), "new": c.new and part(c.new)} for c in parts
        ],
        "answers": [{"kind": c.kind, "old": c.old and _line(c.old, ()), "new": c.new and _line(c.new, ())} for c in answers],
    }  # fmt: skip
