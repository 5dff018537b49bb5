"""A second reader of written sizes, to hold the first one to.

Written from the manual alone (README, "Writing a size" and "Arithmetic") and the table of
forms behind it, in plain regular expressions and its own Fraction arithmetic; it imports
nothing of the package. The gauge, drill and thread tables are read as text from their CSV
files, or worked out by the published formula. It covers one size, or sizes joined by
+ - * / ^ and brackets, with limits; no names, functions or requests. What it cannot read is
None: it never guesses, and it gives no reasons.

A value is (power, mm**power) with limits as (power, nominal, lower, upper), and an angle is
("angle", degrees).
"""

from __future__ import annotations

import csv
import re
import unicodedata
from decimal import Decimal, localcontext
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

TABLES = Path(__file__).parents[1] / "fractions_shop" / "tables"
INCH = Fraction(254, 10)

# Signs, by what the Unicode standard calls them.


def plain(text: str) -> str:
    """Typographic quotes, dashes, blanks, bars and full-width signs as typewriter ones."""
    out = []
    for place, sign in enumerate(text):
        name = unicodedata.name(sign, "")
        if unicodedata.category(sign) == "Cf" and name not in _SEEN:
            continue  # nobody sees it, so it is not there
        if sign.isascii() or "VULGAR FRACTION" in name:
            out.append(" " if sign == "\t" else sign)
        elif unicodedata.category(sign) == "Zs":
            out.append(" ")
        elif (
            "DOUBLE PRIME" in name or ("QUOTATION MARK" in name and "DOUBLE" in name) or name == "DITTO MARK"
        ):
            out.append('"')
        elif "PRIME" in name or "APOSTROPHE" in name or name in _SINGLES:
            out.append("'")
        elif name in _DASHES:
            out.append("-")
        elif name in ("FRACTION SLASH", "DIVISION SLASH", "FULLWIDTH SOLIDUS"):
            out.append("/")
        elif name in (
            "MULTIPLICATION SIGN",
            "MULTIPLICATION X",
            "N-ARY TIMES OPERATOR",
            "VECTOR OR CROSS PRODUCT",
        ):
            out.append("×")
        elif name == "DIVISION SIGN":
            out.append("÷")
        elif name in ("MIDDLE DOT", "DOT OPERATOR", "BULLET OPERATOR") and _beside_a_digit(text, place):
            out.append(".")
        elif name in ("DEGREE SIGN", "RING ABOVE", "MASCULINE ORDINAL INDICATOR"):
            out.append("°")
        elif name == "LATIN SMALL LETTER DOTLESS I":
            out.append("i")
        elif name in ("MICRO SIGN", "GREEK SMALL LETTER MU"):
            out.append("µ")
        elif name.startswith("FULLWIDTH"):
            out.append(unicodedata.normalize("NFKC", sign))
        else:
            out.append(sign)
    return "".join(out)


_SINGLES = (
    "LEFT SINGLE QUOTATION MARK",
    "RIGHT SINGLE QUOTATION MARK",
    "ACUTE ACCENT",
    "MODIFIER LETTER PRIME",
)
_DASHES = (
    "MINUS SIGN", "EN DASH", "EM DASH", "FIGURE DASH", "HYPHEN", "NON-BREAKING HYPHEN", "SMALL HYPHEN-MINUS", "FULLWIDTH HYPHEN-MINUS",
)  # fmt: skip


#: Of the signs that Unicode calls format characters, those that the manual does not name.
_SEEN = ("FUNCTION APPLICATION", "INVISIBLE TIMES", "INVISIBLE SEPARATOR", "INVISIBLE PLUS")


def _beside_a_digit(text: str, place: int) -> bool:
    return text[place + 1 : place + 2] in DIGITS and text[place + 1 : place + 2] != ""


DIGITS = "0123456789" + "".join(chr(0xFF10 + n) for n in range(10))


@cache
def table(name: str) -> list[dict[str, str]]:
    """A table as it is printed."""
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# Numbers

GLYPHS = {c: Fraction(unicodedata.numeric(c)).limit_denominator(10) for c in "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"}
_G = "[" + "".join(GLYPHS) + "]"
_UP, _LOW = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
_SMALL = rf"(?:[0-9]+(?:[ ]+|-)?)?(?:[{_UP}]+/[{_LOW}]+|⅟[0-9{_LOW}]+)|(?:[0-9]+(?:[ ]+|-))?(?:[{_UP}]+/[0-9]+|[0-9]+/[{_LOW}]+)"
NUMBER = rf"(?:{_SMALL}|[0-9]+(?:[ ]+|-)[0-9]+/[0-9]+|(?:[0-9]+[ -]?)?{_G}|[0-9]+/[0-9]+(?![0-9]*\.[0-9])|[0-9]+\.?[0-9]*|\.[0-9]+)"


def number(text: str) -> Fraction | None:
    """A number without a unit."""
    if len(text) > 40:
        return None
    small = re.fullmatch(rf"(?:([0-9]+)[ -]*)??([0-9]+/|[{_UP}]+/|⅟)([0-9{_LOW}]+)", text)
    if small and not text.isascii():
        bottom = int(unicodedata.normalize("NFKC", small[3]))
        top = 1 if small[2] == "⅟" else int(unicodedata.normalize("NFKC", small[2][:-1]))
        if bottom == 0 or (small[1] and top >= bottom):
            return None
        return int(small[1] or 0) + Fraction(top, bottom)
    mixed = re.fullmatch(r"([0-9]+)(?:[ ]+|-)([0-9]+)/([0-9]+)", text)
    if mixed:
        whole, top, bottom = map(int, mixed.groups())
        return whole + Fraction(top, bottom) if top < bottom else None
    if text[-1] in GLYPHS:
        whole_text = text[:-1].rstrip(" -")
        return (int(whole_text) if whole_text else 0) + GLYPHS[text[-1]]
    vulgar = re.fullmatch(r"([0-9]+)/([0-9]+)", text)
    if vulgar:
        return Fraction(int(vulgar[1]), int(vulgar[2])) if int(vulgar[2]) else None
    return Fraction(text)


