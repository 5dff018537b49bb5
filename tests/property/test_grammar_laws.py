"""The grammar's tables say what lark says: the same nodes, or the same fault in the same place."""

from __future__ import annotations

import random
import re
from collections.abc import Iterable
from functools import cache
from typing import Any

import case_files
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lark import Lark, Token
from lark.exceptions import UnexpectedCharacters, UnexpectedToken
from renew_grammar import HOME, TABLES, named_grammar, tables_module

from fractions_shop.language import grammar, lalr
from fractions_shop.language.build import Builder
from fractions_shop.language.fault import Fault
from fractions_shop.language.grammar_tables import grammar_folder, tables
from fractions_shop.language.lalr import NotExpected, NoToken, Parser
from fractions_shop.language.lark_tables import lark_parser
from fractions_shop.language.scanner import BEYOND, Spelling
from fractions_shop.size.notation import as_meant

PIECES = (
    "2 1/32 in", "51.5 mm", "5' 3 1/2\"", "6 BA", "1/4-20", "M3 x 0.5", "#43", "18 SWG", "x", "(", ")", ",", "=", "+",
    " - ", "^", "±", "+1/-2 thou", "into", "up", "leaving", "each end", "within", "as", "64ths", "12°30'", "# note", "½",
    "among drills", "H7/g6", "letter F drill", "sq in", "é", "ſnap", "%", "R 1/4", "No 8 wood screw", "1/4 NC", " of an inch", "3/16ths", "threads per inch", "t.p.i.", "in²", "+0.1/0", "0/-0.2", "¹/₃₂", "⅟32",
)  # fmt: skip


#: lark's tokens tell their terminal when they are printed; ours are printed as the text they are.
_TOKEN = re.compile(r"Token\('[A-Z_]+', ('[^']*'|\"[^\"]*\")\)")


@cache
def _lark() -> Lark:
    return lark_parser(grammar_folder(), Builder())


def _by_lark(line: str) -> Any:
    try:
        return _TOKEN.sub(r"\1", repr(_lark().parse(line)))
    except Fault as fault:
        return "fault", str(fault), fault.start, fault.end, fault.advice
    except UnexpectedToken as error:
        stack = error.interactive_parser.parser_state.value_stack
        before = (stack[-1].type if isinstance(stack[-1], Token) else "size") if stack else ""
        token = error.token
        return _told(str(token), token.type, token.start_pos, token.end_pos, before, frozenset(error.accepts))
    except UnexpectedCharacters as error:
        return "sign", error.pos_in_stream


def _by_tables(line: str) -> Any:
    try:
        return repr(grammar.parser().parse(line))
    except Fault as fault:
        return "fault", str(fault), fault.start, fault.end, fault.advice
    except NotExpected as error:
        token = error.token
        return _told(str(token), token.type, token.start_pos, token.end_pos, error.before, error.expected)
    except NoToken as error:
        return "sign", error.place


def _told(text: str, kind: str, start: int, end: int, before: str, expected: frozenset[str]) -> Any:
    """What is told of a token that does not fit; of one that swallows the line, only its first piece."""
    if kind == "$END":
        return "end", before, expected
    if kind == "DESIGNATION" and kind not in expected:
        piece = re.match(r"[A-Za-zµ]\w*|[0-9][0-9./]*|.", text)
        assert piece
        kind, end = (grammar._kind_of(piece[0]), start + piece.end())
    return "token", kind, start, end, before, expected


def _lines() -> list[str]:
    texts = [text for text, _ in case_files.sizes("sizes.txt")]
    for name in ("statements.txt", "faults.txt"):
        texts += [
            case_files.unescaped(s) for block in case_files.blocks(name) for s in case_files.statements(block)
        ]
    return [as_meant(text) for text in texts if len(text) <= 1000]


def _altered(lines: list[str], count: int) -> list[str]:
    """Real lines with a character or a piece taken out, doubled, swapped or put in."""
    chance = random.Random(20261127)
    made = []
    for _ in range(count):
        line = chance.choice(lines)
        for _ in range(chance.randint(1, 3)):
            place = chance.randint(0, len(line))
            line = chance.choice((
                line[:place] + line[place + 1 :],
                line[:place] + line[max(0, place - 1) :],
                line[:place] + " " + line[place:],
                line[:place] + chance.choice(PIECES) + line[place:],
                line[:place] + chance.choice(lines)[place:],
            ))  # fmt: skip
        made.append(as_meant(line[:300]))
    return made


def test_every_line_of_the_cases_reads_as_lark_reads_it() -> None:
    for line in _lines():
        assert _by_tables(line) == _by_lark(line), line


