"""Text to nodes, within bounds: the quick reader first, the grammar for all it leaves.

The grammar's tables are loaded only when a line needs them, by `grammar`; no answer loads lark.
"""

from __future__ import annotations

import re
from typing import Any

from fractions_shop.errors import ArgumentError, InputError
from fractions_shop.language import quick
from fractions_shop.language.nodes import Binary, Name, Naming, Node, OddUnit, ShownExpression, Statement
from fractions_shop.language.trial import on_trial
from fractions_shop.size.notation import UNSEEN, as_meant, parted_figures, without_unseen

#: A longer line is refused at once: nobody types one, and it would only cost time.
MAX_LINE = 1000
#: Brackets inside brackets.
MAX_NESTING = 40


def parse(text: str) -> Statement | None:
    """The statement that one line says, or None for a blank or comment line.

    InputError, with the place and what was expected, when it cannot be read.
    """
    if not isinstance(text, str):
        raise ArgumentError(f"a statement is text, and this is {type(text).__name__}")
    plain = parse_plain(text)
    if plain is not None:
        return plain.statement
    if not text.isascii() and any(sign in text for sign in UNSEEN):
        refuse_parted(text)
        return _seen(text)
    meant = _bounded(text)
    statement = quick.read(meant) if meant != text else None
    if statement is not None:
        return statement
    from fractions_shop.language import grammar

    if _SIGNED & set(meant) and re.match(_WRITTEN_FIRST, meant):
        said = _worded(meant)
        if said is not None:
            return said
    grammatical = grammar.statement(text, meant, lambda line: _one_or_several(text, line))
    # `5/16 OD` is a number and a unit as far as the grammar can tell, and `3/8-diameter` a difference.
    return (_worded(meant) or grammatical) if _may_be_worded(grammatical) else grammatical


def parse_plain(row: str) -> quick.Plain | None:
    """What a row says that is one of the commonest statements, read in one go; None for any other.

    It is what `parse` makes of the row: every sign of such a statement is the plain one that it is read as. A comment
    beyond ASCII may have signs that nobody sees, which are looked for with the rest of the line.
    """
    plain = quick.read_plain(row) if len(row) <= MAX_LINE else None
    return plain if plain is not None and (row.isascii() or row[plain.at :].isascii()) else None


def parse_piece(meant: str, start: int, end: int) -> ShownExpression | None:
    """The expression that a piece of a row is, in its place there, read in one go; None where `parse` is to say it.

    On trial it is, so that a piece which stands in several lines is read once.
    """
    return quick.read_piece(meant, start, end) if end <= MAX_LINE and not on_trial() else None


def worded(text: str) -> Statement | None:
    """The statement of a line that is one written size with words around it, or None where it is not one."""
    return _worded(as_meant(text.rstrip("\r\n"))) if len(text) <= MAX_LINE else None


def _worded(meant: str) -> Statement | None:
    from fractions_shop.language.written.statement import statement  # most lines need none of it

    return statement(meant)


def _one_or_several(text: str, meant: str) -> Statement | None:
    from fractions_shop.language.written.statement import one_or_several

    return _worded(meant) if on_trial() else one_or_several(text, meant)


