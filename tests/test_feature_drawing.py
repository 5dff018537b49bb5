"""Drawings of what is cut in parts: measured in SVG and PDF, lettered, and no figure over another."""

from __future__ import annotations

import io
import re
from fractions import Fraction
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from overprinting import overprinted
from pypdf import PdfReader
from pypdf.generic import ContentStream

from fractions_shop.figures.drawing import Drawing, NotDrawn, Words
from fractions_shop.figures.paper import A4, PAPERS
from fractions_shop.show.part_drawing import part_drawings
from fractions_shop.show.running_dimensions import PITCH, spread
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.title_block import Titles

ALLOWED = 0.01
POINT = 25.4 / 72
FRAME = """\
## Label frames
rev A: as found
rev B, 3 May 2026: pin holes moved in
part label frame: 3 of brass, 2 in by 7/8 in by 1/16 in
hole in label frame: 3 mm at 1/4 in by 1/4 in, 1 3/4 in by 1/4 in deep 1/32 in
hole in label frame: tapping(6 BA) at 3 across by 1/2 in from 1/2 in, 5/8 in
hole in label frame: No 43 drill +2/-0 thou at 1/4 in by 5/8 in sunk 4 mm
slot in label frame: 1/2 in by 1/8 in at 1 in by 1/4 in
corner in label frame: 1/8 in
"""


def drawings(sheet: Sheet, name: str) -> tuple[Drawing, ...]:
    made = part_drawings(sheet.cut_parts[name], Titles(sheet.title, sheet.revision))
    assert not isinstance(made, NotDrawn)
    return made


def said(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Words)]


# Measured where they are written

Circle = tuple[float, float, float]


def svg_circles(text: str) -> list[Circle]:
    """Centres and radii in mm, y upwards, of an SVG whose unit is a millimetre."""
    root = ET.fromstring(text.partition("?>")[2])
    assert root.attrib["width"].removesuffix("mm") == root.attrib["viewBox"].split()[2]
    circles = []
    for group in root.iter("{http://www.w3.org/2000/svg}g"):
        move = re.match(r"translate\(0 ([0-9.]+)\)", group.attrib.get("transform", ""))
        if move:
            for node in group.iter("{http://www.w3.org/2000/svg}circle"):
                x, y, r = (float(node.attrib[key]) for key in ("cx", "cy", "r"))
                circles.append((x, -y - float(move[1]), r))
    return circles


def pdf_circles(raw: bytes) -> list[Circle]:
    """Centres and radii in mm of the circles of a PDF: closed paths of four curves, as reportlab writes them."""
    circles = []
    for page in PdfReader(io.BytesIO(raw)).pages:
        stack, matrix = [], (0.0, 0.0)
        points: list[tuple[float, float]] = []
        curves = 0
        for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
            word = operator.decode()
            if word == "q":
                stack.append(matrix)
            elif word == "Q":
                matrix = stack.pop()
            elif word == "cm":
                a, b, c, d, e, f = map(float, operands)
                if (a, b, c, d) == (1, 0, 0, 1):
                    matrix = (matrix[0] + e, matrix[1] + f)
            elif word == "m":
                points, curves = [tuple(map(float, operands))], 0
            elif word == "c":
                points.append(tuple(map(float, operands[4:])))
                curves += 1
            elif word in ("S", "s", "B", "b", "n") and curves == 4:
                xs, ys = zip(*points, strict=True)
                x, y = (min(xs) + max(xs)) / 2 + matrix[0], (min(ys) + max(ys)) / 2 + matrix[1]
                circles.append((x * POINT, y * POINT, (max(xs) - min(xs)) / 2 * POINT))
                points, curves = [], 0
    return circles


def circles_of(sheet: Sheet, form: str) -> list[Circle]:
    return svg_circles(sheet.to_svg()) if form == "svg" else pdf_circles(sheet.to_pdf())


