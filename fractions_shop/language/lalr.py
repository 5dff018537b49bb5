"""An LALR(1) parser that runs from ready-made tables, with a lexer that knows what may come next.

lark reads the grammar and works the tables out; loading lark takes longer than answering a
line, so what it worked out is kept as plain data (`parse_tables`) and run from here. A
property test holds the two equal on every line of the cases.

What is understood of a grammar is what lark's own documentation says of it: a rule that
begins with an underscore gives its parts to the rule that holds it, a rule marked `?` gives
way to its only part, and `[part]` leaves None where the part is missing.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any, NamedTuple

#: In a rule's plan: a part that was left out.
MISSING = 1000

#: The plan of a rule that holds its first part alone.
_ALONE = (0,)

#: In the signs that a terminal may begin with: any one beyond ASCII.
BEYOND = "\x80"
#: What a terminal of which nothing is known may begin with.
ANY_SIGN = "".join(map(chr, range(128))) + BEYOND

_WORD = re.compile(r"[A-Za-z]+\b")


class Token(str):
    """A piece of the line: the terminal it was read as, and where it stands."""

    __slots__ = ("end_pos", "start_pos", "type")

    type: str
    start_pos: int
    end_pos: int


class Spelling(NamedTuple):
    """One way to write a terminal that takes long to compile: what it begins with, and its expression.

    `begins` are the signs that it may begin with. `words` are plain pieces one of which is found in every line that
    holds it, as it stands or `squeezed`, and `lead` a cheap expression that is: where one is not, this is not compiled.
    """

    terminal: str
    begins: str
    words: tuple[str, ...]
    lead: str
    expression: str

    def may_be_in(self, text: str) -> bool:
        """Whether one of its words is in a line; nothing is compiled for that."""
        tight = squeezed(text)
        return any(word in text or word in tight for word in self.words)


@lru_cache(4)
def squeezed(text: str) -> str:
    """A line in small letters without blanks and dots: words with either in them are found in it however written."""
    return text.casefold().replace(" ", "").replace(".", "")


class Tables(NamedTuple):
    """A grammar worked out.

    `terminals`: name to regular expression, in the order in which they are tried.
    `words`: a word of the language to its terminal; they are tried behind the terminals
    before `words_after`. `begins`: the signs that each terminal may begin with, BEYOND for those beyond ASCII.
    `spellings`: the ways to write those terminals that take long to compile, in the order in which they are tried.
    `ignored`: what is passed over.
    `states`: for each state, what to do at each terminal and where to go after each rule: a
    number from 0 is the state to go to, one below it the rule (`-1 - number`) to finish.
    `rules`: name, how many parts, the builder's method or nothing, whether it gives way to an
    only part, and the plan: which parts are kept, `-1 - part` for one that gives its own.
    """

    terminals: dict[str, str]
    words: dict[str, str]
    words_after: str
    begins: dict[str, str]
    spellings: tuple[Spelling, ...]
    ignored: tuple[str, ...]
    states: tuple[dict[str, int], ...]
    rules: tuple[tuple[str, int, str, bool, tuple[int, ...]], ...]
    start: int
    end: int


class NotExpected(Exception):
    """A token that cannot stand where it does; `before` is the kind of what stood before it."""

    def __init__(self, token: Token, before: str, expected: frozenset[str]) -> None:
        super().__init__(token, before, expected)
        self.token, self.before, self.expected = token, before, expected


class NoToken(Exception):
    """A sign that begins nothing, at `place`."""

    def __init__(self, place: int) -> None:
        super().__init__(place)
        self.place = place


class Parser:
    """Lines to what `builder` makes of them: one method for each rule or alternative."""

    def __init__(self, tables: Tables, builder: Any) -> None:
        self.tables = tables
        self._rules = tuple(
            (name, count, getattr(builder, method) if method else None, gives_way, plan)
            for name, count, method, gives_way, plan in tables.rules
        )
        self._scanners: dict[frozenset[str], Scanner] = {}
        self._of_state: dict[int, Scanner] = {}
        self._compiled: dict[str, re.Pattern[str]] = {}

    def parse(self, text: str) -> Any:
        """What the line comes to; NotExpected or NoToken, with the place, where it cannot be read."""
        states, values = [self.tables.start], list[Any]()
        place, absent = 0, dict[str, bool]()
        while True:
            token = self._token(text, place, states, values, absent)
            if self._take(token, states, values):
                return values[-1]
            place = token.end_pos

    def follow(self, text: str) -> tuple[frozenset[str], str]:
        """The terminals that may follow the beginning of a line, and the one that it ends with.

        NotExpected, NoToken, or what the builder raises, where it is no beginning of any line.
        """
        states, values = [self.tables.start], list[Any]()
        place, absent, last = 0, dict[str, bool](), ""
        while True:
            token = self._token(text, place, states, values, absent)
            if token.type == "$END":
                return self._acceptable(states), last
            self._take(token, states, values)
            place, last = token.end_pos, token.type

    def beginning(self, text: str) -> list[Token]:
        """The tokens of a line that is one, or the beginning of one; what `follow` raises for any other."""
        states, values = [self.tables.start], list[Any]()
        place, absent, tokens = 0, dict[str, bool](), list[Token]()
        while True:
            token = self._token(text, place, states, values, absent)
            if token.type == "$END":
                return tokens
            self._take(token, states, values)
            tokens.append(token)
            place = token.end_pos

    def _take(self, token: Token, states: list[int], values: list[Any]) -> bool:
        """Take a token in, finishing the rules that it ends; whether the line is done with it."""
        table, kind = self.tables.states, token.type
        while True:
            action = table[states[-1]].get(kind)
            if action is None:
                raise NotExpected(token, _kind(values), self._acceptable(states))
            if action >= 0:
                states.append(action)
                values.append(token)
                return False
            name, count, method, gives_way, plan = self._rules[-1 - action]
            if gives_way and plan == _ALONE and count == 1:
                # Most rules that are finished hold one part and give way to it: it stays as it is.
                states.pop()
                states.append(table[states[-1]][name])
                if kind == "$END" and states[-1] == self.tables.end:
                    return True
                continue
            cut = len(values) - count
            parts = values[cut:]
            del states[len(states) - count :], values[cut:]
            values.append(_made(parts, method, gives_way, plan))
            states.append(table[states[-1]][name])
            if kind == "$END" and states[-1] == self.tables.end:
                return True

    def _fits(self, states: list[int], kind: str) -> bool:
        """Whether a terminal can stand here; nothing is made of it."""
        table = self.tables.states
        while True:
            action = table[states[-1]].get(kind)
            if action is None:
                return False
            if action >= 0:
                states.append(action)
                return True
            name, count = self._rules[-1 - action][:2]
            del states[len(states) - count :]
            states.append(table[states[-1]][name])
            if kind == "$END" and states[-1] == self.tables.end:
                return True

    def _acceptable(self, states: list[int]) -> frozenset[str]:
        """The terminals that could really be taken in: a rule may be finished and then find no place for it."""
        here = self.tables.states[states[-1]]
        return frozenset(kind for kind in here if kind.isupper() and self._fits(list(states), kind))

    def _token(
        self, text: str, place: int, states: list[int], values: list[Any], absent: dict[str, bool]
    ) -> Token:
        state = states[-1]
        scanner = self._of_state.get(state) or self._scanner_of(state)
        while place < len(text):
            kind, end = scanner.match(text, place, absent)
            if kind == "":
                whole = self._scanner(
                    frozenset(self.tables.terminals) | frozenset(self.tables.words.values())
                )
                kind, end = whole.match(text, place, absent)
                if kind == "":
                    raise NoToken(place)
                raise NotExpected(_token(text, place, end, kind), _kind(values), self._acceptable(states))
            if kind not in self.tables.ignored:
                return _token(text, place, end, kind)
            place = end
        return _token(text, len(text), len(text), "$END")

    def _scanner_of(self, state: int) -> Scanner:
        accepted = frozenset(k for k in self.tables.states[state] if k.isupper()) | frozenset(
            self.tables.ignored
        )
        scanner = self._of_state[state] = self._scanner(accepted)
        return scanner

    def _scanner(self, accepted: frozenset[str]) -> Scanner:
        scanner = self._scanners.get(accepted)
        if scanner is None:
            scanner = self._scanners[accepted] = Scanner(self.tables, accepted, self._compiled)
        return scanner


class _MayStand(NamedTuple):
    """What may stand at a place, by the sign there: spellings of slow terminals, those tried before words, and those behind."""

    slow: tuple[Spelling, ...]
    first: re.Pattern[str] | None
    last: str


class Scanner:
    """Finds which of some terminals stands at a place: the first one, in the order of the tables."""

    def __init__(
        self, tables: Tables, accepted: frozenset[str], compiled: dict[str, re.Pattern[str]]
    ) -> None:
        order = list(tables.terminals)
        cut = order.index(tables.words_after)
        self._tables, self._compiled = tables, compiled
        self._first = [name for name in order[:cut] if name in accepted]
        self._last = [name for name in order[cut:] if name in accepted]
        self._words = {word: kind for word, kind in tables.words.items() if kind in accepted}
        self._by_sign: dict[str, _MayStand] = {}

    def _may_stand(self, sign: str) -> _MayStand:
        """What may begin with a sign; worked out when it is first met with, for few lines hold many."""
        sign = sign if sign.isascii() else BEYOND
        known = self._by_sign.get(sign)
        if known is None:
            begins, spellings = self._tables.begins, self._tables.spellings
            first = [name for name in self._first if sign in begins[name]]
            slow = {spelling.terminal for spelling in spellings}
            known = self._by_sign[sign] = _MayStand(
                tuple(
                    each
                    for name in first
                    for each in spellings
                    if each.terminal == name and sign in each.begins
                ),
                self._one(self._any_of([name for name in first if name not in slow])),
                self._any_of([name for name in self._last if sign in begins[name]]),
            )
        return known

    def _any_of(self, names: list[str]) -> str:
        """Terminals as one expression, whose groups tell them apart."""
        return "|".join(f"(?P<{name}>{self._tables.terminals[name]})" for name in names)

    def _one(self, expression: str) -> re.Pattern[str] | None:
        return self._pattern(expression) if expression else None

    def match(self, text: str, place: int, absent: dict[str, bool]) -> tuple[str, int]:
        """The terminal at a place and where it ends; nothing where none stands.

        `absent` notes for this line which leads of the slow ones are not found in it at all.
        """
        may_stand = self._by_sign.get(text[place]) or self._may_stand(text[place])
        for spelling in may_stand.slow:
            if absent.get(spelling.lead) is None:
                absent[spelling.lead] = (
                    not spelling.may_be_in(text) or self._pattern(spelling.lead).search(text) is None
                )
            if not absent[spelling.lead]:
                match = self._pattern(spelling.expression).match(text, place)
                if match is not None:
                    return spelling.terminal, match.end()
        if may_stand.first is not None and (match := may_stand.first.match(text, place)) is not None:
            return match.lastgroup or "", match.end()
        if self._words and (match := _WORD.match(text, place)) is not None:
            kind = self._words.get(match[0].lower())
            if kind is not None:
                return kind, match.end()
        # Where a word stands no name can, and what a name is takes long to compile.
        if may_stand.last and (match := self._pattern(may_stand.last).match(text, place)) is not None:
            return match.lastgroup or "", match.end()
        return "", place

    def _pattern(self, expression: str) -> re.Pattern[str]:
        pattern = self._compiled.get(expression)
        if pattern is None:
            pattern = self._compiled[expression] = re.compile(expression)
        return pattern


def _token(text: str, start: int, end: int, kind: str) -> Token:
    token = Token(text[start:end])
    token.type, token.start_pos, token.end_pos = kind, start, end
    return token


def _kind(values: list[Any]) -> str:
    """The terminal of what was read last, or `size` for anything already made; nothing at the start."""
    if not values:
        return ""
    return values[-1].type if isinstance(values[-1], Token) else "size"


def _made(parts: list[Any], method: Any, gives_way: bool, plan: tuple[int, ...]) -> Any:
    """A finished rule: what the builder makes of its parts, or the parts for the rule that holds it."""
    if not plan and not parts:
        return method([]) if method else []
    kept: list[Any] = []
    for part in plan:
        if part == MISSING:
            kept.append(None)
        elif part < 0:
            kept += parts[-1 - part]
        else:
            kept.append(parts[part])
    if gives_way and len(kept) == 1:
        return kept[0]
    return kept if method is None else method(kept)
