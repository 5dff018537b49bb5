"""A rule drawn in characters: its ticks, numbered inches and the marks on it, in true proportion.

Every tick of the drawing takes the same whole number of columns, so a tick stands
exactly where it should. When the finest division has no room, a coarser one of the
same rule is drawn. A mark that falls between two columns gets a sign of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple, TextIO

from fractions_shop.sheet.answer import Answer
from fractions_shop.size.notation import decimal, mixed, mm_text, size_text, told_in
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.units import INCH

MARGIN = 2
#: A drawing narrower or more crowded than this shows no more than the words do.
_LEAST_COLUMNS = 8
_MOST_MARKS = 60


class Signs(NamedTuple):
    """The characters of a drawing: marks on and between columns, the edge and its ticks."""

    on: str
    between: str
    first: str
    tick: str
    last: str
    edge: str
    short: str
    long: str


LINES = Signs("▼", "▽", "┌", "┬", "┐", "─", "╵", "│")
PLAIN = Signs("V", "v", "+", "+", "+", "-", "'", "|")


class Scale(NamedTuple):
    """The division that is drawn, how many columns each takes, and how many there are."""

    rule: Rule
    columns: int
    ticks: int


def signs_for(stream: TextIO | None) -> Signs:
    """Line signs where `stream` can write them, plain letters and dashes where it cannot."""
    encoding = getattr(stream, "encoding", None) or "ascii"
    try:
        "".join(LINES).encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return PLAIN
    return LINES


def picture(answer: Answer, width: int, signs: Signs = LINES) -> tuple[str, ...]:
    """The drawing for an answer, or nothing when it has none or it does not fit."""
    on_a_rule = answer.room.on_a_rule
    marks = None if on_a_rule is None else on_a_rule(answer.result)
    with told_in(answer.units):
        return () if marks is None else drawn(*marks, width, signs)


def drawn(
    marks: Sequence[Quantity], rule: Rule | str, width: int = 80, signs: Signs = LINES
) -> tuple[str, ...]:
    r"""A rule from zero past the last of `marks`, in at most `width` columns.

    Several marks are numbered from 0, as a `mark` answer numbers them. Empty when a
    mark is below zero, when two would share a column, or when not even the whole
    inches (or centimetres) have room.

    >>> print("\n".join(drawn([Quantity.inches(Fraction(3, 8))], "8ths", 40, PLAIN)))
                                 V 3/8 in
      +--------+--------+--------+--------+
      |                 '                 |
      0                 1/4              1/2
      each tick is 1/8 in
    """
    rule = Rule(rule)
    places = [mark.mm for mark in marks]
    if not places or len(places) > _MOST_MARKS or min(places) < 0 or max(places) == 0:
        return ()
    scale = _scale(max(places), rule, width)
    if scale is None:
        return ()
    spots = [place / scale.rule.division.mm * scale.columns for place in places]
    columns = [round(spot) for spot in spots]
    if len(set(columns)) < len(columns):
        return ()
    lines = [
        *_pointers(marks, spots, scale, width, signs),
        _edge(scale, signs),
        _ticks(scale, signs),
        _numbers(scale, width - MARGIN),
    ]
    between = any(spot.denominator != 1 for spot in spots)
    margin = " " * MARGIN
    return tuple(f"{margin}{line}".rstrip() for line in [*lines, _caption(scale, between, signs)])


def _scale(furthest: Fraction, rule: Rule, width: int) -> Scale | None:
    """The finest division of the rule that has room, and its columns."""
    end = _end(furthest, rule)
    room = width - MARGIN - 1
    for step in reversed(rule.coarser):
        count = ceil(end / step.division.mm)
        if count <= room and count >= 1:
            columns = min(room // count, 16)
            return Scale(step, columns, count) if count * columns >= _LEAST_COLUMNS else None
    return None


def _end(furthest: Fraction, rule: Rule) -> Fraction:
    """Where the drawing stops: the next quarter or tenth of an inch, whole inch, or 5 mm."""
    coarse = Fraction(5 if rule.division.mm <= 5 else 10)
    unit = coarse if rule.metric else INCH / _share(rule)
    return ceil(furthest / unit) * unit


def _share(rule: Rule) -> int:
    """The parts of an inch that a short drawing of this rule ends on and is numbered by."""
    return next((n for n in (10, 4) if rule.parts % n == 0), 1)


def _pointers(
    marks: Sequence[Quantity], spots: list[Fraction], scale: Scale, width: int, signs: Signs
) -> list[str]:
    """The marks above the edge: one with its size beside it, several with their numbers above."""
    length = scale.columns * scale.ticks + 1
    row = [" "] * length
    for spot in spots:
        row[round(spot)] = signs.on if spot.denominator == 1 else signs.between
    if len(spots) > 1:
        numbers = _placed([(round(spot), str(n)) for n, spot in enumerate(spots)], width - MARGIN)
        return [numbers, "".join(row)] if numbers.strip() else ["".join(row)]
    label = size_text(marks[0], scale.rule.metric)
    place = round(spots[0])
    line = "".join(row).rstrip()
    if place + 2 + len(label) <= width - MARGIN:
        return [f"{line} {label}"]
    return [f"{label} {line[place]}".rjust(place + 1)] if len(label) < place else [line]


def _placed(labels: list[tuple[int, str]], room: int) -> str:
    """Labels starting at their columns in `room`, those left out that would touch the one before."""
    row = [" "] * room
    free = 0
    for tick, label in labels:
        column = min(tick, room - len(label))
        if column >= free:
            row[column : column + len(label)] = label
            free = column + len(label) + 1
    return "".join(row).rstrip()


def _edge(scale: Scale, signs: Signs) -> str:
    gap = signs.edge * (scale.columns - 1)
    return signs.first + gap + (signs.tick + gap) * (scale.ticks - 1) + signs.last


def _ticks(scale: Scale, signs: Signs) -> str:
    """The part of the longer ticks that reaches below the edge."""
    row = []
    for n in range(scale.ticks + 1):
        row.append((" ", signs.short, signs.long)[_height(n, scale.rule)])
        row.append(" " * (scale.columns - 1))
    return "".join(row).rstrip()


def _height(n: int, rule: Rule) -> int:
    """How far the nth tick reaches: 2 for inches and halves (10 mm, 5 mm), 1 for the next longer ones."""
    place = n * rule.division.mm
    if rule.metric:
        long, tall, middle = Fraction(10), Fraction(5), Fraction(1)
    else:
        long, tall, middle = INCH, INCH / 2, INCH / _middle(rule.parts)
    if place % (long if rule.division.mm >= tall else tall) == 0:
        return 2
    return 1 if place % middle == 0 and middle > rule.division.mm else 0


def _middle(parts: int) -> int:
    """The parts of an inch that get a tick of middle length."""
    if parts % 10 == 0:
        return 10
    return 8 if parts % 32 == 0 else 4


def _numbers(scale: Scale, room: int) -> str:
    """The numbers under the ticks: inches, or their quarters or tenths on a short rule; or mm."""
    division = scale.rule.division.mm
    end = scale.ticks * division
    if scale.rule.metric:
        base, unit, word = Fraction(10 if end > 20 else 5), Fraction(1), " mm"
    else:
        base, unit, word = (INCH / _share(scale.rule) if end < INCH else INCH), INCH, " in"
    base = max(base, division)
    for skip in (1, 2, 5, 10, 20, 50, 100):
        step = base * skip
        places = [step * n for n in range(int(end / step) + 1)]
        labels = [(int(p / division * scale.columns), _number(p / unit, scale.rule)) for p in places]
        widest = max(len(label) for _, label in labels)
        if step / division * scale.columns > widest or len(labels) == 1:
            break
    column, label = labels[-1]
    labels[-1] = (column, label + word if column + len(label + word) <= room else label)
    return _placed(labels, room)


def _number(value: Fraction, rule: Rule) -> str:
    return decimal(value)[0] if rule.metric or rule.parts % 10 == 0 else mixed(value)


def _caption(scale: Scale, between: bool, signs: Signs) -> str:
    division = scale.rule.division
    tick = mm_text(division) if scale.rule.metric else f"{mixed(division.inch)} in"
    return f"each tick is {tick}{f'; {signs.between} stands between two columns' if between else ''}"
