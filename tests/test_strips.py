"""Strips and templates: nothing overprinted, measured where they are written, and what is left out said."""

from __future__ import annotations

import re
import shutil
import subprocess
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring import Line, joined, pdf_lines, pieces, svg_lines
from overprinting import overprinted

from fractions_shop import Quantity, Session, bolt_circle, mark, places
from fractions_shop.figures.drawing import NotDrawn, Words
from fractions_shop.figures.paper import A4, PAPERS
from fractions_shop.layout.marks import Marks
from fractions_shop.layout.places import Places
from fractions_shop.requests.pictures.frame import MARGIN
from fractions_shop.requests.pictures.strip import strips
from fractions_shop.requests.pictures.template import template
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.svg import standalone

ALLOWED = 0.01


# Nothing is overprinted

CROWDED = [
    pytest.param(mark("3/8 in", 24), id="3/8 in into 24"),
    pytest.param(mark("1 in", 100), id="1 in into 100"),
    pytest.param(mark("20 in", 30, bodies="1/4 in"), id="edges of bodies"),
    pytest.param(mark("14 5/8 in", 23, "32nds"), id="two rows"),
    pytest.param(mark("400 mm", 400, "half mm", start="1/3 in"), id="400 marks"),
    pytest.param(mark("9 m", 37, "mm"), id="9 m"),
    pytest.param(mark("3 ft", 700), id="700 marks"),
    pytest.param(places("1/16 in", "1/8 in", "3/16 in", "7 in", "7 1/64 in", along="18 in"), id="uneven places"),
]  # fmt: skip


@pytest.mark.parametrize("result", CROWDED)
@pytest.mark.parametrize("paper", [A4, PAPERS["letter landscape"]], ids=lambda paper: paper.name)
def test_no_label_of_a_strip_is_overprinted(result, paper):
    drawings = strips(
        result, "a strip with a name that is far too long for the place where it stands " * 2, paper
    )
    assert not isinstance(drawings, NotDrawn)
    assert [fault for drawing in drawings[:4] for fault in overprinted(drawing)] == []


@given(
    st.fractions(Fraction(1, 4), 30, max_denominator=64),
    st.integers(1, 80),
    st.sampled_from(["64ths", "32nds", "10ths", "100ths", "mm", "half mm", "7ths"]),
    st.sampled_from([None, "1/16 in", "1/3 in"]),
)
def test_no_strip_is_overprinted(inches, count, rule, bodies):
    total = inches if bodies is None else inches + (count + 1) * Fraction(1, 3)
    marks = mark(Quantity.of(total, "in"), count, rule, bodies=bodies)
    for drawing in strips(marks, "bars")[:3]:
        assert overprinted(drawing) == []


GRIDS = [
    pytest.param(places(across=(6, "1 in"), up=(4, "3/4 in"), first=("1/2 in", "3/4 in")), id="a grid"),
    pytest.param(places(across=(12, "3 mm"), up=(12, "3 mm"), rule="mm"), id="a close grid"),
    pytest.param(places(across=(6, "7 in"), up=(5, "6 in"), rule="16ths"), id="over several sheets"),
    pytest.param(places(("1 in", "2 in"), ("3 in", "2 in"), ("3 1/64 in", "2 in"), ("4 in", "1/3 in"),
                        along=("5 in", "3 in")), id="uneven, in an outline"),
    pytest.param(places(("-1 in", "-2 in"), ("0 in", "0 in")), id="on and below the datum"),
]  # fmt: skip
CIRCLES = [(6, "4 in"), (3, "1 in"), (48, "3 in"), (8, "14 in"), (1, "2 in")]


@pytest.mark.parametrize("found", GRIDS)
def test_no_number_of_a_grid_is_overprinted(found):
    drawings = template(found, "grid")
    assert not isinstance(drawings, NotDrawn)
    assert [fault for drawing in drawings for fault in overprinted(drawing)] == []


@pytest.mark.parametrize(("count", "size"), CIRCLES)
def test_no_number_of_a_circle_is_overprinted(count, size):
    drawings = template(_circle(count, size), "c", circle=True)
    assert not isinstance(drawings, NotDrawn)
    assert [fault for drawing in drawings for fault in overprinted(drawing)] == []


