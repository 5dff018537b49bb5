"""Packing a height: brute force over every stack, and how it refuses."""

from fractions import Fraction
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from trying import times

from fractions_shop.errors import DimensionError, FloatRefused, ShopError
from fractions_shop.layout import packing
from fractions_shop.layout.packing import pack
from fractions_shop.size.quantity import Quantity


def mm(value):
    return Quantity.millimetres(Fraction(value))


def inches(stack):
    return [str(piece.inch) for piece in stack.pieces]


@pytest.mark.parametrize(
    ("height", "stock", "each_once", "pieces"),
    [
        # by arithmetic
        pytest.param("5/8 in", ["1/4 in", "1/8 in", "3/16 in"], False, ["1/4", "1/4", "1/8"], id="thicker-of-as-few"),
        pytest.param("3/4 in", ["1/8 in", "1/2 in", "1/4 in"], True, ["1/2", "1/4"], id="each-once"),
        pytest.param("1/2 in", ["1/4 in"], False, ["1/4", "1/4"], id="one-size-twice"),
        pytest.param("1/2 in", ["1/4 in", "1/4 in"], True, ["1/4", "1/4"], id="listed-twice-used-twice"),
        # Fewest is not greedy: 0.09 first would take three.
        pytest.param("0.12 in", ["0.09 in", "0.06 in", "0.015 in"], False, ["3/50", "3/50"], id="not-greedy"),
    ],
)  # fmt: skip
def test_makes_the_height(height, stock, each_once, pieces):
    found = pack(height, stock, each_once=each_once)
    assert inches(found) == pieces
    assert found.exact
    assert found.error == Quantity(Fraction(0))
    assert found.below is None
    assert found.above is None


# A stack of gauge blocks is a pack in which each is used once. The selections are published
# (a gage block guide, page GB49; the National Physical Laboratory's questions and answers
# on gauge blocks); the contents of the two sets are from memory.
INCH_81 = [
    *(Fraction(n, 10000) for n in range(1001, 1010)),
    *(Fraction(n, 1000) for n in range(101, 150)),
    *(Fraction(n, 1000) for n in range(50, 1000, 50)),
    *map(Fraction, range(1, 5)),
]
METRIC_112 = [
    Fraction("1.0005"),
    *(Fraction(n, 1000) for n in range(1001, 1010)),
    *(Fraction(n, 100) for n in range(101, 150)),
    *(Fraction(n, 2) for n in range(1, 50)),
    *map(Fraction, range(25, 101, 25)),
]


@pytest.mark.parametrize(
    ("height", "unit", "blocks", "selection"),
    [
        pytest.param("3.9762", "in", INCH_81, ["3.000", "0.750", "0.126", "0.1002"], id="81-in"),
        pytest.param("58.345", "mm", METRIC_112, ["50", "5", "1.30", "1.04", "1.005"], id="112-mm"),
    ],
)
def test_takes_no_more_pieces_than_a_published_selection(height, unit, blocks, selection):
    chosen = [Fraction(block) for block in selection]
    assert sum(chosen) == Fraction(height)
    assert set(chosen) <= set(blocks)
    found = pack(f"{height} {unit}", [Quantity.of(block, unit) for block in blocks], each_once=True)
    assert found.exact
    assert len(found.pieces) <= len(chosen)


def test_nearest_below_and_above_when_none_is_exact():
    found = pack("10 mm", ["3 mm", "7.5 mm"])
    assert (found.below.total, found.above.total) == (mm(9), mm("10.5"))
    assert found.total == mm("10.5")
    assert found.error == mm("0.5")
    assert not found.exact


def test_as_near_on_both_sides_takes_fewer_pieces_then_the_lower():
    assert pack("5 mm", ["2 mm", "6 mm"]).pieces == (mm(6),)
    assert pack("5 mm", ["4 mm", "6 mm"]).pieces == (mm(4),)


def test_no_stack_below_a_height_thinner_than_every_shim():
    found = pack("1 mm", ["2 mm", "3 mm"])
    assert found.below is None
    assert found.pieces == (mm(2),)


def test_no_stack_above_when_each_is_used_once_and_all_fall_short():
    found = pack("10 mm", ["2 mm", "3 mm"], each_once=True)
    assert found.above is None
    assert found.pieces == (mm(3), mm(2))
    assert found.error == mm(-5)


def test_names_go_with_the_pieces():
    stock = {"brass": "0.5 mm", "card": "0.3 mm"}
    assert pack("1.3 mm", stock).names == ("brass", "brass", "card")
    assert pack("0.8 mm", [("brass", "0.5 mm"), "0.3 mm"]).names == ("brass", "")


def test_an_approximate_shim_makes_an_approximate_total():
    rough = Quantity.measured(0.5, "mm", within="0.01 mm")
    assert pack("1 mm", [rough]).total.approximate
    assert not pack("1 mm", ["0.5 mm"]).total.approximate


