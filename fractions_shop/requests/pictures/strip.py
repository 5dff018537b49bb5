"""A strip to stick on the work: the rule along one edge, marks or places of one axis along the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.drawing import Box, Drawing, NotDrawn, Shape, Stroke, Words, text_width
from fractions_shop.figures.paper import A4, PaperSize, paper_called
from fractions_shop.figures.wording import both, off_by, rule_word
from fractions_shop.layout.marks import Marks
from fractions_shop.layout.places import Places
from fractions_shop.layout.room import NOTHING
from fractions_shop.layout.scale import Stretch, steps, stretches, ticks
from fractions_shop.requests.pictures.frame import FOUR_INCHES, MARGIN, foot, foot_height, heading
from fractions_shop.requests.pictures.strip_labels import (
    FLAT_TEXT,
    LINE,
    TURNED_TEXT,
    Label,
    Labelled,
    Placed,
    arranged,
    own,
    place_in_short,
)
from fractions_shop.size.cached import cached_property
from fractions_shop.size.notation import inch_text, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: A strip of more pieces than this is offered paper on its side.
_MANY = 4
#: What two neighbouring pieces share.
OVERLAP = Fraction(12)
#: Longer strips, and ones with more marks, are left to a tape and the table of marks.
LONGEST, MOST_MARKS = Fraction(10_000), 1000

_TOP = Fraction(10)
#: How far a mark reaches up from the lower edge: one with a label, and one without.
_LABELLED, _BARE = Fraction(8), Fraction(5)
#: From the upper edge down to the labels: the rule's divisions and their numbers.
_RULE_EDGE = Fraction(98, 10)
_LOWEST = Fraction(27)
_TEXT = Fraction(24, 10)
_CLEAR = Fraction(6, 10)


@dataclass(frozen=True)
class Laid:
    """What a strip carries: rising places on one axis as they are, what stands by each, and the whole length."""

    exact: tuple[Quantity, ...]
    labels: tuple[Label, ...]
    rule: Rule
    worst: Quantity
    along: Quantity | None = None

    @classmethod
    def of(cls, result: Marks | Places) -> Laid:
        """The marks of a `mark`, or places of one axis."""
        if isinstance(result, Marks):
            labels = tuple(mark_label(n, result) for n in range(len(result.exact)))
            return cls(result.exact, labels, result.rule, result.worst)
        order = sorted(range(len(result.points)), key=lambda n: result.points[n][0].mm)
        exact = tuple(result.points[n][0] for n in order)
        labels = tuple(_label(str(n + 1), result.points[n][0], result.read[n][0], result.rule) for n in order)
        return cls(exact, labels, result.rule, result.worst[0], result.along[0])

    @property
    def reach(self) -> tuple[Quantity, Quantity]:
        """Where the strip begins and ends: the datum and the far end are on it."""
        ends = (NOTHING, *self.exact, *([self.along] if self.along is not None else []))
        return min(ends), max(ends)


def strips(result: Marks | Places, title: str, paper: PaperSize = A4) -> tuple[Drawing, ...] | NotDrawn:
    """The strip in as many pieces as it takes, each as wide as the paper lets it be but the last.

    Every mark stands at its exact place, not at the nearest division: the strip is
    what carries it, and the rule beside it shows what a reading would miss by.
    """
    laid = Laid.of(result)
    start, end = (each.mm for each in laid.reach)
    if end - start > LONGEST:
        long = both(Quantity(end - start))
        return NotDrawn(f"no strip is drawn of {long}: the longest is {both(Quantity(LONGEST))}")
    if len(laid.exact) > MOST_MARKS + 1:
        return NotDrawn(f"no strip is drawn of {len(laid.exact):,} marks: the most is {MOST_MARKS:,}")
    pieces = stretches(start, end, paper.across - 2 * MARGIN, OVERLAP)
    lying = 0
    if len(pieces) > _MANY and not paper.landscape:
        on_its_side = paper_called(f"{paper.name} landscape")
        lying = len(stretches(start, end, on_its_side.across - 2 * MARGIN, OVERLAP))
    labelled = arranged([size.mm for size in laid.exact], laid.labels, pieces)
    return tuple(
        _StripPiece(laid, labelled, piece, k, len(pieces), lying).drawn(title)
        for k, piece in enumerate(pieces)
    )


@dataclass(frozen=True)
class _StripPiece:
    """One piece of a strip, the `k`-th of `count`; `lying` is how many there were on paper on its side, 0 if that is no matter."""

    laid: Laid
    labelled: Labelled
    piece: Stretch
    k: int
    count: int
    lying: int = 0

    @property
    def shift(self) -> Fraction:
        """From a place on the work to one on the paper."""
        return MARGIN - self.piece.start

    @cached_property
    def bottom(self) -> Fraction:
        """Where the lower edge of the strip lies; the same for all its pieces."""
        tall = self.labelled.style.height(self.laid.labels)
        return _TOP + max(_LOWEST, _RULE_EDGE + tall + _LABELLED + Fraction(16, 10))

    def drawn(self, title: str) -> Drawing:
        piece, rule = self.piece, rule_word(self.laid.rule)
        width = max(piece.end - piece.start, FOUR_INCHES) + 2 * MARGIN
        behind = f", piece {self.k + 1} of {self.count}" if self.count > 1 else ""
        notes = self._notes()
        offered = self.lying and not self.k
        under = [*notes, f"{self.count} pieces; with --landscape {self.lying}"] if offered else notes
        bar = self.bottom + 7
        shapes: list[Shape] = [
            *heading(title, behind, rule, width),
            Box(piece.start + self.shift, _TOP, piece.end - piece.start, self.bottom - _TOP),
            *_rule_edge(self.laid.rule, piece, self.shift),
            *self._marks(),
            *self._labels(),
            *_match(piece, self.shift, self.k, self.bottom),
            *foot(under, bar, width)[0],
        ]
        height = bar + foot_height(under, width)
        named = f"{title}{behind}, {rule}"
        return Drawing(width, height, named, self._in_words(notes), tuple(shapes), true_size=True)

    def _notes(self) -> list[str]:
        """What this strip does not say for want of room."""
        notes, many = [], len(self.laid.labels)
        if self.labelled.style.lines < max(map(len, self.laid.labels)):
            notes.append("what the marks read on the rule is left out")
        if self.labelled.left_out:
            notes.insert(0, f"every mark is drawn, {self.labelled.left_out} of {many} labels are left out")
        return [f"no room here: {'; '.join(notes)}"] if notes else []

    def _marks(self) -> list[Shape]:
        rows = {placed.n: placed.row for placed in self.labelled.pieces[self.k]}
        raised = LINE * self.labelled.style.lines
        shapes: list[Shape] = []
        for n, size in enumerate(self.laid.exact):
            if not self.piece.start <= size.mm <= self.piece.end:
                continue
            x = size.mm + self.shift
            tall = _LABELLED + raised * rows[n] if n in rows else _BARE
            shapes.append(Stroke(x, self.bottom, x, self.bottom - tall, "mark"))
        return shapes

    def _labels(self) -> list[Shape]:
        style = self.labelled.style
        write = self._upright if style.turned else self._flat
        return [shape for placed in self.labelled.pieces[self.k] for shape in write(placed, style.lines)]

    def _flat(self, placed: Placed, lines: int) -> list[Shape]:
        """A label over its mark, its lines one above another."""
        label = self.laid.labels[placed.n][:lines]
        middle = placed.left + max(text_width(line, FLAT_TEXT) for line in label) / 2 + self.shift
        foot_line = self.bottom - _LABELLED - 1 - LINE * lines * placed.row
        return [
            Words(middle, foot_line - LINE * row, line, FLAT_TEXT, "middle")
            for row, line in enumerate(reversed(label))
        ]

    def _upright(self, placed: Placed, lines: int) -> list[Shape]:
        """A label that stands on end over its mark, its lines side by side."""
        label = self.laid.labels[placed.n][:lines]
        base = placed.left + self.shift + TURNED_TEXT * Fraction(8, 10)
        step = TURNED_TEXT + Fraction(4, 10)
        y = self.bottom - _LABELLED - Fraction(6, 10)
        return [Words(base + step * k, y, line, TURNED_TEXT, turned=True) for k, line in enumerate(label)]

    def _in_words(self, notes: Sequence[str]) -> str:
        exact = self.laid.exact
        read = (
            f"the worst would be {off_by(self.laid.worst)} off"
            if self.laid.worst.value
            else f"every one is {off_by(self.laid.worst)}"
        )
        named = f"Piece {self.k + 1} of {self.count} of a strip" if self.count > 1 else "A strip"
        joint = (
            " Neighbouring pieces meet at the dashed lines that bear the same letter."
            if self.count > 1
            else ""
        )
        if self.lying and not self.k:
            joint += f" On paper that lies on its side it takes {self.lying} pieces: --landscape."
        return (
            f"{named} to print true to size: {len(exact)} marks from {inch_text(exact[0])} to "
            f"{inch_text(exact[-1])} ({mm_text(exact[0])} to {mm_text(exact[-1])}) at their exact places, "
            f"beside a rule in {rule_word(self.laid.rule)}; read on that rule {read}.{joint}"
            + "".join(f" On paper there is {note}." for note in notes)
        )


def _rule_edge(rule: Rule, piece: Stretch, shift: Fraction) -> list[Shape]:
    drawn = len(steps(rule))
    shapes: list[Shape] = []
    for tick in ticks(rule, piece.start, piece.end):
        length = Fraction(65, 10) - Fraction(45, 10) * tick.rank / max(1, drawn - 1)
        shapes.append(Stroke(tick.place + shift, _TOP, tick.place + shift, _TOP + length, "tick"))
        if tick.number is not None and own(tick.place, piece):
            half = text_width(str(tick.number), _TEXT) / 2 + _CLEAR
            first = piece.start if piece.meets_before is None else piece.meets_before
            last = piece.end if piece.meets_after is None else piece.meets_after
            middle = max(first + half, min(last - half, tick.place))
            shapes.append(Words(middle + shift, _TOP + Fraction(87, 10), str(tick.number), _TEXT, "middle"))
    return shapes


def mark_label(n: int, marks: Marks) -> Label:
    """What stands by a mark: its number with the place where it stands, and its reading where that differs."""
    number = f"{n // 2 + 1}{'b' if n % 2 else 'a'}" if marks.of == "edges" else n + (marks.of == "centres")
    return _label(str(number), marks.exact[n], marks.read[n], marks.rule)


def _label(number: str, exact: Quantity, read: Quantity, rule: Rule) -> Label:
    """The exact place first, for there the mark is drawn.

    It is rounded to 0.001 in or 0.01 mm, `~` before it, where it is no fraction that a person reads.
    """
    first = f"{number}: {place_in_short(exact, rule)}"
    if exact == read:
        return (first,)
    return first, f"reads {mm_text(read) if rule.metric else inch_text(read, 4)}"


def _match(piece: Stretch, shift: Fraction, k: int, bottom: Fraction) -> list[Shape]:
    """Dashed lines where two pieces meet, with the letter that both bear."""
    shapes: list[Shape] = []
    for place, letter in ((piece.meets_before, k - 1), (piece.meets_after, k)):
        if place is None:
            continue
        x = place + shift
        shapes.append(Stroke(x, _TOP - 4, x, bottom + 3, "match"))
        shapes.append(Words(x + 1, _TOP - Fraction(8, 10), match_letter(letter), 3))
    return shapes


def match_letter(k: int) -> str:
    """A, B ... Z, A1, B1 ...: what stands at the k-th joint of a strip."""
    return chr(ord("A") + k % 26) + (str(k // 26) if k >= 26 else "")
