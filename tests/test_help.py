"""Help tells of the lines of a sheet, in forms and examples that can be cut."""

from __future__ import annotations

import pytest

from fractions_shop.sheet.feature_lines import WORDS
from fractions_shop.sheet.line_words import topic
from fractions_shop.show.sheet import Sheet

PART = "part label frame: 1 of brass, 2 in by 7/8 in by 1/16 in"


@pytest.mark.parametrize("word", WORDS)
def test_help_has_each_word_that_cuts_with_an_example_that_can_be_cut(word):
    about = topic(word)
    assert about is not None
    assert about.forms[0].partition(" in PART:")[0] == word
    example = about.more[0].partition("such as ")[2]
    sheet = Sheet.from_text(f"{PART}\n{example}")
    assert not sheet.faults
    assert sheet.worked[1].feature.word == word
