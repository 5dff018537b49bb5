"""How fast packing is, as a ratio to the plain table of fewest pieces that a first course teaches.

Run it by itself: python tests/bench/bench_pack.py
Prints a Markdown table; the seed is fixed. The last column is the time as a part of the
50 ms allowed for 30 sizes and heights to 50 mm: under 1 is within it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import gcd, lcm
from random import Random
from statistics import median
from time import perf_counter

from fractions_shop.layout.packing import pack
from fractions_shop.size.quantity import Quantity

ALLOWED_MS = 50
SEED = 11
SETS = 9


def plain(height: Fraction, stock: Sequence[Fraction]) -> int | None:
    """Fewest pieces by a table over every common division; only the count, and only if exact."""
    below = lcm(height.denominator, *(size.denominator for size in stock))
    unit = gcd(int(height * below), *(int(size * below) for size in stock))
    target = int(height * below) // unit
    sizes = [int(size * below) // unit for size in stock]
    fewest: list[int | None] = [0] + [None] * target
    for total in range(1, target + 1):
        best = None
        for size in sizes:
            if size <= total:
                left = fewest[total - size]
                if left is not None and (best is None or left < best):
                    best = left
        fewest[total] = None if best is None else best + 1
    return fewest[target]


def stocks(random: Random, kind: str) -> list[Fraction]:
    """30 sizes from 0.05 to 1.5 mm: hundredths of a millimetre, thous, 64ths, or both of the first two."""
    metric = [Fraction(random.randint(5, 150), 100) for _ in range(30)]
    thou = [Fraction(random.randint(2, 60), 1000) * Fraction(127, 5) for _ in range(30)]
    sixty_fourths = [Fraction(k, 64) * Fraction(127, 5) for k in range(1, 31)]
    return {"metric": metric, "thou": thou, "64ths": sixty_fourths, "both": metric[:15] + thou[:15]}[kind]


def timed(work: object, *arguments: object) -> tuple[float, object]:
    start = perf_counter()
    answer = work(*arguments)  # type: ignore[operator]
    return 1000 * (perf_counter() - start), answer


def main() -> None:
    random = Random(SEED)
    print(
        "| 30 sizes, height 30 to 50 mm | plain table, ms | pack, ms (worst) | plain / pack | pack / 50 ms |"
    )
    print("| --- | --- | --- | --- | --- |")
    for kind in ("metric", "thou", "64ths", "both"):
        slow, fast = [], []
        for _ in range(SETS):
            stock = stocks(random, kind)
            # A height in the stock's own division, so that most can be met.
            height = sum((random.choice(stock) for _ in range(20)), Fraction(0))
            while not 30 <= height <= 50:
                height += random.choice(stock) if height < 30 else -random.choice(stock)
            took, count = timed(plain, height, stock)
            slow.append(took)
            took, found = timed(pack, Quantity(height), [Quantity(size) for size in stock])
            fast.append(took)
            made = found.exact and len(found.pieces)  # type: ignore[attr-defined]
            if made != (count or False):
                raise AssertionError(f"{kind}: plain table says {count}, pack says {made}")
        print(
            f"| {kind} | {median(slow):.1f} | {median(fast):.1f} ({max(fast):.1f}) "
            f"| {median(slow) / median(fast):.0f} | {max(fast) / ALLOWED_MS:.2f} |"
        )


if __name__ == "__main__":
    main()
