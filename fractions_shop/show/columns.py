"""The named sizes, parts, checks and revisions of a sheet as CSV, for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.layout.features import Hole, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.sheet.cut_parts import Lettered
from fractions_shop.sheet.lacking import lacking
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.show.doubt_marks import echoes, said_of
from fractions_shop.show.place_table import named_places
from fractions_shop.show.size_table import UNDONE, inward, size_within, why_undone
from fractions_shop.show.stock_table import no_saw, numbered, section_called
from fractions_shop.size.limits import Limits, limits_of, nominal_of
from fractions_shop.size.notation import UnitsShown, decimal, inch_text, mm_text, told_in
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule, mark_within, rung
from fractions_shop.size.standing import in_words
from fractions_shop.size.value import Value

#: The header. Limits are rounded inward, all else to nearest, and `rounded` says whether `inch`,
#: `mm` or `figure` is. `figure` holds what is no length; `exact` is the rational number of `unit`.
#: Of a size with limits, `inch` and `mm` are its nominal, or a size near their middle where the
#: nominal is outside them, and `fraction` is empty where no division lies within them.
#: `standing` says how far to trust the figures of tables that went into a size; empty where none did.
#: `remark` says of a size how it was read, that it is doubtful or rests on one that is, or why it was
#: not worked out. Places have a row for each coordinate: `kind` says place, `which` 2 of 6 across. A part has a row for each of its sizes: `kind` says part, `which`
#: 1 of 2, round, diameter. What is cut in a part has a row for each of its sizes and coordinates, under the part's name:
#: `kind` says feature, `which` A, hole, diameter, or A1, across. What is cut of a part from bars that are cut alike is a
#: row of kind cut: its size is what it is cut to, `how many` is of all those bars. What is bought has the length of a
#: bar, or each size of what is bought by name; a tool has its size, and `how many` holes or slots it makes. A crown has one for each height, a check one for what its
#: first side is over its second, and `which` says whether it holds. A line that was not worked out and would have none of these
#: rows, or none that can be known, is a row of kind undone. A revision has one row, `which` being 1 of 2, the last the one that stands.
HEADER = (
    "name", "fraction", "rule", "off in", "inch", "mm", "figure", "exact", "unit", "rounded", "approximate", "standing",
    "lower in", "upper in", "lower mm", "upper mm", "line", "statement", "comment", "remark",
    "kind", "which", "how many", "material",
)  # fmt: skip
#: A cell that begins with one of these would be worked out by a spreadsheet.
_LIVE = ("=", "+", "-", "@", "\t", "\r")
_PLACES = 9
#: The columns of figures of what has no size.
_NO_SIZE = [""] * 15


#: What the rows of a sheet can be of, in the order of the file; what each is said to be by `kind`.
WHAT = {
    "sizes": "size",
    "places": "place",
    "parts": "part",
    "features": "feature",
    "cuts": "cut",
    "bought": "bought",
    "tools": "tool",
    "heights": "height",
    "checks": "check",
    "revisions": "revision",
}


def csv_text(sheet: WorkedSheet, what: str = "all") -> str:
    """A row each named size, place, size of a part and of its cuts, piece, thing to buy, height, check and revision.

    `what` is one of WHAT, for these alone, or all. ShopError for another word. Lines end as RFC 4180 has it.
    """
    if what not in ("all", *WHAT):
        raise ShopError(f"{what!r} is nothing that a sheet has rows of: all, {', '.join(WHAT)}")
    kinds = tuple(WHAT.values()) if what == "all" else (WHAT[what],)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    with told_in(sheet.units):
        rows = list(_rows(sheet, kinds))
        rows += _undone_elsewhere(sheet, rows) if what == "all" else []
        writer.writerows(map(_ordered(sheet.units), rows))
    return out.getvalue()


def _undone_elsewhere(sheet: WorkedSheet, rows: list[list[str]]) -> Iterator[list[str]]:
    """A row for each line that was not worked out and has none: what it would have been cannot be known."""
    at = HEADER.index("line")
    with_rows = {row[at] for row in rows}
    for item in sheet.worked:
        line = item.line
        if item.undone and not line.also and str(line.number) not in with_rows:
            about = [
                str(line.number),
                *map(_quiet, (line.statement, line.words, f"{UNDONE}: {why_undone(item)}")),
            ]
            yield ["", *_NO_SIZE, *about, "undone", "", "", ""]


def _ordered(units: UnitsShown) -> Callable[[list[str]], list[str]]:
    """Where millimetres lead, their columns stand before those of inches."""
    places = list(range(len(HEADER)))
    if units.lead == "mm":
        for first, second in (("inch", "mm"), ("lower in", "lower mm"), ("upper in", "upper mm")):
            inch, mm = HEADER.index(first), HEADER.index(second)
            places[inch], places[mm] = mm, inch
    return lambda row: [row[n] for n in places]


#: The headings of every order.
HEADERS = tuple(_ordered(UnitsShown(lead))(list(HEADER)) for lead in ("inch", "mm"))


def _rows(sheet: WorkedSheet, kinds: tuple[str, ...]) -> Iterator[list[str]]:
    """The header, then the rows."""
    yield list(HEADER)
    remarks = said_of(sheet.worked, sheet.doubts)
    revisions = sheet.revisions
    order = {revision.line: f"{n} of {len(revisions)}" for n, revision in enumerate(revisions, 1)}
    letters = {cut.line: cut for part in sheet.cut_parts.values() for cut in part.cuts}

    def about(item: Worked, kind: str) -> list[str]:
        """The line that a row is of, what is said beside it, and what kind of row it is."""
        line = item.line
        remark = f"{UNDONE}: {why_undone(item)}" if item.undone else remarks.get(line.number, "")
        if not item.undone and line.sets in sheet.doubts.settled:
            remark = "; ".join(echoes(item))
        return [str(line.number), _quiet(line.statement), _quiet(line.words), _quiet(remark), kind]

    for kind in kinds:
        for item in sheet.worked:
            line = item.line
            if kind == "part" and line.kind == "part":
                for cells, which in _part_sizes(item):
                    yield [_quiet(line.part_name), *cells, *about(item, kind), which, *_how_many(item)]
            elif kind == "feature" and line.kind == "feature":
                for cells, which in _features(item, letters.get(line.number)):
                    name = line.cut_in if item.feature is None else item.feature.part
                    yield [_quiet(name), *cells, *about(item, kind), which, "", ""]
            elif kind == "place" and line.sets:
                for cells, which in _places(item):
                    yield [line.sets, *cells, *about(item, kind), which, "", ""]
            elif kind == "cut" and item.stock is not None:
                said = {piece.name: remarks.get(piece.line, "") for piece in item.stock.pieces}
                for name, cells, which, how_many in _cut_rows(item, item.stock):
                    of_piece = about(item, kind)
                    of_piece[3] = _said_once([said[name], no_saw(item.stock)])
                    yield [_quiet(name), *cells, *of_piece, which, how_many, _quiet(item.stock.material)]
            elif kind == "cut" and line.kind == "stock":
                material = _quiet(line.stock.material if line.stock else "")
                yield ["", *_NO_SIZE, *about(item, kind), "", "", material]
            elif kind == "bought" and item.stock is not None:
                for cells, which, how_many in _stock_rows(item, item.stock):
                    of_stock = about(item, kind)
                    of_stock[3] = _said_once([of_stock[3], no_saw(item.stock)])
                    yield ["", *cells, *of_stock, which, how_many, _quiet(item.stock.material)]
            elif kind == "height" and item.answer is not None and item.answer.room.heights is not None:
                heights = item.answer.room.heights(item.answer.result)
                for n, height in enumerate(heights, 1):
                    cells, which = _size(height, item.taken_on), f"{n} of {len(heights)}"
                    yield ["", *cells, *about(item, kind), which, "", ""]
            elif kind == "revision" and line.kind == "revision":
                label = line.revision.label if line.revision is not None else ""
                yield [_quiet(label), *_NO_SIZE, *about(item, kind), order.get(line.number, ""), "", ""]
            elif kind == "check" and line.is_check:
                cells = _NO_SIZE if item.check is None else _size(item.check.difference, item.rule)
                yield ["", *cells, *about(item, kind), "" if item.undone else item.state, "", ""]
            elif kind == "size" and line.sets and (item.lacks_size or item.value is not None):
                cells = _NO_SIZE if item.value is None else _size(item.value, item.taken_on)
                yield [line.sets, *cells, *about(item, kind), "", "", ""]
        if kind == "tool":
            lacks = lacking(sheet.worked)
            for tool in sheet.tools:
                cells = (
                    _standing_alone(tool.standing) if tool.size is None else _size(tool.size, sheet.last_rule)
                )
                where = (", ".join(str(n) for _, n in tool.parts), ", ".join(name for name, _ in tool.parts))
                doubted = [remarks.get(line, "") for _, line in tool.parts]
                lacking_lines = [lacks.said_of(name) for name, _ in tool.parts]
                remark = _said_once([*doubted, *lacking_lines])
                used = [where[0], _quiet(where[1]), "", remark, kind, tool.kind]
                yield [_quiet(tool.name or tool.kind), *cells, *used, str(tool.many), ""]
        if kind == "bought":
            for each in sheet.to_buy.hardware:
                lines = ", ".join(str(number) for _, number in each.parts)
                parts = ", ".join(name for name, _ in each.parts)
                for n, size in enumerate(each.sizes, 1):
                    cells = _size(size, sheet.last_rule)
                    doubted = [remarks.get(number, "") for _, number in each.parts]
                    used = [lines, _quiet(parts), "", _said_once(doubted), kind, f"{n} of {len(each.sizes)}"]
                    yield [_quiet(each.name), *cells, *used, str(each.count), _quiet(each.material)]


def _said_once(remarks: Iterable[str]) -> str:
    """What is said of several lines, each thing once."""
    return _quiet("; ".join(dict.fromkeys(filter(None, remarks))))


def _part_sizes(item: Worked) -> list[tuple[list[str], str]]:
    """The columns of each of a part's sizes, and which it is; a part without sizes has one empty row."""
    sizes = item.part.sizes if item.part is not None else ()
    rows = [
        (_size(size, item.rule), ", ".join(filter(None, (f"{n} of {len(sizes)}", *_called(item, n - 1)))))
        for n, size in enumerate(sizes, 1)
    ]
    return rows or [(_NO_SIZE, "")]


