"""divide, share and snap against plain search over every division: a ratio, and the same answers.

Run it by itself: python tests/bench/bench_spacing.py
"""

from __future__ import annotations

import random
from fractions import Fraction
from math import lcm
from time import process_time

from fractions_shop import Quantity, divide, how_many, mark, places, share, snap
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


def common(total: Fraction, counts: tuple[int, ...]) -> Fraction:
    """The nearest total that falls into every count, by trying every number of divisions."""
    far = int(total / STEP) + lcm(*counts) + 1
    totals = [k * STEP for k in range(1, far) if all(k % n == 0 for n in counts)]
    return min(totals, key=lambda t: abs(t - total))


def ways(divisions: int, one: int, two: int) -> int:
    """How many pairs of sizes make a total, by trying every pair."""
    return sum(
        one * a + two * b == divisions
        for a in range(1, divisions // one + 1)
        for b in range(1, divisions // two + 1)
    )


def further_rows(rng: random.Random) -> list[str]:
    """The forms with several counts, bodies and shares."""
    counts = [(3, 4), (5, 7), (4, 6), (7, 9), (2, 3, 5)]
    several = [(Fraction(rng.randrange(2_000, 60_000), 100), rng.choice(counts)) for _ in range(100)]
    whole = [(rng.randrange(800, 2400), rng.randrange(2, 9), rng.randrange(2, 9)) for _ in range(20)]
    return [
        _row(
            "divide into several",
            several,
            lambda t, n: abs(divide(Quantity(t), n).nearest.change.value),
            lambda t, n: abs(common(t, n) - t),
        ),
        _row(
            "share, two kinds",
            whole,
            lambda t, a, b: share(Quantity(t * STEP), (a, b)).many,
            ways,
        ),
        _row(
            "divide between any",
            [(t, n) for t, n, _ in whole],
            lambda t, n: divide(Quantity(t * STEP), n, bodies="any").many,
            lambda t, n: ways(t, n + 1, n),
        ),
    ]


def _row(name: str, cases: list, ours, plain) -> str:
    started = process_time()
    found = [ours(*case) for case in cases]
    took = process_time() - started
    started = process_time()
    wanted = [plain(*case) for case in cases]
    by_search = process_time() - started
    assert found == wanted, name
    return f"| {name} | {1e6 * took / len(cases):.0f} µs | {by_search / took:.1f} times as quick as plain search |"


def alone_rows() -> list[str]:
    """What has no plain search to be held against, for the time alone."""
    made = {
        "share, three kinds, 24 in": lambda: share("24 in", (4, 2, 3)),
        "how many, at most": lambda: how_many("72 in", bodies="1 1/2 in", most="4 in", outer=False),
        "mark the edges of 13 bodies": lambda: mark("72 in", 14, bodies="1 1/2 in", outer=False),
        "a grid of 6 by 4 places": lambda: places(across=(6, "1 in"), up=(4, "2 in")),
    }
    rows = []
    for name, work in made.items():
        started = process_time()
        for _ in range(20):
            work()
        rows.append(f"| {name} | {1e6 * (process_time() - started) / 20:.0f} µs | |")
    return rows


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
        started = process_time()
        found = [abs(ours(t, n)) for t, n in cases]
        took = process_time() - started
        started = process_time()
        wanted = [abs(plain(t, n)) for t, n in cases]
        by_search = process_time() - started
        assert found == wanted, name
        rows.append(
            f"| {name} | {1e6 * took / len(cases):.0f} µs | {by_search / took:.0f} times as quick as plain search |"
        )
    rows += [*further_rows(rng), *alone_rows()]
    print("\n".join(["| what | took | as a ratio |", "| --- | --- | --- |", *rows]))


if __name__ == "__main__":
    main()
