"""Sizes with words around them: the one reader of them, for statements, lists, columns and running text."""

from fractions_shop.language.written.items import FoundSizes, Item, Left, Range, ThreadSaid, Written
from fractions_shop.language.written.reader import left_note, written
from fractions_shop.language.written.running import find_sizes

__all__ = [
    "FoundSizes",
    "Item",
    "Left",
    "Range",
    "ThreadSaid",
    "Written",
    "find_sizes",
    "left_note",
    "written",
]
