"""The library's answers told as text, an object, HTML and in short: by the rooms of their requests.

What no request of its own asks for (a hole, a reading, a set of blocks) is told by `show.things`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from typing import Any

from fractions_shop import requests
from fractions_shop.errors import ShopError
from fractions_shop.figures.html import html_lines
from fractions_shop.figures.plain import Lines, laid_out
from fractions_shop.figures.table import Table
from fractions_shop.layout.circle import BoltCircle
from fractions_shop.layout.places import Places, places
from fractions_shop.meant.reconciled import Reconciled
from fractions_shop.requests.data import SCHEMA, encode, name_beside, object_of
from fractions_shop.requests.expression import SizeResult
from fractions_shop.requests.gists import gist_of, in_short
from fractions_shop.requests.place_data import PlacesResult
from fractions_shop.requests.rooms import Room
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import places_asked, places_shown
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.standing import rests_on, worst
from fractions_shop.size.told import Told
from fractions_shop.size.value import Value

#: What every answer of the language tells of itself.
_OF_ANSWERS = frozenset({"schema", "statement", "kind", "ok", "name", "value", "notes", "doubts"})
#: The rule that a size alone is held against, as the language begins.
_RULE = Rule("64ths")
_Result = Told | Value


def room_of(result: _Result) -> Room:
    """What tells a result: the room of its request, or that of a thing which none asks for."""
    if isinstance(result, Quantity | Limits | Angle):
        return requests.room("size")
    if result.told_as in requests.kinds():
        return requests.room(result.told_as)
    from fractions_shop.show.things import THINGS  # what is cut and bought loads only when it is told

    return THINGS[result.told_as]


def lines(result: _Result) -> Lines:
    """Its sentences and tables, and what is to be said of sizes of tables that it was asked with.

    The language says that of whatever its statements draw on, by name; an answer of the library knows
    its sizes alone.
    """
    return [*room_of(result).lines(_as_answered(result)), *(f"note: {said}" for said in _resting(result))]


#: The fields of answers that hold sizes which were given.
_GIVEN = (
    "asked", "total", "start", "ends", "bodies", "about", "most", "least", "within", "points", "along", "height",
    "across", "radius", "tallest", "readings", "size", "figures", "left",
)  # fmt: skip


def _resting(result: _Result) -> tuple[str, ...]:
    """That an answer rests on a figure which is from memory, or from one source; a size says its own."""
    if isinstance(result, Quantity | Limits | Angle):
        return ()
    return rests_on({"a size of a table": worst(_sizes_of(result))})


def _sizes_of(given: Any) -> Iterator[Value]:
    """The sizes that an answer was given, or a part of it."""
    if isinstance(given, Quantity | Limits | Angle):
        yield given
        return
    if isinstance(given, Mapping):
        parts = tuple(given.values())
    elif isinstance(given, tuple | list):
        parts = tuple(given)
    else:
        parts = tuple(getattr(given, name, None) for name in _GIVEN)
    for part in parts:
        if part is not None:
            yield from _sizes_of(part)


def text(result: _Result, width: int, digits: int) -> str:
    """Its sentences and tables as plain text."""
    token = places_shown.set(places_asked(digits))
    try:
        return laid_out(lines(result), width)
    finally:
        places_shown.reset(token)


def data(result: Told) -> dict[str, Any]:
    """It as an object, with the kind of answer that it is; its fields are named as beside a statement."""
    made: dict[str, Any] = {"schema": SCHEMA, "kind": result.told_as}
    answered = _as_answered(result)
    # A rule is its name where it stands in another answer, and has fields of its own here.
    parts = object_of(answered) if isinstance(answered, Told) else encode(answered)
    for key, value in parts.items():
        made[name_beside(_OF_ANSWERS, result.told_as, key)] = value
    return made


def html(result: _Result) -> str:
    """It as HTML: paragraphs and tables."""
    return html_lines(lines(result))


def short(result: Told) -> str:
    """It in one line, for a console; its class first, and its name where it has one."""
    name = getattr(result, "name", "")
    room: Room | None
    try:
        room, every = room_of(result), lines(result)
        said = [*gist_of(room, _as_answered(result), every)]
        if room.gist is None and isinstance((*every, "")[1], Table):
            said = said[:1]  # a row of it says nothing alone
    except ShopError as error:
        said, room = [str(error)], None
    # What a room picks out of its lines is shown as far as there is room; what merely comes next, whole or not at all.
    whole = room is None or room.gist is None
    line = in_short(type(result).__name__, said, whole)
    named = isinstance(name, str) and name not in line
    return in_short(f"{type(result).__name__} {name}", said, whole) if named else line


def _as_answered(result: _Result) -> Any:
    """What the room takes, where that is more than what the library gives."""
    more = _MORE.get(type(result))
    return result if more is None else more(result)


def _tied(result: Reconciled) -> Any:
    from fractions_shop.requests.reconcile import Tied

    parts = {field.name: getattr(result, field.name) for field in fields(result)}
    return Tied(**parts, scales=() if result.scale is None else (result.scale,))


def _size(value: Value) -> SizeResult:
    return SizeResult(value, _RULE)


_MORE: dict[type, Callable[[Any], Any]] = {
    Quantity: _size,
    Limits: _size,
    Angle: _size,
    Places: PlacesResult,
    BoltCircle: lambda circle: PlacesResult(places(circle), "bolt_circle"),
    Reconciled: _tied,
}
