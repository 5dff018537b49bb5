"""Printed tables as CSV files beside this module, each opened on first use and then kept.

Figures stand as text, as printed; a column's unit is in its header (`size_in`,
`size_mm`) and every row names its source. `standing` says how far a row may be
trusted: see STANDINGS.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fractions_shop.errors import ShopError

HERE = Path(__file__).parent

#: How a figure came here. Only the first two may be used as a check on anything else.
STANDINGS = {
    "printed": "read in a published table or an open data file, and a second source agrees",
    "rule": "computed from a published rule or formula",
    "one source": "read in one place only",
    "from memory": "written down from memory of a standard, not read: check before relying on it",
}


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of the table `name`, each a dict of column to text.

    ShopError if there is no such table, naming those that there are.

    >>> rows("drills_letter")[0]["size_in"]
    '0.234'
    """
    import csv  # only here, so that the words and patterns beside the tables load at once

    try:
        with (HERE / f"{name}.csv").open(newline="", encoding="utf-8") as file:
            return tuple(csv.DictReader(file))
    except OSError:
        raise ShopError(f"there is no table {name!r}; there are {', '.join(names())}") from None


def names() -> tuple[str, ...]:
    """The names of all tables."""
    return tuple(sorted(path.stem for path in HERE.glob("*.csv")))
