"""The fewest shims used once each, held to every stack there is and to the way that knows every height."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.layout import packing
from fractions_shop.layout.last_figures import fewest_of
from fractions_shop.layout.packing import pack
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.blocks import block_sets, blocks

#: As shims come: by one step, by tens and hundreds, by steps with nothing in common.
steps = st.sampled_from(((1,), (1, 10, 100), (2, 3), (1, 5, 20, 100), (6, 10, 15)))
sizes = st.builds(
    lambda step, parts: sorted((part * step[at % len(step)] for part, at in parts), reverse=True),
    steps,
    st.lists(st.tuples(st.integers(1, 30), st.integers(0, 3)), min_size=1, max_size=8),
)


@settings(max_examples=60, deadline=None)
@given(sizes)
def test_no_stack_has_fewer_and_of_as_few_the_thicker_come_first(stock: list[int]) -> None:
    best: dict[int, list[int]] = {}
    for count in range(1, len(stock) + 1):
        # In order of their places, so the first of as many is the one of thicker shims.
        for stack in combinations(range(len(stock)), count):
            best.setdefault(sum(stock[place] for place in stack), [*stack])
    for target in range(1, sum(stock) + 2):
        assert fewest_of(stock, target) == best.get(target)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(block_sets()), st.integers(1, 110_000), st.booleans())
def test_a_set_of_blocks_gives_what_every_height_of_it_gives(
    pieces: int, tens: int, between_two: bool
) -> None:
    unit = Fraction(127, 50_000) if pieces == 81 else Fraction(1, 2000)
    height = Quantity.millimetres((tens + Fraction(between_two, 3)) * unit)
    found = pack(height, blocks(pieces))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(packing, "fewest_of", lambda sizes, target: None)
        assert found == pack(height, blocks(pieces))


def test_what_takes_too_long_to_find_is_left_to_the_other_way() -> None:
    # Ten odd sizes of about as much: nine make an odd height and eight are too few.
    stock = [2 * n + 1 for n in range(4000, 3900, -1)]
    even = sum(stock[20:60:4])
    assert fewest_of(stock, even) is None
    found = pack(Quantity.millimetres(even), [Quantity.millimetres(size) for size in stock], each_once=True)
    assert found.exact
    assert len(found.pieces) == 10
