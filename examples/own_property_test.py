"""A property test of a user's own function, with sizes and written forms made by fractions_shop.testing."""

from fractions import Fraction

from hypothesis import given, settings

from fractions_shop import Quantity, read_size
from fractions_shop.testing import WrittenForm, sizes, written_sizes


def with_kerf(parts: list[Quantity], kerf: Quantity) -> Quantity:
    """The length of bar that parts take when each is sawn off: the function under test."""
    return sum(parts, Quantity(0)) + len(parts) * kerf


@settings(deadline=None, derandomize=True)
@given(first=sizes("1/4 in", "12 in"), second=sizes("1/4 in", "12 in", rule="64ths"))
def test_order_makes_no_difference(first: Quantity, second: Quantity) -> None:
    kerf = read_size("3/64 in")
    assert with_kerf([first, second], kerf) == with_kerf([second, first], kerf)


@settings(deadline=None, derandomize=True)
@given(written=written_sizes(sizes("1/4 in", "12 in")))
def test_however_a_part_is_written_it_takes_the_same(written: WrittenForm) -> None:
    kerf = Quantity(Fraction(0), 1)
    assert with_kerf([read_size(written.text)], kerf) == written.size


if __name__ == "__main__":
    test_order_makes_no_difference()
    test_however_a_part_is_written_it_takes_the_same()
    print("both properties hold")
