"""Lines of a sheet as makers write them: read as what they surely say, or led to the line that says it; never another size.

The forms are those of cutting lists, workshop drawings and their title blocks (common practice, no source).
"""

from __future__ import annotations

from itertools import product

import pytest

from fractions_shop import InputError, Sheet
from fractions_shop.language.advice.gate import figures
from fractions_shop.language.advice.offers import Advice
from fractions_shop.sheet.session import Session, places_of

GIVEN = """\
height = 11 23/32 in
lip = 1/16 in
part plate: 2 of brass, 7 in by 3 in by 1/8 in
part runner: 24 of brass, 1/16 in by 1/4 in by 11 in
"""

# Parts

#: How many and of what, and how the language has it; the sizes stand behind each.
HEADS = (
    "26 of brass, ", "26 off brass, ", "26 off, brass, ", "26 brass, ", "26 req'd, brass, ", "26 reqd brass, ", "26 pcs of brass, ",
    "26 pieces brass, ", "26 x brass, ", "qty 26 brass, ", "26, brass, ", "26 of brass ", "26 off brass ", "brass, 26 off, ",
)  # fmt: skip
#: Sizes in a maker's words, and in the language's.
SIZES = {
    "1/16 in by 1/4 in by 11 in": "1/16 in by 1/4 in by 11 in",
    "1/16 x 1/4 x 11 in": "1/16 in by 1/4 in by 11 in",
    '1/16" x 1/4" x 11"': "1/16 in by 1/4 in by 11 in",
    "1/16 x 1/4 x 11": "1/16 in by 1/4 in by 11 in",
    "1/16 in thick, 1/4 in wide, 11 in long": "1/16 in by 1/4 in by 11 in",
    "11 lg x 1/4 wide x 1/16 thk in": "11 in by 1/4 in by 1/16 in",
    "1/4 x 1 1/4 x height + 1/2 in": "1/4 in by 1 1/4 in by height + 1/2 in",
    "1/8 in dia x 1 in lg": "round 1/8 in by 1 in",
    "dia 1/8 in by 1 in": "round 1/8 in by 1 in",
    "3 mm dia x 25 mm long": "round 3 mm by 25 mm",
    "1/8 in diameter, 1 in long": "round 1/8 in by 1 in",
    "1 in long x 1/8 in dia": "round 1/8 in by 1 in",
    "5/16 in AF by 1/4 in": "hex 5/16 in by 1/4 in",
    "1/2 in OD x 3/8 in ID x 6 in": "tube 1/2 in by bore 3/8 in by 6 in",
    "tube 1/2 in x 3/8 in x 6 in": "tube 1/2 in by bore 3/8 in by 6 in",
}


def _part_meant(line: str) -> object:
    """The part of a line, or of the one line that is offered for it."""
    sheet = Sheet(GIVEN + line)
    if sheet.faults:
        (offer,) = _offers(line)
        sheet = Sheet(GIVEN + offer)
    assert not sheet.faults
    return sheet.parts["peg"]


def _offers(line: str) -> list[str]:
    (fault,) = Sheet(GIVEN + line).faults
    assert isinstance(fault.advice, Advice), fault
    return [offer.text for offer in fault.advice.offers]


@pytest.mark.parametrize("head", HEADS)
def test_a_part_is_the_same_in_every_order_and_every_word(head: str) -> None:
    for said, meant in SIZES.items():
        part = _part_meant(f"part peg: {head}{said}")
        wanted = Sheet(f"{GIVEN}part peg: 26 of brass, {meant}").parts["peg"]
        assert (part.count, part.material, part.section, part.sizes) == (
            wanted.count, wanted.material, wanted.section, wanted.sizes,
        ), f"{head}{said}"  # fmt: skip
        assert not part.note


@pytest.mark.parametrize("between", [" ", " - ", ", ", " ("])
def test_the_colon_that_is_missing_is_offered(between: str) -> None:
    for count, said in product(
        ("24 off brass, ", "24 of brass, "), ("1/16 x 1/4 x 11 in", "1/8 in dia x 1 in")
    ):
        rest = f"{count}{said}".replace("24 off ", "24 off) ", 1 if between == " (" else 0)
        if between == " (" and ")" not in rest:
            continue
        assert _part_meant(f"part peg{between}{rest}") == _part_meant(f"part peg: {count}{said}")


