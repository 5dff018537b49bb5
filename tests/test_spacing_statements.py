"""Spacing as it is typed: names that are words elsewhere, what each form offers, places by name."""

from __future__ import annotations

import csv
import io
from fractions import Fraction

import pytest
from over_all import over

from fractions_shop import InputError, Session, Sheet
from fractions_shop.figures.drawing import NotDrawn
from fractions_shop.figures.paper import A4
from fractions_shop.layout.spacing import Spacing
from fractions_shop.prompt.word_offers import word_offers

#: Words that came into the language with the further forms of spacing.
WORDS = (
    "share", "places", "any", "and", "for", "by", "about", "apart", "along", "edges", "centres", "centers",
    "blocks", "spaces", "first", "most", "units", "without",
)  # fmt: skip


#: Where a name stands, and what the line comes to with 2 in for it.
_NAMED = (
    ("{}", 2), ("x = {}", 2), ("{} + 1 in", 3), ("{}+1 in", 3), ("{} - 1 in", 1), ("{} * 2", 4), ("{} / 2", 1),
    ("3 of {}", 6), ("{} as 16ths", 2), ("({})", 2), ("1 in + {}", 3), ("max({}, 1 in)", 2),
    ("divide {} into 4", Fraction(1, 2)), ("snap {} to 8ths", 2),
)  # fmt: skip


@over((word, *each) for word in WORDS for each in _NAMED)
def test_a_word_that_is_set_as_a_name_is_that_name(word: str, line: str, inch: Fraction) -> None:
    session = Session()
    session.answer(f"{word} = 2 in")
    answer = session.answer(line.format(word))
    assert answer is not None
    assert answer.value.inch == inch  # type: ignore[union-attr]


# A part's line has been cut at `by` since before.
@pytest.mark.parametrize("word", [word for word in WORDS if word != "by"])
def test_a_sheet_in_which_a_word_of_spacing_is_a_size_works_as_it_did(word: str) -> None:
    text = f"y = {word} * 2\n{word} = 2 in\ncheck {word} + 2 in = y\npart rail: 2 of brass, {word} by 1 in\n"
    sheet = Sheet(text)
    assert not sheet.faults
    assert sheet.sizes["y"].inch == 4  # type: ignore[union-attr]


def test_any_is_a_width_of_the_sheet_where_it_is_named() -> None:
    session = Session()
    free = session.answer("divide 10 in into 4 between any")
    assert free is not None
    assert not isinstance(free.result, Spacing)
    session.answer("any = 1/8 in")
    fixed = session.answer("divide 10 in into 4 between any")
    assert fixed is not None
    assert fixed.result.bodies.inch == Fraction(1, 8)


@pytest.mark.parametrize(
    "statement",
    [
        "divide 72 in for 13 of 1 1/2 in",
        "divide 72 in into 14 between 1 1/2 in",
        "divide 72 in into 14 between 1 1/2 in on 32nds leaving 1/4 in each end up",
        "divide 1830 mm for 9 of 38 mm on mm down",
    ],
)
def test_the_form_that_is_offered_has_as_many_spaces_and_offers_this_one_back(statement: str) -> None:
    """`(T - (n + 1) b) / n` and `(T - (n - 1) b) / n`: the two sums of plain division."""
    session = Session()
    answer = session.answer(statement)
    assert answer is not None
    (note,) = answer.notes
    offered = session.answer(note.text.partition(" write ")[2])
    assert offered is not None
    here, there = answer.result, offered.result
    assert (here.count, here.rule, here.ends, here.direction) == (
        there.count,
        there.rule,
        there.ends,
        there.direction,
    )
    assert here.outer != there.outer
    assert abs(here.exact - there.exact) == 2 * here.bodies / here.count
    (back,) = offered.notes
    assert session.answer(back.text.partition(" write ")[2]).result == here  # type: ignore[union-attr]


def test_no_room_offers_the_bodies_inside() -> None:
    with pytest.raises(InputError) as caught:
        Session().answer("divide 10 13/16 in into 4 between 3 5/16 in")
    (offer,) = caught.value.advice.offers  # type: ignore[attr-defined]
    assert offer.text == "divide 10 13/16 in for 3 of 3 5/16 in"
    answer = Session().answer(offer.text)
    assert answer is not None
    assert answer.value.inch == Fraction(7, 32)  # type: ignore[union-attr]


def test_places_are_named_shown_read_again_and_are_no_size() -> None:
    session = Session()
    session.answer("hinge = places 1 1/2 in, 7 in along 8 in")
    shown, again = session.answer("hinge"), session.answer("places hinge on mm")
    assert shown is not None
    assert again is not None
    assert shown.result.points == again.result.points
    assert (shown.result.rule.name, again.result.rule.name) == ("64ths", "mm")
    assert shown.used == ("hinge",)
    with pytest.raises(InputError, match="hinge is 2 places, where one size is needed"):
        session.answer("hinge + 1 in")
    session.answer("hinge = 2 in")
    assert session.answer("hinge + 1 in").value.inch == 3  # type: ignore[union-attr]


def test_places_of_a_sheet_are_drawn_on_out_of_order() -> None:
    sheet = Sheet("places bars on 16ths\nbars = mark 10 in into 4\ncircle = bolt_circle(4, 2 in)\ncircle\n")
    assert not sheet.faults


def test_marks_of_bodies_have_a_strip_with_a_mark_for_each() -> None:
    answer = Session().answer("mark 10 13/16 in for 3 of 3 5/16 in edges")
    assert answer is not None
    assert answer.room.pictures is not None
    drawings = answer.room.pictures(answer.result, "stile", A4)
    assert not isinstance(drawings, NotDrawn)
    strokes = [
        shape for drawing in drawings for shape in drawing.shapes if getattr(shape, "kind", "") == "mark"
    ]
    assert len(strokes) >= 6


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("sha", "share"), ("pla", "places"), ("share 2 in ", "among"), ("divide 72 in ", "for"),
        ("divide 72 in for any of 1 in ", "at most"), ("places 3 across by 2 in ", "first at"),
        ("places 1 in ", "along"), ("mark 2 in into 5 between 1/4 in ", "edges"),
    ],
)  # fmt: skip
def test_the_prompt_offers_the_words_of_spacing_where_they_can_stand(text: str, word: str) -> None:
    assert word in [offer.text for offer in word_offers(text, {}, asked=True)]


def test_named_places_are_rows_of_csv_on_their_own_rule() -> None:
    sheet = Sheet(
        "rule mm\npegs = places 2 across by 2 in first at 1/2 in, 3/4 in on 16ths\nbars = mark 2 in into 2\n"
    )
    rows = [
        (row["name"], row["fraction"], row["rule"], row["exact"], row["kind"], row["which"])
        for row in csv.DictReader(io.StringIO(sheet.to_csv()))
    ]
    assert rows == [
        ("pegs", "1/2 in", "16ths", "1/2", "place", "1 of 2 across"),
        ("pegs", "3/4 in", "16ths", "3/4", "place", "1 of 2 up"),
        ("pegs", "2 1/2 in", "16ths", "5/2", "place", "2 of 2 across"),
        ("pegs", "3/4 in", "16ths", "3/4", "place", "2 of 2 up"),
        ("bars", "0 mm", "mm", "0", "place", "1 of 3"),
        ("bars", "25 mm", "mm", "1", "place", "2 of 3"),
        ("bars", "51 mm", "mm", "2", "place", "3 of 3"),
    ]
