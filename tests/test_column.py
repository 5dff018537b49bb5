"""Columns of sizes: the quick reader agrees with the full one, and no row is lost or changed."""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from itertools import count, islice
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import decimals, plain_sizes, rationals, written_sizes

from fractions_shop import Quantity, Rule, ShopError, read
from fractions_shop.command.cli import main
from fractions_shop.command.column import FAULT, Column, HeaderError
from fractions_shop.command.words import column as command
from fractions_shop.layout.bulk import SizeTexts, plain_pair
from fractions_shop.size.notation import decimal, mixed, read_plain, readable
from fractions_shop.size.rule import rung

RULES = st.sampled_from(["64ths", "32nds", "8ths", "100ths", "1000ths", "7ths", "1sts", "mm", "half mm"]).map(
    Rule
)


def widened(text: str, size: str = "width", **options: object) -> str:
    return "".join(Column(size, **options).widen(io.StringIO(text, newline="")))  # type: ignore[arg-type]


def rows(text: str, delimiter: str = ",") -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))


# The quick reader


@given(plain_sizes() | written_sizes())
def test_the_quick_reader_reads_what_the_full_reader_reads(size):
    pair = plain_pair(size.text)
    full = read(size.text)
    assert isinstance(full, Quantity)
    if pair is None:
        assert read_plain(size.text) is None  # left to the full reader, which read it
    else:
        assert Fraction(*pair) == full.mm


@given(st.text(alphabet=" -+/.0123456789½'\"inmtshd,", max_size=12))
def test_the_quick_reader_never_guesses(text):
    pair = plain_pair(text)
    if pair is not None:
        full = read(text)
        assert isinstance(full, Quantity)
        assert Fraction(*pair) == full.mm


@given(st.text(alphabet=" -+/.0123456789½,", max_size=10))
def test_a_bare_number_is_that_many_of_the_unit_given(text):
    pair = plain_pair(text, (127, 5))
    if pair is not None:
        full = read(text)
        assert isinstance(full, Quantity)
        assert full.power == 0
        assert Fraction(*pair) == full.value * Fraction("25.4")


@pytest.mark.parametrize(
    "text",
    [
        "2 1/32 in",
        '2-1/32"',
        "65/32 in",
        "2.03125 in",
        ".193 in",
        "193 thou",
        "51.5 mm",
        "5.15 cm",
        "5'",
        "12 µm",
    ],
)
def test_the_common_forms_are_read_quickly(text):
    pair = plain_pair(text)
    assert pair is not None
    assert Fraction(*pair) == read(text).mm  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "2",
        "2 5/4 in",
        "2 4/4 in",
        "1/0 in",
        "2 - 1/32 in",
        "51,5 mm",
        "1e3 mm",
        "64ths",
        "21/64ths",
        "2 tpi",
        "3 tenths",
    ],
)
def test_what_is_doubtful_is_left_to_the_full_reader(text):
    assert plain_pair(text) is None


# The figures


@given(rationals() | decimals(3) | st.fractions(-1, 1, max_denominator=10**9), RULES, st.integers(0, 12))
def test_the_figures_are_those_of_the_library(mm, rule, places):
    size = Quantity(mm)
    multiple = 6  # a pair need not be in lowest terms
    found = SizeTexts(rule, places).of(mm.numerator * multiple, mm.denominator * multiple)
    fraction, inch, millimetres, nearest, off_inch, off_mm, rounded = found
    near = rung(size, rule)
    assert fraction == (f"{mixed(size.inch)} in" if readable(size.inch) else "")
    assert read(nearest) == near.size
    for text, value, name in (
        (inch, size.inch, "inch"),
        (millimetres, size.mm, "mm"),
        (off_inch, near.error.inch, "error inch"),
        (off_mm, near.error.mm, "error mm"),
    ):
        expected, ends = decimal(value, places)
        if expected not in ("0", "-0"):
            assert text == expected
        assert (Fraction(text) == value) == (name not in rounded.split(" and ")) or not ends
        assert (Fraction(text) == 0) == (value == 0), (
            "a size or error that is not nought must not read as nought"
        )
        assert abs(Fraction(text) - value) * 2 <= Fraction(1, 10**places)


