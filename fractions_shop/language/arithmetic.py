"""What an expression can come to, and arithmetic on it with faults placed in the line."""

from __future__ import annotations

import operator
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.deviations import old_unit
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Name, Node, Signed
from fractions_shop.size import units
from fractions_shop.size.limits import Limits, limits_of, nominal_of, settled
from fractions_shop.size.notation import decimal, inch_text, mixed
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.sums import TooManyPieces
from fractions_shop.size.units import power_name
from fractions_shop.size.value import Value

#: A result with more binary figures than this is no size; it is refused before it costs time.
MAX_BITS = 1280
#: Nor is a length (or a power of one) of more than 10^50 mm or less than 10^-50 mm; in binary figures.
_REACH = 166
MAX_EXPONENT = 64
#: What the divisions of rules are parts of.
DIVISIONS = frozenset({2, 4, 8, 16, 32, 64, 128})
#: What has no longer a top or bottom than this is within both bounds, whatever it is.
_SHORT: int = 2**_REACH
_ONE_KIND = "both must be lengths, or both areas, or both plain numbers"

_SIGNS: dict[str, Callable[[Any, Any], Any]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


def kind_name(value: Value) -> str:
    """`length`, `area`, `angle`: what a maker calls it."""
    return "angle" if isinstance(value, Angle) else power_name(value.power)


def figures(value: Fraction) -> str:
    """A number as it was likely typed: halves and 64ths as fractions, all else in decimals that end."""
    text, ends = decimal(value)
    return text if ends and value.denominator & (value.denominator - 1) else mixed(value)


def combine(node: Binary, left: Value, right: Value) -> Value:
    """`left` and `right` joined by the sign of `node`; Fault where they cannot be."""
    if node.sign == "^":
        return _power(node, left, right)
    if isinstance(left, Angle) or isinstance(right, Angle):
        return _angles(node, left, right)
    if node.sign in "+-":
        if left.power != right.power:
            raise _mismatch(node, left, right)
    elif isinstance(left, Limits) or isinstance(right, Limits):
        left, right = limits_of(left), limits_of(right)
    try:
        result: Value = _SIGNS[node.sign](left, right)
    except ZeroDivisionError:
        raise Fault("nothing can be divided by zero", node.right.start, node.right.end) from None
    except TooManyPieces as error:
        raise Fault(
            str(error), node.start, node.end,
            "add them up in groups, and give each group limits of its own",
        ) from None  # fmt: skip
    except ShopError as error:
        raise Fault(str(error), node.right.start, node.right.end, "give it tighter limits") from None
    return bounded(settled(result), node)


def has_one_meaning(node: Binary, left: Value) -> bool:
    """Whether a form can mean one thing only, its left side being `left` and its right one whatever it is.

    `width + slat`, `ans - 3 mm`, `width / 5`: a name added or taken away, a size added to a name or taken from it, and an
    exact size times a whole number or, with blanks, divided by one. Limits, mixed numbers and threads are written in
    figures on both sides of their sign, dates and fractions without blanks.
    """
    right = node.right
    if node.sign in "+-":
        return type(right) is Name or (type(right) is Literal and type(node.left) is Name)
    if not _is_whole(right):
        return False
    if node.sign == "/":
        return node.at + 1 < right.start
    return node.sign == "*" and type(left) is Quantity and not node.crossed


def _is_whole(node: Node) -> bool:
    """Whether a whole number is written, without a unit."""
    value = node.value if type(node) is Literal else None
    return type(value) is Quantity and value.power == 0 and value.value.denominator == 1


def several(count: Value, size: Value, label: str) -> Value:
    """So many pieces of a size, each of which varies by itself, or a part of one; ShopError for any other count.

    `label` is what one of them is called, where it has no name yet.
    """
    if not isinstance(count, Quantity) or count.power != 0:
        raise ShopError(f"of stands behind a plain number, and this is {_an(kind_name(count))}")
    whole = count.value.denominator == 1
    if count.value <= 0 or (count.value > 1 and not whole):
        raise ShopError("of takes a whole number of pieces, or a part below 1 of one")
    if isinstance(size, Angle):
        return Angle(size.degrees * count.value, size.approximate or count.approximate)
    if whole and isinstance(size, Limits) and size.terms:
        return size.pieces(int(count.value), label=label)
    product: Value = size * count
    return product


def bounded(value: Value, node: Node) -> Value:
    """`value`, unless it has grown past anything that a workshop knows."""
    sizes: tuple[Quantity | Angle, ...] = (
        (value.nominal, value.plus, value.minus) if isinstance(value, Limits) else (value,)
    )
    if all(map(_is_short, sizes)):
        return value
    for size in sizes:
        number = size.degrees if isinstance(size, Angle) else size.value
        if number.numerator.bit_length() + number.denominator.bit_length() > MAX_BITS:
            raise Fault(
                "the figures of this grow past all bounds",
                node.start,
                node.end,
                "work it out in smaller parts",
            )
    if isinstance(value, Angle):
        return value
    if abs(value.power) > MAX_EXPONENT:
        raise Fault(f"a {power_name(value.power)} is nothing that can be made", node.start, node.end)
    if any(map(_out_of_reach, sizes)):
        raise Fault(f"{_an(kind_name(value))} of this size is nothing that can be made", node.start, node.end)
    return value


def _is_short(size: Quantity | Angle) -> bool:
    """Whether a size is within all bounds, as nearly every one is; not to be so need not mean that it is not."""
    if type(size) is not Quantity or not -MAX_EXPONENT <= size.power <= MAX_EXPONENT:
        return False
    top, bottom = size.value.as_integer_ratio()
    return -_SHORT < top < _SHORT and bottom < _SHORT


def _out_of_reach(size: Any) -> bool:
    scale: int = size.value.numerator.bit_length() - size.value.denominator.bit_length()
    return bool(size.power and size.value) and abs(scale) > _REACH * abs(size.power)


def _power(node: Binary, left: Value, right: Value) -> Value:
    spot = (node.right.start, node.right.end)
    if isinstance(left, Angle):
        raise Fault("an angle cannot be raised to a power", node.left.start, node.left.end)
    if not isinstance(right, Quantity) or right.power != 0:
        raise Fault("a power must be a plain whole number", *spot, "write it like this: (2 in)^2")
    if right.value.denominator != 1:
        raise Fault(
            f"the power {mixed(right.value)} is not a whole number", *spot,
            "put blanks around the bar to divide; the root of an area is written like this: sqrt(2 in * 8 in)",
        )  # fmt: skip
    if abs(right.value) > MAX_EXPONENT:
        raise Fault(f"powers are read from -{MAX_EXPONENT} to {MAX_EXPONENT}", *spot)
    exponent = int(right.value)
    number = left.nominal.value if isinstance(left, Limits) else left.value
    bits = number.numerator.bit_length() + number.denominator.bit_length()
    if bits * max(1, abs(exponent)) > MAX_BITS:
        raise Fault("the figures of this grow past all bounds", *spot, "work it out in smaller parts")
    try:
        return bounded(settled(left**exponent), node)
    except ZeroDivisionError:
        raise Fault("nothing can be divided by zero", node.left.start, node.left.end) from None
    except ShopError as error:
        raise Fault(str(error), node.left.start, node.left.end) from None


def _angles(node: Binary, left: Value, right: Value) -> Value:
    if isinstance(left, Angle) and isinstance(right, Angle):
        if node.sign in "+-":
            return left + right if node.sign == "+" else left - right
        if node.sign == "/" and right.degrees:
            return Quantity(left.degrees / right.degrees, 0, left.approximate or right.approximate)
    if (
        node.sign == "/"
        and (right.degrees if isinstance(right, Angle) else limits_of(right).nominal.value) == 0
    ):
        raise Fault("nothing can be divided by zero", node.right.start, node.right.end)
    for angle, factor in ((left, right), (right, left)):
        if not (isinstance(angle, Angle) and isinstance(factor, Quantity) and factor.power == 0):
            continue
        if node.sign == "*":
            return Angle(angle.degrees * factor.value, angle.approximate or factor.approximate)
        if node.sign == "/" and angle is left and factor.value:
            return Angle(angle.degrees / factor.value, angle.approximate or factor.approximate)
    raise Fault(
        f"{_an(kind_name(left))} and {_an(kind_name(right))} cannot be joined by '{node.sign}'",
        node.at, node.at + 1, "angles are for functions, such as sin(30 deg) * 2 in",
    )  # fmt: skip


def _mismatch(node: Binary, left: Quantity | Limits, right: Quantity | Limits) -> Fault:
    doing = "added to" if node.sign == "+" else "taken from"
    first, second = (left, right) if node.sign == "+" else (right, left)
    for bare, sized, value in ((node.left, right, left), (node.right, left, right)):
        if value.power == 0 and sized.power == 1:
            return Fault(
                f"{_name(bare, value)} has no unit, so it cannot be joined to a length by '{node.sign}'",
                bare.start, bare.end, _unit_advice(node, left, right),
            )  # fmt: skip
    said, kinds = f"{_an(kind_name(first))} cannot be {doing} {_an(kind_name(second))}", _ONE_KIND
    for part, value, beside in ((node.left, left, right), (node.right, right, left)):
        meant = _fraction_meant(part) if value.power == -1 and beside.power == 1 else ""
        if meant:
            mixed_number = _mixed_meant(part)
            offers = [Offer(mixed_number, " for the mixed number", True)] if mixed_number else []
            return Fault(
                said, part.start, part.end, write(*offers, Offer(meant, " for the length", True), hint=kinds)
            )
    return Fault(said, node.at, node.at + 1, kinds)


def _fraction_meant(node: Node) -> str:
    """The length that `2 / 3 in` was meant for, in brackets behind a sign; empty for anything else."""
    if not isinstance(node, Binary) or node.sign != "/":
        return ""
    top, bottom = unsigned(node.left), unsigned(node.right)
    if not isinstance(top, Literal) or not isinstance(bottom, Literal):
        return ""
    unit = units.find(bottom.unit)
    if isinstance(top.value, Angle) or isinstance(bottom.value, Angle) or top.value.power or unit is None:
        return ""
    minus = sum(isinstance(part, Signed) and part.sign == "-" for part in (node.left, node.right)) == 1
    size = as_fraction(top.value.value, bottom.value.in_unit(unit.name), unit.name)
    return f"(-{size})" if minus else size


def _mixed_meant(node: Node) -> str:
    """The length that `1.3/8 in` may be meant for; empty where no point parts a whole from a fraction."""
    if (
        not isinstance(node, Binary)
        or not isinstance(node.left, Literal)
        or not isinstance(node.right, Literal)
    ):
        return ""
    unit = units.find(node.right.unit)
    if unit is None or isinstance(node.left.value, Angle) or isinstance(node.right.value, Angle):
        return ""
    pointed = parted_by_point(node.left.value.value, node.right.value.in_unit(unit.name))
    return f"{pointed} {unit.name}" if pointed else ""


def parted_by_point(top: Fraction, bottom: Fraction) -> str:
    """`1 3/8` for 1.3 over 8, as a point parts a whole from its fraction in some hands; empty where none can be meant.

    Common practice, no source.

    >>> parted_by_point(Fraction("1.3"), Fraction(8)), parted_by_point(Fraction("1.5"), Fraction(3))
    ('1 3/8', '')
    """
    whole, _, part = decimal(top)[0].partition(".")
    if bottom not in DIVISIONS or not part.isdigit() or not whole.strip("0").isdigit():
        return ""
    return f"{whole} {part}/{bottom}" if part[0] != "0" and int(part) < bottom else ""


def as_fraction(top: Fraction, bottom: Fraction, unit: str) -> str:
    """`-2/3 in`, the length for which `2 / -3 in` may be meant."""
    if top.denominator != 1 or bottom.denominator != 1:
        return f"{figures(top / bottom)} {unit}"
    return f"{'-' if top * bottom < 0 else ''}{abs(top)}/{abs(bottom)} {unit}"


def unsigned(node: Node) -> Node:
    """The operand of a signed size; a size in brackets is left as it is."""
    return node.operand if isinstance(node, Signed) and not node.bracketed else node


def _name(node: Node, value: Value) -> str:
    if isinstance(node, Literal) and isinstance(value, Quantity) and len(figures(value.value)) < 20:
        return figures(value.value)
    return "this number"


def _unit_advice(node: Binary, left: Quantity | Limits, right: Quantity | Limits) -> str:
    texts, bare, alone = [], "", ""
    for side, value in ((node.left, left), (node.right, right)):
        size = nominal_of(value)
        if not isinstance(side, Literal):
            return _beside_what_is_worked_out(node, left, right)
        if size.power == 0:
            bare = f"{figures(size.value)} {_unit_for(size.value, _other_unit(node))}"
            # A half may have been typed as 1/2 or as 0.5: an offer in other figures is held back by the gate.
            alone = (
                ""
                if size.value.denominator & (size.value.denominator - 1) == 0 < size.value.denominator - 1
                else bare
            )
        texts.append(bare if size.power == 0 else _as_written(side, size))
    if node.sign == "-" and left.power == 0 and node.at == node.left.end and node.right.start == node.at + 1:
        # 10-32 mm may be two limits, 1/4-20 a thread and 5-3 1/2" feet and inches.
        return "give each size its unit, and put blanks about a minus"
    offers = [Offer(f"{texts[0]} {node.sign} {texts[1]}")]
    fraction = _fraction(node.right)
    unit = units.find(_other_unit(node))
    small = isinstance(right, Quantity) and unit and abs(right.value * unit.mm) * 16 <= abs(_middle(left))
    if node.sign == "+" and left.power == 1 and small:
        offers.append(Offer(f"{texts[0]} ± {texts[1]}", " for limits"))
    if (
        node.sign == "-"
        and isinstance(left, Quantity)
        and left.power == 0
        and fraction is not None
        and left.value.denominator == 1
    ):
        both = f"{mixed(left.value)} {mixed(fraction.inch)} in"
        offers.append(Offer(both, " for the mixed number"))
    hint = "give each size its unit, such as in or mm"
    return write(*offers, hint=write(alone, hint=hint) if alone else hint)


def _unit_for(value: Fraction, unit: str) -> str:
    """The unit that a bare number borrows: a 64th is one of an inch, beside whatever size it stands."""
    known = units.find(unit)
    split = value.denominator > 2 and value.denominator & (value.denominator - 1) == 0
    return "in" if split and known is not None and known.metric else unit


def _middle(value: Quantity | Limits) -> Fraction:
    return value.nominal.value if isinstance(value, Limits) else value.value


def _other_unit(node: Binary) -> str:
    for side in (node.left, node.right):
        if isinstance(side, Literal) and side.unit:
            known = units.find(side.unit)
            if known is not None and known.name == "ft":
                return "in"  # a number after feet is meant in inches
            return side.unit.rstrip(".") if side.unit[0].isalpha() or known is None else known.name
    return "in"


def _as_written(side: Literal, size: Quantity) -> str:
    unit = _other_unit(Binary(0, 0, "+", 0, side, side))
    if size.power != 1 or not unit[0].isalpha():
        return inch_text(size)
    old = old_unit(unit)
    return f"{figures(size.in_unit(unit) if old is None else size.value / old.size.value)} {unit}"


def _beside_what_is_worked_out(node: Binary, left: Quantity | Limits, right: Quantity | Limits) -> str:
    """The unit for a number beside a name, a function or a bracket: `length - 1/8` is offered `1/8 in`."""
    bare, value = (node.left, left) if left.power == 0 else (node.right, right)
    hint = "give both sides a unit, such as in or mm"
    if not isinstance(bare, Literal):
        return hint
    number = nominal_of(value).value
    text, divided = figures(number), number.denominator
    if divided > 2 and divided & (divided - 1) == 0:  # a 64th is one of an inch
        return write(f"{text} in", hint=hint)
    return write(f"{text} in", f"{decimal(number)[0]} mm", joint=" or ", hint=hint)


def _fraction(node: Node) -> Quantity | None:
    """The fraction of an inch that a literal is, if it is one."""
    if not isinstance(node, Literal) or not isinstance(node.value, Quantity):
        return None
    if units.find(node.unit) is not units.find("in") or not 0 < node.value.inch < 1:
        return None
    return node.value


def _an(name: str) -> str:
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
