"""Threads, gauges and drills by name, as sizes; their tables load when one is named."""

from __future__ import annotations

import re
from typing import Any

from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Named, Node
from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.size.quantity import Quantity

#: A taper pipe thread as ISO 7-1 writes it, and a radius as drawings do.
_RADIUS = re.compile(r"R[ ]?([^A-Z\"]+?)\"?")
#: An American thread with x for its dash, and a bar by its two sides.
_BAR = re.compile(r"([^A-Za-z#\"]+?)[ ]*x[ ]*([0-9]+)", re.IGNORECASE)


def named_size(node: Named) -> tuple[Quantity, Note | None]:
    """The size of a thread, gauge or drill by name, and a note on what was taken for it."""
    from fractions_shop.tables.drills import find_drill
    from fractions_shop.tables.gauges import find_gauge

    if node.kind == "gauge":
        gauge = find_gauge(node.text)
        return gauge.size, echo(f"{gauge.name}: {gauge.meaning}")
    if node.kind == "drill":
        drill = find_drill(node.text)
        return drill.size, None
    found = named_thread(node)
    return found.major, _of_thread(node.text, found.name)


def _of_thread(text: str, name: str) -> Note:
    """What was taken for a thread by name: R1/4 is also a radius, and 1/2 x 12 the sides of a bar."""
    said = f"{name} stands for its major diameter; write thread {name} for its figures"
    taken = f"major({name})"
    radius, bar = _RADIUS.fullmatch(text), _BAR.fullmatch(text)
    if radius is not None:
        size = radius[1]
        return doubt(f"{said}; for a radius write {size} in", taken, f"{size} in", f"{size} mm")
    if bar is not None:
        return doubt(f"{said}; two sides, {bar[1]} by {bar[2]}, are written each by itself", taken)
    return echo(said)


def named_thread(node: Node) -> Any:
    """The thread that a node names; Fault for anything else."""
    from fractions_shop.threads.lookup import thread

    if not isinstance(node, Named) or node.kind != "thread":
        raise Fault(
            "this is not the name of a thread", node.start, node.end, "write it like 6 BA, 1/4 BSW or M3"
        )
    return thread(node.text)
