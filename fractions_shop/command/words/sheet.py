"""`fractions-shop sheet FILE`: a whole job worked out, checked, and written down."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from pathlib import Path

from fractions_shop.command.delivery import deliver
from fractions_shop.command.forms import FORMS, OPTIONS, Asked, taking
from fractions_shop.command.interrupts import INTERRUPTED
from fractions_shop.command.options import add_out, empty_parser
from fractions_shop.command.overwriting import refuse_to_spoil
from fractions_shop.command.streams import (
    DONE,
    FAILED,
    MISUSED,
    Stop,
    is_terminal,
    refuse_own_output,
    say,
)
from fractions_shop.command.watching import look, now, saved_when, watch
from fractions_shop.errors import InputError, ShopError, visible
from fractions_shop.sheet.source import MOST_BYTES, decoded
from fractions_shop.show.columns import WHAT
from fractions_shop.show.sheet import Sheet

_LISTED = "\n".join(f"  {word:4}  {form.listed}" for word, form in FORMS.items())
_MORE = f"""\
A sheet is a text file of statements, one a line, with titles (## Runner), notes
(# fitted dry), revisions (rev B: lip raised 1/32 in), checks, and part lines:
  part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge
  part pivot: 2 * latches of brass, round 1/4 in by 7/8 in; riveted to [rivet_high]
  hole in runner: No 43 drill at 1/8 in by 1/8 in
(round, hex, square or tube; [NAME] stands for the size of that name), and what they are cut from:
  stock brass: 1/16 in by 1/4 in, 36 in long, saw 1/32 in
  stock card: sheet, 8 in by 10 in
Names may be used above the line that sets them.

written down as:
{_LISTED}

examples:
  fractions-shop sheet trays.shop
  fractions-shop sheet trays.shop --out trays.html
  fractions-shop sheet trays.shop --to pdf --paper letter --out trays.pdf
  fractions-shop sheet trays.shop --landscape --out trays.pdf
  fractions-shop sheet trays.shop --out trays.html --watch
  fractions-shop sheet - --to csv --what parts < trays.shop
  fractions-shop sheet frames.shop --part 'label frame' --out frame.dxf

exit status: 0; 1 when a check fails or a line is at fault; 2 for wrong use.
"""


def parser() -> ArgumentParser:
    """The options and arguments of the command."""
    made = empty_parser(
        "fractions-shop sheet",
        "Works out a sheet: every line, its checks, its parts, and strips to print true to size.",
        _MORE,
    )
    made.add_argument("file", metavar="FILE", help="the sheet; - is standard input")
    made.add_argument(
        "--to", choices=sorted(FORMS), help="what to write (text; with --out, what the file's ending means)"
    )
    add_out(made)
    made.add_argument("--paper", choices=("A4", "letter"), default="A4", help="the paper to print on (A4)")
    made.add_argument(
        "--landscape", action="store_true", help="the paper lies on its side, so that strips are longer"
    )
    made.add_argument(
        "--what", choices=("all", *WHAT), default="all",
        help=f"of {taking('what')}: which rows there are (all)",
    )  # fmt: skip
    made.add_argument(
        "--part",
        metavar="NAME",
        help=f"of {taking('part')}: this part alone; of dxf and xy these places too, the datum at zero",
    )
    made.add_argument(
        "--watch", action="store_true",
        help="write it anew whenever FILE is saved, until Ctrl-C; a page loads itself anew",
    )  # fmt: skip
    return made


def run(arguments: list[str]) -> int:
    """Run the command and return its exit status."""
    options = parser().parse_args(arguments)
    form = options.to or _form_of(options.out)
    for option, usual in OPTIONS.items():
        if getattr(options, option) != usual and option not in FORMS[form].takes:
            raise Stop(
                f"--{option} is of {taking(option)}, and this is to be {form}: leave it out, or write "
                f"{' or '.join(f'--to {word}' for word, made in FORMS.items() if option in made.takes)}",
                MISUSED,
            )
    if options.watch:
        return _watched(options, form)
    return _once(options, form)


def _watched(options: Namespace, form: str) -> int:
    if options.file == "-" or options.out is None:
        raise Stop("--watch needs a sheet in a file, and --out FILE to write to", MISUSED)
    file = visible(Path(options.file).name)
    since = look(options.file)
    _once(options, form, saved_when(options.file))
    say(f"{visible(options.out)} is made anew whenever {file} is saved; Ctrl-C ends that")

    def make(saved: str) -> None:
        try:
            _once(options, form, saved)
            say(f"{visible(options.out)}: made from {file} as saved {saved}")
        except Stop as stop:
            say(f"{file} as saved {saved}: {stop}")

    def gone(is_gone: bool) -> None:
        say(
            f"{file} is not there now, since {now()}: {visible(options.out)} stays as it was made last"
            if is_gone
            else f"{file} is there again, since {now()}"
        )

    watch(options.file, since, make, gone)
    _once(options, form)  # what is left behind loads itself no more
    return INTERRUPTED


def _once(options: Namespace, form: str, saved: str = "") -> int:
    """Write the sheet down once; `saved` is when it was saved, for a page that is being watched."""
    if options.out is None and form == "pdf" and is_terminal(sys.stdout):
        raise Stop("a PDF cannot be shown on a terminal: add --out FILE", MISUSED)
    name = visible(Path(options.file).name)
    sheet = opened(options.file, options.out)
    if options.out is not None:
        refuse_to_spoil(options.out, options.replace)
    try:
        made = FORMS[form].write(
            sheet,
            Asked(
                f"{options.paper} landscape" if options.landscape else options.paper,
                options.out is not None,
                options.what,
                options.part,
                f"made from {name} as saved {saved}" if saved else "",
            ),
        )
    except ShopError as error:
        place = f"line {error.line}: " if isinstance(error, InputError) else ""
        raise Stop(f"{place}{error}", FAILED if sheet.faults else MISUSED) from None
    deliver(made, options.out)
    if form != "text" or options.out:
        _tell(sheet, f"{name} as saved {saved}:" if saved else "")
    return DONE if sheet.ok else FAILED


def opened(file: str, out: str | None = None) -> Sheet:
    """The sheet in a file, or on standard input for -.

    Stop if it cannot be read, is too long, or is the file that `out` leads to (standard
    output for None).
    """
    try:
        refuse_own_output(
            getattr(sys.stdin, "buffer", None) if file == "-" else file, out, "the sheet itself"
        )
        if file != "-":
            return Sheet.read(file).run()
        if sys.stdin is None:
            raise Stop("standard input is closed", MISUSED)
        return Sheet(decoded(sys.stdin.buffer.read(MOST_BYTES + 1), "standard input")).run()
    except Stop:
        raise
    except ShopError as error:
        raise Stop(str(error), MISUSED) from None


def _form_of(out: str | None) -> str:
    if out is None:
        return "text"
    ending = Path(out).suffix.lower()
    form = next((name for name, form in FORMS.items() if form.ending == ending), None)
    if form is None:
        raise Stop(
            f"--out {visible(out)} does not say what to write: add --to {', '.join(sorted(FORMS))}", MISUSED
        )
    return form


def _tell(sheet: Sheet, heading: str = "") -> None:
    """Say on standard error what is wrong, since what was written may not be looked at now; a `heading` before it."""
    if sheet.ok:
        return
    if heading:
        say(heading)
    from fractions_shop.figures.plain import laid_out
    from fractions_shop.show.size_table import feed_lines, waiting
    from fractions_shop.size.notation import told_in

    for fault in sheet.faults:
        say(f"line {fault.line}: {fault}")
    for item in sheet.waiting:
        say(f"line {item.line.number} waits for {waiting(item)}")
    for check in sheet.checks:
        if not check.holds:
            with told_in(sheet.units):
                lines = [
                    f"line {check.line}: {check.statement}", *check.lines(), *feed_lines(check.feeds)
                ]  # fmt: skip
                text = laid_out(lines, 80)
            say(text)
