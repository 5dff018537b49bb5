"""A sheet as one plain object for JSON, exact rationals as text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, TypedDict, cast

from fractions_shop.language.notes import doubts_of
from fractions_shop.requests import data
from fractions_shop.requests.data import SCHEMA, AnswerData, FaultData, encode
from fractions_shop.requests.place_data import PlaceData, by_axis
from fractions_shop.sheet.check_causes import Feed
from fractions_shop.sheet.doubts import Doubt
from fractions_shop.sheet.lacking import lacking
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.revisions import Revision
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.verdict import Verdict
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.show.feature_data import FeatureData, SeesData, features_data
from fractions_shop.show.place_table import named_places
from fractions_shop.show.size_table import why_undone
from fractions_shop.show.stock_data import StockData, ToBuyData, ToolData, tool_data
from fractions_shop.show.stock_data import stock as stock_data
from fractions_shop.show.stock_data import to_buy as to_buy_data
from fractions_shop.show.verdict import verdict_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value

_OfWords = Literal["title", "note"]
_OfStatement = Literal["answered", "holds", "fails", "fault", "waits"]
NOTHING_CUT: Mapping[int, FeatureData] = {}


class WaitData(TypedDict):
    """A name, `ans` or `the rule`, and the line that should give it."""

    name: str
    line: int


class FeedData(TypedDict):
    """A size that feeds a failed check.

    Moved by `step`, it moves the check's difference by `moves`; changed by `closes` alone, it
    makes the check hold.
    """

    name: str
    line: int
    value: Value
    step: Value
    moves: Value | None
    closes: Value | None
    least: Value | None
    reach: Value | None


class PartData(TypedDict):
    """A part to make; `note` is what its line says behind its semicolon, `notes` how its sizes were read.

    `section` is empty for flat stock, else round, hex, square or tube, and `size_names` says what each size
    is of it; `bought` has the name by which a size is bought, or nothing; `figures` what the names in square
    brackets of the note stand for; `sees` the lines where the places that it draws on are set out.
    """

    part: str
    how_many: int
    material: str
    sizes: tuple[Value, ...]
    note: str
    notes: list[str]
    doubts: list[str]
    section: str
    size_names: list[str]
    bought: list[str]
    figures: list[FigureData]
    sees: list[SeesData]


class FigureData(TypedDict):
    """What a name in a note stands for; the value is null for places, which are set out in `line`."""

    name: str
    line: int
    value: Value | None
    doubtful: bool


class UndonePartData(TypedDict):
    """A part that was not worked out, as far as its line could be read."""

    part: str
    how_many: None
    material: str | None
    sizes: None
    note: str | None
    notes: list[str]
    doubts: list[str]
    fault: str


class DoubtData(TypedDict):
    """A size that may well be another: of a reading with its odds, so many to one on it; of a form as noted."""

    name: str
    line: int
    odds: float | None
    notes: list[str]


class IncompleteData(TypedDict):
    """A part that lacks what `lines` would cut in it, since they could not be worked out."""

    part: str
    lines: list[int]


class BelievedData(TypedDict):
    """A size taken from a reading that is settled only on a `belief` that nobody said: `if it is inch work`."""

    name: str
    line: int
    belief: str


class MovedData(TypedDict):
    """A size that is the space of a divide whose total had to move, by `change`."""

    name: str
    line: int
    asked: Quantity
    change: Quantity


class NamedPlacesData(TypedDict):
    """Places that are named: the `rule` they are read on, and each of them by its axes."""

    line: int
    rule: Rule
    points: tuple[PlaceData, ...]


class WordsData(TypedDict):
    """A title or a note."""

    line: int
    state: _OfWords
    words: str


class RevisionData(TypedDict):
    """A revision: its letter or number, what changed, the date if one is given, and its line."""

    revision: str
    what: str
    date: str
    line: int


class RevisionLineData(TypedDict):
    """A line that tells of a revision; `comment` is what stands behind its #."""

    line: int
    state: Literal["revision"]
    revision: str
    what: str
    date: str
    comment: str


