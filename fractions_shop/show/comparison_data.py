"""What changed between two sheets, as a plain object for JSON."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Annotated, Any, Literal, TypedDict, TypeVar

from fractions_shop.requests.data import SCHEMA, encode
from fractions_shop.sheet.changes import AnswerChange, Change, PartChange
from fractions_shop.sheet.cut_changes import CutChange, StockChange
from fractions_shop.sheet.list_changes import NO_LISTS, ListChanges
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.show.feature_data import FeatureData
from fractions_shop.show.feature_data import feature as feature_data
from fractions_shop.show.sheet_data import LineData, PartData, RevisionData, line_data, part, revision_data
from fractions_shop.show.stock_data import CutFromData, ToolData, cut_from, tool_data
from fractions_shop.size.value import Value

_Made = TypeVar("_Made")
_Data = TypeVar("_Data")


class SizeChangeData(TypedDict):
    """A named size that differs: null where one sheet has none; `by` is new less old, of sizes of one kind.

    `old_undone` and `new_undone` are the line that should have given what is null and was not worked out, if one was.
    """

    name: str
    old: Value | None
    new: Value | None
    by: Annotated[Any, "size"] | None
    old_undone: int | None
    new_undone: int | None


class PartChangeData(TypedDict):
    """A part that differs."""

    part: str
    old: PartData | None
    new: PartData | None
    old_undone: int | None
    new_undone: int | None


class CutChangeData(TypedDict):
    """What a line cuts in a part, where that differs."""

    part: str
    old: FeatureData | None
    new: FeatureData | None
    old_undone: int | None
    new_undone: int | None


class StockChangeData(TypedDict):
    """A stock that differs, or what is cut from it."""

    old: CutFromData | None
    new: CutFromData | None
    old_undone: int | None
    new_undone: int | None


class AnswerChangeData(TypedDict):
    """An answer that differs: `kind` is the word of its request, or size."""

    kind: str
    old: LineData | None
    new: LineData | None


class ToolChangeData(TypedDict):
    """A tool that one of the two sheets alone asks for."""

    old: ToolData | None
    new: ToolData | None


class RevisionChangeData(TypedDict):
    """A revision that differs in its words or its date."""

    old: RevisionData | None
    new: RevisionData | None


class ComparisonData(TypedDict):
    """What `fractions-shop compare OLD NEW --json` gives."""

    schema: Literal[1]
    kind: Literal["comparison"]
    same: bool
    sizes: list[SizeChangeData]
    parts: list[PartChangeData]
    cuts: list[CutChangeData]
    stock: list[StockChangeData]
    answers: list[AnswerChangeData]
    tools: list[ToolChangeData]
    revisions: list[RevisionChangeData]


def comparison(
    sizes: Sequence[Change],
    parts: Sequence[PartChange],
    answers: Sequence[AnswerChange],
    cuts: Sequence[CutChange] = (),
    stock: Sequence[StockChange] = (),
    lists: ListChanges = NO_LISTS,
) -> ComparisonData:
    """What changed between two sheets, as an object."""
    return {
        "schema": SCHEMA,
        "kind": "comparison",
        "same": not (sizes or parts or answers or cuts or stock or lists),
        "sizes": [
            {"name": c.name, "old": encode(c.old), "new": encode(c.new), "by": encode(c.by), **_undone(c)}
            for c in sizes
        ],
        "parts": [
            {"part": c.name, "old": _told(c.old, part), "new": _told(c.new, part), **_undone(c)}
            for c in parts
        ],
        "cuts": [
            {"part": c.part, "old": _told(c.old, _feature), "new": _told(c.new, _feature), **_undone(c)}
            for c in cuts
        ],
        "stock": [
            {"old": _told(c.old, cut_from), "new": _told(c.new, cut_from), **_undone(c)} for c in stock
        ],
        "answers": [
            {"kind": c.kind, "old": _told(c.old, _line), "new": _told(c.new, _line)} for c in answers
        ],
        "tools": [{"old": _told(c.old, tool_data), "new": _told(c.new, tool_data)} for c in lists.tools],
        "revisions": [
            {"old": _told(c.old, revision_data), "new": _told(c.new, revision_data)} for c in lists.revisions
        ],
    }


class _Undone(TypedDict):
    old_undone: int | None
    new_undone: int | None


def _undone(change: Change | PartChange | CutChange | StockChange) -> _Undone:
    return {"old_undone": change.old_undone or None, "new_undone": change.new_undone or None}


def _told(made: _Made | None, tell: Callable[[_Made], _Data]) -> _Data | None:
    return None if made is None else tell(made)


def _feature(made: Feature) -> FeatureData:
    return feature_data(made, "")


def _line(item: Worked) -> LineData:
    return line_data(item, ())
