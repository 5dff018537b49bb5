"""The table on a drawing of what is cut: letter, place, size, depth and countersink, in as many pieces as it takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Shape, Stroke, Words, text_width
from fractions_shop.figures.wording import ends_in_mm_alone
from fractions_shop.layout.features import Cut, Hole, Size, Slot
from fractions_shop.layout.notches import Notch
from fractions_shop.sheet.cut_parts import CutPart
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.show.dimension import LINE, TEXT
from fractions_shop.show.feature_table import THROUGH, angle_words
from fractions_shop.show.part_table import end_alike, limits_in_words
from fractions_shop.show.running_dimensions import both_units
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.notation import mm_leads
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of

HEADER = ("", "across", "up", "size", "depth", "sunk")
#: Beside and above the words of a cell.
_ASIDE, _ABOVE = Fraction(12, 10), Fraction(14, 10)
CORNER = "R"

#: The lines of each cell of a row.
Row = tuple[tuple[str, ...], ...]


def size_lines(size: Size, before: str = "", called: str = "", behind: str = "") -> tuple[str, ...]:
    """A size as a drawing has it: its name, inches over millimetres, and the limits of each beneath."""
    first, second = both_units(nominal_of(size).unmarked)
    lines = [[f"{before}{first}{behind}"], [f"{before}{second}"]]
    if isinstance(size, Limits):
        within = limits_in_words(size)
        metric_leads = mm_leads(ends_in_mm_alone(nominal_of(size), 4))
        for each, limits in zip(lines, reversed(within) if metric_leads else within, strict=True):
            each.append(limits)
    lines[-1][-1] += mark_of(size.standing)
    return (*((called,) if called else ()), *lines[0], *lines[1])


def rows_of(part: CutPart) -> tuple[Row, ...]:
    """A row for each place, as lettered, and one for a corner radius."""
    return tuple(_rows(part))


def _rows(part: CutPart) -> Iterator[Row]:
    for cut in part.cuts:
        first = cut.place_name(0)
        for place, point in enumerate(cut.cut.at):
            where = tuple(map(both_units, point))
            if place:
                yield (cut.place_name(place),), *where, (f"as {first}",), ("",), ("",)
            else:
                yield (first,), *where, _what(cut.feature), _depth(cut.cut), _sunk(cut.cut)
    if part.corner is not None:
        size = part.corner[1].size
        assert size is not None
        yield (CORNER,), ("all four",), ("",), size_lines(size, "R "), ("",), ("",)


def _what(feature: Feature) -> tuple[str, ...]:
    cut = feature.cut
    if isinstance(cut, Notch):
        return (*_long_by_wide(cut, feature), f"into the {cut.edge} edge")
    if isinstance(cut, Slot):
        turned = (f"turned {angle_words(cut.turned)}",) if cut.turned.degrees else ()
        corners = ("square corners",) if cut.square else ()
        return (*_long_by_wide(cut, feature), *corners, *turned)
    assert isinstance(cut, Hole)
    thread = (f"{feature.purpose} {feature.thread}",) if feature.thread else ()
    return (*size_lines(cut.diameter, "⌀ ", feature.called[0]), *thread)


def _long_by_wide(cut: Slot, feature: Feature) -> tuple[str, ...]:
    """The two sizes of a slot or notch, on one line for each unit where neither has limits or a name."""
    called, word = feature.called, feature.word
    plain = [size for size in (cut.length, cut.width) if isinstance(size, Quantity)]
    if len(plain) == 2 and not any(called) and end_alike(plain):
        first, second = map(" by ".join, zip(*map(both_units, plain), strict=True))
        return f"{word} {first}", second
    (length, *longer), (width, *wider) = map(size_lines, (cut.length, cut.width), ("", ""), called)
    return f"{word} {length}", *longer, f"by {width}", *wider


def _depth(cut: Cut) -> tuple[str, ...]:
    return (THROUGH,) if cut.deep is None else both_units(cut.deep)


def _sunk(cut: Cut) -> tuple[str, ...]:
    if not isinstance(cut, Hole) or cut.sunk is None or cut.angle is None:
        return ("",)
    return (*size_lines(cut.sunk, "⌀ "), f"at {angle_words(cut.angle)}")


@dataclass(frozen=True)
class HoleTable:
    """Rows of the table with the widths that they have in all its pieces."""

    rows: tuple[Row, ...]
    header: tuple[str, ...] = HEADER

    @cached_property
    def widths(self) -> tuple[Fraction, ...]:
        """How wide each column is; one that says nothing in any row has no width."""
        return tuple(
            max((text_width(line, TEXT) for row in self.rows for line in row[n]), default=Fraction(0))
            and max(
                text_width(line, TEXT)
                for cells in (*((row[n]) for row in self.rows), (self.header[n],))
                for line in cells
            )
            + 2 * _ASIDE
            for n in range(len(self.header))
        )

    @property
    def width(self) -> Fraction:
        """How wide it is."""
        return Fraction(sum(self.widths))

    @property
    def head(self) -> Fraction:
        """How high its heading is."""
        return LINE + _ABOVE

    def pieces(self, first: Fraction, others: Fraction) -> list[tuple[Row, ...]]:
        """The rows in pieces: as many as have room in the height `first`, then in `others` for each."""
        pieces: list[list[Row]] = [[]]
        room = first - self.head
        for row in self.rows:
            if height(row) > room:
                pieces.append([])
                room = others - self.head
            pieces[-1].append(row)
            room -= height(row)
        return [tuple(piece) for piece in pieces]

    def drawn(self, rows: Sequence[Row], left: Fraction, top: Fraction) -> tuple[list[Shape], Fraction]:
        """Some of the rows under the heading, and where they end."""
        edges = [left]
        for width in self.widths:
            edges.append(edges[-1] + width)
        shapes: list[Shape] = [Stroke(left, top, edges[-1], top, "dimension")]
        y = top
        for cells in (tuple((name,) for name in self.header), *rows):
            for n, lines in enumerate(cells):
                if self.widths[n]:
                    shapes += [
                        Words(edges[n] + _ASIDE, y + LINE * (k + 1) - Fraction(3, 10), line, TEXT)
                        for k, line in enumerate(lines)
                        if line
                    ]
            y += height(cells)
            shapes.append(Stroke(left, y, edges[-1], y, "dimension" if y == top + self.head else "thin"))
        shapes += [Stroke(edge, top, edge, y, "thin") for edge in dict.fromkeys(edges)]
        return shapes, y


def height(row: Row) -> Fraction:
    """How high a row is."""
    return LINE * max(map(len, row)) + _ABOVE
