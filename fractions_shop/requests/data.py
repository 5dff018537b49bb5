"""Answers as plain objects for JSON: exact rationals as text, never floats."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Container, Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from itertools import chain, islice
from typing import Annotated, Any, Final

from fractions_shop.errors import OBEYED, InputError
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.units import inches_of

#: The number of the layout of these objects; it grows when a field changes its meaning.
SCHEMA: Final = 1
#: An answer and a fault as objects, where another object holds them: `answer` and `fault` are their
#: names in the JSON Schema, and so is `size` of AnyPower.
AnswerData = Annotated[dict[str, Any], "answer"]
FaultData = Annotated[dict[str, Any], "fault"]


def size(quantity: Quantity) -> dict[str, Any]:
    """A size as an object: inch and mm for a length, value and unit for other powers.

    One that figures of tables went into has their standing, and one that was measured, how far it is trusted.
    """
    more: dict[str, Any] = {"standing": quantity.standing} if quantity.standing else {}
    if quantity.approximate and quantity.within is not None:
        more["within"] = size(quantity.within)
    if quantity.power == 1:
        above, below = quantity.value.as_integer_ratio()
        return {
            "inch": _ratio(*inches_of(above, below)),
            "mm": _ratio(above, below),
            "approximate": quantity.approximate,
            **more,
        }
    unit = "" if quantity.power == 0 else f"in^{quantity.power}"
    return {
        "value": str(quantity.in_unit("in")),
        "unit": unit,
        "approximate": quantity.approximate,
        **more,
    }


def _ratio(above: int, below: int) -> str:
    """A rational in lowest terms as Python writes one; a long sheet has some thousand of them."""
    return str(above) if below == 1 else f"{above}/{below}"


def limits(value: Limits) -> dict[str, Any]:
    """A size with limits: nominal, and the two limits of size themselves."""
    return {
        "nominal": size(value.nominal),
        "upper": size(value.upper),
        "lower": size(value.lower),
    }


def encode(value: Any) -> Any:
    """Any part of an answer as what JSON can hold."""
    work = _work_of(value.__class__)
    if work is not None:
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
    return {name: getattr(value, name) for name in names_of(value.__class__)}


@cache
def names_of(kind: Any) -> tuple[str, ...]:
    """The names of what a result of that class tells, in order."""
    left_out = getattr(kind, "data_left_out", ())
    every = kind.field_names if issubclass(kind, Frozen) else [field.name for field in fields(kind)]
    names = [name for name in every if not name.startswith("_") and name not in left_out]
    return (*names, *getattr(kind, "data_properties", ()))


def name_beside(taken: Container[str], kind: str, name: str) -> str:
    """The name of a result's field beside those that every answer has: its kind before one that is taken."""
    return f"{kind.replace(' ', '_')}_{name}" if name in taken else name


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


@cache
def _work_of(kind: Any) -> Callable[[Any], Any] | None:
    """What makes a simple value into what JSON holds; None for one of several parts."""
    return next((work for simple, work in _SIMPLE.items() if issubclass(kind, simple)), None)


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


_CONSTANTS = {True: "true", False: "false", None: "null"}


class _Indented:
    """Writes JSON over several lines; with `letters` in plain ASCII.

    Python's own writer makes a piece of every sign once there is an indent, and takes several times as long.
    """

    def __init__(self, letters: bool, indent: int) -> None:
        self._write = json.JSONEncoder(ensure_ascii=letters).encode
        self._quoted = json.encoder.encode_basestring_ascii if letters else json.encoder.encode_basestring
        self._step = " " * indent
        #: The names of fields, which stand in every line, as they are written.
        self._names: dict[str, str] = {}

    def text(self, value: Any, line: str = "\n") -> str:
        """A value, `line` being a line end and the blanks of what it stands in."""
        if isinstance(value, str):  # as most values are
            quoted = self._quoted(value)
            return quoted if quoted.isprintable() else _escaped(quoted)
        inner = line + self._step
        if isinstance(value, dict):
            names, write = self._names, self.text
            parts = [
                f"{names[key] if key in names else self._name(key)}: {write(part, inner)}"
                for key, part in value.items()
            ]
            return f"{{{inner}{f',{inner}'.join(parts)}{line}}}" if parts else "{}"
        if isinstance(value, (list, tuple)):
            # One by one: of a list that makes its members in turn none is kept as an object.
            parts = [self.text(part, inner) for part in value]
            return f"[{inner}{f',{inner}'.join(parts)}{line}]" if parts else "[]"
        if value is None or value is True or value is False:
            return _CONSTANTS[value]
        return _escaped(self._write(value))

    def _name(self, name: str) -> str:
        written = self._names[name] = _escaped(self._write(name))
        return written


def _escaped(text: str) -> str:
    """The text, which has no line end, with the signs escaped that a terminal would act upon."""
    if text.isprintable():
        return text
    return re.sub(OBEYED, lambda sign: f"\\u{ord(sign[0]):04x}", text)


def json_text(value: Any, letters: bool = False, indent: int | None = None) -> str:
    """An object as JSON; with `letters` in plain ASCII.

    Signs that a terminal would act upon are escaped either way, which JSON reads as the same.
    """
    if indent is None:
        return _escaped(json.dumps(value, ensure_ascii=letters))
    return _Indented(letters, indent).text(value)
