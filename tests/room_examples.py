"""The example of a request, answered behind the lines that it needs."""

from __future__ import annotations

from fractions_shop import Session, requests
from fractions_shop.sheet.answer import Answer


def answered_example(word: str, rule: str = "64ths", statement: str | None = None) -> Answer:
    """The answer to a request's example, or to `statement` in its place, in a session of its own."""
    room, session = requests.room(word), Session(rule)
    for line in room.before:
        session.answer(line)
    answer = session.answer(room.example if statement is None else statement)
    assert answer is not None
    return answer
