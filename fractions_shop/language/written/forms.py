"""How one size is written in books, lists and drawings: a pattern of it, and its exact value.

Whatever the pattern finds in figures is read by `number_value`, and its unit by `units.find`: there
is no other table of either.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.language.notes import Note, doubt, misprint
from fractions_shop.language.written.words import PART, WHOLE, part_value, whole_value
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import GLYPHS, mixed, number_value
from fractions_shop.size.quantity import Angle, Quantity

_SUPER, _SUB = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
#: A number that is not cut out of a longer one; the mixed number is tried before the whole one.
NUMBER = (
    rf"(?:(?:[0-9]{{1,7}}(?:[ ]*-?[ ]?))?(?:[{_SUPER}]+/[{_SUB}]+|⅟[0-9{_SUB}]{{1,5}}(?![0-9{_SUB}]))"
    rf"|(?:[0-9]{{1,7}}(?:[ ]+|-))?(?:[{_SUPER}]+/[0-9]+|[0-9]+/[{_SUB}]+)"
    r"|[0-9]{1,7}(?:[ ]{1,2}|-)[0-9]{1,5}/[0-9]{1,5}"
    rf"|(?:[0-9]{{1,7}}[ -]?)?[{GLYPHS}]"
    r"|[0-9]{1,7}/[0-9]{1,5}"
    r"|[0-9]{1,12}\.[0-9]{1,15}|\.[0-9]{1,15}|[0-9]{1,12})"
)
#: Nothing before a number that could make it another one: a figure, a point, a letter, a stroke.
ALONE = r"(?<![0-9A-QS-WYZa-wyz_/.,µ])(?<![A-Za-z_][RxX])"
_WORDS = units.alternatives(letters=True)
#: A unit behind a number: a word with a hyphen, a blank or nothing before it, or the marks ' and ".
UNIT = (
    rf"(?:[ ]?-?[ ]?(?:(?P<metric>[mMcC]\.[ ]?m|[mMcC]/[mM])\b\.?|(?P<unit>(?i:{_WORDS}))\b(?![0-9'])\.?)"
    r"|[ ]?(?P<mark>\"|''|'(?![A-Za-z'])))"
)
_OF = r"(?:[ ]of[ ](?:an?[ ])?|[ -](?:an?[ ])?)"
_UNIT_WORD = rf"(?P<{{}}>(?i:{units.alternatives('in', 'ft', 'yd', 'mm', 'cm', 'thou', letters=True)}))\b\.?"

_FIGURES = (
    rf"{ALONE}(?P<number>{NUMBER})(?:"
    r"(?P<ths>ths?|nds?|rds?)?(?:[ ]of[ ]an|-of-an)[ -](?P<inch>(?i:inch))\b"
    r"|(?P<ths2>ths?|nds?|rds?)[ -]?(?P<inch2>(?i:inch(?:es)?|in))\b\.?"
    r"|[ -](?P<nths>[0-9]{1,4})(?:ths?|nds?|sts?|rds?)\b(?:[ ]of[ ]an[ ]inch\b|[ ](?i:inch|in)\b\.?)?"
    r"|[ ](?P<thou>(?i:thousandths?))\b(?:[ ]of[ ]an[ ](?i:inch)\b|[ ](?i:inch)\b)?"
    rf"|{UNIT})"
)
_SPOKEN = (
    rf"\b(?:(?P<whole>{WHOLE}|[0-9]{{1,4}})[ -]and[ -](?P<top>an?|{WHOLE})[ -](?P<part>{PART})"
    rf"{_OF}{_UNIT_WORD.format('u1')}"
    rf"|(?P<top2>an?|{WHOLE})[ -](?P<part2>{PART}){_OF}{_UNIT_WORD.format('u2')}"
    rf"|(?P<half>half|quarter){_OF}{_UNIT_WORD.format('u3')}"
    rf"|(?P<whole4>an?|{WHOLE})[ -]{_UNIT_WORD.format('u4')}[ ]and[ ](?P<top4>an?|{WHOLE})[ -](?P<part4>{PART})\b"
    rf"|(?P<whole5>{WHOLE})[ -]{_UNIT_WORD.format('u5')})"
)
_ANGLE = rf"{ALONE}(?P<degrees>[0-9]{{1,3}}(?:\.[0-9]{{1,6}})?)[ ]?(?:°|(?i:deg(?:rees?|s)?)\b\.?)(?:[ ]?(?P<minutes>[0-9]{{1,2}})')?"
#: A spoken whole number alone: how many.
_COUNT = rf"\b(?P<count>{WHOLE})\b"

#: Two limits one above the other, as drawings print them: .3750/.3745.
_STACKED = re.compile(
    rf"{ALONE}(?P<first>[0-9]{{0,4}}\.[0-9]{{2,6}})[ ]?/[ ]?(?P<number>[0-9]{{0,4}}\.[0-9]{{2,6}})(?![0-9/.]){UNIT}?"
)
_SIZED = re.compile(_FIGURES)
_SAID = re.compile(_SPOKEN, re.IGNORECASE)
_TURN = re.compile(_ANGLE)
_HOW_MANY = re.compile(_COUNT, re.IGNORECASE)
_BARE = re.compile(rf"{ALONE}(?P<number>{NUMBER})(?![0-9A-WYZa-wyz_µ%]|/[0-9A-Za-z]|[.,][0-9])")


@dataclass(frozen=True, slots=True)
class Atom:
    """One written thing and its place: a `size` or bare number, or anything else of a kind of items.

    `unit` is the unit's name ('' where none was written), `written` its number as it stands, `beside`
    whether the same size stands beside it in another unit, and `lent` whether its unit stands elsewhere.
    `last` is what its last number counts, in mm, where that is not its unit: inches behind feet, or 64ths.
    """

    kind: str
    value: object
    start: int
    end: int
    unit: str = ""
    written: str = ""
    notes: tuple[Note, ...] = ()
    beside: bool = False
    lent: bool = False
    last: Fraction | None = None

    @property
    def bare(self) -> bool:
        """Whether it is a number without a unit."""
        return self.kind == "size" and not self.unit

    def noted(self, *notes: Note) -> Atom:
        """The same with more notes."""
        return replace(self, notes=(*self.notes, *notes))

    def in_unit(self, unit: str) -> Atom:
        """A bare number with the unit that stands elsewhere."""
        assert isinstance(self.value, Quantity)
        number = self.value.value
        sized = replace(self, value=Quantity(number * units.BY_WORD[unit].mm), unit=unit, lent=True)
        return sized.checked(number)

    def checked(self, number: Fraction) -> Atom:
        """A size with the doubt that its number, `21/2`, has lost a blank."""
        note = misprint(self.written, number, self.unit)
        return self if note is None else self.noted(note)


def is_size(atom: Atom) -> bool:
    """Whether an atom is a size or a number without a unit."""
    return atom.kind == "size"


def quantity_of(atom: Atom) -> Quantity:
    """The Quantity that a size's atom is."""
    assert isinstance(atom.value, Quantity)
    return atom.value


