"""The machine file: DXF read back by two readers and compared with the exact figures, and the list of coordinates."""

from __future__ import annotations

import io
import re
import sys
from fractions import Fraction
from itertools import pairwise
from math import cos, hypot, radians, sin, sqrt

import pytest

from fractions_shop import Sheet, ShopError
from fractions_shop.command.words.sheet import run
from fractions_shop.figures.drawing import text_width
from fractions_shop.show.machine_plan import machine_plan

ezdxf = pytest.importorskip("ezdxf", reason="the extra `machine` is not installed")

#: The machine's own step is coarser than this by far.
HALF_A_MICROMETRE = 0.0005
INCH = 25.4

FRAME = """\
## Label frames
part frame: 12 of brass, 2 1/32 in by 7/8 in by 1/16 in
hole in frame: clearance(6 BA) at 1/4 in by 1/3 in, 1 3/4 in by 1/3 in sunk 4 mm
hole in frame: tapping(M3) at 1 in by 1/4 in deep 1/32 in
slot in frame: 1/2 in by 1/8 in at 1 in by 5/8 in turned 20 deg
corner in frame: 1/8 in
part peg: 4 of oak, hex 1 in by 2 in
hole in peg: No 29 drill at 0 in by 0 in
part bar: 2 of oak, 1/4 in by 1 in by 12 in
pins = places 1/4 in by 1/3 in, 1 3/4 in by 1/3 in
ring = bolt_circle(5, 1 in, 10 deg)
"""


def close(measured: tuple[float, ...], exact: tuple[float, ...]) -> bool:
    return len(measured) == len(exact) and all(
        abs(a - b) <= HALF_A_MICROMETRE for a, b in zip(measured, exact, strict=True)
    )


def sheet(text: str = FRAME) -> Sheet:
    made = Sheet.from_text(text).run()
    assert not made.faults, made.faults
    return made


@pytest.fixture(scope="module")
def frame():
    return ezdxf.read(io.StringIO(sheet().to_dxf(part="frame")))


def on(drawing, layer: str):
    return [entity for entity in drawing.modelspace() if entity.dxf.layer == layer]


def test_the_file_is_in_millimetres_at_full_size(frame):
    assert (frame.header["$INSUNITS"], frame.header["$MEASUREMENT"]) == (4, 1)
    assert frame.audit().errors == []


def test_layers_say_what_is_to_be_done(frame):
    used = {entity.dxf.layer for entity in frame.modelspace()}
    assert used == {
        "OUTLINE", "DRILL_2.9", "SINK_4_ANGLE_90", "DRILL_2.5_DEEP_0.794", "SLOT_3.175", "CENTRE", "DATUM", "TEXT",
    }  # fmt: skip
    assert used <= {layer.dxf.name for layer in frame.layers}


def test_holes_stand_where_they_are_meant_within_half_a_micrometre(frame):
    exact = [(0.25 * INCH, INCH / 3), (1.75 * INCH, INCH / 3)]
    drilled = on(frame, "DRILL_2.9")
    assert all(close(tuple(c.dxf.center)[:2], place) for c, place in zip(drilled, exact, strict=True))
    assert {c.dxf.radius for c in drilled} == {1.45}
    (blind,) = on(frame, "DRILL_2.5_DEEP_0.794")
    assert close((*tuple(blind.dxf.center)[:2], blind.dxf.radius), (INCH, INCH / 4, 1.25))
    centres = [tuple(point.dxf.location)[:2] for point in on(frame, "CENTRE")]
    for measured, place in zip(centres, [*exact, (INCH, INCH / 4), (INCH, 0.625 * INCH)], strict=True):
        assert close(measured, place)


