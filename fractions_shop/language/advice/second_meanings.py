"""Forms that a maker may have meant otherwise: a doubt that says how each was read, or a refusal.

Arithmetic has only one reading; paper has several. `5' - 3"` is a subtraction here and
5 ft 3 in on many drawings, and a size read wrongly in silence is the worst of faults.
"""

from __future__ import annotations

import re

from fractions_shop.language.advice.literals import count_of, in_figures, literal_size, short_figure, touches
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.arithmetic import as_fraction, parted_by_point, unsigned
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Node, Signed, Toleranced, as_written
from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.size import units
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.notation import mixed
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value

_TAKES_WHOLE = "the power takes the whole size"
#: What a length to the power is called, and the word of its unit.
_SPACES = {2: ("an area", "sq"), 3: ("a volume", "cu")}
_DATE = r"([0-9]{1,4})([-/])([0-9]{1,2})\2([0-9]{1,4})"


def notes(node: Binary, left: Value, right: Value, text: str) -> list[Note]:
    """How the form of `node`, in the line `text`, was read, where it may have been meant otherwise."""
    note = _second_meaning(node, left, right, text)
    return [] if note is None else [note]


def _second_meaning(node: Binary, left: Value, right: Value, text: str) -> Note | None:
    match node.sign:
        case "^":
            return _power(node, left, right)
        case "*":
            return (
                _times_one_piece(node, left, right, text) or _by(node) or _converted(node, left, right, text)
            )
        case "/":
            return _date(node, text) or _quotient(node, left, right) or _converted(node, left, right, text)
    from fractions_shop.language.advice.dashes import difference, limits_added  # a quotient needs none of it

    return limits_added(node) if node.sign == "+" else _date(node, text) or difference(node, text)


def refuse(node: Binary, outer: Binary | None, text: str) -> None:
    """Fault for a sum that may as well be limits: `1.000" +.002"`, `+ 0.1 / -0.2`, `+ - 1/64 in`.

    `outer` is what the sum itself is the left side of, in the line `text`.
    """
    right = node.right
    if node.left.end < node.at and right.start == node.at + 1 and not node.bracketed:
        from fractions_shop.language.advice.dashes import refuse_one_limit  # few signs stand at their figure

        refuse_one_limit(node, outer, text)
    touching = node.at + 1 == right.start
    if node.sign == "/" and all(
        isinstance(part, Signed) and part.sign == "+" and not part.bracketed for part in (node.left, right)
    ):
        raise Fault(
            "two sizes with a plus before each, and a bar between them, are limits or a division",
            node.at, right.end, "write limits behind their size, such as 1/2 in +2/+1 thou",
        )  # fmt: skip
    if (
        node.sign == "/"
        and isinstance(right, Signed)
        and not right.bracketed
        and touching
        and _has_unit(node.left)
    ):
        raise Fault(
            f"'/' and '{right.sign}' stand together behind a size, and may be a half of its limits or a division",
            node.at, right.start + 1, "write both limits, such as +0.1/-0.2 mm, or put the second in brackets",
        )  # fmt: skip
    if node.sign not in "+-" or (isinstance(right, Signed | Binary) and right.bracketed):
        return
    if (
        isinstance(right, Signed)
        and isinstance(right.operand, Literal)
        and (right.sign != node.sign or touching)
    ):
        raise Fault(
            f"'{node.sign}' and '{right.sign}' stand together, and may mean limits or a sum",
            node.at, right.start + 1, "write ± for limits, or put the second in brackets",
        )  # fmt: skip
    by = "zero" if isinstance(right, Binary) and _is_zero(right.right) else "a negative number"
    if (
        isinstance(right, Binary) and right.sign == "/" and isinstance(right.left, Literal)
        and (_is_zero(right.right)
             or (isinstance(right.right, Signed) and isinstance(right.right.operand, Literal)))
    ):  # fmt: skip
        raise Fault(
            f"this may be limits, or a division by {by}", node.at, right.end,
            "write limits without blanks about the bar, such as +0.1/-0.2 mm, or put the division in brackets",
        )  # fmt: skip


def _has_unit(node: Node) -> bool:
    return isinstance(node, Toleranced) or (isinstance(node, Literal) and bool(node.unit))


