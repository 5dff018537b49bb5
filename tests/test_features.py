"""Holes, slots, corner radii and walls of a part: read, worked out, refused, live, and at every exit."""

from __future__ import annotations

import csv
import io
import re
from fractions import Fraction

import pytest
from test_living import entered, living, rows, told

from fractions_shop import Angle, Quantity, read, read_limits
from fractions_shop.errors import InputError, ShopError
from fractions_shop.layout.features import Hole, Slot, face, hole, slot
from fractions_shop.layout.places import places
from fractions_shop.layout.walls import walls
from fractions_shop.sheet.session import Session
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.limits import Limits

FRAME = """\
pins = places 1/4 in by 1/4 in, 1 3/4 in by 1/4 in
screw_hole = tapping(6 BA)
hole in label frame: 3 mm at pins deep 1/32 in
hole in label frame: screw_hole at 3 across by 1/2 in from 1/2 in, 5/8 in
hole in Label  Frame: No 43 drill at 1/4 in by 5/8 in sunk 5/32 in, 82 deg
slot in label frame: 1/2 in by 1/8 in at 1 in by 3/8 in
corner in label frame: 1/8 in
wall in label frame: 1/64 in
part label frame: 3 of brass, 2 in by 7/8 in by 1/16 in
part flange: 1 of brass, round 1 1/2 in by 1/4 in
hole in flange: 1/8 in at bolt_circle(6, 1 in)
"""


@pytest.fixture(scope="module")
def frame() -> Sheet:
    sheet = Sheet.from_text(FRAME)
    assert not sheet.faults, sheet.faults
    return sheet


def inches(places):
    return [tuple(str(size.inch) for size in place) for place in places]


def fault_of(*lines: str) -> InputError:
    sheet = Sheet.from_text("\n".join(lines))
    assert len(sheet.faults) == 1, sheet.faults
    return sheet.faults[0]


PLATE = "part plate: 1 of brass, 2 in by 1 in by 1/8 in"


# What is read


def test_features_may_stand_in_any_order_before_and_behind_their_part(frame):
    part = frame.cut_parts["label frame"]
    assert [(cut.letter, cut.line) for cut in part.cuts] == [("A", 3), ("B", 4), ("C", 5), ("D", 6)]
    assert part.corner[0] == 7
    assert part.wall[0] == 8
    assert str(part.face.corner.inch) == "1/8"


def test_places_are_counted_from_the_lower_left_corner_or_from_where_is_said(frame):
    cuts = frame.cut_parts["label frame"].cuts
    assert inches(cuts[0].cut.at) == [("1/4", "1/4"), ("7/4", "1/4")]
    assert inches(cuts[1].cut.at) == [("1/2", "5/8"), ("1", "5/8"), ("3/2", "5/8")]


def test_the_end_of_round_stock_is_counted_from_its_centre(frame):
    (bolts,) = frame.cut_parts["flange"].cuts
    assert bolts.feature.from_centre
    assert inches(bolts.cut.at)[0] == ("1/2", "0")
    assert bolts.cut.at[1][1].approximate


def test_a_bolt_circle_counts_from_its_centre_which_from_says():
    sheet = Sheet.from_text(f"{PLATE}\nhole in plate: 1/8 in at bolt_circle(4, 1/2 in) from 1 in, 1/2 in")
    (cut,) = sheet.cut_parts["plate"].cuts
    assert inches(cut.cut.at) == [("5/4", "1/2"), ("1", "3/4"), ("3/4", "1/2"), ("1", "1/4")]


def test_without_deep_a_hole_goes_through_and_sunk_has_its_angle(frame):
    pins, screws, sunk, slot = (cut.cut for cut in frame.cut_parts["label frame"].cuts)
    assert pins.deep == Quantity.inches(Fraction(1, 32))
    assert screws.deep is None
    assert isinstance(sunk, Hole)
    assert (sunk.sunk, sunk.angle.degrees) == (Quantity.inches(Fraction(5, 32)), 82)
    # (D - d) / (2 tan 41 deg), worked by hand: (3.96875 - 2.2606) / (2 * 0.869287) = 0.98250 mm.
    assert abs(sunk.sink_depth.mm - Fraction("0.98250")) < Fraction(1, 100_000)
    assert sunk.sink_depth.approximate
    assert isinstance(slot, Slot)


