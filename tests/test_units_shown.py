"""Which figure of a size leads: feet and inches from 2 ft up, and what `units` asks for, at every exit."""

from __future__ import annotations

import csv
import io
import json
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from fractions_shop import Quantity, Session, Sheet, read
from fractions_shop.command.cli import main
from fractions_shop.figures.figure import in_feet, in_inches
from fractions_shop.figures.html import html_lines
from fractions_shop.figures.size_words import size_line
from fractions_shop.prompt.model import PromptModel
from fractions_shop.show.ruler import picture
from fractions_shop.size.notation import UnitsShown, inch_text, told_in

#: A number of inches with its unit, and what stands before it.
_INCHES = re.compile(r"(\S*)(?: -?|(?<=-))(?<![\w./])((?:[0-9]+ )?[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?) in\b")
LONG = (
    "8.62 ft", "2700 mm", "snap 8.62 ft to 16ths", "snap 8.62 ft to mm", "divide 72 in into 7", "divide 9 ft into 11 on mm",
    "divide 72 in for 13 of 1 1/2 in", "divide 72 in into 14 between 1 1/2 in", "divide 72 in into 5 and 7 between 1 in",
    "divide 72 in into 5 between any", "divide 109 in into spaces of about 7 in", "share 8 ft among 4 and 2",
    "mark 8 ft into 3", "mark 8 ft for 3 of 2 in edges", "places 1 in, 30 in along 90 in", "places 30 in by 40 in",
    "check 8 ft = 5 ft", "check 8 ft = 5 ft within 1 ft", "recover 2627.3 mm", "recover 2627.3 mm, 1314 mm, 1000 mm",
    "crown 9 across 30 in radius 40 ft from 7 ft", "pack 30 in from 24 in, 3 in", "pack 30 in from 7 in, 25 in", "8 ft ± 1/16 in",
    "8 ft +1/-2 mm", "10 ft / 7", "girth(48 in)", "40 33/1088 in", "drill 30 in", "bolt_circle(3, 60 in, 0 deg)", "2 ft", "-30 in",
)  # fmt: skip


def _leading(text: str) -> list[str]:
    """The inches of 24 or more in a text that are not a further way of telling a size: `8 ft = 96 in`."""
    found = []
    for line in text.splitlines():
        # The decimals of limits stand beside their fraction, and machine limits are of one unit.
        if line.startswith(("  upper limit", "  lower limit", "in inches:")):
            continue
        for before, number in _INCHES.findall(line.split("write ")[0]):
            whole, _, part = number.rpartition(" ")
            if Fraction(part) + int(whole or 0) >= 24 and before.rstrip("-") != "=":
                found.append(f"{before} {number}")
    return found


@pytest.mark.parametrize("statement", LONG)
def test_from_2_ft_up_feet_and_inches_lead_in_every_answer(statement: str) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    assert _leading(answer.text(10_000)) == []
    assert "ft" in answer.text() or statement.startswith(("drill", "divide 72 in into 5 between any"))


@pytest.mark.parametrize("statement", LONG)
def test_without_feet_none_are_told(statement: str) -> None:
    bench = Session()
    bench.answer("units inch without feet")
    answer = bench.answer(statement)
    assert answer is not None
    assert not re.search(r"\bft\b", re.sub(r"write .*", "", answer.text(10_000)))


_INCH = st.fractions(-2000, 2000, max_denominator=128)


@given(_INCH)
def test_a_size_in_feet_and_inches_reads_back_to_itself(number: Fraction) -> None:
    size = Quantity.inches(number)
    figure = in_inches(size)
    if figure.exact:
        assert read(figure.bare) == size
        assert read(inch_text(size)) == size
        assert Session().answer(figure.bare).value == size  # type: ignore[union-attr]
    assert (figure.form == "feet") == (abs(number) >= 24)


@given(st.fractions(-2000, 2000), st.integers(1, 9))
def test_a_rounded_one_is_off_by_half_its_last_place_at_most_and_has_no_12_in(
    number: Fraction, places: int
) -> None:
    size = Quantity.inches(number)
    figure = in_feet(size, places)
    assert not re.search(r"\b12(\.0*)? in", figure.bare)
    told = read(figure.bare)
    assert isinstance(told, Quantity)
    assert abs(told.inch - number) <= Fraction(1, 2 * 10**places)
    assert figure.exact == (told == size)


