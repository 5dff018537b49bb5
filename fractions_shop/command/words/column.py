"""`fractions-shop column FILE --size COLUMN`: figures beside every size of a CSV file."""

from __future__ import annotations

import io
import os
import sys
from argparse import ArgumentParser, ArgumentTypeError
from collections.abc import Generator, Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
from itertools import islice
from time import monotonic
from typing import BinaryIO, TextIO

from fractions_shop.command.column import DOUBT, FAULT, LONGEST_LINE, Column, HeaderError
from fractions_shop.command.interrupts import raise_instead
from fractions_shop.command.options import add_out, add_units, empty_parser
from fractions_shop.command.overwriting import refuse_to_spoil
from fractions_shop.command.spreadsheet import is_spreadsheet, refuse_as_output
from fractions_shop.command.spreadsheet import lines as spreadsheet_lines
from fractions_shop.command.streams import (
    DONE,
    FAILED,
    MISUSED,
    Stop,
    is_terminal,
    refuse_own_output,
    say,
)
from fractions_shop.errors import ShopError, visible
from fractions_shop.files.whole import can_be_replaced, replacing
from fractions_shop.size.rule import Rule

#: After so many rows the progress is shown again.
_ROWS_AT_ONCE = 4096
_DELIMITERS = {"tab": "\t", "comma": ",", "semicolon": ";", "bar": "|"}

_MORE = """\
The new columns stand behind those that are there, which stay as they are written:
  inch fraction       where the size is a readable fraction of an inch
  inch, mm            decimals, of at most --places
  nearest on RULE     the nearest division; a tie goes to the even one
  error inch, mm      that division less the size
                      (with --units mm-first each figure in mm before those in inches)
  rounded             which of the decimals are rounded; the others are exact
  doubt               with --doubtful note: what else the size may mean
  fault               why there are no figures; no row is left out

examples:
  fractions-shop column trays.csv --size width --out trays-mm.csv
  fractions-shop column runners.csv --size length --unit mm --rule 32nds
  fractions-shop column - --size bore --delimiter tab < frames.txt
  fractions-shop column parts.xlsx --size 3 --out parts.csv
  fractions-shop column teile.csv --size 2 --delimiter semicolon --decimal comma

exit status: 0; 1 when a row has a fault; 2 for wrong use.
"""


def parser() -> ArgumentParser:
    """The options and arguments of the command."""
    made = empty_parser(
        "fractions-shop column",
        "Adds inch, millimetre and nearest-division columns to a CSV file with a header, in UTF-8, or to an .xlsx sheet.",
        _MORE,
    )
    made.add_argument("file", metavar="FILE", help="the CSV or .xlsx file; - is CSV on standard input")
    made.add_argument(
        "--size",
        required=True,
        metavar="COLUMN",
        help="the heading of the column of sizes, or its number from 1",
    )
    made.add_argument("--worksheet", metavar="NAME", help="which sheet of an .xlsx file is read (the first)")
    made.add_argument(
        "--decimal", choices=("point", "comma"), default="point",
        help="the decimal sign of the sizes and of the figures added (point)",
    )  # fmt: skip
    made.add_argument("--rule", default="64ths", help="the rule whose nearest division is added (64ths)")
    made.add_argument("--unit", help="what a number without a unit is in; such a number is a fault otherwise")
    made.add_argument(
        "--doubtful", choices=("fault", "note"), default="fault",
        help="a size with a second meaning, such as 5' - 3\": a fault, or read as a sum is and noted (fault)",
    )  # fmt: skip
    made.add_argument("--places", type=_places, default=6, metavar="N", help="decimal places, 0 to 12 (6)")
    made.add_argument(
        "--delimiter",
        type=_delimiter,
        metavar="SIGN",
        help="what stands between the cells: tab, comma, semicolon, bar, or another sign (comma; tab for FILE.tsv)",
    )
    add_units(made)
    add_out(made)
    return made