def test_the_outline_has_its_corners_and_their_radius(frame):
    (outline,) = on(frame, "OUTLINE")
    assert outline.closed
    wide, high, r = 65 / 32 * INCH, 7 / 8 * INCH, INCH / 8
    expected = [
        (r, 0),
        (wide - r, 0),
        (wide, r),
        (wide, high - r),
        (wide - r, high),
        (r, high),
        (0, high - r),
        (0, r),
    ]
    points = list(outline.get_points("xyb"))
    for (x, y, _), place in zip(points, expected, strict=True):
        assert close((x, y), place)
    # A bulge is tan(angle / 4): the arc between two points has the radius chord * (1 + b^2) / (4 b).
    arcs = [(points[n], points[(n + 1) % 8]) for n in range(8) if points[n][2]]
    assert len(arcs) == 4
    for (x1, y1, bulge), (x2, y2, _) in arcs:
        assert close((hypot(x2 - x1, y2 - y1) * (1 + bulge**2) / (4 * bulge),), (r,))


def test_a_turned_slot_has_half_circles_about_the_right_centres(frame):
    (slot,) = on(frame, "SLOT_3.175")
    points = list(slot.get_points("xyb"))
    assert [bulge for _, _, bulge in points] == [0, 1, 0, 1]
    half = (0.5 - 0.125) / 2 * INCH
    for (first, second), way in (((1, 2), 1), ((3, 0), -1)):
        middle = tuple((points[first][k] + points[second][k]) / 2 for k in (0, 1))
        assert close(
            middle, (INCH + way * half * cos(radians(20)), 0.625 * INCH + way * half * sin(radians(20)))
        )
        assert close(
            (hypot(points[first][0] - points[second][0], points[first][1] - points[second][1]),), (3.175,)
        )


def test_a_hexagon_lies_with_two_flats_above_and_below_its_centre():
    drawing = ezdxf.read(io.StringIO(sheet().to_dxf(part="peg")))
    (hexagon,) = on(drawing, "OUTLINE")
    points = [(x, y) for x, y in hexagon.get_points("xy")]
    assert close((max(y for _, y in points), min(y for _, y in points)), (12.7, -12.7))
    assert close((max(x for x, _ in points),), (25.4 / sqrt(3),))


def test_a_bolt_circle_stands_about_its_own_centre():
    drawing = ezdxf.read(io.StringIO(sheet().to_dxf(part="ring")))
    for k, point in enumerate(on(drawing, "CENTRE")):
        angle = radians(10 + 72 * k)
        assert close(tuple(point.dxf.location)[:2], (12.7 * cos(angle), 12.7 * sin(angle)))


def test_a_second_reader_reads_the_same_figures():
    reader = pytest.importorskip("dxf_parser", reason="the second reader is not installed")
    read = reader.parse(sheet().to_dxf(part="frame"))
    by_layer: dict[str, list[dict]] = {}
    for entity in read["entities"]:
        by_layer.setdefault(entity["layer"], []).append(entity)
    drilled = [(e["center"]["x"], e["center"]["y"], e["radius"]) for e in by_layer["DRILL_2.9"]]
    for measured, place in zip(drilled, [(6.35, INCH / 3, 1.45), (44.45, INCH / 3, 1.45)], strict=True):
        assert close(measured, place)
    (outline,) = by_layer["OUTLINE"]
    assert len(outline["vertices"]) == 8
    assert close((max(v["x"] for v in outline["vertices"]),), (51.59375,))


def test_parts_side_by_side_do_not_touch_and_say_where_their_datum_is():
    plan = machine_plan(sheet())
    drawing = ezdxf.read(io.StringIO(sheet().to_dxf()))
    texts = [text.dxf.text for text in on(drawing, "TEXT")]
    assert texts[0] == "frame: 12 of brass, 1/16 in (1.5875 mm) thick"
    datums = {
        text: texts[n + 1] for n, text in enumerate(texts[:-1]) if texts[n + 1].startswith("datum at X ")
    }
    assert len(datums) == len(plan.parts) - 1  # the first has its datum at nought
    from fractions_shop.show.dxf import placed

    row = placed(plan)
    extents = {}
    for text in on(drawing, "TEXT"):
        extents.setdefault(text.dxf.insert.x, []).append(
            text.dxf.insert.x + float(text_width(text.dxf.text, 3))
        )
    starts = sorted(extents)
    assert all(max(extents[start]) < after for start, after in pairwise(starts))
    for (part, left), (after, right) in pairwise(row):
        assert right.denominator == 1
        assert left + part.box[2] < right + after.box[0]


