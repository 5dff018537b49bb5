"""The grammar worked out into tables: as they were written down, or anew where its files have changed."""

from __future__ import annotations

import os.path
import zlib
from functools import cache

from fractions_shop.language.scanner import Spelling, Tables

#: The files of the grammar.
FILES = ("shop.lark", "sizes.lark", "named.lark")


@cache
def tables() -> Tables:
    """The grammar worked out: as it was written down, or anew where its files have changed since."""
    from fractions_shop.language import parse_tables

    folder = grammar_folder()
    if checksum(folder) != parse_tables.CRC:
        from fractions_shop.language.lark_tables import worked_out

        return worked_out(folder)
    return Tables(
        parse_tables.TERMINALS, parse_tables.WORDS, parse_tables.WORDS_AFTER, parse_tables.BEGINS, tuple(Spelling(*each) for each in parse_tables.SPELLINGS), parse_tables.IGNORED, parse_tables.STATES, parse_tables.RULES,
        parse_tables.START, parse_tables.END,
    )  # fmt: skip


@cache
def openers_or_names() -> dict[str, str]:
    """The words that open a request only before something of their own, and are names elsewhere, by their terminals.

    Such a terminal is called as its word, and its pattern is the word with `(?! *(?:` and what may follow a name.
    """
    patterns = tables().terminals
    return {
        kind: kind.lower()
        for kind in tables().states[tables().start]
        if patterns.get(kind, "").startswith(rf"(?i:{kind.lower()}\b(?! *(?:")
    }


def checksum(folder: str) -> int:
    """A number that changes with any of the grammar's files."""
    crc = 0
    for name in FILES:
        with open(os.path.join(folder, name), "rb") as file:
            crc = zlib.crc32(file.read(), crc)
    return crc


def grammar_folder() -> str:
    """In an installed package the grammar lies inside it; in a checkout it lies beside it."""
    package = os.path.dirname(os.path.dirname(__file__))
    inside = os.path.join(package, "grammar")
    return inside if os.path.isdir(inside) else os.path.join(os.path.dirname(package), "grammar")
