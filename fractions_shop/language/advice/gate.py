"""The one gate before advice is shown: an offer must be readable and keep the figures typed.

Advice is a size that someone will cut to. Whatever pattern made an offer, out of whatever
piece of the line, it is put back into the line here, read again, and its figures are compared
with those that were typed: none may be lost, none invented. What does not pass is not
shown; plain words stand in its place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from fractions import Fraction
from itertools import product

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice.fault_place import code_of
from fractions_shop.language.advice.offers import Advice, Offer
from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS, as_meant, number_value

#: Letters that are typed or scanned for figures.
LOOK_ALIKES = str.maketrans("OolISZ", "001152")

_WHOLES = """one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen
seventeen eighteen nineteen twenty"""
#: Words for whole numbers and for parts, those that makers use.
WHOLES = {word: number for number, word in enumerate(_WHOLES.split(), 1)}
PARTS = {
    "half": 2, "halves": 2, "third": 3, "quarter": 4, "eighth": 8, "tenth": 10, "sixteenth": 16,
    "thirtysecond": 32, "sixtyfourth": 64,
}  # fmt: skip

#: What is said where no offer is sure.
PLAIN = "what was meant cannot be told from it: write each size with its unit, such as 2 1/32 in"

_FIGURES = re.compile(rf"[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|\.[0-9]+|[{GLYPHS}]")
_UNITED = re.compile(
    rf"(?<![0-9.])(?P<figure>[0-9]++(?:/[0-9]++|\.[0-9]++)?|\.[0-9]++) *(?P<unit>{units.alternatives(letters=True)})(?![\w])",
    re.IGNORECASE,
)
_PARTED = re.compile(r"[0-9]+(?:[.,'][0-9]+)+")
_LETTERED = re.compile(r"(?<![A-Za-z_])(?=[0-9./OolISZ]*[OolISZ])[0-9./OolISZ]+(?![A-Za-z_])")
_SAID = re.compile(
    rf"\b(?:(?P<count>an?|[0-9]+|{'|'.join(WHOLES)})[ -]+)?"
    r"(?P<part>half|halves|(?:third|quarter|eighth|tenth|sixteenth|thirty[ -]?second|sixty[ -]?fourth)s?)\b"
    rf"|\b(?P<whole>{'|'.join(WHOLES)}|an?)\b",
    re.IGNORECASE,
)
#: More readings of the separators of one line than this are not tried: no advice is sure then.
_MOST = 64


def passed(error: InputError, reads: Callable[[str], bool]) -> InputError:
    """The error with such of its offers as may be typed; `reads` tells whether a line is accepted."""
    advice = error.advice
    if not isinstance(advice, Advice):
        return error
    kept = tuple(offer for offer in advice.offers if fits(offer, error, reads))
    if kept == advice.offers:
        return error
    words = advice.only(kept) or PLAIN
    less = error.with_advice(words)
    return less if kept else passed(less, reads)  # plain words may hold a smaller offer of their own


def fits(offer: Offer, error: InputError, reads: Callable[[str], bool]) -> bool:
    """Whether an offer, as the line or in the place of what is marked, says what was typed and is read."""
    line = as_meant(error.text)
    typed = None if offer.worked or offer.completes else _typed(code_of(line))
    for whole in _placed(offer.text, line, error.start, error.end):
        if typed is not None and _sorted(figures(code_of(whole))) not in typed:
            continue
        if _makes_an_inch_metric(whole, line) or not (offer.worked or _keeps_units(whole, line)):
            continue
        if reads(whole):
            return True
    return False


def _placed(text: str, line: str, start: int, end: int) -> Iterator[str]:
    yield text
    yield line[:start] + text + line[max(start, end) :]


def figures(text: str) -> list[Fraction | str]:
    """The numbers of a text, in order; a fraction is one, and one of zero is left as it is written."""
    values: list[Fraction | str] = []
    for match in _FIGURES.finditer(re.sub(r"(?<=[0-9]) */ *(?=[0-9])", "/", as_meant(text))):
        piece = match[0]
        zero = "/" in piece and not int(piece.split("/")[1])
        values.append(piece if zero or len(piece) > 40 else number_value(piece))
    return values


def _sorted(values: list[Fraction | str]) -> tuple[Fraction | str, ...]:
    return tuple(sorted(values, key=lambda value: (isinstance(value, str), value)))


def _typed(line: str) -> set[tuple[Fraction | str, ...]]:
    """The figures of a line in each way that its letters, words and separators may be meant."""
    typed = set()
    for text in {
        line,
        _LETTERED.sub(lambda m: m[0].translate(LOOK_ALIKES), line),
        _SAID.sub(_in_figures, line),
    }:
        runs = list(_PARTED.finditer(text))
        ways = [(match[0], *number_meanings(match[0])) for match in runs]
        if _count(ways) > _MOST:
            continue
        for chosen in product(*ways):
            whole = text
            for match, meaning in reversed(list(zip(runs, chosen, strict=True))):
                whole = f"{whole[: match.start()]}{meaning}{whole[match.end() :]}"
            typed.add(_sorted(figures(whole)))
    return typed


def _count(ways: list[tuple[str, ...]]) -> int:
    total = 1
    for way in ways:
        total *= len(way)
    return total


def _in_figures(match: re.Match[str]) -> str:
    """`3/4` for three quarters, `12` for twelve."""
    if match["part"]:
        top, bottom = part_figures(match["count"], match["part"])
        return f"{top}/{bottom}"
    return str(WHOLES.get(match["whole"].lower(), match["whole"]))


def part_figures(count: str | None, part: str) -> tuple[int, int]:
    """The 3 and the 4 of `three quarters`."""
    word = part.lower().replace(" ", "").replace("-", "")
    bottom = PARTS.get(word) or PARTS[word.removesuffix("s")]
    count = (count or "a").lower()
    return (int(count) if count.isdigit() else WHOLES.get(count, 1)), bottom


def number_meanings(text: str) -> tuple[str, ...]:
    """The plain numbers that a run of figures with separators may mean: `1,234` is 1234 or 1.234.

    Separators part thousands where each behind one has three figures and the first one to
    three; the last of another kind, or one alone, may mark decimals. `12,34,567` means none.

    >>> number_meanings("1.234,5"), number_meanings("12,34,567")
    (('1234.5',), ())
    """
    pieces = re.split("[.,']", text)
    signs = re.findall("[.,']", text)
    last = signs[-1]
    meanings = []
    if len(set(signs)) == 1 and _thousands(pieces) and last != ".":
        meanings.append("".join(pieces))
    rest = set(signs[:-1])
    alone = len(signs) == 1
    if last != "'" and (alone or (len(rest) == 1 and last not in rest and _thousands(pieces[:-1]))):
        meanings.append(f"{''.join(pieces[:-1])}.{pieces[-1]}")
    return tuple(meanings)


def _thousands(pieces: list[str]) -> bool:
    front, *rest = pieces
    return len(front) <= 3 and bool(front.strip("0")) and all(len(piece) == 3 for piece in rest)


def _keeps_units(whole: str, line: str) -> bool:
    """Whether no figure that was typed with its unit right behind it stands with another's in what is offered."""
    typed, offered = _united(line), _united(whole)
    return all(units_of & typed[value] for value, units_of in offered.items() if value in typed)