def size_at(text: str, place: int) -> Atom | None:
    """The size, angle, bare number or spoken count that begins at `place`, or None."""
    first = text[place]
    if first.isalpha() and first not in GLYPHS:
        said = _SAID.match(text, place)
        if said is not None:
            return _spoken(said)
        many = _HOW_MANY.match(text, place)
        return many and Atom("count", whole_value(many["count"]), place, many.end(), written=many[0])
    turned = _TURN.match(text, place)
    if turned is not None:
        degrees = Fraction(turned["degrees"]) + Fraction(int(turned["minutes"] or 0), 60)
        return Atom("angle", Angle(degrees), place, turned.end(), "deg", turned["degrees"])
    mixed_said = _SAID.match(text, place)
    if mixed_said is not None:
        return _spoken(mixed_said)
    try:
        return _stacked(text, place) or _in_figures(text, place)
    except (ShopError, ValueError, ZeroDivisionError):
        return None


def _in_figures(text: str, place: int) -> Atom | None:
    match = _SIZED.match(text, place)
    if match is not None and not _is_preposition(match, text) and not _is_quoted(match, text):
        factor, name = _unit_of(match)
        fraction = "/" in match["number"] or match["number"][-1] in GLYPHS
        # 5 of an inch and 64ths in lack what the parts are, or how many, and 3rd in is no size at all.
        whole = match["inch"] and match["number"].isdigit() and "of" in match[0]
        if name and not whole and (fraction or not (match["ths"] or match["ths2"])):
            value = number_value(match["number"])
            atom = Atom("size", Quantity(value * factor), place, match.end(), name, match["number"])
            if (word := match["mark"] or match["unit"]) in ("'", "m"):
                note = misprint(match["number"], value, word)
                return atom if note is None else atom.noted(note)
            return replace(atom, last=factor if match["nths"] else None).checked(value)
    bare = _BARE.match(text, place)
    if bare is None:
        return None
    return Atom("size", Quantity(number_value(bare["number"]), 0), place, bare.end(), "", bare["number"])


