"""The signs with which what a regular expression matches can begin; for the tables of a lexer.

A lexer that knows them compiles at each place only what may stand there. Each sign is tried by itself, as the
beginning of a longer text: `regex` tells of a match that the end of the text cut short.
"""

from __future__ import annotations

from functools import cache

import regex

from fractions_shop.language.scanner import BEYOND

#: Every sign of the alphabets that have capitals, and of those that stand for fractions, units and sums. What matches
#: one further on matches one of these: no expression of ours tells those apart.
_SIGNS = tuple(map(chr, range(0x3000)))


@cache
def first_signs(expression: str) -> str:
    """The ASCII signs with which a match may begin, and BEYOND where it may begin with another, in order.

    >>> first_signs("[-+]?[0-3]"), first_signs("(?i:p)ercent|%") == "%Pp", first_signs("½?[a-c]") == "abc" + BEYOND
    ('+-0123', True, True)
    """
    pattern = regex.compile(expression)
    able = (sign for sign in _SIGNS if pattern.match(sign, partial=True))
    return "".join(sorted({sign if sign.isascii() else BEYOND for sign in able}))
