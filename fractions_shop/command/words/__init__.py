"""The words that open a command of their own, as the first argument.

Each has a module of its name in this package with `run(arguments) -> int`: the
arguments after the word, and the exit status. A module is loaded only when its word
is used.
"""

from __future__ import annotations

from importlib import import_module

TYPE_CHECKING = False  # typing itself takes a few milliseconds to import
if TYPE_CHECKING:
    from collections.abc import Callable

#: What each word does, for the help and the shells' completion.
COMMANDS = {
    "sheet": "work out a file of statements, and write it down as text, a page or a print",
    "compare": "tell which sizes and parts differ between two sheets",
    "find": "find every size in running text, in inches and millimetres",
    "column": "add inch, millimetre and nearest-division columns to a CSV file",
}


def command(word: str) -> Callable[[list[str]], int]:
    """The function that runs the command of that word."""
    run: Callable[[list[str]], int] = import_module(f"fractions_shop.command.words.{word}").run
    return run
