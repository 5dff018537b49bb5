"""The verdict on a sheet in a sentence."""

from __future__ import annotations

from fractions_shop.figures.wording import so_many
from fractions_shop.sheet.verdict import Verdict


def verdict_text(verdict: Verdict) -> str:
    """How a sheet went: `5 checks: 2 hold, 1 fails, 2 not worked out; 3 sizes rest on doubtful readings`.

    A check that holds by what is allowed alone is told: `1 check, which holds, nominally off`.
    """
    said = [_checks(verdict)] if verdict.checks else []
    if verdict.unmade:
        said.append(f"{so_many(verdict.unmade, 'part')} not worked out")
    if verdict.faults:
        said.append(so_many(verdict.faults, "fault"))
    if verdict.waits:
        said.append(f"{so_many(verdict.waits, 'line')} {_verb(verdict.waits, 'wait')} for another")
    if not said:
        said.append(f"{so_many(verdict.answered, 'line')} answered, nothing checked")
    return "; ".join([*said, *_doubts(verdict)])


def _checks(verdict: Verdict) -> str:
    if verdict.checks == 1:
        off = ", nominally off" if verdict.off_checks else ""
        return f"1 check, which {'holds' if verdict.holds else 'fails' if verdict.fails else 'is not worked out'}{off}"
    off = f"{verdict.off_checks:,} of them nominally off" if verdict.off_checks else ""
    if verdict.holds == verdict.checks:
        return f"{verdict.checks:,} checks, all hold{f', {off}' if off else ''}"
    said = [
        f"{count:,} {_verb(count, word)}{aside}"
        for count, word, aside in (
            (verdict.holds, "hold", f" ({off})" if off else ""),
            (verdict.fails, "fail", ""),
        )
        if count
    ]
    said += [f"{verdict.unchecked:,} not worked out"] if verdict.unchecked else []
    return f"{so_many(verdict.checks, 'check')}: {', '.join(said)}"


def _doubts(verdict: Verdict) -> list[str]:
    sizes, checks, moved = verdict.doubtful_sizes, verdict.doubtful_checks, verdict.moved_sizes
    said = []
    if sizes or checks:
        what = " and ".join(
            so_many(count, word) for count, word in ((sizes, "size"), (checks, "check")) if count
        )
        said.append(f"{what} {_verb(sizes + checks, 'rest')} on {_readings(sizes + checks)}")
    if moved:
        said.append(f"{so_many(moved, 'size')} {_verb(moved, 'rest')} on a total that was moved")
    for count, on in (
        (verdict.believed_sizes, "what is believed of a reading"),
        (verdict.memory_sizes, "a figure from memory"),
        (verdict.one_source_sizes, "a figure of one source, or beyond its standard"),
    ):
        if count:
            said.append(f"{so_many(count, 'size')} {_verb(count, 'rest')} on {on}")
    if wide := verdict.wide_checks:
        said.append(f"{so_many(wide, 'check')} {_verb(wide, 'rest')} on limits that may be wide")
    return said


def _readings(number: int) -> str:
    return "a doubtful reading" if number == 1 else "doubtful readings"


def _verb(number: int, verb: str) -> str:
    """`holds` of one, `hold` of several."""
    return f"{verb}s" if number == 1 else verb