def _features(item: Worked, lettered: Lettered | None) -> list[tuple[list[str], str]]:
    """The columns of each size of what is cut in a part, then of each coordinate, and which it is: A1, across."""
    feature = item.feature
    if feature is None:
        return [(_NO_SIZE, item.line.feature_word)]
    if lettered is None:
        what = "radius" if feature.word == "corner" else "least"
        return [] if feature.size is None else [(_size(feature.size, item.rule), f"{feature.word}, {what}")]
    rows = [
        (_size(value, item.rule), ", ".join(filter(None, (lettered.letter, _word(feature), which, called))))
        for which, value, called in _cut_sizes(feature)
    ]
    return rows + [
        (_size(size, item.rule), f"{lettered.place_name(n)}, {axis}")
        for n, point in enumerate(lettered.cut.at)
        for size, axis in zip(point, ("across", "up"), strict=True)
    ]


def _word(feature: Feature) -> str:
    """`hole`, `slot`, or `square slot` for one without round ends."""
    if isinstance(feature.cut, Notch):
        return f"{feature.word} in the {feature.cut.edge} edge"
    return f"square {feature.word}" if isinstance(feature.cut, Slot) and feature.cut.square else feature.word


def _cut_sizes(feature: Feature) -> Iterator[tuple[str, Value, str]]:
    """What each size of a hole or slot is, the size, and the name that it is given by."""
    cut = feature.cut
    if isinstance(cut, Hole):
        thread = f"{feature.purpose} {feature.thread}" if feature.thread else ""
        yield "diameter", cut.diameter, feature.called[0] or thread
        if cut.sunk is not None and cut.angle is not None:
            yield "sunk", cut.sunk, ""
            yield "angle of the countersink", cut.angle, ""
    elif isinstance(cut, Notch):
        yield "width", cut.length, feature.called[0]
        yield "depth", cut.width, feature.called[1]
    elif isinstance(cut, Slot):
        yield "length", cut.length, feature.called[0]
        yield "width", cut.width, feature.called[1]
        yield "turned", cut.turned, ""
    if cut is not None and cut.deep is not None:
        yield "deep", cut.deep, ""


