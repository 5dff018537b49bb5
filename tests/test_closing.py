"""The weighing of sets that close, part by part: points of a lattice, sets with fractional counts, slips, misreadings."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import exp, gamma, log, pi, sqrt
from random import Random

import pytest

from fractions_shop import NoAnswer, reconcile, recover
from fractions_shop.meant import planes
from fractions_shop.meant.closing import closing
from fractions_shop.meant.closing_ways import _with_slips, closing_by_ways
from fractions_shop.meant.lattice import TooMany, cholesky, expected_count, points
from fractions_shop.meant.planes import Plane, Problem, log_misread
from fractions_shop.meant.priors import scheme
from fractions_shop.meant.readings import take
from fractions_shop.meant.relation_text import read_relation
from fractions_shop.meant.relations import solve
from fractions_shop.meant.steps import Read
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.size.quantity import Quantity

INCH = Fraction(127, 5)
FRACTIONS = {1: 5, 2: 10, 4: 15, 8: 20, 16: 25, 32: 15, 64: 10}


def distance(upper, centre, point):
    size = len(upper)
    off = [n - c for n, c in zip(point, centre, strict=True)]
    return sum(sum(upper[i][j] * off[j] for j in range(i, size)) ** 2 for i in range(size))


class TestPointsOfALattice:
    @pytest.mark.parametrize("size", [1, 2, 3])
    def test_are_all_that_a_search_of_a_whole_box_finds(self, size):
        random = Random(size)
        for _ in range(20):
            rows = [[random.gauss(0, 1) for _ in range(size)] for _ in range(size)]
            matrix = [
                [sum(row[i] * row[j] for row in rows) + (i == j) / 2 for j in range(size)]
                for i in range(size)
            ]
            upper = cholesky(matrix)
            centre = [random.uniform(-3, 3) for _ in range(size)]
            inside = dict(points(upper, centre, 6.0, 10_000))
            # Every eigenvalue is at least a half, so that none is farther than sqrt(12).
            box = [range(int(c) - 5, int(c) + 6) for c in centre]
            wanted = {n: distance(upper, centre, n) for n in product(*box)}
            wanted = {n: far for n, far in wanted.items() if far <= 6.0}
            assert inside.keys() == wanted.keys()
            for n, far in wanted.items():
                assert inside[n] == pytest.approx(far, abs=1e-9)

    def test_of_no_size_is_one(self):
        assert points([], [], 1.0, 1) == [((), 0.0)]

    def test_are_given_up_beyond_so_many_steps(self):
        upper = cholesky([[1.0, 0.0], [0.0, 1.0]])
        count = len(points(upper, [0.0, 0.0], 100.0, 1000))
        assert count == sum(x * x + y * y <= 100 for x in range(-10, 11) for y in range(-10, 11))
        with pytest.raises(TooMany):
            points(upper, [0.0, 0.0], 100.0, count)  # what lies beside the circle is a step, too

    def test_are_about_as_many_as_the_ellipsoid_is_large(self):
        upper = cholesky([[4.0, 1.0], [1.0, 2.0]])
        volume = pi * 50 / sqrt(4 * 2 - 1)
        assert expected_count(upper, 50.0) == pytest.approx(volume)
        assert len(points(upper, [0.3, 0.4], 50.0, 1000)) == pytest.approx(volume, rel=0.1)


def chi_squared_beyond(bound, k):
    """How likely chi squared of k degrees is larger: Poisson's sum for even k, by its recurrence for odd."""
    half = bound / 2
    tail, j = (exp(-half), 2) if k % 2 == 0 else (2 * normal_beyond(sqrt(bound)), 1)
    while j < k:
        tail += half ** (j / 2) * exp(-half) / gamma(j / 2 + 1)
        j += 2
    return tail


def normal_beyond(x):
    from statistics import NormalDist

    return 1 - NormalDist().cdf(x)


def problem(readings, *texts, within=None):
    relations = tuple(read_relation(text) for text in texts)
    named = dict(zip(readings, take(list(readings.values()), within), strict=True))
    return Problem(named, relations, solve(relations, tuple(named)), scheme())


def test_the_division_of_a_size_is_one_of_its_own_system_the_first_that_carries_it():
    posed = problem({"a": "127 mm"}, "a = 127 mm")
    for system in {each.system for each in posed.divisions}:
        own = [each for each in posed.divisions if each.system == system]
        # 5 in is 127 mm: a mark of either; 0.63 mm is on none of the inch.
        for size in (Fraction(127), Fraction(1, 2), INCH / 64, Fraction(63, 100)):
            carrying = [each for each in own if each.carries(size)]
            assert posed.division(system, size) is (carrying or own[-1:])[0]
            assert posed.carries(system, size) == bool(carrying)


