"""What a column may be read from besides plain CSV: decimal commas, a column by number, a workbook."""

from __future__ import annotations

import csv
import io
import sys
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from strategies import decimals

from fractions_shop.command.cli import main
from fractions_shop.command.column import Column, HeaderError
from fractions_shop.errors import ShopError


def widened(text: str, size: str = "width", **options: object) -> list[list[str]]:
    column = Column(size, **options)  # type: ignore[arg-type]
    lines = "".join(column.widen(io.StringIO(text, newline="")))
    return list(csv.reader(io.StringIO(lines, newline=""), delimiter=column.delimiter))


# Decimal commas


def test_a_decimal_comma_is_read_and_written() -> None:
    _, row = widened('width\n"51,5 mm"\n', decimal="comma")
    assert row == [
        "51,5 mm",
        "",
        "2,027559",
        "51,5",
        "2 1/32 in",
        "0,003691",
        "0,09375",
        "inch and error inch",
        "",
    ]


def test_a_decimal_comma_needs_no_quotes_between_semicolons() -> None:
    _, row = widened("width;n\n51,5 mm;2\n", decimal="comma", delimiter=";")
    assert row[:5] == ["51,5 mm", "2", "", "2,027559", "51,5"]


@given(decimals(3).map(lambda f: f"{float(f):.3f}"))
def test_a_decimal_comma_reads_as_its_point(number: str) -> None:
    _, comma = widened(f"width;n\n{number.replace('.', ',')} mm;1\n", decimal="comma", delimiter=";")
    _, point = widened(f"width;n\n{number} mm;1\n", delimiter=";")
    assert [text.replace(",", ".") for text in comma] == point


@pytest.mark.parametrize("cell", ["1.234,5 mm", "51.5 mm", ".5 in", "1,234,567 mm"])
def test_a_point_or_a_second_comma_among_decimal_commas_is_a_fault(cell: str) -> None:
    _, row = widened(f"width;n\n{cell};1\n", decimal="comma", delimiter=";")
    assert row[2:-1] == [""] * 7
    assert row[-1]


@pytest.mark.parametrize("cell", ["2 1/32 in.", "5 ft. 3 in.", ",5 in", "3/16ths", "26,5 thou"])
def test_what_has_no_decimal_point_is_read_with_decimal_commas_too(cell: str) -> None:
    _, row = widened(f"width;n\n{cell};1\n", decimal="comma", delimiter=";")
    assert row[3]
    assert not row[-1]


def test_without_the_option_a_comma_is_a_fault() -> None:
    _, row = widened('width\n"51,5 mm"\n')
    assert "has a comma" in row[-1]


def test_another_decimal_sign_is_refused_by_name() -> None:
    with pytest.raises(ShopError, match="decimal is 'point' or 'comma', not 'dot'"):
        Column("width", decimal="dot")


# By number


def test_a_column_is_found_by_its_number() -> None:
    _, row = widened("part,width,width\ntray,3 in,2 in\n", "3")
    assert row[4] == "2"


def test_a_heading_comes_before_a_number() -> None:
    _, row = widened("part,3,2\ntray,3 in,2 in\n", "2")
    assert row[4] == "2"


@pytest.mark.parametrize("number", ["0", "4", "-1", "٣", "99999999999"])
def test_a_number_without_a_column_is_refused_with_the_headings(number: str) -> None:
    with pytest.raises(HeaderError, match=r"no column is headed .*; there are 'part', 'width', 'n'"):
        widened("part,width,n\n", number)


# Workbooks


def book(path: Path, *rows: list[object], **others: list[list[object]]) -> str:
    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    for title, more in others.items():
        sheet = made.create_sheet(title)
        for row in more:
            sheet.append(row)
    made.save(path)
    return str(path)


def answered(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, list[list[str]], str]:
    status = main(["column", *arguments])
    out, err = capsys.readouterr()
    return status, list(csv.reader(io.StringIO(out, newline=""))), err


@pytest.fixture
def parts(tmp_path: Path) -> str:
    return book(
        tmp_path / "parts.xlsx",
        ["part", "width"], ["tray", "2 1/32 in"], ["rail", 51.5], ["slat", 0.1 + 0.2], ["peg", date(2024, 2, 1)],
        ["pin", datetime(2024, 2, 1, 12, 30)], ["lid", None], ["box", True], ["tag", 3],
        metric=[["w"], ["26 mm"]],
    )  # fmt: skip


