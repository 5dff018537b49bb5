"""`fractions-shop compare OLD NEW`: what differs between two sheets; of more, each named size side by side."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from fractions_shop.command.delivery import deliver
from fractions_shop.command.options import add_out, empty_parser
from fractions_shop.command.overwriting import refuse_to_spoil
from fractions_shop.command.streams import DONE, FAILED, MISUSED, Stop, put, say, shows_unicode, width
from fractions_shop.command.words.sheet import opened
from fractions_shop.errors import visible
from fractions_shop.figures.plain import Lines, laid_out
from fractions_shop.figures.wording import so_many
from fractions_shop.requests.data import json_text
from fractions_shop.show import own_mark
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.notation import told_in

#: The page of the new sheet, what changed marked in it; the rest tell of the changes alone.
MARKED = "marked"
FORMS = ("text", "html", "json", MARKED)
#: Numbers of lines that are told; the rest are counted.
_MOST_TOLD = 12
_MORE = """\
Sizes are compared by name and value, parts by name, count, material, sizes and note, holes,
slots and corners by part, size and place, stock by its sizes and what is cut from it, all
other answers (marks, heights, fits, checks, threads ...) by every figure that they give.
Revisions, and tools that only one sheet asks for, are told of two sheets. How a line is
written and where it stands do not matter. Titles, notes (#) and comments are not compared. Three sheets or more are set side by
side, a row for each named size, part, cut, stock and set of places, and for each answer
without a name that differs. --to marked writes the page of the new sheet with what changed
marked in it.

examples:
  fractions-shop compare trays-as-drawn.shop trays.shop
  fractions-shop compare left.shop middle.shop right.shop --out trays.html

exit status: 0 when nothing differs, or with --always-done; 1 when something does, or when a
line of any sheet is not answered, so that it cannot be compared; 2 for wrong use.
"""


def parser() -> ArgumentParser:
    """The options and arguments of the command."""
    made = empty_parser(
        "fractions-shop compare",
        "Tells what differs between two sheets, or sets several side by side.",
        _MORE,
    )
    made.add_argument("old", nargs="?", metavar="OLD", help="the sheet as it was")
    made.add_argument(
        "new", nargs="?", metavar="NEW", help="the sheet as it is now; - is standard input for one of them"
    )
    made.add_argument(
        "others", metavar="SHEET", nargs="*", help="more sheets, to set all of them side by side"
    )
    made.add_argument(
        "--to",
        choices=FORMS,
        help="what to write (text; with --out, what the file's ending means)",
    )
    add_out(made)
    made.add_argument("--always-done", action="store_true", help="exit status 0 also when something differs")
    made.add_argument("--json", action="store_true", help="one JSON object instead of sentences")
    made.add_argument("--schema", action="store_true", help="print the JSON Schema of that object, and end")
    return made


def run(arguments: list[str]) -> int:
    """Run the command and return its exit status."""
    made = parser()
    options = made.parse_args(arguments)
    if options.schema:
        home = Path(__file__).parents[2] / "show" / "comparison.schema.json"
        put(home.read_text("utf-8").rstrip("\n"))
        return DONE
    files = [file for file in (options.old, options.new, *options.others) if file is not None]
    if len(files) < 2:
        made.error("the following arguments are required: OLD, NEW")
    if files.count("-") > 1:
        made.error("only one of the sheets can be standard input")
    form = "json" if options.json else options.to or _form_of(options.out)
    if form == MARKED and len(files) > 2:
        made.error("--to marked takes two sheets: the page is the new one's")
    sheets = [opened(file, options.out) for file in files]
    if options.out is not None:
        refuse_to_spoil(options.out, options.replace)
    names = _names(files)
    compared = _two_compared(sheets, names, form) if len(sheets) == 2 else _side_by_side(sheets, names, form)
    if options.out is not None or form != "text":
        marked = f"{own_mark.TEXT}\n" if options.out is not None and form == "text" else ""
        deliver(f"{marked}{compared.written}\n", options.out)
    else:
        put(compared.written)
    unanswered = [_unanswered(file, sheet) for file, sheet in zip(files, sheets, strict=True)]
    return FAILED if any(unanswered) or (not compared.same and not options.always_done) else DONE


class _Compared(NamedTuple):
    """What was written of a comparison, and whether nothing differs."""

    written: str
    same: bool


def _two_compared(sheets: Sequence[Sheet], names: Sequence[str], form: str) -> _Compared:
    old, new = sheets
    sizes, parts, answers = old.changes(new), old.part_changes(new), old.answer_changes(new)
    cuts, stock = old.cut_changes(new), old.stock_changes(new)
    lists = old.list_changes(new)
    same = not (sizes or parts or answers or cuts or stock or lists)
    if form == "json":
        from fractions_shop.show.comparison_data import comparison as as_data

        return _Compared(_as_json(as_data(sizes, parts, answers, cuts, stock, lists)), same)
    if form == MARKED:
        return _Compared(new.changes_page(old, names[0]).rstrip("\n"), same)
    from fractions_shop.show.changes import comparison

    with told_in(new.units):
        lines = comparison(sizes, parts, answers, names[0], names[1], cuts, stock, lists)
        return _Compared(_written(lines, names, form), same)


def _side_by_side(sheets: Sequence[Sheet], names: Sequence[str], form: str) -> _Compared:
    from fractions_shop.sheet.side_by_side import answers_beside, made_beside, side_by_side
    from fractions_shop.show import side_by_side as shown

    rows = side_by_side([sheet.sizes for sheet in sheets], [sheet.undone_lines for sheet in sheets])
    worked = [sheet.worked for sheet in sheets]
    made, answers = made_beside(worked), answers_beside(worked)
    same = shown.all_same(rows, made, answers)
    if form == "json":
        return _Compared(_as_json(shown.data(rows, made, names, answers)), same)
    with told_in(sheets[-1].units):
        return _Compared(_written(shown.lines(rows, made, names, answers), names, form), same)


def _as_json(compared: Mapping[str, Any]) -> str:
    return json_text(compared, letters=not shows_unicode(sys.stdout))


def _written(lines: Lines, names: Sequence[str], form: str) -> str:
    if form == "text":
        return laid_out(lines, width())
    from fractions_shop.show.page import lines_page

    return lines_page(f"{', '.join(names[:-1])} and {names[-1]} compared", lines)


def _form_of(out: str | None) -> str:
    if out is None:
        return "text"
    form = {".txt": "text", ".html": "html", ".json": "json"}.get(Path(out).suffix.lower())
    if form is None:
        raise Stop(f"--out {visible(out)} does not say what to write: add --to text, html or json", MISUSED)
    return form


def _names(files: Sequence[str]) -> list[str]:
    """What the sheets are called in the answer: their files' names, or where two are alike by their places."""
    names = ["standard input" if file == "-" else visible(Path(file).name) for file in files]
    if len(set(names)) == len(names):
        return names
    return ["old", "new"] if len(names) == 2 else [visible(file) for file in files]


def _unanswered(name: str, sheet: Sheet) -> bool:
    """Say which lines have no answer, so that their sizes could not be compared."""
    lines = sorted({*(fault.line for fault in sheet.faults), *(item.line.number for item in sheet.waiting)})
    count = len(lines)
    if count:
        numbers = ", ".join(map(str, lines[:_MOST_TOLD])) + (" ..." if count > _MOST_TOLD else "")
        say(
            f"{visible(name)}: {so_many(count, 'line')} not answered ({numbers}); what they would tell is not compared"
        )
    return bool(count)
