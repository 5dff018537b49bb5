"""Advice that offers statements: the words of it, and which of them may be typed as they stand.

What is offered is kept beside the words, so that the gate (and whoever shows the advice) need
not read a sentence to find the size in it. Advice without offers is a plain string.
"""

from __future__ import annotations

from typing import NamedTuple


class Offer(NamedTuple):
    """Something to write: the whole line, or what is to stand in place of what is marked.

    `why` follows it (` for decimals`). `worked` says that its figures are worked out of those
    typed (4 1/4 for 3 5/4), and `completes` that it goes on where the line stopped, with
    figures that are only an example; the words around it must say so.
    """

    text: str
    why: str = ""
    worked: bool = False
    completes: bool = False


class Advice(str):
    """Words of advice, with the `offers` that they make."""

    __slots__ = ("hint", "joint", "lead", "offers", "tail")
    offers: tuple[Offer, ...]
    lead: str
    joint: str
    tail: str
    hint: str

    def __new__(cls, offers: tuple[Offer, ...], lead: str, joint: str, tail: str, hint: str) -> Advice:
        """The words, made of the offers."""
        words = joint.join(f"{offer.text}{offer.why}" for offer in offers)
        made = super().__new__(cls, f"{lead}{words}{tail}")
        made.offers, made.lead, made.joint, made.tail, made.hint = offers, lead, joint, tail, hint
        return made

    @property
    def is_example(self) -> bool:
        """Whether all that it offers has figures of an example alone, and not of what was typed."""
        return all(offer.completes for offer in self.offers)

    def __reduce__(self) -> tuple[type[Advice], tuple[tuple[Offer, ...], str, str, str, str]]:
        return Advice, (self.offers, self.lead, self.joint, self.tail, self.hint)

    def only(self, offers: tuple[Offer, ...]) -> str:
        """The same advice with some of its offers; its plain hint when none is left."""
        return Advice(offers, self.lead, self.joint, self.tail, self.hint) if offers else self.hint


def write(
    *offers: str | Offer, lead: str = "write ", joint: str = ", or ", tail: str = "", hint: str = ""
) -> Advice:
    """`write 1234, or 1.234`: advice to write one of the offers.

    `hint` is what is said, in plain words, when no offer passes the gate.

    >>> write("1234", "1.234").offers[1].text
    '1.234'
    """
    made = tuple(Offer(offer) if isinstance(offer, str) else offer for offer in offers)
    return Advice(made, lead, joint, tail, hint)


class OrExample(str):
    """What is advised unless the line opens with a request's word: then an example of it is better."""

    __slots__ = ()
