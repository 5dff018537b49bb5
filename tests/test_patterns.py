"""The written forms of drills and gauges as a grammar would meet them."""

from __future__ import annotations

import re
import subprocess
import sys

import pytest
from lark import Lark
from over_all import over

from fractions_shop.tables.drills import all_drills
from fractions_shop.tables.gauges import all_gauges
from fractions_shop.tables.patterns import (
    DRILL_PATTERN,
    GAUGE_BARE,
    GAUGE_PATTERN,
    GAUGE_REFUSED,
    GAUGE_WORDS,
)


@pytest.mark.parametrize(
    "text",
    [
        "18 SWG", "18SWG", "18 swg", "18 S.W.G.", "No 8 BWG", "No. 8 BWG", "#8 BWG", "number 8 BWG",
        "4/0 AWG", "0000 AWG", "22AWG", "22 B&S", "16 MSG", "16 manufacturers' standard gauge",
        "22 galvanised sheet gauge", "8 Stubs' steel wire", "9 zinc gauge", "16 US standard 1893",
        "No 8 wood screw", "8 woodscrew", "118 SWG",
        # Read so that they can be refused with a reason.
        "18 gauge", "18 ga", "18 sheet gauge", "8 W&M", "8 W & M", "16 US standard",
    ],
)  # fmt: skip
def test_a_written_gauge_is_read(text):
    assert re.fullmatch(GAUGE_PATTERN, text)


@pytest.mark.parametrize(
    "text",
    [
        "18",
        "18 in",
        "18 mm",
        "18 SWGX",
        "18 SWG2",
        "1.8 SWG",
        "SWG 18",
        "18 gas",
        "1/4 SWG",
        "6 BA",
        "#6-32",
        "18 wood",
    ],
)
def test_what_is_no_gauge_is_left_alone(text):
    assert not re.fullmatch(GAUGE_PATTERN, text)


@over([*GAUGE_WORDS, *GAUGE_REFUSED, *GAUGE_BARE])
def test_every_gauge_word_is_read(word):
    assert re.fullmatch(GAUGE_PATTERN, f"8 {word}")
    assert re.fullmatch(GAUGE_PATTERN, f"8 {word.upper()}")


@pytest.mark.parametrize(
    "text",
    [
        "No 43 drill", "No. 43 drill", "no 43 drill", "number 43 drill", "#43 drill",
        "letter F drill", "F drill", "f drill", "13/64 drill", "13/64 in drill", '13/64" drill',
        "1 1/4 drill", "1 in drill", "5.1 mm drill", "5.1mm drill", ".5 mm drill", "#43", "#8",
        # Read so that it can be refused with a reason.
        "6 drill",
    ],
)  # fmt: skip
def test_a_written_drill_is_read(text):
    assert re.fullmatch(DRILL_PATTERN, text)


@pytest.mark.parametrize(
    "text",
    ["drill", "43", "No 43", "letter F", "FF drill", "13/64 in", "5.1 mm", "drill 5.1 mm", "5.1 mm drills"],
)
def test_what_is_no_drill_is_left_alone(text):
    assert not re.fullmatch(DRILL_PATTERN, text)


@pytest.mark.parametrize(
    "text",
    [
        "#6-32", "#6-32 UNC", "#6 UNC", "#6 x 32", "#6x32", "#6 × 32", "#8 wood screw", "#8 BWG", "#8 gauge",
        "#6.5", "#6/32", "#6 BA", "#6 thread", "#12345",
    ],
)  # fmt: skip
def test_a_hash_before_a_thread_or_a_gauge_is_no_drill(text):
    assert not re.match(DRILL_PATTERN, text)


@pytest.mark.parametrize(
    "text", ["#43 - 2 thou", "#43 + 2 thou", "#43 / 2", "#43, #44", "(#43)", "#43 as mm", "#43 to 64ths"]
)
def test_a_hash_in_a_sum_is_a_drill(text):
    assert re.search(DRILL_PATTERN, text)[0] == "#43"


def test_every_name_in_the_tables_is_read():
    assert all(re.fullmatch(DRILL_PATTERN, f"{drill.name} drill") for drill in all_drills())
    assert all(re.fullmatch(GAUGE_PATTERN, gauge.name) for gauge in all_gauges())


def test_a_grammar_can_use_them_as_terminals():
    grammar = Lark(
        f"""
        start: (DRILL | GAUGE | SIGN)+
        DRILL: /{DRILL_PATTERN.replace("/", chr(92) + "/")}/
        GAUGE: /{GAUGE_PATTERN.replace("/", chr(92) + "/")}/
        SIGN: /[-+]/
        %ignore " "
        """,
        parser="lalr",
    )
    tokens = grammar.parse("No 43 drill + 18 SWG - #8 wood screw + #8 - F drill").children
    assert [(token.type, str(token)) for token in tokens if token.type != "SIGN"] == [
        ("DRILL", "No 43 drill"),
        ("GAUGE", "18 SWG"),
        ("GAUGE", "#8 wood screw"),
        ("DRILL", "#8"),
        ("DRILL", "F drill"),
    ]


def test_the_patterns_load_no_table():
    code = (
        "import sys, fractions_shop.tables.patterns;"
        "print('fractions_shop.tables.gauges' in sys.modules,"
        "fractions_shop.tables.rows.cache_info().currsize)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False 0"


@pytest.mark.parametrize("pattern", [DRILL_PATTERN, GAUGE_PATTERN], ids=["drill", "gauge"])
def test_no_capturing_group_that_would_upset_a_grammar(pattern):
    assert re.compile(pattern).groups == 0
