"""A strip to stick on the work: the rule along one edge, the marks of a `mark` along the other."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.notation import inch_text, mm_text
from fractions_shop.quantity import Quantity
from fractions_shop.show.drawing import Box, Drawing, Number, Shape, Stroke, Words, text_width
from fractions_shop.show.scale import Stretch, steps, stretches, ticks
from fractions_shop.show.words import over_under, rule_word
from fractions_shop.spacing import Marks

#: A strip fits on A4 and on letter paper, upright, with room for the printer's own margins.
WIDEST = Fraction(170)
#: Blank at either end of a strip, and what two neighbouring pieces share.
MARGIN, OVERLAP = Fraction(6), Fraction(12)
#: Longer strips, and ones with more marks, are left to a tape and the table of marks.
LONGEST, MOST_MARKS = Fraction(3000), 1000
#: What is printed on every strip.
CHECK_THE_BAR = "print at 100 %, check the bar"

_TOP, _BOTTOM, _HEIGHT = Fraction(10), Fraction(36), Fraction(52)
_BAR = Fraction(43)
_TEXT = Fraction(24, 10)
_FOUR_INCHES = Fraction(1016, 10)


def strips(marks: Marks, title: str) -> tuple[Drawing, ...]:
    """The strip in as many pieces as it takes, each at most 170 mm wide; none if it is too long.

    Every mark stands at its exact place, not at the nearest division: the strip is
    what carries it, and the rule beside it shows what a reading would miss by.
    """
    start = min(Fraction(0), marks.exact[0].mm)
    end = max(Fraction(0), marks.exact[-1].mm)
    if end - start > LONGEST or marks.count > MOST_MARKS:
        return ()
    pieces = stretches(start, end, WIDEST - 2 * MARGIN, OVERLAP)
    return tuple(_piece(marks, title, piece, k, len(pieces)) for k, piece in enumerate(pieces))


def _piece(marks: Marks, title: str, piece: Stretch, k: int, count: int) -> Drawing:
    width = max(piece.end - piece.start, _FOUR_INCHES) + 2 * MARGIN
    shift = MARGIN - piece.start
    named = title if count == 1 else f"{title}, piece {k + 1} of {count}"
    shapes: list[Shape] = [
        Words(MARGIN, 4, _fitting(named, width - 2 * MARGIN, Fraction(3)), 3),
        Box(piece.start + shift, _TOP, piece.end - piece.start, _BOTTOM - _TOP),
        *_rule_edge(marks, piece, shift),
        *_marks(marks, piece, shift),
        *_match(piece, shift, k),
        *calibration(MARGIN, _BAR),
    ]
    return Drawing(width, _HEIGHT, named, _in_words(marks, k, count), tuple(shapes), true_size=True)


def _rule_edge(marks: Marks, piece: Stretch, shift: Fraction) -> list[Shape]:
    drawn = len(steps(marks.rule))
    shapes: list[Shape] = []
    for tick in ticks(marks.rule, piece.start, piece.end):
        length = Fraction(65, 10) - Fraction(45, 10) * tick.rank / max(1, drawn - 1)
        shapes.append(Stroke(tick.place + shift, _TOP, tick.place + shift, _TOP + length, "tick"))
        if tick.number is not None:
            at_end = tick.place + 4 > piece.end
            x = tick.place + shift + (Fraction(-6, 10) if at_end else Fraction(6, 10))
            shapes.append(
                Words(x, _TOP + Fraction(67, 10), str(tick.number), _TEXT, "end" if at_end else "start")
            )
    return shapes


def _marks(marks: Marks, piece: Stretch, shift: Fraction) -> list[Shape]:
    labels = [mark_label(n, size, marks) for n, size in enumerate(marks.read)]
    gap = marks.total.mm / marks.count
    flat = max(text_width(label, _TEXT) for label in labels) + 1 <= gap
    every = 1 if flat else max(1, -(-Fraction(3) // gap))
    shapes: list[Shape] = []
    for n, (size, label) in enumerate(zip(marks.exact, labels, strict=True)):
        if not piece.start <= size.mm <= piece.end:
            continue
        x = size.mm + shift
        shapes.append(Stroke(x, _BOTTOM, x, _BOTTOM - (8 if n % every == 0 else 5), "mark"))
        if n % every == 0:
            shapes.append(_label(x, size.mm, label, flat, piece))
    return shapes


def _label(x: Fraction, place: Fraction, label: str, flat: bool, piece: Stretch) -> Words:
    """A label above its mark, inside the strip at its ends; or turned beside it where marks are close."""
    if not flat:
        return Words(x - Fraction(4, 10), _BOTTOM - 1, label, Fraction(22, 10), turned=True)
    half = text_width(label, _TEXT) / 2
    if place - half < piece.start:
        return Words(x + Fraction(8, 10), _BOTTOM - 9, label, _TEXT)
    if place + half > piece.end:
        return Words(x - Fraction(8, 10), _BOTTOM - 9, label, _TEXT, "end")
    return Words(x, _BOTTOM - 9, label, _TEXT, "middle")


def mark_label(n: int, size: Quantity, marks: Marks) -> str:
    """What stands by a mark: its number, and its distance as read on the rule."""
    return f"{n}: {mm_text(size, 3) if marks.rule.metric else inch_text(size, 4)}"


def _match(piece: Stretch, shift: Fraction, k: int) -> list[Shape]:
    """Dashed lines where two pieces meet, with the letter that both bear."""
    shapes: list[Shape] = []
    for place, letter in ((piece.meets_before, k - 1), (piece.meets_after, k)):
        if place is None:
            continue
        x = place + shift
        shapes.append(Stroke(x, _TOP - 4, x, _BOTTOM + 3, "match"))
        shapes.append(Words(x + 1, _TOP - Fraction(8, 10), match_letter(letter), 3))
    return shapes


def match_letter(k: int) -> str:
    """A, B ... Z, A1, B1 ...: what stands at the k-th joint of a strip."""
    return chr(ord("A") + k % 26) + (str(k // 26) if k >= 26 else "")


def calibration(x: Number, y: Number) -> list[Shape]:
    """A bar of 4 in above and 100 mm below, to lay a rule against before the paper is trusted."""
    inches, millimetres = _FOUR_INCHES, Fraction(100)
    shapes: list[Shape] = [Stroke(x, y, x + inches, y, "bar")]
    shapes += [Stroke(x + inches * k / 4, y, x + inches * k / 4, y - 2, "bar") for k in range(5)]
    shapes += [Stroke(x + millimetres * k / 10, y, x + millimetres * k / 10, y + 2, "bar") for k in range(11)]
    shapes += [
        Words(x, y + 5, CHECK_THE_BAR, _TEXT),
        Words(x + inches, y + 5, "4 in above, 100 mm below", _TEXT, "end"),
    ]
    return shapes


def _fitting(text: str, width: Fraction, size: Fraction) -> str:
    most = int(width / (size * Fraction(54, 100)))
    return text if len(text) <= most else text[: most - 3] + "..."


def _in_words(marks: Marks, k: int, count: int) -> str:
    worst = over_under(marks.worst).removesuffix(" over")
    read = f"the worst would be {worst} off" if marks.worst.value else "every one is exact"
    piece = f"Piece {k + 1} of {count} of a strip" if count > 1 else "A strip"
    joint = " Neighbouring pieces meet at the dashed lines that bear the same letter." if count > 1 else ""
    return (
        f"{piece} to print true to size: {marks.count + 1} marks from {inch_text(marks.exact[0])} to "
        f"{inch_text(marks.exact[-1])} ({mm_text(marks.exact[0])} to {mm_text(marks.exact[-1])}) at their exact places, "
        f"beside a rule in {rule_word(marks.rule)}; read on that rule {read}.{joint}"
    )
