"""The grammar at work: lines to nodes, and what to say of a line that cannot be read.

The grammar itself is in grammar/*.lark; lark works it out into tables (`lark_tables`) that are kept
as data (`parse_tables`) and run by `lalr`, so that no answer waits for lark to load.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, cast

from fractions_shop.errors import InputError
from fractions_shop.language.advice import missing_units
from fractions_shop.language.build import Builder
from fractions_shop.language.fault import Fault
from fractions_shop.language.grammar_tables import tables
from fractions_shop.language.lalr import NotExpected, NoToken, Parser
from fractions_shop.language.nodes import Call, Name, OddUnit, ShownExpression, Statement, nodes_in
from fractions_shop.language.trial import on_trial

if TYPE_CHECKING:
    from collections.abc import Callable

    from fractions_shop.language.advice.explain import ParserStop


def statement(
    text: str, meant: str, otherwise: Callable[[str], Statement | None] = lambda _: None
) -> Statement | None:
    """The statement that `meant` (the line `text` with its signs made plain) says.

    None for a blank or comment line, InputError when it cannot be read, which tells nothing of a line on trial. `otherwise` is tried on a
    line that is no statement, before its fault is explained; it may raise an InputError of its own.
    """
    try:
        node = cast("Statement | None", _parser().parse(meant))
        missing_units.check(node, text)
    except (Fault, NotExpected, NoToken) as error:
        if on_trial():
            said = otherwise(meant)
            if said is None:
                raise InputError("this cannot be read", text, 0, len(text)) from None
            return said
        try:
            said = otherwise(meant)
        except InputError as several:
            raise _in_bench_words(text, meant, several) from None
        if said is not None:
            return said
        raise _in_bench_words(text, meant, _explained(error, text, meant)) from None
    if node is not None and any(isinstance(each, OddUnit) for each in nodes_in(node)):
        _refuse_misspelt(text, meant, node)
    return node


def _refuse_misspelt(text: str, meant: str, node: Statement) -> None:
    """InputError where a word behind a number is one of the language with a slip in it, or none of it: `3 acros by 2 in`."""
    from fractions_shop.language.advice import bench_words

    said = bench_words.odd_word(meant, accepted, begins)
    if said is not None:
        message, advice, start, end = said
        raise InputError(message, text, start, end, advice)
    # An old unit, such as Paris lines, is no word of another asking.
    asked = bench_words.asked(text, meant, accepted) if missing_units.has_odd_word(node) else None
    if asked is not None:
        raise asked


def _in_bench_words(text: str, meant: str, error: InputError) -> InputError:
    """The fault of a line, with the statement that it means where it is in bench words and nothing else is offered."""
    from fractions_shop.language.advice import bench_words  # most lines have no fault

    return bench_words.fault(text, meant, error, accepted, begins)


def _explained(error: Exception, text: str, meant: str) -> InputError:
    # All that can be said of a fault takes long to load, and most lines have none.
    from fractions_shop.language.advice.explain import ParserStop, explain, explain_fault
    from fractions_shop.language.advice.gate import passed

    if isinstance(error, Fault):
        return passed(explain_fault(error, text, meant, reads), accepted)
    if isinstance(error, NotExpected):
        return passed(explain(text, meant, _where(error), reads), accepted)
    assert isinstance(error, NoToken)
    place = ParserStop(error.place, error.place + 1, "", "", frozenset())
    return passed(explain(text, meant, place, reads), accepted)


def reads(line: str) -> bool:
    """Whether a line could be read, with no word in it that is unknown beforehand."""
    try:
        node = cast("Statement | None", _parser().parse(line))
        missing_units.check(node, line)
    except (Fault, NotExpected, NoToken):
        return False
    return node is not None and not missing_units.has_odd_word(node)


def begins(line: str) -> bool:
    """Whether a line is the beginning of one that can be read, as far as the parser can tell."""
    try:
        _parser().follow(line)
    except (Fault, NotExpected, NoToken):
        return False
    return True


def accepted(line: str) -> bool:
    """Whether a line can be read and, as far as it is arithmetic without names, worked out."""
    if not reads(line):
        return False
    from fractions_shop.language.evaluate import Evaluator  # only a fault needs it

    nodes = list(nodes_in(_parser().parse(line)))
    if any(isinstance(node, Name) for node in nodes):
        return True  # what the names are is known where they are kept
    try:
        for node in nodes:
            if not isinstance(node, ShownExpression):
                continue
            expression = node.expression
            if isinstance(expression, Call) and expression.function == "bolt_circle":
                Evaluator({}).points(expression)
            else:
                Evaluator({}).value(expression)
    except Fault:
        return False
    return True


def _where(error: NotExpected) -> ParserStop:
    """Where reading stopped, on what kind of thing, behind what kind, and what could have stood there."""
    from fractions_shop.language.advice.explain import ParserStop

    token, before, expected = error.token, error.before, error.expected
    if token.type == "$END":
        return ParserStop(-1, -1, "$END", before, expected)
    start, kind = token.start_pos, token.type
    if kind in _LONG and kind not in expected:
        # Out of their own place these swallow the rest of the line: only its first piece is at fault.
        piece = _PIECE.match(str(token))
        length = piece.end() if piece else 1
        return ParserStop(start, start + length, _kind_of(str(token)[:length]), before, expected)
    return ParserStop(start, token.end_pos, kind, before, expected)


#: Terminals that take text as it stands, where the grammar asks for it.
_LONG = frozenset({"DESIGNATION", "ZONES"})
_PIECE = re.compile(r"[A-Za-zµ]\w*|[0-9][0-9./]*")


def _kind_of(piece: str) -> str:
    """The kind of terminal that a piece would be by itself; empty for a sign that the language lacks."""
    if piece[0] in "0123456789":
        return "NUMBER"
    if piece[0].isalpha():
        return "NAME"
    return {
        "=": "EQUALS",
        ")": "RPAR",
        ",": "COMMA",
        "(": "LPAR",
        "+": "PLUS",
        "-": "MINUS",
        "*": "STAR",
        "/": "SLASH",
        "^": "CARET",
        "°": "DEGREE",
        "'": "PRIME",
        '"': "DPRIME",
    }.get(piece, "")


def terminals() -> frozenset[str]:
    """The names of the grammar's terminals, for tests and for colouring."""
    return frozenset((*tables().terminals, *tables().words.values()))


def parser() -> Parser:
    """The parser of the grammar, for the prompt's completion and for tests."""
    return _parser()


@cache
def _parser() -> Parser:
    return Parser(tables(), Builder())
