"""Cut from bars: layouts that hold what they must, against a brute force and worked examples."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import Quantity, ShopError, cut_from, read
from fractions_shop.layout.bar_bound import bound
from fractions_shop.layout.bar_patterns import StepsLeft, bars_in, fullest, greedy, in_so_many, worthiest
from fractions_shop.layout.cutting import Cutting, fewest

#: The paper mill with rolls of 5600 mm that is told as the usual example of the problem (an encyclopaedia's
#: article on cutting stock, from memory): 73 rolls, 0.401 % left over.
MILL = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
    2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip
#: V. Chvatal, Linear Programming (1983), chapter 13, from memory: rolls of 100, the fraction is 452 1/4.
CHVATAL = {45: 97, 36: 610, 31: 395, 14: 211}


def in_mm(kinds: dict[int, int], length: int) -> Cutting:
    return cut_from(f"{length} mm", {str(size): (f"{size} mm", many) for size, many in kinds.items()})


def test_the_paper_mill_takes_73_rolls_and_that_is_proved():
    cutting = in_mm(MILL, 5600)
    assert (cutting.many, cutting.proved) == (73, True)
    assert cutting.left == Quantity.of(1640, "mm")
    assert round(cutting.left / (cutting.length * cutting.many), 5) == Fraction(401, 100_000)


def test_a_text_book_example_takes_453_bars_and_its_fractions_come_to_452_and_a_quarter():
    cutting = in_mm(CHVATAL, 100)
    assert (cutting.many, cutting.proved) == (453, True)
    shares = bound(list(CHVATAL), list(CHVATAL.values()), 100, 2000).shares
    assert sum(share for _, share in shares) == Fraction(1809, 4)


@pytest.mark.parametrize(
    ("length", "bars", "pieces"),
    [
        (60, 8, "36 35 35 34 33 32 32 28 23 22 22 21 17 16 16 15 13 12 10 10 8 5 3 2"),
        (200, 7, "123 110 102 95 91 85 80 78 77 73 67 58 56 45 43 40 36 35 33 25 22 15 10 1"),
        (200, 6, "138 129 100 93 73 72 70 68 58 55 50 49 47 47 42 39 28 16 15 7 4"),
    ],
)
def test_bars_sawn_up_whole_are_put_together_again(length, bars, pieces):
    """Whole bars were broken into pieces at random, so that none is left over: neither laying in turn nor filling each finds it."""
    sizes = Counter(map(int, pieces.split()))
    assert sum(sizes.elements()) == length * bars
    cutting = in_mm(dict(sizes), length)
    assert (cutting.many, cutting.proved, cutting.left) == (bars, True, read("0 in"))


def test_the_saw_takes_its_width_behind_every_piece_but_not_beyond_the_end():
    assert cut_from("36 in", {"half": ("18 in", 2)}).many == 1
    assert cut_from("36 in", {"half": ("18 in", 2)}, saw="1/32 in").many == 2
    # Two pieces and one cut fill the bar; the second cut would only cut air.
    full = cut_from("36 1/32 in", {"half": ("18 in", 2)}, saw="1/32 in")
    assert (full.many, full.left) == (1, read("0 in"))
    # What is left is thinner than the saw: it goes into dust.
    assert cut_from("36 3/64 in", {"half": ("18 in", 2)}, saw="1/32 in").left == read("0 in")
    assert cut_from("37 in", {"half": ("18 in", 2)}, saw="1/32 in").left == read("15/16 in")


def test_limits_are_cut_to_the_largest():
    assert cut_from("36 in", {"half": (_limits("18 in +1/-0 thou"), 2)}).many == 2


def _limits(text: str):
    from fractions_shop import read_limits

    return read_limits(text)


def test_a_piece_longer_than_the_bar_is_refused_with_both_figures():
    with pytest.raises(ShopError) as error:
        cut_from("6 in", {"runner": ("6 1/64 in", 1)})
    assert str(error.value) == (
        "runner, 6 1/64 in (152.796875 mm), is longer than the bar, 6 in (152.4 mm): by 1/64 in (0.396875 mm)"
    )


@pytest.mark.parametrize("wrong", [{}, {"a": ("1 in", 0)}, {"a": ("0 in", 1)}, {"a": ("1 in", 2_000_000)}])
def test_what_cannot_be_cut_is_refused(wrong):
    with pytest.raises(ShopError):
        cut_from("6 in", wrong)


KINDS = st.dictionaries(st.integers(1, 30), st.integers(1, 4), min_size=1, max_size=4)


def fewest_by_brute_force(sizes: tuple[int, ...], room: int) -> int:
    """Every way to lay out the pieces one by one, the next into each bar that there is, or into a new one."""

    @cache
    def go(place: int, free: tuple[int, ...]) -> int:
        if place == len(sizes):
            return len(free)
        size = sizes[place]
        ways = [go(place + 1, tuple(sorted((*free, room - size))))]
        for n, each in enumerate(free):
            if each >= size:
                ways.append(go(place + 1, tuple(sorted((*free[:n], each - size, *free[n + 1 :])))))
        return min(ways)

    return go(0, ())


@given(KINDS, st.integers(30, 60))
@settings(max_examples=150)
def test_as_few_bars_as_any_layout_takes_and_proved(kinds, room):
    kinds = dict(sorted(kinds.items(), reverse=True)[:4])
    pieces = tuple(size for size, many in kinds.items() for _ in range(many))[:9]
    counted = Counter(pieces)
    patterns, least = fewest(list(counted), list(counted.values()), room)
    assert bars_in(patterns) == least == fewest_by_brute_force(pieces, room)


@given(
    st.dictionaries(st.integers(1, 64), st.integers(1, 40), min_size=1, max_size=12),
    st.integers(64, 200),
    st.integers(0, 8),
)
@settings(max_examples=80)
def test_every_piece_is_cut_once_and_no_bar_is_overfull(kinds, length, saw):
    pieces = {f"part {size}": (Quantity.of(Fraction(size, 64), "in"), many) for size, many in kinds.items()}
    cutting = cut_from(
        Quantity.of(Fraction(length, 64), "in"), pieces, saw=Quantity.of(Fraction(saw, 64), "in")
    )
    made: Counter[str] = Counter()
    for bar in cutting.bars:
        total = sum((cut.size * cut.count for cut in bar.cuts), Quantity.of(0, "in"))
        cuts = sum(cut.count for cut in bar.cuts)
        assert total + cutting.saw * (cuts - 1) <= cutting.length
        assert bar.left == max(cutting.length - total - cutting.saw * cuts, Quantity.of(0, "in"))
        for cut in bar.cuts:
            made[cut.name] += cut.count * bar.times
            assert cut.size == pieces[cut.name][0]
    assert made == {name: many for name, (_, many) in pieces.items()}
    assert cutting.at_least <= cutting.many


def test_parts_of_one_length_are_cut_in_turn_under_their_own_names():
    cutting = cut_from("10 in", {"left": ("2 in", 7), "right": ("2 in", 4)})
    assert [(bar.times, [(cut.name, cut.count) for cut in bar.cuts]) for bar in cutting.bars] == [
        (1, [("left", 5)]), (1, [("left", 2), ("right", 3)]), (1, [("right", 1)]),
    ]  # fmt: skip


def test_a_million_pieces_take_no_longer_than_a_few():
    cutting = cut_from("36 in", {"a": ("1 in", 1_000_000), "b": ("7/64 in", 999_999)}, saw="1/32 in")
    assert (cutting.many, cutting.proved) == (32_553, True)
    assert len(cutting.bars) < 10


def test_work_is_bounded_and_then_both_numbers_are_told():
    # Nothing is found within no steps at all: the bound and the best layout stay apart, and say so.
    sizes, counts = [7, 5, 4, 3], [9, 8, 7, 9]
    assert in_so_many(sizes, counts, 20, 8, StepsLeft(3)) == (None, False)
    assert worthiest(sizes, sizes, counts, 20, StepsLeft(0))[2] is False
    assert bars_in(greedy(sizes, counts, 20)) >= bars_in(fullest(sizes, counts, 20, 1000))


def test_an_overdone_saw_still_leaves_the_first_piece():
    assert cut_from("6 in", {"a": ("6 in", 3)}, saw="1 in").many == 3


@pytest.mark.parametrize(
    ("pieces", "saw", "said"),
    [
        ({"runner": ("11 in", 24)}, "-1/32 in", "the saw's width cannot be below zero"),
        ({f"part {n}": ("1 in", 1) for n in range(501)}, "0 in", "at most 500 parts are laid out at once"),
        ({}, "0 in", "there is nothing to cut: name at least one piece"),
        ({"runner": ("0 in", 24)}, "0 in", "a piece's length must be above zero"),
    ],
)
def test_what_cannot_be_laid_out_is_refused(pieces, saw, said):
    with pytest.raises(ShopError, match=said):
        cut_from("36 in", pieces, saw=saw)


def test_as_many_parts_as_are_allowed_are_laid_out():
    assert cut_from("36 in", {f"part {n}": ("1 in", 1) for n in range(500)}).many == 14
