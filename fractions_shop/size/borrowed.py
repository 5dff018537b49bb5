"""What a size does with the help of modules that know sizes: each is asked for when it is wanted.

A size must know how it is written and shown, and those who write know sizes. These are
the places where a lower module calls on a higher one, by its name.
"""

from __future__ import annotations

from fractions import Fraction
from importlib import import_module
from typing import Any


def html_of(value: Any) -> str:
    """A size or limits as a small table of HTML, for a notebook."""
    made: str = import_module("fractions_shop.figures.size_html").size_html(value)
    return made


def text_of(value: Any, spec: str = "") -> str:
    """A size, limits or an angle written out, as `format` with this spec gives it."""
    made: str = import_module("fractions_shop.size.writing").formatted(value, spec)
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
