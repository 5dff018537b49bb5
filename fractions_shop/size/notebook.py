"""What a notebook shows of a size: asked of the writer only when a notebook asks."""

from __future__ import annotations

from importlib import import_module
from typing import Any


def html_of(value: Any) -> str:
    """A size or limits as a small table of HTML.

    The one place where a lower room calls on a higher one: a size must know how it is
    shown, and the writer of tables knows sizes.
    """
    made: str = import_module("fractions_shop.figures.size_html").size_html(value)
    return made
