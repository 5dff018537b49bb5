"""The options of the command, and its help."""

from __future__ import annotations

from argparse import Action, ArgumentParser, ArgumentTypeError, Namespace, RawDescriptionHelpFormatter

from fractions_shop import __version__
from fractions_shop.command.completion import SHELLS
from fractions_shop.command.streams import put
from fractions_shop.command.words import COMMANDS
from fractions_shop.errors import ShopError, visible
from fractions_shop.size.notation import AS_USUAL, UnitsShown, leading

TYPE_CHECKING = False  # typing itself takes a few milliseconds to import
if TYPE_CHECKING:
    from typing import NoReturn

#: Goes before a statement that argparse must not take for an option. No argument can hold it.
_MARK = "\0"

_EXAMPLES = """\
commands, as the first word:
{commands}
  (fractions-shop WORD --help says more; fractions-shop help divide tells of one request)

examples:
  fractions-shop                           the prompt, on a terminal
  fractions-shop '2 1/32 in / 5'           one answer
  fractions-shop 'divide 2 in into 5 up'   a request
  fractions-shop -- -pitch                 a statement that begins like an option
  fractions-shop --json '51.5 mm'          the answer as a JSON object
  fractions-shop < statements.txt          one answer for each line
  fractions-shop column trays.csv --size width --out trays-mm.csv

exit status: 0; 1 when a statement or a check failed; 2 for wrong use; 130 after
Ctrl-C; 141 when what reads the answers has gone.
"""


#: What there is a JSON Schema of.
SCHEMAS = ("answer", "sheet")


class Options:
    """What was asked for; the defaults are what a plain statement gets."""

    def __init__(self) -> None:
        self.statements: list[str] = []
        self.json = self.strict = self.plain = False
        self.schema: str | None = None
        self.rule: str | None = None
        self.units = AS_USUAL
        self.width: int | None = None
        self.completion: str | None = None


class _Say(Action):
    """Writes `const`, or the help, as every answer is written, and ends.

    What argparse has of its own would pass over a full disk or a closed pipe in silence.
    """

    def __call__(self, parser: ArgumentParser, namespace: Namespace, *_: object) -> None:
        put(self.const or parser.format_help().rstrip("\n"))
        parser.exit()


class _OptionReader(ArgumentParser):
    """A reader of options that says what is wrong without passing on orders to a terminal."""

    def error(self, message: str) -> NoReturn:
        super().error(visible(message))


def empty_parser(name: str, description: str, more: str) -> ArgumentParser:
    """The options of a command before any of its own is added: only `--help`."""
    made = _OptionReader(
        prog=name,
        description=description,
        epilog=more,
        formatter_class=RawDescriptionHelpFormatter,
        allow_abbrev=False,
        add_help=False,
    )
    made.add_argument("-h", "--help", action=_Say, nargs=0, help="print this help and end")
    return made


def add_units(made: ArgumentParser) -> None:
    """The option of a command that tells sizes in inches and in millimetres."""
    made.add_argument(
        "--units", type=_units, default=AS_USUAL, metavar="LEAD",
        help="which figures stand first: inch-first, mm-first, inch-without-feet",
    )  # fmt: skip


def _units(text: str) -> UnitsShown:
    try:
        return leading(text)
    except ShopError as error:
        raise ArgumentTypeError(str(error)) from None


def add_out(made: ArgumentParser) -> None:
    """The options of a command word that writes a file if it is to."""
    made.add_argument("--out", metavar="FILE", help="write here instead of standard output")
    made.add_argument(
        "--replace", action="store_true", help="write over a file that this program did not write"
    )


def parser() -> ArgumentParser:
    """The options and arguments of the command."""
    words = "\n".join(f"  {word:10}{meaning}" for word, meaning in COMMANDS.items())
    made = empty_parser(
        "fractions-shop",
        "Exact workshop sizes: fractions of an inch, millimetres, and spacings that come out on a rule.",
        _EXAMPLES.format(commands=words),
    )
    made.add_argument(
        "statements",
        nargs="*",
        metavar="STATEMENT",
        help="answered in turn; without any, the prompt opens, or standard input is read",
    )
    made.add_argument("--json", action="store_true", help="one JSON object a line instead of sentences")
    made.add_argument("--rule", metavar="RULE", help="the working rule to begin with: 64ths, 32nds, mm ...")
    add_units(made)
    made.add_argument("--strict", action="store_true", help="stop at the first fault or failed check")
    made.add_argument(
        "--plain", action="store_true", help="a prompt of plain lines, without drawing or menus"
    )
    made.add_argument("--width", type=_width, metavar="N", help="columns to write in (the terminal's)")
    made.add_argument("--completion", choices=SHELLS, help="print the completion script for a shell, and end")
    made.add_argument(
        "--schema", nargs="?", choices=SCHEMAS, const=SCHEMAS[0], metavar="answer|sheet",
        help="print the JSON Schema of what --json gives, or of a sheet as JSON, and end",
    )  # fmt: skip
    made.add_argument(
        "--version",
        action=_Say,
        nargs=0,
        const=f"fractions-shop {__version__}",
        help="print the version and end",
    )
    return made


def read_options(arguments: list[str]) -> Options:
    """The options that the arguments say; SystemExit after help, or with what is wrong."""
    options = Options()
    vars(options).update(vars(parser().parse_intermixed_args(_marked(arguments))))
    options.statements = [statement.removeprefix(_MARK) for statement in options.statements]
    return options


def _marked(arguments: list[str]) -> list[str]:
    """The arguments with a mark before what is a statement though it begins with a minus.

    That is what follows `--`, and a minus before anything but a letter: -1/64 in.
    """
    cut = arguments.index("--") if "--" in arguments else len(arguments)
    before = [_MARK + a if _minus(a) else a for a in arguments[:cut]]
    return before + [_MARK + a for a in arguments[cut + 1 :]]


def _minus(argument: str) -> bool:
    return argument[:1] == "-" and argument[1:2] not in "-" and not argument[1].isalpha()


def _width(text: str) -> int:
    if not text.isascii() or not text.isdecimal() or not 20 <= int(text[:6]) <= 1000:
        raise ArgumentTypeError(f"{text!r} is not a number of columns from 20 to 1000")
    return int(text)
