"""Drawings of parts: measured where they are written, to a named scale, no figure over another."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring import Line, pdf_lines, svg_lines
from overprinting import overprinted

from fractions_shop.figures.drawing import Arc, Drawing, NotDrawn, Stroke, Words
from fractions_shop.figures.paper import A4, paper_called
from fractions_shop.show.part_drawing import PROJECTION, SCALES, part_drawings
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.title_block import Titles

ALLOWED = 0.01
PARTS = {
    "pivot": "12 of brass, round 3/16 in by 7/8 in",
    "plate": "3 of brass, 2 in by 1 in by 16 SWG",
    "stud": "4 of steel, round M6 by 40 mm",
    "sleeve": "2 of brass, tube 1/2 in by bore 3/8 in by 5 in",
    "ring": "2 of brass, tube 2 in by bore 1 in",
    "nut": "2 of steel, hex 7/16 in by 1/4 in",
    "rail": "4 of oak, square 5/8 in +- 1/128 in by 3 in",
    "disc": "2 of brass, round 2 in",
    "runner": "24 of brass, 1/16 in by 1/4 in by 11 in",
    "board": "1 of oak, 300 mm by 200 mm +- 0.5 mm",
    "post": "1 of oak, 3/4 in by 2 in by 4 m",
}


def drawing_of(text: str) -> Drawing:
    sheet = Sheet.from_text(f"part p: {text}")
    assert not sheet.faults, sheet.faults
    return drawn(sheet)


def drawn(sheet: Sheet) -> Drawing:
    """The one drawing of the part p."""
    drawings = part_drawings(sheet.cut_parts["p"], Titles("Sheet"))
    assert not isinstance(drawings, NotDrawn), drawings
    (drawing,) = drawings
    return drawing


def said(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Words)]


def outline(lines: list[Line]) -> list[tuple[float, float]]:
    """How wide and high the rectangles of outlines are, from the left: two level strokes one over another."""
    level = sorted(
        (line for line in lines if line.level and line.is_a("outline")), key=lambda line: (line.x1, line.y1)
    )
    upright = [line for line in lines if line.upright and line.is_a("outline")]
    sizes = []
    for below, above in zip(level[::2], level[1::2], strict=True):
        assert abs(below.x1 - above.x1) < 1e-3
        tall = [abs(line.y1 - line.y2) for line in upright if abs(line.x1 - below.x1) < 1e-3]
        assert abs(abs(above.y1 - below.y1) - tall[0]) < 1e-3
        sizes.append((abs(below.x1 - below.x2), tall[0]))
    return sizes


@pytest.mark.parametrize("form", ["svg", "pdf"])
@pytest.mark.parametrize(
    ("name", "scale", "views"),
    [
        ("plate", 1, [(50.8, 25.4), (1.6256, 25.4)]),
        ("pivot", 1, [(22.225, 4.7625)]),
        ("stud", 1, [(40, 6)]),
        ("rail", 1, [(15.875, 15.875), (76.2, 15.875)]),
        ("runner", 5, [(1.5875, 6.35), (279.4, 6.35)]),
        ("board", 5, [(300, 200)]),
        ("post", 50, [(19.05, 50.8), (4000, 50.8)]),
    ],
)
def test_outlines_are_as_large_as_the_part_at_the_scale_that_is_named(form, name, scale, views):
    sheet = Sheet.from_text(f"part {name}: {PARTS[name]}")
    lines = svg_lines(sheet.to_svg()) if form == "svg" else pdf_lines(sheet.to_pdf())
    assert f"scale 1:{scale}" in sheet.to_svg()
    found = outline(lines)
    assert len(found) == len(views)
    for (wide, tall), (across, up) in zip(found, views, strict=True):
        assert abs(wide - across / scale) < ALLOWED
        assert abs(tall - up / scale) < ALLOWED


@pytest.mark.parametrize(
    ("name", "radii"), [("pivot", [2.38125]), ("sleeve", [6.35, 4.7625]), ("disc", [25.4])]
)
def test_round_ends_are_circles_of_their_size(name, radii):
    drawing = drawing_of(PARTS[name])
    scale = Fraction(next(t for t in said(drawing) if t.startswith("scale")).split()[1].replace(":", "/"))
    circles = [shape.radius for shape in drawing.shapes if isinstance(shape, Arc) and shape.kind == "outline"]
    assert [float(radius / scale) for radius in circles] == radii
    written = re.findall(
        r'<circle cx="([0-9.]+)" cy="([0-9.]+)" r="([0-9.]+)"',
        Sheet.from_text(f"part p: {PARTS[name]}").to_svg(),
    )
    # The first two are those of the sign of the projection.
    assert [float(r) for _, _, r in written][2:] == pytest.approx(
        [float(radius) for radius in circles], abs=ALLOWED
    )


def test_a_hexagon_is_as_wide_over_its_corners_as_geometry_has_it():
    """Across corners is across flats times 2 over the root of 3 (plane geometry)."""
    drawing = drawing_of(PARTS["nut"])
    sides = [s for s in drawing.shapes if isinstance(s, Stroke) and s.kind == "outline"][:6]
    xs, ys = [s.x1 for s in sides], [s.y1 for s in sides]
    assert float(max(ys) - min(ys)) == pytest.approx(11.1125)
    assert float(max(xs) - min(xs)) == pytest.approx(11.1125 * 2 / 3**0.5)
    lengths = [((s.x2 - s.x1) ** 2 + (s.y2 - s.y1) ** 2) ** Fraction(1, 2) for s in sides]
    assert max(lengths) == pytest.approx(min(lengths))


@pytest.mark.parametrize("name", PARTS)
def test_no_figure_of_a_drawing_is_overprinted(name):
    assert overprinted(drawing_of(PARTS[name])) == []


@given(
    st.sampled_from(["{0} by {1}", "{0} by {1} by {2}", "round {0} by {1}", "hex {0} by {1}", "square {0} by {1}",
                     "tube {0} + {1} by bore {1} by {2}", "tube {0} + {1} by bore {1}", "round {0}"]),
    st.lists(st.fractions(Fraction(1, 64), 30, max_denominator=64), min_size=3, max_size=3),
    st.sampled_from(["", " +- 1/128 in", " +- 0.1 mm"]),
)  # fmt: skip
def test_no_drawing_is_overprinted_and_each_has_room_on_its_paper(form, inches, limits):
    sizes = [f"({inch.numerator} in / {inch.denominator})" for inch in inches]
    text = form.format(*sizes)
    if limits and "tube" not in form:
        text += limits
    sheet = Sheet.from_text(f"part p: 2 of brass, {text}")
    if sheet.faults:
        return  # no wall is left, or limits go below nought
    if not part_drawings(sheet.cut_parts["p"], Titles("Sheet")):
        assert len(sheet.parts["p"].sizes) < 2
        return
    drawing = drawn(sheet)
    assert (drawing.width <= A4.across, drawing.height <= A4.down) == (True, True)
    assert overprinted(drawing) == []


def test_a_drawing_says_its_projection_its_scale_its_standard_and_whose_it_is():
    sheet = Sheet.from_text("## Latches, second try\npart pivot: 12 of brass, round 3/16 in by 7/8 in")
    text = sheet.to_svg()
    for words in (PROJECTION, "scale 1:1", "Latches, second try", "pivot: 12 of brass", "print at 100 %"):
        assert words in text
    assert "third-angle projection" in PROJECTION
    assert "ISO 128" in PROJECTION


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        (PARTS["stud"], ["M6", "\u2300 6 mm", "40 mm"]),
        (PARTS["plate"], ["2 in", "50.8 mm", "16 SWG", "0.064 in", "1.6256 mm"]),
        (PARTS["rail"], ["5/8 in", "79/128 to 81/128 in", "15.875 mm", "15.68 to 16.07 mm"]),
        (PARTS["nut"], ["7/16 in across flats", "11.1125 mm"]),
    ],
)
def test_a_drawing_tells_each_size_in_inches_over_millimetres_with_its_limits(text, figures):
    words = said(drawing_of(text))
    places = [words.index(figure) for figure in figures]
    assert len(places) == len(figures)


def test_millimetres_lead_on_drawings_where_they_lead_in_the_sheet():
    words = Sheet.from_text("units mm first\npart p: 1 of oak, 2 in by 1 in").to_svg()
    upper, lower = (re.search(rf'y="([0-9.]+)"[^>]*>{figure}<', words) for figure in ("50.8 mm", "2 in"))
    assert float(upper[1]) < float(lower[1])


def test_the_scale_is_full_size_where_it_has_room_and_else_the_largest_reduction_that_has():
    for tall in (100, 400, 900, 4000):
        drawing = drawing_of(f"1 of oak, 100 mm by {tall} mm")
        named = Fraction(next(t for t in said(drawing) if t.startswith("scale")).split()[1].replace(":", "/"))
        assert tall * named < A4.down
        larger = [scale for scale in SCALES if scale > named]
        assert all(tall * scale > A4.down - 75 for scale in larger)


def test_a_part_too_large_for_any_scale_says_so():
    sheet = Sheet.from_text("part p: 1 of oak, 90 m by 80 m")
    assert isinstance(part_drawings(sheet.cut_parts["p"], Titles("Sheet")), NotDrawn)
    assert "no drawing is made of p: it has no room at 1:100" in sheet.to_html()


def test_a_part_with_one_size_has_no_drawing():
    sheet = Sheet.from_text("part p: 1 of oak, 9 in\npart q: 4 of brass")
    assert part_drawings(sheet.cut_parts["p"], Titles("Sheet")) == ()
    assert "<svg" not in sheet.to_html()


def test_a_picture_whose_sizes_may_not_be_the_ones_meant_says_so_itself():
    text = "frame = 5' - 3 in\npart p: 1 of oak, frame by 1 in\ntick = mark frame into 5\npart q: 1 of oak, 2 in by 1 in"
    drawn = Sheet.from_text(text).to_svg()
    titles = re.findall(r"<title>([^<]*)</title>", drawn)
    assert [
        title
        for title in titles
        if title.startswith(("DOUBTFUL, see the sheet: p", "DOUBTFUL, see the sheet: tick"))
    ]
    assert titles[-1] == "q, scale 1:1"
    assert "DOUBTFUL, see the sheet: p: 1 of oak" in drawn


def test_a_figure_from_memory_is_marked_as_it_is_elsewhere():
    sheet = Sheet.from_text("part p: 1 of brass, round 6 BA by 1 in")
    assert "\u2300 2.8 mm" in sheet.to_svg()


@pytest.mark.parametrize(
    "line",
    ["11 in by 3/4 in by 1/4 in", "3/4 in by 8 in by 1/4 in", "2 in by 1 in by 1/4 in", "12 in by 9 in"],
)
def test_a_drawing_says_where_paper_lying_the_other_way_takes_a_larger_one_and_only_then(line):
    def scale(paper):
        cut = Sheet.from_text(f"part strip: 2 of oak, {line}\n").cut_parts["strip"]
        (made,) = part_drawings(cut, Titles("Sheet"), paper_called(paper))
        return Fraction(1, int(made.drawn_at.partition(":")[2] or 1)), " ".join(said(made))

    (upright, drawing), (lying, turned) = scale("A4"), scale("A4 landscape")
    assert ("with --landscape it is drawn at" in drawing) == (lying > upright)
    assert ("without --landscape, it is drawn at" in turned) == (upright > lying)
