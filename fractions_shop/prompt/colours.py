"""A typed line in colours, from the terminals of the grammar.

No colour says anything by itself: request words and functions are bold, what is no
sign of the language is reversed, and the reading beneath the line says the rest.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

from fractions_shop.language.functions import FUNCTIONS
from fractions_shop.language.parser import MAX_LINE
from fractions_shop.prompt.own_words import own_word
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant

#: A piece of the line and the kind of thing it is.
Piece = tuple[str, str]

#: What a terminal's piece is, where its pattern does not say it: one that begins with letters is a word of
#: the language, any other a sign.
_PARTS = {
    "NUMBER": "number", "FEET_DASH": "number", "FRACTION_NTHS": "number", "NTHS": "unit", "PRIME": "unit", "DPRIME": "unit",
    "DOTTED": "unit", "UNIT_PHRASE": "unit", "OLD_UNIT": "unit", "AREA": "unit", "RAISED_UNIT": "unit", "OF_AN_INCH": "unit",
    "UNIT_LEADS": "unit", "DEGREE": "unit", "PAIR": "number", "THREAD": "hardware", "GAUGE": "hardware",
    "DRILL": "hardware", "COMMENT": "note", "ZONES": "number", "BLANKS": "blank", "RATIO": "number", "PER_FOOT": "unit",
}  # fmt: skip
_WORD_PATTERN = r"\(\?i:[a-z]+\b"
#: Terminals that fit nearly anything, and are only looked for where a request asks for them.
_GREEDY = {"DESIGNATION", "ZONES"}


@cache
def _pattern() -> tuple[re.Pattern[str], dict[str, str]]:
    """Every terminal of the grammar as one pattern, in the order in which it tries them."""
    from fractions_shop.language.grammar_tables import tables  # the first prompt need not wait for it

    known = tables()
    kinds = {
        name: _PARTS.get(name) or ("word" if re.match(_WORD_PATTERN, pattern) else "sign")
        for name, pattern in known.terminals.items()
    } | {"NAME": "name", "WORD": "word"}
    alternatives = []
    for name, pattern in known.terminals.items():
        if name == known.words_after:
            alternatives.append(f"(?P<WORD>(?i:{'|'.join(known.words)})\\b)")
        if name not in _GREEDY:
            alternatives.append(f"(?P<{name}>{pattern})")
    return re.compile("|".join(alternatives)), kinds


@lru_cache(maxsize=256)
def pieces(text: str) -> tuple[Piece, ...]:
    """One typed line as (kind, text) pieces that together are the line again."""
    if len(text) > MAX_LINE:
        return (("name", text),)
    own = own_word(text)
    if own is not None:
        start = len(text) - len(text.lstrip())
        end = start + len(own[0])
        return (("blank", text[:start]), ("word", text[start:end]), ("name", text[end:]))
    pattern, kinds = _pattern()
    meant = as_meant(text)
    cut: list[Piece] = []
    place = 0
    before = ""
    while place < len(text):
        match = pattern.match(meant, place)
        end = match.end() if match and match.end() > place else place + 1
        name = match.lastgroup or "" if match else ""
        kind = kinds.get(name, "odd")
        if kind in ("name", "word"):
            kind = _word_kind(kind, meant[place:end], meant[end:], before)
        cut.append((kind, text[place:end]))
        before = before if kind == "blank" else name
        place = end
    return tuple(cut)


def _word_kind(kind: str, word: str, rest: str, before: str) -> str:
    """What a word is: a request's word, a unit behind a number, a function, or a name."""
    if before == "NUMBER" and units.find(word) is not None:
        return "unit"
    if kind == "name" and (word in FUNCTIONS or rest.lstrip().startswith("(")):
        return "function" if rest.lstrip().startswith("(") else "name"
    return kind
