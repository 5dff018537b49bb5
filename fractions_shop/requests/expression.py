"""An expression answered: its value, and what the working rule makes of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import (
    Binary,
    Call,
    Literal,
    Name,
    Named,
    Node,
    Request,
    RuleName,
    ShownExpression,
    Toleranced,
)
from fractions_shop.language.notes import Note, doubt, echo, remark
from fractions_shop.size import units
from fractions_shop.size.arguments import simple
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record
from fractions_shop.size.limits import MAY_BE_WIDE, Limits, nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import DRAWER, Rule, Rung, first_that_carries, rule_called, rung
from fractions_shop.size.units import a_power, power_name
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.layout.spacing import Layout
    from fractions_shop.requests.size_data import SizeData, TargetData


class Target(Record):
    """The unit or parts that `as` asked for: `mm` is the size of one of it, in mm to its power.

    `turned` says that the size was turned about for it: threads to the inch into a pitch, or a
    pitch into threads to the inch; `in_feet` that feet and inches stand side by side, `as ft in`. `note` is what is told of an
    old unit, which may be `approximate` and has its `standing`.
    """

    name: str
    mm: Fraction
    rule: Rule | None = None
    turned: bool = False
    in_feet: bool = False
    note: Note | None = None
    approximate: bool = False
    standing: str = ""


class SizeResult(Record):
    """An expression worked out: its `value`, and what the working rule makes of it."""

    value: Value
    rule: Rule
    target: Target | None = None
    divided: tuple[Quantity, int] | None = None

    @property
    def length(self) -> Quantity | None:
        """The one length it is, or None for areas, angles and sizes with limits."""
        return self.value if isinstance(self.value, Quantity) and self.value.power == 1 else None

    @cached_property
    def carried_by(self) -> Rule | None:
        """The coarsest rule with a mark at the size: the working one, unless the drawer has a coarser of its kind."""
        length = self.length
        if length is None:
            return None
        coarsest = first_that_carries(_drawer(), length)
        if not self.rule.carries(length):
            return coarsest
        return coarsest if coarsest is not None and self.rule.has_marks_of(coarsest) else self.rule

    @cached_property
    def nearest(self) -> Rung | None:
        """The nearest division, when the working rule has no mark at the size."""
        if self.length is None or self.rule.carries(self.length):
            return None
        return rung(self.length, self.rule)

    @cached_property
    def divides(self) -> Layout | None:
        """For a length divided by a whole number that misses the rule: the nearest total that does not."""
        from fractions_shop.layout.spacing import nearest_layout  # only a size that misses the rule needs it

        if self.divided is None or self.nearest is None:
            return None
        return nearest_layout(*self.divided, self.rule)

    def as_data(self) -> SizeData:
        """What the working rule makes of a size, in few words: its own value stands beside it."""
        near, target = self.nearest, self.target
        return {
            "rule": self.rule,
            "carried_by": self.carried_by,
            "nearest": None if near is None else {"size": near.size, "error": near.error},
            "divides": self.divides,
            "target": None if target is None else self._in_target(target),
        }

    def _in_target(self, target: Target) -> TargetData:
        data: TargetData = {"unit": target.name}
        if isinstance(self.value, Quantity):
            data["count"] = self.value.value / target.mm
        elif isinstance(self.value, Limits):
            data["lower"], data["upper"] = (
                limit.value / target.mm for limit in (self.value.lower, self.value.upper)
            )
        return data


@cache
def _drawer() -> tuple[Rule, ...]:
    return tuple(map(rule_called, DRAWER))


def answer_expression(
    part: ShownExpression, evaluator: Evaluator, rule: Rule
) -> tuple[str, Any, Value | None]:
    """The kind of an expression's answer, the typed result, and the one size it has."""
    expression = part.expression
    if isinstance(expression, Call) and expression.function == "bolt_circle":
        from fractions_shop.layout.places import places
        from fractions_shop.requests.place_data import PlacesResult

        return "places", PlacesResult(places(*evaluator.points(expression), rule=rule), "bolt_circle"), None
    if evaluator.placed and isinstance(expression, Name) and expression.word in evaluator.placed:
        from fractions_shop.requests.place_data import PlacesResult

        evaluator.use(expression.word)
        return "places", PlacesResult(evaluator.placed[expression.word]), None
    value = evaluator.value(expression)
    if isinstance(value, Quantity) and value.approximate:
        value = simple(value)
    if isinstance(expression, Named) and part.target is None and not evaluator.naming:
        from fractions_shop.language.named import named_alone  # tables load only when named

        asked = named_alone(expression)
        if asked is not None:
            return (*asked, value)
    target = None
    if part.target is not None:
        target, value = _target(part.target, expression, value)
        if target.turned:
            evaluator.note(remark(_turned(value)))
        if target.note is not None:
            evaluator.note(target.note)
    return "size", SizeResult(value, rule, target, _divided(expression, value, evaluator)), value


