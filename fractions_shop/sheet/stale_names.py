"""Names of a session that rest on one which was set again: found, and said of the answer that set it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from fractions_shop.language.notes import remark
from fractions_shop.sheet.answer import TOLD, Answer

_ANS = "ans"


def rests_of(answer: Answer, rests: Mapping[str, frozenset[str]]) -> dict[str, frozenset[str]]:
    """What the names that an answer sets, and `ans`, rest on, directly or through others."""
    roots = frozenset(
        root for used in answer.used for root in ({used} - {_ANS}) | rests.get(used, frozenset())
    )
    names = [*answer.named] or ([answer.name] if answer.name else [])
    made = {name: roots - {name} for name in names}
    if answer.value is not None:
        made[_ANS] = roots | set(names)
    return made


def stale_names(rests: Mapping[str, frozenset[str]], moved: Sequence[str]) -> list[str]:
    """The names that rest on one of some that have moved."""
    return [name for name, roots in rests.items() if name != _ANS and not roots.isdisjoint(moved)]


def told_of_stale(answer: Answer, stale: Sequence[str], moved: Sequence[str]) -> Answer:
    """An answer that says which names were forgotten, and why."""
    if not stale:
        return answer
    said = f"{listed_names(stale)} rested on {listed_names(moved)} as it was, and must be set again"
    return replace(answer, notes=(*answer.notes, remark(said)))


def listed_names(names: Sequence[str]) -> str:
    """`frame`, `frame and bar`, `frame, bar, slat, rail and others`."""
    listed = [*names[:TOLD], *(["others"] if len(names) > TOLD else [])]
    return listed[0] if len(listed) == 1 else f"{', '.join(listed[:-1])} and {listed[-1]}"
