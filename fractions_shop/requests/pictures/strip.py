"""A strip to stick on the work: the rule along one edge, the marks of a `mark` along the other."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from fractions_shop.figures.drawing import Box, Drawing, Number, Shape, Stroke, Words, text_width
from fractions_shop.figures.wording import off_by, rule_word
from fractions_shop.layout.marks import Marks
from fractions_shop.layout.scale import Stretch, steps, stretches, ticks
from fractions_shop.size.notation import inch_text, mm_text

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
#: What stands by a mark: one line, or two.
Label = tuple[str, ...]
#: What a dashed line keeps off words, and what a turned label takes along the strip.
_CLEAR, _TURNED = Fraction(6, 10), Fraction(3)


def strips(marks: Marks, title: str) -> tuple[Drawing, ...]:
    """The strip in as many pieces as it takes, each at most 170 mm wide; none if it is too long.

    Every mark stands at its exact place, not at the nearest division: the strip is
    what carries it, and the rule beside it shows what a reading would miss by.
    """
    start = min(Fraction(0), marks.exact[0].mm)
    end = max(Fraction(0), marks.exact[-1].mm)
    if end - start > LONGEST or len(marks.exact) > MOST_MARKS + 1:
        return ()
    pieces = stretches(start, end, WIDEST - 2 * MARGIN, OVERLAP)
    labels = [mark_label(n, marks) for n in range(len(marks.exact))]
    flat = all(_lie_flat(marks, labels, piece) for piece in pieces)
    return tuple(_piece(marks, labels, flat, title, piece, k, len(pieces)) for k, piece in enumerate(pieces))


def _piece(
    marks: Marks, labels: list[Label], flat: bool, title: str, piece: Stretch, k: int, count: int
) -> Drawing:
    width = max(piece.end - piece.start, _FOUR_INCHES) + 2 * MARGIN
    shift = MARGIN - piece.start
    named = title if count == 1 else f"{title}, piece {k + 1} of {count}"
    shapes: list[Shape] = [
        Words(MARGIN, 4, _fitting(named, width - 2 * MARGIN, Fraction(3)), 3),
        Box(piece.start + shift, _TOP, piece.end - piece.start, _BOTTOM - _TOP),
        *_rule_edge(marks, piece, shift),
        *_marks(marks, labels, flat, piece, shift),
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
        if tick.number is not None and _own(tick.place, piece):
            wide = text_width(str(tick.number), _TEXT) + Fraction(6, 10)
            left = tick.place + 4 > piece.end or _crossed(piece, tick.place, tick.place + wide + _CLEAR)
            x = tick.place + shift + (Fraction(-6, 10) if left else Fraction(6, 10))
            shapes.append(
                Words(x, _TOP + Fraction(67, 10), str(tick.number), _TEXT, "end" if left else "start")
            )
    return shapes


def _crossed(piece: Stretch, left: Fraction, right: Fraction) -> bool:
    """Whether a joint, and so a dashed line, lies between two places."""
    joints = (piece.meets_before, piece.meets_after)
    return any(joint is not None and left < joint < right for joint in joints)


def _marks(marks: Marks, labels: list[Label], flat: bool, piece: Stretch, shift: Fraction) -> list[Shape]:
    gap = min((b.mm - a.mm for a, b in pairwise(marks.exact)), default=marks.total.mm)
    every = 1 if flat else max(1, -(-_TURNED // gap))
    shapes: list[Shape] = []
    for n, (size, label) in enumerate(zip(marks.exact, labels, strict=True)):
        if not piece.start <= size.mm <= piece.end:
            continue
        x = size.mm + shift
        shapes.append(Stroke(x, _BOTTOM, x, _BOTTOM - (8 if n % every == 0 else 5), "mark"))
        if n % every == 0 and _own(size.mm, piece):
            place = size.mm
            shapes += (
                _flat(place, label, piece, shift) if flat else _upright(place, label[0], piece, shift, gap)
            )
    return shapes


def _own(place: Fraction, piece: Stretch) -> bool:
    """Whether what stands here has its words on this piece; past a joint they stand on the neighbour."""
    first = piece.start if piece.meets_before is None else piece.meets_before
    last = piece.end if piece.meets_after is None else piece.meets_after
    return first <= place <= last


def _lie_flat(marks: Marks, labels: list[Label], piece: Stretch) -> bool:
    """Whether the labels of a piece have room side by side."""
    taken: Fraction | None = None
    for size, label in zip(marks.exact, labels, strict=True):
        if not _own(size.mm, piece):
            continue
        left = _left(size.mm, label, piece)
        if taken is not None and left < taken + 1:
            return False
        taken = left + _wide(label)
    return True


def _wide(label: Label) -> Fraction:
    return max(text_width(line, _TEXT) for line in label)


def _left(place: Fraction, label: Label, piece: Stretch) -> Fraction:
    """Where a label begins: centred over its mark, but on this side of the strip's ends and joints."""
    wide, beside = _wide(label), Fraction(8, 10)
    first = piece.start + beside if piece.meets_before is None else piece.meets_before + _CLEAR
    last = piece.end - beside if piece.meets_after is None else piece.meets_after - _CLEAR
    return max(first, min(last - wide, place - wide / 2))


def _flat(place: Fraction, label: Label, piece: Stretch, shift: Fraction) -> list[Shape]:
    """A label over its mark, its lines one above another."""
    middle = _left(place, label, piece) + _wide(label) / 2 + shift
    lines = enumerate(reversed(label))
    return [Words(middle, _BOTTOM - 9 - 3 * row, line, _TEXT, "middle") for row, line in lines]


def _upright(place: Fraction, label: str, piece: Stretch, shift: Fraction, gap: Fraction) -> list[Shape]:
    """A label turned beside its mark; none where a joint would cross it on either side."""
    size, off = Fraction(22, 10), Fraction(4, 10)
    if not _crossed(piece, place - off - size, place - off):
        return [Words(place + shift - off, _BOTTOM - 1, label, size, turned=True)]
    if gap < 2 * _TURNED or _crossed(piece, place + off, place + off + size):
        return []
    return [Words(place + shift + off + size, _BOTTOM - 1, label, size, turned=True)]


def mark_label(n: int, marks: Marks) -> Label:
    """What stands by a mark: its number with the place where it stands, and its reading where that differs.

    The mark is drawn at its exact place, so the label says that place first: rounded
    to 0.001 in or 0.01 mm, `~` before it, where it is no fraction that a person reads.
    """
    exact, read, metric = marks.exact[n], marks.read[n], marks.rule.metric
    place = mm_text(exact, 2) if metric else inch_text(exact, 3)
    number = f"{n // 2 + 1}{'b' if n % 2 else 'a'}" if marks.of == "edges" else n + (marks.of == "centres")
    place = f"{number}: {place.replace('about ', '~')}"
    if exact == read:
        return (place,)
    return place, f"reads {mm_text(read) if metric else inch_text(read, 4)}"


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
    worst = off_by(marks.worst)
    read = f"the worst would be {worst} off" if marks.worst.value else "every one is exact"
    piece = f"Piece {k + 1} of {count} of a strip" if count > 1 else "A strip"
    joint = " Neighbouring pieces meet at the dashed lines that bear the same letter." if count > 1 else ""
    return (
        f"{piece} to print true to size: {len(marks.exact)} marks from {inch_text(marks.exact[0])} to "
        f"{inch_text(marks.exact[-1])} ({mm_text(marks.exact[0])} to {mm_text(marks.exact[-1])}) at their exact places, "
        f"beside a rule in {rule_word(marks.rule)}; read on that rule {read}.{joint}"
    )
