"""The first few of several words."""

from __future__ import annotations

from collections.abc import Sequence

#: So many words are told of what may follow.
MOST_TOLD = 3


def either(words: Sequence[str]) -> str:
    """`round, square or 2 more`."""
    if len(words) > MOST_TOLD + 1:
        return f"{', '.join(words[:MOST_TOLD])} or {len(words) - MOST_TOLD} more"
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else words[0]
