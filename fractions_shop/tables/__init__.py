"""Printed tables as CSV files beside this module, each opened on first use and then kept.

Figures stand as text, as printed; a column's unit is in its header (`size_in`,
`size_mm`) and every row names its source. `standing` says how far a row may be
trusted: see STANDINGS. Whatever makes a size of a row makes it with `born`, so that its
standing goes wherever the size goes.
"""

from __future__ import annotations

import os.path
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import STANDINGS, worse

__all__ = ["STANDINGS", "born", "names", "rows"]

HERE = os.path.dirname(__file__)


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of the table `name`, each a dict of column to text.

    ShopError if there is no such table, naming those that there are.

    >>> rows("drills_letter")[0]["size_in"]
    '0.234'
    """
    import csv  # only here, so that the words and patterns beside the tables load at once

    try:
        with open(os.path.join(HERE, f"{name}.csv"), newline="", encoding="utf-8") as file:
            header, *lines = csv.reader(file)
    except OSError:
        raise ShopError(f"there is no table {name!r}; there are {', '.join(names())}") from None
    return tuple(dict(zip(header, line, strict=True)) for line in lines)


def names() -> tuple[str, ...]:
    """The names of all tables."""
    return tuple(sorted(name.removesuffix(".csv") for name in os.listdir(HERE) if name.endswith(".csv")))


def born(row: dict[str, str], number: Fraction, unit: str, standing: str = "") -> Quantity:
    """A size that a row tells: so many of `unit`, with the row's standing or a less trusted one.

    >>> born(rows("drills_number")[89], Fraction("0.0087"), "in").standing
    'from memory'
    """
    return Quantity.of(number, unit).resting_on(worse(row["standing"], standing))
