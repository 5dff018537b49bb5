"""Frozen records that are made by the thousand: each at a third of the cost of others, and in less room.

To set a field of a frozen record goes round its own `__setattr__`, which costs four times what a plain assignment
does. These are filled while they are of another class, their draft, which has the same slots and is open; a record is
frozen from when its class is set. What fills them must name their fields, and no text is run as code here: so
there is one function for each number of fields, and each class has a copy of its own with the names exchanged.
"""

from __future__ import annotations

from types import FunctionType
from typing import Any

from fractions_shop.size.frozen import own_fields

_new = object.__new__


class Drafted(type):
    """The metaclass of a Frozen class whose records are drafted. It has no cached properties: there is no slot for them."""

    def __new__(mcls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> Any:
        """The class, with a slot for each field that it adds."""
        own = own_fields(body)
        defaults = {field: body.pop(field) for field in own if field in body}
        body |= {"__slots__": own, "own_defaults": defaults, "__reduce__": _reduced}
        return super().__new__(mcls, name, bases, body | {"__new__": _first, "__init__": object.__init__})


def _reduced(record: Any) -> tuple[Any, ...]:
    """What copies and pickles of a record are made of."""
    return type(record), tuple(getattr(record, name) for name in record.field_names)


def _first(cls: Any, *values: Any, **named: Any) -> Any:
    """The first record of a class, for which the function that makes all others is put in place."""
    open_slots = {"__slots__": cls.__slots__, "__setattr__": object.__setattr__}
    cls.draft = type.__new__(type(cls), f"{cls.__name__}Draft", cls.__bases__, open_slots)
    defaults: dict[str, Any] = {}
    for each in reversed(cls.__mro__):
        defaults |= vars(each).get("own_defaults", {})
    fields = cls.field_names
    pattern = _BY_COUNT.get(len(fields))
    if pattern is None:
        raise TypeError(f"{cls.__name__} has {len(fields)} fields, and no function here fills so many")
    code = pattern.__code__
    names = dict(zip(code.co_varnames[1:], fields, strict=False))
    code = code.replace(
        co_name=cls.__name__,
        co_qualname=cls.__name__,
        co_names=tuple(names.get(name, name) for name in code.co_names),
        co_varnames=tuple(names.get(name, name) for name in code.co_varnames),
    )
    lasts = tuple(defaults[field] for field in fields if field in defaults)
    cls.__new__ = FunctionType(code, globals(), cls.__name__, lasts)
    return cls(*values, **named)


# fmt: off

def _three(cls, a, b, c):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c = a, b, c
    made.__class__ = cls
    return made


def _four(cls, a, b, c, d):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d = a, b, c, d
    made.__class__ = cls
    return made


def _five(cls, a, b, c, d, e):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d, made.e = a, b, c, d, e
    made.__class__ = cls
    return made


def _six(cls, a, b, c, d, e, f):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d, made.e, made.f = a, b, c, d, e, f
    made.__class__ = cls
    return made


def _seven(cls, a, b, c, d, e, f, g):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d, made.e, made.f, made.g = a, b, c, d, e, f, g
    made.__class__ = cls
    return made


def _eight(cls, a, b, c, d, e, f, g, h):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d, made.e, made.f, made.g, made.h = a, b, c, d, e, f, g, h
    made.__class__ = cls
    return made


def _nine(cls, a, b, c, d, e, f, g, h, i):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d, made.e, made.f, made.g, made.h, made.i = a, b, c, d, e, f, g, h, i
    made.__class__ = cls
    return made


def _fourteen(cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o):  # type: ignore[no-untyped-def]
    made = _new(cls.draft)
    made.a, made.b, made.c, made.d, made.e, made.f, made.g, made.h, made.i, made.j, made.k, made.m, made.n, made.o = a, b, c, d, e, f, g, h, i, j, k, m, n, o
    made.__class__ = cls
    return made


# fmt: on
#: By the number of fields, what fills a record of so many; in a class's own copy their names stand for the letters.
_BY_COUNT = {
    each.__code__.co_argcount - 1: each
    for each in (_three, _four, _five, _six, _seven, _eight, _nine, _fourteen)
}
