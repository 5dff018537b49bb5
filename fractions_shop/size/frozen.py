"""Records that cannot be altered, for what the command needs at every start.

A dataclass writes and compiles its methods anew in every process, which takes 0.4 to 1 ms each. What
every answer goes through, and the parts of a result, are made of these instead: their methods are written
once. The results themselves, which a caller of the library holds, are dataclasses.
"""

from __future__ import annotations

from typing import Any, ClassVar, Self, dataclass_transform


@dataclass_transform(frozen_default=True, eq_default=False)
class Frozen:
    """A class with a field for each annotation, as a frozen dataclass would have it; compared by identity.

    A default is a class attribute; what is annotated as a ClassVar is none of its fields.
    """

    #: The fields, in order.
    names: ClassVar[tuple[str, ...]] = ()
    __match_args__: ClassVar[tuple[str, ...]] = ()

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        # inspect, which Python would rather see used here, takes longer to load than all nodes.
        own: dict[str, Any] = cls.__dict__.get("__annotations__", {})  # noqa: RUF063
        cls.names = (
            *cls.names,
            *(name for name, kind in own.items() if not str(kind).startswith("ClassVar")),
        )
        cls.__match_args__ = cls.names  # type: ignore[misc]

    def __init__(self, *values: Any, **named: Any) -> None:
        self.__dict__.update(zip(self.names, values, strict=False), **named)

    def but(self, **changes: Any) -> Self:
        """The same with some fields changed."""
        made, own = object.__new__(type(self)), self.__dict__
        # What was worked out of the fields and kept is not carried over.
        made.__dict__.update({name: own[name] for name in self.names if name in own}, **changes)
        return made

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"a {type(self).__name__} cannot be altered: {name}")

    def __repr__(self) -> str:
        parts = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.names)
        return f"{type(self).__name__}({parts})"


@dataclass_transform(frozen_default=True)
class Record(Frozen):
    """The same, equal to another of its class whose fields are equal."""

    def _values(self) -> tuple[Any, ...]:
        return tuple([getattr(self, name) for name in self.names])

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        return self._values() == other._values()

    def __hash__(self) -> int:
        return hash(self._values())
