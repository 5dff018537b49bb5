"""A size as a small table of HTML, for a notebook."""

from __future__ import annotations

from typing import Any

from fractions_shop.figures.figure import as_fraction, in_decimals, in_feet, in_mm
from fractions_shop.figures.html import table
from fractions_shop.figures.size_words import size_cell
from fractions_shop.figures.table import Cell, Table
from fractions_shop.figures.wording import both, signed
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import feet_lead, readable
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import LADDER, rung
from fractions_shop.size.standing import in_words
from fractions_shop.size.value import Value


def size_html(value: Value) -> str:
    """A size as a small table: fraction, decimals, whether exact, and what common rules make of it."""
    if isinstance(value, Limits):
        named = (("nominal", value.nominal), ("upper limit", value.upper), ("lower limit", value.lower))
        return table(Table(tuple((name, size_cell(size)) for name, size in named)))
    if isinstance(value, Angle) or value.power != 1:
        return table(Table((("size", size_cell(value)),)))
    fraction = (as_fraction(value.inch, "in"),) if readable(value.inch) else ("none that can be read",)
    feet = [("feet and inches", Cell("size", (in_feet(value),)))] if feet_lead(value) else []
    rows: list[tuple[Cell | str, ...]] = [
        *feet,
        ("fraction", Cell("size", fraction)),
        ("inch", Cell("size", (in_decimals(value.inch, "in"),))),
        ("mm", Cell("size", (in_mm(value),))),
        ("exact", "no: a root, an angle or a measured figure went into it" if value.approximate else "yes"),
        *([("within", size_cell(value.within))] if value.approximate and value.within is not None else []),
    ]
    if value.standing:
        rows.append(("standing", in_words(value.standing)))
    rows += [(f"on {step.rule.name}", f"{both(step.size)}, {signed(step.error)}") for step in _ladder(value)]
    return table(Table(tuple(rows)))


def _ladder(value: Quantity) -> list[Any]:
    return [rung(value, rule) for rule in LADDER]
