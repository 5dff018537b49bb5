"""Recovering what was meant: handbook-sense cases, Bayes by brute force, chance by trial."""

from bisect import bisect_left
from fractions import Fraction
from math import erf, exp, pi, sqrt
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop.errors import DimensionError, FloatRefused, ShopError
from fractions_shop.meant.priors import scheme, span_about
from fractions_shop.meant.readings import take
from fractions_shop.meant.recover import recover
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.tables.drills import series_drills
from fractions_shop.tables.gauges import series_gauges
from fractions_shop.threads.records import BY_KEY
from fractions_shop.threads.series import all_threads, told_apart

# Checks against the trade


@pytest.mark.parametrize(
    ("reading", "size"),
    [
        # common practice, no source: caliper readings of inch work
        pytest.param("51.5 mm", "2 1/32 in", id="51.5"),
        pytest.param("66.7 mm", "2 5/8 in", id="66.7"),
        pytest.param("10.3 mm", "13/32 in", id="10.3"),
        pytest.param("8.7 mm", "11/32 in", id="8.7"),
        pytest.param("7.95 mm", "5/16 in", id="7.95"),
        # common practice, no source: what was read on a rule is what was meant
        pytest.param("2 1/32 in", "2 1/32 in", id="read-on-32nds"),
        pytest.param("0.193 in", "0.193 in", id="read-in-thou"),
        # common practice, no source: a clean metric reading is metric in spite of the odds
        pytest.param("45.0 mm", "45 mm", id="45.0"),
        pytest.param("10.0 mm", "10 mm", id="10.0"),
    ],
)
def test_best_candidate(reading, size):
    assert recover(reading).candidates[0].name == size


@pytest.mark.parametrize(
    ("reading", "among", "name"),
    [
        # sizes as in the printed tables (each table's rows name their source)
        pytest.param("2.26 mm", "drills", "No 43 drill", id="No-43-0.0890-in"),
        pytest.param("0.048 in", ("gauges",), "18 SWG", id="18-SWG-0.048-in"),
        pytest.param("2.79 mm", ["threads"], "6 BA", id="6-BA-2.8-mm"),
        pytest.param("0.64 mm", ["stock"], "0.025 in shim", id="shim-0.025-in"),
    ],
)
def test_finds_sizes_of_a_table_only_when_it_is_named(reading, among, name):
    def names(found):
        return {n for c in found.candidates for n in (c.name, *c.also)}

    assert name in names(recover(reading, among=among))
    assert name not in names(recover(reading))


def test_one_size_under_two_names_keeps_the_more_readable():
    best = recover("12.7 mm").candidates[0]
    assert (best.name, best.system, best.division) == ("1/2 in", "inch fractions", "halves")
    assert "12.7 mm" in best.also
    assert best.off == Quantity(Fraction(0))


def test_the_caller_shifts_the_belief_in_inches():
    assert recover("51.5 mm", inch_odds=1).candidates[0].name == "51.5 mm"
    assert recover("51.5 mm", inch_odds=1000).candidates[0].name == "2 1/32 in"


def test_wear_finds_the_larger_size_that_the_part_once_was():
    assert recover("12.45 mm", worn="0.3 mm").candidates[0].name == "1/2 in"
    assert recover("12.45 mm").candidates[0].name != "1/2 in"
    # Wear takes off and does not add: a part that reads large gains nothing by it.
    assert recover("12.95 mm", worn="0.3 mm").candidates[0].name != "1/2 in"


def test_metric_sets_are_explained_as_metric():
    # common practice, no source
    found = recover(["10 mm", "20 mm", "25 mm", "30 mm", "45 mm"])
    assert (found.system.system, found.system.division) == ("metric", "5 mm")
    assert found.system.odds > 50
    assert [c.name for c in found.candidates] == ["10 mm", "20 mm", "25 mm", "30 mm", "45 mm"]
    assert float(found.quantogram.quantum.mm) == pytest.approx(5, abs=0.001)


