"""What stands on every picture that is printed true to size: its heading and its calibration bar."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from fractions_shop.figures.drawing import Number, Shape, Stroke, Words, fitting, text_width

#: Blank at either end of a picture.
MARGIN = Fraction(6)
#: What is printed beneath every bar.
CHECK_THE_BAR = "print at 100 %, check the bar"
FOUR_INCHES = Fraction(1016, 10)

_HEADING, _TEXT = Fraction(3), Fraction(24, 10)
_NOTE_PITCH = Fraction(35, 10)


def heading(title: str, behind: str, rule: str, width: Number) -> list[Shape]:
    """The title, cut short where it must be, with what always stands `behind` it, and the rule at the right."""
    room = Fraction(width) - 2 * MARGIN - text_width(f"  {rule}", _TEXT) - text_width(behind, _HEADING)
    return [
        Words(MARGIN, 4, f"{fitting(title, room, _HEADING)}{behind}", _HEADING),
        Words(width - MARGIN, 4, rule, _TEXT, "end"),
    ]


def calibration(x: Number, y: Number) -> list[Shape]:
    """A bar of 4 in above and 100 mm below, to lay a rule against before the paper is trusted."""
    inches, millimetres = FOUR_INCHES, Fraction(100)
    shapes: list[Shape] = [Stroke(x, y, x + inches, y, "bar")]
    shapes += [Stroke(x + inches * k / 4, y, x + inches * k / 4, y - 2, "bar") for k in range(5)]
    shapes += [Stroke(x + millimetres * k / 10, y, x + millimetres * k / 10, y + 2, "bar") for k in range(11)]
    shapes += [
        Words(x, y + 5, CHECK_THE_BAR, _TEXT),
        Words(x + inches, y + 5, "4 in above, 100 mm below", _TEXT, "end"),
    ]
    return shapes


def foot(notes: list[str], y: Number, width: Number) -> tuple[list[Shape], Fraction]:
    """The calibration bar at `y` with notes beneath it, and where they end."""
    lines = [line for note in notes for line in folded(note, Fraction(width) - 2 * MARGIN)]
    below = [Words(MARGIN, y + 9 + _NOTE_PITCH * n, line, _TEXT) for n, line in enumerate(lines)]
    return [*calibration(MARGIN, y), *below], Fraction(y) + 9 + _NOTE_PITCH * (len(lines) - 1) + Fraction(1)


def foot_height(notes: list[str], width: Number) -> Fraction:
    """How far the foot reaches below its bar."""
    return foot(notes, 0, width)[1]


def folded(text: str, width: Fraction, size: Number = _TEXT, most: int | None = None) -> list[str]:
    """Text in lines no wider than `width`, in letters of `size`; the last of at most so many is cut short."""
    return list(_folded(text, width, size, most))


@lru_cache(maxsize=500)
def _folded(text: str, width: Fraction, size: Number, most: int | None) -> tuple[str, ...]:
    """The same, kept: the drawings of a sheet bear the same notes, and each asks how high they are before it draws them."""
    lines = [""]
    for word in (piece for each in text.split() for piece in _pieces(each, width, size)):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, size) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    if most is not None and len(lines) > most:
        lines = [*lines[: most - 1], fitting(" ".join(lines[most - 1 :]), width, size)]
    return tuple(lines)


def _pieces(word: str, width: Fraction, size: Number) -> Iterator[str]:
    """A word, in pieces where it has no room on one line."""
    while word and text_width(word, size) > width:
        kept = max(1, len(fitting(word, width, size)) - len("..."))
        yield word[:kept]
        word = word[kept:]
    yield word
