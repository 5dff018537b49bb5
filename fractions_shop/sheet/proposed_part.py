"""The part line that a count of things with their sizes may be: `2 off 2 BA screws 1/2 in lg`."""

from __future__ import annotations

import re
from collections.abc import Container, Sequence

from fractions_shop.language.written import Item, Written, written
from fractions_shop.size.quantity import Quantity

#: A longer line is none.
_MOST = 200
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