def test_inch_sets_are_explained_by_their_division():
    # 3/8, 5/8, 3/4 and 1 1/8 in to the tenth of a millimetre, by arithmetic
    found = recover(["9.5 mm", "15.9 mm", "19.0 mm", "28.6 mm"])
    assert (found.system.system, found.system.division) == ("inch fractions", "8ths")
    assert [m.inch for m in found.system.meant] == [Fraction(n) for n in ("3/8", "5/8", "3/4", "9/8")]
    assert found.system.worst == Quantity(Fraction("0.05"))


def test_company_settles_what_one_rough_reading_cannot():
    alone = recover("10 mm").candidates[0]
    among_others = recover(["10 mm", "20.0 mm", "25.0 mm", "30.0 mm", "45.0 mm"]).candidates[0]
    assert alone.name == "3/8 in"
    assert among_others.name == "10 mm"


def test_a_stray_size_does_not_hide_the_system_of_the_rest():
    sizes = ["10.0 mm", "20.0 mm", "25.0 mm", "30.0 mm", "45.0 mm", "50.0 mm", "33.73 mm"]
    assert recover(sizes).system.division == "5 mm"


def test_sizes_at_random_are_called_no_system():
    sizes = ["13.37 mm", "29.11 mm", "41.83 mm", "17.67 mm", "36.23 mm", "22.94 mm"]
    found = recover(sizes, within="0.005 mm", made="0.005 mm")
    assert found.system.system in ("no system", "decimal inch")
    assert found.system.better < 100


# Nobody is fooled


def test_a_match_with_a_64th_is_worth_little():
    # Every size is within 0.2 mm of a 64th (25.4 / 128, arithmetic).
    found = recover("20.05 mm", within="0.2 mm").candidates
    worst = [c for c in found if c.division == "64ths"]
    assert worst
    assert all(c.chance > 0.9 for c in worst)


def test_a_match_with_a_whole_inch_is_worth_much():
    assert recover("50.82 mm").candidates[0].chance < 0.05


@pytest.mark.parametrize(
    ("reading", "options"),
    [
        ("51.5 mm", {}),
        ("17.62 mm", {}),
        ("30.0 mm", {"inch_odds": 1}),
        ("12.45 mm", {"worn": "0.3 mm"}),
        ("10.3 mm", {"among": ["drills"]}),
        ("1.22 mm", {"among": ["gauges"]}),
    ],
)
def test_chance_is_how_often_random_sizes_come_as_near(reading, options):
    """Trial: sizes thrown evenly about the reading, each held against every mark as readable."""
    found = recover(reading, **options).candidates[0]
    one = take(reading, worn=options.get("worn"))[0]
    divisions = scheme(options.get("among", ()), options.get("inch_odds", 20.0))
    span = span_about(one.size)

    def readable(size):
        return sum(d.weight * d.pitch(span) for d in divisions if d.carries(size))

    least = readable(found.size.mm) * (1 - 1e-9)
    low, high = one.size.mm - 5 * INCH / 2, one.size.mm + 5 * INCH / 2
    lost = one.worn.mm / 2
    rivals = {
        k * d.step
        for d in divisions
        if d.step
        for k in range(int((low - 9) / d.step), int((high + 9) / d.step))
    }
    rivals |= {m for d in divisions if not d.step for m in d.between(low, high)}
    rivals = sorted(float(m - lost) for m in rivals if readable(m) >= least)
    reach = float(max(abs(found.off.mm + lost), one.within.mm))

    random, hits, throws = Random(1), 0, 20000
    for _ in range(throws):
        x = random.uniform(float(low), float(high))
        at = bisect_left(rivals, x)
        hits += any(abs(x - m) <= reach for m in rivals[max(0, at - 1) : at + 1])
    # Four standard errors, and what the ends of the stretch may do.
    assert found.chance == pytest.approx(hits / throws, abs=4 * sqrt(0.25 / throws) + 0.005)


