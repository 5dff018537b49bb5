"""Whether a file may be written over: one of ours may, any other only when asked."""

from __future__ import annotations

import csv
import os
import re

from fractions_shop.command.column import ends_as_ours
from fractions_shop.command.streams import MISUSED, Stop
from fractions_shop.errors import visible
from fractions_shop.files.bounded import first_bytes
from fractions_shop.files.whole import can_be_replaced
from fractions_shop.show import own_mark
from fractions_shop.show.columns import HEADERS

#: So much of a file tells what it is; a title, or a row of headings, may be long.
ENOUGH = 100_000
#: The name of what made a print may stand anywhere in it.
_LONGEST_PRINT = 200_000_000

_BEGINNINGS = (
    rb"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n" + re.escape(own_mark.HTML.encode()),
    rb"<\?xml version=\"1.0\" encoding=\"UTF-8\"\?>\n" + re.escape(own_mark.COMMENT.encode()),
    rb"# [^\n]*\n\n" + re.escape(own_mark.COMMENT.encode()) + rb"\n",
    rb"[^\n]*\n=+\n" + re.escape(own_mark.TEXT.encode()) + rb"\n",
    rb"\{\s*\"schema\": [0-9]+,\s*\"kind\": \"sheet\",\s*\"title\": ",
    *(re.escape(",".join(header).encode()) + rb"\r\n" for header in HEADERS),
    re.escape(own_mark.TEXT.encode()) + rb"\n",
    rb"[^\n]*\n=+\n" + re.escape(own_mark.COORDINATES.encode()) + rb"\n",
    re.escape(own_mark.DXF.encode()),
    rb"\{\s*\"schema\": [0-9]+,\s*\"kind\": \"(?:comparison|side by side)\",\s*\"same\": ",
    rb"line,column,written,kind,(?:inch,mm|mm,inch),doubts\n",
    rb"\{\"line\": [0-9]+, \"column\": [0-9]+, \"written\": \"",
)  # fmt: skip
_OURS = re.compile(b"|".join(_BEGINNINGS))


def refuse_to_spoil(out: str, replace: bool, delimiter: str = ",") -> None:
    """Stop when `out` holds something that we did not write, unless it is to be replaced.

    Nothing, an empty file, a device and a pipe have nothing to lose. `delimiter` stands
    between the cells of a table that the command `column` may have written.
    """
    try:
        if replace or not can_be_replaced(out):
            return
        start = first_bytes(out, ENOUGH)
    except FileNotFoundError:
        return
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise Stop(f"{visible(out)} cannot be written: {reason}", MISUSED) from None
    if start and not (is_sheet_output(out, start) or _is_widened(start, delimiter)):
        raise Stop(
            f"{visible(out)} is there already, and not as this command writes it: "
            "add --replace to write over it, or write to another file",
            MISUSED,
        )


def is_sheet_output(path: str | os.PathLike[str], start: bytes) -> bool:
    """Whether a file that starts so is one that a sheet, or the sizes found in a text, were written to."""
    if start.startswith(b"%PDF-"):
        return f"/Creator ({own_mark.MAKER})".encode() in first_bytes(path, _LONGEST_PRINT)
    return _OURS.match(start) is not None


def _is_widened(start: bytes, delimiter: str) -> bool:
    header = start.lstrip(b"\xef\xbb\xbf\r\n").split(b"\n", 1)[0].rstrip(b"\r").decode("utf-8", "replace")
    try:
        return ends_as_ours(next(csv.reader([header], delimiter=delimiter), []))
    except csv.Error:
        return False
