"""The answers to thread, identify, substitute, drill and gauge in words."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.figure import as_fraction, in_decimals, in_mm
from fractions_shop.figures.table import Cell, Piece, Table, in_prose
from fractions_shop.show.words import Lines, both, both_cell, over_under, signed_cell
from fractions_shop.size.notation import decimal, readable

Words = Callable[[Any], Cell]
#: Diameters are given to this many places: a ten-thousandth of an inch is what is printed.
_PLACES = 4


def _both_cell(size: Any, metric: bool = False) -> Cell:
    inches, mm = in_decimals(size.inch, "in", _PLACES), in_mm(size, _PLACES)
    return Cell("size", (mm,), (inches,)) if metric else Cell("size", (inches,), (mm,))


def _both(size: Any) -> str:
    return in_prose(_both_cell(size))


def _said(*parts: Cell | Piece) -> Cell:
    """Sizes with words before and behind, as one cell."""
    pieces: list[Piece] = []
    for part in parts:
        pieces += [*part.pieces, " (", *part.beside, ")"] if isinstance(part, Cell) else [part]
    return Cell("size", tuple(pieces))


def _percent(value: Fraction) -> str:
    return f"{decimal(value, 0)[0]} %"


def thread_lines(thread: Any) -> Lines:
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


def _own_unit_first(thread: Any) -> Words:
    """A size in words, millimetres first for a thread whose standard is metric."""
    metric = thread.system == "metric"
    return lambda size: _both_cell(size, metric)


def _head_rows(thread: Any) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
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
        said.append(in_decimals(size.in_unit(unit), unit, _PLACES).without_unit())
    return said


def _tpi(thread: Any) -> tuple[Piece, Piece]:
    tpi = thread.tpi
    whole = readable(tpi) and tpi.denominator < 9
    return ", ", as_fraction(tpi, "tpi") if whole else in_decimals(tpi, "tpi", 2)


def _hole_rows(thread: Any, both: Words) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
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


def _clearances(thread: Any) -> list[tuple[str, Any]]:
    try:
        return [(fit, thread.clearance(fit)) for fit in ("close", "medium", "free")]
    except NoAnswer:
        return []


def _hole_sources(thread: Any) -> list[tuple[str, str]]:
    """Where the printed holes are from; a taper thread's drill has the source of the thread."""
    found = [(f"{fit} hole", hole.source) for fit, hole in _clearances(thread) if hole.rule == "as printed"]
    source = "" if thread.taper else thread.tapping().source
    return [("tapping drill", source), *found] if source else found


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


def _over_wires(thread: Any, both: Words) -> Cell | str:
    if thread.taper:
        return ""
    over = both(thread.over_wires())
    return Cell("size", ("over them ", *over.pieces), over.beside)


def identify_lines(result: Any) -> Lines:
    """The threads that two readings may mean, best first, and what passes for them."""
    lines: Lines = [f"major {both(result.major, 5)} and pitch {both(result.pitch, 5)} may be"]
    rows = tuple(
        (
            c.thread.name,
            signed_cell(c.major_off),
            signed_cell(c.pitch_off),
            "likely" if c.likely else "doubtful",
        )
        for c in result.candidates
    )
    lines.append(Table(rows, ("", "major reads", "pitch reads", "")))
    lines += [f"{c.thread.name}: {c.remark}" for c in result.candidates[:3]]
    best = result.candidates[0]
    if best.lookalikes:
        lines.append(f"{best.thread.name} is easily taken for")
        lines += [f"  {_alike(one)}" for one in best.lookalikes[:4]]
    return [*lines, f"caution: {result.caution}"]


def _alike(one: Any) -> str:
    angle = "" if one.same_angle else ", another angle"
    if one.half_pitch_after is None:
        return f"{one.thread.name}: the same pitch{angle}"
    return f"{one.thread.name}: half a thread out after {one.half_pitch_after} turns{angle}"


def substitute_lines(result: Any) -> Lines:
    """What may stand in, as it is, after re-tapping, and in a bush."""
    lines: Lines = [f"in place of {result.old.name}, {_both(result.old.major)} x {_both(result.old.pitch)}"]
    for one in result.candidates:
        lines.append(
            f"{one.thread.name}: major {over_under(one.major_off, 4)}, pitch {over_under(one.pitch_off, 4)}"
        )
        lines.append(f"  as it is: {one.as_it_is.fit}; {'; '.join(one.as_it_is.happens)}")
        lines.append(f"  re-tapped: {one.retap.verdict}; {one.retap.happens}")
        lines.append(f"  bushed: {one.bush.happens}")
    best = ", ".join(one.thread.name for one in result.for_retapping[:4])
    if best:
        lines.append(f"best for re-tapping the old hole: {best}")
    return [*lines, f"caution: {result.caution}"]


def drill_lines(result: Any) -> Lines:
    """The nearest below and above, or the exact one, in every series of drills or gauges."""
    rows = tuple(row for near in result.values() for row in _stock_rows(near))
    return [f"{both(result.asked)}; the nearest is {result.nearest.name}", Table(rows)]


def _stock_rows(near: Any) -> list[tuple[Cell | str, ...]]:
    if near.exact is not None:
        return [(near.series, near.exact.name, both_cell(near.exact.size), "exact")]
    sides = ((near.below, near.below_error, "none smaller"), (near.above, near.above_error, "none larger"))
    return [
        (near.series if n == 0 else "", none, "", "") if stock is None
        else (near.series if n == 0 else "", stock.name, both_cell(stock.size, 5), signed_cell(error))
        for n, (stock, error, none) in enumerate(sides)
    ]  # fmt: skip


def gauge_lines(result: Any) -> Lines:
    """One gauge's size, or the nearest in every series."""
    if not hasattr(result, "number"):
        return _gauges_about(result)
    lines: Lines = [f"{result.name}: {both(result.size)}, {result.meaning}", f"source: {result.source}"]
    if result.standing not in ("printed", "rule"):
        lines.append(f"note: this figure is {result.standing}")
    return lines + ([f"note: {result.note}"] if result.note else [])


def _gauges_about(result: Any) -> Lines:
    """The nearest SWG, whose size the line stands for, the nearest AWG, and every series."""
    taken, other = result.nearest, result["AWG"].nearest
    rows = tuple(row for near in result.values() for row in _stock_rows(near))
    return [
        both(result.asked),
        f"nearest SWG: {_told(taken, result.asked)}; this line stands for that size",
        f"nearest AWG: {_told(other, result.asked)}",
        Table(rows),
    ]


def _told(gauge: Any, asked: Any) -> str:
    return f"{gauge.name}, {both(gauge.size, 5)}, {over_under(gauge.size - asked, 4)}"
