"""`find_sizes`: every size in running text, and nothing that only looks like one.

A size in a page of prose has its unit, or is a screw, gauge or drill by its name: a number alone is
never taken for one there, be it a year, a page or the 3/4 of `fig. 3/4`.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from fractions_shop.errors import ArgumentError
from fractions_shop.language.notes import doubt
from fractions_shop.language.written.forms import Atom
from fractions_shop.language.written.items import FoundSizes
from fractions_shop.language.written.joined import put_together
from fractions_shop.language.written.reader import item_of, vague_doubt
from fractions_shop.language.written.scan import atoms_of
from fractions_shop.language.written.words import VAGUE
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity

#: What is found in running text; counts, rates and angles are no sizes.
FOUND = frozenset({"size", "limits", "range", "thread", "gauge", "drill", "per"})
#: Before a number these say that it is the number of a picture, a page or a thing.
_REFERS = re.compile(
    r"\b(?:figs?|figures?|pp?|pages?|plates?|vols?|volumes?|chap(?:ter)?s?|ch|sect(?:ion)?s?|tables?|items?|steps?|notes?"
    r"|year|lot|order|item|case|drawer|tray|sheet|line|lines|column|row|grade|class|part|stage)\b\.? *(?:[Nn]o\b\.? *)?$",
    re.IGNORECASE,
)
#: Behind `3 in` these show that it is inches; anything else makes it the word.
_DIMENSION = re.compile(
    r" *(?:[.,;:)\]]|$|-|[x×] |(?:by|wide|long|deep|high|thick|tall|square|across|apart|dia\w*|diam\w*|in dia\w*|and|or|to|of \w+ stock|per"
    r"|from|round|above|below|radius|bore|centres?|centers?|o\.c)\b)",
    re.IGNORECASE,
)
#: Before a whole number an article makes what follows an adjective, and its `in` inches: a 2 in bar; a figure and an
#: x make it the second side: 3 1/4 x 1 in plate. Unless a word stands behind that `in` leads to, as in a 2 in place
#: of a 3.
_DESCRIBES = re.compile(r"(?:\ban?|[0-9\"'.] ?(?:[x×]|by\b)|\bin (?:[x×]|by\b)) *$", re.IGNORECASE)
_LED_TO = re.compile(
    r" +(?!(?:an?|all|any|case|each|every|front|it|its|lieu|my|one|order|our|place|stock|that|the|their|this|total|turn|use"
    r"|which|your)\b)[a-z]",
    re.IGNORECASE,
)
#: A number with a second one behind its `x` is a side, and refers to nothing: tray 3 1/4 x 1 in.
_OTHER_SIDE = re.compile(r" *(?:[x×]|\bby\b) *[.0-9]", re.IGNORECASE)
#: Behind feet and inches these make them a turning force: 25 ft-lb.
_FORCE = re.compile(r"[ .-]*(?:lbs?|pounds?|oz|ounces?|tons?)\b", re.IGNORECASE)
_MONEY = re.compile(r"[£$€] ?$")


def find_sizes(text: str) -> FoundSizes:
    r"""The sizes in running text, in order, each with its `line`.

    >>> [(item.written, item.line) for item in find_sizes("Fig. 3/4 shows it.\nCut 24 runners 1/16 in. thick.")]
    [('1/16 in.', 2)]
    """
    if not isinstance(text, str):
        raise ArgumentError(f"find_sizes takes text, not {type(text).__name__}")
    plain = _one_line(as_meant(text))
    starts = [0, *(match.end() for match in re.finditer(r"\r\n|\r|\n", text))]
    atoms = [atom for atom in atoms_of(plain, running=True) if not _no_size(atom, plain)]
    joined = [_vague(atom, plain) for atom in put_together(atoms, plain).atoms]
    return FoundSizes(
        item_of(atom, text, bisect_right(starts, atom.start))
        for atom in joined if atom.kind in FOUND and not atom.bare and not _borrowed(atom, plain)
    )  # fmt: skip


_WORD_BEFORE = re.compile(r"([a-z]+) *$", re.IGNORECASE)
_LIMITS_BEHIND = re.compile(r" *(?:±|\+/?-|\+ ?[.0-9]|- ?[.0]|plus or minus\b)", re.IGNORECASE)
_WORD_BEHIND = re.compile(r" *([a-z]+)", re.IGNORECASE)
_FIGURE_BEHIND = re.compile(r"[.·]?[0-9]")


def _vague(atom: Atom, plain: str) -> Atom:
    """The atom with the doubt of a word right beside it that makes it a little more or less: a bare 5/32 in."""
    before = _WORD_BEFORE.search(plain[max(0, atom.start - 12) : atom.start])
    behind = _WORD_BEHIND.match(plain, atom.end)
    for word in (match[1].lower() for match in (before, behind) if match):
        if word in VAGUE and atom.kind == "size":
            atom = atom.noted(vague_doubt(word))
    if atom.kind == "size" and _LIMITS_BEHIND.match(plain, atom.end):
        atom = atom.noted(doubt("what stands behind it may be its limits, and is not read"))
    if atom.kind == "size" and _FIGURE_BEHIND.match(plain, atom.end):
        # As in 9 ft.6 in.
        atom = atom.noted(doubt("the figures right behind it may belong to it, and are not read"))
    return atom


def _one_line(plain: str) -> str:
    """The text with its line ends as blanks, those between paragraphs apart: a size may run over a line's end."""
    return re.sub(r"(?<![\n\r])(?:\r?\n|\r)(?![\r\n])", lambda end: " " * len(end[0]), plain)


