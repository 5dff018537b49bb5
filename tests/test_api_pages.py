"""The pages of the library's names are made by pdoc, without a warning, and hold every public name."""

from __future__ import annotations

import re
import subprocess
import sys
from html import unescape
from pathlib import Path

import pytest
from processes import with_libraries

import fractions_shop
import fractions_shop.testing

TOP = Path(__file__).parents[1]
#: DEVELOPERS.md has the same command.
COMMAND = "python -m pdoc fractions_shop fractions_shop.testing -o api"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("api")
    words = [str(folder) if word == "api" else word for word in COMMAND.split()[1:]]
    done = subprocess.run(
        [sys.executable, *words], cwd=TOP, capture_output=True, text=True, check=False, env=with_libraries(),
    )  # fmt: skip
    assert "Warn" not in done.stderr, done.stderr
    assert done.returncode == 0, done.stderr
    return folder


def test_the_command_is_the_one_that_developers_are_told():
    assert COMMAND in (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("page", "names"),
    [("fractions_shop.html", fractions_shop.__all__), ("fractions_shop/testing.html", fractions_shop.testing.__all__)],
    ids=["library", "testing"],
)  # fmt: skip
def test_every_public_name_has_its_place_with_what_it_means(pages, page, names):
    text = (pages / page).read_text(encoding="utf-8")
    sections = {
        match[1]: match[2]
        for match in re.finditer(r'<section id="(\w+)">(.*?)(?=<section id="\w+">|</main>)', text, re.DOTALL)
    }
    assert set(sections) >= set(names)
    for name in names:
        assert 'class="docstring"' in sections[name], f"{name} says nothing of itself"


def test_an_example_of_a_page_stands_there_as_code(pages):
    text = unescape(re.sub("<[^>]+>", "", (pages / "fractions_shop.html").read_text(encoding="utf-8")))
    assert 'snap("10.3 mm").size' in text
