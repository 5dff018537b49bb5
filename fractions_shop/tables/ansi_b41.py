"""The classes of ANSI B4.1-1967: the rows that were read, and those that follow from them.

A class is a pair of zones, a hole's and a shaft's, and a zone has the same limits in every class
that has it (the rows that were read hold to that; a test compares them). So a class whose table was
not read follows from others where each of its two zones stands in one of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from fractions_shop.tables import rows

#: The letters of the standard's fits: what they are, and the last number of each.
KINDS = {
    "RC": ("running and sliding fits", 9),
    "LC": ("locational clearance fits", 11),
    "LT": ("locational transition fits", 6),
    "LN": ("locational interference fits", 3),
    "FN": ("force fits", 5),
}
#: A class as it is written: `RC5`, `rc 5`, `FN-3`.
WRITTEN = re.compile(rf"({'|'.join(KINDS)})[ -]?([0-9]{{1,2}})", re.IGNORECASE)


class _Composed(NamedTuple):
    """A class put together from others: whose hole, and of its shaft whose tolerance and whose nearer limit.

    `nearer` is the class whose shaft has the same letter, and with it the same limit nearest the size;
    none for a shaft of letter h, which begins at the size itself.
    """

    zones: str
    hole: str
    tolerance: str
    nearer: str = ""

    @property
    def drawn_on(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(filter(None, (self.hole, self.tolerance, self.nearer))))


_MADE = {
    "LC1": _Composed("H6/h5", "RC2", "RC2"),
    "LC2": _Composed("H7/h6", "RC3", "RC3"),
    "LC3": _Composed("H8/h7", "RC4", "RC4"),
    "LC4": _Composed("H10/h9", "LC7", "LC7"),
    "LC5": _Composed("H7/g6", "RC3", "RC3", "RC2"),
    "LT4": _Composed("H8/k7", "RC4", "RC4", "LT3"),
}


def class_of(text: str) -> str:
    """The class that a text names, `RC5` for `rc 5`; empty for what is written otherwise."""
    match = WRITTEN.fullmatch(text.strip())
    return f"{match[1].upper()}{int(match[2])}" if match else ""


@cache
def classes() -> tuple[str, ...]:
    """The classes that have figures here, in the standard's order."""
    known = {*_read(), *_MADE}
    return tuple(
        f"{letters}{n}" for letters, (_, last) in KINDS.items() for n in range(1, last + 1)
        if f"{letters}{n}" in known
    )  # fmt: skip


def in_standard(name: str) -> bool:
    """Whether the standard has a class of that name, as `class_of` gives it."""
    return 1 <= int(name[2:]) <= KINDS[name[:2]][1]


@cache
def rows_of(name: str) -> tuple[dict[str, str], ...]:
    """The rows of a class, by rising sizes; empty for one that has no figures here."""
    made = _MADE.get(name)
    return _read().get(name, ()) if made is None else tuple(_put_together(name, made))


@cache
def _read() -> dict[str, tuple[dict[str, str], ...]]:
    known: dict[str, tuple[dict[str, str], ...]] = {}
    for row in rows("ansi_b41_fits"):
        known[row["class"]] = (*known.get(row["class"], ()), row)
    return known


def _put_together(name: str, made: _Composed) -> Iterator[dict[str, str]]:
    for hole in _read()[made.hole]:
        same = {of: _same_step(of, hole) for of in made.drawn_on}
        if any(row is None for row in same.values()):
            continue
        tolerance = _thou(same[made.tolerance], "shaft_max") - _thou(same[made.tolerance], "shaft_min")
        if not made.nearer:
            upper = Fraction(0)
        elif _thou(same[made.nearer], "shaft_min") > 0:
            upper = _thou(same[made.nearer], "shaft_min") + tolerance
        else:
            upper = _thou(same[made.nearer], "shaft_max")
        lower = upper - tolerance
        yield {
            **hole,
            "class": name,
            "zones": made.zones,
            "shaft_max_thou": str(upper),
            "shaft_min_thou": str(lower),
            "standing": "rule",
            "note": f"put together from {' and '.join(made.drawn_on)}: the same zones",
        }


def _same_step(of: str, wanted: dict[str, str]) -> dict[str, str] | None:
    step = wanted["over_in"], wanted["to_in"]
    return next((row for row in _read()[of] if (row["over_in"], row["to_in"]) == step), None)


def _thou(row: dict[str, str] | None, column: str) -> Fraction:
    assert row is not None
    return Fraction(row[f"{column}_thou"])