def run(arguments: list[str]) -> int:
    """Run the command and return its exit status."""
    options = parser().parse_args(arguments)
    delimiter = options.delimiter or ("\t" if options.file.lower().endswith(".tsv") else ",")
    try:
        column = Column(
            options.size,
            Rule(options.rule),
            options.unit,
            options.places,
            delimiter,
            options.doubtful,
            options.decimal,
            options.units.lead == "mm",
        )
    except ShopError as error:
        raise Stop(str(error), MISUSED) from None
    refuse_as_output(options.out)
    name = "standard input" if options.file == "-" else visible(options.file)
    with ExitStack() as stack:
        raw = _opened(options.file, stack)
        refuse_own_output(raw, options.out, "the file that is read")
        if is_spreadsheet(options.file):
            pieces = column.widen(spreadsheet_lines(raw, name, delimiter, options.worksheet, options.decimal))
        else:
            pieces = column.widen(_lines(raw, name, stack))
        try:
            heading = next(pieces)
        except HeaderError as error:
            raise Stop(f"{name}: {error}", MISUSED) from None
        progress = _Progress(raw)
        stack.callback(progress.clear)
        if options.out is None:
            with _standard_output() as out:
                _write(out, heading, pieces, column, progress)
        else:
            refuse_to_spoil(options.out, options.replace, delimiter)
            _write_file(options.out, heading, pieces, column, progress)
    return _told(column, name)


def _write(out: TextIO, heading: str, pieces: Iterator[str], column: Column, progress: _Progress) -> None:
    out.write(heading)
    for piece in pieces:
        out.write(piece)
        progress.show(column.rows)
        out.writelines(islice(pieces, _ROWS_AT_ONCE - 1))
    out.flush()


def _write_file(path: str, heading: str, pieces: Iterator[str], column: Column, progress: _Progress) -> None:
    """Write every row to a file; after a fault or Ctrl-C it is as it was before."""
    shown = visible(path)
    raise_instead()
    try:
        with replacing(path) as file:
            # Bytes that came in as no UTF-8 go out as they were.
            text = io.TextIOWrapper(file, encoding="utf-8", errors="surrogateescape", newline="")
            try:
                _write(text, heading, pieces, column, progress)
            finally:
                _let_go(text)
    except KeyboardInterrupt:
        progress.clear()
        kept = can_be_replaced(path)
        say(f"stopped: nothing is written to {shown}" if kept else f"stopped: {shown} is not complete")
        raise
    except (OSError, ValueError) as error:
        if isinstance(error, ShopError):
            raise
        reason = getattr(error, "strerror", None) or error
        raise Stop(f"{shown} cannot be written: {reason}", MISUSED) from None


def _told(column: Column, name: str) -> int:
    """Say what the rows showed, and give the exit status."""
    for usual, instead in column.renamed.items():
        say(f"{name}: a column {usual!r} is there already, so the new one is {instead!r}")
    if column.doubted:
        where = column.renamed.get(DOUBT, DOUBT)
        say(
            f"{name}: {column.doubted:,} of {column.rows:,} sizes may mean another, told in the column {where!r}"
        )
    if column.first_fault is None:
        return DONE
    line, reason = column.first_fault
    where = column.renamed.get(FAULT, FAULT)
    say(f"{name}: {column.bad:,} of {column.rows:,} rows have a fault, told in the column {where!r}")
    say(f"line {line}: {reason}")
    return FAILED


# Streams


def _opened(file: str, stack: ExitStack) -> BinaryIO:
    if file != "-":
        try:
            raw: BinaryIO = stack.enter_context(open(file, "rb"))  # noqa: PTH123, SIM115
        except OSError as error:
            raise Stop(f"{visible(file)} cannot be read: {error.strerror or error}", MISUSED) from None
        except ValueError:
            raise Stop("the name of the file holds a sign that no file's name can", MISUSED) from None
    elif sys.stdin is None:
        raise Stop("standard input is closed", MISUSED)
    else:
        raw = sys.stdin.buffer
    return raw


