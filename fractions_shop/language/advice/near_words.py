"""The word that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable

from fractions_shop.size import units

#: Keys beside m, so that `nm` and `mk` are mm mistyped; metres would be another size altogether.
_BESIDE_M = "njk"


def advice(word: str, known: Iterable[str], most: int = 2) -> str:
    """`write width, if that was meant`, or nothing when no known word is near."""
    found = _near(word, known, most)
    return f"write {' or '.join(found)}, if that was meant" if found else ""


def unit_advice(word: str) -> str:
    """The one unit that was probably meant; nothing when none is near.

    A unit of one letter is never offered, nor two that differ: 5 nm is no way to 5 metres.
    """
    small = word.lower()
    if len(small) == 2 and "m" in small and small.strip("m") in _BESIDE_M:
        return "write mm, if that was meant"
    words = [w for unit in units.UNITS for w in unit.words if w.isalpha() and len(w) > 1]
    found = _near(small.replace("rn", "m"), words, 1) or _near(small, words, 1)
    return f"write {found[0]}, if that was meant" if found else ""


def _near(word: str, known: Iterable[str], most: int) -> list[str]:
    from difflib import get_close_matches  # needed only when something is wrong

    return get_close_matches(word.lower(), list(dict.fromkeys(known)), n=most, cutoff=0.6)
