"""Written sizes, faults and statements, each with all that the program says of it."""

from __future__ import annotations

from fractions import Fraction

from case_files import answered, blocks, sizes, statements
from over_all import over

from fractions_shop import Session
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity

_POWERS = {"": 0, "in": 1, "in^2": 2, "in^3": 3}


def _expected(value: str) -> tuple[object, ...]:
    """`65/32 in`, `51.5 mm`, `20/in`, `12.5 deg`, a bare number, or `nominal, lower, upper unit`."""
    if value.endswith("/in"):
        return (Quantity(Fraction(value.removesuffix("/in")) / Fraction(254, 10), -1),)
    numbers, _, unit = (
        value.rpartition(" ") if value[-1] not in "0123456789" or "^" in value else (value, "", "")
    )
    parts = [Fraction(number) for number in numbers.split(", ")]
    if unit == "deg":
        return (Angle(parts[0]),)
    if unit == "mm":
        return tuple(map(Quantity, parts))
    power = _POWERS[unit]
    return tuple(Quantity(part * Fraction(254, 10) ** power, power) for part in parts)


@over(sizes("sizes.txt"))
def test_a_written_size_is_the_size_it_says(text: str, value: str) -> None:
    answer = Session().answer(text)
    assert answer is not None
    found = answer.value
    expected = _expected(value)
    if len(expected) == 3:
        assert isinstance(found, Limits)
        assert (found.nominal, found.lower, found.upper) == expected
    else:
        assert (found,) == expected
        assert type(found) is type(expected[0])


def test_every_way_of_writing_has_its_cases() -> None:
    assert len(sizes("sizes.txt")) >= 150
    assert len(set(sizes("sizes.txt"))) == len(sizes("sizes.txt"))
    assert len(blocks("faults.txt")) >= 60


@over(blocks("faults.txt"), lambda block: " ; ".join(statements(block)))
def test_a_fault_is_told_whole(block: tuple[str, ...]) -> None:
    assert answered(block) == list(block)


@over(blocks("statements.txt"), lambda block: " ; ".join(statements(block)))
def test_a_statement_is_answered_whole(block: tuple[str, ...]) -> None:
    assert answered(block) == list(block)
