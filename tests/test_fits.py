"""Fits against published tables, their invariants, refusals, and the picture."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from over_all import over

from fractions_shop.errors import ShopError, cells
from fractions_shop.layout.fits import NARROWEST, STRENGTH, ansi_fit, fit
from fractions_shop.sheet.session import Session
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import rows
from fractions_shop.tables.ansi_b41 import rows_of

DATA = Path(__file__).parent / "data"
PUBLISHED = list(csv.DictReader((DATA / "published_fits.csv").read_text(encoding="utf-8").splitlines()))

SIZES = st.integers(1001, 500_000).map(lambda um: Quantity(Fraction(um, 1000)))
HOLES = st.sampled_from(
    ("A11", "C11", "D9", "F8", "G7", "H6", "H7", "H8", "H11", "JS7", "K7", "N7", "P7", "ZC8")
)
SHAFTS = st.sampled_from(("a11", "c11", "d9", "f7", "g6", "h5", "h6", "js6", "k6", "n6", "p6", "s6", "zc8"))
FITS = st.tuples(SIZES, HOLES, SHAFTS).map(lambda t: fit(t[0], f"{t[1]}/{t[2]}"))


@over(PUBLISHED)
def test_fits_as_published(row):
    """Machinery's Handbook Table 12 (ANSI B4.2, which takes its zones from ISO 286)."""
    found = fit(f"{row['basic_mm']} mm", row["fit"])
    sizes = (
        found.hole.upper,
        found.hole.lower,
        found.shaft.upper,
        found.shaft.lower,
        found.most,
        found.least,
    )
    heads = ("hole_max_mm", "hole_min_mm", "shaft_max_mm", "shaft_min_mm", "most_mm", "least_mm")
    assert [size.mm for size in sizes] == [Fraction(row[head]) for head in heads]
    assert found.kind == "clearance"


def test_a_misprint_of_the_handbook_is_not_followed():
    """Its H9/d9 at 1 mm prints a least shaft of 0.995; its own fit column wants 0.955."""
    found = fit("1 mm", "H9/d9")
    assert found.shaft.lower.mm == Fraction("0.955")
    assert found.most.mm == Fraction("0.070")


@pytest.mark.parametrize(
    ("size", "zones", "kind"),
    [
        pytest.param("20 mm", "H7/h6", "clearance", id="touching-is-clearance"),
        pytest.param("20 mm", "H7/k6", "transition", id="transition"),
        pytest.param("20 mm", "H7/p6", "interference", id="interference"),
        pytest.param("6 mm", "H7/p6", "interference", id="touching-is-interference"),
        pytest.param("2 mm", "H7/p6", "transition", id="p6-is-transition-to-3-mm"),
    ],
)
def test_kind(size, zones, kind):
    assert fit(size, zones).kind == kind


def test_an_interference_fit_says_that_strength_is_another_matter():
    assert STRENGTH in fit("20 mm", "H7/p6").notes
    assert STRENGTH not in fit("20 mm", "H7/k6").notes
    assert STRENGTH in ansi_fit("1/2 in", "FN2").notes


def test_an_inch_size_is_worked_as_it_is_and_says_that_the_standard_is_metric():
    found = fit("1/4 in", "H7/g6")
    assert found.hole.lower.inch == Fraction(1, 4)
    assert (found.hole.upper.mm, found.shaft.upper.mm) == (Fraction("6.365"), Fraction("6.345"))
    assert found.notes == ("ISO 286 is metric: 1/4 in is 6.35 mm, which takes the step over 6 to 10 mm",)


@pytest.mark.parametrize("size", ["0.193 in", "2 1/32 in", "1/3 in", "12.7 mm"])
def test_inch_sizes_are_known_by_their_figures(size):
    assert "ISO 286 is metric" in fit(size, "H7/g6").notes[0]


@pytest.mark.parametrize("size", ["6 mm", "10.3 mm", "24.999 mm", "100 mm"])
def test_metric_sizes_carry_no_note(size):
    assert fit(size, "H7/g6").notes == ()


