"""Laws of standing: how far a figure of a table may be trusted is told wherever the figure goes."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from fractions_shop import Limits, Quantity, Session, Sheet, fit, read, recover, thread
from fractions_shop.figures.figure import in_mm
from fractions_shop.figures.size_html import size_html
from fractions_shop.figures.table import Cell, in_prose
from fractions_shop.layout.circle import FUNCTIONS as CIRCLE
from fractions_shop.size.quantity import Angle
from fractions_shop.size.standing import STANDINGS, in_words, is_sound, rests_on, worse, worst
from fractions_shop.tables import HERE, rows
from fractions_shop.tables.blocks import block_sets, blocks
from fractions_shop.tables.drills import all_drills
from fractions_shop.tables.gauges import all_gauges
from fractions_shop.tables.heads import heads
from fractions_shop.tables.old_inches import old_inches
from fractions_shop.tables.stock import items, thicknesses
from fractions_shop.threads.series import all_threads

#: One thing of each standing that needs a word, as it is written.
UNSOUND = {"No 90 drill": "from memory", "8 zinc": "one source", "20 BA": "beyond the standard"}


def figures() -> Iterator[tuple[str, Quantity, str]]:
    """Every size of every table, by what it is called, and the standing of its row."""
    for each in (*all_drills(), *all_gauges()):
        yield each.name, each.size, each.standing
    for pieces in block_sets():
        yield from ((block.name, block.size, block.standing) for block in blocks(pieces))
    for item in items():
        yield from ((each.name, each.size, each.standing) for each in thicknesses(item))
    yield from ((inch.name, inch.size, inch.standing) for inch in old_inches())
    for screw in all_threads():
        yield screw.name, screw.major, screw.standing
        yield screw.name, screw.pitch, screw.standing
        for head in screw.heads:
            yield f"{screw.name} {head.kind}", head.largest, worse(head.standing, head.largest.standing)
    for size in ("M3", "M6", "US No 8 wood screw", "British No 8 wood screw"):
        for head in heads(size):
            yield from ((f"{size} {each.name}", each.size, each.standing) for each in head.dimensions)


def test_every_size_of_every_table_has_the_standing_of_its_row() -> None:
    seen = set()
    for name, size, standing in figures():
        assert standing in STANDINGS, name
        assert size.standing == standing, name
        seen.add(standing)
    assert seen == set(STANDINGS)


def test_whatever_a_thread_is_worked_into_is_trusted_no_further_than_the_thread() -> None:
    for screw in all_threads():
        sizes = [
            screw.effective,
            screw.minor,
            screw.depth,
            screw.screw_minor,
            screw.screw_depth,
            screw.best_wire,
        ]
        sizes += [minor.size for minor in screw.minors]
        for size in sizes:
            assert size.standing == worse(screw.standing, size.standing) != "", screw.name


def test_every_hole_has_a_standing() -> None:
    for screw in all_threads():
        if screw.major.mm <= 64:
            assert screw.clearance().size.standing in STANDINGS, screw.name
        if not screw.taper:
            assert screw.tapping().size.standing in STANDINGS, screw.name


@pytest.mark.parametrize(("left", "right"), list(product(("", *STANDINGS), repeat=2)))
def test_arithmetic_keeps_the_least_trusted_standing(left: str, right: str) -> None:
    a, b = Quantity(Fraction(3), standing=left), Quantity(Fraction(2), standing=right)
    expected = worse(left, right)
    assert expected == worse(right, left)
    for size in (
        a + b,
        a - b,
        a * b,
        a / b,
        b - a,
        Limits(a, b, b),
        Limits(a, b, b) * Limits(b, b * 0, b / 9),
    ):
        assert size.standing == expected
    for size in (-a, abs(-a), a * 3, 3 * a, a / 3, 3 / a, a**2, Limits(a, a, a).pieces(3), -Limits(a, a, a)):
        assert size.standing == left
    turned = Angle(Fraction(1), standing=left) + Angle(Fraction(1), standing=right) * 2
    assert turned.standing == (-turned / 2).standing == expected


def test_a_size_of_the_makers_own_has_none() -> None:
    assert read("2 1/32 in").standing == ""
    assert (read("2 in") + read("3 mm")).standing == ""


@pytest.mark.parametrize(("name", "standing"), UNSOUND.items())
@pytest.mark.parametrize(
    "statement",
    [
        "NAME", "NAME + 1 mm", "3 * NAME", "NAME as mm", "NAME ± 1 thou", "sqrt(NAME * NAME)",
        "min(NAME, 9 in)", "hypot(NAME, 1 mm)", "asin(NAME / 9 in)", "a = NAME", "snap NAME", "snap NAME to mm",
        "divide NAME into 3", "mark NAME into 3", "check NAME = 1 mm", "pack NAME from 1 thou",
        "places NAME, 2 in", "crown 4 across 2 in radius NAME * 9000 from 1 in", "share NAME among 1 and 1",
        "4 of NAME", "NAME * 2 in", "1 / NAME", "floor(NAME / 1 thou)",
    ],
)  # fmt: skip
def test_no_answer_loses_the_word(name: str, standing: str, statement: str) -> None:
    answer = Session().answer(statement.replace("NAME", name))
    assert answer is not None
    assert standing in answer.text()
    assert standing in " ".join(answer.text(40).split())
    assert standing in json.dumps(answer.data())
    assert standing in answer.gist()
    if answer.kind == "size":
        assert "mm exactly" not in answer.text(200)
    if answer.value is not None:
        assert answer.value.standing == standing


@pytest.mark.parametrize(("name", "standing"), UNSOUND.items())
def test_no_later_line_loses_the_word(name: str, standing: str) -> None:
    bench = Session()
    bench.answer(f"a = {name}")
    bench.answer("b = snap a")
    answer = bench.answer("c = 2 * b + 1 in")
    assert answer is not None
    assert answer.value is not None
    assert answer.value.standing == standing
    assert f"rests on b, {standing}" in answer.text()


def test_every_thread_drill_and_gauge_that_needs_a_word_has_it_in_its_own_answer() -> None:
    bench = Session()
    words = [("thread", each.name, each.standing) for each in all_threads() if not is_sound(each.standing)]
    words += [("drill", f"{each.name} drill", each.standing) for each in all_drills()[:20]]
    words += [("gauge", each.name, each.standing) for each in all_gauges()[::7]]
    assert len(words) > 80
    for request, name, standing in words:
        answer = bench.answer(f"{request} {name}")
        assert answer is not None
        lines = answer.text(1000).splitlines()
        assert any(in_words(standing) in line for line in lines if line.startswith("source: ")), name
        if not is_sound(standing):
            assert standing in answer.gist(), name
            assert sum(standing in line for line in lines) > 1, name


@pytest.mark.parametrize("name", ["6 BA", "1/4 BSW", "1/4-20 UNC", "M3", "G 1/4", "1/2 NPT", "1/4 BSB"])
def test_the_source_line_of_a_thread_says_how_far_to_trust_it(name: str) -> None:
    answer = Session().answer(f"thread {name}")
    assert answer is not None
    (source,) = [line for line in answer.text(2000).splitlines() if line.startswith("source: ")]
    assert f"({in_words(thread(name).standing)})" in source


def test_heads_that_are_from_memory_say_so() -> None:
    """ISO 2009: the two diameters of a countersunk head at the edge are from memory."""
    answer = Session().answer("thread M3")
    assert answer is not None
    assert "diameter max 5.5 (from memory), diameter min 5.2 (from memory)" in answer.text(200)


def test_fits_of_one_source_say_so_at_each_figure() -> None:
    """ISO 286 u: Machine Drawing table 15.2 alone; H is printed in two books."""
    pair = fit("20 mm", "H7/u6")
    assert (pair.hole.standing, pair.shaft.standing, pair.standing) == ("printed", "one source", "one source")
    answer = Session().answer("fit 20 mm H7/u6")
    assert answer is not None
    assert answer.text(200).count("one source") == 4
    assert fit("5 mm", "H7/j6").shaft.standing == "from memory"
    assert fit("1/2 in", "RC5").clearance.standing == "one source"


def test_recover_among_tables_tells_it() -> None:
    found = recover("0.0087 in", among=("drills",))
    assert found.candidates[0].size.standing == "from memory"
    answer = Session().answer("recover 0.0087 in among drills")
    assert answer is not None
    assert answer.text(200).count("from memory") > 3


def test_identify_and_substitute_tell_it_of_every_thread_they_name() -> None:
    for statement in ("identify 5 mm, 0.75 mm", "substitute 2 BA from metric", "substitute M5 x 0.75"):
        answer = Session().answer(statement)
        assert answer is not None
        results: Any = answer.result
        assert any(not is_sound(each.thread.standing) for each in results)
        for each in results:
            if not is_sound(each.thread.standing):
                assert f"{each.thread.name} ({each.thread.standing})" in answer.text(200)


SHEET = """## Runner plate
pin = No 90 drill
stock = 8 zinc
screw = 20 BA
pair = pin + 1 in
plain = 1 in
loose = stock ± 1 thou
area = pin * 1 in
turn = asin(pin / 1 in)
count = pin / 1 thou
part pin block: 2 of brass, pin by 1 in
part wedge: 1 of brass, loose by 1 in
check pair = 1.0087 in within 1 thou
check screw = 0.48 mm
"""


def test_no_form_of_a_sheet_loses_the_word() -> None:
    sheet = Sheet.from_text(SHEET)
    printed = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(sheet.to_pdf())).pages)
    for text in (sheet.to_text(), sheet.to_markdown(), sheet.to_html(), " ".join(printed.split())):
        for word in UNSOUND.values():
            assert word in text
    listed = {row["name"]: row for row in csv.DictReader(io.StringIO(sheet.to_csv()))}
    told = {name: row["standing"] for name, row in listed.items()}
    assert told["pin"] == told["pair"] == told["area"] == told["turn"] == told["count"] == "from memory"
    assert (told["loose"], told["screw"], told["plain"]) == ("one source", "beyond the standard", "")
    data = sheet.to_data()
    assert data["sizes"]["pair"]["standing"] == "from memory"
    assert "standing" not in data["sizes"]["plain"]
    assert data["parts"][0]["sizes"][0]["standing"] == "from memory"


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("pin = No 90 drill\npart pin block: 2 of brass, pin * 90 by 2 in\n", "from memory, see the sheet: "),
        ("fit 20 mm H7/u6\n", "one source, see the sheet: fit 20 mm H7/u6"),
        ("zinc = 8 zinc\nmark 2 in + zinc into 4\n", "not all figures are printed ones, see the sheet: mark"),
    ],
)
def test_a_picture_cut_out_of_a_sheet_tells_it_in_its_title(lines: str, told: str) -> None:
    assert told in Sheet.from_text(lines).to_html()
    sound = lines.replace("No 90 drill", "No 43 drill").replace("u6", "g6").replace("8 zinc", "18 SWG")
    assert "see the sheet: " not in Sheet.from_text(sound).to_html()


def test_the_tables_of_a_sheet_tell_it_in_each_row_and_once() -> None:
    lines = Sheet.from_text(SHEET).to_text(200).splitlines()
    for name, word in (("pin", "from memory"), ("stock", "one source"), ("screw", "beyond the standard")):
        listed = [line for line in lines if line.strip().startswith(f"{name}  ")]
        assert listed, name
        assert all(line.count(word) == 1 for line in listed), name


@pytest.mark.parametrize(
    "statement", ["3 Vienna lines", "3 Vienna lines + 1 in", "1 in as Vienna lines", "a = 2 Vienna inches"]
)
def test_an_old_inch_of_one_source_tells_it(statement: str) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    assert "one source" in answer.text(200).splitlines()[0]


def test_a_notebook_tells_it() -> None:
    assert "from memory" in size_html(read("No 90 drill"))


def test_one_cell_tells_it_once() -> None:
    size = read("No 90 drill")
    assert isinstance(size, Quantity)
    assert (
        in_prose(Cell("size", (in_mm(size), " to ", in_mm(size)), (in_mm(size),))).count("from memory") == 1
    )


def test_what_rests_on_many_names_a_few() -> None:
    assert rests_on({f"No {n} drill": "from memory" for n in range(81, 91)}) == (
        "rests on No 81 drill, No 82 drill, No 83 drill, No 84 drill and 6 more, from memory: "
        "check before relying on it",
    )
    assert worst([read("1 in"), read("No 43 drill")]) == "printed"


def test_few_threads_are_from_memory() -> None:
    """Two open CAD libraries and a data file of hole features have most that once were."""
    left = [each.name for each in all_threads() if each.standing == "from memory" and not each.record.rare]
    assert len(left) < 15, left
    assert not {"M16", "M30", "2 BSW", "G 3"} & set(left)


def test_no_source_names_a_community_or_a_firm() -> None:
    for path in sorted(Path(HERE).glob("*.csv")):
        for row in rows(path.stem):
            said = " ".join(row.get(name) or "" for name in ("source", "second_source", "note")).lower()
            for word in ("wikipedia", " wiki", "forum", "club", "blog", "q&a", ".com", ".org"):
                assert word not in said, f"{path.stem}: {said}"


def test_what_an_arc_a_circle_or_a_taper_gives_rests_on_what_it_was_worked_out_from() -> None:
    wire, inch = read("20 spring wire"), read("1 in")
    assert isinstance(wire, Quantity)
    assert isinstance(inch, Quantity)
    assert wire.standing == "one source"
    half = Angle(Fraction(45), standing="one source")
    given = {
        "sagitta": [(wire, 3 * inch), (inch, inch + wire)],
        "chord": [(inch + wire, Angle(Fraction(45))), (inch, half)],
        "girth": [(wire,)],
        "arc": [(wire, Angle(Fraction(45))), (inch, half)],
        "radius_from": [(inch, wire)],
        "bolt_circle": [(4, inch + wire), (4, inch, half)],
        "step_chord": [(inch + wire, 7)],
        "taper_per_foot": [(inch, inch - wire, 6 * inch)],
        "taper_angle": [(inch, inch - wire, 6 * inch)],
        "per_foot": [(wire,)],
        "set_over": [(wire / inch, 9 * inch)],
        "taper_at": [(half,)],
    }
    assert set(given) == set(CIRCLE)
    for name, calls in given.items():
        for arguments in calls:
            result = CIRCLE[name][0](*arguments)
            for size in (
                (each for point in result for each in (point.x, point.y))
                if name == "bolt_circle"
                else [result]
            ):
                assert size.standing == "one source", (name, arguments)


def test_the_heights_of_a_crown_rest_on_its_radius_at_every_exit() -> None:
    statement = "s = crown 5 across 1 in radius 7 in + 20 spring wire"
    answer = Session().answer(statement)
    assert answer is not None
    heights = [height for height in answer.result.exact if height.value]
    assert heights
    assert {height.standing for height in heights} == {"one source"}
    assert answer.result.fitted_radius.standing == "one source"
    assert answer.text(200).count("one source") >= len(heights)
    sheet = Sheet.from_text(statement)
    rows = [row for row in csv.DictReader(io.StringIO(sheet.to_csv())) if row["kind"] in ("height", "place")]
    assert {row["standing"] for row in rows if row["exact"] not in ("0",) and "up" in row["which"]} == {
        "one source"
    }


def test_a_tap_has_the_word_of_its_thread_at_every_exit() -> None:
    sheet = Sheet.from_text(
        "part plate: 1, 2 in by 2 in\nhole in plate: tapping(1/4 x 32 ME) at 1 in by 1 in"
    )
    assert "tap 1/4 x 32 ME (from memory)" in sheet.to_text(200)
    assert "tap 1/4 x 32 ME (from memory)" in sheet.to_html()
    (tap,) = [row for row in csv.DictReader(io.StringIO(sheet.to_csv())) if row["which"] == "tap"]
    assert tap["standing"] == "from memory"
    assert [tool["standing"] for tool in sheet.to_data()["tools"]] == ["from memory", "from memory"]


@pytest.mark.parametrize("name", ["No 90 drill", "20 spring wire", "1/4 x 32 ME", "0.60 UNM", "18 SWG"])
def test_what_is_read_shows_its_word_where_it_is_printed_as_a_value(name: str) -> None:
    size = read(name)
    assert isinstance(size, Quantity)
    for value in (size, size * 2, Session().answer(f"{name} +- 1 thou").value):  # type: ignore[union-attr]
        word = "" if is_sound(size.standing) else size.standing
        assert word in repr(value)
        assert ("from memory" in repr(value)) == (size.standing == "from memory")
