"""The quick reader says what the grammar says, or nothing."""

from __future__ import annotations

from random import Random
from unittest.mock import patch

import bent_text
import nearly_plain
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fractions_shop.errors import InputError
from fractions_shop.language import grammar, parser, quick
from fractions_shop.language.grammar_tables import tables
from fractions_shop.language.nodes import Name, nodes_in
from fractions_shop.sheet.lines import read_lines
from fractions_shop.size.notation import as_meant

NUMBERS = st.one_of(
    st.integers(0, 9999).map(str),
    st.tuples(st.integers(0, 99), st.integers(0, 200), st.integers(0, 128)).map(
        lambda t: f"{t[0]} {t[1]}/{t[2]}"
    ),
    st.tuples(st.integers(0, 200), st.integers(0, 128)).map(lambda t: f"{t[0]}/{t[1]}"),
    st.decimals(0, 999, places=3, allow_nan=False).map(str),
)
UNITS = st.sampled_from(
    ["", " in", " mm", " thou", " ft", " cm", "in", "mm", " m", " BA", " tpi", " inches", '"']
)
SIGNS = st.sampled_from([" / ", " - ", " + ", " * ", "/", "-", "+", " ", " -", "- ", "  /  ", " x ", ""])
LINES = st.one_of(
    st.tuples(NUMBERS, UNITS).map("".join),
    st.tuples(NUMBERS, UNITS, SIGNS, NUMBERS, UNITS).map("".join),
    st.text("0123456789 ./-+*inmf\"'BA#x", max_size=14),
)
TEXTS = bent_text.Texts.read()
randoms = st.randoms(use_true_random=False)


@given(LINES)
@example("1/4-20")
@example("2 1/32 in / 5")
@example("1 / 2 in")
@example(" 6 in / 1/2 in ")
@example("2 5/4 in")
@example("3/0 in / 2")
@example("RMS + 1 mm")
@example("a = snap")
@example("check 2 of 5 = 3 in")
@example("(" * 400 + "2 in" + ")" * 400)
def test_the_quick_reader_agrees_with_the_grammar(line):
    agrees(line)


@given(randoms)
def test_the_quick_reader_agrees_with_the_grammar_on_lines_that_are_nearly_plain(r):
    for _ in range(20):
        agrees(nearly_plain.line(r))


@given(randoms)
def test_the_quick_reader_agrees_with_the_grammar_on_bent_lines_of_real_text(r):
    for line in bent_text.Sitting(r, TEXTS).lines():
        agrees(line)
    line = r.choice(r.choice(TEXTS.sittings))
    agrees(bent_text.spoilt(r, nearly_plain.line(r), line, TEXTS.sizes))


def test_the_quick_reader_agrees_with_the_grammar_on_every_line_of_real_text():
    read = [agrees(line) for sitting in TEXTS.sittings for line in sitting]
    assert sum(read) > len(read) / 10


def agrees(line: str) -> bool:
    """Whether the quick reader reads a line; then the grammar says the same, of the same names."""
    meant = as_meant(line)
    found = quick.read_plain(meant)
    if found is None or len(line) > parser.MAX_LINE:
        return False
    try:
        with patch.object(quick, "read_plain", lambda _: None):
            full = parser.parse(line)
    except InputError as error:
        raise AssertionError(f"quick reads {line!r}, the grammar refuses it: {error}") from None
    assert repr(found.statement) == repr(full), line
    drawn = [node for node in nodes_in(found.statement) if isinstance(node, Name)]
    firsts = {node.word: node for node in reversed(drawn)}
    assert found.names == firsts, line
    assert list(found.names) == list(dict.fromkeys(node.word for node in drawn))
    return True


@pytest.mark.parametrize("seed", range(6))
def test_the_lines_of_a_bent_sheet_are_the_same_without_the_quick_reader(seed):
    r = Random(seed)
    text = bent_text.spoilt_sheet(r, TEXTS) + "".join(f"\n{nearly_plain.line(r)}" for _ in range(40))
    lines = read_lines(text)
    with patch.object(quick, "read_plain", lambda _: None):
        assert list(map(repr, read_lines(text))) == list(map(repr, lines))


def test_the_quick_reader_reads_what_is_typed_most():
    for line in (
        "2 1/32 in / 5", "51.5 mm", "2 in / 5", "1/2 in + 3 mm", "13/32 in * 5", "pitch = total / 5 # as found", "bar = face ± 1/128 in",
        "wide = frame_wide - 2 of bar", "(slots + 1) * divider", "check slots * slot = tray within 1/64 in", "divide tray into 5 on 32nds up",
        "snap 10.3 mm to 32nds", "marks = mark 2 in into 5 from 1/4 in", "total as mm",
    ):  # fmt: skip
        assert quick.read(line) is not None, line


def test_no_name_that_is_read_quickly_may_begin_a_thread_a_gauge_or_a_taper_with_a_figure_behind():
    """The letters that the pattern of names keeps from figures are those of the grammar's tables."""
    for letter in "abcdefghijklmnopqrstuvwxyz":
        slow = {kind for kind in ("THREAD", "GAUGE", "TAPER_ALONE") if letter in tables().begins[kind]}
        one, two = (quick.read(f"{name} + 2 in") for name in (f"{letter}1", f"{letter}z1"))
        assert (two is None) >= bool(slow), letter
        assert (one is None) >= ("THREAD" in slow), letter


def test_the_grammar_reads_what_the_quick_reader_leaves():
    assert grammar.reads("2 1/32 in + 18 SWG")
    assert quick.read("2 1/32 in + 18 SWG") is None
