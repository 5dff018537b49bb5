"""The words that makers say of a side, and how its size is written: plain text, for patterns that are made where they are needed."""

from __future__ import annotations

from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS
from fractions_shop.tables.patterns import GAUGE_WORDS
from fractions_shop.threads.records import WORDS

#: A number as it is written; a run of more figures than this is none, and would take long to look through.
NUMBER = (
    r"(?:(?:[0-9]{1,6}(?:[ ]{1,3}|-))?[0-9]{1,6}/[0-9]{1,6}|[0-9]{0,9}\.?[0-9]{1,12}"
    rf"|(?:[0-9]{{1,6}}[ -]?)?[{GLYPHS}])"
)
UNIT = rf"(?:{units.alternatives('in', 'mm', 'ft', 'thou', 'cm')})"
#: A size with its unit, whose word may be shortened.
SIZE = rf"{NUMBER}\s*(?:{UNIT}\b\.?|[\"'″′])"
#: The names of thread series and of gauges that are one word, as their own tables have them.
SERIES = sorted((word for word in WORDS if word.isalpha() and word[0].isupper()), key=len, reverse=True)
GAUGES = sorted((word for word in GAUGE_WORDS if word.isalpha() and word.isupper()), key=len, reverse=True)
_NAMED = "|".join(SERIES)
THREAD = (
    rf"(?:(?:No\.?\s*)?[0-9]{{1,2}}\s*(?:{_NAMED})|M[0-9]+(?:\.[0-9])?(?:\s*x\s*[0-9.]+)?"
    rf"|[0-9]+/[0-9]+\s*(?:{_NAMED}))(?![A-Za-z])"
)
#: What may end the name of a thread or a gauge.
SERIES_OR_GAUGE = "|".join((*GAUGES, *SERIES))
#: What is said of a side, by the words for it.
_SAID = {
    "thick": "thick thk thickness", "wide": "wide width", "long": "long lg length lengths", "deep": "deep depth",
    "high": "high height", "round": "dia diam diameter round rod", "hex": "hex hexagon hexagonal af flats",
    "square": "square sq", "tube": "tube tubing", "outside": "od", "bore": "id bore", "wall": "wall",
}  # fmt: skip
SAID_BY = {word: said for said, words in _SAID.items() for word in words.split()}
#: The letters of a drawing for thickness, width and length.
_LETTERS = {"T": "thick", "W": "wide", "L": "long"}
#: The shapes that a section may have, by what is said of its sides.
SHAPES = frozenset({"round", "hex", "square", "tube", "outside", "bore", "wall"})


def known_word(word: str) -> str | None:
    """What a word says of a side, such as thick, round or bore; None for another word."""
    return _LETTERS.get(word) or SAID_BY.get(word.lower().replace(".", "").replace("/", ""))
