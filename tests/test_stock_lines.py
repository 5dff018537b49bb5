"""Stock lines: which parts are cut from what, and that it reaches every output."""

from __future__ import annotations

import csv
import io
import json
from fractions import Fraction
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from overprinting import overprinted

import fractions_shop as fs
from fractions_shop import InputError, Quantity, Sheet
from fractions_shop.requests import data
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.living import LivingSheet
from fractions_shop.sheet.rows import Rows
from fractions_shop.sheet.tools import Tool
from fractions_shop.sheet.worked_stock import PartStock

PARTS = """\
part runner: 24 of brass, 1/16 in by 1/4 in by 11 in
part tongue: 10 of Brass, 1/4 in by 1/16 in by 2 in
part pivot: 6 of brass, round 1/4 in by 7/8 in +- 1/64 in
part sleeve: 3 of brass, tube 1/2 in by bore 3/8 in by 2 in
part label: 12 of card, 2 in by 1 in
part back: 2 of ply, 1/4 in by 10 in by 20 in
part frame screw: 24 of brass, round 6 BA by 1/2 in
part lock screw: 2 of brass, round 6 BA by 1/2 in
"""
FLAT = "stock brass: 1/16 in by 1/4 in, 36 in long, saw 1/32 in"


def worked(text: str) -> Sheet:
    return Sheet.from_text(text).run()


def stock_of(text: str) -> PartStock:
    sheet = worked(text)
    assert not sheet.faults, sheet.faults
    stock = sheet.to_buy.stock[-1].stock
    assert stock is not None
    return stock


def cut_from(line: str, parts: str = PARTS) -> list[str]:
    return [piece.name for piece in stock_of(parts + line).pieces]


@pytest.mark.parametrize(
    ("line", "names"),
    [
        (FLAT, ["runner", "tongue"]),
        ("stock brass: 1/4 in by 1/16 in, 3 ft long", ["runner", "tongue"]),
        ("stock BRASS: round 1/4 in, 12 in long", ["pivot"]),
        ("stock brass: tube 1/2 in by bore 3/8 in, 12 in long", ["sleeve"]),
        ("stock brass: tube 1/2 in by bore 1/4 in, 12 in long", []),
        ("stock brass: round 5/16 in, 12 in long", []),
        ("stock steel: round 1/4 in, 12 in long", []),
        ("stock card: sheet, 8 in by 10 in", ["label"]),
        ("stock ply: sheet 1/4 in, 2 ft by 4 ft", ["back"]),
        ("stock ply: sheet 1/4 in", ["back"]),
        ("stock ply: sheet 1/8 in", []),
    ],
)
def test_a_stock_has_the_parts_of_its_material_and_section(line, names):
    assert cut_from(line) == names


def test_a_stock_may_stand_above_its_parts_and_the_names_they_are_worked_out_from():
    above = stock_of(f"{FLAT}\nlong = 2 * 5 1/2 in\npart runner: 24 of brass, 1/16 in by 1/4 in by long")
    below = stock_of(f"part runner: 24 of brass, 1/16 in by 1/4 in by 11 in\n{FLAT}")
    assert above.cutting == below.cutting


def test_a_part_is_cut_from_the_first_stock_that_has_it_and_the_second_says_so():
    sheet = worked(f"{PARTS}{FLAT}\nstock brass: 1/16 in by 1/4 in, 72 in long")
    first, second = (item.stock for item in sheet.to_buy.stock)
    assert [piece.name for piece in first.pieces] == ["runner", "tongue"]
    assert (second.pieces, second.elsewhere) == ((), (("runner", 9), ("tongue", 9)))
    assert "runner is cut from the stock on line 9" in sheet.to_text()


def test_a_piece_is_cut_to_its_largest_from_a_bar_at_its_shortest():
    line = "stock brass: round 1/4 in, 5 1/4 in +- 1/16 in long"
    stock = stock_of(PARTS + line)
    assert stock.cutting.length == Quantity.inches(Fraction(83, 16))
    assert [cut.size for bar in stock.cutting.bars for cut in bar.cuts] == [
        Quantity.inches(Fraction(57, 64))
    ] * 2
    assert stock.cutting.many == 2  # six of 7/8 in would just have fitted 5 1/4 in
    # 22.621875 mm is not told as 22.6219, which would be beyond the limit.
    assert "57/64 in (about 22.6218 mm)" in Sheet.from_text(PARTS + line).to_text(200)