@pytest.mark.parametrize(
    ("line", "offers"),
    [
        ("part pegs: 8 off 1/4 in dia x 1 in lg brass rod", ["part pegs: 8 of brass, round 1/4 in by 1 in"]),
        ("part screws: 8 off 6 BA x 1/2 in csk", ["part screws: 8, round 6 BA by 1/2 in; csk"]),
        ("part rod: 2 of brass rod, 1/4 in by 12 in", ["part rod: 2 of brass, round 1/4 in by 12 in"]),
        ("part rod: 2 of round steel, 1/4 in by 12 in", ["part rod: 2 of steel, round 1/4 in by 12 in"]),
        ("part shelf: 2 (1 LH, 1 RH) of pine, 12 in by 8 in", ["part shelf: 2 of pine, 12 in by 8 in; 1 LH, 1 RH"]),
        ("part shelf: two of pine, 12 in by 8 in", ["part shelf: 2 of pine, 12 in by 8 in"]),
        ("part shelf: a pair of pine, 12 in by 8 in", ["part shelf: 2 of pine, 12 in by 8 in"]),
        ("part shelf: 2 of pine, as drg", ["part shelf: 2 of pine; as drg"]),
        ("part shelf: 2 of pine, 12 x 8", ["part shelf: 2 of pine, 12 in by 8 in", "part shelf: 2 of pine, 12 mm by 8 mm"]),
        ("part shelf: 2 of pine, 12 by 8 by 3/4 in", ["part shelf: 2 of pine, 12 in by 8 in by 3/4 in"]),
        ("part: shelf, 2 off, pine, 12 x 8 x 3/4 in", ["part shelf: 2 of pine, 12 in by 8 in by 3/4 in"]),
        ("shelf: 2 off pine, 12 in by 8 in", ["part shelf: 2 of pine, 12 in by 8 in"]),
        ("2 off shelf, pine, 12 in by 8 in", ["part shelf: 2 of pine, 12 in by 8 in"]),
        ("2 shelves of pine, 12 in by 8 in", ["part shelves: 2 of pine, 12 in by 8 in"]),
    ],
)  # fmt: skip
def test_the_part_line_that_is_meant_is_offered(line: str, offers: list[str]) -> None:
    assert _offers(line) == offers
    assert not any(Sheet(GIVEN + offer).faults for offer in offers)


@pytest.mark.parametrize(
    ("line", "note"),
    [
        ("part peg: 2 of oak, 1 in by 2 in, ease the back edge", "ease the back edge"),
        ("part peg: 2 of oak, 1 in by 2 in (ease the back edge)", "ease the back edge"),
        ("part peg: 2 of oak, 1 in by 2 in. Ease the back edge.", "Ease the back edge"),
        ("part peg: 2 of oak, 1 in by 2 in - ease the back edge; oiled", "ease the back edge; oiled"),
        ("part peg: 2 of oak, 1 in by 2 in finished", "finished"),
        ("part peg: 2 of oak, 1 in by 2 in approx; oiled", "approx; oiled"),
    ],
)
def test_words_behind_the_sizes_are_the_note_and_stand_in_the_print(line: str, note: str) -> None:
    sheet = Sheet(line)
    assert not sheet.faults
    assert sheet.parts["peg"].note == note
    assert list(map(str, sheet.parts["peg"].sizes)) == ["1 in", "2 in"]
    assert not sheet.parts["peg"].notes
    for form in (sheet.to_text(), sheet.to_markdown(), sheet.to_csv("parts"), sheet.to_html()):
        assert note in " ".join(form.split())


def test_a_dash_before_a_name_takes_it_off() -> None:
    assert str(Sheet(f"{GIVEN}part peg: 2 of oak, 11 in - lip").parts["peg"].sizes[0]) == "10 15/16 in"


def test_sizes_that_stand_in_the_note_alone_are_remarked_on() -> None:
    sheet = Sheet("part peg: 2 of oak; 1 in by 2 in by 3 in")
    assert "sizes stand behind a comma" in sheet.parts["peg"].notes[0].text
    assert not Sheet("part screws: 8 of brass; 4 BA").parts["screws"].notes


