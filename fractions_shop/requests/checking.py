"""check and rule."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from fractions_shop.language.arithmetic import Value, kind_name
from fractions_shop.language.fault import Fault
from fractions_shop.language.results import CheckResult, RuleResult
from fractions_shop.requests.asked import Asked, named_rule
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Angle, Quantity

#: Two approximate sizes are taken as equal when they differ by less than this share of themselves.
_ALIKE = Fraction(1, 10**20)


def _check(asked: Asked) -> tuple[Any, Value | None]:
    left, right = (asked.value(asked.subject(n)) for n in (0, 1))
    for value, node in zip((left, right), asked.request.subjects, strict=True):
        if isinstance(value, Angle):
            raise Fault("angles are not checked", node.start, node.end, "check sizes")
    assert not isinstance(left, Angle)
    assert not isinstance(right, Angle)
    if left.power != right.power:
        node = asked.subject(1)
        raise Fault(
            f"a {kind_name(left)} and a {kind_name(right)} cannot be compared", node.start, node.end,
            "give both sides a unit, such as in or mm",
        )  # fmt: skip
    option = asked.option("within")
    allowed = None
    if option is not None and option.value is not None:
        node = option.value
        size = asked.value(node)
        if not isinstance(size, Quantity) or size.power != left.power or size.value < 0:
            raise Fault(
                f"within must be followed by a {kind_name(left)}", node.start, node.end, "write within 1 thou"
            )
        allowed = size
    difference = _nominal(left) - _nominal(right)
    return CheckResult(left, right, difference, allowed, _holds(left, right, difference, allowed)), None


def _nominal(value: Quantity | Limits) -> Quantity:
    return value.nominal if isinstance(value, Limits) else value


def _holds(
    left: Quantity | Limits, right: Quantity | Limits, off: Quantity, allowed: Quantity | None
) -> bool:
    """Whether every size that the left may have lies where the right, and what is allowed, let it.

    Limits against one exact size with nothing allowed hold if they take that size in.
    """
    one, other = limits_of(left), limits_of(right)
    if isinstance(left, Limits) and isinstance(right, Quantity) and allowed is None:
        return right in left
    room = Quantity(Fraction(0), one.power) if allowed is None else allowed
    if off.approximate and allowed is None:
        room = Quantity(_ALIKE * max(abs(one.nominal.value), abs(other.nominal.value)), one.power)
    return other.lower - room <= one.lower and one.upper <= other.upper + room


def _rule(asked: Asked) -> tuple[Any, Value | None]:
    return RuleResult(named_rule(asked.subject(0))), None


ANSWERS = {"check": _check, "rule": _rule}
