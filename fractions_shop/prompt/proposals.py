"""The statement that is meant by a line that is none: one Enter puts it in the line, the next answers it."""

from __future__ import annotations

import re
from collections.abc import Container
from typing import NamedTuple

from fractions_shop import requests
from fractions_shop.errors import InputError
from fractions_shop.language import grammar
from fractions_shop.language.advice.bench_forms import FORMS, SIDES
from fractions_shop.language.advice.bench_words import (
    piece,
    request_word,
    respelling,
    statements,
)
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.advice.typing_habits import one_word_name
from fractions_shop.prompt.lines import joined
from fractions_shop.prompt.own_words import WORDS
from fractions_shop.sheet import going_on as goes_on
from fractions_shop.sheet.line_words import LINE_WORDS
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.proposed_part import part_line
from fractions_shop.sheet.prose import is_a_note, is_prose
from fractions_shop.sheet.session import Session
from fractions_shop.size.notation import as_meant

#: A typed line of so many words and without the signs of a sum may be a sentence.
_LEAST_WORDS = 4
_SIDE_BEGUN = re.compile(r"[x×] *([0-9./ -]*)([^\W\d_]*)$", re.IGNORECASE)
_SIDE_UNITS = ("in", "mm", "ft", "thou", "cm", "m")
_FIGURE_OR_LABEL = re.compile(r"[0-9:]")
_SUM = re.compile(r"[-+*/=×÷^()0-9]")


class Proposal(NamedTuple):
    """A statement to accept, what is said of the line that means it, and the fault to raise where nothing can be put."""

    statement: str
    said: str
    error: InputError


def proposal(text: str, session: Session) -> Proposal | None:
    """The statement that a line at fault means; None where it means none."""
    line = joined(text)
    further = tuple(row.word for row in LINE_WORDS if row.is_word)
    respelt = respelling(as_meant(line), further)
    if respelt is not None and _is_taken(respelt[2], session):
        return _made(line, "", (Offer(respelt[2]),))
    if (onward := going_on(text, session)) is not None:
        return onward
    if own := _own_word(line):
        return _made(line, "", (Offer(own),))
    if (part := part_line(line)) and _is_taken(part, session):
        return _made(line, "this is a part to make or to buy", (Offer(part),))
    named = one_word_name(as_meant(line))
    if named is not None and _is_taken(named[1], session):
        return _made(line, "a name is one word", (Offer(named[1]),))
    offered = [
        (said, offer)
        for said, offer in statements(as_meant(line), (*FORMS, *SIDES), grammar.accepted)
        # An example has figures that are not the maker's: it is told, and never put in place of the line.
        if not offer.completes and _is_taken(offer.text, session)
    ]
    if not offered:
        return None if respelt is not None else _as_note(line, session.known)
    sides = piece(as_meant(line))
    offers = [offer for _, offer in offered] + ([Offer(sides, " for a piece")] if sides else [])
    return _made(line, offered[0][0], tuple(offers))


def _own_word(line: str) -> str:
    """The line with the prompt's own word that its first word is with a slip in it: `sheet` for `shet`; empty for none."""
    word, _, rest = line.strip().partition(" ")
    right = request_word(word, tuple(own for own in WORDS if len(own) > 3))
    if right is None or right not in WORDS or right.startswith(word.lower()):
        return ""
    return f"{right} {rest.strip()}".strip()


def _as_note(line: str, names: Container[str]) -> Proposal | None:
    """A sentence is a note, which stands behind a `#`."""
    words = line.lower().split()
    if len(words) < _LEAST_WORDS or words[0] in requests.words() or _SUM.search(as_meant(line)):
        return None
    if not is_prose(line, names):
        return None
    return _made(line, "this reads like a note", (Offer(f"# {line.strip()}"),))


def noted(text: str, session: Session) -> Proposal | None:
    """A remark on a piece, with its sizes, as the note that it is; to be asked for where no ending mends the line."""
    line = joined(text)
    if not _FIGURE_OR_LABEL.search(line) or not is_a_note(line, session.known):
        return None
    return _made(line, "this reads like a note", (Offer(f"# {line.strip()}"),))


def side_begun(text: str, session: Session) -> str:
    """What is to follow in a line that ends between two sides of a piece, as in `1/4 in x 3`; empty for any other."""
    begun = _SIDE_BEGUN.search(as_meant(text))
    if begun is None:
        return ""
    number, typed = begun[1].strip(), begun[2].lower()
    unit = next((word for word in _SIDE_UNITS if word.startswith(typed)), None)
    if unit is None or (typed and not number):
        return ""
    rest = "2 " if number.endswith("/") else "" if number else "3 "
    whole = f"{text[: len(text) - len(typed)].rstrip()}{'' if number.endswith('/') else ' '}{rest}{unit}"
    if proposal(whole, session) is None:
        return ""
    return (
        f"the start of {unit}"
        if typed
        else "a unit is to follow"
        if number
        else "the other side is to follow"
    )


def going_on(text: str, session: Session) -> Proposal | None:
    """The same of a line such as `+ 2 thou`, which goes on from the last size, even where it is a size by itself."""
    whole = goes_on.going_on(joined(text), session)
    return None if whole is None else _made(joined(text), "this goes on from the last size", (Offer(whole),))


def _is_taken(statement: str, session: Session) -> bool:
    """Whether a statement is answered now, with what is named, or is another line of a sheet that can be read."""
    line = read_lines(statement)[0]
    if line.kind != "statement":
        return line.fault is None
    try:
        return session.copy().answer(statement) is not None
    except InputError:
        return False


def _made(line: str, message: str, offers: tuple[Offer, ...]) -> Proposal:
    first, *others = offers
    said = f"{first.text}{first.why}"
    said += f"; or write {' or '.join(f'{other.text}{other.why}' for other in others)}" if others else ""
    start = len(line) - len(line.lstrip())
    error = InputError(message or "this is not a statement", line, start, len(line.rstrip()), write(*offers))
    return Proposal(first.text, said, error)
