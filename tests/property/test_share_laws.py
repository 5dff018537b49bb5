"""Sharing, bodies of any width and several counts at once, against brute force over every size."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import ceil, floor, gcd, lcm

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.layout.bodies import AnyBodies
from fractions_shop.layout.room import NoRoom
from fractions_shop.layout.share import share
from fractions_shop.layout.spacing import divide
from fractions_shop.layout.whole_numbers import DivisionRange, Mixture, most_readable
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

rules = st.sampled_from(("64ths", "32nds", "16ths", "10ths", "100ths", "12ths", "mm", "half mm")).map(Rule)
kinds = st.lists(st.integers(1, 8), min_size=2, max_size=3).map(tuple)
limits = st.none() | st.integers(1, 12)


def _mm(divisions: int | Fraction, rule: Rule) -> Quantity:
    return Quantity(divisions * rule.division.mm)


def _readable(sizes: tuple[int, ...], rule: Rule) -> Fraction:
    """The coarsest division that carries all, told by trying every coarser rule of the drawer."""
    for coarse in rule.coarser:
        if all((n * rule.division.mm / coarse.division.mm).denominator == 1 for n in sizes):
            return coarse.division.mm
    raise AssertionError


def _all_ways(
    counts: tuple[int, ...], total: int, ranges: tuple[tuple[int, int | None], ...]
) -> list[tuple[int, ...]]:
    """Every size of every kind but the last, of which the total leaves one at most."""
    reach = [
        range(low, (total // n if high is None else high) + 1)
        for n, (low, high) in zip(counts, ranges, strict=True)
    ]
    ways = []
    for sizes in product(*reach[:-1]):
        last, odd = divmod(total - sum(n * s for n, s in zip(counts, sizes, strict=False)), counts[-1])
        if not odd and last in reach[-1]:
            ways.append((*sizes, last))
    return ways


def _in_order(ways: list[tuple[int, ...]], rule: Rule) -> list[tuple[int, ...]]:
    return sorted(ways, key=lambda sizes: (-_readable(sizes, rule), max(sizes) - min(sizes), sizes))


@given(kinds, st.integers(1, 60), rules, limits, limits)
def test_every_way_to_share_is_found_and_the_most_readable_stand_first(
    counts: tuple[int, ...], total: int, rule: Rule, low: int | None, high: int | None
) -> None:
    assume(low is None or high is None or low <= high)
    found = share(
        _mm(total, rule), counts, rule,
        least=None if low is None else _mm(low, rule), most=None if high is None else _mm(high, rule),
        shown=5000,
    )  # fmt: skip
    ways = _all_ways(counts, total, ((low or 1, high),) * len(counts))
    assert found.many == len(ways) == len(found.choices)
    assert [tuple(s.mm / rule.division.mm for s in way.sizes) for way in found.choices] == _in_order(
        ways, rule
    )
    for way in found.choices:
        assert way.total == found.asked
        assert way.change.value == 0
        assert all(way.rule.carries(size) for size in way.sizes)
    assert not ways or (found.below, found.above) == (None, None)


@given(kinds, st.integers(1, 150), rules, st.integers(1, 12), st.integers(1, 4))
def test_the_first_few_are_the_first_of_them_all(
    counts: tuple[int, ...], total: int, rule: Rule, shown: int, low: int
) -> None:
    few, whole = (
        share(_mm(total, rule), counts, rule, shown=most, least=_mm(low, rule)) for most in (shown, 10_000)
    )
    assert few.choices == whole.choices[:shown]
    assert few.many == whole.many


@given(kinds, st.fractions(Fraction(1, 9), 50, max_denominator=9), rules, limits, limits)
def test_where_none_is_exact_no_total_that_can_be_shared_lies_nearer(
    counts: tuple[int, ...], wanted: Fraction, rule: Rule, low: int | None, high: int | None
) -> None:
    assume(low is None or high is None or low <= high)
    found = share(
        _mm(wanted, rule), counts, rule,
        least=None if low is None else _mm(low, rule), most=None if high is None else _mm(high, rule),
    )  # fmt: skip
    top = sum(counts) * (high or ceil(wanted) + 20)
    made = [
        t for t in range(1, min(top, 700) + 1) if _has_way(counts, t, low or 1, high)
    ]  # every total, up or down
    if found.choices:
        assert wanted in made
        return
    assert wanted not in made
    below = max((t for t in made if t <= wanted), default=None)
    above = min((t for t in made if t >= wanted), default=None)
    assert (found.below and found.below.total) == (None if below is None else _mm(below, rule))
    assert (found.above and found.above.total) == (None if above is None else _mm(above, rule))
    for way in (found.below, found.above):
        if way is not None:
            assert (
                sum((n * s for n, s in zip(counts, way.sizes, strict=True)), Quantity(Fraction(0)))
                == way.total
            )
            assert way.change == way.total - found.asked
    near = [abs(t - wanted) for t in (below, above) if t is not None]
    assert abs(found.change) == _mm(min(near), rule)


@given(kinds, st.integers(1, 90), st.integers(1, 12), st.lists(st.integers(1, 20), min_size=3, max_size=3))
@example((1, 1, 2), 55, 9, [1, 1, 19])  # as unlike ones lie farther from the middle, and come before
def test_the_most_alike_stand_first_where_every_kind_has_its_own_least_size(
    counts: tuple[int, ...], total: int, wanted: int, lows: list[int]
) -> None:
    ranges = tuple((low, None) for low in lows[: len(counts)])
    mixture = Mixture(counts, tuple(DivisionRange(low) for low, _ in ranges))
    inches = Rule("1sts")
    found = [sizes for _, sizes in most_readable(mixture, total, inches, wanted)]
    ways = _all_ways(counts, total, ranges)
    assert found == _in_order(ways, inches)[:wanted]
    assert mixture.many(total) == len(ways)


def _has_way(counts: tuple[int, ...], total: int, low: int, high: int | None) -> bool:
    if len(counts) == 1:
        size, odd = divmod(total, counts[0])
        return not odd and low <= size and (high is None or size <= high)
    most = total // counts[0] if high is None else high
    return any(_has_way(counts[1:], total - counts[0] * s, low, high) for s in range(low, most + 1))


@given(
    st.integers(1, 9),
    st.integers(2, 150),
    rules,
    st.booleans(),
    limits,
    limits,
    st.none() | st.integers(0, 9),
)
def test_every_pair_of_body_and_space_on_the_rule_is_found(
    count: int, total: int, rule: Rule, outer: bool, low: int | None, high: int | None, end: int | None
) -> None:
    assume(low is None or high is None or low <= high)
    assume(outer or count > 1)
    bodies, room = (count + 1 if outer else count - 1), total - 2 * (end or 0)

    def ask() -> AnyBodies:
        return divide(
            _mm(total, rule), count, rule, bodies="any", outer=outer,
            ends=None if end is None else _mm(end, rule),
            least=None if low is None else _mm(low, rule), most=None if high is None else _mm(high, rule),
        )  # fmt: skip

    if room <= 0:
        with pytest.raises(NoRoom):
            ask()
        return
    found = ask()
    ways = _all_ways((bodies, count), room, ((low or 1, high), (1, None)))
    assert found.many == len(ways)
    assert [
        (way.body.mm / rule.division.mm, way.space.mm / rule.division.mm) for way in found.choices
    ] == _in_order(ways, rule)[:12]
    for way in (*found.choices, found.below, found.above):
        if way is not None:
            made = count * way.space + bodies * way.body + 2 * _mm(end or 0, rule)
            assert made == way.total == found.asked + way.change


@given(
    st.lists(st.integers(1, 9), min_size=1, max_size=4).map(tuple),
    st.fractions(Fraction(1, 3), 300, max_denominator=6),
    rules,
    st.none() | st.integers(0, 20),
    st.none() | st.fractions(0, 6, max_denominator=4),
    st.booleans(),
)
def test_no_total_that_falls_into_every_count_lies_nearer(
    counts: tuple[int, ...], wanted: Fraction, rule: Rule, end: int | None, body: Fraction | None, outer: bool
) -> None:
    def taken(n: int) -> Fraction:
        return 2 * (end or 0) + (n + 1 if outer else n - 1) * (body or Fraction(0))

    ends = None if end is None else _mm(end, rule)
    bodies = None if body is None else _mm(body, rule)
    if any(taken(n) >= wanted for n in counts):
        with pytest.raises(NoRoom):
            divide(_mm(wanted, rule), counts, rule, ends=ends, bodies=bodies, outer=outer)
        return
    # Every total of the first count, far enough to meet the others if they ever do.
    far = ceil(wanted) + 4 * lcm(*counts) * 4
    made = [
        total
        for s in range(1, far // counts[0] + 2)
        for total in [counts[0] * s + taken(counts[0])]
        if all((k := (total - taken(n)) / n) >= 1 and k.denominator == 1 for n in counts)
    ]
    if not made:
        with pytest.raises(NoAnswer):
            divide(_mm(wanted, rule), counts, rule, ends=ends, bodies=bodies, outer=outer)
        return
    found = divide(_mm(wanted, rule), counts, rule, ends=ends, bodies=bodies, outer=outer)
    assert abs(found.change) == _mm(min(abs(total - wanted) for total in made), rule)
    assert found.above.total == _mm(min(total for total in made if total >= wanted), rule)
    under = [total for total in made if total <= wanted]
    assert (found.below and found.below.total) == (_mm(max(under), rule) if under else None)
    for layout in (found.nearest, found.above, found.below, found.kept_total):
        if layout is None:
            continue
        assert layout.total == found.asked + layout.change
        for n, space in zip(counts, layout.spaces, strict=True):
            assert rule.carries(space)
            assert space.value > 0
            extra = (n + 1 if outer else n - 1) * (bodies or Quantity(Fraction(0)))
            assert n * space + 2 * layout.ends + extra == layout.total
    _check_kept(found.kept_total, counts, wanted, rule, end or 0, body or Fraction(0), outer)


def _check_kept(kept, counts, wanted, rule, end, body, outer) -> None:
    """The ends are moved the least of every whole end that lets the total stand."""
    good = []
    for m in range(floor(wanted) // 2 + 1):
        rests = [(wanted - 2 * m - (n + 1 if outer else n - 1) * body) / n for n in counts]
        if all(r >= 1 and r.denominator == 1 for r in rests):
            good.append(m)
    best = min((abs(m - end) for m in good), default=None)
    if not best:
        assert kept is None
        return
    assert abs(kept.ends - _mm(end, rule)) == _mm(best, rule)
    assert kept.change.value == 0


@given(st.integers(1, 13), st.fractions(1, 200, max_denominator=6), rules, st.none() | st.integers(0, 20))
def test_one_count_in_a_list_is_that_count_alone(
    count: int, wanted: Fraction, rule: Rule, end: int | None
) -> None:
    ends = None if end is None else _mm(end, rule)
    try:
        alone = divide(_mm(wanted, rule), count, rule, ends=ends)
    except ShopError as error:
        with pytest.raises(type(error)):
            divide(_mm(wanted, rule), (count,), rule, ends=ends)
        return
    listed = divide(_mm(wanted, rule), (count,), rule, ends=ends)
    assert (listed.total, listed.spaces, listed.exact) == (alone.total, (alone.space,), (alone.exact,))
    assert (listed.below and listed.below.total) == (alone.below and alone.below.total)
    assert (listed.kept_total and listed.kept_total.ends) == (alone.kept_total and alone.kept_total.ends)


@given(st.lists(st.integers(1, 500), min_size=1, max_size=4), rules)
def test_readability_is_the_coarsest_rule_that_carries_them_all(divisions: list[int], rule: Rule) -> None:
    multiple = rule.readability(divisions)
    assert multiple * rule.division.mm == _readable(tuple(divisions), rule)
    carries = rule.coarsest_that_carries(*(_mm(n, rule) for n in divisions))
    assert carries is not None
    assert carries.division.mm == multiple * rule.division.mm
    assert gcd(*divisions) % multiple == 0
