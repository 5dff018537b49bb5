"""A sheet as PDF: positions measured in points as written, against exact marks; looked at as PNG."""

from __future__ import annotations

import io
import shutil
import subprocess
import sys

import pytest
from measuring import joined, pdf_lines, pieces
from pypdf import PdfReader

from fractions_shop import ShopError, mark
from fractions_shop.sheet.sheet import Sheet
from fractions_shop.show.pdf import printable

ALLOWED = 0.01
JOB = """\
## A rack of tubes
# Kept <dry> & out of the sun, ½ in off the wall.

## Marks
wide = 14 5/8 in ± 1/64 in     # over all
mark 14 5/8 in into 23 on 32nds
mark 90 mm into 7 on mm
fit 6 mm H7/g6
crown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds
check wide = 14 in
part peg: 9 of boxwood, 1/4 in by wide
bad = 2 in +
"""


@pytest.fixture(scope="module")
def raw() -> bytes:
    return Sheet.from_text(JOB).to_pdf()


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_marks_stand_where_they_should(paper):
    strips = pieces(pdf_lines(Sheet.from_text(JOB).to_pdf(paper=paper)))
    assert len(strips) == 4
    for places, marks in (
        (joined(strips[:3], "mark"), mark("14 5/8 in", 23)),
        (joined(strips[3:], "mark"), mark("90 mm", 7)),
    ):
        assert len(places) == marks.count + 1
        for place, exact in zip(places, marks.exact, strict=True):
            assert abs(place - places[0] - float(exact.mm)) < ALLOWED


def test_the_bar_of_every_strip_is_four_inches(raw):
    for bar, *_ in pieces(pdf_lines(raw)):
        assert abs(abs(bar.x2 - bar.x1) - 101.6) < ALLOWED


@pytest.mark.parametrize(
    ("paper", "size"), [("A4", (210, 297)), ("letter", (215.9, 279.4)), ("a4", (210, 297))]
)
def test_everything_is_on_the_paper(paper, size):
    made = Sheet.from_text(JOB).to_pdf(paper=paper)
    for page in PdfReader(io.BytesIO(made)).pages:
        assert [round(float(v) * 25.4 / 72, 1) for v in page.mediabox[2:]] == list(size)
    for line in pdf_lines(made):
        # No printer reaches the outermost 5 mm.
        assert min(line.x1, line.x2) > 5
        assert max(line.x1, line.x2) < size[0] - 5


def test_the_text_is_all_there(raw):
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(raw)).pages).split())
    for words in (
        "A rack of tubes", "Kept <dry> & out of the sun, ½ in off the wall.", "1 check, which fails; 1 fault",
        "print at 100 %, check the bar", "piece 2 of 3", "over all", "boxwood", "14 39/64 in" if False else "14.609375",
        "the line ends too soon", "FAILS", "hole H7", "heights 4 times size",
    ):  # fmt: skip
        assert words in text, words
    assert "?" not in text


def test_viewers_are_told_not_to_scale_and_what_it_is_called(raw):
    reader = PdfReader(io.BytesIO(raw))
    assert reader.metadata.title == "A rack of tubes"
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_the_same_sheet_gives_the_same_bytes(raw):
    assert Sheet.from_text(JOB).to_pdf() == raw


def test_it_is_written_to_a_file(tmp_path, raw):
    path = tmp_path / "a.pdf"
    assert Sheet.from_text(JOB).to_pdf(path) == path.read_bytes() == raw


def test_an_unknown_paper_is_refused():
    with pytest.raises(ShopError, match="'A5' is not a paper known here: A4 or letter"):
        Sheet.from_text("1 in").to_pdf(paper="A5")


def test_without_the_library_it_says_what_to_install(monkeypatch):
    monkeypatch.delitem(sys.modules, "fractions_shop.show.pdf", raising=False)
    monkeypatch.setitem(sys.modules, "reportlab", None)
    monkeypatch.setitem(sys.modules, "reportlab.lib", None)
    with pytest.raises(ShopError, match=r"pip install 'fractions-shop\[print\]'"):
        Sheet.from_text("1 in").to_pdf()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("½ ± µ", "½ ± µ"),
        ("α = Ω", "alpha = omega"),
        ("Д", "de"),
        ("木", "?"),
        ("a\tb", "a b"),
        ("a\x07", "a?"),
    ],
)
def test_signs_that_no_standard_font_has_are_spelled(text, shown):
    assert printable(text) == shown


def test_a_sheet_of_many_pages_is_built_with_odd_and_long_cells():
    lines = [f"part p{n}: 1 of {'oak ' * 40}, 1 in; {'long ' * 100}" for n in range(60)]
    made = Sheet.from_text("\n".join(["α = 1 in", *lines])).to_pdf()
    assert len(PdfReader(io.BytesIO(made)).pages) > 5


#: So many lines make a page move down by one of its own lines each, so every foot of a page is met.
FEET = range(20, 32)


@pytest.mark.parametrize("above", FEET)
def test_no_heading_and_no_statement_stands_alone_at_the_foot_of_a_page(above):
    lines = [f"x{k} = {k + 1} in" for k in range(above)]
    lines += ["## Grooves", "# from the floor", "mark 14 5/8 in into 12 on 32nds"]
    lines += ["crown 9 across 1 in radius 40 in from 2 in", "mark 5 in into 90", "1 in"]
    made = PdfReader(io.BytesIO(Sheet.from_text("\n".join(lines)).to_pdf()))
    pages = [[row.strip() for row in p.extract_text().splitlines() if row.strip()] for p in made.pages]
    alone = ("Grooves", "from the floor", "mark 14", "crown 9", "9 supports", "mark 5 in", "exact place")
    for page in pages[:-1]:
        body = [row for row in page if row != "Sheet" and not row.startswith("page ")]
        assert not any(body[-1].endswith(word) or word in body[-1] for word in alone), body[-3:]


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="pdftoppm (poppler-utils) is not installed")
def test_the_page_as_it_is_seen_has_its_marks_where_they_were_measured(tmp_path, raw):
    """At 300 to the inch a dot is 0.085 mm: the bar's ends are found within two dots."""
    (tmp_path / "a.pdf").write_bytes(raw)
    bar = pieces(pdf_lines(raw))[0][0]
    page = str(bar.page + 1)
    command = [
        "pdftoppm",
        "-r",
        "300",
        "-gray",
        "-f",
        page,
        "-l",
        page,
        str(tmp_path / "a.pdf"),
        str(tmp_path / "a"),
    ]
    subprocess.run(command, check=True, timeout=60)
    (picture,) = tmp_path.glob("a-*.pgm")
    width, height, dots = _grey(picture.read_bytes())
    row = height - 1 - round(bar.y1 / 25.4 * 300)
    dark = [x for x in range(width) if min(dots[(row + d) * width + x] for d in (-1, 0, 1)) < 128]
    assert abs(min(dark) / 300 * 25.4 - min(bar.x1, bar.x2)) < 0.17 + 0.18  # half the bar's own thickness
    assert abs((max(dark) - min(dark)) / 300 * 25.4 - 101.6) < 0.17 + 0.35


def _grey(raw: bytes) -> tuple[int, int, bytes]:
    kind, size, most, dots = raw.split(b"\n", 3)
    width, height = map(int, size.split())
    assert (kind, most) == (b"P5", b"255")
    return width, height, dots
