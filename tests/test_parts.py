"""Part lines in full: shapes of section, figures in notes, names of what is bought, counts with a sum."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import replace

import pytest

from fractions_shop import Limits, Quantity
from fractions_shop.errors import ShopError
from fractions_shop.language.notes import remark
from fractions_shop.show.columns import WHAT
from fractions_shop.show.sheet import Sheet


def test_a_part_is_the_same_wherever_its_places_are_set_out() -> None:
    part = Sheet.from_text("part rail: 1 of brass, 1 in by 2 in").parts["rail"]
    assert replace(part, sees=(("hinge", 3),), notes=(remark("so"),)) == part
    assert replace(part, note="filed") != part


JOB = """\
## Latches
latches = 6
wall = 5/32 in +- 1/128 in
rivet_high = 10.31 mm
pivot = 3/16 in
gauge_of_plate = 16 SWG
plate_thick = gauge_of_plate
tick = mark 4 in into 5
part pivot: 2 * latches of brass, round pivot by 7/8 in; riveted to [rivet_high]
part plate: 3 of sheet of brass, plate_thick by 1 in by 2 in; drilled at [tick], [see sketch]
part stud: 4 of steel, round M6 by 40 mm
part sleeve: 2 of brass, tube 1/2 in by bore 3/8 in by 6 in
part nut: 2 of latches of steel, hex 7/16 in by 1/4 in
part rail: 4 of oak, square wall by 1 in
"""


@pytest.fixture(scope="module")
def job() -> Sheet:
    sheet = Sheet.from_text(JOB)
    assert not sheet.faults
    return sheet


@pytest.mark.parametrize(
    ("name", "section", "names"),
    [
        ("pivot", "round", ("diameter", "length")),
        ("plate", "", ("", "", "")),
        ("stud", "round", ("diameter", "length")),
        ("sleeve", "tube", ("outside", "bore", "length")),
        ("nut", "hex", ("across flats", "length")),
        ("rail", "square", ("side", "length")),
    ],
)
def test_a_part_knows_the_shape_of_its_section(job, name, section, names):
    assert (job.parts[name].section, job.parts[name].size_names) == (section, names)


def test_the_sizes_of_a_section_are_those_that_stand_behind_its_word(job):
    assert [str(size.inch) for size in job.parts["sleeve"].sizes] == ["1/2", "3/8", "6"]
    assert [str(size.inch) for size in job.parts["pivot"].sizes] == ["3/16", "7/8"]


@pytest.mark.parametrize(
    ("text", "bar"),
    [
        # A size that is called by the word of a shape is that size.
        ("round = 1 in\npart x: 1 of oak, round by 2 in", ""),
        ("square = 1 in\npart x: 1 of oak, square + 1/2 in by 2 in", ""),
        ("part x: 1 of oak, ROUND 1 in by 2 in", "round"),
        ("part x: 1 of oak, 1 in * round(2.2) by 2 in", ""),
    ],
)
def test_a_word_of_a_shape_is_read_before_words_are_left_out(text, bar):
    sheet = Sheet.from_text(text)
    assert not sheet.faults
    assert sheet.parts["x"].section == bar
    assert not sheet.parts["x"].notes


@pytest.mark.parametrize(
    ("count", "many", "material"),
    [
        ("2 * latches of brass", 12, "brass"),
        ("2 of latches of brass", 12, "brass"),
        ("2 of 3 of brass", 6, "brass"),
        ("(2 of latches) + 1 of brass", 13, "brass"),
        # What stands between two of them is no name: the first one parts count and material.
        ("12 of offcuts of oak", 12, "offcuts of oak"),
        ("latches of sheet of brass", 6, "sheet of brass"),
    ],
)
def test_the_last_of_with_a_count_before_it_parts_count_and_material(count, many, material):
    sheet = Sheet.from_text(f"latches = 6\npart p: {count}, 1 in")
    assert not sheet.faults
    assert (sheet.parts["p"].count, sheet.parts["p"].material) == (many, material)


def test_a_size_that_is_bought_keeps_its_name_under_any_names(job):
    assert job.parts["plate"].bought == ("16 SWG", "", "")
    assert job.parts["stud"].bought == ("M6", "")
    assert job.parts["pivot"].bought == ()
    for form in (job.to_text(), job.to_markdown(), job.to_html()):
        plain = " ".join(form.split())
        assert "16 SWG (0.064 in, 1.6256 mm)" in plain
        assert "M6 (6 mm, about 0.2362 in)" in plain


def test_a_sum_of_something_bought_is_not_bought():
    sheet = Sheet.from_text("part p: 1 of brass, 2 * (16 SWG) by No 29 drill")
    assert sheet.parts["p"].bought == ("", "No 29 drill")


# Figures in notes


def test_a_name_in_square_brackets_is_its_size_at_every_exit(job):
    for form in (job.to_text(), job.to_markdown(), job.to_html()):
        assert "riveted to 10.31 mm (about 0.4059 in)" in " ".join(form.split())
    (figure,) = job.parts["pivot"].figures
    assert (figure.name, figure.value) == ("rivet_high", Quantity.of(1031, "mm") / 100)
    data = next(part for part in job.to_data()["parts"] if part["part"] == "pivot")
    assert data["figures"][0]["value"]["mm"] == "1031/100"
    assert data["note"] == "riveted to [rivet_high]"


def test_words_in_square_brackets_that_are_no_name_stand_as_they_are(job):
    assert "drilled at tick (line 8), [see sketch]" in " ".join(job.to_text().split())


def test_a_figure_in_a_note_carries_its_doubt():
    sheet = Sheet.from_text("high = 5' - 3 in\npart p: 1 of brass, 1 in; cut to [high]")
    assert sheet.doubts.doubtful, "the reading is a doubtful one"
    part = sheet.parts["p"]
    assert part.figures[0].doubtful
    for form in (sheet.to_text(), sheet.to_markdown(), sheet.to_html()):
        assert "(high, doubtful)" in " ".join(form.split())
        # The list marks the part too.
        assert re.search(r"\bp(?:\s|\\)*\*", form)


def test_a_name_in_a_note_that_nothing_bears_is_a_fault_with_its_place():
    sheet = Sheet.from_text("part lost: 1 of oak, 1 in; at [nowhere]")
    (fault,) = sheet.faults
    assert (fault.column, fault.message) == (32, "nothing here is called nowhere")
    # A part at fault stands in the list all the same.
    assert "lost" in sheet.to_text().partition("Parts to make")[2].partition("\n\n")[0]


def test_a_part_waits_for_a_figure_of_its_note_and_may_stand_above_it():
    sheet = Sheet.from_text("part p: 1 of oak, 1 in; to [deep]\ndeep = 2 in")
    assert "to 2 in (50.8 mm)" in sheet.to_text()
    assert Sheet.from_text("part p: 1 of oak, 1 in; to [deep]\ndeep = 2 inn inn").waiting


def test_a_part_leads_to_the_places_that_it_draws_on(job):
    assert job.parts["plate"].sees == (("tick", 8),)
    html = job.to_html()
    row = next(row for row in re.findall(r"<tr>.*?</tr>", html) if "drilled at" in row)
    # To the strip itself, which stands with the others, and from the part's name to its drawing.
    assert '<a href="#line-8-picture-1"' in row
    assert '<th scope="row"><a href="#line-10-picture-1">plate</a></th>' in row


def test_a_part_leads_to_its_drawing_its_strip_and_its_heights_in_every_form_that_has_links():
    text = "steps = crown 6 across 13/32 in radius 7 1/4 in from 11/32 in\npart peg: 6 of brass, round 1/4 in by 1 in; cut to [steps]\npart wire: 2 of brass\n"
    sheet = Sheet.from_text(text)
    assert sheet.parts["peg"].sees == (("steps", 1),)
    html = sheet.to_html()
    for place in ("line-1-picture-1", "line-2-picture-1", "line-3"):
        assert f'href="#{place}"' in html
        assert html.count(f'id="{place}"') == 1
    markdown = sheet.to_markdown()
    assert "| [peg](#line-2) |" in markdown
    assert "| [1](#line-1) |" in markdown
    assert all(markdown.count(f'<a id="line-{n}"></a>') == 1 for n in (1, 2, 3))
    pypdf = pytest.importorskip("pypdf")
    pages = pypdf.PdfReader(io.BytesIO(sheet.to_pdf()))
    # The list, on the first page, leads to three places.
    led = [note.get_object() for note in pages.pages[0]["/Annots"]]
    assert len({str(note["/Dest"]) for note in led}) == 3


# Limits, and what is refused


def test_a_size_with_limits_is_told_as_its_nominal_and_what_it_lies_within(job):
    rail = job.parts["rail"].sizes[0]
    assert isinstance(rail, Limits)
    said = "5/32 in, within 19/128 to 21/128 in (about 3.969 mm, within 3.78 to 4.16 mm)"
    assert said in " ".join(job.to_text().split())


@pytest.mark.parametrize(
    ("line", "message", "column"),
    [
        ("part a: 1 of brass, tube 1/2 in by 6 in", "a tube is told by its outside and its bore", 26),
        ("part a: 1 of brass, tube 1/2 in by bore 1/2 in by 6 in",
         "the bore, 1/2 in (12.7 mm), leaves no wall in an outside of 1/2 in (12.7 mm)", 41),
        ("part a: 1 of brass, round 1/2 in by 6 in by 1 in", "a round has at most 2 sizes: diameter and length", 45),
        ("part a: 1 of brass, hex by", "a size is missing here", 27),
    ],
)  # fmt: skip
def test_what_is_no_section_is_refused_with_its_place(line, message, column):
    (fault,) = Sheet.from_text(line).faults
    assert (fault.message, fault.column) == (message, column)


def test_a_bore_within_its_worst_limits_leaves_a_wall():
    text = "part a: 1 of brass, tube 1/2 in +- 1/64 in by bore {} +- 1/64 in by 6 in"
    assert Sheet.from_text(text.format("31/64 in")).faults
    assert not Sheet.from_text(text.format("29/64 in")).faults


# Rows of one kind


def _rows(sheet: Sheet, what: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(sheet.to_csv(what))))


def test_rows_of_one_kind_stand_alone():
    sheet = Sheet.from_text(JOB + "check pivot = 1/4 in\ncrown 3 across 1 in radius 7 in from 1 in\n")
    assert {row["kind"] for row in _rows(sheet, "parts")} == {"part"}
    assert [row["which"] for row in _rows(sheet, "parts")][:2] == [
        "1 of 2, round, diameter",
        "2 of 2, round, length",
    ]
    assert "1 of 3, 16 SWG" in {row["which"] for row in _rows(sheet, "parts")}
    (check,) = _rows(sheet, "checks")
    assert (check["which"], check["inch"]) == ("fails", "-0.0625")
    heights = _rows(sheet, "heights")
    assert [row["which"] for row in heights] == ["1 of 3", "2 of 3", "3 of 3"]
    assert heights[1]["inch"] == "1"
    assert {row["kind"] for row in _rows(sheet, "places")} == {"place"}
    every = [row["kind"] for row in _rows(sheet, "all")]
    assert every == sorted(every, key=[*WHAT.values()].index)


def test_rows_of_nothing_known_are_refused(job):
    with pytest.raises(ShopError, match="'holes' is nothing that a sheet has rows of"):
        job.to_csv("holes")


def test_the_command_writes_the_rows_of_one_kind(tmp_path, capsys):
    from fractions_shop.command.words.sheet import run

    (tmp_path / "a.shop").write_text(JOB, "utf-8")
    assert run([str(tmp_path / "a.shop"), "--to", "csv", "--what", "parts"]) == 0
    assert {row["kind"] for row in csv.DictReader(io.StringIO(capsys.readouterr().out))} == {"part"}


# What changed


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ("round 1 in by 2 in", "square 1 in by 2 in", "section"),
        ("16 SWG by 2 in", "0.064 in by 2 in", "bought"),
        ("1 in; to [deep]", "1 in; to [deep]", "note"),
    ],
)
def test_a_change_of_section_of_what_is_bought_or_of_a_figure_is_a_change(old, new, what):
    from fractions_shop.figures.plain import laid_out
    from fractions_shop.show.changes import comparison

    one = Sheet.from_text(f"deep = 1/2 in\npart p: 1 of brass, {old}")
    two = Sheet.from_text(f"deep = 5/8 in\npart p: 1 of brass, {new}")
    (change,) = one.part_changes(two)
    said = laid_out(comparison([], [change], [], "old", "new"), 100)
    assert what in said
