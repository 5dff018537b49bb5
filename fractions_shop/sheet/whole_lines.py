"""Advice on a line of a sheet: what is offered is the whole line, it can be read, and it has the figures that were typed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import Advice, Offer, write
from fractions_shop.language.trial import on_trial
from fractions_shop.size.notation import as_meant

#: More ways to write a line than these are told by the piece alone.
_MOST = 3


class Meant(NamedTuple):
    """Lines that another may mean, and what is said of it; `said` is empty where its own fault says it.

    `sure` lines come before what the fault itself offers. A `note` is not what a line means that only stops too soon.
    """

    offers: tuple[Offer, ...]
    said: str = ""
    sure: bool = False
    note: bool = False
    #: Plain advice, where no line can be made of it.
    example: str = ""


class Habits(NamedTuple):
    """What lines of one kind may mean that are not as the language has them.

    Advice among `own` is that of a fault which says by itself what is wrong with the line.
    """

    means: Callable[[str], Iterator[Meant]]
    own: frozenset[str] = frozenset()
    #: What is advised on a line whose fault is only that it is not one size, or has no advice that makes a line.
    example: Callable[[str], str] = lambda line: ""


#: Of a kind of line that is written in one way alone.
NO_HABITS = Habits(lambda line: iter(()))


def in_whole_lines(error: InputError, reads: Callable[[str], bool], habits: Habits) -> InputError:
    """The fault of a line with the first of what its `habits` mean that can be read; else with its own offers, each a whole line.

    The fault itself where neither can be told.
    """
    # Loaded at the first fault: a sheet without one needs none of it.
    from fractions_shop.language.advice.explain import NO_SIGN
    from fractions_shop.language.advice.fault_place import LONGEST
    from fractions_shop.language.written.statement import EACH_ALONE

    advice = error.advice
    if on_trial() or len(error.text) > LONGEST:
        return error
    every = [meant for meant in habits.means(as_meant(error.text)) if not (meant.note and error.ended)]
    own = _own(error, reads) if isinstance(advice, Advice) else None
    for meant in sorted(every, key=lambda each: not each.sure):
        if own is not None and not meant.sure:
            break
        kept = tuple(offer for offer in meant.offers if _keeps(offer, error, reads))
        if meant.example:
            return _with(error, meant.said, meant.example)
        if kept:
            said = "" if advice in habits.own else meant.said
            return _with(error, said, write(*kept, lead=_lead(kept)))
    if own is not None:
        return own
    example = habits.example(as_meant(error.text))
    # Advice for what is to be one size or one sum is none for a line of a sheet.
    bare = not advice or advice in (NO_SIGN, EACH_ALONE) or 0 < len(getattr(advice, "offers", ())) <= _MOST
    return _with(error, "", example) if example and bare and not error.ended else error


def _own(error: InputError, reads: Callable[[str], bool]) -> InputError | None:
    """The fault with those of its own offers that are whole lines or make them; None where none does, or where they are many."""
    advice = error.advice
    assert isinstance(advice, Advice)
    whole = [placed for offer in advice.offers if (placed := _placed(offer, error, reads)) is not None]
    if not whole or len(advice.offers) > _MOST:
        return None
    return _with(error, "", Advice(tuple(whole), advice.lead, advice.joint, advice.tail, advice.hint))


def _lead(offers: tuple[Offer, ...]) -> str:
    return "write it like this: " if any(offer.completes for offer in offers) else "write "


def _with(error: InputError, said: str, advice: str) -> InputError:
    return InputError(
        said or error.message, error.text, error.start, error.end, advice, error.line, error.ended, error.expected
    )  # fmt: skip


def _keeps(offer: Offer, error: InputError, reads: Callable[[str], bool]) -> bool:
    from fractions_shop.language.advice.gate import fits

    return fits(offer, error, lambda line: line == offer.text and reads(line))


def _placed(offer: Offer, error: InputError, reads: Callable[[str], bool]) -> Offer | None:
    """The offer as a whole line: as it is, or in the place of what is marked."""
    line = as_meant(error.text)
    for whole in (
        offer.text,
        f"{line[: error.start]}{offer.text}{line[max(error.start, error.end) :]}".strip(),
    ):
        if _keeps(offer._replace(text=whole), error, reads):
            return offer._replace(text=whole)
    return None
