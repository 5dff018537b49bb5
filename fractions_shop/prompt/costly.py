"""Lines that take long to work out, known before they are: those wait for a pause in typing."""

from __future__ import annotations

from fractions_shop import requests
from fractions_shop.errors import ShopError
from fractions_shop.language.nodes import Naming, Request
from fractions_shop.requests import READS, RECONCILE
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.states import State


def is_costly(state: State, text: str) -> bool:
    """Whether a line, or one that rests on the name it sets again, weighs readings or searches for long."""
    try:
        line = next(iter(read_lines(text)), None)
    except ShopError:
        return False
    if line is None:
        return False
    if takes_long(line):
        return True
    home = state.homes.get(line.sets) if line.sets else None
    if home is None:
        return False
    # Where one that reads gives way, the others are weighed anew without it.
    return takes_long(state.lines[home]) or any(takes_long(state.lines[n]) for n in state.resting_on(home))


def takes_long(line: Line) -> bool:
    """Whether a line weighs readings together, or searches for long."""
    if line.request in (READS, RECONCILE):
        return True
    request = line.node.answer if isinstance(line.node, Naming) else line.node
    if not isinstance(request, Request):
        return False
    return len(request.subjects) > 1 and requests.room(request.word).takes_long
