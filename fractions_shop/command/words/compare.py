"""`fractions-shop compare OLD NEW`: which sizes, parts and answers differ between two sheets."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from pathlib import Path

from fractions_shop.command.options import empty_parser
from fractions_shop.command.streams import DONE, FAILED, put, say, shows_unicode, width
from fractions_shop.command.words.sheet import opened
from fractions_shop.errors import visible
from fractions_shop.figures.wording import so_many
from fractions_shop.show.sheet import Sheet

#: Numbers of lines that are told; the rest are counted.
_MOST_TOLD = 12
_MORE = """\
Sizes are compared by name and value, parts by name, count, material, sizes and note, all
other answers (marks, heights, fits, checks, threads ...) by every figure that they give.
How a line is written and where it stands do not matter. Titles, notes (#) and comments are
not compared.

example:
  fractions-shop compare trays-as-drawn.shop trays.shop

exit status: 0 when every size, part and answer is the same; 1 when one differs, or when a
line of either sheet is not answered, so that it cannot be compared; 2 for wrong use.
"""


def parser() -> ArgumentParser:
    """The options and arguments of the command."""
    made = empty_parser(
        "fractions-shop compare", "Tells which sizes, parts and answers differ between two sheets.", _MORE
    )
    made.add_argument("old", metavar="OLD", help="the sheet as it was")
    made.add_argument(
        "new", metavar="NEW", help="the sheet as it is now; - is standard input for one of them"
    )
    made.add_argument("--json", action="store_true", help="one JSON object instead of sentences")
    return made


def run(arguments: list[str]) -> int:
    """Run the command and return its exit status."""
    made = parser()
    options = made.parse_args(arguments)
    if options.old == options.new == "-":
        made.error("only one of the two sheets can be standard input")
    old, new = opened(options.old), opened(options.new)
    sizes, parts, answers = old.changes(new), old.part_changes(new), old.answer_changes(new)
    if options.json:
        from fractions_shop.requests.data import json_text
        from fractions_shop.show.sheet_data import comparison as as_data

        put(json_text(as_data(sizes, parts, answers), letters=not shows_unicode(sys.stdout)))
    else:
        from fractions_shop.figures.plain import laid_out
        from fractions_shop.show.changes import comparison
        from fractions_shop.size.notation import told_in

        first, second = _names(options.old, options.new)
        with told_in(new.units):
            text = laid_out(comparison(sizes, parts, answers, first, second), width())
        put(text)
    unanswered = [_unanswered(name, sheet) for name, sheet in ((options.old, old), (options.new, new))]
    return FAILED if sizes or parts or answers or any(unanswered) else DONE


def _names(old: str, new: str) -> tuple[str, str]:
    """What the sheets are called in the answer: their files' names, or old and new if those are alike."""
    names = ["standard input" if file == "-" else visible(Path(file).name) for file in (old, new)]
    return (names[0], names[1]) if names[0] != names[1] else ("old", "new")


def _unanswered(name: str, sheet: Sheet) -> bool:
    """Tell of lines that have no answer, whose sizes could not be compared."""
    lines = sorted({*(fault.line for fault in sheet.faults), *(item.line.number for item in sheet.waiting)})
    count = len(lines)
    if count:
        numbers = ", ".join(map(str, lines[:_MOST_TOLD])) + (" ..." if count > _MOST_TOLD else "")
        say(
            f"{visible(name)}: {so_many(count, 'line')} not answered ({numbers}); what they would tell is not compared"
        )
    return bool(count)
