"""thread: the figures of a thread."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import NoAnswer
from fractions_shop.figures.figure import as_fraction, in_decimals
from fractions_shop.figures.plain import Caution, Lines
from fractions_shop.figures.table import Cell, Piece, Table, in_prose
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.thread_figures import PLACES, in_both
from fractions_shop.size.notation import decimal, readable
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_brackets, in_words, is_sound

if TYPE_CHECKING:
    from fractions_shop.threads.clearance import ClearanceHole
    from fractions_shop.threads.heads import Head
    from fractions_shop.threads.holes import TappingDrill
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
        beside = [" (", *part.beside, ")"] if isinstance(part, Cell) and part.beside else []
        pieces += [*part.pieces, *beside] if isinstance(part, Cell) else [part]
    return Cell("size", tuple(pieces))


def _percent(value: Fraction) -> str:
    return f"{decimal(value, 0)[0]} %"


def _lines(thread: Thread) -> Lines:
    """What is wanted most comes first: major and pitch, tapping, clearance, spanner; then the rest."""
    lines: Lines = [*_lead(thread), Table(tuple(_rest(thread)))]
    lines += [f"note: {note}" for note in (*thread.notes, *_head_notes(thread))]
    lines.append(f"source: {'; '.join(_sources(thread))}")
    lines.append(Caution(f"caution: {thread.caution}", thread.name))
    return lines


def _lead(thread: Thread) -> Lines:
    """Major and pitch, the tapping and the clearance drill and the spanner, a line each."""
    both = _own_unit_first(thread)
    pitch = _said(both(thread.pitch), *_tpi(thread))
    major = _said("major ", both(thread.major), ", pitch ", *pitch.pieces)
    return [
        Table(
            (
                (thread.name, major, ""),
                _tapping_row(thread, both),
                _clearance_row(thread, both),
                ("spanner", _spanner(thread, both), ""),
            )
        )
    ]


def _rest(thread: Thread) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
    """The rows of all other figures."""
    both = _own_unit_first(thread)
    wire = both(thread.best_wire)
    rows: list[tuple[Cell | str, Cell | str, Cell | str]] = [
        ("effective", both(thread.effective), ""),
        *_minor_rows(thread, both),
        ("angle", f"{decimal(thread.angle.degrees, 2)[0]} deg", "tapers 1 in 16" if thread.taper else ""),
        *_other_clearances(thread, both),
        ("wires", Cell("size", ("best ", *wire.pieces), wire.beside), _over_wires(thread, both)),
    ]
    if thread.stress_area is not None:
        area = thread.stress_area
        figures = (area.in_unit("in"), "in^2", 5), (area.value, "mm^2", 2)
        inch, mm = ((in_decimals(*figure, area.standing),) for figure in figures)
        rows.append(("stress area", Cell("size", inch, mm), ""))
    return rows + _head_rows(thread)


def _minor_rows(thread: Thread, both: Words) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
    """Minor diameter and depth, of the screw and of the nut where they differ."""
    nut, screw = thread.form.minors[0], thread.form.screw
    if nut is screw:
        return [
            ("minor, screw and nut", both(thread.minor), nut.name),
            ("depth, screw and nut", both(thread.depth), "on one side"),
        ]
    return [
        ("minor of the screw", both(thread.screw_minor), screw.name),
        ("minor of the nut", both(thread.nut_minor), nut.name),
        ("depth of the screw", both(thread.screw_depth), "on one side"),
        ("depth of the nut", both(thread.nut_depth), "on one side"),
    ]


def _own_unit_first(thread: Thread) -> Words:
    """A size in words, millimetres first for a thread whose standard is metric."""
    metric = thread.system == "metric"
    return lambda size: in_both(size, metric)


def _head_rows(thread: Thread) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
    """One line for each kind of head, its dimensions one after another in the unit that its table prints."""
    kinds: dict[str, list[Head]] = {}
    for head in thread.heads:
        kinds.setdefault(head.kind, []).append(head)
    return [(kind, _dimensions(heads), "") for kind, heads in kinds.items()]


def _head_notes(thread: Thread) -> list[str]:
    """What is odd about figures of heads, each said once with the heads that it is said of."""
    heads_of: dict[str, dict[str, None]] = {}
    for head in thread.heads:
        if head.note:
            heads_of.setdefault(head.note, {})[head.kind] = None
    return [f"{', '.join(kinds)}: {note}" for note, kinds in heads_of.items()]


def _dimensions(heads: list[Head]) -> Cell:
    """What is known of one kind of head; a standing that all of it has is said once, behind."""
    alike = len({head.standing for head in heads}) == 1
    said: list[Piece] = []
    for head in heads:
        said += [", "] if said else []
        said += _dimension(head, alike)
    return Cell("size", (*said, f" {heads[0].unit}"))


def _dimension(head: Head, alike: bool) -> list[Piece]:
    ends = [size for size in (head.smallest, head.largest) if size is not None]
    said: list[Piece] = [f"{head.measure.told} "]
    for n, size in enumerate(ends):
        said += [" to "] if n else []
        standing = size.standing if alike else ""
        said.append(in_decimals(size.in_unit(head.unit), "", PLACES, standing))
    return said if alike else [*said, in_brackets(head.standing)]


def _tpi(thread: Thread) -> tuple[Piece, Piece]:
    tpi = thread.tpi
    whole = readable(tpi) and tpi.denominator < 9
    return ", ", as_fraction(tpi, "tpi") if whole else in_decimals(tpi, "tpi", 2)


def _tapping_row(thread: Thread, both: Words) -> tuple[Cell | str, Cell | str, Cell | str]:
    try:
        tap = thread.tapping()
    except NoAnswer as error:
        return "tapping", "none", str(error)
    return "tapping", _with_drill(tap, both), _about_tapping(tap)


def _clearance_row(thread: Thread, both: Words) -> tuple[Cell | str, Cell | str, Cell | str]:
    """The medium hole, which is the usual one; the other two are among the rest."""
    try:
        hole = thread.clearance()
    except NoAnswer as error:
        return "clearance", "none", str(error)
    beside = f"; {hole.beside}" if hole.beside else ""
    return "clearance", _with_drill(hole, both), f"medium, {hole.rule}{beside}"


def _other_clearances(thread: Thread, both: Words) -> list[tuple[Cell | str, Cell | str, Cell | str]]:
    return [
        (f"clearance, {fit}", _with_drill(hole, both), hole.rule)
        for fit, hole in _clearances(thread)
        if fit != "medium"
    ]


def _clearances(thread: Thread) -> list[tuple[str, Any]]:
    try:
        return [(fit, thread.clearance(fit)) for fit in ("close", "medium", "free")]
    except NoAnswer:
        return []


def _spanner(thread: Thread, both: Words) -> Cell | str:
    """The sizes across flats of its hexagons, each once; of those from memory none, where others are known."""
    known = [head for head in thread.spanners if head.standing != "from memory"] or thread.spanners
    flats: dict[Quantity, Head] = {}
    for head in known:
        flats.setdefault(head.largest, head)
    if not flats:
        return "no hexagon of this size was read"
    said: list[Cell | Piece] = []
    for head in flats.values():
        middle = ", the middle of its limits," if head.measure.mean else ""
        said += [", or " if said else "", both(head.largest), f"{middle} across flats, {head.kind}"]
    return _said(*said)


def _sources(thread: Thread) -> list[str]:
    """Where the size, the holes and the heads are from, and how far to trust each."""
    sources = [f"{thread.source} ({in_words(thread.standing)})"]
    if not thread.taper:
        tap = thread.tapping()
        sources += [f"tapping drill, {tap.source} ({in_words(tap.ideal.standing)})"] if tap.source else []
    with suppress(NoAnswer):
        hole = thread.clearance()
        sources.append(f"clearance, {hole.source} ({in_words(hole.size.standing)})")
    rules = {head.source: head for head in thread.heads if head.standing == "rule"}
    sources += [f"{head.kind}, {source} (computed by rule)" for source, head in rules.items()]
    if any(head.standing == "printed" for head in thread.heads):
        sources.append("heads, tables of the standards named (printed, where no other word stands)")
    return [*sources, *_other_head_sources(thread)]


def _other_head_sources(thread: Thread) -> list[str]:
    """Where those figures of heads are from that need a word, one kind of standing after another."""
    of_standing: dict[str, dict[str, None]] = {}
    for head in thread.heads:
        if not is_sound(head.standing):
            of_standing.setdefault(head.standing, {})[head.source] = None
    return [f"heads, {', '.join(sources)} ({standing})" for standing, sources in of_standing.items()]


def _with_drill(hole: Any, both: Words) -> Cell:
    """A hole's size, and the drill for it where its name says more."""
    size = both(hole.size)
    if hole.drill is None or (hole.drill.size == hole.size and hole.drill.series == "metric"):
        return size
    return Cell("size", (f"{hole.drill.name} drill, ", *size.pieces), size.beside)


