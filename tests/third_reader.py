"""A third reader of written sizes: pint's registry and arithmetic, in exact rationals.

What stands on a drawing is put into pint's own syntax by the few rules below, each number and its unit in brackets, and
pint does the rest: its factors, its conversions, its sums. It knows no limits with two deviations, no gauges, drills
and threads; for all that it is not told of it gives None.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from functools import cache
from tokenize import TokenError
from typing import Any

import pint

_QUOTES = str.maketrans(
    {
        **dict.fromkeys("″”“〃＂", '"'),
        **dict.fromkeys("′’‘＇", "'"),
        **dict.fromkeys("−–—‐‑‒－", "-"),
        "×": " * ",
        "÷": " / ",
    }
)
_GLYPHS = "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"
_N = r"(?:[0-9]+(?:[ ]+|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+(?![0-9]*\.)|[0-9]+\.?[0-9]*|\.[0-9]+)"
_INCH, _FOOT = r"(?:inch(?:es)?|ins?\b\.?|''|\")", r"(?:ft\b\.?|foot|feet|'(?!'))"
#: Words that pint has not, or has for something else, and what they are to it.
_WORDS = {"m/m": "mm", "m.m.": "mm", "c/m": "cm", "c.m.": "cm", "ins": "inch", "thous": "thou", "thousandth": "thou", "thousandths": "thou", "yds": "yard", "µm": "micrometer", "um": "micrometer"}  # fmt: skip
_UNIT = rf"(?:{_INCH}|{_FOOT}|m/m|m\.m\.|c/m|c\.m\.|(?:thou|mm|cm)\b\.?|[a-zµ]+(?:_[a-z]+)*)"
_LITERAL = re.compile(
    rf"(?P<feet>[0-9]+) ?{_FOOT}(?:-(?=[0-9])| *)(?P<inches>{_N}) *{_INCH}"
    rf"|(?P<parts>{_N}) +(?P<nths>[0-9]+)(?:ths?|nds?|rds?|sts?)(?: *(?:of +an +inch|{_INCH}))?(?![a-z])"
    rf"|(?P<thou>{_N}) *(?:thous?|thousandths?) +of +an +inch"
    rf"|(?P<said>{_N})(?:(?:ths?|nds?|rds?|sts?)\b(?: *(?:of +an +inch|{_INCH}))?| *of +an +inch)"
    rf"|(?P<tpi>{_N}) *(?:tpi|t\.p\.i\.|threads? +per +inch)(?![a-z])"
    rf"|(?P<square>{_N}) *(?:sq|square)\.? +(?P<side>[a-z]+)"
    rf"|(?P<degrees>{_N}) *(?:°|deg\b|degrees?\b)(?: *(?P<minutes>{_N}) *')?"
    rf"|(?P<size>{_N})(?: *(?P<unit>{_UNIT}))?",
    re.I,
)


@cache
def _registry() -> Any:
    return pint.UnitRegistry(non_int_type=Fraction)


def _number(text: str) -> str:
    mixed = re.fullmatch(r"([0-9]+)(?:[ ]+|-)([0-9]+)/([0-9]+)", text)
    if mixed and int(mixed[2]) >= int(mixed[3]):
        raise ValueError("no mixed number")
    return f"({mixed[1]} + {mixed[2]}/{mixed[3]})" if mixed else f"({text})"


def _literal(m: re.Match[str]) -> str:
    if m["feet"]:
        return f"({m['feet']} * foot + {_number(m['inches'])} * inch)"
    if m["parts"]:
        return f"({_number(m['parts'])} / {m['nths']} * inch)"
    if m["thou"]:
        return f"({_number(m['thou'])} * thou)"
    if m["said"]:
        return f"({_number(m['said'])} * inch)"
    if m["tpi"]:
        return f"({_number(m['tpi'])} / inch)"
    if m["square"]:
        return f"({_number(m['square'])} * {m['side'].lower()} * {m['side'].lower()})"
    if m["degrees"]:
        return f"({_number(m['degrees'])} * degree + {_number(m['minutes'] or '0')} * arcminute)"
    if not m["unit"]:
        return _number(m["size"])
    word = m["unit"] if len(m["unit"]) == 1 else m["unit"].lower()
    plain = "inch" if re.fullmatch(_INCH, word) else "foot" if re.fullmatch(_FOOT, word) else word
    name = _WORDS.get(plain, plain.rstrip("."))
    if not _registry().Unit(name).is_compatible_with("mm"):
        raise ValueError(f"{name} is no length")
    return f"({_number(m['size'])} * {name})"


def in_pints_words(text: str) -> str:
    """A written size or sum as pint writes it; ValueError where the rules above leave something over."""
    for glyph in _GLYPHS:
        value = str(Fraction(unicodedata.numeric(glyph)).limit_denominator(10))
        text = re.sub(rf"(?<=[0-9])[ -]?{glyph}", f" {value}", text).replace(glyph, value)
    line = text.replace("⁄", "/").translate(_QUOTES).strip()
    if re.search(
        r"±|\+ ?/? ?-|[-+][^ ]*/[-+]|/[-+]| [-+][0-9.][^-+]* [-+][0-9.]|#|\^|[²³]|  ", line
    ) or re.search(r"\bof\b(?! an inch)|[0-9]-[0-9]+\b(?!/)", line):
        raise ValueError("beyond these rules")
    left = _LITERAL.sub("", line)
    if re.sub(r"[-+*/() ]", "", left):
        raise ValueError(f"{left!r} is left over")
    made = _LITERAL.sub(_literal, re.sub(r"(?<![0-9.])0+(?=[0-9])", "", line))
    if re.search(r"[)] *[(]", made):
        raise ValueError("two sizes side by side")
    return made


def read(text: str) -> tuple[int | str, Fraction] | None:
    """(power, mm**power), or ("angle", degrees), as pint works it out; None where it cannot be asked."""
    try:
        found = _registry().parse_expression(in_pints_words(text))
    except (
        ValueError,
        ZeroDivisionError,
        pint.PintError,
        TypeError,
        SyntaxError,
        AttributeError,
        AssertionError,
        TokenError,
    ):
        return None
    if not isinstance(found, _registry().Quantity):
        return (0, Fraction(found))
    if found.is_compatible_with("degree") and "degree" in str(found.units):
        return ("angle", Fraction(found.to("degree").magnitude))
    power = int(found.dimensionality.get("[length]", 0))
    if set(found.dimensionality) - {"[length]"}:
        return None
    base = found.to_root_units()
    return (power, Fraction(base.magnitude) * Fraction(1000) ** power)
