"""Many sizes at once: plain written forms and their figures in whole-number arithmetic.

It gives what `read_plain`, `rule.rung` and `notation.decimal` give, several times as
fast because no Fraction is made; the tests compare them. A size is a pair of whole
numbers: millimetres as numerator and denominator, not in lowest terms.
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import gcd

from fractions_shop.size import units
from fractions_shop.size.notation import (
    READABLE_DENOMINATOR,
    as_meant,
    decimal,
    lost_blank,
    mixed,
    read_plain,
)
from fractions_shop.size.rule import Rule

Pair = tuple[int, int]

#: The commonest plain forms, with few figures; whatever else is plain goes to `read_plain`.
_FORM = re.compile(
    r"""[ ]* ([-+]?) [ ]*
    (?: ([0-9]{1,9}) (?: (?: [ -]([0-9]{1,6}) )? / ([0-9]{1,6}) | \.([0-9]{0,12}) )?
      | \.([0-9]{1,12}) )
    [ ]* ([A-Za-zµ"']*) [ ]*""",
    re.VERBOSE,
)
_FACTORS = {
    word: (unit.mm.numerator, unit.mm.denominator) for word, unit in units.BY_WORD.items() if unit.power == 1
}
_INCH_TOP, _INCH_BOTTOM = units.INCH.numerator, units.INCH.denominator
_TENS = tuple(10**n for n in range(13))


def plain_pair(text: str, bare: Pair | None = None) -> Pair | None:
    """A plain written length in millimetres, or None for what the full reader must judge.

    `bare` is what one of a number without a unit is, in millimetres; without it such a
    number is None.

    >>> plain_pair("1/2 mm")
    (1, 2)
    """
    match = _FORM.fullmatch(text)
    if match is None:
        return _read(text, bare)
    sign, whole, part, bottom, decimals, only_decimals, word = match.groups()
    factor = _FACTORS.get(word, bare if not word else None)
    if factor is None:
        return None
    if bottom is not None:
        below = int(bottom)
        above = int(whole)
        if part is not None:
            top = int(part)
            if top >= below:
                return None
            above = above * below + top
        elif below == 0 or (above >= below and lost_blank(f"{whole}/{bottom}") is not None):
            return None
    elif decimals is not None:
        above, below = int(whole + decimals), _TENS[len(decimals)]
    elif only_decimals is not None:
        above, below = int(only_decimals), _TENS[len(only_decimals)]
    else:
        above, below = int(whole), 1
    return (-above if sign == "-" else above) * factor[0], below * factor[1]


def _read(text: str, bare: Pair | None) -> Pair | None:
    size = read_plain(text)
    if size is None or size.power not in (0, 1):
        return None
    if size.power == 0 and lost_blank(as_meant(text).strip(" +-")) is not None:
        return None
    above, below = size.value.numerator, size.value.denominator
    if size.power == 1:
        return above, below
    return None if bare is None else (above * bare[0], below * bare[1])


class SizeTexts:
    """The texts that stand beside each size: in inches, in millimetres, and on a rule.

    `NAMES` names them in order. Decimals have at most `places` places, except that a
    size or error which is not nought is never shown as nought; the last text names
    the figures that are rounded.
    """

    def __init__(self, rule: Rule, places: int) -> None:
        self.rule, self.places = rule, places
        self._scale = 10**places
        step = rule.division.mm
        self._step = step.numerator, step.denominator
        self._parts = rule.parts

    @property
    def names(self) -> tuple[str, ...]:
        """What each of the texts is."""
        return (
            "inch fraction", "inch", "mm", f"nearest on {self.rule.name}", "error inch", "error mm", "rounded",
        )  # fmt: skip

    def of(self, above: int, below: int) -> tuple[str, ...]:
        """The texts for a size of `above`/`below` millimetres.

        The error is the nearest division less the size; a tie goes to the even division.
        """
        inch_above, inch_below = above * _INCH_BOTTOM, below * _INCH_TOP
        common = gcd(inch_above, inch_below)
        inch_above //= common
        inch_below //= common
        fraction = ""
        if inch_below <= READABLE_DENOMINATOR and inch_below != _INCH_TOP:
            fraction = _mixed(inch_above, inch_below)
        inch, inch_ends = self._decimal(inch_above, inch_below)
        mm, mm_ends = self._decimal(above, below)
        rounded = ([] if inch_ends else ["inch"]) + ([] if mm_ends else ["mm"])

        step_above, step_below = self._step
        part = below * step_above
        turns, rest = divmod(above * step_below, part)
        if 2 * rest > part or (2 * rest == part and turns & 1):
            turns += 1
            rest -= part
        if self._parts:
            nearest = _mixed(turns, self._parts)
        else:
            # A mark is shown in full, however few places the other figures have.
            nearest = f"{_in_full(turns * step_above, step_below)} mm"
        if rest == 0:
            return fraction, inch, mm, nearest, "0", "0", " and ".join(rounded)
        off_above, off_below = -rest, below * step_below
        off_inch, inch_ends = self._decimal(off_above * _INCH_BOTTOM, off_below * _INCH_TOP)
        off_mm, mm_ends = self._decimal(off_above, off_below)
        rounded += ([] if inch_ends else ["error inch"]) + ([] if mm_ends else ["error mm"])
        return fraction, inch, mm, nearest, off_inch, off_mm, " and ".join(rounded)

    def _decimal(self, above: int, below: int) -> tuple[str, bool]:
        """A rational in decimals, and whether that is exactly it; a tie rounds to even."""
        scale = self._scale
        digits, rest = divmod(abs(above) * scale, below)
        if 2 * rest > below or (2 * rest == below and digits & 1):
            digits += 1
        if digits == 0 and above:
            return _small(Fraction(above, below), self.places)
        whole, part = divmod(digits, scale)
        sign = "-" if above < 0 else ""
        if part:
            return f"{sign}{whole}.{part:0{self.places}d}".rstrip("0"), rest == 0
        return f"{sign}{whole}", rest == 0


def _mixed(above: int, below: int) -> str:
    """A number of inches as a mixed number with its unit: a spreadsheet takes 1/2 alone for a date."""
    sign = "-" if above < 0 else ""
    whole, top = divmod(abs(above), below)
    if not top:
        return f"{sign}{whole} in"
    common = gcd(top, below)
    front = f"{whole} " if whole else ""
    return f"{sign}{front}{top // common}/{below // common} in"


def _in_full(above: int, below: int) -> str:
    """A number of millimetres in decimals with every figure, as far as they end; else as a fraction."""
    whole, rest = divmod(abs(above), below)
    sign = "-" if above < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    text, ends = decimal(Fraction(abs(above), below), 12)
    return f"{sign}{text}" if ends else mixed(Fraction(above, below))


def _small(value: Fraction, places: int) -> tuple[str, bool]:
    """A value too small for `places`, in as many more as show it."""
    text, ends = decimal(value, places)
    while text in ("0", "-0"):
        places += 3
        text, ends = decimal(value, places)
    return text, ends