def _about_tapping(tap: Any) -> str:
    from fractions_shop.threads.holes import thread_left

    left = thread_left(tap.on_each) if tap.on_each else ""
    return "; ".join(filter(None, (left, tap.rule, tap.nearer_said, tap.note, tap.beside)))


def tapping_lines(tap: TappingDrill) -> Lines:
    """A tapping drill alone: the hole, the thread that it leaves, and what the nearest of other series leave."""
    both = _own_unit_of(tap)
    lines: Lines = [f"{_in_a_line(_with_drill(tap, both))}, {_about_tapping(tap)}"]
    rows = tuple((each.drill.name, both(each.drill.size), _percent(each.engagement)) for each in tap.others)
    if rows:
        lines.append(Table(rows, ("nearest of each series", "", "of thread")))
    return [*lines, *([f"source: {tap.source} ({in_words(tap.ideal.standing)})"] if tap.source else [])]


def clearance_lines(hole: ClearanceHole) -> Lines:
    """A clearance hole alone."""
    said = ", ".join((_in_a_line(_with_drill(hole, _own_unit_of(hole))), hole.fit, hole.rule))
    beside = f"; {hole.beside}" if hole.beside else ""
    return [f"{said}{beside}", f"source: {hole.source} ({in_words(hole.size.standing)})"]


def _own_unit_of(hole: TappingDrill | ClearanceHole) -> Words:
    """A size in words, millimetres first where the drill is metric."""
    metric = hole.drill is not None and hole.drill.series == "metric"
    return lambda size: in_both(size, metric)


def _in_a_line(size: Cell) -> str:
    return in_prose(size, "~")


def _over_wires(thread: Thread, both: Words) -> Cell | str:
    if thread.taper:
        return ""
    over = both(thread.over_wires())
    return Cell("size", ("over them ", *over.pieces), over.beside)


def _gist(result: Thread, lines: list[str]) -> list[str]:
    return lines[:3]


ROOM = Room(
    word="thread",
    forms=("thread NAME",),
    example="thread 6 BA",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