def test_a_countersink_reaches_half_the_difference_of_the_diameters_at_90_degrees():
    sheet = Sheet.from_text(f"{PLATE}\nhole in plate: 3 mm at 1 in by 1/2 in sunk 6 mm")
    (cut,) = sheet.cut_parts["plate"].cuts
    assert cut.cut.sink_depth.mm == Fraction(3, 2)
    assert [note.text for note in cut.feature.notes] == [
        "the countersink is given no angle, so 90 deg is taken; for another write sunk SIZE, ANGLE"
    ]


def test_every_name_that_a_hole_is_drilled_by_is_kept(frame):
    cuts = frame.cut_parts["label frame"].cuts
    assert [cut.feature.called for cut in cuts] == [("",), ("",), ("No 43 drill",), ("", "")]
    assert (cuts[1].feature.purpose, cuts[1].feature.thread) == ("tapping", "6 BA")


def test_limits_of_a_hole_are_kept():
    sheet = Sheet.from_text(f"{PLATE}\nhole in plate: 1/8 in +2/-0 thou at 1 in by 1/2 in")
    (cut,) = sheet.cut_parts["plate"].cuts
    assert isinstance(cut.cut.diameter, Limits)
    assert "1/8 in, within 0.125 to 0.127 in" in sheet.to_text()


# What is refused: whole messages

REFUSED = {
    "hole in plate": ("a hole line needs a colon after the part's name", None),
    "hole in plate: 1/8 in": ("a hole line says where behind the word at", None),
    "hole in plate: 1/8 in at": ("the places are missing here", None),
    "slot in plate: 1/2 in at 1 in by 1/2 in": ("a slot is told by its length over all and its width", None),
    "slot in plate: 1/8 in by 1/2 in at 1 in by 1/2 in": (
        "a slot is longer than wide: its length over all stands first, then its width", ""),
    "hole in lid: 1/8 in at 1 in by 1/2 in": ("no line makes the part lid", "the parts are plate"),
    "hole in plate: 6 BA at 1 in by 1/2 in": (
        "6 BA is a thread, and its hole is tapped or clears it", "write tapping(6 BA), clearance(6 BA) or major(6 BA)"),
    "hole in plate: 1/8 in at 1/2 in, 1 in": (
        "these places are on one axis: say where on the face they are counted from", None),
    "hole in plate: 1/8 in at 2 in by 1/2 in": (
        "at 2 in (50.8 mm) across and 1/2 in (12.7 mm) up, reaches 1/16 in (1.5875 mm) past the edge of the face, "
        "2 in (50.8 mm) by 1 in (25.4 mm)", "places are counted from the lower left corner of its face"),
    "hole in plate: 1/8 in at bolt_circle(4, 1/2 in)": (
        "place 3 of 4, -1/4 in (-6.35 mm) across and 0 in (0 mm) up, reaches 5/16 in (7.9375 mm) past the edge of the face, "
        "2 in (50.8 mm) by 1 in (25.4 mm)",
        "places are counted from the lower left corner of its face; those of a bolt circle from its own: "
        "say where that stands, such as from 1 in, 1/2 in"),
    "hole in plate: 1/8 in at 1 in by 1/2 in deep 1/4 in": (
        "1/4 in (6.35 mm) deep goes through 1/8 in (3.175 mm): leave deep out, and it is cut through", ""),
    "hole in plate: 1/8 in at 1 in by 1/2 in sunk 1/8 in": (
        "a countersink of 1/8 in (3.175 mm) is no wider than the hole, 1/8 in (3.175 mm)", ""),
    "hole in plate: 1/8 in at 1 in by 1/2 in sunk 1/2 in": (
        "the countersink reaches 3/16 in (4.7625 mm) down, and the part is 1/8 in (3.175 mm) thick", ""),
    "hole in plate: 1/8 in at 1 in by 1/2 in turned 10 deg": ("a hole is not turned", None),
    "corner in plate: 3/4 in": (
        "a radius of 3/4 in (19.05 mm) is 1/4 in (6.35 mm) over half of the lesser side, 1/2 in (12.7 mm)", ""),
    "hole in plate: 1/2 at 1 in by 1/2 in": ("this must be a length", "write hole in plate: 1/2 in at 1 in by 1/2 in"),
    "wall in plate: 1/8 in ± 1/64 in": ("the least wall is one size, without limits", ""),
}  # fmt: skip


