"""Pieces of HTML for a notebook: a size, an answer, a sheet."""

from __future__ import annotations

import re
from html import unescape

import pytest

from fractions_shop import Session, read
from fractions_shop.figures.size_html import size_html
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.quantity import Angle


def rows(html: str) -> dict[str, str]:
    found = re.findall(r'<th scope="row">(.*?)</th><td.*?>(.*?)</td>', html)
    return {name: unescape(words) for name, words in found}


def test_a_length_shows_its_forms_and_the_nearest_divisions():
    assert rows(size_html(read("2/5 in"))) == {
        "fraction": "2/5 in",
        "inch": "0.4 in",
        "mm": "10.16 mm",
        "exact": "yes",
        "on 8ths": "3/8 in (9.525 mm), -0.025 in (-0.635 mm)",
        "on 16ths": "3/8 in (9.525 mm), -0.025 in (-0.635 mm)",
        "on 32nds": "13/32 in (10.31875 mm), about +0.0062 in (about +0.159 mm)",
        "on 64ths": "13/32 in (10.31875 mm), about +0.0062 in (about +0.159 mm)",
        "on mm": "about 0.3937 in (10 mm), about -0.0063 in (-0.16 mm)",
    }


def test_what_is_not_exact_says_so():
    found = rows(size_html(read("sqrt(2) * 1 in")))
    assert found["exact"].startswith("no: ")
    assert found["fraction"] == "none that can be read"


def test_limits_show_both_ends():
    assert list(rows(size_html(read("1/2 in +1/-2 thou")))) == ["nominal", "upper limit", "lower limit"]


@pytest.mark.parametrize(
    "value", [read("2 in * 3 in"), read("5"), Angle(30)], ids=["area", "number", "angle"]
)
def test_other_kinds_show_one_line(value):
    assert list(rows(size_html(value))) == ["size"]


def test_an_answer_shows_its_statement_and_its_sentences():
    answer = Session().answer("check 2 in = 50.8 mm # <same>")
    assert answer is not None
    html = answer._repr_html_()
    assert html.startswith("<p><code>check 2 in = 50.8 mm # &lt;same&gt;</code></p>")
    assert "<p>holds: the two are the same</p>" in html


def test_a_sheet_shows_its_verdict_and_tables():
    html = Sheet.from_text("bay = 2 1/32 in / 5\ncheck bay = 13/32 in")._repr_html_()
    assert "<strong>1 check, which holds</strong>" in html
    assert '<th scope="row">bay</th>' in html
