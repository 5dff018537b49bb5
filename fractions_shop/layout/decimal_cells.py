"""Cells such as `10.312 mm` and what stands beside them, in the fewest steps: a long column holds little else.

It gives the texts of `SizeTexts` for what `plain_pair` reads; the tests compare them. A size is so many of its
last place. Most of what is written beside it depends only on what is left of that number over a period, after
which the marks and all roundings come round again; so that much is worked out once for each rest.
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd, lcm
from typing import NamedTuple

from fractions_shop.layout.bulk import FACTORS, Pair, Ratio, SizeTexts, mixed_inches
from fractions_shop.size import units
from fractions_shop.size.digits import READABLE_DENOMINATOR

#: A number of more figures is left to the full way.
_MOST_FIGURES = 15
#: The longest period that is worked with; how many rests are kept at once, of all units and decimals together.
_LONGEST_PERIOD, _MOST_RESTS = 16_384, 32_768
#: Units and numbers of decimals that are kept; a hostile file has more.
_MOST_PLANS = 64


class _AlikeBeside(NamedTuple):
    """What is alike beside all sizes whose numbers leave the same rest."""

    #: What is added to the figures of inches, of millimetres and of marks as they are cut off, to round them.
    inches: int
    millimetres: int
    marks: int
    #: Whether such a size may be a fraction of an inch that a person reads.
    readable: bool
    #: The new cells behind the nearest mark.
    tail: str


class _PerPlace(NamedTuple):
    """What the texts of sizes of one unit and number of decimals are worked with."""

    #: Millimetres and inches in one of the last place.
    size: Pair
    inch: Ratio
    #: What the number is multiplied and divided by for the last shown place of inches, of millimetres, and for marks.
    inches: Ratio
    millimetres: Ratio
    marks: Ratio
    period: int
    rests: dict[int, _AlikeBeside]


class DecimalCells:
    """The new cells, as one text, beside a positive number in decimals of one unit of length.

    `bare` is what a number without a unit is in. `sign` is the decimal sign of what is read and written,
    `delimiter` stands before each new cell and `end` behind the last.
    """

    def __init__(
        self, texts: SizeTexts, bare: Pair | None, delimiter: str, end: str = "", sign: str = "."
    ) -> None:
        self._texts, self._bare, self._delimiter, self._end, self._sign = texts, bare, delimiter, end, sign
        self._plans: dict[tuple[str, int], _PerPlace | None] = {}
        self._kept = 0
        self._scale = 10**texts.places
        #: A figure in which the delimiter stands has to be quoted, which is left to the full way.
        self._serves = delimiter not in (sign, ".") and not delimiter.isalnum()

    def of(self, cell: str) -> str | None:
        """The new cells; None for a cell that is not so plain, or too small for the places."""
        number, _, unit = cell.partition(" ")
        whole, sign, decimals = number.partition(self._sign)
        figures = whole + decimals
        if not (figures.isdecimal() and figures.isascii()) or len(figures) > _MOST_FIGURES:
            return None
        if (sign and not decimals) or (len(whole) > 1 and (whole[0] == "0" or unit == "m")):
            return None  # as a comma, it may be a sign of the sentence; 0193 may have lost its point
        place = unit, len(decimals)
        plan = self._plans[place] if place in self._plans else self._planned(*place)
        if plan is None:
            return None
        count = int(figures)
        left = count % plan.period
        rest = plan.rests.get(left) or self._rest(plan, left)
        times, over = plan.inches
        inch = count * times // over + rest.inches
        times, over = plan.millimetres
        mm = count * times // over + rest.millimetres
        if not (inch and mm):
            return None
        times, over = plan.marks
        fraction = self._fraction(plan, count) if rest.readable else ""
        nearest = self._texts.nearest(count * times // over + rest.marks)
        first, second, third = fraction, self._decimal(inch), self._decimal(mm)
        if self._texts.mm_first:
            first, second, third = third, first, second
        text = self._delimiter + self._delimiter.join((first, second, third, nearest, rest.tail))
        return text if self._sign == "." else text.replace(".", self._sign)

    def _decimal(self, digits: int) -> str:
        """So many of the last place shown, without zeros at its end."""
        places = self._texts.places
        if not places:
            return str(digits)
        text = str(digits) if digits >= self._scale else f"0{str(digits + self._scale)[1:]}"
        if text[-1] != "0":
            return f"{text[:-places]}.{text[-places:]}"
        return f"{text[:-places]}.{text[-places:].rstrip('0')}".rstrip(".")

    def _fraction(self, plan: _PerPlace, count: int) -> str:
        top, bottom = plan.inch
        below = bottom // gcd(count, bottom)
        if below > READABLE_DENOMINATOR or below == units.INCH.numerator:
            return ""
        return mixed_inches(count * top * below // bottom, below)

    def _planned(self, unit: str, decimals: int) -> _PerPlace | None:
        """How the texts of such sizes are worked out, kept; None where that would take too long a period."""
        factor = FACTORS.get(unit, None if unit else self._bare)
        plan = None
        if factor is not None and self._serves:
            size = Fraction(factor[0], factor[1] * 10**decimals)
            inch = size / units.INCH
            inches, millimetres, marks = (
                value.as_integer_ratio()
                for value in (inch * self._scale, size * self._scale, size / self._texts.rule.division.mm)
            )
            # Twice where a tie can come, since it goes to the even one.
            period = lcm(*(over if over % 2 else 2 * over for _, over in (inches, millimetres, marks)))
            if period <= _LONGEST_PERIOD:
                plan = _PerPlace(
                    size.as_integer_ratio(), inch.as_integer_ratio(), inches, millimetres, marks, period, {}
                )
        if len(self._plans) == _MOST_PLANS:
            self._plans.clear()
            self._kept = 0
        self._plans[unit, decimals] = plan
        return plan

    def _rest(self, plan: _PerPlace, left: int) -> _AlikeBeside:
        """What a rest settles, worked out of a number that leaves it and has figures in every place shown."""
        if self._kept == _MOST_RESTS:
            for each in self._plans.values():
                if each is not None:
                    each.rests.clear()
            self._kept = 0
        self._kept += 1
        turns = sum(over // times + 1 for times, over in (plan.inches, plan.millimetres))
        count = left + plan.period * turns
        above, below = plan.size
        tail = self._delimiter.join(self._texts.of(count * above, below)[-3:])
        bottom = plan.inch[1]
        # Where 127 is not cancelled, no person reads the fraction.
        unreadable = bottom % units.INCH.numerator == 0 and count % units.INCH.numerator != 0
        rest = plan.rests[left] = _AlikeBeside(
            _rounding(count, *plan.inches),
            _rounding(count, *plan.millimetres),
            _rounding(count, *plan.marks),
            not unreadable,
            f"{tail}{self._end}",
        )
        return rest


def _rounding(count: int, times: int, over: int) -> int:
    """What is added to `count` * `times` // `over` to round to nearest, a tie to even: 0 or 1."""
    whole, rest = divmod(count * times, over)
    return int(2 * rest > over or (2 * rest == over and whole % 2 == 1))