@pytest.mark.parametrize(
    ("cell", "expected"),
    [
        # 2 1/32 in by arithmetic: 65/32 x 25.4 mm.
        pytest.param("2 1/32 in", "2 1/32 in,2.03125,51.59375,2 1/32 in,0,0,,", id="on the rule"),
        pytest.param("10.3 mm", ",0.405512,10.3,13/32 in,0.000738,0.01875,inch and error inch,", id="metric"),
        pytest.param("-1/128 in", "-1/128 in,-0.007812,-0.198438,0 in,0.007812,0.198438,inch and mm and error inch and error mm,", id="tie-to-even"),
        pytest.param("0 in", "0 in,0,0,0 in,0,0,,", id="nought"),
        pytest.param("0.0000001 in", ",0.0000001,0.000003,0 in,-0.0000001,-0.000003,mm and error mm,", id="very-small"),
        pytest.param("5' 3 1/2\"", "63 1/2 in,63.5,1612.9,63 1/2 in,0,0,,", id="feet"),
        pytest.param("sqrt(2) * 1 in", ",1.414214,35.921024,1 27/64 in,0.007661,0.194601,approximate,", id="by-the-full-reader"),
    ],
)  # fmt: skip
def test_a_size_and_its_cells(cell, expected):
    assert widened(f"width\n{cell}\n").splitlines()[1] == f"{cell},{expected}"


def test_a_metric_rule_and_a_bare_number():
    out = rows(widened("width\n51.6\n", rule=Rule("half mm"), unit="mm", places=3))
    assert out[0][1:] == [
        "inch fraction",
        "inch",
        "mm",
        "nearest on half mm",
        "error inch",
        "error mm",
        "rounded",
        "fault",
    ]
    assert out[1] == ["51.6", "", "2.031", "51.6", "51.5 mm", "-0.004", "-0.1", "inch and error inch", ""]


@pytest.mark.parametrize(
    ("cell", "reason"),
    [
        ("", "there is no size here"),
        ("   ", "there is no size here"),
        ("nonsense", "this is not a size; write one such as 2 1/32 in"),
        ("2", "this has no unit; write it with one, or say what such numbers are in"),
        ("1/2 in +1/-2 thou", "this has limits, where one size is needed"),
        ("2 in * 3 in", "this is an area, where a length is needed"),
        ("1/0 in", "1/0 has a denominator of zero"),
        ("3 tenths", "tenths has more than one meaning"),
        ("9" * 2000 + " in", "the line is 2,003 characters long"),
        ("\udcff", "this is not UTF-8 text"),
        ("30 deg", "this is not a size"),
    ],
)
def test_a_bad_cell_is_kept_and_its_reason_told(cell, reason):
    column = Column("width")
    text = f"part,width\ntray,{cell}\nframe,1 in\n"
    out = list(column.widen(io.StringIO(text, newline="")))
    assert out[1].startswith(f"tray,{cell},")
    row = rows(out[1])[0]
    assert row[-1].startswith(reason)
    assert not any(row[2:-1])
    assert (column.rows, column.bad) == (2, 1)
    assert column.first_fault == (2, row[-1])
    assert out[2].startswith("frame,1 in,1 in,1,25.4,")


# Rows


@st.composite
def tables(draw: st.DrawFn) -> list[list[str]]:
    wide = draw(st.integers(1, 5))
    cell = st.text(alphabet="ab,\"\r\n ;½'1\t\0", max_size=6)
    body = draw(st.lists(st.lists(cell, min_size=wide, max_size=wide), min_size=1, max_size=6))
    place = draw(st.integers(0, wide - 1))
    head = [f"c{n}" for n in range(wide)]
    head[place] = "width"
    for row in body:
        row[place] = draw(st.sampled_from(["2 1/32 in", "10.3 mm", "5' 3\"", "bad", "1,5 mm", "2 in / 7"]))
    return [head, *body]


def written(row: list[str], delimiter: str, quote_all: bool) -> str:
    return delimiter.join(
        '"' + cell.replace('"', '""') + '"'
        if quote_all or any(sign in cell for sign in f'{delimiter}"\r\n')
        else cell
        for cell in row
    )


@given(tables(), st.sampled_from([",", ";", "\t"]), st.sampled_from(["\n", "\r\n"]), st.booleans())
def test_other_cells_pass_byte_for_byte(table, delimiter, ending, quote_all):
    bodies = [written(row, delimiter, quote_all) for row in table]
    text = "".join(body + ending for body in bodies)
    records = list(Column("width", delimiter=delimiter).widen(io.StringIO(text, newline="")))
    for record, body, cells in zip(records, bodies, table, strict=True):
        assert record.startswith(body + delimiter)
        assert record.endswith(ending)
        parsed = rows(record, delimiter)
        assert len(parsed) == 1
        assert parsed[0][: len(cells)] == cells
        assert len(parsed[0]) == len(cells) + 8


