"""The rows of a file: what is not touched is written byte for byte as it was read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.sheet.lines import rows_of
from fractions_shop.sheet.rows import Rows

_PIECES = st.sampled_from(
    ["a = 2 in", "# caf\u00e9", "# cafe\u0301", "\r\n", "\n", "\r", "", "\ufeff", "\u2028", "\x0b", "½", "\t"]
)
FILES = st.lists(_PIECES, max_size=12).map(lambda pieces: "".join(pieces).encode("utf-8"))


@given(FILES)
def test_a_file_read_and_written_is_the_same_byte_for_byte(data: bytes) -> None:
    assert Rows.of(data).data() == data


@given(FILES)
def test_the_rows_are_those_that_a_sheet_has(data: bytes) -> None:
    rows = Rows.of(data)
    assert [text.removeprefix("\ufeff") for text in rows.texts[:1]] + list(rows.texts[1:]) == rows_of(
        rows.text
    )


@given(FILES, st.data())
def test_only_the_row_that_is_changed_differs(data: bytes, draw: st.DataObject) -> None:
    rows = Rows.of(data)
    if not rows.rows:
        return
    n = draw.draw(st.integers(0, len(rows.rows) - 1))
    before = rows.data().decode("utf-8").splitlines(keepends=False)
    changed = rows.with_row(n, "z = 9 in")
    assert [row for k, row in enumerate(changed.rows) if k != n] == [
        row for k, row in enumerate(rows.rows) if k != n
    ]
    assert changed.rows[n] == ("z = 9 in", rows.rows[n][1])
    assert changed.marked == rows.marked
    assert changed.with_row(n, rows.texts[n]) == rows
    assert before == rows.data().decode("utf-8").splitlines()


@pytest.mark.parametrize(
    ("data", "added", "dropped"),
    [
        (b"a\r\nb\r\n", b"a\r\nb\r\nz\r\n", b"a\r\n"),
        (b"a\nb", b"a\nb\nz", b"a"),
        (b"\xef\xbb\xbfa\r", b"\xef\xbb\xbfa\rz\r", b"\xef\xbb\xbf"),
        (b"a", b"a\nz", b""),
    ],
)
def test_what_is_added_ends_as_the_file_does(data: bytes, added: bytes, dropped: bytes) -> None:
    rows = Rows.of(data)
    assert rows.added("z").data() == added
    assert rows.without(len(rows.rows) - 1).data() == dropped


def test_the_first_row_of_none_ends_with_a_line_feed() -> None:
    assert Rows().added("a").data() == b"a\n"