def plain_size(part: ShownExpression, known: Mapping[str, Value], power: int) -> Quantity | None:
    """What an expression comes to where it is an exact size of that power, written plainly or known by name.

    Nothing is said beside it, unless it is a plain number, of which may be said that it has no unit, or rests on
    a reading. None for any other, which may still be such a size.
    """
    node = part.expression
    if isinstance(node, Literal):
        value: Value | None = None if node.read_as is not None else node.value
    else:
        value = known.get(node.word) if isinstance(node, Name) else None
    if type(value) is not Quantity or value.power != power or part.target is not None:
        return None
    return None if value.approximate or value.standing else value


def note_wide(sizes: Iterable[Value | None], evaluator: Evaluator) -> None:
    """Limits that may lie further apart than the truth say so, wherever the size goes."""
    if any(isinstance(size, Limits) and size.wide for size in sizes):
        evaluator.note(echo(MAY_BE_WIDE))


def note_bare(part: ShownExpression | Request, value: Value | None, text: str, evaluator: Evaluator) -> None:
    """A number typed alone was often meant as a size; one that is named (pegs = 9) was not."""
    opens_with_a_dash = evaluator.text.lstrip(" ").startswith("- ")
    dashed = re.match(r" *- +(?=[^ ])", evaluator.text) if opens_with_a_dash else None
    if dashed is not None:
        rest = evaluator.text[dashed.end() :].strip()
        said = "read with a minus before it, which stands apart and may open a line of a list"
        below = f"-({rest})" if rest.startswith("-") else f"-{rest}"
        evaluator.note(doubt(said, below, rest))
    bare = part.expression if isinstance(part, ShownExpression) else None
    if isinstance(bare, Literal) and isinstance(value, Quantity) and value.power == 0:
        number = text[bare.start : bare.end]
        evaluator.note(
            remark(f"a plain number, without a unit; for a length write {number} in or {number} mm")
        )


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
    if not isinstance(right, Quantity) or right.power != 0:
        return None
    count, of = right.value.as_integer_ratio()
    if of != 1 or not 2 <= count <= 1000 or value.value.numerator <= 0:
        return None
    return value * right.value, count


def _turned(value: Value) -> str:
    """A size turned about, threads to the inch into a pitch or back: it is named and used so."""
    return (
        "the pitch, from threads to the inch"
        if isinstance(value, Quantity | Limits) and value.power == 1
        else "threads to the inch, from the pitch"
    )


def _target(node: RuleName, expression: Node, value: Value) -> tuple[Target, Value]:
    """The unit or parts that `as` names, and the size to show in it: of threads to the inch, the pitch."""
    target, power = _unit_named(node)
    if isinstance(value, Angle):
        from fractions_shop.language.kinds import as_size

        as_size(value, expression)  # its Fault says what an angle is not
    assert not isinstance(value, Angle)
    if value.power == power:
        return target, value
    # 1 / 2 in as mm was meant as a fraction: only what is surely threads to the inch is turned.
    surely = power == -1 or isinstance(expression, Literal | Name | Toleranced)
    if value.power == -power and abs(power) == 1 and surely:
        try:
            return target.but(turned=True), Quantity(Fraction(1), 0) / value
        except ShopError as error:
            raise Fault(str(error), expression.start, expression.end) from None
        except ZeroDivisionError:
            raise Fault("nothing can be divided by zero", expression.start, expression.end) from None
    if power == 1 and value.power not in _SHOWN_AS:
        from fractions_shop.language.kinds import as_length

        as_length(nominal_of(value), expression)
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


def _old_units(word: str) -> list[str]:
    """The old units that a word of another language may name, behind `as`."""
    from fractions_shop.language import old_units

    return [f"as {unit.name}" for unit in old_units.of_own_word(word)]


def _unit_named(node: RuleName) -> tuple[Target, int]:
    """The unit or parts behind `as`, and its power of a length."""
    unit = units.find(node.text) or units.find_raised(node.text.rstrip("."))
    if unit is not None:
        return Target(unit.name, unit.mm), unit.power
    if " " in node.text:
        from fractions_shop.language import old_units

        old = old_units.find(node.text)
        if old is not None:
            size = old.size
            target = Target(
                old.name, size.mm, note=old.note, approximate=size.approximate, standing=size.standing
            )
            return target, 1
    foot, inch = units.find("ft"), units.find("in")
    if foot is not None and [units.find(word) for word in node.text.split()] == [foot, inch]:
        return Target(foot.name, foot.mm, in_feet=True), 1
    meanings = units.two_meanings(node.text)
    if meanings:
        raise Fault(f"{node.text} has more than one meaning: {meanings}", node.start, node.end)
    try:
        rule = Rule(node.text)
    except ShopError:
        if offered := _old_units(node.text):
            message = f"{node.text} is an old unit, which is written by its English name"
            raise Fault(message, node.start, node.end, f"write {' or '.join(offered)}") from None
        raise Fault(
            f"{node.text} is neither a unit nor parts of an inch",
            node.start,
            node.end,
            "write as mm, as in, as thou, as ft or as 64ths",
        ) from None
    return Target(rule.name, rule.division.mm, rule), 1
