"""Gauges of wire, sheet and wood screws: a number for a size, in many series.

The same number means a different size in each series, so a bare number is refused.
AWG is computed by the formula of ASTM B258, the manufacturers' and the 1893 sheet
gauges from their weights, American wood screws by 0.060 in + 0.013 in times the number;
the rest are printed tables (the CSV files beside this module).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.size.arguments import SizeLike, above_zero, options_by_name
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import as_meant, decimal, read_plain
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import born, rows
from fractions_shop.tables.gauge_records import SERIES, GaugeSeries
from fractions_shop.tables.nearest import neighbours
from fractions_shop.tables.patterns import COUNTRIES, GAUGE_BARE, GAUGE_REFUSED, GAUGE_WORDS, gauge_word

if TYPE_CHECKING:
    from fractions_shop.tables.head_records import ScrewHead
    from fractions_shop.tables.nearby import Nearby


class Gauge(Record):
    """A size in a gauge series: `name` as a maker says it, its `number` as printed, its `size`.

    `series` is a key of SERIES; `source` says where the size is from, `standing` how
    far to trust it (STANDINGS of the tables) and `note` what is odd about it.
    """

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("heads",)

    name: str
    series: str
    number: str
    size: Quantity
    source: str
    standing: str
    note: str = ""

    @property
    def meaning(self) -> str:
        """What the series is, and what it is not to be taken for."""
        return SERIES[self.series].meaning

    @property
    def heads(self) -> tuple[ScrewHead, ...]:
        """The heads of a wood screw, where a table or a rule has them; none of wire and sheet."""
        from fractions_shop.tables.wood_heads import wood_heads  # only a wood screw has any

        return wood_heads(self.series, self.number, self.name)


@cache
def series_gauges(series: str) -> tuple[Gauge, ...]:
    """The gauges of one series, smallest first; ShopError for a word that is no series."""
    if series not in SERIES:
        raise ShopError(f"{series!r} is not a gauge series: {', '.join(SERIES)}")
    return tuple(sorted(_made(SERIES[series]), key=lambda gauge: gauge.size.mm))


@cache
def all_gauges() -> tuple[Gauge, ...]:
    """Every gauge, series by series, each rising in size."""
    return tuple(gauge for series in SERIES for gauge in series_gauges(series))


@options_by_name("gauges('0.048 in'), each size by itself")
def gauges(size: SizeLike) -> Nearby[Gauge]:
    """The gauges next below and above `size` in each series, and the exact one if there is one.

    `size` is a Quantity, a written size, or a gauge by name. `nearest` is the closest SWG,
    the British gauge that stock is sold by, and not the closest of every series. ShopError
    if the size is not above zero.

    >>> near = gauges("0.048 in")
    >>> near["SWG"].exact.name, near["AWG"].below.name, near["AWG"].above.name
    ('18 SWG', '17 AWG', '16 AWG')
    """
    if isinstance(size, str):
        plain = read_plain(size)
        # A bare number goes to find_gauge too, which names the series it might be of.
        size = plain if plain is not None and plain.power else find_gauge(size).size
    asked = above_zero(size, "a gauge's size")
    from fractions_shop.tables.nearby import Nearby  # a gauge by its name needs none of it

    by_series = tuple(neighbours(asked, series, series_gauges(series)) for series in SERIES)
    sources = tuple((series, series_gauges(series)[0].source) for series in SERIES)
    return Nearby(
        asked,
        by_series,
        sources,
        next(series.key for series in SERIES.values() if series.told_first),
        "gauge",
    )


# The series


def _made(series: GaugeSeries) -> Iterator[Gauge]:
    """The gauges of a series, from its table or by its rule."""
    for number, inches in series.made() if series.made else ():
        size = Quantity.inches(inches).resting_on("rule")
        yield Gauge(series.called(number), series.key, number, size, series.rule, "rule")
    for row in rows(series.table) if series.table else ():
        number = row[series.number]
        source = "; ".join(row[column] for column in series.sources if row[column])
        size = born(row, series.inches(row), "in")
        yield Gauge(
            series.called(number), series.key, number, size, source, row["standing"], row["note"]
        )  # fmt: skip


# By name

#: Compiled when the first gauge is asked for by name.
_NAME = (
    rf"(?i)(?:(?P<country>{'|'.join(COUNTRIES)})[ ]+)?"
    r"(?:(?:No\b\.?|number\b|#)[ ]*)?(?P<number>[0-9]{1,2}/0|[0-9]{1,7})[ ]*(?P<words>[A-Za-z][A-Za-z0-9.&' -]*)?"
)
_SERIES_BY_WORD = {gauge_word(word): series for word, series in GAUGE_WORDS.items()}
_REFUSED_BY_WORD = {gauge_word(word): reason for word, reason in GAUGE_REFUSED.items()}


def find_gauge(text: str) -> Gauge:
    """The gauge called `text`: `18 SWG`, `No 8 BWG`, `4/0 AWG`, `16 MSG`, `British No 8 wood screw`.

    Case, blanks and dots are free; 0, 1/0 and 00, 2/0 are the same. SWG is the British
    gauge. A wood screw without a country is the American one (`other_country` gives the other). ShopError for a number without a series, a series that is not known here or
    that has two meanings, and a number that the series does not have, with the nearest that it has.

    >>> find_gauge("No. 8 b.w.g.").name
    '8 BWG'
    """
    match = re.fullmatch(_NAME, " ".join(as_meant(text).split()))
    if match is None:
        raise ShopError(f"{text!r} is not a gauge; write 18 SWG, 22 AWG, 4/0 AWG or US No 8 wood screw")
    said = " ".join(filter(None, (match["country"], match["words"] or "gauge")))
    number, word = match["number"], gauge_word(said)
    if word in GAUGE_BARE:
        raise ShopError(_which(number))
    if word in _REFUSED_BY_WORD:
        raise ShopError(_REFUSED_BY_WORD[word])
    if word not in _SERIES_BY_WORD:
        raise ShopError(f"{said!r} is not a gauge series known here: {', '.join(SERIES)}")
    return _numbered(_SERIES_BY_WORD[word], number)


def other_country(text: str) -> Gauge | None:
    """The wood screw of the other country, when `text` names a wood screw and no country and there is one.

    >>> other_country("No 2 wood screw").name
    'British No 2 wood screw'
    """
    gauge = find_gauge(text)
    series = SERIES[gauge.series]
    if not series.countries or re.search(rf"(?i:\b(?:{'|'.join(COUNTRIES)})\b)", text):
        return None
    others = (other.key for other in SERIES.values() if other.words == series.words and other is not series)
    return next((screw for key in others if (screw := _by_number(key).get(_order(gauge.number)))), None)


@cache
def _by_number(series: str) -> dict[int, Gauge]:
    return {_order(gauge.number): gauge for gauge in series_gauges(series)}


def _order(number: str) -> int:
    """A gauge number as an integer that keeps the order: 2/0 and 00 are -1, 1/0 and 0 are 0."""
    if "/" in number:
        return 1 - int(number.partition("/")[0])
    return 1 - len(number) if set(number) == {"0"} else int(number)


def _numbered(series: str, number: str) -> Gauge:
    known = _by_number(series)
    wanted = _order(number)
    if number.split("/")[0].strip("0") == "" and "/" in number:
        raise ShopError(f"{number} is not a gauge number: write 0, 2/0, 3/0 and so on")
    if wanted in known:
        return known[wanted]
    close = known[min(known, key=lambda n: abs(n - wanted))]
    first, last = known[min(known)].number, known[max(known)].number
    raise ShopError(
        f"there is no {number} in the {series} series: it runs from {first} to {last}, "
        f"and the nearest is {close.name}"
    )


def _which(number: str) -> str:
    """The refusal of a bare number, with what it would be in each series that has it."""
    same_number = (_by_number(series).get(_order(number)) for series in SERIES)
    said = [f"{gauge.name} is {decimal(gauge.size.inch)[0]} in" for gauge in same_number if gauge is not None]
    choices = "; ".join(said) or f"no series has that number: write one of {', '.join(SERIES)}"
    return f"{number} gauge of which series? {choices}"
