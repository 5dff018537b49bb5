"""A sheet's JSON is written line by line: the same text as of the whole object, without holding it."""

from __future__ import annotations

import json
import re
import tracemalloc

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Sheet
from fractions_shop.errors import OBEYED
from fractions_shop.requests.data import json_text

ROWS = [
    "## Rack",
    "",
    "a, b = recover 10.3 mm, 51.5 mm",
    "part rail: 2 of oak, a by 1 in",
    "c = a +",
    "mark 2 in into 5",
]


@pytest.mark.parametrize("text", ["", "\n", "# a note", "\n".join(ROWS), "x = 2 in # \x1b[1m"])
def test_what_is_written_in_turn_is_what_the_whole_object_says(text: str) -> None:
    sheet = Sheet.from_text(text)
    assert sheet.to_json() == json_text(sheet.to_data(), indent=1) + "\n"
    assert json.loads(sheet.to_json()) == json.loads(sheet.to_json(indent=None)) == sheet.to_data()


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=6),
        lambda part: st.lists(part, max_size=3) | st.dictionaries(st.text(max_size=4), part, max_size=3),
        max_leaves=12,
    ),
    st.booleans(),
    st.integers(0, 3),
)
def test_json_over_several_lines_is_laid_out_as_python_lays_it_out(value, letters, indent) -> None:
    laid_out = json.dumps(value, ensure_ascii=letters, indent=indent)
    escaped = re.sub(OBEYED, lambda sign: "\n" if sign[0] == "\n" else f"\\u{ord(sign[0]):04x}", laid_out)
    assert json_text(value, letters, indent) == escaped


def test_no_line_is_held_as_an_object_once_it_is_written() -> None:
    """By memory: beside the worked sheet there is little more than the text, twice."""
    sheet = Sheet.from_text("\n".join(f"size_{n} = {n + 1}/64 in / 7" for n in range(600))).run()
    sheet.to_json()
    tracemalloc.start()
    try:
        text = sheet.to_json()
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert most < 4 * len(text)