class StatementData(TypedDict):
    """A statement or a part line, and how it went."""

    line: int
    state: _OfStatement
    statement: str
    comment: str
    working_rule: str


class AnsweredData(StatementData):
    """A statement and its answer."""

    answer: AnswerData


class FailedData(StatementData):
    """A check that failed, and the sizes that feed it."""

    answer: AnswerData
    feeds: list[FeedData]


class MadeData(StatementData):
    """A part line and its part."""

    part: PartData


class CutData(StatementData):
    """A line that cuts in a part, and what it cuts."""

    feature: FeatureData


class StockedData(StatementData):
    """A stock line and what is cut from it."""

    stock: StockData


class AtFaultData(StatementData):
    """A statement, part or stock line that could not be worked out."""

    fault: FaultData


class WaitingData(StatementData):
    """A line that waits for others, which are at fault."""

    waits: list[WaitData]


LineData = (
    WordsData
    | RevisionLineData
    | AnsweredData
    | FailedData
    | MadeData
    | CutData
    | StockedData
    | AtFaultData
    | WaitingData
)


class SheetData(TypedDict):
    """What `fractions-shop sheet FILE --to json` and Sheet.to_data() give."""

    schema: Literal[1]
    kind: Literal["sheet"]
    title: str
    revision: str | None
    revisions: list[RevisionData]
    ok: bool
    verdict: str
    counts: Verdict
    sizes: dict[str, Value]
    places: dict[str, NamedPlacesData]
    parts: list[PartData | UndonePartData]
    features: list[FeatureData]
    stock: list[StockData]
    to_buy: ToBuyData
    tools: list[ToolData]
    doubtful: list[DoubtData]
    moved: list[MovedData]
    believed: list[BelievedData]
    incomplete: list[IncompleteData]
    resting: list[int]
    resting_on_moved: list[int]
    resting_on_belief: list[int]
    lines: list[LineData]


def sheet_data(sheet: WorkedSheet, *, in_turn: bool = False) -> SheetData:
    """The whole sheet; `in_turn` for one that is written once, whose lines are made as they are written.

    `lines` has every line that is not blank; `sizes`, `places` and `parts` pick from it.

    `ok` is false when a check fails, a line is at fault, or one waits; `counts` is the
    verdict in numbers. `doubtful` has the sizes that may well be others, `moved` the spaces
    of totals that had to move, `believed` the sizes settled only on what nobody said, `incomplete`
    the parts that lack what a line at fault would cut in them; `resting`,
    `resting_on_moved` and `resting_on_belief` are the lines that draw on them.
    """
    worked, feeds, doubts = sheet.worked, sheet.feeds, sheet.doubts
    cut = features_data(sheet)
    lines = (
        line_data(w, feeds.get(w.line.number, ()), cut)
        for w in worked
        if w.line.kind != "blank" and not (w.line.also and w.fault is None)
    )
    return {
        "schema": SCHEMA,
        "kind": "sheet",
        "title": sheet.title,
        "revision": None if sheet.revision is None else sheet.revision.label,
        "revisions": [revision_data(revision) for revision in sheet.revisions],
        "ok": sheet.ok,
        "verdict": verdict_text(sheet.verdict),
        "counts": encode(sheet.verdict),
        "sizes": {name: encode(value) for name, value in sheet.sizes.items()},
        "places": dict(_places(item.line.sets, item) for item in worked if named_places(item) is not None),
        "parts": [_listed_part(w) for w in worked if w.line.kind == "part"],
        "features": list(cut.values()),
        "stock": [stock_data(item) for item in sheet.to_buy.stock],
        "to_buy": to_buy_data(sheet.to_buy),
        "tools": [tool_data(tool) for tool in sheet.tools],
        "doubtful": [_doubt(doubt) for doubt in doubts.readings],
        "moved": [
            {"name": m.name, "line": m.line, "asked": encode(m.asked), "change": encode(m.change)}
            for m in doubts.moved
        ],
        "believed": [{"name": b.name, "line": b.line, "belief": b.said} for b in doubts.believed],
        "incomplete": _incomplete(worked),
        "resting": sorted(doubts.resting),
        "resting_on_moved": sorted(doubts.on_moved),
        "resting_on_belief": sorted(doubts.on_belief),
        "lines": data.InTurn(lines) if in_turn else list(lines),
    }