def _united(text: str) -> dict[Fraction, set[str]]:
    """The units that stand right behind each of the figures of a text."""
    united: dict[Fraction, set[str]] = {}
    for match in _UNITED.finditer(as_meant(code_of(text))):
        unit = units.find(match["unit"])
        if unit is None:
            continue
        with suppress(ShopError):  # a figure that is none, such as 1/0 or one of too many digits
            united.setdefault(number_value(match["figure"]), set()).add(unit.name)
    return united


def _makes_an_inch_metric(whole: str, line: str) -> bool:
    """Whether a metric unit that was not typed is put on a 64th, or on a decimal such as .193.

    No metric rule has 64ths, and metric decimals have their zero before the point, which
    inch ones lack (ASME Y14.5, decimal inch dimensioning).
    """
    words = "|".join(re.escape(word) for unit in units.UNITS if unit.metric for word in unit.words)
    split = re.compile(rf"[0-9]/(?:4|8|16|32|64|128) *(?:{words})\b")
    if any(part not in split.findall(line) for part in split.findall(as_meant(whole))):
        return True
    points = re.findall(r"(?<![0-9])\.[0-9]+", line)
    return any(
        re.search(rf"(?<![0-9])0?{re.escape(point)} *(?:{words})\b", whole)
        and not re.search(rf"{re.escape(point)} *(?:{words})\b", line)
        for point in points
    )