@pytest.mark.parametrize("line", REFUSED)
def test_what_cannot_be_cut_is_refused_and_why(line):
    message, advice = REFUSED[line]
    fault = fault_of(PLATE, line)
    assert (fault.message, fault.line) == (message, 2)
    if advice is not None:
        assert fault.advice == advice


@pytest.mark.parametrize("square", [False, True])
@pytest.mark.parametrize("x", ["1 in", "3/4 in"])
def test_a_hole_and_a_slot_about_one_centre_have_no_wall_between(x, square):
    cuts = [hole("1/8 in", (x, "1/2 in")), slot("1/2 in", "1/4 in", (x, "1/2 in"), square=square)]
    assert not walls(face("20 in", "10 in"), cuts, wall="1/64 in")
    beside = slot("1/2 in", "1/4 in", (x, "17/32 in"), square=square)
    assert len(walls(face("20 in", "10 in"), [cuts[0], beside], wall="1/64 in")) == 1


@pytest.mark.parametrize(
    ("line", "message", "marked"),
    [
        ("1/8 in at 1 in, 1/2 in from 1 in, 1/2 in, 1/4 in", "only 2 stand here", ", 1/4 in"),
        ("1/8 in at 1 in by 1/2 in from 1 in", "what places are counted from has two distances, across and up", " 1 in"),
        ("1/8 in at 1 in", "these places are on one axis: say where on the face they are counted from", "1 in"),
        ("1/8 in at 3", "this has no unit, where a length is needed", "3"),
        ("1/8 in at elsewhere", "nothing is named elsewhere yet", "elsewhere"),
        ("0 in at 1 in by 1/2 in", "this must be above zero", "0 in"),
        ("1/8 in at 1 in by 1/2 in deep 0 in", "this must be above zero", "0 in"),
        ("1/8 in at 1 in by 1/2 in deep 3", "this must be a length", "3"),
        ("1/8 in at 1 in by 1/2 in sunk 0 in", "this must be above zero", "0 in"),
        ("1/8 in at 1 in by 1/2 in sunk 1/4 in, 3 in", "this must be an angle", "3 in"),
        ("1/8 in at 1 in by 1/2 in from 3, 1 in", "this must be a length", "3"),
        ("1/8 in by 1/16 in at 1 in by 1/2 in", "these are 2 things, 1/8 in and 1/16 in, where one size is needed", "1/8 in by 1/16 in"),
    ],
)  # fmt: skip
def test_the_place_of_a_fault_is_where_it_stands(line, message, marked):
    text = f"hole in plate: {line}"
    fault = fault_of(PLATE, text)
    assert (fault.message, text[fault.start : fault.end]) == (message, marked)


def test_a_part_without_a_face_and_a_word_for_many_are_refused_in_their_place():
    text = "hole in peg: 1/8 in at 1 in by 1 in"
    fault = fault_of("part peg: 2 of oak, 3 in", text)
    assert fault.message == "peg has no face to cut: its line says fewer than two sizes"
    assert text[fault.start : fault.end] == "peg"
    fault = fault_of(PLATE, "holes in plate: 1/8 in at 1 in by 1/2 in")
    assert (fault.message, fault.start, fault.end) == ("a line that cuts begins with hole", 0, 5)


