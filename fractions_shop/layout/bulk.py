"""Many sizes at once: plain written forms and their figures in whole-number arithmetic.

It gives what `read_plain`, `rule.rung` and `notation.decimal` give, several times as
fast because no Fraction is made; the tests compare them. A size is a pair of whole
numbers: millimetres as numerator and denominator, not in lowest terms.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from itertools import product
from math import gcd
from operator import itemgetter
from typing import NamedTuple

from fractions_shop.size import units
from fractions_shop.size.digits import READABLE_DENOMINATOR
from fractions_shop.size.notation import (
    as_meant,
    decimal,
    mixed,
    read_plain,
)
from fractions_shop.size.rule import Rule
from fractions_shop.size.slips import lost_blank, slip

Pair = tuple[int, int]

#: The commonest plain forms, with few figures; whatever else is plain goes to `read_plain`.
_FORM = re.compile(
    r"""[ ]* ([-+]?) [ ]*
    (?: ([0-9]{1,9}) (?: (?: [ -]([0-9]{1,6}) )? / ([0-9]{1,6}) | \.([0-9]{0,12}) )?
      | \.([0-9]{1,12}) )
    [ ]* ([A-Za-zµ"']*) [ ]*""",
    re.VERBOSE,
)
FACTORS = {
    word: (unit.mm.numerator, unit.mm.denominator) for word, unit in units.BY_WORD.items() if unit.power == 1
}
_INCH_TOP, _INCH_BOTTOM = units.INCH.numerator, units.INCH.denominator
#: Denominators and rests that are kept at once; a file of hostile sizes has more.
_MOST_PLANS, _MOST_OFFS = 256, 8192
Ratio = tuple[int, int]
#: Parts of a rule of inches, which are a slip beside millimetres and feet: the full reader judges those.
_RULED = frozenset({8, 16, 32, 64, 128})


class _Ratios(NamedTuple):
    """How the figures of sizes of one denominator are worked: what their numerator is multiplied and divided by."""

    #: The denominator of their inches in lowest terms, at most.
    lowest: int
    #: To count the last decimal place of inches and of millimetres.
    inches: Ratio
    millimetres: Ratio
    #: To count marks of the rule.
    marks: int
    mark: int
    #: The same of what is left of a mark.
    off_inches: Ratio
    off_millimetres: Ratio
    #: By what is left of a mark, how far that is, as it was written before.
    offs: dict[int, tuple[str, str, bool, bool]]


#: The order of the texts where millimetres lead.
_MM_FIRST = (2, 0, 1, 3, 5, 4, 6)
_FIGURES = ("inch", "mm", "error inch", "error mm")
#: By whether each of them ends, the names of those that do not.
_ROUNDED = {
    ends: " and ".join(name for name, end in zip(_FIGURES, ends, strict=True) if not end)
    for ends in product((True, False), repeat=4)
}
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
    factor = FACTORS.get(word, bare if not word else None)
    if factor is None or (sign == "-" and "- " in text):
        return None
    if whole and len(whole) > 1 and (whole[0] == "0" or word == "m"):
        return None
    if bottom is not None:
        below = int(bottom)
        if below == 1 or bottom[0] == "0" or (below in _RULED and (word == "'" or factor == (1, 1))):
            return None
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
    if size.power == 0 and slip(as_meant(text).strip(" +-"), "mm" if bare == (1, 1) else ""):
        return None
    above, below = size.value.numerator, size.value.denominator
    if size.power == 1:
        return above, below
    return None if bare is None else (above * bare[0], below * bare[1])


class SizeTexts:
    """The texts that stand beside each size: in inches, in millimetres, and on a rule.

    `names` names them in order, with `mm_first` each one of millimetres before those of inches. Decimals have at most `places` places, except that a
    size or error which is not zero is never shown as zero; the last text names
    the figures that are rounded.
    """

    def __init__(self, rule: Rule, places: int, mm_first: bool = False) -> None:
        self.rule, self.places, self.mm_first = rule, places, mm_first
        self._ordered: Callable[[tuple[str, ...]], tuple[str, ...]] = itemgetter(
            *(_MM_FIRST if mm_first else range(7))
        )
        self._scale = 10**places
        step = rule.division.mm
        self._step = step.numerator, step.denominator
        self._parts = rule.parts
        #: What stands behind the whole inches of a mark.
        self._behind = [mixed_inches(top, self._parts).removeprefix("0") for top in range(self._parts or 0)]
        self._behind = [text if text.startswith(" ") else f" {text}" for text in self._behind]
        #: By the denominator of a size, what its figures are worked with.
        self._plans: dict[int, _Ratios] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """What each of the texts is."""
        return self._ordered((
            "inch fraction", "inch", "mm", f"nearest on {self.rule.name}", "error inch", "error mm", "rounded",
        ))  # fmt: skip

    def of(self, above: int, below: int) -> tuple[str, ...]:
        """The texts for a size of `above`/`below` millimetres.

        The error is the nearest division less the size; a tie goes to the even division.
        """
        plan = self._plans.get(below) or self._planned(below)
        fraction = ""
        inch_below = plan.lowest // gcd(above, plan.lowest)
        if inch_below <= READABLE_DENOMINATOR and inch_below != _INCH_TOP:
            fraction = mixed_inches(above * _INCH_BOTTOM * inch_below // (below * _INCH_TOP), inch_below)
        inch, inch_ends = self._decimal(above, *plan.inches)
        mm, mm_ends = self._decimal(above, *plan.millimetres)
        turns, rest = divmod(above * plan.marks, plan.mark)
        if 2 * rest > plan.mark or (2 * rest == plan.mark and turns & 1):
            turns += 1
            rest -= plan.mark
        off = plan.offs.get(rest) or self._off(plan, rest)
        return self._ordered((
            fraction, inch, mm, self.nearest(turns), off[0], off[1], _ROUNDED[inch_ends, mm_ends, off[2], off[3]],
        ))  # fmt: skip

    def nearest(self, turns: int) -> str:
        """So many divisions of the rule."""
        if not self._parts:
            # A mark is shown in full, however few places the other figures have.
            return f"{_in_full(turns * self._step[0], self._step[1])} mm"
        if turns < self._parts:
            return mixed_inches(turns, self._parts)
        whole, top = divmod(turns, self._parts)
        return f"{whole}{self._behind[top]}"

    def _off(self, plan: _Ratios, rest: int) -> tuple[str, str, bool, bool]:
        """How far a mark is off, in inches and millimetres, and whether these end; kept where few can come."""
        inch, inch_ends = self._decimal(-rest, *plan.off_inches)
        mm, mm_ends = self._decimal(-rest, *plan.off_millimetres)
        off = inch, mm, inch_ends, mm_ends
        if plan.mark <= _MOST_OFFS:
            plan.offs[rest] = off
        return off

    def _planned(self, below: int) -> _Ratios:
        """What the figures of sizes of one denominator are worked with, each ratio in its lowest terms."""
        above_step, below_step = self._step
        inch = Fraction(_INCH_BOTTOM, below * _INCH_TOP)
        marks = Fraction(below_step, below * above_step)
        off = Fraction(above_step, below_step * marks.denominator)
        if len(self._plans) == _MOST_PLANS:
            self._plans.clear()
        plan = self._plans[below] = _Ratios(
            inch.denominator,
            (self._scale * inch).as_integer_ratio(),
            (self._scale * Fraction(1, below)).as_integer_ratio(),
            *marks.as_integer_ratio(),
            (self._scale * off * Fraction(_INCH_BOTTOM, _INCH_TOP)).as_integer_ratio(),
            (self._scale * off).as_integer_ratio(),
            {},
        )
        return plan

    def _decimal(self, number: int, times: int, over: int) -> tuple[str, bool]:
        """`number` * `times` / `over` of the last place in decimals, and whether that is exactly it; a tie rounds to even."""
        if number < 0:
            text, ends = self._decimal(-number, times, over)
            return f"-{text}", ends
        digits, rest = divmod(number * times, over)
        if rest:
            twice = 2 * rest
            if twice > over or (twice == over and digits & 1):
                digits += 1
            if digits == 0:
                return _small(Fraction(number * times, over * self._scale), self.places)
        places = self.places
        if not places:
            return str(digits), not rest
        # By far the quickest way to write so many places.
        text = str(digits) if digits >= self._scale else f"0{str(digits + self._scale)[1:]}"
        text = f"{text[:-places]}.{text[-places:]}".rstrip("0")
        return text[:-1] if text[-1] == "." else text, not rest


def mixed_inches(above: int, below: int) -> str:
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
