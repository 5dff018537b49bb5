"""The prompt's own words at work: help here, the others beside. Each gives lines to show."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fractions_shop import requests
from fractions_shop.command.settings import settings_path
from fractions_shop.figures.plain import folded
from fractions_shop.language.advice.near_words import advice
from fractions_shop.prompt import filing, sheet_words
from fractions_shop.prompt.habit_words import WORK as HABIT_WORK
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import WORDS, Refused
from fractions_shop.prompt.reading_mode import EXAMPLE_OF_ONE, begun
from fractions_shop.requests import help as request_help
from fractions_shop.sheet.line_words import line_forms, line_words
from fractions_shop.sheet.line_words import topic as line_topic
from fractions_shop.sheet.session import Session

__all__ = ["Refused", "run"]

_KEYS = {
    "Tab": "shows what may stand here; again to go on, Enter to take one",
    "Up, Down": "earlier lines, and later ones",
    "Ctrl-R": "looks for an earlier line by any part of it",
    "Right": "takes the rest of an earlier line that is shown behind the cursor",
    "Ctrl-C": "clears the line",
    "Ctrl-D": "leaves, on an empty line",
}


_SETTINGS = {
    'rule = "64ths"': "the working rule to begin with",
    'units = ""': "what leads: inch first, mm first, inch without feet; with nothing said, the rule's own",
    "digits = 6": "decimal places shown at most",
    "picture = true": "a rule drawn under an answer; false for none",
}


def run(model: PromptModel, word: str, rest: str, width: int) -> Iterator[str]:
    """What the word shows, line by line; Refused when it cannot be done."""
    work = _WORK.get(word) or HABIT_WORK[word]
    return work(model, rest, width)


# help


def _help(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    if not rest:
        yield from _overview(width)
        return
    if rest.lower() in WORDS:
        yield from folded(f"{rest.lower()}: {WORDS[rest.lower()]}", width)
        yield from (f"  {form}" for form in _FORMS.get(rest.lower(), ()))
        return
    if rest.lower() == "keys":
        yield from _table(_KEYS, width)
        return
    if rest.lower() == "settings":
        yield from _settings(width)
        return
    topic = request_help.topic(rest) or line_topic(rest)
    if topic is None:
        known = [*request_help.topics(), *WORDS, *line_words(), "keys", "settings"]
        near = request_help.smaller_word(rest, "write help ", line_forms())
        near = near or advice(rest, known, lead="write help ")
        raise Refused(f"there is no help on {rest}; {near or 'help alone lists what there is'}")
    yield from folded(f"{topic.word}: {topic.meaning}", width)
    yield from (line for form in topic.forms for line in folded(f"  {form}", width))
    yield from (line for text in topic.more for line in folded(f"  {text}", width))
    if topic.example:
        yield from _example(model, topic.example, topic.before, width)


def _settings(width: int) -> Iterator[str]:
    yield from folded(f"settings: what is set once, in the file {settings_path()}", width)
    yield from _table(_SETTINGS, width)
    yield from folded(
        "FRACTIONS_SHOP_PLAIN=1 in the environment asks for plain lines without menu, drawing or colour, "
        "NO_COLOR=1 for no colour",
        width,
    )


def _example(model: PromptModel, example: str, before: tuple[str, ...], width: int) -> Iterator[str]:
    """The example and its answer, worked out now in a session of its own."""
    yield ""
    session = Session(model.rule)
    for line in before:
        yield f"  {line}"
        session.answer(line)
    yield f"  {example}"
    answer = session.answer(example)
    assert answer is not None
    yield from (f"    {line}".rstrip() for line in answer.text(width - 4, model.digits).splitlines())


def _overview(width: int) -> Iterator[str]:
    yield from folded("type a size, or arithmetic on sizes, and press Enter: 2 1/32 in / 5", width)
    yield from folded("a request is a short sentence that begins with its word:", width)
    yield from _table(requests.summaries(), width)
    yield from folded("other lines of a sheet:", width)
    yield from _table(line_words(), width)
    yield from folded("words of this prompt:", width)
    yield from _table(WORDS, width)
    yield from folded("help WORD says more of each, with an example; so do help sizes, help units, help rules, "
                      "help functions, help keys and help settings", width)  # fmt: skip


def _table(words: dict[str, str], width: int) -> Iterator[str]:
    widest = max(map(len, words))
    for word, meaning in words.items():
        yield from folded(f"  {word:{widest}}  {meaning}", width)


def _readings(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Begin to read figures, one a line."""
    model.mode = begun(rest)
    model.forget()
    yield from folded(f"a name and what was read of it on each line: {EXAMPLE_OF_ONE} stands for 10.3 {model.mode.unit}; "
                      "an empty line ends the readings", width)  # fmt: skip


_FORMS = {
    "help": ("help", "help divide", "help sizes"),
    "show": ("show 8", "show pitch", "show ans"),
    "why": ("why pitch", "why 8"),
    "drop": ("drop 8", "drop pitch"),
    "rename": ("rename pitch step", "rename back rail to front rail"),
    "readings": (
        "readings in mm by caliper",
        "readings in in within 1/64 in",
        "bay 10.3",
        "bay 10.4",
        "75.3",
    ),
    "open": ("open FILE", "open draft"),
    "save": ("save", "save FILE"),
    "print": ("print FILE",),
    "draw": ("draw ans", "draw pitch", "draw on", "draw off"),
    "clear": ("clear", "clear sheet"),
}
_WORK: dict[str, Callable[[PromptModel, str, int], Iterator[str]]] = {
    "help": _help,
    "sheet": sheet_words.sheet,
    "names": sheet_words.names,
    "show": sheet_words.show,
    "more": sheet_words.more,
    "why": sheet_words.why,
    "undo": sheet_words.undo,
    "redo": sheet_words.redo,
    "drop": sheet_words.drop,
    "rename": sheet_words.rename,
    "readings": _readings,
    "open": filing.open_,
    "save": filing.save,
    "print": filing.print_,
    "clear": filing.clear,
    "load": filing.load,
}
