"""Relations from a statement's nodes: sums of known sizes and of names with readings, each so many times."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Name, Node, Pieces, Signed, nodes_in
from fractions_shop.meant.relations import Relation
from fractions_shop.requests.inputs import Inputs
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity

_WRITE = "write a sum of counted names and known sizes on each side: rack = 5 of bay + 6 of slat"
_DEEPEST = 100
_NONE = Fraction(0)


class _LinearSum:
    """Counts of names that read, and a length in mm; or a plain number."""

    def __init__(self, counts: dict[str, Fraction], length: Fraction = _NONE, number: Fraction | None = None):
        self.counts, self.length, self.number = counts, length, number

    def times(self, factor: Fraction) -> _LinearSum:
        if self.number is not None:
            return _LinearSum({}, number=self.number * factor)
        return _LinearSum({name: count * factor for name, count in self.counts.items()}, self.length * factor)


def relations(given: Inputs) -> tuple[Relation, ...]:
    """The relations of a request, two sides each; Fault, placed, for one that is not linear."""
    subjects = given.request.subjects
    return tuple(
        _relation(given, left, right) for left, right in zip(subjects[::2], subjects[1::2], strict=True)
    )


def _relation(given: Inputs, left: Node, right: Node) -> Relation:
    sides = []
    for node in (left, right):
        side = _sum(given, node)
        if side.number is not None:
            raise Fault("a number has no unit, so it is not a size", node.start, node.end, _WRITE)
        sides.append(side)
    counts: dict[str, Fraction] = {}
    for side, sign in zip(sides, (1, -1), strict=True):
        for name, count in side.counts.items():
            counts[name] = counts.get(name, _NONE) + sign * count
    if not any(counts.values()):
        raise Fault("this relation ties no name that reads", left.start, right.end, _WRITE)
    text = given.text[left.start : right.end]
    return Relation.of(counts, Quantity(sides[0].length - sides[1].length), text)


def _sum(given: Inputs, node: Node, deep: int = 0) -> _LinearSum:
    if deep > _DEEPEST:
        raise Fault("this is nested too deeply", node.start, node.end, "name the inner parts first")
    match node:
        case Name() if node.word in given.evaluator.readings:
            return _LinearSum({node.word: Fraction(1)})
        case Signed():
            return _sum(given, node.operand, deep + 1).times(Fraction(-1 if node.sign == "-" else 1))
        case Binary(sign="+" | "-") if _has_names(given, node):
            return _added(given, node, deep)
        case Binary(sign="*" | "/") if _has_names(given, node):
            left, right = _sum(given, node.left, deep + 1), _sum(given, node.right, deep + 1)
            return _product(node, left, right)
        case Pieces() if _has_names(given, node):
            return _product(node, _sum(given, node.count, deep + 1), _sum(given, node.size, deep + 1))
    if _has_names(given, node):
        raise _not_linear(node)
    return _known(given, node)


def _added(given: Inputs, node: Binary, deep: int) -> _LinearSum:
    left, right = _sum(given, node.left, deep + 1), _sum(given, node.right, deep + 1)
    if left.number is not None or right.number is not None:
        raise Fault("a number and a size cannot be added", node.start, node.end, _WRITE)
    if node.sign == "-":
        right = right.times(Fraction(-1))
    counts = dict(left.counts)
    for name, count in right.counts.items():
        counts[name] = counts.get(name, _NONE) + count
    return _LinearSum(counts, left.length + right.length)


def _product(node: Node, left: _LinearSum, right: _LinearSum) -> _LinearSum:
    if isinstance(node, Binary) and node.sign == "/":
        if not right.number:
            raise _not_linear(node)
        return left.times(1 / right.number)
    if left.number is not None:
        return right.times(left.number)
    if right.number is not None:
        return left.times(right.number)
    raise _not_linear(node)


def _not_linear(node: Node) -> Fault:
    return Fault("a relation must be linear in the names that read", node.start, node.end, _WRITE)


def _known(given: Inputs, node: Node) -> _LinearSum:
    """What does not rest on a reading here."""
    value = given.value(node)
    if isinstance(value, Limits):
        value = value.nominal
    if not isinstance(value, Quantity) or value.power not in (0, 1):
        raise Fault("a size or a count is needed here", node.start, node.end, _WRITE)
    return _LinearSum({}, value.mm) if value.power else _LinearSum({}, number=value.value)


def _has_names(given: Inputs, node: Node) -> bool:
    return any(isinstance(part, Name) and part.word in given.evaluator.readings for part in nodes_in(node))
