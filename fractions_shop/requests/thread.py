"""thread: the figures of a thread."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.figure import as_fraction, in_decimals
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Piece, Table
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.thread_figures import PLACES, in_both
from fractions_shop.size.notation import decimal, readable
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.threads.thread import Thread


def _answer(given: Inputs) -> tuple[Thread, Quantity]:
    from fractions_shop.threads.lookup import thread

    result = thread(given.word(0))
    return result, result.major


Words = Callable[[Quantity], Cell]


def _said(*parts: Cell | Piece) -> Cell:
    """Sizes with words before and behind, as one cell."""
    pieces: list[Piece] = []
    for part in parts:
        pieces += [*part.pieces, " (", *part.beside, ")"] if isinstance(part, Cell) else [part]
    return Cell("size", tuple(pieces))


def _percent(value: Fraction) -> str:
    return f"{decimal(value, 0)[0]} %"


def _lines(thread: Thread) -> Lines:
    """A thread's figures, its drills and heads, its source and the caution."""
    both = _own_unit_first(thread)
    wire = both(thread.best_wire)
    pitch = _said(both(thread.pitch), *_tpi(thread))
    rows: list[tuple[Cell | str, Cell | str, Cell | str]] = [
        ("major", both(thread.major), ""),
        ("pitch", pitch, ""),
        ("effective", both(thread.effective), ""),
        ("minor", both(thread.minor), thread.minor_convention),
        ("depth", both(thread.depth), "on one side"),
        ("angle", f"{decimal(thread.angle.degrees, 2)[0]} deg", "tapers 1 in 16" if thread.taper else ""),
        *_hole_rows(thread, both),
        ("wires", Cell("size", ("best ", *wire.pieces), wire.beside), _over_wires(thread, both)),
    ]
    if thread.stress_area is not None:
        area = thread.stress_area
        rows.append(
            ("stress area", Cell("size", (in_decimals(area.in_unit("in"), "in^2", 5),),
                                 (in_decimals(area.value, "mm^2", 2),)), "")
        )  # fmt: skip
    rows += _head_rows(thread)
    lines: Lines = [f"{thread.name}", Table(tuple(rows))]
    lines += [f"note: {note}" for note in thread.notes]
    lines.append(f"source: {thread.source}" + ("" if thread.standing == "rule" else f" ({thread.standing})"))
    lines += [f"source: {what}: {where}" for what, where in _hole_sources(thread)]
    lines.append(f"caution: {thread.caution}")
    return lines


def _own_unit_first(thread: Thread) -> Words:
    """A size in words, millimetres first for a thread whose standard is metric."""
    metric = thread.system == "metric"
    return lambda size: in_both(size, metric)


def _head_rows(thread: Thread) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
    """One line for each kind of head, its dimensions one after another in the thread's own unit."""
    unit = "mm" if thread.system == "metric" else "in"
    kinds: dict[str, list[Piece]] = {}
    for head in thread.heads:
        said = kinds.setdefault(head.kind, [])
        said += [", "] if said else []
        said += _dimension(head, unit)
    return [(kind, Cell("size", (*said, f" {unit}")), "") for kind, said in kinds.items()]


def _dimension(head: Any, unit: str) -> list[Piece]:
    ends = [size for size in (head.smallest, head.largest) if size is not None]
    name = head.dimension.removeprefix("head ").replace(", maximum", " max").replace(", minimum", " min")
    said: list[Piece] = [f"{name.replace(', nominal', '')} "]
    for n, size in enumerate(ends):
        said += [" to "] if n else []
        said.append(in_decimals(size.in_unit(unit), unit, PLACES).without_unit())
    return said


def _tpi(thread: Thread) -> tuple[Piece, Piece]:
    tpi = thread.tpi
    whole = readable(tpi) and tpi.denominator < 9
    return ", ", as_fraction(tpi, "tpi") if whole else in_decimals(tpi, "tpi", 2)


def _hole_rows(thread: Thread, both: Words) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
    rows: list[tuple[Cell | str, Cell | str, Cell | str]] = []
    try:
        tap = thread.tapping()
        rows.append(("tapping", _with_drill(tap, both), _about_tapping(tap)))
    except NoAnswer as error:
        rows.append(("tapping", "none", str(error)))
    before = ""
    for fit, hole in _clearances(thread):
        rule = "likewise" if hole.rule == before else hole.rule
        beside = f"; {hole.beside}" if fit == "medium" and hole.beside else ""
        rows.append((f"clearance, {fit}", _with_drill(hole, both), f"{rule}{beside}"))
        before = hole.rule
    return rows


def _clearances(thread: Thread) -> list[tuple[str, Any]]:
    try:
        return [(fit, thread.clearance(fit)) for fit in ("close", "medium", "free")]
    except NoAnswer:
        return []


def _hole_sources(thread: Thread) -> list[tuple[str, str]]:
    """Where the printed holes are from; a taper thread's drill has the source of the thread."""
    clearances = [
        (f"{fit} hole", hole.source) for fit, hole in _clearances(thread) if hole.rule == "as printed"
    ]
    source = "" if thread.taper else thread.tapping().source
    return [("tapping drill", source), *clearances] if source else clearances


def _with_drill(hole: Any, both: Words) -> Cell:
    """A hole's size, and the drill for it where its name says more."""
    size = both(hole.size)
    if hole.drill is None or (hole.drill.size == hole.size and hole.drill.series == "metric"):
        return size
    return Cell("size", (f"{hole.drill.name} drill, ", *size.pieces), size.beside)


def _about_tapping(tap: Any) -> str:
    from fractions_shop.threads.holes import thread_left

    left = thread_left(tap.on_each) if tap.on_each else ""
    return "; ".join(filter(None, (left, tap.rule, tap.note, tap.beside)))


def _over_wires(thread: Thread, both: Words) -> Cell | str:
    if thread.taper:
        return ""
    over = both(thread.over_wires())
    return Cell("size", ("over them ", *over.pieces), over.beside)


def _gist(result: Thread, lines: list[str]) -> list[str]:
    return lines[1:4]


ROOM = Room(
    word="thread",
    forms=("thread NAME",),
    example="thread 6 BA",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
