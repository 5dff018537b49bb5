"""spanner: which spanner goes on a head or nut, and how loose."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.figures.plain import Caution, Lines
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import off_by, signed_cell
from fractions_shop.language.fault import Fault
from fractions_shop.language.kinds import as_length
from fractions_shop.language.named import named_thread, refuse_screw_number
from fractions_shop.language.nodes import Named, Text
from fractions_shop.language.notes import doubt, echo
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.thread_figures import in_both
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_words, mark_of

if TYPE_CHECKING:
    from fractions_shop.threads.spanners import Hexagon, SpannerFit, Spanners

#: A plain number up to here that stands before AF is inches; more would be a metric size.
_INCHES_AF = 4


def _answer(given: Inputs) -> tuple[Spanners, Quantity]:
    from fractions_shop.threads.spanners import PARTS, for_size, for_thread, read_systems

    option = given.option("from")
    asked = option.value if option is not None else None
    try:
        systems = read_systems(asked.text if isinstance(asked, Text) else "")
    except ShopError as error:
        assert asked is not None
        raise Fault(str(error), asked.start, asked.end, "write it like this: spanner M10 from AF") from None
    node = given.subject(0)
    words = [part for part in given.request.subjects[1:] if isinstance(part, Text)]
    if isinstance(node, Named) and node.kind == "thread":
        part = next((PARTS[word.text.lower()] for word in words if word.kind == "HEAD_OR_NUT"), "")
        result = for_thread(named_thread(node), systems, part)
        _say_others(given, result)
        return result, result.size
    refuse_screw_number(node, given.text)
    across = _across(given, any(word.kind == "ACROSS_FLATS" for word in words))
    result = for_size(across, systems)
    given.evaluator.note(echo(f"{_short(across)} is taken as the size across flats"))
    return result, result.size


def _across(given: Inputs, inches: bool) -> Quantity:
    """The size across flats; a plain number before AF is inches, as spanners are marked."""
    node = given.subject(0)
    value = given.value(node)
    if isinstance(value, Limits):
        return given.length_of(node)
    if inches and isinstance(value, Quantity) and value.power == 0 and 0 < value.value < _INCHES_AF:
        return Quantity.inches(value.value)
    return as_length(value, node)


def _say_others(given: Inputs, result: Spanners) -> None:
    """That a thread has hexagons of several sizes, of which the first is taken."""
    if len(result.hexagons) < 2:
        return
    sizes = [_short(hexagon.largest) for hexagon in result.hexagons]
    *first, last = (f"{_short(each.largest)}{mark_of(each.standing)}" for each in result.hexagons)
    said = f"{result.name} has hexagons of {', '.join(first)} and {last}; taken as {sizes[0]}"
    given.evaluator.note(doubt(said, *(f"spanner {size}" for size in sizes)))


def _short(size: Quantity) -> str:
    """A size as it can be typed again, in inches or in the millimetres in which it ends."""
    inches, ends = decimal(size.inch)
    return f"{inches} in" if ends else f"{decimal(size.mm)[0]} mm"


def _lines(result: Spanners) -> Lines:
    """What to take for each hexagon; then, system by system, what goes on and how loose it is."""
    lines: Lines = [_lead(result, hexagon) for hexagon in result.hexagons]
    for hexagon in result.hexagons:
        if not hexagon.spanners:
            continue
        title = f"on {_short(hexagon.largest)}" if len(result.hexagons) > 1 else "on the hexagon"
        rows = tuple(_row(fit, hexagon.metric) for fit in hexagon.spanners)
        lines.append(Table(rows, ("spanner", "jaw", title, "")))
    lines += [f"note: {each.kind}: {each.note}" for each in result.hexagons if each.note]
    lines.append(
        "a jaw is taken at its mark, and a real one is a little wider; up to 2 % over fits, up to 4 % is loose, "
        "1 % under may go on (our own rule)"
    )
    return [*lines, *_sources(result), Caution(f"caution: {result.caution}", "the spanners above")]


def _across_flats(hexagon: Hexagon) -> Cell:
    """What a hexagon is across its flats, at most."""
    return in_both(hexagon.largest.unmarked, hexagon.metric)


def _lead(result: Spanners, hexagon: Hexagon) -> str:
    what = f"{result.name}, {hexagon.kind}" if result.name else hexagon.kind
    across = in_prose(_across_flats(hexagon), "~")
    if hexagon.smallest != hexagon.largest:
        across = f"{in_prose(in_both(hexagon.smallest.unmarked, hexagon.metric), '~')} to {across}"
    return f"{what}, {across} across flats{mark_of(hexagon.standing)}: {_advice(result, hexagon)}"


def _advice(result: Spanners, hexagon: Hexagon) -> str:
    best = hexagon.best
    if best is not None:
        return f"take {_told(best)}"
    if not hexagon.spanners:
        return f"no {' or '.join(result.systems)} spanner is near"
    near = "; ".join(map(_told, hexagon.spanners))
    return f"no {' or '.join(result.systems)} spanner fits: {near}"


def _told(fit: SpannerFit) -> str:
    """A spanner, and how much wider or smaller it is than the largest hexagon."""
    if not fit.least.value:
        return f"{fit.spanner.mark}, the same size"
    by = off_by(fit.least.unmarked, 4)
    if fit.least.value < 0:
        return f"{fit.spanner.mark} is {by} under and {'may go on' if fit.verdict == 'may go on' else 'too small'}"
    said = {"fits": "which fits", "loose": "loose", "too loose": "too loose"}[fit.verdict]
    return f"{fit.spanner.mark}, {by} over, {said}"


def _row(fit: SpannerFit, metric: bool) -> tuple[Cell | str, ...]:
    jaw = in_both(fit.spanner.jaw, metric)
    return fit.spanner.mark, jaw, signed_cell(fit.least), fit.verdict


def _sources(result: Spanners) -> list[str]:
    """Where the hexagons are from, and the spanners of each system."""
    of_hexagons = {(each.source, each.standing): None for each in result.hexagons if each.source}
    said = [f"hexagons, {source} ({in_words(standing)})" for source, standing in of_hexagons]
    systems: dict[tuple[str, str], dict[str, None]] = {}
    for hexagon in result.hexagons:
        for fit in hexagon.spanners:
            each = fit.spanner
            systems.setdefault((each.source, each.standing), {})[each.system] = None
    said += [
        f"{' and '.join(names)} spanners, {source} ({in_words(standing)})"
        for (source, standing), names in systems.items()
    ]
    return [f"source: {'; '.join(said)}"] if said else []


def _gist(result: Spanners, lines: list[str]) -> list[str]:
    return lines[: len(result.hexagons)]


ROOM = Room(
    word="spanner",
    forms=("spanner THREAD [head|nut] [from SYSTEM]", "spanner SIZE [AF] [from SYSTEM]"),
    example="spanner 3/8 BSW from AF",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
