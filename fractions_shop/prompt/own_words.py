"""The prompt's own words, which are no statements of the language."""

from __future__ import annotations

import re
from collections.abc import Container

from fractions_shop.errors import InputError, ShopError

#: The prompt's own words, and what each does.
WORDS = {
    "help": "lists what can be asked; help divide explains one",
    "sheet": "the sheet as it is now, every line with its number",
    "names": "lists what is named, where it was set and what rests on it",
    "show": "a line's answer, whole: show 8, show pitch",
    "more": "the rest of an answer that had no room",
    "why": "where a size comes from, and what rests on it: why pitch",
    "undo": "takes the last change back",
    "redo": "does again what undo took back",
    "drop": "drops a line: drop 8, drop pitch",
    "rename": "gives a size or a part another name wherever it is used: rename pitch step",
    "readings": "figures as an instrument tells them, one a line: readings in mm by caliper",
    "open": "opens a sheet; what is typed then is a line of it",
    "save": "writes the sheet to its file, or to a new one",
    "print": "writes the sheet as a page, PDF, table or text, by the file's ending",
    "draw": "draws a size on a rule; draw on and draw off for all answers",
    "clear": "clears the window; clear sheet begins an empty sheet",
    "load": "is open: that opens a sheet",
    "quit": "leaves, as Ctrl-D does",
}
#: Those that no size can be named by at the prompt; the others give way to a size of the same name.
KEPT = frozenset({"help", "names", "undo", "redo", "open", "save", "load", "quit"})
#: What people type by habit for one of these words.
ALIKE = {"exit": "quit", "bye": "quit", "?": "help", "/help": "help"}
#: Words typed by habit that stand alone, and what each says.
HABITS = {
    "history": "says how earlier lines come back",
    "settings": "says where the settings are kept",
    "version": "says which version this is",
}
#: What makes a name of the word before it.
_READS, _SIGN = re.compile(r"reads\s"), re.compile(r"[,+*/^)×÷±-]|as\s")


class Refused(ShopError):
    """One of the prompt's own words cannot do what it was asked; the sentence says why."""


def own_word(text: str, names: Container[str] = ()) -> tuple[str, str] | None:
    """The prompt's own word that a line begins with, and what follows it; None for a statement.

    `names` are those of the sheet: a word that is one of them is the size, alone and before a sign.
    """
    word, _, rest = text.strip().partition(" ")
    rest, low = rest.strip(), word.lower()
    if low in HABITS and not rest and word not in names:
        return low, rest
    low = ALIKE.get(low, low) if word not in names else low
    if low not in WORDS or rest.startswith("="):
        return None
    if low not in KEPT and (_READS.match(rest) or (word in names and (not rest or _SIGN.match(rest)))):
        return None
    return low, rest


def own_word_fault(name: str, line: str, start: int) -> InputError:
    """What is said of a size that is to be named by one of the words that are kept."""
    return InputError(
        f"{name} is a word of this prompt, so it cannot be a name", line, start, start + len(name),
        "choose another name",
    )  # fmt: skip
