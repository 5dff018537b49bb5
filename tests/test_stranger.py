"""The print of the label frame alone is enough to cut by: what a stranger reads on it, against the sheet.

What is to be cut, drilled and bought is written here by hand, as it was read off the pages.
"""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from fractions_shop.show.sheet import Sheet

SHEET = Path(__file__).parents[1] / "examples" / "label-frames.shop"
#: Each part: how many, of what, to what size.
PARTS = {
    "label frame": ("3", "brass", "2 1/32 in x 13/16 in x 1/16 in"),
    "frame screw": ("24", "brass", "round 6 BA (2.8 mm, about 0.1102 in) x 1/2 in (12.7 mm)"),
    "locating pin": ("24", "silver steel", "round 3 mm (about 0.1181 in) x 1/4 in (6.35 mm)"),
    "label": ("12", "cream card", "1 11/16 in x 15/32 in"),
}
#: Each hole and slot of the frame: its letter, across, up, and what it is.
CUTS = {
    "A1": ("5/64 in", "13/32 in", "2.9 mm"), "A2": ("1 61/64 in", "13/32 in", "as A1"),
    "B1": ("5/64 in", "5/64 in", "3 mm"), "B2": ("1 61/64 in", "5/64 in", "as B1"),
    "C": ("1 1/64 in", "47/64 in", "slot 1 in by 1/16 in"),
    "D": ("1 1/64 in", "13/32 in", "square corners"), "R": ("all four", "", "R 1/32 in"),
}  # fmt: skip
BOUGHT = (
    "brass, sheet 1/16 in", "silver steel, round 3 mm (about 0.1181 in), 13 in", "cream card, sheet, 8 in x 10 in",
    "6 BA (2.8 mm, about 0.1102 in) x 1/2 in (12.7 mm), brass",
)  # fmt: skip
TOOLS = ("drill 2.9 mm (about 0.1142 in)", "drill 3 mm (about 0.1181 in)", "slot cutter 1/16 in (1.5875 mm)")


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return Sheet.read(SHEET)


@pytest.fixture(scope="module")
def printed(sheet: Sheet) -> list[str]:
    """The words of each page, blanks as one."""
    reader = PdfReader(io.BytesIO(sheet.to_pdf()))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def test_every_part_is_told_with_its_number_material_and_size(sheet: Sheet, printed: list[str]) -> None:
    assert set(PARTS) == set(sheet.parts)
    for name, (many, material, size) in PARTS.items():
        assert f"{name} * {many} {material} {size}".replace(" * ", " ") in printed[0].replace(" * ", " "), (
            name
        )


def test_every_hole_slot_and_corner_is_told_on_the_drawing_with_its_place(
    sheet: Sheet, printed: list[str]
) -> None:
    cut = sheet.cut_parts["label frame"]
    letters = {each.place_name(n) for each in cut.cuts for n in range(len(each.cut.at))}
    assert letters | {"R"} == set(CUTS)
    drawn = next(page for page in printed if "label frame: 3 of brass" in page and "R 1/32 in" in page)
    rows = [
        drawn.index(f" {letter} {across} ", drawn.index("depth")) for letter, (across, *_) in CUTS.items()
    ]
    assert rows == sorted(rows)
    ends = [*rows[1:], len(drawn)]
    for (letter, figures), start, end in zip(CUTS.items(), rows, ends, strict=True):
        row = drawn[start:end]
        assert all(figure in row for figure in figures), (letter, row)
        assert letter == "R" or "as " in row or "through" in row
    # The opening has the limits of the bars in both of its sizes.
    for limits in ("1 45/64 to 1 47/64 in", "31/64 to 33/64 in"):
        assert limits in drawn


def test_what_is_bought_and_what_it_is_made_with_is_told(sheet: Sheet, printed: list[str]) -> None:
    whole = " ".join(printed)
    listed = whole[whole.index("What to buy") : whole.index("Drills and taps")]
    assert all(each in listed for each in BOUGHT)
    assert len(BOUGHT) == len(sheet.to_buy.hardware) + len([w for w in sheet.worked if w.stock is not None])
    tools = whole[whole.index("Drills and taps") : whole.index("The fraction is the nearest division")]
    assert all(each in tools for each in TOOLS)
    assert len(TOOLS) == len(sheet.tools)


def test_what_rests_on_a_doubt_says_so_where_it_is_cut(printed: list[str]) -> None:
    assert printed[0].index("label *") < printed[0].index("label_high (line 20) is taken from a reading")
    assert any("DOUBTFUL, see the sheet: label: 12 of cream card" in page for page in printed)
