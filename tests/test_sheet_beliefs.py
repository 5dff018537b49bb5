"""A size that is settled only on what nobody said of a reading says so wherever it is used."""

from __future__ import annotations

from importlib.util import find_spec

import pytest

from fractions_shop import Sheet

#: `long` is 7/8 in if nothing has shrunk, `wide` 3/4 in if it is inch work; `sure` needs neither.
TEXT = """\
long = recover 22.2 mm within 0.12 mm
wide = recover 19.1 mm within 0.1 mm
sure = recover 22.2 mm
part plate: 2 of brass, long by wide by 1/16 in
part pin: 2 of steel, round 1/4 in by long
part lath: 1 of oak, sure by 3/4 in by 1/16 in
hole in lath: 3 mm at 1/4 in by 1/4 in
stock steel: round 1/4 in, 12 in long
check long = 7/8 in
"""
FIRST = "long (line 1) is taken from a reading, if it has kept its size"
SECOND = "wide (line 2) is taken from a reading, if it is inch work"
MARK = "RESTS ON A BELIEF, see the sheet"


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return Sheet.from_text(TEXT)


def test_every_list_marks_what_rests_on_a_belief_and_says_on_which(sheet: Sheet) -> None:
    told = sheet.to_text(200)
    for name in ("long *", "wide *", "plate *", "pin *", "long = 7/8 in *"):
        assert name in told
    for name in ("sure *", "lath *"):
        assert name not in told
    for way in (told, sheet.to_text(60).replace("\n      ", " "), sheet.to_markdown().replace("\\", "")):
        assert FIRST in way
        assert SECOND in way
    assert told.count(f"* {FIRST}; {SECOND}") == 1
    # Cut list, what to buy, sizes, checks.
    assert told.count("* as said beneath Parts to make: ") == 4


def test_sizes_with_the_same_belief_are_told_together() -> None:
    told = Sheet.from_text("a = recover 22.2 mm within 0.12 mm\nb = recover 22.2 mm within 0.12 mm").to_text(
        200
    )
    assert "* a (line 1) and b (line 2) are taken from readings, if it has kept its size\n" in told


def test_the_verdict_counts_them(sheet: Sheet) -> None:
    assert (sheet.verdict.believed_sizes, sheet.verdict.doubtful_sizes) == (4, 0)
    assert "4 sizes rest on what is believed of a reading" in sheet.to_text()


def test_drawings_say_so_themselves(sheet: Sheet) -> None:
    titles = [drawing.title for drawing in sheet._document().pictures]
    assert any(title.startswith(f"{MARK}: plate") for title in titles)
    assert any(title.startswith(f"{MARK}: pin") for title in titles)
    assert any(title.startswith("lath") for title in titles)


def test_a_doubt_of_what_is_cut_outweighs_a_belief_of_the_part() -> None:
    text = f"{TEXT}at reads 51.5 mm\nhole in plate: 3 mm at at / 8 by 1/4 in\n"
    titles = [drawing.title for drawing in Sheet.from_text(text)._document().pictures]
    assert any(title.startswith("DOUBTFUL, see the sheet: plate") for title in titles)


def test_the_machine_file_says_so(sheet: Sheet) -> None:
    told = sheet.to_coordinates()
    assert f"{MARK}, line 4\n" in told
    assert told.count(MARK) == 1
    if find_spec("ezdxf") is not None:
        assert f"{MARK}, line 4" in sheet.to_dxf()


def test_csv_and_json_lead_to_it(sheet: Sheet) -> None:
    rows = sheet.to_csv().splitlines()
    resting = [row for row in rows if "rests on what is believed of a reading" in row]
    assert {row.split(",")[0] for row in resting} == {"plate", "pin", ""}
    found = sheet.to_data()
    assert found["believed"] == [
        {"name": "long", "line": 1, "belief": "if it has kept its size"},
        {"name": "wide", "line": 2, "belief": "if it is inch work"},
    ]
    assert found["resting_on_belief"] == [4, 5, 8, 9]


def test_what_is_said_of_the_work_leaves_no_belief() -> None:
    said = Sheet.from_text(
        "a = recover 19.1 mm within 0.1 mm in inch work\npart p: 1 of oak, a by 1 in by 1 in"
    )
    assert said.verdict.believed_sizes == 0
    assert " *" not in said.to_text()


def test_a_screw_that_is_bought_is_nothing_for_a_machine() -> None:
    text = "part screw: 6 of steel, M6 by 1/2 in\npart lath: 1 of oak, 2 in by 3/4 in by 1/16 in"
    told = Sheet.from_text(text).to_coordinates()
    assert "  screw: it is bought, as M6\n" in told
    assert "outline 6 by" not in told