UNITS: dict[str, Fraction] = {}
for _words, _mm in (
    ("in inch inches ins", INCH), ("ft foot feet", 12 * INCH), ("yd yds yard yards", 36 * INCH), ("thou thous thousandth thousandths", INCH / 1000),
    ("mm millimetre millimetres millimeter millimeters", Fraction(1)), ("cm centimetre centimetres centimeter centimeters", Fraction(10)),
    ("m metre metres meter meters", Fraction(1000)), ("km kilometre kilometres kilometer kilometers", Fraction(10**6)),
    ("um µm micron microns micrometre micrometres micrometer micrometers", Fraction(1, 1000)),
):  # fmt: skip
    UNITS.update(dict.fromkeys(_words.split(), _mm))
#: Lengths by their full names, with an s or es behind them or none. SI brochure, 8th edition, table 8; IAU 2012 B2 and the
#: Julian year; W3C, CSS Values and Units; NIST Handbook 44 (2024) appendix C; Hydrographic Conference 1929; Federal
#: Register 85 FR 62698; Knuth, The TeXbook, chapter 10; the fermi from memory.
_TEX = INCH * 100 / 7227
#: Old inches by their English names, in mm: the table's own column, but the Paris inch by the law that made the metre
#: 443.296 lignes, and the American one by the order that made it 39.37 inches.
OLD_INCHES = {"paris": Fraction(12_000_000, 443_296), "old us": Fraction(100_000, 3937)}
FULL_NAMES = {
    "angstrom": Fraction(1, 10**7), "astronomical_unit": Fraction(149_597_870_700_000), "css_pixel": INCH / 96,
    "decimeter": Fraction(100), "decimetre": Fraction(100), "fermi": Fraction(1, 10**12), "hand": 4 * INCH,
    "light_year": Fraction(299_792_458_000) * Fraction(36525, 100) * 86_400, "mile": 63_360 * INCH,
    "nautical_mile": Fraction(1_852_000), "scaled_point": _TEX / 65536, "survey_foot": Fraction(1_200_000, 3937),
    "survey_mile": 5280 * Fraction(1_200_000, 3937), "tex_cicero": 12 * _TEX * Fraction(1238, 1157),
    "tex_didot": _TEX * Fraction(1238, 1157), "tex_pica": 12 * _TEX, "tex_point": _TEX,
}  # fmt: skip
_MARKS = {'"': INCH, "''": INCH, "'": 12 * INCH}


def unit(word: str) -> Fraction | None:
    """Millimetres in a unit; only the one-letter m must be small."""
    if word.endswith("."):
        word = word[:-1] if word.lower() in ("in.", "ins.", "mm.", "cm.", "thou.", "ft.", "yd.") else word
    word = {"m/m": "mm", "m.m.": "mm", "c/m": "cm", "c.m.": "cm"}.get(word.lower(), word)
    if word in _MARKS:
        return _MARKS[word]
    found = UNITS.get(word if len(word) == 1 else word.lower())
    for end in ("", "s", "es"):
        found = found or FULL_NAMES.get(word.removesuffix(end))
    return found


# Literals: each pattern with what it says. The longest that reads is taken.

_WORD = r"(?:[Ii][Nn][Ss]?\.|[MmCc]/[Mm](?![A-Za-z0-9µ_])|[MmCc]\.[Mm]\.|[MmCc][Mm]\.|[Tt][Hh][Oo][Uu]\.|[Ff][Tt]\.|[Yy][Dd]\.|[A-Za-zµ]+)"
_U = rf"(?:{_WORD}|\"|''|')"
_NTHS = r"(?P<nths>[0-9]+)(?:ths?|nds?|rds?|sts?)(?![A-Za-z0-9])"


_TPI_WORDS = ("tpi", "t.p.i.", "t.p.i", "thread per inch", "thread to the inch")


def _area(m: re.Match[str]) -> Any:
    value, factor = number(m["n"]), unit(m["u"])
    power = (
        2
        if m.groupdict().get("sign") == "²" or (m.groupdict().get("kind") or "").lower().startswith("sq")
        else 3
    )
    return None if value is None or factor is None else (power, value * factor**power)


def _of_an_inch(m: re.Match[str]) -> Any:
    value = number(m["n"])
    thousandths = m["thou"] is not None
    if value is None or (not thousandths and value.denominator == 1 and value):
        return None
    return (1, value * INCH / (1000 if thousandths else 1))


def _said(m: re.Match[str]) -> Any:
    value = number(m["n"])
    if value is None or re.fullmatch(r"[0-9]+[ -]+1/[0-9]+", m["n"]) or (m["u"] and unit(m["u"]) != INCH):
        return None
    return (1, value * INCH)


def _sized(m: re.Match[str]) -> Any:
    value = number(m["n"])
    word = m["u"]
    if value is None:
        return None
    if " ".join(word.lower().replace("threads", "thread").split()) in _TPI_WORDS:
        return (-1, value / INCH)
    if word in ("deg", "degs", "degree", "degrees"):
        return ("angle", value)
    factor = unit(word)
    return None if factor is None else (1, value * factor)


def _feet(m: re.Match[str]) -> Any:
    inches = number(m["n"])
    if inches is None or inches >= 12 or unit(m["u"]) != INCH:
        return None
    return (1, (int(m["feet"]) * 12 + inches) * INCH)


