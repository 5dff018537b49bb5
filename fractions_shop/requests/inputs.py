"""What a request was given: its subjects and options, worked out as they are asked for."""

from __future__ import annotations

from fractions_shop.language.evaluate import Evaluator, as_length, as_whole
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Literal, Node, Option, Request, RuleName, Text
from fractions_shop.language.notes import remark
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, UnknownRule
from fractions_shop.size.value import Value


class Inputs:
    """A request with the names and the working rule that it is answered against."""

    def __init__(self, request: Request, evaluator: Evaluator, rule: Rule, text: str) -> None:
        self.request = request
        self.evaluator = evaluator
        self.rule = rule
        self.text = text

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
            self.evaluator.note(remark("the nominal size is used; its limits are left aside"))
            value = value.nominal
        return as_length(value, node)

    def whole(self, place: int) -> int:
        """The subject at `place` as a whole number."""
        return as_whole(self.value(self.subject(place)), self.subject(place))

    def at_most(self, place: int, most: int, what: str) -> int:
        """The subject at `place` as a whole number; Fault for more than one answer can show."""
        number = self.whole(place)
        if number > most:
            node = self.subject(place)
            raise Fault(
                f"one answer sets out at most {most} {what}", node.start, node.end, "take it in parts"
            )
        return number

    def word(self, place: int) -> str:
        """The subject at `place` as it was written: a thread, the zones of a fit."""
        node = self.subject(place)
        assert isinstance(node, Text)
        return node.text

    def written(self, node: Node) -> str | None:
        """A literal size as it was written, which shows how finely it was read; else None."""
        return self.text[node.start : node.end] if isinstance(node, Literal) else None

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
    except UnknownRule as error:
        raise Fault(error.message, node.start, node.end, error.advice) from None
