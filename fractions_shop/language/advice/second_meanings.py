"""Forms that a maker may have meant otherwise: a sentence on how each was read, or a refusal.

Arithmetic has only one reading; paper has several. `5' - 3"` is a subtraction here and
5 ft 3 in on many drawings, and a size read wrongly in silence is the worst of faults.
"""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.language.arithmetic import Value
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Node, Signed, Toleranced
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.quantity import Angle, Quantity

#: Threads to the inch of the numbered American threads, with which `10-32` may be meant.
_USUAL_TPI = frozenset({4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 24, 26, 28, 32, 40})
_NUMBERS = frozenset({1, 2, 3, 4, 5, 6, 8, 10, 12})
_NUMBER_TPI = frozenset({80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 24})


#: How the note begins that a size was raised to a power as a whole.
TAKES_WHOLE = "the power takes the whole size"


def remarks(node: Binary, left: Value, right: Value) -> list[str]:
    """How the form of `node` was read, where it may have been meant otherwise."""
    looks = {"^": _power, "/": _quotient, "-": _difference, "*": _product}
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
        return [f"{TAKES_WHOLE} with its limits"]
    if not isinstance(base, Literal) or not base.unit or base.bracketed or not isinstance(left, Quantity):
        return []
    if left.power != 1 or isinstance(right, Angle | Limits):
        return [TAKES_WHOLE]
    unit = units.find(base.unit) or units.UNITS[0]
    size = f"{_figure(left.value / unit.mm)} {unit.name}"
    return [f"{TAKES_WHOLE}: ({size})^{mixed(right.value)}; for an area write {size} * 1 {unit.name}"]


def _quotient(node: Binary, left: Value, right: Value) -> list[str]:
    shared = _shared(left, right)
    if shared:
        return [shared]
    if not isinstance(node.right, Literal) or not isinstance(right, Quantity) or right.power != 1:
        return []
    if not isinstance(left, Quantity) or left.power != 0:
        return []
    unit = units.find(node.right.unit)
    bottom = right.value / unit.mm if unit else right.value
    name = unit.name if unit else "mm"
    stacked = _stacked(node, left.value, bottom, name)
    if stacked:
        return [f"read as a division; for limits, one above the other, write {stacked}"]
    said = f"read as {_figure(left.value)} divided by {_figure(bottom)} {name}, a number per length"
    if isinstance(node.left, Literal) and left.value.denominator == bottom.denominator == 1:
        return [f"{said}; for the fraction write {left.value}/{bottom} {name}"]
    return [said]


def _stacked(node: Binary, one: Fraction, two: Fraction, unit: str) -> str:
    """`0.498 in +0.002/-0 in` for .500/.498 in, as drawings write two limits; nothing for any other division."""
    low, high = sorted((one, two))
    touching = node.at == node.left.end and node.right.start == node.at + 1
    if not touching or not isinstance(node.left, Literal) or not 0 < high - low < high / 8:
        return ""
    if one.denominator == two.denominator == 1:
        return ""
    return f"{_figure(low)} {unit} +{_figure(high - low)}/-0 {unit}"


def _difference(node: Binary, left: Value, right: Value) -> list[str]:
    one, two = node.left, node.right
    found = _shared(left, right) or _limits_added(one, two)
    if not found and isinstance(one, Literal) and isinstance(two, Literal):
        found = _feet_less_inches(one, two) or _thread_dash(one, two, node.at)
    return [found] if found else []


def _limits_added(first: Node, second: Node) -> str:
    """`0.5 in +0.001 in -0.002 in`, which old drawings write for limits and which here adds up."""
    if not isinstance(first, Binary) or first.sign != "+":
        return ""
    sizes = [_literal_size(node) for node in (first.left, first.right, second)]
    nominal, plus, minus = sizes
    if nominal is None or plus is None or minus is None:
        return ""
    if any(abs(size.value) * 16 > abs(nominal.value) for size in (plus, minus)):
        return ""
    unit = "" if nominal.power == 0 else " in"
    texts = [_figure(size.value if size.power == 0 else size.inch) for size in (nominal, plus, minus)]
    return f"added up; for limits write {texts[0]}{unit} +{texts[1]}/-{texts[2]}{unit}"


def _literal_size(node: Node) -> Quantity | None:
    """The plain number or length that a literal is."""
    value = node.value if isinstance(node, Literal) else None
    return value if isinstance(value, Quantity) and value.power in (0, 1) else None


def _feet_less_inches(one: Literal, two: Literal) -> str:
    """`5' - 3"`, which many drawings write for 5 ft 3 in."""
    if one.unit != "'" or two.unit not in ('"', "in", "''"):
        return ""
    if not isinstance(one.value, Quantity) or not isinstance(two.value, Quantity):
        return ""
    feet, inches = mixed(one.value.in_unit("ft")), mixed(two.value.inch)
    return f"read as {feet} ft less {inches} in; for feet and inches write {feet}' {inches}\""


def _thread_dash(one: Literal, two: Literal, at: int) -> str:
    """`10-32` and `1/4 - 20`, which may be threads."""
    touching = at == one.end and two.start == at + 1
    size, tpi = _literal_size(one), _whole(two)
    if size is None or one.unit or not tpi:
        return ""
    if size.value.denominator in (2, 4, 8, 16) and tpi in _USUAL_TPI:
        thread = f"{_figure(size.value)}-{tpi}"
    elif touching and _whole(one) in _NUMBERS and tpi in _NUMBER_TPI:
        thread = f"No {_whole(one)}-{tpi}"
    else:
        return ""
    return f"read as {_figure(size.value)} less {tpi}; for the thread write {thread}"


def _shared(left: Value, right: Value) -> str:
    """A sentence when both sides draw on one toleranced size, as `x - x` does."""
    if not isinstance(left, Limits) or not isinstance(right, Limits):
        return ""
    ours = {id(source): source.label for source, effect in left.effects if effect}
    both = [source.label for source, effect in right.effects if effect and id(source) in ours]
    if not both:
        return ""
    return f"{both[0] or 'one size'} stands on both sides, taken as two pieces that may differ"


def _figure(value: Fraction) -> str:
    """A fraction where it is one of a rule's, else decimals where they end."""
    text, ends = decimal(value)
    return text if ends and value.denominator % 5 == 0 else mixed(value)


def _product(node: Binary, left: Value, right: Value) -> list[str]:
    shared = _shared(left, right)
    return [shared] if shared else []


def _whole(node: Node) -> int:
    """The whole number that a bare literal is, else 0."""
    if isinstance(node, Literal) and isinstance(node.value, Quantity) and not node.unit:
        return int(node.value.value) if node.value.value.denominator == 1 else 0
    return 0