def _parts(m: re.Match[str]) -> Any:
    value = number(m["n"])
    if value is None or int(m["nths"]) == 0 or (m["u"] and unit(m["u"]) != INCH):
        return None
    return (1, value * INCH / int(m["nths"]))


def _angle(m: re.Match[str]) -> Any:
    degrees, minutes, seconds = (number(m[k]) if m[k] else Fraction(0) for k in ("n", "min", "sec"))
    if degrees is None or minutes is None or seconds is None or minutes >= 60 or seconds >= 60:
        return None
    return ("angle", degrees + minutes / 60 + seconds / 3600)


def _bare(m: re.Match[str]) -> Any:
    value = number(m["n"])
    return None if value is None else (0, value)


_BREAK = r"(?![A-Za-z0-9µ_])"


def _old(called: str, part: str) -> Fraction | None:
    """An old inch or its line in mm."""
    row = next((r for r in table("old_inches") if r["called"].lower() == called.lower()), None)
    if row is None or (part == "line" and not row["parts"]):
        return None
    inch = OLD_INCHES.get(called.lower(), Fraction(row["inch_mm"]))
    return inch / int(row["parts"]) if part == "line" else inch


_OLD_NAMES = "|".join(row["called"] for row in table("old_inches"))
_OLD_WORDS = rf"(?P<c{{0}}>{_OLD_NAMES}) +(?P<p{{0}}>inch|inches|lines?)(?![A-Za-z0-9_])"


def _old_unit(m: re.Match[str]) -> Any:
    found = Fraction(0)
    for n, called, part in ((m["n"], m["c1"], m["p1"]), (m["m"], m["c2"], m["p2"])):
        if n is None:
            continue
        value, each = number(n), _old(called, "line" if part.lower().startswith("line") else "inch")
        if value is None or each is None:
            return None
        found += value * each
    if m["m"] and (
        m["c1"].lower() != m["c2"].lower()
        or not m["p1"].lower().startswith("inch")
        or m["p2"].lower().startswith("inch")
    ):
        return None
    return (1, found)


def _own_form(m: re.Match[str]) -> Any:
    """A thread of no table by its major, pitch and form is its major."""
    value, factor = number(m["n"]), unit(m["u"])
    return None if value is None or factor is None else (1, value * factor)


_FORMS = r"(?:Whitworth|BA|metric|unified|cycle|Loewenherz|Löwenherz) +form"
_LITERALS: list[tuple[re.Pattern[str], Any]] = [
    (
        re.compile(
            rf"(?P<n>{NUMBER}) *{_OLD_WORDS.format(1)}(?: +(?P<m>{NUMBER}) *{_OLD_WORDS.format(2)})?", re.I
        ),
        _old_unit,
    ),
    (
        re.compile(rf"(?P<n>{NUMBER}) *(?P<u>{_U}) *[x×] *{NUMBER} *(?:tpi|{_U}) *{_FORMS}{_BREAK}", re.I),
        _own_form,
    ),
    # `5 ft-3 in` may be a sum or a subtraction, so it is neither.
    (re.compile(rf"[0-9]+ ?(?:ft|feet|foot)-(?=[0-9.]|{_G})", re.I), lambda m: None),
    (
        re.compile(
            rf"(?P<feet>[0-9]+) *(?:'|(?:ft|foot|feet){_BREAK}(?:\.(?= )|(?![.·]))) *(?P<n>{NUMBER}) *(?P<u>{_U}){_BREAK}",
            re.I,
        ),
        _feet,
    ),
    (re.compile(rf"(?P<feet>[0-9]+) ?'-(?P<n>{NUMBER}) *(?P<u>{_U}){_BREAK}"), _feet),
    (re.compile(rf"(?P<n>{NUMBER})[ ]+{_NTHS}(?: *of +an +inch\b)(?P<u>)", re.I), _parts),
    (
        re.compile(
            rf"(?P<n>(?:[0-9]+(?: +|-))?[0-9]+/[0-9]+)(?:ths?|nds?|rds?|sts?)(?![A-Za-z0-9])(?: *of +an +inch\b(?P<inch>)|(?: *(?P<u>{_U}){_BREAK})?)",
            re.I,
        ),
        _said,
    ),
    (
        re.compile(rf"(?P<n>{NUMBER}) *(?P<thou>(?:thou|thous|thousandths?) *)?of +an +inch\b", re.I),
        _of_an_inch,
    ),
    (
        re.compile(
            rf"(?P<n>{NUMBER}) *(?P<u>t\.p\.i\.?|threads? +per +inch|threads +to +the +inch){_BREAK}", re.I
        ),
        _sized,
    ),
    (re.compile(rf"(?P<n>{NUMBER}) *(?P<u>[A-Za-zµ]+)(?P<sign>[²³])"), _area),
    (
        re.compile(rf"(?P<n>{NUMBER}) *(?P<kind>sq|square|cu|cubic)\b\.? *(?P<u>[A-Za-zµ]+){_BREAK}", re.I),
        _area,
    ),
    (re.compile(rf"(?P<n>{NUMBER}) *(?P<u>[a-z]+(?:_[a-z]+)+){_BREAK}"), _sized),
    (re.compile(rf"(?P<n>{NUMBER})[ ]+{_NTHS}(?:[ ]*(?P<u>{_U}){_BREAK})?", re.I), _parts),
    (re.compile(rf"(?P<n>{NUMBER}) *°(?: *(?P<min>{NUMBER}) *'(?: *(?P<sec>{NUMBER}) *\")?)?"), _angle),
    (re.compile(rf"(?P<n>{NUMBER})[ ]*(?P<u>{_U})(?<=[\"'])"), _sized),
    (re.compile(rf"(?P<n>{NUMBER})[ ]*(?P<u>{_U}){_BREAK}"), _sized),
    (re.compile(rf"(?P<n>{NUMBER})-(?P<u>inch|in|mm|m|cm|foot|feet|ft|yd|thou){_BREAK}", re.I), _sized),
    (re.compile(rf"(?P<n>{NUMBER})"), _bare),
]


