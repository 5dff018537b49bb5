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
    from collections.abc import Callable, Mapping
    from dataclasses import Field


def own_fields(body: Mapping[str, Any]) -> tuple[str, ...]:
    """The fields that the body of a class adds: what is annotated there, but not as the class's own."""
    # inspect, which Python would rather see used here, takes longer to load than all nodes.
    own: dict[str, Any] = body.get("__annotations__", {})
    return tuple(name for name, kind in own.items() if not str(kind).startswith("ClassVar"))


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
        cls.field_names = (*cls.field_names, *own_fields(cls.__dict__))
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
