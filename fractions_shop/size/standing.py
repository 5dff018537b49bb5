"""Standing: how far a figure of a table may be trusted, which goes wherever the figure goes.

A size that a maker gives has none: it is his own. One that a table gives has the standing of
its row, and what is worked out of several has the least trusted of theirs.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

#: What each standing means, the most trusted first. Only the first two may be used as a check
#: on anything else.
STANDINGS = {
    "printed": "read in a published table or an open data file, and a second source agrees",
    "rule": "computed from a published rule or formula",
    "one source": "read in one place only",
    "beyond the standard": "the standard's rule carried on past where the standard stops",
    "from memory": "written down from memory of a standard, not read: check before relying on it",
}
_ORDER = {standing: n for n, standing in enumerate(("", *STANDINGS))}
#: Standings that need no word beside the figure itself: where it is from is said once, in its source line.
_SOUND = ("", "printed", "rule")
#: What is said of one figure that needs a word, behind `this figure is`.
ALONE = {
    "one source": "from one source",
    "beyond the standard": "beyond the standard",
    "from memory": "from memory: check before relying on it",
}
#: So many things of one standing are named.
_NAMED = 4


def worse(first: str, second: str) -> str:
    """The less trusted of two standings; a size without one is the maker's own, and is trusted.

    >>> worse("printed", "from memory"), worse("rule", "")
    ('from memory', 'rule')
    """
    return first if first == second or _ORDER[first] >= _ORDER[second] else second


def worst(values: Iterable[Any]) -> str:
    """The least trusted standing of several values; those that have none are passed over."""
    least = ""
    for value in values:
        least = worse(least, getattr(value, "standing", ""))
    return least


def is_sound(standing: str) -> bool:
    """Whether a figure of this standing is told without a word beside it."""
    return standing in _SOUND


def in_words(standing: str) -> str:
    """A standing as it is told: `computed by rule`, `one source`."""
    return "computed by rule" if standing == "rule" else standing


def mark_of(standing: str) -> str:
    """What stands behind a figure of that standing: `, from memory`; nothing where no word is needed."""
    return "" if is_sound(standing) else f", {in_words(standing)}"


def in_brackets(standing: str) -> str:
    """The same within a list or a sentence: ` (from memory)`."""
    return "" if is_sound(standing) else f" ({in_words(standing)})"


def rests_on(standings: dict[str, str]) -> tuple[str, ...]:
    """What is said of figures that need a word, by what they are called; nothing where none does.

    >>> rests_on({"M16": "from memory", "18 SWG": "printed"})
    ('rests on M16, from memory: check before relying on it',)
    """
    said = []
    for standing in STANDINGS if standings else ():
        called = [name for name, its in standings.items() if its == standing and not is_sound(its)]
        if called:
            more = f" and {len(called) - _NAMED} more" if len(called) > _NAMED else ""
            check = ": check before relying on it" if standing == "from memory" else ""
            said.append(f"rests on {', '.join(called[:_NAMED])}{more}, {standing}{check}")
    return tuple(said)
