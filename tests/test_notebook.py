"""What a notebook shows of a size, limits, an answer."""

from __future__ import annotations

import re
import subprocess
import sys

import pytest
from room_examples import answered_example

from fractions_shop import Session, fit, read, requests
from fractions_shop.figures.size_html import size_html
from fractions_shop.size.told import Told


def test_sizes_and_limits_show_their_tables():
    for text in ("2 1/32 in", "2 in ± 1 thou", "2 in * 3 in"):
        size = read(text)
        assert size._repr_html_() == size_html(size)


def test_an_answer_shows_as_on_the_page():
    answer = Session().answer("divide 2 in into 5 up")
    html = answer._repr_html_()
    assert html.startswith("<p><code>divide 2 in into 5 up</code></p>")
    assert "13/32 in" in answer._repr_html_()


@pytest.mark.parametrize("word", requests.words())
def test_what_is_set_out_by_blanks_keeps_them(word: str) -> None:
    """The bars of a fit stood each in a paragraph, which has no blanks side by side, and lost their common zero."""
    answer = answered_example(word)
    for html in (
        answer._repr_html_(),
        *([answer.result._repr_html_()] if isinstance(answer.result, Told) else []),
    ):
        assert not [
            words for words in re.findall("<p(?: [^>]*)?>(.*?)</p>", html, re.DOTALL) if "  " in words.strip()
        ]


def test_the_bars_of_a_fit_are_one_picture_with_its_words() -> None:
    html = fit("1/4 in", "H7/g6")._repr_html_()
    (picture,) = re.findall('<pre role="img" aria-label="([^"]*)">(.*?)</pre>', html, re.DOTALL)
    assert picture[0] == "hole H7 0 to +15 µm; shaft g6 -14 to -5 µm; 0 is 6.35 mm"
    hole, shaft, below = picture[1].splitlines()
    assert hole.index("│") == shaft.index("│") == below.index("0 is")


def test_the_numeric_core_alone_shows_its_table():
    code = "from fractions_shop.size.quantity import Quantity; print(Quantity.inches(2)._repr_html_())"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "50.8 mm" in done.stdout
