"""Finds which terminal of the grammar stands at a place of a line, among those that may stand there."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

#: In the signs that a terminal may begin with: any one beyond ASCII.
BEYOND = "\x80"
#: What a terminal of which nothing is known may begin with.
ANY_SIGN = "".join(map(chr, range(128))) + BEYOND

#: A whole word of letters, to be looked up among the words of the language.
_WORD = r"(?P<_word>[A-Za-z]+\b)"
#: So many lines are looked through without compiling what would look faster.
_FEW_LINES = 16


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


class _Lead:
    """What is found in every line that holds a slow terminal.

    A few lines are looked through for its words, which need nothing compiled; its expression, which is
    many times faster, is compiled for the lines of a sheet, or where a word is found.
    """

    __slots__ = ("_asked", "_pattern", "_spelling")

    def __init__(self, spelling: Spelling) -> None:
        self._spelling, self._asked = spelling, 0
        self._pattern: re.Pattern[str] | None = None

    def is_absent(self, text: str) -> bool:
        """Whether a line surely holds none."""
        if self._pattern is None:
            self._asked += 1
            if self._asked < _FEW_LINES and not self._spelling.may_be_in(text):
                return True
            self._pattern = re.compile(self._spelling.lead)
        return self._pattern.search(text) is None


class _Slow:
    """A spelling of a slow terminal, compiled no sooner than a line has its lead."""

    __slots__ = ("_expression", "_pattern", "begins", "lead", "terminal")

    def __init__(self, spelling: Spelling, lead: _Lead) -> None:
        self.terminal, self.begins, self.lead = spelling.terminal, spelling.begins, lead
        self._expression = spelling.expression
        self._pattern: re.Pattern[str] | None = None

    def match(self, text: str, place: int) -> re.Match[str] | None:
        """One that stands at a place, if it does."""
        self._pattern = self._pattern or re.compile(self._expression)
        return self._pattern.match(text, place)


class _MayStand(NamedTuple):
    """What may stand at a place, by the sign there: spellings of slow terminals, and the rest as two expressions.

    `first` has those tried before words, and a word; `last` those behind words, not compiled before one is looked for.
    """

    slow: tuple[_Slow, ...]
    first: re.Pattern[str] | None
    last: str


class Terminals:
    """The terminals of a grammar, and what is compiled of them."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        order = list(tables.terminals)
        cut = order.index(tables.words_after)
        self.before_words, self.behind_words = order[:cut], order[cut:]
        leads = {spelling.lead: _Lead(spelling) for spelling in tables.spellings}
        self.slow = tuple(_Slow(spelling, leads[spelling.lead]) for spelling in tables.spellings)
        self._compiled: dict[str, re.Pattern[str]] = {}
        self._scanners: dict[frozenset[str], Scanner] = {}

    def scanner(self, accepted: frozenset[str]) -> Scanner:
        """The scanner for some terminals; one for all states that accept the same."""
        scanner = self._scanners.get(accepted)
        if scanner is None:
            scanner = self._scanners[accepted] = Scanner(self, accepted)
        return scanner

    def any_scanner(self) -> Scanner:
        """The scanner for all of them."""
        return self.scanner(frozenset(self.tables.terminals) | frozenset(self.tables.words.values()))

    def pattern(self, expression: str) -> re.Pattern[str]:
        """An expression as it is looked for, with the blanks that follow."""
        pattern = self._compiled.get(expression)
        if pattern is None:
            pattern = self._compiled[expression] = re.compile(f"(?:{expression}) *")
        return pattern


class Scanner:
    """Finds which of some terminals stands at a place: the first one, in the order of the tables."""

    def __init__(self, terminals: Terminals, accepted: frozenset[str]) -> None:
        self._terminals = terminals
        self._first = [name for name in terminals.before_words if name in accepted]
        self._last = [name for name in terminals.behind_words if name in accepted]
        self._words = {word: kind for word, kind in terminals.tables.words.items() if kind in accepted}
        self._by_sign: dict[str, _MayStand] = {}

    def match(self, text: str, place: int, absent: dict[_Lead, bool]) -> tuple[str, int, int]:
        """The terminal at a place, where it ends, and where the blanks behind it do; an empty name where none stands.

        No terminal begins with a blank but the blanks that are passed over, so that they may be passed over here.
        `absent` notes for this line which leads of the slow ones are not found in it at all.
        """
        may_stand = self._by_sign.get(text[place]) or self._may_stand(text[place])
        for slow in may_stand.slow:
            missing = absent.get(slow.lead)
            if missing is None:
                missing = absent[slow.lead] = slow.lead.is_absent(text)
            if not missing and (match := slow.match(text, place)) is not None:
                return slow.terminal, match.end(), match.end()
        match = may_stand.first and may_stand.first.match(text, place)
        if match is not None and match.lastgroup == "_word":
            kind = self._words.get(match["_word"].lower())
            if kind is not None:
                return kind, match.end("_word"), match.end()
            match = None
        if match is None and may_stand.last:
            # Where a word stands no name can, and what a name is takes long to compile.
            match = self._terminals.pattern(may_stand.last).match(text, place)
        if match is None:
            return "", place, place
        kind = match.lastgroup or ""
        return kind, match.end(kind), match.end()

    def _may_stand(self, sign: str) -> _MayStand:
        """What may begin with a sign; worked out when it is first met with, for few lines hold many."""
        sign = sign if sign.isascii() else BEYOND
        known = self._by_sign.get(sign)
        if known is None:
            known = self._by_sign[sign] = self._beginning_with(sign)
        return known

    def _beginning_with(self, sign: str) -> _MayStand:
        tables, slow = self._terminals.tables, self._terminals.slow
        first = [name for name in self._first if sign in tables.begins[name]]
        last = [name for name in self._last if sign in tables.begins[name]]
        groups = {name: f"(?P<{name}>{tables.terminals[name]})" for name in (*first, *last)}
        for each in slow:
            groups.pop(each.terminal, None)
        before, behind = ([groups[name] for name in names if name in groups] for names in (first, last))
        before += [_WORD] if self._words and sign.isascii() and sign.isalpha() else []
        return _MayStand(
            tuple(each for name in first for each in slow if each.terminal == name and sign in each.begins),
            self._terminals.pattern("|".join(before)) if before else None,
            "|".join(behind),
        )
