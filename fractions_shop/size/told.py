"""Told: what every answer of the library has, whatever it is of: text, an object, a notebook table, a short repr."""

from __future__ import annotations

from importlib import import_module
from typing import Any, ClassVar


class Told:
    """An answer that the room of its request tells: the same words in the language and in the library.

    `told_as` is the request's word, or that of a thing which no request of its own asks for.
    """

    __slots__ = ()

    told_as: ClassVar[str]

    def text(self, width: int = 80, digits: int = 6) -> str:
        """Sentences and columns for a person, at most `width` columns where words allow.

        Figures that do not end are rounded to `digits` decimals, and say so.
        """
        made: str = _teller().text(self, width, digits)
        return made

    def data(self) -> dict[str, Any]:
        """A plain object for JSON, exact rationals as text."""
        made: dict[str, Any] = _teller().data(self)
        return made

    def _repr_html_(self) -> str:
        """For a notebook: the answer as it stands on a sheet's page."""
        made: str = _teller().html(self)
        return made

    def __repr__(self) -> str:
        made: str = _teller().short(self)
        return made


def _teller() -> Any:
    return import_module("fractions_shop.show.telling")