# Gauges, drills and threads by name


def _column(name: str, key: str, wanted: str, value: str) -> Fraction | None:
    return next((Fraction(row[value]) for row in table(name) if row[key] == wanted), None)


def awg(n: int) -> Fraction:
    """ASTM B258: 0.005 in x 92^((36 - n)/39), rounded to 0.0001 in."""
    with localcontext() as context:
        context.prec = 50
        power = (Decimal(36 - n) / 39 * Decimal(92).ln()).exp()
        return Fraction((Decimal("0.005") * power).quantize(Decimal("0.0001")))


_GAUGES = {
    "swg": "gauge_swg", "bwg": "gauge_bwg", "stubs iron": "gauge_bwg", "stubs steel": "gauge_stubs_steel",
    "stubs steel wire": "gauge_stubs_steel", "zinc": "gauge_zinc", "galvanised": "gauge_galvanised",
    "galvanized": "gauge_galvanised", "us steel wire": "gauge_us_steel_wire", "american steel wire": "gauge_us_steel_wire", "spring wire": "gauge_spring_wire",
    **dict.fromkeys(("spring steel wire", "spring-steel wire", "music wire", "mwg"), "gauge_spring_wire"),
}  # fmt: skip


def _gauge(m: re.Match[str]) -> Any:
    series = re.sub(r"\s*(sheet )?(gauge|gage)$", "", re.sub(r"[.']", "", m["series"]).lower()).strip()
    series = re.sub(r" *& *", "&", " ".join(series.split()))
    text = m["number"]
    if re.fullmatch("00+", text):
        text = f"{len(text)}/0"
    n = text.lstrip("0") or "0"
    if "/" in text:
        n = f"{int(text.split('/')[0])}/0"
    inches: Fraction | None = None
    if series in ("awg", "b&s"):
        k = 1 - int(n.split("/")[0]) if "/" in n else int(n)
        inches = awg(k) if -3 <= k <= 44 else None
    elif series in ("wood screw", "woodscrew"):
        country = (m["country"] or m["land"] or "US").upper()
        if "/" not in n and country in ("BRITISH", "UK"):
            inches = Fraction("0.066") + Fraction("0.014") * (int(n) - 1) if int(n) <= 32 else None
        elif "/" not in n:
            inches = Fraction("0.060") + Fraction("0.013") * int(n)
    elif series in ("msg", "manufacturers", "manufacturers standard"):
        weight = _column("gauge_msg", "gauge", n, "weight_oz_per_ft2")
        inches = None if weight is None else Fraction(round(weight / 16 / Fraction("41.82") * 10_000), 10_000)
    elif series in ("us 1893", "us standard 1893"):
        weight = _column("gauge_us_1893", "gauge", n, "weight_oz_per_ft2")
        inches = None if weight is None else weight / 640
    elif series in _GAUGES or (series == "steel wire" and (m["country"] or "").upper() in ("US", "AMERICAN")):
        series = {"steel wire": "us steel wire", "american steel wire": "us steel wire"}.get(series, series)
        for way in (n, "1/0" if n == "0" else n, "0" if n == "1/0" else n):
            inches = inches if inches is not None else _column(_GAUGES[series], "gauge", way, "size_in")
    return None if inches is None else (1, inches * INCH)


def _drill(m: re.Match[str]) -> Any:
    if m["no"]:
        size = _column("drills_number", "number", str(int(m["no"])), "size_in")
    elif m["letter"]:
        size = _column("drills_letter", "letter", m["letter"].upper(), "size_in")
    elif m["mm"]:
        return (1, Fraction(m["mm"]))
    else:
        size = number(m["inch"])
        size = size if size is not None and size <= 1 and (size * 64).denominator == 1 else None
    return None if size is None else (1, size * INCH)


def ba(n: int) -> Fraction | None:
    """BS 93: major 6 p^1.2 mm with p = 0.9^n, to two significant figures."""
    if n > 25:
        return None
    with localcontext() as context:
        context.prec = 40
        major = 6 * (Decimal("0.9") ** n) ** Decimal("1.2")
        return Fraction(major.quantize(Decimal("0.1") if major >= 1 else Decimal("0.01")))


_INCH_SERIES = {
    "bsw": "BSW", "whit": "BSW", "whitworth": "BSW", "british standard whitworth": "BSW", "bsf": "BSF", "british standard fine": "BSF",
    "me": "ME", "model engineer": "ME", "model engineers": "ME", "bsc": "BSC", "bscy": "BSC", "cei": "BSC", "cycle": "BSC",
    "bsb": "BSB", "brass": "BSB", "unc": "UNC", "nc": "UNC", "unf": "UNF", "nf": "UNF", "unef": "UNEF", "nef": "UNEF", "un": "UN",
    "": "UN",
}  # fmt: skip


def _thread(m: re.Match[str]) -> Any:
    text, series = m["size"], " ".join(re.sub(r"[.']", "", m["series"] or "").lower().split())
    if series in ("ba", "b a", "british association"):
        major = ba(int(text)) if text.isdigit() and not m["tpi"] else None
        return None if major is None else (1, major)
    if series in ("bsp", "bspp", "bspt", "bsp parallel", "bsp taper"):
        return _pipe(text)
    if series == "npt":
        size = number(text)
        found = next(
            (Fraction(r["pipe_outside_in"]) for r in table("thread_npt") if number(r["size"]) == size), None
        )
        return None if found is None else (1, found * INCH)
    if m["tpi"] and not series and m["tpi"] not in _pitches():
        return None
    if series not in _INCH_SERIES or (series == "" and not m["tpi"]):
        return None
    if (
        (m["no"] or series in ("unc", "nc", "unf", "nf", "un", "unef", "nef"))
        and text.isdigit()
        and _INCH_SERIES[series][:2] == "UN"
    ):
        # 6-32 is a number size; 1 UNC, 1-8 and 2 UNC could be inches too, so both are looked up.
        return _number_or_inches(text, m["tpi"], bool(m["no"]))
    return _inch_thread((_INCH_SERIES[series],), text, m["tpi"])


