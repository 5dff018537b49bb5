"""Text to nodes, within bounds: the quick reader first, the grammar for all it leaves.

lark is loaded only when a line needs it, by `grammar`.
"""

from __future__ import annotations

from fractions_shop.errors import InputError
from fractions_shop.language import quick
from fractions_shop.language.nodes import Statement
from fractions_shop.size.notation import as_meant

#: A longer line is refused at once: nobody types one, and it would only cost time.
MAX_LINE = 1000
#: Brackets inside brackets.
MAX_NESTING = 40


def parse(text: str) -> Statement | None:
    """The statement that one line says, or None for a blank or comment line.

    InputError, with the place and what was expected, when it cannot be read.
    """
    meant = _bounded(text)
    statement = quick.read(meant)
    if statement is not None:
        return statement
    from fractions_shop.language import grammar

    return grammar.statement(text, meant)


def _bounded(text: str) -> str:
    if len(text) > MAX_LINE:
        raise InputError(
            f"the line is {len(text):,} characters long, and {MAX_LINE:,} is the most that is read",
            text, MAX_LINE, MAX_LINE + 1, "break it into named parts",
        )  # fmt: skip
    depth = 0
    for place, sign in enumerate(text):
        depth += (sign in "(（") - (sign in ")）")
        if depth > MAX_NESTING:
            raise InputError(
                f"more than {MAX_NESTING} brackets stand inside one another",
                text, place, place + 1, "name the inner part first",
            )  # fmt: skip
    return as_meant(text.rstrip("\r\n"))
