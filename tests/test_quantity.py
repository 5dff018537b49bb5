"""Quantity and Angle: exact, frozen, ordered, and closed to floats."""

from __future__ import annotations

import csv
import pickle
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from operator import add, eq, ge, gt, le, lt, mul, sub, truediv
from pathlib import Path

import pytest
from over_all import over

from fractions_shop.errors import DimensionError, FloatRefused, ShopError
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.units import a_power, power_name

DATA = Path(__file__).parent / "data"
TWO = Quantity.inches(2)


def _rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(
    "row", _rows("conversions_published.csv"), ids=lambda r: f"{r['number']} {r['unit']}"
)
def test_conversion_is_the_published_one(row: dict[str, str]) -> None:
    assert Quantity.of(Fraction(row["number"]), row["unit"]).mm == Fraction(row["mm"])


@over(_rows("inch_64ths.csv"), lambda r: r["fraction"])
def test_64ths_are_those_of_the_published_table(row: dict[str, str]) -> None:
    size = Quantity.inches(Fraction(row["fraction"]))
    # The four-place column is printed; the full ones are arithmetic and no published check.
    assert abs(size.inch - Fraction(row["inch4_printed"])) <= Fraction(1, 20_000)
    assert (size.inch, size.mm) == (Fraction(row["inch"]), Fraction(row["mm"]))


def test_a_float_is_refused_by_name() -> None:
    for make in (Quantity, Quantity.inches, Quantity.millimetres, Quantity.number):
        with pytest.raises(FloatRefused, match=r"Quantity\.measured"):
            make(10.31)  # type: ignore[arg-type]
    with pytest.raises(FloatRefused):
        Quantity.of(0.5, "in")  # type: ignore[arg-type]
    for doing in (
        lambda: TWO * 0.5,
        lambda: 0.5 * TWO,
        lambda: TWO / 2.0,
        lambda: TWO + 1.0,
        lambda: 1.0 / TWO,
    ):
        with pytest.raises(FloatRefused):
            doing()


def test_a_bool_or_text_is_no_number() -> None:
    with pytest.raises(TypeError, match="bool"):
        Quantity(True)
    with pytest.raises(TypeError, match="str"):
        Quantity.inches("2")  # type: ignore[arg-type]


def test_an_angle_is_no_size() -> None:
    with pytest.raises(DimensionError, match="this is an angle, where a size is needed"):
        Quantity(Angle(Fraction(1)))  # type: ignore[arg-type]


def test_a_measured_float_is_the_decimal_it_prints_and_says_how_far_to_trust_it() -> None:
    size = Quantity.measured(10.31, "mm", within="0.01 mm")
    assert size.mm == Fraction("10.31")
    assert size.approximate
    assert size.within == Quantity.millimetres(Fraction(1, 100))
    assert (-size).within == size.within
    assert (size * 2).approximate


def test_a_measured_fraction_is_taken_too() -> None:
    assert Quantity.measured(Fraction(1, 3), "in", TWO).inch == Fraction(1, 3)  # type: ignore[arg-type]


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_a_float_that_is_no_number_is_no_size(number: float) -> None:
    with pytest.raises(ShopError, match="not a size"):
        Quantity.measured(number, "mm", "0.01 mm")


@pytest.mark.parametrize("within", ["0 mm", "-1 mm", "0.01", "wide", "1/0 mm", "0.01 lb"])
def test_how_far_to_trust_must_be_a_length_above_zero(within: str) -> None:
    with pytest.raises(ShopError):
        Quantity.measured(10.31, "mm", within)


@pytest.mark.parametrize("power", [-1, 0, 2])
def test_only_a_length_says_how_far_to_trust_a_size(power: int) -> None:
    with pytest.raises(ShopError, match="a length above zero"):
        Quantity.measured(10.31, "mm", Quantity(Fraction(1), power))


def test_it_is_frozen_and_hashable_and_pickles() -> None:
    with pytest.raises(AttributeError):
        TWO.value = Fraction(1)  # type: ignore[misc]
    assert {TWO: 1}[Quantity.millimetres(Fraction("50.8"))] == 1
    assert pickle.loads(pickle.dumps(TWO)) == TWO


def test_equality_looks_at_size_and_kind_alone() -> None:
    assert Quantity(Fraction(127, 5), 1, True) == Quantity.inches(1)
    assert Quantity(Fraction(2), 1) != Quantity(Fraction(2), 0)
    assert TWO != 2
    assert TWO != "2 in"


@pytest.mark.parametrize(
    ("unit", "expected"),
    [("in", 2), ("mm", Fraction("50.8")), ("thou", 2000), ("ft", Fraction(1, 6)), ("cm", Fraction("5.08"))],
)
def test_in_unit(unit: str, expected: Fraction) -> None:
    assert TWO.in_unit(unit) == expected