@pytest.mark.parametrize(
    ("text", "out"),
    [
        pytest.param("\ufeffwidth\r\n1 in\r\n", "\ufeffwidth,H\r\n1 in,F\r\n", id="byte-order-mark-and-crlf"),
        pytest.param(
            '\ufeff"width"\n1 in\n', '\ufeff"width",H\n1 in,F\n', id="byte-order-mark-before-a-quote"
        ),
        pytest.param("width\n1 in", "width,H\n1 in,F", id="no-last-line-ending"),
        pytest.param("width\n\n1 in\n\n", "width,H\n\n1 in,F\n\n", id="blank-lines"),
        pytest.param("\n\nwidth\n1 in\n", "\n\nwidth,H\n1 in,F\n", id="blank-lines-first"),
        pytest.param("width\r1 in\r", "width,H\r1 in,F\r", id="old-line-endings"),
        pytest.param('part,width\n"a ""b""",1 in\n', 'part,width,H\n"a ""b""",1 in,F\n', id="quotes"),
        pytest.param('part,width\n"a\nb",1 in\n', 'part,width,H\n"a\nb",1 in,F\n', id="line-in-a-cell"),
        pytest.param("part,width\na\0b,1 in\n", "part,width,H\na\0b,1 in,F\n", id="nul"),
        pytest.param("Width \n1 in\n", "Width ,H\n1 in,F\n", id="heading-in-other-letters"),
        pytest.param("width,\n1 in,\n", "width,,H\n1 in,,F\n", id="heading-left-empty"),
    ],
)
def test_a_file_passes_as_it_is_written(text, out):
    heads = "inch fraction,inch,mm,nearest on 64ths,error inch,error mm,rounded,fault"
    assert widened(text) == out.replace("H", heads).replace("F", "1 in,1,25.4,1 in,0,0,,")


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("tray", "this row has 1 cell and the header has 3"),
        ("tray,1 in,x,y,z", "this row has 5 cells and the header has 3"),
    ],
    ids=["short", "long"],
)
def test_an_uneven_row_is_kept_with_its_reason_under_the_heading(row, reason):
    found = rows(widened(f"part,width,note\n{row}\n"))
    assert found[1][found[0].index(FAULT)] == reason
    assert [cell for cell in found[1] if cell and cell != reason] == row.split(",")


def test_a_quote_never_closed_costs_one_row():
    text = 'part,width\n"tray,1 in\nrunner,2 in\nframe,3 in\n'
    column = Column("width")
    found = rows("".join(column.widen(io.StringIO(text, newline=""))))
    assert found[1][0] == '"tray,1 in'
    assert found[1][-1] == "a quote in this row is not closed within 100,000 characters"
    assert [row[:3] for row in found[2:]] == [["runner", "2 in", "2 in"], ["frame", "3 in", "3 in"]]
    assert column.first_fault is not None
    assert column.first_fault[0] == 2


def test_a_quote_never_closed_is_not_looked_for_without_end():
    def endless():
        yield "width\n"
        yield '"1 in\n'
        for n in count():
            assert n < 60_000, "the whole file was taken for one cell"
            yield "2 in\n"

    _, second, third = islice(Column("width").widen(endless()), 3)
    assert "not closed within 100,000 characters" in second
    assert third.startswith("2 in,2 in,2,")


def test_a_stream_is_worked_through_row_by_row():
    taken = []

    def lines():
        yield "width\n"
        for n in count(1):
            taken.append(n)
            yield f"{n} in\n"

    assert len(list(islice(Column("width").widen(lines()), 4))) == 4
    assert len(taken) == 3


def test_headings_that_are_there_already_are_not_doubled():
    column = Column("width")
    found = rows("".join(column.widen(["mm,width,fault\n", "a,1 in,b\n"])))
    assert found[0][3:] == [
        "inch fraction",
        "inch",
        "mm of width",
        "nearest on 64ths",
        "error inch",
        "error mm",
        "rounded",
        "fault of width",
    ]
    assert column.renamed == {"mm": "mm of width", "fault": "fault of width"}
    again = Column("width")
    twice = rows(
        "".join(again.widen(io.StringIO("".join(Column("width").widen(["width\n", "1 in\n"])), newline="")))
    )
    assert len(set(twice[0])) == len(twice[0])


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("part,bore\n", "no column is headed 'width'; there are 'part', 'bore'"),
        ("width,width\n", "2 columns are headed 'width', and the sizes can stand in one only"),
        ("", "this is empty: a first line with the names of the columns is needed"),
        ("\n\n", "this is empty: a first line with the names of the columns is needed"),
        (
            'part,"width\n',
            "the header cannot be read: a quote in this row is not closed within 100,000 characters",
        ),
    ],
    ids=["missing", "twice", "empty", "blank", "open-quote"],
)
def test_a_header_that_will_not_do(text, message):
    with pytest.raises(HeaderError) as caught:
        widened(text)
    assert str(caught.value) == message