def test_a_piece_longer_than_the_bar_is_at_fault_with_the_figures():
    sheet = worked(PARTS + "stock brass: 1/16 in by 1/4 in, 10 63/64 in long")
    assert [str(fault) for fault in sheet.faults] == [
        "runner (line 1), 11 in (279.4 mm), is larger than the bar, 10 63/64 in (279.003125 mm): by 1/64 in (0.396875 mm) (column 33)\n"
        "  stock brass: 1/16 in by 1/4 in, 10 63/64 in long\n"
        "                                  ^^^^^^^^^^^\n"
        "name a longer bar, or a shorter part"
    ]  # fmt: skip


def test_a_piece_that_no_sheet_has_either_way_round_is_at_fault():
    turned = worked("part back: 1 of ply, 1/4 in by 10 in by 20 in\nstock ply: sheet 1/4 in, 20 in by 10 in")
    assert not turned.faults
    sheet = worked("part back: 1 of ply, 1/4 in by 10 in by 20 in\nstock ply: sheet 1/4 in, 9 in by 40 in")
    assert "back (line 1), 10 in (254 mm), is larger than the sheet, 9 in (228.6 mm): by 1 in" in str(
        sheet.faults[0]
    )


def test_a_cut_list_is_not_given_short_while_a_part_is_at_fault():
    sheet = worked("part runner: 24 of brass, 1/16 in by 1/4 in by lung\n" + FLAT)
    assert sheet.worked[1].waits[0].line == 1
    assert "waits for part runner (line 1)" in sheet.to_text()
    # One that cannot be read at all may be of any material.
    sheet = worked("part runner of brass\n" + FLAT)
    assert sheet.worked[1].state == "waits"
    # One of another material or shape holds nothing up.
    sheet = worked("part runner: 24 of steel, 1/16 in by 1/4 in by lung\n" + FLAT)
    assert sheet.worked[1].state == "answered"


def test_a_doubtful_length_is_marked_in_the_cut_list():
    sheet = worked("long reads 11.02 in\npart runner: 24 of brass, 1/16 in by 1/4 in by long\n" + FLAT)
    text = sheet.to_text(200)
    cuts = text[text.index("Cut list") :]
    assert "24 of runner *" in cuts or "3 of runner *" in cuts
    assert "* as said beneath Parts to make: long" in cuts
    assert "* long (line 1) is taken from a reading" in text
    assert sheet.doubts.resting == {2, 3}
    assert "DOUBTFUL" in sheet.to_svg()


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("stock brass round 1/4 in, 12 in long", "needs a colon"),
        ("stock : round 1/4 in, 12 in long", "names its material"),
        ("stock brass: , 12 in long", "says the section"),
        ("stock brass: round 1/4 in", "says how long a bar is"),
        ("stock brass: round 1/4 in, 12 in", "is followed by long"),
        ("stock brass: 1/4 in, 12 in long", "told by two sizes"),
        ("stock brass: 1/4 in by 1 in by 2 in, 12 in long", "told by two sizes"),
        ("stock brass: tube 1/2 in by bore 1/4 in by 2 in, 12 in long", "told by outside and bore"),
        ("stock brass: round 1/4 in, 12 in long, 1/32 in", "at most what the saw takes"),
        ("stock brass: round 1/4 in, 12 in long, saw 1/32 in, 3", "at most what the saw takes"),
        ("stock brass: round 1/4 in, 12 long, saw 1/32 in", "is a length"),
        ("stock brass: round 1/4 in, 12 in long, saw 1/32", "is a length"),
        ("stock brass: round 1/4 in, -12 in long", "must be above zero"),
        ("stock ply: sheet 1/4 in, 24 in", "its width by its length"),
        ("stock ply: sheet 1/4 in, 24 in by 48 in, saw 1/8 in", "and no more"),
        ("stock ply: sheet 4 mm 2, 24 in by 48 in", ""),
    ],
)
def test_what_is_wrong_with_a_stock_line_is_said_with_its_place(line, said):
    sheet = worked(line)
    assert [fault.line for fault in sheet.faults] == [1]
    assert said in sheet.faults[0].message


def test_advice_on_stock_lines_is_a_stock_line_that_can_be_read():
    from fractions_shop.sheet.stock_lines import ADVICE, SHEET_ADVICE

    for advice in (ADVICE, SHEET_ADVICE):
        line = advice.split("write it like this: ")[1]
        assert worked(line).worked[0].stock is not None


@pytest.mark.parametrize("line", [
    "stock = 2 in", "stock reads 43.7 mm scale 1:2", "stock / 2", "stock as mm", "stock - 1/8 in", "stock 1/4 in",
])  # fmt: skip
def test_a_size_called_stock_is_no_stock_line(line):
    assert read_lines(line)[0].kind == "statement"


