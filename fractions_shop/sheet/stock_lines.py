"""Stock lines: what the parts of a material are cut from.

`stock MATERIAL: SECTION, LENGTH long[, saw WIDTH][; NOTE]` for bars, SECTION being what a part line says
before its length (`1/16 in by 1/4 in`, `round 1/4 in`, `tube 1/2 in by bore 3/8 in`);
`stock MATERIAL: sheet [THICKNESS][, WIDTH by LENGTH][; NOTE]` for sheets.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import write
from fractions_shop.language.nodes import Node, ShownExpression
from fractions_shop.language.parser import refuse_long
from fractions_shop.sheet.habits import stock_means
from fractions_shop.sheet.part_lines import (
    COMMA,
    SECTIONS,
    UNIT_ADVICE,
    expression,
    outside_brackets,
    section_and_sizes,
)
from fractions_shop.sheet.part_losses import lost
from fractions_shop.sheet.whole_lines import Habits
from fractions_shop.size.notation import as_meant

ADVICE = "write it like this: stock brass: round 1/4 in, 36 in long, saw 1/32 in"
SHEET_SO = "a sheet says so: stock brass: sheet 1/16 in, 12 in by 24 in"
SHEET_ADVICE = "write it like this: stock brass: sheet 1/16 in, 12 in by 24 in"
STOCK_HABITS = Habits(
    stock_means, frozenset({ADVICE, SHEET_ADVICE, SHEET_SO, UNIT_ADVICE}), lambda line: ADVICE
)
#: A size that is called stock stands before these, and no material does.
_BEGINS = re.compile(
    r"stock\s+(?!(?:as|reads|of|is|clears)\b)[^\W\d_][^:=#]*(?::|\blong\b)|stock\s*:", re.IGNORECASE
)
_MATERIAL = re.compile(r"\s*stock\b([^:;,#]*)", re.IGNORECASE)
_SHEET = re.compile(r"\s*sheet\b\s*", re.IGNORECASE)
_LONG = re.compile(r"\blong\s*$", re.IGNORECASE)
#: What is said of a length in place of long.
_LENGTHS = r"\s+(?:lengths?|lg|bars?|each)\.?$"
_SAW = re.compile(r"\s*saw(?=\s|$)", re.IGNORECASE)
#: `kerf 1/32 in`, `1/32 in kerf`, `saw cut 1/32 in`.
_KERF = re.compile(
    r"\s*(?:(?:saw\s+)?(?:kerf|cut)s?\s+(?:of\s+)?(?P<behind>[0-9.].*)|(?P<before>[0-9.].*?)\s+(?:saw\s+)?(?:kerf|cut|saw)s?\s*)$",
    re.IGNORECASE,
)
_BY = re.compile(r"\sby(?=\s|$)", re.IGNORECASE)
#: So many sizes the section of a bar has.
SECTION_SIZES = {"": 2, **{shape: len(sizes) - 1 for shape, sizes in SECTIONS.items()}}


@dataclass(frozen=True, slots=True)
class StockForm:
    """A stock line as read, its sizes still to be worked out.

    `section` is sheet, or a bar's shape: empty for flat stock, else round, hex, square or tube. `sizes` are those of
    the section, or a sheet's thickness if said; `measures` a bar's length, or a sheet's width and length if said.
    """

    material: str
    section: str
    sizes: tuple[ShownExpression, ...]
    measures: tuple[ShownExpression, ...]
    saw: ShownExpression | None = None
    note: str = ""
    said: str = ""

    @property
    def nodes(self) -> tuple[Node, ...]:
        """All that it is worked out from."""
        return (*self.sizes, *self.measures, *((self.saw,) if self.saw is not None else ()))


def begins_a_stock(meant: str) -> bool:
    """Whether a line is a stock line, well formed or not; `stock = 2 in` and `stock / 2` are not."""
    return _BEGINS.match(meant) is not None


def material_of(text: str) -> str:
    """The material of a stock line, well formed or not."""
    match = _MATERIAL.match(as_meant(text))
    return " ".join(text[slice(*match.span(1))].split()) if match else ""


def read_stock(text: str) -> StockForm:
    """The form of a stock line; InputError, with the place, when it is not one."""
    refuse_long(text, "shorten the note")
    meant = as_meant(text.rstrip())
    start = len(meant) - len(meant.lstrip()) + len("stock")
    colon = meant.find(":")
    if colon < 0:
        raise InputError("a stock line needs a colon after the material", text, start, len(meant), ADVICE)
    material = " ".join(text[start:colon].split())
    if not material:
        raise InputError("a stock line names its material, before the colon", text, colon, colon + 1, ADVICE)
    semicolon = meant.find(";", colon)
    end = len(meant) if semicolon < 0 else semicolon
    note = "" if semicolon < 0 else text[semicolon + 1 :].strip()
    pieces = _pieces(meant, colon + 1, end)
    said = " ".join(text[slice(*pieces[0])].split())
    if _SHEET.match(meant, *pieces[0]):
        return _sheet(text, meant, material, pieces, note, said)
    return _bar(text, meant, material, pieces, note, said)


def _pieces(meant: str, start: int, end: int) -> list[tuple[int, int]]:
    """What stands between the commas that are outside every bracket."""
    commas = [match.start() for match in outside_brackets(meant, COMMA, start, end)]
    cuts = [start - 1, *commas, end]
    return [(left + 1, right) for left, right in pairwise(cuts)]


def _bar(
    text: str, meant: str, material: str, pieces: list[tuple[int, int]], note: str, said: str
) -> StockForm:
    start, end = pieces[0]
    if not meant[start:end].strip():
        raise InputError(
            "a stock line says the section after its colon", text, start, max(end, start + 1), ADVICE
        )
    section, sizes = section_and_sizes(text, meant, start, end)
    if lost_of := lost("", meant[start:end], section, sizes):
        raise InputError(lost_of, text, start, end, ADVICE)
    if len(sizes) != SECTION_SIZES[section]:
        told_by = " and ".join(SECTIONS[section][:-1]) if section else "two sizes, thickness by width"
        raise InputError(
            f"the section of a {section or 'flat'} bar is told by {told_by}", text, start + 1, end,
            SHEET_SO if len(sizes) == 1 and not section else ADVICE,
        )  # fmt: skip
    if len(pieces) < 2:
        raise InputError("a stock line says how long a bar is", text, end, end + 1, ADVICE)
    long_start, long_end = pieces[1]
    word = _LONG.search(meant, long_start, long_end)
    if word is None:
        said = re.sub(_LENGTHS, "", text[:long_end].rstrip(), flags=re.IGNORECASE)
        whole = f"{said} long{text[long_end:].rstrip()}"
        raise InputError(
            "a bar's length is followed by long", text, long_start, long_end, _offered(whole.strip())
        )
    length = expression(text, meant, long_start, word.start(), "the length of a bar", ADVICE)
    saw = None
    if len(pieces) > 2:
        saw_start, saw_end = pieces[2]
        word = _SAW.match(meant, saw_start, saw_end)
        if word is None or len(pieces) > 3:
            place = pieces[2] if word is None else pieces[3]
            kerf = _KERF.match(meant, *place)
            advice = ADVICE
            if kerf is not None:
                cut = kerf["behind"] or kerf["before"]
                advice = _offered(f"{text[: place[0]]} saw {cut.strip()}{text[place[1] :].rstrip()}".strip())
            raise InputError(
                "behind the length a stock line says at most what the saw takes", text, *place, advice
            )
        saw = expression(text, meant, word.end(), saw_end, "what the saw takes", ADVICE)
    return StockForm(material, section, sizes, (length,), saw, note, said)


def _offered(whole: str) -> str:
    """Advice to write a line, where it can be read; else an example."""
    return write(whole) if is_stock(whole) else ADVICE


def is_stock(line: str) -> bool:
    """Whether a line can be read as one of stock."""
    try:
        read_stock(line)
    except InputError:
        return False
    return True


def _sheet(
    text: str, meant: str, material: str, pieces: list[tuple[int, int]], note: str, said: str
) -> StockForm:
    word = _SHEET.match(meant, *pieces[0])
    assert word is not None
    thick: tuple[ShownExpression, ...] = ()
    if meant[word.end() : pieces[0][1]].strip():
        thick = (expression(text, meant, word.end(), pieces[0][1], "the thickness", SHEET_ADVICE),)
    measures: tuple[ShownExpression, ...] = ()
    if len(pieces) > 2:
        raise InputError(
            "a sheet says its thickness, then its width by its length, and no more", text, *pieces[2],
            "sheets are reckoned by area alone, without the saw",
        )  # fmt: skip
    if len(pieces) == 2:
        start, end = pieces[1]
        by = next(outside_brackets(meant, _BY, start, end), None)
        if by is None:
            raise InputError("a sheet is told by its width by its length", text, start, end, SHEET_ADVICE)
        measures = (
            expression(text, meant, start, by.start(), "the width of a sheet", SHEET_ADVICE),
            expression(text, meant, by.end(), end, "the length of a sheet", SHEET_ADVICE),
        )
    return StockForm(material, "sheet", thick, measures, None, note, said)
