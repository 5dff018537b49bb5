"""A sum or a difference that paper may mean otherwise: a thread, a mixed number, feet and inches, limits, a range."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.literals import (
    bare_whole,
    in_figures,
    literal_size,
    short_figure,
    touches,
)
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.arithmetic import DIVISIONS
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Node, Pieces, Signed
from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.size import units
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.quantity import Quantity

#: Threads to the inch that a fraction of an inch may have, with which `3/8-16` may be meant.
_USUAL_TPI = frozenset({4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 24, 26, 28, 32, 40})
#: Bolts of whole inches have no more threads to the inch than this, nor are they larger.
_MOST_TPI, _LARGEST = 20, 6
_NUMBERS = frozenset({1, 2, 3, 4, 5, 6, 8, 10, 12})
#: Threads to the inch that the numbered American screws have had.
NUMBER_TPI = frozenset({80, 72, 64, 56, 48, 44, 40, 36, 32, 30, 28, 24})


def difference(node: Binary, text: str) -> Note | None:
    """What a dash may be besides a minus; None where it is surely one."""
    note = limits_added(node)
    if note is not None:
        return note
    first, second = node.left, node.right
    if isinstance(first, Literal) and isinstance(second, Literal) and not second.bracketed:
        note = (
            _feet_less_inches(first, second)
            or _below_zero(first, second)
            or _thread_dash(first, second, node.at)
        )
    return note or _bare_dash(node, text)


def _bare_dash(node: Binary, text: str) -> Note | None:
    """`2 - 1/32` and `.500-.498`: a dash between bare numbers also joins a whole and its fraction, or two limits."""
    first, second = literal_size(node.left), literal_size(node.right)
    if first is None or second is None or first.power or second.power:
        return None
    said = f"{short_figure(first.value)} less {short_figure(second.value)}"
    taken = f"{short_figure(first.value)} - ({short_figure(second.value)})"
    vulgar = "." not in text[node.right.start : node.right.end]
    if vulgar and bare_whole(node.left) and second.value < 1 and second.value.denominator in DIVISIONS:
        joined = mixed(first.value + second.value)
        return doubt(f"read as {said}; for the mixed number write {joined}", taken, joined)
    if touches(node) and bare_whole(node.left) and "-" in text[node.right.start : node.right.end]:
        feet = f"{short_figure(first.value)} ft {short_figure(second.value)} in"
        return doubt(f"read as {said}; for feet and inches write {feet}", taken, feet)
    low, high = sorted((first.value, second.value))
    if not touches(node) or vulgar or not 0 < high - low < high / 8:
        return None
    sizes = [f"{short_figure(low)} {unit} +{short_figure(high - low)}/-0 {unit}" for unit in ("in", "mm")]
    return doubt(
        f"read as {said}; for limits, from one to the other, write {' or '.join(sizes)}", taken, *sizes
    )


def limits_added(node: Binary) -> Note | None:
    """`0.5 in +0.001 in -0.002 in`, which old drawings write for limits and which here adds up."""
    first, second = node.left, node.right
    if not isinstance(first, Binary) or first.bracketed or {first.sign, node.sign} != {"+", "-"}:
        return None
    before, within = first.left, False
    if isinstance(before, Binary) and before.sign in "+-" and not before.bracketed:
        before, within = before.right, True  # the last of several sizes
    nominal, former, latter = (literal_size(part) for part in (before, first.right, second))
    if nominal is None or former is None or latter is None:
        return None
    widest, size = max(abs(former.value), abs(latter.value)), abs(nominal.value)
    # `.125" +.010" -.005"` is how limits are printed, be they as wide as they may: half the size is a sum.
    printed = _signed_figure(first) and _signed_figure(node) and widest * 2 < size
    if (within or widest * 16 > size) and not printed:
        return None
    plus, minus = (former, latter) if first.sign == "+" else (latter, former)
    assert isinstance(before, Literal)
    known = units.find(before.unit)
    shown = units.BY_WORD["mm" if known is not None and known.metric else "in"]
    unit = "" if nominal.power == 0 else f" {shown.name}"
    texts = [
        short_figure(size.value if size.power == 0 else size.value / shown.mm)
        for size in (nominal, plus, minus)
    ]
    limits = f"{texts[0]}{unit} +{texts[1]}/-{texts[2]}{unit}"
    if within:
        return doubt(f"added up; for limits write ({limits})")
    parts = [in_figures(part) for part in (before, first.right, second)]
    summed = f"({parts[0]} {first.sign} {parts[1]}) {node.sign} {parts[2]}"
    return doubt(f"added up; for limits write {limits}", *([summed, limits] if unit else [summed]))


def _signed_figure(node: Binary) -> bool:
    """Whether the sign stands at the figure behind it with a blank before it, `in +.010`."""
    return node.left.end < node.at and node.right.start == node.at + 1


def refuse_one_limit(node: Binary, outer: Binary | None, text: str) -> None:
    """Fault for `1.000" +.002"`: a size with one deviation, as drawings print it, or a sum.

    An eighth of the size and more is a sum. Where `outer` is the other deviation it is told of both, by
    `limits_added` or here, where a minus before the size leaves open what they are of.
    """
    nominal, minus, within = _before(node.left)
    size, by = literal_size(nominal), literal_size(node.right)
    if size is None or by is None or node.sign not in "+-" or size.power != by.power:
        return
    both = outer is not None and outer.sign in "+-" and outer.sign != node.sign and _signed_figure(outer)
    other = literal_size(outer.right) if both and outer is not None else None
    if within and isinstance(node.left, Binary) and _signed_figure(node.left) and node.left.sign != node.sign:
        return  # the second of two deviations
    widest = by.value if other is None else max(by.value, other.value)
    if (other is not None and isinstance(node.left, Literal | Binary)) or not 0 < widest * 8 <= size.value:
        return
    if not by.power and "." not in text[node.right.start : node.right.end]:
        return
    assert isinstance(nominal, Literal)
    end = node.right.end if other is None or outer is None else outer.right.end
    known = units.find(nominal.unit)
    named = [known] if by.power and known is not None else [units.BY_WORD["in"], units.BY_WORD["mm"]]
    summed = (
        f"{text[nominal.start - minus : nominal.end]} {node.sign} {text[node.right.start : node.right.end]}"
    )
    if other is not None and outer is not None:
        summed = f"({summed}) {outer.sign} {text[outer.right.start : outer.right.end]}"
    offers = [Offer(summed, " for the sum")]
    for unit in named:
        shown = units.BY_WORD["mm" if unit.metric else "in"]
        first, second, rest = (_figure_in(each, shown) for each in (size, by, other))
        plus, less = (second, rest) if node.sign == "+" else (rest, second)
        signed = f"{'-' if minus else ''}{first} {shown.name}"
        limits = f"{f'({signed})' if minus else signed} +{plus}/-{less} {shown.name}"
        offers.append(Offer(f"({limits})" if within else limits, " for limits", worked=True))
    raise Fault(
        f"'{node.sign}' stands at its figure behind a size, as limits are printed, and may be a sum",
        nominal.start - minus, end, write(*offers),
    )  # fmt: skip


def _before(left: Node) -> tuple[Node, int, bool]:
    """The size right before a sign, how many signs of a minus stand at it, and whether it is within something."""
    if isinstance(left, Signed) and left.sign == "-" and not left.bracketed:
        return left.operand, left.operand.start - left.start, False
    if isinstance(left, Binary) and not left.bracketed:
        return left.right, 0, True
    if isinstance(left, Pieces):
        return left.size, 0, True
    return left, 0, False


def _figure_in(size: Quantity | None, unit: units.Unit) -> str:
    """A size in figures of a unit; of millimetres no fractions are written."""
    value = Fraction(0) if size is None else size.value / unit.mm if size.power else size.value
    text, ends = decimal(value)
    return text if unit.metric and ends else short_figure(value)


def _below_zero(first: Literal, second: Literal) -> Note | None:
    """`1/2" - 3/4"`: a smaller size less a larger one is more often a range."""
    less, more = literal_size(first), literal_size(second)
    if less is None or more is None or not less.power or not more.power or not 0 < less.value < more.value:
        return None
    less_text, more_text = in_figures(first), in_figures(second)
    return doubt(
        f"read as {less_text} less {more_text}, below zero; a range is two sizes, each written by itself",
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
    size, tpi = literal_size(first), bare_whole(second)
    if size is None or first.unit:
        return None
    bolt = _bolt(first, second) if touching else ""
    if bolt:
        less = in_figures(second)
        return doubt(
            f"read as {short_figure(size.value)} less {less}; for the thread write {bolt}",
            f"{short_figure(size.value)} - ({less})", bolt,
        )  # fmt: skip
    if not tpi:
        return None
    if size.value.denominator in (2, 4, 8, 16) and tpi in _USUAL_TPI:
        thread = f"{short_figure(size.value)}-{tpi}"
    elif touching and bare_whole(first) in _NUMBERS and tpi in NUMBER_TPI:
        thread = f"No {bare_whole(first)}-{tpi}"
    else:
        return None
    said, taken = f"read as {short_figure(size.value)} less {tpi}", f"{short_figure(size.value)} - ({tpi})"
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
    size, tpi = bare_whole(first), literal_size(second)
    if not 1 <= size <= _LARGEST or tpi is None or second.unit or not 0 < tpi.value <= _MOST_TPI:
        return ""
    from fractions_shop.threads.lookup import thread  # only a sum that looks like a thread opens its table

    try:
        bolt = thread(f"{size}-{decimal(tpi.value)[0]}")
    except ShopError:
        return ""
    return bolt.name if bolt.major.inch == size else ""