def test_the_chance_among_threads_counts_how_far_under_screws_measure():
    """Trial as above, a screw being near anywhere from its nominal major down to its undersize."""
    one = take("3.95 mm")[0]
    found = recover("3.95 mm", among="threads").candidates[0]
    divisions = scheme(("threads",))
    span = span_about(one.size)

    def readable(size):
        return sum(d.weight * d.pitch(span) for d in divisions if d.carries(size))

    least = readable(found.size.mm) * (1 - 1e-9)
    low, high = one.size.mm - 5 * INCH / 2, one.size.mm + 5 * INCH / 2
    under = {}
    for t in all_threads():
        # 0.20p + 0.025 mm: BS 93, as Machinery's Handbook 31st ed. p.2115 has it.
        under[t.major.mm] = max(under.get(t.major.mm, 0), t.pitch.mm / 5 + Fraction(1, 40))
    marks = {
        k * d.step
        for d in divisions
        if d.step
        for k in range(int((low - 9) / d.step), int((high + 9) / d.step))
    }
    marks |= {m for m in under if low <= m <= high}
    rivals = [(float(m), float(under.get(m, 0))) for m in marks if readable(m) >= least]
    within = float(one.within.mm)
    assert -found.off.mm < under[found.size.mm]  # so that nothing but `within` is its distance

    random, hits, throws = Random(1), 0, 5000
    for _ in range(throws):
        x = random.uniform(float(low), float(high))
        hits += any(m - less - within <= x <= m + within for m, less in rivals)
    assert found.chance == pytest.approx(hits / throws, abs=4 * sqrt(0.25 / throws) + 0.005)


def test_a_table_size_within_trust_is_not_beaten_by_one_far_off():
    # 18 SWG is 0.048 in, 1.2192 mm; 18 US 1893 is 0.05 in, 1.27 mm (printed tables).
    names = [c.name for c in recover("1.22 mm", among="gauges").candidates]
    assert names[0] == "18 SWG"
    assert "18 US 1893" not in names[:2]


SWG = [g for g in series_gauges("SWG") if 0.3 < g.size.mm < 6]


@pytest.mark.parametrize("among", ["gauges", "drills"])
def test_a_bought_size_read_to_a_hundredth_is_among_the_first(among):
    """Every wire and drill read as it is: of the table's own sizes none is named before a nearer one of few."""
    sizes = {"gauges": SWG, "drills": series_drills("number")[:60]}[among]
    for one in sizes:
        reading = Quantity(Fraction(round(one.size.mm * 100), 100))
        found = recover(reading, within="0.005 mm", among=among).candidates
        (own,) = [c for c in found if c.size == one.size]
        for first in found[: found.index(own)]:
            # Only what is no farther off, or has other names as well, or needs no table.
            assert abs(first.off) <= abs(own.off) or first.also or first.system != among


def test_a_screw_reads_under_its_nominal_major():
    # M4 may measure 0.2 x 0.7 + 0.025 = 0.165 mm less (BS 93's rule), so 3.95 mm is well within it.
    found = {c.name: c for c in recover("3.95 mm", among="threads").candidates}
    assert "M4" in found
    # A part of odds for metric work takes it first.
    assert recover("3.95 mm", among="threads", inch_odds=1 / 20).candidates[0].name == "M4"
    # Over nominal a screw seldom is: 4.1 mm is no M4.
    assert "M4" not in {c.name for c in recover("4.1 mm", among="threads", inch_odds=1 / 20).candidates}