def test_words_that_describe_a_material_with_a_size_stay_in_it() -> None:
    assert Sheet("part shelf: 2 of 3/4 in pine, 12 in by 8 in").parts["shelf"].material == "3/4 in pine"


def test_a_count_without_a_number_is_shown_as_an_example() -> None:
    (fault,) = Sheet("part peg: 1/16 in by 1/4 in by 11 in").faults
    assert fault.advice == "write it like this: part peg: 1, 1/16 in by 1/4 in by 11 in for one of it"


def test_the_number_of_a_wood_screw_is_no_inch() -> None:
    (fault,) = Sheet("part screws: 8 of brass, 8 x 1/2 in woodscrews").faults
    assert "8 in by" not in fault.sentence


# What is cut in parts


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("hole in plate: tap 6 BA at 1 in by 1 in", "hole in plate: tapping(6 BA) at 1 in by 1 in"),
        ("hole in plate: tapped 6 BA at 1 in by 1 in", "hole in plate: tapping(6 BA) at 1 in by 1 in"),
        ("hole in plate: 6 BA tapping at 1 in by 1 in", "hole in plate: tapping(6 BA) at 1 in by 1 in"),
        ("hole in plate: 6 BA clear at 1 in by 1 in", "hole in plate: clearance(6 BA) at 1 in by 1 in"),
        ("hole in plate: No 30 at 1 in by 1 in", "hole in plate: No 30 drill at 1 in by 1 in"),
        ("hole in plate: #30 at 1 in by 1 in", "hole in plate: No 30 drill at 1 in by 1 in"),
        ("hole in plate: 1/8 in @ 1 in by 1 in", "hole in plate: 1/8 in at 1 in by 1 in"),
        ("hole in plate: 1/8 at 1/2 by 1 in", "hole in plate: 1/8 in at 1/2 in by 1 in"),
        ("hole in plate: 1/8 in at 1 in by 1 in deep 1/16", "hole in plate: 1/8 in at 1 in by 1 in deep 1/16 in"),
        ("hole in plate: 1/8 in at 1 in by 1 in, 1/16 in deep", "hole in plate: 1/8 in at 1 in by 1 in deep 1/16 in"),
        ("hole in plate: 1/8 in at 1 in by 1 in csk 1/4 in", "hole in plate: 1/8 in at 1 in by 1 in sunk 1/4 in"),
        ("hole in plate: 1/8 in at 1 in by 1 in countersunk 1/4 in dia 90 deg", "hole in plate: 1/8 in at 1 in by 1 in sunk 1/4 in, 90 deg"),
        ("hole in plate: 1/8 in at 1 in from left, 2 in from bottom", "hole in plate: 1/8 in at 1 in by 2 in"),
        ("hole in plate: 1/8 in at 2 in from bottom, 1 in from left", "hole in plate: 1/8 in at 1 in by 2 in"),
        ("hole in plate: 1/8 in at x 1 in y 2 in", "hole in plate: 1/8 in at 1 in by 2 in"),
        ("hole in plate: 1/8 in at (1 in, 2 in), (3 in, 2 in)", "hole in plate: 1/8 in at 1 in by 2 in, 3 in by 2 in"),
        ("hole in plate 1/8 in at 1 in by 1 in", "hole in plate: 1/8 in at 1 in by 1 in"),
        ("hole 1/8 in in plate at 1 in by 1 in", "hole in plate: 1/8 in at 1 in by 1 in"),
        ("holes in plate: 1/8 in at 1 in by 1 in", "hole in plate: 1/8 in at 1 in by 1 in"),
        ("slot in plate: 1/8 in wide x 1 in long at 1 in by 1 in", "slot in plate: 1 in by 1/8 in at 1 in by 1 in"),
        ("slot in plate: 1 in by 1/8 in at 1 in by 1 in at 45 deg", "slot in plate: 1 in by 1/8 in at 1 in by 1 in turned 45 deg"),
        ("slot in plate: 1 in by 1/8 in at 1 in by 1 in vertical", "slot in plate: 1 in by 1/8 in at 1 in by 1 in turned 90 deg"),
        ("notch in plate: 1/4 in deep by 1/2 in wide at 1 in along lower edge", "notch in plate: 1/2 in by 1/4 in at 1 in along lower edge"),
        ("corner in plate: 1/8 R", "corner in plate: 1/8 in"),
        ("corners in plate: 1/8 in", "corner in plate: 1/8 in"),
    ],
)  # fmt: skip
def test_the_cut_that_is_meant_is_offered(line: str, offer: str) -> None:
    assert _offers(line) == [offer]
    assert not Sheet(GIVEN + offer).faults


