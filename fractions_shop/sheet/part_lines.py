"""Part lines: what is to be made, how many, of what, and to which sizes.

`part NAME: HOW MANY [of MATERIAL][, SIZE by SIZE by SIZE][; NOTE]`, where the sizes may begin with
the shape of a section: `round 1/4 in by 7/8 in`, `hex`, `square`, `tube 1/2 in by bore 3/8 in by 6 in`.
In the note, `[NAME]` stands for the size of that name.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field

from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import write
from fractions_shop.language.nodes import Name, ShownExpression
from fractions_shop.language.notes import Note
from fractions_shop.language.parser import parse_piece, refuse_long
from fractions_shop.requests.reading import statement
from fractions_shop.sheet.habits import part_means
from fractions_shop.sheet.part_losses import (
    begins_with_a_count,
    count_word,
    lost,
    note_behind,
    words_begin,
)
from fractions_shop.sheet.whole_lines import Habits
from fractions_shop.size import units
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

ADVICE = "write it like this: part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge"
OF_ADVICE = "write of before the material, and the rest after a semicolon: part screws: 8 of brass; 4 BA"
UNIT_ADVICE = "write it with its unit, such as 1/4 in"
PART_HABITS = Habits(part_means, frozenset({ADVICE, OF_ADVICE, UNIT_ADVICE}), lambda line: ADVICE)
#: More pieces of one part than this must be a slip.
MOST = 1_000_000
MOST_SIZES = 3
LONGEST_NAME = 80
#: Of the words that may part a count from a material, so many are tried from either end of a line.
_EACH_END = 4

_BEGINS = re.compile(r"part\s+(?!as\b)[^\W_]|parts?\s*:|parts\s[^:=#]*:", re.IGNORECASE)
_PARTS = re.compile(r"\s*(parts)\b", re.IGNORECASE)
#: A number with a word behind it, which is the material more likely than a unit.
_NO_OF = re.compile(r"\s*[0-9]+\s+(?![0-9]+/[0-9])([^\W_].*)")
_NAME = re.compile(r"\s*parts?\b\s*([^:;,#]*?)\s*(?:[:;,#]|$)", re.IGNORECASE)
#: `off` is what drawings say for it; behind that a material may be left out.
_OF = re.compile(r"\sof(?P<off>f)?(?=\s|$)", re.IGNORECASE)
_BY = re.compile(r"\sby(?=\s|$)", re.IGNORECASE)
#: A comma that parts the pieces of a line; one between two figures belongs to a number, and is refused as such.
COMMA = re.compile(r"(?<![0-9]),|,(?![0-9])")
#: What each shape of section is told by, in the order in which a line gives it.
SECTIONS = {
    "round": ("diameter", "length"),
    "hex": ("across flats", "length"),
    "square": ("side", "length"),
    "tube": ("outside", "bore", "length"),
}
#: A shape's word with a size behind it; `round by 2 in` is a size that is called round, `round(x)` a function.
_SECTION = re.compile(rf"\s*({'|'.join(SECTIONS)})\s+(?!by\b|[-+*/^)=]\s|$)", re.IGNORECASE)
#: The shape of a section said behind its size, or by a sign before it.
_SHAPE_BEHIND = re.compile(
    rf"(?:[0-9\"'″′]|(?<![A-Za-z])(?:{units.alternatives('in', 'mm', 'ft', 'thou', 'cm')})\.?)[ ]*"
    r"(?P<shape>\b(?:dia(?:m(?:eter)?)?\b\.?|round\b|rod\b|square\b|hex(?:agon(?:al)?)?\b|a/f\b|af\b|across flats\b))\s*$",
    re.IGNORECASE,
)
_DIAMETER_SIGN = re.compile(r"\s*(?P<shape>[Øø⌀])\s*(?=[0-9.])")
_BORE = re.compile(r"\s(?:by\s+)?bore(?=\s)", re.IGNORECASE)
#: A name in square brackets in a note.
_FIGURE = re.compile(r"\[\s*([^\W\d]\w*)\s*\]")

#: A size with what may be the zone of a fit behind it.
_ZONED = re.compile(r"(.*\S)\s+([A-Za-z]{1,2}[0-9]{1,2})\s*", re.DOTALL)


@dataclass(frozen=True, slots=True)
class PartForm:
    """A part line as read: `count` and `sizes` are still to be worked out.

    `otherwise` is the count and material where the first of two `of` parts them: it is meant when what
    stands between them is no name (`12 of offcuts of oak`).
    """

    name: str
    count: ShownExpression
    material: str
    sizes: tuple[ShownExpression, ...]
    note: str
    section: str = ""
    figures: tuple[Name, ...] = ()
    otherwise: tuple[ShownExpression, str] | None = None


@dataclass(frozen=True, slots=True)
class NoteFigure:
    """What `[NAME]` in a note stands for: its size, and whether that may not be the one meant.

    Places have no one size: `value` is None, and the note leads to their `line`.
    """

    name: str
    line: int
    value: Value | None
    doubtful: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """A part to make: `count` pieces of `material`, to `sizes` (lengths, with limits where given).

    `note` is what the line says behind its semicolon, `notes` what is said of how it was read.
    `section` is flat stock's empty word, or round, hex, square or tube; `bought` has for each
    size the name by which it is bought (`16 SWG`), or nothing, and is empty where nothing has one. `figures` are what the names in
    the note stand for; `sees` the lines, named, where marks and places that it draws on are set out.
    """

    name: str
    count: int
    material: str
    sizes: tuple[Quantity | Limits, ...]
    note: str
    notes: tuple[Note, ...] = field(default=(), compare=False)
    section: str = ""
    bought: tuple[str, ...] = ()
    figures: tuple[NoteFigure, ...] = ()
    sees: tuple[tuple[str, int], ...] = field(default=(), compare=False)
    #: The name of a thread or of a wood screw that is one of its sizes: the part is bought by it.
    screw: str = ""

    @property
    def size_names(self) -> tuple[str, ...]:
        """What each size is of its section, one for one; empty words for flat stock."""
        names = SECTIONS.get(self.section, ())
        return tuple(names[n] if n < len(names) else "" for n in range(len(self.sizes)))

    def note_in_words(self, write: Callable[[NoteFigure], str]) -> str:
        """The note with what each name in square brackets stands for, as `write` has it."""
        known = {figure.name: figure for figure in self.figures}
        return _FIGURE.sub(lambda match: write(known[match[1]]) if match[1] in known else match[0], self.note)


def begins_a_part(meant: str) -> bool:
    """Whether a line is a part line, well formed or not; `part = 2 in` and `part / 2` are not."""
    return _BEGINS.match(meant) is not None


def name_of(text: str) -> str:
    """The name of the part that a line makes, well formed or not."""
    return " ".join(text[slice(*name_span(text))].split())


def name_span(text: str) -> tuple[int, int]:
    """From where to where the name of the part stands in its line."""
    match = _NAME.match(as_meant(text))
    return match.span(1) if match else (0, 0)


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
    comma = _outside(meant, COMMA, colon + 1, end)
    head_end = end if comma is None else comma.start()
    counted = _counts_and_materials(text, meant, colon + 1, head_end)
    (count, material), otherwise = counted[0], counted[1] if len(counted) > 1 else None
    section, said = "", ""
    sizes: tuple[ShownExpression, ...] = ()
    if comma is not None:
        said = meant[comma.end() : end]
        sizes_end, behind = note_behind(said)
        note = "; ".join(filter(None, (behind, note)))
        if not behind or said[:sizes_end].strip():
            section, sizes = section_and_sizes(text, meant, comma.end(), comma.end() + sizes_end)
            if (cut := words_begin(sizes[-1])) is not None and not behind:
                section, sizes = section_and_sizes(text, meant, comma.end(), cut)
                note = "; ".join(filter(None, (text[cut:end].strip(" .,"), note)))
    figures = () if semicolon < 0 else _figures(meant, semicolon + 1)
    if said_of := lost(material, said, section, sizes):
        raise InputError(said_of, text, colon + 1, end, ADVICE)
    return PartForm(name, count, material, sizes, note, section, figures, otherwise)


def _figures(meant: str, start: int) -> tuple[Name, ...]:
    """The names in square brackets of a note, with their places in the line."""
    return tuple(Name(*match.span(1), match[1]) for match in _FIGURE.finditer(meant, start))


def _counts_and_materials(text: str, meant: str, start: int, end: int) -> list[tuple[ShownExpression, str]]:
    """The count and the material, parted by the last `of` outside brackets that could have a count before it.

    With the second way, where the first `of` parts them too.
    """
    every = list(outside_brackets(meant, _OF, start, end))
    if len(every) > 2 * _EACH_END:  # each is read as far as it goes: no line of a hundred may take a second
        every = [*every[:_EACH_END], *every[-_EACH_END:]]
    ways = every
    if len(every) > 1:
        ways = [of for of in reversed(every) if _could_count(meant[start : of.start()])] or every[:1]
    if len(ways) > 1:
        ways = [ways[0], ways[-1]]
    return [_count_and_material(text, meant, start, of, end) for of in ways or (None,)]


def _count_and_material(
    text: str, meant: str, start: int, of: re.Match[str] | None, end: int
) -> tuple[ShownExpression, str]:
    count_end = end if of is None else of.start()
    if (word := count_word(meant, start, count_end)) is not None:
        raise InputError("how many is a number alone", text, *word, OF_ADVICE)
    if not meant[start:count_end].strip():
        raise InputError(
            "a part line says how many after its colon", text, start, max(end, start + 1), ADVICE
        )
    if of is None:
        behind = _NO_OF.match(meant, start, end)
        if behind is not None and units.find(behind[1].strip()) is None:
            raise InputError(
                "the count is a plain number, and 'of' comes before the material", text, start + 1, end,
                OF_ADVICE,
            )  # fmt: skip
        return expression(text, meant, start, end, "how many"), ""
    material = " ".join(text[of.end() : end].split())
    if not material and not of["off"]:
        raise InputError("'of' is followed by the material", text, of.start() + 1, of.end(), ADVICE)
    return expression(text, meant, start, count_end, "how many"), material


def _could_count(words: str) -> bool:
    try:
        return isinstance(statement(words), ShownExpression)
    except InputError:
        return False


def section_and_sizes(text: str, meant: str, start: int, end: int) -> tuple[str, tuple[ShownExpression, ...]]:
    """The shape of a section, empty for flat stock, and the sizes that `by` joins; InputError for anything else."""
    if begins_with_a_count(meant[start:end]):
        raise InputError(
            "how many of a part stands behind its colon, and how much of stock it takes is worked out", text, start, end,
        )  # fmt: skip
    shape = _SECTION.match(meant, start, end)
    section = "" if shape is None else shape[1].lower()
    if shape is not None:
        start = shape.end()
    else:
        _refuse_shape_behind(text, meant, start, end)
    most = len(SECTIONS[section]) if section else MOST_SIZES
    sizes: list[ShownExpression] = []
    while True:
        by = _outside(meant, _BY, start, end)
        if section == "tube" and not sizes:
            by = _outside(meant, _BORE, start, end)
            if by is None:
                raise InputError(
                    "a tube is told by its outside and its bore", text, start, end,
                    "write it like this: part sleeve: 2 of brass, tube 1/2 in by bore 3/8 in by 6 in",
                )  # fmt: skip
        stop = end if by is None else by.start()
        sizes.append(expression(text, meant, start, stop, "a size"))
        if by is None:
            break
        start = by.end()
    if len(sizes) > most:
        told_by = f": {' and '.join(SECTIONS[section])}" if section else ""
        raise InputError(
            f"a {section or 'part'} has at most {most} sizes{told_by}", text, sizes[most].start, end,
            "put the rest into the note behind a ;",
        )  # fmt: skip
    return section, tuple(sizes)


def _refuse_shape_behind(text: str, meant: str, start: int, end: int) -> None:
    """InputError for `1/8 in dia by 1 in`, which is no flat stock: a section says its shape first."""
    by = _outside(meant, _BY, start, end)
    stop = end if by is None else by.start()
    said = _SHAPE_BEHIND.search(meant, start, stop) or _DIAMETER_SIGN.match(meant, start, stop)
    if said is None:
        return
    shape = next((each for each in SECTIONS if each == said["shape"].lower()), "round")
    if said["shape"].lower().startswith(("hex", "a", "ac")):
        shape = "hex"
    head = text[:start].rstrip()
    bare = f"{meant[start : said.start('shape')]}{meant[said.end() : stop]}".strip()
    whole = f"{head} {shape} {bare}{text[stop:].rstrip()}"
    advice: str = f"write it like this: {shape} 1/4 in by 7/8 in"
    with suppress(InputError):
        section_and_sizes(whole, as_meant(whole), len(head), len(whole) - len(text[end:].rstrip()))
        advice = write(whole.strip())
    raise InputError(
        f"a {shape} section says so before its size", text, said.start("shape"), said.end("shape"), advice
    )


def _outside(meant: str, sign: re.Pattern[str], start: int, end: int) -> re.Match[str] | None:
    """The first `sign` that stands outside every bracket."""
    if "(" not in meant and ")" not in meant:
        return sign.search(meant, start, end)
    return next(outside_brackets(meant, sign, start, end), None)


def outside_brackets(meant: str, sign: re.Pattern[str], start: int, end: int) -> Iterator[re.Match[str]]:
    """Every `sign` that stands outside every bracket."""
    depth, done = 0, start
    for match in sign.finditer(meant, start, end):
        between = meant[done : match.start()]
        depth += between.count("(") - between.count(")")
        done = match.start()
        if depth <= 0:
            yield match


def expression(
    text: str, meant: str, start: int, end: int, what: str, advice: str = ADVICE
) -> ShownExpression:
    """What stands in a piece of a line, as a size or a sum; InputError, placed in the line, for anything else."""
    piece = meant[start:end]
    if not piece.strip():
        raise InputError(f"{what} is missing here", text, start, max(end, start + 1), advice)
    try:
        # Blanks in front keep every place in the piece the same place in the line.
        node = parse_piece(meant, start, end) or statement(" " * start + piece)
    except InputError as error:
        _refuse_zone(text, piece, start)
        raise error.at(text, 0) from None
    if not isinstance(node, ShownExpression) or node.target is not None:
        raise InputError(f"{what} is a size or a sum here", text, start, end, advice)
    return node


def _refuse_zone(text: str, piece: str, start: int) -> None:
    """InputError for a size with the zone of a fit behind it, `3 mm H7`: its limits are worked out in a line of their own."""
    match = _ZONED.fullmatch(piece)
    if match is None:
        return
    from fractions_shop.errors import ShopError
    from fractions_shop.layout.zones import zone

    name = "bore" if match[2][0].isupper() else "fitted"
    try:
        zone("10 mm", match[2])
        statement(f"{name} = fit {match[1]} {match[2]}")
    except ShopError:
        return
    raise InputError(
        f"{match[2]} is the zone of a fit, whose limits a line of its own works out", text,
        start + match.start(2), start + match.end(2),
        f"write {name} = fit {match[1].strip()} {match[2]} in a line before, and {name} here",
    )  # fmt: skip


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


def checked_size(
    value: object, node: ShownExpression, text: str, what: str = "a part's size"
) -> Quantity | Limits:
    """A part's size, which is a length above zero; InputError for anything else."""
    if not isinstance(value, (Quantity, Limits)) or value.power != 1:
        raise InputError(f"{what} is a length", text, node.start, node.end, UNIT_ADVICE)
    nominal = nominal_of(value)
    if nominal.value <= 0:
        raise InputError(f"{what} must be above zero", text, node.start, node.end)
    return value
