"""Forms that a maker may have meant otherwise: a doubt that says how each was read, or a refusal.

Arithmetic has only one reading; paper has several. `5' - 3"` is a subtraction here and
5 ft 3 in on many drawings, and a size read wrongly in silence is the worst of faults.
"""

from __future__ import annotations

import re
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.arithmetic import as_fraction, unsigned
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Node, Signed, Toleranced, as_written
from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value

#: Threads to the inch of the numbered American threads, with which `10-32` may be meant.
_USUAL_TPI = frozenset({4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 24, 26, 28, 32, 40})
#: Bolts of whole inches have no more threads to the inch than this, nor are they larger.
_MOST_TPI, _LARGEST = 20, 6
_NUMBERS = frozenset({1, 2, 3, 4, 5, 6, 8, 10, 12})
_NUMBER_TPI = frozenset({80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 24})


_TAKES_WHOLE = "the power takes the whole size"
#: The divisions of rules, whose fractions stand behind a whole number.
_RULED = frozenset({2, 4, 8, 16, 32, 64, 128})
#: What a length to the power is called, and the word of its unit.
_SPACES = {2: ("an area", "sq"), 3: ("a volume", "cu")}
_DATE = r"([0-9]{1,4})([-/])([0-9]{1,2})\2([0-9]{1,4})"


def notes(node: Binary, left: Value, right: Value, text: str) -> list[Note]:
    """How the form of `node`, in the line `text`, was read, where it may have been meant otherwise."""
    looks = {"^": _power, "/": _quotient, "-": _difference, "+": _limits_added, "*": _product}
    note = _looks_like(node, left, right, text) or looks[node.sign](node, left, right)
    if note is None and node.sign == "-":
        note = _bare_dash(node, text)
    return [] if note is None else [note]


def _looks_like(node: Binary, left: Value, right: Value, text: str) -> Note | None:
    if node.sign == "*":
        return _times_one_piece(node, left, right, text)
    return _date(node, text) if node.sign in "/-" else None


def refuse(node: Binary) -> None:
    """Fault for a sum that is far likelier to be limits: `+ 0.1 / -0.2`, `+ - 1/64 in`."""
    right = node.right
    if node.sign == "/" and all(
        isinstance(part, Signed) and part.sign == "+" and not part.bracketed for part in (node.left, right)
    ):
        raise Fault(
            "two sizes with a plus before each, and a bar between them, are limits or a division",
            node.at, right.end, "write limits behind their size, such as 1/2 in +2/+1 thou",
        )  # fmt: skip
    if node.sign not in "+-" or (isinstance(right, Signed | Binary) and right.bracketed):
        return
    if isinstance(right, Signed) and isinstance(right.operand, Literal) and right.sign != node.sign:
        raise Fault(
            f"'{node.sign}' and '{right.sign}' stand together, and may mean limits or a sum",
            node.at, right.start + 1, "write ± for limits, or put the second in brackets",
        )  # fmt: skip
    by = "nought" if isinstance(right, Binary) and _is_nought(right.right) else "a negative number"
    if (
        isinstance(right, Binary) and right.sign == "/" and isinstance(right.left, Literal)
        and (_is_nought(right.right)
             or (isinstance(right.right, Signed) and isinstance(right.right.operand, Literal)))
    ):  # fmt: skip
        raise Fault(
            f"this may be limits, or a division by {by}", node.at, right.end,
            "write limits without blanks about the bar, such as +0.1/-0.2 mm, or put the division in brackets",
        )  # fmt: skip


def _is_nought(node: Node) -> bool:
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
    size = f"{_figure(left.value / unit.mm)} {unit.name}"
    taken = f"({size})^{mixed(right.value)}"
    if right.value not in _SPACES:
        return doubt(f"{_TAKES_WHOLE}: {taken}")
    kind, word = _SPACES[int(right.value)]
    other = f"{_figure(left.value / unit.mm)} {word} {unit.name}"
    return doubt(f"{_TAKES_WHOLE}: {taken}; for {kind} write {other}", taken, other)


def _quotient(node: Binary, left: Value, right: Value) -> Note | None:
    stacked = _stacked(node)
    if stacked is not None:
        return stacked
    if not isinstance(left, Quantity) or isinstance(right, Angle) or left.power != 0 or right.power != 1:
        return None
    divisor, limited = unsigned(node.right), False
    if isinstance(divisor, Toleranced) and not divisor.bracketed:
        divisor, limited = divisor.nominal, True
    if not isinstance(divisor, Literal) or divisor.bracketed:
        return None
    bottom, name = _count(divisor)
    middle = right.nominal if isinstance(right, Limits) else right
    bottom = abs(bottom) if middle.value >= 0 else -abs(bottom)
    said = f"read as {_figure(left.value)} divided by {_figure(bottom)} {name}, a number per length"
    dividend = unsigned(node.left)
    if not isinstance(dividend, Literal) or dividend.bracketed:
        return echo(said)
    size = as_fraction(left.value, bottom, name)
    whole = left.value.denominator == bottom.denominator == 1
    other = f"{said}; for the {'fraction' if whole else 'length'} write {size}"
    if limited:
        return doubt(f"{other} before its limits")
    return doubt(other, f"{_figure(left.value)} / ({_figure(bottom)} {name})", size)