def test_of_limits_a_place_and_a_depth_take_the_nominal_and_say_so():
    lines = [
        PLATE,
        "post = 1/2 in ± 1/64 in",
        "hole in plate: 1/8 in at 1/4 in by 1/4 in from post, 1/4 in deep 1/16 in",
    ]
    feature = Sheet.from_text("\n".join(lines)).worked[-1].feature
    assert [place[0].inch for place in feature.cut.at] == [Fraction(3, 4)]
    assert "the nominal size is used; its limits are left aside" in [note.text for note in feature.notes]


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: hole("1/8 in", ("1 in", "1 in"), angle=Angle(Fraction(90))), "stands with its diameter"),
        (lambda: hole("1/8 in", ("1 in", "1 in"), sunk="1/4 in", angle=Angle(Fraction(180))), "below 180 degrees"),
        (lambda: hole("1/8 in", ("1 in", "1 in"), sunk="1/4 in", angle=Angle(Fraction(0))), "over 0"),
        (lambda: hole(read_limits("1/8 in ± 1/8 in"), ("1 in", "1 in")), "the diameter of a hole must be a length above zero"),
        (lambda: hole("1/8 in", ("1 in", "1 in"), start=("1 in",)), "give a pair, across and up"),
        (lambda: hole("1/8 in", ("1 in", "1 in"), start="1 in"), "give a pair, across and up"),
        (lambda: hole("1/8 in", places("1 in", "2 in")), "these places are on one axis"),
        (lambda: face("1 in", shape="oval"), "'oval' is no shape of a face: leave it out, or say round, hex, tube"),
        (lambda: face("1 in", shape="tube"), "a tube has a bore, and nothing else has"),
        (lambda: face("1 in", bore="1/2 in"), "a tube has a bore, and nothing else has"),
    ],
)  # fmt: skip
def test_the_library_refuses_what_cannot_be_cut(make, said):
    with pytest.raises(ShopError, match=re.escape(said)):
        make()


def test_the_walls_of_a_tube_are_to_its_edge_and_to_its_bore():
    """Along a radius: half of 2 in less 3/4 and the hole's half, and 5/8 less the hole's half and half the bore, 1 in."""
    tube = face("2 in", shape="tube", bore="1 in")
    for place, left, edge in (
        ("3/4 in", "3/16", "edge"),
        ("5/8 in", "1/16", "bore"),
        ("1/4 in", "-5/16", "bore"),
    ):
        (wall,) = walls(tube, [hole("1/8 in", ("0 in", place))])
        assert (str(wall.left.inch), wall.edge) == (left, edge)
    # The middle of a slot across is nearest to the bore: along a radius, and so exact.
    (wall,) = walls(tube, [slot("1/2 in", "1/8 in", ("0 in", "5/8 in"))])
    assert (str(wall.left.inch), wall.edge, wall.left.approximate) == ("1/16", "bore", False)


def test_a_hole_within_a_slot_runs_into_it():
    made = face("4 in", "4 in")
    inside, around = (
        hole("1/8 in", ("2 in", "2 in")),
        slot("1 in", "1/2 in", ("1 7/8 in", "2 in"), square=True),
    )
    (wall,) = walls(made, [inside, around], wall="1/64 in")
    assert wall.left.value < 0
    assert wall.other == (0, 0)


def test_every_example_in_advice_is_itself_a_line_that_can_be_cut():
    from fractions_shop.sheet.feature_lines import EXAMPLES

    part = "part label frame: 1 of brass, 2 in by 7/8 in by 1/16 in"
    sheet = Sheet.from_text("\n".join([part, *EXAMPLES.values()]))
    assert not sheet.faults