def test_what_is_bought_by_name_is_added_up():
    needs = worked(PARTS + FLAT).to_buy
    assert [(each.name, each.count, each.parts) for each in needs.hardware] == [
        ("6 BA", 26, (("frame screw", 7), ("lock screw", 8)))
    ]
    assert [item.line.part_name for item in needs.without_stock] == ["pivot", "sleeve", "label", "back"]
    # Without any stock line it was not asked what things are cut from.
    assert worked(PARTS).to_buy.without_stock == ()


def test_a_part_whose_stock_is_at_fault_is_not_said_to_have_none():
    # The sheet of brass is too small for one part, so that the other, which fits, has no stock worked out either.
    text = (
        "part strip: 2 of brass, 12 9/16 in by 1/2 in by 1/16 in\npart plate: 2 of brass, 3 in by 1 in by 1/16 in\n"
        "part rail: 1 of oak, 10 in by 1 in by 1/2 in\nstock oak: 1 in by 1/2 in, 48 in long\n"
        "stock brass: sheet 1/16 in, 6 in by 12 in\n"
    )
    sheet = worked(text)
    assert sheet.to_buy.undone_stock == (5,)
    assert json.loads(sheet.to_json())["to_buy"]["undone_stock"] == [5]
    plain = " ".join(sheet.to_text().split())
    assert plain.count("not worked out: the stock on line 5") == 2
    assert "no stock line has it" not in plain
    page = " ".join(sheet.to_html().split())
    assert "no stock line has it" not in page
    assert "no stock line has it" in worked(text.replace("stock brass", "stock copper")).to_text()


ALL = (
    PARTS
    + FLAT
    + "\nstock brass: round 1/4 in, 5 1/4 in long; from the rack\nstock card: sheet, 8 in by 10 in\n"
)


def test_csv_counts_every_piece_cut_as_often_as_its_part():
    rows = list(csv.DictReader(io.StringIO(worked(ALL).to_csv("cuts"))))
    cut: dict[str, int] = {}
    for row in rows:
        assert row["kind"] == "cut"
        cut[row["name"]] = cut.get(row["name"], 0) + int(row["how many"])
    assert cut == {"runner": 24, "tongue": 10, "pivot": 6, "label": 24}  # a label has two sizes
    bought = [
        (r["name"], r["material"], r["how many"], r["which"])
        for r in csv.DictReader(io.StringIO(worked(ALL).to_csv("bought")))
    ]
    assert bought == [
        ("", "brass", "9", "1 of 1, 1/16 in x 1/4 in (about 1.588 x 6.35 mm), at least 9"),
        ("", "brass", "2", "1 of 1, round 1/4 in (6.35 mm), at least 2"),
        ("", "card", "1", "1 of 2, sheet, at least 1"),
        ("", "card", "1", "2 of 2, sheet, at least 1"),
        ("", "card", "", "sheet, area"),
        ("6 BA", "brass", "26", "1 of 2"),
        ("6 BA", "brass", "26", "2 of 2"),
    ]


def test_json_has_the_stock_and_agrees_with_its_schema():
    made = worked(ALL).to_data()
    here = Path(data.__file__).parents[1]
    schema = json.loads((here / "show" / "sheet.schema.json").read_text(encoding="utf-8"))
    answers = json.loads((here / "requests" / "answer.schema.json").read_text(encoding="utf-8"))
    from referencing import Registry, Resource

    registry = Registry().with_resources(
        [(answers["$id"], Resource.from_contents(answers)), (schema["$id"], Resource.from_contents(schema))]
    )
    Draft202012Validator(schema, registry=registry).validate(json.loads(json.dumps(made)))
    flat, rounds, card = made["stock"]
    assert (flat["many"], flat["at_least"], flat["proved"], flat["area"]) == (9, 9, True, None)
    assert sum(bar["times"] for bar in flat["bars"]) == 9
    assert rounds["pieces"][0]["largest"]["inch"] == "57/64"
    assert (card["bars"], card["proved"], card["at_least"]) == (None, None, 1)
    assert card["area"] == {"value": "24", "unit": "in^2", "approximate": False} | {
        key: card["area"][key] for key in card["area"] if key not in ("value", "unit", "approximate")
    }
    assert made["to_buy"]["hardware"][0]["how_many"] == 26


