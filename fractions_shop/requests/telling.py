"""The library's answers told by the rooms of their requests: as text, an object, HTML and in short."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from fractions_shop import requests
from fractions_shop.errors import ShopError
from fractions_shop.figures.html import html_lines
from fractions_shop.figures.plain import Lines, laid_out
from fractions_shop.layout.places import Places
from fractions_shop.meant.reconciled import Reconciled
from fractions_shop.requests.data import SCHEMA, encode, name_beside
from fractions_shop.requests.gists import gist_of
from fractions_shop.requests.place_data import PlacesResult
from fractions_shop.size.notation import places_shown
from fractions_shop.size.told import Told

#: What every answer of the language tells of itself.
_OF_ANSWERS = frozenset({"schema", "statement", "kind", "ok", "name", "value", "notes", "doubts"})
#: A repr is one line of so many characters at most.
_SHORT = 110


def lines(result: Told) -> Lines:
    """Its sentences and tables."""
    return requests.room(result.told_as).lines(_as_answered(result))


def text(result: Told, width: int, digits: int) -> str:
    """Its sentences and tables as plain text."""
    token = places_shown.set(digits)
    try:
        return laid_out(lines(result), width)
    finally:
        places_shown.reset(token)


def data(result: Told) -> dict[str, Any]:
    """It as an object, with the kind of answer that it is; its fields are named as beside a statement."""
    made: dict[str, Any] = {"schema": SCHEMA, "kind": result.told_as}
    for key, value in encode(_as_answered(result)).items():
        made[name_beside(_OF_ANSWERS, result.told_as, key)] = value
    return made


def html(result: Told) -> str:
    """It as HTML: paragraphs and tables."""
    return html_lines(lines(result))


def short(result: Told) -> str:
    """It in one line, for a console; its class first, and its name where it has one."""
    kind, name = type(result).__name__, getattr(result, "name", "")
    try:
        first, *rest = gist_of(requests.room(result.told_as), _as_answered(result), lines(result))
    except ShopError as error:
        first, rest = str(error), []
    said = first if len(first) <= _SHORT else f"{first[: _SHORT - 4].rstrip()} ..."
    for more in rest:
        said = f"{said}; {more}" if len(f"{said}; {more}") <= _SHORT else said
    named = f"{kind} {name}" if name and name not in said else kind
    return f"<{named}: {said}>"


def _as_answered(result: Told) -> Any:
    """What the room takes, where that is more than what the library gives."""
    if isinstance(result, Places):
        return PlacesResult(result)
    if type(result) is Reconciled:
        from fractions_shop.requests.reconcile import Tied

        parts = {field.name: getattr(result, field.name) for field in fields(result)}
        return Tied(**parts, scales=() if result.scale is None else (result.scale,))
    return result