@pytest.mark.parametrize(
    "line",
    [
        "hole in plate: 1/8 in csk at 1 in by 1 in",
        "hole in plate: 1/8 in at 1 in by 1 in csk",
        "hole in plate: 1/8 in blind at 1 in by 1 in",
        "hole in plate: 1/8 in tapped at 1 in by 1 in",
        "hole in plate: 1/8 in square at 1 in by 1 in",
        "hole in plate: 1/8 in counterbored at 1 in by 1 in",
        "hole in plate: 1/8 in at 1 in ctrs",
        "hole in plate: 1/8 in, 1/2 in from each end",
        "hole in plate: 1/8 in in the middle",
        "slot in plate: 1 in by 1/8 in deep at 1 in by 1 in",
        "notch in plate: 1/2 in deep by 1/4 in at 1 in along lower edge",
        "stock brass: 2 off 1/16 in by 1/4 in, 36 in long",
        "stock brass: dia 1/4 in by 1/8 in, 36 in long",
        "corner in plate: 1/8 in chamfer",
        "part box: 1 of oak, 12 in inside by 8 in by 6 in",
        "part ring: 2 of brass tube, 1 in by 12 in",
    ],
)
def test_no_word_that_asks_for_another_cut_is_left_out(line: str) -> None:
    sheet = Sheet(GIVEN + line)
    assert len(sheet.faults) == 1
    (fault,) = sheet.faults
    assert fault.advice
    assert not sheet.cut_parts["plate"].cuts


@pytest.mark.parametrize("many", ["4 off", "4 x", "4 of", "4 holes", "4 holes of"])
def test_how_many_holes_there_are_is_no_size_and_is_borne_out_by_the_places(many: str) -> None:
    places = "4 across by 1 in first at 1 in, 1 in"
    (cut,) = Sheet(f"{GIVEN}hole in plate: {many} 1/8 in at {places}").cut_parts["plate"].cuts
    (same,) = Sheet(f"{GIVEN}hole in plate: 1/8 in at {places}").cut_parts["plate"].cuts
    assert cut.feature.cut == same.feature.cut
    (fault,) = Sheet(f"{GIVEN}hole in plate: {many} 1/8 in at 1 in by 1 in, 2 in by 1 in").faults
    assert "says 4 holes, and its places are 2" in fault.message


@pytest.mark.parametrize("word", ["through", "thro", "thru", ", through", "thro'"])
def test_a_hole_may_be_said_to_go_through(word: str) -> None:
    line = "hole in plate: 1/8 in at 1 in by 1 in"
    (cut,) = Sheet(f"{GIVEN}{line} {word}").cut_parts["plate"].cuts
    (same,) = Sheet(GIVEN + line).cut_parts["plate"].cuts
    assert cut.feature.cut == same.feature.cut
    assert Sheet(f"{GIVEN}{line} deep 1/16 in {word}").faults


# Stock