def test_an_area_in_a_unit_is_in_that_unit_squared() -> None:
    assert (TWO * TWO).in_unit("in") == 4
    assert (TWO * TWO).in_unit("mm") == Fraction("2580.64")
    assert (1 / TWO).in_unit("in") == Fraction(1, 2)


@pytest.mark.parametrize("unit", ["lb", "tpi", "", "tenths"])
def test_a_unit_that_is_none_is_refused(unit: str) -> None:
    with pytest.raises(ShopError):
        TWO.in_unit(unit)


def test_a_word_of_two_meanings_is_refused_with_both() -> None:
    with pytest.raises(ShopError, match=r"0\.001 in, or a millimetre"):
        Quantity.of(3, "mil")


def test_only_a_length_has_inches_and_millimetres() -> None:
    with pytest.raises(DimensionError, match="area, where a length"):
        _ = (TWO * TWO).mm
    with pytest.raises(DimensionError, match="plain number"):
        _ = (TWO / TWO).inch


def test_unlike_kinds_do_not_add() -> None:
    with pytest.raises(DimensionError, match="cannot add a length and a plain number"):
        TWO + 2
    with pytest.raises(DimensionError, match="cannot compare"):
        _ = TWO < 2
    with pytest.raises(DimensionError, match="cannot subtract"):
        TWO - TWO * TWO


@pytest.mark.parametrize("mm", ["1/1000", "1/2", "1", "2"])
def test_the_least_difference_counts_in_order(mm: str) -> None:
    one, more, same = Quantity.inches(2), TWO + Quantity(Fraction(mm)), Quantity(Fraction("50.8"), 1, True)
    assert (one < more, one <= more, one > more, one >= more) == (True, True, False, False)
    assert (more < one, more <= one, more > one, more >= one) == (False, False, True, True)
    assert (one < same, one <= same, one > same, one >= same) == (False, True, False, True)


def test_a_plain_number_scales_on_either_side() -> None:
    assert 3 * TWO == TWO * 3 == TWO * Quantity.number(3) == Quantity.inches(6)
    assert Quantity.number(1) / TWO == 1 / TWO
    assert Quantity.number(3) - 1 == 3 - Quantity.number(1) == Quantity.number(2)
    assert sum([TWO, TWO], Quantity(Fraction(0))) == Quantity.inches(4)


@pytest.mark.parametrize("mm", ["0", "1/1000", "-1/1000", "1/2", "-1/2", "50.8", "-50.8"])
def test_the_size_without_its_sign(mm: str) -> None:
    assert str(abs(Quantity(Fraction(mm))).mm) == str(Fraction(mm.removeprefix("-")))
    assert abs(Quantity(Fraction(mm), 2)).power == 2


def test_a_plus_sign_changes_nothing() -> None:
    assert (+TWO).mm == Fraction("50.8")
    assert (+-TWO).mm == Fraction("-50.8")


def test_what_is_approximate_stays_so_when_subtracted_or_divided() -> None:
    near = Quantity(Fraction(1), 1, True)
    for one, other in ((near, TWO), (TWO, near)):
        assert (one - other).approximate
        assert (one / other).approximate
    assert not (TWO - TWO).approximate
    assert not (TWO / TWO).approximate
    assert (near**2).approximate
    assert (1 / near).approximate


def test_nothing_is_divided_by_zero() -> None:
    with pytest.raises(ZeroDivisionError, match="nothing can be divided by zero"):
        TWO / 0
    with pytest.raises(ZeroDivisionError, match="nothing can be divided by zero"):
        1 / (TWO - TWO)
    with pytest.raises(ZeroDivisionError, match="nothing can be divided by zero"):
        (TWO - TWO) ** -1


def test_a_negative_power_is_the_power_of_what_is_left_over() -> None:
    # (50.8 mm)^-1 = 5/254 per mm and (1 mm)^-2 = 1 per mm^2, by arithmetic.
    assert (TWO**-1, (TWO**-1).power) == (Quantity(Fraction(5, 254), -1), -1)
    assert Quantity(Fraction(1)) ** -2 == Quantity(Fraction(1), -2)
    assert Quantity(Fraction(-2)) ** -1 == Quantity(Fraction(-1, 2), -1)
    assert TWO / -1 == -TWO
    nothing = TWO - TWO
    assert nothing**0 == Quantity.number(1)


def test_a_power_must_be_whole() -> None:
    with pytest.raises(TypeError):
        TWO ** Fraction(1, 2)  # type: ignore[operator]


