"""Sets of gauge blocks, and heights packed from them with each block used once."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import ShopError
from fractions_shop.layout.packing import pack
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.blocks import block_sets, blocks
from fractions_shop.tables.stock import stock


def _sizes(pieces: int) -> list[Fraction]:
    return [block.size.inch if pieces == 81 else block.size.mm for block in blocks(pieces)]


@pytest.mark.parametrize("pieces", [81, 112, 88, 87, 46])
def test_a_set_has_as_many_blocks_as_its_name_says_and_each_once(pieces: int) -> None:
    found = blocks(pieces)
    assert len(found) == pieces
    assert all(one.size < two.size for one, two in pairwise(found))
    assert found.each_once
    assert {block.standing for block in found} == {"from memory"} == {found.standing}
    assert found.source == found[0].source
    assert found[1:3] == found.blocks[1:3]
    # The note adds the series up, as the numbers of its blocks do.
    counts = [sum(block.series == n for block in found) for n in range(1, max(b.series for b in found) + 1)]
    assert found[0].note == f"{'+'.join(map(str, counts))} = {pieces} pieces"
    assert stock(f"blocks {pieces}") == found


def test_the_sets_are_listed() -> None:
    assert block_sets() == (81, 112, 88, 87, 46)
    with pytest.raises(
        ShopError, match="no set of 80 gauge blocks here: there are those of 81, 112, 88, 87, 46"
    ):
        blocks(80)
    with pytest.raises(ShopError, match="no set of '80'"):
        stock("blocks 80")


@pytest.mark.parametrize(
    ("pieces", "height", "published"),
    [
        # A gage block selection guide, page GB49, as kept in the notes on stock.
        (81, "3.9762 in", ["0.1002", "0.126", "0.750", "3"]),
        # National Physical Laboratory, FAQ on gauge blocks, as kept in the notes on stock.
        (112, "58.345 mm", ["1.005", "1.04", "1.30", "5", "50"]),
    ],
)
def test_a_height_takes_no_more_blocks_than_a_published_stack_of_the_set(
    pieces: int, height: str, published: list[str]
) -> None:
    assert set(map(Fraction, published)) <= set(_sizes(pieces))
    found = pack(height, blocks(pieces))
    assert found.exact
    assert len(found.pieces) <= len(published)


def test_five_inches_and_seventy_three_tenths_from_the_inch_set() -> None:
    # Worked by hand: tenths by .1003, thous by .107, then 4.8 in is 4 and .8.
    found = pack("5.0073 in", blocks(81))
    assert found.names == ("4 in block", "0.8 in block", "0.107 in block", "0.1003 in block")
    assert found.exact
    assert found.each_once


def test_no_block_of_a_set_is_used_twice() -> None:
    # 8 in would be 4 in twice; each once it is 4, 3 and 1.
    assert [str(piece.inch) for piece in pack("8 in", blocks(81)).pieces] == ["4", "3", "1"]
    twice = pack("8 in", [block.size for block in blocks(81)])
    assert [str(piece.inch) for piece in twice.pieces] == ["4", "4"]


SMALL = [block for block in blocks(46) if block.size.mm <= 3]


@given(st.integers(1000, 9000))
def test_no_stack_of_fewer_blocks_makes_the_height(microns: int) -> None:
    height = Quantity(Fraction(microns, 1000))
    found = pack(height, SMALL, each_once=True)
    if not found.exact:
        return
    assert len(set(found.names)) == len(found.pieces)
    fewer = [
        stack
        for count in range(1, min(len(found.pieces), 4))
        for stack in combinations(SMALL, count)
        if sum(block.size.mm for block in stack) == height.mm
    ]
    assert not fewer


def test_things_with_a_name_and_a_size_are_shims() -> None:
    found = pack("0.015 in", stock("shims"))
    assert found.exact
    assert all(name.endswith("in shim") for name in found.names)


@given(st.sampled_from((112, 88, 87, 46)), st.integers(2_000, 70_000))
def test_a_height_in_inches_is_built_from_a_metric_set_to_half_its_finest_step(
    pieces: int, tens: int
) -> None:
    """Any multiple of the step from 5 mm up is one of its stacks: a block for the last figure, and so on."""
    height = Quantity.inches(Fraction(tens, 10_000))
    made = pack(height, blocks(pieces))
    step = Fraction(1, 2000) if pieces in (112, 88) else Fraction(1, 1000)
    assert len(set(made.names)) == len(made.names) <= 8
    assert made.total.mm == sum(Fraction(name.removesuffix(" mm block")) for name in made.names)
    if height.mm >= 5:
        assert abs(made.error.mm) <= step / 2
    if not made.exact and made.below is not None and made.above is not None:
        assert made.below.total < height < made.above.total
        assert height.mm < 5 or made.above.total.mm - made.below.total.mm == step


@pytest.mark.parametrize("height", ["300.0005 mm", "508 mm", "5.0073 in", "20 in"])
def test_a_height_of_many_blocks_is_built_too(height: str) -> None:
    made = pack(height, blocks(88))
    assert abs(made.error.mm) <= Fraction(1, 4000)
    assert len(set(made.names)) == len(made.names)


def test_a_height_above_the_whole_set_is_met_as_nearly_as_it_can_be() -> None:
    made = pack("999 in", blocks(88))
    assert made.above is None
    assert sorted(made.names) == sorted(block.name for block in blocks(88))


def test_a_height_that_no_stack_can_have_lies_between_two() -> None:
    made = pack("1/3 in", ["1/7 in", "1/11 in"])
    assert not made.exact
    assert made.below is not None
    assert made.above is not None
    assert (made.below.total.inch, made.above.total.inch) == (Fraction(25, 77), Fraction(4, 11))


@pytest.mark.parametrize(
    ("pieces", "height"), [(81, "5.0073 in"), (81, "0.8 in"), (88, "41.1255 mm"), (46, "2 in")]
)
def test_blocks_are_told_as_they_are_marked(pieces: int, height: str) -> None:
    """An inch set in decimals of an inch and a metric set in millimetres: common practice, no source."""
    told = pack(height, blocks(pieces)).text(400)
    made = pack(height, blocks(pieces))
    names = [name.removesuffix(" block") for name in made.names]
    assert f" from {' + '.join(names)} ({len(names)} block" in told
    assert "/" not in told
    assert all(name.endswith(" in" if pieces == 81 else " mm") for name in names)


def test_shims_are_told_in_fractions_as_before() -> None:
    told = pack("0.8 in", [block.size for block in blocks(81)]).text(400)
    assert told.startswith("4/5 in (20.32 mm) from 4/5 in (20.32 mm) (1 piece)")
