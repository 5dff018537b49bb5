"""pack: the fewest shims that make a height."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from fractions_shop.figures.figure import in_decimals
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.wording import (
    as_it_ends,
    in_decimal_inches_first,
    in_mm_first,
    off_by,
    over_under,
    so_many,
)
from fractions_shop.language.fault import Fault
from fractions_shop.language.notes import remark
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of, worst

if TYPE_CHECKING:
    from fractions_shop.layout.packing import Pack, Stack


def _answer(given: Inputs) -> tuple[Pack, Quantity]:
    from fractions_shop.layout.packing import pack

    result = pack(given.length(0), _stock(given), each_once=given.option("each") is not None)
    return result, result.total


def _stock(given: Inputs) -> Any:
    """The shims named one by one, or a set of gauge blocks and then its source."""
    option = given.option("blocks")
    if option is None or option.value is None:
        return [given.length(place) for place in range(1, len(given.request.subjects))]
    from fractions_shop.tables.blocks import block_sets, blocks

    pieces = given.whole_of(option.value)
    if pieces not in block_sets():
        known = ", ".join(map(str, block_sets()))
        raise Fault(
            f"no set of {pieces} gauge blocks is known here, only those of {known} pieces",
            option.value.start, option.value.end,
        )  # fmt: skip
    stock = blocks(pieces)
    given.evaluator.note(remark(f"each block once; what the set holds: {stock.source}"))
    return stock


def _lines(result: Pack) -> Lines:
    """The shims that make the height, or the nearest below and above."""
    in_words = _told_in(result.marked_in)
    if result.exact:
        return [
            f"{in_words(result.height)} from {pieces_said(result, result.nearest)}, {off_by(result.error)}"
        ]
    lines: Lines = [f"{in_words(result.height)} cannot be made exactly from these {_kind(result)}s"]
    for name, stack in (("below", result.below), ("above", result.above)):
        if stack is not None:
            mark = " (the nearer)" if stack == result.nearest else ""
            lines.append(
                f"{name}{mark}: {in_words(stack.total)}, {over_under(stack.error)}, from {pieces_said(result, stack)}"
            )
    return lines


def _told_in(marked_in: str) -> Callable[[Quantity], str]:
    """How a height is told: in both units, of gauge blocks in decimals with their own unit first."""
    if not marked_in:
        return as_it_ends
    return in_decimal_inches_first if marked_in == "in" else in_mm_first


def _kind(result: Pack) -> str:
    return "block" if result.marked_in else "shim"


def pieces_said(result: Pack, stack: Stack) -> str:
    """The shims of a stack, each thickness once, and how many pieces they are; blocks as they are marked."""
    if not stack.pieces:
        return f"no {_kind(result)} at all"
    counted = Counter(stack.pieces)
    # Their standing is said once, behind them all.
    sizes = [(_piece(size.unmarked, result.marked_in), n) for size, n in counted.items()]
    parts = [said if n == 1 else f"{n} of {said}" for said, n in sizes]
    many = so_many(len(stack.pieces), "block" if result.marked_in else "piece")
    return f"{' + '.join(parts)} ({many}){mark_of(worst(stack.pieces))}"


def _piece(size: Quantity, marked_in: str) -> str:
    return in_decimals(size.in_unit(marked_in), marked_in).bare if marked_in else as_it_ends(size)


def _gist(result: Pack, lines: list[str]) -> list[str]:
    if result.exact:
        return [f"{pieces_said(result, result.nearest)}, {off_by(result.error)}"]
    near = result.nearest
    return [
        f"not exactly: the nearest is {_told_in(result.marked_in)(near.total)}, {over_under(near.error, 4)}"
    ]


ROOM = Room(
    word="pack",
    forms=(
        "pack SIZE from SIZE, SIZE ... [each once]",
        "pack SIZE from blocks N (a set of 81 gauge blocks in inches; of 112, 88, 87 or 46 in mm)",
    ),
    example="pack 1/2 in from 1/4 in, 3/32 in, 1/32 in",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
    further=((r"\bblocks\b", "pack 5.0073 in from blocks 81"),),
)