@pytest.mark.parametrize(
    ("line", "offers"),
    [
        ("stock brass 1/16 by 1/4: 3 ft lengths", ["stock brass: 1/16 in by 1/4 in, 3 ft long"]),
        ("stock beech 1/2 x 1 1/4: 4 ft", ["stock beech: 1/2 in by 1 1/4 in, 4 ft long"]),
        ("stock brass: 1/16 by 1/4 in, 3 ft long", ["stock brass: 1/16 in by 1/4 in, 3 ft long"]),
        ("stock brass: 1/16 in by 1/4 in, 3 ft lengths", ["stock brass: 1/16 in by 1/4 in, 3 ft long"]),
        ("stock brass: 1/16 in by 1/4 in in 3 ft lengths", ["stock brass: 1/16 in by 1/4 in, 3 ft long"]),
        ("stock brass: 3 ft of 1/16 in by 1/4 in", ["stock brass: 1/16 in by 1/4 in, 3 ft long"]),
        ('stock brass: round 1/4 in, 36 in long, kerf: 1/16"', ['stock brass: round 1/4 in, 36 in long, saw 1/16"']),
        ("stock brass rod: 1/4 in dia x 36 in", ["stock brass: round 1/4 in, 36 in long"]),
        ("stock brass: 1/4 in round rod, 36 in long", ["stock brass: round 1/4 in, 36 in long"]),
        ("stock: brass, 1/16 in by 1/4 in, 36 in long", ["stock brass: 1/16 in by 1/4 in, 36 in long"]),
        ("stock brass: sheet 12 x 24 x 1/16 in", ["stock brass: sheet 1/16 in, 12 in by 24 in"]),
        ("stock brass sheet: 1/16 in, 12 in by 24 in", ["stock brass: sheet 1/16 in, 12 in by 24 in"]),
        ("stock ply: 4 ft by 8 ft sheet of 1/4 in", ["stock ply: sheet 1/4 in, 4 ft by 8 ft"]),
        ("stock ply: 1/4 in by 4 ft by 8 ft", ["stock ply: 1/4 in by 4 ft, 8 ft long", "stock ply: sheet 1/4 in, 4 ft by 8 ft"]),
    ],
)  # fmt: skip
def test_the_stock_line_that_is_meant_is_offered(line: str, offers: list[str]) -> None:
    assert _offers(line) == offers
    assert not any(Sheet(GIVEN + offer).faults for offer in offers)


# Lines that are no statements

#: A line of a drawing or of a notebook, and the line of a sheet that it is.
LINES = {
    "title: Tray ladder": "## Tray ladder", "=== Ladder ===": "## Ladder", "TRAY LADDER": "# TRAY LADDER",
    "mat'l: brass": "# mat'l: brass", "mat: 1/16 in brass": "# mat: 1/16 in brass", "scale 1:2": "# scale 1:2",
    "scale: full size": "# scale: full size", "NTS": "# NTS", "not to scale": "# not to scale", "drg no 147": "# drg no 147",
    "ref drg 12": "# ref drg 12", "sheet 1 of 3": "# sheet 1 of 3", "tools: 1/8 in drill, 6 BA tap": "# tools: 1/8 in drill, 6 BA tap",
    "tool 3 mm end mill": "# tool 3 mm end mill", "finish: lacquer": "# finish: lacquer", "date: 3 May 1926": "# date: 3 May 1926",
    "drawn by: the maker": "# drawn by: the maker", "qty 2": "# qty 2", "2 req'd": "# 2 req'd", "break sharp edges": "# break sharp edges",
    "break all edges 1/64 in": "# break all edges 1/64 in", "deburr": "# deburr", "tolerance: 5 thou": "# tolerance: 5 thou",
    "general tolerance ±0.1 mm": "# general tolerance ±0.1 mm", "check pegs fit": "# check pegs fit", "// worn": "# worn",
    "-- off the worn one": "# off the worn one", "readings off the worn ladder:": "# readings off the worn ladder:",
    "dovetail in plate: 1 in": "# dovetail in plate: 1 in",
    "rev B lip raised 1/32 in": "rev B: lip raised 1/32 in", "issue B: lip raised 1/32 in": "rev B: lip raised 1/32 in", "rev. B - lip raised": "rev B: lip raised",
    "units: mm": "units mm first", "units = inches": "units inch first", "all dims in inches": "units inch first", "dimensions in mm": "units mm first",
    "rule: 64ths": "rule 64ths", "rule = 64ths": "rule 64ths", "rule 1/64 in": "rule 64ths",
    "ends 3/8 in": "ends = 3/8 in", "ends: 3/8 in": "ends = 3/8 in", "wide := 2 in": "wide = 2 in", "wide -> 2 in": "wide = 2 in", "1. wide = 2 in": "wide = 2 in",
    "- wide = 2 in": "wide = 2 in", 'kerf: 1/16"': 'kerf = 1/16"', "saw kerf 1/32 in": "kerf = 1/32 in", "allow 1/16 in for saw cuts": "kerf = 1/16 in",
    "8 off 6 BA x 1/2 in csk": "part 6 BA csk: 8, round 6 BA by 1/2 in; 6 BA x 1/2 in csk",
}  # fmt: skip


