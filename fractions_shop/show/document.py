"""A worked sheet as a document: headings, answers, tables and pictures, before any format.

Text, Markdown, the page and the PDF are all written from this, so that none of them can
say anything that the others do not.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.figures.drawing import Drawing, NotDrawn
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.figures.plain import Lines, without_pictures
from fractions_shop.figures.table import Table
from fractions_shop.sheet.check_causes import Feed
from fractions_shop.sheet.front import paragraphs
from fractions_shop.sheet.lacking import incomplete, lacked_by_tools, lacked_to_buy, lacking
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.revisions import with_revision
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.show import (
    doubt_marks,
    feature_table,
    part_table,
    place_table,
    revision_table,
    size_table,
    stock_table,
    tool_table,
)
from fractions_shop.show.line_pictures import FOR_A4, PicturesFor, pictures_of
from fractions_shop.show.title_block import Titles
from fractions_shop.show.verdict import verdict_text
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import told_in
from fractions_shop.size.quantity import Angle


@dataclass(frozen=True, slots=True)
class Listing:
    """A table with a heading; `note` says how to read it, `remarks` what its marks mean.

    `readings` says how forms of one meaning in it were read.
    `lines` has the line that each row is of, where the first cell leads to that, `sees` those that the rows name. `about` is `faults`, or `parts` where it lists what is made, beneath which the drawings stand in print.
    """

    title: str
    table: Table
    note: str = ""
    remarks: tuple[str, ...] = ()
    readings: str = ""
    about: str = ""
    lines: tuple[int, ...] = ()
    sees: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Prose:
    """Neighbouring note lines as one paragraph."""

    words: str


class Step(NamedTuple):
    """One statement with its answer: that of `item`, with what `feeds` it where it is a check that failed.

    `spot` is the place of a fault in `statement`; `pictures` are drawings of the answer, and `shown_with` says
    what they are printed with: `parts`, `strips` that are true to size, or the `working` itself. `undrawn` says
    why there is none where one could be looked for.
    """

    number: int
    statement: str
    comment: str
    item: Worked
    feeds: Sequence[Feed] = ()
    pictures: tuple[Drawing, ...] = ()
    spot: tuple[int, int] | None = None
    shown_with: str = "working"
    undrawn: str | None = None

    @property
    def state(self) -> str:
        """What came of it: answered, holds, fails, fault or waits."""
        return self.item.state

    @property
    def lines(self) -> Lines:
        """Its answer, made when it is written and not kept: those of a long sheet together take much memory."""
        lines = _lines(self.item, self.feeds)
        if self.undrawn is not None:
            return [*lines, self.undrawn]
        return without_pictures(lines) if self.pictures else lines


@dataclass(frozen=True, slots=True)
class Section:
    """A title and what stands under it; the first section of a sheet may have none."""

    title: str
    items: list[Prose | Step] = field(default_factory=list)


#: What heads the drawings of parts and of bars, the strips, and the working, in print.
DRAWINGS, STRIPS, WORKING = "Drawings", "Strips true to size", "The working"


@dataclass(frozen=True, slots=True)
class Document:
    """The whole sheet: what it is called, how it went, its tables, and the working line by line.

    `revision` is the letter or number of the one that stands, or nothing.
    """

    title: str
    revision: str
    notes: tuple[str, ...]
    verdict: str
    ok: bool
    listings: tuple[Listing, ...]
    sections: tuple[Section, ...]

    @property
    def heading(self) -> str:
        """What it is called, with its revision."""
        return with_revision(self.title, self.revision)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every statement, in the order of the sheet."""
        return tuple(item for s in self.sections for item in s.items if isinstance(item, Step))

    @property
    def front_listings(self) -> tuple[Listing, ...]:
        """The lists that come first in print: what is at fault, then the parts; their drawings stand below."""
        return tuple(listing for listing in self.listings if listing.about)

    @property
    def other_listings(self) -> tuple[Listing, ...]:
        """The lists that stand below the drawings."""
        return tuple(listing for listing in self.listings if not listing.about)

    def drawn_with(self, what: str) -> tuple[Step, ...]:
        """The statements whose pictures are printed with the parts, or with the strips."""
        return tuple(step for step in self.steps if step.pictures and step.shown_with == what)

    @property
    def pictures(self) -> tuple[Drawing, ...]:
        """Every drawing, in the order of the sheet."""
        return tuple(drawing for step in self.steps for drawing in step.pictures)

    def pictures_at(self, line: int) -> tuple[Drawing, ...]:
        """The drawings of one line."""
        return tuple(drawing for step in self.steps if step.number == line for drawing in step.pictures)


