"""Readings weighed together: how often `recover` is right where a list has something in common.

Run it by itself: python tests/bench/bench_lists.py [sets in a row]
Prints Markdown tables; the seed is fixed. Parts are 6 to 60 mm; each is read to the figure that its row
says, with a normal error besides.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from fractions import Fraction
from math import erf, sqrt
from random import Random

from fractions_shop.meant.quantogram import quantogram
from fractions_shop.meant.recover import recover
from fractions_shop.meant.scale import scale_from
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.old_inches import groups

SEED, SETS = 53, 100
#: What has become of a list: a factor, a length in mm, and the options that allow for it.
Bending = Callable[[Random], tuple[float, float, dict[str, object]]]
INCH = Fraction(127, 5)


def parts(random: Random, step: Fraction, count: int, low: int = 6, high: int = 60) -> list[Fraction]:
    """Different multiples of a step."""
    marks = range(-(-low // float(step)).__int__(), int(high / step) + 1)
    return [k * step for k in random.sample(list(marks), count)]


def read(random: Random, size: Fraction, error: float, place: Fraction) -> Fraction:
    return max(place, round((float(size) + random.gauss(0, error)) / place) * place)


def written(size: Fraction, places: int) -> str:
    return f"{float(size):.{places}f} mm"


def best(rows: Sequence[object]) -> list[Fraction | None]:
    return [row.candidates[0].size.mm if row.candidates else None for row in rows]  # type: ignore[attr-defined]


def best_of_mixed(
    readings: Sequence[Fraction], few: int, division: int, error: float = 0.03
) -> list[Fraction | None]:
    """The likeliest size of each reading to one who knows the habit: so many in whole mm, the rest on one division."""
    habits = [
        [k * step for k in range(-(-6 // step).__int__(), int(60 / step) + 1)]
        for step in (Fraction(1), INCH / division)
    ]
    likely = [
        [{m: _rounded(x, m, error) / len(marks) for m in marks if abs(x - m) < 1} for marks in habits]
        for x in readings
    ]
    of_metric, of_inch = ([sum(each[k].values()) for each in likely] for k in (0, 1))
    chosen: list[Fraction | None] = []
    for place, by_habit in enumerate(likely):
        ways = [1.0]  # of the other readings, by how many are metric
        for other in range(len(readings)):
            if other != place:
                more = [
                    *(w * of_inch[other] for w in ways), 0.0,
                ]  # fmt: skip
                for k, w in enumerate(ways):
                    more[k + 1] += w * of_metric[other]
                ways = more
        masses: dict[Fraction, float] = {}
        for marks, count in zip(by_habit, (few - 1, few), strict=True):
            for m, share in marks.items():
                masses[m] = masses.get(m, 0.0) + share * (ways[count] if 0 <= count < len(ways) else 0.0)
        chosen.append(max(masses, key=lambda m: masses[m], default=None))
    return chosen


def _rounded(reading: Fraction, meant: Fraction, error: float) -> float:
    """How likely a size reads so, to the tenth."""
    off = float(reading - meant)
    return (erf((off + 0.05) / error / sqrt(2)) - erf((off - 0.05) / error / sqrt(2))) / 2


def mixed_shops(sets: int) -> None:
    print(f"{sets} sets a row, a caliper of 0.1 mm (error 0.03 mm besides): share of parts right.\n")
    print(
        "| shop | parts | metric parts right | best possible | all parts right | best possible | whole sets right | odds 10 on or more | of these right |"
    )
    print("| --- | --- | --- | --- | --- | --- | --- | --- | --- |")
    shops: dict[str, tuple[float, int]] = {
        "inch, 16ths": (0.0, 16),
        "a third in whole mm": (1 / 3, 16),
        "half in whole mm": (0.5, 16),
        "all in whole mm": (1.0, 16),
    }
    for place, (name, (share, division)) in enumerate(shops.items()):
        for count in (6, 12):
            random = Random(SEED * 100 + place * 10 + count)
            metric = metrics = right = whole = sure = surely = best_metric = best_all = 0
            for _ in range(sets):
                few = round(share * count)
                meant = parts(random, Fraction(1), few) + parts(random, INCH / division, count - few)
                sizes = [read(random, m, 0.03, Fraction(1, 10)) for m in meant]
                found = recover([written(size, 1) for size in sizes]).readings
                likeliest = [a == b for a, b in zip(best_of_mixed(sizes, few, division), meant, strict=True)]
                best_metric += sum(likeliest[:few])
                best_all += sum(likeliest)
                hits = [a == b for a, b in zip(best(found), meant, strict=True)]
                metric += sum(hits[:few])
                metrics += few
                right += sum(hits)
                whole += all(hits)
                for row, hit in zip(found, hits, strict=True):
                    if row.candidates and row.candidates[0].odds >= 10:
                        sure += 1
                        surely += hit
            told = f"{metric / metrics:.0%} | {best_metric / metrics:.0%}" if metrics else "none | none"
            print(
                f"| {name} | {count} | {told} | {right / sets / count:.0%} | {best_all / sets / count:.0%} | {whole / sets:.0%} | {sure / sets / count:.0%} | {surely / max(1, sure):.1%} |",
                flush=True,
            )


def misread(sets: int) -> None:
    print(f"\n{sets} lists a row of sixteenths, one reading wrong by 0.3 to 1 mm more; and none wrong.\n")
    print(
        "| error, mm | parts | named | explained at 10 to 1 on or more, wrongly | accused where none is wrong |"
    )
    print("| --- | --- | --- | --- | --- |")
    for error in (0.05, 0.1):
        for count in (6, 10):
            random = Random(SEED * 100 + count)
            named = sure = false = 0
            for _ in range(sets):
                meant = parts(random, INCH / 16, count)
                sizes = [read(random, m, error, Fraction(1, 100)) for m in meant]
                within = Quantity(Fraction(error * 3**0.5).limit_denominator(10**6))
                sound = recover([Quantity(s) for s in sizes], within=within, made="0 mm")
                false += any(row.suspect for row in sound.readings)
                sizes[0] += random.choice((-1, 1)) * Fraction(random.randint(30, 100), 100)
                row = recover([Quantity(s) for s in sizes], within=within, made="0 mm").readings[0]
                named += row.suspect
                first = row.candidates[0] if row.candidates else None
                sure += first is not None and first.odds >= 10 and first.size.mm != meant[0]
            print(
                f"| {error} | {count} | {named / sets:.0%} | {sure / sets:.0%} | {false} of {sets} |",
                flush=True,
            )


def readers_step(sets: int) -> None:
    print(f"\n{sets} lists a row: the reader's step inferred, and every size right.\n")
    print("| parts | read with | list of | step found | all sizes right | the system right |")
    print("| --- | --- | --- | --- | --- | --- |")
    rows = [
        ("16ths", INCH / 16, "half mm, written 38.0", Fraction(1, 2), "inch fractions"),
        ("8ths", INCH / 8, "whole mm, written 38.0", Fraction(1), "inch fractions"),
        ("16ths", INCH / 16, "0.1 mm caliper", Fraction(1, 10), "inch fractions"),
        ("whole mm", Fraction(1), "0.1 mm caliper", Fraction(1, 10), "metric"),
        ("5 mm", Fraction(5), "0.1 mm caliper", Fraction(1, 10), "metric"),
    ]
    for name, step, tool, place, system in rows:
        for count in (5, 10):
            random = Random(SEED * 100 + count)
            steps = sizes = systems = 0
            for _ in range(sets):
                meant = parts(random, step, count)
                found = recover([written(read(random, m, 0.03, place), 1) for m in meant])
                coarse = found.step.step.mm if found.step else Fraction(1, 10)
                steps += coarse == place
                sizes += best(found.readings) == meant
                systems += found.system is not None and found.system.system == system
            print(
                f"| {name} | {tool} | {count} | {steps / sets:.0%} | {sizes / sets:.0%} | {systems / sets:.0%} |",
                flush=True,
            )


def old_units(sets: int) -> None:
    print(
        f"\n{sets} lists a row of lines of an old inch, any group alike, error 0.1 mm: the right one named.\n"
    )
    print("| list of | asked among old inches | offered unasked, and right | another offered |")
    print("| --- | --- | --- | --- |")
    for count in (5, 8, 12):
        random = Random(SEED * 100 + count)
        asked = offered = other = 0
        for _ in range(sets):
            group = random.choice(groups())
            unit = random.choice(group)
            sizes = [
                Quantity(read(random, m, 0.1, Fraction(1, 100)))
                for m in parts(random, unit.size.mm / unit.parts, count)
            ]
            within = Quantity(Fraction(173, 1000))
            first = recover(sizes, within=within, made="0 mm", among=["old inches"]).system
            asked += first is not None and unit in first.inches
            found = recover(sizes, within=within, made="0 mm").old
            offered += found is not None and unit in found.inches
            other += found is not None and unit not in found.inches
        print(f"| {count} | {asked / sets:.0%} | {offered / sets:.0%} | {other / sets:.0%} |", flush=True)


def common_errors(sets: int) -> None:
    print(
        f"\n{sets} lists a row of sixteenths: every size right, and sure (10 to 1 on) of how many, with how many of these right.\n"
    )
    print(
        "| what they share | list of | error, mm | allowed for | not allowed for | sure | of these right | the unknown within 0.2 % or 0.05 mm |"
    )
    print("| --- | --- | --- | --- | --- | --- | --- | --- |")
    rows: list[tuple[str, Bending, tuple[int, ...], float]] = [
        (
            "shrunk up to 3 %",
            lambda r: (1 - r.uniform(0, 0.03), 0.0, {"shrunk": Fraction(3, 100)}),
            (3, 6),
            0.05,
        ),
        ("caliper not zeroed", lambda r: (1.0, r.gauss(0, 0.15), {"unzeroed": True}), (3, 8), 0.03),
        ("a print within 3 %", lambda r: (1 + r.uniform(-0.03, 0.03), 0.0, {"scale": "print"}), (5, 8), 0.1),
        ("a copy 1.7 % small", lambda r: (0.983, 0.0, {"scale": "print"}), (5, 8), 0.1),
    ]
    for name, bend, counts, error in rows:
        for count in counts:
            _common_row(sets, name, bend, count, error)
    for count in (5, 8):
        _known_row(sets, count)


def _common_row(
    sets: int,
    name: str,
    bend: Callable[..., tuple[float, float, dict[str, object]]],
    count: int,
    error: float,
) -> None:
    random = Random(SEED * 100 + count)
    allowed = plain = near = sure = surely = 0
    within = Quantity(Fraction(error * 3**0.5).limit_denominator(10**6))
    for _ in range(sets):
        factor, away, options = bend(random)
        meant = parts(random, INCH / 16, count)
        sizes = [
            Quantity(read(random, m * Fraction(factor) + Fraction(away), error, Fraction(1, 100)))
            for m in meant
        ]
        found = recover(sizes, within=within, made="0 mm", **options)  # type: ignore[arg-type]
        hits = [a == b for a, b in zip(best(found.readings), meant, strict=True)]
        allowed += all(hits)
        plain += best(recover(sizes, within=within, made="0 mm").readings) == meant
        unknown = found.common[0]
        near += abs(unknown.estimate - away) < 0.05 if away else abs(unknown.factor * factor - 1) < 0.002
        for row, hit in zip(found.readings, hits, strict=True):
            if row.candidates and row.candidates[0].odds >= 10:
                sure += 1
                surely += hit
    print(
        f"| {name} | {count} | {error} | {allowed / sets:.0%} | {plain / sets:.0%} | {sure / sets / count:.0%} | "
        f"{surely / max(1, sure):.1%} | {near / sets:.0%} |",
        flush=True,
    )


def _known_row(sets: int, count: int) -> None:
    random = Random(SEED * 100 + count)
    allowed = near = sure = surely = 0
    within = Quantity(Fraction(173, 1000))
    for _ in range(sets):
        meant = parts(random, INCH / 16, count)
        known = INCH * random.randint(40, 64) / 16
        sizes = [Quantity(read(random, m * Fraction(983, 1000), 0.1, Fraction(1, 100))) for m in meant]
        taken = Quantity(read(random, known * Fraction(983, 1000), 0.1, Fraction(1, 100)))
        at = scale_from(taken, Quantity(known), within=within)
        found = recover(sizes, within=within, made="0 mm", scale=at)
        hits = [a == b for a, b in zip(best(found.readings), meant, strict=True)]
        allowed += all(hits)
        near += abs(float(at.factor) * found.common[0].factor * 0.983 - 1) < 0.002
        for row, hit in zip(found.readings, hits, strict=True):
            if row.candidates and row.candidates[0].odds >= 10:
                sure += 1
                surely += hit
    print(
        f"| the same, one size known | {count} | 0.1 | {allowed / sets:.0%} | none | {sure / sets / count:.0%} | "
        f"{surely / max(1, sure):.1%} | {near / sets:.0%} |",
        flush=True,
    )


def false_quanta(sets: int) -> None:
    print(
        f"\nQuantogram of {3 * sets} sets of sizes at random, 12 and 20 in a set: significant at 1 in 20, 1 in 100.\n"
    )
    print("| sizes | 1 in 20 | 1 in 100 |")
    print("| --- | --- | --- |")
    for count in (12, 20):
        random = Random(SEED * 100 + count)
        worth = [
            quantogram(
                [Quantity(Fraction(random.randint(800, 6000), 100)) for _ in range(count)], "0.3 mm"
            ).significance
            for _ in range(3 * sets)
        ]
        print(
            f"| {count} | {sum(w <= 0.05 for w in worth) / 3 / sets:.1%} | {sum(w <= 0.01 for w in worth) / 3 / sets:.1%} |",
            flush=True,
        )


def main() -> None:
    sets = int(sys.argv[1]) if len(sys.argv) > 1 else SETS
    for table in (mixed_shops, misread, readers_step, old_units, common_errors, false_quanta):
        table(sets)


if __name__ == "__main__":
    main()
