"""What can be asked, each in a few words with an example that runs.

What is told of a request stands in its room, and of a function in `functions.FUNCTIONS`:
nothing is listed twice.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fractions_shop.language import old_units
from fractions_shop.language.functions import FUNCTIONS, Function, more_functions
from fractions_shop.requests import room, summaries, words
from fractions_shop.size import units
from fractions_shop.size.notation import mixed
from fractions_shop.size.rule import DRAWER, METRIC_RULES, Rule


class Topic(NamedTuple):
    """One thing that help can tell of.

    `forms` are ways to write it, capitals standing for what is filled in; `example` is
    a statement that can be answered, or nothing, and `before` what must be said before it.
    """

    word: str
    meaning: str
    forms: tuple[str, ...] = ()
    example: str = ""
    more: tuple[str, ...] = ()
    before: tuple[str, ...] = ()


_SIZES = Topic(
    "sizes",
    "how a size may be written",
    ('2 1/32 in   2-1/32"   65/32 in   130 64ths', "2.03125 in   193 thou   5' 3 1/2\"   5 ft 3 1/2 in",
     "51.5 mm   5.15 cm   12 um", "1/2 in +- 2 thou   1/2 in +1/-2 thou   12.5 deg",
     "6 BA   1/4 BSW   1/4-20 UNC   No 6-32   M3 x 0.5   18 SWG   No 43 drill"),
    "5' 3 1/2\" + 51.5 mm",
    ("4 of slat is four pieces cut alike, 4 * slat one piece four times; 3/4 of 2 in is a part",
     "sizes are joined by + - * / ^ and brackets; a name may be given: pitch = 2 1/32 in / 5",
     "as shows a size in another unit or in parts: 51.5 mm as in, 2 in as 64ths",
     "ans is the last size; # begins a note"),
)  # fmt: skip


def functions() -> dict[str, Function]:
    """Every function by its name."""
    return {**FUNCTIONS, **more_functions()}


def rules() -> dict[str, str]:
    """The rules in the drawer and the other metric ones, and what each is divided in."""
    return {name: _divided_in(Rule(name)) for name in dict.fromkeys((*DRAWER, *METRIC_RULES))}


def _divided_in(rule: Rule) -> str:
    if rule.metric:
        return f"divisions of {mixed(rule.division.mm)} mm"
    return "of an inch, decimal" if rule.parts % 10 == 0 else "of an inch"


def unit_words(old: bool = True) -> dict[str, str]:
    """The shortest word of each unit, and what it means; those of old inches and lines with them if `old`."""
    return _plain_units() | (old_units.meanings() if old else {})


def _plain_units() -> dict[str, str]:
    return {unit.name: unit.meaning for unit in units.UNITS} | {"deg": "degrees of an angle"}


def _old_units() -> tuple[str, ...]:
    called = ", ".join(dict.fromkeys(name.rsplit(" ", 1)[0] for name in old_units.meanings()))
    return (f"old inches and their lines, such as 3 Paris lines: {called}",)


def topic(word: str) -> Topic | None:
    """What help tells of a request, a function, `sizes`, `pi`, `units`, `rules` or `functions`; None for another word."""
    word = word.lower()
    if word in words():
        request = room(word)
        beside = _general().get(word)  # `help units` tells of both
        lines = () if beside is None else (f"{beside.meaning}:", *beside.more)
        return Topic(word, summaries()[word], request.forms, request.example, lines, before=request.before)
    function = functions().get(word)
    if function is not None:
        return Topic(word, function.meaning, (), function.example)
    return _general().get(word)


def topics() -> tuple[str, ...]:
    """Every word that `topic` knows."""
    return (*words(), *functions(), *_general())


def smaller_word(word: str, lead: str, lines: Mapping[str, Sequence[str]]) -> str:
    """What tells of a smaller word, `within` or `off a print`; `` for one that stands in no request and none of `lines`.

    `lead` stands before the word to ask about; `lines` has the forms of lines that are no requests.
    """
    said = re.compile(rf"(?<!\w){re.escape(word.lower())}(?!\w)")
    forms = {**{each: room(each).forms for each in words()}, **lines}
    takers = [each for each, ways in forms.items() if any(said.search(form) for form in ways)]
    if not takers:
        return ""
    named = takers[0] if len(takers) == 1 else f"{', '.join(takers[:-1])} and {takers[-1]}"
    return f"it is a smaller word of {named}: {lead}{takers[0]}"


def _general() -> dict[str, Topic]:
    lists = (
        _SIZES,
        Topic("pi", "the way round a circle that is 1 across, approximate", (), "pi * 48 in"),
        Topic("units", "the units of length", (), "51.5 mm as in", (*_listed(_plain_units()), *_old_units())),
        Topic(
            "rules", "the rules that can be worked to", ("rule RULE",), "snap 10.3 mm to 32nds",
            (*_listed(rules()), "any other whole number of ths will do: 12ths, 128ths"),
        ),
        Topic(
            "functions", "what can be worked out of sizes", ("NAME(SIZE, SIZE ...)",), "hypot(3 in, 4 in)",
            _listed({name: function.meaning for name, function in functions().items()}),
        ),
    )  # fmt: skip
    return {topic.word: topic for topic in lists}


def _listed(words: dict[str, str]) -> tuple[str, ...]:
    widest = max(map(len, words))
    return tuple(f"{word:{widest}}  {meaning}" for word, meaning in words.items())
