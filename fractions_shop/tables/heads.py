"""Head sizes of metric screws (M1.6 to M12) and of wood screws, with washers.

Every figure keeps its own source and standing: the two diameters of a countersunk
metric head are from memory, and where two sources differ the note says what the other
one prints.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import as_meant
from fractions_shop.tables import born, rows
from fractions_shop.tables.head_records import Dimension, ScrewHead

_METRIC = r"(?i)M[ ]?([0-9]{1,3}(?:\.[0-9]{1,3})?)(?:[ ]*[x×*][ ]*[0-9.]+)?"


def heads(text: str) -> tuple[ScrewHead, ...]:
    """The heads that a screw called `text` (`M3`, `M3 x 0.5`, `US No 8 wood screw`) may have.

    ShopError if `text` is no such screw, or there is no table for its size, with the
    nearest size that there is.

    >>> {head.standard: head["across flats"].size.mm for head in heads("M6") if head.kind == "hexagon head"}
    {'ISO 4014': Fraction(10, 1)}
    """
    plain = as_meant(text).strip()
    match = re.fullmatch(_METRIC, plain)
    if match is None:
        return (_wood_head(plain),)
    known = _metric_rows()
    wanted = Fraction(match[1])
    if wanted not in known:
        close = min(known, key=lambda size: abs(size - wanted))
        raise ShopError(f"there is no table of heads for {plain}: the nearest is {known[close][0]['size']}")
    return _metric(wanted)


@cache
def _metric_rows() -> dict[Fraction, list[dict[str, str]]]:
    """The rows of the table by the diameter after the M."""
    sizes: dict[str, list[dict[str, str]]] = {}
    for row in rows("screw_heads_metric"):
        sizes.setdefault(row["size"], []).append(row)
    return {Fraction(size.removeprefix("M")): of_size for size, of_size in sizes.items()}


@cache
def _metric(size: Fraction) -> tuple[ScrewHead, ...]:
    """The heads of one diameter, in the order of the table."""
    dimensions_of: dict[tuple[str, str, str], list[Dimension]] = {}
    for row in _metric_rows()[size]:
        dimensions_of.setdefault((row["standard"], row["head"], row["size"]), []).append(_dimension(row))
    return tuple(ScrewHead(*head, tuple(dimensions)) for head, dimensions in dimensions_of.items())


def _dimension(row: dict[str, str]) -> Dimension:
    size = born(row, Fraction(row["value_mm"]), "mm")
    source = "; ".join(filter(None, (row["source"], row["second_source"])))
    return Dimension(row["dimension"], size, source, row["standing"], row["note"])


def _wood_head(text: str) -> ScrewHead:
    if not re.search(r"wood[ ]*screw", text, re.IGNORECASE):
        raise ShopError(f"{text!r} is not a screw with a table of heads here: write M3 or US No 8 wood screw")
    from fractions_shop.tables.gauges import find_gauge  # metric screws need none of it

    gauge = find_gauge(text)
    if not gauge.heads:
        raise ShopError(f"there is no head size for a {gauge.name}: it is {gauge.note}")
    return gauge.heads[0]