def _lines(raw: BinaryIO, name: str, stack: ExitStack) -> Iterator[str]:
    """The lines of a file with their endings; bytes that are no UTF-8 pass as they are."""
    text = io.TextIOWrapper(raw, encoding="utf-8", errors="surrogateescape", newline="")
    stack.callback(_let_go, text)
    return stack.enter_context(closing(_checked(text, name)))


def _checked(text: TextIO, name: str) -> Generator[str, None, None]:
    try:
        first = _line(text, name)
        if first.startswith("PK\x03\x04"):
            raise Stop(
                f"{name} is a packed file, not CSV: give a workbook as a file that ends .xlsx", MISUSED
            )
        if first[:2] in ("\udcff\udcfe", "\udcfe\udcff"):
            raise Stop(f"{name} is in UTF-16: save it as CSV in UTF-8", MISUSED)
        if first:
            yield first
        while line := _line(text, name):
            yield line
    except OSError as error:
        raise Stop(f"{name} cannot be read: {error.strerror or error}", FAILED) from None


def _line(text: TextIO, name: str) -> str:
    line = text.readline(LONGEST_LINE + 1)
    if len(line) > LONGEST_LINE:
        raise Stop(
            f"{name} has a line of more than {LONGEST_LINE:,} characters, so it is not a table of sizes",
            FAILED,
        )
    return line


@contextmanager
def _standard_output() -> Iterator[TextIO]:
    """Standard output for rows: bytes that came in as no UTF-8 go out as they were, but to a terminal made safe."""
    if sys.stdout is None:
        raise Stop("standard output is closed, so there is nowhere to write", FAILED)
    terminal = is_terminal(sys.stdout)
    kind = _Terminal if terminal else io.TextIOWrapper
    text = kind(
        sys.stdout.buffer, encoding="utf-8", errors="surrogateescape", newline="", line_buffering=terminal
    )
    try:
        yield text
    finally:
        _let_go(text)


class _Terminal(io.TextIOWrapper):
    """A terminal, which is not to act upon what stands in a cell."""

    def write(self, text: str) -> int:
        return super().write(visible(text, keep="\r\n\t"))


def _let_go(text: io.TextIOWrapper) -> None:
    """Leave the stream beneath open; what is still held for it is lost only when it cannot be written."""
    with suppress(OSError, ValueError):
        text.detach()


class _Progress:
    """Rows done so far, on standard error twice a second, for a person who waits there."""

    def __init__(self, raw: BinaryIO) -> None:
        self._wanted = is_terminal(sys.stderr) and os.environ.get("TERM", "dumb") not in ("", "dumb")
        self._raw = raw
        self._next = monotonic() + 0.5
        self._shown = 0

    def show(self, rows: int) -> None:
        """Write the line anew, when it is time."""
        if not self._wanted or monotonic() < self._next:
            return
        self._next = monotonic() + 0.5
        line = f"{rows:,} rows{self._share()}"
        self._write(f"\r{line:{self._shown}}")
        self._shown = len(line)

    def _share(self) -> str:
        """How much of a file has been read."""
        try:
            size = os.fstat(self._raw.fileno()).st_size
            return f", {100 * self._raw.tell() // size} % of the file" if size else ""
        except (OSError, ValueError):
            return ""

    def clear(self) -> None:
        """Take the line away."""
        if self._shown:
            self._write(f"\r{'':{self._shown}}\r")

    def _write(self, text: str) -> None:
        try:
            sys.stderr.write(text)
            sys.stderr.flush()
        except OSError:
            self._wanted = False


# Options


def _places(text: str) -> int:
    if not text.isascii() or not text.isdecimal() or int(text[:4]) > 12:
        raise ArgumentTypeError(f"{text!r} is not a number of places from 0 to 12")
    return int(text)


def _delimiter(text: str) -> str:
    sign = _DELIMITERS.get(text, "\t" if text == "\\t" else text)
    if len(sign) != 1 or sign.isalnum() or sign in " \"'\r\n./-+½" or ord(sign) == 0:
        raise ArgumentTypeError(
            f"{text!r} cannot stand between cells: give tab, comma, semicolon, bar or one sign that no size holds"
        )
    return sign
