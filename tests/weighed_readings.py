"""What tests ask of readings that were weighed."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.meant.found import Recovered
from fractions_shop.meant.readings import Reading, density


def density_of(reading: Reading, meant: Fraction, under: Fraction = Fraction(0)) -> float:
    """Likelihood per mm of a reading, had `meant` (mm) been meant of a piece that may be so far under its size."""
    lost = float(reading.worn.mm + under)
    return density(float(reading.size.mm - meant), reading.sigma, lost, float(reading.plated.mm))


def suspects(found: Recovered) -> list[int]:
    """The places in a list of the readings that may well be wrong, or of no round size."""
    return [place for place, row in enumerate(found.readings) if row.suspect]