# Brute force


def every_stack(sizes, each_once, top):
    """Every total up to `top` with its best stack: fewest pieces, then thicker first."""
    best = {}
    if each_once:
        stacks = (c for n in range(1, len(sizes) + 1) for c in combinations(sizes, n))
    else:
        counts = [range(int(top / size) + 1) for size in sizes]
        stacks = (
            [s for s, n in zip(sizes, numbers, strict=True) for _ in range(n)] for numbers in product(*counts)
        )
    for stack in stacks:
        total = sum(stack)
        key = (len(stack), [-s for s in sorted(stack, reverse=True)])
        if stack and (total not in best or key < best[total]):
            best[total] = key
    return best


sizes = st.one_of(
    st.integers(2, 20).map(lambda n: Fraction(n, 10)),
    st.integers(3, 30).map(lambda n: Fraction(n, 64) * Fraction(127, 5)),
)


@settings(max_examples=times(80, 150), deadline=None)
@given(
    stock=st.lists(sizes, min_size=1, max_size=4, unique=True),
    height=st.integers(1, 40).map(lambda n: Fraction(n, 10)),
    each_once=st.booleans(),
)
def test_is_the_best_of_all_stacks(stock, height, each_once):
    best = every_stack(stock, each_once, height + min(stock))
    found = pack(Quantity(height), [Quantity(s) for s in stock], each_once=each_once)
    below = max((t for t in best if t < height), default=None)
    above = min((t for t in best if t > height), default=None)

    def same(stack, total):
        if total is None:
            assert stack is None
            return
        assert stack.total.mm == total
        assert stack.error.mm == total - height
        assert [-p.mm for p in stack.pieces] == best[total][1]

    if height in best:
        assert found.below is found.above is None
        same(found.nearest, height)
        return
    same(found.below, below)
    same(found.above, above)
    nearest = min(
        (t for t in (below, above) if t is not None), key=lambda t: (abs(t - height), best[t][0], t)
    )
    same(found.nearest, nearest)


@settings(max_examples=60, deadline=None)
@given(
    stock=st.lists(st.integers(1, 9).map(lambda n: Fraction(n, 10)), min_size=1, max_size=9),
    height=st.integers(1, 40).map(lambda n: Fraction(n, 10)),
)
def test_sizes_listed_twice_may_be_used_twice_when_each_is_used_once(stock, height):
    best = every_stack(stock, True, height)
    found = pack(Quantity(height), [Quantity(s) for s in stock], each_once=True)
    assert found.exact == (height in best)
    assert abs(found.error).mm == min(abs(t - height) for t in best)
    assert [-p.mm for p in found.pieces] == best[found.total.mm][1]


# Refusals


@pytest.mark.parametrize(
    ("height", "stock", "error", "words"),
    [
        pytest.param("0 mm", ["1 mm"], ShopError, "above zero", id="no-height"),
        pytest.param("-1 mm", ["1 mm"], ShopError, "above zero", id="negative-height"),
        pytest.param("10", ["1 mm"], DimensionError, "length", id="no-unit"),
        pytest.param("1 mm", [], ShopError, "stock", id="no-stock"),
        pytest.param("1 mm", ["0 mm"], ShopError, "thicker", id="shim-of-nought"),
        pytest.param("1 mm", [0.5], FloatRefused, "float", id="float"),
        pytest.param("1 mm", ["1 mm"] * 501, ShopError, "500", id="too-many"),
        pytest.param("50 mm", ["0.3701 thou", "0.05 mm"], ShopError, "in common", id="too-fine"),
        pytest.param("50 mm", ["0.01 mm", "0.0123 mm"], ShopError, "too thin|too many", id="too-thin"),
    ],
)
def test_refuses(height, stock, error, words):
    with pytest.raises(error, match=words):
        pack(height, stock)


def test_no_more_heights_are_kept_than_are_allowed(monkeypatch):
    """Of 16 shims every fifth level is kept and five are worked out again: twice five, of each count, as long as the stack."""
    shims = [packing._Shim(mm(n), "", n) for n in range(20, 4, -1)]
    height, most = 40, 4
    kept = 2 * 5 * most * height
    monkeypatch.setattr(packing, "_KEPT", kept)
    assert len(list(packing._counted_down(shims, height, most))) == len(shims)
    monkeypatch.setattr(packing, "_KEPT", kept - 1)
    with pytest.raises(ShopError, match="too many thin shims"):
        list(packing._counted_down(shims, height, most))


def test_one_size_alone_is_a_stock_and_a_second_is_no_answer_to_each_once():
    assert inches(pack("1 in", "1/4 in")) == ["1/4"] * 4
    with pytest.raises(ShopError, match="each_once is True or False; several shims are given as one list"):
        pack("1 in", ["1/4 in"], each_once="1/2 in")
