"""pack: the fewest shims that make a height."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.wording import (
    as_it_ends,
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
    if result.exact:
        return [f"{as_it_ends(result.height)} from {pieces_said(result.nearest)}, {off_by(result.error)}"]
    lines: Lines = [f"{as_it_ends(result.height)} cannot be made exactly from these shims"]
    for name, stack in (("below", result.below), ("above", result.above)):
        if stack is not None:
            mark = " (the nearer)" if stack == result.nearest else ""
            lines.append(
                f"{name}{mark}: {as_it_ends(stack.total)}, {over_under(stack.error)}, from {pieces_said(stack)}"
            )
    return lines


def pieces_said(stack: Stack) -> str:
    """The shims of a stack, each thickness once, and how many pieces they are."""
    if not stack.pieces:
        return "no shim at all"
    counted = Counter(stack.pieces)
    # Their standing is said once, behind them all.
    sizes = [(as_it_ends(size.unmarked), n) for size, n in counted.items()]
    parts = [said if n == 1 else f"{n} of {said}" for said, n in sizes]
    return f"{' + '.join(parts)} ({so_many(len(stack.pieces), 'piece')}){mark_of(worst(stack.pieces))}"


def _gist(result: Pack, lines: list[str]) -> list[str]:
    if result.exact:
        return [f"{pieces_said(result.nearest)}, {off_by(result.error)}"]
    near = result.nearest
    return [f"not exactly: the nearest is {as_it_ends(near.total)}, {over_under(near.error, 4)}"]


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
