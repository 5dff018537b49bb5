"""Notches in the edges of a part: read, refused, and the same thing at every exit."""

from __future__ import annotations

import io
import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import Sheet, ShopError, face, hole, notch, read, walls
from fractions_shop.layout.notches import EDGES
from fractions_shop.show.machine_plan import Loop, machine_plan

RUNNER = "part runner: 4 of oak, 11 in by 3/4 in by 1/4 in\n"
INCH = Fraction(127, 5)
ENDS = "notch in runner: 1/2 in by 3/8 in at 1/4 in, 10 3/4 in along upper edge\n"


def outline(sheet: Sheet, part: str) -> Loop:
    (machined,) = machine_plan(sheet, part).parts
    (shape,) = [each.shape for each in machined.shapes if each.kind == "outline"]
    assert isinstance(shape, Loop)
    return shape


def area(loop: Loop) -> Fraction:
    """By the shoelace formula (A. L. F. Meister, 1769); of an outline without arcs, and walked counter-clockwise."""
    assert not any(bulge for _, _, bulge in loop.corners)
    points = [(x, y) for x, y, _ in loop.corners]
    return sum((x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, (*points[1:], points[0]), strict=True)), Fraction(0)) / 2  # fmt: skip


def test_end_notches_of_a_runner_take_off_its_corners() -> None:
    sheet = Sheet(RUNNER + ENDS)
    assert not sheet.faults
    half, deep, high = Fraction(1, 2), Fraction(3, 8), Fraction(3, 4)
    assert [(x / INCH, y / INCH) for x, y, _ in outline(sheet, "runner").corners] == [
        (0, 0), (11, 0), (11, deep), (11 - half, deep), (11 - half, high), (half, high), (half, deep), (0, deep),
    ]  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from([*EDGES]),
        st.lists(st.integers(0, 15), min_size=1, max_size=4, unique=True),
        min_size=1,
    )
)
def test_the_outline_loses_just_what_is_cut_out_of_it(cut: dict[str, list[int]]) -> None:
    """Sixteen places of half an inch on each edge of 8 in, an eighth deep; at a corner only one edge is cut."""
    corners = {"left": "lower", "right": "lower", "upper": "left", "lower": "left"}
    lines, count = [], 0
    for edge, places in cut.items():
        free = [k for k in places if not (k in (0, 15) and corners[edge] in cut) and (k != 15 or edge in ("lower", "left") or "right" not in cut)]  # fmt: skip
        free = [k for k in free if k not in (0, 15)] if len(cut) > 1 else free
        if free:
            count += len(free)
            at = ", ".join(f"{2 * k + 1}/4 in" for k in free)
            lines.append(f"notch in plate: 1/2 in by 1/8 in at {at} along {edge}")
    sheet = Sheet("\n".join(["part plate: 1, 8 in by 8 in by 1/4 in", *lines]))
    assert not sheet.faults, sheet.faults
    loop = outline(sheet, "plate")
    assert area(loop) == (64 - Fraction(count, 16)) * INCH**2
    assert len(set(loop.corners)) == len(loop.corners)


@pytest.mark.parametrize(
    "edge", ["left", "the left edge", "LEFT", "right", "lower", "bottom edge", "upper", "top"]
)
def test_an_edge_is_said_as_one_says_it(edge: str) -> None:
    sheet = Sheet(f"part lid: 1, 4 in by 4 in by 1/4 in\nnotch in lid: 1 in by 1/4 in at 2 in along {edge}")
    assert not sheet.faults
    word = edge.lower().removeprefix("the ").removesuffix(" edge")
    (made,) = sheet.cut_parts["lid"].cuts
    assert made.cut.edge == {"bottom": "lower", "top": "upper"}.get(word, word)


def test_named_places_and_sums_say_where() -> None:
    sheet = Sheet(
        f"{RUNNER}pins = places 2 in, 4 in\nw = 1/2 in\nnotch in runner: w by w / 2 at pins along lower\n"
    )
    assert not sheet.faults
    (made,) = sheet.cut_parts["runner"].cuts
    assert [str(x.inch) for x, _ in made.cut.at] == ["2", "4"]


REFUSED = {
    "notch in runner: 1/2 in by 1/4 in at 1 in": "a notch says which edge it is cut in",
    "notch in runner: 1/2 in by 1/4 in at 1 in along front": "a notch is cut along the left, right, lower or upper edge",
    "notch in runner: 1/2 in at 1 in along left": "a notch is told by its width along the edge and its depth",
    "notch in runner: 1/2 in by 1/4 in along left": "a notch line says where behind the word at",
    "notch in runner: 1/2 in by 1/4 in at 1 in by 1 in along left": "a notch is placed by its distance along the edge",
    "notch in runner: 1/2 in by 3/4 in at 1 in along upper": "a notch 3/4 in (19.05 mm) deep leaves nothing of 3/4 in (19.05 mm)",
    "notch in runner: 1/2 in by 1/4 in at 1/8 in along upper": "reaches 1/8 in (3.175 mm) past the edge",
    "notch in runner: 1/2 in by 1/4 in at 1 in along upper deep 1/8 in": "a notch is not deep",
    "notches in runner: 1/2 in by 1/4 in at 1 in along upper": "a line that cuts begins with notch",
}


@pytest.mark.parametrize("line", REFUSED)
def test_what_is_no_notch_is_refused_with_advice(line: str) -> None:
    (fault,) = Sheet(RUNNER + line).faults
    assert REFUSED[line] in fault.message
    assert fault.advice or "leaves nothing" in fault.message


