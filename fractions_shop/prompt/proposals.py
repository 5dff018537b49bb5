"""The statement that is meant by a line that is none: one Enter puts it in the line, the next answers it."""

from __future__ import annotations

from typing import NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.language import grammar
from fractions_shop.language.advice.bench_words import (
    FORMS,
    GOES_ON,
    SIDES,
    BenchForm,
    respelling,
    statements,
)
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.prompt.lines import joined
from fractions_shop.sheet.session import Session
from fractions_shop.size.notation import as_meant

#: Forms that are statements as they stand, too: a sign, a blank and a size.
_SIGNED = GOES_ON[1:2]


class Proposal(NamedTuple):
    """A statement to accept, what is said of the line that means it, and the fault to raise where nothing can be put."""

    statement: str
    said: str
    error: InputError


def proposal(text: str, session: Session) -> Proposal | None:
    """The statement that a line at fault means; None where it means none."""
    line = joined(text)
    respelt = respelling(as_meant(line))
    if respelt is not None and _is_answered(respelt[2], session):
        return _made(line, "", (Offer(respelt[2]),))
    forms = (*(GOES_ON if "ans" in session.known else ()), *FORMS, *SIDES)
    return _of(line, forms, session)


def going_on(text: str, session: Session) -> Proposal | None:
    """The same of a line such as `+ 2 thou`, which is a size by itself and far likelier goes on from the last one."""
    return _of(joined(text), _SIGNED, session) if "ans" in session.known else None


def _of(line: str, forms: tuple[BenchForm, ...], session: Session) -> Proposal | None:
    offered = [
        (said, offer)
        for said, offer in statements(as_meant(line), forms, grammar.accepted)
        if _is_answered(offer.text, session)
    ]
    return _made(line, offered[0][0], tuple(offer for _, offer in offered)) if offered else None


def _is_answered(statement: str, session: Session) -> bool:
    """Whether a statement is answered now, with what is named."""
    try:
        return session.copy().answer(statement) is not None
    except InputError:
        return False


def _made(line: str, message: str, offers: tuple[Offer, ...]) -> Proposal:
    first, *others = offers
    said = f"{first.text}{first.why}"
    said += f"; or write {' or '.join(f'{other.text}{other.why}' for other in others)}" if others else ""
    start = len(line) - len(line.lstrip())
    error = InputError(message or "this is no statement", line, start, len(line.rstrip()), write(*offers))
    return Proposal(first.text, said, error)
