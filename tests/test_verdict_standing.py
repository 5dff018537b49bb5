"""The verdict on a sheet counts the sizes that rest on figures of little standing."""

from __future__ import annotations

from fractions_shop import Sheet


def test_sizes_from_memory_and_of_one_source_are_counted() -> None:
    """The 90 drill is from memory, 8 zinc of one source (the standing of their rows)."""
    sheet = Sheet("a = No 90 drill\nb = a * 2\nc = 8 zinc\nd = 1/4 in\ncheck d = 1/4 in\n")
    text = sheet.to_text(width=300)
    assert "2 sizes rest on a figure from memory" in text
    assert "1 size rests on a figure of one source, or beyond its standard" in text
    assert (sheet.verdict.memory_sizes, sheet.verdict.one_source_sizes) == (2, 1)


def test_a_sheet_of_sound_figures_says_nothing_of_it() -> None:
    text = Sheet("a = 18 SWG\nb = 1/4 in\n").to_text()
    assert "from memory" not in text
    assert "one source" not in text
