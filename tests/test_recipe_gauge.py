"""A gauge series is one record and its table: an invented one, added by the recipe of DEVELOPERS.md, works everywhere."""

from __future__ import annotations

import ast
import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from changed_copy import tried_in
from over_all import over
from package_source import nodes

from fractions_shop.tables.gauge_records import SERIES
from fractions_shop.tables.patterns import GAUGE_LEAD, GAUGE_PATTERN, GAUGE_REFUSED, GAUGE_WORDS

TOP = Path(__file__).parents[1]
PLACE = "_RECORDS = (\n"
RECORD = 'GaugeSeries("TRG", "tube rack gauge, invented", ("TRG", "tube rack"), "gauge_trg"),\n'
TABLE = "gauge,size_in,standing,source,second_source,note\n1,0.3,one source,drawing 12,,\n2,0.2,one source,drawing 12,,\n7,0.07,one source,drawing 12,,\n"
READ = ["2 TRG", "No 2 T.R.G.", "2trg", "#2 TRG", "2 tube rack", "2 tube rack gauge"]
LINES = [
    "gauge 7 TRG",
    "gauge 3 TRG",
    "gauge 2",
    "TRG 2",
    "trg2",
    "gauge 0.21 in",
    "recover 0.2 in among gauges",
]
TRY = """
import json
import fractions_shop
from fractions_shop import ShopError, read
from fractions_shop.command.column import Column
from fractions_shop.meant.catalogue import series
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.sheet.session import Session
from fractions_shop.tables.stock import kinds

def said(line):
    try:
        return Session().answer(line).text()
    except ShopError as error:
        return f"refused: {error}"

print(json.dumps({
    "home": fractions_shop.__file__,
    "read": [str(read(text).inch) for text in READ],
    "sum": str(Session().answer("2 * 7 TRG + 1 in").value.inch),
    "said": {line: said(line) for line in LINES},
    "offers": [one.text for one in word_offers("gauge 7 T", {}, True)],
    "series": [one.name for one in series("gauges")],
    "kinds": kinds(),
    "column": list(Column("s", unit="in", delimiter=";").widen(["s\\n", "7 TRG\\n"])),
}))
"""


@pytest.fixture(scope="module")
def tried(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What the package makes of the invented gauge, in a copy of the tree where it was added."""
    home = tmp_path_factory.mktemp("gauge")
    ignored = shutil.ignore_patterns("__pycache__", "cases", "data", "bench", "test_*")
    for folder in ("fractions_shop", "grammar", "tests"):
        shutil.copytree(TOP / folder, home / folder, ignore=ignored)
    records = home / "fractions_shop" / "tables" / "gauge_records.py"
    text = records.read_text("utf-8")
    assert text.count(PLACE) == 1
    records.write_text(text.replace(PLACE, PLACE + "    " + RECORD), "utf-8")
    (records.parent / "gauge_trg.csv").write_text(TABLE, "utf-8")
    given = f"READ, LINES = {READ!r}, {LINES!r}\n"
    return tried_in(home, given + TRY)


def test_it_is_read_and_reckoned_with(tried: dict[str, Any]) -> None:
    assert [Fraction(inches) for inches in tried["read"]] == [Fraction(2, 10)] * len(READ)
    assert Fraction(tried["sum"]) == 1 + Fraction(14, 100)
    assert tried["column"][1].startswith("7 TRG;7/100 in;0.07;1.778;")


def test_it_is_told_offered_and_listed(tried: dict[str, Any]) -> None:
    said = tried["said"]
    assert said["gauge 7 TRG"].startswith("7 TRG: 0.07 in (1.778 mm), one source; tube rack gauge, invented")
    assert "source: drawing 12" in said["gauge 7 TRG"]
    assert "it runs from 1 to 7, and the nearest is 2 TRG" in said["gauge 3 TRG"]
    assert "2 TRG is 0.2 in" in said["gauge 2"]
    assert said["TRG 2"].endswith("write 2 TRG")
    assert said["trg2"].endswith("write 2 TRG")
    assert "2 TRG" in said["gauge 0.21 in"]
    assert not said["recover 0.2 in among gauges"].startswith("refused")
    assert tried["offers"][0] == "7 TRG"
    assert "TRG" in tried["series"]
    assert "TRG" in tried["kinds"]


@over([*GAUGE_WORDS, *GAUGE_REFUSED])
def test_no_spelling_of_a_word_is_missed_by_the_cheap_lead(word: str) -> None:
    dotted = ".".join(word) + "." if word.isupper() and word.isalnum() else word
    for said in (word, word.lower(), dotted, word.replace("&", " & ")):
        for text in (f"18 {said}", f"4/0{said}", f"No. 18 {said}", f"= 2 * (18 {said})"):
            assert re.search(GAUGE_PATTERN, text), text
            assert re.search(GAUGE_LEAD, text), text


def test_no_gauge_series_is_named_by_hand_outside_the_records() -> None:
    """As data: a string that is a series or one of its words, or a choice of them. Examples are longer."""
    words = {word for word in (*SERIES, *GAUGE_WORDS) if word != "zinc"}  # also a metal
    found = []
    for path in sorted((TOP / "fractions_shop").rglob("*.py")):
        if path.name in ("gauge_records.py", "parse_tables.py"):
            continue
        for node in nodes(path):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                named = words & set(node.value.split("|")) if "|" in node.value else set()
                if node.value in words or named:
                    found.append((path.name, node.lineno, node.value))
    assert found == []
