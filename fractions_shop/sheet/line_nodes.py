"""What a line of a sheet is made of, and whether it has a size that a line below may go on from."""

from __future__ import annotations

import re
from collections.abc import Iterator

from fractions_shop import requests
from fractions_shop.language.nodes import Naming, Node, ShownExpression, nodes_in
from fractions_shop.sheet.lines import Line

_SIZELESS = re.compile(rf"(?:{'|'.join(requests.CHECKS + requests.RULES)})\b", re.IGNORECASE)


def nodes_of(line: Line) -> Iterator[Node]:
    """All that a line's statement, the count and sizes of its part, its feature or its stock, are made of."""
    roots: list[Node] = [] if line.node is None else [line.node]
    if line.part is not None:
        roots += [line.part.count, *line.part.sizes]
    for form in (line.feature, line.stock):
        if form is not None:
            roots += form.nodes
    for root in roots:
        yield from nodes_in(root)


def has_a_size(line: Line) -> bool:
    """Whether the line is one that `ans` may stand for: neither check, rule, units, part nor feature."""
    if line.kind != "statement":
        return False
    if line.node is None:
        # What it would have answered is not known, unless its word says that it has no size.
        return not _SIZELESS.match(line.statement)
    return isinstance(line.node, (Naming, ShownExpression)) or line.request not in (
        *requests.CHECKS,
        *requests.RULES,
        requests.UNITS,
    )
