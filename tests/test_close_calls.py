"""Comparisons by less than a millimetre, and kept totals whose ends are nearest to those asked for."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop import Quantity, divide


def mm(text: str) -> Quantity:
    return Quantity.millimetres(Fraction(text))


def test_order_tells_sizes_less_than_a_millimetre_apart():
    assert not mm("2") <= mm("1.5")
    assert mm("1.5") <= mm("2")
    assert mm("2") <= mm("2")
    assert not mm("1.5") >= mm("2")
    assert not mm("2") < mm("1.5")
    assert not mm("2") < mm("2")


def test_a_kept_total_moves_the_ends_to_those_nearest_to_the_ones_asked_for():
    # Worked by hand in 64ths: 128 = 5 k + 2 m has m = 14 at k = 20, 9 at k = 22, 4 at k = 24.
    # With 8 asked for, 9 is one off and 4 is four off; with 5 asked for, 4 is nearer.
    for asked, space, end in (("1/8", "11/32", "9/64"), ("5/64", "3/8", "1/16")):
        kept = divide("2 in", 5, ends=Quantity.inches(Fraction(asked))).kept_total
        assert kept is not None
        assert (kept.space.inch, kept.ends.inch) == (Fraction(space), Fraction(end))
