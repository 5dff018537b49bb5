"""A text to its atoms: every written size, name and count in order, and figures that could not be read."""

from __future__ import annotations

import re

from fractions_shop.language.written.forms import Atom, size_at
from fractions_shop.language.written.named import LEAD, named_at
from fractions_shop.language.written.words import WHOLES
from fractions_shop.size.notation import GLYPHS, UNSEEN
from fractions_shop.threads.names import PLAIN_WORDS

_SPOKEN = "|".join([*sorted((word for word in WHOLES), key=len, reverse=True), "half", "quarter"])
_NAMES = rf"drill (?:No|\#)|No\b|Nr\b|number\b|letter\b|[A-Z] drill\b|(?:{PLAIN_WORDS})\b|USS?\b|SAE\b|British\b|American\b|UK\b|M ?[0-9]|[GR][cp]? ?[0-9]"
#: Where an atom may begin.
_BEGINS = re.compile(
    rf"[0-9{GLYPHS}⁰¹²³⁴⁵⁶⁷⁸⁹⅟]|\.[0-9]|\#[ ]?[0-9]|\"[A-Z]\"|(?<![A-Za-z])(?:{_SPOKEN})(?![A-Za-z])|(?<![A-Za-z0-9])(?:{_NAMES})",
    re.IGNORECASE,
)
_FIGURES = re.compile(rf"[0-9{GLYPHS}.,/#:A-Za-z_]*[0-9{GLYPHS}][0-9{GLYPHS}/A-Za-z_%]*(?:[.,:][0-9]+)*")

#: Figures with nothing to be seen between them, where a blank or a dash may be lost: one number or two.
_PARTED = re.compile(rf"[0-9{GLYPHS}./]*[0-9{GLYPHS}](?:[{UNSEEN}]+[.0-9{GLYPHS}][0-9{GLYPHS}./]*)+")


def atoms_of(text: str, running: bool = False) -> list[Atom]:
    """The atoms of a text whose signs are plain; figures that none of them holds are of the kind `unread`."""
    atoms: list[Atom] = []
    place = 0
    while True:
        match = _BEGINS.search(text, place)
        if match is None:
            return atoms
        at = match.start()
        parted = None if text.isascii() else _PARTED.match(text, at)
        if parted is not None:
            atoms.append(Atom("unread", None, at, parted.end(), written=parted[0]))
            place = parted.end()
            continue
        atom = named_at(text, at, running) if LEAD.match(text, at) else None
        if atom is None:
            atom = size_at(text, at)
        if atom is None:
            atom = _unread(text, at)
        if atom is None:
            place = at + 1
            continue
        atoms.append(atom)
        place = atom.end


def _unread(text: str, at: int) -> Atom | None:
    match = _FIGURES.match(text, at)
    if match is None:
        return None
    return Atom("unread", None, at, match.end(), written=match[0])
