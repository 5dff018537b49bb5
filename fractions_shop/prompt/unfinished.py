"""Whether the end of a line may still make it right, and what may follow there.

A line is typed key by key, and most of its beginnings cannot be read. While an ending can make a right line
of it, nothing is called a fault. The endings tried are few: the rest of each word that has been begun, and what
stands behind a figure, a stroke or a bracket; the parser's tables tell at once whether one fits.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from fractions_shop.errors import InputError, ShopError
from fractions_shop.figures.size_words import size_line
from fractions_shop.language import grammar
from fractions_shop.language.advice import missing_units
from fractions_shop.language.advice.bench_forms import EXAMPLES
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.lalr import NotExpected, NoToken
from fractions_shop.language.nodes import (
    Name,
    Naming,
    OddUnit,
    Request,
    RuleName,
    ShownExpression,
    Statement,
    Text,
    nodes_in,
)
from fractions_shop.language.parser import MAX_LINE, MAX_NESTING, worded
from fractions_shop.prompt import thread_names
from fractions_shop.prompt.endings import endings, is_of_a_form
from fractions_shop.prompt.words_in_row import MOST_TOLD, either
from fractions_shop.sheet.session import Session
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

#: So many words are looked for.
_MOST_WORDS = 12
#: Where the beginning of a sum may end, and how many of these are tried.
_CUT = re.compile(r" *[-+*/×÷^(±]| +(?=[0-9A-Za-z.])")
_MOST_CUTS = 6
#: A line that begins with one of these goes on from the last size.
_JOINING = ("*", "/", "×", "÷", "^")
#: Words that stand where a name could: of a number, and of how many.
_ALSO_NAMED = frozenset({"pi", "π", "any"})
#: Behind these stands a word that is no name: a unit, an instrument, a table, a print.
_TAKES_A_WORD = frozenset({"NUMBER", "BY", "AMONG", "OFF_PRINT", "AS", "ON", "TO", "RULE", "FIT", "PAIR"})
_FOOT = units.find("ft")
_NAME_TIMES = re.compile(r"\s*([^\W\d]\w*)\s+[x×]\s*")


def standing(error: InputError, text: str, session: Session, begun: tuple[str, ...] = ()) -> str:
    """What is said of a line that cannot be read yet: how it reads so far, and what may follow.

    Empty where no ending mends it. `begun` are words that the end may be the start of, known already.
    """
    if len(text) > MAX_LINE or text.count("(") - text.count(")") > MAX_NESTING:
        return ""
    known = {**session.known, **dict.fromkeys(session.placed)}
    if follows := _bench_words_begun(text) or _last_size_goes_on(text, known) or _name_times(text, known):
        return follows
    follows = _begun_words(begun) if begun else _to_follow(error, as_meant(text), known)
    if not follows:
        return ""
    read = _so_far(as_meant(text), session)
    return f"{read}; {follows}" if read else follows


def _bench_words_begun(text: str) -> str:
    small = text.lstrip().lower()
    example = next((line for line in EXAMPLES if line.lower().startswith(small) and " " in small), "")
    return f"the start of {example}" if example else ""


def _last_size_goes_on(text: str, known: Mapping[str, Any]) -> str:
    """What follows `/` at the beginning of a line, which goes on from the last size."""
    goes_on = text.lstrip()[:1] in _JOINING and "ans" in known and _fits(f"ans {as_meant(text)}", known)
    return "a size or a number is to follow, for the last size" if goes_on else ""


def _name_times(text: str, known: Mapping[str, Any]) -> str:
    """What follows `stay x`, of which a product is offered when it is whole."""
    match = _NAME_TIMES.fullmatch(as_meant(text))
    return "a size or a number is to follow" if match is not None and match[1] in known else ""


def _to_follow(error: InputError, meant: str, known: Mapping[str, Any]) -> str:
    if error.ended:
        return f"{error.expected or 'more'} is to follow"
    words: list[str] = []
    kinds: list[str] = []
    for ending in endings(meant, known):
        if len(words) == _MOST_WORDS or (words and not ending.word) or len(kinds) == MOST_TOLD:
            break
        if (any(ending.called in kind for kind in kinds) or ending.word in words) or not _fits(
            meant + ending.text, known, strict=ending.in_a_statement
        ):
            continue
        (words if ending.word else kinds).append(ending.word or ending.called)
    if words:
        return _begun_words(tuple(words))
    return f"{either(kinds)} is to follow" if kinds else ""


def _begun_words(words: tuple[str, ...]) -> str:
    return f"the start of {either(words)}"


def _so_far(meant: str, session: Session) -> str:
    """The size that the beginning of a sum comes to; nothing where it is no size yet."""
    for place in sorted({match.start() for match in _CUT.finditer(meant)}, reverse=True)[:_MOST_CUTS]:
        try:
            statement = grammar.parser().parse(meant[:place])
            missing_units.check(statement, meant[:place])
            answer = statement.answer if isinstance(statement, Naming) else statement
            if isinstance(answer, ShownExpression) and answer.target is None:
                value = Evaluator(session.known, text=meant[:place]).value(answer.expression)
                return size_line(value) if isinstance(value, Quantity) and value.power else ""
        except (Fault, NotExpected, NoToken, ShopError):
            continue
    return ""


def _fits(line: str, known: Mapping[str, Any], strict: bool = False) -> bool:
    """Whether a line is right, or stops too soon and could go on.

    A size with words around it is right too, unless `strict`: any word at all could stand there.
    """
    try:
        statement: Statement | None = grammar.parser().parse(line)
    except NotExpected as error:
        if error.token.type == "$END":
            return _names_are_known(line, known)
        return not strict and _is_worded(line)
    except NoToken:
        return not strict and _is_worded(line)
    except Fault:
        return False
    if statement is None:
        return False
    try:
        missing_units.check(statement, line)
        _work_out(statement, line, known)
    except (Fault, ShopError):
        return not strict and _is_worded(line)
    return True


def _names_are_known(line: str, known: Mapping[str, Any]) -> bool:
    """Whether every name in the beginning of a line is one; a word behind a number is its unit."""
    tokens = grammar.parser().beginning(line)
    kinds = [token.type for token in tokens[-3:]]
    if len(kinds) == 3 and kinds[0] == kinds[2] == "NUMBER" and units.find(tokens[-2]) is not _FOOT:
        return False  # 2 in 3: only inches stand behind feet without a sign
    first_list = next((n for n, token in enumerate(tokens) if token.type in ("EQUALS", "READS")), 0)
    for n, token in enumerate(tokens):
        before = tokens[n - 1].type if n else ""
        behind = tokens[n + 1].type if n + 1 < len(tokens) else ""
        if token.type != "NAME" or before in _TAKES_A_WORD or behind == "LPAR":
            continue
        if n < first_list and not any(t.type not in ("NAME", "COMMA") for t in tokens[:first_list]):
            continue
        if token not in known and token.lower() not in _ALSO_NAMED:
            return False
    return True


def _is_worded(line: str) -> bool:
    try:
        return worded(line) is not None
    except ShopError:
        return False


_FROM = re.compile(r"(?P<thread>.+?) +(?:f|fr|fro|from(?: +(?P<series>.*))?)")


def _designates(text: str, request: str) -> bool:
    """Whether a text begins the name of a thread; of `substitute` also that, and the series to take one from."""
    source = _FROM.fullmatch(text) if request == "substitute" else None
    if source is None:
        return bool(thread_names.beginning(text)) or is_of_a_form(text)
    asked = (source["series"] or "").lower()
    return any(word.lower().startswith(asked) for word in thread_names.series_words())


def _work_out(statement: Statement, line: str, known: Mapping[str, Any]) -> None:
    """Fault where an expression comes to nothing, or a request speaks of what is not there."""
    answer = statement.answer if isinstance(statement, Naming) else statement
    if isinstance(answer, ShownExpression):
        named = {node.word for node in nodes_in(answer) if isinstance(node, Name)}
        if not any(word in known and known[word] is None for word in named):  # places have no size
            Evaluator(known, text=line).value(answer.expression)
        return
    assert isinstance(answer, Request)
    for node in nodes_in(answer):
        if isinstance(node, Name) and node.word not in known and node.word.lower() not in _ALSO_NAMED:
            raise Fault(f"nothing is named {node.word}", node.start, node.end)
        if isinstance(node, RuleName):
            Rule(node.text)
        if isinstance(node, OddUnit):
            raise Fault(f"{node.word} is not a unit", node.start, node.end)
        if isinstance(node, Text) and node.kind == "DESIGNATION" and not _designates(node.text, answer.word):
            raise Fault("a thread by its name is found in the tables", node.start, node.end)
