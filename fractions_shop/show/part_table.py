"""The parts list of a sheet, and each part in one sentence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from fractions_shop.figures.figure import in_bare_mm, in_inches, in_mm
from fractions_shop.figures.html import SEEN
from fractions_shop.figures.size_words import short_cell
from fractions_shop.figures.table import Cell, Piece, Table, in_prose, lines_cell, without_empty, words
from fractions_shop.figures.wording import as_it_ends_cell, ends_in_mm_alone
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.lacking import lacking
from fractions_shop.sheet.part_lines import NoteFigure, Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.doubt_marks import marked
from fractions_shop.show.size_table import UNDONE, limit_figures, where_told
from fractions_shop.size.digits import READABLE_DENOMINATOR
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import (
    feet_lead,
    inch_text,
    mixed,
    mm_leads,
    mm_text,
    units_shown,
)
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of


def parts(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """The parts list; the names of parts whose sizes rest on a doubtful one are marked."""
    rows = tuple(_part_rows(worked, doubts))
    return without_empty(Table(rows, ("part", "how many", "material", "size", "note", SEEN)))


def part_numbers(worked: Iterable[Worked]) -> tuple[int, ...]:
    """The line of each row of the parts list."""
    return tuple(item.line.number for item in worked if item.part is not None or item.line.kind == "part")


def seen_numbers(worked: Iterable[Worked]) -> frozenset[int]:
    """The lines where what the parts draw on is set out and drawn."""
    return frozenset(line for item in worked if item.part is not None for _, line in item.part.sees)


def parts_in_brief(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """The parts list with sizes and note in one column, for a narrow screen."""
    rows = tuple(
        (name, many, material, _with_note(sizes, note), sees)
        for name, many, material, sizes, note, sees in _part_rows(worked, doubts)
    )
    return without_empty(Table(rows, ("part", "how many", "material", "size; note", SEEN)))


def _part_rows(
    worked: Iterable[Worked], doubts: Doubts
) -> Iterator[tuple[str, str, str, Cell, str, Cell | str]]:
    worked = tuple(worked)
    lacks = lacking(worked)
    for item in worked:
        part = item.part
        if part is not None:
            name = marked(part.name, item.line.number, doubts)
            sees = lines_cell(line for _, line in part.sees)
            note = "; ".join(filter(None, (lacks.said_of(part.name), part_note(part))))
            yield name, str(part.count), part.material, part_cell(part), note, sees
        elif item.line.kind == "part":
            name, material, note = _undone_part(item)
            yield name, "", material, words(f"{UNDONE}: {where_told(item)}"), note, ""


def _undone_part(item: Worked) -> tuple[str, str, str]:
    """The name, material and note of a part that was not worked out, as far as they could be read."""
    form = item.line.part
    return item.line.part_name, form.material if form else "", form.note if form else ""


def _with_note(sizes: Cell, note: str) -> Cell:
    if not note or not sizes.pieces:
        return sizes if sizes.pieces else words(note)
    beside = (" (", *sizes.beside, ")") if sizes.beside else ()
    return Cell(sizes.kind, (*sizes.pieces, *beside, f"; {note}"))


def part_sizes(part: Part) -> str:
    """A part's sizes as text."""
    return in_prose(part_cell(part))


def part_cell(part: Part) -> Cell:
    """A part's sizes, in both units: `1/4 in x 11 in (6.35 x 279.4 mm)`, the shape of its section first."""
    shape = f"{part.section} " if part.section else ""
    if not any(part.bought) and part.section != "tube":
        together = sizes_cell(part.sizes, shape)
        if together is not None:
            return together
    return words(f"{shape}{' x '.join(sizes_in_words(part.sizes, part.bought, part.size_names))}")


def end_alike(sizes: Sequence[Quantity]) -> bool:
    """Whether sizes may stand together in one unit and then in the other: none or all end in millimetres alone.

    They may always where one unit was asked to lead.
    """
    return bool(units_shown.get().lead) or len({ends_in_mm_alone(size, 4) for size in sizes}) < 2


