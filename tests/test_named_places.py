"""Named places carried on: a place as a size, their table, CSV and JSON, their own rule, and their doubts."""

from __future__ import annotations

import csv
import io
from fractions import Fraction

import pytest

from fractions_shop import InputError, Session, Sheet
from fractions_shop.requests.help import topic

SHEET = """hinge = places 1 1/2 in, 7 in, 15 3/8 in along 18 in on 16ths
bars = mark 10 in into 3 on 32nds
pegs = places 3 across by 2 in, 2 up by 1 in first at 1/2 in, 3/4 in
ring = bolt_circle(4, 2 in, 0 deg)
rule mm
check across(hinge, 3) + 2 5/8 in = 18 in
low = up(pegs, 4)
gap = across(bars, 3) - across(bars, 2)
top = up(ring, 2)
"""


def test_a_place_is_a_size_like_any_other() -> None:
    sheet = Sheet(SHEET)
    assert sheet.ok
    assert {name: size.inch for name, size in sheet.sizes.items()} == {  # type: ignore[union-attr]
        "low": Fraction(7, 4), "gap": Fraction(10, 3), "top": 1,
    }  # fmt: skip


@pytest.mark.parametrize("name", ["across", "up"])
def test_the_functions_do_not_take_a_name_or_a_word_away(name: str) -> None:
    bench = Session()
    bench.answer("hinge = places 1 in, 3 in")
    bench.answer(f"{name} = 2 in")
    total = bench.answer(f"{name} + across(hinge, 2)")
    assert total is not None
    assert total.value.inch == 5  # type: ignore[union-attr]
    assert bench.answer(f"divide {name} into 5 up").result.direction == "up"  # type: ignore[union-attr]
    assert bench.answer(f"places 3 across by {name}, 2 up by across(hinge, 1)") is not None


@pytest.mark.parametrize(
    ("line", "message", "advice"),
    [
        ("across(hinge, 3)", "there are 2 places, the first being 1, and no 3", "write it like this: across("),
        ("across(hinge, 0)", "there are 2 places, the first being 1, and no 0", "write it like this: across("),
        ("across(hinge, 1/2)", "which of the places is a whole number", "write it like this: across("),
        ("across(hinge, 1 in)", "which of the places is a whole number", "write it like this: across("),
        ("up(hinge, 1)", "these places have one axis, across", "write it like this: up("),
        ("across(rail, 1)", "several places are needed here", "and write across(hinge, 2)"),
        ("across(nobody, 1)", "nothing is named nobody yet", ""),
        ("across(hinge)", "across takes 2", "write it like this: across("),
        ("hinge + 1 in", "hinge is 2 places, where one size is needed", "across(hinge, 1) is the first of them"),
    ],
)  # fmt: skip
def test_what_is_no_place_is_refused(line: str, message: str, advice: str) -> None:
    bench = Session()
    bench.answer("hinge = places 1 in, 3 in")
    bench.answer("rail = 18 in")
    with pytest.raises(InputError) as caught:
        bench.answer(line)
    assert message in caught.value.message
    assert advice in caught.value.advice


def test_named_places_are_told_by_their_name_and_their_own_rule() -> None:
    bench = Session()
    first = [bench.answer(line).text().splitlines()[0] for line in SHEET.splitlines()[:4]]  # type: ignore[union-attr]
    assert first == [
        "hinge: 3 places on the 16ths", "bars: 4 places on the 32nds, of which mark 0 is the first", "pegs: 6 places on the 64ths",
        "ring: 4 places on the 64ths",
    ]  # fmt: skip
    bench.answer("rule 8ths")
    assert "on the 32nds" in bench.answer("bars").text()  # type: ignore[union-attr]


def test_a_sheet_lists_them_on_their_own_rules() -> None:
    sheet = Sheet(SHEET)
    for told in (sheet.to_text(200), sheet.to_markdown(), sheet.to_html()):
        assert "Places" in told
    rows = sheet.to_text(200).partition("\nPlaces\n")[2].splitlines()[2:20]
    assert rows[1].split()[:6] == ["hinge", "1", "1", "1/2", "in", "(38.1"]
    assert rows[3].split()[:5] == ["3", "15", "3/8", "in", "(390.525"]
    assert rows[3].split()[-2:] == ["16ths", "1"]
    assert "2  3 11/32 in (84.93125 mm)   ~+0.0104 in (~+0.265 mm)" in rows[5]
    assert rows[5].split()[-2:] == ["32nds", "2"]
    assert " ".join(rows[13].split()[:12]) == "6 4 1/2 in (114.3 mm) exact 1 3/4 in (44.45 mm)"


def test_csv_and_json_hold_them_by_name_on_their_own_rule() -> None:
    sheet = Sheet(SHEET)
    rows = [row for row in csv.DictReader(io.StringIO(sheet.to_csv())) if row["kind"] == "place"]
    assert [(row["name"], row["fraction"], row["rule"], row["which"]) for row in rows[:4]] == [
        ("hinge", "1 1/2 in", "16ths", "1 of 3"), ("hinge", "7 in", "16ths", "2 of 3"),
        ("hinge", "15 3/8 in", "16ths", "3 of 3"), ("bars", "0 in", "32nds", "1 of 4"),
    ]  # fmt: skip
    places = sheet.to_data()["places"]
    assert {name: (each["rule"], each["line"], len(each["points"])) for name, each in places.items()} == {
        "hinge": ("16ths", 1, 3), "bars": ("32nds", 2, 4), "pegs": ("64ths", 3, 6), "ring": ("64ths", 4, 4),
    }  # fmt: skip
    assert places["bars"]["points"][1]["x"]["inch"] == "10/3"
    assert places["pegs"]["points"][3]["y"]["inch"] == "7/4"


