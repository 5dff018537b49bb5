"""Sizes to text, and the plain written forms back to sizes, without the parser.

`read_plain` is the quick reader for columns of figures; whatever it does not know it
leaves (None) to the full reader in `language`, which also says what is wrong. Both
build on `number_value`, so that a number means one thing everywhere.
"""

from __future__ import annotations

import re
import unicodedata
from contextvars import ContextVar
from fractions import Fraction
from typing import NamedTuple

from fractions_shop.errors import ShopError
from fractions_shop.size import digits, units
from fractions_shop.size.digits import PLACES
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.slips import slip, unit_slipped

#: A number of more digits than this is no size, and would only cost time.
MAX_DIGITS = 40
#: What is asked for now, if anything: a setting, or `Answer.text(digits=4)`.
places_shown: ContextVar[int] = ContextVar("places_shown", default=PLACES)
#: More decimals than this are never asked for.
MOST_ASKED = 40


def places_asked(digits: int) -> int:
    """So many decimals as a caller asks for; ShopError for what is no such number."""
    if type(digits) is not int or not 0 <= digits <= MOST_ASKED:
        raise ShopError(f"figures are rounded to 0 to {MOST_ASKED} decimals, not {digits!r}")
    return digits


#: From so many inches up a size is told in feet and inches first.
FEET_FROM = 24
_FEET_TOP, _FEET_BOTTOM = (FEET_FROM * units.INCH).as_integer_ratio()


class UnitsShown(NamedTuple):
    """Which figure of a size leads: `inch`, `mm`, or with neither the rule's own; `feet` from FEET_FROM up."""

    lead: str = ""
    feet: bool = True

    def mm_leads(self, metric: bool = False) -> bool:
        """Whether millimetres stand first; unless it was said, where the rule is a `metric` one."""
        return self.lead == "mm" if self.lead else metric

    def feet_from(self, above: int, below: int) -> bool:
        """Whether so many mm, `above` over `below`, are told in feet: compared crosswise, as it is asked of every figure."""
        return self.feet and abs(above) * _FEET_BOTTOM >= below * _FEET_TOP


#: What is told where nothing was said.
AS_USUAL = UnitsShown()
#: What leads, by its words.
LEADS = {
    "inch first": UnitsShown("inch"),
    "mm first": UnitsShown("mm"),
    "inch without feet": UnitsShown("inch", feet=False),
}


def leading(words: str) -> UnitsShown:
    """What leads, by its words, such as `mm first` or `mm-first`; ShopError for others."""
    units = LEADS.get(" ".join(words.lower().replace("-", " ").split()))
    if units is None:
        raise ShopError(f"{words!r} does not say what leads: write {', '.join(LEADS)}")
    return units


def words_of(units: UnitsShown) -> str:
    """The words by which these lead."""
    return next(words for words, said in LEADS.items() if said == units)


#: What leads now: what a statement such as `units mm first` asked for.
units_shown: ContextVar[UnitsShown] = ContextVar("units_shown", default=AS_USUAL)


class told_in:  # noqa: N801 - it is written behind `with`, as a generator of contextlib would be, which takes longer
    """Tell sizes with these leading, as long as this lasts."""

    def __init__(self, units: UnitsShown) -> None:
        self._units = units

    def __enter__(self) -> None:
        self._before = units_shown.set(self._units)

    def __exit__(self, *_: object) -> None:
        units_shown.reset(self._before)


def mm_leads(metric: bool = False) -> bool:
    """Whether millimetres stand first now; unless it was said, where the rule is a `metric` one."""
    return units_shown.get().mm_leads(metric)


def feet_lead(size: Quantity) -> bool:
    """Whether a length is told in feet and inches now."""
    return units_shown.get().feet_from(*size.mm.as_integer_ratio())


_GLYPHS = {
    c: Fraction(*map(int, unicodedata.normalize("NFKC", c).split("\u2044"))) for c in "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"
}
GLYPHS = "".join(_GLYPHS)

_MEANT = {
    **dict.fromkeys("′’‘ʹ´＇", "'"),
    **dict.fromkeys("″”“ʺ〃＂", '"'),
    **dict.fromkeys("−–—‒‐‑﹣－", "-"),
    **dict.fromkeys("⁄∕／", "/"),
    **dict.fromkeys("\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t", " "),
    "μ": "µ",
    "˚": "°",
    "º": "°",
    "✕": "×",
    "⨯": "×",
    "＝": "=",
    "＃": "#",
    **{chr(0xFF01 + n): chr(0x21 + n) for n in range(94)},
    # A pattern without regard to case takes these for i, k and s, which nothing else would.
    "ı": "i",
    "İ": "I",
    "ſ": "s",
    "\u212a": "K",
}  # fmt: skip
_TABLE = str.maketrans(_MEANT)
_SUPERSCRIPTS, _SUBSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
_SMALL_FIGURES = str.maketrans(
    {**dict(zip(_SUPERSCRIPTS + _SUBSCRIPTS, "0123456789" * 2, strict=True)), "⅟": "1/"}
)
# Patterns that most calls never ask for are compiled at their first use, and kept by re.
_WHOLE_BEFORE_SMALL = rf"(?<=[0-9])(?=[{_SUPERSCRIPTS}⅟])"

