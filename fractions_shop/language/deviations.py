"""The two deviations of written limits, +1/-2 thou, each in its own unit or in one that it borrows."""

from __future__ import annotations

from fractions import Fraction
from itertools import takewhile
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Literal, Node
from fractions_shop.size import units
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity

if TYPE_CHECKING:
    from fractions_shop.language.old_units import OldUnit

_FOOT = units.find("ft")
_BINARY = (2, 4, 8, 16, 32, 64, 128)
_UNIT_LETTERS = 'abcdefghijklmnopqrstuvwxyzµ" '


def parts_of_inch(nths: str) -> int:
    """The 64 of 64ths."""
    return int("".join(takewhile(str.isdecimal, nths)))


def with_unit_of(spread: Node, nominal: Node) -> Node:
    """A spread without a unit takes its nominal's: 10 mm ± 0.1."""
    if (
        isinstance(spread, Literal) and not spread.unit
        and isinstance(nominal, Literal) and nominal.unit
        and isinstance(spread.value, Quantity)
    ):  # fmt: skip
        return _deviation(spread.value.value, "", nominal, spread.start, spread.end)
    return spread


def deviations(pair: Any, word: Any, nominal: Node) -> tuple[Node, Node]:
    """The two halves of +1/-2 thou; a unit written once serves both, and a zero needs no sign."""
    cut = max(pair.rfind("/+"), pair.rfind("/-"))
    if cut < 0:
        cut = pair.rfind("/")
    written = str(word or "")
    nodes = []
    for text, start in ((pair[:cut], pair.start_pos), (pair[cut + 1 :], pair.start_pos + cut + 1)):
        signed = text[0] in "+-"
        digits = text[signed:].rstrip(_UNIT_LETTERS)
        own = text[signed + len(digits) :].strip()
        end = start + len(text)
        value = _checked(digits.strip(), start + signed, end)
        nodes.append(_deviation(-value if text[0] == "-" else value, own or written, nominal, start, end))
        written = written or own
    return nodes[0], nodes[1]


def _deviation(value: Fraction, written: str, nominal: Node, start: int, end: int) -> Literal:
    """One deviation in its own unit, or its nominal's when none is written.

    A borrowed unit is doubted when the deviation is as large as half the size: after
    1/2 in, +1/-2 was meant in thou and would be read in inches.
    """
    implied = nominal if isinstance(nominal, Literal) and isinstance(nominal.value, Quantity) else None
    unit = written or (implied.unit if implied else "")
    if not unit:
        return Literal(start, end, Quantity(value, 0))
    lender = units.find(unit)
    metric = lender is not None and lender.metric
    if not written and (lender is _FOOT or (metric and value.denominator in _BINARY)):
        # Feet are never meant, and a 64th is never one of a millimetre.
        raise Fault(
            "these limits need their unit", start, end, "write it like ± 1/64 in, +1/-2 thou or +0.1/-0 mm"
        )
    if unit[0].isdigit():
        unit_size = Quantity(units.INCH / parts_of_inch(unit))
    elif (old := old_unit(unit)) is not None:
        unit_size = old.size
    else:
        known = units.find(unit)
        if known is None:
            raise Fault(
                f"{unit} is not a unit for limits",
                start,
                end,
                "write limits such as +1/-2 thou, or +0.1/-0 mm",
            )
        unit_size = Quantity(known.mm, known.power)
    size = unit_size * value
    if not written and implied and abs(size.value) * 2 >= abs(implied.value.value) > 0:  # type: ignore[union-attr]
        raise Fault(
            f"limits without a unit are taken in {unit}, and these are as large as the size",
            start, end, "write their unit, such as +1/-2 thou, or +0.1/-0 mm",
        )  # fmt: skip
    return Literal(start, end, size, unit)


def old_unit(unit: str) -> OldUnit | None:
    """The old unit that some words name, or None; the table loads for words that may."""
    if " " not in unit:
        return None
    from fractions_shop.language import old_units  # few limits are in one

    return old_units.find(unit)


def _checked(digits: str, start: int, end: int) -> Fraction:
    try:
        return number_value(digits)
    except ValueError as error:
        message = str(error) if isinstance(error, ShopError) else f"{digits} is not a number"
        raise Fault(message, start, end, "write limits such as +1/-2 thou") from None
