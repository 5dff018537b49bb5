"""What a maker calls a length to a whole power: a length, an area, a volume, a plain number."""

from __future__ import annotations

#: Names of the powers of a length, for sentences.
POWER_NAMES = {0: "plain number", 1: "length", 2: "area", 3: "volume", -1: "number per length"}


def power_name(power: int) -> str:
    """What a maker calls a quantity of this power: `length`, `area`, ..."""
    return POWER_NAMES.get(power, f"length to the power {power}")


def a_power(power: int) -> str:
    """The same with its article: `a length`, `an area`."""
    name = power_name(power)
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
