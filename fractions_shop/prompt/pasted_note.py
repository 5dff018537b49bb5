"""A pasted note sorted line by line: statements stay, titles and prose become notes, what is to be made a part line.

A line at fault that looks like a statement stays one, so that its fault is told: nothing is hidden among notes.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Container

from fractions_shop.errors import InputError
from fractions_shop.prompt.own_words import own_word
from fractions_shop.sheet.habits import lost_alone
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.proposed_part import part_line
from fractions_shop.sheet.prose import is_prose
from fractions_shop.sheet.session import Session

#: Longer pastes are answered as they come.
_MOST = 200
#: What stands before an item of a list.
_BULLET = re.compile(r"\s*(?:[-*\u2022\u2013]|[0-9]{1,2}[.)])\s+(?=[^\W\d])")


class ProposedPart(str):
    """A part line made of a line of a paste, to be asked about: Enter takes it."""

    __slots__ = ()


def sorted_lines(lines: list[str], session: Session, parts: Collection[str] = ()) -> list[str]:
    """The lines of a paste as they are to be entered: those that are no statements as notes behind `#`.

    Behind the note of what is to be made stands the part line that it may be, under a name that none of `parts`, the
    sheet's, has.
    """
    if len(lines) < 2 or len(lines) > _MOST:
        return lines
    bench, taken = session.copy(), {part.casefold() for part in parts}
    return [entered for line in lines for entered in _as_entered(line, bench, taken)]


def _as_entered(line: str, bench: Session, taken: set[str]) -> tuple[str, ...]:
    own = own_word(line, bench.known)
    if own is not None and _is_meant(own[0], own[1], bench.known, taken):
        return (line,)
    if read_lines(line)[0].kind != "statement":
        return (line,)
    note, item = f"# {line.strip()}", _BULLET.sub("", line)
    if part := part_line(item, taken):
        taken.add(read_lines(part)[0].part_name.casefold())
        return note, ProposedPart(part)
    if own is not None or lost_alone(item) is not None:
        return (note,)
    try:
        answer = bench.answer(item)
    except InputError:
        return (note if is_prose(item, bench.known) else line,)
    if answer is not None and answer.name is not None:
        bench.remember(answer)
    return (item,)


def _is_meant(word: str, rest: str, names: Container[str], parts: Container[str]) -> bool:
    """Whether one of the prompt's own words stands in a paste as one, and is not the beginning of a sentence."""
    if word in ("show", "why", "drop", "draw"):
        return rest in names or rest.casefold() in parts or rest.isdecimal() or rest in ("ans", "on", "off")
    if word in ("open", "save", "print", "load"):
        return not rest or (" " not in rest and "." in rest)
    if word == "readings":
        return rest.startswith("in ")
    if word == "rename":
        return rest.partition(" ")[0] in names
    return not rest
