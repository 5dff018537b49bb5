"""What may stand where the cursor is, with a few words on each.

The grammar says what kind of thing may follow; the names given, the tables of units,
rules and functions, and the thread series say what there is of it. A designation of a
thread is replaced whole, never in part.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import NamedTuple

from fractions_shop import requests
from fractions_shop.figures.size_words import size_line
from fractions_shop.language import grammar
from fractions_shop.language.advice.bench_words import respelling
from fractions_shop.language.advice.explain import called, phrases
from fractions_shop.language.fault import Fault
from fractions_shop.language.grammar_tables import tables
from fractions_shop.language.lalr import NotExpected, NoToken
from fractions_shop.language.parser import MAX_LINE
from fractions_shop.prompt import stock_names, thread_names
from fractions_shop.prompt.own_words import WORDS, own_word
from fractions_shop.prompt.unfinished_lines import LINE_SMALL_WORDS
from fractions_shop.requests import help as request_help
from fractions_shop.sheet.feature_lines import WORDS as FEATURES
from fractions_shop.sheet.line_words import LINE_WORDS, line_words
from fractions_shop.size.notation import as_meant
from fractions_shop.size.value import Value

#: What is named, each with its size.
Names = Mapping[str, Value]

_WORD = re.compile(r"[^\W\d]\w*$")
_OPENING = re.compile(r"\s*(?:[^\W\d]\w*\s*=\s*)?([^\W\d]\w*)\s+")
_FROM = re.compile(r"\bfrom +", re.IGNORECASE)
_RULE = re.compile(r"\b(to|on|as|rule) +((?:[0-9]\w*|half ?\w*|\w*))$", re.IGNORECASE)
_RULE_WORDS = {"TO", "ON", "AS", "RULE"}
#: A function's bracket just opened, and what stands in it.
_CALL = re.compile(r"([^\W\d]\w*)\( *([^(),]*)$")
#: A line that makes a part, cuts in one or lays out stock; and one whose part is still to be named.
_LINE = re.compile(rf"\s*({'|'.join(LINE_SMALL_WORDS)})\s", re.IGNORECASE)
_IN_PART = re.compile(rf"\s*(?:{'|'.join(FEATURES)})\s+in\s+([^:#]*)$", re.IGNORECASE)
NO_PARTS: Mapping[str, str] = {}
#: What begins an expression, and so may be a name or a function.
_STARTERS = frozenset({"NUMBER", "LPAR", "NAME"})
_MOST = 60
#: What help tells of the prompt itself.
_ABOUT = {"keys": "keys that do something here", "settings": "what is set once, and where"}


class WordOffer(NamedTuple):
    """A text to put in place of what stands from `start` on, and what it means."""

    text: str
    start: int
    meaning: str


class Place(NamedTuple):
    """What the grammar says of a place: the terminals that fit, and the kind of the last one."""

    fits: frozenset[str]
    last: str


#: So many letters of an old unit are typed before it is offered unasked.
_OLD_FROM = 3


def word_offers(
    text: str, names: Names, asked: bool = False, parts: Mapping[str, str] = NO_PARTS
) -> list[WordOffer]:
    """What may stand at the end of `text`; `asked` for it (Tab) also without a letter typed.

    `parts` are the parts of the sheet, each with a few words on it.
    """
    if len(text) > MAX_LINE:
        return []
    offered: list[WordOffer] = []
    for offer in _all(text, names, asked, parts):
        if offer.text != text[offer.start :] and all(offer.text != other.text for other in offered):
            offered.append(offer)
        if len(offered) >= _MOST:
            break
    return offered


def names_begun(text: str, names: Names) -> list[WordOffer]:
    """The names that a line of figures may begin with, which have been read before."""
    typed = text.lstrip()
    start = len(text) - len(typed)
    if not typed or not typed.isidentifier():
        return []
    offered = _matching(
        {name: size_line(value) for name, value in names.items() if name != "ans"}, typed, start, False
    )
    return [offer for offer in offered if offer.text.startswith(typed) and offer.text != typed]


def _all(text: str, names: Names, asked: bool, parts: Mapping[str, str]) -> Iterator[WordOffer]:
    own = own_word(text, names)
    if own is not None and " " in text.lstrip():
        yield from _behind_own(own[0], text, names, asked, parts)
        return
    if (line := _LINE.match(text)) is not None:
        yield from _in_line(line, text, parts)
        # A size may stand wherever one of its words may.
    opening = _OPENING.match(text)
    if opening is not None and "DESIGNATION" in _place(as_meant(opening[0])).fits:
        yield from _behind_thread(opening, text)
        return
    call = _CALL.search(text)
    if call is not None and (function := request_help.functions().get(call[1])) and function.of_thread:
        begun = thread_names.beginning(call[2]) if call[2].strip() else thread_names.from_the_bench_up()
        yield from (WordOffer(each.name, call.start(2), each.meaning) for each in begun)
        return
    if asked and (right := _respelt(text)) is not None:
        yield right
    rule = _RULE.search(text)
    if rule is not None:
        yield from _rules(rule, names)
        return
    start, tables = stock_names.behind_among(text)
    yield from _matching(dict(tables), text[start:], start, True)
    start, named = stock_names.behind_word(text)
    yield from (WordOffer(name, start, meaning) for name, meaning in named)
    start, named = stock_names.behind_taper(text)
    yield from (WordOffer(name, start, meaning) for name, meaning in named)
    start, named_so = thread_names.at_end(text)
    threads = [WordOffer(thread.name, start, thread.meaning) for thread in named_so]
    word = _WORD.search(text)
    place = word.start() if word else len(text)
    typed = text[place:]
    # With a dash or a letter to it, it is a thread. A size alone is more often a size: then threads
    # are offered at the start of a line, and elsewhere when asked for.
    sure = re.search("[-A-Za-z#]", text[start:]) is not None
    if sure or not text.endswith(" "):
        yield from (threads if sure or asked or not text[:start].strip() else ())
    if typed or asked:
        yield from _words(text[:place], place, typed, names, asked)
    if asked:
        yield from threads


def _in_line(line: re.Match[str], text: str, parts: Mapping[str, str]) -> Iterator[WordOffer]:
    """What may follow in a line that cuts in a part, or that makes one: the part's name, and its small words."""
    begun = _IN_PART.match(text)
    if begun is not None:
        yield from _matching(
            {f"{name}:": said for name, said in parts.items()}, begun[1], begun.start(1), True
        )
        return
    word = _WORD.search(text)
    if word is not None and word.start() > line.end(1):
        words = dict.fromkeys(LINE_SMALL_WORDS[line[1].lower()], "")
        yield from (
            offer
            for offer in _matching(words, word[0], word.start(), False)
            if offer.text.startswith(word[0].lower())
        )