def test_closer_than_the_stated_wall_is_refused_with_how_much_is_missing():
    near = "hole in plate: 1/8 in at 1/8 in by 1/2 in, 1 in by 1/2 in"
    assert not Sheet.from_text(f"{PLATE}\nwall in plate: 1/16 in\n{near}").faults
    fault = fault_of(PLATE, "wall in plate: 3/32 in", near)
    assert fault.message == (
        "place 1 of 2, 1/8 in (3.175 mm) across and 1/2 in (12.7 mm) up, leaves 1/16 in (1.5875 mm) to the edge: "
        "1/32 in (0.7938 mm) less than the wall of line 2"
    ).replace("(0.7938 mm)", "(about 0.7938 mm)")
    beside = "hole in plate: 1/8 in at 1 3/16 in by 1/2 in"
    fault = fault_of(PLATE, "wall in plate: 1/8 in", "hole in plate: 1/8 in at 1 in by 1/2 in", beside)
    assert fault.line == 4
    assert fault.message == (
        "at 1 3/16 in (about 30.1625 mm) across and 1/2 in (12.7 mm) up, leaves 1/16 in (1.5875 mm) to the hole of line 3 "
        "at 1 in (25.4 mm) across and 1/2 in (12.7 mm) up: 1/16 in (1.5875 mm) less than the wall of line 2"
    ).replace("(about 30.1625 mm)", "(30.1625 mm)")


def test_a_hole_that_is_not_cut_leaves_no_wall_to_another():
    past = "hole in plate: 1/8 in at 0 in by 1/2 in"
    beside = "hole in plate: 1/8 in at 3/16 in by 1/2 in"
    assert fault_of(PLATE, "wall in plate: 1/8 in", past, beside).line == 3


def test_a_rounded_corner_cuts_into_the_wall_of_a_hole_there():
    # From the corner's centre 1/4 in, 1/4 in the hole at 1/8 in, 1/8 in is sqrt(2)/8 in away:
    # 1/4 - 0.17678 - 1/16 = 0.01072 in is left of it, where a sharp corner would leave 1/16 in.
    near = "hole in plate: 1/8 in at 1/8 in by 1/8 in"
    assert not Sheet.from_text(f"{PLATE}\nwall in plate: 1/32 in\n{near}").faults
    fault = fault_of(PLATE, "wall in plate: 1/32 in", near, "corner in plate: 1/4 in")
    assert "leaves about 0.0107 in" in fault.message


def test_holes_that_run_together_without_a_stated_wall_are_said_to():
    sheet = Sheet.from_text(
        f"{PLATE}\nhole in plate: 1/4 in at 1 in by 1/2 in\nslot in plate: 1 in by 1/8 in at 1 1/4 in by 1/2 in"
    )
    assert not sheet.faults
    assert [note.text for note in sheet.worked[2].notes] == [
        "at 1 1/4 in (31.75 mm) across and 1/2 in (12.7 mm) up, runs into that of line 2"
    ]


def test_a_step_has_no_wall_between_its_two_holes():
    step = "hole in plate: 1/4 in at 1 in by 1/2 in deep 1/16 in\nhole in plate: 1/8 in at 1 in by 1/2 in"
    assert not Sheet.from_text(f"{PLATE}\nwall in plate: 1/8 in\n{step}").faults


def test_the_worst_of_limits_is_held_against_edge_and_wall():
    part = "part plate: 1 of brass, 2 in ± 1/32 in by 1 in by 1/8 in"
    line = "hole in plate: 1/8 in +1/-0 thou at 1 7/8 in by 1/2 in"
    assert not Sheet.from_text(f"{part}\n{line}").faults
    # At its worst the face ends at 1 31/32 in and the hole at 1 7/8 in + 0.063 in.
    assert "leaves" in fault_of(part, "wall in plate: 1/32 in", line).message


def test_a_part_has_one_corner_radius_and_one_wall():
    fault = fault_of(PLATE, "corner in plate: 1/8 in", "corner in Plate: 1/4 in")
    assert fault.message == "corner in Plate is already on line 2"


def test_a_name_that_is_hole_slot_or_corner_is_that_name():
    sheet = Sheet.from_text("hole = 1/4 in\nslot = hole * 2\nhole as mm\ncorner = slot\nhole / 2")
    assert not sheet.faults
    assert sheet.worked[2].answer is not None