def _cut_rows(item: Worked, stock: PartStock) -> Iterator[tuple[str, list[str], str, str]]:
    """The name of a part, the columns of what it is cut to, from which bars, and how many of them in all."""
    if stock.cutting is not None:
        for number, bar in numbered(stock.cutting):
            for cut in bar.cuts:
                which = f"{cut.count} from {'bar' if bar.times == 1 else 'each of bars'} {number}"
                yield cut.name, _size(cut.size, item.rule), which, str(cut.count * bar.times)
    elif stock.is_sheet:
        for piece in stock.pieces:
            for size, which in ((piece.across, "1 of 2"), (piece.size, "2 of 2")):
                assert size is not None
                yield piece.name, _size(limits_of(size).upper, item.rule), f"{which}, sheet", str(piece.count)


def _stock_rows(item: Worked, stock: PartStock) -> Iterator[tuple[list[str], str, str]]:
    """The columns of how long a bar or how large a sheet is, how many are needed at least, and how many there are."""
    many = stock.at_least if stock.cutting is None else stock.cutting.many
    least = "" if stock.at_least is None else f"at least {stock.at_least}"
    called = section_called(stock)
    for n, size in enumerate(stock.measures, 1):
        which = ", ".join(filter(None, (f"{n} of {len(stock.measures)}", called, least)))
        yield _size(size, item.rule), which, "0" if many is None else str(many)
    if stock.area is not None and stock.pieces:
        yield _size(stock.area, item.rule), f"{called}, area", ""


