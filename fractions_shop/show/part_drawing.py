"""A part as a dimensioned drawing in third-angle projection, to a named scale, with a table of what is cut in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from fractions_shop.figures.drawing import Drawing, NotDrawn
from fractions_shop.figures.paper import A4, PaperSize, turned
from fractions_shop.layout.features import datum_words
from fractions_shop.sheet.cut_parts import CutPart
from fractions_shop.show.cut_shapes import corner_target, targets
from fractions_shop.show.drawing_sheets import FULL_SIZE, SCALES, STANDARD, DrawingSheets, scale_name
from fractions_shop.show.feature_table import feature_words
from fractions_shop.show.hole_table import HoleTable, rows_of
from fractions_shop.show.part_table import part_note, part_sizes
from fractions_shop.show.part_views import Views
from fractions_shop.show.title_block import TitleBlock, Titles
from fractions_shop.size.limits import Limits

PROJECTION = f"third-angle projection, {STANDARD}"


def part_drawings(
    cut: CutPart, titles: Titles, paper: PaperSize = A4, before: str = ""
) -> tuple[Drawing, ...] | NotDrawn:
    """The drawing of a part with all that is cut in it, on more than one sheet where its table takes more.

    `before` stands before its title. None for flat stock with one size, and why not for a part too large. Sizes with limits
    are drawn at one size that lies within them; the figures tell the limits.
    """
    if len(cut.part.sizes) < (1 if cut.part.section else 2):
        return ()
    made = _largest(cut, titles, paper, before)
    if made is None:
        return NotDrawn(f"no drawing is made of {cut.part.name}: it has no room at {scale_name(SCALES[-1])}")
    larger = _larger_if_turned(cut, titles, paper, before, made.block.scale)
    with_note = replace(made, notes=(*made.notes, larger)) if larger else made
    return (with_note if with_note.fits else made).drawn()


def _largest(cut: CutPart, titles: Titles, paper: PaperSize, before: str) -> DrawingSheets | None:
    """The drawing at the largest scale that has room, without running dimensions only if it must be."""
    table = HoleTable(rows_of(cut))
    for with_running, scale in product((True, False), SCALES):
        made = _sheets(cut, Views(cut, scale, with_running), titles, paper, before, table)
        if made.fits:
            return made
    return None


def _larger_if_turned(cut: CutPart, titles: Titles, paper: PaperSize, before: str, scale: str) -> str:
    """That paper lying the other way takes a larger drawing; empty where it does not."""
    if scale == FULL_SIZE:
        return ""
    lying = _largest(cut, titles, turned(paper), before)
    names = [scale_name(each) for each in SCALES]
    if lying is None or names.index(lying.block.scale) >= names.index(scale):
        return ""
    way = "upright, without --landscape," if paper.landscape else "with --landscape"
    return f"{way} it is drawn at {lying.block.scale}"


def _sheets(
    cut: CutPart, views: Views, titles: Titles, paper: PaperSize, before: str, table: HoleTable
) -> DrawingSheets:
    part = cut.part
    made = f"{part.count} of {part.material}" if part.material else str(part.count)
    block = TitleBlock(titles, part.name, made, scale_name(views.scale))

    lettered = targets(cut, views.on)
    if views.corner:
        lettered.append(corner_target(views.left, views.top, views.corner))
    return DrawingSheets(
        block, before, _in_words(cut, views, block, before), paper, views.right, views.line, views.drawn, lettered,
        table, tuple(_notes(cut, views, block)),
    )  # fmt: skip


def _notes(cut: CutPart, views: Views, block: TitleBlock) -> Iterator[str]:
    """What stands beneath the bar: first what the part's own line asks for beside its sizes, such as a bevel."""
    if note := part_note(cut.part):
        yield f"{cut.part.name}: {note}"
    yield PROJECTION
    if views.scale != 1:
        yield f"drawn at {block.scale}; the bar checks the print, not the scale"
    sizes = (*cut.part.sizes, *(size for _, feature in cut.features for size in feature.sizes))
    if any(isinstance(size, Limits) for size in sizes):
        yield "a size with limits is drawn at one that lies within them"
    if not cut.cuts:
        return
    assert cut.face is not None
    yield f"across and up are counted from {datum_words(cut.face.from_centre)}, in the small circle"
    if cut.has_one_face:
        yield "what is deep or sunk is cut from the face that is shown"
    if views.length is not None:
        # ISO 128 leaves hidden outlines out where another view and the figures tell all.
        yield "what is cut is shown in the face alone: how deep it goes stands in the table"
    running = ("across", views.running_across), ("up", views.running_up)
    for way, figures in running:
        if figures.too_many:
            yield f"there are too many places {way} to dimension here: the table has them all"


def _in_words(cut: CutPart, views: Views, block: TitleBlock, before: str) -> str:
    seen = "its face" if views.length is None else "its end and its side"
    cuts = "".join(f"; {feature_words(feature)}" for _, feature in cut.features if feature.word != "wall")
    note = f"; {part_note(cut.part)}" if cut.part.note else ""
    return (
        f"{before}Drawing of {block.name}, {block.made}, {PROJECTION}, scale {block.scale}: "
        f"{seen}, {part_sizes(cut.part)}{cuts}{note}."
    )
