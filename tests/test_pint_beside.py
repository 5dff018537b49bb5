"""Sizes and pint's lengths in one sum: whichever stands first, what comes of it is exact and ours."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pint
import pytest

from fractions_shop import (
    ArgumentError,
    FloatRefused,
    Limits,
    Quantity,
    ShopError,
    from_pint,
    read_limits,
    to_pint,
)

EXACT = pint.UnitRegistry(non_int_type=Fraction)
TWO = Quantity.inches(2)
INCH = EXACT.inch
FOOT = EXACT.Quantity(1, "foot")
to_pint(TWO)  # the library may have been loaded before pint, see the last test


@pytest.mark.parametrize(
    ("came", "wanted"),
    [
        (INCH * TWO, Quantity("2 sq in")),
        (TWO * INCH, Quantity("2 sq in")),
        (FOOT * TWO, Quantity("24 sq in")),
        (TWO * FOOT, Quantity("24 sq in")),
        (TWO + FOOT, Quantity.inches(14)),
        (FOOT + TWO, Quantity.inches(14)),
        (TWO - FOOT, Quantity.inches(-10)),
        (FOOT - TWO, Quantity.inches(10)),
        (FOOT / TWO, Quantity(6, 0)),
        (TWO / FOOT, Quantity(Fraction(1, 6), 0)),
        (INCH / TWO, Quantity(Fraction(1, 2), 0)),
        (sum([TWO, FOOT]), Quantity.inches(14)),
    ],
)
def test_arithmetic_gives_a_size_of_ours(came: object, wanted: Quantity) -> None:
    assert isinstance(came, Quantity)
    assert came == wanted


def test_so_many_go_in_and_what_is_left_whichever_stands_first() -> None:
    """The refusal said that a Quantity is no number."""
    assert (FOOT // TWO, TWO // INCH, divmod(FOOT, Quantity("5 in"))) == (6, 2, (2, TWO))
    assert (TWO % FOOT, FOOT % Quantity("5 in")) == (TWO, TWO)


def test_they_compare_and_are_equal() -> None:
    assert Quantity.inches(12) == FOOT
    assert FOOT == Quantity.inches(12)  # noqa: SIM300
    assert TWO != FOOT
    assert TWO < FOOT
    assert FOOT > TWO
    assert Quantity.inches(-1) < EXACT.Quantity(0, "inch")
    assert EXACT.Quantity(2, "second") != TWO


def test_limits_stay_limits() -> None:
    slot = read_limits("2 in +1/-2 thou")
    for came in (slot + FOOT, FOOT + slot):
        assert isinstance(came, Limits)
        assert (came.upper, came.lower) == (Quantity("14.001 in"), Quantity("13.998 in"))


def test_a_unit_is_one_of_it_and_a_size_of_ours_stays() -> None:
    assert from_pint(INCH) == Quantity.inches(1)
    assert from_pint(TWO) is TWO
    with pytest.raises(ArgumentError, match="a pint length is needed, not str"):
        from_pint("2 in")


@pytest.mark.parametrize(
    "other", [INCH**0.5, EXACT.inch ** Fraction(1, 2), EXACT.second, EXACT.Quantity(1, "kg")]
)
def test_what_is_no_length_is_refused(other: object) -> None:
    for work in (lambda: TWO * other, lambda: TWO + other, lambda: from_pint(other)):
        with pytest.raises(ShopError, match="is not an exact length or a power of one"):
            work()


def test_a_float_does_not_come_in_by_a_sum() -> None:
    rough = pint.UnitRegistry().Quantity(0.1, "inch")
    for work in (lambda: TWO + rough, lambda: rough + TWO, lambda: rough * TWO):
        with pytest.raises(FloatRefused):
            work()


def test_where_pint_was_loaded_last_its_wrapping_is_seen_through() -> None:
    """It then takes a size for the number of its quantity; what comes back across the bridge is right all the same."""
    code = (
        "from fractions_shop import Quantity, from_pint\n"
        "import pint\n"
        "from fractions import Fraction\n"
        "exact = pint.UnitRegistry(non_int_type=Fraction)\n"
        "print(from_pint(exact.inch * Quantity('2 in')) == Quantity('2 sq in'), exact.inch * Quantity('2 in'))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["True", "2", "sq", "in"]