# Live

LIVE = (
    "edge = 1/4 in",
    "pins = places edge by edge, 1 in by edge",
    "part plate: 1 of brass, 2 in by 1 in by 1/8 in",
    "hole in plate: 1/8 in at pins",
)


def test_a_changed_place_moves_the_hole():
    sheet = living(*LIVE)
    edit = entered(sheet, "edge = 3/8 in")
    assert told(edit.moved)["features"] == [4]
    assert inches(sheet.state.sheet.cut_parts["plate"].cuts[0].cut.at) == [("3/8", "3/8"), ("1", "3/8")]
    sheet.undo()
    assert inches(sheet.state.sheet.cut_parts["plate"].cuts[0].cut.at) == [("1/4", "1/4"), ("1", "1/4")]


def test_a_part_dropped_stops_what_is_cut_in_it_until_it_is_there_again():
    sheet = living(*LIVE)
    assert told(sheet.drop("plate").moved) == {"stopped": [3]}
    assert told(entered(sheet, "part plate: 2 of steel, 3 in by 1 in").moved) == {"mended": [3]}


def test_a_part_made_smaller_puts_what_no_longer_fits_at_fault():
    sheet = living(*LIVE)
    edit = entered(sheet, "part plate: 1 of brass, 1 in by 1 in by 1/8 in")
    assert told(edit.moved) == {"stopped": [4]}
    assert sheet.state.sheet.faults[0].message.startswith("place 2 of 2, 1 in")


def test_a_hole_with_no_room_is_not_taken_and_the_place_is_in_what_was_typed():
    sheet = living(*LIVE)
    with pytest.raises(InputError) as caught:
        sheet.enter("hole in plate: 1/8 in at 2 in by 1/2 in  # too far")
    assert caught.value.text[caught.value.start : caught.value.end] == "2 in by 1/2 in"
    assert len(rows(sheet)) == 4


def test_a_corner_set_again_gives_way_to_the_new_one():
    sheet = living(*LIVE, "corner in plate: 1/8 in")
    assert entered(sheet, "corner in plate: 1/16 in").kind == "replaced"
    assert rows(sheet)[-1] == "corner in plate: 1/16 in"


def test_a_renamed_size_is_renamed_in_what_is_cut():
    sheet = living(*LIVE)
    sheet.rename("pins", "studs")
    assert rows(sheet)[3] == "hole in plate: 1/8 in at studs"


def test_a_drill_that_becomes_a_plain_size_of_the_same_diameter_loses_its_name():
    sheet = living("d = No 29 drill", "e = d", "part rod: 1 of steel, round e by 2 in", *LIVE[2:3],
                   "hole in plate: e at 1 in by 1/2 in")  # fmt: skip
    assert sheet.state.sheet.cut_parts["plate"].cuts[0].feature.called == ("No 29 drill",)
    entered(sheet, "d = 0.136 in")
    assert sheet.state.sheet.cut_parts["plate"].cuts[0].feature.called == ("",)
    assert sheet.state.sheet.parts["rod"].bought == ()


def test_a_sheet_with_features_opened_and_saved_is_the_same_to_the_byte():
    data = FRAME.replace("\n", "\r\n").encode()
    assert living(start=data).state.rows.data() == data


# Doubts


def test_a_hole_rests_on_the_doubt_of_its_size_and_of_its_part():
    sheet = Sheet.from_text(
        f"d = long / 16\n{PLATE}\nhole in plate: d at 1 in by 1/2 in\nlong = recover 51.5 mm\n"
        "part lid: 1 of brass, long by 1 in\nhole in lid: 1/8 in at 1/2 in by 1/2 in"
    )
    assert {3, 6} <= sheet.doubts.resting
    assert "plate *" in sheet.to_text()


# Exits


