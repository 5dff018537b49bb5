"""Running and chain figures of marks on one axis, as read on a rule.

Running figures all go from one datum; chain figures go from each mark to the next, as
stepping along measures them, and their errors build up.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import ClassVar

from fractions_shop.layout.room import NOTHING, errors_of, largest
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, rung

#: Coordinates that a root or a sine went into and that are closer than this (mm) are one.
_ALIKE = Fraction(1, 10**20)


@dataclass(frozen=True)
class Figures:
    """Distances as they are (`exact`) and as `read` on the rule, one for one."""

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("errors", "worst")

    exact: tuple[Quantity, ...]
    read: tuple[Quantity, ...]

    @property
    def errors(self) -> tuple[Quantity, ...]:
        """Each as read, less what it is."""
        return errors_of(self.read, self.exact)

    @property
    def worst(self) -> Quantity:
        """The largest error, without its sign; zero where there is no figure."""
        return largest(self.errors)


@dataclass(frozen=True)
class Axis:
    """The marks of one axis, each place once, rising.

    `running` are their distances from the datum; `chain` those from each to the next, so
    one fewer. `rest` is from the last mark to the far end, where the whole length is known.
    """

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("built_up",)

    rule: Rule
    running: Figures
    chain: Figures
    rest: Quantity | None = None

    @classmethod
    def of(cls, places: Iterable[Quantity], rule: Rule, along: Quantity | None = None) -> Axis:
        """The axis of these distances from its datum."""
        marks = _each_once(places)
        rest = None if along is None or not marks else along - marks[-1]
        return cls(rule, _figures(marks, rule), _figures([b - a for a, b in pairwise(marks)], rule), rest)

    @property
    def built_up(self) -> Quantity:
        """What the chain figures, laid one after another as read, are out by at the last mark."""
        return sum(self.chain.errors, NOTHING)


def _figures(exact: Iterable[Quantity], rule: Rule) -> Figures:
    distances = tuple(exact)
    return Figures(distances, tuple(rung(each, rule).size for each in distances))


def _each_once(places: Iterable[Quantity]) -> list[Quantity]:
    """The places in rising order, alike ones once; an exact one stands for approximate ones."""
    return [mark for mark, _ in marked_by(places)]


def marked_by(places: Iterable[Quantity]) -> list[tuple[Quantity, tuple[int, ...]]]:
    """The marks of these places in rising order, each with the numbers, from 1, of the places that stand there."""
    marks: list[tuple[Quantity, tuple[int, ...]]] = []
    for n, place in sorted(enumerate(places, 1), key=lambda numbered: numbered[1].mm):
        if marks and _same(marks[-1][0], place):
            mark, numbers = marks[-1]
            marks[-1] = place if not place.approximate else mark, (*numbers, n)
        else:
            marks.append((place, (n,)))
    return marks


def _same(left: Quantity, right: Quantity) -> bool:
    return left == right or ((left.approximate or right.approximate) and abs(right.mm - left.mm) < _ALIKE)