class TestHowFarSetsAreSought:
    @pytest.mark.parametrize("names", ["ab", "abc", "abcd", "abcdefg", "abcdefghijk"])
    def test_is_beyond_what_chance_does_and_less_far_for_one_that_is_doubted(self, names):
        heap = dict.fromkeys(names, "12.7 mm") | {"t": "25.4 mm"}
        posed = problem(heap, f"t = {' + '.join(names)}")
        sound = Plane(posed, posed.solved, None)
        doubted = Plane(posed, posed.solved, "t")
        assert sound.k == len(names)
        assert chi_squared_beyond(sound.bound, sound.k) < 2e-4
        assert chi_squared_beyond(doubted.bound, doubted.k) < 5e-3
        assert doubted.bound < sound.bound < 60
        # Each size more wants some more room, not less.
        smaller = problem({"a": "12.7 mm", "t": "12.7 mm"}, "t = a")
        assert Plane(smaller, smaller.solved, None).bound < sound.bound
        assert Plane(smaller, smaller.solved, "t").bound < doubted.bound

    @pytest.mark.parametrize("within", [2, 6, 9, 12, 25, 40])
    def test_is_on_steps_of_an_eighth_of_the_spread_or_more_and_on_no_finer(self, within):
        """Finer marks stand so close that the readings choose none of them: they count as no round size."""
        posed = problem({"a": "254 mm", "t": "254 mm"}, "t = a", within=f"{within} mm")
        spread = 1 / sqrt(sum(reading.width**-2 for reading in posed.readings.values()))
        heard = [division for division in scheme() if division.step and 8 * division.step >= spread]
        closed = closing(posed).sets
        assert all(any(division.carries(one.sizes["a"]) for division in heard) for one in closed)
        for system in {division.system for division in heard}:
            finest = min(
                (division for division in heard if division.system == system), key=lambda each: each.step
            )
            assert finest.name in {one.division for one in closed if one.system == system}


class TestCountsThatAreFractions:
    """`2 * a = 3 * b`: of the marks of b only every second makes a mark of a."""

    def by_brute_force(self, b):
        """Sets of inch fractions alone, by the stated model: one division for all, or each its own."""
        sigma = sqrt((0.8**2 + 0.05**2) / 3)
        ways = [(INCH / n, w / 100) for n, w in FRACTIONS.items()]
        masses = {}
        near = round(b / (INCH / 64))
        for n in range(near - 12, near + 13):
            size = n * INCH / 64
            other = size * 3 / 2
            if (other / (INCH / 64)).denominator > 1:
                continue
            likely = exp(-((float(b - size) / sigma) ** 2) / 2 - (float(b * 3 / 2 - other) / sigma) ** 2 / 2)
            # A set on a division is as coarse as two of its steps of b.
            one = sum(w * 2 * float(s) for s, w in ways if not (size / s) % 1 and not (other / s) % 1)
            root = sqrt(
                sum(w * float(s) for s, w in ways if not (size / s) % 1)
                * sum(w * float(s) for s, w in ways if not (other / s) % 1)
            )
            masses[size] = (one + root) * likely
        return masses

    @pytest.mark.parametrize("b", ["26.0", "19.8", "32.4"])
    def test_the_sets_weigh_as_they_should_against_each_other(self, b):
        b = Fraction(b)
        found = reconcile(
            {"a": Quantity(b * 3 / 2), "b": Quantity(b)}, ["2 * a = 3 * b"], within="0.8 mm", work="inch"
        )
        assert found.free == ("b",)
        wanted = self.by_brute_force(b)
        told = {
            one.sizes["b"].mm: one.probability
            for one in found.sets
            if one.system == "inch fractions" and wanted.get(one.sizes["b"].mm, 0) > 0
        }
        assert len(told) > 1
        best = max(told, key=told.get)
        assert wanted[best] == max(wanted[size] for size in told)
        for size, probability in told.items():
            # A misreading of either may come in besides, some 6 in 100 of the whole.
            assert probability / told[best] == pytest.approx(wanted[size] / wanted[best], rel=0.25, abs=0.02)

    def test_every_set_closes_on_marks(self):
        found = reconcile({"a": "38.1 mm", "b": "25.4 mm"}, ["2 * a = 3 * b"])
        for one in found.sets:
            assert one.sizes["a"] * 2 == one.sizes["b"] * 3
            if one.system == "inch fractions" and not one.off_marks:
                assert all((size.inch * 64).denominator == 1 for size in one.sizes.values())

    @pytest.mark.parametrize(
        "texts",
        [
            ("2 * a = 3 * b",),
            ("6 * a = 3 * b + 2 * c",),
            ("4 * a = 2 * b + c", "3 * d = b + c"),
            ("a = b + c",),
            ("2 * a = 5 * b", "3 * c = b + a"),
        ],
    )
    def test_the_sets_on_a_step_are_as_many_times_fewer_as_a_count_of_them_says(self, texts):
        names = sorted({sign for text in texts for sign in text if sign.isalpha()})
        posed = problem(dict.fromkeys(names, "25.4 mm"), *texts)
        plane = Plane(posed, posed.solved, None)
        chain = next(chain for chain in plane.chains if chain.system == "inch fractions")
        grid = plane.grid(chain, 4)
        assert grid is not None
        rows = [posed.solved.row(name)[0] for name in names]
        choices = list(product(range(60), repeat=len(posed.solved.free)))
        whole = sum(
            all(
                sum((count * n for count, n in zip(row, chosen, strict=True)), Fraction(0)).denominator == 1
                for row in rows
            )
            for chosen in choices
        )
        assert len(choices) == whole * grid.index


