"""Slots with square corners (openings, mortises): the walls they leave, and every exit that tells them."""

from __future__ import annotations

import io
import json
from fractions import Fraction

import pytest

from fractions_shop import Angle, face, slot, walls
from fractions_shop.figures.drawing import Stroke
from fractions_shop.layout.walls import running_together
from fractions_shop.show.sheet import Sheet

FRAME = """\
part frame: 3 of brass, 2 in by 7/8 in by 1/16 in
slot in frame: 1 1/4 in by 1/2 in at 1 in by 7/16 in square
hole in frame: 1/8 in at 1/8 in by 7/16 in
"""


def test_a_square_corner_reaches_further_than_a_round_end():
    made = face("2 in", "1 in", corner="1/4 in")
    at = ("3/8 in", "1/2 in")
    (square,) = walls(made, [slot("1/2 in", "3/4 in", at, square=True)])
    (long,) = walls(made, [slot("3/4 in", "1/2 in", at, turned=Angle(Fraction(90)))])
    # Its corner is 1/8 in from both edges, within the 1/4 in radius: r - sqrt(2) (r - 1/8 in) is left.
    assert float(square.left.inch) == pytest.approx(0.25 - 2**0.5 * 0.125, abs=1e-12)
    assert long.left.inch == Fraction(1, 8)


def test_turned_by_a_right_angle_it_is_the_same_as_one_with_its_sizes_swapped():
    one = slot("1 in", "1/2 in", ("2 in", "2 in"), square=True, turned=Angle(Fraction(90)))
    other = slot("1/2 in", "1 in", ("2 in", "2 in"), square=True)
    assert sorted(one.outlines[0].corners) == sorted(other.outlines[0].corners)
    assert not one.outlines[0].approximate


def test_what_lies_within_a_square_opening_runs_into_it():
    opening = slot("2 in", "1 in", ("2 in", "2 in"), square=True)
    inside = slot("1/4 in", "1/8 in", ("2 1/2 in", "2 in"), square=True)
    (both,) = running_together([opening, inside])
    # Its lower edge is 7/16 in above that of the opening, and it is 1/8 in high itself.
    assert both.left.inch == -Fraction(9, 16)
    beside = slot("2 in", "1 in", ("3 in", "2 1/2 in"), square=True)
    (overlap,) = running_together([opening, beside])
    assert overlap.left.inch == -Fraction(1, 2)
    for touching in (("4 in", "2 in"), ("2 in", "3 in"), ("4 in", "3 in")):
        assert running_together([opening, slot("2 in", "1 in", touching, square=True)]) == ()


def test_every_exit_says_that_the_corners_are_square():
    sheet = Sheet.from_text(FRAME)
    assert not sheet.faults
    assert "1 1/4 in (31.75 mm) by 1/2 in (12.7 mm), square corners, through" in sheet.to_text(200)
    for written in (sheet.to_markdown(), sheet.to_html(), sheet.to_coordinates(), sheet.to_svg()):
        assert "square corners" in written
    assert "square slot, length" in sheet.to_csv()
    (cut, _) = json.loads(sheet.to_json())["features"]
    assert cut["square"] is True
    pypdf = pytest.importorskip("pypdf")
    raw = pypdf.PdfReader(io.BytesIO(sheet.to_pdf()))
    assert "square corners" in "".join(page.extract_text() for page in raw.pages)


def test_it_is_drawn_and_cut_with_its_corners_where_they_are():
    ezdxf = pytest.importorskip("ezdxf")
    sheet = Sheet.from_text(FRAME)
    file = ezdxf.read(io.StringIO(sheet.to_dxf(part="frame")))
    (made,) = [e for e in file.modelspace() if e.dxf.layer == "SLOT_12.7_SQUARE"]
    inches = sorted((x / 25.4, y / 25.4) for x, y, *_, bulge in made.get_points() if bulge == 0)
    expected = sorted((x, y) for x in (0.375, 1.625) for y in (0.1875, 0.6875))
    assert [pytest.approx(point, abs=1e-6) for point in expected] == inches
    drawing = sheet._document().pictures[0]
    sides = [s for s in drawing.shapes if isinstance(s, Stroke) and s.kind == "outline"]
    wide = [s for s in sides if s.y1 == s.y2 and abs(s.x2 - s.x1) == Fraction(3175, 100)]
    tall = [s for s in sides if s.x1 == s.x2 and abs(s.y2 - s.y1) == Fraction(127, 10)]
    assert (len(wide), len(tall)) == (2, 2)


def test_no_cutter_is_listed_for_it():
    assert [tool.kind for tool in Sheet.from_text(FRAME).tools] == ["drill"]


def test_the_change_from_round_to_square_is_told():
    changes = Sheet.from_text(FRAME).cut_changes(Sheet.from_text(FRAME.replace(" square", "")))
    assert [(change.old.cut.square, change.new.cut.square) for change in changes] == [(True, False)]


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("slot in frame: 1 in by 1/2 in at 1 in by 7/16 in square 2", "nothing stands behind square"),
        ("slot in frame: 1 in by 1/2 in at 1 in by 7/16 in square square", "square is given here twice"),
        ("hole in frame: 1/8 in at 1/4 in by 7/16 in square", "a hole is not square"),
        ("slot in frame: 2 in by 1/2 in at 1 in by 7/16 in turned 30 deg square", "past the edge"),
    ],
)
def test_what_is_not_so_is_refused_with_its_place(line, message):
    sheet = Sheet.from_text(f"part frame: 3 of brass, 2 in by 7/8 in by 1/16 in\n{line}")
    (fault,) = sheet.faults
    assert message in str(fault)
