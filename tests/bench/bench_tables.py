"""How long the tables take, as a part of what is allowed: under 1 is within it.

Run it by itself: python tests/bench/bench_tables.py
"""

from __future__ import annotations

from statistics import median
from time import perf_counter

from fresh import fresh

#: Milliseconds allowed.
LOOK_UP, LOAD = 10, 20

LOADING = """
from time import perf_counter
from fractions_shop.tables import drills, gauges, heads, names, rows, stock
start = perf_counter()
for name in names():
    rows(name)
drills.all_drills(), gauges.all_gauges(), heads.heads("M3")
[stock.stock(kind) for kind in stock.kinds()]
print(1000 * (perf_counter() - start))
"""
IMPORTING = """
from time import perf_counter
import fractions_shop.layout.spacing, fractions_shop.size.pint_bridge
start = perf_counter()
import fractions_shop.tables.{module}
print(1000 * (perf_counter() - start))
"""


def warm(call: str) -> float:
    """Milliseconds for one more call, the median of 200 sizes."""
    from fractions import Fraction

    from fractions_shop.size.quantity import Quantity
    from fractions_shop.tables import drills, gauges

    look_up = {"drills": drills.drills, "gauges": gauges.gauges}[call]
    taken = []
    for n in range(1, 201):
        size = Quantity(Fraction(n, 17))
        start = perf_counter()
        look_up(size)
        taken.append(1000 * (perf_counter() - start))
    return median(taken)


def main() -> None:
    """Print each figure as a ratio of what is allowed."""
    for what, took, allowed in [
        ("drills(size), warm", warm("drills"), LOOK_UP),
        ("gauges(size), warm", warm("gauges"), LOOK_UP),
        ("all tables, loaded and made", fresh(LOADING), LOAD),
        ("import of patterns", fresh(IMPORTING.format(module="patterns")), LOAD),
        ("import of drills and gauges", fresh(IMPORTING.format(module="stock")), LOAD),
    ]:
        print(f"{what:30} {took:8.3f} ms  {took / allowed:6.3f} of {allowed} ms")


if __name__ == "__main__":
    main()
