"""What makers typed and were advised badly on: the advice is now read, and means what was typed."""

from __future__ import annotations

import pytest

from fractions_shop import InputError, Session, Sheet, find_sizes
from fractions_shop.language.advice.offers import Advice
from fractions_shop.requests.meant_words import worth_telling

OFFERED = {
    "identify 0.108 in, 47 to 48 tpi": ["identify 0.108 in, 47.5 tpi"],
    "identify 0.105 to 0.108 in, 48 tpi": ["identify 0.1065 in, 48 tpi"],
    "recover 51 to 52 mm": ["recover 51.5 mm within 0.5 mm"],
    "recover 1/4 to 5/16 in, 13 mm": ["recover 9/32 in within 1/32 in, 13 mm"],
    "bay reads 10.2 to 10.4 mm": ["bay reads 10.3 mm within 0.1 mm"],
    "recover 25.4 mm bare": ["recover 25.4 mm within 0.1 mm"],
    "recover 25.4 mm bare, 13 mm": ["recover 25.4 mm within 0.1 mm, 13 mm"],
    "bay reads 1/4 in full": ["bay reads 1/4 in within 1/128 in"],
    "recover 25.4 mm shrunk": ["recover 25.4 mm shrunk up to 3 %"],
    "bay reads 25.4 mm shrunk up": ["bay reads 25.4 mm shrunk up to 3 %"],
    "recover 25.4 mm within": ["recover 25.4 mm within 0.05 mm"],
    "6 BA in metric": ["6 BA as mm", "substitute 6 BA from metric"],
    "convert 1/4 BSW to metric": ["1/4 BSW as mm", "substitute 1/4 BSW from metric"],
    "6 BA metric equivalent": ["substitute 6 BA from metric"],
    "6 BA in BSW": ["substitute 6 BA from BSW"],
    "M3 to unified": ["substitute M3 from unified"],
    "3/8 in in metric": ["3/8 in as mm"],
    "51.5 mm in imperial": ["51.5 mm as in"],
    "divide 14 in into 7 with 1/8 in gaps": ["divide 14 in for 6 of 1/8 in", "divide 14 in into 7 between 1/8 in"],
    "divide 14 in into 7 with a 1/8 in saw cut between": [
        "divide 14 in for 6 of 1/8 in",
        "divide 14 in into 7 between 1/8 in",
    ],
    "clearance(British No 4 wood screw)": ["British No 4 wood screw + 5 thou"],
    "tapping(US No 8 wood screw)": ["US No 8 wood screw + 5 thou"],
    "places 3 acros by 2 in": ["places 3 across by 2 in"],
    "No 5 cabinet screw": [
        "US No 5 wood screw", "British No 5 wood screw", "No 5-40 UNC", "No 5-44 UNF", "5 BA",
    ],
}  # fmt: skip


def refused(line: str) -> InputError:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    return caught.value


@pytest.mark.parametrize("line", OFFERED)
def test_what_is_offered_for_a_makers_words_is_answered(line: str) -> None:
    advice = refused(line).advice
    assert isinstance(advice, Advice)
    assert [offer.text for offer in advice.offers] == OFFERED[line]
    for offer in advice.offers:
        Session().answer(offer.text)


def test_a_small_word_with_a_slip_and_nothing_behind_it_is_put_right() -> None:
    assert refused("places 3 acros").advice == "the word is across, and more is to follow"


@pytest.mark.parametrize(
    "line", ["recover 1/0 to 2/3 in", "recover 3 5/4 to 6 in", "identify 0.1 to 0.05 in, 48 tpi"]
)
def test_a_range_that_is_none_is_still_a_plain_fault(line: str) -> None:
    assert refused(line).advice


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("3 1/4 x 1 in", ["3 1/4", "1 in"]),
        ("plate 3 1/4 x 1 in plate", ["3 1/4", "1 in"]),
        ("Tray 3 1/4 x 1 in.", ["3 1/4", "1 in."]),
        ("3 1/4 by 1 in strip", ["3 1/4", "1 in"]),
        ("sheet 3 1/4 × 1 in", ["3 1/4", "1 in"]),
        ("see plate 3, 1 in. wide", ["1 in."]),
        ("fig. 3/4 shows a bar", []),
    ],
)  # fmt: skip
def test_a_unit_behind_an_x_holds_for_both_sides_whatever_stands_before(text: str, found: list[str]) -> None:
    assert [item.written for item in find_sizes(text)] == found


PARTS = {
    "part rail: 3 of oak, 3 1/4 in, 2 in by 1/2 in": "part rail: 3 of oak, 3 1/4 in by 2 in by 1/2 in",
    "part rail: 3 of oak, 3 1/4, 2 1/2, 1/2 in": "part rail: 3 of oak, 3 1/4 in by 2 1/2 in by 1/2 in",
    "part rail: 3 of oak, 3 in by 2 in, 1/2 in; eased": "part rail: 3 of oak, 3 in by 2 in by 1/2 in; eased",
    "part rail: 3 of oak, 3 in by 2 in, 1/2 in, planed all round": (
        "part rail: 3 of oak, 3 in by 2 in by 1/2 in; planed all round"
    ),
    "part pin: 3 of brass, round 1/4 in, 2 in": "part pin: 3 of brass, round 1/4 in by 2 in",
}


@pytest.mark.parametrize("line", PARTS)
def test_a_part_line_with_commas_between_its_sizes_is_offered_with_by(line: str) -> None:
    (fault,) = Sheet(line).faults
    assert isinstance(fault.advice, Advice)
    assert [offer.text for offer in fault.advice.offers] == [PARTS[line]]
    assert not Sheet(PARTS[line]).faults


@pytest.mark.parametrize(
    "line",
    [
        "stock oak: 1 in by 1/2 in, 1,000 mm long",
        "stock oak: 1 in by 1/2 in, 36 in long, saw 1,5 mm",
        "part rail: 3 of oak, 1,000 mm by 1 in",
        "part rail: 1,000 of oak, 3 in by 1 in",
        "part rail: 3 of oak, 3 in by 1 in, 1,000 mm",
        "part rail: 3 of oak, 30 in by 10 in\nhole in rail: 1/4 in at 1 in by 1 in from 1,000 mm, 2 in",
    ],
)
def test_a_comma_between_two_figures_never_parts_a_line(line: str) -> None:
    fault = Sheet(line).faults[-1]
    assert "has a comma, which may mark decimals" in fault.message


@pytest.mark.parametrize("line", [
    "recover 51.5 mm shrunk up to 2 %", "recover 51.5 mm", "recover 51.5 mm, 66.6 mm, 10.2 mm shrunk up to 3 %",
    "recover 25.4 mm shrunk up to 5 %",
])  # fmt: skip
def test_every_size_that_a_verdict_names_stands_in_the_table(line: str) -> None:
    found = Session().answer(line)
    for weighed in found.result.readings:
        told = [candidate.name for candidate in worth_telling(weighed, 2)]
        (verdict,) = [text for text in found.text(width=400).splitlines() if told[0] in text][:1]
        named = verdict.removeprefix("Not settled: ").split(";")[0].replace(" or ", ", ").split(", ")
        if verdict.startswith("Not settled"):
            assert set(named) - {"none of the round sizes"} <= set(told)


@pytest.mark.parametrize("line", ["Cabinet No 5", "Tray No. 12", "Drawing no. 43"])
def test_the_number_of_a_thing_is_no_drill_and_no_screw(line: str) -> None:
    error = refused(line)
    assert "is the number of a" in error.message
    assert error.advice == f"as a note it stands behind a #: write # {line}"
