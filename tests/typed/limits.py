"""Limits, fits and what several pieces come to."""

from fractions_shop import Fit, Limits, Quantity, Zone, fit, read, read_limits


def clearance(size: str, zones: str) -> tuple[Quantity, Quantity] | None:
    found: Fit | Zone = fit(size, zones)
    return (found.least, found.most) if isinstance(found, Fit) else None


def widest(written: str) -> Quantity:
    size: Quantity | Limits = read(written)
    return size.upper if isinstance(size, Limits) else size


slat: Limits = read_limits("13/32 in +- 1/64 in")
stack: Limits = slat.pieces(4)
print(
    clearance("1/4 in", "H7/g6"), widest("1/2 in +1/-2 thou"), stack.root_sum_square.spread, f"{stack:mm.2}"
)
