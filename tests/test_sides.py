"""Lines of a sheet in the words of a drawing: x between sides, rounded slots, the depth said first, and joined places."""

from __future__ import annotations

import pytest

from fractions_shop import Sheet
from fractions_shop.language.advice.offers import Advice

PLATE = "part plate: 1, 6 in by 4 in by 1/4 in\n"
#: What is written, and the line that is offered for it.
OFFERED = {
    "part plate: 1, 6 in x 4 in x 1/4 in": "part plate: 1, 6 in by 4 in by 1/4 in",
    "part plate: 1, 6 × 4 × 1/4 in": "part plate: 1, 6 in by 4 in by 1/4 in",
    "part screws: 8, 6 BA x 1/2 in": "part screws: 8, 6 BA by 1/2 in",
    "stock brass: 1/16 in x 13/16 in, 3 ft long": "stock brass: 1/16 in by 13/16 in, 3 ft long",
    "stock brass: 1/16 in × 13/16 in, 36 in long": "stock brass: 1/16 in by 13/16 in, 36 in long",
    "slot in plate: 1 in x 1/4 in at 1 in by 1 in": "slot in plate: 1 in by 1/4 in at 1 in by 1 in",
    "hole in plate: 1/4 in at 1 in x 1 in, 2 in x 1 in": "hole in plate: 1/4 in at 1 in by 1 in, 2 in by 1 in",
    "slot in plate: 1 in by 1/4 in at 2 in by 1 in, rounded": "slot in plate: 1 in by 1/4 in at 2 in by 1 in",
    "slot in plate: 1 in by 1/4 in at 2 in by 1 in with round ends deep 1/8 in": (
        "slot in plate: 1 in by 1/4 in at 2 in by 1 in deep 1/8 in"
    ),
    "hole in plate: 1/4 in x 1/8 in deep at 1 in x 1 in": "hole in plate: 1/4 in at 1 in by 1 in deep 1/8 in",
}


def sheet(line: str) -> Sheet:
    return Sheet(line if line.startswith("part") else PLATE + line)


def cuts(line: str) -> list[object]:
    return [each.feature.cut for each in sheet(line).cut_parts["plate"].cuts]


@pytest.mark.parametrize("line", OFFERED)
def test_the_line_that_is_meant_is_offered_and_can_be_read(line: str) -> None:
    (fault,) = sheet(line).faults
    assert isinstance(fault.advice, Advice)
    assert [offer.text for offer in fault.advice.offers] == [OFFERED[line]]
    assert not sheet(OFFERED[line]).faults


@pytest.mark.parametrize(
    "line",
    [
        "part screws: 8, M5 x 0.8 by 20 mm",
        "part screws: 8, 1/4 in x 24 tpi unified form by 1 in",
        "part bar: 2, 5/16 x 40 ME by 2 in",
    ],
)
def test_the_x_of_a_thread_is_no_x_between_sides(line: str) -> None:
    assert not sheet(line).faults


def test_places_may_be_joined_by_and() -> None:
    joined = "hole in plate: 1/4 in at 1 in by 1 in and 2 in by 1 in, 3 in by 1 in"
    assert cuts(joined) == cuts("hole in plate: 1/4 in at 1 in by 1 in, 2 in by 1 in, 3 in by 1 in")


@pytest.mark.parametrize("option", ["deep 1/8 in", "turned 30 deg", "square", "from 1/2 in, 1/2 in"])
def test_an_option_may_stand_behind_a_comma(option: str) -> None:
    line = "slot in plate: 1 in by 1/4 in at 2 in by 2 in"
    assert not sheet(f"{line}, {option}").faults
    assert cuts(f"{line}, {option}") == cuts(f"{line} {option}")