def test_the_file_is_the_same_each_time_and_leaves_the_library_as_it_was():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert sheet().to_dxf() == sheet().to_dxf()
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_coordinates_are_told_with_their_rounding_and_nothing_is_left_out_in_silence():
    text = sheet().to_coordinates()
    assert text.startswith("Label frames\n============\ncoordinates by fractions-shop\nmm at full size,")
    assert (
        "figures are rounded to 0.001 mm, so off by 0.0005 mm at most; some rest on a root or an angle"
        in text
    )
    assert "  A1   6.350   8.467  drill 2.9 (clearance 6 BA), through, sunk 4 at 90 deg\n" in text
    assert "  C   25.400  15.875  slot 12.7 by 3.175, turned 20 deg, through\n" in text
    assert "not here:\n  bar: its first two sizes are the section of a bar" in text
    exact = sheet("part frame: 1 of brass, 2 in by 1 in\nhole in frame: 3 mm at 1 in by 1/2 in")
    assert "figures are exact to 0.001 mm\n" in exact.to_coordinates()


def test_every_coordinate_is_the_exact_one_rounded():
    plan = machine_plan(sheet())
    rows = [row for part in plan.parts for row in part.rows]
    told = [
        (Fraction(found[1]), Fraction(found[2]))
        for found in re.finditer(
            r"^  \w+ +(-?[0-9]+\.[0-9]{3}) +(-?[0-9]+\.[0-9]{3})  ", sheet().to_coordinates(), re.M
        )
    ]
    assert len(told) == len(rows) == 4 + 1 + 2 + 5
    for (x, y), row in zip(told, rows, strict=True):
        assert max(abs(x - row.x), abs(y - row.y)) <= Fraction(1, 2000)


def test_doubts_and_what_is_not_worked_out_stand_in_the_file():
    doubtful = Sheet.from_text("wide reads 51.5 mm\npart frame: 1 of brass, wide by 1 in by 1/16 in")
    assert "DOUBTFUL, see the sheet" in doubtful.to_dxf()
    assert "DOUBTFUL, see the sheet" in doubtful.to_coordinates()
    faulty = Sheet.from_text(
        "part frame: 1 of brass, 2 in by 1 in by 1/16 in\nhole in frame: 3 mm at 3 in by 1/2 in\npart lid: of brass, 1 in"
    )
    assert "INCOMPLETE, line 2 not worked out" in faulty.to_dxf()
    assert "INCOMPLETE, line 2 not worked out" in faulty.to_coordinates()
    assert "lid: not worked out" in faulty.to_coordinates()


def test_limits_are_taken_at_a_size_within_them_and_that_is_said():
    made = sheet("part frame: 1 of brass, 2 in +2/+1 thou by 1 in by 1/16 in")
    (outline,) = on(ezdxf.read(io.StringIO(made.to_dxf())), "OUTLINE")
    assert 50.8254 <= max(x for x, _ in outline.get_points("xy")) <= 50.8508
    assert "a size with limits is taken at one that lies within them" in made.to_coordinates()


@pytest.mark.parametrize(("text", "part", "said"), [
    ("a = 2 in", None, "nothing in this sheet is for a machine"),
    (FRAME, "lid", "no part and no places here are called lid"),
    (FRAME, "bar", "bar: its first two sizes are the section of a bar"),
])  # fmt: skip
def test_where_there_is_nothing_for_a_machine_that_is_said(text, part, said):
    with pytest.raises(ShopError) as error:
        Sheet.from_text(text).to_dxf(part=part)
    assert said in str(error.value)