def _stacked(text: str, place: int) -> Atom | None:
    """Limits one above the other; None where the two are not near enough to be, or in no sure unit."""
    match = _STACKED.match(text, place)
    if match is None:
        return None
    upper, lower = Fraction(f"0{match['first']}"), Fraction(f"0{match['number']}")
    low, high = sorted((upper, lower))
    # The quotient would be a number near 1, which nobody writes so.
    if not 0 < high - low < high / 8:
        return None
    word = match["metric"] or match["unit"] or match["mark"]
    if word is None and not (match["first"][0] == match["number"][0] == "."):
        return None
    unit = units.find(word if word is not None else "in")
    if unit is None or unit.power != 1:
        return None
    said = f"{match['first']}/{match['number']} is read as two limits, one above the other"
    note = doubt(f"{said}, in inches as decimals without a zero are" if word is None else said)
    value = Limits(Quantity(low * unit.mm), Quantity((high - low) * unit.mm), Quantity(Fraction(0)))
    return Atom("limits", value, place, match.end(), unit.name, match["number"], (note,))


def _unit_of(match: re.Match[str]) -> tuple[Fraction, str]:
    if match["inch"] or match["inch2"]:
        return units.INCH, "in"
    if match["nths"]:
        parts = int(match["nths"])
        return (units.INCH / parts, "in") if parts else (Fraction(0), "")
    if match["thou"]:
        return units.INCH / 1000, "thou"
    word = f"{match['metric'][0].lower()}m" if match["metric"] else match["unit"] or match["mark"]
    unit = units.find(word)
    return (unit.mm, unit.name) if unit is not None and unit.power == 1 else (Fraction(0), "")


def _is_quoted(match: re.Match[str], text: str) -> bool:
    """Whether the mark behind a number is the second of two that stand about it: `'3/16'` is no part of a foot."""
    return bool(match["mark"]) and text[match.start() - 1 : match.start()] == match["mark"]


def _is_preposition(match: re.Match[str], text: str) -> bool:
    """Whether the unit found is the `in` of `1 in 48`, whose figure makes it a rate."""
    if match["unit"] is None or match["unit"].lower() != "in":
        return False
    behind = text[match.end() : match.end() + 8]
    return re.match(r"[ ]+[0-9]+(?![0-9]*(?:/|[ ][0-9]))", behind) is not None and "/" not in match["number"]


#: `three half inch bolts` are three of a half, and `three quarter inch` may be 3/4 or three of a quarter.
_SINGULAR = re.compile(r"(?!an?\b|one\b)[a-z]+ (?:half|[a-z]+(?:th|rd|nd|er))(?: |$)", re.IGNORECASE)


def _spoken(match: re.Match[str]) -> Atom:
    group = match.groupdict()
    if group["top2"] and _SINGULAR.match(match[0]):
        return Atom("unread", None, match.start(), match.end(), written=match[0])
    unit = units.find(next(group[name] for name in ("u1", "u2", "u3", "u4", "u5") if group[name]))
    assert unit is not None
    value = Fraction(0)
    whole = group["whole"] or group["whole4"] or group["whole5"]
    if whole:
        value += int(whole) if whole.isdigit() else whole_value(whole)
    top = group["top"] or group["top2"] or group["top4"]
    part = group["part"] or group["part2"] or group["part4"]
    if top and part:
        value += Fraction(whole_value(top), part_value(part))
    if group["half"]:
        value += Fraction(1, part_value(group["half"]))
    written = mixed(value)
    return Atom("size", Quantity(value * unit.mm), match.start(), match.end(), unit.name, written)
