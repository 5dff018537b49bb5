"""What an hour at the prompt, from the manual alone, stumbled over."""

from __future__ import annotations

import pytest

from fractions_shop import InputError, Session, Sheet
from fractions_shop.language.advice.offers import Advice
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.proposals import proposal

LID = "part lid: 1 of oak, 4 in by 3 in by 1/4 in\n"


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("tray front reads 63.9 mm", "tray_front reads 63.9 mm"),
        ("tray front = 2 1/2 in", "tray_front = 2 1/2 in"),
        ("old tray front = 2 1/2 in / 3", "old_tray_front = 2 1/2 in / 3"),
    ],
)
def test_a_name_of_several_words_is_offered_as_one_and_never_taken_for_a_note(line: str, offer: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    assert [each.text for each in caught.value.advice.offers] == [offer]
    made = proposal(line, PromptModel().session)
    assert made is not None
    assert made.statement == offer


def test_the_word_of_a_request_is_no_part_of_a_name() -> None:
    with pytest.raises(InputError) as caught:
        Session().answer("check a b = 3 in")
    assert "check_a_b" not in caught.value.advice


OFFERED = {
    "notch in lid: 1/2 in by 1/4 in in the lower edge at 1 in": "notch in lid: 1/2 in by 1/4 in at 1 in along lower edge",
    "notch in lid: 1/2 in by 1/4 in at 1 in on the left": "notch in lid: 1/2 in by 1/4 in at 1 in along left edge",
    "notch in lid: 1/2 in by 1/4 in at 1 in, 2 in in the top side": "notch in lid: 1/2 in by 1/4 in at 1 in, 2 in along upper edge",
    "notch in lid: 1/2 in by 1/4 in at 1 in from the left along lower edge": (
        "notch in lid: 1/2 in by 1/4 in at 1 in along lower edge"
    ),
}


@pytest.mark.parametrize("line", OFFERED)
def test_an_edge_that_is_said_in_other_words_is_offered_as_the_line_has_it(line: str) -> None:
    (fault,) = Sheet(LID + line).faults
    assert isinstance(fault.advice, Advice)
    assert [offer.text for offer in fault.advice.offers] == [OFFERED[line]]
    assert not Sheet(LID + OFFERED[line]).faults


@pytest.mark.parametrize("end", ["at 1 in on the front", "at both ends"])
def test_no_line_is_offered_that_cannot_be_read(end: str) -> None:
    (fault,) = Sheet(f"{LID}notch in lid: 1/2 in by 1/4 in {end}").faults
    for offer in getattr(fault.advice, "offers", ()):
        assert not Sheet(LID + offer.text).faults


@pytest.mark.parametrize("line", ["2 holes in lid: 1/8 in at 1 in by 1 in", "1 hole in lid: 1/8 in at 1 in by 1 in", "3 notches in lid: 1/8 in by 1/8 in at 1 in along left"])  # fmt: skip
def test_how_many_is_told_by_the_places(line: str) -> None:
    (fault,) = Sheet(LID + line).faults
    assert fault.message.startswith("a line that cuts begins with ")
    assert "one line may have many places" in fault.advice


@pytest.mark.parametrize("word", ["hole", "slot", "notch", "corner", "wall"])
def test_a_line_that_cuts_names_its_part(word: str) -> None:
    """`wall: 1/16 in` was read as a size, and asked for no wall."""
    (fault,) = Sheet(f"{LID}{word}: 1/16 in").faults
    assert fault.message == f"a {word} is of a part, and the line names none"


@pytest.mark.parametrize("word", ["centre", "center", "middle"])
def test_the_middle_is_half_of_a_size(word: str) -> None:
    (fault,) = Sheet(f"{LID}hole in lid: 1/8 in at {word} by 1 in").faults
    assert "half" in str(fault.advice) or "half" in fault.message


SHAPES = {
    "part peg: 12 of brass, 1/8 in dia by 1 in": "part peg: 12 of brass, round 1/8 in by 1 in",
    "part peg: 12 of brass, Ø1/8 in by 1 in": "part peg: 12 of brass, round 1/8 in by 1 in",
    "part peg: 12 of brass, 3 mm dia. by 25 mm; eased": "part peg: 12 of brass, round 3 mm by 25 mm; eased",
    "part peg: 12 of brass, 1/4 in square by 1 in": "part peg: 12 of brass, square 1/4 in by 1 in",
    "part nut: 12 of brass, 1/4 in A/F by 1/8 in": "part nut: 12 of brass, hex 1/4 in by 1/8 in",
    "stock brass: 1/8 in rod, 12 in long": "stock brass: round 1/8 in, 12 in long",
    "stock brass: round 1/8 in, 12 in": "stock brass: round 1/8 in, 12 in long",
    "stock brass: round 1/8 in, 12 in long, kerf 1/32 in": "stock brass: round 1/8 in, 12 in long, saw 1/32 in",
    "stock brass: round 1/8 in, 12 in long, 1/32 in saw cut": "stock brass: round 1/8 in, 12 in long, saw 1/32 in",
    "hole in lid: 1/8 in at 3 across by 1 in first at 1/2 in by 1/2 in deep 1/8 in": (
        "hole in lid: 1/8 in at 3 across by 1 in first at 1/2 in, 1/2 in deep 1/8 in"
    ),
    "hole in lid: 1/8 in at 3 acros by 1 in first at 1/2 in, 1/2 in": (
        "hole in lid: 1/8 in at 3 across by 1 in first at 1/2 in, 1/2 in"
    ),
}


@pytest.mark.parametrize("line", SHAPES)
def test_a_line_in_the_words_of_a_list_is_offered_as_the_sheet_has_it(line: str) -> None:
    """A round bar was taken for flat stock, and its word left out: a silent wrong shape."""
    (fault,) = Sheet(LID + line).faults
    assert isinstance(fault.advice, Advice)
    assert [offer.text for offer in fault.advice.offers] == [SHAPES[line]]
    assert not Sheet(LID + SHAPES[line]).faults


def test_a_size_that_is_called_like_a_shape_is_a_size() -> None:
    sheet = Sheet("dia = 1/8 in\nrod = 1/4 in\npart peg: 2, round dia by 1 in\npart bar: 2, 2 * dia by rod\n")
    assert not sheet.faults
    assert sheet.parts["bar"].section == ""


def test_a_note_without_its_sign_is_told_the_sign() -> None:
    (fault,) = Sheet("note: fitted dry").faults
    assert fault.advice == "write # fitted dry"


THIN = "part runner: 2 of brass, 1/8 in by 3/4 in by 9 1/4 in\n"


@pytest.mark.parametrize(
    "line",
    [
        "hole in runner: 1/8 in at 1 in by 3/8 in",
        "notch in runner: 1/4 in by 3/16 in at 9 1/8 in along upper edge",
    ],
)
def test_a_thickness_that_stands_first_is_led_to_the_end_of_the_line(line: str) -> None:
    (fault,) = Sheet(THIN + line).faults
    assert "the first two sizes of runner: if it is 1/8 in (3.175 mm) thick" in fault.advice
    assert not Sheet(
        THIN.replace("1/8 in by 3/4 in by 9 1/4 in", "9 1/4 in by 3/4 in by 1/8 in") + line
    ).faults


def test_nothing_is_said_of_a_thickness_that_stands_last() -> None:
    (fault,) = Sheet(f"{LID}hole in lid: 1/8 in at 5 in by 1 in").faults
    assert "thick" not in fault.advice


def test_two_sizes_with_a_comma_are_offered_as_the_one_place_that_they_may_be() -> None:
    (fault,) = Sheet(f"{LID}hole in lid: 1/8 in at 1 in, 3/8 in deep 1/8 in").faults
    assert isinstance(fault.advice, Advice)
    assert [each.text for each in fault.advice.offers] == [
        "hole in lid: 1/8 in at 1 in by 3/8 in deep 1/8 in"
    ]
    assert not Sheet(LID + fault.advice.offers[0].text).faults
    (fault,) = Sheet(f"{LID}hole in lid: 1/8 in at 1 in, 2 in, 3 in").faults
    assert not getattr(fault.advice, "offers", ())


@pytest.mark.parametrize(
    ("line", "offer"),
    [("units in", "units inch first"), ("units feet and inches", "units inch first"), ("units in without feet", "units inch without feet")],
)  # fmt: skip
def test_what_is_to_lead_is_offered_as_it_was_typed(line: str, offer: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    assert str(caught.value.advice).endswith(offer)
