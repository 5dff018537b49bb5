"""`fractions-shop find FILE`: every size in running text, with its line, in inches and millimetres."""

from __future__ import annotations

import csv
import io
import json
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fractions_shop.command.delivery import deliver
from fractions_shop.command.options import add_out, add_units, empty_parser
from fractions_shop.command.overwriting import refuse_to_spoil
from fractions_shop.command.streams import DONE, FAILED, MISUSED, Stop, refuse_own_output, say
from fractions_shop.errors import ShopError, visible
from fractions_shop.language.written import Item, Range, find_sizes
from fractions_shop.requests.data import encode
from fractions_shop.sheet.source import MOST_BYTES, decoded, text_of
from fractions_shop.show import own_mark
from fractions_shop.show.item_words import flat, in_both, standing_of
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import mm_leads, told_in
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of

#: What the sizes found are written down as.
FORMS = ("text", "csv", "json", "marked")
#: What the ending of a file means; the text with its millimetres has to be asked for.
_ENDINGS = {".txt": "text", ".csv": "csv", ".json": "json", ".jsonl": "json"}
_MARKED_PLACES = 3
_MORE = """\
Finds sizes with their units, limits, ranges, screws, drills and gauges by name. A number
without a unit is never taken for a size: not a year, nor the 3/4 of fig. 3/4.

written down as:
  text    one line a size: line, what is written, inches, millimetres, doubts
  csv     the same as a table
  json    one object a size, a line each, with exact rationals
  marked  the text itself, with the millimetres put behind each size: 1/2 in. [12.7 mm]

examples:
  fractions-shop find notes.txt
  fractions-shop find notes.txt --to marked
  fractions-shop find notes.txt --units mm-first --out sizes.csv
  fractions-shop find - --to csv < notes.txt

exit status: 0; 1 when there is no size in the text; 2 for wrong use.
"""


def parser() -> ArgumentParser:
    """The options and arguments of the command."""
    made = empty_parser(
        "fractions-shop find",
        "Finds every size in running text, and says it in inches and millimetres.",
        _MORE,
    )
    made.add_argument("file", metavar="FILE", help="the text; - is standard input")
    made.add_argument(
        "--to", choices=FORMS, help="what to write (text; with --out, what the file's ending means)"
    )
    add_units(made)
    add_out(made)
    return made


def run(arguments: list[str]) -> int:
    """Run the command and return its exit status."""
    options = parser().parse_args(arguments)
    form = options.to or _form_of(options.out)
    text = _opened(options.file, options.out)
    if options.out is not None:
        refuse_to_spoil(options.out, options.replace)
    items = find_sizes(text)
    with told_in(options.units):
        made = "".join(written(text, items, form))
    deliver(f"{own_mark.TEXT}\n{made}" if options.out and form == "text" else made, options.out)
    if not items and (options.out or form != "text"):
        say("no size is found in this text")
    return DONE if items else FAILED


def _form_of(out: str | None) -> str:
    if out is None:
        return "text"
    form = _ENDINGS.get(Path(out).suffix.lower())
    if form is None:
        raise Stop(f"--out {visible(out)} does not say what to write: add --to {', '.join(FORMS)}", MISUSED)
    return form


def written(text: str, items: tuple[Item, ...], form: str) -> Iterator[str]:
    """The sizes found in a text in one of FORMS, piece by piece."""
    if form == "marked":
        yield from _marked(text, items)
    elif form == "json":
        for item in items:
            yield json.dumps(_object(text, item), ensure_ascii=False) + "\n"
    elif form == "csv":
        out = io.StringIO()
        rows = csv.writer(out, lineterminator="\n")
        rows.writerow(("line", "column", "written", "kind", *_led("inch", "mm"), "doubts"))
        for item in items:
            both = _led(*in_both(item))
            said = _doubts(item, mark_of(standing_of(item)).lstrip(", "))
            rows.writerow([item.line, _column(text, item), flat(item), item.kind, *both, said])
        yield out.getvalue()
    else:
        wide = max((len(flat(item)) for item in items), default=0)
        for item in items:
            first, second = _led(*in_both(item))
            doubts = f"  ({_doubts(item)})" if item.doubts else ""
            trust = mark_of(standing_of(item))
            yield f"{item.line:>5}  {flat(item):<{wide}}  {first} = {second}{trust}{doubts}\n"
        if not items:
            yield "no size is found in this text\n"


def _marked(text: str, items: tuple[Item, ...]) -> Iterator[str]:
    place = 0
    for item in items:
        yield text[place : item.end]
        place = item.end
        unit = units.find(item.unit) if item.unit else None
        if not item.beside and item.kind != "per" and not (unit is not None and unit.metric):
            said = f"{in_both(item, _MARKED_PLACES)[1]}{mark_of(standing_of(item))}"
            yield f" [{said}{', in doubt' if item.doubts else ''}]"
    yield text[place:]


def _column(text: str, item: Item) -> int:
    return item.start - max(text.rfind("\n", 0, item.start), text.rfind("\r", 0, item.start))


def _doubts(item: Item, *more: str) -> str:
    return "; ".join(filter(None, (*(note.text for note in item.doubts), *more)))


def _led(inch: str, mm: str) -> tuple[str, str]:
    """Both, the one that leads first."""
    return (mm, inch) if mm_leads() else (inch, mm)


def _object(text: str, item: Item) -> dict[str, Any]:
    """A size found, as an object of plain text and exact rationals."""
    fields: dict[str, Any] = {
        "line": item.line, "column": _column(text, item), "written": item.written, "kind": item.kind,
    }  # fmt: skip
    value = item.value
    if isinstance(value, Range):
        fields["lower"], fields["upper"] = encode(value.lower), encode(value.upper)
    elif isinstance(item.size, Limits):
        fields["nominal"], fields["lower"], fields["upper"] = map(
            encode, (item.size.nominal, item.size.lower, item.size.upper)
        )
    elif item.size is not None:
        fields["size"] = encode(item.size)
    elif isinstance(value, Quantity):
        fields["value"] = str(value.value)
    fields["notes"] = [
        {"kind": note.kind, "text": note.text, "meanings": list(note.meanings)} for note in item.notes
    ]
    return fields


def _opened(file: str, out: str | None) -> str:
    """The text of a file, or of standard input for -; Stop if it cannot be read, or would be written to."""
    try:
        refuse_own_output(getattr(sys.stdin, "buffer", None) if file == "-" else file, out, "the text itself")
        if file != "-":
            return text_of(Path(file))
        if sys.stdin is None:
            raise Stop("standard input is closed", MISUSED)
        return decoded(sys.stdin.buffer.read(MOST_BYTES + 1), "standard input")
    except Stop:
        raise
    except ShopError as error:
        raise Stop(str(error), MISUSED) from None
