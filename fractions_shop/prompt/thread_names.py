"""Threads that exist, found by the beginning of what they are called."""

from __future__ import annotations

import re
from bisect import bisect_left
from functools import cache
from typing import NamedTuple

from fractions_shop.size.notation import as_meant

#: Two numbers, a thread's size among them, are never farther back than this.
_LONGEST = 24
#: Where one may begin: at the start, behind a blank or a sign, behind a minus that joins nothing.
_START = re.compile(r"(?:^|^-|(?<=[ +*(,=/])-?)(?<![0-9A-Za-z])(?=[0-9A-Za-z#.])")
_JOINT = re.compile(r" *[x×-] *(?=[0-9.]|$)")
_NUMBER_SIGN = re.compile(r"^(?:no\b\.?|nr\b\.?|number\b|#) *(?=[0-9])", re.IGNORECASE)


class Known(NamedTuple):
    """A thread: its name, what it is in a few words, and the ways it may be begun."""

    name: str
    meaning: str
    keys: tuple[str, ...]


@cache
def known() -> tuple[Known, ...]:
    """Every thread of every series, those that are met with seldom last."""
    from fractions_shop.threads.series import told_apart

    threads = []
    for thread in sorted(told_apart(), key=lambda thread: thread.record.rare):
        keys = [_key(thread.name)]
        if thread.record.size_is != "mm" or thread.record.words:  # 3 M would begin 3 mm
            keys.append(_key(f"{thread.size} {thread.series}"))
        threads.append(Known(thread.name, thread.record.title, tuple(dict.fromkeys(keys))))
    return tuple(threads)


#: Smaller screws are a watchmaker's (common practice, no source).
_LEAST_AT_THE_BENCH = "10 BA"


@cache
def _size_only() -> re.Pattern[str]:
    """A size alone, as `1/4` or `No 6` or `M3`, to which a pitch or a series may follow."""
    from fractions_shop.threads.records import MM_LETTERS

    return re.compile(rf"(?:no|{'|'.join(MM_LETTERS).lower()})?[0-9./ ]+")


@cache
def _small_letters() -> re.Pattern[str]:
    """What would begin a designation in capitals; in small letters it is a name of the user's."""
    from fractions_shop.threads.records import BORE_LETTERS, MM_LETTERS

    return re.compile(rf"(?:{'|'.join((*MM_LETTERS, *BORE_LETTERS)).lower()}) ?[0-9]")


@cache
def series_words() -> dict[str, str]:
    """The series, and words for several of them, with what they are."""
    from fractions_shop.threads.records import BY_KEY, GROUPS

    named = {key: series.title for key, series in BY_KEY.items()}
    return named | {
        word: ", ".join(keys) for word, keys in GROUPS.items() if word not in map(str.lower, named)
    }


def from_the_bench_up() -> list[Known]:
    """All threads by their size, but those that are smaller than a bench cuts last."""
    threads = list(known())
    first = next((n for n, thread in enumerate(threads) if thread.name == _LEAST_AT_THE_BENCH), 0)
    return threads[first:] + threads[:first]


def beginning(text: str) -> list[Known]:
    """The threads whose name begins as `text` does, a size being whole unless a pitch follows it.

    >>> [thread.name for thread in beginning("1/4-2")][:2]
    ['1/4-20 UNC', '1/4-26 BSC']
    """
    key = _key(text)
    if not key:
        return []
    whole = _size_only().fullmatch(key) is not None
    threads, keys = known(), _keys()
    places = set()
    for n in range(bisect_left(keys, (key, 0)), len(keys)):
        name, place = keys[n]
        if not name.startswith(key):
            break
        if _begins(name, key, whole):
            places.add(place)
    return [threads[place] for place in sorted(places)]


@cache
def _keys() -> list[tuple[str, int]]:
    """Every way to begin a thread, in the order of the alphabet, and which of the known ones that is."""
    return sorted((key, place) for place, thread in enumerate(known()) for key in thread.keys)


def at_end(text: str) -> tuple[int, list[Known]]:
    """Where the designation that ends `text` starts, and the threads that it may become."""
    meant = as_meant(text)
    for match in _START.finditer(meant[-_LONGEST:]):
        start = max(0, len(meant) - _LONGEST) + match.end()
        tail = meant[start:]
        if start and meant[start - 1] == "/" and meant[max(0, start - 2)].isdigit():
            continue
        if not re.search(r"[0-9]", tail) or not _may_be_one(tail):
            continue
        names = beginning(tail)
        if names:
            return start, names
    return len(text), []


def _may_be_one(tail: str) -> bool:
    """Whether a tail is more than a plain number: a fraction, or a number with a letter or sign to it."""
    if _small_letters().match(tail):
        return False
    return re.search(r"[0-9]/[0-9]|[0-9] ?[A-Za-z]|[A-Za-z#] ?[0-9]|[0-9]-", tail) is not None


def _begins(name: str, typed: str, whole: bool) -> bool:
    if not name.startswith(typed):
        return False
    return not whole or name[len(typed) : len(typed) + 1] not in "0123456789/." or len(name) == len(typed)


def _key(text: str) -> str:
    """A designation in one spelling: small letters, no needless blanks, one sign before the pitch."""
    text = " ".join(as_meant(text).split())
    text = _NUMBER_SIGN.sub("no", text).lower().replace('"', "")
    text = _JOINT.sub("-", text)
    return re.sub(r"(?<=[0-9]) (?=[a-z])|(?<=[a-z]) (?=[0-9])", "", text)
