"""Drawings of crowns: places and heights measured where they are written, and no figure over another."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring import Line, pdf_lines, svg_lines
from overprinting import overprinted

from fractions_shop import crown
from fractions_shop.figures.drawing import Drawing, NotDrawn, Stroke, Words
from fractions_shop.figures.paper import A4, PAPERS
from fractions_shop.show.crown_drawing import crown_drawings
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.title_block import Titles

ALLOWED = 0.01
RACK = "## Rack\nrev B: lower\ncrown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds\n"
#: 9/32, 5/16 and 11/32 in: heights of the first three supports, as the worked example of `crown` has them.
HEIGHTS = [25.4 * n / 32 for n in (9, 10, 11, 11, 10, 9)]


def said(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Words)]


def supports(lines: list[Line]) -> tuple[float, list[tuple[float, float]]]:
    """The base and where each support ends, from the left: level outlines, the longest of them the base."""
    level = [line for line in lines if line.level and line.is_a("outline")]
    base = max(level, key=lambda line: abs(line.x1 - line.x2))
    ends = sorted(((line.x1 + line.x2) / 2, line.y1) for line in level if line is not base)
    return base.y1, ends


@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_supports_are_as_far_apart_and_as_high_as_they_are_to_be_at_full_size(form):
    sheet = Sheet.from_text(RACK)
    lines = svg_lines(sheet.to_svg()) if form == "svg" else pdf_lines(sheet.to_pdf())
    base, ends = supports(lines)
    assert [x - ends[0][0] for x, _ in ends] == pytest.approx(
        [k * 13 / 32 * 25.4 for k in range(6)], abs=ALLOWED
    )
    assert [y - base for _, y in ends] == pytest.approx(HEIGHTS, abs=ALLOWED)


def test_the_curve_is_the_arc_of_that_radius():
    (drawing,) = drawn(crown(6, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds"))
    chords = [s for s in drawing.shapes if isinstance(s, Stroke) and s.kind == "exact"]
    points = [(float(c.x1), float(c.y1)) for c in chords]
    # A circle through three of its points, by the usual formula of geometry, has that radius.
    (ax, ay), (bx, by), (cx, cy) = points[0], points[32], points[-1]
    a, b, c = sqrt((bx - cx) ** 2 + (by - cy) ** 2), sqrt((ax - cx) ** 2 + (ay - cy) ** 2), sqrt((ax - bx) ** 2 + (ay - by) ** 2)  # fmt: skip
    area = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) / 2
    assert a * b * c / (4 * area) == pytest.approx(7.25 * 25.4, abs=0.05)


def drawn(made, paper=A4) -> tuple[Drawing, ...]:
    drawings = crown_drawings(made, "crown", Titles("Rack"), paper)
    assert not isinstance(drawings, NotDrawn), drawings
    return drawings


def test_the_table_has_each_support_with_its_place_its_height_and_the_arc():
    sheet = Sheet.from_text(RACK)
    drawing = sheet._document().pictures[0]
    text = said(drawing)
    for figure in (
        "13/16 in",
        "20.6375 mm",
        "9/32 in",
        "11/32 in",
        "R 7 1/4 in",
        "R 184.15 mm",
        "height, 32nds",
    ):
        assert figure in text, figure
    assert [n for n in "123456" if n in text] == list("123456")
    assert {"scale 1:1", "rev B", "Rack", "6 supports"} <= set(text)


def test_a_larger_crown_is_drawn_at_a_scale_that_is_named_and_one_too_large_says_so():
    (drawing,) = drawn(crown(9, across="1 5/8 in", radius="40 in", tallest="1 1/4 in"))
    assert "scale 1:5" in said(drawing)
    assert "drawn at 1:5; the bar checks the print, not the scale" in said(drawing)
    too_large = crown_drawings(crown(9, across="300 in", radius="9000 in", tallest="900 in"), "c", Titles(""))
    assert isinstance(too_large, NotDrawn)


def test_a_crown_that_rests_on_a_doubtful_reading_says_so_itself():
    sheet = Sheet.from_text("pitch = recover 51.5 mm\ncrown 6 across pitch radius 30 in from 3 in\n")
    assert sheet._document().pictures[1].title.startswith("DOUBTFUL, see the sheet: ")


@given(
    st.integers(2, 60),
    st.fractions(Fraction(1, 16), 3, max_denominator=32),
    st.fractions(Fraction(5, 8), 20, max_denominator=16),
    st.one_of(st.none(), st.fractions(Fraction(1, 32), 4, max_denominator=64)),
    st.sampled_from(sorted(PAPERS)),
)
def test_no_figure_of_a_crown_is_overprinted_and_all_have_room_on_their_paper(n, pitch, times, above, paper):
    span = pitch * (n - 1)
    radius = span * times
    # What stands above the middle of the arc, in 64ths.
    drop = radius - Fraction(sqrt(float(radius**2 - span**2 / 4))).limit_denominator(64)
    tall = None if above is None else f"({(drop + above).numerator} in / {(drop + above).denominator})"
    text = f"crown {n} across ({pitch.numerator} in / {pitch.denominator}) radius ({radius.numerator} in / {radius.denominator})"
    sheet = Sheet.from_text(text if tall is None else f"{text} from {tall}")
    if sheet.faults:
        return  # the outermost fall to nothing
    made = sheet.worked[0].answer.result
    drawings = crown_drawings(made, "crown", Titles("A sheet of that name, which has more than one line " * 3), PAPERS[paper])  # fmt: skip
    if isinstance(drawings, NotDrawn):
        assert max(made.read).value <= 0
        return
    shown = [text for drawing in drawings for text in said(drawing)]
    assert sum(text in {str(k) for k in range(1, n + 1)} for text in shown) >= n
    for drawing in drawings:
        assert overprinted(drawing) == []
        assert drawing.width <= PAPERS[paper].across
        assert drawing.height <= PAPERS[paper].down
