"""A reading that has no size any more, since too few others settle the scale of its print, is told as such."""

from __future__ import annotations

from pathlib import Path

import pytest

from fractions_shop.prompt import commands
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import own_word

PRINT = """\
a reads 80.6 mm off a print
b reads 24.8 mm off a print
c reads 62.0 mm off a print
d reads 15.5 mm off a print
wide = a + b
"""


def told(model: PromptModel, line: str) -> str:
    word = own_word(line, model.names)
    assert word is not None
    return " ".join("\n".join(commands.run(model, *word, 300)).split())


@pytest.fixture
def model(tmp_path: Path) -> PromptModel:
    sheet = tmp_path / "print.shop"
    sheet.write_text(PRINT, encoding="utf-8")
    made = PromptModel()
    told(made, f"open {sheet}")
    return made


def test_what_has_no_size_any_more_is_told_with_what_it_was(model: PromptModel) -> None:
    said = told(model, "drop 4")
    for number, (name, was) in enumerate((("a", "3 1/4 in"), ("b", "1 in"), ("c", "2 1/2 in")), 1):
        assert f"{name} (line {number}) has no size now (it was: {was}); show {number} tells why" in said
    assert "read 4 different ones" in told(model, "show 1")


def test_a_name_without_a_size_says_so_in_the_list_of_names_and_in_the_sheet(model: PromptModel) -> None:
    told(model, "drop 4")
    for word in ("names", "sheet"):
        assert told(model, word).count("no size yet; show") == 3
    told(model, "undo")
    for word in ("names", "sheet"):
        assert "no size yet" not in told(model, word)