def _incomplete(worked: Sequence[Worked]) -> list[IncompleteData]:
    lacks = lacking(worked)
    lines_of = {item.part.name: lacks.of(item.part.name) for item in worked if item.part is not None}
    return [{"part": name, "lines": list(lines)} for name, lines in lines_of.items() if lines]


def _places(name: str, item: Worked) -> tuple[str, NamedPlacesData]:
    named = named_places(item)
    assert named is not None
    points = encode(tuple(map(by_axis, named.points)))
    return name, {"line": item.line.number, "rule": encode(named.rule), "points": points}


def line_data(item: Worked, feeds: Sequence[Feed], cut: Mapping[int, FeatureData] = NOTHING_CUT) -> LineData:
    """One line: its number and state, and under `answer`, `part`, `feature`, `fault` or `waits` what came of it."""
    line = item.line
    if line.revision is not None and item.fault is None:
        return {**revision_data(line.revision), "state": "revision", "comment": line.words}
    if not line.works and item.fault is None:
        return {"line": line.number, "state": cast("_OfWords", item.state), "words": line.words}
    said: StatementData = {
        "line": line.number, "state": cast("_OfStatement", item.state),
        "statement": line.statement, "comment": line.words, "working_rule": item.rule.name,
    }  # fmt: skip
    if item.fault is not None:
        return {**said, "fault": data.fault(item.fault)}
    if item.waits:
        return {**said, "waits": [{"name": wait.name, "line": wait.line} for wait in item.waits]}
    if item.part is not None:
        return {**said, "part": part(item.part)}
    if item.feature is not None:
        return {**said, "feature": cut[line.number]}
    if item.stock is not None:
        return {**said, "stock": stock_data(item)}
    assert item.answer is not None, "a line that works has come to something"
    if item.state == "fails":
        return {**said, "answer": item.answer.data(), "feeds": [_feed(feed) for feed in feeds]}
    return {**said, "answer": item.answer.data()}


def revision_data(revision: Revision) -> RevisionData:
    """A revision, as an object."""
    return {"revision": revision.label, "what": revision.words, "date": revision.date, "line": revision.line}


def part(part: Part) -> PartData:
    """A part to make, as an object."""
    return {
        "part": part.name, "how_many": part.count, "material": part.material,
        "sizes": encode(part.sizes), "note": part.note,
        "notes": [note.text for note in part.notes],
        "doubts": [note.text for note in doubts_of(part.notes)],
        "section": part.section, "size_names": list(part.size_names), "bought": list(part.bought),
        "figures": [
            {"name": f.name, "line": f.line, "value": encode(f.value), "doubtful": f.doubtful} for f in part.figures
        ],
        "sees": [{"name": name, "line": line} for name, line in part.sees],
    }  # fmt: skip


def _listed_part(item: Worked) -> PartData | UndonePartData:
    """A part of the sheet's list; one that was not worked out has a `fault` and nulls for its figures."""
    if item.part is not None:
        return part(item.part)
    form = item.line.part
    return {
        "part": item.line.part_name, "how_many": None, "material": form.material if form else None, "sizes": None,
        "note": form.note if form else None, "notes": [], "doubts": [], "fault": why_undone(item),
    }  # fmt: skip


def _doubt(doubt: Doubt) -> DoubtData:
    odds = None if doubt.odds is None else encode(doubt.odds)
    return {
        "name": doubt.name,
        "line": doubt.line,
        "odds": odds,
        "notes": [note.text for note in doubt.notes],
    }


def _feed(feed: Feed) -> FeedData:
    return {
        "name": feed.name, "line": feed.line, "value": encode(feed.value), "step": encode(feed.step),
        "moves": encode(feed.moves), "closes": encode(feed.closes), "least": encode(feed.least), "reach": encode(feed.reach),
    }  # fmt: skip