@pytest.mark.parametrize("doing", [add, sub, mul, truediv, lt, le, gt, ge], ids=lambda f: f.__name__)
@pytest.mark.parametrize("other", ["1 in", None, [1], Angle(Fraction(1))], ids=repr)
def test_what_is_foreign_is_no_part_of_a_sum(
    doing: Callable[[object, object], object], other: object
) -> None:
    for one, two in ((TWO, other), (other, TWO)):
        with pytest.raises(TypeError):
            doing(one, two)


class Guest:
    """Something else that knows what to do with a size."""

    def __radd__(self, size: object) -> str:
        return "taken in"

    __rsub__ = __rmul__ = __rtruediv__ = __rpow__ = __radd__

    def __eq__(self, other: object) -> bool:
        return True

    __hash__ = None  # type: ignore[assignment]


def test_what_is_foreign_is_left_to_it() -> None:
    guest = Guest()
    assert [TWO + guest, TWO - guest, TWO * guest, TWO / guest, TWO**guest] == ["taken in"] * 5  # type: ignore[operator]
    assert guest == TWO
    assert eq(TWO, guest)


@pytest.mark.parametrize(
    ("power", "name"),
    [(0, "plain number"), (1, "length"), (2, "area"), (3, "volume"), (-1, "number per length"),
     (4, "length to the power 4")],
)  # fmt: skip
def test_power_names(power: int, name: str) -> None:
    assert power_name(power) == name


@pytest.mark.parametrize(
    ("power", "said"),
    [(0, "a plain number"), (1, "a length"), (2, "an area"), (3, "a volume"), (-1, "a number per length"),
     (4, "a length to the power 4")],
)  # fmt: skip
def test_powers_are_said_with_their_article(power: int, said: str) -> None:
    assert a_power(power) == said


def test_repr_shows_both_units_and_what_is_approximate() -> None:
    assert repr(TWO) == "Quantity(2 in = 254/5 mm)"
    assert repr(Quantity(Fraction(1), 1, True)) == "Quantity(5/127 in = 1 mm, approximate)"
    assert repr(Quantity(Fraction(3), 2)) == "Quantity(3 mm^2)"
    assert repr(Quantity(Fraction(3), 0)) == "Quantity(3)"


class TestAngle:
    def test_arithmetic_is_exact(self) -> None:
        third = Angle(Fraction(1, 3))
        assert third + third + third == Angle(Fraction(1))
        assert third * 3 == 3 * third == Angle(Fraction(1))
        assert Angle(Fraction(1)) / 3 == third
        assert third - third == Angle(Fraction(0))
        assert abs(-third) == third
        assert -third < third

    def test_a_float_is_refused(self) -> None:
        with pytest.raises(FloatRefused):
            Angle(0.5)  # type: ignore[arg-type]
        with pytest.raises(TypeError):
            Angle(Fraction(1)) * 0.5  # type: ignore[operator]

    @pytest.mark.parametrize("doing", [add, sub, mul, truediv], ids=lambda f: f.__name__)
    @pytest.mark.parametrize("other", [TWO, "1 deg", None], ids=repr)
    def test_it_joins_no_length(self, doing: Callable[[object, object], object], other: object) -> None:
        with pytest.raises(TypeError):
            doing(Angle(Fraction(1)), other)

    def test_approximate_is_carried_on_and_not_compared(self) -> None:
        near = Angle(Fraction(1), True)
        assert near == Angle(Fraction(1))
        assert not Angle(Fraction(1)).approximate
        assert not (Angle(Fraction(1)) + Angle(Fraction(1))).approximate
        assert (Angle(Fraction(1)) - near).approximate
        assert abs(near).approximate
        assert (near + Angle(Fraction(1))).approximate
        assert (-near * 2 / 3).approximate


@pytest.mark.parametrize("text", ["Infinity", "-Infinity", "NaN"])
def test_what_is_not_finite_is_no_size(text):
    with pytest.raises(ShopError, match="is not a size"):
        Quantity(Decimal(text))


def test_a_number_holds_a_plain_one_so_many_times_and_leaves_a_rest():
    two = Quantity(Fraction(2), 0)
    assert (7 // two, 7 % two, divmod(7, two)) == (3, Quantity(Fraction(1), 0), (3, Quantity(Fraction(1), 0)))
    assert (two // 7, two % 7) == (0, two)
    with pytest.raises(DimensionError):
        _ = 7 // Quantity(Fraction(2), 1)


@pytest.mark.parametrize(("power", "kind"), [(0, "a plain number"), (2, "an area"), (3, "a volume")])
def test_what_is_no_length_has_neither_mm_nor_inches(power, kind):
    for ask in (lambda: Quantity(Fraction(2), power).mm, lambda: Quantity(Fraction(2), power).inch):
        with pytest.raises(DimensionError, match=f"this is {kind}, where a length is needed"):
            ask()
