"""From the parser's pieces to written sizes: one method for each alternative in sizes.lark."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from itertools import takewhile
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.deviations import old_unit, parts_of_inch
from fractions_shop.language.fault import Fault, SideBySide
from fractions_shop.language.nodes import Literal, Named, Node, OddUnit
from fractions_shop.language.notes import Note, doubt, echo, misprint
from fractions_shop.size import units
from fractions_shop.size.notation import MAX_DIGITS, full_size, mixed, number_value
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.slips import unit_slipped

DEGREES = ("deg", "degs", "degree", "degrees")
_FOOT = units.find("ft")
_INCH = units.find("in")
_THOU = units.find("thou")
#: The ending of a spoken fraction: 3/16ths.
_ORDINAL = "thsndrTHSNDR"


def _number(token: Any) -> Fraction:
    return checked(str(token), token)


def checked(number: str, token: Any) -> Fraction:
    """The value of a number that `token` holds."""
    try:
        return number_value(number)
    except ShopError as error:
        raise _misread(error, number, token) from None


def _misread(error: ShopError, number: str, token: Any) -> Fault:
    return Fault(str(error), token.start_pos, token.end_pos, _number_advice(number))


def _number_advice(text: str) -> str:
    whole, _, part = full_size(text).replace("-", " ").partition(" ")
    if "/" in part:
        top, bottom = (int(x) for x in part.split("/"))
        if bottom:
            sum_of_both = mixed(int(whole) + Fraction(top, bottom))
            return write(Offer(sum_of_both, ", if that is what it is", worked=True))
    return "write it like 2 1/32, 65/32 or 2.03125"


def _dashed(token: Any) -> bool:
    """Whether a mixed number was written with a dash, 2-1/32, which might be meant as minus."""
    return "-" in token


def _read_as(token: Any, unit: str) -> Note | None:
    """The doubt of a slip of the pen, or how a mixed number with a dash was read; None for any other number."""
    slipped = misprint(str(token), _number(token), unit) if unit else None
    if slipped is None and _dashed(token):
        return echo(f"read as {mixed(_number(token))} {unit}".rstrip())
    return slipped


class SizeBuilder:
    """Makes the nodes of written sizes. Names that begin `sizes__` are the alternatives in sizes.lark."""

    def sizes__plain_number(self, parts: list[Any]) -> Node:
        """A number without a unit."""
        (token,) = parts
        size, read_as = _size_of(token, "", "")
        return Literal(token.start_pos, token.end_pos, size, "", read_as)

    def sizes__sized(self, parts: list[Any]) -> Node:
        """A number and its unit."""
        token, word = parts
        return _sized(token, word)

    def sizes__area(self, parts: list[Any]) -> Node:
        """A number of square or cubic units: 7 7/8 sq in, 2 in²."""
        token, words = parts
        unit = units.find_raised(words.rstrip(".").lower())
        assert unit is not None
        size = Quantity(_number(token) * unit.mm, unit.power)
        return Literal(token.start_pos, words.end_pos, size, unit.name, _read_as(token, unit.name))

    def sizes__feet_and_inches(self, parts: list[Any]) -> Node:
        """Two numbers with units, which must be feet and inches."""
        first, foot, second, inch = parts
        old = _inch_and_line(first, foot, second, inch)
        if old is not None:
            return old
        if str(foot) in "xX×":
            raise SideBySide(
                "x does not multiply",
                foot.start_pos,
                foot.end_pos,
                "write each size alone, or put * for a product",
            )
        if units.find(foot) is not _FOOT or units.find(inch) is not _INCH:
            raise SideBySide(
                "only feet and inches may stand side by side without a sign",
                second.start_pos, inch.end_pos, "put + - * or / between them",
            )  # fmt: skip
        if second[0] in ".·" and second.start_pos == foot.end_pos and foot[0].isalpha():
            # The point of `ft.` and that of a decimal are one sign: 9 ft.6 in.
            whole = Offer(f"{first} ft {second[1:]} in", worked=True)
            below = Offer(f"{first} ft 0.{second[1:]} in")
            raise Fault(
                f"{foot}{second} may be {second[1:]} behind the point of {foot}., or 0.{second[1:]}",
                first.start_pos, inch.end_pos, write(whole, below),
            )  # fmt: skip
        return _feet(first, str(first), second, inch, None)

    def sizes__feet_dash_inches(self, parts: list[Any]) -> Node:
        """Feet, a dash without blanks, and inches, as old drawings write it."""
        dash, second, inch = parts
        feet = "".join(takewhile(str.isdecimal, dash))
        if units.find(inch) is not _INCH or not dash.endswith("'-"):
            offers = [Offer(f"{feet} ft - {second} {inch}", " with blanks")]
            if units.find(inch) is _INCH:
                offers.insert(0, Offer(f"{feet}' {second}\"", " for feet and inches"))
            raise Fault(
                f"{dash}{second} may be feet and inches, or a subtraction",
                dash.start_pos, inch.end_pos,
                write(*offers),
            )  # fmt: skip
        inches = mixed(_number(second))
        return _feet(dash, feet, second, inch, echo(f"read as {feet} ft {inches} in"))

    def sizes__parts(self, parts: list[Any]) -> Node:
        """So many 64ths (of an inch)."""
        token, nths, word = parts
        end = (word if word is not None else nths).end_pos
        if word is not None and word.type != "OF_AN_INCH" and units.find(word) is not _INCH:
            raise Fault(f"{nths} are parts of an inch here", word.start_pos, end, write(f"{token} {nths}"))
        divisor = parts_of_inch(nths)
        if divisor == 0:
            raise Fault(
                "an inch cannot be divided into zero parts", nths.start_pos, nths.end_pos, "write 64ths"
            )
        if divisor >= 10**MAX_DIGITS:
            raise Fault("nothing is divided so finely", nths.start_pos, nths.end_pos, "write 64ths")
        return Literal(token.start_pos, end, Quantity(_number(token) * units.INCH / divisor), nths)

    def sizes__fraction_of_inch(self, parts: list[Any]) -> Node:
        """A fraction written as it is spoken, 3/16ths (of an inch)."""
        token, word = parts
        end = (word if word is not None else token).end_pos
        if word is not None and word.type != "OF_AN_INCH" and units.find(word) is not _INCH:
            raise Fault(
                f"{token} is a part of an inch here", token.start_pos, end,
                "put the unit straight behind the fraction, without the letters",
            )  # fmt: skip
        number = str(token).rstrip(_ORDINAL)
        value = checked(number, token)
        mixed_one = re.fullmatch(r"([0-9]+)[ -]+1/([0-9]+)", number)
        if mixed_one:
            # Two thirty-seconds, or two inches and a thirty-second?
            raise Fault(
                f"{token} may be {mixed(value)} in, or {mixed_one[1]} parts of 1/{mixed_one[2]} in",
                token.start_pos, end, write(f"{mixed(value)} in", Offer(f"{mixed_one[1]}/{mixed_one[2]} in", worked=True)),
            )  # fmt: skip
        size = Quantity(value * units.INCH)
        said = None if word else echo(f"read as {number} in")
        return Literal(token.start_pos, end, size, "in", misprint(number, value, "in") or said)

    def sizes__of_an_inch(self, parts: list[Any]) -> Node:
        """A fraction or so many thousandths, of an inch."""
        token, *words = parts
        value, end = _number(token), words[-1].end_pos
        unit = units.find(words[0]) if len(words) > 1 else _INCH
        if unit not in (_INCH, _THOU) or (len(words) > 1 and unit is _INCH):
            raise Fault(
                f"{words[0]} are no parts of an inch", words[0].start_pos, end, write(f"{token} {words[0]}")
            )
        if unit is _INCH and value.denominator == 1 and value:
            raise Fault(
                f"{token} of an inch lacks what the parts are", token.start_pos, end,
                write(f"{token} in", f"{token} thou", f"{token} 64ths"),
            )  # fmt: skip
        assert unit is not None
        return Literal(token.start_pos, end, Quantity(value * unit.mm), unit.name, _read_as(token, "in"))

    def sizes__angle(self, parts: list[Any]) -> Node:
        """Degrees, minutes and seconds."""
        degrees, sign, minutes, _, seconds, last = parts
        value = _number(degrees)
        for part, share in ((minutes, 60), (seconds, 3600)):
            if part is None:
                continue
            small = _number(part)
            if small >= 60:
                raise Fault(
                    "minutes and seconds of an angle stop at 59",
                    part.start_pos,
                    part.end_pos,
                    "carry it over",
                )
            value += small / share
        end = (last or parts[3] or sign).end_pos
        return Literal(degrees.start_pos, end, Angle(value), "deg")

    def sizes__named(self, parts: list[Any]) -> Node:
        """A thread, gauge or drill by name."""
        (token,) = parts
        return Named(token.start_pos, token.end_pos, str(token), token.type.lower())


def _sized(token: Any, word: Any) -> Node:
    unit = units.find(word)
    if unit is not None:
        size, read_as = _size_of(token, unit.name, unit_slipped(str(word), unit.name))
        return Literal(token.start_pos, word.end_pos, size, str(word), read_as)
    value = _number(token)
    if word in DEGREES:
        return Literal(token.start_pos, word.end_pos, Angle(value), "deg")
    old = old_unit(word)
    if old is not None:
        return Literal(token.start_pos, word.end_pos, old.size * value, str(word), old.note)
    return OddUnit(token.start_pos, word.end_pos, value, str(word), word.start_pos)


def _size_of(token: Any, unit: str, unit_told: str) -> tuple[Quantity, Note | None]:
    """So many of a unit, or of none, and how the number was read, `unit_told` being its unit there; Fault for a number that is none."""
    try:
        return _known_size(str(token), unit, unit_told)
    except ShopError as error:
        raise _misread(error, str(token), token) from None


@lru_cache(1024)
def _known_size(number: str, unit: str, unit_told: str) -> tuple[Quantity, Note | None]:
    """The same few sizes stand in most lines of a sheet, and all of these share one."""
    value, known = number_value(number), units.BY_WORD[unit] if unit else None
    size = Quantity(value, 0) if known is None else Quantity(value * known.mm, known.power)
    return size, _read_as(number, unit_told)


def _inch_and_line(first: Any, inch: Any, second: Any, line: Any) -> Node | None:
    """Old inches and lines of them, `2 Rhenish inches 5 Rhenish lines`; None for any other two."""
    whole, part = old_unit(inch), old_unit(line)
    if whole is None or part is None or whole.inch != part.inch or whole.is_line or not part.is_line:
        return None
    inches, lines = _number(first), _number(second)
    if lines >= whole.inch.parts or inches.denominator != 1:
        raise Fault(
            f"the lines after inches stop short of {whole.inch.parts}, and the inches are whole",
            first.start_pos, line.end_pos, "take one of the two units alone",
        )  # fmt: skip
    return Literal(
        first.start_pos, line.end_pos, whole.size * inches + part.size * lines, str(inch), whole.note
    )


def _feet(first: Any, feet: str, second: Any, inch: Any, read_as: Note | None) -> Node:
    if not feet.isdigit() or len(feet) > 20:
        raise Fault(
            "the feet before inches must be a whole number",
            first.start_pos,
            first.end_pos,
            "write it like this: 5 ft 3 1/2 in",
        )
    inches = _number(second)
    if inches >= 12:
        advice: str = "carry the feet out of the inches"
        if inches < 24:  # of more, as in 1'234 in, the sign was meant otherwise
            carried = f"{int(feet) + 1} ft {mixed(inches - 12)} in"
            advice = write(Offer(carried, ", if that is what it is", worked=True))
        raise Fault(
            "the inches after feet stop short of 12", second.start_pos, second.end_pos, advice
        )  # fmt: skip
    size = Quantity((int(feet) * 12 + inches) * units.INCH)
    lost = misprint(str(second).lstrip("0"), inches, "in")  # 5' 06" is a habit
    if lost is not None:
        read_as = doubt(lost.text, *(f"{int(feet)} ft {meant}" for meant in lost.meanings))
    return Literal(first.start_pos, inch.end_pos, size, "ft", read_as)