@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_holes_stand_at_their_places_from_the_datum_at_full_size(form):
    circles = circles_of(Sheet.from_text(FRAME), form)
    (datum,) = [c for c in circles if abs(c[2] - 1.2) < 1e-3]
    measured = sorted(
        (round(x - datum[0], 3), round(y - datum[1], 3), round(r, 3))
        for x, y, r in circles
        if (x, y, r) != datum and r not in (2.0, 4.0) and not (abs(r - 2) < 1e-3 or abs(r - 4) < 1e-3)
    )
    # In mm, by hand: 1/4 in is 6.35; 1 3/4 in 44.45; 5/8 in 15.875; a BA tapping drill of 2.3;
    # No 43 is 0.089 in, from 0.089 to 0.091 in here, drawn at one that lies within them.
    expected = [
        (6.35, 6.35, 1.5), (44.45, 6.35, 1.5), (12.7, 15.875, 1.15), (25.4, 15.875, 1.15), (38.1, 15.875, 1.15),
    ]  # fmt: skip
    for x, y, r in expected:
        assert any(
            abs(x - a) < ALLOWED and abs(y - b) < ALLOWED and abs(r - c) < ALLOWED for a, b, c in measured
        ), (x, y, r)
    drilled = [r for x, y, r in measured if abs(x - 6.35) < ALLOWED and abs(y - 15.875) < ALLOWED]
    assert any(1.1303 - 1e-3 <= r <= 1.1557 + 1e-3 for r in drilled)


@pytest.mark.parametrize("form", ["svg", "pdf"])
@pytest.mark.parametrize(("wide", "scale"), [(4, 1), (10, 2), (24, 5)])
def test_a_larger_part_has_its_holes_at_the_scale_that_is_named(form, wide, scale):
    sheet = Sheet.from_text(
        f"part p: 1 of oak, {wide} in by 2 in\nhole in p: 1/2 in at 1 in by 1 in, {wide - 1} in by 1 in"
    )
    assert f"scale 1:{scale}" in sheet.to_svg()
    holes = sorted(c for c in circles_of(sheet, form) if abs(c[2] - 6.35 / scale) < 1e-3)
    assert len(holes) == 2
    assert abs((holes[1][0] - holes[0][0]) * scale - (wide - 2) * 25.4) < ALLOWED * scale


@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_a_bolt_circle_stands_about_the_centre_of_the_end(form):
    sheet = Sheet.from_text(
        "part f: 1 of brass, round 1 1/2 in by 1/4 in\nhole in f: 1/8 in at bolt_circle(6, 1 in)"
    )
    circles = circles_of(sheet, form)
    (datum,) = [c for c in circles if abs(c[2] - 1.2) < 1e-3]
    holes = [c for c in circles if abs(c[2] - 3.175 / 2) < 1e-3]
    assert len(holes) == 6
    for x, y, _ in holes:
        assert abs(((x - datum[0]) ** 2 + (y - datum[1]) ** 2) ** 0.5 - 12.7) < ALLOWED


# What it says


def test_the_table_has_every_letter_place_size_depth_and_countersink():
    (drawing,) = drawings(Sheet.from_text(FRAME), "label frame")
    words = said(drawing)
    for figure in ("A1", "A2", "B1", "B2", "B3", "C", "D", "R"):
        assert words.count(figure) == 2, figure  # in the table and beside the hole
    for figure in (
        "1/4 in", "6.35 mm", "⌀ 3 mm", "1/32 in", "tapping 6 BA", "No 43 drill", "0.089 to 0.091 in", "at 90 deg",
        "slot 1/2 in by 1/8 in", "12.7 mm by 3.175 mm", "R 1/8 in", "all four", "through",
    ):  # fmt: skip
        assert figure in words, figure


