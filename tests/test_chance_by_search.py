"""The chance of a near match against plain search: every stretch laid on one circle of 127 mm and added up, in Fractions."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest
from over_all import over

from fractions_shop import recover
from fractions_shop.meant.chance import Surroundings
from fractions_shop.meant.priors import PERIOD, Division, scheme
from fractions_shop.meant.readings import Reading, reading
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.old_inches import groups

#: Steps that come out in 127 mm; those of 3, 7 and 16 leave narrow gaps and wide ones beside the others.
STEPS = tuple(Fraction(127, n) for n in (2, 3, 5, 7, 10, 16, 20, 40))
#: Sizes of tables, some of which stand on marks of those steps.
SIZES = tuple(
    sorted(
        {Fraction(n, 2) for n in (7, 31, 50, 77, 99, 141)}
        | {Fraction(127 * n, 40) for n in (3, 8, 12, 20, 24)}
    )
)


def made_of(random: Random) -> tuple[Division, ...]:
    """A few plain divisions and a table or two, of weights that are no round figures."""
    plain = [
        Division("plain", f"{step}", random.uniform(0.01, 0.3), step)
        for step in sorted(random.sample(STEPS, random.randint(1, 4)))
    ]
    tables = [
        Division(
            "table", f"table {k}", random.uniform(0.01, 0.3), None,
            tuple((size, str(size)) for size in sorted(random.sample(SIZES, random.randint(1, 6)))),
        )
        for k in range(random.randint(0, 2))
    ]  # fmt: skip
    return (*plain, *tables)


def read(size: Fraction, within: Fraction) -> Reading:
    nought = Quantity(Fraction(0))
    return Reading(Quantity(size), Quantity(within), nought, nought)


def weights_about(size: Fraction, divisions: tuple[Division, ...]) -> dict[Fraction, float]:
    """Every size that competes, by its place on the circle, with the prior for it by the mm: the greatest where several fall."""
    span = max(2 * size, Fraction("25.4"))
    sizes = {k * d.step for d in divisions if d.step for k in range(int(PERIOD / d.step))}
    low, high = size - PERIOD / 2, size + PERIOD / 2
    sizes |= {mark for d in divisions for mark, _ in d.marks if low <= mark <= high}
    places: dict[Fraction, float] = {}
    for each in sizes:
        plain = sum(d.weight * float(d.step) for d in divisions if d.step and each % d.step == 0)
        listed = 0.0
        if low <= each <= high:
            for d in divisions:
                if any(mark == each for mark, _ in d.marks):
                    many = sum(mark <= span for mark, _ in d.marks)
                    listed += d.weight * (float(span) / many if many else float("inf"))
        place = each % PERIOD
        places[place] = max(places.get(place, 0.0), plain + listed)
    return places


def covered(places: list[Fraction], half: Fraction) -> Fraction:
    """How much of the circle lies within `half` of some place."""
    if not places or 2 * half >= PERIOD:
        return PERIOD if places else Fraction(0)
    around = sorted(places)
    return sum((min(b - a, 2 * half) for a, b in pairwise([*around, around[0] + PERIOD])), Fraction(0))


@over(range(80))
def test_the_share_is_that_of_plain_search(seed: int) -> None:
    random = Random(seed)
    divisions = made_of(random)
    size = Fraction(random.randint(60, 1400), 10)
    within = Fraction(random.choice((1, 5, 20)), 20)
    about = Surroundings(read(size, within), divisions)
    weights = weights_about(size, divisions)
    near = [
        mark
        for d in divisions
        for mark in d.between(size - 63, size + 63)
        if about.readability(mark) < float("inf")
    ]
    for mark in random.sample(near, min(6, len(near))):
        least = about.readability(mark)
        places = [place for place, weight in weights.items() if weight >= least * (1 - 1e-9)]
        half = max(abs(size - mark), within)
        assert about.chance(mark) == pytest.approx(float(covered(places, half) / PERIOD), abs=1e-9), mark


def test_of_the_divisions_of_the_prior_every_binary_fraction_by_search() -> None:
    """The real ones: 64ths are 320 to the period, and a reading 0.05 mm off one is as near by chance in a quarter."""
    binary = tuple(d for d in scheme() if d.step and (Fraction("25.4") / d.step).denominator == 1
                   and d.system == "inch fractions")  # fmt: skip
    about = Surroundings(read(Fraction("51.25"), Fraction(1, 20)), binary)
    sixtyfourth = Fraction("25.4") * 129 / 64
    off = Fraction("51.25") - sixtyfourth
    assert about.chance(sixtyfourth) == pytest.approx(float(2 * off * 320 / PERIOD))
    assert about.chance(Fraction("50.8")) == pytest.approx(float(2 * Fraction("0.45") * 5 / PERIOD))


class TestOldInches:
    """Every mark of an old inch against the coarsest division of its own kind."""

    @pytest.mark.parametrize("lines", [7, 12, 18])
    @pytest.mark.parametrize("off", ["0.02", "0.3", "-0.3"])
    def test_the_share_is_twice_the_distance_of_its_step(self, lines: int, off: str) -> None:
        divisions = scheme(("old inches",))
        paris = next(d for d in divisions if d.old is not None and "Paris" in d.system and d.name == "lines")
        assert paris.step is not None
        mark = lines * paris.step
        carriers = [d.step for d in divisions if d.old is not None and d.carries(mark) and d.step]
        taken = reading(Quantity(mark + Fraction(off)), within="0.1 mm")
        expected = 2 * max(abs(Fraction(off)), Fraction(1, 10)) / max(carriers)
        assert Surroundings(taken, divisions).chance(mark) == pytest.approx(float(min(1, expected)))

    def test_one_that_lies_beyond_half_of_its_step_is_always_as_near(self) -> None:
        divisions = scheme(("old inches",))
        finest = min((d for d in divisions if d.old is not None and d.step), key=lambda d: d.step or 0)
        assert finest.step is not None
        mark = 101 * finest.step
        carriers = [d.step for d in divisions if d.old is not None and d.carries(mark) and d.step]
        taken = reading(Quantity(mark + max(carriers)), within="0.1 mm")
        assert Surroundings(taken, divisions).chance(mark) == 1.0

    def test_marks_of_today_are_held_against_today_alone(self) -> None:
        old, today = scheme(("old inches",)), scheme()
        taken = reading("51.5 mm")
        mark = Fraction("25.4") * 65 / 32
        assert not any(d.carries(mark) for d in old if d.old is not None)
        assert Surroundings(taken, old).chance(mark) == pytest.approx(Surroundings(taken, today).chance(mark))

    def test_it_is_what_recover_tells(self) -> None:
        pouce = next(group[0] for group in groups() if "Paris" in group[0].called).size.mm
        found = recover(Quantity(pouce + Fraction(1, 50)), within="0.05 mm", among=("old inches",))
        best = next(c for c in found.candidates if c.size.mm == pouce)
        assert best.chance == pytest.approx(float(Fraction(1, 10) / pouce))
