"""A name is one piece: worst and likely limits of expressions in which names are repeated."""

from __future__ import annotations

import copy
import pickle
import random
from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from trying import times

from fractions_shop.errors import ShopError
from fractions_shop.language.functions import FUNCTIONS
from fractions_shop.size.approx import square_root
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Quantity

#: Roots are worked to 30 figures.
_NEAR = Fraction(1, 10**20)


def number(value: Any) -> Quantity:
    return Quantity(Fraction(value), 0)


def cut(nominal: Any, plus: Any, minus: Any | None = None) -> Limits:
    return Limits(number(nominal), number(plus), number(plus if minus is None else minus))


# Expressions as trees, worked out with plain rationals and with Limits alike.

_TWO = ("+", "-", "*", "/", "min", "max", "hypot")
_ONE = ("neg", "abs", "square", "cube", "inverse", "sqrt", "double")


def tree(chance: random.Random, depth: int) -> Any:
    """An expression over names 0 to 2, most of which come up more than once."""
    if depth == 0 or chance.random() < 0.15:
        if chance.random() < 0.15:
            return Fraction(chance.randint(-6, 12), chance.choice((1, 2, 4)))
        return chance.randrange(3)
    if chance.random() < 0.25:
        return (chance.choice(_ONE), tree(chance, depth - 1))
    sign = chance.choice(_TWO[:4] * 3 + _TWO)
    return (sign, tree(chance, depth - 1), tree(chance, depth - 1))


def exactly(node: Any, names: list[Fraction]) -> Fraction:
    """The tree by plain rational arithmetic, which is asked of nothing here."""
    if isinstance(node, Fraction):
        return node
    if isinstance(node, int):
        return names[node]
    sign, *rest = node
    parts = [exactly(part, names) for part in rest]
    a, b = parts[0], parts[-1]
    return {
        "+": lambda: a + b, "-": lambda: a - b, "*": lambda: a * b, "/": lambda: a / b,
        "min": lambda: min(a, b), "max": lambda: max(a, b), "neg": lambda: -a, "abs": lambda: abs(a),
        "square": lambda: a**2, "cube": lambda: a**3, "inverse": lambda: 1 / a, "double": lambda: 2 * a,
        "sqrt": lambda: square_root(a), "hypot": lambda: square_root(a * a + b * b),
    }[sign]()  # fmt: skip


def ranged(node: Any, names: list[Limits]) -> Limits:
    """The tree by Limits."""
    if isinstance(node, Fraction):
        return limits_of(number(node))
    if isinstance(node, int):
        return names[node]
    sign, *rest = node
    parts = [ranged(part, names) for part in rest]
    a, b = parts[0], parts[-1]
    return {
        "+": lambda: a + b, "-": lambda: a - b, "*": lambda: a * b, "/": lambda: a / b,
        "min": lambda: FUNCTIONS["min"].work(a, b), "max": lambda: FUNCTIONS["max"].work(a, b),
        "neg": lambda: -a, "abs": lambda: abs(a), "square": lambda: a**2, "cube": lambda: a**3,
        "inverse": lambda: a**-1, "double": lambda: 2 * a,
        "sqrt": lambda: FUNCTIONS["sqrt"].work(a), "hypot": lambda: FUNCTIONS["hypot"].work(a, b),
    }[sign]()  # fmt: skip


def some_names(chance: random.Random) -> list[Limits]:
    names = []
    for _ in range(3):
        nominal = Fraction(chance.randint(-12, 24), 4)
        plus, minus = (Fraction(chance.randint(0, 8), chance.choice((4, 16, 64))) for _ in range(2))
        names.append(cut(nominal, plus, minus))
    return names


def places(names: list[Limits], chance: random.Random, each: int) -> list[list[Fraction]]:
    """Corners, a lattice between them, and places at random."""
    ends = [(size.lower.value, size.upper.value) for size in names]
    steps = [[low + (high - low) * Fraction(k, each) for k in range(each + 1)] for low, high in ends]
    found = [list(place) for place in product(*steps)]
    found += [
        [low + (high - low) * Fraction(chance.randint(0, 997), 997) for low, high in ends] for _ in range(6)
    ]
    return found


