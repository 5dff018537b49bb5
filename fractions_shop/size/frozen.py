"""Records that cannot be altered, for what the command needs at every start.

A dataclass writes and compiles its methods anew in every process, which takes 0.4 to 1 ms each. What
every answer goes through, results and their parts, are made of these instead: their methods are written
once. A `Result`, which a caller of the library holds, is a dataclass to whoever asks whether it is one.
"""

from __future__ import annotations

from functools import cache
from itertools import repeat
from operator import attrgetter
from typing import TYPE_CHECKING, Any, ClassVar, Self, dataclass_transform

if TYPE_CHECKING:
    from collections.abc import Callable
    from dataclasses import Field


def _of_class(kind: Any) -> bool:
    """Whether a field is annotated as the class's own, which no record has."""
    return str(kind).startswith("ClassVar")


@dataclass_transform(frozen_default=True, eq_default=False)
class Frozen:
    """A class with a field for each annotation, as a frozen dataclass would have it; compared by identity.

    A default is a class attribute; what is annotated as a ClassVar is none of its fields.
    """

    __slots__ = ()

    #: The fields that a repr leaves out, for they are long.
    unshown: ClassVar[tuple[str, ...]] = ()
    #: The fields, in order.
    field_names: ClassVar[tuple[str, ...]] = ()
    __match_args__: ClassVar[tuple[str, ...]] = ()

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        # inspect, which Python would rather see used here, takes longer to load than all nodes.
        own: dict[str, Any] = cls.__dict__.get("__annotations__", {})  # noqa: RUF063
        cls.field_names = (
            *cls.field_names,
            *(name for name, kind in own.items() if not _of_class(kind)),
        )
        cls.__match_args__ = cls.field_names  # type: ignore[misc]

    def __init__(self, *values: Any, **named: Any) -> None:
        # Set one by one they take no dict of their own, which would cost memory and every collection of garbage.
        # `any` only runs through them, since setting gives None.
        any(map(object.__setattr__, repeat(self), self.field_names, values))
        if named:
            any(map(object.__setattr__, repeat(self), named, named.values()))

    def but(self, **changes: Any) -> Self:
        """The same with some fields changed."""
        made, put = object.__new__(type(self)), object.__setattr__
        # What was worked out of the fields and kept is not carried over.
        for name in self.field_names:
            put(made, name, changes[name] if name in changes else getattr(self, name))
        return made

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"a {type(self).__name__} cannot be altered: {name}")

    def __repr__(self) -> str:
        shown = [name for name in self.field_names if name not in self.unshown]
        parts = ", ".join(f"{name}={getattr(self, name)!r}" for name in shown)
        return f"{type(self).__name__}({parts})"


@dataclass_transform(frozen_default=True)
class Record(Frozen):
    """The same, equal to another of its class whose fields are equal, but for those in `uncompared`."""

    __slots__ = ()

    #: The fields that do not tell two of them apart.
    uncompared: ClassVar[tuple[str, ...]] = ()
    _compared: ClassVar[Callable[[Record], object]]

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        compared = [name for name in cls.field_names if name not in cls.uncompared]
        # One call that Python does in C: equal records are looked for some hundred times an answer.
        cls._compared = attrgetter(*compared) if compared else type

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        compared = type(self)._compared
        return self is other or bool(compared(self) == compared(other))

    def __hash__(self) -> int:
        return hash(type(self)._compared(self))