def _inch_thread(keys: tuple[str, ...], text: str, tpi: str | None) -> Any:
    """An inch thread by its size: one of the table's, in decimals to so many places, or as it is written."""
    size, pitch = number(text), number(tpi) if tpi else None
    if size is None:
        return None
    places = len(text.partition(".")[2])
    near = Fraction(1, 2 * 10**places) if places else Fraction(0)
    for row in table("thread_inch"):
        by_number = row["size"].startswith("No ")
        if not row["series"].startswith(keys) or (by_number and not places):
            continue
        if pitch is None or pitch == Fraction(row["threads_per_inch"]):
            called = (number(row["major_in"]) or Fraction(0)) if by_number else number(row["size"])
            if called is not None and (abs(called - size) <= near if places else called == size):
                return (1, (number(row["major_in"]) or Fraction(0)) * INCH)
    return (1, size * INCH)


_SPECIAL = {
    "uns": "UNS", "ns": "UNS", "asme 1907": "ASME 1907", "camera": "camera", "tripod": "camera", "old bsc": "BSC old",
    "old cycle": "BSC old",
}  # fmt: skip


def _special(m: re.Match[str]) -> Any:
    """A thread of a rare inch series, by the table: a number below 0 is written 00, 000."""
    key = _SPECIAL[" ".join(m["series"].lower().replace("asme1907", "asme 1907").split())]
    for row in table("thread_inch"):
        called = row["size"].removeprefix("No ")
        if row["series"] != key or (m["tpi"] and number(m["tpi"]) != Fraction(row["threads_per_inch"])):
            continue
        same = (
            called == m["size"]
            if called != row["size"]
            else not m["no"] and number(called) == number(m["size"])
        )
        if same:
            return (1, (number(row["major_in"]) or Fraction(0)) * INCH)
    # One that no table has stands for its major, if it is no number.
    own = None if m["no"] or m["size"].isdigit() else number(m["size"])
    return None if own is None else (1, own * INCH)


def numbered(text: str, tpi: str) -> Any:
    """`6-32`, `00-90`: a numbered American screw, whose major is 0.060 in and 0.013 in a number; below 0, less for each nought."""
    screws = [row for row in table("thread_inch") if row["size"].startswith("No ")]
    pitches = {Fraction(row["threads_per_inch"]) for row in screws} | {Fraction(30)}
    had = {pitch for pitch in pitches if 24 <= pitch <= 80}
    named = [Fraction(row["threads_per_inch"]) for row in screws if row["size"] == f"No {text}"]
    if not named or number(tpi) not in [*named, *had]:
        return None
    n = 1 - len(text) if text.strip("0") == "" else int(text)
    major = Fraction("0.060") + Fraction("0.013") * n
    return (1, major * INCH) if major * Fraction(tpi) >= 3 else None


def _number_or_inches(text: str, tpi: str | None, said: bool) -> Any:
    rows = [r for r in table("thread_inch") if r["series"].startswith("UN")]
    numbered = [
        r
        for r in rows
        if r["size"] == f"No {int(text)}" and (not tpi or number(tpi) == Fraction(r["threads_per_inch"]))
    ]
    inches = [
        r for r in rows if r["size"] == text and (not tpi or number(tpi) == Fraction(r["threads_per_inch"]))
    ]
    if numbered and (said or not inches or not tpi):  # 1 UNC is No 1-64, and the answer tells of 1-8
        return (1, (Fraction("0.060") + Fraction("0.013") * int(text)) * INCH)
    return (1, int(text) * INCH) if inches and not said and not numbered else None


@cache
def _pitches() -> frozenset[str]:
    """Threads to the inch that a thread of the tables has; coarser than 4 only the largest bolts are."""
    return frozenset(
        str(row["threads_per_inch"]) for row in table("thread_inch") if Fraction(row["threads_per_inch"]) >= 4
    )


def _pipe(text: str) -> Any:
    size = number(text)
    found = next((Fraction(r["major_mm"]) for r in table("thread_pipe") if number(r["size"]) == size), None)
    return None if found is None else (1, found)


def _old_thread(m: re.Match[str]) -> Any:
    """A thread of the old series is called by its major in millimetres."""
    return (1, Fraction(m["mm"] or m["named"] or m["behind"] or m["old"]))


