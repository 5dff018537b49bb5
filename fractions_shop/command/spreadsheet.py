"""Rows of a spreadsheet file as lines of CSV, for `column`. The only importer of openpyxl, an extra.

A cell is passed on as what stands in it, without its formatting: a fraction that was
typed into a cell of numbers is a decimal there, and one that the spreadsheet took for a
day is told as a day, which is no size.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from datetime import datetime, time, timedelta
from decimal import Decimal
from pathlib import PurePath
from typing import Any, BinaryIO
from zipfile import BadZipFile, ZipFile

from fractions_shop.command.streams import FAILED, MISUSED, Stop

#: A workbook that unpacks to more than this holds no list of parts.
LARGEST = 512 * 1024 * 1024
#: Figures that a spreadsheet keeps of a number; those beyond are of its arithmetic, not of its maker.
_FIGURES = 15
_ENDINGS = (".xlsx", ".xlsm")
_OTHERS = (".xls", ".xlsb", ".ods", ".numbers")
_SOLD_AS = "pip install 'fractions-shop[spreadsheet]'"


def is_spreadsheet(file: str) -> bool:
    """Whether a file is one that is read here, by its ending; Stop for one of another program's that is not."""
    ending = PurePath(file).suffix.lower()
    if ending in _OTHERS:
        raise Stop(f"a file that ends {ending} is not read: save it as .xlsx or as CSV in UTF-8", MISUSED)
    return ending in _ENDINGS


def refuse_as_output(out: str | None) -> None:
    """Stop for an output whose name says that it is a workbook: CSV would be written into it."""
    if out is not None and PurePath(out).suffix.lower() in (*_ENDINGS, *_OTHERS):
        raise Stop(f"{out} would not be a workbook: the figures are written as CSV, so end it .csv", MISUSED)


def lines(
    raw: BinaryIO, name: str, delimiter: str, worksheet: str | None, decimal: str = "point"
) -> Iterator[str]:
    """Every row of one worksheet, the first unless another is named, as a line of CSV.

    Numbers get a comma for their point with `decimal="comma"`, as the other cells have it. Stop when the
    library is not installed, and for what is no workbook or has no such worksheet.
    """
    sheet = _worksheet(raw, name, worksheet)
    text = io.StringIO()
    writer = csv.writer(text, delimiter=delimiter, lineterminator="\n")
    waiting = 0
    for row in _rows(sheet, name):
        cells = [_told(value, decimal) for value in row]
        if not any(cells):
            waiting += 1
            continue
        # Empty rows within the table keep the numbers of the lines; a spreadsheet has many below it.
        yield from ["\n"] * waiting
        waiting = 0
        writer.writerow(cells)
        yield text.getvalue()
        text.seek(0)
        text.truncate()


def _rows(sheet: Any, name: str) -> Iterator[Any]:
    """The rows of a worksheet, which are read as they are asked for; Stop where the file is broken farther down."""
    rows = sheet.iter_rows(values_only=True)
    while True:
        try:
            row = next(rows, None)
        except Exception as error:  # as of opening it: the library raises many kinds
            raise Stop(f"{name} cannot be read as a workbook: {error}", FAILED) from None
        if row is None:
            return
        yield row


def _worksheet(raw: BinaryIO, name: str, worksheet: str | None) -> Any:
    try:
        import openpyxl
    except ImportError:
        raise Stop(f"reading {name} needs openpyxl, which is not installed: {_SOLD_AS}", MISUSED) from None
    try:
        with ZipFile(raw) as packed:
            size = sum(part.file_size for part in packed.infolist())
    except (BadZipFile, OSError, ValueError, NotImplementedError):
        raise Stop(f"{name} is not an .xlsx workbook", MISUSED) from None
    if size > LARGEST:
        raise Stop(f"{name} unpacks to more than {LARGEST // 1024**2} MB: save the column as CSV", MISUSED)
    raw.seek(0)
    try:
        book = openpyxl.load_workbook(raw, read_only=True, data_only=True)
    except Exception as error:  # the library raises many kinds of error for a broken workbook
        raise Stop(f"{name} cannot be read as a workbook: {error}", FAILED) from None
    sheets = {sheet.title: sheet for sheet in book.worksheets}
    if worksheet is None and sheets:
        return next(iter(sheets.values()))
    if worksheet in sheets:
        return sheets[worksheet]
    there = ", ".join(repr(title) for title in list(sheets)[:20])
    raise Stop(f"{name} has no worksheet {worksheet!r}; there are {there or 'none'}", MISUSED)


def _told(value: Any, decimal: str) -> str:
    """What stands in a cell, as text; a number in at most as many figures as the spreadsheet shows."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, float):
        text = format(Decimal(format(value, f".{_FIGURES}g")), "f")
        return text.replace(".", ",") if decimal == "comma" else text
    if isinstance(value, datetime | time):
        # 1/2 in a cell of numbers becomes the first of February. With its hours it reads as no size.
        return value.isoformat()
    if isinstance(value, timedelta):
        return f"{value} hours"
    return str(value)
