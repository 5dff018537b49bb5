"""Reconcile: sets that close, weighed as by brute force; misreadings, what is given, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import exp, log, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.errors import InputError, NoAnswer, ShopError
from fractions_shop.meant.lattice import TooMany, cholesky, expected_count, points
from fractions_shop.meant.priors import scheme
from fractions_shop.meant.readings import reading
from fractions_shop.meant.reconcile import reconcile
from fractions_shop.meant.relations import Relation
from fractions_shop.meant.scale import scale_from
from fractions_shop.meant.shared import Print, Zero
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.sheet.session import Session
from fractions_shop.size.quantity import Quantity

INCH = Fraction(127, 5)
RACK = {"rack": "75.4 mm", "bay": "10.3 mm", "slat": "4.0 mm"}
CLOSES = ["rack = 5 * bay + 6 * slat"]


def inches(found, *names):
    return [found.sizes[name].inch for name in names]


def test_a_rack_of_bays_and_slats_closes():
    found = reconcile(RACK, CLOSES)
    assert inches(found, "rack", "bay", "slat") == [Fraction(95, 32), Fraction(13, 32), Fraction(5, 32)]
    assert found.probability > 0.99
    assert found.verdict is SizeVerdict.CUT
    assert found.suspect is None
    assert found.departures["rack"] == Quantity(Fraction("75.4")) - found.sizes["rack"]
    assert found.sets[0].names == {"rack": "2 31/32 in", "bay": "13/32 in", "slat": "5/32 in"}
    assert found.sets[0].differs == ()
    assert found.sets[1].differs
    assert found.free == ("bay", "slat")


sizes = st.integers(8, 40)


@settings(max_examples=25, deadline=None)
@given(sizes, sizes, st.lists(st.integers(-12, 12), min_size=3, max_size=3))
def test_every_set_closes_and_probabilities_add_up(bay, slat, offs):
    true = {"rack": 5 * bay + 6 * slat, "bay": bay, "slat": slat}
    read = {
        n: Quantity(INCH * k / 32 + Fraction(off, 100))
        for (n, k), off in zip(true.items(), offs, strict=True)
    }
    found = reconcile(read, CLOSES)
    for one in found.sets:
        on = [
            d
            for d in scheme()
            if d.step and d.system == one.system and all(d.carries(size.mm) for size in one.sizes.values())
        ]
        # A set is called by the coarsest division that every size of it is on.
        assert not on or one.division == max(on, key=lambda d: d.step).name
    chances = [one.probability for one in found.sets]
    assert chances == sorted(chances, reverse=True)
    assert sum(chances) + found.other == pytest.approx(1)
    for one in found.sets:
        assert one.sizes["rack"] == one.sizes["bay"] * 5 + one.sizes["slat"] * 6
        assert all(size.value > 0 and not size.approximate for size in one.sizes.values())
        assert all(read[n] - size == one.departures[n] for n, size in one.sizes.items())
        assert set(one.differs) == {n for n in read if one.sizes[n] != found.sizes[n]}
    assert all(0 <= chance <= 1 for chance in (*found.chances.values(), *found.suspicions.values()))
    assert all(found.chances[n] >= found.probability - 1e-9 for n in read)


FRACTIONS = {1: 5, 2: 10, 4: 15, 8: 20, 16: 25, 32: 15, 64: 10}
DECIMALS = {"0.1": 15, "0.05": 15, "0.01": 30, "0.005": 15, "0.001": 25}
METRIC = {"10": 15, "5": 25, "1": 40, "0.5": 15, "0.1": 5}


def by_brute_force(top, part, sigma, count):
    """`top = count * part` weighed by the stated model, written out afresh; k = 1 free size of N = 2.

    One division for all: w * step for each part on it; each its own: the root of the product of the readabilities.
    """
    inch, metric = 20 / 21, 1 / 21
    systems = {
        "f": [(INCH / n, inch * 0.85 * w / 100) for n, w in FRACTIONS.items()],
        "d": [(INCH * Fraction(t), inch * 0.15 * w / 100) for t, w in DECIMALS.items()],
        "m": [(Fraction(t), metric * w / 100) for t, w in METRIC.items()],
    }

    def normal(off, spread):
        return exp(-((off / spread) ** 2) / 2) / (spread * sqrt(2 * pi))

    def misread(off):
        return 0.5 / 2 * 0.5**0.5 / (0.5 + abs(off)) ** 1.5

    masses, flat = {}, 0.0
    for doubted in (None, 0, 1):
        likelies = [
            misread if doubted == i else lambda off: normal(off, sigma) for i in (0, 1)
        ]  # fmt: skip
        before = 0.97**2 if doubted is None else 0.03 * 0.97
        # Over all f, by thin slices about what either reading says.
        thin = sigma / 20
        middle = float(top / count) if doubted == 1 else float(part)
        slices = [middle + k * thin for k in range(-160, 161)]
        flat += before * 0.05 * thin * sum(
            likelies[0](float(top) - count * x) * likelies[1](float(part) - x) for x in slices
        )  # fmt: skip
        for ways in systems.values():
            total = sum(w for _, w in ways)
            finest = ways[-1][0]
            near = round(part / finest)
            for n in range(max(1, near - 200), near + 200):
                size = n * finest
                likely = likelies[0](float(top - count * size)) * likelies[1](float(part - size))
                if likely < 1e-12:
                    continue
                one = sum(w * float(s) for s, w in ways if (size / s).denominator == 1)

                def readable(mm, ways=ways, total=total):
                    return sum(w * float(s) for s, w in ways if (mm / s).denominator == 1) / total

                each = total * sqrt(readable(size) * readable(count * size))
                masses[size] = masses.get(size, 0) + before * 0.95 * (one + each) / 2 * likely
    whole = flat + sum(masses.values())
    return {size: mass / whole for size, mass in masses.items()}


@pytest.mark.parametrize(
    ("top", "part", "count"),
    [
        ("51.6", "10.3", 5),
        ("38.0", "12.7", 3),
        ("60.0", "15.1", 4),
        ("23.85", "11.8", 2),
        ("50.3", "10.0", 5),
    ],
)
def test_sets_are_weighed_as_by_brute_force(top, part, count):
    top, part = Fraction(top), Fraction(part)
    sigma = sqrt((0.05**2 + 0.05**2) / 3)
    found = reconcile({"top": Quantity(top), "part": Quantity(part)}, [f"top = {count} * part"])
    wanted = by_brute_force(top, part, sigma, count)
    assert found.sets[0].sizes["part"].mm == max(wanted, key=wanted.get)
    for one in found.sets[:3]:
        # Sets farther out than twenty more of chi squared are not looked at.
        assert one.probability == pytest.approx(wanted[one.sizes["part"].mm], rel=0.02, abs=2e-4)


class TestMisreading:
    def test_the_reading_that_disagrees_is_named_and_does_not_bend_the_rest(self):
        found = reconcile({**RACK, "slat": "4.9 mm"}, CLOSES)
        assert found.suspect == "slat"
        assert inches(found, "rack", "bay", "slat") == [Fraction(95, 32), Fraction(13, 32), Fraction(5, 32)]
        assert found.rest_verdict is SizeVerdict.CHECK
        assert found.verdict is found.size_verdict("slat") is SizeVerdict.UNSETTLED
        assert found.suspicions["slat"] > 0.9

    def test_a_name_that_nothing_ties_is_not_accused(self):
        found = reconcile({**RACK, "foot": "33.33 mm"}, CLOSES)
        assert found.suspicions["foot"] == 0
        assert found.suspect is None


class TestGiven:
    def test_relations_come_as_text_or_typed(self):
        typed = Relation.of({"rack": 1, "bay": -5, "slat": -6})
        assert reconcile(RACK, [typed]).sizes == reconcile(RACK, CLOSES).sizes
        assert reconcile(RACK, CLOSES[0]).sizes == reconcile(RACK, CLOSES).sizes

    def test_a_known_size_holds_to_the_last_place(self):
        found = reconcile({"bay": "10.3 mm", "slat": "4.0 mm"}, ["2 31/32 in = 5 * bay + 6 * slat"])
        assert inches(found, "bay", "slat") == [Fraction(13, 32), Fraction(5, 32)]

    def test_what_the_relations_alone_settle_is_certain(self):
        found = reconcile({"bay": "10.15 mm"}, ["2 in = 5 * bay"])
        assert inches(found, "bay") == [Fraction(2, 5)]
        assert found.probability == 1
        assert reconcile({"bay": "11.2 mm"}, ["2 in = 5 * bay"]).suspect == "bay"

    def test_a_size_read_again_counts_as_one_reading(self):
        found = reconcile({**RACK, "bay": ["10.3 mm", "10.4 mm", "10.3 mm"]}, CLOSES)
        assert found.readings["bay"].size.mm == Fraction(31, 3)
        assert inches(found, "bay") == [Fraction(13, 32)]

    def test_readings_carry_their_own_trust(self):
        rough = {**RACK, "rack": reading("75 mm", within="1 mm")}
        assert reconcile(rough, CLOSES).probability < reconcile(RACK, CLOSES).probability

    def test_metric_work_is_found_when_it_is_said(self):
        read = {"whole": "60.1 mm", "end": "12.0 mm", "middle": "36.0 mm"}
        found = reconcile(read, ["whole = 2 * end + middle"], work="metric")
        assert [size.mm for size in found.sizes.values()] == [60, 12, 36]
        assert found.belief.inch_odds == 1 / 200

    def test_half_counts_leave_only_sets_whose_halves_are_marks_too(self):
        found = reconcile({"a": "20.7 mm", "half": "10.3 mm"}, ["half = a / 2"])
        assert inches(found, "a", "half") == [Fraction(13, 16), Fraction(13, 32)]

    def test_one_size_may_be_off_all_marks_when_nothing_else_closes(self):
        # A third of 2 in is on no rule, and not in thous either.
        found = reconcile(
            {"rack": "50.8 mm", "bay": "16.933 mm"}, ["rack = 3 * bay"], within="0.002 mm", made="0 mm"
        )
        assert inches(found, "rack", "bay") == [2, Fraction(2, 3)]
        assert found.sets[0].off_marks == ("bay",)


class TestCommonErrors:
    def test_a_zero_that_was_not_set_is_allowed_for(self):
        zero = {
            n: reading(Quantity(Fraction(s.split()[0]) + Fraction(1, 5)), shared=(Zero(),))
            for n, s in RACK.items()
        }
        found = reconcile(zero, CLOSES)
        assert inches(found, "rack", "bay", "slat") == [Fraction(95, 32), Fraction(13, 32), Fraction(5, 32)]

    def test_one_scale_for_all_readings_of_a_print(self):
        true = {"rack": 95, "bay": 13, "slat": 5, "end": 24}
        read = {
            n: reading(Quantity(round(INCH * k / 32 * Fraction(983, 1000), 1)), shared=(Print(),))
            for n, k in true.items()
        }
        found = reconcile(read, ["rack = 5 * bay + 6 * slat"], made="0 mm")
        best = [{n: q.inch * 32 for n, q in one.sizes.items()} for one in found.sets[:3]]
        assert true in best

    def test_the_scale_is_told_with_its_spread_and_what_it_rests_on(self):
        read = {
            n: f"{float(INCH * k / 32) * 0.983:.1f} mm"
            for n, k in {"rack": 95, "bay": 13, "slat": 5, "end": 24}.items()
        }
        at = scale_from(f"{50.8 * 0.983:.1f} mm", "2 in")
        found = reconcile(read, CLOSES, scale=at)
        assert [size.inch * 32 for size in found.sizes.values()] == [95, 13, 5, 24]
        assert float(found.scale.factor) == pytest.approx(1 / 0.983, abs=0.002)
        assert (found.scale.readings, found.scale.known) == (4, at)
        assert abs(float(found.scale.factor) * 0.983 - 1) < 4 * found.scale.spread
        with pytest.raises(NoAnswer, match="not settled by 3 sizes"):
            reconcile(RACK, CLOSES, scale="print")

    def test_a_coarse_rule_shows_in_the_readings(self):
        true = {"whole": 60, "end": 13, "middle": 34, "foot": 7, "rail": 27}
        read = {n: f"{round(float(INCH * k / 32) * 2) / 2:.1f} mm" for n, k in true.items()}
        found = reconcile(read, ["whole = 2 * end + middle"])
        assert found.step.step.mm == Fraction(1, 2)
        assert found.sets[0].sizes["whole"].inch == Fraction(60, 32)


class TestRefused:
    @pytest.mark.parametrize(
        ("readings", "relations", "error", "words"),
        [
            pytest.param(RACK, ["rack = 5 * bay * slat"], InputError, "must be linear", id="product"),
            pytest.param(
                RACK,
                ["rack = 5 * shelf"],
                ShopError,
                "shelf stands in a relation and has no reading",
                id="unread",
            ),
            pytest.param(
                RACK, ["rack = 5 * bay", "rack = 5 * bay + 1 in"], NoAnswer, "cannot all hold", id="conflict"
            ),
            pytest.param(
                {"a": "3 mm"},
                ["a + 1 in = 0 mm"],
                NoAnswer,
                r"a \+ 1 in = 0 mm can never hold of sizes above zero",
                id="negative",
            ),
            pytest.param(
                {"a": "50 mm", "b": "10 mm", "c": "8 mm", "d": "4 mm"},
                ["c = 2 * d", "a = 5 * b", "a = 4 * b"],
                NoAnswer,
                r"these cannot all hold of sizes above zero: a = 5 \* b and a = 4 \* b",
                id="only-nought",
            ),
            pytest.param({}, CLOSES, ShopError, "from 1 to 12 names", id="none"),
            pytest.param(RACK, [], ShopError, "from 1 to 8 relations", id="no-relation"),
            pytest.param(
                {f"n{k}": "9 mm" for k in range(13)}, ["n1 = n2"], ShopError, "not 13", id="thirteen"
            ),
        ],
    )
    def test_with_one_clear_error(self, readings, relations, error, words):
        with pytest.raises(error, match=words):
            reconcile(readings, relations)

    def test_a_heap_too_rough_to_settle_says_so(self):
        read = {n: reading(f"{k}0 mm", within="40 mm") for k, n in enumerate("abcdefghijk", 2)}
        found = reconcile(read, ["a + b = c"])
        assert found.verdict is SizeVerdict.UNSETTLED


# The search itself


def matrices(size):
    entry = st.floats(-1, 1)
    return st.lists(st.lists(entry, min_size=size, max_size=size), min_size=size, max_size=size)


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 3).flatmap(matrices), st.lists(st.floats(-2, 2), min_size=3, max_size=3))
def test_points_are_all_those_inside(rows, centre):
    size = len(rows)
    gram = [[sum(r[i] * r[j] for r in rows) + (i == j) for j in range(size)] for i in range(size)]
    upper, centre, bound = cholesky(gram), centre[:size], 4.0
    found = dict(points(upper, centre, bound, 10**6))

    def distance(n):
        off = [a - b for a, b in zip(n, centre, strict=True)]
        return sum(off[i] * gram[i][j] * off[j] for i in range(size) for j in range(size))

    wanted = {n: distance(n) for n in product(range(-5, 6), repeat=size) if distance(n) <= bound - 1e-9}
    assert wanted.keys() <= found.keys()
    assert all(found[n] == pytest.approx(distance(n), abs=1e-9) for n in found)
    assert all(found[n] <= bound + 1e-9 for n in found)
    assert expected_count(upper, bound) == pytest.approx(
        exp(size / 2 * log(bound))
        * {1: 2, 2: pi, 3: 4 * pi / 3}[size]
        / sqrt(exp(2 * sum(log(upper[i][i]) for i in range(size))))
    )


def test_the_search_is_bounded():
    upper = [[0.01, 0.0], [0.0, 0.01]]
    with pytest.raises(TooMany):
        list(points(upper, [0.0, 0.0], 25.0, 1000))


def test_a_lone_reading_that_what_is_known_contradicts_is_told_so():
    session = Session()
    session.answer("w = 2 in")
    session.answer("a reads 10.3 mm by caliper")
    answer = session.answer("reconcile a = w")
    assert answer is not None
    assert answer.text().startswith("Not settled: a")


def test_what_has_no_set_near_says_so_at_every_exit():
    found = reconcile({"a": "12.7 mm", "b": "12.7 mm"}, ["a = 1000 * b"])
    said = "no set of round sizes that closes is near these readings"
    assert (found.sets, found.departures, found.probability, found.step) == ((), {}, 0.0, None)
    assert found.text().rstrip() == said
    assert said in repr(found)
    assert said in found._repr_html_()
    for ask in (lambda: found.sizes, found.data):
        with pytest.raises(NoAnswer, match=said):
            ask()
