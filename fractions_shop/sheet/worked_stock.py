"""A stock line worked out: which parts are cut from it, and how the bars are laid out.

A part is cut from the first stock line of its material whose section it has. Sections agree by their nominal
sizes; a piece is cut to the largest size that its limits allow, from a bar as short as its own limits allow.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from fractions_shop.errors import InputError, ShopError
from fractions_shop.figures.wording import both
from fractions_shop.language.nodes import ShownExpression
from fractions_shop.language.notes import Note, remark
from fractions_shop.layout.cutting import MOST_PARTS, Cutting, cut_from
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.part_lines import Part, checked_size
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.stock_lines import STOCK_HABITS, StockForm, is_stock
from fractions_shop.sheet.whole_lines import in_whole_lines
from fractions_shop.sheet.worked_parts import behind_names, called_as, worked_out
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Quantity

#: A length, or an area: a size, or its limits.
Sized = Quantity | Limits


@dataclass(frozen=True, slots=True)
class CutPiece:
    """What is cut for one part: `count` pieces of `size`; of a sheet `size` by `across`. `line` is the part's."""

    name: str
    line: int
    count: int
    size: Sized
    across: Sized | None = None

    @property
    def largest(self) -> Quantity:
        """The length that it is cut to."""
        return limits_of(self.size).upper


@dataclass(frozen=True, slots=True)
class PartStock:
    """What parts are cut from. `section` is sheet, or the shape of a bar: empty for flat stock, else its word.

    `sizes` are those of the section, `bought` the names by which they are bought, `measures` how long a bar is, or how
    wide and long a sheet. `pieces` are what is cut from it, `elsewhere` parts that would be but that an earlier
    stock line has, each with that line. Bars have a `cutting`; of a sheet only the `area` is known.
    """

    material: str
    section: str
    sizes: tuple[Sized, ...]
    bought: tuple[str, ...]
    measures: tuple[Sized, ...]
    saw: Sized | None
    note: str
    pieces: tuple[CutPiece, ...]
    elsewhere: tuple[tuple[str, int], ...] = ()
    cutting: Cutting | None = None
    notes: tuple[Note, ...] = field(default=(), compare=False)

    @property
    def is_sheet(self) -> bool:
        """Whether it is a sheet, of which only the area is reckoned."""
        return self.section == "sheet"

    @property
    def area(self) -> Quantity | None:
        """The area of all pieces of a sheet, each at its largest; None for bars."""
        if not self.is_sheet:
            return None
        total = Quantity(0, 2)
        for piece in self.pieces:
            assert piece.across is not None
            total += piece.largest * limits_of(piece.across).upper * piece.count
        return total

    @property
    def at_least(self) -> int | None:
        """The fewest bars, or sheets by their area alone, that can do; None where that is not known."""
        if self.cutting is not None:
            return self.cutting.at_least
        area = self.area
        if area is None or len(self.measures) < 2:
            return None
        wide, long = (limits_of(size).lower for size in self.measures)
        return ceil((area / (wide * long)).value)

    @property
    def has_limits(self) -> bool:
        """Whether the limits of a piece decide what it is cut to."""
        return any(isinstance(size, Limits) for piece in self.pieces for size in (piece.size, piece.across))


def same_material(first: str, second: str) -> bool:
    """Whether two materials are written alike, whatever their capitals."""
    return first.casefold() == second.casefold()


def work_out_stock(
    line: Line,
    session: Session,
    setting: Mapping[str, Line],
    parts: Sequence[tuple[int, Part]],
    above: Sequence[tuple[int, PartStock]],
) -> PartStock:
    """The stock of a line, with the names of `session`.

    `parts` are those of its material and `above` the stock lines above it, each with the number of its line.
    `setting` is the line that sets each name.

    InputError, placed in the line, for what cannot be worked out, and for a piece that no bar holds.
    """
    form = line.stock
    assert form is not None

    answers = {id(node): worked_out(node, line, session) for node in _shown(form)}

    def size(node: ShownExpression) -> Sized:
        try:
            return checked_size(answers[id(node)].value, node, line.text, "a size of stock")
        except InputError as error:
            raise in_whole_lines(error, is_stock, STOCK_HABITS) from None

    stock = PartStock(
        form.material, form.section, tuple(map(size, form.sizes)),
        tuple(called_as(behind_names(node.expression, setting)) for node in form.sizes),
        tuple(map(size, form.measures)), None if form.saw is None else size(form.saw), form.note, (),
        notes=tuple(dict.fromkeys(note for answer in answers.values() for note in answer.notes)),
    )  # fmt: skip
    taken = {piece.line: number for number, other in above for piece in other.pieces}
    pieces, elsewhere = [], []
    for number, part in parts:
        piece = piece_of(stock, part, number) if same_material(part.material, form.material) else None
        if piece is not None and number in taken:
            elsewhere.append((part.name, taken[number]))
        elif piece is not None:
            pieces.append(piece)
    stock = replace(stock, pieces=tuple(pieces), elsewhere=tuple(elsewhere))
    _refuse_too_large(stock, form, line.text)
    return _laid_out(stock, form, line.text)


