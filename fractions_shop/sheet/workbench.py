"""The workbench: names, the working rule and the last size, and statements answered in turn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import islice
from typing import Any

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice.offers import Advice
from fractions_shop.language.arithmetic import Value
from fractions_shop.language.evaluate import Evaluator, as_length, as_size
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import (
    Binary,
    Call,
    Literal,
    Name,
    Naming,
    Node,
    Reading,
    Request,
    RuleName,
    Statement,
    Toleranced,
)
from fractions_shop.language.notes import Note, doubts_of, echo, remark
from fractions_shop.language.parser import parse
from fractions_shop.language.results import CheckResult, PlacesResult, RuleResult, SizeResult, Target
from fractions_shop.size import pint_bridge, units
from fractions_shop.size.limits import MAY_BE_WIDE, Limits
from fractions_shop.size.quantity import Angle, Quantity, a_power, power_name
from fractions_shop.size.rule import Rule

#: Doubtful names told one by one; that there are others is said.
_TOLD = 4


@dataclass(frozen=True)
class Outcome:
    """One statement answered.

    `kind` is the request's word, or `size` for an expression; `value` the one size of
    the answer, if it has one; `result` the typed answer; `name` what it was named;
    `notes` what is said beside it; `used` the names it drew on.
    """

    statement: str
    kind: str
    value: Value | None
    result: Any
    notes: tuple[Note, ...] = ()
    name: str | None = None
    used: tuple[str, ...] = ()

    @property
    def doubts(self) -> tuple[Note, ...]:
        """The notes that tell of a second meaning."""
        return doubts_of(self.notes)


@dataclass
class Workbench:
    """Answers statements one after another, keeping names, the rule and `ans` between them.

    With `lookups` false no word is looked up in pint, which keeps a live reading quick.
    `doubtful` has the names whose size rests on a doubtful reading, each with the names
    (or `the last size`) that were so read.
    """

    rule: Rule = field(default_factory=lambda: Rule("64ths"))
    names: dict[str, Value] = field(default_factory=dict)
    lookups: bool = True
    doubtful: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def answer(self, text: str) -> Outcome | None:
        """Read, work out and remember one statement; None for a blank or comment line.

        InputError, with the place, when it cannot be read or worked out; nothing is
        remembered then.
        """
        statement = self.read(text)
        if statement is None:
            return None
        outcome = self.work_out(statement, text)
        self.remember(outcome)
        return outcome

    def read(self, text: str) -> Statement | None:
        """The statement that a line says, None for a blank or comment line; InputError when it says none."""
        try:
            return parse(text)
        except InputError as error:
            raise self._passed(error) from None

    def work_out(self, statement: Statement, text: str) -> Outcome:
        """The answer to a statement already read, remembering nothing."""
        evaluator = Evaluator(self.names, pint_bridge.length_called if self.lookups else None, text)
        name = statement.name if isinstance(statement, Naming) else None
        part = statement.answer if isinstance(statement, Naming) else statement
        try:
            kind, result, value = self._result(part, evaluator, text)
            if name is not None and value is None:
                raise Fault(
                    f"the answer to {kind} is not one size, so it cannot be named",
                    part.start,
                    part.end,
                    "name a size, a snap or a divide",
                )
        except Fault as fault:
            raise self._passed(fault.in_line(text)) from None
        except ShopError as error:
            if isinstance(error, InputError):
                raise
            raise InputError(str(error), text, part.start, part.end) from None
        if name is None and kind == "size":
            _note_bare(part, value, text, evaluator)
        rests_on = self._rests_on(evaluator.used)
        if rests_on:
            evaluator.note(remark(f"rests on {_listed(rests_on)}, which may be another size"))
        _note_wide(value, result, evaluator)
        if name is not None and isinstance(value, Limits):
            value = value.labelled(name)
        return Outcome(text, kind, value, result, tuple(evaluator.notes), name, tuple(evaluator.used))

    def _passed(self, error: InputError) -> InputError:
        """The error with such advice only as would be answered here."""
        if not isinstance(error.advice, Advice):
            return error
        from fractions_shop.language.advice.gate import passed

        return passed(error, self._accepts)

    def _accepts(self, line: str) -> bool:
        """Whether a line can be read and, unless that takes long, is answered with the names there are."""
        from fractions_shop.language import grammar
        from fractions_shop.language.advice.missing_units import parts

        if not grammar.reads(line):
            return False
        statement = parse(line)
        part = statement.answer if isinstance(statement, Naming) else statement
        if not isinstance(part, Reading | Request):
            return True
        if isinstance(part, Request) and part.word == "recover" and len(part.subjects) > 1:
            # Several readings take long to weigh together: they are only looked up.
            known = all(node.word in self.names for node in parts(part) if isinstance(node, Name))
            return known and part is statement  # nor could the answer be named
        try:
            value = self._result(part, Evaluator(self.names), line)[2]
        except (Fault, ShopError):
            return False
        return part is statement or value is not None

    def remember(self, outcome: Outcome) -> None:
        """Keep what an outcome names, sets, or leaves as the last size."""
        if isinstance(outcome.result, RuleResult):
            self.rule = outcome.result.rule
        if outcome.value is not None:
            self.names["ans"] = outcome.value
            if outcome.name is not None:
                self.names[outcome.name] = outcome.value
            self.remember_doubts(outcome)

    def remember_doubts(self, outcome: Outcome) -> None:
        """Keep which names rest on a doubtful reading now that this one is answered."""
        roots = self.roots_of(outcome)
        for name in filter(None, ("ans", outcome.name)):
            self.doubtful.pop(name, None)
            if roots:
                self.doubtful[name] = roots

    def roots_of(self, outcome: Outcome) -> tuple[str, ...]:
        """The doubtful readings that an answer is or rests on."""
        own = (outcome.name or "the last size",) if outcome.doubts else ()
        return (*own, *self._rests_on(outcome.used))[: _TOLD + 1]

    def _rests_on(self, used: Iterable[str]) -> tuple[str, ...]:
        """The doubtful readings that some names come from."""
        roots = dict.fromkeys(root for name in used for root in self.doubtful.get(name, ()))
        # No more than are told, or a long sum of doubtful sizes would take its square in time.
        return tuple(islice(roots, _TOLD + 1))

    def _result(
        self, part: Reading | Request, evaluator: Evaluator, text: str
    ) -> tuple[str, Any, Value | None]:
        if isinstance(part, Request):
            from fractions_shop.requests import dispatch as requests  # a plain size needs none of it

            result, value = requests.answer(part, evaluator, self.rule, text)
            return part.word, result, value
        if isinstance(part.expression, Call) and part.expression.function == "bolt_circle":
            return "places", PlacesResult(evaluator.points(part.expression)), None
        value = evaluator.value(part.expression)
        target = None
        if part.target is not None:
            target, value = _target(part.target, part.expression, value)
            if target.turned:
                evaluator.note(remark(_turned(value)))
        divided = _divided(part.expression, value, evaluator)
        return "size", SizeResult(value, self.rule, target, divided), value


def _listed(names: tuple[str, ...]) -> str:
    """`frame`, `frame and bar`, `frame, bar, slat, rail and others`."""
    told = [*names[:_TOLD], *(["others"] if len(names) > _TOLD else [])]
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"


def _turned(value: Value) -> str:
    """What a size turned about is: the value is named and used as it is now."""
    return (
        "the pitch, from threads to the inch"
        if isinstance(value, Quantity | Limits) and value.power == 1
        else "threads to the inch, from the pitch"
    )


def _note_bare(part: Node, value: Value | None, text: str, evaluator: Evaluator) -> None:
    """A number typed alone was often meant as a size; one that is named (pegs = 9) was not."""
    bare = part.expression if isinstance(part, Reading) else None
    if isinstance(bare, Literal) and isinstance(value, Quantity) and value.power == 0:
        number = text[bare.start : bare.end]
        evaluator.note(
            remark(f"a plain number, without a unit; for a length write {number} in or {number} mm")
        )


def _note_wide(value: Value | None, result: Any, evaluator: Evaluator) -> None:
    """Limits that may lie further apart than the truth say so, wherever the size goes."""
    sizes = (result.left, result.right) if isinstance(result, CheckResult) else (value,)
    if any(isinstance(size, Limits) and size.wide for size in sizes):
        evaluator.note(echo(MAY_BE_WIDE))


def _divided(node: Node, value: Value, evaluator: Evaluator) -> tuple[Quantity, int] | None:
    """The length and whole number, when the expression is one divided by the other."""
    if (
        not isinstance(node, Binary)
        or node.sign != "/"
        or not isinstance(value, Quantity)
        or value.power != 1
    ):
        return None
    # The parts were worked out a moment ago without fault; the notes are already kept.
    right = evaluator.value(node.right)
    if not isinstance(right, Quantity) or right.power != 0 or right.value.denominator != 1:
        return None
    if not 2 <= right.value <= 1000 or value.value <= 0:
        return None
    return value * right.value, int(right.value)


def _target(node: RuleName, expression: Node, value: Value) -> tuple[Target, Value]:
    """The unit or parts that `as` names, and the size to show in it: of threads to the inch, the pitch."""
    target, power = _unit_named(node)
    if isinstance(value, Angle):
        as_size(value, expression)  # its Fault says what an angle is not
    assert not isinstance(value, Angle)
    if value.power == power:
        return target, value
    # 1 / 2 in as mm was meant as a fraction: only what is surely threads to the inch is turned.
    surely = power == -1 or isinstance(expression, Literal | Name | Toleranced)
    if value.power == -power and abs(power) == 1 and surely:
        try:
            return replace(target, turned=True), Quantity(Fraction(1), 0) / value
        except ShopError as error:
            raise Fault(str(error), expression.start, expression.end) from None
        except ZeroDivisionError:
            raise Fault("nothing can be divided by zero", expression.start, expression.end) from None
    if power == 1 and value.power not in _SHOWN_AS:
        as_length(value.nominal if isinstance(value, Limits) else value, expression)
    if value.power not in _SHOWN_AS:
        raise Fault(f"{a_power(value.power)} is shown in no other unit", node.start, node.end)
    raise Fault(
        f"this is {a_power(value.power)}, and {target.name} is a unit of {power_name(power)}",
        node.start, node.end, f"write {_SHOWN_AS[value.power]}",
    )  # fmt: skip


#: How a value of each power is shown in another unit.
_SHOWN_AS = {
    -1: "tpi",
    1: "mm, in, thou, ft or 64ths",
    2: "sq in or sq mm",
    3: "cu in or cu mm",
}


def _unit_named(node: RuleName) -> tuple[Target, int]:
    """The unit or parts behind `as`, and its power of a length."""
    unit = units.find(node.text) or units.find_raised(node.text.rstrip("."))
    if unit is not None:
        return Target(unit.name, unit.mm), unit.power
    meanings = units.two_meanings(node.text)
    if meanings:
        raise Fault(f"{node.text} has more than one meaning: {meanings}", node.start, node.end)
    try:
        rule = Rule(node.text)
    except ShopError:
        raise Fault(
            f"{node.text} is neither a unit nor parts of an inch",
            node.start,
            node.end,
            "write as mm, as in, as thou, as ft or as 64ths",
        ) from None
    return Target(rule.name, rule.division.mm, rule), 1
