"""What a notebook shows of a size, limits, an answer."""

from __future__ import annotations

import subprocess
import sys

from fractions_shop import Session, read
from fractions_shop.figures.size_html import size_html


def test_sizes_and_limits_show_their_tables():
    for text in ("2 1/32 in", "2 in ± 1 thou", "2 in * 3 in"):
        size = read(text)
        assert size._repr_html_() == size_html(size)


def test_an_answer_shows_as_on_the_page():
    answer = Session().answer("divide 2 in into 5 up")
    html = answer._repr_html_()
    assert html.startswith("<p><code>divide 2 in into 5 up</code></p>")
    assert "13/32 in" in answer._repr_html_()


def test_the_numeric_core_alone_shows_its_table():
    code = "from fractions_shop.size.quantity import Quantity; print(Quantity.inches(2)._repr_html_())"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "50.8 mm" in done.stdout