@pytest.mark.parametrize("seed", range(times(3, 6)))
def test_the_truth_is_always_inside_and_is_reached_where_that_is_claimed(seed: int) -> None:
    chance = random.Random(seed)
    tried = claimed = 0
    while tried < 350:
        node, names = tree(chance, chance.randint(1, 4)), some_names(chance)
        try:
            found = ranged(node, names)
        except (ShopError, ZeroDivisionError):
            continue
        tried += 1
        values = []
        for place in places(names, chance, 3):
            values.append(exactly(node, place))
            assert found.lower.value - _NEAR <= values[-1] <= found.upper.value + _NEAR, (node, names)
        likely = found.root_sum_square
        assert found.lower.value <= likely.lower.value, (node, names)
        assert likely.upper.value <= found.upper.value, (node, names)
        if found.wide:
            continue
        claimed += 1
        # Between two points of the lattice it moves no more than its steepest slopes let it.
        slack: Fraction | None = _NEAR
        for piece, slope in found.slopes.items():
            if slope.span is None or slack is None:
                slack = None
                break
            slack += max(map(abs, slope.span)) * (piece.high - piece.low) / 6
        if slack is not None:
            assert max(values) >= found.upper.value - slack, (node, names)
            assert min(values) <= found.lower.value + slack, (node, names)
    assert claimed > tried / 2


X, Y = cut(2, Fraction(1, 64)), cut(1, Fraction(1, 32))
WIDE = cut(0, 1)
SMALL = cut(Fraction(7, 10), Fraction(1, 5))


@pytest.mark.parametrize(
    ("found", "lower", "upper"),
    [
        pytest.param(X - X, 0, 0, id="x-x"),
        pytest.param(3 - X + X, 3, 3, id="a+x"),
        pytest.param((X + Y) - X, Fraction(31, 32), Fraction(33, 32), id="(x+y)-x"),
        pytest.param((X + Y) - (X - Y), Fraction(31, 16), Fraction(33, 16), id="(x+y)-(x-y)"),
        pytest.param(X / Y * Y, Fraction(127, 64), Fraction(129, 64), id="x/y*y"),
        pytest.param(X * Y / (Y * X), 1, 1, id="xy/yx"),
        pytest.param(X * Y - Y * X, 0, 0, id="xy-yx"),
        pytest.param(X / X, 1, 1, id="x/x"),
        pytest.param(4 * X - X - X - X - X, 0, 0, id="4x-x-x-x-x"),
        pytest.param(WIDE * WIDE, 0, 1, id="a-square-across-nought"),
        pytest.param(X / (X + Y), Fraction(127, 193), Fraction(129, 191), id="x/(x+y)"),
        pytest.param((X + Y) * (X - Y), Fraction(127**2 - 66**2, 64**2), Fraction(129**2 - 62**2, 64**2), id="(x+y)(x-y)"),
        pytest.param(X * Y + X * X, None, None, id="shown-by-its-slopes"),
        pytest.param(SMALL**2 * WIDE - WIDE, Fraction(-3, 4), Fraction(3, 4), id="x^2y-y"),
        pytest.param((-SMALL)**2 * WIDE - WIDE, Fraction(-3, 4), Fraction(3, 4), id="the-same-below-nought"),
        pytest.param(abs(WIDE) - abs(WIDE), 0, 0, id="abs-abs"),
        pytest.param(FUNCTIONS["min"].work(X, X + 1), Fraction(127, 64), Fraction(129, 64), id="min-of-x-and-more"),
        pytest.param(FUNCTIONS["hypot"].work(3 * X, 4 * X), Fraction(635, 64), Fraction(645, 64), id="hypot(3x,4x)"),
    ],
)  # fmt: skip
def test_a_name_is_one_piece(found: Limits, lower: Fraction | None, upper: Fraction | None) -> None:
    assert not found.wide
    if lower is not None:
        assert (found.lower.value, found.upper.value) == (lower, upper)


def test_what_cannot_be_shown_says_that_it_may_be_wide() -> None:
    found = WIDE * (WIDE + 1)  # from -1/4 to 2
    assert found.wide
    assert found.lower.value <= Fraction(-1, 4)
    assert found.upper.value >= 2
    assert (found + 1).wide
    assert found.pieces(2).wide