def _no_size(atom: Atom, plain: str) -> bool:
    """Whether an atom only looks like a size: a number of a picture or page, a year, `in`, money, a quotation."""
    before = plain[max(0, atom.start - 24) : atom.start]
    if atom.kind == "unread":
        return False
    if _MONEY.search(before) or (
        atom.kind in ("size", "range", "thread")
        and not _sure(atom)
        and _REFERS.search(before)
        and not _OTHER_SIDE.match(plain, atom.end)
    ):
        return True
    if atom.kind != "size" or not atom.unit:
        return False
    if atom.unit in ("in", "ft") and _FORCE.match(plain, atom.end):
        return True
    whole = atom.written.isdigit()
    last = plain[atom.end - 1]
    if last in "\"'":
        return _quoted(atom, plain, last, whole)
    if whole and plain[atom.end - 3 : atom.end].lower() == " in":
        inches = _DIMENSION.match(plain, atom.end) is not None
        described = _DESCRIBES.search(before) is not None and _LED_TO.match(plain, atom.end) is not None
        return int(atom.written) >= 1000 or not (inches or described)
    return False


def _sure(atom: Atom) -> bool:
    """Whether a size has its unit written: figure 2 in. is none that anyone writes, yet 1/2" behind `sheet` is."""
    return bool(atom.unit) and atom.kind == "size" and not atom.written.isdigit()


def _quoted(atom: Atom, plain: str, mark: str, whole: bool) -> bool:
    """Whether the mark behind a number closes a quotation: "tray 4", marked '3'."""
    if plain[max(0, atom.start - 1) : atom.start] == mark:
        return True
    if not whole:
        return False
    start = max(plain.rfind("\n", 0, atom.start), atom.start - 200, 0)
    opened = 0
    for match in re.finditer(
        rf"(?<![0-9]){re.escape(mark)}(?=\w)|(?<=[a-z,.;]){re.escape(mark)}(?=[ ,.;)])",
        plain[start : atom.start],
    ):
        opened = 1 if match.end() < len(plain) and plain[start + match.end()].isalnum() else 0
    return bool(opened) and (mark == '"')


def _borrowed(atom: Atom, plain: str) -> bool:
    """Whether a whole number has its unit from a size that stands on, as `In 1898, 3 in.` would lend one to the year."""
    if (
        not atom.lent
        or atom.kind != "size"
        or not atom.written.isdigit()
        or not isinstance(atom.value, Quantity)
    ):
        return False
    behind = plain[atom.end : atom.end + 12]
    return int(atom.written) >= 1000 or re.match(r" *,(?! *[0-9/ .]+(?:,| and| or))", behind) is not None