def _called(item: Worked, n: int) -> tuple[str, ...]:
    """What a part's size is of its section, and the name by which it is bought: `round`, `diameter`, `M6`."""
    part = item.part
    return () if part is None else (part.section, part.size_names[n], part.bought[n] if part.bought else "")


def _places(item: Worked) -> list[tuple[list[str], str]]:
    """The columns of each coordinate of named places on their own rule, and which it is: 2 of 6 across."""
    made = named_places(item)
    if made is None:
        return []
    many, axes = len(made.points), ("",) if len(made.axes) == 1 else (" across", " up")
    return [
        (_size(size, made.rule), f"{n} of {many}{axis}")
        for n, point in enumerate(made.points, 1)
        for size, axis in zip(point, axes, strict=True)
    ]


def _how_many(item: Worked) -> list[str]:
    if item.part is not None:
        return [str(item.part.count), _quiet(item.part.material)]
    return ["", _quiet(item.line.part.material) if item.line.part is not None else ""]


def _standing_alone(standing: str) -> list[str]:
    """The columns of what has no size of its own and still rests on a table, as a tap on that of its thread."""
    before = HEADER.index("standing") - HEADER.index("fraction")
    return [*_NO_SIZE[:before], in_words(standing) if standing else "", *_NO_SIZE[before + 1 :]]


def _size(value: Value, rule: Rule) -> list[str]:
    """Every column from `fraction` to `upper mm`."""
    if isinstance(value, Angle):
        return _no_length(value.degrees, "deg", value)
    nominal = nominal_of(value)
    if isinstance(value, Limits) and value.power == 1:
        nominal = size_within(value, rule.metric)
    if nominal.power != 1:
        unit = {0: "", -1: "per in"}.get(nominal.power, f"in^{nominal.power}")
        return _no_length(nominal.in_unit("in"), unit, value)
    near = _mark(nominal, value, rule)
    inch, inch_whole = decimal(nominal.inch, _PLACES)
    mm, mm_whole = decimal(nominal.mm, _PLACES)
    fraction = "" if near is None else mm_text(near) if rule.metric else inch_text(near)
    off = "" if near is None else decimal((near - nominal).inch, _PLACES)[0]
    limits = _limits(value) if isinstance(value, Limits) else [""] * 4
    return [
        # With its unit, `1/2 in` cannot be taken for a date.
        fraction, rule.name, off, inch, mm, "", str(nominal.inch), "in",
        _yes(not (inch_whole and mm_whole)), *_trust(value), *limits,
    ]  # fmt: skip


def _mark(size: Quantity, value: Quantity | Limits, rule: Rule) -> Quantity | None:
    """The division for a size; with limits the one within them, or None."""
    return mark_within(value, rule) if isinstance(value, Limits) else rung(size, rule).size


def _trust(value: Value) -> tuple[str, str]:
    """Whether it is approximate, and how far the figures of tables in it may be trusted."""
    return _yes(value.approximate), in_words(value.standing)


def _no_length(number: Fraction, unit: str, value: Value) -> list[str]:
    """The columns for an angle, a count or an area."""
    figure, whole = decimal(number, _PLACES)
    return [*[""] * 5, figure, str(number), unit, _yes(not whole), *_trust(value), *[""] * 4]


def _limits(value: Limits) -> list[str]:
    ends = (
        *inward(value.lower.inch, value.upper.inch, _PLACES),
        *inward(value.lower.mm, value.upper.mm, _PLACES),
    )
    return [decimal(end, 60)[0] for end in ends]


def _yes(value: bool) -> str:
    return "yes" if value else "no"


def _quiet(text: str) -> str:
    """Text that no spreadsheet takes for a formula."""
    return f"'{text}" if text.startswith(_LIVE) else text
