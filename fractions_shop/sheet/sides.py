"""Sides joined by x or a comma, where a line of a sheet says by: the line that is meant is offered."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import TypeVar

from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import Advice, write
from fractions_shop.sheet.part_lines import COMMA
from fractions_shop.sheet.whole_lines import NO_HABITS, Habits, in_whole_lines
from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS, as_meant

_Form = TypeVar("_Form")
_NUMBER = rf"(?:(?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9]*\.?[0-9]+|[0-9]*[ -]?[{GLYPHS}])"
_UNIT = rf"(?:[ ]*(?:{units.alternatives('in', 'mm', 'ft', 'thou')})\b\.?|[\"'″′])"
#: Sides that each have a unit, and sides that share the last one's; a pitch behind an x is that of a thread.
_BETWEEN = re.compile(
    rf"(?<=[A-Za-z.\"'″′)])[ ]*[x×][ ]*(?={_NUMBER}(?![ ]*(?:tpi|threads)\b))", re.IGNORECASE
)
_SHARED = re.compile(rf"(?<![A-Za-z0-9./])({_NUMBER})((?:[ ]*[x×][ ]*{_NUMBER})+)({_UNIT})", re.IGNORECASE)
_SCREW = r"screws?\b|\b(?:nails?|tacks?|brads?|pins?)\b[^:]*$"
_AT_CROSS = re.compile(r"[x×](?=[ ]*[0-9.])", re.IGNORECASE)
_CROSS = re.compile(r"[ ]*[x×][ ]*", re.IGNORECASE)
_LISTED = re.compile(rf"(?<![A-Za-z0-9./])({_NUMBER}{_UNIT}?)[ ]*,[ ]+(?={_NUMBER})", re.IGNORECASE)
_PART = re.compile(r"[ ]*part\b[^:;#]*:", re.IGNORECASE)
_SIZE = re.compile(rf"{_NUMBER}{_UNIT}", re.IGNORECASE)


def joined_by(text: str) -> str:
    """The text with `by` between its sides, each with its unit.

    >>> joined_by('part plate: 1, 6 x 4 x 1/4 in'), joined_by('part screw: 8, M5 x 0.8')
    ('part plate: 1, 6 in by 4 in by 1/4 in', 'part screw: 8, M5 x 0.8')
    """
    # The number of a screw has no unit: `8 x 1/2 in woodscrews`.
    shared = text if re.search(_SCREW, text, re.IGNORECASE) else _SHARED.sub(_each_with_its_unit, text)
    return _BETWEEN.sub(" by ", shared)


def _each_with_its_unit(match: re.Match[str]) -> str:
    first, rest, unit = match.groups()
    sides = [first, *_CROSS.split(rest)[1:]]
    return " by ".join(f"{side}{unit}" for side in sides)


def read_or_offer(read: Callable[[str], _Form], text: str, habits: Habits = NO_HABITS) -> _Form:
    """What `read` makes of a line; its InputError, or one that offers the line that is meant, where that can be read.

    That is the line with `by` between its sides, or what `habits` make of it. A × beside a length multiplies nowhere,
    so that a line with one between its sides is never read as it stands.
    """
    meant = as_meant(text)
    if "×" in meant and joined_by(meant) != meant and _reads(read, joined_by(meant)):
        raise _offering(text, meant, 0)
    try:
        return read(text)
    except InputError as error:
        if isinstance(error.advice, Advice):
            raise in_whole_lines(error, lambda line: _reads(read, line), habits) from None
        whole = joined_by(meant)
        if whole != meant and _reads(read, whole):
            raise _offering(text, meant, error.start) from None
        by_habit = in_whole_lines(error, lambda line: _reads(read, line), habits)
        if by_habit is not error:
            raise by_habit from None
        refused = next((said for said in _without_commas(text, meant) if _reads(read, said[1])), None)
        if refused is None:
            raise
        said, whole, start = refused
        raise InputError(said, text, start, start + 1, write(whole.strip())) from None


def _offering(text: str, meant: str, start: int) -> InputError:
    cross = _AT_CROSS.search(meant, start)
    place = cross.start() if cross else start
    return InputError(
        "sides are joined by the word by", text, place, place + 1, write(joined_by(meant).strip())
    )


def _without_commas(text: str, meant: str) -> Iterator[tuple[str, str, int]]:
    """A part line that has commas behind its first, without them: what is said, the line, and the place of the comma.

    Commas between sizes stand for by; what is left behind one, if it says no size, is a note.
    """
    part = _PART.match(meant)
    first = COMMA.search(meant, part.end()) if part else None
    if first is None:
        return
    end = meant.find(";") if ";" in meant else len(meant)
    head, sizes, note = meant[: first.end()], meant[first.end() : end], text[end:]
    joined = _LISTED.sub(r"\1 x ", sizes)
    for some, said in ((joined, "the sizes of a part are joined by the word by"), (sizes, "")):
        comma = COMMA.search(some)
        if comma is None:
            whole = f"{some.rstrip()}{note}"
        elif note or _SIZE.search(some, comma.end()):
            continue
        else:
            whole = f"{some[: comma.start()].rstrip()};{some[comma.end() :]}"
        place = COMMA.search(sizes)
        if place is not None:
            yield (
                said
                if some != sizes
                else "what is said beside the sizes of a part stands behind a semicolon",
                f"{head}{joined_by(whole)}",
                first.end() + place.start(),
            )


def _reads(read: Callable[[str], _Form], text: str) -> bool:
    try:
        read(text)
    except InputError:
        return False
    return True
