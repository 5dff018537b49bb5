"""Lines that are no statements at all: titles, sentences and remarks."""

from __future__ import annotations

import re
from collections.abc import Container

from fractions_shop import requests
from fractions_shop.language.advice.bench_words import respelling
from fractions_shop.language.grammar_tables import tables
from fractions_shop.language.written.words import PARTS, WHOLES
from fractions_shop.requests import help as request_help
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant

_WORDS = re.compile(r"[^\W\d_]{2,}")
_OPENS = re.compile(r"\s*([^\W\d]\w*)(?=(\s*[(:])?)")
#: Signs that no note has, and a name with a bare number, as a column of readings has it.
_SUM_SIGN = re.compile(r"[=#+*^]")
_BARE_READING = re.compile(r"\s*[^\W\d]\w*\s+[0-9./ ]+")
_NOTE_BEGUN = re.compile(r"\s*([^\W\d_]{2,}(?=(?:\s+[^\W\d_]+)*\s*:)|[^\W\d_]{2,}\s+[^\W\d_]{2,}\b)")
#: A line that begins with neither a word nor a size that is read is prose with so many words.
_LEAST_WORDS = 3


def is_prose(line: str, names: Container[str] = ()) -> bool:
    """Whether a line that cannot be read is a title, a sentence or a remark, and no statement with a slip in it.

    A statement begins with a name, the word of a request, a function or a figure. `names` are those of the session.
    """
    words = _WORDS.findall(line)
    if not words or _SUM_SIGN.search(line) or respelling(as_meant(line)) is not None:
        return False
    opening = _OPENS.match(line)
    if opening is None:
        return len(words) >= _LEAST_WORDS
    word, behind = opening[1], (opening[2] or "").strip()
    if word in names or (behind == "(" and word.lower() in request_help.functions()):
        return False
    if word.lower() in requests.words():
        # A request is of sizes: one that has none and speaks of nothing that is named is a sentence.
        return len(words) >= 2 and not re.search("[0-9]", line) and not any(each in names for each in words)
    if len(words) == 1 and not behind and line.strip() == word:
        return word.istitle()  # a heading; in small letters it may be a name
    return _BARE_READING.fullmatch(line) is None


def is_a_note(line: str, names: Container[str] = ()) -> bool:
    """Whether a typed line that cannot be read begins as a note does: with a label and a colon, or with two words of no meaning here."""
    begun = _NOTE_BEGUN.match(line)
    return begun is not None and not any(map(_has_a_meaning, begun[1].split())) and is_prose(line, names)


def _has_a_meaning(word: str) -> bool:
    """Whether a word is one of the language, of a unit or a function."""
    small = word.lower()
    if small in ("half", "and", *WHOLES, *PARTS):
        return True
    return small in tables().words or units.find(small) is not None or small in request_help.functions()
