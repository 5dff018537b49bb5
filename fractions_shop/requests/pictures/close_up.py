"""Readings magnified, as a drawing: the marks of the rule above and below, each reading's band between."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from fractions_shop.figures.close_up import CloseUp, LabelledMark, ReadingBand
from fractions_shop.figures.drawing import Box, Drawing, Shape, Stroke, Words, hatching, text_width

_WIDTH, _SIDE = Fraction(160), Fraction(6)
_TEXT, _SMALL = Fraction(24, 10), Fraction(22, 10)
#: The upper edge, with two rows of labels over it; the lower is as far below the last reading as it is above the first.
_TOP, _LABELS, _ROW = Fraction(19), Fraction(36, 10), Fraction(6)
#: A band alone has more height than one among others.
_ALONE, _AMONG = Fraction(8), Fraction(36, 10)
_NAMED, _COUNTED = Fraction(4), Fraction(2)
#: What the words at the sides of a picture of several readings take at most.
_MOST_WORDS = Fraction(44)
#: Between two labels, and about one.
_CLEAR = Fraction(12, 10)
_LEGEND = "inches above, millimetres below; hatched: as far as a reading is trusted; pale: where what was meant may lie"


class _Paper:
    """Where places in mm come to stand on the paper."""

    def __init__(self, shown: CloseUp) -> None:
        several = len(shown.readings) > 1
        self.shown = shown
        self.left, self.right = _SIDE, _WIDTH - _SIDE
        if several:
            self.left += _wide([band.label for band in shown.readings])
            self.right -= _wide([band.meant for band in shown.readings])
        self.pitch = _ROW if several else _ALONE
        self.tall = _AMONG if several else _ALONE
        self.bottom = _TOP + 2 * _CLEAR + (self.pitch * len(shown.readings) if several else _ALONE)

    def x(self, place: Fraction) -> Fraction:
        shown = self.shown
        along = (min(max(place, shown.start), shown.end) - shown.start) / (shown.end - shown.start)
        # Six figures after the point are far finer than ink, and keep the file small.
        return round(self.left + along * (self.right - self.left), 6)

    def y(self, row: int) -> Fraction:
        """The middle of a reading's band."""
        return _TOP + _CLEAR + self.pitch * row + max(self.pitch, self.tall) / 2


def close_up(shown: CloseUp, title: str) -> Drawing:
    """The drawing of a close-up, each mark and each reading at its own place."""
    paper = _Paper(shown)
    shapes: list[Shape] = [Words(_SIDE, 6, _fitting(title, _WIDTH - 2 * _SIDE, Fraction(3)), 3)]
    shapes += _edge(paper, shown.inches, _TOP, -1)
    shapes += _edge(paper, shown.millimetres, paper.bottom, 1)
    for row, reading in enumerate(shown.readings):
        shapes += _band(paper, reading, row)
        shapes += _beside(paper, reading, row)
    shapes += _down(paper)
    foot = paper.bottom + _NAMED + 2 * _LABELS + 3
    shapes.append(Words(_SIDE, foot, _LEGEND, _TEXT))
    return Drawing(_WIDTH, foot + 3, title, shown.words, tuple(shapes))


def _wide(labels: Sequence[str]) -> Fraction:
    return min(max(text_width(label, _TEXT) for label in labels) + 3, _MOST_WORDS)


def _edge(paper: _Paper, marks: Sequence[LabelledMark], y: Fraction, way: int) -> Iterator[Shape]:
    """An edge of the rule, its marks away from the readings; `way` is 1 downwards."""
    yield Stroke(paper.left, y, paper.right, y, "bar")
    taken: list[tuple[int, Fraction, Fraction]] = []
    for mark in marks:
        x = paper.x(mark.place)
        long = _NAMED if mark.named else _COUNTED
        yield Stroke(x, y, x, y + way * long, "mark" if mark.named else "tick")
        row, left, wide = _room(paper, mark, x, taken)
        if row is not None:
            taken.append((row, left, left + wide))
            base = y + way * (_NAMED + Fraction(8, 10) + row * _LABELS) + (Fraction(2) if way > 0 else 0)
            yield Words(left + wide / 2, base, mark.label, _size(mark), "middle")


def _room(
    paper: _Paper, mark: LabelledMark, x: Fraction, taken: Sequence[tuple[int, Fraction, Fraction]]
) -> tuple[int | None, Fraction, Fraction]:
    """The row (0 is next to the edge) where a label has room, where it begins, and how wide it is."""
    wide = text_width(mark.label, _size(mark))
    left = max(_SIDE, min(_WIDTH - _SIDE - wide, x - wide / 2))
    rows = (0, 1) if mark.named else (0,)
    free = (
        row
        for row in rows
        if all(
            row != other or left > end + _CLEAR or left + wide + _CLEAR < start for other, start, end in taken
        )
    )
    return next(free, None), left, wide


def _size(mark: LabelledMark) -> Fraction:
    return _TEXT if mark.named else _SMALL


def _band(paper: _Paper, reading: ReadingBand, row: int) -> Iterator[Shape]:
    """Pale as far as the maker may have departed, hatched as far as the reading is trusted, a line where it reads."""
    top = paper.y(row) - paper.tall / 2
    if not paper.shown.start <= reading.at <= paper.shown.end:
        way = -1 if reading.at < paper.shown.start else 1
        tip, middle = paper.x(reading.at), paper.y(row)
        yield Stroke(tip - way * 8, middle, tip, middle, "bar")
        yield Stroke(tip - way * 2, middle - Fraction(3, 2), tip, middle, "bar")
        yield Stroke(tip - way * 2, middle + Fraction(3, 2), tip, middle, "bar")
        return
    for low, high, fill in ((reading.least, reading.most, "light"), (reading.low, reading.high, "hatched")):
        first, last = paper.x(low), paper.x(high)
        box = Box(first, top, max(last - first, Fraction(3, 10)), paper.tall, fill)
        yield box
        if fill == "hatched":
            yield from hatching(box)
    x = paper.x(reading.at)
    yield Stroke(x, top, x, top + paper.tall, "bar")


def _beside(paper: _Paper, reading: ReadingBand, row: int) -> Iterator[Shape]:
    """What was read and what it was taken for, at the sides; of one reading alone the title and the edges say it."""
    if len(paper.shown.readings) < 2:
        return
    base = paper.y(row) + _TEXT / 3
    room = _MOST_WORDS - 3
    yield Words(_SIDE, base, _fitting(reading.label, room, _TEXT), _TEXT)
    yield Words(paper.right + 3, base, _fitting(reading.meant, room, _TEXT), _TEXT)


def _down(paper: _Paper) -> Iterator[Shape]:
    """From every mark that may have been meant a dashed line across the readings."""
    marks = (*paper.shown.inches, *paper.shown.millimetres)
    for x in dict.fromkeys(paper.x(mark.place) for mark in marks if mark.named):
        yield Stroke(x, _TOP, x, paper.bottom, "match")


def _fitting(text: str, width: Fraction, size: Fraction) -> str:
    most = int(width / (size * Fraction(54, 100)))
    return text if len(text) <= most else text[: most - 3] + "..."
