"""The prompt's own words, which are no statements of the language."""

from __future__ import annotations

from fractions_shop.errors import InputError, ShopError

#: The prompt's own words, and what each does. They cannot be given to a size as its name.
WORDS = {
    "help": "what there is to ask; help divide tells of one",
    "names": "lists what is named",
    "undo": "takes the last naming back",
    "save": "writes the statements of this session to a file",
    "load": "answers the statements of a file",
    "quit": "leaves, as Ctrl-D does",
}


class Refused(ShopError):
    """One of the prompt's own words cannot do what it was asked; the sentence says why."""


def own_word(text: str) -> tuple[str, str] | None:
    """The prompt's own word that a line begins with, and what follows it; None for a statement."""
    word, _, rest = text.strip().partition(" ")
    rest = rest.strip()
    if word.lower() in WORDS and not rest.startswith("="):
        return word.lower(), rest
    return None


def own_word_fault(name: str, line: str, start: int) -> InputError:
    """What is said of a size that is to be named by one of the prompt's own words."""
    return InputError(
        f"{name} is a word of this prompt, so it cannot be a name", line, start, start + len(name),
        "choose another name",
    )  # fmt: skip
