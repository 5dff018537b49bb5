"""Twist drills: number, letter, fractional and metric, by name and by size.

Number and letter sizes are printed tables (the CSV files beside this module).
Fractional drills run in 64ths of an inch to 1 in; larger ones exist and go in coarser
steps, which were not read. Metric drills are the preferred steps of BS 328, 0.2 to
25 mm. Number drills 81 to 97 are marked `from memory`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.size.arguments import SizeLike, above_zero, options_by_name
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import as_meant, decimal, mixed, number_value, read_plain
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.tables import born, rows
from fractions_shop.tables.nearest import MadeWhenAsked, neighbours

if TYPE_CHECKING:
    from fractions_shop.tables.nearby import Nearby

#: The series, and the system of measure that each is of.
SERIES = {"number": "inch", "letter": "inch", "fractional": "inch", "metric": "metric"}

FRACTIONAL_SOURCE = "64ths of an inch to 1 in, by arithmetic; larger sizes go in coarser steps, not read"
METRIC_SOURCE = "BS 328 steps as given in an encyclopaedia article on drill sizes, 0.2 to 25 mm"

#: BS 328: from, up to (not reached), and the steps that repeat, all in hundredths of a millimetre.
_METRIC_STEPS = ((20, 100, (2, 3, 3, 2)), (100, 300, (5,)), (300, 1400, (10,)), (1400, 2501, (25,)))


class Drill(Record):
    """A drill that can be bought: its `name`, `series` (of SERIES) and nominal `size`.

    `source` says where the size is from, `standing` how far to trust it (STANDINGS of
    the tables) and `note` what is odd about it.
    """

    name: str
    series: str
    size: Quantity
    source: str
    standing: str
    note: str = ""


@cache
def all_drills() -> tuple[Drill, ...]:
    """Every drill, series by series, each rising in size."""
    return tuple(drill for series in SERIES for drill in series_drills(series))


@cache
def drills_by_size() -> tuple[Drill, ...]:
    """Every drill of whatever series, smallest first."""
    return tuple(sorted(all_drills(), key=lambda drill: drill.size.mm))


@cache
def series_drills(series: str) -> Sequence[Drill]:
    """The drills of one series, smallest first; ShopError for another word."""
    makers = {"number": _number, "letter": _letter, "fractional": _fractional, "metric": _metric}
    if series not in makers:
        raise ShopError(f"{series!r} is not a series of drills: {', '.join(SERIES)}")
    return makers[series]()


@options_by_name("drills('5.1 mm'), each size by itself")
def drills(size: SizeLike) -> Nearby[Drill]:
    """The drills next below and above `size` in each series, and the exact one if there is one.

    `size` is a Quantity or a written size, or a drill's name. ShopError if it is not
    above zero.

    >>> near = drills("5.1 mm")
    >>> near["number"].below.name, near["number"].above.name, near["metric"].exact.name
    ('No 8', 'No 7', '5.1 mm')
    """
    if isinstance(size, str):
        plain = read_plain(size)
        size = find_drill(size).size if plain is None else plain
    asked = above_zero(size, "a drill's size")
    from fractions_shop.tables.nearby import Nearby  # a thread, which asks for its drills, needs none of it

    nearest = tuple(neighbours(asked, series, series_drills(series)) for series in SERIES)
    return Nearby(asked, nearest, _sources())


def _sources() -> tuple[tuple[str, str], ...]:
    return tuple((series, series_drills(series)[0].source) for series in SERIES)


# The series


def _number() -> Sequence[Drill]:
    table = rows("drills_number")[::-1]
    return MadeWhenAsked(table, lambda row: _printed(row, f"No {row['number']}", "number"))


def _letter() -> Sequence[Drill]:
    return MadeWhenAsked(
        rows("drills_letter"), lambda row: _printed(row, f"letter {row['letter']}", "letter")
    )


def _printed(row: dict[str, str], name: str, series: str) -> Drill:
    size = born(row, Fraction(row["size_in"]), "in")
    return Drill(name, series, size, f"{row['source']}; {row['second_source']}", row["standing"], row["note"])


def _fractional() -> Sequence[Drill]:
    return MadeWhenAsked(range(1, 65), _of_64ths)


def _of_64ths(count: int) -> Drill:
    size = Quantity(Fraction(count, 64) * INCH, standing="rule")
    return Drill(f"{mixed(size.inch)} in", "fractional", size, FRACTIONAL_SOURCE, "rule")


def _metric() -> Sequence[Drill]:
    hundredths = []
    for start, end, steps in _METRIC_STEPS:
        at, turn = start, 0
        while at < end:
            hundredths.append(at)
            at, turn = at + steps[turn % len(steps)], turn + 1
    return MadeWhenAsked(hundredths, _of_hundredths)


def _of_hundredths(count: int) -> Drill:
    size = Fraction(count, 100)
    return Drill(f"{decimal(size)[0]} mm", "metric", Quantity(size, standing="rule"), METRIC_SOURCE, "rule")


# By name

_DRILL = r"(?:[ ]*drill)?"
#: Compiled when the first drill is asked for by name.
_NAME = rf"""(?x)(?i:
      (?: No\b\.? | number\b | \# ) [ ]* (?P<number>[0-9]{{1,4}}) {_DRILL}
    | letter [ ]* (?P<letter>[A-Z]) {_DRILL}
    | (?P<bare_letter>[A-Z]) [ ]+ drill
    | (?P<fraction>(?:[0-9]{{1,4}}[ -])?[0-9]{{1,4}}/[0-9]{{1,4}}) (?: [ ]*(?:in|inch|") {_DRILL} | [ ]*drill )
    | (?P<inch>[0-9]{{1,4}}) [ ]* (?:in|inch|") {_DRILL}
    | (?P<mm>[0-9]{{1,4}}(?:\.[0-9]{{0,6}})?|\.[0-9]{{1,6}}) [ ]* mm {_DRILL}
    | (?P<bare>[0-9]{{1,4}}(?:\.[0-9]{{0,6}})?|\.[0-9]{{1,6}}) [ ]+ drill
    )"""
_TWIST = "(?i: twist (?=drill$))"
_FORMS = "write No 43 drill, letter F drill, 13/64 drill or 5.1 mm drill"


def find_drill(text: str) -> Drill:
    """The drill called `text`: `No 43 drill`, `#43`, `letter F drill`, `13/64 drill`, `5.1 mm drill`.

    Case and blanks are free, and every Drill's own `name` is understood. ShopError for
    a form that is not a drill's, and for one that is not made, with the nearest that are.

    >>> find_drill("#43").size.inch == Fraction("0.089")
    True
    """
    plain = re.sub(_TWIST, " ", " ".join(as_meant(text).split()))
    match = re.fullmatch(_NAME, plain)
    if match is None:
        raise ShopError(f"{text!r} is not a drill's name; {_FORMS}")
    given = {key: value for key, value in match.groupdict().items() if value}
    (kind, value), *_ = given.items()
    if kind == "number":
        return _by_number(value)
    if kind in ("letter", "bare_letter"):
        return _by_name()[f"letter {value.upper()}"]
    if kind == "bare":
        raise ShopError(
            f"{value} of what? write {value} mm drill"
            + (f" or No {value} drill" if value.isdigit() else f" or {value} in as a size")
        )
    if kind == "mm":
        return _by_size("metric", Quantity(Fraction(value)), f"{value} mm")
    return _by_size("fractional", Quantity.inches(number_value(value)), f"{value} in")


@cache
def _by_name() -> dict[str, Drill]:
    return {drill.name: drill for drill in all_drills()}


def _by_number(value: str) -> Drill:
    drill = _by_name().get(f"No {int(value)}")
    if drill is None:
        last = rows("drills_number")[-1]["number"]
        close = "No 1" if int(value) < 1 else f"No {last}"
        raise ShopError(
            f"there is no No {value} drill: they run from No 1 to No {last}, and {close} is nearest"
        )
    return drill


def _by_size(series: str, size: Quantity, called: str) -> Drill:
    near = neighbours(size, series, series_drills(series))
    if near.exact is not None:
        return near.exact
    close = [stock.name for stock in (near.below, near.above) if stock is not None]
    if len(close) == 2:
        raise ShopError(
            f"there is no {called} drill: the nearest {series} ones are {close[0]} and {close[1]}"
        )
    raise ShopError(f"there is no {called} drill here: the {series} ones known here end at {close[0]}")
