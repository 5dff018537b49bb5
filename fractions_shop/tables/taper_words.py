"""How tapers and taper pins are written: patterns for a grammar, and what they say; no table is loaded here."""

from __future__ import annotations

import re
from typing import NamedTuple

from fractions_shop.size.leads import lead

#: The kinds of machine tapers, each with the words that name it and its letters, which need no word beside them.
KINDS = {
    "Morse": (r"Morse", r"M\.?T\.?"),
    "Jacobs": (r"Jacobs", r"J\.?T\.?"),
    "Jarno": (r"Jarno", ""),
    "Brown & Sharpe": (r"Brown[ ]*(?:&|and)[ ]*Sharpe|B\.?[ ]?&[ ]?S\.?", ""),
}
#: Words of kinds that are of a gauge too, and want the word taper beside them.
_SHARED = ("Brown & Sharpe",)

_NO = r"(?:No\b\.?[ ]*|number[ ]+|\#)"
_NUMBER = r"(?:[0-9]{1,2}[ -]1/2|[0-9]{1,2}/0|0{2,7}|[0-9]{1,2})(?:[ ]+short\b)?(?![0-9/.]|[ ]*(?:in|mm)\b)"
_MM = r"[0-9]{1,2}(?:\.[0-9])?[ ]*mm\b"
_REAMER = r"(?:[ ]+reamers?\b)?"
_X = r"(?:[ ]*[x×](?=[ ]*[0-9.]))?"


def _names(shared: bool) -> str:
    return "|".join(words for kind, (words, _) in KINDS.items() if shared or kind not in _SHARED)


_LETTERS = "|".join(letters for _, letters in KINDS.values() if letters)
_ANY, _CLEAR = f"(?:{_names(True)})", f"(?:{_names(False)})"
_BY_LETTERS = rf"(?:{_LETTERS})[ -]?{_NUMBER}|{_NUMBER}[ ]?(?:{_LETTERS})(?![A-Za-z0-9])"
#: What stands behind the word `taper`: `Morse 2`, `No 2 Morse`, `MT2`, `pin No 4`, `pin 5 mm`.
TAPER_PATTERN = (
    rf"(?i:{_ANY}(?:[ ]+taper)?[ ]*{_NO}?{_NUMBER}|{_NO}?{_NUMBER}[ ]*{_ANY}(?:[ ]+taper)?(?![A-Za-z0-9])"
    rf"|{_BY_LETTERS}|pins?[ ]+(?:{_MM}|{_NO}?{_NUMBER}){_REAMER}{_X}|{_NO}?{_NUMBER}[ ]+pins?\b{_REAMER}{_X})"
)
#: What names a taper by itself, where it is not a name of the sheet: `Morse taper 2`, `MT2`, `No 4 taper pin`.
TAPER_ALONE_PATTERN = (
    rf"(?i:{_ANY}[ ]*{_NO}?{_NUMBER}[ ]+taper\b|(?:{_CLEAR}(?:[ ]+taper)?|{_ANY}[ ]+taper)[ ]*{_NO}?{_NUMBER}"
    rf"|{_NO}?{_NUMBER}[ ]*(?:{_CLEAR}(?:[ ]+taper)?|{_ANY}[ ]+taper)(?![A-Za-z0-9])"
    rf"|{_BY_LETTERS}|(?:{_MM}|{_NO}?{_NUMBER})[ ]+taper[ ]+pins?\b{_REAMER}{_X})"
    r"(?![ ]*(?:[-+*/^)=]|,[ ]*[A-Za-z_]|(?:reads|as|of|is|clears)\b))"
)

#: Found in every text that holds one.
TAPER_LEAD_WORDS = ("morse", "jacobs", "jarno", "brown", "b&", "pin", "mt", "jt")
TAPER_LEAD = lead(["morse", "jacobs", "jarno", "brown", r"b\.?[ ]?&", "pin", r"m\.?t", r"j\.?t"])

_READ = re.compile(
    r"(?i)(?P<pin>(?:taper[ ]+)?pins?\b)|"
    + "|".join(
        f"(?P<k{n}>{words}{f'|{letters}' if letters else ''})"
        for n, (words, letters) in enumerate(KINDS.values())
    )
)


class WrittenTaper(NamedTuple):
    """A taper as it is written: its kind (`pin` for a pin), its number, and whether that is said to be No or mm."""

    kind: str
    number: str
    numbered: bool
    millimetres: bool


def read_taper(text: str) -> WrittenTaper | None:
    """What a text that the patterns find says; None for any other."""
    plain = re.sub(r"[ ]*[x×][ ]*$", "", " ".join(text.split()))
    kind = _READ.search(plain)
    if kind is None:
        return None
    rest = re.sub(r"(?i)\btaper\b", " ", f"{plain[: kind.start()]} {plain[kind.end() :]}")
    number = re.search(
        r"(?i)(?P<no>No\b\.?|number\b|\#)?[ ]*(?P<number>[0-9]{1,2}[ -]1/2|[0-9]{1,2}/0|[0-9]{1,7}(?:\.[0-9])?)"
        r"(?P<short>[ ]+short)?[ ]*(?P<mm>mm)?",
        rest,
    )
    if number is None:
        return None
    which = "pin" if kind["pin"] else next(name for n, name in enumerate(KINDS) if kind[f"k{n}"])
    digits = number["number"].replace("-", " ")
    if re.fullmatch("0{2,7}", digits):
        digits = f"{len(digits)}/0"
    elif digits == "1/0":
        digits = "0"
    said = f"{digits} short" if number["short"] else digits
    return WrittenTaper(which, said, number["no"] is not None, number["mm"] is not None)
