"""Gauges, drills and the tables to look among, found by the beginning of what they are called."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from fractions_shop.figures.wording import both
from fractions_shop.tables.patterns import COUNTRIES

_BEHIND = re.compile(
    r"\s*(?:[^\W\d]\w*\s*=\s*)?(gauge|drill) +(?=(?:no\.? *|#|letter *)?[0-9a-z/. ]*$)", re.IGNORECASE
)
_AMONG = re.compile(r"\brecover\b.*\bamong +((?:[\w ]+, *)*)(?=[\w ]*$)", re.IGNORECASE)
_TAPER = re.compile(r"[ ]*taper[ ]+(.*)$", re.IGNORECASE)
_NUMBER_SIGN = re.compile(r"^(?:no\b\.?|number\b|#) *(?=[0-9])")
#: What is offered before anything is typed: the gauges of one middling number.
_MIDDLING = "18"


def behind_word(text: str) -> tuple[int, list[tuple[str, str]]]:
    """Where what follows `gauge` or `drill` starts, and the gauges or drills that begin so, with their sizes."""
    match = _BEHIND.match(text)
    if match is None:
        return len(text), []
    typed = _key(text[match.end() :])
    if match[1].lower() == "gauge":
        names = _gauges()
        typed = typed or _MIDDLING
    else:
        names = _drills()
    return match.end(), [(name, size) for name, size in names if typed and _begins(_key(name), typed)]


def _begins(key: str, typed: str) -> bool:
    """Whether a name begins as typed, with or without its word: `F` for letter F, `43` for No 43."""
    short = key.removeprefix("letter")
    for country in COUNTRIES:
        short = short.removeprefix(country.lower())
    return any(spelling.startswith(typed) for spelling in (key, short, short.removeprefix("no")))


def _key(name: str) -> str:
    """A name in one spelling: `#43 drill` as no43drill."""
    return _NUMBER_SIGN.sub("no", name.strip().lower()).replace(" ", "")


def behind_taper(text: str) -> tuple[int, list[tuple[str, str]]]:
    """Where the name of a taper behind `taper` starts, and the tapers that it may begin."""
    match = _TAPER.match(text)
    if match is None:
        return len(text), []
    from fractions_shop.tables.tapers import tapers

    typed = _key(match[1])
    named = ((taper.name.removeprefix("taper "), taper.kind) for taper in tapers().values())
    return match.start(1), [each for each in named if _key(each[0]).startswith(typed)]


@cache
def _gauges() -> tuple[tuple[str, str], ...]:
    from fractions_shop.tables.gauges import all_gauges

    return tuple((gauge.name, both(gauge.size, 4)) for gauge in all_gauges())


@cache
def _drills() -> tuple[tuple[str, str], ...]:
    from fractions_shop.tables.drills import all_drills

    return tuple((f"{drill.name} drill", both(drill.size, 4)) for drill in all_drills())


def behind_among(text: str) -> tuple[int, Iterator[tuple[str, str]]]:
    """Where a name behind `recover ... among` starts, and what is not yet named there, each with its meaning."""
    match = _AMONG.search(text)
    if match is None:
        return len(text), iter(())
    from fractions_shop.meant.catalogue import TABLES
    from fractions_shop.meant.priors import NO_TABLES

    named = {word.strip().lower() for word in match[1].split(",")}
    every = {**TABLES, **NO_TABLES}
    return match.end(), ((name, meaning) for name, meaning in every.items() if name not in named)