def _circle(count: int, size: str) -> Places:
    return places(*bolt_circle(count, size))


# What is left out is said


def said(drawings) -> str:
    return " ".join(s.text for d in drawings for s in d.shapes if isinstance(s, Words))


@pytest.mark.parametrize(
    ("marks", "note"),
    [
        (mark("1 in", 100), "every mark is drawn, 95 of 101 labels are left out; what the marks read on the"),
        (mark("20 in", 30, bodies="1/4 in"), "no room here: what the marks read on the rule is left out"),
    ],
)
def test_a_strip_says_what_it_leaves_out(marks, note):
    drawings = strips(marks, "strip")
    assert note in said(drawings)
    assert note.removeprefix("no room here: ") in drawings[0].words


def test_labels_that_are_left_out_leave_the_round_numbers():
    labels = re.findall(r"(\d+): ", said(strips(mark("1 in", 100), "strip")))
    assert labels == ["0", "20", "40", "60", "80", "100"]


def test_a_strip_with_room_says_nothing_of_it():
    assert "no room" not in said(strips(mark("14 5/8 in", 23, "32nds"), "strip"))


def test_a_template_says_how_many_numbers_it_leaves_out():
    (drawing,) = template(places(across=(30, "2 mm"), up=(5, "2 mm")), "grid")
    numbers = [s for s in drawing.shapes if isinstance(s, Words) and s.text.isdecimal()]
    assert f"{150 - len(numbers)} of 150 numbers are left out" in said([drawing])


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ("mark 10.001 m into 3", "no strip is drawn of 393 47/64 in (10001 mm): the longest is "),
        ("mark 41 ft for 300 of 1/2 in edges", "no strip is drawn of "),
        ("crown 41 across 1/64 in radius 9000 in", "no drawing is made of supports without height"),
        ("places 10 across by 300 mm, 10 up by 300 mm", "no template is drawn of it: it would be "),
    ],
)
def test_where_there_is_no_picture_the_sheet_says_why(asked, why):
    made = Sheet.from_text(asked)
    assert why.split(":")[0].split(" of 393")[0] in made.to_html()
    assert "<svg" not in made.to_html()
    assert why.split(":")[0].split(" of 393")[0] in made.to_markdown()


def test_a_strip_goes_up_to_ten_metres():
    marks = mark("10 metres", 9, "mm")
    drawings = strips(marks, "long")
    places_drawn = joined(pieces(svg_lines(standalone(drawings, "long"))), "mark")
    for place, exact in zip(places_drawn, marks.exact, strict=True):
        # Sixty joints, each read to 1e-6 mm.
        assert abs(place - places_drawn[0] - float(exact.mm)) < ALLOWED
    assert isinstance(strips(mark("10001 mm", 3), "strip"), NotDrawn)
    assert isinstance(strips(mark("100 in", 2000), "strip"), NotDrawn)


# The paper's width


@pytest.mark.parametrize("paper", PAPERS.values(), ids=lambda paper: paper.name)
def test_all_pieces_but_the_last_are_as_wide_as_the_paper_lets_them_be(paper):
    *most, last = strips(mark("40 in", 9), "strip", paper)
    assert {drawing.width for drawing in most} == {paper.across}
    assert last.width <= paper.across
    # 15 mm are kept free, and no more than 3 mm besides.
    assert 0 <= paper.width - 30 - paper.across < 3


def test_the_command_turns_the_paper(tmp_path):
    from fractions_shop.command.words.sheet import run

    sheet, out = tmp_path / "a.shop", tmp_path / "a.svg"
    sheet.write_text("mark 40 in into 9\n", "utf-8")
    assert run([str(sheet), "--landscape", "--out", str(out)]) == 0
    text = out.read_text("utf-8")
    assert "@page { size: A4 landscape;" in text
    assert len(pieces(svg_lines(text))) == 5


# Names


@pytest.mark.parametrize(
    ("asked", "title"),
    [
        ("tick = mark 4 in into 5 on 32nds", "tick, 32nds"),
        ("mark 4 in into 5 on 32nds", "mark 4 in into 5 on 32nds, 32nds"),
        ("hinge = places 1 1/2 in, 3 in along 4 in on 16ths", "hinge, 16ths"),
        ("bolts = bolt_circle(6, 4 in)", "bolts, 64ths"),
        ("tray = places 3 across by 2 in, 2 up by 1 in on mm", "tray, mm rule"),
    ],
)
def test_a_picture_is_titled_by_its_name_and_its_rule(asked, title):
    text = Sheet.from_text(asked).to_svg()
    assert f"<title>{title}</title>" in text


