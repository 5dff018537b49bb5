"""How often `reconcile` finds every size that was meant, beside the same readings weighed singly and as a list.

Run it by itself: python tests/bench/bench_reconcile.py [sets in a row]
Prints Markdown tables; the seed is fixed. A maker chooses a division for the whole (a habit of
quarters to 32nds), sets out the free sizes on it and lets the others follow. Each size is read once,
with a normal error, to the hundredth. In a second table one reading, picked anyhow, is wrong by 0.6 to 1.6 mm more.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from fractions import Fraction
from random import Random
from time import process_time

from fractions_shop.meant.reconcile import reconcile
from fractions_shop.meant.recover import recover
from fractions_shop.size.quantity import Quantity

SEED, SETS = 52, 200
INCH = Fraction(127, 5)
ERRORS = (0.05, 0.1, 0.2)
HABIT = {4: 0.2, 8: 0.3, 16: 0.3, 32: 0.2}

Sizes = dict[str, Fraction]


def between(random: Random, parts: int, low: float, high: float) -> Fraction:
    """A mark of that division, from low to high inches."""
    return INCH * random.randint(max(1, round(low * parts)), round(high * parts)) / parts


def bays(random: Random, n: int) -> Sizes:
    bay = between(random, n, 0.25, 1)
    return {"rack": 5 * bay, "bay": bay}


def bays_and_slats(random: Random, n: int) -> Sizes:
    bay, slat = between(random, n, 0.25, 1), between(random, n, 0.1, 0.5)
    return {"rack": 5 * bay + 6 * slat, "bay": bay, "slat": slat}


def slots_and_web(random: Random, n: int) -> Sizes:
    slot, web = between(random, n, 0.25, 1.25), between(random, n, 0.1, 0.75)
    return {"over": 2 * slot + web, "slot": slot, "web": web}


def ends_and_middle(random: Random, n: int) -> Sizes:
    end, middle = between(random, n, 0.25, 1), between(random, n, 0.5, 2.25)
    return {"whole": 2 * end + middle, "end": end, "middle": middle}


def five_to_a_height(random: Random, n: int) -> Sizes:
    parts = {name: between(random, n, 0.2, 1) for name in "abcde"}
    return {"height": sum(parts.values(), Fraction(0)), **parts}


def two_sums(random: Random, n: int) -> Sizes:
    a, b, c = (between(random, n, 0.25, 1.25) for _ in range(3))
    return {"a": a, "b": b, "c": c, "over": a + b, "across": b + 2 * c}


SHAPES: dict[str, tuple[Callable[[Random, int], Sizes], list[str]]] = {
    "5 bays and overall": (bays, ["rack = 5 * bay"]),
    "5 bays and 6 slats": (bays_and_slats, ["rack = 5 * bay + 6 * slat"]),
    "two slots and a web": (slots_and_web, ["over = 2 * slot + web"]),
    "ends alike and middle": (ends_and_middle, ["whole = 2 * end + middle"]),
    "five parts to a height": (five_to_a_height, ["height = a + b + c + d + e"]),
    "three free, two sums": (two_sums, ["over = a + b", "across = b + 2 * c"]),
}


def read(random: Random, meant: Fraction, error: float) -> Fraction:
    return max(Fraction(1, 100), Fraction(round((float(meant) + random.gauss(0, error)) * 100), 100))


def trusted(sizes: Sizes, error: float) -> dict[str, Quantity]:
    within = Quantity(Fraction(error * 3**0.5).limit_denominator(10**6))
    return {name: Quantity(mm, within=within) for name, mm in sizes.items()}


def drawn(random: Random, shape: Callable[[Random, int], Sizes]) -> Sizes:
    return shape(random, random.choices(list(HABIT), list(HABIT.values()))[0])


def accuracy(sets: int) -> None:
    print(
        f"{sets} sets in each row: share of sets in which every size named first is the one that was meant.\n"
    )
    print(
        "| tied sizes | error, mm | single | list | joint | joint, in best three | odds 10 on or more | of these right |"
    )
    print("| --- | --- | --- | --- | --- | --- | --- | --- |")
    for place, (name, (shape, relations)) in enumerate(SHAPES.items()):
        for error in ERRORS:
            random = Random(SEED * 1000 + place * 10)
            single = several = joint = three = sure = surely = 0
            for _ in range(sets):
                meant = drawn(random, shape)
                readings = trusted({one: read(random, mm, error) for one, mm in meant.items()}, error)
                best = [recover(one, made="0 mm").candidates for one in readings.values()]
                single += [c[0].size.mm if c else None for c in best] == list(meant.values())
                rows = recover(list(readings.values()), made="0 mm").readings
                several += [r.candidates[0].size.mm if r.candidates else None for r in rows] == list(
                    meant.values()
                )
                found = reconcile(readings, relations, made="0 mm")
                hits = [{n: q.mm for n, q in s.sizes.items()} == meant for s in found.sets]
                joint += hits[:1] == [True]
                three += any(hits[:3])
                if found.probability >= 10 / 11:
                    sure += 1
                    surely += hits[:1] == [True]
            shares = " | ".join(f"{n / sets:.0%}" for n in (single, several, joint, three, sure))
            print(f"| {name} | {error} | {shares} | {surely / max(1, sure):.1%} |", flush=True)


def misread(sets: int) -> None:
    print("\nA misreading of 0.6 to 1.6 mm in each set (error 0.1 mm otherwise), and none.\n")
    print("| tied sizes | misreading named | another named | all sizes right | accused where there is none |")
    print("| --- | --- | --- | --- | --- |")
    for place, (name, (shape, relations)) in enumerate(SHAPES.items()):
        random = Random(SEED * 1000 + place * 10 + 5)
        named = other = right = false = 0
        for _ in range(sets):
            meant = drawn(random, shape)
            sizes = {one: read(random, mm, 0.1) for one, mm in meant.items()}
            false += reconcile(trusted(sizes, 0.1), relations, made="0 mm").suspect is not None
            wrong = random.choice(list(meant))
            off = random.choice((-1, 1)) * Fraction(random.randint(60, 160), 100)
            sizes[wrong] = abs(sizes[wrong] + off) or Fraction(1, 100)
            found = reconcile(trusted(sizes, 0.1), relations, made="0 mm")
            named += found.suspect == wrong
            other += found.suspect not in (wrong, None)
            right += bool(found.sets) and {n: q.mm for n, q in found.sizes.items()} == meant
        print(
            f"| {name} | {named / sets:.0%} | {other / sets:.0%} | {right / sets:.0%} | {false} of {sets} |",
            flush=True,
        )


def cost() -> None:
    print("\n| free sizes | names | ms of one core, best of five | with a misreading |")
    print("| --- | --- | --- | --- |")
    for count in (1, 2, 3, 6, 11):
        right, wrong = costs(count)
        print(f"| {count} | {count + 1} | {right:.1f} | {wrong:.1f} |", flush=True)


def costs(count: int) -> tuple[float, float]:
    """Milliseconds of one core for so many free sizes and their sum; and with one of them misread."""
    names = "abcdefghijk"[:count]
    random = Random(SEED + count)
    meant = {name: between(random, 32, 0.25, 1.5) for name in names}
    meant["t"] = sum(meant.values(), Fraction(0))
    readings = trusted({name: read(random, mm, 0.1) for name, mm in meant.items()}, 0.1)
    wrong = {**readings, "a": Quantity(readings["a"].mm + 1, within=readings["a"].within)}
    right, misread = (
        min(_timed(each, f"t = {' + '.join(names)}") for _ in range(5)) for each in (readings, wrong)
    )
    return right, misread


def cost_of_an_open_step() -> None:
    print("\nNothing said of how it was read, all on half millimetres; and one reading off them by 0.2 mm.\n")
    print("| free sizes | ms of one core, best of five | one off the step |")
    print("| --- | --- | --- |")
    for count in (2, 3, 6):
        cells = [f"{least:.0f} to {most:.0f}" for least, most in open_costs(count)]
        print(f"| {count} | {' | '.join(cells)} |", flush=True)


def open_costs(count: int) -> list[tuple[float, float]]:
    """Least and most milliseconds where the reader's step is open too; and with one reading off it."""
    names = "abcdefghijk"[:count]
    taken: tuple[list[float], list[float]] = ([], [])
    for seed in range(4):
        random = Random(SEED + count + 100 * seed)
        meant = {name: between(random, 32, 0.25, 1.5) for name in names}
        meant["t"] = sum(meant.values(), Fraction(0))
        halves = {name: round(mm * 2) / Fraction(2) for name, mm in meant.items()}
        for off, times in zip((Fraction(0), Fraction(1, 5)), taken, strict=True):
            readings = {
                name: f"{float(mm + (off if name == 'a' else 0)):.1f} mm" for name, mm in halves.items()
            }
            times.append(min(_timed(readings, f"t = {' + '.join(names)}") for _ in range(5)))
    return [(min(times), max(times)) for times in taken]


def _timed(readings: Mapping[str, str | Quantity], relation: str) -> float:
    start = process_time()
    reconcile(readings, [relation], made="0 mm")
    return (process_time() - start) * 1000


def main() -> None:
    sets = int(sys.argv[1]) if len(sys.argv) > 1 else SETS
    accuracy(sets)
    misread(sets)
    cost()
    cost_of_an_open_step()


if __name__ == "__main__":
    main()
