"""Head sizes of screws by their thread, where a table was read; nothing is guessed for the rest."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.quantity import Quantity
from fractions_shop.tables import heads as metric_heads
from fractions_shop.tables import rows
from fractions_shop.tables.heads import Dimension, Head

_BA_FLATS = Fraction("1.75")
_BA_SOURCE = "1.75 times the major diameter: two encyclopaedia pages on British Association threads"
_BA_NOTE = "a rule; BS 57 gives the tolerances, and its tables were not read"


def heads(series: str, size: str, name: str, major: Quantity) -> tuple[Head, ...]:
    """The heads known for one size of a series; empty where none was read.

    BA hexagons by rule, BSW and BSF hexagons from BS 1083 (and the older, larger ones),
    metric screws from M1.6 to M12 from the ISO product standards.
    """
    if series == "BA":
        flats = Dimension("across flats, nominal", major * _BA_FLATS, _BA_SOURCE, "rule", _BA_NOTE)
        return (Head("trade rule", "hexagon head", name, (flats,)),)
    if series in ("M", "M fine"):
        try:
            return metric_heads.heads(f"M{size}")
        except ShopError:
            return ()
    return _british().get((series, size), ())


@cache
def _british() -> dict[tuple[str, str], tuple[Head, ...]]:
    found: dict[tuple[str, str], dict[tuple[str, str], list[Dimension]]] = {}
    for row in rows("thread_heads_in"):
        kinds = found.setdefault((row["series"], row["size"]), {})
        dimensions = kinds.setdefault((row["standard"], row["head"]), [])
        for limit, word in (("max_in", "maximum"), ("min_in", "minimum")):
            if row[limit]:
                size = Quantity.inches(Fraction(row[limit]))
                label = f"{row['dimension']}, {word}"
                dimensions.append(Dimension(label, size, row["source"], row["standing"], row["note"]))
    return {
        key: tuple(
            Head(standard, kind, f"{key[1]} {key[0]}", tuple(dimensions))
            for (standard, kind), dimensions in kinds.items()
        )
        for key, kinds in found.items()
    }
