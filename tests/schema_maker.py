"""JSON Schema made from Python types: what `requests.data.encode` makes of a value of each.

A class tells its fields and its `data_properties` (`requests.data.names_of`), and is described by the
first words of its docstring. A Quantity in a result is a length, unless it says `AnyPower`.
"""

from __future__ import annotations

import dataclasses
import importlib
import pkgutil
import re
from collections.abc import Mapping, Sequence, Set
from enum import Enum
from fractions import Fraction
from functools import cached_property as cached_with_a_lock
from inspect import getattr_static
from types import NoneType, UnionType
from typing import (
    Annotated,
    Any,
    ClassVar,
    Literal,
    NotRequired,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
    is_typeddict,
)

import fractions_shop
from fractions_shop.requests import data
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule

Schema = dict[str, Any]


def named_types() -> dict[str, Any]:
    """Every class of the package by its name, for hints whose module imports it only to be checked."""
    classes: dict[str, Any] = {}
    for module in pkgutil.walk_packages(fractions_shop.__path__, "fractions_shop."):
        if not module.name.startswith(
            ("fractions_shop.prompt", "fractions_shop.command", "fractions_shop.__")
        ):
            loaded = importlib.import_module(module.name)
            classes |= {n: v for n, v in vars(loaded).items() if isinstance(v, type) or get_origin(v)}
    return classes


