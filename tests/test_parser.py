"""The parser: words for every terminal, bounds on every input, a cache that may be broken, no eval."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from package_source import nodes
from room_examples import answered_example

import fractions_shop
from fractions_shop import Session, read, requests
from fractions_shop.errors import InputError
from fractions_shop.language import grammar
from fractions_shop.language.advice import explain as faults
from fractions_shop.language.grammar_tables import grammar_folder
from fractions_shop.language.parser import parse
from fractions_shop.size.quantity import Quantity

PACKAGE = Path(fractions_shop.__file__).parent


def test_every_terminal_has_words_for_people() -> None:
    left_out = {"COMMENT", "BLANKS"}  # these are ignored, so neither is ever expected or found
    assert grammar.terminals() - left_out <= set(faults.called())


def test_no_words_are_left_over_from_terminals_that_went() -> None:
    assert set(faults.called()) - {"$END"} <= grammar.terminals()


def test_every_example_of_a_request_is_answered() -> None:
    for word in requests.words():
        assert answered_example(word).kind == word


def test_blank_and_comment_lines_say_nothing() -> None:
    for line in ("", "   ", "\t", "# a comment", "  # 2 in", "#", "\u3000", "\n"):
        assert parse(line) is None


def test_a_comment_may_follow() -> None:
    assert read("2 in # the width") == read("2 in #the width") == Quantity.inches(2)


# Bounds: over them a clear error at once, never a hang and never Python's own error.


def _said(text: str) -> str:
    with pytest.raises(InputError) as caught:
        Session().answer(text)
    return caught.value.message


@pytest.mark.parametrize(
    "text",
    ["2" * 10_000, "2 in + " * 2_000, " " * 10_000, "x" * 10_000, "½" * 10_000, "-" * 10_000, "'" * 10_000,
     "2 in " * 2_000, "#" * 10_000, "1/" * 5_000, "\x00" * 10_000],
    ids=["digits", "sum", "blanks", "letters", "glyphs", "minuses", "primes", "sizes", "hashes", "bars", "nulls"],
)  # fmt: skip
def test_ten_thousand_characters_are_refused(text: str) -> None:
    assert _said(text) == f"the line is {len(text):,} characters long, and 1,000 is the most that is read"


@pytest.mark.parametrize("text", ["(" * 1_000, "(" * 499 + "2" + ")" * 499, "（" * 500])
def test_brackets_without_end_are_refused(text: str) -> None:
    assert _said(text) in (
        "more than 40 brackets stand inside one another",
        "the line is 1,000 characters long, and 1,000 is the most that is read",
    )


def test_forty_brackets_are_read() -> None:
    assert read("(" * 40 + "2 in" + ")" * 40) == Quantity.inches(2)
    assert _said("(" * 41 + "2 in" + ")" * 41) == "more than 40 brackets stand inside one another"


@pytest.mark.parametrize(
    "text", ["9" * 41, "9" * 41 + " in", "1/" + "9" * 60 + " in", "0." + "1" * 60 + " mm", "1 1/" + "9" * 60]
)
def test_a_number_of_more_than_forty_figures_is_refused(text: str) -> None:
    assert _said(text) == "a number of more than 40 characters is not a size"


@pytest.mark.parametrize(
    "text",
    ["-" * 900 + "2 in", "- " * 400 + "2 in", "2 ^ " * 200 + "2", "-2^" * 300 + "1", "1" + "+1" * 490, "1" + "*2" * 490,
     "sqrt(" * 60 + "2" + ")" * 60, "abs(" * 39 + "2 in" + ")" * 39, "((((" * 100, "1,1" * 300, "max(" + "1," * 300 + "1)"],
)  # fmt: skip
def test_long_chains_are_answered_or_refused_in_words(text: str) -> None:
    try:
        answer = Session().answer(text)
    except InputError as error:
        assert error.message  # noqa: PT017 - either way is right
        return
    assert answer is not None


def test_a_long_sum_is_worked_out() -> None:
    assert read("1 in" + " + 1 in" * 130) == Quantity.inches(131)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2^65", "powers are read from -64 to 64"),
        ("2^9999999999", "powers are read from -64 to 64"),
        ("(2 in)^-65", "powers are read from -64 to 64"),
        ("9999999999^64^64", "powers are read from -64 to 64"),
        ("((9999999999^60)^60)", "the figures of this grow past all bounds"),
        ("(1/9999999999)^60 * (1/9999999998)^60 * (1/9999999997)^60 * (1/9999999996)^60 * (1/9999999995)^60",
         "the figures of this grow past all bounds"),
        ("(2 in)^60 * (2 in)^60", "a length to the power 120 is nothing that can be made"),
    ],
)  # fmt: skip
def test_what_grows_past_all_bounds_is_refused(text: str, said: str) -> None:
    assert _said(text) == said


def test_figures_cannot_be_grown_line_by_line() -> None:
    bench = Session()
    bench.answer("x = 9999999999999999999999999999999999999999")
    for _ in range(3):
        bench.answer("x = x * x")
    with pytest.raises(InputError, match="grow past all bounds"):
        bench.answer("x = x * x")


# The cache


def _fresh(home: Path, code: str) -> subprocess.CompletedProcess[str]:
    environment = {
        **os.environ,
        "XDG_CACHE_HOME": str(home / "cache"),
        "HOME": str(home),
        "PYTHONPATH": str(PACKAGE.parent),
    }
    return subprocess.run(
        [sys.executable, "-W", "error", "-c", code],
        capture_output=True,
        text=True,
        env=environment,
        timeout=60,
        check=False,
    )


#: A line that the quick reader leaves to the grammar.
_ASK = (
    "from fractions_shop import read; import sys; print(read('(2 1/32 in) / 5').inch, 'lark' in sys.modules)"
)


def test_the_grammar_is_read_without_lark_and_leaves_nothing_behind(home: Path) -> None:
    before = set(home.rglob("*"))
    assert _fresh(home, _ASK).stdout == "13/32 False\n"
    assert set(home.rglob("*")) == before


def test_a_grammar_that_has_changed_is_worked_out_anew(home: Path, tmp_path: Path) -> None:
    """Tables that no longer fit the files are never used, so a line is never read by an old grammar."""
    changed = tmp_path / "checkout"
    shutil.copytree(PACKAGE, changed / "fractions_shop", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(grammar_folder(), changed / "grammar")
    shop = changed / "grammar" / "shop.lark"
    shop.write_text(
        shop.read_text(encoding="utf-8")
        .replace("INTO.2: /into\\b/i", "INTO.2: /among\\b/i")
        .replace("AMONG.2: /among\\b/i", "AMONG.2: /into\\b/i"),
        encoding="utf-8",
    )
    code = "from fractions_shop import Session; print(Session().answer('divide 2 in among 5 up').value.inch)"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=changed, check=False,
        env={**os.environ, "PYTHONPATH": str(changed)},
    )  # fmt: skip
    assert done.stdout == "13/32\n", done.stderr


# No text is ever run as code


def _calls(path: Path) -> set[str]:
    return {
        node.func.id for node in nodes(path) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }


def test_nothing_in_the_package_evaluates_text() -> None:
    for path in PACKAGE.rglob("*.py"):
        assert not _calls(path) & {"eval", "exec", "compile", "__import__"}, path
        assert (
            "pickle" not in path.read_text(encoding="utf-8").replace("unpickles", "").split("import ")[0]
        ), path


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os')",
        "().__class__",
        "read.__globals__",
        "x.y",
        "lambda: 1",
        "1 if 1 else 2",
        "{}",
        "[1]",
        "f(**x)",
        "1;2",
    ],
)
def test_code_is_refused_as_any_other_text(text: str) -> None:
    assert _said(text)


# Places


@pytest.mark.parametrize(
    ("text", "start", "end"),
    [
        ("2 in + 3 lb", 9, 11),
        ("  2 in + 3 lb", 11, 13),
        ("２ in + ３ lb", 9, 11),
        ("2\tin + 3\tlb", 9, 11),
        ("2 in + foo", 7, 10),
        ("2 in + 3", 7, 8),
        ("width = 2 in + 3", 15, 16),
    ],
)
def test_a_fault_is_placed_in_the_line_as_typed(text: str, start: int, end: int) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(text)
    assert (caught.value.start, caught.value.end, caught.value.text) == (start, end, text)


def test_a_line_that_stops_too_soon_says_so() -> None:
    for text in ("2 in +", "(2 in", "divide 2 in into", "snap", "x =", "2 in as"):
        with pytest.raises(InputError) as caught:
            Session().answer(text)
        assert caught.value.ended, text
    with pytest.raises(InputError) as caught:
        read("2 in + foo")
    assert not caught.value.ended


def test_what_is_read_is_a_fraction() -> None:
    found = read("2.03125 in")
    assert isinstance(found, Quantity)
    assert isinstance(found.value, Fraction)


@pytest.mark.parametrize(
    "line", ["2 in " + "+6" * 490, "2 in " + "+6" * 497 + "+", "2 in" + " - 1 in" * 120 + " - 1"]
)
def test_a_line_of_many_signs_is_refused_in_words(line: str) -> None:
    assert _said(line)


#: Other letters that an expression without regard to case takes for the plain one.
_ALIKE = {"i": "İı", "I": "İı", "s": "ſ", "S": "ſ", "k": "\u212a", "K": "\u212a"}
_HOLDS_ALL_LOOK_UPS = (
    "3 sq in", "3 in²", "3/16ths of an inch", "3-1 23/2st", "2 1/32nds", "letter I drill", "K drill", "5 SWG",
    "1 and a half in", "five in", "6 tenths", "2 in as sq mm", "3 sixteenths of an inch", "a third of 2 in",
    "5 kilometres", "1/4 BSW", "minor(M6)", "snap 10.3 mm to 32nds", "mark 2 in into 5", "check 2 in is 51 mm",
)  # fmt: skip


@pytest.mark.parametrize("line", _HOLDS_ALL_LOOK_UPS)
def test_letters_that_are_alike_without_regard_to_case_are_read_alike(line: str) -> None:
    meant = _value_or_fault(line)
    for place, letter in enumerate(line):
        for other in _ALIKE.get(letter, ""):
            assert _value_or_fault(line[:place] + other + line[place + 1 :]) == meant


def _value_or_fault(line: str) -> object:
    try:
        answer = Session().answer(line)
    except InputError as fault:
        return fault.start
    assert answer is not None
    return answer.value