def _shown(form: StockForm) -> tuple[ShownExpression, ...]:
    return tuple(node for node in form.nodes if isinstance(node, ShownExpression))


def piece_of(stock: PartStock, part: Part, number: int) -> CutPiece | None:
    """What is cut from a stock for a part of its material; None where its section is another."""
    sizes = list(part.sizes)
    if stock.is_sheet:
        if part.section or len(sizes) != 2 + len(stock.sizes):
            return None
        across = _without(sizes, stock.sizes, (0, 2, 1))
        return None if across is None else CutPiece(part.name, number, part.count, across[1], across[0])
    if part.section != stock.section or len(sizes) != len(stock.sizes) + 1:
        return None
    if stock.section:
        own, length = sizes[:-1], sizes[-1:]
        alike = all(map(_alike, own, stock.sizes))
        return CutPiece(part.name, number, part.count, length[0]) if alike else None
    left = _without(sizes, stock.sizes, (0, 1, 2))
    return None if left is None else CutPiece(part.name, number, part.count, left[0])


def same_stock(first: PartStock, second: PartStock) -> bool:
    """Whether two are of one material and section, and so for the same parts; bars and sheets may be of other lengths."""
    if not same_material(first.material, second.material) or first.section != second.section:
        return False
    if len(first.sizes) != len(second.sizes):
        return False
    if first.section in ("", "sheet"):  # thickness by width, or the other way about
        return _without([*first.sizes], second.sizes, range(len(first.sizes))) == []
    return all(map(_alike, first.sizes, second.sizes))


def _without(sizes: list[Sized], taken: Sequence[Sized], order: Sequence[int]) -> list[Sized] | None:
    """The sizes left when those of a section are taken from them, the first in `order` first; None where one lacks."""
    left = {k: sizes[k] for k in order if k < len(sizes)}
    for size in taken:
        place = next((k for k, own in left.items() if _alike(own, size)), None)
        if place is None:
            return None
        del left[place]
    return [left[k] for k in sorted(left)]


def _alike(first: Sized, second: Sized) -> bool:
    return limits_of(first).nominal == limits_of(second).nominal


def _refuse_too_large(stock: PartStock, form: StockForm, text: str) -> None:
    if not stock.measures:
        return
    room = sorted(limits_of(size).lower for size in stock.measures)
    called = "sheet" if stock.is_sheet else "bar"
    for piece in stock.pieces:
        needs = sorted(
            [piece.largest, *([limits_of(piece.across).upper] if piece.across is not None else [])]
        )
        for need, has in zip(needs, room, strict=True):
            if need > has:
                raise InputError(
                    f"{piece.name} (line {piece.line}), {both(need)}, is larger than the {called}, {both(has)}: "
                    f"by {both(need - has)}",
                    text, form.measures[0].start, form.measures[-1].end, f"name a longer {called}, or a shorter part",
                )  # fmt: skip


def _laid_out(stock: PartStock, form: StockForm, text: str) -> PartStock:
    if stock.is_sheet or not stock.pieces:
        return stock
    saw = Quantity(0, 1) if stock.saw is None else limits_of(stock.saw).upper
    length = limits_of(stock.measures[0]).lower
    if len(stock.pieces) > MOST_PARTS:
        raise InputError(
            f"at most {MOST_PARTS:,} parts are laid out on one stock", text, 0, len(text), "divide it"
        )
    try:
        cutting = cut_from(length, {piece.name: (piece.size, piece.count) for piece in stock.pieces}, saw=saw)
    except ShopError as error:
        raise InputError(str(error), text, form.measures[0].start, form.measures[0].end) from None
    notes = stock.notes
    if stock.saw is None:
        notes = (*notes, remark("no saw cut is counted: say what the saw takes, such as saw 1/32 in"))
    return replace(stock, cutting=cutting, notes=notes)


def could_be_cut_from(form: StockForm, part: Line) -> bool:
    """Whether a part line may be of a stock, as far as can be told before sizes are known; one not read always may."""
    if part.part is None:
        return True
    # Which of two materials is meant of a part is known when its count is.
    materials = [part.part.material, *([part.part.otherwise[1]] if part.part.otherwise else [])]
    shape = "" if form.section == "sheet" else form.section
    return part.part.section == shape and any(same_material(form.material, each) for each in materials)