# Measured in the written files


def crosses(lines: list[Line]) -> list[tuple[float, float]]:
    """The middles of crosses: a level and an upright stroke of that kind, of one length, about one point."""
    level = [line for line in lines if line.level and line.is_a("cross")]
    upright = [line for line in lines if line.upright and line.is_a("cross")]
    found = []
    for one, two in zip(level, upright, strict=True):
        x, y = (one.x1 + one.x2) / 2, (two.y1 + two.y2) / 2
        assert abs(two.x1 - x) < 1e-3
        assert abs(one.y1 - y) < 1e-3
        found.append((x, y))
    return found


ON_ONE_SHEET = [
    ("tray = places 6 across by 1 in, 4 up by 3/4 in first at 1/2 in, 3/4 in", None),
    ("bolts = bolt_circle(7, 4 in, 10 deg)", None),
    ("odd = places 1 in by 2 in, 3 in by 2 in, 4 in by 1/3 in along 5 in by 3 in", None),
]


@pytest.mark.parametrize(("asked", "_"), ON_ONE_SHEET)
@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_crosses_stand_where_the_places_are(asked, _, form):
    sheet = Sheet.from_text(asked)
    lines = svg_lines(sheet.to_svg()) if form == "svg" else pdf_lines(sheet.to_pdf())
    found = crosses(lines)
    answer = Session().answer(asked)
    assert answer is not None
    points = answer.result.points
    assert len(found) == len(points)
    for one, two in combinations(range(len(points)), 2):
        for axis in (0, 1):
            apart = float(points[two][axis].mm - points[one][axis].mm)
            assert abs(found[two][axis] - found[one][axis] - apart) < ALLOWED
    # The datum: where the two chain lines cross.
    chain = [line for line in lines if line.dashed]
    across = next(line.y1 for line in chain if line.level)
    up = next(line.x1 for line in chain if line.upright)
    assert abs(found[0][0] - up - float(points[0][0].mm)) < ALLOWED
    assert abs(found[0][1] - across - float(points[0][1].mm)) < ALLOWED


@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_sheets_of_a_template_meet_at_their_dashed_lines(form):
    """Six sheets laid together at their joints have every place where it should be."""
    found = places(across=(4, "7 in"), up=(3, "8 1/2 in"))
    drawings = template(found, "wide")
    assert not isinstance(drawings, NotDrawn)
    assert len(drawings) > 4
    text = "wide = places 4 across by 7 in, 3 up by 8 1/2 in"
    for n, drawing in enumerate(drawings):
        assert drawing.width <= A4.across, n
        assert drawing.height <= A4.down, n
    lines = (
        svg_lines(standalone(drawings, "wide"))
        if form == "svg"
        else pdf_lines(Sheet.from_text(text).to_pdf())
    )
    sheets = _sheets(lines)
    columns = len(drawings) // 3
    assert len(sheets) == len(drawings) == 3 * columns
    seen: set[tuple[int, int]] = set()
    joints: dict[tuple[str, int], float] = {}
    for n, sheet in enumerate(sheets):
        column, row = n % columns, n // columns
        match = [line for line in sheet if line.is_a("match")]
        ups = sorted(line.x1 for line in match if line.upright)
        levels = sorted(line.y1 for line in match if line.level)
        # Every sheet is laid by the joints that it bears; the first by its datum.
        if n == 0:
            dx, dy = (-at for at in _datum(sheet))
        else:
            dx = joints["x", column] - ups[0] if column else joints["x", 1] - ups[-1]
            dy = joints["y", row] - levels[0] if row else joints["y", 1] - levels[-1]
        if column < columns - 1:
            joints["x", column + 1] = ups[-1] + dx
        if row < 2:
            joints["y", row + 1] = levels[-1] + dy
        for x, y in crosses(sheet):
            place = ((x + dx) / (7 * 25.4), (y + dy) / (8.5 * 25.4))
            nearest = (round(place[0]), round(place[1]))
            assert abs(place[0] - nearest[0]) * 7 * 25.4 < ALLOWED
            assert abs(place[1] - nearest[1]) * 8.5 * 25.4 < ALLOWED
            seen.add(nearest)
    assert seen == {(x, y) for x in range(4) for y in range(3)}