def _stacked(node: Binary) -> Note | None:
    """`.500/.498 in`, as drawings write two limits one above the other; None for any other division."""
    first, second = node.left, node.right
    if _literal_size(first) is None or _literal_size(second) is None:
        return None
    assert isinstance(first, Literal)
    assert isinstance(second, Literal)
    upper, name = _count(first)
    lower, unit = _count(second)
    unit = unit or name
    if name not in ("", unit) or not _touching(node):
        return None
    low, high = sorted((upper, lower))
    if not 0 < high - low < high / 8 or upper.denominator == lower.denominator == 1:
        return None
    sizes = [f"{_figure(low)} {u} +{_figure(high - low)}/-0 {u}" for u in ([unit] if unit else ["in", "mm"])]
    top, bottom = (f"{_figure(n)} {u}".rstrip() for n, u in ((upper, name), (lower, _count(second)[1])))
    return doubt(
        f"read as a division; for limits, one above the other, write {' or '.join(sizes)}",
        f"{top} / ({bottom})", *sizes,
    )  # fmt: skip


def _touching(node: Binary) -> bool:
    """Whether no blank stands about the sign."""
    return node.at == node.left.end and node.right.start == node.at + 1


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


def _difference(node: Binary, left: Value, right: Value) -> Note | None:
    first, second = node.left, node.right
    note = _limits_added(node, left, right)
    if note is None and isinstance(first, Literal) and isinstance(second, Literal) and not second.bracketed:
        note = (
            _feet_less_inches(first, second)
            or _below_nought(first, second)
            or _thread_dash(first, second, node.at)
        )
    return note


def _bare_dash(node: Binary, text: str) -> Note | None:
    """`2 - 1/32` and `.500-.498`: a dash between bare numbers also joins a whole and its fraction, or two limits."""
    first, second = _literal_size(node.left), _literal_size(node.right)
    if first is None or second is None or first.power or second.power:
        return None
    said = f"{_figure(first.value)} less {_figure(second.value)}"
    taken = f"{_figure(first.value)} - ({_figure(second.value)})"
    vulgar = "." not in text[node.right.start : node.right.end]
    if vulgar and _whole(node.left) and second.value < 1 and second.value.denominator in _RULED:
        joined = mixed(first.value + second.value)
        return doubt(f"read as {said}; for the mixed number write {joined}", taken, joined)
    low, high = sorted((first.value, second.value))
    if not _touching(node) or vulgar or not 0 < high - low < high / 8:
        return None
    sizes = [f"{_figure(low)} {unit} +{_figure(high - low)}/-0 {unit}" for unit in ("in", "mm")]
    return doubt(
        f"read as {said}; for limits, from one to the other, write {' or '.join(sizes)}", taken, *sizes
    )


def _limits_added(node: Binary, left: Value, right: Value) -> Note | None:
    """`0.5 in +0.001 in -0.002 in`, which old drawings write for limits and which here adds up."""
    first, second = node.left, node.right
    if not isinstance(first, Binary) or first.bracketed or {first.sign, node.sign} != {"+", "-"}:
        return None
    nominal, former, latter = (_literal_size(part) for part in (first.left, first.right, second))
    if nominal is None or former is None or latter is None:
        return None
    if any(abs(size.value) * 16 > abs(nominal.value) for size in (former, latter)):
        return None
    plus, minus = (former, latter) if first.sign == "+" else (latter, former)
    assert isinstance(first.left, Literal)
    known = units.find(first.left.unit)
    shown = units.BY_WORD["mm" if known is not None and known.metric else "in"]
    unit = "" if nominal.power == 0 else f" {shown.name}"
    texts = [
        _figure(size.value if size.power == 0 else size.value / shown.mm) for size in (nominal, plus, minus)
    ]
    limits = f"{texts[0]}{unit} +{texts[1]}/-{texts[2]}{unit}"
    parts = [_said(part) for part in (first.left, first.right, second)]
    summed = f"({parts[0]} {first.sign} {parts[1]}) {node.sign} {parts[2]}"
    return doubt(f"added up; for limits write {limits}", *([summed, limits] if unit else [summed]))


def _literal_size(node: Node) -> Quantity | None:
    """The plain number or length that a literal is, unless brackets stand about it."""
    value = node.value if isinstance(node, Literal) and not node.bracketed else None
    return value if isinstance(value, Quantity) and value.power in (0, 1) else None


