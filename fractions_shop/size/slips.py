"""Slips of the pen and of print in a written number: a blank, a point or a figure that was lost, a unit that cannot be."""

from __future__ import annotations

import re
from fractions import Fraction

#: Over a 16th or finer an improper fraction below this many is a count of a rule's divisions: 17/16, 65/32.
_COUNTED_BELOW = 4
_IMPROPER = r"[0-9]*[0-9]{2}/(?:2|4|8|16|32|64)"


def lost_blank(number: str) -> Fraction | None:
    """The mixed number that an improper fraction may be whose blank was lost in print: 2 1/2 of `21/2`.

    None where that is no proper fraction in lowest terms. Of halves, quarters and eighths nobody writes
    the whole in two figures above the bar, so that each such one is doubtful; finer ones are from 4 up.

    >>> lost_blank("21/2"), lost_blank("17/16"), lost_blank("111/16")
    (Fraction(5, 2), None, Fraction(27, 16))
    """
    if "/" not in number or re.fullmatch(_IMPROPER, number) is None:
        return None
    top, bottom = number.split("/")
    below = int(bottom)
    if below > 8 and int(top) < _COUNTED_BELOW * below:
        return None
    for cut in range(1, len(top)):
        whole, part = top[:cut], top[cut:]
        if part[0] != "0" and whole[0] != "0" and int(part) < below and int(part) % 2:
            return Fraction(int(whole) * below + int(part), below)
    return None


#: A fraction of a millimetre that only a rule of inches has, and one that nobody writes: over 1, over 02.
_OF_RULES = re.compile(r"/(?:16|32|64|128)$")
_OVER_ONE = re.compile(r"/0*1$|/0")
#: Of a foot nobody writes eighths and finer with a mark: 3/8' has lost one of its two.
_OF_A_FOOT = re.compile(r"/(?:8|16|32|64|128)$")
#: Ten or more metres, of the one letter, are longer than anything at a bench: an m may be lost.
_MANY = re.compile("[1-9][0-9]")
#: A zero before other figures, as of 0193, has lost the point behind it.
_LEADING_ZERO = re.compile(r"0[0-9]+(?:\.[0-9]*)?")


def unit_slipped(word: str, name: str) -> str:
    """What `slip` knows a unit by, of that word and name: the mark of feet and the one letter of metres are its own."""
    if name == "m":
        return "m" if word == "m" else "metres"
    return word if word == "'" else name


def slip(number: str, unit: str) -> str:
    """Which slip of the pen a written number and the word of its unit may be; empty for none.

    `blank` (21/2 in), `unit` (13/32 mm), `figure` (11/1 in), `mark` (3/8'), `point` (0193 in), `letter` (20 m).

    >>> slip("13/32", "mm"), slip("13/32", "in")
    ('unit', '')
    """
    if unit == "m" and _MANY.match(number):
        return "letter"
    if "/" not in number:
        return "point" if number[:1] == "0" and _LEADING_ZERO.fullmatch(number) else ""
    if _OVER_ONE.search(number):
        return "figure"
    if unit == "mm" and _OF_RULES.search(number):
        return "unit"
    if unit == "'" and _OF_A_FOOT.search(number):
        return "mark"
    return "" if lost_blank(number) is None else "blank"