@pytest.mark.parametrize("line", LINES)
def test_a_line_that_is_no_statement_is_led_to_the_one_that_it_is(line: str) -> None:
    assert _offers(line) == [LINES[line]]
    assert not Sheet(GIVEN + LINES[line]).faults


@pytest.mark.parametrize(
    "line",
    [
        "divide height into", "snap height to", "mark height for", "check lip clears height", "height +", "tool = 3 in", "scale = 2",
        "kerf = 1/16 in", "finish = 3/4 in",
    ],
)  # fmt: skip
def test_a_statement_that_is_right_or_only_stops_too_soon_is_no_note(line: str) -> None:
    assert all("#" not in fault.advice for fault in Sheet(GIVEN + line).faults)


@pytest.mark.parametrize(
    ("line", "lead"),
    [("units inch", "inch"), ("units inches", "inch"), ("units imperial", "inch"), ("units mm", "mm"), ("units metric", "mm")],
)  # fmt: skip
def test_units_may_be_said_without_first(line: str, lead: str) -> None:
    assert Session().answer(line).result == Session().answer(f"units {lead} first").result


# Statements

STATEMENTS = {
    "slot_w = recover 3.24 mm 3.19 mm 3.27 mm by caliper": [
        "slot_w reads 3.24 mm, 3.19 mm, 3.27 mm by caliper"
    ],
    "slot_w = recover 3.24, 3.19, 3.27 mm by caliper": ["slot_w reads 3.24 mm, 3.19 mm, 3.27 mm by caliper"],
    "slot_w reads 3.24 mm 3.19 mm 3.27 mm": ["slot_w reads 3.24 mm, 3.19 mm, 3.27 mm"],
    "slot_w = 3.24, 3.19, 3.27 mm": ["slot_w reads 3.24 mm, 3.19 mm, 3.27 mm"],
    "holes = 4 across 7 in, 3/4 in from each end": ["holes = mark 7 in into 3 leaving 3/4 in each end"],
    "mark 5 holes across height, ends 3/8 in": ["mark height into 4 leaving 3/8 in each end"],
    "mark 5 holes across height, 3/8 in each end": ["mark height into 4 leaving 3/8 in each end"],
    "mark 5 across height": ["mark height into 4", "mark height into 6"],
    'runner_l = 7" - 2 x lip': ['runner_l = 7" - 2 * lip'],
    "check height is 11 3/4 in to 1/16 in": ["check height = 11 3/4 in within 1/16 in"],
    "assume wide = 11 3/4 in": ["wide = 11 3/4 in"],
}


@pytest.mark.parametrize("line", STATEMENTS)
def test_the_statement_that_is_meant_is_offered_and_answered(line: str) -> None:
    assert _offers(line) == STATEMENTS[line]
    assert not any(Sheet(GIVEN + offer).faults for offer in STATEMENTS[line])


def test_marks_between_two_ends_alike_stand_where_the_line_says() -> None:
    (offer,) = _offers("holes = 4 across 7 in, 3/4 in from each end")
    answer = Session().answer(offer)
    assert answer is not None
    # 3/4 in from each end, and a third of what lies between them from one to the next.
    assert [str(point[0]) for point in places_of(answer.result)] == [
        "3/4 in",
        "2 7/12 in",
        "4 5/12 in",
        "6 1/4 in",
    ]


@pytest.mark.parametrize("line", ["sizes = 3, 5, 7 mm", "bays = 2 in, 3 in", "slot_w = 1, 1.05"])
def test_sizes_that_lie_apart_or_say_no_unit_are_no_readings(line: str) -> None:
    assert all("reads" not in fault.advice for fault in Sheet(GIVEN + line).faults)


