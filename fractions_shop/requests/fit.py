"""fit: the limits of a hole and a shaft."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from fractions_shop.errors import ShopError
from fractions_shop.figures.limits_words import limits_lines
from fractions_shop.figures.plain import Lines, PictureLine
from fractions_shop.figures.size_words import size_line
from fractions_shop.figures.table import Cell, Table
from fractions_shop.figures.wording import (
    both,
    both_cell,
    play,
)
from fractions_shop.language.fault import Fault
from fractions_shop.layout.fits import Fit, PartSource, signed_decimal
from fractions_shop.requests.gists import span
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.stock_rows import source_line
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import places_shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_words, mark_of, worst

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing
    from fractions_shop.figures.paper import PaperSize
    from fractions_shop.layout.zones import Zone


def _answer(given: Inputs) -> tuple[Fit | Zone, Limits | None]:
    from fractions_shop.layout.fits import fit
    from fractions_shop.layout.zones import Zone

    size, name = given.length(0), given.word(1)
    node = given.subject(1)
    try:
        result = fit(size, name)
    except ShopError as error:
        raise Fault(str(error), node.start, node.end, _advice(name)) from None
    return result, result.limits if isinstance(result, Zone) else None


def _advice(name: str) -> str:
    from fractions_shop.tables.ansi_b41 import class_of

    if class_of(name):
        return "limits that you have from elsewhere are written with the size, such as 2 in +0/-2 thou"
    return "write it like this: fit 10 mm H7/g6"


def _lines(result: Fit | Zone) -> Lines:
    """The limits of both parts, the clearance between them, and a picture of the zones."""
    if not isinstance(result, Fit):
        return _zone_lines(result)
    lines: Lines = [
        f"{both(result.basic)} {result.name}, {result.kind} fit ({result.standard})",
        Table(
            (
                ("hole", *_zone_row(result.hole, result.hole_um, result.metric)),
                ("shaft", *_zone_row(result.shaft, result.shaft_um, result.metric)),
            ),
            ("", "least", "most", "deviations"),
        ),
        _clearance(result),
        *map(PictureLine, result.picture(60).splitlines()),
    ]
    lines += [f"note: {note}" for note in result.notes]
    return [*lines, _source_line(result.sources)]


def _source_line(sources: tuple[PartSource, ...]) -> str:
    """Where the figures of both parts are from, said once where that is one place."""
    alike = len({(part.source, part.standing) for part in sources}) == 1
    named = [
        f"{'' if alike else f'{part.part}, '}{part.source} ({in_words(part.standing)})"
        for part in (sources[:1] if alike else sources)
    ]
    return f"source: {'; '.join(named)}"


def _zone_row(limits: Limits, um: tuple[Fraction, Fraction], metric: bool) -> tuple[Cell | str, ...]:
    """One part's limits, and its deviations in the unit of its standard, as the picture beneath has them."""
    unit, word = (Fraction(1), "µm") if metric else (Quantity.of(1, "thou").mm * 1000, "thou")
    upper, lower = (deviation / unit for deviation in um)
    deviations = f"{signed_decimal(lower, 3)} to {signed_decimal(upper, 3)} {word}"
    places = places_shown.get()  # limits may be finer than a bench measures
    return both_cell(limits.lower, places), both_cell(limits.upper, places), deviations


def _clearance(result: Fit) -> str:
    if result.kind == "interference":
        return f"interference from {play(-result.most)} to {play(-result.least)}{_standing(result)}"
    if result.kind == "transition":
        return f"from {play(-result.least)} interference to {play(result.most)} clearance"
    return f"clearance from {play(result.least)} to {play(result.most)}{_standing(result)}"


def _standing(result: Fit) -> str:
    return mark_of(worst((result.least, result.most)))


def _zone_lines(result: Zone) -> Lines:
    part = "hole" if result.hole else "shaft"
    lines: Lines = [
        f"{result.name} {part}: {size_line(result.limits)}",
        f"{signed_decimal(result.lower_um, 3)} to {signed_decimal(result.upper_um, 3)} µm (ISO 286-1, sizes over {result.step[0]} to {result.step[1]} mm)",
        *limits_lines(result.limits),
    ]
    return lines + [f"note: {note}" for note in result.notes] + [source_line(result.source, result.standing)]


def _gist(result: Fit | Zone, lines: list[str]) -> list[str]:
    if not isinstance(result, Fit):
        limits = result.limits
        return [span(limits.lower, limits.upper, metric=True), lines[0]]
    metric = result.metric
    if result.kind == "transition":
        tight, loose = (span(size, None, metric, 4) for size in (-result.least, result.most))
        return [f"from {tight} interference to {loose} clearance", lines[0]]
    ends = (-result.most, -result.least) if result.kind == "interference" else (result.least, result.most)
    return [f"{result.kind} {span(*ends, metric, 4)}", lines[0]]


def _pictures(result: Fit | Zone, title: str, _: PaperSize) -> tuple[Drawing, ...]:
    from fractions_shop.requests.pictures.zone_chart import zone_chart

    return (zone_chart(result, title),) if isinstance(result, Fit) else ()


ROOM = Room(
    word="fit",
    forms=(
        "fit SIZE H7/g6",
        "fit SIZE RC5",
    ),
    example="fit 1/4 in H7/g6",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    pictures=_pictures,
    reads_rule=False,
)
