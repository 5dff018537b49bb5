"""One thread: its figures, what it refuses, and what it warns of."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from over_all import over

from fractions_shop.errors import NoAnswer
from fractions_shop.size.quantity import Quantity
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.series import all_threads


@pytest.mark.parametrize(
    ("name", "tpi"),
    [("1/4-20 UNC", "20"), ("2-4.5 UNC", "4.5"), ("M6", "25.4"), ("G 1/4", "19"), ("6 BA", "2540/53")],
)
def test_threads_to_the_inch_are_exact(name: str, tpi: str) -> None:
    assert thread(name).tpi == Fraction(tpi)


@pytest.mark.parametrize(
    ("name", "minors"),
    [
        # D less each printed factor of the pitch, by arithmetic; BA and pipe by their rounded depth.
        ("0 BA", ["4.8"]),
        ("G 1/4", ["11.445"]),
        ("R 1/4", ["11.445"]),
        ("M6", ["4.917468", "4.773131"]),
        ("M3", ["2.458734", "2.3865655"]),
    ],
)
def test_minors_in_millimetres(name: str, minors: list[str]) -> None:
    one = thread(name)
    assert [m.size.mm for m in one.minors] == [Fraction(m) for m in minors]
    assert one.minor == one.minors[0].size
    assert one.minor_convention == one.minors[0].convention
    assert [m.source for m in one.minors] == [c.source for c in one.form.minors]


def test_unified_minors_in_inches() -> None:
    # 1/4 in less 1.082532, 1.190785, 1.226869 and 1.299038 twentieths (MH 31st ed. p.1978).
    found = [m.size.inch for m in thread("1/4-20 UNC").minors]
    assert found == [Fraction(n) for n in ("0.1958734", "0.19046075", "0.18865655", "0.1850481")]


@pytest.mark.parametrize(
    ("name", "exact"),
    [
        ("0 BA", True),
        ("25 BA", False),
        ("G 1/4", True),
        ("1/4 BSW", False),
        ("M6", False),
        ("1/4 BSC", False),
    ],
)
def test_a_figure_is_exact_only_where_the_standard_rounds_it(name: str, exact: bool) -> None:
    one = thread(name)
    for size in (one.depth, one.effective, one.minor):
        assert size.approximate != exact
    assert not one.major.approximate
    assert all(minor.size.approximate for minor in one.minors[1:])


def test_npt_figures_are_counted_from_the_gauge_plane() -> None:
    # ASME B1.20.1, 1/8 NPT: D 0.405, E1 0.37360 in; 0.8p deep at most, 0.8/27 in.
    one = thread("1/8 NPT")
    assert round(one.effective.inch, 4) == Fraction("0.3736")
    assert one.minor == one.effective - one.depth
    assert one.depth.inch == Fraction("0.8") / 27
    assert one.major.inch == Fraction("0.405")


@over(all_threads()[::9], lambda t: t.name)
def test_taper_threads_are_those_of_two_series(one: object) -> None:
    assert one.taper == (one.series in ("R", "NPT"))  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", ["R 1/4", "1/4 NPT"])
def test_a_taper_thread_refuses_what_only_a_parallel_one_has(name: str) -> None:
    one = thread(name)
    for more in ({"engagement": 75}, {"basis": "full"}, {"engagement": 75, "basis": "full"}):
        with pytest.raises(
            NoAnswer, match="a taper thread has no single engagement: ask for its tapping drill"
        ):
            one.tapping(**more)  # type: ignore[arg-type]
    with pytest.raises(NoAnswer, match="a taper thread has no single engagement"):
        one.engagement("11 mm")
    with pytest.raises(NoAnswer, match="three wires do not measure a taper thread: use its gauge"):
        one.over_wires("0.5 mm")
    assert one.tapping(drills="inch") == one.tapping()


@pytest.mark.parametrize(
    ("name", "hole", "basis", "percent"),
    [
        # 100 (D - hole) / (factor p), by arithmetic.
        ("0 BA", "5.1 mm", None, "75"),
        ("0 BA", "4.8 mm", "full", "100"),
        ("0 BA", "4.7 mm", "full", "325/3"),
        ("M6", "6 mm", "basic", "0"),
        ("M6", "5 mm", "basic", "100000000/1082532"),
        ("M6", "5 mm", None, "100000000/1299038"),
    ],
)
def test_percent_of_thread(name: str, hole: str, basis: str | None, percent: str) -> None:
    assert thread(name).engagement(hole, basis) == Fraction(percent)


@pytest.mark.parametrize(
    ("name", "best"),
    [("0 BA", "0.54626"), ("1/4 BSW", "0.71589"), ("M6", "0.57735")],
)
def test_best_wire_in_millimetres(name: str, best: str) -> None:
    # 1 / (2 cos a/2) of the pitch: 1 mm, 1.27 mm, 1 mm.
    assert abs(thread(name).best_wire.mm - Fraction(best)) <= Fraction(5, 10**6)


def test_wires_may_be_text_or_a_quantity_and_the_best_is_usual() -> None:
    one = thread("M6")
    assert one.over_wires("0.6 mm") == one.over_wires(Quantity(Fraction("0.6")))
    assert one.over_wires() == one.over_wires(one.best_wire)


@pytest.mark.parametrize(
    ("name", "area", "unit"),
    [
        # pi/4 (6 - 0.938194)^2 mm2 (ISO 898-1: 20.1) and 0.7854 (1/4 - 0.9743/20)^2 in2 (MH31: 0.0318).
        ("M6", "20.1230", "mm"),
        ("1/4-20 UNC", "0.031821", "in"),
        ("1/4-28 UNF", "0.036374", "in"),
    ],
)
def test_stress_area_by_arithmetic(name: str, area: str, unit: str) -> None:
    found = thread(name).stress_area
    assert found is not None
    assert found.power == 2
    assert abs(found.in_unit(unit) / Fraction(area) - 1) < Fraction(1, 50_000)


@pytest.mark.parametrize("name", ["6 BA", "1/4 BSW", "1/4 BSC", "G 1/4", "1/4 NPT"])
def test_no_stress_area_is_made_up(name: str) -> None:
    assert thread(name).stress_area is None


@over(all_threads()[::9], lambda t: t.name)
def test_pipe_warns_of_pressure_and_the_rest_of_load(one: object) -> None:
    pressure = one.series in ("G", "R", "NPT")  # type: ignore[attr-defined]
    assert ("holds gas, steam or other pressure" in one.caution) == pressure  # type: ignore[attr-defined]
    assert ("carries load" in one.caution) == (not pressure)  # type: ignore[attr-defined]


def test_stress_area_to_the_last_figure() -> None:
    # pi/4 (6 - 0.938194)^2, with pi to 32 figures.
    found = thread("M6").stress_area
    assert found is not None
    wanted = Fraction("3.1415926535897932384626433832795") / 4 * Fraction("5.061806") ** 2
    assert abs(found.value - wanted) < Fraction(1, 10**27)


@pytest.mark.parametrize(
    ("name", "degrees"),
    [("6 BA", "47.5"), ("1/4 BSW", "55"), ("G 1/4", "55"), ("M6", "60"), ("1/4 NPT", "60")],
)
def test_the_angle_is_that_of_the_form(name: str, degrees: str) -> None:
    assert thread(name).angle.degrees == Fraction(degrees)


def test_threads_are_one_by_series_and_name() -> None:
    one, other = thread("6 BA"), thread("1/4 NPT")
    altered = replace(
        one, size="7", major=other.major, pitch=other.pitch, form=other.form, system="inch", source="",
        standing="", notes=("worn",), gauge_effective=other.gauge_effective, tap_drill=other.tap_drill,
    )  # fmt: skip
    assert altered == one
    assert hash(altered) == hash(one)
    assert replace(one, name="other") != one
    assert replace(one, series="M") != one


def test_a_thread_is_shown_by_its_name_and_size() -> None:
    assert repr(thread("6 BA")).startswith("<Thread: 6 BA major 2.8 mm")


# Heads


@pytest.mark.parametrize("name", ["0 BA", "6 BA", "10 BA"])
def test_ba_hexagons_are_one_and_three_quarters_of_the_major(name: str) -> None:
    head, *_ = thread(name).heads
    assert head.largest.mm == thread(name).major.mm * Fraction(7, 4)
    assert (head.kind, head.dimension, head.smallest) == ("hexagon head", "across flats, nominal", None)
    assert head.note == "a rule; BS 57 gives the tolerances, and its tables were not read"


def test_fine_metric_threads_have_the_heads_of_their_size() -> None:
    assert thread("M8 x 1").heads == thread("M8").heads != ()
