"""thread, identify, substitute, drill and gauge."""

from __future__ import annotations

import re
from typing import Any

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.arithmetic import Value, kind_name
from fractions_shop.language.evaluate import as_size
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Named
from fractions_shop.requests.asked import Asked
from fractions_shop.size.quantity import Quantity


def _thread(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.threads.lookup import thread

    found = thread(asked.word(0))
    return found, found.major


def _substitute(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.threads.substitute import substitute

    name, _, series = re.sub(r"\s+from\s+", "\0", asked.word(0), flags=re.IGNORECASE).partition("\0")
    return substitute(name, series or None), None


def _identify(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.threads.identify import identify

    node = asked.subject(1)
    pitch = as_size(asked.value(node), node)
    if pitch.power not in (1, -1):
        raise Fault(
            f"this is a {kind_name(pitch)}, where a pitch is needed", node.start, node.end,
            "write 0.9 mm, or 26 tpi for threads to the inch",
        )  # fmt: skip
    return identify(asked.length(0), pitch), None


def _drill(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.tables.drills import drills

    found = drills(asked.length(0))
    return found, found.nearest.size


def _gauge(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.tables.gauges import find_gauge, gauges

    node = asked.subject(0)
    if isinstance(node, Named) and node.kind == "gauge":
        gauge = find_gauge(node.text)
        return gauge, gauge.size
    value = asked.value(node)
    if isinstance(value, Quantity) and value.power == 0:
        number = asked.text[node.start : node.end]
        try:
            find_gauge(f"{number} gauge")
        except InputError as error:
            raise Fault(error.message, node.start, node.end, error.advice) from None
        except ShopError as error:
            raise Fault(str(error), node.start, node.end) from None
    found = gauges(asked.length(0))
    return found, found.nearest.size


ANSWERS = {
    "thread": _thread,
    "identify": _identify,
    "substitute": _substitute,
    "drill": _drill,
    "gauge": _gauge,
}