@pytest.mark.parametrize("text", ["H7/g6", "H7 g6", " H7 / g6 ", "H7-g6", "H7∕g6", "H7⁄g6", "H 7/g 6"])
def test_ways_to_write_a_fit(text):
    found = fit("10 mm", text)
    assert (found.name, found.grades) == ("H7/g6", ("IT7", "IT6"))
    assert (found.hole_zone, found.shaft_zone) == ("H7", "g6")
    assert (found.hole_um, found.shaft_um) == ((15, 0), (-5, -14))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("H7/G6", "H7 and G6 are both holes: a capital letter is a hole, a small one a shaft, and a fit needs a shaft too, as in H7/g6", id="two-holes"),
        pytest.param("h7/g6", "h7 and g6 are both shafts: a capital letter is a hole, a small one a shaft, and a fit needs a hole too, as in H7/g6", id="two-shafts"),
        pytest.param("g6/H7", "the hole comes first in a fit: write H7/g6", id="shaft-first"),
        pytest.param("H7/g6/h6", "'H7/g6/h6' is not a fit: write a hole and a shaft such as H7/g6 (for one part alone, a zone: H7)", id="three"),
        pytest.param("", "'' is not a fit: write a hole and a shaft such as H7/g6 (for one part alone, a zone: H7)", id="nothing"),
        pytest.param("H7/6g", "'6g' is not a tolerance zone: write a letter and a grade, such as H7 or g6", id="thread-class"),
        pytest.param("H7/q6", "ISO 286 has no shaft q: there are a b c cd d e ef f fg g h js j k m n p r s t u v x y z za zb zc", id="no-letter"),
    ],
)  # fmt: skip
def test_what_is_not_a_fit_says_why(text, message):
    with pytest.raises(ShopError) as caught:
        fit("10 mm", text)
    assert str(caught.value) == message


# Laws


@given(FITS)
def test_most_less_least_is_both_tolerances(found):
    assert found.most - found.least == found.hole.spread + found.shaft.spread


@given(FITS)
def test_clearance_is_hole_less_shaft(found):
    assert (found.clearance.lower, found.clearance.upper) == (found.least, found.most)
    assert found.clearance.root_sum_square.spread <= found.clearance.spread


@given(FITS)
def test_the_kind_is_what_the_extreme_parts_do(found):
    never_tight = found.hole.lower >= found.shaft.upper
    never_loose = found.hole.upper <= found.shaft.lower
    expected = "clearance" if never_tight else "interference" if never_loose else "transition"
    assert found.kind == expected


@given(FITS)
def test_every_limit_is_a_whole_number_of_tenths_of_a_micrometre_from_the_size(found):
    for part in (found.hole, found.shaft):
        assert (part.plus.mm * 10_000).denominator == 1
        assert (part.minus.mm * 10_000).denominator == 1


# ANSI B4.1

#: A published page prints 1 to 2 for LC8 to 0.12 in; its own limits give 1 to 3.6.
ANSI_MISPRINTS = {("LC8", "0")}


@over(rows("ansi_b41_fits"))
def test_ansi_clearances_as_printed(row):
    """The printed fit column against the printed limits, at the top of each step.

    Where a hole was inferred from the fit column itself this checks the reading only.
    """
    found = ansi_fit(f"{row['to_in']} in", row["class"])
    thou = [found.least.in_unit("thou"), found.most.in_unit("thou")]
    printed = [Fraction(row["printed_fit_a_thou"]), Fraction(row["printed_fit_b_thou"])]
    if row["printed_kind"] == "interference":
        printed = [-printed[1], -printed[0]]
    assert (thou == printed) == ((row["class"], row["over_in"]) not in ANSI_MISPRINTS)
    assert found.kind == row["printed_kind"]
    assert found.standard == "ANSI B4.1-1967"


def _zones_read() -> dict[tuple[str, str, str], set[tuple[str, str]]]:
    """The limits of every zone that was read, by the step of sizes: more than one where classes differ."""
    limits: dict[tuple[str, str, str], set[tuple[str, str]]] = {}
    for row in rows("ansi_b41_fits"):
        for zone, part in zip(row["zones"].split("/"), ("hole", "shaft"), strict=True):
            if zone != "-":
                key = zone, row["over_in"], row["to_in"]
                limits.setdefault(key, set()).add((row[f"{part}_max_thou"], row[f"{part}_min_thou"]))
    return limits


