"""Exact unit factors, the names by which drawings call them, and the words refused.

The inch is exactly 25.4 mm (US Federal Register, 1 July 1959, restated in the
addendum to NBS Circular 572; UK Weights and Measures Act 1963). Foot, yard, thou
follow from it; metric prefixes are exact by definition.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from math import gcd

from fractions_shop.size.frozen import Record

INCH = Fraction(127, 5)  # millimetres
_INCH_TOP, _INCH_BOTTOM = INCH.as_integer_ratio()


class Unit(Record):
    """A unit of length: `mm` is its exact size in millimetres.

    `power` is 1, except for tpi (threads per inch), which is a number per length;
    `mm` is then the size in mm to the power -1.
    """

    name: str
    mm: Fraction
    meaning: str
    words: tuple[str, ...]
    power: int = 1

    @property
    def metric(self) -> bool:
        """Whether it is a metre or a tenth, hundredth ... or tenfold of one; a factor says so by itself."""
        number = self.mm if self.mm >= 1 else 1 / self.mm
        return (
            self.power == 1
            and number.denominator == 1
            and set(str(number.numerator)[1:]) <= {"0"}
            and (str(number.numerator)[0] == "1")
        )


UNITS = (
    Unit("in", INCH, "inch, exactly 25.4 mm", ("in", "inch", "inches", "ins", "in.", "ins.", '"', "''")),
    Unit("ft", 12 * INCH, "foot of 12 in", ("ft", "foot", "feet", "ft.", "'")),
    Unit("yd", 36 * INCH, "yard of 3 ft", ("yd", "yds", "yard", "yards", "yd.", "yds.")),
    Unit("thou", INCH / 1000, "thousandth of an inch", ("thou", "thous", "thousandth", "thousandths", "thou.")),
    Unit("mm", Fraction(1), "millimetre", ("mm", "millimetre", "millimetres", "millimeter", "millimeters", "m/m", "m.m.", "mm.")),
    Unit("cm", Fraction(10), "centimetre", ("cm", "centimetre", "centimetres", "centimeter", "centimeters", "c/m", "c.m.", "cm.")),
    Unit("m", Fraction(1000), "metre", ("m", "metre", "metres", "meter", "meters")),
    Unit("km", Fraction(1_000_000), "kilometre", ("km", "kilometre", "kilometres", "kilometer", "kilometers")),
    Unit("um", Fraction(1, 1000), "micrometre (micron)", ("um", "µm", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers")),
    Unit("tpi", 1 / INCH, "threads per inch", ("tpi", "t.p.i.", "t.p.i", "threads per inch", "thread per inch", "threads to the inch"), power=-1),
)  # fmt: skip

BY_WORD = {word: unit for unit in UNITS for word in unit.words}

#: Behind a fraction or a number of parts this says what they are parts of: 3/16 of an inch.
OF_AN_INCH = "of an inch"

#: What stands before a unit, or behind it, for its square and its cube.
POWER_WORDS = {"sq": 2, "square": 2, "cu": 3, "cubic": 3}
POWER_SIGNS = {"²": 2, "³": 3}
#: Names of the powers of a length, for sentences.
POWER_NAMES = {0: "plain number", 1: "length", 2: "area", 3: "volume", -1: "number per length"}

#: Words with more than one meaning on drawings or in reference books, with both named.
#: Reading one of them would be a silent guess, so each is refused.
TWO_MEANINGS = {
    "mil": "0.001 in, or a millimetre in British workshop talk, or an angle: write thou or mm",
    "mils": "0.001 in, or millimetres in British workshop talk, or an angle: write thou or mm",
    "point": "1/72 in on a screen, or a printer's point of 1/72.27 in: write it in in or mm",
    "points": "1/72 in on a screen, or a printer's point of 1/72.27 in: write it in in or mm",
    "pt": "a point of 1/72 in or 1/72.27 in, or a pint: write it in in or mm",
    "pica": "12 points, of 1/72 in or of 1/72.27 in: write it in in or mm",
    "picas": "12 points, of 1/72 in or of 1/72.27 in: write it in in or mm",
    # The ligne of the watch trade and the line of buttons are given from memory.
    "line": "1/12 in in old books, or 1/10 in, or the watch trade's ligne: write it as a fraction of an inch, or in Paris lines",
    "lines": "1/12 in in old books, or 1/10 in, or the watch trade's ligne: write it as a fraction of an inch, or in Paris lines",
    "ligne": "about 2.2558 mm in the watch trade, or 1/40 in for buttons: write it in Paris lines, or in mm",
    "lignes": "about 2.2558 mm in the watch trade, or 1/40 in for buttons: write it in Paris lines, or in mm",
    "tenth": "0.1 in, or 0.0001 in at a grinder, or 0.1 mm: tenths of what? write 0.1 in, 0.1 thou or 0.1 mm",
    "tenths": "0.1 in, or 0.0001 in at a grinder, or 0.1 mm: tenths of what? write 0.1 in, 0.1 thou or 0.1 mm",
    "chain": "a surveyor's 66 ft, or an engineer's 100 ft: write it in ft",
    "chains": "a surveyor's 66 ft, or an engineer's 100 ft: write it in ft",
    "link": "1/100 of a surveyor's chain (0.66 ft), or of an engineer's (1 ft): write it in ft",
    "links": "1/100 of a surveyor's chain (0.66 ft), or of an engineer's (1 ft): write it in ft",
    "rod": "16 1/2 ft, or 16 1/2 US survey ft, which are 2 parts in a million longer: write it in ft",
    "rods": "16 1/2 ft, or 16 1/2 US survey ft, which are 2 parts in a million longer: write it in ft",
    "fathom": "6 ft, or 6 US survey ft, which are 2 parts in a million longer: write it in ft",
    "fathoms": "6 ft, or 6 US survey ft, which are 2 parts in a million longer: write it in ft",
    "furlong": "660 ft, or 660 US survey ft, which are 2 parts in a million longer: write it in ft",
    "furlongs": "660 ft, or 660 US survey ft, which are 2 parts in a million longer: write it in ft",
    "league": "3 miles, or 3 US survey miles, or 3 nautical miles: write it in ft or m",
    "leagues": "3 miles, or 3 US survey miles, or 3 nautical miles: write it in ft or m",
    "cable": "a tenth of a nautical mile, or 720 ft: write it in ft or m",
    "cables": "a tenth of a nautical mile, or 720 ft: write it in ft or m",
    "cables_length": "a tenth of a nautical mile, or 720 ft: write it in ft or m",
    "cicero": "12 Didot points, which have been given several sizes: write it in mm",
    "didot": "a Didot point, which has been given several sizes: write it in mm",
}  # fmt: skip


def in_inches(mm: Fraction) -> Fraction:
    """So many millimetres in inches; asked of all that is told, so in one step, where a quotient of Fractions takes several.

    >>> in_inches(Fraction(254))
    Fraction(10, 1)
    """
    return _inches(mm.numerator, mm.denominator)


@lru_cache(4096)
def _inches(above: int, below: int) -> Fraction:
    """The same of a rational's two numbers: an answer tells a size several times."""
    return Fraction(above * _INCH_BOTTOM, below * _INCH_TOP)


