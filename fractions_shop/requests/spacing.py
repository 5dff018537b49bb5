"""snap, divide and mark."""

from __future__ import annotations

from typing import Any

from fractions_shop.language.arithmetic import Value
from fractions_shop.layout.spacing import divide, mark
from fractions_shop.requests.asked import Asked
from fractions_shop.size.rule import snap

#: More marks than this are no answer that a person reads; the library sets out ten thousand.
MOST_MARKS = 500


def _snap(asked: Asked) -> tuple[Any, Value | None]:
    size = asked.length(0)
    found = snap(
        size, asked.rule_after("to"), direction=asked.direction, within=asked.optional_length("within")
    )
    return found, found.size


def _divide(asked: Asked) -> tuple[Any, Value | None]:
    found = divide(
        asked.length(0),
        asked.whole(1),
        asked.rule_after("on"),
        direction=asked.direction,
        ends=asked.optional_length("leaving"),
        bodies=asked.optional_length("between"),
    )
    return found, found.space


def _mark(asked: Asked) -> tuple[Any, Value | None]:
    count = asked.at_most(1, MOST_MARKS, "spaces")
    found = mark(asked.length(0), count, asked.rule_after("on"), start=asked.optional_length("from"))
    return found, None


ANSWERS = {"snap": _snap, "divide": _divide, "mark": _mark}