def test_bayes_by_brute_force_among_threads():
    """The stated prior and likelihood written out afresh: each size alike, undersize even from 0 to 0.20p + 0.025."""
    reading, odds = Fraction("3.95"), 20
    sigma = sqrt((0.005**2 + 0.02**2) / 3)
    own = sqrt((0.005**2 + 0.05**2) / 3)
    inch, metric = odds / (1 + odds) / 2, 1 / (1 + odds) / 2
    steps = [(INCH / n, inch * 0.85 * w / 100) for n, w in _FRACTIONS.items()]
    steps += [(INCH * Fraction(t), inch * 0.15 * w / 100) for t, w in _DECIMALS.items()]
    steps += [(Fraction(t), metric * w / 100) for t, w in _METRIC.items()]
    masses, rest = {}, 0.05
    for step, weight in steps:
        for k in range(1, int(9 / step)):
            off = float(reading - k * step) / own
            mass = 0.95 * weight * float(step) * exp(-off * off / 2) / (own * sqrt(2 * pi))
            masses[k * step] = masses.get(k * step, 0) + mass
    by_series = {}
    for t in told_apart():
        by_series.setdefault(t.series, {}).setdefault(t.major.mm, t.pitch.mm)
    raw = {s: len(m) * (0.1 if BY_KEY[s].rare else 1) for s, m in by_series.items()}
    for name, majors in by_series.items():
        step = 25.4 / sum(m <= INCH for m in majors)
        for major, pitch in majors.items():
            under = float(pitch) / 5 + 0.025
            near, far = ((float(reading - major) + more) / (sigma * sqrt(2)) for more in (0, under))
            density = (erf(far) - erf(near)) / 2 / under
            mass = 0.95 * 0.5 * raw[name] / sum(raw.values()) * step * density
            masses[major] = masses.get(major, 0) + mass
    total = rest + sum(masses.values())
    found = recover(Quantity(reading), within="0.005 mm", among="threads").candidates
    assert found
    for candidate in found:
        assert candidate.probability == pytest.approx(masses[candidate.size.mm] / total, rel=1e-4)


# The rule of Bayes by brute force, written out afresh from the stated prior

_FRACTIONS = {1: 5, 2: 10, 4: 15, 8: 20, 16: 25, 32: 15, 64: 10}
_DECIMALS = {"0.1": 15, "0.05": 15, "0.01": 30, "0.005": 15, "0.001": 25}
_METRIC = {"10": 15, "5": 25, "1": 40, "0.5": 15, "0.1": 5}


def by_brute_force(reading, sigma, odds, up_to=62):
    """Every mark up to `up_to` mm with its probability, and that of no round size."""
    inch, metric = odds / (1 + odds), 1 / (1 + odds)
    steps = [(INCH / n, inch * 0.85 * w / 100) for n, w in _FRACTIONS.items()]
    steps += [(INCH * Fraction(t), inch * 0.15 * w / 100) for t, w in _DECIMALS.items()]
    steps += [(Fraction(t), metric * w / 100) for t, w in _METRIC.items()]
    masses = {}
    for step, weight in steps:
        for k in range(1, int(up_to / step) + 1):
            off = float(reading - k * step) / sigma
            density = exp(-off * off / 2) / (sigma * sqrt(2 * pi))
            masses[k * step] = masses.get(k * step, 0) + 0.95 * weight * float(step) * density
    # No round size at all, 1 in 20 in all: even over the sizes.
    total = sum(masses.values()) + 0.05
    return {size: mass / total for size, mass in masses.items()}


@settings(max_examples=8, deadline=None)
@given(
    reading=st.integers(300, 6000).map(lambda n: Fraction(n, 100)),
    within=st.sampled_from([Fraction(1, 50), Fraction(1, 20), Fraction(1, 10)]),
    odds=st.sampled_from([0.1, 1.0, 20.0]),
)
def test_probabilities_are_those_of_bayes_by_brute_force(reading, within, odds):
    found = recover(Quantity(reading), within=Quantity(within), made="0 mm", inch_odds=odds)
    expected = by_brute_force(reading, float(within) / sqrt(3), odds)
    best = sorted(expected.values(), reverse=True)
    # Marks beyond six sigma are not looked at, which costs a hundred-thousandth at most.
    for place, candidate in enumerate(found.candidates):
        assert candidate.probability == pytest.approx(expected[candidate.size.mm], rel=1e-4)
        assert candidate.probability == pytest.approx(best[place], rel=1e-4)
        rest = 1 - candidate.probability
        assert candidate.odds == pytest.approx(candidate.probability / rest, rel=1e-6)


