"""A function of the language applied to its arguments, its faults placed at the call."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.language.arithmetic import bounded
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Call
from fractions_shop.size.limits import settled
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
