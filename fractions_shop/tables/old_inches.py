"""Inches that were not 25.4 mm: what a foot rule of another country or time was divided into.

Rods of one name differed by about 0.2 %, so that units nearer to each other than that
cannot be told apart by measuring; `groups` holds those together.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.tables import rows

#: How far rods of one unit differed, as a share.
SCATTER = Fraction(2, 1000)


class OldInch(Record):
    """An old inch: its length, its own `word`, and its line, of which it has `parts`.

    `called` is what stands before `inch` or `line` in English: Rhenish, Paris.

    `exact` is whether a law fixes it against the metre; elsewhere `size` is approximate. `disputed` is
    whether sources give it other sizes.
    `line` is its own word for it, empty where none is known to have been used.
    """

    name: str
    called: str
    word: str
    size: Quantity
    line: str
    parts: int
    exact: bool
    disputed: bool
    standing: str
    source: str
    note: str


@cache
def old_inches() -> tuple[OldInch, ...]:
    """All of the table, as printed.

    >>> paris = old_inches()[0]
    >>> paris.name, paris.line, float(round(paris.size.mm / paris.parts, 4))
    ('Paris', 'ligne', 2.2558)
    """
    return tuple(
        OldInch(
            row["name"],
            row["called"],
            row["inch"],
            _length(row),
            row["line"],
            int(row["parts"] or 12),
            bool(row["exact"]),
            row["disputed"] == "yes",
            row["standing"],
            row["source"],
            row["note"],
        )
        for row in rows("old_inches")
    )


@cache
def groups() -> tuple[tuple[OldInch, ...], ...]:
    """The old inches in groups that measuring cannot tell apart, none that is today's inch; smallest first."""
    grouped: list[list[OldInch]] = []
    for inch in sorted(old_inches(), key=lambda each: (each.size.mm, each.name)):
        if abs(inch.size.mm / INCH - 1) < SCATTER:
            continue
        if grouped and inch.size.mm / grouped[-1][0].size.mm - 1 < SCATTER:
            grouped[-1].append(inch)
        else:
            grouped.append([inch])
    return tuple(tuple(group) for group in grouped)


@cache
def named() -> dict[str, tuple[OldInch, Quantity]]:
    """Each old inch and its line, by what they are called in English, one or several: `Paris lines`.

    >>> named()["Rhenish inches"][0].source
    'Prussian law of 16 May 1816: foot = 139.13 Paris lignes'
    """
    units = {}
    for inch in old_inches():
        units[f"{inch.called} inch"] = units[f"{inch.called} inches"] = (inch, inch.size)
        if inch.line:
            units[f"{inch.called} line"] = units[f"{inch.called} lines"] = (inch, inch.size / inch.parts)
    return units


def _length(row: dict[str, str]) -> Quantity:
    value = _value(row["exact"] or row["inch_mm"])
    return Quantity(value, approximate=not row["exact"], standing=row["standing"])


def _value(text: str) -> Fraction:
    over, _, under = text.partition("/")
    return Fraction(over) / Fraction(under or 1)
