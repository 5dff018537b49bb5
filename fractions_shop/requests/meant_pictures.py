"""Readings magnified: over the marks that one may have meant, or several about the marks of the division found."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import TYPE_CHECKING, Any

from fractions_shop.figures.close_up import MOST_ROWS, CloseUp, LabelledMark, ReadingBand, letter
from fractions_shop.figures.wording import off_by
from fractions_shop.meant.found import Recovered, Weighed
from fractions_shop.meant.priors import FRACTIONS, METRIC, NO_TABLES, OLD, TODAYS_SYSTEMS, Division, scheme
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.requests.meant_words import TOLD, as_read, in_own_unit, in_row, trusted_to, worth_telling
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing
    from fractions_shop.figures.paper import PaperSize
    from fractions_shop.meant.reconciled import Reconciled
    from fractions_shop.requests.read_name import ReadName

#: Marks to count by, at most so many along an edge; and the divisions that they are taken from.
_MOST_MARKS = 12
_PARTS = (64, 32, 16, 8, 4, 2, 1)
_STEPS = tuple(map(Fraction, ("0.01", "0.02", "0.05", "0.1", "0.2", "0.5", "1", "2", "5", "10")))
#: What is left blank at either end, of the whole.
_BLANK = Fraction(1, 12)
#: Sets so much less likely than the best are not shown.
_NEAR = 0.01
#: More readings are not told apart in one picture.
_MOST_READINGS = 12

_May = tuple[Quantity, str, bool]


def as_lines(picture: CloseUp | None) -> list[CloseUp]:
    """A picture as the last of an answer's lines; nothing where there is none."""
    return [] if picture is None else [picture]


def drawn(
    picture_of: Callable[[Any], CloseUp | None],
) -> Callable[[Any, str, PaperSize], tuple[Drawing, ...]]:
    """The drawings of a room whose answers have the one picture that `picture_of` makes."""

    def drawings(result: Any, title: str, _: PaperSize) -> tuple[Drawing, ...]:
        from fractions_shop.requests.pictures.close_up import close_up  # most answers are only told

        return tuple(close_up(picture, title) for picture in as_lines(picture_of(result)))

    return drawings


def of_recovered(result: Recovered) -> CloseUp | None:
    """A list about the marks of its division, or its one reading over the sizes that it may have meant."""
    return of_list(result) if len(result.readings) > 1 else of_one(result.readings[0])


def of_one(weighed: Weighed) -> CloseUp | None:
    """One reading over the sizes that it may have meant; None where it is settled, or has nothing beside it."""
    if weighed.verdict is SizeVerdict.CUT or weighed.threads:
        return None  # a screw lies below its size, and no band says how far
    may = [(candidate.size, candidate.name, candidate.metric) for candidate in worth_telling(weighed, TOLD)]
    at = weighed.full or weighed.asked
    shown = _shown(at, weighed.within, weighed.least, weighed.most, as_read(weighed))
    return _over_marks(shown, may, trusted_to(weighed.within))


def of_name(read: ReadName) -> CloseUp | None:
    """A name that reads, where it is not settled enough to be taken."""
    if read.verdict not in (SizeVerdict.PROBABLE, SizeVerdict.UNSETTLED):
        return None
    if read.weighed is not None:
        return of_one(read.weighed)
    from fractions_shop.meant.reconciled import Reconciled  # a list of readings needs none of it

    if not isinstance(read.found, Reconciled) or read.common:
        return None
    may = {
        sizes.sizes[read.name]: (sizes.names[read.name], sizes.system == METRIC)
        for sizes in read.found.sets[:TOLD]
        if sizes.probability > read.found.probability * _NEAR
    }
    reading = read.reading
    shown = _shown(
        reading.size, reading.within, *reading.bounds, reading.written or in_own_unit(reading.size)
    )
    return _over_marks(shown, [(size, *called) for size, called in may.items()], trusted_to(reading.within))


def of_list(result: Recovered) -> CloseUp | None:
    """Where each reading of a list falls about its mark of the division found; None where none explains them."""
    best = result.system
    if best is None or best.worst is None or best.better <= 1:
        return None
    rows = [
        (weighed.full or weighed.asked, mark, weighed.within, weighed.least, weighed.most, as_read(weighed))
        for weighed, mark in zip(result.readings, best.meant, strict=True)
    ]
    return _about_marks(best.system, best.division, rows)


def of_set(result: Reconciled) -> CloseUp | None:
    """Where each name's reading falls about its size of the best set; None where the readings share an error."""
    best = result.sets[0]
    if result.common:
        return None
    rows = [
        (
            reading.size,
            best.sizes[name],
            reading.within,
            *reading.bounds,
            f"{name} {reading.written or in_own_unit(reading.size)}",
        )
        for name, reading in result.readings.items()
    ]
    return _about_marks(best.system, best.division, rows)


def _shown(
    at: Quantity, within: Quantity, least: Quantity, most: Quantity, label: str, meant: str = ""
) -> ReadingBand:
    return ReadingBand(at.mm, (at - within).mm, (at + within).mm, least.mm, most.mm, label, meant)