@pytest.mark.parametrize(("many", "shown"), [(6, True), (7, False)])
def test_of_six_pieces_that_may_push_either_way_every_corner_is_tried(many: int, shown: bool) -> None:
    total = sum((cut(2, Fraction(1, 64)) for _ in range(many - 1)), cut(2, Fraction(1, 64)))
    found = total * WIDE - WIDE  # whether a longer part makes it more is for the other to say
    most = many * (2 + Fraction(1, 64)) - 1
    assert found.wide is not shown
    assert found.upper.value == -found.lower.value >= most
    assert (found.upper.value == most) is shown


def test_limits_that_may_be_wide_are_exact_again_when_the_doubt_cancels() -> None:
    doubtful = WIDE * (WIDE + 1)
    assert not (doubtful - doubtful + X).wide
    assert (doubtful - doubtful + X).spread == X.spread


@given(st.integers(1, 60), st.fractions(-8, 8, max_denominator=16), st.fractions(0, 1, max_denominator=64))
def test_pieces_spread_as_many_times_worst_and_as_the_root_likely(
    count: int, nominal: Fraction, spread: Fraction
) -> None:
    size = cut(nominal, spread)
    several = size.pieces(count)
    assert several.nominal == count * size.nominal
    assert several.spread == count * size.spread
    likely = several.root_sum_square.spread.value
    assert abs(likely**2 - count * size.spread.value**2) < _NEAR
    # They are pieces of their own: none is the first one, none is shared with another lot.
    assert (several - size).spread == (count + 1) * size.spread
    assert (several - size.pieces(count)).spread == 2 * several.spread
    assert (several - several).spread == 0


@given(st.integers(1, 5), st.integers(1, 5))
def test_pieces_of_pieces_are_as_many_pieces(one: int, two: int) -> None:
    both, flat = X.pieces(one).pieces(two), X.pieces(one * two)
    assert (both.lower, both.upper) == (flat.lower, flat.upper)
    assert both.root_sum_square.spread == flat.root_sum_square.spread
    assert both.contributions == flat.contributions


def test_pieces_of_a_sum_keep_its_parts_apart() -> None:
    pair = X.labelled("bay") - 2 * Y.labelled("bar")
    four = pair.pieces(4)
    assert four.spread == 4 * pair.spread
    assert [name for name, _ in four.contributions] == ["4 of bar", "4 of bay"]
    assert abs((four.root_sum_square.spread - 2 * pair.root_sum_square.spread).value) < _NEAR


@pytest.mark.parametrize("count", [0, -1, Fraction(3, 2), "4", None, True])
def test_pieces_are_counted_in_whole_numbers(count: Any) -> None:
    with pytest.raises(ShopError, match="the number of pieces must be"):
        X.pieces(count)


@pytest.mark.parametrize("size", [X, X.labelled("slat") + Y, X * Y, X.pieces(4) / Y, abs(WIDE) + X])
@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda size: pickle.loads(pickle.dumps(size))])
def test_a_piece_stays_itself_through_copying_and_pickling(size: Limits, again: Any) -> None:
    other = again(size)
    assert other == size
    assert (other - size).spread == 0
    assert other.root_sum_square == size.root_sum_square
    assert (other + X - X - size).spread == 0


def test_more_pieces_than_are_kept_apart_are_refused() -> None:
    total = sum(cut(1, Fraction(1, 8)) for _ in range(500))
    assert len(total.contributions) == 500
    with pytest.raises(ShopError, match="more than 500 toleranced sizes feed this"):
        total + cut(1, Fraction(1, 8))


@given(st.lists(st.integers(0, 2), min_size=2, max_size=80), st.sampled_from("+-*/"))
def test_a_long_chain_stays_inside(steps: list[int], sign: str) -> None:
    names = [cut(2, Fraction(1, 8)), cut(3, Fraction(1, 4)), cut(1, Fraction(1, 16))]
    total, middle = names[0], names[0].nominal.value
    for n in steps:
        other = names[n] + total / 100
        at = names[n].nominal.value + middle / 100
        total = {
            "+": total + other,
            "-": total - other,
            "*": total * other,
            "/": total / (1 + other * other),
        }[sign]
        middle = {"+": middle + at, "-": middle - at, "*": middle * at, "/": middle / (1 + at * at)}[sign]
        assume(total.upper.value.denominator.bit_length() < 4000)
        assert total.lower.value <= middle <= total.upper.value