@pytest.mark.parametrize(
    "line", ["4 holes No 30 equally spaced on 2 in PCD", "holes 4 off No 30 at 3/4 in ctrs"]
)
def test_holes_without_their_part_are_shown_as_a_line_of_one(line: str) -> None:
    (fault,) = Sheet(GIVEN + line).faults
    assert fault.advice.startswith("write it like this: hole in label frame: ")
    shown = fault.advice.removeprefix("write it like this: ")
    assert not Sheet(f"part label frame: 3 of brass, 2 in by 7/8 in by 1/16 in\n{shown}").faults


# How a fault is told

FAULTY = """\
part lid: 1 of oak, 5 in by 3 in by 3/8 in
part peg: 2 of oak, 1/2 x
hole in lid: 1/4 in at 1 in by 9 in
stock oak: 1/2 in, 12 in long
check nowhere = 2 in
part rod: 2 of oak, round wide by 1 in
wide = 2 in +
"""


@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_a_fault_is_told_whole_once_among_the_lists_and_the_others_point_to_it(width: int) -> None:
    sheet = Sheet(FAULTY)
    lists = sheet.to_text(width).partition("\nFaults\n")[2]
    flat = " ".join(lists.split())
    assert len(sheet.faults) == 5
    for fault in sheet.faults:
        assert flat.count(" ".join(fault.message.split())) == 1, fault
        assert not fault.advice or " ".join(fault.advice.split()) in flat
        assert " ".join(fault.text.split()) in flat
    for number in (2, 3, 4, 5):
        assert f"see Faults, line {number}" in flat
    assert "waits for wide (line 7)" in flat


def test_under_each_line_at_fault_stand_what_is_wrong_and_how_to_write_it() -> None:
    text = Sheet("wide = 2 inn\nhigh = 3 in\n").to_text()
    assert ("  line  what it says, and what is wrong\n  1     wide = 2 inn\n") in text
    listed = text.partition("Faults\n")[2].partition("\n\n")[0].splitlines()
    assert len(listed) == 7, listed


def test_no_exit_loses_the_whole_of_a_fault() -> None:
    sheet = Sheet(FAULTY)
    data = {line["line"]: line for line in sheet.to_data()["lines"]}
    for fault in sheet.faults:
        for form in (sheet.to_text(300), sheet.to_markdown(), sheet.to_csv()):
            assert fault.message in " ".join(form.replace("\\", "").split())
        assert fault.message in str(data[fault.line])


@pytest.mark.parametrize(
    "head",
    ["part p: ", "part p: 2 of oak, ", "part p: 2 of ", "stock oak: ", "hole in p: ", "slot in p: 1 in by ", "n = ", "n reads ", "kerf "],
)  # fmt: skip
def test_no_line_of_figures_that_are_none_is_more_than_a_fault(head: str) -> None:
    for rest in (
        "9" * 180,
        "1/0 in x 2 in",
        "2 5/4 x 3 in",
        "9" * 60 + " x 2 in",
        "1/0",
        "3 in x 1/0",
        "1/2 " * 48,
        "x" * 190,
    ):
        sheet = Sheet(f"part p: 1 of oak, 2 in by 1 in\n{head}{rest}")
        assert len(sheet.to_text()) > 0


def test_corners_of_no_part_are_refused() -> None:
    for line in ("corners 1/8 in rad", "radius corners 1/8 in"):
        (fault,) = Sheet(GIVEN + line).faults
        assert "corner in label frame" in fault.advice


def test_no_figure_of_a_line_is_lost_or_made_in_what_is_offered_for_it() -> None:
    """The gate's law, over the tables above: what is worked out (a pair, a rule's parts, a note) aside."""
    heads = [f"part peg: {head}{said}" for head, said in product(HEADS, SIZES)]
    for line in heads:
        for fault in Sheet(GIVEN + line).faults:
            assert isinstance(fault.advice, Advice), line
            for offer in fault.advice.offers:
                assert sorted(map(str, figures(offer.text))) == sorted(map(str, figures(line))), offer.text


def test_the_lines_offered_are_refused_no_more_than_they_were() -> None:
    with pytest.raises(InputError):
        Session().answer("part peg: 26 off brass, 1/4 in")
