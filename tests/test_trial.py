"""Of a line on trial just as much is read as of any other, and of its fault nothing is told."""

from __future__ import annotations

from case_files import blocks, sizes, statements, unescaped
from over_all import over
from trying import times

from fractions_shop.language.trial import on_trial, readings, trial
from fractions_shop.prompt import thread_names
from fractions_shop.sheet.feature_lines import EXAMPLES
from fractions_shop.sheet.line_words import LINE_WORDS
from fractions_shop.sheet.lines import Line, read_lines

_CASES = [unescaped(line) for name in ("statements.txt", "faults.txt") for block in blocks(name) for line in statements(block)]  # fmt: skip
_SIZES = [text for text, _ in sizes("sizes.txt")]
_LINES = (*EXAMPLES.values(), *(row.example for row in LINE_WORDS if row.is_word),
          "hole in tray: No 43 drill at bolt_circle(6, 2 in) from 3 in, 3 in", "part peg: 2 of oak, hex 1/4 in by w",
          "hole in tray: 3 mm at BOLT_CIRCLE(3, 1 in)")  # fmt: skip
#: Begun, so that most are at fault.
_BEGUN = [line[:end] for line in (*_CASES[:: times(20, 1)], *_LINES) for end in range(3, len(line), 5)]


@over([*_CASES[:: times(3, 1)], *_SIZES[:: times(3, 1)], *_LINES, *_BEGUN])
def test_a_line_on_trial_is_read_as_it_is_otherwise(line: str) -> None:
    told = read_lines(line)
    with trial():
        tried = read_lines(line)
        again = read_lines(line)
    assert not on_trial()
    assert [one.fault is None for one in tried] == [one.fault is None for one in told]
    assert [_all_read(one) for one in tried] == [_all_read(one) for one in told]
    assert all(one.node is other.node for one, other in zip(tried[:1], again, strict=False)), (
        "it is read once"
    )


def _all_read(line: Line) -> str:
    return repr((line.kind, line.node, line.part, line.feature, line.stock, line.uses, line.sets))


def test_what_was_read_on_trial_is_forgotten_after_it() -> None:
    with trial():
        read_lines("rail = 2 in + 3 mm")
        assert list(readings() or ()) == ["rail = 2 in + 3 mm"]
        read_lines("rail = 2 in +")
        with trial():
            assert readings() == {}
    assert readings() is None
    (line,) = read_lines("rail = 2 in +")
    assert line.fault is not None
    assert line.fault.expected, "it says again what is to follow"


def test_every_thread_that_begins_as_typed_is_found_and_no_other() -> None:
    known = thread_names.known()
    typed = {key[:end] for thread in known[::40] for key in thread.keys for end in range(1, len(key) + 1)}
    for text in sorted(typed | {"q", "3 m", "1/4-", "No 6", "no6-3", "zz"}):
        key = thread_names._key(text)
        whole = thread_names._size_only().fullmatch(key) is not None
        plainly = [thread for thread in known if any(thread_names._begins(one, key, whole) for one in thread.keys)]  # fmt: skip
        assert thread_names.beginning(text) == plainly, text