DOUBTFUL = ["a reads 51.5 mm", "pair = places a, 4 in", "left = across(pair, 1)", "left * 2"]


def test_a_doubt_goes_through_places_to_what_is_made_of_them() -> None:
    bench = Session()
    told = [bench.answer(line).text() for line in DOUBTFUL]  # type: ignore[union-attr]
    assert all("rests on a, which may be another size" in " ".join(text.split()) for text in told[1:])
    sheet = Sheet("\n".join(DOUBTFUL))
    notes = [item.answer.notes for item in sheet.worked[1:] if item.answer is not None]
    assert all(any("rests on a, which may be another size" in str(note) for note in each) for each in notes)
    listed = sheet.to_text(200).partition("\nPlaces\n")[2]
    assert "  pair *  1  2 1/32 in" in listed
    assert "* as said beneath Sizes: a; what rests on it is marked too" in listed
    assert "* a (line 1) is taken from a reading" in sheet.to_text(200)
    moved = Sheet("bay = divide 2 in into 5 up\npair = places bay, 4 in\nleft = across(pair, 1)\n")
    assert "rests on bay, a space of a total that was moved" in " ".join(
        moved.to_text().partition("left =")[2].split()
    )


def test_places_set_again_as_a_size_are_a_size() -> None:
    bench = Session()
    bench.answer("hinge = places 1 in, 3 in")
    bench.answer("hinge = 2 in")
    with pytest.raises(InputError, match="several places are needed here"):
        bench.answer("across(hinge, 1)")


def test_help_tells_of_units_as_a_request_and_as_words() -> None:
    found = topic("units")
    assert found is not None
    assert "units mm first" in found.forms
    assert any(line.startswith("mm ") for line in found.more)


def _row_of(told: str, number: str) -> str:
    return next(line for line in told.splitlines() if line.split()[:1] == [number])


def test_a_place_has_one_number_in_every_table() -> None:
    """Given out of order, the running figures rise, and each keeps the number that `across` takes."""
    bench = Session()
    told = bench.answer("h = places 9 in, 3 in, 5 in").text(200)  # type: ignore[union-attr]
    for n, inches in enumerate((9, 3, 5), 1):
        assert f" {inches} in " in _row_of(told, str(n))
        assert bench.answer(f"across(h, {n})").value.inch == inches  # type: ignore[union-attr]
    sheet = Sheet("h = places 9 in, 3 in, 5 in\n")
    rows = [row for row in csv.DictReader(io.StringIO(sheet.to_csv())) if row["kind"] == "place"]
    assert [(row["which"], row["fraction"]) for row in rows] == [
        ("1 of 3", "9 in"), ("2 of 3", "3 in"), ("3 of 3", "5 in"),
    ]  # fmt: skip


def test_places_that_are_one_are_told() -> None:
    told = Session().answer("places 9 in, 3 in, 3 in").text(200)  # type: ignore[union-attr]
    assert "  2, 3  3 in (76.2 mm) " in told
    assert "places 2 and 3 are one and the same" in told
    pair = Session().answer("places 1 in by 2 in, 3 in by 2 in, 1 in by 2 in")
    assert "places 1 and 3 are one and the same" in pair.text()  # type: ignore[union-attr]
    assert "one and the same" not in Session().answer("places 1 in by 2 in, 1 in by 3 in").text()  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("line", "number", "mark"),
    [
        ("h = mark 2 in into 5", 3, "2"),
        ("h = mark 10 in for 2 of 1 in edges", 3, "2 left"),
        ("h = mark 10 in for 2 of 1 in centres", 2, ""),
    ],
)
def test_a_place_of_a_mark_says_which_mark_it_is(line: str, number: int, mark: str) -> None:
    """Marks are called from 0, or by their edges, and places count from 1: the answer says which is meant."""
    bench = Session()
    marks = bench.answer(line)
    place = bench.answer(f"across(h, {number})")
    assert marks is not None
    assert place is not None
    assert place.value == marks.result.exact[number - 1]
    notes = [note.text for note in place.notes]
    assert notes == ([f"place {number} of h is its mark {mark}"] if mark else [])
    told = Sheet(f"{line}\n").to_markdown()
    assert (f", of which mark {marks.result.names[0]} is the first" in told) == bool(mark)
    # Listed again, they are places like any other.
    again = bench.answer("k = places h")
    assert "of which mark" not in again.text()  # type: ignore[union-attr]
    assert bench.answer("across(k, 1)").notes == ()  # type: ignore[union-attr]


def test_a_place_that_rests_on_a_figure_from_memory_says_so_in_the_list_of_every_form():
    text = "w = places 60 * No 90 drill, 1 in\nlow = crown 3 across 1 in radius 9 in from 120 * No 90 drill\n"
    sheet = Sheet.from_text(text)
    listed = sheet.to_text(200).partition("Places\n------")[2]
    assert listed.count("from memory") == 4  # the first of w, and each height of low
    rows = [
        row
        for row in sheet.to_markdown().partition("## Places")[2].partition("##")[0].splitlines()
        if "|" in row
    ]
    assert ["from memory" in row for row in rows[2:]] == [True, False, True, True, True]
    assert sheet.to_html().partition('id="places"')[2].partition("</section>")[0].count("from memory") == 4
