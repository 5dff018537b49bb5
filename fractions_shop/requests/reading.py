"""A line read to its statement, and a request at fault shown by its example."""

from __future__ import annotations

import re

from fractions_shop import requests
from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import OrExample
from fractions_shop.language.nodes import Statement
from fractions_shop.language.parser import parse
from fractions_shop.language.trial import Readings, readings


def statement(line: str) -> Statement | None:
    """The statement that one line says, or None for a blank or comment line.

    InputError, with the place, what was expected and how to write it, when it cannot be read.
    """
    known = readings()
    if known is not None:
        return _once(line, known)
    try:
        return parse(line)
    except InputError as error:
        raise with_example(error) from None


def _once(line: str, known: Readings) -> Statement | None:
    """What a line on trial says, read once for all in which it stands."""
    if line not in known:
        try:
            known[line] = parse(line)
        except InputError as error:
            known[line] = error
    said = known[line]
    if isinstance(said, InputError):
        raise said.with_traceback(None)
    return said


def with_example(error: InputError) -> InputError:
    """The error with an example of the request that its line opens, in the form begun, where that is advised."""
    if not isinstance(error.advice, OrExample):
        return error
    first = re.search("[A-Za-z]+", error.text)
    word = first[0].lower() if first else ""
    if word in requests.words():
        room = requests.room(word)
        rest = error.text[first.end() :] if first else ""
        further = (example for form, example in room.further if re.search(form, rest, re.IGNORECASE))
        error.advice = f"write it like this: {next(further, room.example)}"
    return error
