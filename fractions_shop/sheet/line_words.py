"""The lines of a sheet that are no statements: one row for each, which help, offers and slips of the hand are made from."""

from __future__ import annotations

from typing import NamedTuple

from fractions_shop.requests.help import Topic
from fractions_shop.sheet.feature_lines import EXAMPLES


class LineWord(NamedTuple):
    """What a line begins with, what it is in a few words, ways to write it, an example, and what else there is to know."""

    word: str
    summary: str
    forms: tuple[str, ...]
    example: str
    more: tuple[str, ...] = ()

    @property
    def is_word(self) -> bool:
        """Whether it is a word that can be typed wrongly, and no sign."""
        return self.word.isalpha()


#: In the order in which help tells of them.
LINE_WORDS = (
    LineWord(
        "part",
        "what is to be made or bought, how many, of what, to which sizes",
        ("part NAME: HOW MANY [of MATERIAL][, SIZE by SIZE by SIZE][; NOTE]",
         "part NAME: HOW MANY, round DIAMETER by LENGTH (or hex, square, tube)"),
        "part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge",
        ("[NAME] in the note stands for the size of that name",),
    ),
    LineWord(
        "stock",
        "what the parts of a sheet are cut from: bars laid out, and how many to buy; sheet material is reckoned by its area alone",
        ("stock MATERIAL: SECTION, SIZE long, saw SIZE", "stock MATERIAL: sheet THICKNESS, WIDTH by LENGTH"),
        "stock brass: round 1/4 in, 36 in long, saw 1/32 in",
    ),
    LineWord(
        "hole",
        "a hole in a part, and where: through, deep or sunk",
        ("hole in PART: SIZE at PLACES [from X, Y] [deep SIZE] [sunk SIZE[, ANGLE]]",),
        EXAMPLES["hole"],
        ("SIZE may be a drill, tapping or clearance of a thread; without deep it goes through",
         "PLACES are a name, what places takes, or a bolt circle, from the lower left corner of the face"),
    ),
    LineWord(
        "slot",
        "a slot in a part, and where",
        ("slot in PART: LENGTH by WIDTH at PLACES [from X, Y] [turned ANGLE] [deep SIZE] [square]",),
        EXAMPLES["slot"],
        ("its length is over all; its ends are round, or its corners square: an opening, a mortise",),
    ),
    LineWord(
        "notch",
        "a notch in the edge of a part, and where",
        ("notch in PART: WIDTH by DEPTH at DISTANCES along left|right|lower|upper edge",),
        EXAMPLES["notch"],
        ("its width lies along the edge, and its middle at the distance, counted from the lower left corner",
         "one that ends where the edge does takes off the corner: a tenon, a half lap"),
    ),
    LineWord("corner", "the radius of a part's corners", ("corner in PART: RADIUS",), EXAMPLES["corner"]),
    LineWord("wall", "the least that may be left between what is cut in a part", ("wall in PART: LEAST",), EXAMPLES["wall"]),
    LineWord("rev", "a revision of the sheet, told in its title and on every picture; the newest stands", ("rev B: WHAT CHANGED", "rev B, DATE: WHAT CHANGED"), "rev B: lip raised 1/32 in"),
    LineWord("##", "a title", ("## TITLE",), "## Drawer front"),
    LineWord("#", "a note", ("# NOTE",), "# fitted dry"),
)  # fmt: skip


def line_words() -> dict[str, str]:
    """What each line begins with, and what it is in a few words."""
    return {line.word: line.summary for line in LINE_WORDS}


def line_forms() -> dict[str, tuple[str, ...]]:
    """How each line that begins with a word is written."""
    return {line.word: line.forms for line in LINE_WORDS if line.is_word}


def topic(word: str) -> Topic | None:
    """What help tells of a line that begins with `word`; None for another word."""
    line = next((row for row in LINE_WORDS if row.word == word.lower()), None)
    if line is None:
        return None
    return Topic(line.word, line.summary, line.forms, more=(f"such as {line.example}", *line.more))
