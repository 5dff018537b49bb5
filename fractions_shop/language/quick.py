"""The quick reader: plain sizes, alone or two joined by a sign, without the grammar.

Most lines at the bench are `51.5 mm` or `2 1/32 in / 5`, and loading the grammar takes
longer than answering them. This reads those few forms to the very nodes that the
grammar would make of them (a property test holds the two equal) and leaves everything
else, every doubt and every fault, to the grammar.
"""

from __future__ import annotations

import re

from fractions_shop.language.nodes import Binary, Literal, Node, ShownExpression
from fractions_shop.size import units
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.slips import slip

_UNIT = "|".join(unit.name for unit in units.UNITS if unit.power == 1)
_LINE = re.compile(
    rf"""[ ]*
    (?P<left>[0-9]{{1,9}}[ ][0-9]{{1,6}}/[0-9]{{1,6}}|[0-9]{{1,9}}/[0-9]{{1,6}}|[0-9]{{1,9}}(?:\.[0-9]{{1,15}})?)
    (?:[ ]?(?P<unit>{_UNIT})\b)?
    (?:[ ](?P<sign>[-+*/])[ ]
        (?P<right>[0-9]{{1,9}}[ ][0-9]{{1,6}}/[0-9]{{1,6}}|[0-9]{{1,9}}/[0-9]{{1,6}}|[0-9]{{1,9}}(?:\.[0-9]{{1,15}})?)
        (?:[ ](?P<other>{_UNIT})\b)?
    )?[ ]*""",
    re.VERBOSE,
)


def read(meant: str) -> ShownExpression | None:
    """The reading that a plain line says, or None for anything that is not surely one."""
    match = _LINE.fullmatch(meant)
    if match is None:
        return None
    try:
        left = _literal(match, "left", "unit")
        if match["sign"] is None:
            return ShownExpression(left.start, left.end, left, None)
        right = _literal(match, "right", "other")
    except ValueError:
        return None
    whole: Node = Binary(left.start, right.end, match["sign"], match.start("sign"), left, right)
    return ShownExpression(whole.start, whole.end, whole, None)


def _literal(match: re.Match[str], number: str, unit: str) -> Literal:
    value = number_value(match[number])
    start = match.start(number)
    if match[unit] is None:
        return Literal(start, match.end(number), Quantity(value, 0))
    known = units.BY_WORD[match[unit]]
    if slip(match[number], known.name):
        raise ValueError("a doubt is told by the grammar")
    return Literal(start, match.end(unit), Quantity(value * known.mm), match[unit])
