"""A pasted note sorted line by line: statements stay, titles and prose become notes, what is to be made a part line.

A line at fault that looks like a statement stays one, so that its fault is told: nothing is hidden among notes.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Container, Sequence

from fractions_shop import requests
from fractions_shop.errors import InputError
from fractions_shop.language.advice.bench_words import respelling
from fractions_shop.language.grammar_tables import tables
from fractions_shop.language.written import Item, Written, written
from fractions_shop.language.written.words import PARTS, WHOLES
from fractions_shop.prompt.own_words import own_word
from fractions_shop.requests import help as request_help
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.session import Session
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity

#: Longer pastes are answered as they come.
_MOST = 200
_WORDS = re.compile(r"[^\W\d_]{2,}")
#: What stands before an item of a list.
_BULLET = re.compile(r"\s*(?:[-*\u2022\u2013]|[0-9]{1,2}[.)])\s+(?=[^\W\d])")
_OPENS = re.compile(r"\s*([^\W\d]\w*)(?=(\s*[(:])?)")
#: Signs that no note has, and a name with a bare number, as a column of readings has it.
_SUM_SIGN = re.compile(r"[=#+*^]")
_BARE_READING = re.compile(r"\s*[^\W\d]\w*\s+[0-9./ ]+")
_NOTE_BEGUN = re.compile(r"\s*([^\W\d_]{2,}(?=(?:\s+[^\W\d_]+)*\s*:)|[^\W\d_]{2,}\s+[^\W\d_]{2,}\b)")
#: A line that begins with neither a word nor a size that is read is prose with so many words.
_LEAST_WORDS = 3
_COUNTED = re.compile(
    r"(?P<count>[0-9]{1,4})\s*(?:off|no\.?|nr\.?|pcs?\.?|pieces?|[x×])\s+(?P<rest>\S.*)", re.IGNORECASE
)
_NOUN = re.compile(r"[^\W\d_]{3,}")
_BARE_FRACTION = re.compile(r"(?:[0-9]+[ -])?[0-9]+/[0-9]+")
_PLURAL = re.compile(r"(?<=[a-z])s$")
#: What is bought by its name.
_BOUGHT = ("thread", "gauge", "drill")
#: A part's name is made of so many words of a note.
_MOST_NOUNS = 3


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
    if own is not None:
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


def is_prose(line: str, names: Container[str] = ()) -> bool:
    """Whether a line that cannot be read is a title, a sentence or a remark, and no statement with a slip in it.

    A statement begins with a name, the word of a request, a function or a figure. `names` are those of the session.
    """
    words = _WORDS.findall(line)
    if not words or _SUM_SIGN.search(line) or respelling(as_meant(line)) is not None:
        return False
    opening = _OPENS.match(line)
    if opening is None:
        return len(words) >= _LEAST_WORDS
    word, behind = opening[1], (opening[2] or "").strip()
    if word in names or (behind == "(" and word.lower() in request_help.functions()):
        return False
    if word.lower() in requests.words():
        # A request is of sizes: one that has none and speaks of nothing that is named is a sentence.
        return len(words) >= 2 and not re.search("[0-9]", line) and not any(each in names for each in words)
    if len(words) == 1 and not behind and line.strip() == word:
        return word.istitle()  # a heading; in small letters it may be a name
    return _BARE_READING.fullmatch(line) is None


def is_a_note(line: str, names: Container[str] = ()) -> bool:
    """Whether a typed line that cannot be read begins as a note does: with a label and a colon, or with two words of no meaning here."""
    begun = _NOTE_BEGUN.match(line)
    return begun is not None and not any(map(_has_a_meaning, begun[1].split())) and is_prose(line, names)


def _has_a_meaning(word: str) -> bool:
    """Whether a word is one of the language, of a unit or a function."""
    small = word.lower()
    if small in ("half", "and", *WHOLES, *PARTS):
        return True
    return small in tables().words or units.find(small) is not None or small in request_help.functions()


def part_line(line: str, taken: Container[str] = ()) -> str:
    """The part line that `2 off 2 BA screws 1/2 in lg` may be; empty for a line that says no count of things.

    `taken` are names of parts, in small letters, that it must not have.

    >>> part_line("2 off 2 BA screws 1/2 in lg")
    'part 2 BA screws: 2, round 2 BA by 1/2 in; 2 BA screws 1/2 in lg'
    """
    match = _COUNTED.fullmatch(line.strip())
    if match is None or any(sign in match["rest"] for sign in ";:"):
        return ""
    said = written(match["rest"]) if len(match["rest"]) < _MOST else None
    if said is None or any(word.text.lower() not in ("by", "x", "×") for word in said.unread):
        return ""
    sizes = [item for item in said.items if item.kind == "size"]
    bought = [item for item in said.items if item.kind in _BOUGHT]
    called = _called(said, sizes)
    others = len(said.items) - len(sizes) - len(bought)
    if others or len(bought) > 1 or not all(map(_is_length, sizes)) or not (called or bought):
        return ""
    hardware = " ".join(bought[0].written.split()) if bought else ""
    by = [_with_unit(" ".join(item.written.split())) for item in sizes[:_MOST_NOUNS]]
    if hardware and len(by) == 1:
        by = [f"round {_PLURAL.sub('', hardware)}", *by]
    name = f"{hardware} {called}".strip()
    number = 2
    while name.casefold() in taken:
        name, number = f"{hardware} {called}".strip() + f" {number}", number + 1
    sized = f", {' by '.join(by)}" if by else ""
    return f"part {name}: {match['count']}{sized}; {match['rest'].strip()}"


def _called(said: Written, sizes: Sequence[Item]) -> str:
    """What a thing is called: the first words before its sizes or behind them; one between them tells how they lie."""
    first, last = (sizes[0].start, sizes[-1].end) if sizes else (0, 0)
    for left in said.left:
        nouns = _NOUN.findall(left.text)
        if nouns and not first < left.start < last:
            return " ".join(nouns[-_MOST_NOUNS:])
    return ""


def _is_length(item: Item) -> bool:
    """Whether it is a length, or a fraction of an inch without its unit, as the bench writes it."""
    if _BARE_FRACTION.fullmatch(item.written.strip()):
        return True
    return isinstance(item.value, Quantity) and item.value.power == 1 and not item.doubts


def _with_unit(text: str) -> str:
    return f"{text} in" if _BARE_FRACTION.fullmatch(text) else text
