"""The grammar worked out by lark into the tables that `lalr` runs. The only importer of lark.

It runs when the grammar's files have changed since `parse_tables` was written (by
`python tests/renew_grammar.py`), and in the tests.
"""

from __future__ import annotations

import os.path
import re
from collections.abc import Callable
from typing import Any

from lark import Lark
from lark.parsers.lalr_analysis import Shift

from fractions_shop.language.lalr import MISSING
from fractions_shop.language.scanner import ANY_SIGN, Spelling, Tables
from fractions_shop.size.leads import lead
from fractions_shop.size.units import POWER_SIGNS
from fractions_shop.tables.old_inches import named
from fractions_shop.tables.patterns import (
    DRILL_LEAD,
    DRILL_PATTERN,
    GAUGE_LEAD,
    GAUGE_LEAD_WORDS,
    GAUGE_PATTERN,
)
from fractions_shop.tables.taper_words import TAPER_ALONE_PATTERN, TAPER_LEAD, TAPER_LEAD_WORDS, TAPER_PATTERN
from fractions_shop.threads.names import THREAD_SPELLINGS

#: The ways to write the terminals that take long to compile: words and an expression one of which each is found in every
#: line that holds one written so (see `Spelling`), and its own expression, without which it is the terminal's.
SPELLINGS: dict[str, tuple[tuple[tuple[str, ...], str, str], ...]] = {
    "THREAD": THREAD_SPELLINGS,
    "GAUGE": ((GAUGE_LEAD_WORDS, GAUGE_LEAD, GAUGE_PATTERN),),
    "DRILL": ((("#", "drill"), DRILL_LEAD, DRILL_PATTERN),),
    "TAPER_ALONE": ((TAPER_LEAD_WORDS, TAPER_LEAD, TAPER_ALONE_PATTERN),),
    "TAPER_NAMED": ((TAPER_LEAD_WORDS, TAPER_LEAD, TAPER_PATTERN),),
    "OLD_UNIT": (
        (
            tuple(sorted({words[:3].lower() for words in named()})),
            lead(words[:3] for words in named()),
            "",
        ),
    ),
    "RAISED_UNIT": ((tuple(POWER_SIGNS), f"[{''.join(POWER_SIGNS)}]", ""),),
    "DOTTED": (((".", "/"), "[A-Za-z][./]", ""),),
    "FRACTION_NTHS": ((("/",), "(?i:/[0-9]+[nrst])", ""),),
}

#: A terminal that is one word of the language, perhaps with another ending: `ends?`.
_WORD = re.compile(r"\(\?i:([a-z]+)(\??)\\b\)")
#: The words come behind the terminals that stand first by their priority.
_WORDS_PRIORITY = 2


def lark_parser(folder: str, transformer: Any = None) -> Lark:
    """The grammar in a folder as lark reads it."""
    return Lark.open(
        os.path.join(folder, "shop.lark"), parser="lalr", lexer="contextual", maybe_placeholders=True,
        transformer=transformer,
    )  # fmt: skip


def worked_out(folder: str, first_signs: Callable[[str], str] = lambda _: ANY_SIGN) -> Tables:
    """The tables of the grammar in a folder, to be run with a builder that has a method for each rule.

    `first_signs` tells with which signs what an expression matches can begin: the fewer, the fewer are compiled.
    """
    lark = lark_parser(folder)
    table = lark.parser.parser._parse_table
    rules = {rule: n for n, rule in enumerate(lark.rules)}
    start = table.start_states["start"]
    order = _numbered(table.states, start)
    states: list[dict[str, int]] = []
    for state in order:
        row = {}
        for name, (action, to) in sorted(table.states[state].items()):
            # A shift and the way on after a rule are both a state to go to.
            row[str(name)] = order[to] if action is Shift else -1 - rules[to]
        states.append(row)
    words: dict[str, str] = {}
    terminals: dict[str, str] = {}
    behind = ""
    for terminal in sorted(
        lark.terminals, key=lambda t: (-t.priority, -t.pattern.max_width, -len(t.pattern.value), t.name)
    ):
        text = terminal.pattern.to_regexp()
        word = _WORD.fullmatch(text)
        if word:
            assert terminal.priority == _WORDS_PRIORITY, f"{terminal.name} is a word: give it .2"
            forms = (word[1][:-1], word[1]) if word[2] else (word[1],)
            words |= dict.fromkeys(forms, str(terminal.name))
            continue
        if not behind and terminal.priority < _WORDS_PRIORITY:
            behind = str(terminal.name)
        terminals[str(terminal.name)] = text
    spellings = tuple(
        Spelling(name, first_signs(written or terminals[name]), words, lead, written or terminals[name])
        for name in terminals
        for words, lead, written in SPELLINGS.get(name, ())
    )
    return Tables(
        terminals, words, behind, {name: first_signs(text) for name, text in terminals.items()}, spellings, tuple(map(str, lark.ignore_tokens)), tuple(states),
        tuple(map(_rule, lark.rules)),
        order[start], order[table.end_states["start"]],
    )  # fmt: skip


def _numbered(states: Any, start: int) -> dict[int, int]:
    """The states numbered as they are reached, so that the same grammar gives the same tables every time."""
    order = {start: 0}
    waiting = [start]
    for state in waiting:
        for _, (action, to) in sorted(states[state].items()):
            if action is Shift and to not in order:
                order[to] = len(order)
                waiting.append(to)
    return order


def _rule(rule: Any) -> tuple[str, int, str, bool, tuple[int, ...]]:
    """A rule's name, length, builder's method, whether it gives way, and its plan."""
    name = str(rule.origin.name)
    method = str(rule.alias or name)
    inlined = name.startswith("_")
    plan: list[int] = []
    missing = _missing(rule.options.empty_indices, len(rule.expansion))
    for place, symbol in enumerate(rule.expansion):
        plan += [MISSING] * missing[place]
        if symbol.is_term and symbol.filter_out and not rule.options.keep_all_tokens:
            continue
        plan.append(-1 - place if not symbol.is_term and symbol.name.startswith("_") else place)
    plan += [MISSING] * missing[-1]
    gives_way = bool(rule.options.expand1) and not rule.alias
    if inlined or (gives_way and len(plan) == 1):
        method = ""
    return name, len(rule.expansion), method, gives_way, tuple(plan)


def _missing(empty: Any, length: int) -> list[int]:
    """How many left-out parts stand before each part of a rule, and behind the last."""
    if not empty:
        return [0] * (length + 1)
    counts = [0]
    for left_out in empty:
        if left_out:
            counts[-1] += 1
        else:
            counts.append(0)
    return counts
