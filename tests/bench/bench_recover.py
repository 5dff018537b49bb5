"""How often the size meant is the one recovered, against the best that any rule could do.

Run it by itself: python tests/bench/bench_recover.py
Prints Markdown tables; the seed is fixed. A shop of a known habit makes parts of 3 to
60 mm; each is read with a normal error. Nobody can name the size meant more often than
the rule of Bayes that knows the shop's habit (`best`, worked out here afresh by brute
force). `recover` knows only its own stated prior, so where the shop is another the
difference is what a wrong prior costs. Beside them, the nearest 64th.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import exp, sqrt
from random import Random

from fractions_shop.meant.priors import scheme
from fractions_shop.meant.recover import recover
from fractions_shop.size.quantity import Quantity

SEED = 51
PARTS, SETS, IN_A_SET = 500, 120, 6
ERRORS = (0.02, 0.05, 0.1, 0.2, 0.4)
SMALLEST, LARGEST = 3, 60
INCH = Fraction(127, 5)

Habit = Mapping[Fraction, float]

SHOPS: dict[str, tuple[Habit, float]] = {
    # The step of each division in mm and how often it is worked to; and the odds on inches to pass.
    "as the prior says": ({d.step: d.weight for d in scheme() if d.step}, 20),
    "inch rule, to 32nds": ({INCH / 4: 0.2, INCH / 8: 0.3, INCH / 16: 0.3, INCH / 32: 0.2}, 20),
    "half inch, half metric": (
        {INCH / 8: 0.2, INCH / 16: 0.2, INCH / 32: 0.1, Fraction(5): 0.2, Fraction(1): 0.3}, 20,
    ),
    "the same, odds 1 given": (
        {INCH / 8: 0.2, INCH / 16: 0.2, INCH / 32: 0.1, Fraction(5): 0.2, Fraction(1): 0.3}, 1,
    ),
    "metric, odds 1/20 given": ({Fraction(5): 0.2, Fraction(1): 0.5, Fraction(1, 2): 0.3}, 0.05),
    "metric, nobody said so": ({Fraction(5): 0.2, Fraction(1): 0.5, Fraction(1, 2): 0.3}, 20),
}  # fmt: skip


def drawn(random: Random, habit: Habit) -> Fraction:
    """A division by its weight, then any of its marks alike."""
    step = random.choices(list(habit), list(habit.values()))[0]
    return random.choice(marks(step, SMALLEST, LARGEST))


def marks(step: Fraction, low: float, high: float) -> Sequence[Fraction]:
    low, high = max(low, SMALLEST), min(high, LARGEST)
    return [
        k * step for k in range(-int(-low // float(step)), int(high // float(step)) + 1) if low <= k * step
    ]


def best_rule(reading: Fraction, error: float, habit: Habit) -> Fraction | None:
    """The size of most probability, by the shop's own habit."""
    masses: dict[Fraction, float] = {}
    for step, weight in habit.items():
        each = weight / len(marks(step, SMALLEST, LARGEST))
        for mark in marks(step, float(reading) - 6 * error, float(reading) + 6 * error):
            off = float(reading - mark) / error
            masses[mark] = masses.get(mark, 0.0) + each * exp(-off * off / 2)
    return max(masses, key=lambda mark: masses[mark], default=None)


def read(random: Random, meant: Fraction, error: float) -> Fraction:
    return max(Fraction(1, 1000), Fraction(round((float(meant) + random.gauss(0, error)) * 1000), 1000))


def trust(error: float) -> Quantity:
    """The `within` that means a standard deviation of `error` mm when the maker made no error."""
    return Quantity(Fraction(error * sqrt(3)).limit_denominator(10**6))


def single(random: Random) -> None:
    print(f"{PARTS} parts in each row: share of sizes meant that are named first (in the first three).\n")
    print("| shop | error, mm | best | recover | of best | first three | nearest 64th |")
    print("| --- | --- | --- | --- | --- | --- | --- |")
    for shop, (habit, odds) in SHOPS.items():
        for error in ERRORS:
            hits = {"best": 0, "recover": 0, "three": 0, "64th": 0}
            for _ in range(PARTS):
                meant = drawn(random, habit)
                reading = read(random, meant, error)
                found = recover(
                    Quantity(reading), within=trust(error), made="0 mm", inch_odds=odds
                ).candidates
                hits["best"] += best_rule(reading, error, habit) == meant
                hits["recover"] += bool(found) and found[0].size.mm == meant
                hits["three"] += any(c.size.mm == meant for c in found[:3])
                hits["64th"] += round(reading / INCH * 64) * INCH / 64 == meant
            best, ours, three, near = (hits[k] / PARTS for k in ("best", "recover", "three", "64th"))
            print(
                f"| {shop} | {error} | {best:.0%} | {ours:.0%} | {ours / best:.2f} | {three:.0%} | {near:.0%} |"
            )


def together(random: Random) -> None:
    divisions = {
        INCH / 8: "8ths",
        INCH / 16: "16ths",
        INCH / 32: "32nds",
        Fraction(5): "5 mm",
        Fraction(1): "1 mm",
    }
    print(f"\n{SETS} sets of {IN_A_SET} parts in each row, all of one division, any of five alike;")
    print("the quantum counts as found when it is within 1 % and significant at 1 in 20.\n")
    print("| error, mm | system right | division right | every size right | quantum found |")
    print("| --- | --- | --- | --- | --- |")
    for error in ERRORS:
        system = division = sizes = quantum = 0
        for _ in range(SETS):
            step = random.choice(list(divisions))
            meant = [drawn(random, {step: 1.0}) for _ in range(IN_A_SET)]
            # What the set shows is the coarsest of them that it lies on.
            shown = max(s for s in divisions if all((m / s).denominator == 1 for m in meant))
            found = recover(
                [Quantity(read(random, m, error)) for m in meant], within=trust(error), made="0 mm"
            )
            assert found.system is not None
            system += found.system.system == ("metric" if "mm" in divisions[step] else "inch fractions")
            division += found.system.division == divisions[shown]
            sizes += [c.size.mm for c in found.candidates] == meant
            gram = found.quantogram
            quantum += (
                gram is not None and gram.significance <= 0.05 and abs(gram.quantum.mm / shown - 1) < 0.01
            )
        shares = " | ".join(f"{n / SETS:.0%}" for n in (system, division, sizes, quantum))
        print(f"| {error} | {shares} |")


def main() -> None:
    random = Random(SEED)
    single(random)
    together(random)


if __name__ == "__main__":
    main()