def _sheets(lines: list[Line]) -> list[list[Line]]:
    """The strokes of each sheet, from the bar of the one above it down to its own bar."""
    bars = [line for line in lines if line.level and line.is_a("bar")]
    found, above = [], (-1, 0.0)
    for bar in sorted(bars, key=lambda line: (line.page, -line.y1)):
        top = above[1] - 3 if above[0] == bar.page else float("inf")
        found.append([line for line in lines if line.page == bar.page and bar.y1 < line.y1 < top])
        above = bar.page, bar.y1
    return found


def _datum(lines: list[Line]) -> tuple[float, float]:
    chain = [line for line in lines if line.dashed and not line.is_a("match")]
    return (
        next(line.x1 for line in chain if line.upright),
        next(line.y1 for line in chain if line.level),
    )


@pytest.mark.parametrize("form", ["svg", "pdf"])
def test_every_template_has_a_bar_of_four_inches(form):
    sheet = Sheet.from_text("bolts = bolt_circle(6, 5 in)")
    lines = svg_lines(sheet.to_svg()) if form == "svg" else pdf_lines(sheet.to_pdf())
    (bar,) = [line for line in lines if line.level and line.is_a("bar")]
    assert abs(abs(bar.x2 - bar.x1) - 101.6) < ALLOWED


def test_places_on_one_axis_have_a_strip_with_their_marks_and_their_whole_length():
    found = places("15 3/8 in", "1 1/2 in", "7 in", along="18 in")
    drawings = strips(found, "hinge")
    assert not isinstance(drawings, NotDrawn)
    strip = pieces(svg_lines(standalone(drawings, "hinge")))
    drawn = joined(strip, "mark")
    for place, exact in zip(drawn, (0, 5.5, 13.875), strict=True):
        assert abs(place - drawn[0] - exact * 25.4) < ALLOWED
    assert "1: 15 3/8 in" in said(drawings)
    assert sum(d.width - 2 * MARGIN for d in drawings[:-1]) < Fraction(18) * Fraction("25.4")


# Printed by a browser

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")


@pytest.mark.skipif(BROWSER is None, reason="chromium is not installed")
@pytest.mark.parametrize("paper", ["A4", "letter landscape"])
def test_a_file_of_drawings_printed_by_a_browser_is_true_to_size(tmp_path, paper):
    """On that paper, and no page begins in the midst of a strip: each bar is on its strip's page."""
    sheet = Sheet.from_text("mark 1.7 m into 60 on mm\nbolt_circle(6, 4 in)")
    text = sheet.to_svg(paper)
    (tmp_path / "a.svg").write_text(text, "utf-8")
    made = tmp_path / "a.pdf"
    command = [
        str(BROWSER), "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-sync",
        f"--user-data-dir={tmp_path / 'profile'}", "--no-pdf-header-footer", f"--print-to-pdf={made}",
        f"file://{tmp_path}/a.svg",
    ]  # fmt: skip
    subprocess.run(command, check=True, timeout=120, capture_output=True)
    printed, drawn = pieces(pdf_lines(made.read_bytes())), pieces(svg_lines(text))
    assert len(printed) == len(drawn) > 7
    for one, two in zip(printed, drawn, strict=True):
        bar = abs(one[0].x1 - one[0].x2)
        assert abs(bar - 101.6) < ALLOWED
        found = [sorted(line.x1 - piece[0].x1 for line in piece if line.is_a("mark")) for piece in (one, two)]
        assert len(found[0]) == len(found[1])
        assert all(abs(a - b) < ALLOWED for a, b in zip(*found, strict=True))


def test_every_result_with_marks_is_drawn_alike_by_name_and_by_hand():
    assert isinstance(mark("2 in", 5), Marks)
    answer = Session().answer("bolts = bolt_circle(6, 4 in)")
    assert answer is not None
    drawn = answer.room.pictures(answer.result, "bolts", A4)  # type: ignore[misc]
    assert drawn == template(_circle(6, "4 in"), "bolts", A4, circle=True)