# At every exit

SHEET = """## Shelves
{units}
long = 103 7/16 in
wide = 12 mm
loose = 30 in ± 1/16 in
check long = 60 in
mark 30 in into 3
snap long to 32nds
part shelf: 2 of oak, long by wide; planed
"""
FIRST = {
    "": "8 ft 7 7/16 in (2627.3125 mm)",
    "units inch first": "8 ft 7 7/16 in (2627.3125 mm)",
    "units inch without feet": "103 7/16 in (2627.3125 mm)",
    "units mm first": "2627.3125 mm (8 ft 7 7/16 in)",
}


def _pdf(sheet: Sheet) -> str:
    return "".join(page.extract_text() for page in PdfReader(io.BytesIO(sheet.to_pdf())).pages)


@pytest.mark.parametrize("units", FIRST)
def test_the_figure_asked_for_leads_in_all_that_is_written(units: str) -> None:
    sheet = Sheet(SHEET.format(units=units))
    assert not sheet.faults
    for told in (sheet.to_text(), sheet.to_markdown(), sheet.to_html(), _pdf(sheet)):
        flat = " ".join(told.split())
        assert FIRST[units] in flat
        others = set(FIRST.values()) - {FIRST[units]}
        assert not any(re.search(rf"(?<![0-9] ){re.escape(other)}", flat) for other in others)


def test_the_lists_of_a_sheet_have_the_columns_of_the_leading_unit_first() -> None:
    told = Sheet(SHEET.format(units="units mm first")).to_text(200)
    assert re.search(r"name +mm +on 64ths +off, mm \(in\) +inch +line", told)
    assert re.search(r"loose +760.5 to 763.5 +29.9375 to 30.0625 ", told)
    assert "~2627.312 x 12 mm (8 ft 7 7/16 in x ~0.4724 in)" in told
    usual = Sheet(SHEET.format(units="")).to_text(200)
    assert (
        '<th scope="col">mm</th><th scope="col">on 64ths</th>'
        in Sheet(SHEET.format(units="units mm first"))._repr_html_()
    )
    assert re.search(r"name +on 64ths +off, in \(mm\) +inch +mm +line", usual)


def test_csv_says_every_figure_under_its_name_and_the_leading_one_first() -> None:
    rows = {}
    for units in FIRST:
        text = Sheet(SHEET.format(units=units)).to_csv()
        rows[units] = next(row for row in csv.DictReader(io.StringIO(text)) if row["name"] == "long")
        header = text.splitlines()[0].split(",")
        assert (header.index("mm") < header.index("inch")) == (units == "units mm first")
    assert {(row["inch"], row["mm"], row["exact"]) for row in rows.values()} == {
        ("103.4375", "2627.3125", "1655/16")
    }
    assert rows["units inch without feet"]["fraction"] == "103 7/16 in"
    assert rows[""]["fraction"] == rows["units mm first"]["fraction"] == "8 ft 7 7/16 in"


def test_json_is_the_same_whichever_leads() -> None:
    answers = []
    for units in FIRST:
        data = Sheet(SHEET.format(units=units)).to_data()
        answers.append({name: data["sizes"][name] for name in ("long", "wide", "loose")})
        assert not units or data["lines"][1]["answer"]["lead"] == units.split()[1]
    assert all(json.dumps(each) == json.dumps(answers[0]) for each in answers)


def test_a_line_is_told_as_the_units_line_above_it_says() -> None:
    text = Sheet("snap 30 in\nunits mm first\nsnap 30 in\nunits inch without feet\nsnap 30 in\n").to_text()
    assert re.findall(r"(.*), a mark of the 8ths", text) == [
        "     2 ft 6 in (762 mm)", "     762 mm (2 ft 6 in)", "     30 in (762 mm)",
    ]  # fmt: skip


