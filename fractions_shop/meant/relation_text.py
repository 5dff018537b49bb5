"""Relations from text, in a small form of their own: `rack = 5 * bay + 6 of slat + 1/2 in`.

    relation:  sum = sum
    sum:       [+|-] term {+|- term}
    term:      factor {* factor | of factor | / number}
    factor:    a size | a number | a name | ( sum )

At most one factor of a term may hold a name or a size: anything else is no longer linear and
is refused with its place. A size is written in any plain way (`2 31/32 in`, `51.5 mm`).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import NoReturn

from fractions_shop.errors import InputError
from fractions_shop.meant.relations import Relation
from fractions_shop.size.notation import as_meant, read_plain
from fractions_shop.size.quantity import Quantity

_NAME = re.compile(r"[^\W\d]\w*")
_BLANK = re.compile(r"\s*")
_FIGURE = re.compile(r"[0-9.]")
#: Where a written number or size must have ended: a sign that joins, or a word.
_END = re.compile(r"[+*=()]|\s-\s|\s/\s|\s+of\b")
_OF = re.compile(r"of\b")
#: Longer text is no relation that somebody wrote down.
_LONGEST, _DEEPEST = 1000, 20
_ADVICE = "write a sum of counted names and sizes on each side: rack = 5 * bay + 6 * slat"

_ZERO = Fraction(0)


@dataclass
class _RelationSum:
    """Counts of names, a length in mm, and a plain number; `bare` while it is only a number."""

    counts: dict[str, Fraction]
    length: Fraction = _ZERO
    number: Fraction = _ZERO
    sized: bool = False

    @property
    def bare(self) -> bool:
        return not self.counts and not self.sized

    def add(self, other: _RelationSum, sign: int) -> None:
        for name, count in other.counts.items():
            self.counts[name] = self.counts.get(name, _ZERO) + sign * count
        self.length += sign * other.length
        self.number += sign * other.number
        self.sized = self.sized or other.sized

    def times(self, factor: Fraction) -> _RelationSum:
        counts = {name: count * factor for name, count in self.counts.items()}
        return _RelationSum(counts, self.length * factor, self.number * factor, self.sized)


def read_relation(text: str) -> Relation:
    """The relation that `text` writes; InputError, with the place, when it is none or not linear.

    >>> read_relation("rack = 5 * bay + 6 of slat").terms
    (('rack', Fraction(1, 1)), ('bay', Fraction(-5, 1)), ('slat', Fraction(-6, 1)))
    """
    return _Reader(text).relation()


class _Reader:
    """A relation read from left to right; `at` is the next character."""

    def __init__(self, text: str) -> None:
        self.text, self.meant, self.at, self.deep = text, as_meant(text), 0, 0
        if len(text) > _LONGEST:
            self.fail(f"a relation of {len(text):,} characters is too long", _LONGEST, len(text))

    def relation(self) -> Relation:
        both = self.side()
        if not self.take("="):
            self.fail("an equals sign is expected here", self.at, self.at + 1)
        both.add(self.side(), -1)
        self.skip()
        if self.at < len(self.meant):
            self.fail("this is not expected here", self.at, self.at + 1)
        if not any(both.counts.values()):
            self.fail("this relation ties no name", 0, len(self.text))
        return Relation.of(both.counts, Quantity(both.length), self.text.strip())

    def side(self) -> _RelationSum:
        start = self.here()
        total = self.sum()
        if total.number or total.bare:
            self.fail("a number has no unit, so it is not a size", start, self.at, "write 5 mm, or 5 * name")
        return total

    def sum(self) -> _RelationSum:
        total, start = _RelationSum({}), self.here()
        sign = -1 if self.take("-") else 1
        self.take("+")
        while True:
            term = self.term()
            total.add(term, sign)
            if self.take("+"):
                sign = 1
            elif self.take("-"):
                sign = -1
            else:
                break
        if total.number and not total.bare:
            self.fail("a number and a size cannot be added", start, self.at, "write each size with its unit")
        return total

    def term(self) -> _RelationSum:
        start = self.here()
        product = self.factor()
        while True:
            if self.take("/"):
                by = self.factor()
                if not by.bare or not by.number:
                    self.fail("sizes are divided only by a number", start, self.at)
                product = product.times(1 / by.number)
            elif self.take("*") or self.take_of():
                by = self.factor()
                if not product.bare and not by.bare:
                    self.fail("a relation must be linear: two sizes are multiplied here", start, self.at)
                product = by.times(product.number) if product.bare else product.times(by.number)
            else:
                return product

    def factor(self) -> _RelationSum:
        start = self.here()
        if self.take("("):
            self.deep += 1
            if self.deep > _DEEPEST:
                self.fail("brackets stand too deep here", start, start + 1)
            inside = self.sum()
            if not self.take(")"):
                self.fail("a closing bracket is expected here", self.at, self.at + 1)
            self.deep -= 1
            return inside
        name = _NAME.match(self.meant, self.at)
        if name:
            self.at = name.end()
            return _RelationSum({name[0]: Fraction(1)})
        return self.written(start)

    def written(self, start: int) -> _RelationSum:
        """A number or a size: as much of the text as reads as one."""
        if not _FIGURE.match(self.meant, start):
            self.fail("a name, a count or a size is expected here", start, start + 1)
        end = _END.search(self.meant, start)
        stop = end.start() if end else len(self.meant)
        # `2 in-bay`: the size ends where what follows can no longer belong to it.
        for last in range(stop, start, -1):
            size = read_plain(self.meant[start:last])
            if size is not None and not re.match(r"[\w.]", self.meant[last : last + 1]):
                self.at = last
                return (
                    _RelationSum({}, size.mm, sized=True)
                    if size.power == 1
                    else _RelationSum({}, number=size.value)
                )
        return self.fail("this is no size or count", start, stop)

    def here(self) -> int:
        self.skip()
        return self.at

    def skip(self) -> None:
        blank = _BLANK.match(self.meant, self.at)
        self.at = blank.end() if blank else self.at

    def take(self, sign: str) -> bool:
        self.skip()
        stands = self.meant.startswith(sign, self.at)
        self.at += stands * len(sign)
        return stands

    def take_of(self) -> bool:
        self.skip()
        match = _OF.match(self.meant, self.at)
        self.at = match.end() if match else self.at
        return match is not None

    def fail(self, message: str, start: int, end: int, advice: str = _ADVICE) -> NoReturn:
        raise InputError(message, self.text, start, end, advice)
