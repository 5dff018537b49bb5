"""The signs with which what a regular expression matches can begin; for the tables of a lexer.

A lexer that knows them compiles at each place only what may stand there. They are taken from the expression as
Python's own parser of expressions reads it. Signs beyond ASCII are not told apart: `BEYOND` stands for them all.
"""

from __future__ import annotations

import re._constants as kind  # type: ignore[import-not-found]
import re._parser as parser  # type: ignore[import-not-found]
from collections.abc import Iterable
from re import IGNORECASE
from typing import Any

from fractions_shop.language.lalr import BEYOND

_ASCII = frozenset(map(chr, range(128)))
_ANY = _ASCII | {BEYOND}


def first_signs(expression: str) -> str:
    """The ASCII signs with which a match may begin, and BEYOND where it may begin with another, in order.

    A sign too many does no harm, one too few would: what looks ahead or behind is taken to allow all.

    >>> first_signs("[-+]?[0-3]"), first_signs("(?i:p)ercent|%") == "%Pp" + BEYOND
    ('+-0123', True)
    """
    tree = parser.parse(expression)
    signs, may_be_empty = _of(tree, bool(tree.state.flags & IGNORECASE))
    return "".join(sorted(_ANY if may_be_empty else signs))


def _of(parts: Iterable[tuple[Any, Any]], any_case: bool) -> tuple[frozenset[str], bool]:
    """The first signs of parts in a row, and whether all of them together may match nothing."""
    signs = frozenset[str]()
    for what, more in parts:
        own, may_be_empty = _of_part(what, more, any_case)
        signs |= own
        if not may_be_empty:
            return signs, False
    return signs, True


def _of_part(what: Any, more: Any, any_case: bool) -> tuple[frozenset[str], bool]:
    if what in (kind.AT, kind.ASSERT, kind.ASSERT_NOT):
        return frozenset(), True
    if what in (kind.MAX_REPEAT, kind.MIN_REPEAT, kind.POSSESSIVE_REPEAT):
        least, _, parts = more
        signs, may_be_empty = _of(parts, any_case)
        return signs, may_be_empty or least == 0
    if what is kind.SUBPATTERN:
        _, added, taken, parts = more
        return _of(parts, bool(added & IGNORECASE) or (any_case and not taken & IGNORECASE))
    if what is kind.ATOMIC_GROUP:
        return _of(more, any_case)
    if what is kind.BRANCH:
        ways = [_of(parts, any_case) for parts in more[1]]
        return frozenset().union(*(signs for signs, _ in ways)), any(empty for _, empty in ways)
    return _of_one_sign(what, more, any_case), False


def _of_one_sign(what: Any, more: Any, any_case: bool) -> frozenset[str]:
    if what is kind.LITERAL:
        return _cased(_ranged(more, more), any_case)
    if what is kind.RANGE:
        return _cased(_ranged(*more), any_case)
    if what is kind.IN and more[0][0] is not kind.NEGATE:
        return frozenset().union(*(_of_one_sign(item, its, any_case) for item, its in more))
    return _ANY  # all but some, a class of signs, or what is repeated from before


def _ranged(first: int, last: int) -> frozenset[str]:
    signs = frozenset(sign for sign in _ASCII if first <= ord(sign) <= last)
    return signs | {BEYOND} if last > 127 else signs


def _cased(signs: frozenset[str], any_case: bool) -> frozenset[str]:
    """The same in both cases; some letters have a further form beyond ASCII, such as the sign for kelvin."""
    if not any_case:
        return signs
    both = frozenset(form for sign in signs for form in (sign.lower(), sign.upper()) if form in _ANY)
    return both | {BEYOND} if any(sign.isalpha() for sign in signs) else signs | both
