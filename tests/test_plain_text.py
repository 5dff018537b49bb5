"""Sentences cut to a width: as Python's own textwrap cuts them."""

from __future__ import annotations

from textwrap import wrap

from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import cells
from fractions_shop.figures.plain import folded

_WORDS = st.lists(st.text("abc-/µ.1", min_size=1, max_size=30), min_size=1, max_size=12)


@given(_WORDS, st.sampled_from([" ", " ", "  "]), st.integers(0, 9), st.integers(3, 90))
def test_a_line_is_cut_as_textwrap_cuts_it(words: list[str], between: str, indent: int, width: int) -> None:
    line = " " * indent + between.join(words)
    if cells(line) <= width:
        assert folded(line, width) == [line]
        return
    lead = " " * indent
    assert folded(line, width) == wrap(
        line.strip(), max(width, 12), initial_indent=lead, subsequent_indent=f"{lead}    ",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