class Maker:
    """Makes schemas of types, and keeps those of classes under `defs`."""

    SIMPLE: ClassVar[dict[Any, str]] = {
        Limits: "limits", Angle: "angle", Rule: "rule", Fraction: "exact", float: "share", Any: "part",
        Quantity: "length",
    }  # fmt: skip
    PLAIN: ClassVar[dict[Any, str]] = {
        bool: "boolean",
        int: "integer",
        str: "string",
        NoneType: "null",
        None: "null",
    }

    def __init__(self, home: str = "", closed: bool = False) -> None:
        """`home` is where the values' own schemas are; a `closed` object has no further fields."""
        self.home = home
        self.closed = closed
        self.defs: dict[str, Schema] = {}
        self._classes: dict[str, Any] = {}
        self._names = named_types()

    def hints(self, of: Any) -> dict[str, Any]:
        """The type hints of a class, function or property."""
        of = getattr(of, "fget", None) or getattr(of, "func", None) or getattr(of, "_work_out", None) or of
        homes = {base.__module__ for base in of.__mro__} if isinstance(of, type) else {of.__module__}
        names = self._names
        for home in sorted(homes):
            names = names | vars(importlib.import_module(home))
        return get_type_hints(of, names, names, include_extras=True)

    def of(self, hint: Any) -> Schema:
        """The schema of whatever `requests.data.encode` makes of a value of that type."""
        origin, inner = get_origin(hint), get_args(hint)
        if origin is Annotated:  # the name of a schema of ours
            return self._ref(inner[1])
        if origin in (UnionType, Union):
            return self._either(inner)
        if origin is Literal:
            return {"enum": list(inner)}
        if hint in self.PLAIN:
            return {"type": self.PLAIN[hint]}
        if hint in self.SIMPLE:
            return self._ref(self.SIMPLE[hint])
        made = origin or hint
        if not isinstance(made, type):
            raise TypeError(f"no schema is known for {hint!r}")
        if issubclass(made, Enum):
            return {"enum": [member.name.lower() for member in made]}
        if issubclass(made, Mapping) and not is_typeddict(made):
            return self._mapping(made, inner)
        if dataclasses.is_dataclass(made) or issubclass(made, Frozen) or is_typeddict(made):
            return self._class(made, inner)
        if issubclass(made, (tuple, Sequence, Set)):
            return self._sequence(made, inner)
        raise TypeError(f"no schema is known for {hint!r}")

    def _ref(self, name: str) -> Schema:
        return {"$ref": f"{self.home}#/$defs/{name}"}

    def _either(self, kinds: tuple[Any, ...]) -> Schema:
        if {Quantity, Limits, Angle} <= {*kinds}:
            rest = [kind for kind in kinds if kind not in (Quantity, Limits, Angle)]
            return {"anyOf": [self._ref("value"), *map(self.of, rest)]} if rest else self._ref("value")
        return {"anyOf": [self.of(kind) for kind in kinds]}

    def _mapping(self, made: type, inner: tuple[Any, ...]) -> Schema:
        """An object with names of its own: those of series, say."""
        if dataclasses.is_dataclass(made):
            base = next(b for b in made.__orig_bases__ if issubclass(get_origin(b) or b, Mapping))  # type: ignore[attr-defined]
            known = dict(zip(made.__parameters__, inner, strict=True))  # type: ignore[attr-defined]
            value = get_args(base)[1]
            value = value[tuple(known[p] for p in value.__parameters__)]
        else:
            value = inner[1]
        return {"type": "object", "additionalProperties": self.of(value)}

    def _sequence(self, made: type, inner: tuple[Any, ...]) -> Schema:
        if hasattr(made, "_fields"):
            inner = tuple(self.hints(made).values())
        if len(inner) == 1 or inner[-1:] == (...,):
            return {"type": "array", "items": self.of(inner[0])}
        places = [self.of(kind) for kind in inner]
        return {"type": "array", "prefixItems": places, "minItems": len(inner), "maxItems": len(inner)}

    def _class(self, made: Any, inner: tuple[Any, ...]) -> Schema:
        parts = [made.__name__, *(kind.__name__ for kind in inner)]
        name = "_".join(re.sub(r"(?<=[a-z])(?=[A-Z])", "_", part).lower() for part in parts)
        if self._classes.setdefault(name, (made, inner)) != (made, inner):
            name = f"{made.__module__.rpartition('.')[2]}_{name}"
            self._classes[name] = made, inner
        if name not in self.defs:
            self.defs[name] = {}
            self.defs[name] = self.object(made, inner)
        return {"$ref": f"#/$defs/{name}"}

    def object(self, made: Any, inner: tuple[Any, ...] = ()) -> Schema:
        """A class as an object: what it tells, by name."""
        if hasattr(made, "as_data"):
            return self.object(self.hints(made.as_data)["return"])
        known = dict(zip(getattr(made, "__parameters__", ()), inner, strict=False))
        parts = self.parts(made)
        whole: Schema = {"description": first_words(made.__doc__)} if made.__doc__ else {}
        needed = [name for name in parts if name not in self.left_open(made)]
        whole |= {"type": "object", "required": needed, "properties": {}}
        for name, hint in parts.items():
            schema = self.of(with_types(hint, known))
            words = first_words(getattr(getattr(made, name, None), "__doc__", None) or "")
            own = isinstance(
                getattr_static(made, name, None), (property, cached_property, cached_with_a_lock)
            )
            whole["properties"][name] = {"description": words, **schema} if own and words else schema
        return whole | ({"additionalProperties": False} if self.closed else {})

    def left_open(self, made: Any) -> set[str]:
        """The parts of a class that need not be there."""
        return {name for name, hint in self.hints(made).items() if get_origin(hint) is NotRequired}

    def parts(self, made: Any) -> dict[str, Any]:
        """What a class tells, by name, with its type."""
        hints = self.hints(made)
        if is_typeddict(made):
            return {n: get_args(hint)[0] if n in self.left_open(made) else hint for n, hint in hints.items()}
        names = data.names_of(made)
        return {n: hints[n] if n in hints else self.hints(getattr_static(made, n))["return"] for n in names}


def with_types(hint: Any, known: Mapping[Any, Any]) -> Any:
    """A hint, the types of a generic class put in."""
    if isinstance(hint, TypeVar):
        return known[hint]
    left = getattr(hint, "__parameters__", ())
    return hint[tuple(known[parameter] for parameter in left)] if left else hint


def first_words(text: str) -> str:
    """The first paragraph of a docstring, in one line."""
    return re.sub(r"\bNone\b", "null", " ".join(text.strip().split("\n\n")[0].split()))
