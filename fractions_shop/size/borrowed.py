"""What a size does with the help of modules that know sizes: each is asked for when it is wanted.

A size must know how it is written and shown, and those who write know sizes. These are
the places where a lower module calls on a higher one, by its name.
"""

from __future__ import annotations

import sys
from fractions import Fraction
from importlib import import_module
from typing import Any, TypeVar

from fractions_shop.errors import ShopError

T = TypeVar("T")


def html_of(value: Any) -> str:
    """A size or limits as a small table of HTML, for a notebook."""
    made: str = import_module("fractions_shop.figures.size_html").size_html(value)
    return made


def text_of(value: Any, spec: str = "") -> str:
    """A size, limits or an angle written out, as `format` with this spec gives it."""
    made: str = import_module("fractions_shop.size.writing").formatted(value, spec)
    return made


def told(value: Any, width: int, digits: int) -> str:
    """A size, limits or an angle in sentences, as the language answers with it."""
    made: str = import_module("fractions_shop.show.telling").text(value, width, digits)
    return made


def object_of(value: Any) -> dict[str, Any]:
    """A size or limits as a plain object for JSON."""
    made: dict[str, Any] = import_module("fractions_shop.requests.data").encode(value)
    return made


def many_of(value: Any, unit: Any) -> Fraction:
    """How many of a unit, or of a rule's divisions, a size is."""
    many: Fraction = import_module("fractions_shop.size.writing").how_many(value, unit)
    return many


def on_rule(value: Any, rule: Any) -> Any:
    """The division of a rule that is nearest to a length."""
    return import_module("fractions_shop.size.rule").snap(value, rule).size


def plain(text: str) -> Any:
    """The size that a plain written form says, or None."""
    return import_module("fractions_shop.size.notation").read_plain(text)


def read(text: str) -> Any:
    """The size that any written form says, or Limits; InputError for what cannot be read, or in two ways."""
    return import_module("fractions_shop.sheet.read").read(text)


def read_angle(text: str) -> Any:
    """The angle that a written form says, or a size where it says one; InputError for what cannot be read."""
    return import_module("fractions_shop.sheet.read").read_value(text)


def of_pint(value: Any) -> Any:
    """A pint length, unit or quantity, as a size; None for anything else."""
    if type(value).__module__.partition(".")[0] != "pint" or not hasattr(value, "_REGISTRY"):
        return None
    return import_module("fractions_shop.size.pint_bridge").from_pint(value)


def known(value: Any) -> Any:
    """A pint length as a size, and anything else as it is."""
    same = of_pint(value)
    return value if same is None else same


def with_pint(size: T, other: Any, operation: str) -> T:
    """What the operation of this name gives with a pint length on the other side; NotImplemented for anything else."""
    same = of_pint(other)
    result: T = NotImplemented if same is None else getattr(size, operation)(same)
    return result


def same_in_pint(size: object, other: object) -> bool:
    """Whether a pint length is the same; NotImplemented for one that is not exact, and for anything else."""
    try:
        same = of_pint(other)
    except ShopError:
        same = None
    return NotImplemented if same is None else size == same


#: The kinds of size that do the arithmetic, whatever stands on the other side.
_ABOVE_PINT: list[type] = []


def stand_above_pint(*kinds: type) -> None:
    """If pint is loaded, have it leave arithmetic on these kinds, and on those named before, to them.

    Otherwise pint would take a size for the number of its own quantity: 2 in for how many inches.
    """
    _ABOVE_PINT.extend(kinds)
    upcast = getattr(sys.modules.get("pint.compat"), "upcast_type_map", {})
    upcast.update({f"{kind.__module__}.{kind.__qualname__}": kind for kind in _ABOVE_PINT})
