"""The command `fractions-shop`: one answer, a stream of statements, or the prompt."""

from __future__ import annotations

import argparse
import json
import os
import shutil
import sys
from collections.abc import Iterable, Sequence
from typing import TextIO

from fractions_shop import __version__
from fractions_shop.errors import InputError, ShopError
from fractions_shop.rule import Rule

#: Exit statuses: a failed statement or check, wrong use, interrupted, and a closed pipe.
FAILED, MISUSED, INTERRUPTED, CLOSED_PIPE = 1, 2, 130, 141

EXAMPLES = """\
examples:
  fractions-shop '2 1/32 in / 5'           one answer
  fractions-shop 'divide 2 in into 5 up'   a request
  fractions-shop --json '51.5 mm'          the answer as a JSON object
  fractions-shop < statements.txt          one answer for each line
"""


def parser() -> argparse.ArgumentParser:
    """The options and arguments of the command."""
    made = argparse.ArgumentParser(
        prog="fractions-shop",
        description="Exact workshop sizes: fractions of an inch, millimetres, and spacings that come out on a rule.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    made.add_argument(
        "statements",
        nargs="*",
        metavar="STATEMENT",
        help="answered in turn; without any, standard input is read",
    )
    made.add_argument("--json", action="store_true", help="one JSON object a line instead of sentences")
    made.add_argument(
        "--rule",
        default="64ths",
        metavar="RULE",
        help="the working rule to begin with: 64ths, 32nds, mm ... (64ths)",
    )
    made.add_argument("--strict", action="store_true", help="stop at the first fault or failed check")
    made.add_argument("--version", action="version", version=f"fractions-shop {__version__}")
    return made


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit status."""
    try:
        return _run(sys.argv[1:] if arguments is None else list(arguments))
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # What reads us has gone; nothing more can be said, not even at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CLOSED_PIPE
    except OSError as error:
        _say(f"fractions-shop: the answers could not be written: {error.strerror or error}")
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED


def _run(arguments: list[str]) -> int:
    _forgiving(sys.stdout)
    _forgiving(sys.stderr)
    options = parser().parse_args(_protected(arguments))
    try:
        rule = Rule(options.rule)
    except ShopError as error:
        parser().error(str(error))
    if options.statements:
        return _answer_all(options.statements, options, rule, source="")
    if sys.stdin is None:
        _say("fractions-shop: there is no statement to answer and no standard input; try --help")
        return MISUSED
    return _answer_all(sys.stdin, options, rule, source="line")


def _protected(arguments: list[str]) -> list[str]:
    """Let a statement that begins with a minus and a figure (-1/64 in) pass as one."""
    return [f" {a}" if a[:1] == "-" and a[1:2] in "0123456789." and len(a) > 1 else a for a in arguments]


def _answer_all(lines: Iterable[str], options: argparse.Namespace, rule: Rule, source: str) -> int:
    from fractions_shop.session import Session

    session = Session(rule)
    status = 0
    for number, line in enumerate(lines, 1):
        statement = line.rstrip("\r\n")
        try:
            answer = session.answer(statement)
        except InputError as error:
            status = FAILED
            _fault(error, number, options, source)
            if options.strict:
                break
            continue
        if answer is None:
            continue
        if not answer.ok:
            status = FAILED
        if options.json:
            _print(json.dumps(answer.data(), ensure_ascii=False))
        else:
            _print(answer.text(_width()))
        if options.strict and status:
            break
    return status


def _fault(error: InputError, number: int, options: argparse.Namespace, source: str) -> None:
    if options.json:
        from fractions_shop.show import data

        placed = error.at(error.text, 0, number)
        _print(json.dumps(data.fault(placed), ensure_ascii=False))
        return
    place = f"{source} {number}: " if source else ""
    sys.stdout.flush()
    _say(f"{place}{error}")


def _width() -> int:
    return shutil.get_terminal_size((80, 24)).columns


def _print(text: str) -> None:
    # Flushed a statement at a time, so that what reads us need not wait for the end.
    print(text, flush=True)  # noqa: T201


def _say(text: str) -> None:
    if sys.stderr is not None:
        print(text, file=sys.stderr)  # noqa: T201


def _forgiving(stream: TextIO | None) -> None:
    """Let a stream that cannot show a sign show a question mark rather than fail."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors="replace", newline="\n" if os.name != "nt" else None)
