"""Stock lines as makers write them, `stock brass rod 1/4 in: 3 ft lengths, kerf: 1/16"`, in the order of the language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from fractions_shop.language.advice.offers import Offer
from fractions_shop.sheet.side_words import NUMBER, SAID_BY, SIZE, UNIT
from fractions_shop.sheet.sides_in_words import sides_in, split_sides, value_of, with_units
from fractions_shop.sheet.whole_lines import Meant
from fractions_shop.size import units

SAID = "a stock line says the section, then how long a bar is, then what the saw takes"
SAID_OF_SHEETS = "a sheet says its thickness, then its width by its length"
_SIZE = rf"(?:{SIZE}|[A-Za-z_]\w*)"
_WHOLE = re.compile(
    r"\s*stock\b\s*(?P<head>[^:;]*?)\s*(?::\s*(?P<rest>[^;]*))?(?:;\s*(?P<note>.*))?", re.IGNORECASE
)
_FIRST_PIECE = re.compile(r"\s*(?P<head>[A-Za-z][A-Za-z ]*?)\s*,\s*(?P<rest>.*)")
#: What the saw takes, however it is called.
_SAW = re.compile(
    rf",?\s*(?:and\s+)?(?:allow(?:ing)?\s+)?(?:(?:saw|kerf)(?:\s+(?:kerf|cut))?s?\s*[:=]?\s*(?:of\s+)?(?P<behind>{_SIZE})"
    rf"|(?P<before>{SIZE})\s+(?:for\s+)?(?:saw|kerf)(?:\s*(?:kerf|cut))?s?)",
    re.IGNORECASE,
)
#: How long a bar is, where a word says so.
_LONG = re.compile(
    rf"(?:,|\b(?:x|by|in)\b|×)?\s*(?P<size>{SIZE})\s*(?:long|lg|lengths?|bars?)\b\.?", re.IGNORECASE
)
_LONG_FIRST = re.compile(rf"\s*(?P<size>{SIZE})\s+(?:lengths?\s+)?of\s+", re.IGNORECASE)
_SHEET = re.compile(r"\b(?:sheets?|plate)\b(?:\s+of\b)?", re.IGNORECASE)
_BAR_WORDS = re.compile(r"\b(?:bars?|strips?|flat)\b", re.IGNORECASE)
_SHAPE_AT_END = re.compile(r"\s+(round|rod|hex|hexagon|hexagonal|square|tube|tubing)\s*$", re.IGNORECASE)
_SIZE_BEGINS = re.compile(rf"(?:[Øø⌀]\s*)?(?<![A-Za-z0-9_.]){NUMBER}")
_VALUE = re.compile(rf"({NUMBER})\s*({UNIT}|[\"'″′])", re.IGNORECASE)


class _StockSaid(NamedTuple):
    """What a line says: the material, all its sizes in words, the length of a bar and the saw where words tell them, and the note."""

    material: str
    sizes: str
    long: str
    saw: str
    note: str
    sheet: bool


def stock_habits(line: str) -> Iterator[Meant]:
    """What a stock line may mean that is not in the order of the language.

    >>> [offer.text for meant in stock_habits('stock brass 1/16 by 1/4: 3 ft lengths') for offer in meant.offers]
    ['stock brass: 1/16 in by 1/4 in, 3 ft long']
    """
    said = _said(line)
    if said is None:
        return
    sheets = tuple(_sheets(said))
    if said.sheet:
        yield Meant(tuple(map(Offer, sheets)), SAID_OF_SHEETS)
        return
    bars = tuple(_bars(said))
    if bars and sheets and not said.long and not said.saw:
        yield Meant(
            (
                *(Offer(bar, " for a bar") for bar in bars),
                *(Offer(sheet, " for a sheet") for sheet in sheets),
            ),
            SAID,
        )
    yield Meant(tuple(map(Offer, bars)), SAID)


def _said(line: str) -> _StockSaid | None:
    match = _WHOLE.fullmatch(line.rstrip())
    if match is None:
        return None
    head, rest = match["head"] or "", match["rest"] or ""
    if not head:
        first = _FIRST_PIECE.fullmatch(rest)
        if first is None:
            return None
        head, rest = first["head"], first["rest"]
    begin = _SIZE_BEGINS.search(head)
    material, own = (head, "") if begin is None else (head[: begin.start()], head[begin.start() :])
    body = f"{own}, {rest}" if own and rest else own or rest
    sheet = _SHEET.search(material) is not None or _SHEET.search(body) is not None
    # The word of a shape may stand behind the material: `brass rod: 1/4 in`.
    shape = _SHAPE_AT_END.search(f" {material}")
    if shape is not None:
        material = f" {material}"[: shape.start()]
        body = f"{shape[1]} {body}"
    material = _BAR_WORDS.sub("", _SHEET.sub("", material)).strip(" ,")
    if not material:
        return None
    if (saw := _SAW.search(body)) is not None:
        body = f"{body[: saw.start()]}{body[saw.end() :]}"
    body = re.sub(r"(?:,\s*)+", ", ", _BAR_WORDS.sub("", _SHEET.sub(",", body))) if sheet else body
    long = None if sheet else _LONG_FIRST.match(body) or _LONG.search(body)
    if long is not None:
        body = f"{body[: long.start()]}{body[long.end() :]}"
    return _StockSaid(
        " ".join(material.split()), body.strip(" ,"), "" if long is None else long["size"],
        "" if saw is None else saw["behind"] or saw["before"], (match["note"] or "").strip(), sheet,
    )  # fmt: skip


def _bars(said: _StockSaid) -> Iterator[str]:
    words = f"{said.sizes}, {said.long} long" if said.long else said.sizes
    sides, behind = split_sides(_BAR_WORDS.sub("", words))
    if not sides or behind:
        return
    *section, long = sides
    text = " x ".join(" ".join((*sorted(_words_of(side.said)), side.size)) for side in section)
    for made in sides_in(text):
        if len(made.sizes) != _HAS.get(made.section, 2):
            continue
        for (length,) in with_units([long.size]) if not re.fullmatch(NUMBER, long.size) else ():
            saw = f", saw {said.saw}" if said.saw else ""
            note = f"; {said.note}" if said.note else ""
            yield f"stock {said.material}: {made.joined}, {length} long{saw}{note}"


#: So many sizes tell a section.
_HAS = {"": 2, "round": 1, "hex": 1, "square": 1, "tube": 2}


def _words_of(said: frozenset[str]) -> Iterator[str]:
    """A word for each thing that is said of a side, as it may be written again."""
    for role in said:
        yield next(word for word, known in SAID_BY.items() if known == role)


def _sheets(said: _StockSaid) -> Iterator[str]:
    sides, behind = split_sides(f"{said.sizes}, {said.long}" if said.long else said.sizes)
    if behind or len(sides) != 3 or any(side.said - {"thick", "wide", "long"} for side in sides):
        return
    for sizes in with_units([side.size for side in sides]):
        values = [_value(size) for size in sizes]
        if None in values and "," not in said.sizes:
            return
        # The thickness is the least of three, or stands first where it cannot be told.
        thin = min(range(3), key=lambda n: values[n] or Fraction(0)) if None not in values else 0
        first, second = (size for n, size in enumerate(sizes) if n != thin)
        note = f"; {said.note}" if said.note else ""
        yield f"stock {said.material}: sheet {sizes[thin]}, {first} by {second}{note}"


def _value(size: str) -> Fraction | None:
    match = _VALUE.fullmatch(size.strip())
    unit = None if match is None else units.find(match[2].rstrip("."))
    number = None if match is None or unit is None else value_of(match[1])
    return None if number is None or unit is None else number * unit.mm
