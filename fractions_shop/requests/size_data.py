"""What the answer to an expression says in JSON, for the type checker and the schema alone.

Nothing loads it to answer: to make these types takes longer than to work a size out.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NotRequired, TypedDict

from fractions_shop.layout.spacing import Layout
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


class NearestData(TypedDict):
    """A division and its error: the division less the true size."""

    size: Quantity
    error: Quantity


class TargetData(TypedDict):
    """In the unit that `as` named: a count, or a lower and an upper one."""

    unit: str
    count: NotRequired[Fraction]
    lower: NotRequired[Fraction]
    upper: NotRequired[Fraction]


class SizeData(TypedDict):
    """What the working rule makes of a size."""

    rule: Rule
    carried_by: Rule | None
    nearest: NearestData | None
    divides: Layout | None
    target: TargetData | None