def test_every_altered_line_reads_as_lark_reads_it() -> None:
    for line in _altered(_lines(), 6000):
        assert _by_tables(line) == _by_lark(line), line


def _read_by(parser: Parser, line: str) -> Any:
    try:
        return repr(parser.parse(line))
    except (Fault, NotExpected, NoToken) as error:
        return repr(error.args)


def test_a_line_reads_alike_whatever_the_parser_has_read_before(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is kept of where terminals have led to tells only what the tables tell, and may be forgotten at any place."""
    lines = _altered(_lines(), 400)
    keeps, forgets = (Parser(tables(), Builder()) for _ in range(2))
    first = [_read_by(keeps, line) for line in lines]
    assert [_read_by(keeps, line) for line in reversed(lines)] == first[::-1]
    monkeypatch.setattr(lalr, "_MOST_JUNCTIONS", 3)
    assert [_read_by(forgets, line) for line in lines] == first
    assert len(forgets._junctions) <= 3 < len(keeps._junctions)


def test_no_terminal_but_blanks_begins_with_a_blank() -> None:
    """So that the blanks behind a terminal may be passed over with it."""
    assert [name for name, signs in tables().begins.items() if " " in signs] == ["BLANKS"]
    assert "BLANKS" in tables().ignored


def test_what_is_slow_to_look_for_is_never_missed_by_its_cheap_lead() -> None:
    ways = [
        (spelling.terminal, re.compile(spelling.lead), re.compile(spelling.expression))
        for spelling in tables().spellings
    ]
    for line in (*_lines(), *_altered(_lines(), 6000)):
        for name, lead, expression in ways:
            assert expression.search(line) is None or lead.search(line), (name, line)


def _signs(matches: Iterable[re.Match[str]]) -> set[str]:
    return {match[0][0] if match[0][0].isascii() else BEYOND for match in matches}


def test_every_terminal_of_a_line_begins_with_a_sign_that_is_said_of_it() -> None:
    begins = tables().begins
    patterns = {name: re.compile(text) for name, text in tables().terminals.items()}
    for line in _lines():
        for name, pattern in patterns.items():
            assert _signs(pattern.finditer(line)) <= {*begins[name]}, (name, line)


def test_the_ways_to_write_a_terminal_are_all_of_it() -> None:
    slow = dict.fromkeys(spelling.terminal for spelling in tables().spellings)
    whole = {name: re.compile(tables().terminals[name]) for name in slow}
    ways = {
        name: [
            re.compile(spelling.expression) for spelling in tables().spellings if spelling.terminal == name
        ]
        for name in slow
    }
    for line in (*_lines(), *_altered(_lines(), 2000)):
        for name, place in ((name, place) for name in slow for place in range(len(line))):
            first = next(filter(None, (way.match(line, place) for way in ways[name])), None)
            match = whole[name].match(line, place)
            assert (first and first.span()) == (match and match.span()), (name, line)


@pytest.mark.parametrize(
    "spelling", tables().spellings, ids=lambda spelling: f"{spelling.terminal} {spelling.begins}"
)
@given(data=st.data())
@settings(max_examples=20)
def test_whatever_a_slow_one_matches_begins_and_leads_as_said(
    spelling: Spelling, data: st.DataObject
) -> None:
    pattern = re.compile(spelling.expression)
    written = data.draw(st.from_regex(pattern, fullmatch=True))
    assert _signs(pattern.finditer(written)) <= {*spelling.begins}
    assert re.search(spelling.lead, written)
    assert spelling.may_be_in(written)


@pytest.mark.parametrize("name", ["PAIR", "AREA", "RAISED_UNIT", "NUMBER", "NAME"])
@given(data=st.data())
@settings(max_examples=20)
def test_so_does_whatever_the_others_match(name: str, data: st.DataObject) -> None:
    pattern = re.compile(tables().terminals[name])
    written = data.draw(st.from_regex(pattern, fullmatch=True))
    assert _signs(pattern.finditer(written)) <= {*tables().begins[name]}


def test_a_terminal_is_looked_for_at_few_signs() -> None:
    begins = tables().begins
    assert begins["PERCENT"] == "%Pp"
    assert begins["PAIR"] == "+-0"
    assert set(begins["NUMBER"]) == {*"0123456789.", BEYOND}


def test_the_files_made_from_the_patterns_and_the_grammar_are_current() -> None:
    assert HOME.read_text(encoding="utf-8") == named_grammar(), "run python tests/renew_grammar.py"
    assert TABLES.read_text(encoding="utf-8") == tables_module(), "run python tests/renew_grammar.py"
