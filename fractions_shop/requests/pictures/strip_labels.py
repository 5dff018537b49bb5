"""Where the labels of a strip stand: side by side, in two rows, or turned, and never one over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import text_width
from fractions_shop.layout.scale import Stretch
from fractions_shop.size.notation import in_decimals, inch_figures
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: What stands by a mark: one line, or two.
Label = tuple[str, ...]

FLAT_TEXT, TURNED_TEXT = Fraction(24, 10), Fraction(22, 10)
#: From one line of a label to the next.
LINE = Fraction(3)
#: What a label keeps off its neighbours, off dashed lines and the ends, and off the stroke of another.
_APART, _CLEAR, _OFF_STROKE = Fraction(1), Fraction(6, 10), Fraction(5, 10)
_TURNED_APART = Fraction(4, 10)
#: Of labels that have no room, every so many-th is kept.
_STEPS = (2, 5, 10, 20, 50, 100, 200, 500)
#: Ways to go on that are kept in mind while two rows are filled.
_MOST_WAYS = 8


@dataclass(frozen=True, slots=True)
class Style:
    """How the labels of a strip are written: turned or not, how many lines of each, in how many rows."""

    turned: bool
    lines: int
    rows: int

    def width(self, label: Label) -> Fraction:
        """How much of the strip's length a label takes."""
        if self.turned:
            return TURNED_TEXT * self.lines + _TURNED_APART * (self.lines - 1)
        return max(text_width(line, FLAT_TEXT) for line in label[: self.lines])

    def height(self, labels: Sequence[Label]) -> Fraction:
        """How high all the labels stand above the ends of their marks."""
        if self.turned:
            return max(text_width(line, TURNED_TEXT) for label in labels for line in label[: self.lines])
        return LINE * self.lines * self.rows


@dataclass(frozen=True, slots=True)
class Placed:
    """A label where it stands: the `n`-th, from `left`, in which row (0 the lowest)."""

    n: int
    left: Fraction
    row: int = 0


@dataclass(frozen=True, slots=True)
class Labelled:
    """The labels of all the pieces of a strip in one style, and how many are left out."""

    style: Style
    pieces: tuple[tuple[Placed, ...], ...]
    left_out: int


def place_in_short(place: Quantity, rule: Rule) -> str:
    """A place in the units of a rule, `~` before it where it is rounded, to 0.001 in or 0.01 mm."""
    text, whole = in_decimals(place.mm, "mm", 2) if rule.metric else inch_figures(place, 3)
    return text if whole else f"~{text}"


def arranged(places: Sequence[Fraction], labels: Sequence[Label], pieces: Sequence[Stretch]) -> Labelled:
    """The labels in the first style in which all of them have room; else turned, and some left out.

    A label stands on the one piece that its mark belongs to, off the joints and the ends.
    """
    owners = [[n for n, place in enumerate(places) if own(place, piece)] for piece in pieces]
    most = max(len(label) for label in labels)
    styles = [Style(False, most, 1), Style(False, most, 2), Style(True, most, 1), Style(True, 1, 1)]
    for style in styles:
        fill = _two_rows if style.rows == 2 else _one_row
        filled = [
            fill([_wanted(n, places[n], labels[n], style, piece) for n in mine], style)
            for mine, piece in zip(owners, pieces, strict=True)
        ]
        if all(each is not None for each in filled):
            return Labelled(style, tuple(tuple(each or ()) for each in filled), 0)
    style = styles[-1]
    kept = tuple(
        _thinned([_wanted(n, places[n], labels[n], style, piece) for n in mine], len(places))
        for mine, piece in zip(owners, pieces, strict=True)
    )
    return Labelled(style, kept, len(places) - sum(map(len, kept)))


def own(place: Fraction, piece: Stretch) -> bool:
    """Whether what stands here has its words on this piece; past a joint they stand on the neighbour."""
    first = piece.start if piece.meets_before is None else piece.meets_before
    last = piece.end if piece.meets_after is None else piece.meets_after
    return first <= place <= last


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A label that looks for room: the place of its mark, and where it begins and ends."""

    n: int
    place: Fraction
    left: Fraction
    right: Fraction


def _wanted(n: int, place: Fraction, label: Label, style: Style, piece: Stretch) -> _Wanted:
    """A label centred over its mark, but on this side of the strip's ends and joints."""
    wide = style.width(label)
    first = piece.start if piece.meets_before is None else piece.meets_before
    last = piece.end if piece.meets_after is None else piece.meets_after
    left = max(first + _CLEAR, min(last - _CLEAR - wide, place - wide / 2))
    return _Wanted(n, place, left, left + wide)


def _one_row(wanted: Sequence[_Wanted], style: Style) -> list[Placed] | None:
    """All of them side by side, or None."""
    apart = _TURNED_APART if style.turned else _APART
    taken: Fraction | None = None
    for each in wanted:
        if taken is not None and each.left < taken + apart:
            return None
        taken = each.right
    return [Placed(each.n, each.left) for each in wanted]


@dataclass(frozen=True, slots=True)
class _Way:
    """Labels so far in two rows: where each row ends, and the last stroke that passes the lower one."""

    lower: Fraction
    upper: Fraction
    stroke: Fraction
    rows: tuple[int, ...] = ()


def _two_rows(wanted: Sequence[_Wanted], _: Style) -> list[Placed] | None:
    """All of them in two rows, no label over the stroke that leads to one of the upper row; or None."""
    if not wanted:
        return []
    before = wanted[0].left - 100
    ways = [_Way(before, before, before)]
    for each in wanted:
        onward: dict[tuple[Fraction, Fraction, Fraction], _Way] = {}
        for way in ways:
            for row in (0, 1):
                step = _next(way, each, row)
                if step is not None:
                    onward.setdefault((step.lower, step.upper, step.stroke), step)
        ways = list(onward.values())[:_MOST_WAYS]
    if not ways:
        return None
    return [Placed(each.n, each.left, row) for each, row in zip(wanted, ways[0].rows, strict=True)]


def _next(way: _Way, each: _Wanted, row: int) -> _Way | None:
    if row == 0:
        if each.left < way.lower + _APART or each.left < way.stroke + _OFF_STROKE:
            return None
        return _Way(each.right, way.upper, way.stroke, (*way.rows, 0))
    if each.left < way.upper + _APART or each.place < way.lower + _OFF_STROKE:
        return None
    return _Way(way.lower, each.right, each.place, (*way.rows, 1))


def _thinned(wanted: Sequence[_Wanted], many: int) -> tuple[Placed, ...]:
    """As many as have room, the first and the last of the piece before the rest.

    Every second, fifth, tenth and so on rather than a few more without such an order.
    """
    most = _as_many_as_fit(wanted)
    for step in _STEPS:
        regular = [each for each in wanted if each.n % step == 0 or each.n == many - 1]
        kept = _as_many_as_fit(regular)
        if len(kept) >= len(regular) - 1:
            most = kept if 2 * len(kept) > len(most) else most
            break
    return tuple(Placed(each.n, each.left) for each in most)


def _as_many_as_fit(wanted: Sequence[_Wanted]) -> list[_Wanted]:
    if len(wanted) < 2:
        return list(wanted)
    kept, last = [wanted[0]], wanted[-1]
    for each in wanted[1:-1]:
        if each.left >= kept[-1].right + _TURNED_APART and each.right + _TURNED_APART <= last.left:
            kept.append(each)
    return [*kept, last] if last.left >= kept[-1].right + _TURNED_APART else kept
