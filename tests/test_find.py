"""`fractions-shop find`: what it writes down of a text, where it writes it, and what it returns."""

from __future__ import annotations

import csv
import io
import json
import re
from fractions import Fraction
from pathlib import Path

import pytest

from fractions_shop import find_sizes
from fractions_shop.command.cli import main
from fractions_shop.command.words.find import FORMS

NOTES = """Fig. 3/4 shows the runners of 1912: 24 of them, 1/16 in. thick, 21/2 in. long
and 25 m/m wide. The holes are 1.000" +.001" -.002" across, 1.624 to 1.625 inches at
the mouth; screws No. 4 x 1/2", rods 30 3/4 in. (78 cm) long, 26 tpi, page 10-32.
The taper is 1/4 in. per foot, and the wire 18 s.w.g.
"""


@pytest.fixture
def notes(tmp_path: Path) -> Path:
    path = tmp_path / "notes.txt"
    path.write_text(NOTES, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a 2 in bar", ["2 in"]),
        ("Turn down a 3 in disc.", ["3 in"]),
        ("put 2 in bar 4", []),
        ("plates 3 1/4 x 1 in bare", ["3 1/4", "1 in"]),
        ("strip 3 in x 1 in brass", ["3 in", "1 in"]),
        ("box 2 in the drawer, 3 x 2 in all", []),
        ("a 1 in 48 slope", []),
        ("take a 2 in place of a 3", []),
        ("the 3 in the drawer", []),
    ],
)
def test_an_article_before_a_whole_number_makes_its_in_inches(text: str, found: list[str]) -> None:
    assert [item.written for item in find_sizes(text)] == found


def test_a_line_a_size_with_its_inches_millimetres_and_doubts(notes, capsys):
    assert main(["find", str(notes)]) == 0
    out, err = capsys.readouterr()
    assert out.splitlines() == [
        "    1  1/16 in.               1/16 in = 1.5875 mm",
        "    1  21/2 in.               10 1/2 in = 266.7 mm  (21/2 is 10 1/2 in as it stands; 2 1/2 may have lost its blank)",
        "    2  25 m/m                 about 0.9843 in = 25 mm",
        '    2  1.000" +.001" -.002"   0.998 in to 1.001 in = 25.3492 mm to 25.4254 mm',
        "    2  1.624 to 1.625 inches  1.624 in to 1 5/8 in = 41.2496 mm to 41.275 mm",
        "    3  No. 4                  0.112 in = 2.8448 mm  (read as US No 4 wood screw, 0.112 in; British No 4 wood screw is 0.108 in)",
        '    3  1/2"                   1/2 in = 12.7 mm',
        "    3  30 3/4 in.             2 ft 6 3/4 in = 781.05 mm",
        "    3  26 tpi                 26 tpi = about 0.977 mm pitch",
        "    4  1/4 in. per foot       1/4 in a foot = 1 in 48",
        "    4  18 s.w.g.              0.048 in = 1.2192 mm",
    ]
    assert err == ""