#: Signs that nobody sees: zero-width blanks and joiners, soft hyphens, byte order marks, directions.
UNSEEN = "\u00ad\u180e\u200b\u200c\u200d\u200e\u200f\u2060\ufeff"
_UNSEEN = str.maketrans(dict.fromkeys(UNSEEN))
_MIDDLE_DOT = r"(?<![0-9])[·⋅∙](?=[0-9])|(?<=[0-9])[·⋅∙](?=[0-9])"


def as_meant(text: str) -> str:
    """Typographic primes, quotes, dashes, blanks and full-width signs as plain ones.

    One character for one, so that a place in the result is the same place in `text`.
    """
    if text.isascii():
        return text.replace("\t", " ")
    return re.sub(_MIDDLE_DOT, ".", text.translate(_TABLE))


def without_unseen(text: str) -> str:
    """The text without the signs that nobody sees."""
    return text if text.isascii() else text.translate(_UNSEEN)


def parted_figures(text: str) -> re.Match[str] | None:
    """Two figures with nothing to be seen between them but a sign that nobody sees, where a blank or a dash may be lost."""
    return None if text.isascii() else re.search(rf"(?<=[0-9{GLYPHS}])[{UNSEEN}]+(?=[.0-9{GLYPHS}])", text)


def full_size(number: str) -> str:
    """A number with its small raised and lowered figures as plain ones: `2 1/32` for `2¹/₃₂`."""
    if number.isascii():
        return number
    # The whole number of 2¹/₃₂ is parted from its fraction by the size of the figures alone.
    return re.sub(_WHOLE_BEFORE_SMALL, " ", number).translate(_SMALL_FIGURES)


def number_value(text: str) -> Fraction:
    """The value of a written number without unit: `2 1/32`, `2-1/32`, `2½`, `2¹/₃₂`, `65/32`, `.193`.

    ShopError for a zero denominator, a mixed number with an improper part, or too
    many digits.
    """
    if len(text) > MAX_DIGITS:
        raise ShopError(f"a number of more than {MAX_DIGITS} characters is not a size")
    text = full_size(text)
    whole, glyph = text, Fraction(0)
    if text[-1] in _GLYPHS:
        whole, glyph = text[:-1].rstrip(" -"), _GLYPHS[text[-1]]
        return (int(whole) if whole else 0) + glyph
    if "/" not in whole:
        return Fraction(int(whole)) if whole.isdecimal() else Fraction(whole)
    top, bottom = whole.split("/")
    if int(bottom) == 0:
        raise ShopError(f"{text} has a denominator of zero")
    front = re.split("[ -]+", top)
    if len(front) == 1:
        return Fraction(int(top), int(bottom))
    if int(front[1]) >= int(bottom):
        raise ShopError(f"{front[1]}/{bottom} is not a proper fraction, so {text} is not a mixed number")
    return Fraction(int(front[0]) * int(bottom) + int(front[1]), int(bottom))


_NUMBER = rf"""
    (?:[0-9]+(?:[ ]+|-)?)? (?: [{_SUPERSCRIPTS}]+/[{_SUBSCRIPTS}]+ | ⅟[0-9{_SUBSCRIPTS}]+ )  # ¹/₃₂, ⅟32
  | (?:[0-9]+(?:[ ]+|-))? (?: [{_SUPERSCRIPTS}]+/[0-9]+ | [0-9]+/[{_SUBSCRIPTS}]+ )
  | [0-9]+ (?:[ ]+|-) [0-9]+/[0-9]+      # 2 1/32 or 2-1/32
  | (?:[0-9]+(?:[ ]|-)?)?[{GLYPHS}]          # 2½, ½
  | [0-9]+/[0-9]+                        # 65/32
  | [0-9]+\.?[0-9]* | \.[0-9]+           # 2.03125, .193
"""
_UNIT_WORDS = units.alternatives()
_PLAIN = rf"""[ ]* (?P<sign>[-+]?) [ ]*
    (?P<number>(?>{_NUMBER}))            # atomic: no figure of it may be given back to 64ths
    (?:[ ]*(?P<unit>{_UNIT_WORDS}) | [ ]+(?P<nths>[0-9]+)(?:ths?|nds?|rds?|sts?))? [ ]*"""
_FEET = rf"""[ ]* (?P<sign>[-+]?) [ ]*
    (?P<feet>[0-9]+) (?: [ ]*'[ ]* | '- | [ ]*(?:{units.alternatives("ft", letters=True)})[ ]+ )
    (?P<inches>(?>{_NUMBER})) [ ]* (?:"|{units.alternatives("in", letters=True)}) [ ]*"""


