"""To and from pint, exactly; pint itself is imported only when one of these is called.

User text never goes to pint: it reads `3 1/2 in` as 3/2 in and says nothing. The lengths
that pint knows and we do not are kept in `other_lengths`.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from fractions_shop.errors import ArgumentError, FloatRefused, ShopError
from fractions_shop.size import borrowed
from fractions_shop.size.other_lengths import NOT_EXACT
from fractions_shop.size.quantity import Quantity, exact


@cache
def registry() -> Any:
    """Our pint registry, in which every number is a Fraction."""
    import pint

    borrowed.stand_above_pint()
    return pint.UnitRegistry(non_int_type=Fraction)


def to_pint(quantity: Quantity, registry: Any = None) -> Any:
    """`quantity` as a pint quantity in mm**power, its magnitude an exact Fraction.

    `registry` is the pint registry to make it in; ours if none is given. Pint has no place for
    `approximate` and the standing: they stay behind. ArgumentError for what is no Quantity.

    >>> str(to_pint(Quantity.inches(2)))
    '254/5 millimeter'
    """
    if not isinstance(quantity, Quantity):
        raise ArgumentError(
            f"to_pint takes a Quantity, not {type(quantity).__name__}: read() text first, and of limits take .lower and .upper"
        )
    if registry is None:
        registry = globals()["registry"]()
    if quantity.power == 0:
        return registry.Quantity(quantity.value, "dimensionless")
    return registry.Quantity(quantity.value, registry.Unit("millimeter") ** quantity.power)


def from_pint(quantity: Any, *, within: str | Quantity | None = None) -> Quantity:
    """A pint length (or power of one), or a unit of length, as an exact Quantity.

    The magnitude must be an int or a Fraction; a float is refused (FloatRefused) unless
    `within` says how far to trust it. ShopError if it is not a power of a length, rests
    on a measurement or on pi, or is in a unit that its own registry defines otherwise
    than pint does. A Quantity of ours comes back as it is.

    >>> from_pint(registry().Quantity(Fraction(65, 32), "inch")).mm
    Fraction(1651, 32)
    """
    if isinstance(quantity, Quantity):
        return quantity
    if not hasattr(quantity, "_REGISTRY"):
        raise ArgumentError(f"a pint length is needed, not {type(quantity).__name__}")
    if not hasattr(quantity, "magnitude"):
        quantity = quantity._REGISTRY.Quantity(1, quantity)  # a unit is one of it
    if isinstance(quantity.magnitude, Quantity):
        # Where pint was loaded later than this library, it takes a size times a unit for so many of the unit.
        return quantity.magnitude * from_pint(quantity.units)
    written = dict(quantity.unit_items())
    if any(power != int(power) for power in written.values()):
        # Not by pint, which cannot write a power that is a Fraction.
        raise ShopError(f"{_unit_text(written)} is not an exact length or a power of one")
    powers = {unit: int(power) for unit, power in written.items()}
    # Only the unit is converted, in our own exact registry: a registry that counts in
    # floats would make an exact inch 25.399999999999999 mm.
    factor, power = _factor(powers, quantity)
    magnitude = quantity.magnitude
    if isinstance(magnitude, float) and within is not None:
        if power != 1:
            raise ShopError("only a measured length can be taken from a float")
        trusted = Quantity.measured(magnitude, "mm", within)
        return Quantity(trusted.value * factor, 1, True, trusted.within)
    try:
        return Quantity(exact(magnitude) * factor, power)
    except FloatRefused:
        raise FloatRefused(
            f"pint gave the float {magnitude!r}; use a registry with non_int_type=Fraction, "
            "or say how far to trust it: from_pint(size, within='0.01 mm')"
        ) from None


def _unit_text(powers: Mapping[str, Any]) -> str:
    """A pint unit as it is written: `inch ** 2`, `inch ** (1/2)`."""
    texts = (
        unit if power == 1 else f"{unit} ** {f'({power})' if '/' in str(power) else power}"
        for unit, power in powers.items()
    )
    return " * ".join(texts) or "dimensionless"


def _factor(powers: dict[str, int], quantity: Any) -> tuple[Fraction, int]:
    """Exact mm**power in one of a pint unit, by our registry, and the power."""
    import pint

    own = registry()
    unit_text = _unit_text(powers)
    try:
        unit = own.Quantity(Fraction(1), own.parse_units(unit_text)).to_base_units()
    except pint.UndefinedUnitError:
        raise ShopError(
            f"{unit_text} is not a unit that pint defines, so its exact length is not known"
        ) from None
    dimensions = dict(unit.dimensionality)
    power = int(dimensions.pop("[length]", 0))
    inexact = NOT_EXACT.intersection(powers) or isinstance(unit.magnitude, float)
    if dimensions or inexact or (power == 0 and powers):
        raise ShopError(f"{unit_text} is not an exact length or a power of one")
    factor = exact(unit.magnitude) * Fraction(1000) ** power
    theirs = quantity._REGISTRY
    if theirs is not own:
        there = (
            float(theirs.Quantity(1, theirs.parse_units(unit_text)).to_base_units().magnitude) * 1000.0**power
        )
        if abs(there / float(factor) - 1) > 1e-9:
            raise ShopError(f"{unit_text} has another size in that registry than in pint itself")
    return factor, power