class TestSizesAreAboveNought:
    def test_a_set_with_none_or_less_is_no_set(self):
        posed = problem({"a": "25.4 mm", "b": "12.7 mm", "c": "12.7 mm"}, "a = b + c")
        plane = Plane(posed, posed.solved, None)
        grid = plane.grid(plane.chains[0], 3)
        assert grid is not None
        assert grid.weight((8, 4)) is not None
        assert [grid.weight(chosen) for chosen in ((8, 0), (0, 4), (-4, 8), (8, -4))] == [None] * 4

    def test_though_a_reading_allows_for_less(self):
        found = reconcile(
            {"gap": "0.2 mm", "a": "12.7 mm", "b": "12.9 mm"}, ["b = a + gap"], within="0.5 mm", work="inch"
        )
        assert found.sets
        assert all(size.value > 0 for one in found.sets for size in one.sizes.values())

    def test_and_relations_that_leave_one_at_nought_conflict(self):
        with pytest.raises(NoAnswer, match="above zero"):
            reconcile({"a": "25.4 mm", "b": "0.1 mm"}, ["a = 25.4 mm", "a + b = 25.4 mm"])


class TestAMisreading:
    def test_is_as_likely_in_all_as_it_ought_to_be(self):
        # The two tails add up to one: 2 * integral of (c / (n + x)^1.5) from nought on.
        step = 0.001
        near = sum(exp(log_misread((k + 0.5) * step)) for k in range(1_500_000)) * step
        beyond = sqrt(0.5) / 2 / sqrt(0.5 + 1500)  # the integral from there on
        assert 2 * (near + beyond) == pytest.approx(1.0, abs=1e-3)
        half = sum(exp(log_misread((k + 0.5) * step)) for k in range(1_500)) * step
        assert 2 * half == pytest.approx(0.5, abs=0.01)

    def test_falls_off_with_its_size_and_alike_either_way(self):
        far = [log_misread(off) for off in (0.0, 0.3, 1.0, 8.0, 25.4)]
        assert far == sorted(far, reverse=True)
        assert log_misread(-4.0) == log_misread(4.0)

    @pytest.mark.parametrize("off", [-8, -4, 4, 8])
    def test_is_not_laid_on_another_reading_because_that_would_be_less_far_off(self, off):
        """A rack 8 mm out is no better explained by a bay that is 1.6 mm out: either may be wrong."""
        found = reconcile({"rack": f"{47.6 + off:.1f} mm", "bay": "9.5 mm"}, ["rack = 5 * bay"])
        assert found.suspect is not None
        assert min(found.suspicions.values()) > 0.02
        assert found.verdict is SizeVerdict.UNSETTLED
        assert found.size_verdict(found.suspect) is SizeVerdict.UNSETTLED

    def test_is_as_likely_however_wide_it_is_looked_for(self, monkeypatch):
        """The wide spread only lets the other readings say where the sets are: it is taken out again."""
        told = []
        for wide in (10.0, 40.0):
            monkeypatch.setattr(planes, "_WIDE", wide)
            for texts, read in (
                (["rack = 5 * bay"], {"rack": "55.6 mm", "bay": "9.5 mm"}),
                (["t = a + b"], {"a": "12.7 mm", "b": "19.1 mm", "t": "35.8 mm"}),
                (["a = 12.7 mm", "a + b = 31 mm"], {"a": "12.8 mm", "b": "19.1 mm"}),
            ):
                found = closing(problem(read, *texts))
                told.append([*found.suspicions.values(), found.evidence])
        for first, second in zip(told[:3], told[3:], strict=True):
            assert second == pytest.approx(first, rel=1e-4)

    def test_far_out_is_named_by_two_relations(self):
        read = {"a": "12.7 mm", "b": "19.1 mm", "c": "25.4 mm", "over": "31.7 mm", "across": "73.9 mm"}
        found = reconcile(read, ["over = a + b", "across = b + 2 * c"])
        assert found.suspect in ("across", "c")
        assert found.sizes["a"].inch == Fraction(1, 2)

    def test_odds_on_its_size_allow_for_a_wrong_relation(self):
        found = reconcile({"a": "12.7 mm", "b": "19.1 mm", "t": "35.8 mm"}, ["t = a + b"])
        assert found.suspect == "t"
        assert [str(relation) for relation in found.in_doubt] == ["t = a + b"]
        assert found.size_odds("t") < 1.1 < found.sets[0].odds
        assert found.odds == pytest.approx(found.probability / 2 / (1 - found.probability / 2))
        assert found.size_odds("a") > 30

    def test_alone_against_a_known_size_is_an_even_thing(self):
        found = reconcile({"window": "22.5 mm"}, ["window = 18.5 mm"])
        assert found.suspect == "window"
        assert found.size_odds("window") == pytest.approx(1.0)
        assert found.verdict is SizeVerdict.UNSETTLED

    def test_a_reading_that_strains_the_best_set_is_never_passed_over(self):
        """32 mm and 31.8 mm are too far apart for readings to 0.05 mm, whichever of them is wrong."""
        found = reconcile({"a": "12.7 mm", "b": "19.1 mm"}, ["a + b = 32 mm"])
        assert found.suspect is not None
        assert found.rest_verdict is SizeVerdict.UNSETTLED