def read_plain(text: str) -> Quantity | None:
    """The size that a plain written form says, or None if it is not one of those.

    Mixed, vulgar and decimal numbers with a unit, feet and inches, 64ths, or a bare
    number. Never guesses: what is doubtful is None, for the full reader to judge.

    >>> read_plain('2-1/32"').inch
    Fraction(65, 32)
    """
    if parted_figures(text):
        return None
    text = as_meant(without_unseen(text))
    match = re.fullmatch(_PLAIN, text, re.VERBOSE)
    in_feet, feet = match is None, Fraction(0)
    if match is None:
        match = re.fullmatch(_FEET, text, re.VERBOSE)
        if match is None:
            return None
        if len(match["feet"]) > MAX_DIGITS:
            return None
        factor, power, number = units.INCH, 1, match["inches"]
        feet = Fraction(int(match["feet"]))
    else:
        number = match["number"]
        factor, power = _factor(match["unit"], match["nths"])
    try:
        value = number_value(number)
    except (ShopError, ValueError):
        return None
    word = "in" if in_feet else match["unit"] or ""
    known = units.find(word)
    number = number.lstrip("0") if in_feet else number
    if power and slip(number, unit_slipped(word, known.name if known else word)):
        return None
    if match["sign"] == "-" and text[match.start("sign") + 1] == " ":
        return None  # a dash that stands apart may open a line of a list
    if (in_feet and value >= 12) or factor == 0:
        return None
    value = feet * 12 * units.INCH + value * factor
    return Quantity(-value if match["sign"] == "-" else value, power)


def _factor(unit: str | None, parts: str | None) -> tuple[Fraction, int]:
    if unit is not None:
        return units.BY_WORD[unit].mm, 1
    if parts is None:
        return Fraction(1), 0
    if int(parts[:6]) == 0 or len(parts) > 5:
        return Fraction(0), 1
    return units.INCH / int(parts), 1


# Writing


def mixed(value: Fraction) -> str:
    """A rational as a mixed number: `2 1/32`, `-1/64`, `3`."""
    return digits.mixed(*value.as_integer_ratio())


def decimal(value: Fraction, places: int | None = None) -> tuple[str, bool]:
    """A rational in at most `places` decimals (those shown now), and whether that is exactly it.

    Trailing zeros go; the zero before the point stays; a tie rounds to even.
    """
    places = places_shown.get() if places is None else places
    number, whole = digits.to_places(*value.as_integer_ratio(), places)
    return digits.pointed(number, places), whole


def shown(value: Fraction, unit: str, places: int | None = None) -> str:
    """A decimal with its unit, `about` before it where the figures do not end: `about 2.027559 in`.

    A value too small for `places` is shown with more, so that no error reads as zero; a length that does not
    end with fewer, where no `places` are asked for.
    """
    text, whole = in_decimals(value, unit, places)
    return text if whole else f"about {text}"


def in_decimals(value: Fraction, unit: str, places: int | None = None) -> tuple[str, bool]:
    """The same without the word, and whether its figures end."""
    text, _, whole = digits.decimals(*value.as_integer_ratio(), unit, places, places_shown.get())
    return f"{text} {unit}".rstrip(), whole


def readable(value: Fraction) -> bool:
    """Whether a number of inches is a fraction that a person would read."""
    return digits.is_readable(value.denominator)


def feet_text(inches: Fraction, places: int, fraction: bool = False) -> tuple[str, bool]:
    """Inches in feet and inches (`8 ft 7 7/16 in`), and whether that is exactly it.

    The inches are a fraction where it is a readable one, or any with `fraction`, else decimals.
    """
    return digits.in_feet(*inches.as_integer_ratio(), places, fraction)


def feet_decimals(inches: Fraction, places: int | None = None) -> tuple[str, bool]:
    """Inches in feet and inches with as many decimals as are told of them, and whether that is exactly it."""
    shown_now = places_shown.get()
    text, whole = feet_text(inches, shown_now if places is None else places)
    return (text, True) if whole else feet_text(inches, digits.rounded_places("in", places, shown_now))


def inch_text(size: Quantity, places: int | None = None) -> str:
    """A length in inches, from 2 ft in feet and inches: a readable fraction where there is one, else decimals."""
    text, whole = inch_figures(size, places)
    return text if whole else f"about {text}"


def inch_figures(size: Quantity, places: int | None = None) -> tuple[str, bool]:
    """The same without `about`, and whether it is exactly that."""
    if feet_lead(size):
        return feet_decimals(size.inch, places)
    inch = size.inch
    return (f"{mixed(inch)} in", True) if readable(inch) else in_decimals(inch, "in", places)


def size_text(size: Quantity, metric: bool, places: int | None = None) -> str:
    """A length in the unit that leads; unless it was said, in millimetres for a `metric` rule."""
    return mm_text(size, places) if mm_leads(metric) else inch_text(size, places)


def mm_text(size: Quantity, places: int | None = None) -> str:
    """A length in millimetres."""
    return shown(size.mm, "mm", places)
