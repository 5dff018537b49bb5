"""The requests of the language: each calls the library's function of the same word."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language.build import Fault
from fractions_shop.language.evaluate import Evaluator, as_length, as_whole
from fractions_shop.language.nodes import Node, Option, Request, RuleName
from fractions_shop.language.results import CheckResult, RuleResult
from fractions_shop.language.values import Value, kind_name
from fractions_shop.limits import Limits
from fractions_shop.quantity import Angle, Quantity
from fractions_shop.rule import Rule, snap
from fractions_shop.spacing import divide

#: Two approximate sizes are taken as equal when they differ by less than this share of themselves.
_ALIKE = Fraction(1, 10**20)


@dataclass
class Asked:
    """A request being answered: its parts worked out as they are asked for."""

    request: Request
    evaluator: Evaluator
    rule: Rule

    def subject(self, place: int) -> Node:
        """The request's subject at `place`."""
        return self.request.subjects[place]

    def option(self, word: str) -> Option | None:
        """The option of that word, if it was given."""
        return next((o for o in self.request.options if o.word == word), None)

    def value(self, node: Node) -> Value:
        """What a part comes to."""
        return self.evaluator.value(node)

    def length(self, place: int) -> Quantity:
        """The subject at `place` as a length; the nominal of limits, and a note that says so."""
        node = self.subject(place)
        value = self.value(node)
        if isinstance(value, Limits):
            self.evaluator.note("the nominal size is used; its limits are left aside")
            value = value.nominal
        return as_length(value, node)

    def whole(self, place: int) -> int:
        """The subject at `place` as a whole number."""
        return as_whole(self.value(self.subject(place)), self.subject(place))

    def optional_length(self, word: str) -> Quantity | None:
        """The length that follows an option's word, or None without it."""
        option = self.option(word)
        if option is None or option.value is None:
            return None
        return as_length(self.value(option.value), option.value)

    def rule_after(self, word: str) -> Rule:
        """The rule that follows `word`, or the working rule."""
        option = self.option(word)
        if option is None or option.value is None:
            return self.rule
        return named_rule(option.value)

    @property
    def direction(self) -> str:
        """`up`, `down` or `nearest`."""
        return next((o.word for o in self.request.options if o.word in ("up", "down")), "nearest")


def named_rule(node: Node) -> Rule:
    """The rule that a node names; Fault for one that is none."""
    assert isinstance(node, RuleName)
    try:
        return Rule(node.text)
    except ShopError as error:
        message, _, advice = str(error).partition(": ")
        raise Fault(message, node.start, node.end, advice) from None


def _snap(asked: Asked) -> tuple[Any, Value | None]:
    size = asked.length(0)
    found = snap(size, asked.rule_after("to"), asked.direction, asked.optional_length("within"))
    return found, found.size


def _divide(asked: Asked) -> tuple[Any, Value | None]:
    found = divide(
        asked.length(0),
        asked.whole(1),
        asked.rule_after("on"),
        asked.direction,
        asked.optional_length("leaving"),
        asked.optional_length("between"),
    )
    return found, found.space


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
    if allowed is not None:
        return abs(off) <= allowed
    if isinstance(right, Limits):
        return _nominal(left) in right
    if isinstance(left, Limits):
        return right in left
    if off.approximate:
        return abs(off.value) <= _ALIKE * max(abs(left.value), abs(right.value))
    return off.value == 0


def _rule(asked: Asked) -> tuple[Any, Value | None]:
    return RuleResult(named_rule(asked.subject(0))), None


HANDLERS: dict[str, Callable[[Asked], tuple[Any, Value | None]]] = {
    "snap": _snap,
    "divide": _divide,
    "check": _check,
    "rule": _rule,
}


def answer(request: Request, evaluator: Evaluator, rule: Rule) -> tuple[Any, Value | None]:
    """The request's typed result, and the one size it has, if it has one.

    A fault that the library finds is placed at the request's first subject.
    """
    try:
        return HANDLERS[request.word](Asked(request, evaluator, rule))
    except ShopError as error:
        node: Node = request.subjects[0] if request.subjects else request
        raise Fault(str(error), node.start, node.end) from None
