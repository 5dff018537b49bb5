"""Where a line cannot be read on, and what may be said of it."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

#: A longer line is no sentence that anyone says; patterns over the whole of it would cost time.
LONGEST = 200

#: What to say: the message, the advice, and the characters at fault.
Said = tuple[str, str, int, int]


class Spot(NamedTuple):
    """A token that does not fit: its kind `found`, its `piece` of the line, the kind `before` it.

    `reads` tells whether another line could be read, so that no advice is given that would
    itself be refused.
    """

    meant: str
    start: int
    found: str
    piece: str
    before: str
    reads: Callable[[str], bool] = lambda line: False

    @property
    def end(self) -> int:
        """The character behind it."""
        return self.start + len(self.piece)

    @property
    def code(self) -> str:
        """The line without the blanks and the comment behind it; nothing when it is too long."""
        code = code_of(self.meant)
        return code if len(code) <= LONGEST else ""


def code_of(meant: str) -> str:
    """The line's own text, before blanks and a comment."""
    return re.sub(r" *(#(?![0-9]).*)?$", "", meant, count=1)


def is_bare(size: str) -> bool:
    """Whether a size is written as a number without a unit."""
    return re.fullmatch(r"[-+]?[0-9]*[0-9./ ¼½¾⅛⅜⅝⅞-]*", size.strip()) is not None


def with_units(size: str) -> str:
    """`3/8 in or 3/8 mm`: both ways to give a bare number its unit."""
    return f"{size} in or {size} mm" if is_bare(size) else size
