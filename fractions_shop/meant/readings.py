"""Readings: a size as somebody read it, how far to trust it, and how likely it makes a mark.

How `within` becomes a standard deviation. A reading within w is taken to lie anywhere
between -w and +w of the part, evenly, whose standard deviation is w / sqrt(3) (the
rectangular distribution of JCGM 100:2008, the GUM, 4.3.7). The part in its turn lies
within `made` of what its maker meant, taken in the same way. The two add as variances
and their sum is treated as normal:

    sigma^2 = (within^2 + made^2) / 3

`made` stands for what no caliper shows: the first maker's own departure from his mark.
Bench work to a rule or a template keeps to about 2 thou, so it is 0.05 mm unless given
(common practice, no source). Zero asks about a part held to be as perfect as its drawing.
What was bought in a fixed size (wire, sheet, a drill, a screw) owes nothing to that maker's
hand: it is true to `STOCK`, 0.02 mm (common practice, no source), or to `made` if that is less.
A screw besides is under its nominal major by up to so much, any of it alike: `under`.

A size read again is one reading, the mean of its figures. Only figures that differ count
as looks at it, since the same figure twice may be the same rounding twice: the trust is
that of one figure over the root of how many differ, or what their own scatter says of
their mean if that is more.

Floats live here and in what builds on it, for likelihoods. No size is made from one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from math import erf, erfc, exp, pi, sqrt
from typing import Any, ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.meant.instruments import instrument
from fractions_shop.meant.shared import Shared
from fractions_shop.size import units
from fractions_shop.size.arguments import SizeLike, as_length, not_negative
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Result
from fractions_shop.size.notation import GLYPHS, as_meant, number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.slips import slip
from fractions_shop.size.told import Told

#: A bare Quantity does not say how it was written: a caliper read to the tenth is assumed.
CALIPER = Quantity(Fraction(1, 20))
#: How near to his mark the first maker is taken to have worked.
MADE = Quantity(Fraction(1, 20))
#: How near to its nominal size bought stock is.
STOCK = Quantity(Fraction(1, 50))
#: More readings than this are a statistics job rather than a bench one.
MOST = 200

#: A number of more signs is not looked at for its usual form.
_SHORT = 20

_NONE = Fraction(0)
NOTHING = Quantity(_NONE)
#: The patterns of the rarer forms are compiled when one is met with.
_NTHS = r".*?([0-9]+)[ ]*(?:ths?|nds?|rds?|sts?)[ ]*"
_LAST = rf""".*?
    (?: [0-9]+/(?P<parts>[0-9]+)          # 1/32: the division
      | (?P<glyph>[{GLYPHS}])             # ½
      | [0-9]*\.(?P<places>[0-9]+)        # .193: the places written, noughts and all
      | [0-9]+\.? )
    [ ]* (?P<unit>[^0-9./{GLYPHS}]*)"""


class Reading(Told, Result):
    """A length `size` as read, trusted to plus or minus `within`.

    `made` is how near the maker came to what he meant, `worn` the most that may have
    been lost since: the part was then larger than it reads. `plated` is the most, both faces
    together, that plating or paint may have added: the part was smaller. `figures` are what
    was read, where the same size was read again. `by` names the instrument, if that was
    said, and `told` whether somebody said how far to trust the reading. `shared` are errors
    that it has in common with other readings. `befallen` tells whether somebody said what has become of the part, be it
    nothing: `worn` or `plated` by 0 mm. `written` is the reading as it was typed, where it was.

    >>> reading("51.5 mm", by="caliper")
    <Reading: 51.5 mm by caliper, within 0.05 mm; made within 0.05 mm of what was meant>
    """

    told_as: ClassVar[str] = "reading"
    uncompared: ClassVar[tuple[str, ...]] = ("written",)

    size: Quantity
    within: Quantity
    made: Quantity = MADE
    worn: Quantity = NOTHING
    plated: Quantity = NOTHING
    figures: tuple[Quantity, ...] = ()
    by: str | None = None
    told: bool = False
    shared: tuple[Shared, ...] = ()
    befallen: bool = False
    written: str = ""

    @cached_property
    def sigma(self) -> float:
        """Standard deviation in mm of the reading about what was meant, wear apart."""
        return sqrt(float(self.within.mm**2 + self.made.mm**2) / 3)

    @cached_property
    def width(self) -> float:
        """Standard deviation in mm with wear and plating (uniform, variance e^2 / 12) in it."""
        return sqrt(self.sigma**2 + float(self.worn.mm + self.plated.mm) ** 2 / 12)

    @cached_property
    def middle(self) -> Fraction:
        """What was meant if half of the wear and of the plating came about, in mm."""
        return self.size.mm + (self.worn.mm - self.plated.mm) / 2

    @cached_property
    def bought(self) -> Reading:
        """The same reading of something bought in a fixed size, true to STOCK."""
        return self.but(made=STOCK) if self.made > STOCK else self

    @property
    def sought(self) -> tuple[Fraction, Fraction]:
        """From and to what size in mm the maker may have meant: six sigma, wear and plating."""
        reach = Fraction(6 * self.sigma)
        least = self.size.mm - self.plated.mm - reach
        return max(Fraction(0), least), self.size.mm + self.worn.mm + reach

    @property
    def bounds(self) -> tuple[Quantity, Quantity]:
        """From and to what size was meant, if reading, maker, wear and plating all keep to what was said of them."""
        least = self.size - self.within - self.made - self.plated
        return max(NOTHING, least), self.size + self.within + self.made + self.worn

    def off_centre(self, meant: Fraction, under: Fraction = _NONE) -> Fraction:
        """How far in mm the reading is from the middle of what a part meant so would read."""
        return abs(self.middle - meant + under / 2)


def density(off: float, sigma: float, lost: float, gained: float) -> float:
    """Likelihood per mm of a reading that is `off` what was meant.

    Normal; with a loss (the wear, and what a screw is under its nominal size, taken
    together as one) or a gain, uniform from -lost to gained convolved with it, whose closed form is
    (Phi((d + lost) / sigma) - Phi((d - gained) / sigma)) / (lost + gained) for the difference d.
    """
    if not lost + gained:
        return exp(-((off / sigma) ** 2) / 2) / (sigma * sqrt(2 * pi))
    scale = sigma * sqrt(2)
    near, far = (off - gained) / scale, (off + lost) / scale
    # In a tail the difference of two erf is lost to rounding; that of two erfc is not.
    if near > 0:
        share = erfc(near) - erfc(far)
    elif far < 0:
        share = erfc(-far) - erfc(-near)
    else:
        share = erf(far) - erf(near)
    return share / (2 * (lost + gained))


def written_within(text: str) -> Quantity:
    """Half a unit of the last place that a plain written size shows.

    Half of its division for a fraction; `51.50 mm` is trusted ten times as far as
    `51.5 mm`. ShopError for text that is not a plain size with a unit.

    >>> written_within("51.5 mm").mm, written_within("2 1/32 in").inch
    (Fraction(1, 20), Fraction(1, 64))
    """
    usual = _last_place(text)
    if usual is not None:
        return Quantity(usual / 2)
    as_length(text)
    plain = as_meant(text)
    nths = re.fullmatch(_NTHS, plain)
    if nths:
        return Quantity.inches(Fraction(1, 2 * int(nths[1])))
    last = re.fullmatch(_LAST, plain, re.VERBOSE)
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


def _last_place(text: str) -> Fraction | None:
    """The last place in mm of a size written `51.5 mm`, `2 1/32 in` or `51 mm`; None for any other form."""
    number, _, word = text.rpartition(" ")
    whole, _, last = number.rpartition(" ")
    unit = units.BY_WORD.get(word)
    if unit is None or unit.power != 1 or not number.isascii() or len(number) > _SHORT:
        return None
    if slip(number, unit.name):
        return None  # a doubt, as of 0193 in, is for the full reader
    top, bar, bottom = last.partition("/")
    if bar:
        # A fraction of a mm may be meant in inches: that is for the full reader to say.
        proper = top.isdigit() and bottom.isdigit() and int(top) < int(bottom) and unit.mm == units.INCH
        return unit.mm / int(bottom) if proper and (not whole or whole.isdigit()) else None
    digits, point, places = last.partition(".")
    plain = digits.isdigit() and (places.isdigit() or not point) and not whole
    return unit.mm / 10 ** len(places) if plain else None


def take(
    values: Any,
    within: Any = None,
    worn: Any = None,
    made: Any = MADE,
    *,
    by: Any = None,
    plated: Any = None,
    shared: tuple[Shared, ...] = (),
) -> tuple[Reading, ...]:
    """One reading or several, each with its trust: `within`, its own, or as it was written.

    A list in the list is one size read again. `within` and `by` are one for all or a list
    with one, or None, for each. ShopError for no reading, too many, a size not above zero,
    or a trust that is none.
    """
    listed = list(values) if _is_list(values) else [values]
    if not 1 <= len(listed) <= MOST:
        raise ShopError(f"from 1 to {MOST} readings can be weighed at once, not {len(listed)}")
    trusts = _for_each(within, len(listed), "how far to trust each reading")
    tools = _for_each(by, len(listed), "what each was read with")
    return tuple(
        value if isinstance(value, Reading) else reading(
            value, within=trust, by=tool, worn=worn, made=made, plated=plated, shared=shared
        )
        for value, trust, tool in zip(listed, trusts, tools, strict=True)
    )  # fmt: skip


def reading(
    value: SizeLike | Sequence[SizeLike],
    *,
    within: SizeLike | None = None,
    by: str | None = None,
    worn: SizeLike | None = None,
    made: SizeLike = MADE,
    plated: SizeLike | None = None,
    shared: tuple[Shared, ...] = (),
) -> Reading:
    """One size as read, or a list of the figures when it was read again; see Reading.

    >>> reading(["51.4 mm", "51.6 mm"]).size.mm
    Fraction(103, 2)
    """
    entries: Any = value  # a list of several, or one
    again: list[Any] = list(entries) if _is_list(entries) else [entries]
    if not 1 <= len(again) <= MOST:
        raise ShopError(f"a size is read from 1 to {MOST} times, not {len(again)}")
    befallen = worn is not None or plated is not None
    worn, plated = (NOTHING if change is None else change for change in (worn, plated))
    lost, gained = not_negative(worn, "the wear"), not_negative(plated, "the plating")
    made = not_negative(made, "how near the maker worked")
    given = None if within is None else not_negative(within, "how far to trust a reading")
    figures = [as_length(entry) for entry in again]
    if min(figures).value <= 0:
        raise ShopError("a reading must be above zero")
    trusts = [_trust(entry, size, given, by) for entry, size in zip(again, figures, strict=True)]
    if max(trusts).value == made.value == 0:
        raise ShopError("a reading cannot be trusted without limit: give a length within which it is good")
    size, trust = (figures[0], trusts[0]) if len(figures) == 1 else _pooled(figures, trusts)
    kept = tuple(figures) if len(figures) > 1 else ()
    typed = ", ".join(again) if all(isinstance(text, str) for text in again) else ""
    return Reading(size, trust, made, lost, gained, kept, by, given is not None, shared, befallen, typed)


def _trust(value: Any, size: Quantity, given: Quantity | None, by: str | None) -> Quantity:
    if given is not None:
        return given
    own = CALIPER if size.within is None else size.within
    written = written_within(value) if isinstance(value, str) else own
    return written if by is None else instrument(by).trust(size, written)


def _pooled(figures: Sequence[Quantity], trusts: Sequence[Quantity]) -> tuple[Quantity, Quantity]:
    """The mean of figures of one size, and how far to trust it."""
    count = len(figures)
    mean = sum((figure.mm for figure in figures), _NONE) / count
    looks = len({figure.mm for figure in figures})
    alone = max(float(trust.mm) for trust in trusts) / sqrt(looks)
    scatter = sqrt(float(sum(((figure.mm - mean) ** 2 for figure in figures), _NONE)) / (count - 1) / count)
    trust = Fraction(max(alone, scatter * sqrt(3))).limit_denominator(10**6)
    return Quantity(mean, approximate=any(figure.approximate for figure in figures)), Quantity(trust)


def _is_list(value: Any) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str)


def _for_each(given: Any, count: int, what: str) -> list[Any]:
    if not _is_list(given):
        return [given] * count
    if len(given) != count:
        raise ShopError(f"{what}: {len(given)} given for {count} readings")
    return list(given)