def _respelt(text: str) -> WordOffer | None:
    """The word that opens a line in place of one with a slip in it, with the line behind it."""
    further = tuple(row.word for row in LINE_WORDS if row.is_word)
    respelt = respelling(f"{as_meant(text)} ", further)
    if respelt is None:
        return None
    word, right, _ = respelt
    start = as_meant(text).index(word)
    behind = text[start + len(word) :]
    return WordOffer(f"{right}{behind}", start, f"in place of {word}")


def _rules(match: re.Match[str], names: Names) -> Iterator[WordOffer]:
    """The rules, and behind `as` the units, where the grammar takes one."""
    start = match.start(2)
    if _place(as_meant(match.string[:start])).last not in _RULE_WORDS:
        return
    yield from _matching(request_help.rules(), match[2], start, True)
    if match[1].lower() == "as":
        yield from _matching(request_help.unit_words(), match[2], start, True)


def _behind_own(
    word: str, text: str, names: Names, asked: bool, parts: Mapping[str, str]
) -> Iterator[WordOffer]:
    """What may follow one of the prompt's own words."""
    if word == "help":
        start = len(text) - len(text.split(" ")[-1])
        topics = {name: _meaning(name) for name in (*request_help.topics(), *WORDS, *line_words(), *_ABOUT)}
        yield from _matching(topics, text[start:], start, True)
    elif word in ("show", "why", "drop", "rename", "draw"):
        start = len(text) - len(text.split(" ")[-1])
        named = {
            name: size_line(value)
            for name, value in names.items()
            if name != "ans" or word in ("show", "draw")
        }
        yield from _matching(named, text[start:], start, True)
        if word != "draw":
            begun = text.lstrip().partition(" ")[2].lstrip()
            yield from _matching(parts, begun, len(text) - len(begun), True)
    elif word in ("open", "save", "print") and asked:
        yield from _files(text)


