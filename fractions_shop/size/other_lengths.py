"""Lengths that no drawing writes and somebody may: read by their full names, from figures kept here.

They are the exact lengths that the pint library knows beside ours, as of the version below, so
that reading one neither loads pint nor depends on which pint is installed. A test holds each to
the installed pint and to the source beside it.
"""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.size import units
from fractions_shop.size.units import INCH, Unit

#: The pint whose lengths these are.
PINT = "0.25.3"

_MILE = 63_360 * INCH
_SURVEY_FOOT = Fraction(1_200_000, 3937)
_TEX_POINT = INCH * 100 / 7227
_TEX = "Knuth, The TeXbook, chapter 10"

#: Millimetres in one, and who says so.
LENGTHS: dict[str, tuple[Fraction, str]] = {
    "angstrom": (Fraction(1, 10**7), "the SI brochure, 8th edition, table 8"),
    "astronomical_unit": (Fraction(149_597_870_700_000), "IAU 2012 resolution B2"),
    "css_pixel": (INCH / 96, "W3C, CSS Values and Units"),
    "decimeter": (Fraction(100), "the SI's prefixes"),
    "decimetre": (Fraction(100), "the SI's prefixes"),
    "fermi": (Fraction(1, 10**12), "NIST SP 811 (2008), from memory"),
    "hand": (4 * INCH, "NIST Handbook 44 (2024), appendix C"),
    # 365.25 days at the speed of light
    "light_year": (Fraction(299_792_458_000 * 86_400 * 1461, 4), "the IAU's Julian year"),
    "mile": (_MILE, "NIST Handbook 44 (2024), appendix C"),
    "nautical_mile": (Fraction(1_852_000), "the Hydrographic Conference of 1929"),
    "scaled_point": (_TEX_POINT / 65536, _TEX),
    "survey_foot": (_SURVEY_FOOT, "US Federal Register 85 FR 62698"),
    "survey_mile": (5280 * _SURVEY_FOOT, "US Federal Register 85 FR 62698"),
    "tex_cicero": (12 * _TEX_POINT * 1238 / 1157, _TEX),
    "tex_didot": (_TEX_POINT * 1238 / 1157, _TEX),
    "tex_pica": (12 * _TEX_POINT, _TEX),
    "tex_point": (_TEX_POINT, _TEX),
}  # fmt: skip

#: Lengths that rest on a measurement or on pi, so that no exact factor exists.
NOT_EXACT = frozenset(
    {
        "angstrom_star", "bohr", "classical_electron_radius", "parsec", "planck_length",
        "statfarad", "x_unit_Cu", "x_unit_Mo", "lattice_spacing_of_Si", "atomic_unit_of_length",
    }
)  # fmt: skip


def length_called(word: str) -> Unit | None:
    """The exact length of this full name (or its plural in s), or None.

    Abbreviations and prefixed names are not read. ShopError for a length that only a
    measurement defines.

    >>> length_called("hands").mm
    Fraction(508, 5)
    """
    for name in (word, word.removesuffix("s"), word.removesuffix("es")):
        if name in NOT_EXACT:
            raise ShopError(f"{name} rests on a measurement, so it has no exact length")
        if name in LENGTHS and units.find(name) is None:
            factor, source = LENGTHS[name]
            return Unit(name, factor, f"one {name}, by {source}", (word,))
    return None


def is_length(word: str) -> bool:
    """Whether a word is the full name of an exact length, one or several.

    >>> is_length("hands"), is_length("hnads"), is_length("parsec")
    (True, False, False)
    """
    try:
        return length_called(word) is not None
    except ShopError:
        return False


def beginning(word: str) -> tuple[str, ...]:
    """The lengths whose names begin so, from three letters on.

    >>> beginning("nau")
    ('nautical_mile',)
    """
    return tuple(name for name in LENGTHS if len(word) > 2 and name.startswith(word))
