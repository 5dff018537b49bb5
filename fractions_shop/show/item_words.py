"""What a text says of sizes, item by item, in words."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.figures.size_words import size_line
from fractions_shop.language.written.items import Item, Range
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal, inch_text, mm_leads, mm_text, shown
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import mark_of


def flat(item: Item) -> str:
    """What is written, on one line."""
    return " ".join(item.written.split())


def standing_of(item: Item) -> str:
    """How far its figure may be trusted, where a table gave it."""
    return item.size.standing if item.size is not None else ""


def in_both(item: Item, places: int | None = None) -> tuple[str, str]:
    """An item in inches and in millimetres, as people read it."""
    value = item.value
    if isinstance(value, Range):
        pairs = [(inch_text(size), mm_text(size, places)) for size in (value.lower, value.upper)]
        return f"{pairs[0][0]} to {pairs[1][0]}", f"{pairs[0][1]} to {pairs[1][1]}"
    size = item.size
    if isinstance(size, Limits):
        low, high = size.lower, size.upper
        return f"{inch_text(low)} to {inch_text(high)}", f"{mm_text(low, places)} to {mm_text(high, places)}"
    if size is not None:
        return inch_text(size), mm_text(size, places)
    if isinstance(value, Quantity) and value.power == -1:
        return f"{decimal(value.value * units.INCH)[0]} tpi", f"{shown(1 / value.value, 'mm', places)} pitch"
    if isinstance(value, Quantity) and item.kind != "per":
        return "", ""  # a number that says no unit
    if isinstance(value, Quantity):
        one_in = f"1 in {shown(1 / value.value, '', places)}" if value.value else "level"
        return f"{inch_text(Quantity.inches(value.value * 12), places)} a foot", one_in
    return "", ""


def item_words(item: Item) -> str:
    """What an item says: `1/16 in (1.5875 mm)`, the unit that leads first; a plain number as it is."""
    first, second = in_both(item)
    if mm_leads() and second:
        first, second = second, first
    if second:
        return f"{first} ({second}){mark_of(standing_of(item))}"
    value = item.value
    if isinstance(value, Quantity):
        return f"{value}, no unit"
    if isinstance(value, Angle):
        return size_line(value)
    return f"1 in {1 / value}" if isinstance(value, Fraction) and value else str(value)
