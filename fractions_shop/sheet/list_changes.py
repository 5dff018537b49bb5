"""What differs in the lists of two sheets: their revisions, and the tools that their holes and slots ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.sheet.revisions import Revision
from fractions_shop.sheet.tools import Tool, tool_key


@dataclass(frozen=True, slots=True)
class RevisionChange:
    """A revision that differs in its words or its date: `old` is None for a new one, `new` for one that is gone."""

    old: Revision | None
    new: Revision | None


@dataclass(frozen=True, slots=True)
class ToolChange:
    """A tool that one of two sheets alone asks for: `old` is None for one that is needed now, `new` for one that is not."""

    old: Tool | None
    new: Tool | None


@dataclass(frozen=True, slots=True)
class ListChanges:
    """What differs in the lists of two sheets."""

    revisions: tuple[RevisionChange, ...] = ()
    tools: tuple[ToolChange, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.revisions or self.tools)


NO_LISTS = ListChanges()


def list_changes(
    revisions: tuple[Sequence[Revision], Sequence[Revision]], tools: tuple[Sequence[Tool], Sequence[Tool]]
) -> ListChanges:
    """What differs, in the order of the old sheet, what is new last. How many holes a tool makes is told by the cuts."""
    before, after = ({each.label.casefold(): each for each in some} for some in revisions)
    changed = [
        RevisionChange(before.get(label), after.get(label))
        for label in dict.fromkeys((*before, *after))
        if _said(before.get(label)) != _said(after.get(label))
    ]
    had, has = ({tool_key(each): each for each in some} for some in tools)
    return ListChanges(
        tuple(changed),
        (
            *(ToolChange(tool, None) for key, tool in had.items() if key not in has),
            *(ToolChange(None, tool) for key, tool in has.items() if key not in had),
        ),
    )


def _said(revision: Revision | None) -> tuple[str, ...]:
    return () if revision is None else (revision.label, revision.words, revision.date)
