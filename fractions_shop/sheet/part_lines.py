"""Part lines: what is to be made, how many, of what, and to which sizes.

`part NAME: HOW MANY [of MATERIAL][, SIZE by SIZE by SIZE][; NOTE]`
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import ShownExpression
from fractions_shop.language.notes import Note
from fractions_shop.language.parser import refuse_long
from fractions_shop.requests.reading import statement
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity

ADVICE = "write it like this: part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge"
#: More pieces of one part than this must be a slip.
MOST = 1_000_000
MOST_SIZES = 3
LONGEST_NAME = 80

_BEGINS = re.compile(r"part\s+(?!as\b)[^\W_]|parts?\s*:|parts\s[^:=#]*:", re.IGNORECASE)
_PARTS = re.compile(r"\s*(parts)\b", re.IGNORECASE)
#: A number with a word behind it, which is the material more likely than a unit.
_NO_OF = re.compile(r"\s*[0-9]+\s+(?![0-9]+/[0-9])([^\W_].*)")
_NAME = re.compile(r"\s*parts?\b([^:;,#]*)", re.IGNORECASE)
_OF = re.compile(r"\sof(?=\s|$)", re.IGNORECASE)
_BY = re.compile(r"\sby(?=\s|$)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class PartForm:
    """A part line as read: `count` and `sizes` are still to be worked out."""

    name: str
    count: ShownExpression
    material: str
    sizes: tuple[ShownExpression, ...]
    note: str


@dataclass(frozen=True, slots=True)
class Part:
    """A part to make: `count` pieces of `material`, to `sizes` (lengths, with limits where given).

    `note` is what the line says behind its semicolon, `notes` what is said of how it was read.
    """

    name: str
    count: int
    material: str
    sizes: tuple[Quantity | Limits, ...]
    note: str
    notes: tuple[Note, ...] = field(default=(), compare=False)


def begins_a_part(meant: str) -> bool:
    """Whether a line is a part line, well formed or not; `part = 2 in` and `part / 2` are not."""
    return _BEGINS.match(meant) is not None and not re.match(r"part\s*=", meant, re.IGNORECASE)


def name_of(text: str) -> str:
    """The name of the part that a line makes, well formed or not."""
    match = _NAME.match(as_meant(text))
    return " ".join(text[slice(*match.span(1))].split()) if match else ""


def read_part(text: str) -> PartForm:
    """The form of a part line; InputError, with the place, when it is not one."""
    refuse_long(text, "shorten the note")
    meant = as_meant(text.rstrip())
    several = _PARTS.match(meant)
    if several is not None:
        raise InputError(
            "a line of the parts list begins with part", text, several.start(1), several.end(1), "write part"
        )
    colon = meant.find(":")
    start = len(meant) - len(meant.lstrip()) + len("part")
    if colon < 0:
        raise InputError("a part line needs a colon after the part's name", text, start, len(meant), ADVICE)
    name = " ".join(text[start:colon].split())
    if not name or len(name) > LONGEST_NAME:
        if not name:
            raise InputError("a part needs a name, before its colon", text, colon, colon + 1, ADVICE)
        raise InputError("the part's name is too long", text, start, colon, ADVICE)
    semicolon = meant.find(";", colon)
    end = len(meant) if semicolon < 0 else semicolon
    note = "" if semicolon < 0 else text[semicolon + 1 :].strip()
    comma = _outside(meant, re.compile(","), colon + 1, end)
    head_end = end if comma is None else comma.start()
    count, material = _count_and_material(text, meant, colon + 1, head_end)
    sizes = () if comma is None else _sizes(text, meant, comma.end(), end)
    return PartForm(name, count, material, sizes, note)


def _count_and_material(text: str, meant: str, start: int, end: int) -> tuple[ShownExpression, str]:
    of = _outside(meant, _OF, start, end)
    count_end = end if of is None else of.start()
    if not meant[start:count_end].strip():
        raise InputError(
            "a part line says how many after its colon", text, start, max(end, start + 1), ADVICE
        )
    if of is None:
        behind = _NO_OF.match(meant, start, end)
        if behind is not None and units.find(behind[1].strip()) is None:
            raise InputError(
                "how many is a number alone, and of comes before the material", text, start + 1, end,
                "write of before the material, and the rest behind a semicolon: part screws: 8 of brass; 4 BA",
            )  # fmt: skip
        return _expression(text, meant, start, end, "how many"), ""
    material = " ".join(text[of.end() : end].split())
    if not material:
        raise InputError("'of' is followed by the material", text, of.start() + 1, of.end(), ADVICE)
    return _expression(text, meant, start, count_end, "how many"), material


def _sizes(text: str, meant: str, start: int, end: int) -> tuple[ShownExpression, ...]:
    sizes: list[ShownExpression] = []
    while True:
        by = _outside(meant, _BY, start, end)
        stop = end if by is None else by.start()
        sizes.append(_expression(text, meant, start, stop, "a size"))
        if by is None:
            break
        start = by.end()
    if len(sizes) > MOST_SIZES:
        place = sizes[MOST_SIZES].start
        raise InputError(
            f"a part has at most {MOST_SIZES} sizes",
            text,
            place,
            end,
            "put the rest into the note behind a ;",
        )
    return tuple(sizes)


def _outside(meant: str, sign: re.Pattern[str], start: int, end: int) -> re.Match[str] | None:
    """The first `sign` that stands outside every bracket."""
    depth, done = 0, start
    for match in sign.finditer(meant, start, end):
        between = meant[done : match.start()]
        depth += between.count("(") - between.count(")")
        done = match.start()
        if depth <= 0:
            return match
    return None


def _expression(text: str, meant: str, start: int, end: int, what: str) -> ShownExpression:
    piece = meant[start:end]
    if not piece.strip():
        raise InputError(f"{what} is missing here", text, start, max(end, start + 1), ADVICE)
    try:
        # Blanks in front keep every place in the piece the same place in the line.
        node = statement(" " * start + piece)
    except InputError as error:
        raise error.at(text, 0) from None
    if not isinstance(node, ShownExpression) or node.target is not None:
        raise InputError(f"{what} is a size or a sum here", text, start, end, ADVICE)
    return node


def checked_count(value: object, form: PartForm, text: str) -> int:
    """How many, as a whole number; InputError for anything else."""
    node = form.count
    if isinstance(value, Quantity) and value.power == 0 and value.value.denominator == 1:
        if 1 <= value.value <= MOST:
            return int(value.value)
        raise InputError(
            f"how many goes from 1 to {MOST:,}", text, node.start, node.end, "write a number such as 24"
        )
    raise InputError(
        "how many must be a whole number without a unit",
        text,
        node.start,
        node.end,
        "write a number such as 24",
    )


def checked_size(value: object, node: ShownExpression, text: str) -> Quantity | Limits:
    """A part's size, which is a length above nought; InputError for anything else."""
    if not isinstance(value, (Quantity, Limits)) or value.power != 1:
        raise InputError(
            "a part's size is a length", text, node.start, node.end, "write it with its unit, such as 1/4 in"
        )
    nominal = value.nominal if isinstance(value, Limits) else value
    if nominal.value <= 0:
        raise InputError("a part's size is above nought", text, node.start, node.end)
    return value