def _files(text: str) -> Iterator[WordOffer]:
    """The files and folders whose path begins as typed."""
    start = len(text) - len(text.split(" ")[-1])
    folder, _, name = text[start:].rpartition("/")
    shown = f"{folder}/" if "/" in text[start:] else ""
    try:
        with os.scandir(Path(shown or ".").expanduser()) as entries:
            listed = sorted((e.name, e.is_dir()) for e in entries if e.name.startswith(name))
    except OSError:
        return
    for entry, is_folder in listed:
        if not entry.startswith(".") or name.startswith("."):
            yield WordOffer(
                f"{shown}{entry}{'/' if is_folder else ''}", start, "folder" if is_folder else "file"
            )


@cache
def _meaning(name: str) -> str:
    topic = request_help.topic(name)
    return topic.meaning if topic else {**WORDS, **line_words(), **_ABOUT}[name]


def _behind_thread(designation: re.Match[str], text: str) -> Iterator[WordOffer]:
    """What may follow a word that takes a thread's name: a designation, or the series to take one from."""
    start = designation.end()
    source = _FROM.search(text, start) if designation[1].lower() == "substitute" else None
    if source is not None:
        yield from _matching(thread_names.series_words(), text[source.end() :], source.end(), True)
        return
    for thread in thread_names.beginning(text[start:]):
        yield WordOffer(thread.name, start, thread.meaning)


def _words(before: str, start: int, typed: str, names: Names, asked: bool) -> Iterator[WordOffer]:
    """Units, names, functions and the words of requests, as the grammar lets them stand."""
    place = _place(as_meant(before))
    if place.last == "NUMBER":
        if "NAME" in place.fits:
            # Old units are seldom meant, and not by a first letter.
            words = request_help.unit_words(old=asked or len(typed) >= _OLD_FROM)
            yield from _matching(words, typed, start, asked)
    elif place.fits >= _STARTERS and (asked or len(typed) > 1):
        for offer in _matching(dict.fromkeys(reversed(list(names)), ""), typed, start, asked):
            yield offer._replace(meaning=size_line(names[offer.text]))
    if asked or len(typed) > 1:
        yield from _matching(_small_words(place), typed, start, asked)
        if not before.strip():
            yield from _matching(line_words(), typed, start, asked)
            yield from _matching(WORDS, typed, start, asked)
    if place.last != "NUMBER" and place.fits >= _STARTERS and (asked or len(typed) > 1):
        yield from _matching(_functions(), typed, start, asked)


@cache
def _functions() -> dict[str, str]:
    return {f"{name}(": function.meaning for name, function in request_help.functions().items()}


def _small_words(place: Place) -> dict[str, str]:
    """The words of the language that the grammar lets stand here."""
    summaries = requests.summaries()
    # Behind a size with its unit `of` could be read, and never means anything.
    fits = place.fits if place.last == "NUMBER" else place.fits - {"OF"}
    return {word: summaries.get(word, "") for kind, word in _keywords().items() if kind in fits}


@cache
def _keywords() -> dict[str, str]:
    """The words of the language by the names of their terminals, the shortest where there are two."""
    words = sorted(tables().words.items(), key=lambda pair: -len(pair[0]))
    return {kind: word for word, kind in words} | {kind: called()[kind] for kind in phrases()}


@lru_cache(maxsize=64)
def _place(before: str) -> Place:
    """What may follow a text; nothing when it cannot be read so far."""
    try:
        return Place(*grammar.parser().follow(before))
    except (Fault, NotExpected, NoToken):
        return Place(frozenset(), "")


def _matching(words: Mapping[str, str], typed: str, start: int, asked: bool) -> Iterator[WordOffer]:
    """The words that begin as typed, then those that hold it; when asked, also in scattered letters."""
    low = typed.lower()
    ranked: list[tuple[int, str, str]] = []
    for word, meaning in words.items():
        rank = _rank(word.lower(), low, asked)
        if rank is not None:
            ranked.append((rank, word, meaning))
    ranked.sort(key=lambda pair: pair[0])
    yield from (WordOffer(word, start, meaning) for _, word, meaning in ranked)


def _rank(word: str, typed: str, asked: bool) -> int | None:
    if word.startswith(typed):
        return 0
    if len(typed) < 2:
        return None
    if typed in word:
        return 1
    # Nearly any letters are scattered through a phrase.
    return 2 if asked and " " not in word and _scattered(typed, word) else None


def _scattered(letters: Iterable[str], word: str) -> bool:
    rest = iter(word)
    return all(letter in rest for letter in letters)
