"""Whether the odds that `recover` prints are true: how often answers at such odds are right.

Run it by itself: python tests/bench/bench_reliability.py [parts in a row]
Prints Markdown tables; the seed is fixed. First parts drawn from the stated prior itself, where the odds must be true. Then
shops and readers of many habits, those that one would rather not see among them: bad rows are kept.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from fractions_shop.meant.found import Weighed
from fractions_shop.meant.priors import STRAY, scheme
from fractions_shop.meant.recover import recover
from fractions_shop.meant.unsaid import SURE
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.size.notation import mixed
from fractions_shop.size.quantity import Quantity

SEED, PARTS = 54, 1000
INCH = Fraction(127, 5)
#: Odds on the best size, and what they are called.
BANDS = (
    (100.0, "over 100"),
    (30.0, "30 to 100"),
    (10.0, "10 to 30"),
    (3.0, "3 to 10"),
    (1.0, "1 to 3"),
    (0.0, "against"),
)


@dataclass(frozen=True)
class Told:
    """What was said of one part: the odds on its best size, whether that rests on a belief alone, and whether it is right."""

    odds: float
    believed: bool
    verdict: SizeVerdict
    right: bool


def told_of(weighed: Weighed, size: Fraction | None) -> Told:
    best = weighed.candidates[0] if weighed.candidates else None
    return Told(
        best.odds if best else 0.0,
        weighed.rests_on_belief,
        weighed.verdict,
        best is not None and best.size.mm == size,
    )


Habit = dict[Fraction, float]
SIXTEENTHS: Habit = {INCH / 4: 0.2, INCH / 8: 0.3, INCH / 16: 0.3, INCH / 32: 0.2}
METRIC: Habit = {Fraction(5): 0.2, Fraction(1): 0.5, Fraction(1, 2): 0.3}
BOTH: Habit = {INCH / 8: 0.2, INCH / 16: 0.2, INCH / 32: 0.1, Fraction(5): 0.2, Fraction(1): 0.3}

DECIMAL: Habit = {INCH / 10: 0.2, INCH / 20: 0.2, INCH / 100: 0.4, INCH / 200: 0.2}

Reader = Callable[[Random, Fraction], tuple[object, dict[str, object]]]


def drawn(random: Random, habit: Habit, low: int = 3, high: int = 60) -> Fraction:
    step = random.choices(list(habit), list(habit.values()))[0]
    return step * random.randint(-(-low // float(step)).__int__(), int(high / step))


def decimals(size: float, place: str) -> str:
    step = Fraction(place)
    told = max(step, round(Fraction(size) / step) * step)
    return f"{float(told):.{len(place.partition('.')[2])}f} mm"


def made(random: Random, size: Fraction) -> float:
    """As the first maker left it: within 0.05 mm, evenly."""
    return float(size) + random.uniform(-0.05, 0.05)


def caliper(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size), "0.1"), {}


def fine(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size) + random.uniform(-0.02, 0.02), "0.01"), {"by": "caliper"}


def rule(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size), "0.5"), {"by": "rule"}


def rule_unsaid(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size), "0.5"), {}


def tape(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size) + random.uniform(-0.3, 0.3), "1"), {"by": "tape"}


def inch_rule(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    parts = max(1, round(Fraction(made(random, size)) / INCH * 32))
    return f"{mixed(Fraction(parts, 32))} in", {"by": "rule"}


def full_or_bare(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    """A craftsman who leaves a file stroke on, or takes it off: 0.1 mm, where 0.05 mm is believed."""
    return decimals(float(size) + random.choice((-0.1, 0.1)), "0.1"), {}


def shrunk(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size) * (1 - random.uniform(0, 0.03)), "0.1"), {"shrunk": Fraction(3, 100)}


def shrunk_unsaid(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return shrunk(random, size)[0], {}


def plated(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size) + random.uniform(0, 0.1), "0.01"), {"plated": "0.1 mm"}


def worn(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(made(random, size) - random.uniform(0, 0.3), "0.1"), {"worn": "0.3 mm"}


def worn_unsaid(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return worn(random, size)[0], {}


def misread(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    return decimals(max(0.5, made(random, size) + random.choice((-1, 1)) * random.uniform(0.3, 1)), "0.1"), {}


def thou_cut_off(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    """In decimals of an inch, what is beyond the half thou left off."""
    halves = max(1, int(made(random, size) / 25.4 * 2000))
    return f"{halves / 2000:.4f} in", {}


def hook_play(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    """A tape whose hook slides by 1.5 mm, taken now outside, now inside."""
    return decimals(made(random, size) + random.choice((-1.5, 0, 0, 1.5)) * random.random(), "1"), {
        "by": "tape"
    }


def dressed(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    """One in three was dressed again later and lost 0.1 to 0.6 mm."""
    lost = random.uniform(0.1, 0.6) if random.random() < 1 / 3 else 0.0
    return decimals(made(random, size) - lost, "0.1"), {}


def holes_and_pins(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    """Half are holes, worn wider, half pins, worn thinner, by up to 0.3 mm."""
    return decimals(made(random, size) + random.choice((-1, 1)) * random.uniform(0, 0.3), "0.1"), {}


def typed_twice(random: Random, size: Fraction) -> tuple[object, dict[str, object]]:
    """Put down twice as one size, one figure of one of them in three miswritten."""
    once = decimals(made(random, size), "0.1").removesuffix(" mm")
    again = list(once)
    if random.random() < 1 / 3:
        place = random.choice([k for k, sign in enumerate(again) if sign.isdigit()])
        again[place] = random.choice([sign for sign in "123456789" if sign != again[place]])
    return [f"{once} mm", f"{''.join(again)} mm"], {}


#: The habit of the shop and of the reader; and how many readings are in a list (1: each alone).
ROWS: tuple[tuple[str, Habit, Reader, int, dict[str, object]], ...] = (
    ("inch, caliper 0.1", SIXTEENTHS, caliper, 1, {}),
    ("inch, caliper 0.01", SIXTEENTHS, fine, 1, {}),
    ("inch, rule of half mm", SIXTEENTHS, rule, 1, {}),
    ("inch, rule of half mm, not said", SIXTEENTHS, rule_unsaid, 1, {}),
    ("inch, tape of mm", SIXTEENTHS, tape, 1, {}),
    ("inch, rule of 32nds", SIXTEENTHS, inch_rule, 1, {}),
    ("inch, full or bare", SIXTEENTHS, full_or_bare, 1, {}),
    ("inch, shrunk up to 3 %", SIXTEENTHS, shrunk, 1, {}),
    ("inch, shrunk and not said", SIXTEENTHS, shrunk_unsaid, 1, {}),
    ("inch, plated up to 0.1", SIXTEENTHS, plated, 1, {}),
    ("inch, worn up to 0.3", SIXTEENTHS, worn, 1, {}),
    ("inch, worn and not said", SIXTEENTHS, worn_unsaid, 1, {}),
    ("inch, every one misread", SIXTEENTHS, misread, 1, {}),
    ("half inch, half metric", BOTH, caliper, 1, {}),
    ("the same, either work said", BOTH, caliper, 1, {"work": "either"}),
    ("metric, caliper 0.1", METRIC, caliper, 1, {}),
    ("metric, metric work said", METRIC, caliper, 1, {"work": "metric"}),
    ("inch, lists of 6, caliper 0.1", SIXTEENTHS, caliper, 6, {}),
    ("inch, lists of 6, half mm, not said", SIXTEENTHS, rule_unsaid, 6, {}),
    ("inch, lists of 6, rule of 32nds", SIXTEENTHS, inch_rule, 6, {}),
    ("inch, lists of 6, full or bare", SIXTEENTHS, full_or_bare, 6, {}),
    ("inch, lists of 2, shrunk and not said", SIXTEENTHS, shrunk_unsaid, 2, {}),
    ("inch, lists of 3, shrunk and not said", SIXTEENTHS, shrunk_unsaid, 3, {}),
    ("inch, lists of 6, shrunk", SIXTEENTHS, shrunk, 6, {}),
    ("inch, lists of 6, shrunk and not said", SIXTEENTHS, shrunk_unsaid, 6, {}),
    ("inch, lists of 6, worn up to 0.3", SIXTEENTHS, worn, 6, {}),
    ("inch, lists of 6, one misread", SIXTEENTHS, caliper, 6, {"misread": True}),
    ("half inch, half metric, lists of 6", BOTH, caliper, 6, {}),
    ("metric, lists of 6", METRIC, caliper, 6, {}),
    ("inch, lists of 6, full or bare, made 0.1 mm said", SIXTEENTHS, full_or_bare, 6, {"made": "0.1 mm"}),
    ("decimal inch, caliper 0.1", DECIMAL, caliper, 1, {}),
    ("decimal inch, lists of 6, caliper 0.1", DECIMAL, caliper, 6, {}),
    ("decimal inch, lists of 6, half thou cut off", DECIMAL, thou_cut_off, 6, {}),
    ("inch, lists of 6, half thou cut off", SIXTEENTHS, thou_cut_off, 6, {}),
    ("inch, lists of 6, tape with a loose hook", SIXTEENTHS, hook_play, 6, {}),
    ("inch, one in three dressed again", SIXTEENTHS, dressed, 1, {}),
    ("inch, lists of 6, one in three dressed again", SIXTEENTHS, dressed, 6, {}),
    ("inch, holes and pins worn, not said", SIXTEENTHS, holes_and_pins, 1, {}),
    ("inch, lists of 6, holes and pins worn, not said", SIXTEENTHS, holes_and_pins, 6, {}),
    ("inch, lists of 6, typed twice, one in three miswritten", SIXTEENTHS, typed_twice, 6, {}),
)


def prior_itself(parts: int) -> None:
    """Parts drawn as the prior says: a division by its weight, a mark of it alike, none at 1 in 20."""
    random = Random(SEED)
    habit = {d.step: d.weight for d in scheme() if d.step}
    told: list[Told] = []
    expected = 0.0
    for _ in range(parts):
        stray = random.random() < STRAY
        size = Fraction(random.randint(300_000, 6_000_000), 100_000) if stray else drawn(random, habit)
        error = random.gauss(0, 0.05)
        reading = Quantity(max(Fraction(1, 100), Fraction(round((float(size) + error) * 1000), 1000)))
        weighed = recover(
            reading, within=Quantity(Fraction(0.05 * 3**0.5).limit_denominator(10**6)), made="0 mm"
        ).readings[0]
        told.append(told_of(weighed, None if stray else size))
        expected += weighed.candidates[0].probability if weighed.candidates else 0.0
    print(f"{parts} parts from the prior itself, error 0.05 mm: of answers at such odds so many are right.\n")
    _heads("parts")
    _row("from the prior", told)
    right = sum(part.right for part in told)
    print(f"\nAll: {right} right, {expected:.0f} expected by the odds themselves.\n")


def habits(parts: int) -> None:
    print(
        f"{parts} parts a row: of answers at such odds so many are right (and how many answers those are).\n"
    )
    _heads("habit of shop and reader")
    for place, (name, habit, reader, count, options) in enumerate(ROWS):
        random = Random(SEED * 100 + place)
        wrong = bool(options.get("misread"))
        said = {key: value for key, value in options.items() if key != "misread"}
        told: list[Told] = []
        for _ in range(parts // count):
            told += _list(random, habit, reader, count, wrong, said)
        _row(name, told)


def _list(
    random: Random, habit: Habit, reader: Reader, count: int, wrong: bool, said: dict[str, object]
) -> list[Told]:
    meant = [drawn(random, habit, 6) for _ in range(count)]
    if reader in (shrunk, shrunk_unsaid) and count > 1:
        # All of one list have shrunk alike.
        state = random.getstate()
        factor = 1 - random.uniform(0, 0.03)
        taken = [(decimals(made(random, one) * factor, "0.1"), {"shrunk": Fraction(3, 100)}) for one in meant]
        random.setstate(state)
        random.random()
    else:
        taken = [(misread if wrong and not k else reader)(random, one) for k, one in enumerate(meant)]  # type: ignore[misc]
    given = [one for one, _ in taken]
    told = {} if reader is shrunk_unsaid else taken[-1][1]
    rows = recover(given if count > 1 else given[0], **told, **said).readings  # type: ignore[arg-type]
    return [told_of(row, size) for row, size in zip(rows, meant, strict=True)]


def _to_take(part: Told) -> bool:
    return part.verdict in (SizeVerdict.CUT, SizeVerdict.CHECK)


#: What is counted besides the bands of odds: answers that are sure, those of them that evidence alone makes sure,
#: and those that say that one may cut to a size or take it, with no more said and if it has kept its size.
SHARES: tuple[tuple[str, Callable[[Told], bool]], ...] = (
    ("10 to 1 or better", lambda part: part.odds >= SURE),
    ("not on a belief alone", lambda part: part.odds >= SURE and not part.believed),
    ("cut or take", lambda part: _to_take(part) and not part.believed),
    ("take, if it has kept its size", lambda part: _to_take(part) and part.believed),
)


HEADS = [*(name for _, name in BANDS), *(name for name, _ in SHARES)]


def _heads(first: str) -> None:
    print(f"| {first} | {' | '.join(HEADS)} |")
    print("| --- " * (len(BANDS) + len(SHARES) + 1) + "|")


def _row(name: str, told: Sequence[Told]) -> None:
    cells, above = [], float("inf")
    for least, _ in BANDS:
        cells.append(_right([part for part in told if least <= part.odds < above]))
        above = least
    for _, counts in SHARES:
        some = [part for part in told if counts(part)]
        cells.append(f"{len(some) / len(told):.0%}, {_right(some)}")
    print(f"| {name} | {' | '.join(cells)} |", flush=True)


def _right(parts: Sequence[Told]) -> str:
    """How many of these are right, and how many they are."""
    return f"{sum(part.right for part in parts) / len(parts):.1%} ({len(parts)})" if parts else "none"


def main() -> None:
    parts = int(sys.argv[1]) if len(sys.argv) > 1 else PARTS
    prior_itself(4 * parts)
    habits(parts)


if __name__ == "__main__":
    main()