def document(
    sheet: WorkedSheet, pictures: int | None = None, paper: PaperSize = A4, brief: bool = False
) -> Document:
    """The document of a worked sheet; `pictures` is how many are drawn at most on `paper`, None for a form without them.

    With `brief` lists that are wide have fewer columns, for where lines are short.
    """
    with told_in(sheet.units):
        return _document(sheet, pictures, paper, brief)


def _document(sheet: WorkedSheet, pictures: int | None, paper: PaperSize, brief: bool) -> Document:
    worked, doubts = sheet.worked, sheet.doubts
    checks = size_table.checks(worked, doubts)
    cuts, bought = stock_table.cut_list(worked, doubts), stock_table.buy(sheet.to_buy, doubts)
    needed = tool_table.tool_list(sheet.tools, doubts)
    by_kind = _by_kind(worked)
    uncut = [item for item in worked if item.undone and item.line.kind == "feature"]

    footnotes = doubt_marks.Footnotes(doubts)

    def beneath(title: str, listed: Sequence[Worked], more: tuple[str, ...] = ()) -> dict[str, Any]:
        """What is said beneath the list of these lines."""
        return {
            "remarks": (*more, *footnotes.beneath(title, listed)),
            "readings": doubt_marks.readings(listed),
        }

    listings = [
        Listing("Faults", (size_table.faults_in_brief if brief else size_table.faults)(worked),
                "These lines were not worked out. Begin with the first: what is wrong further down may come of it.", about="faults"),
        Listing("Parts to make", part_table.parts_in_brief(worked, doubts) if brief else part_table.parts(worked, doubts),
                about="parts", lines=part_table.part_numbers(worked), sees=part_table.seen_numbers(worked), **beneath("Parts to make", by_kind["part"])),
        Listing("Holes, openings and corners", (feature_table.features_in_brief if brief else feature_table.features)(sheet.cut_parts, doubts, uncut), feature_table.NOTE,
                about="parts", **beneath("Holes, openings and corners", by_kind["feature"])),
        Listing("Cut list", stock_table.cut_list_in_brief(cuts) if brief else cuts, stock_table.CUT_NOTE, **beneath("Cut list", [w for w in by_kind["stock"] if w.stock is not None and w.stock.cutting is not None], stock_table.cut_remarks(worked))),
        Listing("What to buy", stock_table.buy_in_brief(bought) if brief else bought, remarks=_and_lacking(lacked_to_buy(worked), footnotes.beneath("What to buy", stock_table.bought_lines(sheet.to_buy, worked)))),
        Listing("Drills and taps", tool_table.tools_in_brief(needed) if brief else needed, tool_table.NOTE,
                remarks=_and_lacking(lacked_by_tools(worked), footnotes.beneath("Drills and taps", tool_table.tool_lines(sheet.tools, worked)))),
        Listing("Sizes", size_table.sizes(worked, doubts), size_table.sizes_note(worked), **beneath("Sizes", by_kind["size"])),
        Listing("Places", place_table.places(by_kind["place"], doubts), place_table.NOTE, **beneath("Places", by_kind["place"])),
        Listing("Other figures", size_table.figures(worked, doubts), **beneath("Other figures", by_kind["figure"])),
        Listing("Limits", size_table.limits(worked, doubts), "Sizes must come out between these; they are rounded inward, so "
                "that no part leaves the limits meant (ANSI/IEEE 268; ISO 370, method B).", **beneath("Limits", by_kind["limits"])),
        Listing("Checks", size_table.checks_in_brief(checks) if brief else checks, **beneath("Checks", by_kind["check"])),
        Listing("Revisions", revision_table.revisions(sheet.revisions)),
    ]  # fmt: skip
    label = "" if sheet.revision is None else sheet.revision.label
    wanted = PicturesFor(
        paper,
        sheet.title,
        doubts.doubtful | doubts.of_moved,
        label,
        Titles(sheet.title, sheet.revision),
        sheet.cut_parts,
        doubts.of_belief,
        lacking(worked),
    )
    return Document(
        sheet.title, label, sheet.front.notes, verdict_text(sheet.verdict), sheet.ok,
        tuple(listing for listing in listings if listing.table.rows),
        _sections(worked[sheet.front.length :], sheet.feeds, pictures, wanted),
    )  # fmt: skip