def _is_zero(node: Node) -> bool:
    return isinstance(node, Literal) and isinstance(node.value, Quantity) and not node.value.value


def _power(node: Binary, left: Value, right: Value) -> Note | None:
    base = node.left
    if isinstance(base, Toleranced) and not base.bracketed:
        return doubt(f"{_TAKES_WHOLE} with its limits")
    if not isinstance(base, Literal) or not base.unit or base.bracketed or not isinstance(left, Quantity):
        return None
    if left.power != 1 or isinstance(right, Angle | Limits):
        return doubt(_TAKES_WHOLE)
    unit = units.find(base.unit) or units.UNITS[0]
    size = f"{short_figure(left.value / unit.mm)} {unit.name}"
    taken = f"({size})^{mixed(right.value)}"
    if right.value not in _SPACES:
        return doubt(f"{_TAKES_WHOLE}: {taken}")
    kind, word = _SPACES[int(right.value)]
    other = f"{short_figure(left.value / unit.mm)} {word} {unit.name}"
    return doubt(f"{_TAKES_WHOLE}: {taken}; for {kind} write {other}", taken, other)


def _quotient(node: Binary, left: Value, right: Value) -> Note | None:
    stacked = _stacked(node)
    if stacked is not None:
        return stacked
    if not isinstance(left, Quantity) or isinstance(right, Angle) or left.power != 0:
        return None
    if right.power == 0:
        return _pointed(node, left)
    if right.power != 1:
        return None
    divisor, limited = unsigned(node.right), False
    if isinstance(divisor, Toleranced) and not divisor.bracketed:
        divisor, limited = divisor.nominal, True
    if not isinstance(divisor, Literal) or divisor.bracketed:
        return None
    bottom, name = count_of(divisor)
    middle = nominal_of(right)
    bottom = abs(bottom) if middle.value >= 0 else -abs(bottom)
    said = f"read as {short_figure(left.value)} divided by {short_figure(bottom)} {name}, a number per length"
    dividend = unsigned(node.left)
    if not isinstance(dividend, Literal) or dividend.bracketed:
        return echo(said)
    size = as_fraction(left.value, bottom, name)
    whole = left.value.denominator == bottom.denominator == 1
    other = f"{said}; for the {'fraction' if whole else 'length'} write {size}"
    if limited:
        return doubt(f"{other} before its limits")
    taken = f"{short_figure(left.value)} / ({short_figure(bottom)} {name})"
    pointed = parted_by_point(left.value, bottom)
    if pointed:
        return doubt(f"{other}, or {pointed} {name}", taken, size, f"{pointed} {name}")
    return doubt(other, taken, size)


def _pointed(node: Binary, left: Quantity) -> Note | None:
    """`1.3/8`, in which the point may part a whole from its fraction; None for any other quotient of numbers."""
    if not touches(node) or literal_size(node.left) is None or not isinstance(node.right, Literal):
        return None
    divisor = literal_size(node.right)
    pointed = "" if divisor is None else parted_by_point(left.value, divisor.value)
    if divisor is None or not pointed:
        return None
    said = f"{short_figure(left.value)} divided by {divisor.value}"
    return doubt(
        f"read as {said}; for the mixed number write {pointed}",
        f"{short_figure(left.value)} / ({divisor.value})",
        pointed,
    )


def _stacked(node: Binary) -> Note | None:
    """`.500/.498 in`, as drawings write two limits one above the other; None for any other division."""
    first, second = node.left, node.right
    if not touches(node) or literal_size(first) is None or literal_size(second) is None:
        return None
    assert isinstance(first, Literal)
    assert isinstance(second, Literal)
    upper, name = count_of(first)
    lower, unit = count_of(second)
    unit = unit or name
    if name not in ("", unit):
        return None
    low, high = sorted((upper, lower))
    if not 0 < high - low < high / 8 or upper.denominator == lower.denominator == 1:
        return None
    sizes = [
        f"{short_figure(low)} {u} +{short_figure(high - low)}/-0 {u}"
        for u in ([unit] if unit else ["in", "mm"])
    ]
    top, bottom = (
        f"{short_figure(n)} {u}".rstrip() for n, u in ((upper, name), (lower, count_of(second)[1]))
    )
    return doubt(
        f"read as a division; for limits, one above the other, write {' or '.join(sizes)}",
        f"{top} / ({bottom})", *sizes,
    )  # fmt: skip


