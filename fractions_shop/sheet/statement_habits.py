"""Statements as makers write them into a sheet: readings without commas, holes without their part, x for a product."""

from __future__ import annotations

import re
from collections.abc import Iterator

from fractions_shop.language.advice.offers import Offer
from fractions_shop.sheet.cut_habits import ROWS_SO
from fractions_shop.sheet.side_words import NUMBER, UNIT
from fractions_shop.sheet.sides_in_words import value_of, with_units
from fractions_shop.sheet.whole_lines import Meant
from fractions_shop.size import units

_SIZE = rf"{NUMBER}(?:\s*(?:{UNIT}\b\.?|[\"″]))?"
#: Several readings of one name, with or without commas, and what is said behind them.
_READINGS = re.compile(
    rf"\s*(?P<name>[A-Za-z_]\w*)\s*(?:=\s*(?P<recover>recover\s+)?|reads\s+)(?P<list>{_SIZE}(?:\s*(?:,|;|\band\b|\s)\s*{_SIZE})+)"
    r"(?P<tail>\s+(?:by|within|off|worn|made)\b.*)?\s*",
    re.IGNORECASE,
)
_EACH = re.compile(_SIZE, re.IGNORECASE)
#: Readings of one size lie closer together than so many parts in a hundred.
_CLOSE = 10
#: Holes that are said without their part.
_HOLES = re.compile(
    r"\s*(?:drill\s+)?(?:[0-9]+\s+(?:[a-z]+\s+)?holes?\b|holes?\s*:?\s+(?:[0-9]|[Øø]|no\b)).*", re.IGNORECASE
)
_CIRCLE = re.compile(r"\b(?:pcd|p\.c\.d\.?|pitch circle|bolt circle)\b", re.IGNORECASE)
_CIRCLE_SO = "write it like this: hole in label frame: 2 mm at bolt_circle(6, 1/2 in) from 1 in, 7/16 in"
_HOLES_SAID = "holes are cut in a part: the line says in which, and where each stands"
_TIMES_NAME = re.compile(r"(?<![A-Za-z0-9_./])([0-9]+(?:\.[0-9]+)?)\s*[x×]\s*(?=[A-Za-z_]\w*)", re.IGNORECASE)
_NAMED = re.compile(r"\s*[A-Za-z_]\w*\s*=")
#: `12 in less 2 x 3/4 in`, `13 spaces @ 29/32 in`.
_IN_WORDS = re.compile(
    r"\s+(?P<less>less|minus)\s+|(?<![A-Za-z0-9_./])(?P<n>[0-9]+)\s*(?:spaces?\s*)?(?:@|(?<=\s)[x×](?=\s))\s*",
    re.IGNORECASE,
)
_IS_TO = re.compile(
    rf"\s*check\s+(?P<left>.+?)\s+(?:is|be|equals)\s+(?P<right>.+?)\s+(?:to|within|plus or minus|give or take)\s+(?P<by>{_SIZE})\s*",
    re.IGNORECASE,
)
_TOLD_TO = re.compile(
    r"\s*(?:assume|given|taking|take|with|now|let|set|say)\s*:?\s+(?P<rest>[A-Za-z_]\w*\s*=\s*\S.*)",
    re.IGNORECASE,
)


def statement_habits(line: str) -> Iterator[Meant]:
    """What a line may mean that is a statement in other words.

    >>> [meant.offers[0].text for meant in statement_habits("slot = recover 3.24 mm 3.19 mm by caliper")]
    ['slot reads 3.24 mm, 3.19 mm by caliper']
    """
    yield from _readings(line)
    if _HOLES.fullmatch(line):
        yield Meant((), _HOLES_SAID, sure=True, example=_CIRCLE_SO if _CIRCLE.search(line) else ROWS_SO)
    if _TIMES_NAME.search(line) or (_NAMED.match(line) and _IN_WORDS.search(line)):
        whole = _IN_WORDS.sub(lambda match: " - " if match["less"] else f"{match['n']} * ", line.strip())
        yield Meant(
            (Offer(_TIMES_NAME.sub(r"\1 * ", whole)),),
            "a product is written with *, and what is taken off with -",
        )
    if (within := _IS_TO.fullmatch(line)) is not None:
        whole = f"check {within['left']} = {within['right']} within {within['by'].strip()}"
        yield Meant((Offer(whole),), "how far a check may be off stands behind within")
    if (named := _TOLD_TO.fullmatch(line)) is not None:
        yield Meant(
            (Offer(named["rest"].strip()),), "a size is named without a word before the name", sure=True
        )


def _readings(line: str) -> Iterator[Meant]:
    match = _READINGS.fullmatch(line)
    if match is None:
        return
    listed = [size.strip() for size in _EACH.findall(match["list"])]
    ways = list(with_units(listed))
    if len(ways) != 1:
        return  # numbers alone may be inches or millimetres: neither is offered
    (sizes,) = ways
    if len({_unit_of(size) for size in sizes}) == 1 and _are_close(sizes):
        whole = f"{match['name']} reads {', '.join(sizes)}{(match['tail'] or '').rstrip()}"
        yield Meant(
            (Offer(whole),), "readings of one size stand behind reads, with commas between them", sure=True
        )


def _unit_of(size: str) -> str:
    word = re.sub(rf"^{NUMBER}\s*", "", size, flags=re.IGNORECASE).rstrip(".")
    unit = units.find(word)
    return unit.name if unit is not None else word


def _are_close(sizes: tuple[str, ...]) -> bool:
    values = [value_of(match[0]) for size in sizes if (match := re.match(NUMBER, size)) is not None]
    known = [value for value in values if value is not None]
    return len(known) == len(sizes) > 1 and max(known) * 100 < min(known) * (100 + _CLOSE)