def _and_lacking(lines: tuple[int, ...], remarks: tuple[str, ...]) -> tuple[str, ...]:
    """The remarks beneath a list, before them what it lacks."""
    return (*filter(None, [incomplete(lines)]), *remarks)


def _by_kind(worked: Sequence[Worked]) -> dict[str, list[Worked]]:
    """The lines of each list."""
    listed: dict[str, list[Worked]] = {
        kind: [] for kind in ("part", "feature", "stock", "check", "size", "place", "limits", "figure")
    }
    for item in worked:
        answer = item.answer
        if answer is None:
            for kind in ("part", "feature", "stock"):
                if getattr(item, kind) is not None:
                    listed[kind].append(item)
            continue
        value = answer.value
        if item.check is not None:
            listed["check"].append(item)
        elif not item.line.sets:
            continue
        elif place_table.named_places(item) is not None:
            listed["place"].append(item)
        elif value is not None:
            length = not isinstance(value, Angle) and value.power == 1
            listed["size" if length else "figure"].append(item)
            if length and isinstance(value, Limits):
                listed["limits"].append(item)
    return listed


def _sections(
    worked: Sequence[Worked], feeds: Mapping[int, tuple[Feed, ...]], pictures: int | None, wanted: PicturesFor
) -> tuple[Section, ...]:
    sections = [Section("")]
    pending: list[Line] = []
    for item in worked:
        if item.line.kind == "note":
            pending.append(item.line)
            continue
        if pending:
            sections[-1].items.extend(map(Prose, paragraphs(pending)))
            pending = []
        if item.line.kind == "title" and item.line.words == wanted.sheet and sections == [Section("")]:
            continue  # the sheet's own title, which stands above all
        if item.line.kind == "title":
            sections.append(Section(item.line.words))
        elif item.fault is not None or (item.line.works and not item.line.also):
            step = step_of(item, feeds.get(item.line.number, ()), pictures, wanted)
            pictures = None if pictures is None else pictures - len(step.pictures)
            sections[-1].items.append(step)
    sections[-1].items.extend(map(Prose, paragraphs(pending)))
    return tuple(s for s in sections if s.title or s.items)


def step_of(
    item: Worked, feeds: Sequence[Feed] = (), most: int | None = None, wanted: PicturesFor = FOR_A4
) -> Step:
    """One worked line, in words and in at most so many pictures, if any are asked for."""
    line = item.line
    spot = None
    if item.fault is not None:
        indent = len(line.text) - len(line.text.lstrip())
        spot = (item.fault.start - indent, item.fault.end - indent)
    drawn: tuple[Drawing, ...] | NotDrawn = ()
    if most is not None:
        with told_in(item.units):
            drawn = pictures_of(item, most, wanted)

    if isinstance(drawn, NotDrawn):
        return Step(line.number, line.statement, line.words, item, feeds, (), spot, undrawn=drawn.why)
    shown_with = "working"
    if drawn:
        crown = item.answer is not None and item.answer.room.crown is not None
        with_parts = item.part is not None or item.stock is not None or crown
        shown_with = "parts" if with_parts else "strips" if any(d.true_size for d in drawn) else "working"
    return Step(line.number, line.statement, line.words, item, feeds, drawn, spot, shown_with)


def _lines(item: Worked, feeds: Sequence[Feed]) -> Lines:
    """What a line answers, or why it does not."""
    answer = item.answer
    if answer is not None and answer.ok:
        return answer.lines()  # which knows itself what leads
    with told_in(item.units):
        return _other_lines(item, feeds)


def _other_lines(item: Worked, feeds: Sequence[Feed]) -> Lines:
    if item.fault is not None:
        return fault_lines(item.fault)
    if item.waits:
        return [f"waits for {size_table.waiting(item)}"]
    if item.part is not None:
        return [part_table.part_line(item.part), *(f"note: {note.text}" for note in item.part.notes)]
    if item.feature is not None:
        return [
            *feature_table.feature_lines(item.feature),
            *(f"note: {note.text}" for note in item.feature.notes),
        ]
    if item.stock is not None:
        return [*stock_table.stock_lines(item.stock), *(f"note: {note.text}" for note in item.stock.notes)]
    assert item.answer is not None
    lines = item.answer.lines()
    if item.state == "fails":
        lines += size_table.feed_lines(feeds)
    return lines


def fault_lines(fault: InputError) -> Lines:
    """What is wrong, where, and how to write it."""
    return [f"fault: {fault.message} (column {fault.column})", *([fault.advice] if fault.advice else [])]