def test_csv_has_a_row_a_size_and_json_exact_rationals(notes, capsys):
    assert main(["find", str(notes), "--to", "csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert main(["find", str(notes), "--to", "json"]) == 0
    objects = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    items = find_sizes(NOTES)
    assert [row["written"] for row in rows] == [" ".join(item.written.split()) for item in items]
    assert [(one["line"], one["written"], one["kind"]) for one in objects] == [
        (item.line, item.written, item.kind) for item in items
    ]
    lines = NOTES.splitlines()
    for row, one, item in zip(rows, objects, items, strict=True):
        assert lines[int(row["line"]) - 1][int(row["column"]) - 1 :].startswith(item.written.split("\n")[0])
        assert bool(row["doubts"]) == bool(item.doubts) == any(n["kind"] == "doubt" for n in one["notes"])
    assert Fraction(objects[0]["size"]["mm"]) == Fraction(127, 80)
    assert objects[1]["notes"][0]["meanings"] == ["10 1/2 in", "2 1/2 in"]
    assert (objects[3]["lower"]["inch"], objects[3]["upper"]["inch"]) == ("499/500", "1001/1000")
    assert (objects[4]["lower"]["inch"], objects[4]["upper"]["inch"]) == ("203/125", "13/8")


def test_the_text_with_its_millimetres_is_the_text_and_nothing_else_is_changed(notes, capsys):
    assert main(["find", str(notes), "--to", "marked"]) == 0
    marked = capsys.readouterr().out
    assert re.sub(r" \[[^]]*\]", "", marked) == NOTES
    assert "1/16 in. [about 1.588 mm] thick" in marked
    assert "21/2 in. [266.7 mm, in doubt] long" in marked
    assert "25 m/m wide" in marked
    assert "30 3/4 in. (78 cm) long" in marked


@pytest.mark.parametrize("form", FORMS)
def test_a_file_holds_what_standard_output_would_and_is_written_whole(notes, tmp_path, capsys, form):
    assert main(["find", str(notes), "--to", form]) == 0
    told = capsys.readouterr().out
    out = tmp_path / "sizes"
    assert main(["find", str(notes), "--to", form, "--out", str(out)]) == 0
    assert capsys.readouterr().out == ""
    assert out.read_text("utf-8").removeprefix("worked out by fractions-shop\n") == told
    assert sorted(path.name for path in tmp_path.iterdir()) == ["notes.txt", "sizes"]


@pytest.mark.parametrize(("ending", "form"), [("txt", "text"), ("csv", "csv"), ("json", "json")])
def test_the_ending_says_what_to_write_and_a_second_run_writes_over_our_own(notes, tmp_path, ending, form):
    out, other = tmp_path / f"sizes.{ending}", tmp_path / "other"
    assert main(["find", str(notes), "--out", str(out)]) == 0
    assert main(["find", str(notes), "--to", form, "--out", str(other)]) == 0
    assert out.read_bytes() == other.read_bytes()
    notes.write_text("nothing but 3/8 in. here\n", encoding="utf-8")
    assert main(["find", str(notes), "--out", str(out)]) == 0
    assert "3/8 in" in out.read_text("utf-8")
    assert "26 tpi" not in out.read_text("utf-8")


def test_what_is_not_ours_is_left_alone_and_so_is_the_text_itself(notes, tmp_path, capsys):
    theirs = tmp_path / "letter.csv"
    theirs.write_text("Dear Sir\n", encoding="utf-8")
    for arguments, said in (
        ([str(notes), "--out", str(theirs)], "add --replace"),
        ([str(notes), "--to", "marked", "--out", str(notes)], "is the text itself"),
        ([str(notes), "--to", "marked", "--replace", "--out", str(notes)], "is the text itself"),
        ([str(notes), "--out", str(tmp_path / "sizes.odt")], "does not say what to write"),
        ([str(notes), "--out", str(tmp_path / "none" / "sizes.csv")], "cannot be written"),
        ([str(tmp_path / "missing.txt")], "cannot be read"),
    ):
        assert main(["find", *arguments]) == 2
        assert said in capsys.readouterr().err
    assert theirs.read_text("utf-8") == "Dear Sir\n"
    assert notes.read_text("utf-8") == NOTES
    assert main(["find", str(notes), "--out", str(theirs), "--replace"]) == 0
    assert theirs.read_text("utf-8").startswith("line,column,written")


def test_a_text_without_a_size_is_1_and_says_so(notes, tmp_path, capsys):
    notes.write_text("In 1898 there were 12 trays; see fig. 3/4.\n", encoding="utf-8")
    assert main(["find", str(notes)]) == 1
    assert capsys.readouterr().out == "no size is found in this text\n"
    assert main(["find", str(notes), "--out", str(tmp_path / "sizes.csv")]) == 1
    assert capsys.readouterr().err == "no size is found in this text\n"
    assert (tmp_path / "sizes.csv").read_text("utf-8") == "line,column,written,kind,inch,mm,doubts\n"


def test_standard_input_and_bytes_that_are_no_text(notes, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"two 3/8 in. bolts\n")))
    assert main(["find", "-"]) == 0
    assert capsys.readouterr().out == "    1  3/8 in.  3/8 in = 9.525 mm\n"
    notes.write_bytes(b"\xff\xfe3\x00/\x008\x00")
    assert main(["find", str(notes)]) == 2
    assert "UTF-16" in capsys.readouterr().err


def test_a_turning_force_is_no_length():
    assert find_sizes("tighten to 25 ft-lb., then 30 in. lbs or 12 ft. lb. more") == ()
    assert [item.written for item in find_sizes("a bar 25 ft. long; lbs. are weighed")] == ["25 ft."]
