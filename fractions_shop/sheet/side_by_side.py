"""Several sheets of one thing side by side: each named size in every one of them, and how far apart it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fractions_shop.sheet.changes import alike
from fractions_shop.size.limits import nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value


@dataclass(frozen=True, slots=True)
class SizeBeside:
    """A named size in each of several sheets, None where one has no such name.

    `apart` is the largest less the smallest (their nominals, for limits); None where these are not all of one
    kind. `same` says that every sheet has it, with the same limits.
    """

    name: str
    values: tuple[Value | None, ...]
    apart: Quantity | None
    same: bool


def side_by_side(sheets: Sequence[Mapping[str, Value]]) -> tuple[SizeBeside, ...]:
    """A row a name, in the order of the first sheet, then of those behind it."""
    rows = []
    for name in dict.fromkeys(name for sizes in sheets for name in sizes):
        values = tuple(sizes.get(name) for sizes in sheets)
        same = all(alike(values[0], value) for value in values)
        rows.append(SizeBeside(name, values, _apart(values), same))
    return tuple(rows)


def _apart(values: Sequence[Value | None]) -> Quantity | None:
    sizes = [nominal_of(value) for value in values if value is not None and not isinstance(value, Angle)]
    known = [value for value in values if value is not None]
    if len(sizes) < 2 or len(sizes) != len(known) or len({size.power for size in sizes}) > 1:
        return None
    return max(sizes) - min(sizes)
