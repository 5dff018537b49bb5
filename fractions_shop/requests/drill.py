"""drill: the nearest drills, below and above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import both, over_under
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Named
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.stock_rows import source_lines, stock_rows
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.tables.drills import Drill
    from fractions_shop.tables.nearby import Nearby


def _answer(given: Inputs) -> tuple[Nearby[Drill], Quantity]:
    from fractions_shop.tables.drills import drills, find_drill

    node = given.subject(0)
    if not isinstance(node, Named) or node.kind != "drill":
        result = drills(given.length(0))
        return result, result.nearest.size
    try:
        result = drills(find_drill(node.text).size)  # the word says of #43 that it is a drill
    except ShopError as error:
        raise Fault(str(error), node.start, node.end) from None
    return result, result.nearest.size


def _lines(result: Nearby[Drill]) -> Lines:
    """The nearest drills below and above, or the exact one, in every series."""
    rows = tuple(row for near in result.values() for row in stock_rows(near))
    return [
        f"{both(result.asked)}; the nearest is {result.nearest.name}", Table(rows), *source_lines(result),
    ]  # fmt: skip


def _gist(result: Nearby[Drill], lines: list[str]) -> list[str]:
    nearest = result.nearest
    return [
        f"{both(result.asked)}; the nearest is {nearest.name}, {over_under(nearest.size - result.asked, 4)}"
    ]


ROOM = Room(
    word="drill",
    forms=("drill SIZE",),
    example="drill 2.35 mm",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
