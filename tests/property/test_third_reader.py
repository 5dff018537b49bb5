"""pint, asked in its own syntax, has the size that the program reads, wherever it can say it at all."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

import hostile
import third_reader
from hypothesis import assume, given, settings
from over_all import over
from strategies import plain_sizes
from test_second_reader import FORMS, TEXTS, read_by_the_program

#: What pint cannot be asked: limits, names of tables, figures that are small or raised, old inches, and unit words of ours.
BEYOND_PINT = {
    "limits": ("±", "+-", "+1/-2", "+0.1/0", "0/-0.2", "-.002"), "tables": ("SWG", "AWG", "drill", "steel wire", "spring wire", "screw", "BA", "BSW", "UN", "No 6-32", "M3", "G 1/4", "ME", "form"),
    "small figures": ("⁄₃₂", "⅟"), "old inches": ("Paris", "Rhenish"), "volumes and raised figures": ("cu in", "in²"), "decimal points of old": ("·",),
}  # fmt: skip


@over(FORMS)
def test_pint_has_every_form_of_the_manual_that_it_can_be_asked(text: str) -> None:
    found = third_reader.read(text)
    if found is None:
        assert any(mark in text for marks in BEYOND_PINT.values() for mark in marks), text
    else:
        assert read_by_the_program(text) == found


@given(plain_sizes())
@settings(max_examples=200)
def test_pint_has_the_size_that_is_written(size: Any) -> None:
    found = third_reader.read(size.text)
    assume(found is not None)
    assert found == (1, size.mm)
    assert read_by_the_program(size.text) == found


def test_pint_agrees_on_sizes_of_public_texts() -> None:
    asked = {text: third_reader.read(text) for text in TEXTS.sizes}
    ours = {text: read_by_the_program(text) for text, found in asked.items() if found is not None}
    read = {text: found for text, found in ours.items() if found is not None}
    assert len(read) > 300
    assert read == {text: asked[text] for text in read}


def test_pint_agrees_on_sums_under_one_seed() -> None:
    r, asked = Random(1799), 0
    for _ in range(600):
        text = hostile.expression(r, 1)
        found, ours = third_reader.read(text), read_by_the_program(text)
        if found is not None and ours is not None:
            asked += 1
            assert ours == found, text
    assert asked > 20


def test_pint_reads_no_mixed_number_by_itself() -> None:
    """Why the third reader brackets every size: a blank multiplies there (pint 0.25)."""
    assert third_reader.in_pints_words("2 1/32 in / 5") == "((2 + 1/32) * inch) / (5)"
    assert third_reader.read("2 1/32 in / 5") == (1, Fraction(13, 32) * Fraction(254, 10))