def _over_marks(shown: ReadingBand, may: Sequence[_May], trust: str) -> CloseUp | None:
    """The stretch that holds a reading's band and the sizes that it may have meant."""
    if len(may) < 2:
        return None
    places = [size.mm for size, _, _ in may]
    low, high = min(shown.least, *places), max(shown.most, *places)
    blank = (high - low) * _BLANK
    start, end = max(Fraction(0), low - blank), high + blank
    inches = [LabelledMark(size.mm, name, True) for size, name, metric in may if not metric]
    millimetres = [LabelledMark(size.mm, name, True) for size, name, metric in may if metric]
    offs = [f"{name} is {_away(shown.at - size.mm)}" for size, name, _ in may]
    return CloseUp(
        start,
        end,
        (*inches, *_counted(_inch_step(start, end), INCH, start, end, inches)),
        (*millimetres, *_counted(_step(start, end), Fraction(1), start, end, millimetres)),
        (shown,),
        f"dense: read within {trust}; pale: where what was meant may lie",
        f"{shown.label}, magnified, over the sizes that may have been meant. "
        f"Read within {trust}; {in_row(offs, 'and')}.",
    )


def _away(off: Fraction) -> str:
    if not off:
        return "where it reads"
    return f"{off_by(Quantity(abs(off)), 4)} {'below' if off > 0 else 'above'} it"


def _counted(
    step: Fraction, unit: Fraction, start: Fraction, end: Fraction, named: Sequence[LabelledMark]
) -> list[LabelledMark]:
    """The marks of a division to count by, told in `unit`, but those that are named already."""
    taken = {mark.place for mark in named}
    places = [n * step for n in range(ceil(start / step), floor(end / step) + 1)]
    say = mixed if unit == INCH else lambda number: decimal(number)[0]
    # The rounder ones first, for where not all have room to be told.
    places.sort(key=lambda place: ((place / unit).denominator, place))
    return [LabelledMark(place, say(place / unit)) for place in places if place not in taken]


def _inch_step(start: Fraction, end: Fraction) -> Fraction:
    """The finest division of the inch that is not too fine to be drawn."""
    return next((INCH / n for n in _PARTS if (end - start) / INCH * n <= _MOST_MARKS), INCH)


def _step(start: Fraction, end: Fraction) -> Fraction:
    return next((step for step in _STEPS if (end - start) / step <= _MOST_MARKS), _STEPS[-1])


_Row = tuple[Quantity, Quantity | None, Quantity, Quantity, Quantity, str]


def _about_marks(system: str, name: str, rows: Sequence[_Row]) -> CloseUp | None:
    """The stretch from half a division below a mark to half above, every reading about its own mark.

    None where the readings are too rough to fall anywhere in particular.
    """
    division = _named(system, name)
    step = None if division is None else division.step
    if division is None or step is None or len(rows) > _MOST_READINGS:
        return None
    shown = [
        _shown(at - mark, within, least - mark, most - mark, label, division.called(mark.mm))
        for at, mark, within, least, most, label in rows
        if mark is not None
    ]
    if len(shown) < 2:
        return None
    if min(band.most - band.least for band in shown) >= step:
        return None
    half = step / 2
    zero = LabelledMark(Fraction(0), _one_of(division), True)
    inches = (zero, *(LabelledMark(sign * half, _half(sign, half, True), True) for sign in (-1, 1)))
    ends = (LabelledMark(sign * half, _half(sign, half, False), True) for sign in (-1, 1))
    turn = (
        f"{letter(0)}, {letter(1)} ... are the readings in turn, each about its own mark"
        if len(shown) > MOST_ROWS
        else "dense: as far as each is trusted; pale: where what was meant may lie"
    )
    offs = [f"{band.label} {_beside(band.at)}" for band in shown]
    return CloseUp(
        -half, half, inches, (LabelledMark(Fraction(0), "0", True), *ends), tuple(shown), turn,
        f"Where each reading falls about {_one_of(division)}, one to the next {off_by(Quantity(step))}: "
        f"{in_row(offs, 'and')}.",
    )  # fmt: skip


@lru_cache(maxsize=64)
def _named(system: str, name: str) -> Division | None:
    """The division of that system and name, if it is one of all that can be weighed."""
    # The old inches load only where one is told.
    every = scheme([among for among in NO_TABLES if among != OLD or system not in TODAYS_SYSTEMS])
    return next((division for division in every if (division.system, division.name) == (system, name)), None)


def _one_of(division: Division) -> str:
    """A mark of a division, in words."""
    if division.old is not None:
        return f"a mark of the {division.name}, {division.system}"
    return (
        f"a mark of the {division.name}" if division.system == FRACTIONS else f"a multiple of {division.name}"
    )


def _half(sign: int, half: Fraction, inch: bool) -> str:
    size = f"{mixed(half / INCH)} in" if inch and (half / INCH).denominator <= 128 else ""
    size = size or (f"{decimal(half / INCH, 4)[0]} in" if inch else f"{decimal(half, 3)[0]} mm")
    return f"{'+' if sign > 0 else '-'}{size}"


def _beside(off: Fraction) -> str:
    if not off:
        return "on its mark"
    return f"{off_by(Quantity(abs(off)), 4)} {'above' if off > 0 else 'below'} its mark"
