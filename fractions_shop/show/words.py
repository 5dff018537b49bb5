"""The common words of every answer: sizes in both units, errors, tables that fold."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.errors import cells
from fractions_shop.size.notation import inch_text, mm_text, shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: Before a figure only: `about the second` is prose.
_ABOUT = re.compile(r"\babout (?=[-+]?[0-9])")
#: A figure with another in brackets: `13/32 in (10.31875 mm)`.
_BRACKETED = re.compile(r"(.+?) (\(.+\))")
#: A last column narrower than this is not worth folding into.
_LEAST_LAST = 24


@dataclass(frozen=True)
class Table:
    """Rows to be set in columns, or one below another where the columns do not fit.

    A figure that is `about` so much is marked ~ in a table, where room is dear.
    `header` names the columns; without one the first cell of a row is its label.
    """

    rows: tuple[tuple[str, ...], ...]
    header: tuple[str, ...] = ()

    def lines(self, width: int) -> list[str]:
        """The table in at most `width` columns, where words allow."""
        rows = tuple(tuple(_ABOUT.sub("~", c) for c in r) for r in (*self._head, *self.rows))
        if not rows:
            return []
        if (plain := _columns(rows, width)) is not None:
            return plain
        if (stacked := _columns([part for row in rows for part in _stacked(row)], width)) is not None:
            return stacked
        widths = _widths(rows)
        room = width - sum(widths[:-1]) - 2 * len(widths)
        if room >= _LEAST_LAST and len(widths) > 1:
            return [line for row in rows for line in _last_folded(row, [*widths[:-1], room])]
        return [line for row in rows[len(self._head) :] for line in self._folded(row, width)]

    @property
    def _head(self) -> tuple[tuple[str, ...], ...]:
        return (self.header,) if self.header else ()

    def _folded(self, row: tuple[str, ...], width: int) -> list[str]:
        if self.header:
            parts = [f"{name} {cell}".strip() for name, cell in zip(self.header, row, strict=True) if cell]
            return folded("  " + "; ".join(parts), width)
        label, *cells_ = row
        said = ", ".join(c for c in cells_ if c)
        return folded(f"  {label}: {said}" if label else f"    {said}", width)


Lines = list["str | Table"]


def _widths(rows: Sequence[tuple[str, ...]]) -> list[int]:
    return [max(cells(row[n]) for row in rows) for n in range(len(rows[0]))]


def _columns(rows: Sequence[tuple[str, ...]], width: int) -> list[str] | None:
    """The rows in columns, or None where they are wider than `width`."""
    widths = _widths(rows)
    return [_row(row, widths) for row in rows] if sum(widths) + 2 * len(widths) <= width else None


def _stacked(row: tuple[str, ...]) -> list[tuple[str, ...]]:
    """A row in two: what stands in brackets behind a figure goes beneath it."""
    parts = [_BRACKETED.fullmatch(cell) for cell in row]
    if not any(parts):
        return [row]
    above = tuple(part[1] if part else cell for part, cell in zip(parts, row, strict=True))
    return [above, tuple(part[2] if part else "" for part in parts)]


def _last_folded(row: tuple[str, ...], widths: list[int]) -> list[str]:
    """A row whose last cell is cut into lines that stand in its column."""
    parts = folded(row[-1], widths[-1])
    first = _row((*row[:-1], parts[0].strip()), widths)
    blank = ("",) * (len(row) - 1)
    return [first, *(_row((*blank, part.strip()), widths) for part in parts[1:])]


def _row(row: tuple[str, ...], widths: list[int]) -> str:
    padded = (cell + " " * (width - cells(cell)) for cell, width in zip(row, widths, strict=True))
    return ("  " + "  ".join(padded)).rstrip()


def folded(line: str, width: int) -> list[str]:
    """A line cut to `width` between words, what follows indented under it."""
    if cells(line) <= width:
        return [line]
    from textwrap import wrap  # most lines fit

    lead = line[: len(line) - len(line.lstrip())]
    return wrap(
        line.strip(), max(width, 20), initial_indent=lead, subsequent_indent=lead + "    ",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip


def laid_out(lines: Lines, width: int) -> str:
    """Lines and tables as one text of at most `width` columns, where words allow."""
    out: list[str] = []
    for line in lines:
        out += line.lines(width) if isinstance(line, Table) else folded(line, width)
    return "\n".join(out)


def both(size: Quantity, places: int | None = None) -> str:
    """A length in inches and in millimetres: `13/32 in (10.31875 mm)`."""
    return f"{inch_text(size, places)} ({mm_text(size, places)})"


def in_rule(size: Quantity, rule: Rule) -> str:
    """A length in both, the rule's own unit first."""
    return f"{mm_text(size)} ({inch_text(size)})" if rule.metric else both(size)


def over_under(error: Quantity, places: int | None = None) -> str:
    """An error in words: `0.00625 in (0.15875 mm) over`, or `exact`."""
    if error.value == 0:
        return "exact"
    size = abs(error)
    text = f"{shown(size.inch, 'in', places)} ({mm_text(size, places)})"
    return f"{text} {'over' if error.value > 0 else 'under'}"


def signed(error: Quantity) -> str:
    """An error in a table: `+0.0063 in (+0.159 mm)`, above zero when over; or `exact`."""
    if error.value == 0:
        return "exact"
    sign = "+" if error.value > 0 else "-"
    inches, mm = (
        _with_sign(shown(abs(number), unit, places), sign)
        for number, unit, places in ((error.inch, "in", 4), (error.mm, "mm", 3))
    )
    return f"{inches} ({mm})"


def _with_sign(figure: str, sign: str) -> str:
    about = "about " if figure.startswith("about ") else ""
    return f"{about}{sign}{figure.removeprefix('about ')}"


def moved(change: Quantity, rule: Rule) -> str:
    """What a total moves by, in words: `1/32 in (0.79375 mm) longer`."""
    if change.value == 0:
        return "unchanged"
    return f"{in_rule(abs(change), rule)} {'longer' if change.value > 0 else 'shorter'}"


def rule_word(rule: Rule) -> str:
    """A rule as it stands in a sentence: `64ths`, `whole inches`, `half mm rule`."""
    if rule.metric:
        return f"{rule.name} rule"
    return {"1sts": "whole inches", "2nds": "halves", "4ths": "quarters"}.get(rule.name, rule.name)