def _count(node: Literal) -> tuple[Fraction, str]:
    """How many of which unit a literal length is; a plain number is of none."""
    value = node.value
    assert isinstance(value, Quantity)
    if value.power == 0:
        return value.value, ""
    unit = units.find(node.unit)
    return (value.value / unit.mm, unit.name) if unit else (value.value, "mm")


def _said(node: Node) -> str:
    """A literal size in figures that mean it and nothing else."""
    assert isinstance(node, Literal)
    figure, unit = _count(node)
    return f"{_figure(figure)} {unit}".rstrip()


def _below_nought(first: Literal, second: Literal) -> Note | None:
    """`1/2" - 3/4"`: a smaller size less a larger one is more often a range."""
    less, more = _literal_size(first), _literal_size(second)
    if less is None or more is None or not less.power or not more.power or not 0 < less.value < more.value:
        return None
    less_text, more_text = _said(first), _said(second)
    return doubt(
        f"read as {less_text} less {more_text}, below nought; a range is two sizes, each written by itself",
        f"{less_text} - ({more_text})",
    )  # fmt: skip


def _feet_less_inches(first: Literal, second: Literal) -> Note | None:
    """`5' - 3"`, which many drawings write for 5 ft 3 in."""
    if first.unit != "'" or second.unit not in ('"', "in", "''"):
        return None
    if not isinstance(first.value, Quantity) or not isinstance(second.value, Quantity):
        return None
    feet, inches = mixed(first.value.in_unit("ft")), mixed(second.value.inch)
    said, both = f"read as {feet} ft less {inches} in", f"{feet}' {inches}\""
    if first.value.in_unit("ft").denominator != 1 or second.value.inch >= 12 or not second.value.value:
        return echo(said)
    return doubt(f"{said}; for feet and inches write {both}", f"{feet} ft - ({inches} in)", both)


def _thread_dash(first: Literal, second: Literal, at: int) -> Note | None:
    """`10-32` and `1/4 - 20`, which may be threads."""
    touching = at == first.end and second.start == at + 1
    size, tpi = _literal_size(first), _whole(second)
    if size is None or first.unit:
        return None
    bolt = _bolt(first, second) if touching else ""
    if bolt:
        less = _said(second)
        return doubt(
            f"read as {_figure(size.value)} less {less}; for the thread write {bolt}",
            f"{_figure(size.value)} - ({less})", bolt,
        )  # fmt: skip
    if not tpi:
        return None
    if size.value.denominator in (2, 4, 8, 16) and tpi in _USUAL_TPI:
        thread = f"{_figure(size.value)}-{tpi}"
    elif touching and _whole(first) in _NUMBERS and tpi in _NUMBER_TPI:
        thread = f"No {_whole(first)}-{tpi}"
    else:
        return None
    said, taken = f"read as {_figure(size.value)} less {tpi}", f"{_figure(size.value)} - ({tpi})"
    if not _is_thread(thread):
        return doubt(f"{said}, and may be a thread, though none of that pitch is in the tables", taken)
    return doubt(f"{said}; for the thread write {thread}", taken, thread)


def _is_thread(name: str) -> bool:
    from fractions_shop.threads.lookup import thread  # only a sum that looks like a thread opens its table

    try:
        thread(name)
    except ShopError:
        return False
    return True


def _bolt(first: Literal, second: Literal) -> str:
    """The thread of whole inches that 1-8 or 2-4.5 may be, by its name."""
    size, tpi = _whole(first), _literal_size(second)
    if not 1 <= size <= _LARGEST or tpi is None or second.unit or not 0 < tpi.value <= _MOST_TPI:
        return ""
    from fractions_shop.threads.lookup import thread  # only a sum that looks like a thread opens its table

    try:
        bolt = thread(f"{size}-{decimal(tpi.value)[0]}")
    except ShopError:
        return ""
    return bolt.name if bolt.major.inch == size else ""


def _figure(value: Fraction) -> str:
    """A fraction where it is one of a rule's, else decimals where they end."""
    text, ends = decimal(value)
    return text if ends and value.denominator % 5 == 0 else mixed(value)


def _product(node: Binary, left: Value, right: Value) -> Note | None:
    return _by(node)


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


def _by(node: Binary) -> Note | None:
    """`2×4`: the sign also stands between the sides of one piece."""
    sizes = [_literal_size(part) for part in (node.left, node.right)]
    if not node.crossed or None in sizes:
        return None
    first, second = _said(node.left), _said(node.right)
    return doubt(
        f"read as {first} times {second}; two sides, {first} by {second}, are written each by itself",
        f"{first} * {second}",
    )


def _whole(node: Node) -> int:
    """The whole number that a bare literal is, else 0."""
    if isinstance(node, Literal) and isinstance(node.value, Quantity) and not node.unit:
        return int(node.value.value) if node.value.value.denominator == 1 else 0
    return 0
