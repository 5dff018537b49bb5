"""Diameters and pitches of threads as figures."""

from __future__ import annotations

from fractions_shop.figures.figure import in_decimals, in_mm
from fractions_shop.figures.table import Cell
from fractions_shop.size.notation import mm_leads
from fractions_shop.size.quantity import Quantity

#: Diameters are given to this many places: a ten-thousandth of an inch is what is printed.
PLACES = 4


def in_both(size: Quantity, metric: bool = False) -> Cell:
    """A diameter or a pitch in both units, millimetres first for one that is metric unless another leads."""
    inches, mm = in_decimals(size.inch, "in", PLACES), in_mm(size, PLACES)
    return Cell("size", (mm,), (inches,)) if mm_leads(metric) else Cell("size", (inches,), (mm,))
