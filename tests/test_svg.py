"""Drawings as SVG: measured as written, against exact marks."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring import SVG, joined, pieces, svg_lines

from fractions_shop import Quantity, Rule, crown, fit, mark, recover
from fractions_shop.figures.close_up import CloseUp
from fractions_shop.figures.drawing import Box, Drawing, Stroke, Words, hatching, text_width
from fractions_shop.figures.paper import A4
from fractions_shop.layout.scale import CLOSEST, steps, stretches, ticks
from fractions_shop.requests.meant_pictures import of_list, of_one
from fractions_shop.requests.pictures.close_up import close_up
from fractions_shop.requests.pictures.frame import CHECK_THE_BAR, MARGIN
from fractions_shop.requests.pictures.profile import profile
from fractions_shop.requests.pictures.strip import OVERLAP, mark_label, match_letter, strips
from fractions_shop.requests.pictures.zone_chart import zone_chart
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.svg import inline, standalone

#: What the issue of a strip allows: a hundredth of a millimetre.
ALLOWED = 0.01

LAYOUTS = [
    pytest.param("2 in", 5, "64ths", None, id="five in two inches"),
    pytest.param("14 5/8 in", 23, "32nds", None, id="over three pages"),
    pytest.param("90 mm", 7, "mm", None, id="metric"),
    pytest.param("13 7/16 in", 11, "100ths", "63/64 in", id="from a datum"),
    pytest.param("1 in", 3, "64ths", "-1/2 in", id="from before the datum"),
    pytest.param("3/8 in", 24, "64ths", None, id="close together"),
    pytest.param("1000 mm", 9, "half mm", None, id="a metre"),
    pytest.param("2 in", 1, "7ths", None, id="sevenths"),
]


# Measured


@pytest.mark.parametrize(("size", "count", "rule", "start"), LAYOUTS)
def test_marks_stand_where_they_should(size, count, rule, start):
    marks = mark(size, count, rule, start=start)
    lines = svg_lines(standalone(strips(marks, "strip"), "strip"))
    places = joined(pieces(lines), "mark")
    assert len(places) == count + 1
    for place, exact in zip(places, marks.exact, strict=True):
        assert abs((place - places[0]) - float(exact.mm - marks.exact[0].mm)) < ALLOWED


@pytest.mark.parametrize(("size", "count", "rule", "start"), LAYOUTS)
def test_the_drawn_rule_has_its_divisions_from_the_datum(size, count, rule, start):
    marks = mark(size, count, rule, start=start)
    strip = pieces(svg_lines(standalone(strips(marks, "strip"), "strip")))
    drawn, first = joined(strip, "tick"), joined(strip, "mark")[0] - float(marks.exact[0].mm)
    finest = float(steps(Rule(rule))[-1])
    low = min(0.0, float(marks.exact[0].mm))
    assert (
        len(drawn) == int(max(0.0, float(marks.exact[-1].mm)) / finest + 1e-9) - int(low / finest - 1e-9) + 1
    )
    for place in drawn:
        divisions = (place - first) / finest
        assert abs(divisions - round(divisions)) * finest < ALLOWED


def test_every_strip_has_a_bar_of_four_inches_and_a_hundred_millimetres():
    for drawing in strips(mark("14 5/8 in", 23), "strip"):
        lines = svg_lines(standalone([drawing], "strip"))
        ((bar, *_),) = pieces(lines)
        assert abs(abs(bar.x2 - bar.x1) - 4 * 25.4) < ALLOWED
        below = [
            line.x1
            for line in lines
            if line.upright and line.is_a("bar") and min(line.y1, line.y2) < bar.y1 - 1
        ]
        assert abs(max(below) - min(below) - 100) < ALLOWED
        assert CHECK_THE_BAR in {s.text for s in drawing.shapes if isinstance(s, Words)}
        assert drawing.true_size


def test_neighbouring_pieces_bear_the_same_letter_and_share_their_overlap():
    drawings = strips(mark("14 5/8 in", 23), "strip")
    letters = [
        [s.text for s in d.shapes if isinstance(s, Words) and len(s.text) == 1 and s.text.isalpha()]
        for d in drawings
    ]
    assert letters == [["A"], ["A", "B"], ["B"]]
    assert (match_letter(25), match_letter(26), match_letter(53)) == ("Z", "A1", "B2")


@given(
    st.fractions(Fraction(1, 2), 40, max_denominator=64),
    st.integers(1, 30),
    st.sampled_from(["64ths", "32nds", "10ths", "mm", "half mm", "7ths"]),
)
def test_every_mark_is_on_some_piece_and_every_piece_fits_the_paper(inches, count, rule):
    marks = mark(Quantity.of(inches, "in"), count, rule)
    drawings = strips(marks, "strip")
    assert all(d.width <= A4.across for d in drawings)
    places = joined(pieces(svg_lines(standalone(drawings, "strip"))), "mark")
    assert len(places) == count + 1


@given(
    st.fractions(Fraction(1, 2), 20, max_denominator=64),
    st.integers(1, 60),
    st.sampled_from(["64ths", "32nds", "10ths", "mm", "half mm"]),
)
def test_no_joint_runs_through_words(inches, count, rule):
    for drawing in strips(mark(Quantity.of(inches, "in"), count, rule), "strip"):
        joints = [s for s in drawing.shapes if isinstance(s, Stroke) and s.kind == "match"]
        inside = [s for s in drawing.shapes if isinstance(s, Words) and s.size < 3 and 5 < s.y < Fraction(36)]
        for words in inside:
            long = text_width(words.text, words.size)
            if words.turned:
                left, right = words.x - words.size, words.x
            else:
                left = words.x - {"start": 0, "middle": long / 2, "end": long}[words.anchor]
                right = left + long
            assert not any(left < joint.x1 < right for joint in joints), words


@pytest.mark.parametrize(
    ("size", "count", "rule", "labels"),
    [
        # 13 7/16 in / 11 = 1.221590... in, which 32nds read as 1 7/32 in.
        ("13 7/16 in", 11, "32nds", {"1: ~1.222 in", "reads 1 7/32 in", "11: 13 7/16 in"}),
        ("383 mm", 9, "mm", {"1: ~42.56 mm", "reads 43 mm", "9: 383 mm"}),
        ("2 in", 4, "64ths", {"1: 1/2 in", "4: 2 in"}),
        # On 32nds, 1/64 in is not read, yet it is a fraction: 5/64 in.
        ("25/64 in", 1, "32nds", {"1: 25/64 in"}),
    ],
)
def test_a_label_says_the_place_where_its_mark_stands(size, count, rule, labels):
    marks = mark(size, count, rule)
    said = {s.text for d in strips(marks, "strip") for s in d.shapes if isinstance(s, Words)}
    assert labels <= said
    for n, (exact, read) in enumerate(zip(marks.exact, marks.read, strict=True)):
        first, *rest = mark_label(n, marks)
        assert bool(rest) == (exact != read)
        number, unit = first.split(": ")[1].lstrip("~").rsplit(" ", 1)
        place = sum(map(Fraction, number.split())) * (Fraction("25.4") if unit == "in" else 1)
        # To half of 0.001 in or of 0.01 mm.
        assert abs(place - exact.mm) <= (Fraction("0.0127") if unit == "in" else Fraction("0.005"))


@given(st.fractions(2, 40, max_denominator=64), st.integers(1, 40))
def test_every_mark_is_labelled_once_or_said_to_be_left_out(inches, count):
    marks = mark(Quantity.of(inches, "in"), count)
    drawings = strips(marks, "strip")
    said = [
        s.text.split(":")[0]
        for d in drawings
        for s in d.shapes
        if isinstance(s, Words) and re.match(r"\d+: ", s.text)
    ]
    assert len(said) == len(set(said))
    left_out = {f"{count + 1 - len(said)} of {count + 1} labels"} if len(said) <= count else set()
    notes = {s.text for d in drawings for s in d.shapes if isinstance(s, Words) if "no room here" in s.text}
    assert {n for n in left_out if not any(n in note for note in notes)} == set()
    # Labels that stand on end need 2.6 mm each, and keep off the ends and the joints.
    assert not left_out or marks.total.mm / count < 6


@given(st.fractions(-500, 500), st.fractions(Fraction(1, 10), 3000))
def test_stretches_cover_everything_and_meet_at_one_place(start, length):
    widest = A4.across - 2 * MARGIN
    found = stretches(start, start + length, widest, OVERLAP)
    assert (found[0].start, found[-1].end) == (start, start + length)
    for one, two in pairwise(found):
        assert one.meets_after == two.meets_before
        assert one.end - two.start == OVERLAP
    assert all(s.end - s.start <= widest for s in found)


@pytest.mark.parametrize(
    ("rule", "numbers"),
    [("64ths", [0, 1, 2]), ("half mm", [0, 10, 20, 30, 40, 50]), ("100ths", [0, 1, 2])],
)
def test_whole_inches_and_centimetres_bear_their_number(rule, numbers):
    assert [t.number for t in ticks(Rule(rule), Fraction(0), Fraction(51)) if t.number is not None] == numbers


@pytest.mark.parametrize(
    "rule", ["64ths", "128ths", "1000ths", "100ths", "mm", "half mm", "cm", "3rds", "1sts"]
)
def test_divisions_too_close_to_print_are_left_out_and_else_the_rules_own_is_the_finest(rule):
    finest, own = min(steps(Rule(rule))), Rule(rule).division.mm
    assert finest >= CLOSEST
    assert finest == own or own < CLOSEST


# The pictures themselves


def close_ups() -> list[CloseUp | None]:
    return [
        of_one(recover("51.5 mm").readings[0]),
        of_list(recover(["51.5 mm", "66.7 mm", "10.3 mm", "8.7 mm", "7.95 mm"])),
    ]


def drawings() -> list[Drawing]:
    made = [
        *strips(mark("14 5/8 in", 23, "32nds"), "a <strip> & more"),
        *strips(mark("90 mm", 23, "mm"), "metric"),
        profile(crown(6, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds"), "crown"),
        profile(crown(9, across="41 mm", radius="1 m", rule="mm"), "flat crown"),
        zone_chart(fit("6 mm", "H7/g6"), "clearance"),
        zone_chart(fit("10 mm", "H7/p6"), "interference"),
        zone_chart(fit("3 mm", "H7/m6"), "transition"),
        *(close_up(shown, "readings") for shown in close_ups() if shown is not None),
    ]
    return [d for d in made if isinstance(d, Drawing)]


@pytest.mark.parametrize("drawing", drawings(), ids=lambda d: d.title)
def test_nothing_is_drawn_off_the_picture(drawing):
    for shape in drawing.shapes:
        match shape:
            case Stroke():
                xs, ys = (shape.x1, shape.x2), (shape.y1, shape.y2)
            case Box():
                xs, ys = (shape.x, shape.x + shape.width), (shape.y, shape.y + shape.height)
            case Words():
                long = text_width(shape.text, shape.size)
                if shape.turned:
                    xs, ys = (shape.x - shape.size, shape.x), (shape.y - long, shape.y)
                else:
                    left = shape.x - {"start": 0, "middle": long / 2, "end": long}[shape.anchor]
                    xs, ys = (left, left + long), (shape.y - shape.size, shape.y)
        assert min(xs) >= 0, shape
        assert max(xs) <= drawing.width, shape
        assert min(ys) >= 0, shape
        assert max(ys) <= drawing.height, shape


@pytest.mark.parametrize("drawing", drawings(), ids=lambda d: d.title)
def test_a_drawing_in_a_page_has_a_title_and_tells_itself_in_words(drawing):
    root = ET.fromstring(inline(drawing, "x"))
    title, words = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"].split() == [title.attrib["id"], words.attrib["id"]]
    assert (title.text, words.text) == (drawing.title, drawing.words)
    assert len(drawing.words) > 60


@pytest.mark.parametrize("text", ["plain", "½ ± µ", "<&>\"'", "\x00\x07", "αβ"])
def test_any_title_makes_readable_xml(text):
    (drawing,) = strips(mark("2 in", 5), text)
    ET.fromstring(inline(drawing, "x"))
    ET.fromstring(standalone([drawing], text).partition("?>")[2])


def test_a_crown_is_drawn_to_the_heights_that_are_read():
    rack = crown(6, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds")
    drawing = profile(rack, "crown")
    boxes = [s for s in drawing.shapes if isinstance(s, Box)]
    assert len(boxes) == 6
    scale = boxes[0].height / rack.read[0].mm
    assert [box.height / scale for box in boxes] == [h.mm for h in rack.read]
    places = [box.x + box.width / 2 for box in boxes]
    apart = {b - a for a, b in pairwise(places)}
    assert len(apart) == 1
    assert f"heights {scale} times size" in " ".join(s.text for s in drawing.shapes if isinstance(s, Words))


@pytest.mark.parametrize(
    ("count", "across", "radius", "tallest"),
    [
        (6, "13/32 in", "7 1/4 in", "11/32 in"),
        (9, "1 5/8 in", "40 in", "1 1/4 in"),
        (9, "41 mm", "1 m", None),
    ],
)
def test_a_crown_fills_its_picture(count, across, radius, tallest):
    drawing = profile(crown(count, across=across, radius=radius, tallest=tallest), "crown")
    title = next(s for s in drawing.shapes if isinstance(s, Words))
    drawn = [s for s in drawing.shapes if isinstance(s, Stroke | Box)]
    top = min(min(s.y1, s.y2) if isinstance(s, Stroke) else s.y for s in drawn)
    assert 2 < top - title.y < 8
    said = " ".join(s.text for s in drawing.shapes if isinstance(s, Words))
    assert "spacing drawn" in said
    assert "width" not in said


def test_the_arc_over_a_crown_passes_over_the_exact_heights():
    rack = crown(7, across="13/32 in", radius="7 1/4 in", tallest="11/32 in", rule="32nds")
    drawing = profile(rack, "crown")
    arc = [s for s in drawing.shapes if isinstance(s, Stroke) and s.kind == "exact"]
    box = next(s for s in drawing.shapes if isinstance(s, Box))
    scale, base = box.height / rack.read[0].mm, box.y + box.height
    ends = [(base - y) / scale for y in (arc[0].y1, arc[len(arc) // 2].y1, arc[-1].y2)]
    for height, exact in zip(ends, (rack.exact[0], rack.exact[3], rack.exact[-1]), strict=True):
        assert abs(height - exact.mm) < Fraction(1, 10**5)


@pytest.mark.parametrize(("size", "zones"), [("6 mm", "H7/g6"), ("10 mm", "H7/p6"), ("3 mm", "H7/m6")])
def test_zones_are_drawn_to_one_scale_about_nought(size, zones):
    found = fit(size, zones)
    drawing = zone_chart(found, "fit")
    hole, shaft = (s for s in drawing.shapes if isinstance(s, Box))
    nought = next(s.y1 for s in drawing.shapes if isinstance(s, Stroke) and s.kind == "bar")
    scale = hole.height / (found.hole.spread.mm * 1000)
    for box, part in ((hole, found.hole_um), (shaft, found.shaft_um)):
        assert nought - box.y == part[0] * scale
        assert box.height == (part[0] - part[1]) * scale
    assert hole.fill != shaft.fill
    assert {"hole", "shaft"} <= {s.text.split()[0] for s in drawing.shapes if isinstance(s, Words)}


def test_hatching_stays_in_its_box():
    box = Box(3, 5, 20, Fraction(7, 2), "hatched")
    for stroke in hatching(box):
        assert 3 <= stroke.x1 <= stroke.x2 <= 23
        assert 5 <= stroke.y2 <= stroke.y1 <= Fraction(17, 2)
        assert stroke.x1 + stroke.y1 == stroke.x2 + stroke.y2


def test_a_sheet_puts_all_its_pictures_into_one_file():
    made = Sheet.from_text("mark 2 in into 5\nmark 14 5/8 in into 23 on 32nds\nfit 6 mm H7/g6")
    root = ET.fromstring(made.to_svg().partition("?>")[2])
    groups = [g for g in root if g.attrib.get("id", "").startswith("drawing-")]
    assert len(groups) == 5
    places = joined(pieces(svg_lines(made.to_svg()))[1:], "mark")
    assert abs(places[-1] - places[0] - 14.625 * 25.4) < ALLOWED


def test_the_marks_drawn_for_a_rule_are_marks_of_it_coarsest_first_and_each_once():
    """A division of the inch that is no whole number of the rule's own would be drawn where the rule has no mark."""
    for parts in (*range(1, 130), 150, 200, 500, 700, 1000):
        rule = Rule(f"{parts}ths")
        drawn = steps(rule)
        assert all((step / rule.division.mm).denominator == 1 for step in drawn), parts
        assert list(drawn) == sorted(set(drawn), reverse=True)
        assert drawn[0] == rule.division.mm * parts
