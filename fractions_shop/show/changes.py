"""What changed between two sheets, in words."""

from __future__ import annotations

from collections.abc import Sequence

from fractions_shop.language.values import Value
from fractions_shop.limits import Limits
from fractions_shop.quantity import Quantity
from fractions_shop.sheet.changes import Change, PartChange
from fractions_shop.sheet.parts import Part
from fractions_shop.show.size_table import part_sizes
from fractions_shop.show.sizes import size_line
from fractions_shop.show.words import Lines, Table, both, laid_out


def comparison(sizes: Sequence[Change], parts: Sequence[PartChange], old: str, new: str) -> Lines:
    """Sentences and tables; one sentence when nothing changed."""
    if not sizes and not parts:
        return [f"every size and part of {new} is as in {old}"]
    lines: Lines = []
    if sizes:
        rows = tuple((c.name, _said(c.old), _said(c.new), _by(c)) for c in sizes)
        lines += [f"{_so_many(len(sizes), 'size')} changed", Table(rows, ("size", old, new, "by"))]
    if parts:
        part_rows = tuple((c.name, _part(c.old), _part(c.new)) for c in parts)
        lines += [f"{_so_many(len(parts), 'part')} changed", Table(part_rows, ("part", old, new))]
    return lines


def comparison_text(lines: Lines, width: int = 80) -> str:
    """The same as text."""
    return laid_out(lines, width)


def _said(value: Value | None) -> str:
    if value is None:
        return "is not there"
    if isinstance(value, Quantity) and value.power == 1:
        return both(value)
    return size_line(value).removesuffix(" exactly")


def _by(change: Change) -> str:
    by = change.by
    if by is None:
        return ""
    if not by.value:
        limits = isinstance(change.old, Limits) or isinstance(change.new, Limits)
        return "the limits alone" if limits else ""
    if by.power == 1:
        return f"{both(abs(by), 5)} {'larger' if by.value > 0 else 'smaller'}"
    return f"{'more' if by.value > 0 else 'less'} by {size_line(abs(by)).removesuffix(' exactly')}"


def _part(part: Part | None) -> str:
    if part is None:
        return "is not there"
    said = [str(part.count), part.material, part_sizes(part)]
    return ", ".join(word for word in said if word)


def _so_many(number: int, word: str) -> str:
    return f"{number:,} {word}{'' if number == 1 else 's'}"