def sizes_cell(sizes: Sequence[Quantity | Limits], shape: str = "") -> Cell | None:
    """Lengths joined by x, in inches and beside that in mm, or the other way about; `shape` stands before them.

    None where they do not stand together: those with limits, and those of which some end in millimetres alone.
    """
    inches: list[Piece] = []
    metric: list[Piece] = []
    alone = []
    for size in sizes:
        if not isinstance(size, Quantity):
            return None
        inch = in_inches(size, 4)
        alone.append(not inch.exact and in_mm(size, 4).exact)
        if inches:
            inches.append(" x ")
            metric.append(" x ")
        inches.append(inch)
        metric.append(in_bare_mm(size, 3))
    lead = units_shown.get().lead
    if not lead and True in alone and False in alone:
        return None
    metric += [" mm"] if metric else []
    metric_leads = lead == "mm" if lead else True in alone
    first, second = (metric, inches) if metric_leads else (inches, metric)
    return Cell("size", (*([shape] if shape else []), *first), tuple(second))


def sizes_in_words(
    sizes: Sequence[Quantity | Limits], bought: Sequence[str], names: Sequence[str]
) -> Iterator[str]:
    """Each size in both units, with the name by which it is bought and a bore's own word."""
    for size, by_name, name in zip(sizes, bought or [""] * len(sizes), names, strict=True):
        cell = part_size(size)
        written = in_prose(cell)
        if by_name:
            both_units = ", ".join(
                in_prose(Cell(cell.kind, pieces)) for pieces in (cell.pieces, cell.beside) if pieces
            )
            written = f"{by_name} ({both_units})"
        yield f"bore {written}" if name == "bore" else written


def part_note(part: Part) -> str:
    """A part's note with the size of each name that stands in it in square brackets."""
    return part.note_in_words(_figure)


def _figure(figure: NoteFigure) -> str:
    if figure.value is None:
        return f"{figure.name} (line {figure.line})"
    value = figure.value
    if isinstance(value, Quantity | Limits) and value.power == 1:
        written = in_prose(part_size(value))
    else:
        written = in_prose(short_cell(value))
    return f"{written} ({figure.name}, doubtful)" if figure.doubtful else written


def part_size(size: Quantity | Limits) -> Cell:
    """A size in both units; with limits the nominal and what it lies within, as fractions where a rule has them."""
    if isinstance(size, Quantity):
        return as_it_ends_cell(size, 4)
    inches, metric = limits_in_words(size)
    mark = mark_of(size.standing)
    nominal = size.nominal.unmarked
    inches = f"{inch_text(nominal, 4)}, within {inches}"
    metric = f"{mm_text(nominal, 3)}, within {metric}"
    if mm_leads(ends_in_mm_alone(nominal, 4)):
        return Cell("size", (metric,), (f"{inches}{mark}",))
    return Cell("size", (inches,), (f"{metric}{mark}",))


def limits_in_words(size: Limits) -> tuple[str, str]:
    """From and to in inches, as fractions where a rule has both, and in millimetres; rounded inward."""
    inches, metric = limit_figures(size)
    ends = size.lower, size.upper
    if all(map(_on_a_rule, ends)):
        if all(map(feet_lead, ends)):
            return " to ".join(map(inch_text, ends)), f"{metric} mm"
        inches = " to ".join(mixed(end.inch) for end in ends)
    return f"{inches} in", f"{metric} mm"


def _on_a_rule(size: Quantity) -> bool:
    """Whether a length is a fraction as rules are divided: 1/2, 3/64, but not 119/2000."""
    parts = size.inch.denominator
    return parts <= READABLE_DENOMINATOR and parts & (parts - 1) == 0


def part_line(part: Part) -> str:
    """A part in one sentence, for the working."""
    sized = f", {part_sizes(part)}" if part.sizes else ""
    note = f"; {part_note(part)}" if part.note else ""
    return f"{part.count} of {part.name}{f', {part.material}' if part.material else ''}{sized}{note}"