def test_every_form_tells_of_the_cut_list_and_of_what_to_buy():
    sheet = worked(ALL)
    for written in (sheet.to_text(), sheet.to_markdown(), sheet.to_html()):
        said = " ".join(written.split())
        assert "Cut list" in said
        assert "What to buy" in said
        assert "by area alone, no layout was tried" in said
        assert "frame screw, lock screw" in said
        assert "from the rack" in said


TOOLS = """\
part frame: 12 of brass, 2 in by 7/8 in by 1/16 in
hole in frame: clearance(6 BA) at 1/4 in by 1/4 in, 1 3/4 in by 1/4 in sunk 4 mm
hole in frame: tapping(6 BA) at 1 in by 1/4 in
slot in frame: 1/2 in by 1/8 in at 1 in by 5/8 in
part stop: 2 of brass, 2 in by 7/8 in by 1/16 in
hole in stop: 2.9 mm at 1/4 in by 1/4 in
hole in stop: No 29 drill at 1 in by 1/2 in
hole in stop: 0.111 in +- 2 thou at 1 1/2 in by 1/2 in
hole in stop: 0.1407 in at 1 3/4 in by 1/2 in
"""


def test_each_tool_stands_once_with_all_that_it_makes():
    sheet = worked(TOOLS)
    assert not sheet.faults, sheet.faults
    said = [(tool.kind, tool.name, tool.many, [name for name, _ in tool.parts]) for tool in sheet.tools]
    assert said == [
        ("drill", "", 12, ["frame"]), ("drill", "", 2, ["stop"]), ("drill", "", 26, ["frame", "stop"]),
        ("drill", "No 29 drill", 2, ["stop"]), ("drill", "", 2, ["stop"]), ("tap", "6 BA", 12, ["frame"]),
        ("countersink", "", 24, ["frame"]), ("slot cutter", "", 12, ["frame"]),
    ]  # fmt: skip
    text = " ".join(sheet.to_text(200).split())
    assert "drill 2.9 mm (about 0.1142 in); in frame" in text, (
        "a drill whose size is its name is called by it"
    )
    assert "sold as 2.9 mm" not in text
    assert "sold as No 34" in text  # 0.111 in lies within the limits
    assert "none is made so: the nearest is 9/64 in, less than 0.0001 in (0.003 mm) under" in text
    rows = list(csv.DictReader(io.StringIO(sheet.to_csv("tools"))))
    assert [(row["which"], row["how many"]) for row in rows] == [
        (kind, str(many)) for kind, _, many, _ in said
    ]
    assert [tool["how_many"] for tool in sheet.to_data()["tools"]] == [many for _, _, many, _ in said]


def test_a_drill_of_a_fraction_is_sold_as_that_fraction() -> None:
    for n in range(1, 65):  # ASME B94.11M: fractional drills by 64ths up to 1 in; letter E is 1/4 in too
        size = Fraction(n, 64)
        tool = Tool("drill", Quantity.inches(size))
        assert tool.fits is not None
        assert tool.fits.name == str(Quantity.inches(size))


def test_the_pictures_of_bars_are_not_overprinted_and_have_room():
    many = "".join(
        f"part p{n}: {n % 7 + 1} of oak, 1/4 in by 1 in by {n % 19 + 1} 3/8 in\n" for n in range(60)
    )
    sheet = worked(f"{many}stock oak: 1/4 in by 1 in, 96 in long, saw 1/8 in")
    drawn = [picture for picture in sheet._document().pictures if "bars" in picture.title]
    assert drawn
    for picture in drawn:
        assert overprinted(picture) == []
        assert all(0 <= shape.x <= picture.width for shape in picture.shapes)


def test_a_sheet_with_stock_opens_and_saves_byte_for_byte_and_a_changed_name_moves_the_cut_list():
    text = f"long = 11 in\r\n{FLAT}\r\npart runner: 24 of brass, 1/16 in by 1/4 in by long # drawn down\r\n"
    living = LivingSheet(Sheet.from_text(""), Rows.of(text.encode()))
    assert living.state.rows.data().decode() == text
    edit = living.enter("long = 12 in")
    assert [pair.new.stock.cutting.many for pair in edit.moved.stock] == [12]
    from fractions_shop.show.moved_words import moved_text

    assert moved_text(edit) == (
        "part runner: 24 of 1/16 in x 1/4 in x 11 in (about 1.588 x 6.35 x 279.4 mm) to 24 of 1/16 in x 1/4 in x 12 in "
        "(about 1.588 x 6.35 x 304.8 mm); stock on line 2: 12 bars, no fewer will do (it was: 8 bars, no fewer will do)"
    )
    living.undo()
    assert living.state.rows.data().decode() == text