def _thury(m: re.Match[str]) -> Any:
    """Major 6 p^1.2 mm with p = 0.9^n, so 6 * 0.9^(1.2 n); the fifth root ends where n is 5, 10 ..."""
    n = int(m["before"] or m["behind"])
    if n > 25:
        return None
    if n % 5 == 0:
        return (1, 6 * Fraction(9, 10) ** (6 * n // 5))
    with localcontext() as context:
        context.prec = 60
        major = 6 * Decimal("0.9") ** (Decimal(6 * n) / 5)
        context.prec = 30
        return (1, Fraction(+major))


_NO = r"(?:(?:No\b\.?|Nr\b\.?|number\b|\#) *)"
_TPI = r"[0-9]+(?:\.[0-9]+| [0-9]/[0-9])?"
_NAMED: list[tuple[re.Pattern[str], Any]] = [
    (re.compile(
        rf"(?:(?P<country>British|UK|US|American) +(?={_NO}?[0-9]+ *(?:wood|steel)))?"
        rf"{_NO}?(?P<number>[0-9]+(?:/0)?) *(?:(?P<land>British|UK|US|American) +(?=wood))?(?P<series>S\.?W\.?G\b\.?|A\.?W\.?G\b\.?|B\.?W\.?G\b\.?|B\.? ?& ?S\b\.?|M\.?S\.?G\b\.?|manufacturer'?s'?(?: +standard)?"
        r"|US(?: +standard)? +1893|Stub'?s'? +iron|Stub'?s'? +steel(?: +wire)?|galvani[sz]ed|zinc|(?:US|American) +steel +wire|(?<=[0-9] )steel +wire|spring(?:[ -]steel)? +wire|music +wire|M\.?W\.?G\b\.?|wood *screw)(?: +(?:sheet +)?(?:gauge|gage))?(?![A-Za-z0-9])",
        re.I), _gauge),
    (re.compile(
        rf"(?:{_NO}(?P<no>[0-9]+)|(?:letter +)?(?P<letter>[A-Z])|(?P<inch>(?:[0-9]+(?: +|-))?[0-9]+/[0-9]+|[0-9]+(?= *(?:in|\")))(?: *(?:inch|in|\"))?"
        r"|(?P<mm>[0-9]+\.?[0-9]*|\.[0-9]+) *mm) +(?:twist +)?drill\b", re.I), _drill),
    (re.compile(r"\#(?P<no>[0-9]+)(?P<letter>)(?P<mm>)(?P<inch>)(?![0-9.A-Za-z/])(?!-[0-9])"), _drill),
    (re.compile(
        r"(?:(?P<mm>[0-9]*\.?[0-9]+) *(?:mm *)?(?:U\.?N\.?M(?:\.|\b)|unified +miniature)|L(?:oe|ö|o)wenherz *(?P<named>[0-9]+(?:\.[0-9]+)?)(?: *mm\b)?(?: *[x×] *[0-9]*\.?[0-9]+)?"
        r"|(?P<behind>[0-9]+(?:\.[0-9]+)?) *(?:mm +)?L(?:oe|ö|o)wenherz(?! +form)"
        r"|M? *(?P<old>[0-9]+(?:\.[0-9]+)?)(?: *[x×] *[0-9]*\.?[0-9]+)? +(?:old +(?:SI|DIN|JIS)|SI +1898|pre-ISO +(?:DIN|JIS))(?: +fine)?)(?![0-9A-Za-z_./^*])", re.I), _old_thread),
    (re.compile(rf"(?:Thury[ -]*{_NO}?(?P<before>[0-9]+)|{_NO}?(?P<behind>[0-9]+) *Thury)(?![0-9A-Za-z_./^*])", re.I), _thury),
    (re.compile(r"(?:0?\.8(?:\"| *in)?[- ]*(?:x *)?36 *)?RMS(?: +(?:thread|objective))?(?![0-9A-Za-z_./^*])", re.I), lambda m: (1, Fraction(8, 10) * INCH)),
    (re.compile(
        rf"(?P<no>{_NO})?(?P<size>[0-9]+(?: +|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+)(?: *(?:\"|inch\b|in\b\.?))?(?:(?: *- *| *[x×] *)(?P<tpi>{_TPI})(?: *tpi)?)?"
        r"[ -]*(?P<series>UNS|NS|ASME *1907|camera|tripod|old +(?:BSC|cycle))(?![0-9A-Za-z_./^*])", re.I), _special),
    (re.compile(
        rf"(?P<no>{_NO})?(?P<size>{NUMBER})(?: *(?:\"|inch\b|in\b\.?))?(?:(?:-| *[x×] *)(?P<tpi>{_TPI})(?: *(?:t\.?p\.?i\b\.?|threads? per inch))?)?"
        r" *-?(?P<series>B\.? ?A\.?|British Association|B\.?S\.?W\.?|British Standard Whitworth|Whitworth|Whit\.?|B\.?S\.?F\.?|British Standard Fine"
        r"|B\.?S\.?P\.? ?[TP]\.?|B\.?S\.?P\.?(?: taper| parallel)?|B\.?S\.?C(?:y|\.)?|C\.?E\.?I\.?|cycle|M\.?E\.?|model engineers?'?|B\.?S\.?B\.?|brass"
        r"|N\.?P\.?T\.?|(?:U\.?)?N\.?E\.?F\.?|(?:U\.?)?N\.?[CF]\.?|U\.?N\.?)(?: ?- ?[123][AB]\b)?(?![A-Za-z0-9_])", re.I), _thread),
    (re.compile(rf"{_NO}(?P<size>[0-9]+)(?:-| *x *)(?P<tpi>{_TPI})(?![0-9A-Za-z_./^*])", re.I), lambda m: numbered(m["size"], m["tpi"])),
    (re.compile(
        rf"(?P<no>)(?P<size>[0-9]+(?: +|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[ -]?{_G})\"?(?:-| *x *)(?P<tpi>{_TPI})(?P<series>)(?![0-9A-Za-z_./^*])"
        r"(?! *(?:[\"'°]|(?:in|inch|inches|ins|mm|cm|m|km|um|µm|ft|feet|foot|yd|thou|tpi|deg)\b))"), _thread),
    (re.compile(r"M ?(?P<mm>[0-9]+(?:\.[0-9]+)?)(?:(?: *[xX×] *)(?:[0-9]+\.?[0-9]*|\.[0-9]+)|-[0-9]\.[0-9]+)?(?: ?- ?[3-9][a-hA-H](?:[3-9][a-hA-H])?\b)?(?![0-9A-Za-z_./^*])"
                r"(?! *(?:[\"'°]|(?:in|inch|inches|ins|mm|cm|m|km|um|µm|ft|feet|foot|yd|thou|tpi|deg)\b))"),
     lambda m: (1, Fraction(m["mm"]))),
    (re.compile(rf"(?:G|R[cp]?) ?(?P<size>[0-9]+(?: +|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[ -]?{_G}|[0-9]+)\"?(?: ?[AB]\b)?(?![0-9A-Za-z_./^*])"
                r"(?! *(?:[\"'°]|(?:in|inch|inches|ins|mm|cm|m|km|um|µm|ft|feet|foot|yd|thou|tpi|deg)\b))"),
     lambda m: _pipe(m["size"])),
]  # fmt: skip


# Arithmetic: the longest literal first, then the signs by the usual precedence.

_DEVIATION = rf"(?:{NUMBER})(?: *{_U})?"
_NOUGHT = rf"0(?:\.0*)?(?![0-9.])(?: *{_U})?"
_PAIR = re.compile(
    rf"(?:([-+])({_DEVIATION})/(?:([-+])({_DEVIATION})|()({_NOUGHT}))|()({_NOUGHT})/([-+])({_DEVIATION}))(?![0-9/])(?: *({_WORD}|\"))?"
)


_SPACED = re.compile(
    rf"(?P<s1>[-+])(?P<n1>{NUMBER}) *(?P<u1>{_U}{_BREAK})? +(?P<s2>[-+])(?P<n2>{NUMBER}) *(?P<u2>{_U}{_BREAK})?(?![0-9/.])"
)


def _in_inches(text: str) -> bool:
    """Whether a size and its limits without a unit are inches: all decimals, one of them without its nought (ASME Y14.5)."""
    figures = re.findall(r"[0-9.]+", text)
    return all("." in figure.rstrip(".") or figure == "0" for figure in figures) and any(
        figure.startswith(".") for figure in figures
    )


class Unread(Exception):
    """This reader has no reading."""


class _Reader:
    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0

    def blanks(self) -> None:
        while self.text[self.at : self.at + 1] == " ":
            self.at += 1

    def take(self, signs: str) -> str:
        self.blanks()
        sign = self.text[self.at : self.at + 1]
        if sign and sign in signs:
            self.at += 1
            return sign
        return ""

    def sum(self) -> Any:
        value = self.product()
        while sign := self.take("+-"):
            value = _join(sign, value, self.product())
        return value

    def product(self) -> Any:
        value = self.signed()
        while sign := self.take("*×/÷"):
            value = _join({"×": "*", "÷": "/"}.get(sign, sign), value, self.signed())
        return value

    def signed(self) -> Any:
        if sign := self.take("+-"):
            value = self.signed()
            return _negative(value) if sign == "-" else value
        value = self.toleranced()
        if self.take("^"):
            return _power(value, self.signed())
        return value

    def toleranced(self) -> Any:
        self.blanks()
        start = self.at
        many = re.compile(rf"(?P<n>{NUMBER}) +of +(?! *an? )", re.I).match(self.text, self.at)
        count = number(many["n"]) if many else None
        if many and count is not None:
            self.at = many.end()
            return _join(
                "*",
                (0, count),
                self.toleranced() if self.text[self.at : self.at + 1] != "-" else self.signed(),
            )
        value = self.atom()
        rate = re.compile(r" *per +(?:foot|ft)\b\.?", re.I).match(self.text, self.at)
        if rate and len(value) == 2 and value[0] == 1:
            self.at = rate.end()
            value = (0, value[1] / (12 * INCH))
        self.blanks()
        mark = re.compile(r"±|\+/-|\+-").match(self.text, self.at)
        if mark:
            self.at, lent = mark.end(), self.unit
            spread = self.atom()
            if value[0] == spread[0] == 0 and _in_inches(self.text[start : self.at]):
                value, spread = (1, value[1] * INCH), (1, spread[1] * INCH)
            if spread[0] == 0 and value[0] == 1:
                spread = (1, spread[1] * lent)
            return _limits(value, spread, _negative(spread))
        pair = _PAIR.match(self.text, self.at)
        if pair:
            self.at = pair.end()
            bare = value[0] == 0 and _in_inches(self.text[start : self.at])
            found = self.deviations(pair, value)
            if bare:
                value, found = (1, value[1] * INCH), [(1, each[1] * INCH) for each in found]
            return _limits(value, *found)
        return self.spaced(start, value)

    def spaced(self, start: int, value: Any) -> Any:
        """Two deviations with a blank between: each with its unit behind a size with one, or all bare decimals."""
        found = _SPACED.match(self.text, self.at)
        if found is None or len(value) == 4 or self.text[self.at - 1 : self.at] != " ":
            return value
        with_units = bool(found["u1"] and found["u2"]) and value[0] == 1
        # Without a unit of their own they are in that of the size, where points or noughts say so.
        lent = (
            not found["u1"]
            and not found["u2"]
            and value[0] == 1
            and all("." in found[n] or found[n] == "0" for n in ("n1", "n2"))
        )
        bare = (
            not found["u1"]
            and not found["u2"]
            and value[0] == 0
            and _in_inches(self.text[start : found.end()])
        )
        amounts = [number(found["n1"]), number(found["n2"])]
        factors = [unit(found[u]) if found[u] else self.unit if lent else INCH for u in ("u1", "u2")]
        if (
            not (with_units or bare or lent)
            or found["s1"] == found["s2"]
            or None in amounts
            or None in factors
        ):
            return value
        if with_units and any(
            16 * a * f > value[1] for a, f in zip(amounts, factors, strict=True) if a and f
        ):
            return value  # as wide as that it is a sum
        self.at = found.end()
        ends = [
            (1, a * f * (-1 if sign == "-" else 1))
            for a, f, sign in zip(amounts, factors, (found["s1"], found["s2"]), strict=True)
            if a is not None and f is not None
        ]
        return _limits((1, value[1] * INCH) if bare else value, *ends)

    def deviations(self, pair: re.Match[str], value: Any) -> list[Any]:
        found = []
        # A unit written once, behind either, serves both.
        *halves, behind = pair.groups()
        one, first, two, second = (half for half in halves if half is not None)
        last = re.fullmatch(rf"{NUMBER} *({_U})?", second)
        written = behind or (last[1] if last else None)
        for sign, text in ((one, first), (two, second)):
            m = re.fullmatch(rf"({NUMBER}) *({_U})?", text)
            amount = number(m[1]) if m else None
            if m is None or amount is None:
                raise Unread
            word = m[2] or written
            lent = {1: self.unit, -1: 1 / INCH}.get(value[0], Fraction(1))
            factor = unit(word) if word else lent
            if factor is None:
                raise Unread
            written = written or m[2]
            found.append((value[0], amount * factor * (-1 if sign == "-" else 1)))
        return found

    def atom(self) -> Any:
        self.blanks()
        if self.take("("):
            value = self.sum()
            if not self.take(")"):
                raise Unread
            return value
        best: tuple[int, Any] | None = None
        for pattern, says in (*_NAMED, *_LITERALS):
            m = pattern.match(self.text, self.at)
            if m is None or (best is not None and m.end() <= best[0]):
                continue
            value = says(m)
            if (
                value is None
                and m["tpi" if "tpi" in m.groupdict() else 0]
                and not m.groupdict().get("series", "x")
            ):
                continue  # 1/4-0 is no thread but a sum
            best = m.end(), value
            self.unit = (
                unit(m["u"]) or Fraction(1)
                if "u" in m.groupdict() and m["u"]
                else _old(m["c1"], "line" if m["p1"].lower().startswith("line") else "inch") or Fraction(1)
                if "c1" in m.groupdict()
                else INCH / int(m["nths"])
                if "nths" in m.groupdict() and int(m["nths"])
                else Fraction(1)
            )
        if best is None or best[1] is None:
            raise Unread
        self.at = best[0]
        return best[1]


def read(text: str) -> Any:
    """The value that a written size or sum says, or None."""
    line = re.sub(r"#(?![0-9]).*", "", plain(text)).strip(" \r\n")
    screw = re.fullmatch(r"([0-9]{1,2})-([0-9]{2})", line)
    if screw and numbered(*screw.groups()):
        return numbered(*screw.groups())
    nths = re.fullmatch(r"([0-9]+)-([0-9]+)(?:ths|nds|rds|sts)", line)
    if nths and int(nths[2]):
        return (1, Fraction(int(nths[1]), int(nths[2])) * INCH)
    reader = _Reader(line)
    try:
        value = reader.sum()
    except (Unread, ZeroDivisionError):
        return None
    reader.blanks()
    return value if reader.at == len(line) else None


def _ends(value: Any) -> tuple[Fraction, Fraction, Fraction]:
    return (value[1], value[2], value[3]) if len(value) == 4 else (value[1],) * 3


def _negative(value: Any) -> Any:
    if len(value) == 4:
        return (value[0], -value[1], -value[3], -value[2])
    return (value[0], -value[1])


def _limits(value: Any, one: Any, two: Any) -> Any:
    if "angle" in (value[0], one[0]) or len(value) == 4 or not value[0] == one[0] == two[0]:
        raise Unread
    low, high = sorted((one[1], two[1]))
    return (value[0], value[1], value[1] + low, value[1] + high)


def _join(sign: str, left: Any, right: Any) -> Any:
    if "angle" in (left[0], right[0]):
        return _angles(sign, left, right)
    if sign in "+-":
        if left[0] != right[0]:
            raise Unread
        (a, b, c), (x, y, z) = _ends(left), _ends(right if sign == "+" else _negative(right))
        found, power = (a + x, b + y, c + z), left[0]
    else:
        power = left[0] + right[0] * (1 if sign == "*" else -1)
        (a, *ends), (x, *others) = _ends(left), _ends(right)
        if sign == "/":
            if others[0] <= 0 <= others[1]:
                raise Unread
            x, others = 1 / x, [1 / y for y in others]
        corners = [b * y for b in ends for y in others]
        found = (a * x, min(corners), max(corners))
    return (power, *found) if 4 in (len(left), len(right)) else (power, found[0])


def _angles(sign: str, left: Any, right: Any) -> Any:
    if left[0] == right[0]:
        if sign in "+-":
            return ("angle", left[1] + (right[1] if sign == "+" else -right[1]))
        if sign == "/" and right[1]:
            return (0, left[1] / right[1])
        raise Unread
    angle, other = (left, right) if left[0] == "angle" else (right, left)
    if other[0] != 0 or len(other) == 4 or sign in "+-" or (sign == "/" and (angle is right or not other[1])):
        raise Unread
    return ("angle", angle[1] * other[1] if sign == "*" else angle[1] / other[1])


def _power(value: Any, exponent: Any) -> Any:
    if (
        value[0] == "angle"
        or exponent[0] != 0
        or len(exponent) == 4
        or exponent[1].denominator != 1
        or abs(exponent[1]) > 64
    ):
        raise Unread
    n = int(exponent[1])
    if len(value) == 2:
        return (value[0] * n, value[1] ** n)
    if n == 0:
        return (0, Fraction(1), Fraction(1), Fraction(1))
    if n < 0 and value[2] <= 0 <= value[3]:
        raise Unread
    ends = [value[2] ** n, value[3] ** n] + ([Fraction(0)] if n % 2 == 0 and value[2] < 0 < value[3] else [])
    return (value[0] * n, value[1] ** n, min(ends), max(ends))
