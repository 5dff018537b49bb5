"""Threads, gauges and drills by name, as sizes; their tables load when one is named."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Named, Node
from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.size.notation import inch_text, mixed
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.slips import lost_blank

#: A number sign and a number, without a word for what it numbers.
_NUMBER_ALONE = re.compile(r"#([0-9]+)")

#: A size of an inch before the rest of a thread's name.
_FRACTION_FIRST = re.compile(r"[0-9]+/[0-9]+")
#: A taper pipe thread as ISO 7-1 writes it, and a radius as drawings do.
_RADIUS = re.compile(r"R[ ]?([^A-Z\"]+?)\"?")
#: An American thread with x for its dash, and a bar by its two sides.
_BAR = re.compile(r"([^A-Za-z#\"]+?)[ ]*x[ ]*([0-9]+)", re.IGNORECASE)


def named_size(node: Named) -> tuple[Quantity, Note | None]:
    """The size of a thread, gauge or drill by name, and a note on what was taken for it."""
    if node.kind == "gauge":
        from fractions_shop.tables.gauges import find_gauge

        return find_gauge(node.text).size, of_gauge(node.text)
    if node.kind == "drill":
        from fractions_shop.tables.drills import find_drill

        alone = _NUMBER_ALONE.fullmatch(node.text)
        return _numbered_size(node, alone[1]) if alone else (find_drill(node.text).size, None)
    thread = named_thread(node)
    return thread.major, _of_thread(node.text, thread.name)


def of_gauge(text: str) -> Note:
    """What was taken for a gauge by name; a wood screw without its country may be the other country's."""
    from fractions_shop.tables.gauge_records import SERIES
    from fractions_shop.tables.gauges import find_gauge, other_country

    gauge, other = find_gauge(text), other_country(text)
    said = f"{gauge.name}: {gauge.meaning}"
    if gauge.note and SERIES[gauge.series].noted:
        said += f"; {gauge.note}"
    if other is None:
        return echo(said)
    odd = f" ({other.note})" if other.note else ""
    if other.size == gauge.size:
        return echo(f"{said}; {other.name} has the same size{odd}")
    words = f"read as {gauge.name}, {inch_text(gauge.size)}; {other.name} is {inch_text(other.size)}{odd}"
    return doubt(words, gauge.name, other.name)


def _numbered_size(node: Named, number: str) -> tuple[Quantity, Note]:
    """The size of `#90` alone, when there is one thing of that number; Fault naming them when there are more."""
    sizes = numbered(number)
    if not sizes:
        raise Fault(f"no drill, screw or gauge has the number {number}", node.start, node.end)
    if len(sizes) == 1:
        (name, size), *_ = sizes.items()
        return size, echo(f"read as {name}, the only thing of that number")
    choices = ", ".join(f"{name} is {inch_text(size)}" for name, size in sizes.items())
    raise Fault(
        f"{node.text} may be a drill, a screw or a gauge: {choices}", node.start, node.end,
        write(*(Offer(name, worked=True) for name in sizes)),
    )  # fmt: skip


def numbered(number: str, screws_only: bool = False) -> dict[str, Quantity]:
    """What there is of a number, with its size: `No 8 drill`, `No 8-32 UNC`, `8 BA`, `8 SWG`."""
    from fractions_shop.tables.drills import find_drill
    from fractions_shop.tables.gauge_records import SERIES
    from fractions_shop.tables.gauges import find_gauge
    from fractions_shop.threads.lookup import thread, threads_named
    from fractions_shop.threads.records import SERIES as THREAD_SERIES

    sizes: dict[str, Quantity] = {}
    if not screws_only:
        with suppress(ShopError):
            sizes[f"No {int(number)} drill"] = find_drill(f"No {number} drill").size
    with suppress(ShopError):  # not every number is a screw's
        sizes |= {screw.name: screw.major for screw in threads_named(f"No {number}")}
    for of_threads in THREAD_SERIES:
        if of_threads.size_is == "number" and not of_threads.rare:
            with suppress(ShopError):
                screw = thread(of_threads.style.format(size=int(number)))
                sizes[screw.name] = screw.major
    for key, series in SERIES.items():
        if screws_only and not series.screw:
            continue
        with suppress(ShopError):
            gauge = find_gauge(f"{number} {key}")
            sizes[gauge.name] = gauge.size
    return sizes


def _of_thread(text: str, name: str) -> Note:
    """What was taken for a thread by name: R1/4 is also a radius, and 1/2 x 12 the sides of a bar."""
    said = f"{name} stands for its major diameter"
    taken, lost = f"major({name})", _with_its_blank(text)
    if lost:
        return doubt(f"{said}; {lost} may have lost its blank", taken, f"major({lost})")
    radius, bar = _RADIUS.fullmatch(text), _BAR.fullmatch(text)
    if radius is not None:
        size = radius[1]
        return doubt(f"{said}; for a radius write {size} in", taken, f"{size} in", f"{size} mm")
    if bar is not None:
        return doubt(f"{said}; two sides, {bar[1]} by {bar[2]}, are written each by itself", taken)
    return echo(said)


def _with_its_blank(text: str) -> str:
    """The thread whose improper size, 11/8 BSW, has lost its blank, if there is one of that name; else empty."""
    size = _FRACTION_FIRST.match(text)
    other = None if size is None else lost_blank(size[0])
    if size is None or other is None:
        return ""
    from fractions_shop.threads.lookup import thread

    lost = f"{mixed(other)}{text[size.end() :]}"
    with suppress(ShopError):
        thread(lost)
        return lost
    return ""


def named_alone(node: Node) -> tuple[str, Any] | None:
    """The request, and its result, that the name of a thread or a wood screw alone asks for: all its figures."""
    if isinstance(node, Named) and node.kind == "thread":
        return "thread", named_thread(node)
    if isinstance(node, Named) and node.kind == "gauge":
        from fractions_shop.tables.gauge_records import SERIES
        from fractions_shop.tables.gauges import find_gauge

        gauge = find_gauge(node.text)
        return ("gauge", gauge) if SERIES[gauge.series].screw else None
    return None


def named_thread(node: Node) -> Any:
    """The thread that a node names; Fault for anything else."""
    from fractions_shop.threads.lookup import thread

    if isinstance(node, Named) and node.kind == "gauge":
        _refuse_screw(node)
    if not isinstance(node, Named) or node.kind != "thread":
        raise Fault(
            "this is not the name of a thread", node.start, node.end, "write it like 6 BA, 1/4 BSW or M3"
        )
    return thread(node.text)


def _refuse_screw(node: Named) -> None:
    """Fault for a screw that its shank names, as a wood screw is: no table of its holes was read."""
    from fractions_shop.tables.gauge_records import SERIES
    from fractions_shop.tables.gauges import find_gauge

    if SERIES[find_gauge(node.text).series].screw:
        raise Fault(
            "this screw is told by its shank, and of its holes no table was read", node.start, node.end,
            write(
                Offer(f"{node.text} + 5 thou", " for a hole that clears it", completes=True),
                lead="take the shank and a little, such as ",
            ),
        )  # fmt: skip


def refuse_screw_number(node: Node, text: str) -> None:
    """Fault for `10-32`, a sum, where the screw No 10-32 must have been meant; `text` is the line."""
    from fractions_shop.threads.lookup import exists

    numbered_screw = f"No {text[node.start : node.end]}"
    if isinstance(node, Binary) and exists(numbered_screw):
        raise Fault(
            "this is a subtraction, and not the name of a thread", node.start, node.end,
            write(Offer(numbered_screw, " for the screw")),
        )  # fmt: skip
