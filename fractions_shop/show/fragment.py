"""Small pieces of HTML for a notebook: a size or an answer as a table, a sheet as itself."""

from __future__ import annotations

from typing import Any

from fractions_shop.figures.figure import as_fraction, in_decimals, in_mm
from fractions_shop.figures.table import Cell, Table
from fractions_shop.language.arithmetic import Value
from fractions_shop.show.document import Document
from fractions_shop.show.page import html_lines, table, text
from fractions_shop.show.sizes import size_cell
from fractions_shop.show.words import both, signed
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import readable
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import LADDER, rung


def size_html(value: Value) -> str:
    """A size as a small table: fraction, decimals, whether exact, and what common rules make of it."""
    if isinstance(value, Limits):
        named = (("nominal", value.nominal), ("upper limit", value.upper), ("lower limit", value.lower))
        return table(Table(tuple((name, size_cell(size)) for name, size in named)))
    if isinstance(value, Angle) or value.power != 1:
        return table(Table((("size", size_cell(value)),)))
    fraction = (as_fraction(value.inch, "in"),) if readable(value.inch) else ("none that can be read",)
    rows: list[tuple[Cell | str, ...]] = [
        ("fraction", Cell("size", fraction)),
        ("inch", Cell("size", (in_decimals(value.inch, "in"),))),
        ("mm", Cell("size", (in_mm(value),))),
        ("exact", "no: a root, an angle or a measured figure went into it" if value.approximate else "yes"),
    ]
    rows += [(f"on {step.rule.name}", f"{both(step.size)}, {signed(step.error)}") for step in _ladder(value)]
    return table(Table(tuple(rows)))


def _ladder(value: Quantity) -> list[Any]:
    return [rung(value, rule) for rule in LADDER]


def answer_html(outcome: Any) -> str:
    """An answered statement: what was asked, and the answer's sentences and tables."""
    from fractions_shop.show.text import answer_lines

    return f"<p><code>{text(outcome.statement.strip())}</code></p>\n{html_lines(answer_lines(outcome))}"


def sheet_html(document: Document) -> str:
    """A sheet in a notebook: its verdict and its tables, without the working."""
    listings = "".join(
        f"<h4>{text(each.title)}</h4>\n{table(each.table)}"
        + "".join(f"<p><strong>{text(remark)}</strong></p>\n" for remark in each.remarks)
        + (f"<p>{text(each.readings)}</p>\n" if each.readings else "")
        for each in document.listings
    )
    return f"<h3>{text(document.title)}</h3>\n<p><strong>{text(document.verdict)}</strong></p>\n{listings}"
