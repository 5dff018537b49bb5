"""Lines that go on from the last size: `/ 2`, `+ 2 thou`, `in mm`, `as 32nds`, `snap to 32nds`."""

from __future__ import annotations

import re

from fractions_shop.errors import InputError
from fractions_shop.language import grammar
from fractions_shop.language.advice.bench_forms import GOES_ON
from fractions_shop.language.advice.bench_words import statements
from fractions_shop.sheet.last_size import LAST
from fractions_shop.sheet.session import Session
from fractions_shop.size.notation import as_meant

#: A sign and a blank make a size by themselves, and far likelier go on from the last one.
_SIGNED = re.compile(r"\s*[-+−]\s")
_BEGINS = re.compile(r"\s*(?:[-+*/×÷^−]|(?:in|as|to|snap|divide|mark)\b)", re.IGNORECASE)


def going_on(text: str, session: Session) -> str | None:
    """The statement about `ans` that a line means which goes on from the last size; None for any other.

    A line that can be answered as it stands is none, but for one that begins with + or - and a blank.

    >>> session = Session()
    >>> going_on("/ 2", session)
    >>> size = session.answer("2 in")
    >>> going_on("/ 2", session), going_on("+ 2 thou", session), going_on("-2 thou", session)
    ('ans / 2', 'ans + 2 thou', None)
    """
    if LAST not in session.known or not _BEGINS.match(text):
        return None
    if not _SIGNED.match(text) and _is_answered(text, session):
        return None
    for _, offer in statements(as_meant(text), GOES_ON, grammar.accepted):
        if _is_answered(offer.text, session):
            return offer.text
    return None


def _is_answered(text: str, session: Session) -> bool:
    try:
        return session.copy().answer(text) is not None
    except InputError:
        return False
