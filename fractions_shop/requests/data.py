"""Answers as plain objects for JSON: exact rationals as text, never floats."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Container, Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from itertools import chain, islice
from typing import Annotated, Any, Final

from fractions_shop.errors import OBEYED, InputError
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule

#: The number of the layout of these objects; it grows when a field changes its meaning.
SCHEMA: Final = 1
#: An answer and a fault as objects, where another object holds them: `answer` and `fault` are their
#: names in the JSON Schema, and so is `size` of AnyPower.
AnswerData = Annotated[dict[str, Any], "answer"]
FaultData = Annotated[dict[str, Any], "fault"]


def size(quantity: Quantity) -> dict[str, Any]:
    """A size as an object: inch and mm for a length, value and unit for other powers.

    One that figures of tables went into has their standing.
    """
    standing = {"standing": quantity.standing} if quantity.standing else {}
    if quantity.power == 1:
        return {
            "inch": str(quantity.inch),
            "mm": str(quantity.mm),
            "approximate": quantity.approximate,
            **standing,
        }
    unit = "" if quantity.power == 0 else f"in^{quantity.power}"
    return {
        "value": str(quantity.in_unit("in")),
        "unit": unit,
        "approximate": quantity.approximate,
        **standing,
    }


def limits(value: Limits) -> dict[str, Any]:
    """A size with limits: nominal, and the two limits of size themselves."""
    return {
        "nominal": size(value.nominal),
        "upper": size(value.upper),
        "lower": size(value.lower),
    }


def encode(value: Any) -> Any:
    """Any part of an answer as what JSON can hold."""
    for simple, work in _SIMPLE.items():
        if isinstance(value, simple):
            return work(value)
    if isinstance(value, Mapping):
        return {str(k): encode(v) for k, v in value.items()}
    if isinstance(value, (tuple, list, frozenset)):
        return [encode(v) for v in value]
    if has_fields(value):
        return object_of(value)
    return str(value)


def has_fields(value: Any) -> bool:
    """Whether a value is a result, or a part of one, whose fields are told by name."""
    return is_dataclass(value) or isinstance(value, Frozen)


def object_of(value: Any) -> dict[str, Any]:
    """A result as an object: its fields, and what it says of itself in `data_properties` and `data_left_out`.

    A result that is told otherwise has a method `as_data`, which gives its parts by name.
    """
    parts = value.as_data() if hasattr(value, "as_data") else parts_of(value)
    return {name: encode(part) for name, part in parts.items()}


def parts_of(value: Any) -> dict[str, Any]:
    """What a result tells, by name: its fields, and the properties that belong beside them."""
    return {name: getattr(value, name) for name in names_of(type(value))}


def names_of(kind: type[Any]) -> tuple[str, ...]:
    """The names of what a result of that class tells, in order."""
    left_out = getattr(kind, "data_left_out", ())
    every = kind.field_names if issubclass(kind, Frozen) else [field.name for field in fields(kind)]
    names = [name for name in every if not name.startswith("_") and name not in left_out]
    return (*names, *getattr(kind, "data_properties", ()))


def name_beside(taken: Container[str], kind: str, name: str) -> str:
    """The name of a result's field beside those that every answer has: its kind before one that is taken."""
    return f"{kind}_{name}" if name in taken else name


_SIMPLE: dict[type | tuple[type, ...], Callable[[Any], Any]] = {
    Quantity: size,
    Limits: limits,
    Angle: lambda a: {
        "degrees": str(a.degrees),
        "approximate": a.approximate,
        **({"standing": a.standing} if a.standing else {}),
    },
    Rule: lambda r: r.name,
    Fraction: str,
    Enum: lambda e: e.name.lower(),
    (bool, int, str, type(None)): lambda v: v,
    # Six figures of odds or of a chance: more differ from one machine to the next.
    float: lambda v: f"{v:.6g}",
}


def fault(error: InputError, statement: str | None = None) -> dict[str, Any]:
    """A statement that failed, as an object."""
    return {
        "schema": SCHEMA,
        "statement": error.text if statement is None else statement,
        "ok": False,
        "error": error.message,
        "advice": error.advice,
        "line": error.line,
        "column": error.column,
    }


class InTurn(list[Any]):
    """A list of JSON whose members are made one by one as they are written, and are not kept.

    It is written by `json_text` with an indent alone, which goes through it once.
    """

    def __init__(self, members: Iterator[Any]) -> None:
        super().__init__()
        self._first = list(islice(members, 1))
        self._members = members

    def __bool__(self) -> bool:
        return bool(self._first)

    def __iter__(self) -> Iterator[Any]:
        return chain(self._first, self._members)


#: So many pieces are put together at a time.
_AT_ONCE = 10_000


def _indented(value: Any, letters: bool, indent: int) -> str:
    # Piece by piece: json.dumps would hold them all at once, ten times the text of a long sheet.
    pieces = json.JSONEncoder(ensure_ascii=letters, indent=indent).iterencode(value)
    written = []
    while some := "".join(islice(pieces, _AT_ONCE)):
        written.append(_escaped(some))
    return "".join(written)


def _escaped(text: str) -> str:
    """The text with the signs escaped that a terminal would act upon; the line ends in it are those of the layout."""
    return re.sub(OBEYED, lambda sign: "\n" if sign[0] == "\n" else f"\\u{ord(sign[0]):04x}", text)


def json_text(value: Any, letters: bool = False, indent: int | None = None) -> str:
    """An object as JSON; with `letters` in plain ASCII.

    Signs that a terminal would act upon are escaped either way, which JSON reads as the same.
    """
    if indent is None:
        return _escaped(json.dumps(value, ensure_ascii=letters))
    return _indented(value, letters, indent)
