"""Where a line cannot be read on, and what may be said of it."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import NamedTuple

from fractions_shop.language.advice.offers import Advice, write
from fractions_shop.size.notation import GLYPHS

#: Nobody types a phrase longer than this, and patterns over the whole of it would cost time.
LONGEST = 200

#: One number without a unit, as it may be written.
_BARE = re.compile(
    rf"[-+]?(?:[0-9]+(?: +|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|(?:[0-9]+[ -]?)?[{GLYPHS}]|[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
)
#: What to say: the message, the advice, and the characters at fault.
Said = tuple[str, str, int, int]


class Spot(NamedTuple):
    """A token that does not fit: its `kind`, its `piece` of the line, the kind `before` it.

    `reads` tells whether another line could be read, so that no advice is given that would
    itself be refused.
    """

    meant: str
    start: int
    kind: str
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


@cache
def compiled(pattern: str) -> re.Pattern[str]:
    """A pattern of one of the tables of advice; the module re keeps too few for a fault not to compile them all anew."""
    return re.compile(pattern, re.IGNORECASE)


def code_of(meant: str) -> str:
    """The line's own text, before blanks and a comment."""
    return re.sub(r" *(#(?![0-9]).*)?$", "", meant, count=1)


def is_bare(size: str) -> bool:
    """Whether a size is written as a number without a unit."""
    return _BARE.fullmatch(size.strip()) is not None


def with_units(size: str, lead: str = "write ") -> Advice:
    """`write 3/8 in or 3/8 mm`: both ways to give a bare number its unit."""
    sizes = (f"{size} in", f"{size} mm") if is_bare(size) else (size,)
    return write(*sizes, lead=lead, joint=" or ")
