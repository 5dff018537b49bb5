"""How bars are cut, as a picture: one bar for each way of cutting, to one scale, its pieces marked by letters."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from string import ascii_uppercase

from fractions_shop.figures.drawing import Box, Drawing, Shape, Words, fitting, text_width
from fractions_shop.figures.paper import A4, PaperSize
from fractions_shop.figures.wording import both, so_many
from fractions_shop.layout.cutting import Bar, Cut, Cutting
from fractions_shop.requests.pictures.frame import MARGIN
from fractions_shop.sheet.worked_stock import PartStock
from fractions_shop.show.stock_table import cut_said, numbered, proof_text, stock_called

_TEXT, _HEADING = Fraction(24, 10), Fraction(3)
_TOP, _ROW, _TALL, _LINE = Fraction(12), Fraction(14), Fraction(6), Fraction(37, 10)


def bar_pictures(
    stock: PartStock, sheet: str, paper: PaperSize = A4, before: str = ""
) -> tuple[Drawing, ...]:
    """The pictures of a stock's bars, each small enough for `paper`; none where nothing is cut.

    `sheet` is what the sheet is called; `before` stands before the titles.
    """
    cutting = stock.cutting
    if cutting is None:
        return ()
    letters = {piece.name: _letter(n) for n, piece in enumerate(stock.pieces)}
    key = [f"{letters[piece.name]}  {so_many(piece.count, 'piece')} of {piece.name}, {cut_said(stock, piece.name)}"
           for piece in stock.pieces]  # fmt: skip
    rows = list(numbered(cutting))
    most = max(int((paper.down - _TOP - 2 - _LINE * len(key)) // _ROW), 3)
    pages = [rows[n : n + most] for n in range(0, len(rows), most)]
    return tuple(_page(stock, cutting, page, letters, key, sheet, paper, before) for page in pages)


def _letter(n: int) -> str:
    """A, B ... Z, AA, AB and so on."""
    return (_letter(n // 26 - 1) if n >= 26 else "") + ascii_uppercase[n % 26]


def _page(
    stock: PartStock, cutting: Cutting, rows: Sequence[tuple[str, Bar]], letters: dict[str, str], key: Sequence[str],
    sheet: str, paper: PaperSize, before: str,
) -> Drawing:  # fmt: skip
    width = paper.across
    room = width - 2 * MARGIN
    called = f"{before}{stock_called(stock)}: {so_many(cutting.many, 'bar')}"
    shapes: list[Shape] = [
        Words(MARGIN, 4, fitting(called, room, _HEADING), _HEADING),
        Words(MARGIN, 8, fitting(f"{sheet}; {proof_text(cutting)}; not true to size", room, _TEXT), _TEXT),
    ]
    y = _TOP
    for number, bar in rows:
        shapes += _bar(cutting, number, bar, letters, y, room)
        y += _ROW
    for n, line in enumerate(key):
        shapes.append(Words(MARGIN, y + 2 + _LINE * n, fitting(line, room, _TEXT), _TEXT))
    said = "; ".join(
        f"{_bars(number, bar)}: {_pieces(bar.cuts)}, {both(bar.left, 4)} left" for number, bar in rows
    )
    height = y + _LINE * len(key) + 1
    return Drawing(width, height, called, f"{called}. {said}.", tuple(shapes))


def _bars(number: str, bar: Bar) -> str:
    return f"bar {number}" if bar.times == 1 else f"bars {number}"


def _pieces(cuts: Sequence[Cut]) -> str:
    return ", ".join(f"{cut.count:,} of {cut.name}" for cut in cuts)


def _bar(
    cutting: Cutting, number: str, bar: Bar, letters: dict[str, str], y: Fraction, room: Fraction
) -> Iterator[Shape]:
    """A line of words, and beneath it the bar with its pieces; what is left is shaded."""
    cut = ", ".join(f"{cut.count:,} {letters[cut.name]}" for cut in bar.cuts)
    said = f"{_bars(number, bar)}: {cut}; {both(bar.left, 4)} left"
    yield Words(MARGIN, y + 3, fitting(said, room, _TEXT), _TEXT)
    scale = room / cutting.length.mm
    x, top = MARGIN, y + Fraction(9, 2)
    for each in bar.cuts:
        wide, saw = each.size.mm * scale, cutting.saw.mm * scale
        letter = letters[each.name]
        run = each.count * (wide + saw) - saw
        if wide < Fraction(3, 2):  # too narrow to be told apart: one box for all of them
            yield Box(x, top, min(run, MARGIN + room - x), _TALL)
            yield from _marked(letter, x, run, top)
        else:
            for k in range(each.count):
                yield Box(x + k * (wide + saw), top, wide, _TALL)
                yield from _marked(letter, x + k * (wide + saw), wide, top)
        x += each.count * (wide + saw)
    if bar.left.value:
        yield Box(x, top, MARGIN + room - x, _TALL, "light")


def _marked(letter: str, x: Fraction, wide: Fraction, top: Fraction) -> Iterator[Shape]:
    """The letter of a piece, where it has room."""
    if text_width(letter, _TEXT) <= wide - Fraction(1, 2):
        yield Words(x + wide / 2, top + 4, letter, _TEXT, "middle")
