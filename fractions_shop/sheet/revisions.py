"""Revision lines: what changed in the thing that a sheet is of, and which revision of it stands.

`rev LABEL[, DATE]: WHAT CHANGED`, such as `rev B, 3 May 2026: lip raised 1/32 in`. The label is one word of letters,
figures, points and hyphens; the date is kept as it is written.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.errors import InputError
from fractions_shop.size.notation import as_meant

EXAMPLE = "rev B: lip raised 1/32 in"
ADVICE = f"write it like this: {EXAMPLE}"
#: A longer label would not fit the title of a drawing.
LONGEST_LABEL = 12
LONGEST_DATE = 40

_WORD = r"\s*rev(?:ision)?\b\.?"
#: `rev B:`, `rev B, 3 May 2026:`, `rev:`; a name that is called rev has no colon so near behind it.
_WHOLE = re.compile(
    rf"{_WORD}\s*(?P<label>\w[\w.\-]*)?\s*(?:,(?P<date>[^:=#]*))?:(?P<words>.*)", re.IGNORECASE
)
#: `rev B lip raised`: the colon is missing.
_NO_COLON = re.compile(rf"(?i:{_WORD})\s+(?:[A-Z]|[0-9]+(?=\s*$))(?=\s+(?!as\b)[^\W\d]|\s*$|\s*,)")


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision: its label (`B`), what changed, the date if the line gives one, and the line's number."""

    label: str
    words: str
    date: str
    line: int


def begins_a_revision(meant: str) -> bool:
    """Whether a line is a revision line, well formed or not; `rev = 2 in` and `rev / 2` are not."""
    return _WHOLE.match(meant) is not None or _NO_COLON.match(meant) is not None


def read_revision(text: str, number: int = 1) -> Revision:
    """The revision that a line tells of; InputError, with the place, for a label or a colon that is missing."""
    meant = as_meant(text)
    whole = _WHOLE.match(meant)
    if whole is None:
        end = len(text.rstrip())
        raise InputError(
            "a revision line needs a colon behind its letter or number", text, end, end, ADVICE,
            ended=_NO_COLON.fullmatch(meant.rstrip()) is not None,
        )  # fmt: skip
    if whole["label"] is None:
        colon = whole.start("words") - 1
        raise InputError(
            "a revision has a letter or a number, before its colon", text, colon, colon + 1, ADVICE
        )
    for name, most, called in (("label", LONGEST_LABEL, "letter or number"), ("date", LONGEST_DATE, "date")):
        start, end = whole.span(name)
        if end - start > most:
            raise InputError(f"the revision's {called} is too long", text, start, end, ADVICE)
    label, date, words = (
        "" if whole[name] is None else " ".join(text[slice(*whole.span(name))].split())
        for name in ("label", "date", "words")
    )
    return Revision(label, words, date, number)


def label_span(text: str) -> tuple[int, int]:
    """From where to where the letter or number stands in a revision line."""
    match = _WHOLE.match(as_meant(text))
    return match.span("label") if match else (0, 0)


def in_order(revisions: Sequence[Revision]) -> tuple[Revision, ...]:
    """Oldest first: by their letters or numbers where these are of one kind, whichever way the sheet lists them.

    Else as they stand in the sheet.
    """
    letters = all(revision.label.isascii() and revision.label.isalpha() for revision in revisions)
    if letters:
        # Z is followed by AA.
        return tuple(sorted(revisions, key=lambda revision: (len(revision.label), revision.label.upper())))
    if all(revision.label.isascii() and revision.label.isdigit() for revision in revisions):
        return tuple(sorted(revisions, key=lambda revision: int(revision.label)))
    return tuple(revisions)


def with_revision(title: str, label: str, most: int | None = None) -> str:
    """What a thing is called, with its revision, in at most so many letters: it is the title that gives way.

    >>> with_revision("Label frame", "B"), with_revision("Label frame", "B", 14)
    ('Label frame, rev B', 'Label…, rev B')
    """
    tail = f", rev {label}" if label else ""
    if most is None or len(title) + len(tail) <= most:
        return title + tail
    return f"{title[: max(0, most - len(tail) - 1)].rstrip()}…{tail}"
