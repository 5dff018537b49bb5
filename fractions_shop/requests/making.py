"""recover, crown, pack and fit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language.arithmetic import Value
from fractions_shop.language.evaluate import as_length
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Node, Text
from fractions_shop.language.notes import doubt
from fractions_shop.requests.asked import Asked
from fractions_shop.size.quantity import Quantity

#: What one answer can weigh or show while it is waited for; the library takes more.
MOST_READINGS, MOST_AMONG, MOST_SUPPORTS = 12, 3, 100


def _recover(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.meant.recover import recover

    option = asked.option("among")
    most = MOST_READINGS if option is None else MOST_AMONG
    if len(asked.request.subjects) > most:
        node = asked.subject(most)
        raise Fault(
            f"at most {most} readings are weighed in one line{' among tables' if option else ''}",
            node.start, node.end, "weigh them in groups: what holds for all shows in each",
        )  # fmt: skip
    readings = [_reading(asked, node) for node in asked.request.subjects]
    tables = option.value.text.split(", ") if option and isinstance(option.value, Text) else []
    within, worn = asked.optional_length("within"), asked.optional_length("worn")
    found = recover(readings[0] if len(readings) == 1 else readings, within=within, worn=worn, among=tables)
    best = found.candidates[0] if len(readings) == 1 and found.candidates else None
    if best is not None and best.probability < 0.5:
        asked.evaluator.note(
            doubt(f"{best.name} is the likeliest, yet likelier wrong than right: take more readings")
        )
    return found, None if best is None else best.size


def _reading(asked: Asked, node: Node) -> Quantity:
    """A reading, trusted as finely as it was written."""
    from fractions_shop.meant.readings import written_within

    size = as_length(asked.value(node), node)
    written = asked.written(node)
    if written is None or size.within is not None:
        return size
    try:
        return replace(size, within=written_within(written))
    except ShopError:
        return size


def _crown(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.layout.curve import crown

    found = crown(
        asked.at_most(0, MOST_SUPPORTS, "supports"),
        across=asked.length(1),
        radius=asked.length(2),
        tallest=asked.optional_length("from"),
        rule=asked.rule_after("on"),
    )
    return found, None


def _pack(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.layout.packing import pack

    stock = [asked.length(place) for place in range(1, len(asked.request.subjects))]
    found = pack(asked.length(0), stock, each_once=asked.option("each") is not None)
    return found, found.total


def _fit(asked: Asked) -> tuple[Any, Value | None]:
    from fractions_shop.layout.fits import fit
    from fractions_shop.layout.zones import Zone

    size, name = asked.length(0), asked.word(1)
    node = asked.subject(1)
    try:
        found = fit(size, name)
    except ShopError as error:
        raise Fault(str(error), node.start, node.end, "write it like this: fit 10 mm H7/g6") from None
    return found, found.limits if isinstance(found, Zone) else None


ANSWERS = {"recover": _recover, "crown": _crown, "pack": _pack, "fit": _fit}
