"""The quick reader: the commonest statements of plain sizes and names, without the grammar.

Most lines at the bench are `51.5 mm` or `2 1/32 in / 5`, and loading the grammar takes longer than answering them; most
lines of a sheet are `pitch = total / 5`, and following the grammar's tables takes longer than working them out. This
reads these few forms to the very nodes that the grammar would make of them (property tests hold the two equal) and
leaves everything else, every doubt and every fault, to the grammar.

Why that is safe: an operand is a plain number, alone or with a unit, or a name in small letters, and behind it stands a
blank, a bracket or the end. Whatever else may begin with a figure or a small letter (64ths, threads, gauges, tapers)
goes on with what this does not know, in which case it reads nothing at all.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import NamedTuple

from fractions_shop.language.nodes import (
    Binary,
    Literal,
    Name,
    Naming,
    Node,
    Option,
    Pieces,
    Request,
    RuleName,
    ShownExpression,
    Signed,
    Statement,
    Toleranced,
)
from fractions_shop.size import units
from fractions_shop.size.notation import number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.slips import slip

_NUMBER = r"(?>[0-9]{1,9}(?:[ ][0-9]{1,6}/[0-9]{1,6}|/[0-9]{1,6}|\.[0-9]{1,15})?|\.[0-9]{1,15})"
_UNIT = rf'{"|".join(unit.name for unit in units.UNITS if unit.power == 1)}|"'
#: A name that no thread, gauge, taper or drill can be, alone or with what this reads behind it: these have capitals,
#: figures close to certain letters, or another word or number behind.
_NAME = r"(?![lnt][a-z]*[0-9]|[abjmu][a-z]+[0-9])[a-z_][a-z]*(?:_[A-Za-z0-9_]*|[0-9]+)?"
_ENDS = r"(?=[ )]|\Z)"
#: What joins an operand to the next: a sign between blanks.
_JOINT = r"[ ]*(?:([-+*/]|of(?=[ ]))[ ]+)?"
_OPERAND = re.compile(
    rf"""[ ]*(?:({_NUMBER})(?:[ ]?({_UNIT}))?|({_NAME})){_ENDS}
    (?:[ ]*(±|\+/?-)[ ]*({_NUMBER})[ ]?({_UNIT}){_ENDS})?{_JOINT}""",
    re.VERBOSE,
)
_OPENS, _CLOSES = re.compile(r"[ ]*\("), re.compile(rf"[ ]*\){_ENDS}{_JOINT}")
#: The name that a line sets, and the word of its request.
_FRONT = re.compile(rf"[ ]*(?:({_NAME})[ ]*=[ ]*)?(?:(check|divide|mark|snap)[ ]+)?")
_WORD = re.compile(rf"(=|[a-z]+){_ENDS}[ ]*")
_RULE = re.compile(rf"([0-9]{{1,4}}(?:ths?|nds?|rds?|sts?)|in|mm|cm|ft|thou){_ENDS}[ ]*")
_COMMENT = re.compile(r"#(?![0-9])")

#: A line with more brackets than this is left to the grammar, which says of too many that they are.
_MOST_BRACKETS = 20


class _PlainRequest(NamedTuple):
    """How a request is read here: what stands between its two subjects, if it has two, which of them must be lengths, and
    its options, each with what it takes: nothing, a rule, a length or any size.
    """

    between: str
    lengths: tuple[int, ...]
    options: dict[str, str]


_REQUESTS = {
    "check": _PlainRequest("=", (), {"within": "size"}),
    "divide": _PlainRequest(
        "into", (0,),
        {"on": "rule", "up": "", "down": "", "between": "length", "from": "length", "to": "length"},
    ),
    "mark": _PlainRequest("into", (0,), {"on": "rule", "from": "length"}),
    "snap": _PlainRequest("", (0,), {"to": "rule", "on": "rule", "up": "", "down": "", "within": "length"}),
}  # fmt: skip


class _NotPlain(Exception):
    """A line that is left to the grammar."""


def read(meant: str) -> Statement | None:
    """The statement that a plain line says, or None for anything that is not surely one."""
    plain = read_plain(meant)
    return None if plain is None else plain.statement


def read_plain(meant: str) -> Plain | None:
    """The same with the names that it draws on, and where its comment is."""
    if meant.count("(") > _MOST_BRACKETS:
        return None
    plain = Plain(meant, 0, len(meant))
    try:
        plain.statement = plain.whole()
    except (_NotPlain, ValueError):
        return None
    return plain


def read_piece(meant: str, start: int, end: int) -> ShownExpression | None:
    """The expression that a piece of a line is, in its place there; None for anything that is not surely one."""
    if meant.count("(", start, end) > _MOST_BRACKETS:
        return None
    piece = Plain(meant, start, end)
    try:
        size = piece.sum()
    except (_NotPlain, ValueError):
        return None
    return ShownExpression(size.start, size.end, size, None) if piece.at == end else None


class Plain:
    """A line, or a piece of one, as it is read: `names`, each where it stands first; `at`, what is come to; its `statement`.

    Behind a statement that is where its comment begins, or the end.
    """

    __slots__ = ("at", "end", "names", "statement", "text")

    statement: Statement

    def __init__(self, text: str, at: int, end: int) -> None:
        self.text, self.at, self.end, self.names = text, at, end, dict[str, Name]()

    def sum(self) -> Node:
        """Operands joined by signs: a sum of products, each sign taken from the left."""
        product, joint, joint_at = self._operand()
        if joint is None:
            return product
        total: Node | None = None
        plus, plus_at = "", 0
        while joint is not None:
            sign, sign_at = joint, joint_at
            operand, joint, joint_at = self._operand()
            if sign == "*" or sign == "/":
                product = Binary(product.start, operand.end, sign, sign_at, product, operand)
                continue
            if total is not None:
                product = Binary(total.start, product.end, plus, plus_at, total, product)
            total, plus, plus_at, product = product, sign, sign_at, operand
        if total is not None:
            product = Binary(total.start, product.end, plus, plus_at, total, product)
        return product

    def _operand(self) -> tuple[Node, str | None, int]:
        """An operand, and the sign behind it with its place, if there is one."""
        match = _OPERAND.match(self.text, self.at, self.end)
        if match is None:
            operand, joint, joint_at = self._bracketed()
        else:
            self.at, joint_at = match.end(), match.start(7)
            number, unit, word, about, _, _, joint = match.groups()
            if word is not None:
                if word in _reserved():
                    raise _NotPlain
                operand = Name(match.start(3), match.end(3), word)
                self.names.setdefault(word, operand)
            elif unit is not None:
                operand = Literal(match.start(1), match.end(2), _size(number, unit), unit)
            elif about is None:
                operand = Literal(match.start(1), match.end(1), _size(number, ""))
            else:
                raise _NotPlain
            if about is not None:
                operand = _toleranced(operand, match)
        if joint != "of":
            return operand, joint, joint_at
        size, behind, behind_at = self._operand()
        if isinstance(size, Pieces):
            raise _NotPlain
        return Pieces(operand.start, size.end, operand, _length(size)), behind, behind_at

    def _bracketed(self) -> tuple[Node, str | None, int]:
        """What stands in brackets, and the sign behind them."""
        opens = _OPENS.match(self.text, self.at, self.end)
        if opens is None:
            raise _NotPlain
        self.at = opens.end()
        inner = self.sum()
        closes = _CLOSES.match(self.text, self.at, self.end)
        if closes is None:
            raise _NotPlain
        self.at = closes.end()
        whole = inner if isinstance(inner, Name | Pieces) else inner.but(bracketed=True)
        return whole, closes[1], closes.start(1)

    def whole(self) -> Statement:
        """What the whole line says; _NotPlain, or the ValueError of a number that is none, where the grammar must say it."""
        text = self.text
        front = _FRONT.match(text)
        assert front is not None, "all of it may be missing"
        name, word = front.groups()
        self.at = front.end()
        answer = self._reading() if word is None else self._request(word, front.start(2))
        if self.at < self.end and _COMMENT.match(text, self.at) is None:
            raise _NotPlain
        if name is None:
            return answer
        if name in _reserved() or name == "ans" or name in units.BY_WORD or name.startswith("deg"):
            raise _NotPlain
        return Naming(front.start(1), answer.end, name, answer)

    def _word(self) -> re.Match[str] | None:
        """The word that stands here, or the sign of a check."""
        return _WORD.match(self.text, self.at) if self.at < self.end else None

    def _reading(self) -> ShownExpression:
        """An expression, and perhaps `as` a unit or parts."""
        size = self.sum()
        word = self._word()
        if word is None or word[1] != "as":
            return ShownExpression(size.start, size.end, size, None)
        target = self._rule(word)
        return ShownExpression(size.start, target.end, _length(size), target)

    def _request(self, word: str, start: int) -> Request:
        form = _REQUESTS[word]
        subjects: tuple[Node, ...] = (self.sum(),)
        if form.lengths:
            _length(subjects[0])
        said = self._word()
        if form.between:
            if said is None or said[1] != form.between:
                raise _NotPlain
            self.at = said.end()
            subjects = (*subjects, self.sum())
            said = self._word()
        options: dict[str, Option] = {}
        while said is not None:
            option = self._option(said, form.options)
            kind = "direction" if option.value is None else option.word
            if kind in options:
                raise _NotPlain
            options[kind] = option
            said = self._word()
        last = (*subjects, *options.values())[-1]
        return Request(start, last.end, word, subjects, tuple(options.values()), form.lengths)

    def _option(self, said: re.Match[str], takes: dict[str, str]) -> Option:
        """A smaller word of a request, with what belongs to it."""
        word, start = said[1], said.start()
        kind = takes.get(word)
        if kind is None:
            raise _NotPlain
        if not kind:
            self.at = said.end()
            return Option(start, said.end(1), word, None)
        if kind == "rule":
            rule = self._rule(said)
            # `snap 2.3 in on 32nds` means the same as `to 32nds`.
            return Option(start, rule.end, "to" if takes.get("to") == "rule" else word, rule)
        self.at = said.end()
        size = self.sum()
        if kind == "length":
            _length(size)
        return Option(start, size.end, word, size, kind == "length")

    def _rule(self, word: re.Match[str]) -> RuleName:
        """The rule or unit behind a word."""
        match = _RULE.match(self.text, word.end())
        if match is None:
            raise _NotPlain
        self.at = match.end()
        return RuleName(*match.span(1), match[1])


def _toleranced(nominal: Node, match: re.Match[str]) -> Node:
    """A size plus or minus the same."""
    unit = match[6]
    spread = Literal(match.start(5), match.end(6), _size(match[5], unit), unit)
    minus = Signed(match.start(4), spread.end, "-", spread)
    return Toleranced(nominal.start, spread.end, nominal, spread, minus)


def _length(size: Node) -> Node:
    """What must be a length; a bare number there is asked for its unit, by the grammar."""
    if isinstance(size, Literal) and not size.unit:
        raise _NotPlain
    return size


@lru_cache(1024)
def _size(number: str, unit: str) -> Quantity:
    """The same few sizes stand in most lines of a sheet, and all of these share one."""
    value = number_value(number)
    if not unit:
        return Quantity(value, 0)
    known = units.BY_WORD[unit]
    if slip(number, known.name):
        raise _NotPlain
    return Quantity(value * known.mm, known.power)


@cache
def _reserved() -> frozenset[str]:
    """The words of the language: where one opens a request, or joins two sizes, is the grammar's to say."""
    from fractions_shop.language.grammar_tables import tables

    known = tables()
    return frozenset((*known.words, *map(str.lower, known.states[known.start])))
