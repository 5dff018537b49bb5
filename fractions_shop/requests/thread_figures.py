"""Diameters and pitches of threads as figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.figures.figure import in_decimals, in_mm
from fractions_shop.figures.table import Cell
from fractions_shop.size.notation import mm_leads
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_brackets

if TYPE_CHECKING:
    from fractions_shop.threads.thread import Thread

#: Diameters are given to this many places: a ten-thousandth of an inch is what is printed.
PLACES = 4


def named(thread: Thread) -> str:
    """A thread by name, with how far to trust its size where that needs a word: `M5 x 0.75 (one source)`."""
    return f"{thread.name}{in_brackets(thread.standing)}"


def in_both(size: Quantity, metric: bool = False) -> Cell:
    """A diameter or a pitch in both units, millimetres first for one that is metric unless another leads."""
    inches, mm = in_decimals(size.inch, "in", PLACES, size.standing), in_mm(size, PLACES)
    return Cell("size", (mm,), (inches,)) if mm_leads(metric) else Cell("size", (inches,), (mm,))