#: All but the last on half millimetres.
READ = {"a": "12.5 mm", "b": "19.0 mm", "c": "25.5 mm", "t": "58.7 mm"}


class TestASlipOffTheStep:
    def test_is_doubted_with_no_more_said(self):
        found = reconcile(READ, ["t = a + b + c"])
        others = [share for name, share in found.suspicions.items() if name != "t"]
        assert found.suspicions["t"] > 2 * max(others)

    def test_is_one_way_with_the_same_reading_taken_as_it_was_written(self):
        posed = problem(READ, "t = a + b + c")
        ways = closing_by_ways(posed)
        slipped = closing_by_ways(problem({**READ, "t": "60.7 mm"}, "t = a + b + c"))
        assert slipped.closed.suspicions["t"] > ways.closed.suspicions["t"]
        assert slipped.closed.suspicions["t"] > 0.8
        assert sum(one.probability for one in ways.closed.sets) <= 1 + 1e-9

    def test_leaves_the_sizes_of_the_others(self):
        found = reconcile({**READ, "t": "63.3 mm"}, ["t = a + b + c"])
        assert found.suspect == "t"
        assert [found.sizes[name].inch for name in "abc"] == [Fraction(1, 2), Fraction(3, 4), Fraction(1)]


def test_a_way_with_one_slip_is_closed_with_the_reading_doubted_and_others_as_they_are():
    plain = Read((), take(["12.5 mm", "19.0 mm", "25.4 mm"]), 0.0, ())
    one, two = plain.but(slips=(1,)), plain.but(slips=(1, 2))
    every = [plain, one, two]
    assert _with_slips([one], every) == _with_slips([one, plain], every) == [(plain, frozenset({1}))]
    assert _with_slips([plain, one, two], every) == [(plain, frozenset({1})), (two, frozenset())]
    assert _with_slips([two, plain], every) == [(two, frozenset()), (plain, frozenset())]
    assert _with_slips([one], [one, two]) == [(one, frozenset())], "there is no such way without the slip"


def test_every_place_of_equal_readings_is_told_of_a_step():
    """Equal readings are one witness and several places of the list."""
    read = ["38.0 mm", "25.5 mm", "25.5 mm", "12.5 mm", "51.0 mm", "8.7 mm", "8.7 mm", "19.0 mm"]
    step = recover(read).step
    assert step is not None
    assert step.step.mm == Fraction(1, 2)
    assert step.on == (0, 1, 2, 3, 4, 7)
    assert step.odd == (5, 6)


def test_no_mass_is_lost_by_what_is_not_looked_at():
    found = reconcile({"rack": "75.4 mm", "bay": "10.3 mm", "slat": "4.0 mm"}, ["rack = 5 * bay + 6 * slat"])
    assert sum(one.probability for one in found.sets) + found.other == pytest.approx(1.0)
    assert log(found.sets[0].odds) > 0
