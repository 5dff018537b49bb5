"""A request's subjects and options, each worked out when it is asked for."""

from __future__ import annotations

from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.kinds import as_length, as_whole
from fractions_shop.language.nodes import (
    Literal,
    Name,
    Node,
    OddUnit,
    Option,
    Pieces,
    Request,
    RuleName,
    Several,
    Text,
)
from fractions_shop.language.notes import remark
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import mixed
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, UnknownRule, rule_called
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
        for option in self.request.options:
            if option.word == word:
                return option
        return None

    def value(self, node: Node) -> Value:
        """What a part comes to."""
        return self.evaluator.value(node)

    def length(self, place: int) -> Quantity:
        """The subject at `place` as a length; the nominal of limits, and a note that says so."""
        return self.length_of(self.subject(place))

    def length_of(self, node: Node) -> Quantity:
        """Any part as a length, in the same way."""
        value = self.value(node)
        if isinstance(value, Limits):
            self.evaluator.note(remark("the nominal size is used; its limits are left aside"))
            value = value.nominal
        return as_length(value, node)

    def whole_of(self, node: Node) -> int:
        """Any part as a whole number; Fault for a number with what is counted behind it, such as `7 slots`."""
        if isinstance(node, OddUnit):
            raise Fault(
                f"a number alone stands here, and {node.word} is no part of it", node.start, node.end,
                write(mixed(node.number), lead="leave it out: write "),
            )  # fmt: skip
        if isinstance(node, Pieces) and self.after_total("into"):
            self._refuse_bodies(node)
        return as_whole(self.value(node), node)

    def _refuse_bodies(self, node: Pieces) -> None:
        """Fault for `into 7 of 1 1/4 in`, which may be so many bodies, or spaces of about that size."""
        front = self.text[: node.start].rstrip().removesuffix("into").rstrip()
        count = mixed(node.count.number) if isinstance(node.count, OddUnit) else self.written_part(node.count)
        each, rest = self.written_part(node.size), self.text[node.end :]
        raise Fault(
            "'into' is followed by the number of spaces, and bodies of a size stand behind 'for'", node.start, node.end,
            write(
                Offer(f"{front} for {count} of {each}{rest}".strip(), " for bodies of that size"),
                Offer(f"{front} into {count}{rest}".strip(), " for that many spaces", worked=True),
            ),
        )  # fmt: skip

    def wholes(self, place: int) -> tuple[int, ...]:
        """The subject at `place` as whole numbers: one, or those that `and` joins."""
        node = self.subject(place)
        return tuple(map(self.whole_of, node.members if isinstance(node, Several) else (node,)))

    @property
    def inside(self) -> Pieces | None:
        """The bodies that stand inside two posts, where it was asked so: `for 13 of 1 1/2 in`."""
        node = self.request.subjects[1] if len(self.request.subjects) > 1 else None
        return node if isinstance(node, Pieces) and self.after_total("for") else None

    def after_total(self, word: str) -> bool:
        """Whether a word stands behind the first subject, such as `for` or `into`."""
        return self.text[self.subject(0).end :].lstrip(" )").lower().startswith(word)

    def is_any(self, node: Node) -> bool:
        """Whether a part is the word `any`; where a size is named so it is that size."""
        return isinstance(node, Name) and node.word.lower() == "any" and node.word not in self.evaluator.names

    def written_part(self, node: Node) -> str:
        """A part as it was written."""
        return self.text[node.start : node.end]

    def whole(self, place: int) -> int:
        """The subject at `place` as a whole number."""
        return self.whole_of(self.subject(place))

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
        return self.length_of(option.value)

    def rule_after(self, word: str) -> Rule:
        """The rule that follows `word`, or the working rule."""
        option = self.option(word)
        if option is None or option.value is None:
            return self.rule
        return named_rule(option.value)

    @property
    def direction(self) -> str:
        """`up`, `down` or `nearest`."""
        for option in self.request.options:
            if option.word in ("up", "down"):
                return option.word
        return "nearest"


def named_rule(node: Node) -> Rule:
    """The rule that a node names; Fault for one that is none."""
    assert isinstance(node, RuleName)
    try:
        return rule_called(node.text)
    except UnknownRule as error:
        raise Fault(error.message, node.start, node.end, error.advice) from None