def test_a_zone_has_the_same_limits_in_every_class_that_has_it():
    """What classes that were not read are put together by, held to those that were."""
    limits = _zones_read()
    assert {key: found for key, found in limits.items() if len(found) > 1} == {}
    shared = [row for row in rows("ansi_b41_fits") if row["zones"].startswith(("H7/", "H8/", "H10/"))]
    assert len({row["class"] for row in shared}) >= 10


@pytest.mark.parametrize("name", ["LC1", "LC2", "LC3", "LC4", "LC5", "LT4"])
def test_a_class_put_together_has_the_limits_of_its_zones(name):
    limits = _zones_read()
    found = rows_of(name)
    assert len(found) >= 5
    for row in found:
        hole, shaft = row["zones"].split("/")
        step = row["over_in"], row["to_in"]
        assert (row["hole_max_thou"], row["hole_min_thou"]) in limits[hole, *step]
        upper, lower = Fraction(row["shaft_max_thou"]), Fraction(row["shaft_min_thou"])
        grade = re.sub("[^0-9]", "", shaft)
        # Every shaft of that grade that was read is as wide, but for js, which lies about the size, and
        # for n5 of LN1, which is printed 0.1 thou wider than g5 from 0.4 in.
        widths = {
            Fraction(top) - Fraction(bottom)
            for (zone, *its), found in limits.items() if tuple(its) == step
            if re.fullmatch(f"[a-z]+{grade}", zone) and zone not in ("js6", "js7", "n5") for top, bottom in found
        }  # fmt: skip
        assert widths == {upper - lower}
        assert upper == 0 or shaft[0] != "h"
        fit = ansi_fit(f"{row['to_in']} in", name)
        assert fit.standing == "one source"
        assert any("put together from" in note for note in fit.notes)


@pytest.mark.parametrize(
    ("size", "name", "hole", "shaft"),
    [
        # From memory of ANSI B4.1-1967, to see that the columns were not mixed up.
        pytest.param("1/2 in", "RC5", ("0.5010", "0.5"), ("0.4988", "0.4981"), id="RC5-half-inch"),
        pytest.param("1 in", "LN2", ("1.0008", "1"), ("1.0013", "1.0008"), id="LN2-one-inch"),
        pytest.param("1/2 in", "LC1", ("0.5004", "0.5"), ("0.5", "0.4997"), id="LC1-half-inch"),
        pytest.param("1/2 in", "LC4", ("0.5028", "0.5"), ("0.5", "0.4984"), id="LC4-half-inch"),
        pytest.param("1/2 in", "LC5", ("0.5007", "0.5"), ("0.49975", "0.49935"), id="LC5-half-inch"),
        pytest.param("1/2 in", "LT4", ("0.5010", "0.5"), ("0.5008", "0.5001"), id="LT4-half-inch"),
        pytest.param("2 in", "FN2", ("2.0012", "2"), ("2.0027", "2.0020"), id="FN2-two-inch"),
    ],
)
def test_ansi_limits(size, name, hole, shaft):
    found = ansi_fit(size, name)
    assert (found.hole.upper.inch, found.hole.lower.inch) == tuple(map(Fraction, hole))
    assert (found.shaft.upper.inch, found.shaft.lower.inch) == tuple(map(Fraction, shaft))


def test_an_inferred_limit_is_owned_to():
    assert any("not read but inferred" in note for note in ansi_fit("1/2 in", "RC5").notes)
    assert not any("inferred" in note for note in ansi_fit("1/4 in", "RC5").notes)


def test_ansi_says_when_a_metric_size_is_given():
    notes = ansi_fit("6 mm", "rc 1").notes
    assert "ANSI B4.1 is in inches: this takes the step over 0.12 to 0.24 in" in notes


