"""The cut list and what to buy, and a stock line in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from math import floor

from fractions_shop.figures.figure import Figure, in_decimals, in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, each_cell, in_prose, lines_cell, without_empty, words
from fractions_shop.figures.wording import both, both_cell, so_many
from fractions_shop.layout.cutting import Bar, Cutting
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.part_lines import SECTIONS
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.to_buy import Hardware, ToBuy
from fractions_shop.sheet.worked_stock import CutPiece, PartStock
from fractions_shop.show.doubt_marks import marked
from fractions_shop.show.part_table import part_sizes, sizes_cell, sizes_in_words
from fractions_shop.show.size_table import UNDONE, where_told
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import mm_leads
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of

CUT_NOTE = "The first end of each bar is taken as square; a cut is made behind every piece."
NO_SAW = "saw cuts not counted"
BY_AREA = "by area alone, no layout was tried"
CUT_LARGEST = "cut to the largest size that limits allow"


def cut_list(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """One row for bars cut alike, under the stock that they are of; doubtful parts are marked."""
    rows: list[tuple[Cell | str, ...]] = []
    for item in worked:
        line = str(item.line.number)
        if item.stock is not None and item.stock.cutting is not None:
            called = stock_called(item.stock)
            for number, bar in numbered(item.stock.cutting):
                rows.append((called, number, _cuts(item.stock, bar, doubts), both_cell(bar.left, 4), line))
                called = line = ""
        elif item.line.kind == "stock" and item.undone:
            rows.append((item.line.statement, "", words(f"{UNDONE}: {where_told(item)}"), "", line))
    return without_empty(Table(tuple(rows), ("stock", "bars", "cut from each", "left of each", "line")))


def cut_list_in_brief(cuts: Table) -> Table:
    """The cut list with what is cut and what is left in one column, under a row for each stock."""
    rows: list[tuple[str, ...]] = []
    at = {name: n for n, name in enumerate(cuts.heads)}
    for row in each_cell(cuts):
        cell = {name: row[n] for name, n in at.items()}
        if cell["stock"]:
            rows.append((cell["line"], "", cell["stock"]))
        left = f"; left {cell['left of each']}" if cell.get("left of each") else ""
        rows.append(("", cell.get("bars", ""), f"{cell['cut from each']}{left}"))
    return Table(tuple(rows), ("line", "bars", "stock, and what is cut from each bar"))


def buy_in_brief(needs: Table) -> Table:
    """What to buy in fewer columns."""
    rows = []
    for row in each_cell(needs):
        cell = dict(zip(needs.heads, row, strict=True))
        named = f"for {cell['for']}" if cell.get("for") else ""
        said = "; ".join(filter(None, (cell["what"], named, cell.get("remark", ""))))
        rows.append((cell["line"], cell.get("how many", ""), said))
    return Table(tuple(rows), ("line", "how many", "what"))


def cut_remarks(worked: Iterable[Worked]) -> tuple[str, ...]:
    """What is to be known of every piece of the cut list."""
    stocks = [(item.line.number, item.stock) for item in worked if item.stock is not None]
    remarks = []
    if any(stock.has_limits for _, stock in stocks):
        remarks.append(f"a piece is {CUT_LARGEST}")
    unsawn = [str(line) for line, stock in stocks if no_saw(stock)]
    if unsawn:
        lines = f"line{'s' if len(unsawn) > 1 else ''} {', '.join(unsawn)}"
        remarks.append(
            f"{NO_SAW} for the stock on {lines}: less is left than is told, and more bars may be needed"
        )
    return tuple(remarks)


def no_saw(stock: PartStock) -> str:
    """That the saw takes nothing of the bars of a stock; empty where it does, and where none are cut."""
    return NO_SAW if stock.cutting is not None and not stock.cutting.saw.value else ""


def buy(needs: ToBuy, doubts: Doubts = NO_DOUBTS) -> Table:
    """One row for each stock, each kind of hardware, and each part that no stock has."""
    rows: list[tuple[Cell | str, ...]] = []
    for item in needs.stock:
        if item.stock is not None:
            many, remark = _how_many(item.stock), "; ".join(_remarks(item.stock))
            called = marked(stock_called(item.stock), item.line.number, doubts)
            rows.append((called, many, "", remark, str(item.line.number)))
    for each in needs.hardware:
        named = ", ".join(marked(name, line, doubts) for name, line in each.parts)
        lines = lines_cell(line for _, line in each.parts)
        rows.append((hardware_called(each), f"{each.count:,}", named, "", lines))
    for item in needs.without_stock:
        part = item.part
        assert part is not None
        name = marked(part.name, item.line.number, doubts)
        what = ", ".join(filter(None, (part.material, part_sizes(part))))
        rows.append((what, f"{part.count:,}", name, _why_no_stock(needs.undone_stock), str(item.line.number)))
    return without_empty(Table(tuple(rows), ("what", "how many", "for", "remark", "line")))


def _why_no_stock(undone: Sequence[int]) -> str:
    """That no stock has a part; a stock that was not worked out may be meant for it."""
    if not undone:
        return "no stock line has it"
    lines = f"line {undone[0]}" if len(undone) == 1 else f"lines {', '.join(map(str, undone))}"
    return f"no stock that was worked out has it; not worked out: the stock on {lines}"


def _area(area: Quantity) -> str:
    """An area as finely as one buys by it."""
    square = in_decimals(area.in_unit("in"), "sq in", 2), in_decimals(area.in_unit("mm"), "sq mm", 0)
    first, second = reversed(square) if mm_leads() else square
    return in_prose(Cell("size", (first,), (second,)))


def bought_lines(needs: ToBuy, worked: Iterable[Worked]) -> list[Worked]:
    """The lines that stand in the list of what to buy."""
    numbers = {line for each in needs.hardware for _, line in each.parts}
    return [*needs.stock, *needs.without_stock, *(item for item in worked if item.line.number in numbers)]


def _how_many(stock: PartStock) -> str:
    if stock.cutting is not None:
        return so_many(stock.cutting.many, "bar")
    if stock.is_sheet and stock.at_least:
        return f"{so_many(stock.at_least, 'sheet')} at least"
    return "" if stock.pieces else "none"


def _remarks(stock: PartStock) -> Iterator[str]:
    """What stands beside the number: whether it is the least, the area, the note."""
    if stock.cutting is not None:
        yield proof_text(stock.cutting)
    elif stock.area is not None and stock.pieces:
        yield f"{_area(stock.area)} in all, {BY_AREA}"
    else:
        yield nothing_text(stock)
    if stock.note:
        yield stock.note


def proof_text(cutting: Cutting) -> str:
    """Whether fewer bars may do, and whether the saw was thought of."""
    saw = "" if cutting.saw.value else f", {NO_SAW}"
    if cutting.proved:
        return f"no fewer will do{saw}"
    return f"at least {cutting.at_least:,} are needed: whether fewer than {cutting.many:,} will do was not settled{saw}"


def stock_in_short(stock: PartStock) -> str:
    """How much of a stock it takes, in a few words: `8 bars, no fewer will do`."""
    if stock.cutting is not None:
        return f"{so_many(stock.cutting.many, 'bar')}, {proof_text(stock.cutting)}"
    if stock.area is None or not stock.pieces:
        return nothing_text(stock)
    return ", ".join(filter(None, (_how_many(stock), _area(stock.area), BY_AREA)))


def nothing_text(stock: PartStock) -> str:
    """Why nothing is cut from a stock."""
    if stock.elsewhere:
        return "; ".join(f"{name} is cut from the stock on line {line}" for name, line in stock.elsewhere)
    return "no part of the sheet has this material and section"


def hardware_called(each: Hardware) -> str:
    """What a kind of hardware is bought as: `6 BA x 1/2 in (12.7 mm), brass`."""
    sizes = sizes_in_words(each.sizes, each.bought, ("",) * len(each.sizes))
    said = " x ".join(sizes)
    # A name of the thread that is no size of its own stands in front.
    return ", ".join(filter(None, (said, each.material)))


def section_called(stock: PartStock) -> str:
    """The section of a stock: `round 1/4 in (6.35 mm)`, `1/16 in x 1/4 in (1.588 x 6.35 mm)`, `sheet`."""
    return f"{stock.section} {_sized(stock, stock.sizes)}".strip()


def stock_called(stock: PartStock) -> str:
    """A stock in full: material, section, and how long a bar or how large a sheet is."""
    if stock.is_sheet or stock.section:
        said = [stock.material, section_called(stock)]
        measured = _sized(stock, stock.measures)
        said += [f"{measured} long" if not stock.is_sheet else measured] if measured else []
        return ", ".join(said)
    return f"{stock.material}, {_sized(stock, (*stock.sizes, *stock.measures))} long"


def _sized(stock: PartStock, sizes: Sequence[Quantity | Limits]) -> str:
    """Sizes joined by x: each unit together where no name, bore or limits part them."""
    if not any(stock.bought) and stock.section != "tube" and (together := sizes_cell(sizes)) is not None:
        return in_prose(together)
    names = SECTIONS.get(stock.section, ()) if sizes is stock.sizes else ()
    bought = (
        (*stock.bought, *[""] * len(sizes)) if sizes[: len(stock.sizes)] == stock.sizes else [""] * len(sizes)
    )
    called = [names[n] if n < len(names) else "" for n in range(len(sizes))]
    return " x ".join(sizes_in_words(sizes, bought[: len(sizes)], called))


def numbered(cutting: Cutting) -> Iterator[tuple[str, Bar]]:
    """Each way of cutting with the numbers of the bars that are cut so."""
    first = 1
    for bar in cutting.bars:
        last = first + bar.times - 1
        yield (str(first) if first == last else f"{first:,} to {last:,}"), bar
        first = last + 1


def _cuts(stock: PartStock, bar: Bar, doubts: Doubts) -> str:
    lines = {piece.name: piece.line for piece in stock.pieces}
    return "; ".join(
        f"{cut.count:,} of {marked(cut.name, lines[cut.name], doubts)}, {cut_said(stock, cut.name)}"
        for cut in bar.cuts
    )


def cut_said(stock: PartStock, name: str) -> str:
    """The length that the pieces of a part are cut to; one that its limits set is never rounded beyond them."""
    piece = next(piece for piece in stock.pieces if piece.name == name)
    largest = piece.largest
    if not isinstance(piece.size, Limits):
        return both(largest, 4)
    inches = _below(largest.inch, "in", in_inches(largest, 4))
    metric = _below(largest.mm, "mm", in_mm(largest, 4))
    first, second = (metric, inches) if mm_leads() else (inches, metric)
    return f"{in_prose(Cell('size', (first,), (second,)))}{mark_of(largest.standing)}"


def _below(number: Fraction, unit: str, figure: Figure) -> Figure:
    """A figure that tells no more than the number; exact ones as they are."""
    scale = 10**figure.places
    return (
        figure
        if figure.exact
        else Figure.of(Fraction(floor(number * scale), scale), unit, figure.places, False)
    )


def stock_sentence(stock: PartStock) -> str:
    """What it is, how many bars or sheets of it are needed, and how that is known."""
    called = stock_called(stock)
    if not stock.pieces:
        return f"{called}: {nothing_text(stock)}"
    if stock.cutting is not None:
        return f"{called}: {_how_many(stock)}; {proof_text(stock.cutting)}"
    assert stock.area is not None
    return f"{called}: {', '.join(filter(None, (_area(stock.area), _how_many(stock))))}, {BY_AREA}"


def stock_lines(stock: PartStock) -> Lines:
    """A stock in sentences, for the working."""
    lines: Lines = [stock_sentence(stock)]
    if not stock.pieces:
        return lines
    if stock.cutting is not None:
        lines += _bar_lines(stock, stock.cutting)
    if stock.has_limits:
        lines.append(f"pieces with limits are {CUT_LARGEST}")
    lines += [f"{name} is cut from the stock on line {line}" for name, line in stock.elsewhere]
    return lines


def _bar_lines(stock: PartStock, cutting: Cutting) -> Lines:
    rows = tuple((number, *_bar(stock, bar)) for number, bar in numbered(cutting))
    left = f"{both(cutting.left, 4)} left over in all"
    return [Table(rows, ("bars", "cut from each", "left of each")), left]


def cutting_lines(cutting: Cutting) -> Lines:
    """Bars laid out without a sheet, in the same words."""
    counts: dict[str, int] = {}
    for bar in cutting.bars:
        for cut in bar.cuts:
            counts[cut.name] = counts.get(cut.name, 0) + cut.count * bar.times
    sizes = {cut.name: cut.size for bar in cutting.bars for cut in bar.cuts}
    pieces = tuple(CutPiece(name, 0, many, sizes[name]) for name, many in counts.items())
    stock = PartStock("", "", (), (), (cutting.length,), cutting.saw, "", pieces, cutting=cutting)
    saw = f", the saw taking {both(cutting.saw, 4)}" if cutting.saw.value else ""
    called = f"{both(cutting.length, 4)} long{saw}"
    return [f"{called}: {_how_many(stock)}; {proof_text(cutting)}", *_bar_lines(stock, cutting)]


def _bar(stock: PartStock, bar: Bar) -> Sequence[Cell | str]:
    return words(_cuts(stock, bar, NO_DOUBTS)), both_cell(bar.left, 4)
