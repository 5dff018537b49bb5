"""What a thread is asked for first, whose minor and depth are told, and threads that no table has."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop import InputError, Session, read, thread
from fractions_shop.errors import ShopError
from fractions_shop.figures.table import Table, in_prose
from fractions_shop.size.quantity import Quantity
from fractions_shop.threads.by_form import by_form
from fractions_shop.threads.series import all_threads


def answered(statement: str) -> str:
    answer = Session().answer(statement)
    assert answer is not None
    return answer.text(400)


# What leads


@pytest.mark.parametrize("name", ["2 BA", "1/4 BSW", "1/4-20 UNC", "M3", "G 1/4", "1/2 NPT", "1/4 x 40 ME"])
def test_major_pitch_tapping_clearance_and_spanner_lead_in_four_lines(name: str) -> None:
    answer = Session().answer(f"thread {name}")
    assert answer is not None
    lead = answer.lines()[0]
    assert isinstance(lead, Table)
    first, *others = ([in_prose(cell) for cell in row] for row in lead.rows)
    assert first[0] == name
    assert first[1].startswith("major ")
    assert ", pitch " in first[1]
    assert [row[0] for row in others] == ["tapping", "clearance", "spanner"]


def test_the_spanner_of_a_thread_is_its_hexagon_across_flats() -> None:
    """2 BA: 1.75 x 4.7 mm; BS 1083 1/4 in: 0.445 in; ISO 4014 M3: 5.5 mm."""
    assert [head.largest.mm for head in thread("2 BA").spanners] == [Fraction("8.225")]
    assert Fraction("0.445") in [head.largest.inch for head in thread("1/4 BSW").spanners]
    assert {head.largest.mm for head in thread("M3").spanners} == {Fraction("5.5")}


@pytest.mark.parametrize("name", ["2 BA", "1/4 BSW", "1/4-20", "M3 x 0.35", "G 1/4"])
def test_a_thread_alone_answers_with_its_figures_and_no_drawn_rule(name: str) -> None:
    answer = Session().answer(name)
    assert answer is not None
    assert answer.kind == "thread"
    assert answer.room.on_a_rule is None
    assert answer.value == thread(name).major
    assert answer.result.name == thread(name).name
    assert read(name) == thread(name).major


@pytest.mark.parametrize("statement", ["2 BA + 1 mm", "a = 2 BA", "2 BA as thou", "3 * 2 BA"])
def test_in_a_sum_or_named_it_is_its_major_diameter(statement: str) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    assert answer.kind == "size"


# Screw and nut


def test_every_minor_and_depth_says_whose_it_is() -> None:
    for screw in all_threads():
        assert all(minor.part in ("screw", "nut", "both", "reference") for minor in screw.minors)
        assert screw.minor_convention.startswith("nut: " if screw.minor_part == "nut" else "screw and nut: ")
        assert screw.nut_minor == screw.minor
        assert screw.nut_depth == screw.depth
        assert (screw.screw_minor < screw.nut_minor) == (screw.minor_part == "nut"), screw.name


@pytest.mark.parametrize(
    ("name", "screw", "nut", "deep"),
    [
        # ISO 724: M6 D1 = 4.917; ISO 68-1: d3 = 6 - 1.226869. 1-8 UNC: Machinery's Handbook, nut 0.8647 in.
        ("M6", "4.773", "4.917", "0.613"),
        ("1-8 UNC", "21.505", "21.963", "1.948"),
        ("6 BA", "2.16", "2.16", "0.32"),
    ],
)
def test_minor_diameters_of_screw_and_nut(name: str, screw: str, nut: str, deep: str) -> None:
    found = thread(name)
    for size, printed in ((found.screw_minor, screw), (found.nut_minor, nut), (found.screw_depth, deep)):
        assert abs(size.mm - Fraction(printed)) <= Fraction(1, 2000)
    assert found.major - 2 * found.screw_depth == found.screw_minor


def test_the_answer_shows_both_and_names_them() -> None:
    told = answered("thread 1-8 UNC")
    for label in ("minor of the screw", "minor of the nut", "depth of the screw", "depth of the nut"):
        assert label in told
    assert "minor, screw and nut" in answered("thread 6 BA")


def test_a_screw_of_1_8_unc_is_cut_0_009_in_deeper_than_its_nut() -> None:
    off = thread("1-8 UNC").screw_depth - thread("1-8 UNC").nut_depth
    assert round(float(off.inch), 3) == 0.009


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("minor(1-8 UNC)", "nut: D1 = D - 1.082532p, 5H/8 a side; the screw's is 0.8466 in (about 21.505 mm): screw_minor(1-8 UNC)"),
        ("depth(1-8 UNC)", "of the nut, on one side; the screw's is 0.0767 in (about 1.948 mm): screw_depth(1-8 UNC)"),
        ("screw_minor(M6)", "screw: d3 = D - 1.226869p, 17H/24 a side, as on most drill charts"),
        ("nut_minor(M6)", "nut: D1 = D - 1.082532p, 5H/8 a side"),
        ("minor(6 BA)", "screw and nut: D - 2h, h rounded to 0.005 mm"),
        ("depth(6 BA)", "of both screw and nut, on one side"),
    ],
)  # fmt: skip
def test_the_functions_say_whose_it_is(statement: str, told: str) -> None:
    assert f"note: {told}" in answered(statement)


def test_the_functions_give_what_the_thread_has() -> None:
    screw = thread("1/4-20 UNC")
    for name in ("minor", "screw_minor", "nut_minor", "depth", "screw_depth", "nut_depth"):
        answer = Session().answer(f"{name}(1/4-20 UNC)")
        assert answer is not None
        assert answer.value == getattr(screw, name)


# Holes


def test_the_major_less_the_pitch_is_just_that() -> None:
    """M5 x 0.75: 5 - 0.75 = 4.25 mm, whether or not a drill of that size is listed."""
    tap = thread("M5 x 0.75").tapping()
    assert tap.size.mm == Fraction("4.25")
    told = answered("tapping(M5 x 0.75)")
    assert "4.25 mm" in told
    assert "not among the drills listed here: next to it are 4.2 mm and 4.3 mm" in told


def test_no_rule_is_named_that_the_hole_does_not_follow() -> None:
    for screw in all_threads():
        if not screw.taper and screw.tapping().asked is None and not screw.tapping().source:
            assert screw.tapping().size == screw.major - screw.pitch, screw.name


def test_a_screw_number_without_its_sign_is_asked_about() -> None:
    with pytest.raises(InputError, match="write No 10-32 for the screw") as caught:
        Session().answer("tapping(10-32)")
    assert (caught.value.column, caught.value.message) == (
        9,
        "this is a subtraction, and not the name of a thread",
    )


# Outside the tables


@pytest.mark.parametrize(
    ("name", "major", "pitch", "angle", "minor"),
    [
        ("9 mm x 1.1 mm metric form", "9", "1.1", 60, Fraction(9) - Fraction("1.082532") * Fraction("1.1")),
        ("0.3 in x 30 tpi Whitworth form", "7.62", "127/150", 55,
         Fraction("7.62") - Fraction("1.280654") * Fraction(127, 150)),
        ('5/16" × 26 tpi cycle form', "7.9375", "127/130", 60,
         Fraction("7.9375") - Fraction("1.0654") * Fraction(127, 130)),
    ],
)  # fmt: skip
def test_a_thread_is_given_by_major_pitch_and_form(
    name: str, major: str, pitch: str, angle: int, minor: Fraction
) -> None:
    """The depths are those of ISO 724, BS 84 and BS 811, as for the threads of the tables."""
    made = thread(name)
    assert (made.major.mm, made.pitch.mm, made.angle.degrees) == (Fraction(major), Fraction(pitch), angle)
    assert abs(made.minor.mm - minor) < Fraction(1, 10**5)
    assert (made.major.standing, made.minor.standing) == ("", "rule")
    assert made.heads == ()
    assert thread(made.name) == made
    told = answered(f"thread {name}")
    assert "no table has it" in told
    assert "spanner" in told
    assert made.clearance().size > made.major
    assert Session().answer(f"tapping({name})") is not None


def test_it_agrees_with_the_tables_where_they_have_it() -> None:
    for name, given in (("M6", "6 mm x 1 mm metric form"), ("1/4 BSW", "1/4 in x 20 tpi Whitworth form")):
        known, made = thread(name), thread(given)
        for part in ("major", "pitch", "effective", "minor", "screw_minor", "depth", "best_wire"):
            assert getattr(known, part) == getattr(made, part)


@pytest.mark.parametrize(
    "name", ["9 mm x 0 mm metric form", "9 mm x 8 mm metric form", "9 mm x 0.01 mm metric form"]
)
def test_a_pitch_that_no_screw_has_is_refused(name: str) -> None:
    with pytest.raises(ShopError, match=r"pitch"):
        thread(name)


def test_other_text_is_no_thread_by_form() -> None:
    for text in ("M6", "9 mm x 1.1 mm", "9 mm x 1.1 mm buttress form", ""):
        assert by_form(text) is None
    assert isinstance(read("9 mm x 1.1 mm metric form"), Quantity)


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        # 13.3 mm leaves 72 % of 9/16-24 and 17/32 in 58 % (worked from ASME B1.1: 100 (D - d) n / 1.299).
        (
            "tapping(No 8-32)",
            "the No 29 drill leaves 69 % of thread as drill charts count it (83 % of the basic depth)",
        ),
        ("tapping(No 8-32)", "the 3.4 mm drill is nearer, 74 %"),
        ("tapping(No 8-32, 65)", "the 3.5 mm drill is nearer, 65 %"),
        ("thread 9/16-24 UNEF", "(13.3 mm) 72 % of thread"),
    ],
)
def test_a_metric_drill_that_is_nearer_to_what_was_asked_is_told_beside_a_number_one(
    statement: str, told: str
) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    assert told in " ".join(answer.text(200).split())