def test_the_prompt_the_drawn_rule_and_the_notebook_follow_it() -> None:
    model = PromptModel()
    model.enter("units mm first")
    answer = model.enter("snap 30 in")
    assert answer is not None
    assert answer.text().startswith("762 mm (2 ft 6 in)")
    assert answer.gist().startswith("762 mm (2 ft 6 in)")
    assert "762 mm (2 ft 6 in)" in html_lines(answer.lines())
    assert "762 mm (2 ft 6 in)" in answer._repr_html_()
    short = model.enter("snap 3/8 in to 8ths")
    assert short is not None
    assert picture(short, 60)[0].endswith(" 9.525 mm")


def test_drawings_say_the_leading_figure_first() -> None:
    sheet = "crown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds\nfit 1/4 in H7/g6\n"
    usual, metric = Sheet(sheet).to_svg(), Sheet(f"units mm first\n{sheet}").to_svg()
    assert "0 is 1/4 in (6.35 mm)" in usual
    assert "0 is 6.35 mm (1/4 in)" in metric
    assert ">11/32 in<" in usual
    assert ">about 8.73 mm<" in metric


def test_a_failed_check_says_so_on_standard_error_too(tmp_path, capsys) -> None:  # type: ignore[no-untyped-def]
    file = tmp_path / "shelves.shop"
    file.write_text(SHEET.format(units="units mm first"), encoding="utf-8")
    assert main(["sheet", str(file), "--to", "csv"]) == 1
    assert "the first is 1103.3125 mm (3 ft 7 7/16 in) over" in " ".join(capsys.readouterr().err.split())


def test_what_changed_is_told_as_the_newer_sheet_asks(tmp_path, capsys) -> None:  # type: ignore[no-untyped-def]
    old, new = tmp_path / "old.shop", tmp_path / "new.shop"
    old.write_text("long = 30 in\n", encoding="utf-8")
    new.write_text("units mm first\nlong = 60 in\n", encoding="utf-8")
    assert main(["compare", str(old), str(new)]) == 1
    assert "762 mm larger (2 ft 6 in)" in " ".join(capsys.readouterr().out.split())


def test_units_are_the_session_s_own_and_do_not_leak() -> None:
    one, other = Session(), Session()
    one.answer("units mm first")
    assert one.copy().units == UnitsShown("mm", True)
    first, second = one.answer("30 in"), other.answer("30 in")
    assert first is not None
    assert second is not None
    assert first.text().startswith("762 mm")
    assert second.text().startswith("2 ft 6 in")
    assert size_line(Quantity.inches(30)).startswith("2 ft 6 in")
    with told_in(UnitsShown("inch", feet=False)):
        assert size_line(Quantity.inches(30)).startswith("30 in")


@pytest.mark.parametrize(
    ("statement", "advice"),
    [
        ("units", "write it like this: units mm first"),
        ("units furlong first", "write it like this: units mm first"),
        ("units mm without feet", "write it like this: units inch without feet"),
    ],
)
def test_half_of_it_says_how_it_goes_on(statement: str, advice: str, capsys) -> None:  # type: ignore[no-untyped-def]
    assert main([statement]) == 1
    assert advice in capsys.readouterr().err


NOTES = 'A bolt of 1/2 in. and a bar 3 ft 4 in. long, 1.250 ±.005 in. at the mouth, 2" to 3 in.'
TABLE = "tray,width\r\n1,2 1/32 in\r\n2,51.5 mm\r\n3,oak\r\n4,major(6 BA)\r\n"