def _date(node: Binary, text: str) -> Note | None:
    """`1/2/24` and `2024-01-02`: three whole numbers joined by one sign, as days are written."""
    if text.count(node.sign, node.start, node.end) != 2:
        return None
    written = re.fullmatch(_DATE, text[node.start : node.end])
    if written is None:
        return None
    words = "divided by" if node.sign == "/" else "less"
    first, second, third = (str(int(figures)) for figures in written.group(1, 3, 4))
    return doubt(
        f"read as {first} {words} {second} {words} {third}, and may be a date",
        f"({first} {node.sign} {second}) {node.sign} {third}",
    )  # fmt: skip


def _times_one_piece(node: Binary, left: Value, right: Value, text: str) -> Note | None:
    """`4 * slat`, which is one piece four times over, where four pieces may have been laid together."""
    for count, size, many, piece in (
        (left, right, node.left, node.right),
        (right, left, node.right, node.left),
    ):
        if not isinstance(size, Limits) or size.power != 1 or not size.terms:
            continue
        if isinstance(count, Quantity) and not count.power and count.value > 1 == count.value.denominator:
            times = as_written(many, text)
            return echo(
                f"one and the same piece {times} times over; "
                f"for {times} pieces, each cut to those limits, write {times} of {as_written(piece, text)}"
            )
    return None


def refuse_sides(node: Binary, left: Value, right: Value, text: str) -> None:
    """Fault for × beside a length: it stands between the sides of a piece, and between a count and a size.

    A whole number and a size are asked about; anything else is several sizes, never a product.
    """
    powers = [0 if isinstance(value, Angle) else value.power for value in (left, right)]
    if not node.crossed or not any(powers):
        return
    first, second = as_written(node.left, text), as_written(node.right, text)
    for count, many, size in ((left, first, second), (right, second, first)):
        if (
            isinstance(count, Quantity)
            and count.power == 0
            and count.value.denominator == 1
            and count.value > 0
        ):
            raise Fault(
                f"{first} × {second} may be a count and a size, or two sides of one piece", node.left.start, node.right.end,
                write(
                    Offer(f"{many} of {size}", " for so many pieces"), Offer(f"{many} * {size}", " for a product"),
                    tail="; two sides are two sizes, each written by itself",
                ),
            )  # fmt: skip
    raise Fault(
        f"× stands between two sizes, {first} by {second}, and does not multiply", node.at, node.at + 1,
        "write each size by itself, or put * for a product",
    )  # fmt: skip


def _converted(node: Binary, left: Value, right: Value, text: str) -> Note | None:
    """`2.5 in * 25.4`, meant to make millimetres of inches: a size has its unit, and needs no conversion."""
    sides = ((node.left, node.right, left), (node.right, node.left, right))
    for size, factor, value in sides if node.sign == "*" else sides[:1]:
        bare = literal_size(factor)
        if (
            bare is None
            or bare.power
            or bare.value != units.INCH
            or isinstance(value, Angle)
            or value.power != 1
        ):
            continue
        written = as_written(size, text)
        done = f"{written} {node.sign} ({text[factor.start : factor.end]})"
        taken = f"25.4 times {written}" if node.sign == "*" else f"{written} divided by 25.4"
        said = f"read as {taken}; it has its unit, and is the same size in any: write {written} as {'mm' if node.sign == '*' else 'in'}"
        return doubt(said, done, written) if node.right is factor else doubt(said)
    return None


def _by(node: Binary) -> Note | None:
    """`2×4`: the sign also stands between the sides of one piece."""
    sizes = [literal_size(part) for part in (node.left, node.right)]
    if not node.crossed or None in sizes:
        return None
    first, second = in_figures(node.left), in_figures(node.right)
    return doubt(
        f"read as {first} times {second}; two sides, {first} by {second}, are written each by itself",
        f"{first} * {second}",
    )