def test_a_workbook_is_read_as_its_csv_would_be(parts: str, capsys: pytest.CaptureFixture[str]) -> None:
    status, rows, err = answered(capsys, parts, "--size", "width", "--unit", "mm")
    told = {row[0]: row for row in rows}
    assert status == 1
    assert told["tray"][2:5] == ["2 1/32 in", "2.03125", "51.59375"]
    assert told["rail"][1:5] == ["51.5", "", "2.027559", "51.5"]
    assert (told["slat"][1], told["slat"][4]) == ("0.3", "0.3")  # the figures that the spreadsheet shows
    assert told["tag"][1:5] == ["3", "", "0.11811", "3"]
    assert "4 of 8 rows have a fault" in err


@pytest.mark.parametrize("part", ["peg", "pin", "lid", "box"])
@pytest.mark.parametrize("doubtful", ["fault", "note"])
def test_a_day_or_a_truth_or_an_empty_cell_is_no_size(
    parts: str, capsys: pytest.CaptureFixture[str], part: str, doubtful: str
) -> None:
    _, rows, _ = answered(capsys, parts, "--size", "2", "--unit", "mm", "--doubtful", doubtful)
    (row,) = [row for row in rows if row[0] == part]
    assert row[2:9] == [""] * 7
    assert row[-1]


def test_a_worksheet_is_read_by_its_name(parts: str, capsys: pytest.CaptureFixture[str]) -> None:
    status, rows, _ = answered(capsys, parts, "--size", "1", "--worksheet", "metric")
    assert (status, rows[1][3]) == (0, "26")


def test_a_worksheet_that_is_not_there_is_refused_with_those_that_are(
    parts: str, capsys: pytest.CaptureFixture[str]
) -> None:
    status, _, err = answered(capsys, parts, "--size", "1", "--worksheet", "Tabelle1")
    assert status == 2
    assert "has no worksheet 'Tabelle1'; there are 'Sheet', 'metric'" in err


def test_numbers_of_a_workbook_get_the_decimal_comma(parts: str, capsys: pytest.CaptureFixture[str]) -> None:
    _, rows, _ = answered(capsys, parts, "--size", "2", "--unit", "mm", "--decimal", "comma")
    assert rows[2][1:5] == ["51,5", "", "2,027559", "51,5"]


def test_every_size_in_a_workbook_is_the_size_in_its_text(tmp_path: Path) -> None:
    """openpyxl writes and reads; what a double holds of up to 15 figures comes back as it was typed."""
    from fractions_shop.command.spreadsheet import lines

    numbers = [f"{n}.{d:05d}" for n in (0, 1, 12, 999) for d in (1, 3125, 12345, 99999)]
    path = book(tmp_path / "n.xlsx", ["n"], *[[float(n)] for n in numbers])
    with open(path, "rb") as raw:  # noqa: PTH123
        read = [line.strip() for line in lines(raw, path, ",", None)]
    assert [Fraction(n) for n in read[1:]] == [Fraction(n) for n in numbers]


def test_without_the_library_the_extra_is_named(
    parts: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    status, _, err = answered(capsys, parts, "--size", "width")
    assert status == 2
    assert "needs openpyxl, which is not installed: pip install 'fractions-shop[spreadsheet]'" in err


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("a.xlsx", b"part,width\n", "is not an .xlsx workbook"),
        ("a.xlsx", b"PK\x05\x06" + 18 * b"\0", "cannot be read as a workbook"),
        # A packed file of a later version than is known: its directory of one, and the end of it.
        ("a.xlsx", b"PK\x01\x02\x14\0\x63\0" + 38 * b"\0" + b"PK\x05\x06\0\0\0\0\1\0\1\0\x2e" + 9 * b"\0", "is not an .xlsx workbook"),
        ("a.xls", b"", "a file that ends .xls is not read: save it as .xlsx or as CSV in UTF-8"),
        ("a.ods", b"", "a file that ends .ods is not read: save it as .xlsx or as CSV in UTF-8"),
        ("a.csv", b"PK\x03\x04 and more", "is a packed file, not CSV: give a workbook as a file that ends .xlsx"),
    ],
)  # fmt: skip
def test_what_is_no_workbook_is_told_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, content: bytes, said: str
) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    status, rows, err = answered(capsys, str(path), "--size", "width")
    assert (status, rows) in ((2, []), (1, []))
    assert said in err


def test_figures_are_not_written_into_a_file_that_is_called_a_workbook(
    parts: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out.xlsx"
    status, _, err = answered(capsys, parts, "--size", "width", "--out", str(out))
    assert status == 2
    assert "would not be a workbook: the figures are written as CSV, so end it .csv" in err
    assert not out.exists()