def test_the_edge_that_is_missing_is_offered_and_the_offer_is_read() -> None:
    (fault,) = Sheet(f"{RUNNER}notch in runner: 1/2 in by 1/4 in at 1 in").faults
    (offer,) = fault.advice.offers
    assert not Sheet(RUNNER + offer.text).faults


def test_round_stock_and_a_rounded_corner_take_none() -> None:
    (fault,) = Sheet(
        "part pin: 1, round 1 in by 2 in\nnotch in pin: 1/4 in by 1/8 in at 1/2 in along left"
    ).faults
    assert "has no edge to cut a notch in" in fault.message
    rounded = "part lid: 1, 4 in by 4 in by 1/4 in\ncorner in lid: 1/2 in\nnotch in lid: 1 in by 1/4 in at {} along left\n"
    (fault,) = Sheet(rounded.format("3/4 in")).faults
    assert "past the rounded corner" in fault.message
    assert not Sheet(rounded.format("1 in")).faults


def test_a_wall_is_kept_beside_a_notch_but_not_at_its_own_edge() -> None:
    text = (
        f"{RUNNER}wall in runner: 1/16 in\nnotch in runner: 1/2 in by 3/8 in at {{}} along upper edge\n{{}}"
    )
    assert not Sheet(text.format("1/4 in", "")).faults  # it takes off the corner
    (fault,) = Sheet(text.format("9/32 in", "")).faults
    assert "leaves 1/32 in (about 0.7938 mm) to the edge" in fault.message
    (fault,) = Sheet(text.format("1 in", "hole in runner: 1/4 in at 1 in by 7/32 in")).faults
    assert "leaves 1/32 in (about 0.7938 mm)" in fault.message


def test_limits_count_at_their_worst() -> None:
    """1/2 in wide + 1/32 at most, 1/4 in from the end: nothing may be left over."""
    plate = face("4 in", read("2 in ± 1/32 in"))
    (thin,) = walls(plate, [notch("1 in", read("1 in ± 1/16 in"), "2 in", edge="lower", of=plate)])
    # 2 in less 1/32 less 1 1/16 behind the floor.
    assert str(thin.left.inch) == "29/32"


EXITS = {
    "text": lambda sheet: sheet.to_text(200),
    "markdown": lambda sheet: sheet.to_markdown(),
    "page": lambda sheet: sheet.to_html(),
    "coordinates": lambda sheet: sheet.to_coordinates(),
    "csv": lambda sheet: sheet.to_csv(),
    "json": lambda sheet: sheet.to_json(),
    "svg": lambda sheet: sheet.to_svg(),
}


@pytest.mark.parametrize("way", EXITS)
def test_every_exit_tells_of_it_and_of_its_edge(way: str) -> None:
    made = EXITS[way](Sheet(RUNNER + ENDS))
    assert "notch" in made
    assert "upper" in made


def test_the_machine_file_has_it_in_its_outline() -> None:
    ezdxf = pytest.importorskip("ezdxf", reason="the extra `machine` is not installed")
    sheet = Sheet(RUNNER + ENDS)
    space = ezdxf.read(io.StringIO(sheet.to_dxf())).modelspace()
    (line,) = space.query('LWPOLYLINE[layer=="OUTLINE"]')
    assert len(line) == 8
    xs, ys = zip(*((x, y) for x, y, *_ in line), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((0, 279.4, 0, 19.05))
    assert not space.query('LWPOLYLINE[layer!="OUTLINE"]')


def test_its_object_has_the_middles_of_its_mouth_and_floor() -> None:
    (made,) = json.loads(Sheet(RUNNER + ENDS).to_json())["features"]
    assert (made["feature"], made["edge"], made["square"], made["turned"]) == ("notch", "upper", None, None)
    mouth, floor = made["ends"][0]
    assert (mouth["y"]["inch"], floor["y"]["inch"], mouth["x"]["inch"]) == ("3/4", "3/8", "1/4")


def test_two_sheets_are_compared_by_the_edge_too() -> None:
    one, two = Sheet(RUNNER + ENDS), Sheet(RUNNER + ENDS.replace("upper", "lower"))
    (change,) = one.cut_changes(two)
    assert (change.old.cut.edge, change.new.cut.edge) == ("upper", "lower")
    assert one.cut_changes(Sheet(RUNNER + ENDS)) == ()


def test_a_slot_over_the_edge_is_led_to_a_notch() -> None:
    (fault,) = Sheet(f"{RUNNER}slot in runner: 1 in by 1/4 in at 1/4 in by 3/8 in square").faults
    assert "what is open at an edge is a notch, such as notch in " in fault.advice


def test_the_library_refuses_what_the_sheet_does() -> None:
    plate: Any = face("4 in", "2 in")
    for wrong in (
        lambda: notch("1 in", "1/4 in", "1 in", edge="front", of=plate),
        lambda: notch("1 in", "2 in", "1 in", edge="lower", of=plate),
        lambda: notch("1 in", "1/4 in", (("1 in", "1 in"),), edge="lower", of=plate),
        lambda: notch("1 in", "1/4 in", "1 in", edge="left", of=face("4 in", shape="round")),
    ):
        with pytest.raises(ShopError):
            wrong()
    made = notch("1 in", "1/4 in", "1 in", edge="left", of=plate)
    assert str(made).startswith(
        "<Notch: 1 notch, 1 in (25.4 mm) by 1/4 in (6.35 mm) into the left edge, through"
    )
    assert len(walls(plate, [made, hole("1/8 in", ("2 in", "1 in"))])) == 1


def test_a_size_called_notch_stays_a_size() -> None:
    sheet = Sheet("notch = 7/16 in\nn = 11 in / notch\nnotch as mm\n")
    assert not sheet.faults
    assert str(sheet.sizes["notch"].inch) == "7/16"
