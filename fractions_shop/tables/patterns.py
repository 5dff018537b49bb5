"""How drills and gauges are written: regular expressions and words that load no table.

The patterns are for a grammar, so they are not anchored, hold no capturing group and
look ahead to leave threads (`#6-32`) and plain sums alone. Whether the size exists is
for `find_drill` and `find_gauge` to say.
"""

from __future__ import annotations

import re

from fractions_shop.size import units
from fractions_shop.size.leads import lead
from fractions_shop.tables.gauge_records import SERIES


def _words() -> dict[str, str]:
    keys: dict[str, str] = {}
    for series in SERIES.values():
        countries = tuple(f"{country} " for country in series.countries)
        for word in (f"{country}{word}" for word in series.words for country in ("", *countries)):
            keys.setdefault(word, series.key)
    return keys


#: What may follow a gauge number, and the series it names (the keys of SERIES).
GAUGE_WORDS = _words()
#: What may stand before the number of a wood screw, as it may before its word.
COUNTRIES = tuple(dict.fromkeys(country for series in SERIES.values() for country in series.countries))
#: Words after a gauge number that are read in order to be refused, with the reason; they go before those above.
_STEEL_INITIALS = "W&M are a maker's initials for the US steel wire gauge: write US steel wire"
_US = (
    "US standard means two gauges: write MSG for the manufacturers' one of today, or US 1893 for the old one"
)
GAUGE_REFUSED = {
    "W&M": _STEEL_INITIALS,
    **dict(series.without_country for series in SERIES.values() if series.without_country),
    "US standard": _US,
    "USS": _US,
    "USG": _US,
    "US": _US,
}
#: Words that name no series at all.
GAUGE_BARE = ("gauge", "gage", "ga", "sheet")

# A blank behind # makes it a comment.
_NUMBER = r"(?:(?:No\b\.?|number\b)[ ]*|\#)"


def gauge_word(text: str) -> str:
    """`text` in the form in which the words above are looked up: without dots, case or apostrophes."""
    plain = re.sub(r"[.']", "", text).casefold()
    plain = re.sub(" ?& ?", "&", " ".join(plain.split()))
    return re.sub(r"(?<=.) ?(?:sheet )?(?:gauge|gage)$", "", plain)


def _written(word: str) -> str:
    """A regular expression for a word of the tables as people write it."""
    if word.isupper() and word.isalnum():
        return r"\.?".join(word) + r"\b\.?"
    if "&" in word and word.isupper():
        first, last = word.split("&")
        return rf"{first}\.?[ ]?&[ ]?{last}\b\.?"
    if len(word) < 3:
        return rf"{word}\b\.?"
    parts = [part.replace("&", "[ ]?&[ ]?") for part in word.split()]
    return "[ ]+".join(re.sub(r"(?<=...)s$", "'?s'?", part) for part in parts) + r"\b"


_WORDS = (*GAUGE_WORDS, *GAUGE_REFUSED, *GAUGE_BARE)
_GAUGE_WORD = "(?:" + "|".join(_written(word) for word in sorted(_WORDS, key=len, reverse=True)) + ")"

_COUNTRY_WORDS = dict.fromkeys(
    word for series in SERIES.values() if series.countries for word in series.words
)
_COUNTRY_WORD = "(?:" + "|".join(map(_written, _COUNTRY_WORDS)) + ")"

#: `18 SWG`, `No 8 BWG`, `4/0 AWG`, `22AWG`, `British No 8 wood screw`; `18 gauge`, to be refused.
GAUGE_PATTERN = (
    rf"(?i:(?:{'|'.join(COUNTRIES)})[ ]+{_NUMBER}?[0-9]{{1,7}}[ ]*{_COUNTRY_WORD}(?![A-Za-z0-9])"
    rf"|{_NUMBER}?(?:[0-9]{{1,2}}/0|[0-9]{{1,7}})[ ]*{_GAUGE_WORD}"
    r"(?:[ ]+(?:sheet[ ]+)?(?:gauge|gage)\b)?(?![A-Za-z0-9]))"
)

_DRILL_SIZE = (
    r"(?:(?:[0-9]+(?:[ ]+|-))?[0-9]+/[0-9]+(?:[ ]*(?:inch\b|in\b|\"))?"
    r"|[0-9]+[ ]*(?:inch\b|in\b|\")"
    r"|(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[ ]*mm\b)?)"
)
#: After `#43` these make it something other than a drill: a thread or a gauge, which have words of capitals.
_NOT_A_DRILL = (
    r"(?![0-9A-Za-z./]|-[0-9]|[ ]*(?:[x×](?![A-Za-z])|thread\b|screw\b"
    rf"|(?!(?:{units.alternatives(letters=True)})\b)(?-i:[A-Z]\.?[A-Z])|{_GAUGE_WORD}))"
)

#: `No 43 drill`, `#43 drill`, `letter F drill`, `F drill`, `13/64 drill`, `5.1 mm drill`, `#43`.
DRILL_PATTERN = (
    rf"(?i:(?:{_NUMBER}[0-9]{{1,4}}|(?:letter[ ]+)?[A-Z]|{_DRILL_SIZE})[ ]+(?:twist[ ]+)?drill\b"
    rf"|\#[0-9]{{1,4}}{_NOT_A_DRILL})"
)


def _beginning(word: str) -> str:
    """What every spelling of a word begins with: two of its capitals, or three of its letters."""
    return word[:3] if word[:3].isalpha() and word[1:3].islower() else word[:2]


_BEGINNINGS = sorted({_beginning(word) for word in _WORDS})
_BEGUN = lead(word if word[1].islower() else rf"{word[0]}\.?[ ]?{word[1]}" for word in _BEGINNINGS)
#: Found in every text that holds a gauge or a drill, and quick to compile; words without dots and blanks that are, too.
GAUGE_LEAD_WORDS = tuple(word.lower() for word in _BEGINNINGS)
GAUGE_LEAD = rf"[0-9][ ]*(?:{_BEGUN})"
DRILL_LEAD = rf"\#|{lead(['drill'])}"
