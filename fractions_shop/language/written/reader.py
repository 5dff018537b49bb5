"""`written`: what a piece of text says of sizes, in order, and the words that it leaves out.

It is the one reader of sizes with words around them: statements that are none as a whole, part
lines, columns, notes and running text go through it. Nothing is dropped: a figure that no item holds, a
sign that joins or a word that changes a size stands in `unread`, and every other word in `left`.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import cast

from fractions_shop.errors import ArgumentError
from fractions_shop.language.notes import Note, doubt, echo, remark
from fractions_shop.language.written.forms import Atom
from fractions_shop.language.written.items import Item, ItemValue, Left, Written
from fractions_shop.language.written.joined import put_together
from fractions_shop.language.written.scan import atoms_of
from fractions_shop.language.written.words import (
    HARMLESS,
    NEVER_LEFT,
    OF_A_PIPE,
    PIPES,
    ROLES,
    SIGN_WORDS,
    VAGUE,
)
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant, decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.threads.names import ORDINARY_WORDS, PLAIN_WORDS, SHARED_WORDS

_WORD = re.compile(r"\b[A-Za-z]/[A-Za-z]\b|[A-Za-zµÀ-ÖØ-öø-ɏΑ-ωА-я_][\w']*(?:-[A-Za-z]\w*)*|[^\s\w]|\w+")
#: Words that are a series of threads and nothing else.
_SERIES = frozenset(f"{PLAIN_WORDS}|{SHARED_WORDS}".casefold().split("|")) - set(ORDINARY_WORDS.split("|"))
#: Longer text is not read as one piece: it is for `find_sizes`.
LONGEST = 1000
_MARKED_INCH = re.compile(r"\.[0-9]+|(?:[0-9]+[ -])?[0-9]+/(?:2|4|8|16|32|64)|[¼½¾⅛⅜⅝⅞]|[0-9]+[ -]?[¼½¾⅛⅜⅝⅞]")


def written(text: str) -> Written:
    """The items that a text says, in order, with the words left out.

    >>> said = written('two 5/16" O.D. rods')
    >>> [item.kind for item in said.items], said.one.value.inch, [word.text for word in said.left]
    (['count', 'size'], Fraction(5, 16), ['O.D. rods'])
    """
    if not isinstance(text, str):
        raise ArgumentError(f"written takes text, not {type(text).__name__}")
    if len(text) > LONGEST:
        raise ArgumentError(f"written takes {LONGEST:,} characters at most; find_sizes takes any text")
    plain = as_meant(text)
    taken = put_together(atoms_of(plain), plain)
    atoms = taken.atoms
    left, unread = _between(plain, atoms, taken.used)
    if sum(atom.kind not in ("count", "unread") for atom in atoms) == 1:
        atoms = [_with_roles(atom, left, plain) for atom in atoms]
    items = tuple(item_of(atom, text) for atom in atoms if atom.kind != "unread")
    unread += [
        Left(text[atom.start : atom.end], atom.start, atom.end) for atom in atoms if atom.kind == "unread"
    ]
    return Written(text, items, tuple(left), tuple(sorted(unread, key=lambda word: word.start)))


def item_of(atom: Atom, text: str, line: int = 1) -> Item:
    """The item that an atom is."""
    value = cast("ItemValue", atom.value)
    said = text[atom.start : atom.end]
    return Item(atom.kind, value, atom.start, atom.end, said, atom.notes, line, atom.unit, atom.beside)


def vague_doubt(word: str) -> Note:
    """The doubt that `full`, `bare` and the like put on a size."""
    return doubt(f"{word} is not a figure: say how much with limits, such as {VAGUE[word]}")


def left_note(words: tuple[Left, ...]) -> Note:
    """The echo that says which words were left out: `"O.D." left out`."""
    named = ", ".join(f'"{word.text}"' for word in words)
    return echo(f"{named} left out")


def _between(plain: str, atoms: list[Atom], used: list[tuple[int, int]]) -> tuple[list[Left], list[Left]]:
    """The words outside the atoms, those that may be left out and those that may not."""
    left: list[Left] = []
    unread: list[Left] = []
    gone = sorted([(atom.start, atom.end) for atom in atoms] + used)
    place = 0
    for start, end in [*gone, (len(plain), len(plain))]:
        if start > place:
            for match in _WORD.finditer(plain, place, start):
                _sort(match, plain, left, unread)
        place = max(place, end)
    return _joined(left, plain), unread


_SHORT = re.compile("[A-Za-z]/[A-Za-z]|[xX]-[a-z]+")
_IN_BEHIND = re.compile(r"in +[A-Za-z]", re.IGNORECASE)
_OR_SO = re.compile(r"or *(?:so\b|\"|[(\[])", re.IGNORECASE)
_TO_CENTRE = re.compile(r"to c(?:ent(?:er|re)s?)?\b", re.IGNORECASE)
_FROM_CENTRE = re.compile(r"(?<![a-z])c(?:\.|ent(?:er|re)s?)? $", re.IGNORECASE)
_OVER_ALL = re.compile(r"over[ -]all\b", re.IGNORECASE)
_PARTED = re.compile("[-']")


def _sort(match: re.Match[str], plain: str, left: list[Left], unread: list[Left]) -> None:
    word = match[0]
    if word in HARMLESS:
        if (word == "-" and _MINUS.match(plain, match.start())) or _lost_figure(word, match.start(), plain):
            unread.append(Left(word, match.start(), match.end()))
        return
    small = word.lower()
    if word in SIGN_WORDS:
        never = False
    elif word[0].isalpha() and plain[match.end() : match.end() + 1] == "(":
        never = True  # a function of the size, be it misspelt
    elif small.isalpha():
        never = _never(word if len(word) == 1 else small, match.start(), plain)
    elif not word[0].isalpha():
        never = True
    else:
        never = not _SHORT.fullmatch(word) and any(
            _never(part, match.start(), plain) for part in _PARTED.split(small)
        )
    (unread if never else left).append(Left(word, match.start(), match.end()))


def _lost_figure(mark: str, start: int, plain: str) -> bool:
    """Whether a mark of feet or of inches has lost the figure before it: `' 3 1/2"`, `5' "`."""
    before = plain[:start].rstrip(" ")[-1:]
    if mark == "'":
        return not before.isalnum() and _FIGURE_BEHIND.match(plain, start + 1) is not None
    return mark == '"' and before == "'"


#: A figure behind a blank, or one that goes on without a second quotation mark.
_FIGURE_BEHIND = re.compile(r" +[.0-9]|[.0-9][^']*$")


def _never(word: str, start: int, plain: str) -> bool:
    if word == "in":
        # in diameter, in width: words about the size; in alone may be a unit that lost its number.
        return _IN_BEHIND.match(plain, start) is None and not (start > 1 and plain[start - 2] in "\"'")
    if word == "or":
        return _OR_SO.match(plain, start) is None
    if word == "over":
        return _OVER_ALL.match(plain, start) is None
    if word.casefold() in _SERIES:
        return True  # a thread that no table has is no size with a word beside it
    if word in NEVER_LEFT:
        return word != "to" or not _centres(start, plain)
    return any(units.find(word.removeprefix(joint)) is not None for joint in ("per", "as", "in", "to", "of"))


def _centres(start: int, plain: str) -> bool:
    """Whether `to` is that of centre to centre."""
    return (
        _TO_CENTRE.match(plain, start) is not None
        and _FROM_CENTRE.search(plain[max(0, start - 9) : start]) is not None
    )


#: A dash before a figure with nothing before it to part: -1/4 in.
_MINUS = re.compile("- ?[.0-9]")
_SIDE_BY_SIDE = re.compile(r"\.? ?|/")
#: A point that belongs to the word before it, and not to the figures behind.
_POINT = re.compile(r"\.(?![0-9])")


def _joined(left: list[Left], plain: str) -> list[Left]:
    """Words side by side as one, with the points that belong to them: `O.D.`, `center to center`."""
    out: list[Left] = []
    for word in left:
        last = out[-1] if out else None
        if last is not None and _SIDE_BY_SIDE.fullmatch(plain, last.end, word.start):
            out[-1] = Left(plain[last.start : word.end], last.start, word.end)
        else:
            out.append(word)
    return [
        replace(word, text=f"{word.text}.", end=word.end + 1)
        if _POINT.match(plain, word.end) and (len(word.text) < 6 or "." in word.text)
        else word
        for word in out
    ]


def _with_roles(atom: Atom, left: list[Left], plain: str) -> Atom:
    """The only size with what the words around it make doubtful: no unit, a little over or under."""
    if atom.kind not in ("size", "limits") or (not left and not atom.bare):
        return atom
    words = {word for piece in left for word in piece.text.lower().replace(".", "").split()}
    for word in sorted(words & VAGUE.keys()):
        atom = atom.noted(vague_doubt(word))
    if words & PIPES and not words & OF_A_PIPE:
        atom = _called_by_its_bore(atom)
    if not atom.bare:
        return atom
    if _MARKED_INCH.fullmatch(atom.written) and _named_beside(atom, plain):
        how = "a fraction" if "." not in atom.written else "decimals without a zero before the point"
        number = atom.written
        return atom.in_unit("in").noted(
            doubt(
                f"no unit is written: taken as inches, as {how} without one is",
                f"{number} in",
                f"{number} mm",
            )
        )
    if words:
        return replace(atom, kind="unread")
    number = decimal(atom.value.value)[0] if isinstance(atom.value, Quantity) else atom.written
    return atom.noted(remark(f"a plain number, {number}, without a unit"))


def _called_by_its_bore(atom: Atom) -> Atom:
    """`1/2" gas pipe`, which is some 21 mm over all, with that said; any other size as it is."""
    from fractions_shop.threads.lookup import matching

    pipe = next(iter(matching(f"G {atom.written}")), None) if atom.unit == "in" else None
    if pipe is None:
        return atom
    said = f"a pipe is called by its bore: {pipe.name} is {mm_text(pipe.major)} outside"
    return atom.noted(doubt(said, f"{atom.written} in", f"major({pipe.name})"))


_BEFORE = re.compile(rf"(?:[Ø⌀R]|\b(?:{'|'.join(ROLES)})\b\.?)[ :-]*$", re.IGNORECASE)
_BEHIND = re.compile(r"[ -]*(?P<word>[A-Za-z]\w*)")
#: Words behind a number that say nothing of what it is.
_IDLE_WORDS = "typ plcs places ref max min deep"
_IDLE = frozenset(_IDLE_WORDS.split())


def _named_beside(atom: Atom, plain: str) -> bool:
    """Whether a word that says which size it is stands right before or behind a number, and no other behind.

    `1/2 fathom deep` has one, but not right behind: what stands there may be a unit.
    """
    behind = _BEHIND.match(plain, atom.end)
    word = behind["word"].lower() if behind else ""
    if word and word not in ROLES and word not in _IDLE:
        return False
    dotted = re.match(r" *(?:[oi]\. ?d\b|d(?:ia)?\.)", plain[atom.end :], re.IGNORECASE)
    return word in ROLES or dotted is not None or _BEFORE.search(plain[: atom.start]) is not None
