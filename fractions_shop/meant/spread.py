"""How readings scatter together: the covariance of all, errors in common included, and what these must have been."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fractions_shop.meant.readings import Reading
from fractions_shop.meant.shared import CommonError, Zero, moments
from fractions_shop.size.quantity import Quantity


def covariance(read: Sequence[Reading], more: Sequence[float]) -> list[list[float]]:
    """In mm^2; each reading has the standard deviation `more` besides its own."""
    spread = [[0.0] * len(read) for _ in read]
    for i, (reading, extra) in enumerate(zip(read, more, strict=True)):
        spread[i][i] = reading.width**2 + extra**2
    for common in {shared for reading in read for shared in reading.shared}:
        sigma = moments(common)[1]
        moves = [
            (1.0 if isinstance(common, Zero) else float(reading.size.mm)) * sigma * (common in reading.shared)
            for reading in read
        ]
        for i, left in enumerate(moves):
            for j, right in enumerate(moves):
                spread[i][j] += left * right
    return spread


def shift(reading: Reading) -> float:
    """How much larger than it reads a size is on average, by the errors that it shares."""
    return sum(
        moments(error)[0] * float(reading.size.mm) for error in reading.shared if not isinstance(error, Zero)
    )


def common_errors(readings: Mapping[str, Reading], sizes: Mapping[str, Quantity]) -> tuple[CommonError, ...]:
    """What the errors in common must be, if these sizes were meant: the least squares with their prior."""
    errors = []
    for common in dict.fromkeys(shared for reading in readings.values() for shared in reading.shared):
        mean, sigma = moments(common)
        weight, pull = 1 / sigma**2, mean / sigma**2
        carriers = [(reading, sizes[name]) for name, reading in readings.items() if common in reading.shared]
        for reading, size in carriers:
            moves = -1.0 if isinstance(common, Zero) else float(reading.size.mm)
            weight += (moves / reading.width) ** 2
            pull += moves * float(size.mm - reading.middle) / reading.width**2
        errors.append(CommonError(common, pull / weight, weight**-0.5, len(carriers)))
    return tuple(errors)
