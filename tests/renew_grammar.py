"""Write grammar/named.lark from the patterns of threads, gauges and drills, and the grammar's tables."""

import re
from collections.abc import Iterable
from pathlib import Path

from first_signs import first_signs

from fractions_shop.language.grammar_tables import checksum
from fractions_shop.language.lark_tables import worked_out
from fractions_shop.language.old_units import all_words
from fractions_shop.language.scanner import Tables
from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS
from fractions_shop.tables.patterns import DRILL_PATTERN, GAUGE_PATTERN
from fractions_shop.tables.taper_words import TAPER_ALONE_PATTERN, TAPER_PATTERN
from fractions_shop.threads.names import THREAD_PATTERN

TOP = Path(__file__).parents[1]
HOME = TOP / "grammar" / "named.lark"
TABLES = TOP / "fractions_shop" / "language" / "parse_tables.py"
#: How wide the lines of the module of tables are where a row does not need more.
_WIDTH = 400

TEXT = r"""
// Threads, gauges, drills and tapers as they are written. These are copies of THREAD_PATTERN
// (fractions_shop/threads/names.py), GAUGE_PATTERN and DRILL_PATTERN (fractions_shop/tables/patterns.py),
// TAPER_PATTERN and TAPER_ALONE_PATTERN (fractions_shop/tables/taper_words.py), so that reading a line loads no table. A test holds
// them equal; after a change there, `python tests/renew_grammar.py` writes this file anew.

// The words of units in the rest are made from UNITS (fractions_shop/size/units.py), those of old inches
// and lines from their table (fractions_shop/tables/old_inches.csv).

THREAD.6: /{thread}/
GAUGE.6: /{gauge}/
DRILL.6: /{drill}/
TAPER_NAMED.6: /{taper}/
TAPER_ALONE.7: /{taper_alone}/
AREA.4: /(?:{powers})\b\.? *(?:{lengths})\b\.?/i
RAISED_UNIT.4: /(?:{lengths})[{signs}]/i
DOTTED.4: /(?:{dotted})/i
UNIT_PHRASE.4: /(?:{phrases})\b/i
OLD_UNIT.5: /(?:{old})\b/i
OF_AN_INCH.4: /{of_an_inch}\b/i
FEET_DASH.3: /[0-9]+ ?(?:'|(?:{feet})\b)-(?=[0-9.{glyphs}])/i
"""


def _words() -> list[str]:
    words = [word for unit in units.UNITS for word in unit.words]
    return sorted(words, key=lambda word: (-len(word), word))


def _dotted(word: str) -> str:
    return re.escape(word).replace("/", r"\/") + (r"(?![0-9])" if word.endswith(".") else r"\b")


def named_grammar() -> str:
    """The text that the file should hold."""
    patterns = {
        "thread": THREAD_PATTERN,
        "gauge": GAUGE_PATTERN,
        "drill": DRILL_PATTERN,
        "taper": TAPER_PATTERN,
        "taper_alone": TAPER_ALONE_PATTERN,
    }
    words = {
        "lengths": units.alternatives(letters=True),
        "powers": "|".join(units.POWER_WORDS),
        "signs": "".join(units.POWER_SIGNS),
        "dotted": "|".join(_dotted(word) for word in _words() if "." in word or "/" in word),
        "phrases": "|".join(" +".join(word.split()) for word in _words() if " " in word),
        "old": "|".join(" +".join(words.split()) for words in all_words()),
        "of_an_inch": " +".join(units.OF_AN_INCH.split()),
        "feet": units.alternatives("ft", letters=True),
        "glyphs": GLYPHS,
    }
    escaped = {name: re.sub(r"(?<!\\)/", r"\\/", text) for name, text in patterns.items()}
    return TEXT.format(**escaped, **words)


def tables_module() -> str:
    """The text that the module of tables should hold."""
    folder = str(TOP / "grammar")
    return _as_module(worked_out(folder, first_signs), checksum(folder))


def _packed(rows: Iterable[object]) -> list[str]:
    """Rows as text, as many in a line as fit."""
    lines = [""]
    for row in rows:
        said = f"{row!r},"
        if lines[-1] and len(lines[-1]) + len(said) > _WIDTH:
            lines.append("")
        lines[-1] += said
    return lines


def _as_module(tables: Tables, crc: int) -> str:
    """The tables as a module of plain data; equal rows are kept once."""
    lines = [
        '"""The grammar worked out, as data. Written by `python tests/renew_grammar.py`: do not edit."""',
        "",
        "# fmt: off",
        "# ruff: noqa",
        f"CRC = {crc}",
        f"TERMINALS = {tables.terminals!r}",
        f"WORDS = {tables.words!r}",
        f"WORDS_AFTER = {tables.words_after!r}",
        f"BEGINS = {tables.begins!r}",
        f"SPELLINGS = {tuple(map(tuple, tables.spellings))!r}",
        f"IGNORED: tuple[str, ...] = {tables.ignored!r}",
        "STATES: tuple[dict[str, int], ...] = (",
        *_packed(tables.states),
        ")",
        "RULES: tuple[tuple[str, int, str, bool, tuple[int, ...]], ...] = (",
        *_packed(tables.rules),
        ")",
        f"START, END = {tables.start}, {tables.end}",
        "",
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    HOME.write_text(named_grammar(), encoding="utf-8")
    TABLES.write_text(tables_module(), encoding="utf-8")
