"""Text to nodes, within bounds: the quick reader first, the grammar for all it leaves.

lark is loaded only when a line needs it, by `grammar`.
"""

from __future__ import annotations

from typing import Any

from fractions_shop.errors import ArgumentError, InputError
from fractions_shop.language import quick
from fractions_shop.language.nodes import Node, Statement
from fractions_shop.size.notation import UNSEEN, as_meant, without_unseen

#: A longer line is refused at once: nobody types one, and it would only cost time.
MAX_LINE = 1000
#: Brackets inside brackets.
MAX_NESTING = 40


def parse(text: str) -> Statement | None:
    """The statement that one line says, or None for a blank or comment line.

    InputError, with the place and what was expected, when it cannot be read.
    """
    if not isinstance(text, str):
        raise ArgumentError(f"a statement is text, and this is {type(text).__name__}")
    if not text.isascii() and any(sign in text for sign in UNSEEN):
        return _seen(text)
    meant = _bounded(text)
    statement = quick.read(meant)
    if statement is not None:
        return statement
    from fractions_shop.language import grammar

    return grammar.statement(text, meant)


def _seen(text: str) -> Statement | None:
    """The statement of a line that holds signs which nobody sees, every place as it is in `text`."""
    places = [place for place, sign in enumerate(text) if sign not in UNSEEN]
    places.append(len(text))
    try:
        found = parse(without_unseen(text))
    except InputError as error:
        start = places[error.start]
        end = places[min(error.end, len(places)) - 1] + 1 if error.end > error.start else start
        raise InputError(
            error.message, text, start, end, error.advice, error.line, error.ended, error.expected
        ) from None
    _place(found, places)
    return found


def _place(statement: Statement | None, places: list[int]) -> None:
    """Move every place `n` of a statement just read to `places[n]`."""
    # A stack of our own: `1 + 1 + 1 ...` is as deep as it is long. A node may stand twice, as a ± does.
    waiting: list[Any] = [statement]
    done: set[int] = set()
    while waiting:
        part = waiting.pop()
        if isinstance(part, tuple):
            waiting += part
        if not isinstance(part, Node) or id(part) in done:
            continue
        done.add(id(part))
        for name in part.names:
            value = getattr(part, name)
            if name in ("start", "at", "word_start"):
                object.__setattr__(part, name, places[value])
            elif name == "end":
                object.__setattr__(part, "end", places[value - 1] + 1 if value else 0)
            else:
                waiting.append(value)


def _bounded(text: str) -> str:
    if len(text) > MAX_LINE:
        raise InputError(
            f"the line is {len(text):,} characters long, and {MAX_LINE:,} is the most that is read",
            text, MAX_LINE, MAX_LINE + 1, "break it into named parts",
        )  # fmt: skip
    depth = 0
    for place, sign in enumerate(text):
        depth += (sign in "(（") - (sign in ")）")
        if depth > MAX_NESTING:
            raise InputError(
                f"more than {MAX_NESTING} brackets stand inside one another",
                text, place, place + 1, "name the inner part first",
            )  # fmt: skip
    return as_meant(text.rstrip("\r\n"))
