"""Clearance holes by the stated rules, worked by hand, and by the lists that are followed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop.errors import NoAnswer
from fractions_shop.threads.lookup import thread


@pytest.mark.parametrize(
    ("name", "close", "medium", "free"),
    [
        # Where no hole was read: a fortieth of the major, from 0.1 mm to 1/64 in (0.396875 mm);
        # half of it for close, twice for free (our own rule).
        pytest.param("6 BA", "2.85", "2.9", "3", id="2.8 mm: 0.1 at least"),
        pytest.param("5/16 BSW", "8.03671875", "8.1359375", "8.334375", id="7.9375 mm: a fortieth"),
        pytest.param("1 BSF", "25.5984375", "25.796875", "26.19375", id="25.4 mm: 1/64 in at most"),
        # Where one was read it is medium, and its room is halved and doubled.
        pytest.param("0 BA", "6.1", "6.2", "6.4", id="printed 6.2 mm (model engineers' tables page)"),
        pytest.param(
            "1 BSW", "25.5984375", "25.796875", "26.19375", id="printed 1 1/64 in (old-engine club)"
        ),
    ],
)
def test_british_holes(name: str, close: str, medium: str, free: str) -> None:
    one = thread(name)
    found = [one.clearance(fit).size.mm for fit in ("close", "medium", "free")]
    assert found == [Fraction(close), Fraction(medium), Fraction(free)]


@pytest.mark.parametrize(
    ("name", "fit", "rule"),
    [
        ("0 BA", "medium", "as printed"),
        ("0 BA", "close", "half the room of medium (our own rule)"),
        ("0 BA", "free", "twice the room of medium (our own rule)"),
        ("6 BA", "medium", "major + 1/40 of it, from 0.1 mm to 1/64 in (our own rule)"),
        ("6 BA", "close", "half the room of medium (our own rule)"),
        ("M6", "medium", "ISO 273"),
        ("No 6-32 UNC", "medium", "ASME B18.2.8"),
        ("G 1/4", "medium", "major with the room that ISO 273 leaves the next metric size up (our own rule)"),
        ("M9", "free", "major with the room that ISO 273 leaves the next metric size up (our own rule)"),
    ],
)
def test_the_rule_is_said(name: str, fit: str, rule: str) -> None:
    assert thread(name).clearance(fit).rule == rule


@pytest.mark.parametrize(
    ("name", "fit", "mm"),
    [
        # G 1/4 is 13.157 mm; M14 has 15, 15.5 and 16.5 mm (ISO 273): 1, 1.5 and 2.5 mm of room.
        ("G 1/4", "close", "14.157"),
        ("G 1/4", "medium", "14.657"),
        ("G 1/4", "free", "15.657"),
        # M10 has 10.5, 11 and 12 mm.
        ("M9", "close", "9.5"),
        ("M9", "medium", "10"),
        ("M9", "free", "11"),
    ],
)
def test_all_else_has_the_room_of_the_next_metric_size_up(name: str, fit: str, mm: str) -> None:
    assert thread(name).clearance(fit).size.mm == Fraction(mm)


def test_a_list_that_is_not_followed_is_told_beside() -> None:
    hole = thread("6 BA").clearance()
    assert hole.source == "our own rule"
    assert hole.beside == "a bench list has No 34, 0.111 in"
    assert thread("1/4 BSW").clearance().beside == ""
    assert thread("0 BA").clearance().beside.startswith("a bench list has letter C, 0.242 in")


@pytest.mark.parametrize(
    ("name", "known"), [("2 1/2 BSW", True), ("3 BSW", False), ("M64", True), ("G 2", True), ("G 3", False)]
)
def test_holes_are_known_up_to_64_mm(name: str, known: bool) -> None:
    # 63.5, 76.2, 64, 59.614 and 87.884 mm.
    if known:
        assert thread(name).clearance().size > thread(name).major
        return
    with pytest.raises(NoAnswer, match="clearance holes are known here up to 64 mm, not for"):
        thread(name).clearance()


def test_the_drill_is_the_next_up_or_none_past_the_list() -> None:
    # 8.1359 mm: 8.2 mm is the next metric drill; letters and 64ths lie at 8.204 (P) and 8.334 (21/64).
    hole = thread("5/16 BSW").clearance()
    assert hole.drill is not None
    assert hole.drill.name == "8.2 mm"
    assert thread("2 BSW").clearance().drill is None


def test_of_two_drills_of_one_size_the_metric_one_makes_the_hole() -> None:
    """1/2 in and 12.7 mm are one size; both are stock (BS 328 has 12.7 mm, fractional drills 1/2 in)."""
    from fractions import Fraction

    from fractions_shop.size.quantity import Quantity
    from fractions_shop.tables.drills import find_drill
    from fractions_shop.threads.clearance import _drill_for

    assert find_drill("1/2 drill").size == find_drill("12.7 mm drill").size
    drill = _drill_for(Quantity(Fraction("12.65")))
    assert drill is not None
    assert drill.name == "12.7 mm"
