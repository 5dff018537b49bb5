"""Written numbers and lengths taken apart, for advice that writes them in other words."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.language.nodes import Binary, Literal, Node
from fractions_shop.size import units
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.quantity import Quantity


def literal_size(node: Node) -> Quantity | None:
    """The plain number or length that a literal is, unless brackets stand about it."""
    value = node.value if isinstance(node, Literal) and not node.bracketed else None
    return value if isinstance(value, Quantity) and value.power in (0, 1) else None


def bare_whole(node: Node) -> int:
    """The whole number that a bare literal is, else 0."""
    if isinstance(node, Literal) and isinstance(node.value, Quantity) and not node.unit:
        return int(node.value.value) if node.value.value.denominator == 1 else 0
    return 0


def count_of(node: Literal) -> tuple[Fraction, str]:
    """How many of which unit a literal length is; a plain number is of none."""
    value = node.value
    assert isinstance(value, Quantity)
    if value.power == 0:
        return value.value, ""
    unit = units.find(node.unit)
    return (value.value / unit.mm, unit.name) if unit else (value.value, "mm")


def in_figures(node: Node) -> str:
    """A literal size in figures that mean it and nothing else."""
    assert isinstance(node, Literal)
    number, unit = count_of(node)
    return f"{short_figure(number)} {unit}".rstrip()


def short_figure(value: Fraction) -> str:
    """A fraction where it is one of a rule's, else decimals where they end."""
    text, ends = decimal(value)
    return text if ends and value.denominator % 5 == 0 else mixed(value)


def touches(node: Binary) -> bool:
    """Whether no blank stands about the sign."""
    return node.at == node.left.end and node.right.start == node.at + 1