#: A unit behind a figure of limits, and one deviation behind its sign without a blank.
_UNIT = r"(?:[ ]?\"|[ ]?in\b\.?|[ ]?mm\b\.?|[ ]?thou\b)?"
_DEVIATION = rf"(?:[0-9]*\.[0-9]+|[0-9]{{1,3}}(?:/[0-9]{{1,3}})?){_UNIT}"
#: Sums by their signs that nobody means as sums: a numbered screw (0-80), and limits (.500 +.000 -.002).
#: It is compiled for the first line that has one of these signs.
_SIGNED = frozenset("+-±")
_WRITTEN_FIRST = (
    r"[ ]*(?:[A-Za-z_]\w*[ ]*=[ ]*)?(?:[0-9]{1,2}-[0-9]{2}[ ]*(?:#|$)"
    r"|[0-9]{1,2}/[0-9]{1,2}[ ]?in(?:ch)?\b\.?-[0-9]{1,2}[ ]*(?:#|$)"
    rf"|[0-9./ -]*[0-9]{_UNIT}[ ]+(?:\+{_DEVIATION}[ ]+-{_DEVIATION}|-{_DEVIATION}[ ]+\+{_DEVIATION})[ ]*(?:#|$)"
    r"|[0-9]*\.[0-9]+[ ]*(?:(?:±|\+/?-)[ ]*\.[0-9]+|\+\.[0-9]+[ ]?/[ ]?-\.[0-9]+)[ ]*(?:#|$))"
)


def _may_be_worded(statement: Statement | None) -> bool:
    part = statement.answer if isinstance(statement, Naming) else statement
    if not isinstance(part, ShownExpression) or part.target is not None:
        return False
    node = part.expression
    if isinstance(node, Binary) and isinstance(node.right, Name):
        return node.sign == "-" and node.right.start == node.left.end + 1
    return isinstance(node.right if isinstance(node, Binary) else node, OddUnit)


def refuse_parted(text: str) -> None:
    """InputError for two figures with only a sign between them that nobody sees, as pages and PDFs leave it."""
    parted = parted_figures(text)
    if parted is not None:
        raise InputError(
            "a sign that nobody sees stands between two figures, where a blank or a dash may have been",
            text, parted.start(), parted.end(), "type the size anew, such as 2 1/32 in or 21/32 in",
        )  # fmt: skip


def _seen(text: str) -> Statement | None:
    """The statement of a line that holds signs which nobody sees, every place as it is in `text`."""
    places = [place for place, sign in enumerate(text) if sign not in UNSEEN]
    places.append(len(text))
    try:
        statement = parse(without_unseen(text))
    except InputError as error:
        start = places[error.start]
        end = places[min(error.end, len(places)) - 1] + 1 if error.end > error.start else start
        raise InputError(
            error.message, text, start, end, error.advice, error.line, error.ended, error.expected
        ) from None
    _place(statement, places)
    return statement


def _place(statement: Statement | None, places: list[int]) -> None:
    """Move every place `n` of a statement just read to `places[n]`."""
    # A stack of our own: `1 + 1 + 1 ...` is as deep as it is long. A node may stand twice, as a ± does.
    waiting: list[Any] = [statement]
    done: set[int] = set()
    while waiting:
        part = waiting.pop()
        if isinstance(part, tuple):
            waiting += part
        if not isinstance(part, Node) or id(part) in done:
            continue
        done.add(id(part))
        for name in part.field_names:
            value = getattr(part, name)
            if name in ("start", "at", "word_start"):
                object.__setattr__(part, name, places[value])
            elif name == "end":
                object.__setattr__(part, "end", places[value - 1] + 1 if value else 0)
            else:
                waiting.append(value)


def refuse_long(text: str, advice: str) -> None:
    """InputError for a line that is longer than any is read."""
    if len(text) > MAX_LINE:
        raise InputError(
            f"the line is {len(text):,} characters long, and {MAX_LINE:,} is the most that is read",
            text, MAX_LINE, MAX_LINE + 1, advice,
        )  # fmt: skip


def _bounded(text: str) -> str:
    refuse_long(text, "break it into named parts")
    depth = 0
    nested = text.count("(") + text.count("（") > MAX_NESTING  # few lines have so many brackets at all
    for place, sign in enumerate(text) if nested else ():
        depth += (sign in "(（") - (sign in ")）")
        if depth > MAX_NESTING:
            raise InputError(
                f"more than {MAX_NESTING} brackets stand inside one another",
                text, place, place + 1, "name the inner part first",
            )  # fmt: skip
    return as_meant(text.rstrip("\r\n"))