def test_a_unit_that_is_none():
    with pytest.raises(ShopError, match="'furlong' is not a unit of length known here"):
        Column("width", unit="furlong")


# The command


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "trays.csv"
    path.write_bytes(b"part,width\r\ntray \xff,2 1/32 in\r\nframe,nonsense\r\n")
    return path


def test_the_command_writes_a_file_and_tells_what_is_wrong(table, tmp_path, capfd):
    out = tmp_path / "out.csv"
    assert main(["column", str(table), "--size", "width", "--out", str(out)]) == 1
    lines = out.read_bytes().split(b"\r\n")
    assert lines[1] == b"tray \xff,2 1/32 in,2 1/32 in,2.03125,51.59375,2 1/32 in,0,0,,"
    said = capfd.readouterr()
    assert said.out == ""
    assert said.err.splitlines() == [
        f"{table}: 1 of 2 rows have a fault, told in the column 'fault'",
        "line 3: this is not a size; write one such as 2 1/32 in",
    ]


def test_the_command_writes_to_standard_output(table, capfdbinary):
    table.write_bytes(b"\xef\xbb\xbfpart\twidth\ntray\t1/2\n")
    assert (
        main(
            ["column", str(table), "--size", "width", "--delimiter", "tab", "--unit", "in", "--rule", "8ths"]
        )
        == 0
    )
    assert capfdbinary.readouterr().out.split(b"\n")[1] == b"tray\t1/2\t1/2 in\t0.5\t12.7\t1/2 in\t0\t0\t\t"


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["nowhere.csv", "--size", "w"], "cannot be read: No such file or directory"),
        ([".", "--size", "w"], "cannot be read: Is a directory"),
        (["FILE", "--size", "bore"], "no column is headed 'bore'; there are 'part', 'width'"),
        (["FILE", "--size", "width", "--rule", "big"], "'big' is not a rule"),
        (["FILE", "--size", "width", "--unit", "mil"], "'mil' is not a unit of length"),
        (["FILE", "--size", "width", "--out", "FILE"], "is the file that is read: write to another"),
        (["FILE", "--size", "width", "--out", "FILE/x"], "cannot be written: Not a directory"),
        (["FILE", "--size", "width", "--delimiter", "--"], "--delimiter"),
        (["FILE", "--size", "width", "--delimiter", "/"], "cannot stand between cells"),
        (["FILE", "--size", "width", "--places", "13"], "is not a number of places from 0 to 12"),
        (["FILE"], "--size"),
        (["a\0b", "--size", "w"], "the name of the file holds a sign that no file's name can"),
    ],
)
def test_wrong_use_is_told_in_a_sentence(arguments, message, table, capfd):
    before = table.read_bytes()
    assert main(["column", *(a.replace("FILE", str(table)) for a in arguments)]) == 2
    said = capfd.readouterr()
    assert said.out == ""
    assert message in said.err
    assert "Traceback" not in said.err
    assert table.read_bytes() == before


def test_utf_16_is_told(table, capfd):
    table.write_bytes("width\n1 in\n".encode("utf-16"))
    assert main(["column", str(table), "--size", "width"]) == 2
    assert "is in UTF-16: save it as CSV in UTF-8" in capfd.readouterr().err


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("terminal", "term", "shown"), [(True, "xterm", True), (True, "dumb", False), (False, "xterm", False)]
)
def test_progress_is_for_a_person_who_waits(terminal, term, shown, monkeypatch, tmp_path):
    path = tmp_path / "long.csv"
    path.write_text("width\n" + "1 in\n" * 9000)
    screen = Screen() if terminal else io.StringIO()
    clock = count()
    monkeypatch.setenv("TERM", term)
    monkeypatch.setattr(command, "monotonic", lambda: next(clock))
    monkeypatch.setattr("sys.stderr", screen)
    assert main(["column", str(path), "--size", "width", "--out", str(tmp_path / "out.csv")]) == 0
    assert ("8,193 rows, " in screen.getvalue()) is shown
    if shown:
        assert screen.getvalue().endswith(" \r"), "the line is taken away at the end"
    else:
        assert screen.getvalue() == ""


def test_what_is_too_small_for_the_decimals_is_shown_in_three_more() -> None:
    (row,) = list(Column("size").widen(["size\n", "1/30000000 in\n"]))[1:]
    assert row.startswith("1/30000000 in,,0.000000033,")