class Drafted(type):
    """What makes a Frozen class whose records are made by the thousand: each takes a third of the time and less room.

    To set a field of a frozen record from outside costs several times a plain assignment. These have a slot for each field,
    and are filled while they are of another class, their draft, which has the same slots and is open; the record
    is frozen from when its class is set. The function that does so is written for each class when its first record is made.
    Such a class has no cached properties, for which there is no slot.
    """

    def __new__(mcls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> Any:
        """The class, with a slot for each field that it adds."""
        own = [field for field, kind in body.get("__annotations__", {}).items() if not _of_class(kind)]
        defaults = {field: body.pop(field) for field in own if field in body}
        body |= {"__slots__": tuple(own), "own_defaults": defaults, "__reduce__": _reduced}
        return super().__new__(mcls, name, bases, body | {"__new__": _first, "__init__": object.__init__})


def _reduced(record: Any) -> tuple[Any, ...]:
    """What copies and pickles of a record are made of."""
    return type(record), tuple(getattr(record, name) for name in record.field_names)


def _first(cls: Any, *values: Any, **named: Any) -> Any:
    """The first record of a class; all others are made by what is written for it here."""
    open_slots = {"__slots__": cls.__slots__, "__setattr__": object.__setattr__}
    draft = type.__new__(type(cls), f"{cls.__name__}Draft", cls.__bases__, open_slots)
    defaults: dict[str, Any] = {}
    for each in reversed(cls.__mro__):
        defaults |= vars(each).get("own_defaults", {})
    takes = [f"{field}=defaults[{field!r}]" if field in defaults else field for field in cls.field_names]
    rows = [
        f"def {cls.__name__}({', '.join(('cls', *takes))}):", "made = new(draft)",
        *(f"made.{field} = {field}" for field in cls.field_names), "made.__class__ = cls", "return made",
    ]  # fmt: skip
    # Of the names of our own classes alone, as the module dataclasses does it.
    written: dict[str, Any] = {"new": object.__new__, "draft": draft, "defaults": defaults}
    exec("\n    ".join(rows), written)
    cls.__new__ = written[cls.__name__]
    return cls(*values, **named)


class _Fields:
    """The fields of a Result as the module dataclasses keeps them, made when they are first asked for."""

    def __get__(self, instance: object | None, owner: Any) -> dict[str, Field[Any]]:
        return _fields_of(owner)


@cache
def _fields_of(kind: Any) -> dict[str, Field[Any]]:
    import dataclasses  # few ask for it

    fields: list[tuple[str, Any, Any]] = []
    for name in kind.field_names:
        default = getattr(kind, name, dataclasses.MISSING)
        fields.append((name, Any, dataclasses.field(default=default, compare=name not in kind.uncompared)))
    made = dataclasses.make_dataclass(kind.__name__, fields, kw_only=True)
    by_name: dict[str, Field[Any]] = made.__dict__["__dataclass_fields__"]
    return by_name


@dataclass_transform(frozen_default=True)
class Result(Record):
    """A record that a caller of the library holds: `dataclasses.replace`, `fields` and `asdict` take it.

    TypeError where it is made with a field too many or too few.
    """

    __dataclass_fields__: ClassVar[Any] = _Fields()
    _known: ClassVar[frozenset[str]] = frozenset()
    _needed: ClassVar[frozenset[str]] = frozenset()

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        cls._known = frozenset(cls.field_names)
        cls._needed = frozenset(name for name in cls.field_names if not hasattr(cls, name))

    def __init__(self, *values: Any, **named: Any) -> None:
        made = dict(zip(self.field_names, values, strict=False))
        made.update(named)
        if len(made) < len(values) + len(named) or not self._needed <= made.keys() <= self._known:
            raise TypeError(self._misfit(len(values), named))
        any(map(object.__setattr__, repeat(self), made, made.values()))

    def __replace__(self, **changes: Any) -> Self:
        return type(self)(**{name: getattr(self, name) for name in self.field_names} | changes)

    def _misfit(self, count: int, named: dict[str, Any]) -> str:
        """What is wrong with `count` values and those by name, of which one was to be made."""
        kind = type(self).__name__
        if count > len(self.field_names):
            return f"{kind} has {len(self.field_names)} fields, and {count} values were given"
        for name in named:
            if name not in self._known:
                return f"{kind} has no field {name!r}; its fields are {', '.join(self.field_names)}"
        given = self.field_names[:count]
        twice = [name for name in given if name in named]
        if twice:
            return f"{kind} was given {' and '.join(twice)} twice"
        lacking = [name for name in self.field_names if name in self._needed and name not in (*given, *named)]
        return f"{kind} was not given {' and '.join(lacking)}"
