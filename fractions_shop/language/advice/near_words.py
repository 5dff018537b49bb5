"""The word that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.size import other_lengths, units

#: Keys beside m, so that `nm` and `mk` are mm mistyped; metres would be another size altogether.
_BESIDE_M = "njk"
_ENDINGS = frozenset({"th", "ths", "nd", "nds", "rd", "rds", "st", "sts"})


def advice(word: str, known: Iterable[str], most: int = 2, lead: str = "write ") -> str:
    """`write width, if that was meant`, or nothing when no known word is near; `lead` is put before the words."""
    near = _near(word, known, most)
    return _meant(near, lead) if near else ""


def unit_advice(word: str) -> str:
    """The one unit that was probably meant; nothing when none is near, or two that differ.

    A unit of one letter is never offered: 5 nm is no way to 5 metres. Near is one slip of
    the hand (a letter left out, put in, exchanged or out of turn), for long words two; and the
    endings of 32nds and 16ths are no slips for yards and thous. Lengths that no drawing writes, such
    as a hand, come behind those that drawings do.
    """
    small = word.lower()
    if len(small) == 2 and "m" in small and small.strip("m") in _BESIDE_M:
        return _meant(["mm"])
    if small in _ENDINGS or len(small) < 3:
        return ""
    drawn = {w: unit.name for unit in units.UNITS for w in unit.words if w.isalpha() and len(w) > 1}
    others = {w: name for name in other_lengths.LENGTHS if name.isalpha() for w in (name, f"{name}s")}
    others |= dict.fromkeys(units.TWO_MEANINGS, "")  # a slip in one of these means no unit
    for spelt in dict.fromkeys((small.replace("rn", "m"), small)):
        for unit_of in (drawn, others):
            near = _nearest(spelt, unit_of)
            meant = {unit_of[w] for w in near}
            if len(meant) == 1 and meant != {""}:
                return _meant(near[:1])
            if near:
                break
    return ""


def _nearest(word: str, known: Mapping[str, str]) -> list[str]:
    """The words that fewest slips of the hand make of this one; none where all want more than a word of its length may have."""
    most = 1 if len(word) < 7 else 2
    counts = {w: slips(word, w) for w in known if abs(len(w) - len(word)) <= most}
    least = min(counts.values(), default=most + 1)
    return [w for w in counts if counts[w] == least <= most]


def _meant(words: list[str], lead: str = "write ", hint: str = "") -> str:
    offers = [Offer(word) for word in words]
    return write(*offers, lead=lead, joint=" or ", tail=", if that was meant", hint=hint)


def slips(word: str, other: str) -> int:
    """How many letters are to be put in, left out, exchanged or turned about to make the words equal."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(word, 1):
        now = [i]
        for j, wanted in enumerate(other, 1):
            least = min(row[j] + 1, now[j - 1] + 1, row[j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and word[i - 2] == wanted:
                least = min(least, before[j - 2] + 1)
            now.append(least)
        before, row = row, now
    return row[-1]


def _near(word: str, known: Iterable[str], most: int) -> list[str]:
    from difflib import get_close_matches  # needed only when something is wrong

    return get_close_matches(word.lower(), list(dict.fromkeys(known)), n=most, cutoff=0.6)


#: Functions by other words of the trade.
_OTHER_FUNCTIONS = {"circumference": "girth", "perimeter": "girth", "ceiling": "ceil", "arc_length": "arc"}


def function(word: str, known: Mapping[str, str]) -> str:
    """What the function is called that a word may have meant; each that is `known` with its example."""
    called = _OTHER_FUNCTIONS.get(word)
    near = [called] if called else _near(word, known, 1)
    if not near:
        return ""
    hint = f"the function is called {near[0]} here"
    return hint if called else _meant(near, hint=f"{hint}, and is written like this: {known[near[0]]}")