def test_the_title_block_has_part_count_sheet_scale_projection_revision_and_its_date():
    (drawing,) = drawings(Sheet.from_text(FRAME), "label frame")
    words = said(drawing)
    for text in (
        "label frame",
        "3 of brass",
        "Label frames",
        "scale 1:1",
        "third-angle projection",
        "rev B, 3 May 2026",
    ):
        assert text in words
    (plain,) = drawings(Sheet.from_text("## T\npart p: 1 of oak, 2 in by 1 in"), "p")
    assert not [text for text in said(plain) if text.startswith("rev")]


def test_millimetres_lead_in_the_table_where_they_lead_in_the_sheet():
    svg = Sheet.from_text(f"units mm first\n{FRAME}").to_svg()
    places = [svg.index(f">{figure}<") for figure in ("⌀ 3 mm", "⌀ about 0.1181 in")]
    assert places == sorted(places)


def test_a_long_table_goes_on_upon_further_sheets_and_no_row_is_lost():
    grid = "hole in p: 1/8 in at 10 across by 1/2 in, 9 up by 1/2 in first at 1/2 in, 1/2 in"
    made = drawings(Sheet.from_text(f"part p: 1 of oak, 6 in by 5 in\n{grid}"), "p")
    assert len(made) > 2
    words = [text for drawing in made for text in said(drawing)]
    assert all(f"A{n}" in words for n in range(1, 91))
    assert [f"p, scale 1:2, sheet {n} of {len(made)}" for n in range(1, len(made) + 1)] == [
        d.title for d in made
    ]
    for drawing in made:
        assert overprinted(drawing) == []
        assert drawing.height <= A4.down


def test_a_doubt_in_a_hole_is_told_on_the_drawing_of_its_part():
    text = "d = 5' - 3 in\npart p: 1 of oak, 10 ft by 8 ft\nhole in p: d / 30 at 5 ft by 4 ft"
    assert "DOUBTFUL, see the sheet: p" in Sheet.from_text(text).to_svg()


# No figure over another


@given(st.lists(st.fractions(0, 40, max_denominator=8), min_size=1, max_size=12).map(sorted))
def test_figures_are_moved_apart_in_order_and_no_further_than_they_must(places):
    moved = spread(places, PITCH, Fraction(-1000))
    assert all(b - a >= PITCH for a, b in pairwise(moved))
    if all(b - a >= PITCH for a, b in pairwise(places)):
        assert moved == places
    # Least squares: what a group is moved by adds up to nothing.
    assert sum(moved) == sum(places)


@st.composite
def cut_parts(draw: st.DrawFn) -> str:
    """A part with holes and slots at random, not all of which have room."""
    inch = st.integers(1, 64).map(lambda n: f"{n}/16 in")
    small = st.integers(1, 12).map(lambda n: f"{n}/32 in")
    section = draw(st.sampled_from(["", "", "", "round ", "hex ", "square "]))
    sizes = [draw(inch) for _ in range(2 if section else 3)]
    rows = [f"part p: {draw(st.integers(1, 99))} of brass, {section}{' by '.join(sizes)}"]
    for _ in range(draw(st.integers(1, 4))):
        places = draw(st.one_of(
            st.lists(st.tuples(inch, inch), min_size=1, max_size=6).map(lambda ps: ", ".join(f"{x} by {y}" for x, y in ps)),
            st.tuples(st.integers(1, 5), small, st.integers(1, 4), small).map(
                lambda g: f"{g[0]} across by {g[1]}, {g[2]} up by {g[3]} first at {g[1]}, {g[3]}"),
        ))  # fmt: skip
        size = draw(st.sampled_from(["{0}", "{0} ± 1 thou", "No 60 drill", "tapping(10 BA)"])).format(
            draw(small)
        )
        cut = draw(st.sampled_from([
            f"hole in p: {size} at {places}", f"hole in p: 1/32 in at {places} sunk 1/16 in",
            f"slot in p: 1/4 in by 1/16 in at {places} turned {draw(st.integers(0, 90))} deg",
        ]))  # fmt: skip
        rows.append(cut)
    rows.append(f"corner in p: {draw(small)}")
    return "\n".join(rows)


