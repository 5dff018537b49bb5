"""Sets of gauge blocks: what each holds, for building a height from as few as may be.

The contents are from memory of the standards and say so; the number of pieces adds up, and
published stacks built from two of the sets agree with them. A set has each block once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any, ClassVar, overload

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.tables import born, rows


@dataclass(frozen=True)
class Block:
    """A gauge block: its `name`, the `set` and series of it, and its nominal `size`.

    `source` says where the size is from, `standing` how far to trust it (STANDINGS of
    the tables) and `note` how the set adds up.
    """

    name: str
    set: int
    series: int
    size: Quantity
    source: str
    standing: str
    note: str = ""


@dataclass(frozen=True, repr=False)
class BlockSet(Told, Sequence[Block]):
    """A set of gauge blocks, thinnest first: a sequence of Block, in which each is there once.

    They are marked in decimals of `marked_in`, in or mm.

    >>> blocks(81)
    <BlockSet blocks 81: 81 gauge blocks, from 0.05 in (1.27 mm) to 4 in (101.6 mm), each once>
    """

    told_as: ClassVar[str] = "blocks"
    #: What is told beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("source", "standing")

    name: str
    blocks: tuple[Block, ...]
    marked_in: str = "mm"

    #: Read by `pack`: no block can be used twice.
    each_once = True

    @property
    def source(self) -> str:
        """Where the contents are from."""
        return self.blocks[0].source

    @property
    def standing(self) -> str:
        """How far to trust them."""
        return self.blocks[0].standing

    def __len__(self) -> int:
        return len(self.blocks)

    @overload
    def __getitem__(self, place: int) -> Block: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[Block, ...]: ...
    def __getitem__(self, place: int | slice) -> Block | tuple[Block, ...]:
        return self.blocks[place]


def block_sets() -> tuple[int, ...]:
    """The sets that there are, by their number of pieces; 81 is in inches, the others metric."""
    return tuple(dict.fromkeys(int(row["set"]) for row in rows("gauge_block_sets")))


@cache
def blocks(pieces: Any) -> BlockSet:
    """The set of so many pieces: 81 (inch), 112, 88, 87 or 46 (mm); ShopError for another.

    >>> from fractions_shop import pack
    >>> [str(piece.inch) for piece in pack("5.0073 in", blocks(81)).pieces]
    ['4', '4/5', '107/1000', '1003/10000']
    """
    its_rows = [row for row in rows("gauge_block_sets") if row["set"] == str(pieces)]
    in_set = [_block(row) for row in its_rows]
    if not in_set:
        known = ", ".join(map(str, block_sets()))
        raise ShopError(f"there is no set of {pieces!r} gauge blocks here: there are those of {known} pieces")
    return BlockSet(
        f"blocks {pieces}",
        tuple(sorted(in_set, key=lambda block: block.size.mm)),
        "in" if its_rows[0]["size_in"] else "mm",
    )


def _block(row: dict[str, str]) -> Block:
    if row["size_in"]:
        size = born(row, Fraction(row["size_in"]), "in")
        said = f"{decimal(size.inch)[0]} in"
    else:
        size = born(row, Fraction(row["size_mm"]), "mm")
        said = mm_text(size)
    return Block(
        f"{said} block", int(row["set"]), int(row["series"]), size,
        row["source"], row["standing"], row["note"],
    )  # fmt: skip
