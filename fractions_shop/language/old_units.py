"""Old inches and lines as units of the language, `3 Paris lines`: their words, sizes and sources from their table alone."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.meant.readings import written_within
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.tables.old_inches import SCATTER, OldInch, named

#: What may stand behind a word of the table for several: Linien, tommer, pouces, duimen.
_LAST_NUMBER = re.compile(r"(?P<number>[0-9½¼¾⅛⅜⅝⅞.⁄/ -]*[0-9½¼¾⅛⅜⅝⅞])\s*(?P<unit>[A-Za-z][A-Za-z ]*)$")
_ENDINGS = ("", "s", "e", "n", "en", "er", "r")


class OldUnit(NamedTuple):
    """One old unit: what it is called for several, what it belongs to, and the size of one."""

    name: str
    inch: OldInch
    size: Quantity

    @property
    def is_line(self) -> bool:
        """Whether it is the line of its inch."""
        return self.size != self.inch.size

    @property
    def meaning(self) -> str:
        """Its size, with how far to trust it and where it is from."""
        many = f"{self.name}: {self.size_text} each"
        note = f"; {self.inch.note}" if self.inch.note else ""
        return f"{many}; {self.inch.standing}: {self.inch.source}{note}"

    @property
    def size_text(self) -> str:
        """The size of one in millimetres."""
        text, whole = decimal(self.size.mm, 6)
        return f"{'' if whole and self.inch.exact else 'about '}{text} mm"

    @property
    def note(self) -> Note:
        """What is said beside a size in it: its source, and where others give it otherwise a doubt."""
        if self.inch.disputed:
            return doubt(f"{self.meaning}: other sources give it another size")
        fixed = self.inch.exact or abs(self.inch.size.mm / INCH - 1) < SCATTER
        alike = "" if fixed else f"; rods of one name differed by about {float(100 * SCATTER):g} %"
        return echo(f"{self.meaning}{alike}")


@cache
def _by_word() -> dict[str, OldUnit]:
    units: dict[str, OldUnit] = {}
    for words, (inch, size) in named().items():
        several = words if words.endswith("s") else f"{words}es" if words.endswith("inch") else f"{words}s"
        units[words.lower()] = OldUnit(several, inch, size)
    return units


def find(words: str) -> OldUnit | None:
    """The old unit that words name, whatever their case: `Paris line`, `rhenish  inches`; None for others.

    >>> find("Paris lines").size_text
    'about 2.255829 mm'
    """
    return _by_word().get(" ".join(words.split()).lower()) if " " in words else None


def half_last_place(written: str) -> Quantity | None:
    """Half a unit of the last place of a size written in one, as `written_within` has it; None for other sizes."""
    number = _LAST_NUMBER.search(written)
    unit = find(number["unit"]) if number else None
    if number is None or unit is None:
        return None
    place = written_within(f"{number['number'].strip()} in").inch
    return unit.size * place


def meanings() -> dict[str, str]:
    """Every old unit by what several of it are called, with its size in a few words."""
    return {unit.name: unit.size_text for unit in _by_word().values()}


def of_own_word(word: str) -> tuple[OldUnit, ...]:
    """The units that a word of another language may name: Zoll, pouces, Linien."""
    small = word.lower()
    units = {unit.name: unit for unit in _by_word().values()}
    return tuple(
        unit for unit in units.values()
        if small in {(unit.inch.line if unit.is_line else unit.inch.word).lower() + ending for ending in _ENDINGS}
        and (unit.inch.line if unit.is_line else unit.inch.word).lower() not in ("inch", "line")
    )  # fmt: skip


def all_words() -> tuple[str, ...]:
    """Every way to write one, longest first, for patterns."""
    return tuple(sorted(named(), key=lambda words: (-len(words), words)))
