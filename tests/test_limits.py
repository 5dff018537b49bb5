"""Limits: upper and lower, worst case and likely, and the source each spread came from."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop import Session, read, read_limits
from fractions_shop.errors import ShopError
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.products import extreme
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH


def _inches(nominal: str, plus: str, minus: str) -> Limits:
    return Limits(*(Quantity.inches(Fraction(text)) for text in (nominal, plus, minus)))


PIN = _inches("1/2", "0.001", "0.002")


def test_upper_lower_spread_and_middle() -> None:
    assert (PIN.upper.inch, PIN.lower.inch) == (Fraction("0.501"), Fraction("0.498"))
    assert PIN.spread.inch == Fraction("0.003")
    assert PIN.half_spread.inch == Fraction("0.0015")
    assert PIN.middle.inch == Fraction("0.4995")
    assert PIN.power == 1
    assert not PIN.approximate


def test_both_limits_may_lie_on_one_side() -> None:
    shaft = _inches("1", "-0.001", "0.003")
    assert (shaft.upper.inch, shaft.lower.inch) == (Fraction("0.999"), Fraction("0.997"))
    assert shaft.nominal not in shaft


def test_the_upper_limit_must_not_lie_below_the_lower() -> None:
    with pytest.raises(ShopError, match="upper limit lies below"):
        _inches("1", "-0.003", "0.001")


def test_size_and_deviations_must_be_of_one_kind() -> None:
    with pytest.raises(ShopError, match="of one kind"):
        Limits(Quantity.inches(1), Quantity(Fraction(1), 0), Quantity.inches(0))


def test_containing() -> None:
    assert Quantity.inches(Fraction("0.501")) in PIN
    assert Quantity.inches(Fraction("0.5011")) not in PIN


def test_a_stack_of_parts_worst_case_and_likely() -> None:
    # Worst case adds the spreads; the likely one is the root of the sum of squares:
    # 3, 4 and 12 thou give 13 (3-4-12-13 is a right box). Common practice, no source.
    parts = [
        _inches("1", f"0.00{n}" if n < 10 else "0.012", f"0.00{n}" if n < 10 else "0.012") for n in (3, 4, 12)
    ]
    total = parts[0] + parts[1] + parts[2]
    assert total.half_spread.inch == Fraction("0.019")
    likely = total.root_sum_square
    assert likely.half_spread.inch == Fraction("0.013")
    assert not likely.approximate  # the root of a perfect square
    assert likely.nominal == total.nominal == Quantity.inches(3)


def test_likely_limits_stand_about_the_middle_not_the_nominal() -> None:
    total = _inches("1", "0.004", "0") + _inches("1", "0.006", "0")
    assert total.root_sum_square.middle.inch == Fraction("2.005")


def test_the_likely_limits_of_one_size_are_its_own() -> None:
    assert (PIN.root_sum_square.lower, PIN.root_sum_square.upper) == (PIN.lower, PIN.upper)
    assert not (PIN.root_sum_square).approximate


def test_contributions_name_the_largest_first() -> None:
    a, b = _inches("1", "0.001", "0.001").labelled("tray"), _inches("2", "0.005", "0.005").labelled("rail")
    found = (a + b).contributions
    assert [name for name, _ in found] == ["rail", "tray"]
    assert [reach.inch for _, reach in found] == [Fraction("0.005"), Fraction("0.001")]


def test_a_label_is_given_once() -> None:
    named = PIN.labelled("pin")
    assert named.labelled("other").contributions[0][0] == "pin"
    assert (named + PIN).labelled("sum").contributions[0][0] != "sum"


def test_arithmetic_with_exact_sizes() -> None:
    assert (PIN + Quantity.inches(1)).upper.inch == Fraction("1.501")
    assert (Quantity.inches(1) - PIN).lower.inch == Fraction("0.499")
    assert (2 * PIN).upper.inch == (PIN * 2).upper.inch == Fraction("1.002")
    assert (1 / PIN).upper.in_unit("in") == 1 / Fraction("0.498")
    assert (PIN / 2).lower.inch == Fraction("0.249")


def test_minus_turns_the_limits_about() -> None:
    assert ((-PIN).upper, (-PIN).lower) == (-PIN.lower, -PIN.upper)


def test_products_by_corners() -> None:
    product = _inches("2", "1", "1") * _inches("3", "1", "1")
    assert (product.lower.in_unit("in"), product.upper.in_unit("in")) == (2, 12)
    assert product.nominal.in_unit("in") == 6
    assert product.power == 2


def test_a_square_across_zero_starts_at_nought() -> None:
    square = _inches("0", "2", "1") ** 2
    assert (square.lower.in_unit("in"), square.upper.in_unit("in")) == (0, 4)
    cube = _inches("0", "2", "1") ** 3
    assert (cube.lower.in_unit("in"), cube.upper.in_unit("in")) == (-1, 8)


def test_the_power_nought_is_one() -> None:
    assert (PIN**0).nominal == Quantity.number(1)
    assert (PIN**0).spread == Quantity.number(0)


def test_a_size_across_zero_divides_nothing() -> None:
    across = _inches("0", "1", "1")
    for doing in (lambda: PIN / across, lambda: across**-1, lambda: 1 / across):
        with pytest.raises(ShopError, match="across zero"):
            doing()


def test_without_its_sign() -> None:
    assert abs(PIN) == PIN
    assert abs(-PIN).upper == PIN.upper
    across = abs(_inches("-1", "3", "1"))
    assert (across.lower.inch, across.upper.inch, across.nominal.inch) == (0, 2, 1)


def test_least_and_greatest() -> None:
    a, b = _inches("1", "3", "0"), _inches("2", "1", "0")
    least, greatest = extreme([a, b], min), extreme([a, b], max)
    assert (least.nominal.inch, least.lower.inch, least.upper.inch) == (1, 1, 3)
    assert (greatest.nominal.inch, greatest.lower.inch, greatest.upper.inch) == (2, 2, 4)


def test_an_exact_size_has_no_spread() -> None:
    assert limits_of(Quantity.inches(1)).spread == Quantity.inches(0)
    assert limits_of(3).nominal == Quantity.number(3)
    assert limits_of(PIN) is PIN


def test_two_cut_alike_are_two_pieces_and_equal() -> None:
    one, two = _inches("1/2", "0.001", "0.002"), _inches("1/2", "0.001", "0.002")
    assert one == two
    assert (one - two).spread.inch == Fraction("0.006")
    assert (one - one).spread == 0


@pytest.mark.parametrize(
    ("typed", "plain"),
    {
        "1 in +¹⁄₆₄/-0": "1 in +1/64/-0",
        "1 in +¹⁄₆₄/-¹⁄₃₂ in": "1 in +1/64/-1/32 in",
        "1 in 0/-¹⁄₆₄": "1 in +0/-1/64",
        "1 in +⅟64/-0": "1 in +1/64/-0",
        "1 in +1/₆₄/-0": "1 in +1/64/-0",
        "1 in +¹/64/0": "1 in +1/64/-0",
        "2 in +1 ¹⁄₆₄/-0 in": "2 in +65/64/-0 in",
        "1 in ± ¹⁄₆₄": "1 in ± 1/64",
    }.items(),
)
def test_limits_are_read_in_small_raised_and_lowered_figures(typed: str, plain: str) -> None:
    assert read(typed) == read(plain)


def test_a_plus_before_limits_changes_nothing():
    for text in ("2 in ± 1 thou", "10 mm +0.1/-0"):
        limits = read_limits(text)
        assert +limits == limits
        assert Session().answer(f"+({text})").value == limits


def test_what_is_made_of_other_sizes_is_another_thing():
    """A product is known by what it is made of: two alike cancel, two of other pieces never do."""
    one, other = read_limits("2 in ± 1 thou"), read_limits("3 in ± 1 thou")
    (square,), (again,), (another,) = ((size * size).terms for size in (one, one, other))
    assert square == again
    assert square != another
    assert square != "square"
    assert (one * one - one * one).plus.value == 0
    assert (one * one - other * other).plus.value > 0


def test_a_square_of_a_size_that_may_be_nought_reaches_it():
    """The slope is nought at one end alone: the area is all from 0 to 1 sq in, and shown to be."""
    size = read_limits("1/2 in ± 1/2 in")
    for made, most in ((size * size, 1), (size * size * size, 1), (size**2 + size**2, 2)):
        assert (made.lower.value, made.upper.value) == (0, most * INCH**made.power)
        assert not made.wide


def test_limits_that_rest_on_less_are_the_same_pieces_still():
    doubtful = PIN.resting_on("one source")
    assert (doubtful.standing, PIN.standing) == ("one source", "")
    assert (doubtful.lower, doubtful.upper) == (PIN.lower, PIN.upper)
    assert (doubtful - PIN).spread.value == 0
    assert doubtful.resting_on("one source") is doubtful
    assert PIN.resting_on("") is PIN


@pytest.mark.parametrize("reach", ["1/2 in +- 1/2 in", "0 in +- 1/64 in", "1/4 in +0/-1 in"])
def test_no_product_is_divided_by_what_reaches_nought(reach):
    through = read_limits(reach)
    for divided in (
        lambda: 1 / through,
        lambda: PIN / through,
        lambda: PIN * PIN / through,
        lambda: PIN * through / through,
    ):
        with pytest.raises(ShopError, match="across zero"):
            divided()
