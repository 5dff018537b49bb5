"""`fractions_shop.testing`: what its strategies promise to the tests of others."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import Phase, find, given, settings
from hypothesis import strategies as st

from fractions_shop import Limits, Quantity, Rule, ShopError, read
from fractions_shop.testing import WrittenForm, limits, rules, sizes, written_sizes

BETWEEN = (Quantity("1 in"), Quantity("3 1/64 in"))


@given(sizes(*BETWEEN))
def test_sizes_are_exact_lengths_between_the_two(size: Quantity) -> None:
    assert size.power == 1
    assert not size.approximate
    assert BETWEEN[0] <= size <= BETWEEN[1]


@given(st.data(), rules())
def test_sizes_of_a_rule_are_its_marks(data: st.DataObject, rule: Rule) -> None:
    size = data.draw(sizes(*BETWEEN, rule=rule))
    assert (size / rule.division).value.denominator == 1
    assert BETWEEN[0] <= size <= BETWEEN[1]


@given(written_sizes())
def test_a_written_form_reads_to_its_size(written: WrittenForm) -> None:
    assert read(written.text) == written.size


@given(written_sizes(sizes("-3 in", "3 in")))
def test_sizes_below_nought_are_written_too(written: WrittenForm) -> None:
    assert read(written.text) == written.size


@given(limits())
def test_limits_hold_their_nominal(size: Limits) -> None:
    assert size.lower <= size.nominal <= size.upper


@pytest.mark.parametrize("form", ["½", "-", "'", "ft", ".", "mm", "millimetre", '"', " in"])
def test_every_kind_of_form_comes(form: str) -> None:
    # That it comes is asked, not in what shortest form.
    once = settings(phases=[Phase.generate], max_examples=300)
    assert find(written_sizes(), lambda written: form in written.text, settings=once)


@pytest.mark.parametrize(
    "ends",
    [
        ("1 thou", "1 in"),
        ("0.0001 in", "0.0001 in"),
        ("0 in", "1/3001 in"),
        ("-1 thou", "1 thou"),
        ("1/3 in", "1/3 in"),
    ],
)
@given(data=st.data())
def test_sizes_lie_between_any_two(data: st.DataObject, ends: tuple[str, str]) -> None:
    """From a thou up none could be drawn."""
    assert Quantity(ends[0]) <= data.draw(sizes(*ends)) <= Quantity(ends[1])


@given(written_sizes(st.integers(1, 4000).map(lambda many: Quantity(Fraction(many, 32)))))
def test_no_written_form_has_a_second_meaning(written: WrittenForm) -> None:
    """7 3/32 mm was among them, which no rule of millimetres has."""
    assert read(written.text) == written.size


def test_the_least_is_not_over_the_most() -> None:
    with pytest.raises(ShopError, match="the least of the sizes, 2 in, is over the most, 1 in"):
        sizes("2 in", "1 in")


def test_a_rule_without_a_mark_between_is_refused() -> None:
    with pytest.raises(ShopError, match="no multiple of 1 in lies"):
        sizes("1/4 in", "1/2 in", rule=Rule(1))
