"""What decides a tapping drill: a list, a percentage, a rule; and how it is said."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop.threads.lookup import thread
from fractions_shop.threads.series import of_series


@pytest.mark.parametrize(
    ("name", "basis", "asked"),
    [
        # Naming a basis alone asks for the usual percentage: 75, of parallel pipe 85 (our own choice).
        ("M6", "basic", 75),
        ("1/4 BSW", "full", 75),
        ("G 1/4", "full", 85),
        # With neither, a list or the rule of ISO 2306 decides, else the usual percentage.
        ("M6", None, None),
        ("G 1/4", None, None),
        ("M8 x 1", None, None),
        ("G 1 1/4", None, 85),
        ("6 BA", None, 75),
        ("1/4-20 UNC", None, 75),
    ],
)
def test_the_percentage_that_decides(name: str, basis: str | None, asked: int | None) -> None:
    assert thread(name).tapping(basis=basis).asked == asked


@pytest.mark.parametrize(
    ("name", "percent", "rule"),
    [
        ("M6", None, "as printed"),
        ("M8 x 1", None, "the major less the pitch, the rule of ISO 2306"),
        ("6 BA", None, "chosen for 75 %"),
        ("M6", Fraction("72.55"), "chosen for 72.6 %"),
        ("M6", Fraction(200, 3), "chosen for 66.7 %"),
        ("M6", Fraction(80), "chosen for 80 %"),
    ],
)
def test_the_rule_is_said_to_a_tenth_of_a_per_cent(name: str, percent: Fraction | None, rule: str) -> None:
    assert thread(name).tapping(percent).rule == rule


@pytest.mark.parametrize(
    ("name", "beside"),
    [
        ("6 BA", ""),
        ("M6", ""),
        ("1/4 x 40 ME", "a bench list has 5.8 mm"),
        ("G 1/16", "a CAD data file prints 6.6, which is the taper drill"),
    ],
)
def test_a_list_not_followed_is_told_beside(name: str, beside: str) -> None:
    assert thread(name).tapping().beside == beside


def test_the_bases_told_leave_out_forming_taps_unless_asked() -> None:
    assert [basis.name for basis, _ in thread("M6").tapping().on_each] == ["3H/4", "basic"]
    asked = thread("M6").tapping(75, "forming").on_each
    assert [basis.name for basis, _ in asked] == ["3H/4", "basic", "forming"]
    assert [basis.name for basis, _ in thread("1/4 BSW").tapping().on_each] == ["full"]


@pytest.mark.parametrize(
    ("hole", "over"),
    [
        # G 1/4: 13.157 - 2 x 0.856 = 11.445 mm, and 0.445 mm of tolerance (ISO 228-1, a trade chart).
        ("11.445 mm", False),
        ("11.89 mm", False),
        ("11.8901 mm", True),
        ("11.9 mm", True),
    ],
)
def test_a_hole_over_the_greatest_minor_diameter_of_a_pipe_thread_is_warned_of(hole: str, over: bool) -> None:
    told = "it is larger than the greatest minor diameter of ISO 228-1, 11.89 mm (tolerance: one source)"
    assert thread("G 1/4").thread_left(hole).endswith(told) == over


def test_no_other_thread_is_warned_of_so() -> None:
    assert "greatest" not in thread("1/4 BSW").thread_left("6.3 mm")
    for one in of_series("G"):
        assert one.tapping().note in ("", "no drill of this size is listed here: bore the hole"), one.name


def test_of_two_drills_as_near_the_larger_is_taken() -> None:
    """Half-way between 2.5 and 2.55 mm: the larger breaks fewer taps (common practice, no source)."""
    screw = thread("M3")
    basis = screw.tapping(engagement=75).basis
    assert basis is not None
    percent = (screw.major.mm - Fraction("2.525")) / (basis.factor * screw.pitch.mm) * 100
    found = screw.tapping(engagement=percent, drills="metric")
    assert found.ideal.mm == Fraction("2.525")
    assert found.drill is not None
    assert found.drill.name == "2.55 mm"