def test_without_the_library_it_is_said_what_to_install(monkeypatch):
    monkeypatch.delitem(sys.modules, "fractions_shop.show.dxf", raising=False)
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(ShopError) as error:
        sheet().to_dxf()
    assert str(error.value) == (
        "a machine file needs ezdxf, which is not installed: pip install 'fractions-shop[machine]'"
    )
    assert "drill 2.9" in sheet().to_coordinates()  # the list needs nothing


def test_the_command_writes_both_and_knows_its_own_files_again(tmp_path, capsys):
    (tmp_path / "a.shop").write_text(FRAME)
    for name in ("a.dxf", "a.xy"):
        out = str(tmp_path / name)
        assert run([str(tmp_path / "a.shop"), "--part", "Frame", "--out", out]) == 0
        assert run([str(tmp_path / "a.shop"), "--out", out]) == 0
    assert run([str(tmp_path / "a.shop"), "--to", "xy"]) == 0
    assert capsys.readouterr().out == (tmp_path / "a.xy").read_text()


def test_what_is_missing_hides_no_doubt_about_what_is_there():
    text = (
        "bore = 21/2 in / 40\npart plate: 1 of brass, 2 in by 1 in\n"
        "hole in plate: bore at 1 in by 1/2 in\nhole in plate: 1 in at 3 in by 1/2 in\n"
    )
    for made in (Sheet.from_text(text).to_dxf(), Sheet.from_text(text).to_coordinates()):
        assert "INCOMPLETE, line 4 not worked out; DOUBTFUL, see the sheet, line 3" in made


def test_a_figure_from_memory_is_told_wherever_it_is_cut():
    part = "part plate: 1 of brass, 2 in by 1 in\n"
    for cut in (
        "hole in plate: No 90 drill at 1 in by 1/2 in",
        "hole in plate: 1/8 in at (1/2 in + No 90 drill) by 1/2 in",
    ):
        sheet = Sheet.from_text(part + cut)
        assert not sheet.faults
        for made in (sheet.to_dxf(), sheet.to_coordinates()):
            assert "from memory, see the sheet" in made
    places = Sheet.from_text("pins = places No 90 drill, 1 in").to_coordinates()
    assert "from memory, see the sheet" in places
    assert "from memory" not in Sheet.from_text(part).to_coordinates()


def test_sizes_with_limits_stand_with_them_in_the_list_and_in_the_file():
    sheet = Sheet.from_text(
        "part strip: 2 of oak, 3 in ± 1/64 in by 3/4 in by 1/4 in +0/-5 thou\n"
        "hole in strip: 1/8 in +2/-0 thou at 1 in by 3/8 in\n"
        "slot in strip: 1/2 in by 1/8 in +3/-0 thou at 2 in by 3/8 in\n"
        "part plain: 1 of oak, 3 in by 1 in by 1/4 in\n"
    )
    # The ends are those of the limits, rounded inward: 2 63/64 in is 75.803125 mm, 3 1/64 in 76.596875 mm.
    in_mm = ("6.35 mm) (6.223 to 6.35 mm) thick", "outline 76.2 (75.81 to 76.59) by 19.05", "3.175 (3.175 to 3.225)", "3.175 (3.175 to 3.251)")  # fmt: skip
    for made in (sheet.to_coordinates(), sheet.to_dxf()):
        for said in in_mm:
            assert said in made
    assert "(" not in machine_plan(sheet, "plain").parts[0].outline
    assert not machine_plan(sheet, "plain").parts[0].limited


@pytest.mark.parametrize(("cut", "one_face"), [("deep 1/8 in", True), ("sunk 1/4 in", True), ("", False)])
def test_what_is_deep_or_sunk_says_from_which_face_at_every_exit(cut, one_face):
    sheet = Sheet.from_text(
        f"part lid: 1 of oak, 3 in by 1 in by 1/2 in\nhole in lid: 1/8 in at 1 in by 1/2 in {cut}\n"
    )
    assert not sheet.faults
    for made in (sheet.to_coordinates(), sheet.to_dxf(), sheet.to_svg(), sheet.to_html()):
        assert ("what is deep or sunk is cut from the face" in made) == one_face
