"""The grammar worked out into tables: as they were written down, or anew where its files have changed."""

from __future__ import annotations

import os.path
import zlib
from functools import cache

from fractions_shop.language.lalr import Spelling, Tables

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