readings = st.integers(1, 20000).map(lambda n: Quantity(Fraction(n, 100)))
options = st.fixed_dictionaries(
    {},
    optional={
        "within": st.sampled_from(["0.01 mm", "0.05 mm", "0.5 mm", "1/64 in"]),
        "worn": st.sampled_from(["0 mm", "0.2 mm", "1 mm"]),
        "among": st.sampled_from([("drills",), ("gauges",), ("threads", "128ths"), ("stock",)]),
        "inch_odds": st.sampled_from([0.05, 1.0, 20.0]),
    },
)


@settings(max_examples=60, deadline=None)
@given(readings, options)
def test_candidates_are_ranked_distinct_and_exact_and_probabilities_add_up_to_one(reading, given_options):
    (found,) = recover(reading, **given_options).readings
    chances = [c.probability for c in found.candidates]
    assert chances == sorted(chances, reverse=True)
    assert sum(chances) + found.other == pytest.approx(1)
    assert len({c.size for c in found.candidates}) == len(found.candidates)
    for c in found.candidates:
        assert c.size + c.off == reading
        assert c.size.value > 0
        assert not c.size.approximate
        assert 0 <= c.chance <= 1
        assert c.name not in c.also


@settings(max_examples=25, deadline=None)
@given(st.lists(readings, min_size=2, max_size=6), st.sampled_from(["0.02 mm", "0.2 mm"]))
def test_explanations_do_not_depend_on_the_order_of_the_readings(sizes, within):
    one, two = recover(sizes, within=within), recover(sizes[::-1], within=within)
    assert [e.probability for e in one.explanations] == pytest.approx(
        [e.probability for e in two.explanations]
    )
    assert sum(e.probability for e in one.explanations) == pytest.approx(1)
    for a, b in zip(one.readings, two.readings[::-1], strict=True):
        assert [c.probability for c in a.candidates] == pytest.approx([c.probability for c in b.candidates])


# The face


def test_one_reading_has_no_system_and_no_quantogram():
    found = recover("51.5 mm")
    assert found.system is None
    assert found.quantogram is None
    assert recover(["51.5 mm"]).candidates == found.candidates


def test_too_rough_for_a_quantum_is_no_quantogram():
    assert recover(["1 mm", "2 mm", "3 mm"]).quantogram is None


def test_a_reading_too_rough_for_any_mark_is_told_as_other():
    (found,) = recover("51.5 mm", within="2 m").readings
    assert found.candidates == ()
    assert found.other == pytest.approx(1)


def test_takes_pint_lengths():
    import pint

    registry = pint.UnitRegistry(non_int_type=Fraction)
    assert recover(Fraction("66.7") * registry.millimeter).candidates[0].name == "2 5/8 in"


@pytest.mark.parametrize(
    ("arguments", "error"),
    [
        pytest.param({"sizes": "51.5"}, DimensionError, id="no-unit"),
        pytest.param({"sizes": 51.5}, FloatRefused, id="float"),
        pytest.param({"sizes": "0 mm"}, ShopError, id="nought"),
        pytest.param({"sizes": []}, ShopError, id="none"),
        pytest.param({"sizes": "3 mm", "among": ["nails"]}, ShopError, id="unknown-table"),
        pytest.param({"sizes": "3 mm", "inch_odds": -1}, ShopError, id="odds"),
    ],
)
def test_refuses(arguments, error):
    with pytest.raises(error):
        recover(**arguments)


def test_plate_adds_so_drills_smaller_than_the_reading_are_among_those_meant() -> None:
    found = recover("5.95 mm", plated="0.3 mm", among=("drills",), work="metric")
    near = {candidate.name: candidate.off.mm for candidate in found.candidates}
    assert near["5.7 mm drill"] == Fraction(1, 4)
    assert near["5.8 mm drill"] == Fraction(3, 20)
