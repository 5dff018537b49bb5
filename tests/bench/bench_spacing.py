"""divide and snap against plain search over every division: a ratio, and the same answers.

Run it by itself: python tests/bench/bench_spacing.py
"""

from __future__ import annotations

import random
from fractions import Fraction
from time import perf_counter

from fractions_shop import Quantity, divide, snap
from fractions_shop.size.rule import Rule

STEP = Fraction(127, 320)  # 1/64 in, in mm


def searched(total: Fraction, count: int) -> Fraction:
    """The nearest total that divides, by trying every space up to twice the one wanted."""
    most = int(2 * total / count / STEP) + 2
    totals = [count * k * STEP for k in range(1, most)]
    return min(totals, key=lambda t: (abs(t - total), t))


def nearest(total: Fraction) -> Fraction:
    """The nearest division, by trying each."""
    return min((k * STEP for k in range(int(total / STEP) + 2)), key=lambda t: abs(t - total))


def main() -> None:
    """Print the table."""
    rng = random.Random(64)
    cases = [(Fraction(rng.randrange(2_000, 60_000), 100), rng.randrange(2, 12)) for _ in range(300)]
    rule = Rule("64ths")
    rows = []
    for name, ours, plain in (
        (
            "divide",
            lambda t, n: divide(Quantity(t), n, rule).nearest.change.value,
            lambda t, n: searched(t, n) - t,
        ),
        ("snap", lambda t, n: snap(Quantity(t), rule).error.value, lambda t, n: nearest(t) - t),
    ):
        started = perf_counter()
        found = [abs(ours(t, n)) for t, n in cases]
        took = perf_counter() - started
        started = perf_counter()
        wanted = [abs(plain(t, n)) for t, n in cases]
        by_search = perf_counter() - started
        assert found == wanted, name
        rows.append(
            f"| {name} | {1e6 * took / len(cases):.0f} µs | {by_search / took:.0f} times as quick as plain search |"
        )
    print("\n".join(["| what | took | as a ratio |", "| --- | --- | --- |", *rows]))


if __name__ == "__main__":
    main()
