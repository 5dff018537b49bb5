"""Readings from a request's words: the figures of each size, how far to trust them, what all share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.language.advice import near_words
from fractions_shop.language.fault import Fault
from fractions_shop.language.kinds import as_length
from fractions_shop.language.nodes import (
    DrawnTo,
    KnownSize,
    Literal,
    Name,
    Node,
    OffPrint,
    Option,
    Text,
    Texts,
)
from fractions_shop.language.notes import remark
from fractions_shop.meant.instruments import INSTRUMENTS, Instrument, instrument_called
from fractions_shop.meant.readings import MADE, Reading, reading, written_within
from fractions_shop.meant.scale import Scale, scale_from
from fractions_shop.meant.shared import Print, shared_by_all
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.meant_words import in_own_unit, in_row
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.requests.read_name import AsRead


def one_size(given: Inputs) -> Reading:
    """All figures of the request as readings of one size."""
    return _reading(given, given.request.subjects, given.option("within"), given.option("by"))


def said_of_one(given: Inputs) -> AsRead:
    """All that the request says of one size."""
    from fractions_shop.requests.read_name import AsRead  # a list of readings needs none of it

    option = given.option("scale")
    known = option.value if option and isinstance(option.value, KnownSize) else None
    if known is not None and of_itself(known, given.evaluator.naming):
        read, size = one_size(given), as_length(given.value(known.size), known.size)
        at = scale_from(read.size, size, within=read.within)
        return AsRead(read, at, (given.evaluator.naming, size), work_of(given), tables_of(given))
    truth = None
    if known is not None and isinstance(known.read, Name) and known.read.word in given.evaluator.readings:
        truth = known.read.word, as_length(given.value(known.size), known.size)
    return AsRead(one_size(given), scale_of(given), truth, work_of(given), tables_of(given))


def of_itself(known: KnownSize, name: str) -> bool:
    """Whether a scale rests on what is read here: `rack reads 74.1 mm scale from rack = 2 31/32 in`."""
    return isinstance(known.read, Name) and known.read.word == name


def work_of(given: Inputs) -> str | None:
    """What work it is said to be."""
    option = given.option("work")
    return option.value.text if option and isinstance(option.value, Text) else None


def tables_of(given: Inputs) -> tuple[str, ...]:
    """The tables to look among."""
    option = given.option("among")
    return option.value.texts if option and isinstance(option.value, Texts) else ()


def trust_of(given: Inputs) -> tuple[Quantity | None, str | None]:
    """How far readings are to be trusted, and the instrument, as the request says it."""
    within, by = given.option("within"), given.option("by")
    return (
        None if within is None or within.value is None else _trust(given, within.value),
        None if by is None else _instrument(by),
    )


def listed(given: Inputs) -> list[Reading]:
    """The sizes of a list, each read once or `again`; a trust behind the last serves where there is no other."""
    again = [option.start for option in given.request.options if option.word == "again"]
    groups: list[list[Node]] = []
    for node in given.request.subjects:
        before = groups[-1][-1].start if groups else node.start
        if any(before < place < node.start for place in again):
            groups[-1].append(node)
        else:
            groups.append([node])
    starts = [group[0].start for group in groups]
    ends = list(pairwise([*starts, given.request.end + 1]))
    readings = []
    for group, (start, end) in zip(groups, ends, strict=True):
        own = {o.word: o for o in given.request.options if start < o.start < end}
        last = {o.word: o for o in given.request.options if o.start > starts[-1]}
        # An instrument of its own is a trust of its own.
        trusts = own if own.keys() & {"within", "by"} else last
        readings.append(_reading(given, group, trusts.get("within"), trusts.get("by")))
    return readings


def scale_of(given: Inputs) -> Scale | None:
    """What everything was read off, as the request says it."""
    option = given.option("scale")
    match option.value if option else None:
        case OffPrint() as off_print:
            return Print(off_print.name)
        case DrawnTo() as drawn:
            return drawn.parts / drawn.whole
        case KnownSize() as known:
            return _known(given, known)
    return None


def _known(given: Inputs, known: KnownSize) -> Scale:
    size = as_length(given.value(known.size), known.size)
    node = known.read
    if isinstance(node, Name) and node.word in given.evaluator.readings:
        taken = given.evaluator.readings[node.word].read
        return scale_from(taken.size, size, within=taken.within)
    figure = _figure(given, node)
    if isinstance(node, Name) and figure == size:
        # A true size taken for its own reading would make any photograph full size.
        message = f"{node.word} is set to its true size, which is not what it reads"
        raise Fault(message, node.start, node.end, "say what it reads, as in scale from 75 mm = 2 31/32 in")
    return scale_from(figure, size)


def _reading(given: Inputs, figures: Sequence[Node], within: Option | None, by: Option | None) -> Reading:
    sizes = [_figure(given, node) for node in figures]
    made = given.optional_length("made")
    taken = reading(
        sizes[0] if len(sizes) == 1 else sizes,
        within=None if within is None or within.value is None else _trust(given, within.value),
        by=None if by is None else _instrument(by),
        worn=given.optional_length("worn"),
        plated=given.optional_length("plated"),
        made=MADE if made is None else made,
        shared=shared_by_all(_shrunk(given), given.option("unzeroed") is not None),
    )
    if by is not None and (within is None or within.value is None):
        _tell_of_shortened(given, [node for node in figures if given.written(node)], sizes, _instrument(by))
    # A size is told as it was typed, and so is a name that stands for one.
    typed = [given.written(node) or given.written_part(node) for node in figures]
    return taken.but(written=", ".join(typed))


def _tell_of_shortened(given: Inputs, nodes: Sequence[Node], sizes: Sequence[Quantity], by: str) -> None:
    """Say how `5 mm by caliper` is taken, which shows parts of a millimetre."""
    tool = INSTRUMENTS[by]
    written = dict.fromkeys(given.written(node) or "" for node in nodes if _is_shortened(given, node, tool))
    if written:
        taken = in_own_unit(tool.division / 2)
        given.evaluator.note(remark(
            f"{in_row(list(written), 'and')} by {by}, without decimals, {'are' if len(written) > 1 else 'is'} taken "
            f"to be within {taken}; for whole millimetres write within 0.5 mm"
        ))  # fmt: skip


def _is_shortened(given: Inputs, node: Node, tool: Instrument) -> bool:
    figure = _figure(given, node)
    return figure.within is not None and tool.is_shortened(figure, figure.within)


def _trust(given: Inputs, node: Node) -> Quantity:
    size = as_length(given.value(node), node)
    if size.value < 0:
        raise Fault("how far to trust a reading must not be negative", node.start, node.end)
    return size


def _figure(given: Inputs, node: Node) -> Quantity:
    """A reading, trusted as finely as it was written."""
    size = as_length(given.value(node), node)
    written = given.written(node)
    if size.value <= 0:
        raise Fault("a reading must be above zero", node.start, node.end)
    if written is None or size.within is not None:
        return size
    if isinstance(node, Literal) and " " in node.unit:
        from fractions_shop.language import old_units

        return replace(size, within=old_units.half_last_place(written))
    try:
        return replace(size, within=written_within(written))
    except ShopError:
        return size


def _instrument(option: Option) -> str:
    node = option.value
    assert isinstance(node, Text)
    known = instrument_called(node.text)
    if known is None:
        message = f"{node.text} is not an instrument known here"
        near = near_words.advice(node.text, INSTRUMENTS, most=1)
        raise Fault(message, node.start, node.end, near or f"expected one of {', '.join(INSTRUMENTS)}")
    return known.name


def _shrunk(given: Inputs) -> Any:
    option = given.option("shrunk")
    if option is None or option.value is None:
        return None
    value = given.value(option.value)
    if not isinstance(value, Quantity) or value.power or not 0 < value.value <= 25:
        node = option.value
        raise Fault(
            "a share of what it was is needed here, above zero and at most 25 %",
            node.start, node.end, "write it like this: shrunk up to 3 %",
        )  # fmt: skip
    return value.value / 100
