"""Readings: a size as somebody read it, how far to trust it, and how likely it makes a mark.

How `within` becomes a standard deviation. A reading within w is taken to lie anywhere
between -w and +w of the part, evenly, whose standard deviation is w / sqrt(3) (the
rectangular distribution of JCGM 100:2008, the GUM, 4.3.7). The part in its turn lies
within `made` of what its maker meant, taken in the same way. The two add as variances
and their sum is treated as normal:

    sigma^2 = (within^2 + made^2) / 3

`made` stands for what no caliper shows: the first maker's own departure from his mark.
Bench work to a rule or a template keeps to about 2 thou, so it is 0.05 mm unless given
(common practice, no source). Nought asks about a part held to be as perfect as its drawing.
What was bought in a fixed size (wire, sheet, a drill, a screw) owes nothing to that maker's
hand: it is true to `STOCK`, 0.02 mm (common practice, no source), or to `made` if that is less.
A screw besides is under its nominal major by up to so much, any of it alike: `under`.

Floats live here and in what builds on it, for likelihoods. No size is made from one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import erf, erfc, exp, pi, sqrt
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.size import units
from fractions_shop.size.arguments import as_length
from fractions_shop.size.notation import GLYPHS, as_meant, number_value
from fractions_shop.size.quantity import Quantity

#: A bare Quantity does not say how it was written: a caliper read to the tenth is assumed.
CALIPER = Quantity(Fraction(1, 20))
#: How near to his mark the first maker is taken to have worked.
MADE = Quantity(Fraction(1, 20))
#: How near to its nominal size bought stock is.
STOCK = Quantity(Fraction(1, 50))
#: More readings than this are a statistics job rather than a bench one.
MOST = 200

_NONE = Fraction(0)
_NOTHING = Quantity(_NONE)
_NTHS = re.compile(r".*?([0-9]+)[ ]*(?:ths?|nds?|rds?|sts?)[ ]*")
_LAST = re.compile(
    rf""".*?
    (?: [0-9]+/(?P<parts>[0-9]+)          # 1/32: the division
      | (?P<glyph>[{GLYPHS}])             # ½
      | [0-9]*\.(?P<places>[0-9]+)        # .193: the places written, noughts and all
      | [0-9]+\.? )
    [ ]* (?P<unit>[^0-9./{GLYPHS}]*)""",
    re.VERBOSE,
)


@dataclass(frozen=True)
class Reading:
    """A length `size` as read, trusted to plus or minus `within`.

    `made` is how near the maker came to what he meant, `worn` the most that may have
    been lost since: the part was then larger than it reads.
    """

    size: Quantity
    within: Quantity
    made: Quantity = MADE
    worn: Quantity = _NOTHING

    @cached_property
    def sigma(self) -> float:
        """Standard deviation in mm of the reading about what was meant, wear apart."""
        return sqrt(float(self.within.mm**2 + self.made.mm**2) / 3)

    @cached_property
    def width(self) -> float:
        """Standard deviation in mm with the wear (uniform, variance worn^2 / 12) in it."""
        return sqrt(self.sigma**2 + float(self.worn.mm) ** 2 / 12)

    @cached_property
    def bought(self) -> Reading:
        """The same reading of something bought in a fixed size, true to STOCK."""
        return replace(self, made=STOCK) if self.made > STOCK else self

    @property
    def sought(self) -> tuple[Fraction, Fraction]:
        """From and to what size in mm the maker may have meant: six sigma and the wear."""
        reach = Fraction(6 * self.sigma)
        return max(Fraction(0), self.size.mm - reach), self.size.mm + self.worn.mm + reach

    def off_centre(self, meant: Fraction, under: Fraction = _NONE) -> Fraction:
        """How far in mm the reading is from the middle of what a part meant so would read."""
        return abs(self.size.mm - meant + (self.worn.mm + under) / 2)

    def density(self, meant: Fraction, under: Fraction = _NONE) -> float:
        """Likelihood per mm of this reading, had `meant` (mm) been meant.

        Normal; with a loss (the wear, and what a screw is `under` its nominal size, taken
        together as one) uniform from 0 to `lost` convolved with it, whose closed form is
        (Phi((d + lost) / sigma) - Phi(d / sigma)) / lost for the difference d.
        """
        off = float(self.size.mm - meant)
        lost = float(self.worn.mm + under)
        if not lost:
            return exp(-((off / self.sigma) ** 2) / 2) / (self.sigma * sqrt(2 * pi))
        scale = self.sigma * sqrt(2)
        near, far = off / scale, (off + lost) / scale
        # In a tail the difference of two erf is lost to rounding; that of two erfc is not.
        if near > 0:
            share = erfc(near) - erfc(far)
        elif far < 0:
            share = erfc(-far) - erfc(-near)
        else:
            share = erf(far) - erf(near)
        return share / (2 * lost)


def written_within(text: str) -> Quantity:
    """Half a unit of the last place that a plain written size shows.

    Half of its division for a fraction; `51.50 mm` is trusted ten times as far as
    `51.5 mm`. ShopError for text that is not a plain size with a unit.

    >>> written_within("51.5 mm").mm, written_within("2 1/32 in").inch
    (Fraction(1, 20), Fraction(1, 64))
    """
    as_length(text)
    plain = as_meant(text)
    nths = _NTHS.fullmatch(plain)
    if nths:
        return Quantity.inches(Fraction(1, 2 * int(nths[1])))
    last = _LAST.fullmatch(plain)
    unit = units.find(last["unit"].strip()) if last else None
    if last is None or unit is None:
        raise ShopError(f"{text!r} does not show how finely it was read: say within what")
    if last["parts"]:
        place = Fraction(1, int(last["parts"]))
    elif last["glyph"]:
        place = Fraction(1, number_value(last["glyph"]).denominator)
    else:
        place = Fraction(1, 10 ** len(last["places"] or ""))
    return Quantity(place * unit.mm / 2)


def take(values: Any, within: Any = None, worn: Any = None, made: Any = MADE) -> tuple[Reading, ...]:
    """One reading or several, each with its trust: `within`, its own, or as it was written.

    ShopError for no reading, too many, a size not above zero, or a trust that is none.
    """
    several = isinstance(values, Sequence) and not isinstance(values, str)
    listed = list(values) if several else [values]
    if not 1 <= len(listed) <= MOST:
        raise ShopError(f"from 1 to {MOST} readings can be weighed at once, not {len(listed)}")
    made = _not_negative(made, "how near the maker worked")
    lost = _NOTHING if worn is None else _not_negative(worn, "the wear")
    given = None if within is None else _not_negative(within, "how far to trust a reading")
    return tuple(_reading(value, given, made, lost) for value in listed)


def _reading(value: Any, within: Quantity | None, made: Quantity, worn: Quantity) -> Reading:
    size = as_length(value)
    if size.value <= 0:
        raise ShopError("a reading must be above zero")
    if within is None:
        own = CALIPER if size.within is None else size.within
        within = written_within(value) if isinstance(value, str) else own
    if within.value == made.value == 0:
        raise ShopError("a reading cannot be trusted without limit: give a length within which it is good")
    return Reading(size, within, made, worn)


def _not_negative(value: Any, what: str) -> Quantity:
    size = as_length(value)
    if size.value < 0:
        raise ShopError(f"{what} must not be negative")
    return size
