"""Sizes to pint and back without a float: a registry in which every number is a Fraction."""

from fractions import Fraction

import pint

from fractions_shop import FloatRefused, divide, from_pint, to_pint

exact: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)  # pyright: ignore[reportArgumentType]
bays = divide("2 in", 5, direction="up")

# To pint, into one's own registry; what pint works out there stays exact.
bay = to_pint(bays.space, exact)
print(f"{bay} is {bay.to('inch').magnitude} inch")
five = from_pint(5 * bay)
print(f"five bays are {five}, as they should be: {five == bays.total}")

# A pint length goes wherever a size does.
print(divide(exact.Quantity(Fraction(65, 32), "inch"), 5).space)

# A float comes back only by the caller's word.
rough = pint.UnitRegistry().Quantity(51.6, "mm")
try:
    from_pint(rough)
except FloatRefused as refused:
    print(f"refused: {str(refused).split(';')[0]}")
print(from_pint(rough, within="0.05 mm"))
