"""What the library takes as a number, a size, a name; and the error that says what it does not."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from doubtful_forms import TWO_MEANINGS

import fractions_shop as shop
from fractions_shop import ArgumentError, Limits, Quantity, ShopError

INCH = Quantity.inches(1)


@pytest.mark.parametrize(
    ("number", "mm"),
    [
        pytest.param(np.float64(5.5), "5.5", id="float64"),
        pytest.param(np.float32(5.1), "5.1", id="float32"),
        pytest.param(np.int64(5), "5", id="int64"),
        pytest.param(Decimal("5.10"), "5.1", id="decimal"),
        pytest.param(Fraction(11, 2), "5.5", id="fraction"),
        pytest.param(5.1, "5.1", id="float"),
    ],
)
def test_any_real_number_may_be_measured(number: Any, mm: str) -> None:
    size = Quantity.measured(number, "mm", within="0.1 mm")
    assert size.mm == Fraction(mm)
    assert size.approximate


@pytest.mark.parametrize("number", [float("nan"), float("inf"), np.float32("nan"), Decimal("inf")])
def test_what_is_not_finite_is_no_size(number: Any) -> None:
    with pytest.raises(ShopError, match="is not a size"):
        Quantity.measured(number, "mm", within="0.1 mm")


def test_a_decimal_is_what_its_figures_say() -> None:
    assert Quantity.inches(Decimal("0.1")).inch == Fraction(1, 10)
    assert (INCH * Decimal("2.5")).inch == Fraction(5, 2)


def test_whole_numbers_of_other_libraries_count_and_multiply() -> None:
    assert shop.divide("2 in", np.int64(5)).space == shop.divide("2 in", 5).space
    assert (np.int64(3) * INCH) == INCH * np.int64(3) == 3 * INCH
    assert INCH ** np.int64(2) == INCH * INCH
    with pytest.raises(shop.FloatRefused):
        np.float64(3) * INCH


def test_sizes_and_limits_add_up_by_sum() -> None:
    assert sum([INCH, INCH]) == 2 * INCH
    assert 0 + INCH == INCH == INCH - 0
    size = shop.read("1 in ± 1/64 in")
    assert sum([size, size]) == size + size  # type: ignore[list-item]
    with pytest.raises(shop.DimensionError):
        INCH + 1


def test_one_zone_and_a_class_of_fit_are_taken_as_in_the_language() -> None:
    bench = shop.Session()
    for size, name in (("25 mm", "H7"), ("1/2 in", "RC5"), ("1/2 in", "LN2"), ("10 mm", "H7/g6")):
        assert shop.fit(size, name) == bench.answer(f"fit {size} {name}").result  # type: ignore[union-attr]


def test_a_zone_is_one_part_however_often_it_is_asked() -> None:
    hole = shop.fit("25 mm", "H7")
    assert (hole.limits - hole.limits).spread == 0  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: shop.thread(None), "a thread is named by text such as '6 BA', not by NoneType"),
        (lambda: shop.substitute(None), "a thread is named by text such as '6 BA', not by NoneType"),
        (lambda: shop.fit("1 in", None), "a fit is named by text such as 'H7/g6', not by NoneType"),
        (
            lambda: Limits(INCH, "1 in", INCH),
            "a size and its plus and minus are Quantities, and this is str; "
            "text is read by read('1/2 in +1/-2 thou')",
        ),
        (
            lambda: Quantity.measured(5.5, "mm", within=None),
            "expected how far to trust it, such as '0.01 mm', not NoneType",
        ),
        (
            lambda: Quantity.measured(None, "mm", within="1 mm"),
            "expected what an instrument gave, a number, not NoneType",
        ),
        (
            lambda: Quantity.measured(5.5, None, "1 mm"),
            "a unit is named by text such as 'mm', not by NoneType",
        ),
        (
            lambda: Quantity(Fraction(1), 1.5),
            "the power of a size must be a whole number, such as 2, not 1.5",
        ),
        (
            lambda: Quantity(Fraction(1), "a"),
            "the power of a size must be a whole number, such as 2, not str",
        ),
        (lambda: Quantity(None), "expected an int, a Fraction or a Decimal, not NoneType"),
        (lambda: shop.divide(None, 5), "expected a size such as '2 1/32 in', not NoneType"),
        (lambda: shop.divide("2 in", None), "the number of spaces must be a whole number such as 5"),
        (lambda: shop.divide("2 in", 2.5), "the number of spaces must be a whole number such as 5"),
        (lambda: shop.snap([]), "expected a size such as '2 1/32 in', not list"),
        (lambda: shop.recover(None), "expected a size such as '2 1/32 in', not NoneType"),
        (lambda: shop.drills(None), "expected a size such as '2 1/32 in', not NoneType"),
        (lambda: shop.Rule(None), "a rule is named by text such as '64ths' or 'half mm'"),
        (lambda: shop.read(None), "read takes a written size, not NoneType"),
        (
            lambda: shop.cut_from("36 in", {"rail": "3 in"}),
            "pieces have each a size and how many, {'runner': ('11 in', 24)}, not 'rail': '3 in'",
        ),
        (
            lambda: shop.cut_from("36 in", [("rail", "3 in", 2)]),
            "pieces have each a size and how many, {'runner': ('11 in', 24)}, not list",
        ),
        (
            lambda: shop.walls(shop.face("2 in"), shop.hole("1/8 in", ("1 in", "1 in"))),
            "walls are those of a face and of a list of what is cut in it: walls(plate, [pins])",
        ),
        (
            lambda: shop.walls("2 in", []),
            "walls are those of a face and of a list of what is cut in it: walls(plate, [pins])",
        ),
        (
            lambda: shop.recover("51.5 mm", shrunk="3 %"),
            "how far it has shrunk is a share, Fraction(3, 100), not str",
        ),
        (lambda: shop.Sheet.from_text(3), "a sheet is made of its text, not of int; read() takes a file"),
        (
            lambda: shop.Angle("30 deg"),
            "an angle is made of its degrees, not of text: Angle(Fraction(25, 2))",
        ),
        (lambda: shop.Session().answer(None), "a statement is text, and this is NoneType"),
    ],
)
def test_what_is_no_size_at_all_is_named_at_once(call: Any, message: str) -> None:
    with pytest.raises(ArgumentError) as error:
        call()
    assert str(error.value) == message
    assert isinstance(error.value, ShopError)
    assert isinstance(error.value, TypeError)


def _said(work: Any) -> tuple[type, str] | Any:
    try:
        return work()
    except ShopError as error:
        return type(error), str(error)


WRONG = [
    "banana",
    "",
    "2 tenths",
    "2 in x 3 in",
    "1,5 mm",
    "2 5/4 in",
    "1/0 in",
    "5 furlong",
    "21/2 in and more",
]


@pytest.mark.parametrize("text", [*TWO_MEANINGS, *WRONG])
def test_a_size_is_refused_as_read_refuses_it(text: str) -> None:
    refused = _said(lambda: shop.read(text))
    assert isinstance(refused, tuple)
    assert _said(lambda: shop.snap(text)) == refused
    assert _said(lambda: Quantity(text)) == refused
    assert _said(lambda: shop.divide(text, 5)) == refused


def test_an_angle_is_taken_as_it_is_written() -> None:
    """It was refused with the advice to write 30 deg, which was refused as well."""
    thirty = shop.Angle(Fraction(30))
    assert shop.arc("2 in", "30 deg") == shop.arc("2 in", thirty)
    assert shop.chord("2 in", "30°") == shop.chord("2 in", thirty)
    assert shop.bolt_circle(3, "3 in", "30 deg") == shop.bolt_circle(3, "3 in", thirty)
    pins = shop.hole("1/8 in", ("1 in", "1 in"), sunk="1/4 in", angle="100 deg")
    assert pins.angle == shop.Angle(Fraction(100))
    assert shop.slot("1 in", "1/4 in", ("1 in", "1 in"), turned="12°30'").turned == shop.Angle(
        Fraction(25, 2)
    )
    for wrong in (30, "30", "2 in", 0.5):
        with pytest.raises(
            shop.DimensionError, match="an angle is needed here, with its sign or word, such as 30 deg"
        ):
            shop.arc("2 in", wrong)  # type: ignore[arg-type]
    with pytest.raises(shop.InputError):
        shop.arc("2 in", "thirty degs")
    with pytest.raises(shop.InputError, match="this is not a size"):
        shop.read("30 deg")


def test_a_relation_is_made_of_counts() -> None:
    """It took text for its terms, and then had no repr."""
    for terms in ("rack", ["rack"], None):
        with pytest.raises(ArgumentError, match=r"Relation\.of"):
            shop.Relation(terms, "5 * bay")  # type: ignore[arg-type]
    with pytest.raises(shop.FloatRefused):
        shop.Relation.of({"rack": 1.5, "bay": -1})  # type: ignore[dict-item]


def test_a_trust_that_is_none_is_refused() -> None:
    with pytest.raises(ShopError, match="not 'rubbish'"):
        Quantity.measured(5.5, "mm", within="rubbish")