def test_csv_has_a_row_for_each_size_and_coordinate(frame):
    table = list(csv.DictReader(io.StringIO(frame.to_csv("features"))))
    told_of = [(row["name"], row["which"], row["exact"]) for row in table if row["line"] == "5"]
    assert told_of == [
        ("label frame", "C, hole, diameter, No 43 drill", "89/1000"),
        ("label frame", "C, hole, sunk", "5/32"),
        ("label frame", "C, hole, angle of the countersink", "82"),
        ("label frame", "C, across", "1/4"),
        ("label frame", "C, up", "5/8"),
    ]


def test_json_tells_each_feature_once_with_exact_places(frame):
    made = frame.to_data()
    assert [each["feature"] for each in made["features"]] == [
        "hole",
        "hole",
        "hole",
        "slot",
        "corner",
        "wall",
        "hole",
    ]
    assert made["features"][0]["points"][1] == {
        "x": {"inch": "7/4", "mm": "889/20", "approximate": False},
        "y": {"inch": "1/4", "mm": "127/20", "approximate": False},
    }
    assert made["features"][6]["datum"] == "centre"
    assert made["lines"][2]["feature"] == made["features"][0]


@pytest.mark.parametrize("form", ["to_text", "to_markdown", "to_html"])
def test_text_markdown_and_page_tell_every_cut(frame, form):
    text = getattr(frame, form)()
    for words in (
        "Holes, openings and corners",
        "No 43 drill",
        "tapping 6 BA",
        "82 deg",
        "corner radius 1/8 in",
    ):
        assert words in text


@pytest.mark.parametrize("cut", ["chamfer", "Bevels", "mortise", "counterbore", "step", "fillet"])
def test_a_cut_that_no_line_makes_is_refused_and_not_read_as_a_size(cut: str) -> None:
    sheet = Sheet.from_text(f"part plate: 1 of brass, 2 in by 1 in by 1/16 in\n{cut} in plate: 1/32 in\n")
    (fault,) = sheet.faults
    assert f"no line cuts a {cut.lower()}" in str(fault)
    with pytest.raises(InputError, match="no line cuts"):
        read(f"{cut} in plate: 1/32 in")


@pytest.mark.parametrize(
    "line", ["hole in plate: 1/8 in at centre", "slot in plate: 1 in by 1/8 in", "wall in plate: 1/8 in"]
)
def test_a_cut_where_no_sheet_is_is_refused_and_not_read_as_a_size(line: str) -> None:
    for ask in (read, Session().answer):
        with pytest.raises(InputError, match="belongs in a sheet"):
            ask(line)


def test_a_part_that_lacks_what_a_line_at_fault_cuts_says_so_wherever_it_is_told() -> None:
    lines = [PLATE, "hole in plate: 3 mm at 1/2 in by 1/2 in", "hole in Plate: 3 mm at 9 in by 1/2 in"]
    at_fault, whole = Sheet.from_text("\n".join(lines)), Sheet.from_text("\n".join(lines[:2]))
    said = "INCOMPLETE, line 3 not worked out"
    told = (
        at_fault.to_text(),
        at_fault.to_markdown(),
        at_fault.to_svg(),
        at_fault.to_dxf(),
        at_fault.to_coordinates(),
    )
    for made in (*told, at_fault.to_html()):
        assert said in made
    assert f"{said}, see the sheet: plate" in at_fault.to_svg()
    assert (
        next(row["remark"] for row in csv.DictReader(io.StringIO(at_fault.to_csv())) if row["kind"] == "part")
        == said
    )
    assert at_fault.to_data()["incomplete"] == [{"part": "plate", "lines": [3]}]
    assert "INCOMPLETE" not in whole.to_text() + whole.to_svg() + whole.to_csv()
    assert whole.to_data()["incomplete"] == []


def test_a_hole_that_just_reaches_an_edge_says_that_no_wall_is_left() -> None:
    text = f"{PLATE}\nhole in plate: 1/8 in at 1/16 in by 1/2 in\nhole in plate: 1/8 in at 5/64 in by 1/4 in"
    told = " ".join(Sheet.from_text(text).to_text().split())
    assert told.count("no wall is left there") == 1
    assert "just reaches the edge" in told
