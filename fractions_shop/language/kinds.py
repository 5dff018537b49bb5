"""A value as the kind that is needed where it stands: one size, a length, a whole number."""

from __future__ import annotations

from fractions_shop.language.advice.offers import write
from fractions_shop.language.arithmetic import figures
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Node
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.units import a_power
from fractions_shop.size.value import Value


def as_size(value: Value, node: Node) -> Quantity:
    """`value` as one size; Fault for limits and angles."""
    if isinstance(value, Quantity):
        return value
    if isinstance(value, Limits):
        raise Fault(
            "this has limits, where one size is needed", node.start, node.end,
            "use the size without its limits",
        )  # fmt: skip
    assert isinstance(value, Angle)
    raise Fault(
        "this is an angle, where a length is needed", node.start, node.end, "write a size such as 2 1/32 in"
    )


def as_length(value: Value, node: Node) -> Quantity:
    """`value` as one length; Fault for anything else."""
    size = as_size(value, node)
    if size.power == 0:
        raise Fault("this has no unit, where a length is needed", node.start, node.end, _unit_after(size))
    if size.power != 1:
        raise Fault(
            f"this is {a_power(size.power)}, where a length is needed",
            node.start,
            node.end,
            "write a size such as 2 1/32 in",
        )
    return size


def _unit_after(size: Quantity) -> str:
    number = figures(size.value)
    if len(number) >= 20:
        return "give it a unit, in or mm"
    return write(f"{number} in", f"{number} mm", joint=" or ")


def as_whole(value: Value, node: Node) -> int:
    """`value` as a whole number from 1 up; Fault for anything else."""
    if isinstance(value, Quantity) and value.power == 0 and value.value.denominator == 1 and value.value >= 1:
        return int(value.value)
    raise Fault(
        "this must be a whole number, 1 or more, without a unit",
        node.start,
        node.end,
        "write a number such as 5",
    )
