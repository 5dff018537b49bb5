"""The pictures of one line of a sheet, and the word of trust that each bears.

A picture may be cut out and used alone, so what its sizes rest on stands before its title.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from fractions_shop.figures.drawing import Drawing, NotDrawn
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.language.notes import Note
from fractions_shop.sheet.cut_parts import CutPart
from fractions_shop.sheet.lacking import Lacking
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.revisions import with_revision
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.bar_picture import bar_pictures
from fractions_shop.show.crown_drawing import crown_drawings
from fractions_shop.show.part_drawing import part_drawings
from fractions_shop.show.title_block import NO_TITLES, Titles
from fractions_shop.size.standing import in_words, is_sound, worst

#: What stands before the title of a picture whose sizes may not be the ones meant.
DOUBTFUL = "DOUBTFUL, see the sheet: "
#: The same where they rest on figures of tables that need a word, and where it is not one word for all.
BELIEVED = "RESTS ON A BELIEF, see the sheet: "
RESTING, NOT_ALL_PRINTED = "{}, see the sheet: ", "not all figures are printed ones"


@dataclass(frozen=True, slots=True)
class PicturesFor:
    """What pictures are drawn for: the paper, and the sheet whose name and `revision` they bear.

    A picture may be cut out and used alone, so one of a line that is `doubtful`, or rests on what is
    `believed` of a reading, says so itself; so does that of a part that is `lacking` what a line at fault cuts.
    """

    paper: PaperSize = A4
    sheet: str = ""
    doubtful: frozenset[int] = frozenset()
    revision: str = ""
    titles: Titles = NO_TITLES
    cut_parts: Mapping[str, CutPart] = field(default_factory=dict)
    believed: frozenset[int] = frozenset()
    lacking: Lacking = field(default_factory=Lacking)

    def before(self, item: Worked) -> str:
        """What stands before the titles of a line's pictures, for its own sizes and for all that is cut in a part."""
        lacks = "" if item.part is None else self.lacking.said_of(item.part.name)
        said = RESTING.format(lacks) if lacks else ""
        cut = None if item.part is None else self.cut_parts.get(item.part.name)
        lines = {item.line.number, *(line for line, _ in (cut.features if cut else ()))}
        if lines & self.doubtful:
            return said + DOUBTFUL
        return said + (BELIEVED if lines & self.believed else "")


FOR_A4 = PicturesFor()


def _trust(item: Worked) -> str:
    """What stands before a picture's title where figures of tables went into it that need a word."""
    if item.part is not None:
        return _trust_of(item.part.sizes, item.notes)
    if item.stock is not None:
        measures = (*item.stock.sizes, *item.stock.measures, *(piece.size for piece in item.stock.pieces))
        return _trust_of(measures, item.notes)
    if item.value is not None:
        return _trust_of((item.value,), item.notes)
    # of several sizes, such as those of a fit
    return _trust_of(() if item.answer is None else (item.answer.result,), item.notes)


def _trust_of(sizes: Iterable[object], notes: Iterable[Note]) -> str:
    standing = worst(sizes)
    if not is_sound(standing):
        return RESTING.format(in_words(standing))
    return RESTING.format(NOT_ALL_PRINTED) if any(note.kind == "standing" for note in notes) else ""


def _part_pictures(part: Part, most: int, wanted: PicturesFor, before: str) -> tuple[Drawing, ...] | NotDrawn:
    """The drawings of a part with what is cut in it; one of these may rest on figures that its own line does not."""
    cut = wanted.cut_parts.get(part.name)
    if cut is None or most <= 0:
        return ()
    if not before:
        before = _trust_of(
            [size for _, feature in cut.features for size in feature.sizes],
            [note for _, feature in cut.features for note in feature.notes],
        )  # fmt: skip
    drawn = part_drawings(cut, wanted.titles, wanted.paper, before)
    return drawn if isinstance(drawn, NotDrawn) or len(drawn) <= most else ()


def pictures_of(item: Worked, most: int | None, wanted: PicturesFor) -> tuple[Drawing, ...] | NotDrawn:
    """The drawings of an answer, as its room draws them, titled by its name or else by what was asked."""
    if most is None:
        return ()
    before = f"{wanted.before(item)}{_trust(item)}"
    if item.part is not None:
        return _part_pictures(item.part, most, wanted, before)
    if item.stock is not None:
        return bar_pictures(item.stock, with_revision(wanted.sheet, wanted.revision), wanted.paper, before)[
            : max(most, 0)
        ]
    if item.answer is None or item.answer.room.pictures is None:
        return ()
    too_many = NotDrawn("no picture is drawn here: the sheet has more of them than one page takes")
    if most <= 0:
        return too_many
    name, result = item.answer.name or item.line.statement, item.answer.result
    drawn = item.answer.room.pictures(result, with_revision(f"{before}{name}", wanted.revision), wanted.paper)
    if item.answer.room.crown is not None:
        crown = item.answer.room.crown(result)
        drawn = _together(crown_drawings(crown, name, wanted.titles, wanted.paper, before), drawn)
    return too_many if not isinstance(drawn, NotDrawn) and len(drawn) > most else drawn


def _together(*drawn: tuple[Drawing, ...] | NotDrawn) -> tuple[Drawing, ...] | NotDrawn:
    """The pictures of one answer; why there is none, if there is none."""
    pictures = tuple(picture for each in drawn if not isinstance(each, NotDrawn) for picture in each)
    return pictures or drawn[0]