@pytest.mark.parametrize(
    ("size", "name", "message"),
    [
        pytest.param("1 in", "FN5", "FN5 is one of the force fits of ANSI B4.1, and its figures were not read: here there are those of FN1, FN2", id="class-not-held"),
        pytest.param("1 in", "FN-3", "FN3 is one of the force fits of ANSI B4.1, and its figures were not read: here there are those of FN1, FN2", id="class-not-held-with-a-dash"),
        pytest.param("1 in", "RC10", "ANSI B4.1 has no RC10: its running and sliding fits are RC1 to RC9", id="no-such-class"),
        pytest.param("1 in", "H7", "'H7' is no class of ANSI B4.1: write RC5 or FN2", id="no-class"),
        pytest.param("2 in", "LC8", "the ANSI B4.1 table here has LC8 over 0 to 1.19 in, and this is 2 in", id="too-large"),
        pytest.param("0.1 in", "LT3", "the ANSI B4.1 table here has LT3 over 0.24 to 3.15 in, and this is 0.1 in", id="too-small"),
        pytest.param("0 in", "RC1", "the ANSI B4.1 table here has RC1 over 0 to 3.15 in, and this is 0 in", id="nought"),
    ],
)  # fmt: skip
def test_ansi_refusals(size, name, message):
    with pytest.raises(ShopError) as caught:
        ansi_fit(size, name)
    assert str(caught.value) == message


# The picture


def test_picture_in_full():
    assert fit("25 mm", "H7/p6").picture(60).splitlines() == [
        "hole H7  │██████████████████████               0 to +21 µm",
        "shaft p6 │                       ▒▒▒▒▒▒▒▒▒▒▒▒▒ +22 to +35 µm",
        "         0 is 25 mm",
    ]


@given(FITS, st.integers(0, 120), st.booleans())
def test_a_picture_fits_the_width_and_shows_both_parts(found, width, ascii_only):
    lines = found.picture(width, ascii_only).splitlines()
    assert len(lines) == 3
    assert max(map(cells, lines)) <= max(width, NARROWEST)
    fills = "#=" if ascii_only else "█▒"
    assert fills[0] in lines[0]
    assert fills[1] in lines[1]
    assert found.picture(width, ascii_only).isascii() or not ascii_only


@given(FITS)
def test_a_picture_sets_the_zones_to_one_scale_about_the_size(found):
    """The zero line stands in one column; what lies above the size is right of it."""
    top, bottom, _ = found.picture(100, ascii_only=True).splitlines()
    line = top.index("|")
    assert bottom.index("|") == line
    for text, fill, (upper, lower) in ((top, "#", found.hole_um), (bottom, "=", found.shaft_um)):
        assert (fill in text[:line]) == (lower < 0)
        assert (fill in text[line:]) == (upper > 0)


@pytest.mark.parametrize(
    ("size", "zones"), [("3 mm", "H7/g6"), ("10 mm", "H7/g6"), ("40 mm", "H7/s6"), ("10 mm", "H7/k6")]
)
def test_no_play_is_told_below_a_tenth_of_a_thou(size, zones):
    answer = Session().answer(f"fit {size} {zones}")
    assert answer is not None
    told = next(
        line
        for line in answer.text(200).splitlines()
        if line.startswith(("clearance from", "interference from", "from "))
    )
    assert re.search(r"0\.[0-9]{5,} in", told) is None, told
    exact = fit(size, zones)
    assert f"{float(abs(exact.least).mm):g} mm" in told


def test_play_that_rounds_to_nothing_has_its_bound_and_its_millimetres():
    answer = Session().answer("fit 3 mm H7/g6")
    assert answer is not None
    assert "clearance from under 0.0001 in (0.002 mm) to about 0.0007 in (0.018 mm)" in answer.text(200)


@pytest.mark.parametrize(
    ("asked", "unit"), [("fit 1/4 in H7/g6", "µm"), ("fit 1/4 in RC5", "thou"), ("fit 10 mm RC5", "thou")]
)
def test_deviations_stand_in_the_unit_of_the_standard_and_as_the_picture_has_them(asked, unit):
    told = Session().answer(asked).text(200)
    for part in ("hole", "shaft"):
        in_table, in_picture = (
            re.search(r"[-+\d.]+ to [-+\d.]+ (?:µm|thou)$", line)[0]
            for line in told.splitlines()
            if re.match(rf" *{part} ", line)
        )
        assert in_table == in_picture
        assert in_table.endswith(unit)
