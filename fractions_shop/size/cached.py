"""A property that is worked out at its first use and then kept, as functools has it but without a lock.

Up to Python 3.11 `functools.cached_property` holds one lock over all instances of a class while one of them
is worked out: whoever leaves a long answer at the prompt would wait for it all the same with the next line.
Two threads that ask at once work it out twice, and come to the same.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, Self, TypeVar, overload

T = TypeVar("T")


class cached_property(Generic[T]):  # noqa: N801 - it is written as Python's own
    """What a method without arguments gives, kept in the instance's own `__dict__` under its name."""

    def __init__(self, work_out: Callable[[Any], T]) -> None:
        self._work_out = work_out
        self.__doc__ = work_out.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self._name = name

    @overload
    def __get__(self, instance: None, owner: type) -> Self: ...
    @overload
    def __get__(self, instance: object, owner: type) -> T: ...

    def __get__(self, instance: object | None, owner: type) -> Self | T:
        if instance is None:
            return self
        made: T = self._work_out(instance)
        # From now on the instance's own value is found first; set so, it takes no dict of its own.
        object.__setattr__(instance, self._name, made)
        return made
