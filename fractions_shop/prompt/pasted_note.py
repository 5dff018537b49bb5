"""A pasted note sorted line by line: statements stay, titles and prose become notes, what is to be made a part line.

A line at fault that looks like a statement stays one, so that its fault is told: nothing is hidden among notes.
"""

from __future__ import annotations

import re

from fractions_shop import requests
from fractions_shop.errors import InputError
from fractions_shop.language.written import written
from fractions_shop.prompt.own_words import own_word
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.session import Session
from fractions_shop.size.quantity import Quantity

#: Longer pastes are answered as they come.
_MOST = 200
_WORDS = re.compile(r"[^\W\d_]{2,}")
_PROSE_SIGN = re.compile(r"[=#]|^\s*[^\W\d]\w*\s*:")
_COUNTED = re.compile(
    r"(?P<count>[0-9]{1,4})\s*(?:off|no\.?|nr\.?|pcs?\.?|pieces?|[x×])\s+(?P<rest>\S.*)", re.IGNORECASE
)
_NOUN = re.compile(r"[^\W\d_]{3,}")


class ProposedPart(str):
    """A part line made of a line of a paste, to be asked about: Enter takes it."""

    __slots__ = ()


def sorted_lines(lines: list[str], session: Session) -> list[str]:
    """The lines of a paste as they are to be entered: those that are no statements as notes behind `#`.

    Behind the note of what is to be made stands the part line that it may be.
    """
    if len(lines) < 2 or len(lines) > _MOST:
        return lines
    bench = session.copy()
    return [entered for line in lines for entered in _as_entered(line, bench)]


def _as_entered(line: str, bench: Session) -> tuple[str, ...]:
    if own_word(line, bench.known) is not None or read_lines(line)[0].kind != "statement":
        return (line,)
    note = f"# {line.strip()}"
    part = part_line(line)
    if part:
        return note, ProposedPart(part)
    try:
        answer = bench.answer(line)
    except InputError:
        return (note if is_prose(line) else line,)
    if answer is not None and answer.name is not None:
        bench.remember(answer)
    return (line,)


def is_prose(line: str) -> bool:
    """Whether a line that cannot be read is a title or a sentence, and no statement with a slip in it."""
    if _PROSE_SIGN.search(line):
        return False
    words = _WORDS.findall(line)
    if words and words[0].lower() in requests.words():
        return False
    return len(words) >= 3 or (len(words) == 2 and not re.search("[0-9]", line))


def part_line(line: str) -> str:
    """The part line that `2 off 2 BA screws 1/2 in lg` may be; empty for a line that says no count of things.

    >>> part_line("2 off 2 BA screws 1/2 in lg")
    'part screws: 2, 1/2 in; 2 BA screws 1/2 in lg'
    """
    match = _COUNTED.fullmatch(line.strip())
    if match is None or ";" in match["rest"]:
        return ""
    said = written(match["rest"]) if len(match["rest"]) < _MOST else None
    if said is None or any(word.text.lower() not in ("by", "x", "×") for word in said.unread):
        return ""
    sizes = [item for item in said.items if item.kind == "size" and not item.doubts]
    named = [nouns for left in said.left if (nouns := _NOUN.findall(left.text))]
    if not named or not all(isinstance(item.value, Quantity) and item.value.power == 1 for item in sizes):
        return ""
    by = " by ".join(" ".join(item.text.split()) for item in sizes[:3])
    front = f"part {named[0][-1]}: {match['count']}"
    return f"{front}{f', {by}' if by else ''}; {match['rest'].strip()}"
