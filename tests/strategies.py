"""Sizes, rules and written forms for the property tests."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from hypothesis import assume
from hypothesis import strategies as st

from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: Millimetres in a unit, written out here so that the code's own table is not asked.
MM = {
    "in": Fraction(254, 10),
    "thou": Fraction(254, 10_000),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "um": Fraction(1, 1000),
}
SPELLINGS = {
    "in": ("in", "inch", "inches", "ins", '"', "IN", "Inch"),
    "thou": ("thou", "thous", "THOU", "thousandths", " thousandth", " thousandths of an inch"),
    "ft": ("ft", "foot", "feet", "'", "FT"),
    "yd": ("yd", "yds", "yard", "yards"),
    "mm": ("mm", "MM", "millimetre", "millimetres", "millimeter", "millimeters", "m/m", "m.m."),
    "cm": ("cm", "centimetre", "centimeters"),
    "m": ("m", "metre", "meter", "metres"),
    "um": ("um", "µm", "micron", "microns", "micrometre", "micrometers"),
}
GLYPHS = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6), "⅐": Fraction(1, 7), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8), "⅑": Fraction(1, 9), "⅒": Fraction(1, 10),
}  # fmt: skip

#: The same sign as type, a scanner or another keyboard gives it.
DISGUISES = {
    "-": "-\u2010\u2011\u2012\u2013\u2014\u2212\uff0d",
    '"': '"″”“〃＂',
    "'": "'′’‘＇",
    "/": "/⁄∕／",
    " ": " \u00a0\u2002\u2009\u202f\u3000\t",
    ".": ".．",
    "+": "+＋",
    "µ": "µμ",
    **{d: d + chr(ord(d) + 0xFEE0) for d in "0123456789"},
}


#: What word processors and web pages leave between signs, and nobody sees.
UNSEEN = "\u00ad\u200b\u200d\u2060\ufeff"


def binary_fractions(finest: int = 128, most: int = 60) -> st.SearchStrategy[Fraction]:
    """Inches as a rule has them: k/2, k/4 ... k/`finest`."""
    steps = [2**n for n in range(finest.bit_length()) if 2**n <= finest]
    return st.builds(
        lambda k, n: Fraction(k, n), st.integers(0, most * finest), st.sampled_from(steps)
    ).filter(lambda f: f <= most)


def decimals(places: int = 4, most: int = 2000) -> st.SearchStrategy[Fraction]:
    """Rationals that end within so many decimals."""
    return st.integers(0, most * 10**places).map(lambda n: Fraction(n, 10**places))


def rationals(most: int = 1000, bottom: int = 5000) -> st.SearchStrategy[Fraction]:
    """Any rational, below zero too."""
    return st.fractions(-most, most, max_denominator=bottom)


def lengths() -> st.SearchStrategy[Quantity]:
    """Lengths of every kind: off a rule, in decimals, metric, and awkward; below zero too."""
    inches = binary_fractions() | decimals(4, 40)
    size = inches.map(Quantity.inches) | decimals(3).map(Quantity.millimetres) | rationals().map(Quantity)
    return st.builds(lambda q, s: q if s else -q, size, st.booleans())


def positive_lengths() -> st.SearchStrategy[Quantity]:
    """Lengths above zero."""
    return lengths().map(abs).filter(lambda q: q.value > 0)


def divisions() -> st.SearchStrategy[Rule]:
    """Rules: the usual ones, half of the time, else any number of parts of an inch."""
    usual = st.sampled_from(("64ths", "32nds", "16ths", "8ths", "100ths", "50ths", "10ths", "mm", "half mm"))
    return (usual | st.integers(1, 300).map(lambda n: f"{n}ths")).map(Rule)


@dataclass(frozen=True)
class Written:
    """A size as written, and what it must read to."""

    text: str
    mm: Fraction


def _blank(least: int = 0) -> st.SearchStrategy[str]:
    return st.integers(least, 2).map(lambda n: " " * n)


@st.composite
def numbers(draw: st.DrawFn, dashed: bool = True) -> tuple[str, Fraction]:
    """A written number without a unit, and its value: mixed, vulgar, glyph or decimal."""
    kind = draw(
        st.sampled_from(
            (
                "mixed",
                "dashed",
                "vulgar",
                "glyph",
                "mixed glyph",
                "small",
                "mixed small",
                "decimal",
                "point",
                "whole",
            )
        )
    )
    whole = draw(st.integers(0, 400))
    bottom = draw(st.sampled_from((2, 4, 8, 16, 32, 64, 128, 3, 5, 12, 100)) | st.integers(2, 999))
    top = draw(st.integers(0, bottom - 1))
    glyph = draw(st.sampled_from(sorted(GLYPHS)))
    places = draw(st.integers(1, 6))
    end = draw(st.integers(0, 10**places - 1))
    if kind == "mixed" or (kind == "dashed" and not dashed):
        return f"{whole}{draw(_blank(1))}{top}/{bottom}", whole + Fraction(top, bottom)
    if kind == "dashed":
        return f"{whole}-{top}/{bottom}", whole + Fraction(top, bottom)
    if kind == "vulgar":
        over = draw(st.integers(0, 5 * bottom))
        return f"{over}/{bottom}", Fraction(over, bottom)
    if kind == "glyph":
        return glyph, GLYPHS[glyph]
    if kind == "mixed glyph":
        dash = draw(st.sampled_from(("", " ", "-") if dashed else ("", " ")))
        return f"{whole}{dash}{glyph}", whole + GLYPHS[glyph]
    if kind in ("small", "mixed small"):
        text, value = draw(_small_figures(top, bottom))
        if kind == "small":
            return text, value
        parted = text[0].isdigit() and text[0].isascii()
        dash = draw(st.sampled_from((" ", "-") if dashed else (" ",))) if parted else draw(_blank())
        return f"{whole}{dash}{text}", whole + value
    if kind == "decimal":
        dot = draw(st.sampled_from((".", "·", "⋅")))
        return f"{whole}{dot}{end:0{places}d}", whole + Fraction(end, 10**places)
    if kind == "point":
        dot = draw(st.sampled_from((".", "·")))
        return f"{dot}{end:0{places}d}", Fraction(end, 10**places)
    return str(whole), Fraction(whole)


_UP, _LOW = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"


@st.composite
def _small_figures(draw: st.DrawFn, top: int, bottom: int) -> tuple[str, Fraction]:
    """A fraction in small raised and lowered figures, and its value: ¹/₃₂, ⅟32."""
    over, under = (str(n).translate(str.maketrans("0123456789", s)) for n, s in ((top, _UP), (bottom, _LOW)))
    bar = draw(st.sampled_from("/⁄"))
    if draw(st.booleans()):
        return f"⅟{draw(st.sampled_from((under, str(bottom))))}", Fraction(1, bottom)
    return f"{over}{bar}{under}", Fraction(top, bottom)


@st.composite
def _said(draw: st.DrawFn) -> Written:
    """A fraction as it is said: 3/16ths, 3/16 of an inch, 5/64ths in."""
    bottom = draw(st.sampled_from((4, 8, 16, 32, 64)))
    top = draw(st.integers(1, bottom - 1))
    whole = draw(st.sampled_from(("", "", "2 "))) if top > 1 else ""
    ending = draw(st.sampled_from(("nds" if bottom == 32 else "ths", "nd" if bottom == 32 else "th", "")))
    inch = draw(st.sampled_from((" of an inch", " of  an inch") + (("", " in", '"') if ending else ())))
    return Written(
        f"{whole}{top}/{bottom}{ending}{inch}", (int(whole or 0) + Fraction(top, bottom)) * MM["in"]
    )


@st.composite
def _with_unit(draw: st.DrawFn) -> Written:
    text, value = draw(numbers())
    unit = draw(st.sampled_from(sorted(MM)))
    spelling = draw(st.sampled_from(SPELLINGS[unit]))
    assume(not (spelling == "m" and re.match("[1-9][0-9]", text)))  # of so many metres an m may be lost
    # Of millimetres no rule has 16ths, nor does anybody write eighths of a foot with its mark: each is a doubt.
    assume(not (unit == "mm" and re.search(r"[/⁄](?:16|32|64|128|₁₆|₃₂|₆₄|₁₂₈)$", text)))
    assume(not (spelling == "'" and re.search(r"[/⁄](?:8|16|32|64|128|₈|₁₆|₃₂|₆₄|₁₂₈)$", text)))
    return Written(f"{text}{draw(_blank())}{spelling}", value * MM[unit])


@st.composite
def _feet_and_inches(draw: st.DrawFn) -> Written:
    feet = draw(st.integers(0, 40))
    text, inches = draw(numbers().filter(lambda n: n[1] < 12))
    words = draw(st.booleans())
    if words:
        join = f"{draw(_blank())}{draw(st.sampled_from(('ft', 'feet', 'foot')))}{draw(_blank(1))}"
        unit = f"{draw(_blank())}{draw(st.sampled_from(('in', 'inch', 'inches')))}"
    else:
        join = draw(st.sampled_from(("'", "' ", "'-")))
        # A bare glyph or a point straight behind the dash would read as well; figures are the usual.
        unit = f'{draw(_blank())}"'
        if join == "'-" and not text[0].isdigit():
            join = "' "
    return Written(f"{feet}{join}{text}{unit}", feet * MM["ft"] + inches * MM["in"])


@st.composite
def _parts(draw: st.DrawFn) -> Written:
    bottom = draw(st.sampled_from((8, 16, 32, 64, 128, 10, 50, 100, 1000, 12, 3, 21, 1)))
    text, value = draw(numbers())
    ending = (
        "ths" if bottom % 10 not in (1, 2, 3) or bottom == 12 else {1: "st", 2: "nds", 3: "rds"}[bottom % 10]
    )
    inch = draw(st.sampled_from(("", " in", ' "', " inch", " of an inch")))
    return Written(f"{text} {bottom}{ending}{inch}", value * MM["in"] / bottom)


@st.composite
def _signed(draw: st.DrawFn) -> Written:
    size = draw(_with_unit() | _feet_and_inches() | _parts() | _said())
    sign = draw(st.sampled_from(("", "", "", "-", "+")))
    return Written(sign + size.text, -size.mm if "-" in sign else size.mm)


@st.composite
def disguised(draw: st.DrawFn, text: str) -> str:
    """The same text with some signs as type or another keyboard would give them."""
    chosen = []
    for at, sign in enumerate(text):
        look = DISGUISES.get(sign, sign)
        chosen.append(draw(st.sampled_from(look)) if len(look) > 1 else sign)
        figures = sign.isnumeric() and (text[at + 1 : at + 2].isnumeric() or text[at + 1 : at + 2] == ".")
        if draw(st.integers(0, 30)) == 0 and not figures:  # between figures it may be a lost blank
            chosen.append(draw(st.sampled_from(UNSEEN)))
    return "".join(chosen)


def plain_sizes() -> st.SearchStrategy[Written]:
    """Every written form of a size, in plain signs."""
    return _signed()


@st.composite
def written_sizes(draw: st.DrawFn) -> Written:
    """Every written form of a size, half of them in typographic or full-width signs."""
    size = draw(_signed())
    if draw(st.booleans()):
        return Written(draw(disguised(size.text)), size.mm)
    return size


@dataclass(frozen=True)
class WrittenLimits:
    """A size with limits as written, and its nominal, lower and upper in mm."""

    text: str
    nominal: Fraction
    lower: Fraction
    upper: Fraction


@st.composite
def written_limits(draw: st.DrawFn) -> WrittenLimits:
    """A size with limits, its deviations in their own unit, of both forms."""
    nominal = draw(_with_unit())
    unit = draw(st.sampled_from(("in", "thou", "mm")))
    spelling = draw(st.sampled_from((unit, '"') if unit == "in" else (unit,)))
    plus, minus = draw(decimals(3, 3)), draw(decimals(3, 3))
    gap = draw(_blank(1))
    kind = draw(st.sampled_from(("both", "pair", "nought")))
    if kind == "both":
        sign = draw(st.sampled_from(("±", "+-", "+/-")))
        text = f"{nominal.text}{gap}{sign}{draw(_blank())}{_decimal(plus)} {spelling}"
        low, high = nominal.mm - plus * MM[unit], nominal.mm + plus * MM[unit]
    elif kind == "nought":
        nought = draw(st.sampled_from(("0", "0.0", "0.00")))
        text, low, high = draw(
            st.sampled_from(
                (
                    (f"+{_decimal(plus)}/{nought}", 0, plus),
                    (f"-{_decimal(minus)}/{nought}", -minus, 0),
                    (f"{nought}/-{_decimal(minus)}", -minus, 0),
                    (f"{nought}/+{_decimal(plus)}", 0, plus),
                )
            )
        )
        text = f"{nominal.text}{draw(_blank(1)) or ' '}{text} {spelling}"
        low, high = nominal.mm + low * MM[unit], nominal.mm + high * MM[unit]
    else:
        text = f"{nominal.text}{gap}+{_decimal(plus)}/-{_decimal(minus)} {spelling}"
        low, high = nominal.mm - minus * MM[unit], nominal.mm + plus * MM[unit]
    return WrittenLimits(text, nominal.mm, low, high)


def _decimal(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return f"{whole}.{int(rest * 1000):03d}".rstrip("0").rstrip(".")
