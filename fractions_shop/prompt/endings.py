"""What may be typed behind a line that cannot be read yet: few endings, each with what it is called."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

from fractions_shop import requests
from fractions_shop.language.advice.explain import called, phrases
from fractions_shop.language.functions import FUNCTIONS, more_functions
from fractions_shop.language.grammar_tables import openers_or_names, tables
from fractions_shop.language.written.words import PARTS, WHOLES
from fractions_shop.prompt import thread_names
from fractions_shop.requests import help as request_help
from fractions_shop.size.notation import GLYPHS
from fractions_shop.tables.gauge_records import SERIES
from fractions_shop.threads.records import FORM_WORDS

#: What must stand behind a word or phrase for it to be read at all.
_BEHIND_WORD = {
    "reconcile": " 2 in = 2 in",
    "units": " inch first",
    "share": " 2 in among 4",
    "places": " 2 in",
    "spanner": " M10",
    "taper": " Morse 2",
}
_BEHIND_PHRASE = {"spaces of": " about 2 in", "blocks": " 81"}
_WORD = re.compile(r"[^\W\d_][\w']*$")
#: What is said of an ending, in place of the ending itself.
_UNIT, _PART, _FIGURES = "a unit", "the rest of a fraction", "the rest of a number"
_LIMIT, _BRACKET, _SIZE = "the other limit", "the rest of the bracket", "a size"

#: What may stand behind a figure, and what that is called.
_BEHIND_FIGURES = (
    (" in", _UNIT), ("/2 in", _PART), ("/64 in", _PART), ('"', _UNIT), ("ths", _PART), (" tpi", _UNIT), ("/2", _PART),
    ("/64", _PART), ("5", _FIGURES), ("0", _FIGURES), ("5 in", _FIGURES), (".5 in", _FIGURES), (".5", _FIGURES),
    ("/-0.1 mm", _LIMIT), ("/-2 thou", _LIMIT), ("-20", "a pitch"), ("-32", "a pitch"),
    (" BA", "a thread"), (" drill", "a drill"), ("°", _UNIT), (":2", "a scale"),
    (" in)", _BRACKET), (" mm)", _BRACKET), ('")', _BRACKET), ("'", _UNIT), ("0'", _UNIT),
    ("-1/2 in", _PART), (" 1/2 in", _PART), ("½ in", _PART), (" of 3 in", "a size"),
)  # fmt: skip
_BEHIND_LETTERS = (
    (")", _BRACKET),
    ("m)", _BRACKET),
    ("n)", _BRACKET),
    ("7", "a figure"),
    ("3 in", "a figure"),
)
_BEHIND_STROKE = (
    ("2 in", _PART), ("64 in", _PART), ("2", _PART), ("64", _PART), ("-2 thou", _LIMIT), ("-0.1 mm", _LIMIT), ("0", _LIMIT),
    ("g6", "the other zone"), ("2-20", "a thread"), ("64-20", "a thread"), ("2 BSW", "a thread"),
    ("16ths", _PART),
)  # fmt: skip
_BEHIND_POINT = (
    ("5 in", _FIGURES),
    ("5", _FIGURES),
    (" 43 drill", "a number"),
    ("d. 2 in", "a size"),
    ("m.", _UNIT),
)
_BEHIND_SIGN = (
    ("3 in", _SIZE), ("3", "a number"), ("20", "a pitch"), ('3"', _SIZE), (".002", _LIMIT), ("1/2 in", _SIZE), ("a", "a name"),
    ("3 in + 2 in)", _BRACKET), ("2 in)", _BRACKET), ("6-32", "a number"), ("2 cm)", _BRACKET),
)  # fmt: skip
#: Behind a word and a blank.
_BEHIND_BLANK = (
    ("= 2 in", "= and a size"), ("2 in", _SIZE), ("6 BA", "a thread"), ("metric", "a series"), ("64ths", "a rule"), ("inch first", "what leads"), ("43 drill", "a number"),
    ("2 in = 2 in", _SIZE), ("3", "a number"), (")", _BRACKET), ("H7", "a zone"),
)  # fmt: skip


#: A screw by its size and pitch, begun behind the size: its pitch in threads per inch as far as it is typed.
_PITCH_BEGUN = re.compile(r"[x×](?P<blank> *)(?P<number>[0-9.]*)(?P<unit> *(?:t|tp)?)$", re.IGNORECASE)
#: The size of a thread of no table, behind the word that asks for a thread.
_MAJOR_BEGUN = re.compile(r"\b(?:thread|substitute)\b.*[0-9] *(?P<unit>in?|mm?)(?P<blank> *)$", re.IGNORECASE)
_FORM_BEGUN = re.compile(
    r"[x×] *[0-9.]+ *(?:tpi|mm)(?P<blank> *)(?P<typed>(?:(?<= )[a-z]+(?: [a-z]*)?)?)$", re.IGNORECASE
)

#: A figure with its sign, as limits are printed behind their size.
_ONE_LIMIT = re.compile(
    r"[0-9\"a-z] +(?P<sign>[-+])(?P<figure>[0-9]*\.?[0-9]+(?:/[0-9]+)?)(?P<unit> ?(?:[a-z]+|\")?)(?P<blank> *)$",
    re.IGNORECASE,
)

#: Several names and the readings that they are to have, as far as these are typed.
_NAMED_EACH = re.compile(r"(?P<names>[^=,]+(?:,[^=,]+)+)=\s*recover\b(?P<sizes>.*[^,\s])\s*", re.IGNORECASE)

#: Numbers as they are said stand in no statement, only in a size with words around it.
_SAID_NUMBERS = frozenset(
    {*WHOLES, *(f"{part}s" for part in PARTS), "half", "of an inch", "and a half inches"}
)


class Ending(NamedTuple):
    """A text that may stand behind the line, and what it is called; or the word that it makes whole."""

    text: str
    called: str = ""
    word: str = ""

    @property
    def in_a_statement(self) -> bool:
        """Whether it is a word of statements, and of no size with words around it."""
        return bool(self.word) and self.word not in _SAID_NUMBERS


def endings(meant: str, known: Mapping[str, Any]) -> Iterator[Ending]:
    """The endings to try behind the line `meant`, in which `known` are the names, likeliest first."""
    word = _WORD.search(meant)
    last = meant[-1:]
    behind: tuple[tuple[str, str], ...]
    yield from _pitches(meant)
    yield from _further_readings(meant)
    yield from _other_limit(meant)
    if word is not None:
        yield from _phrases(meant)
        yield from _words(word[0], known)
        yield from (Ending(f" {text}", said) for text, said in _BEHIND_BLANK)
        yield from (Ending(text, said) for text, said in _BEHIND_LETTERS)
        return
    if last == " ":
        yield from _phrases(meant)
        behind = _BEHIND_BLANK + _BEHIND_SIGN
    elif last == "/":
        behind = _BEHIND_STROKE
    elif last == ".":
        behind = _BEHIND_POINT
    elif last.isdigit() or last in GLYPHS:
        behind = _BEHIND_FIGURES
    else:
        yield from _spoken(meant)
        behind = _BEHIND_SIGN
    yield from (Ending(text, said) for text, said in behind)
    if behind is not _BEHIND_POINT:
        yield from _gauges(last)


def _other_limit(meant: str) -> Iterator[Ending]:
    """The second of two limits, each with its sign, behind the first: `1.000" +.001"`."""
    begun = _ONE_LIMIT.search(meant)
    if begun is not None:
        other = "-" if begun["sign"] == "+" else "+"
        yield Ending(f"{'' if begun['blank'] else ' '}{other}{begun['figure']}{begun['unit']}", _LIMIT)


def _further_readings(meant: str) -> Iterator[Ending]:
    """The sizes that are still to follow behind `a, b, c = recover 51.5 mm`, where each name is to have one."""
    begun = _NAMED_EACH.fullmatch(meant)
    missing = 0 if begun is None else begun["names"].count(",") - begun["sizes"].count(",")
    if missing > 0:
        yield Ending(", 2 in" * missing, "a comma and the next size")


def _pitches(meant: str) -> Iterator[Ending]:
    """What makes a pitch of the end of a line, and of a pitch a thread of a form."""
    form = _FORM_BEGUN.search(meant)
    if form is not None:
        typed = form["typed"].lower()
        for whole in (f"{word} form" for word in FORM_WORDS):
            if whole.lower().startswith(typed):
                rest = f"{'' if form['blank'] else ' '}{whole[len(typed) :]}"
                yield from (Ending(f"{rest}{bracket}", "a form") for bracket in ("", ")"))
    size = _MAJOR_BEGUN.search(meant)
    if size is not None:
        unit = "in" if size["unit"].lower().startswith("i") else "mm"
        yield Ending(
            f"{unit[len(size['unit']) :]}{'' if size['blank'] else ' '}x 24 tpi unified form", "a pitch"
        )
    begun = _PITCH_BEGUN.search(meant)
    if begun is None or (begun["unit"].strip() and not begun["number"]):
        return
    blank = "" if begun["blank"] else " "
    # A pitch of one figure may be the beginning of one of two.
    numbers = ("",) if begun["unit"] else ("", "4", "0") if begun["number"] else (f"{blank}24",)
    unit = f"{'' if begun['unit'] else ' '}{'tpi'[len(begun['unit'].strip()) :]}"
    # What stands behind x may be the other side of a piece as well.
    called = (
        "a pitch"
        if begun["unit"]
        else "a unit or a pitch"
        if begun["number"]
        else "the other side or a pitch"
    )
    for number in numbers:
        yield from (
            Ending(f"{number}{unit}{form}", called) for form in ("", " unified form", " unified form)")
        )


def is_of_a_form(designation: str) -> bool:
    """Whether it is a thread of no table by its size, its pitch and its form, or the beginning of one up to its pitch."""
    begun = _FORM_BEGUN.search(designation)
    return begun is not None and any(
        f"{word} form".lower().startswith(begun["typed"].lower()) for word in FORM_WORDS
    )


def _gauges(last: str) -> Iterator[Ending]:
    """Behind a number, what makes a gauge of it; behind its stroke the rest of 2/0."""
    for series in SERIES.values():
        front = "0 " if last == "/" else "" if last == " " else " "
        yield Ending(f"{front}{series.words[0]}", "a gauge")


def _words(typed: str, known: Mapping[str, Any]) -> Iterator[Ending]:
    """The words that begin as typed, and the rest of each with what must stand behind it."""
    small = typed.lower()
    for name in known:
        if name.startswith(typed) and name != typed:
            yield Ending(name[len(typed) :], word=name)
    for word, behind in _vocabulary():
        if word.lower().startswith(small) and word.lower() != small:
            yield Ending(word[len(small) :] + behind, word=word.rstrip("("))


def _phrases(meant: str) -> Iterator[Ending]:
    """The phrases of several words that the end of a line is the beginning of."""
    small = meant.lower()
    for phrase, behind in _phrase_words():
        for cut in range(1, len(phrase)):
            if not small.endswith(phrase[:cut].lower()):
                continue
            front = small[: len(small) - cut]
            if " " in phrase[:cut] and not (front and front[-1].isalpha()):
                yield Ending(phrase[cut:] + behind, word=phrase)


@cache
def _phrase_words() -> tuple[tuple[str, str], ...]:
    """Phrases of several words, and what must stand behind each."""
    leads = ("inch first", "mm first", "inch without feet")
    said = [(phrase, "") for phrase in leads]
    said += [(called()[kind], "") for kind in phrases() if " " in called()[kind]]
    said += [("per ft", ""), ("half mm", ""), ("threads per inch", ""), ("threads to the inch", "")]
    said += [
        ("of an inch", ""),
        ("and a half inches", ""),
        ("first at", " 1 in"),
        ("each end", ""),
        ("each once", ""),
        ("taper pin no", " 4"),
    ]
    said += [(word.lower(), "") for series in SERIES.values() for word in series.words if " " in word]
    said += [(word, "") for word in request_help.unit_words() if " " in word]
    return tuple((phrase, behind or _BEHIND_PHRASE.get(phrase, "")) for phrase, behind in said)


@cache
def _vocabulary() -> tuple[tuple[str, str], ...]:
    """Every word of the language, of its units, rules and functions, and of numbers as they are said."""
    openers = tables().states[tables().start]
    said = [(called()[kind], _BEHIND_WORD.get(called()[kind], "")) for kind in phrases()]
    # A request that has no row in that table is read where its example is.
    said += [
        (word, requests.room(word).example.removeprefix(word))
        for word in openers_or_names().values()
        if word not in _BEHIND_WORD
    ]
    said += [
        (word, _BEHIND_WORD.get(word, " 2 in" if kind in openers else ""))
        for word, kind in tables().words.items()
    ]
    said += [(f"{name}(", "") for name in (*FUNCTIONS, *more_functions())]
    said += [
        (word, "")
        for word in (*request_help.unit_words(), "inch", "inches", "feet", "foot", "half mm", "per ft")
    ]
    said += [(word, "-eighths of an inch") for word in WHOLES if len(word) > 2]
    said += [(f"{part}s", " of an inch") for part in PARTS if part not in ("half", "halves")]
    said += _phrase_words()
    said += [("half", " inch"), ("units", " inch first"), ("drill", "")]
    said += [(word, "") for word in ("nut", "lock-nut", "head", "bolt", "screw", "af", "across flats")]
    said += [
        ("from the large end", ""),
        ("from the small end", ""),
        ("morse", " 2"),
        ("jacobs", " 2"),
        ("jarno", " 2"),
    ]
    said += [(word.lower(), "") for series in SERIES.values() for word in series.words]
    said += [(word.lower(), "") for word in thread_names.series_words()]
    return tuple(dict.fromkeys(said))


def _spoken(meant: str) -> Iterator[Ending]:
    """Behind the dash of three-eighths."""
    if meant.endswith("-"):
        yield Ending("eighths of an inch", "a part")