@given(cut_parts(), st.sampled_from(sorted(PAPERS)))
def test_no_figure_of_any_drawing_is_overprinted_and_all_have_room_on_their_paper(text, paper):
    sheet = Sheet.from_text(text)
    made = part_drawings(sheet.cut_parts["p"], Titles("A sheet of that name"), PAPERS[paper])
    if isinstance(made, NotDrawn):
        return
    rows = [n for cut in sheet.cut_parts["p"].cuts for n in range(len(cut.cut.at))]
    shown = [text for drawing in made for text in said(drawing)]
    assert sum(text.startswith("as ") for text in shown) == len(rows) - len(sheet.cut_parts["p"].cuts)
    for drawing in made:
        assert overprinted(drawing) == []
        assert drawing.width <= PAPERS[paper].across
        assert drawing.height <= PAPERS[paper].down


def test_the_widths_of_a_table_are_worked_out_once_however_many_rows_it_has():
    from fractions_shop.show.hole_table import HoleTable, rows_of

    table = HoleTable(rows_of(Sheet.from_text(FRAME).cut_parts["label frame"]))
    assert table.widths is table.widths


HARD = {
    "25 holes": "part p: 1 of brass, 5 in by 5 in by 1/8 in\nhole in p: 1/8 in at 5 across by 1 in, 5 up by 1 in first at 1/2 in, 1/2 in",
    "25 holes, none in line": "part p: 1 of brass, 6 in by 6 in by 1/8 in\nhole in p: 1/16 in at "
    + ", ".join(f"{7 * n + 3}/32 in by {(11 * n) % 25 * 7 + 5}/32 in" for n in range(25)),
    "25 near one another": "part p: 1 of brass, 1 in by 1 in by 1/8 in\nhole in p: 1/64 in at 5 across by 1/32 in, 5 up by 1/32 in first at 1/8 in, 1/8 in",
    "tiny": "part p: 1 of brass, 1/64 in by 1/64 in by 1/64 in\nhole in p: 1/256 in at 1/128 in by 1/128 in",
    "very long and thin": "part p: 1 of oak, 10 ft by 1/32 in by 1/64 in\nhole in p: 1/64 in at 1 ft by 1/64 in, 9 ft by 1/64 in",
    "very high and thin": "part p: 1 of oak, 1/32 in by 10 ft by 1/64 in\nhole in p: 1/64 in at 1/64 in by 1 ft, 1/64 in by 9 ft",
    "limits everywhere": "part p: 2 of brass, 2 in ± 1/128 in by 1 in +0/-2 thou by 1/16 in ± 1 thou\n"
    "hole in p: 1/8 in +2/-0 thou at 1/4 in by 1/4 in sunk 3/16 in\nslot in p: 1/2 in ± 1 thou by 1/8 in ± 1 thou at 1 in by 1/2 in square\n"
    "corner in p: 1/16 in ± 1/128 in",
}


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("hard", HARD)
def test_hard_parts_have_a_drawing_on_every_paper_with_every_place_in_its_table_and_nothing_overprinted(
    hard, paper
):
    title = "A sheet with a name that is far too long for one line of any title block on paper"
    sheet = Sheet.from_text(f"## {title}\n{HARD[hard]}")
    assert not sheet.faults, sheet.faults
    cut = sheet.cut_parts["p"]
    made = part_drawings(cut, Titles(sheet.title), PAPERS[paper])
    assert not isinstance(made, NotDrawn), made
    shown = [text for drawing in made for text in said(drawing)]
    names = [each.place_name(n) for each in cut.cuts for n in range(len(each.cut.at))]
    assert set(names) <= set(shown)
    # The whole title stands in the block of every sheet, in as many lines as it takes.
    assert all(set(title.split()) <= set(" ".join(said(drawing)).split()) for drawing in made)
    for drawing in made:
        assert overprinted(drawing) == []
        assert (drawing.width <= PAPERS[paper].across, drawing.height <= PAPERS[paper].down) == (True, True)
