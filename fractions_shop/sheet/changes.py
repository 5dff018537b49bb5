"""What changed between two sheets, in sizes and parts rather than in text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fractions_shop.language.arithmetic import Value
from fractions_shop.sheet.part_lines import Part
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Change:
    """A named size that differs: `old` is None for a new one, `new` None for one that is gone.

    `by` is new less old where both are sizes of one kind (their nominals, for limits).
    """

    name: str
    old: Value | None
    new: Value | None
    by: Quantity | None


@dataclass(frozen=True, slots=True)
class PartChange:
    """A part that differs, in count, material or sizes; a new note alone is no change."""

    name: str
    old: Part | None
    new: Part | None


def size_changes(old: Mapping[str, Value], new: Mapping[str, Value]) -> tuple[Change, ...]:
    """The named sizes that differ, in the order of the old sheet, new names last."""
    names = [*old, *(name for name in new if name not in old)]
    return tuple(
        Change(name, old.get(name), new.get(name), _by(old.get(name), new.get(name)))
        for name in names
        if not alike(old.get(name), new.get(name))
    )


def part_changes(old: Mapping[str, Part], new: Mapping[str, Part]) -> tuple[PartChange, ...]:
    """The parts that differ, in the order of the old sheet, new parts last."""
    names = [*old, *(name for name in new if name not in old)]
    return tuple(
        PartChange(name, old.get(name), new.get(name))
        for name in names
        if not _same_part(old.get(name), new.get(name))
    )


def alike(old: Value | None, new: Value | None) -> bool:
    """Whether two values are the same size, with the same limits."""
    if isinstance(old, Limits) and isinstance(new, Limits):
        return (old.nominal, old.plus, old.minus) == (new.nominal, new.plus, new.minus)
    return type(old) is type(new) and old == new


def _by(old: Value | None, new: Value | None) -> Quantity | None:
    one, two = (v.nominal if isinstance(v, Limits) else v for v in (old, new))
    if isinstance(one, Quantity) and isinstance(two, Quantity) and one.power == two.power:
        return two - one
    return None


def _same_part(old: Part | None, new: Part | None) -> bool:
    if old is None or new is None:
        return old is new
    if (old.count, old.material, len(old.sizes)) != (new.count, new.material, len(new.sizes)):
        return False
    return all(map(alike, old.sizes, new.sizes))
