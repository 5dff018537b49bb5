"""Forms that a maker may have meant otherwise: a sentence on how each was read, or a refusal.

Arithmetic has only one reading; paper has several. `5' - 3"` is a subtraction here and
5 ft 3 in on many drawings, and a size read wrongly in silence is the worst of faults.
"""

from __future__ import annotations

from fractions import Fraction

from fractions_shop import units
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Node, Signed, Toleranced
from fractions_shop.language.values import Value
from fractions_shop.limits import Limits
from fractions_shop.notation import decimal, mixed
from fractions_shop.quantity import Angle, Quantity

#: Threads to the inch of the numbered American threads, with which `10-32` may be meant.
_NUMBER_TPI = frozenset({80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 24})


def remarks(node: Binary, left: Value, right: Value) -> list[str]:
    """How the form of `node` was read, where it may have been meant otherwise."""
    looks = {"^": _power, "/": _quotient, "-": _difference}
    look = looks.get(node.sign)
    return [] if look is None else look(node, left, right)


def refuse(node: Binary) -> None:
    """Fault for a sum that is far likelier to be limits: `+ 0.1 / -0.2`, `+ - 1/64 in`."""
    right = node.right
    if node.sign not in "+-":
        return
    if isinstance(right, Signed) and isinstance(right.operand, Literal) and right.sign != node.sign:
        raise Fault(
            f"'{node.sign}' and '{right.sign}' stand together, and may mean limits or a sum",
            node.at, right.start + 1, "write ± for limits, or put the second in brackets",
        )  # fmt: skip
    if (
        isinstance(right, Binary) and right.sign == "/" and isinstance(right.left, Literal)
        and isinstance(right.right, Signed) and isinstance(right.right.operand, Literal)
    ):  # fmt: skip
        raise Fault(
            "this may be limits, or a division by a negative number", node.at, right.end,
            "write limits without blanks about the bar, +0.1/-0.2 mm, or put the division in brackets",
        )  # fmt: skip


def _power(node: Binary, left: Value, right: Value) -> list[str]:
    base = node.left
    if isinstance(base, Toleranced):
        return ["the power takes the whole size with its limits"]
    if not isinstance(base, Literal) or not base.unit or not isinstance(left, Quantity):
        return []
    if left.power != 1 or isinstance(right, Angle | Limits):
        return ["the power takes the whole size"]
    return [f"the power takes the whole size: ({mixed(left.in_unit('in'))} in)^{mixed(right.value)}"]


def _quotient(node: Binary, left: Value, right: Value) -> list[str]:
    if not isinstance(node.right, Literal) or not isinstance(right, Quantity) or right.power != 1:
        return []
    if not isinstance(left, Quantity) or left.power != 0:
        return []
    unit = units.find(node.right.unit)
    bottom = right.value / unit.mm if unit else right.value
    name = unit.name if unit else "mm"
    said = f"read as {_figure(left.value)} divided by {_figure(bottom)} {name}, a number per length"
    if isinstance(node.left, Literal) and left.value.denominator == bottom.denominator == 1:
        return [f"{said}; for the fraction write {left.value}/{bottom} {name}"]
    return [said]


def _difference(node: Binary, left: Value, right: Value) -> list[str]:
    one, two = node.left, node.right
    if not isinstance(one, Literal) or not isinstance(two, Literal):
        return []
    if (
        one.unit == "'"
        and two.unit in ('"', "in", "''")
        and isinstance(left, Quantity)
        and isinstance(right, Quantity)
    ):
        feet = mixed(left.in_unit("ft"))
        inches = mixed(right.inch)
        return [f"read as {feet} ft less {inches} in; for feet and inches write {feet}' {inches}\""]
    touching = node.at == one.end and two.start == node.at + 1
    if touching and _whole(one) and _whole(two) in _NUMBER_TPI:
        return [
            f"read as {_whole(one)} less {_whole(two)}; for the thread write No {_whole(one)}-{_whole(two)}"
        ]
    return []


def _figure(value: Fraction) -> str:
    """A fraction where it is one of a rule's, else decimals where they end."""
    text, ends = decimal(value)
    return text if ends and value.denominator % 5 == 0 else mixed(value)


def _whole(node: Node) -> int:
    """The whole number that a bare literal is, else 0."""
    if isinstance(node, Literal) and isinstance(node.value, Quantity) and not node.unit:
        return int(node.value.value) if node.value.value.denominator == 1 else 0
    return 0
