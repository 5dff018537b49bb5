"""A function of the language applied to its arguments, its faults placed at the call."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.language.arithmetic import bounded
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Call, Name
from fractions_shop.language.notes import Note, echo
from fractions_shop.size.limits import settled
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worst
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.language.functions import Function


def counted(function: Function, node: Call, values: tuple[Value, ...]) -> None:
    """Fault when a function is given too few or too many arguments."""
    if not function.least <= len(values) <= function.most:
        wanted = (
            str(function.least) if function.least == function.most else f"{function.least} to {function.most}"
        )
        raise Fault(
            f"{function.name} takes {wanted} size{'' if wanted == '1' else 's'}, and {len(values)} stand here",
            node.start, node.end, f"write it like this: {function.example}",
        )  # fmt: skip


def applied(function: Function, node: Call, values: tuple[Any, ...]) -> Value:
    """The value of a function for its arguments; Fault, placed at the call, for what it cannot take."""
    counted(function, node, values)
    try:
        value = function.work(*values)
        if isinstance(value, tuple):
            raise ShopError(f"{function.name} gives several places, which cannot be part of a sum")
        return bounded(settled(value), node).resting_on(worst(values[function.of_thread :]))
    except ShopError as error:
        from fractions_shop.language.advice.unknown_words import misused

        said = misused(node, values)
        if said is not None:
            raise Fault(*said) from None
        raise Fault(str(error), node.start, node.end, f"write it like this: {function.example}") from None


def called_otherwise(node: Call, values: Sequence[Any], placed: Mapping[str, Any]) -> list[Note]:
    """Which mark a place is, where its number as a place is not what the mark is called."""
    name = node.arguments[0]
    names = getattr(placed.get(name.word), "names", ()) if isinstance(name, Name) else ()
    which = values[1] if len(values) > 1 else None
    if not isinstance(which, Quantity) or which.power or which.value not in range(1, len(names) + 1):
        return []
    assert isinstance(name, Name)
    return [echo(f"place {which.value} of {name.word} is its mark {names[int(which.value) - 1]}")]