def test_what_is_found_in_a_text_is_told_with_the_figures_first_that_were_asked_for(
    tmp_path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "notes.txt"
    path.write_text(NOTES, "utf-8")
    said = {}
    for form in ("text", "csv", "json", "marked"):
        for lead in ("inch-first", "mm-first", "inch without feet"):
            assert main(["find", str(path), "--to", form, "--units", lead]) == 0
            said[form, lead] = capsys.readouterr().out
        assert main(["find", str(path), "--to", form]) == 0
        assert capsys.readouterr().out == said[form, "inch-first"]
    assert "3 ft 4 in = 1016 mm\n" in said["text", "inch-first"]
    assert "1016 mm = 3 ft 4 in\n" in said["text", "mm-first"]
    assert "50.8 mm to 76.2 mm = 2 in to 3 in\n" in said["text", "mm-first"]
    assert "  40 in = 1016 mm\n" in said["text", "inch without feet"]
    inch, mm = (csv.DictReader(io.StringIO(said["csv", lead])) for lead in ("inch-first", "mm-first"))
    assert [*inch] == [*mm]
    assert (inch.fieldnames, mm.fieldnames) == (
        ["line", "column", "written", "kind", "inch", "mm", "doubts"],
        ["line", "column", "written", "kind", "mm", "inch", "doubts"],
    )
    # The exact figures and the text with its millimetres are the same whatever leads.
    for form in ("json", "marked"):
        assert said[form, "mm-first"] == said[form, "inch-first"] == said[form, "inch without feet"]


@pytest.mark.parametrize("options", [[], ["--rule", "half mm"], ["--doubtful", "note", "--decimal", "comma"]])
def test_a_column_has_the_same_cells_in_another_order(
    options: list[str], tmp_path, capfd: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "trays.csv"
    path.write_text(TABLE, "utf-8", newline="")
    said = {}
    for lead in ("inch-first", "mm-first"):
        assert main(["column", str(path), "--size", "width", "--units", lead, *options]) == 1
        said[lead] = csv.DictReader(io.StringIO(capfd.readouterr().out, newline=""))
    assert [*said["inch-first"]] == [*said["mm-first"]]
    names = {lead: list(table.fieldnames or ()) for lead, table in said.items()}
    assert names["inch-first"][2:5] == ["inch fraction", "inch", "mm"]
    assert names["mm-first"][2:5] == ["mm", "inch fraction", "inch"]
    assert [name for name in names["mm-first"] if name.startswith("error")] == ["error mm", "error inch"]
    assert names["inch-first"][8:] == names["mm-first"][8:]


@pytest.mark.parametrize("lead", ["inch-first", "mm-first"])
def test_a_file_in_either_order_is_known_again_as_ours(lead: str, tmp_path) -> None:
    sheet, notes, table = tmp_path / "a.shop", tmp_path / "a.txt", tmp_path / "a.csv"
    sheet.write_text(f"units {lead.replace('-', ' ')}\nlid = 1/2 in\n", "utf-8")
    notes.write_text(NOTES, "utf-8")
    table.write_text(TABLE, "utf-8", newline="")
    for arguments in (
        ["sheet", str(sheet), "--out", str(tmp_path / "sizes.csv")],
        ["find", str(notes), "--units", lead, "--out", str(tmp_path / "found.csv")],
        ["column", str(table), "--size", "width", "--units", lead, "--out", str(tmp_path / "wide.csv")],
    ):
        first = main(arguments)
        written = Path(arguments[-1]).read_bytes()
        assert main(arguments) == first < 2
        assert Path(arguments[-1]).read_bytes() == written


def test_what_leads_is_asked_for_before_the_first_statement(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--units", "mm-first", "8.62 ft", "1/2 in", "units inch first", "1/2 in"]) == 0
    answers = capsys.readouterr().out.split("\n\n")
    assert answers[0].startswith("2627.376 mm = ")
    assert answers[1].startswith("12.7 mm = 1/2 in")
    assert answers[3].startswith("1/2 in = ")
    assert main(["--units", "cm-first", "1/2 in"]) == 2
    assert "does not say what leads: write inch first, mm first, inch without feet" in capsys.readouterr().err


def test_a_prompt_begun_with_units_writes_them_into_the_sheet() -> None:
    model = PromptModel("32nds", units="mm first")
    assert model.settled("1/2 in").words.startswith("12.7 mm")
    model.enter("lid = 1/2 in")
    assert model.state.rows.text == "rule 32nds\nunits mm first\nlid = 1/2 in\n"
    assert PromptModel(units="mm first").enter("units inch first") is not None
    model = PromptModel(units="mm first")
    model.enter("units inch first")
    assert model.state.rows.text == "units inch first\n"
    assert model.state.session.units == UnitsShown("inch")
