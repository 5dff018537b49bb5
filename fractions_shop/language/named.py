"""Threads, gauges and drills by name, as sizes; their tables load when one is named."""

from __future__ import annotations

from typing import Any

from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Named, Node
from fractions_shop.size.quantity import Quantity


def named_size(node: Named) -> tuple[Quantity, str]:
    """The size of a thread, gauge or drill by name, and a sentence on what was taken for it."""
    from fractions_shop.tables.drills import find_drill
    from fractions_shop.tables.gauges import find_gauge

    if node.kind == "gauge":
        gauge = find_gauge(node.text)
        return gauge.size, f"{gauge.name}: {gauge.meaning}"
    if node.kind == "drill":
        drill = find_drill(node.text)
        return drill.size, ""
    found = named_thread(node)
    return (
        found.major,
        f"{found.name} stands for its major diameter; write thread {found.name} for its figures",
    )


def named_thread(node: Node) -> Any:
    """The thread that a node names; Fault for anything else."""
    from fractions_shop.threads.lookup import thread

    if not isinstance(node, Named) or node.kind != "thread":
        raise Fault(
            "this is not the name of a thread", node.start, node.end, "write it like 6 BA, 1/4 BSW or M3"
        )
    return thread(node.text)
