"""gauge: one gauge, or the nearest of wire and sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.errors import InputError, ShopError
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    both,
    over_under,
)
from fractions_shop.language.fault import Fault
from fractions_shop.language.named import of_gauge
from fractions_shop.language.nodes import Named
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.stock_rows import source_line, source_lines, stock_rows
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_words

if TYPE_CHECKING:
    from fractions_shop.tables.gauges import Gauge
    from fractions_shop.tables.nearby import Nearby


def _answer(given: Inputs) -> tuple[Gauge | Nearby[Gauge], Quantity]:
    from fractions_shop.tables.gauges import find_gauge, gauges, other_country

    node = given.subject(0)
    if isinstance(node, Named) and node.kind == "gauge":
        gauge = find_gauge(node.text)
        if other_country(node.text) is not None:
            given.evaluator.note(of_gauge(node.text))
        return gauge, gauge.size
    value = given.value(node)
    if isinstance(value, Quantity) and value.power == 0:
        number = given.text[node.start : node.end]
        try:
            find_gauge(f"{number} gauge")
        except InputError as error:
            raise Fault(error.message, node.start, node.end, error.advice) from None
        except ShopError as error:
            raise Fault(str(error), node.start, node.end) from None
    result = gauges(given.length(0))
    return result, result.nearest.size


def _lines(result: Gauge | Nearby[Gauge]) -> Lines:
    """One gauge's size, or the nearest in every series."""
    from fractions_shop.tables.gauges import Gauge

    if not isinstance(result, Gauge):
        return _gauges_about(result)
    lines: Lines = [
        f"{result.name}: {both(result.size)}; {result.meaning}",
        *_heads(result),
        source_line(result.source, result.standing),
    ]
    return lines + ([f"note: {result.note}"] if result.note else [])


def _heads(gauge: Gauge) -> Lines:
    """The head of a wood screw, where its table or rule gives one."""
    from fractions_shop.tables.gauge_records import SERIES

    if not SERIES[gauge.series].screw:
        return []
    if not gauge.heads:
        return ["no size of its head was read"]
    (head,) = gauge.heads
    rows = tuple((f"{head.kind}, {each.name}", both(each.size)) for each in head.dimensions)
    sources = dict.fromkeys((each.source, each.standing) for each in head.dimensions)
    heard = "; ".join(f"{source} ({in_words(standing)})" for source, standing in sources)
    return [Table(rows), f"head, {head.standard}: {heard}"]


def _gauges_about(result: Nearby[Gauge]) -> Lines:
    """The nearest of the first series, whose size the line stands for, of another, and of every series."""
    from fractions_shop.tables.gauge_records import SERIES

    taken, *others = (key for key, series in SERIES.items() if series.told_first)
    rows = tuple(row for near in result.values() for row in stock_rows(near))
    return [
        both(result.asked),
        f"nearest {taken}: {_told(result.nearest, result.asked)}; a name given to this line takes that size",
        *(f"nearest {key}: {_told(result[key].nearest, result.asked)}" for key in others),
        Table(rows),
        *source_lines(result),
    ]


def _told(gauge: Gauge, asked: Quantity) -> str:
    return f"{gauge.name}, {both(gauge.size, 5)}, {over_under(gauge.size - asked, 4)}"


def _gist(result: Gauge | Nearby[Gauge], lines: list[str]) -> list[str]:
    from fractions_shop.tables.gauge_records import SERIES
    from fractions_shop.tables.gauges import Gauge

    if isinstance(result, Gauge):
        return []
    first = [result[key].nearest for key, series in SERIES.items() if series.told_first]
    return [f"nearest {_told(gauge, result.asked)}" for gauge in first]


ROOM = Room(
    word="gauge",
    forms=("gauge SIZE",),
    example="gauge 1.2 mm",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