def inches_of(above: int, below: int) -> tuple[int, int]:
    """The same of a rational's two numbers, and as such, in lowest terms.

    >>> inches_of(127, 10)
    (1, 2)
    """
    above, below = above * _INCH_BOTTOM, below * _INCH_TOP
    common = gcd(above, below)
    return above // common, below // common


def alternatives(*names: str, letters: bool = False, powers: tuple[int, ...] = (1,)) -> str:
    """The words of units as alternatives of a pattern, longest first: every pattern that knows units is made of it.

    Of the units named, or of all of these powers; with `letters` only words of letters alone.
    """
    words = {
        word for unit in UNITS for word in unit.words
        if (unit.name in names or (not names and unit.power in powers)) and (word.isalpha() or not letters)
    }  # fmt: skip
    return "|".join(re.escape(word) for word in sorted(words, key=lambda word: (-len(word), word)))


def find(word: str) -> Unit | None:
    """The unit that `word` names, or None. Case counts only in the shortest names (M is not m)."""
    unit = BY_WORD.get(word)
    if unit is None and len(word) > 1:
        unit = BY_WORD.get(" ".join(word.lower().split()))
    return unit


_RAISED = (
    rf"(?P<before>{'|'.join(POWER_WORDS)})\b\.? *(?P<squared>[^ ]+)"
    rf"|(?P<unit>[^ ]+?) *(?:\^ *(?P<figure>[23])|(?P<sign>[{''.join(POWER_SIGNS)}]))"
)


def find_raised(text: str) -> Unit | None:
    """The area or volume that `text` names: `sq in`, `square inches`, `cu. mm`, `in²`, `mm^2`; or None.

    >>> find_raised("sq in").mm == INCH**2
    True
    """
    match = re.fullmatch(_RAISED, text, re.IGNORECASE)
    unit = find(match["squared"] or match["unit"]) if match else None
    if match is None or unit is None or unit.power != 1:
        return None
    power = (
        POWER_WORDS[match["before"].lower()] if match["before"]
        else POWER_SIGNS[match["sign"]] if match["sign"] else int(match["figure"])
    )  # fmt: skip
    kind = {2: "sq", 3: "cu"}[power]
    return Unit(f"{kind} {unit.name}", unit.mm**power, f"{kind} {unit.name}", (), power)


def two_meanings(word: str) -> str | None:
    """Both meanings of a word that has two, or None."""
    return TWO_MEANINGS.get(word.lower())


def power_name(power: int) -> str:
    """What a maker calls a quantity of this power: `length`, `area`, ..."""
    return POWER_NAMES.get(power, f"length to the power {power}")


def a_power(power: int) -> str:
    """The same with its article: `a length`, `an area`."""
    name = power_name(power)
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
