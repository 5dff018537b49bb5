"""An LALR(1) parser that runs from ready-made tables, with a lexer that knows what may come next.

lark reads the grammar and works the tables out; loading lark takes longer than answering a
line, so what it worked out is kept as plain data (`parse_tables`) and run from here. A
property test holds the two equal on every line of the cases.

What is understood of a grammar is what lark's own documentation says of it: a rule that
begins with an underscore gives its parts to the rule that holds it, a rule marked `?` gives
way to its only part, and `[part]` leaves None where the part is missing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, NamedTuple

from fractions_shop.language.scanner import Scanner, Tables, Terminals, Token

#: In a rule's plan: a part that was left out.
MISSING = 1000

#: When lines have led to so many junctions, all are forgotten, to be found again.
_MOST_JUNCTIONS = 5000


class NotExpected(Exception):
    """A token that cannot stand where it does; `before` is the kind of what stood before it."""

    def __init__(self, token: Token, before: str, could_stand: Callable[[], frozenset[str]]) -> None:
        super().__init__(token, before)
        self.token, self.before, self._could_stand = token, before, could_stand

    @property
    def expected(self) -> frozenset[str]:
        """The terminals that could have stood there; most who try a line do not ask."""
        return self._could_stand()


class NoToken(Exception):
    """A sign that begins nothing, at `place`."""

    def __init__(self, place: int) -> None:
        super().__init__(place)
        self.place = place


class _Production(NamedTuple):
    """A rule as it is finished: its name, of how many parts it is, and what makes something of them.

    `stays` says that it holds one part and gives way to it, so that nothing is made.
    """

    name: str
    size: int
    make: Callable[[list[Any]], Any]
    stays: bool


class _Junction:
    """A place that a line can have led the parser to, and what may stand there.

    `ways` has for each terminal that was met with there the rules that it finished and the junction that it led to. Both
    follow from the states and the terminal alone, so that the next line need not work them out again.
    """

    __slots__ = ("scanner", "states", "ways")

    def __init__(self, states: tuple[int, ...], scanner: Scanner) -> None:
        self.states, self.scanner = states, scanner
        self.ways: dict[str, tuple[tuple[_Production, ...], _Junction]] = {}


class Parser:
    """Lines to what `builder` makes of them: one method for each rule or alternative."""

    def __init__(self, tables: Tables, builder: Any) -> None:
        self.tables = tables
        self._rules = tuple(
            _Production(
                name, count, _maker(count, getattr(builder, method) if method else None, gives_way, plan),
                gives_way and count == 1 and plan == (0,),
            )
            for name, count, method, gives_way, plan in tables.rules
        )  # fmt: skip
        self._terminals = Terminals(tables)
        self._junctions: dict[tuple[int, ...], _Junction] = {}

    def parse(self, text: str) -> Any:
        """What the line comes to; NotExpected or NoToken, with the place, where it cannot be read."""
        values = list[Any]()
        place, _ = self._read(text, values)
        self._take(_token(text, len(text), len(text), "$END"), place, values)
        return values[-1]

    def follow(self, text: str) -> tuple[frozenset[str], str]:
        """The terminals that may follow the beginning of a line, and the one that it ends with.

        NotExpected, NoToken, or what the builder raises, where it is no beginning of any line.
        """
        place, tokens = self._read(text, [])
        return self._acceptable(place.states), tokens[-1].type if tokens else ""

    def beginning(self, text: str) -> list[Token]:
        """The tokens of a line that is one, or the beginning of one; what `follow` raises for any other."""
        return self._read(text, [])[1]

    def _read(self, text: str, values: list[Any]) -> tuple[_Junction, list[Token]]:
        """Take in all of a line but its end: the place that it leads to, and its tokens."""
        place, tokens = self._junction((self.tables.start,)), list[Token]()
        at, size = 0, len(text)
        absent, ignored = dict[Any, bool](), self.tables.ignored
        while at < size:
            kind, end, behind = place.scanner.match(text, at, absent)
            if kind not in ignored:
                if not kind:
                    raise self._unfit(text, at, place, values)
                token = _token(text, at, end, kind)
                place = self._take(token, place, values)
                values.append(token)
                tokens.append(token)
            at = behind
        return place, tokens

    def _take(self, token: Token, place: _Junction, values: list[Any]) -> _Junction:
        """Take a token in, finishing the rules that it ends: the place that it leads to."""
        way = place.ways.get(token.type)
        if way is None:
            return self._take_first(token, place, values)
        for _, size, make, _ in way[0]:
            cut = len(values) - size
            values[cut:] = (make(values[cut:]),)
        return way[1]

    def _take_first(self, token: Token, place: _Junction, values: list[Any]) -> _Junction:
        """The same by the tables, where no line had this terminal in this place."""
        table, kind, states = self.tables.states, token.type, list(place.states)
        finished = list[_Production]()
        while True:
            action = table[states[-1]].get(kind)
            if action is None:
                raise NotExpected(token, _kind(values), partial(self._acceptable, states))
            if action >= 0:
                states.append(action)
                break
            rule = self._rules[-1 - action]
            if not rule.stays:
                # Most rules that are finished hold one part and give way to it: it stays as it is.
                cut = len(values) - rule.size
                values[cut:] = (rule.make(values[cut:]),)
                finished.append(rule)
            del states[len(states) - rule.size :]
            states.append(table[states[-1]][rule.name])
            if kind == "$END" and states[-1] == self.tables.end:
                break
        led = self._junction(tuple(states))
        place.ways[kind] = tuple(finished), led
        return led

    def _unfit(self, text: str, at: int, place: _Junction, values: list[Any]) -> NotExpected | NoToken:
        """What is raised where nothing stands that may: another terminal does, or none at all."""
        kind, end, _ = self._terminals.any_scanner().match(text, at, {})
        if not kind:
            return NoToken(at)
        return NotExpected(
            _token(text, at, end, kind), _kind(values), partial(self._acceptable, place.states)
        )

    def _junction(self, states: tuple[int, ...]) -> _Junction:
        place = self._junctions.get(states)
        if place is None:
            if len(self._junctions) >= _MOST_JUNCTIONS:
                self._junctions.clear()
            accepted = frozenset(kind for kind in self.tables.states[states[-1]] if kind.isupper())
            scanner = self._terminals.scanner(accepted | frozenset(self.tables.ignored))
            place = self._junctions[states] = _Junction(states, scanner)
        return place

    def _acceptable(self, states: Sequence[int]) -> frozenset[str]:
        """The terminals that could really be taken in: a rule may be finished and then find no place for it."""
        here = self.tables.states[states[-1]]
        return frozenset(kind for kind in here if kind.isupper() and self._fits(list(states), kind))

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
            rule = self._rules[-1 - action]
            del states[len(states) - rule.size :]
            states.append(table[states[-1]][rule.name])
            if kind == "$END" and states[-1] == self.tables.end:
                return True


def _token(text: str, start: int, end: int, kind: str) -> Token:
    token = Token(text[start:end])
    token.type, token.start_pos, token.end_pos = kind, start, end
    return token


def _kind(values: list[Any]) -> str:
    """The terminal of what was read last, or `size` for anything already made; nothing at the start."""
    if not values:
        return ""
    return values[-1].type if isinstance(values[-1], Token) else "size"


def _maker(
    count: int, method: Callable[[list[Any]], Any] | None, gives_way: bool, plan: tuple[int, ...]
) -> Callable[[list[Any]], Any]:
    """What a finished rule comes to: what the builder makes of its parts, or the parts for the rule that holds it."""
    if method is not None and plan == tuple(range(count)) and not (gives_way and count == 1):
        return method

    def make(parts: list[Any]) -> Any:
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

    return make
