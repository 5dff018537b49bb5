"""The word that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable


def advice(word: str, known: Iterable[str]) -> str:
    """`write width, if that was meant`, or nothing when no known word is near."""
    from difflib import get_close_matches  # needed only when something is wrong

    found = get_close_matches(word.lower(), list(dict.fromkeys(known)), n=2, cutoff=0.6)
    return f"write {' or '.join(found)}, if that was meant" if found else ""