def test_a_state_keeps_the_stock_that_did_not_change():
    sheet = worked(f"a = 1 in\n{FLAT}\npart runner: 24 of brass, 1/16 in by 1/4 in by 11 in")
    after = sheet.edited(sheet.written.replace("a = 1 in", "a = 2 in")).run()
    assert after.worked[1].stock is sheet.worked[1].stock


BRASS = "part runner: 24 of brass, 1/16 in by 1/4 in by 11 in\n"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (
            "stock brass: 1/16 in by 1/4 in, 36 in long",
            "stock brass: 1/16 in by 1/4 in, 48 in long, saw 1/32 in",
        ),
        ("stock brass: 1/16 in by 1/4 in, 36 in long", "stock Brass: 1/4 in by 1/16 in, 48 in long"),
        ("stock brass: 1/16 in by 1/4 in, 36 in long", "stock brass: 0.0625 in by thin * 4, 48 in long"),
        ("stock brass: round 1/4 in, 36 in long", "stock brass: round 0.25 in, 12 in long"),
        ("stock brass: sheet, 8 in by 10 in", "stock brass: sheet, 12 in by 24 in"),
        ("stock brass: sheet 1/16 in, 8 in by 12 in", "stock brass: sheet 1/16 in"),
        # The one before is at fault, since a part is longer.
        ("stock brass: 1/16 in by 1/4 in, 6 in long", "stock brass: 1/16 in by 1/4 in, 36 in long"),
    ],
)
def test_a_stock_entered_again_takes_the_place_of_the_one_before(first, second):
    living = LivingSheet(Sheet.from_text(""), Rows.of(f"thin = 1/16 in\n{BRASS}{first}\n".encode()))
    edit = living.enter(second)
    assert edit.kind == "replaced"
    assert edit.replaced.line.text == first
    assert living.state.rows.text == f"thin = 1/16 in\n{BRASS}{second}\n"
    assert edit.worked.stock.elsewhere == ()
    living.undo()
    assert living.state.rows.text == f"thin = 1/16 in\n{BRASS}{first}\n"


@pytest.mark.parametrize(
    "second",
    [
        "stock oak: 1/16 in by 1/4 in, 36 in long", "stock brass: 1/16 in by 3/8 in, 36 in long",
        "stock brass: square 1/4 in, 36 in long", "stock brass: sheet 1/16 in, 8 in by 10 in",
    ],
)  # fmt: skip
def test_a_stock_of_another_section_or_material_stands_beside_it(second):
    living = LivingSheet(
        Sheet.from_text(""), Rows.of(f"{BRASS}stock brass: 1/16 in by 1/4 in, 36 in long\n".encode())
    )
    assert living.enter(second).kind == "added"


def test_a_stock_that_no_part_would_fit_changes_nothing():
    text = f"{BRASS}stock brass: 1/16 in by 1/4 in, 36 in long\n"
    living = LivingSheet(Sheet.from_text(""), Rows.of(text.encode()))
    with pytest.raises(InputError, match="is larger than the bar"):
        living.enter("stock brass: 1/16 in by 1/4 in, 6 in long")
    assert living.state.rows.text == text


def test_bars_without_a_saw_say_so_wherever_they_are_told() -> None:
    """Three pieces of 12 in leave nothing of 36 in, and no saw cuts without taking something."""
    text = "part rail: 3 of brass, 1/16 in by 1/4 in by 12 in\nstock brass: 1/16 in by 1/4 in, 3 ft long{}\n"
    said = "saw cuts not counted"
    for saw, is_told in (("", True), (", saw 0.001 in", False)):
        sheet = Sheet.from_text(text.format(saw))
        plain, page = sheet.to_text(), sheet.to_html()
        for heading in ("Cut list", "What to buy"):
            beneath = plain[plain.index(heading) :]
            assert (said in " ".join(beneath.split())) is is_told
            assert (said in page[page.index(heading) :]) is is_told
        assert (said in sheet.to_markdown()) is is_told
        rows = [
            row for row in csv.DictReader(io.StringIO(sheet.to_csv())) if row["kind"] in ("cut", "bought")
        ]
        assert len(rows) >= 2
        assert all((said in row["remark"]) is is_told for row in rows)
    assert (
        fs.cut_from("36 in", {"rail": ("12 in", 3)})
        .text()
        .startswith("3 ft (914.4 mm) long: 1 bar; no fewer will do, saw cuts not counted")
    )
