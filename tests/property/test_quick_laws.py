"""The quick reader says what the grammar says, or nothing."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from fractions_shop.errors import InputError
from fractions_shop.language import grammar, quick
from fractions_shop.size.notation import as_meant

NUMBERS = st.one_of(
    st.integers(0, 9999).map(str),
    st.tuples(st.integers(0, 99), st.integers(0, 200), st.integers(0, 128)).map(
        lambda t: f"{t[0]} {t[1]}/{t[2]}"
    ),
    st.tuples(st.integers(0, 200), st.integers(0, 128)).map(lambda t: f"{t[0]}/{t[1]}"),
    st.decimals(0, 999, places=3, allow_nan=False).map(str),
)
UNITS = st.sampled_from(
    ["", " in", " mm", " thou", " ft", " cm", "in", "mm", " m", " BA", " tpi", " inches", '"']
)
SIGNS = st.sampled_from([" / ", " - ", " + ", " * ", "/", "-", "+", " ", " -", "- ", "  /  ", " x ", ""])
LINES = st.one_of(
    st.tuples(NUMBERS, UNITS).map("".join),
    st.tuples(NUMBERS, UNITS, SIGNS, NUMBERS, UNITS).map("".join),
    st.text("0123456789 ./-+*inmf\"'BA#x", max_size=14),
)


@given(LINES)
@example("1/4-20")
@example("2 1/32 in / 5")
@example("1 / 2 in")
@example(" 6 in / 1/2 in ")
@example("2 5/4 in")
@example("3/0 in / 2")
def test_the_quick_reader_agrees_with_the_grammar(line):
    found = quick.read(as_meant(line))
    if found is None:
        return
    try:
        full = grammar.statement(line, as_meant(line))
    except InputError as error:
        raise AssertionError(f"quick reads {line!r}, the grammar refuses it: {error}") from None
    assert repr(found) == repr(full)


def test_the_quick_reader_reads_what_is_typed_most():
    for line in ("2 1/32 in / 5", "51.5 mm", "2 in / 5", "1/2 in + 3 mm", "13/32 in * 5"):
        assert quick.read(line) is not None
