"""A sheet as PDF: positions measured in points as written, against exact marks; looked at as PNG."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import sys

import pytest
from measuring import joined, pdf_lines, pieces
from pypdf import PdfReader
from trying import times

from fractions_shop import InputError, ShopError, mark
from fractions_shop.command.streams import Stop
from fractions_shop.command.words.sheet import run
from fractions_shop.show.sheet import Sheet

pytest.importorskip("fontpkg_fira_sans", reason="the fonts of the extra `print` are not installed")
from fractions_shop.show import fonts

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


@pytest.mark.parametrize("paper", ["A4", "letter", "A4 landscape", "letter landscape"])
def test_marks_stand_where_they_should(paper):
    strips = pieces(pdf_lines(Sheet.from_text(JOB).to_pdf(paper=paper)))
    # 14 5/8 in takes three pieces across an upright sheet, and two where it lies on its side.
    first = 2 if "landscape" in paper else 3
    assert len(strips) == first + 1
    for places, marks in (
        (joined(strips[:first], "mark"), mark("14 5/8 in", 23)),
        (joined(strips[first:], "mark"), mark("90 mm", 7)),
    ):
        assert len(places) == marks.count + 1
        for place, exact in zip(places, marks.exact, strict=True):
            assert abs(place - places[0] - float(exact.mm)) < ALLOWED


def test_the_bar_of_every_strip_is_four_inches(raw):
    for bar, *_ in pieces(pdf_lines(raw)):
        assert abs(abs(bar.x2 - bar.x1) - 101.6) < ALLOWED


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        ("A4", (210, 297)),
        ("letter", (215.9, 279.4)),
        ("a4", (210, 297)),
        ("A4 landscape", (297, 210)),
        ("Letter Landscape", (279.4, 215.9)),
    ],
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
    with pytest.raises(
        ShopError, match="'A5' is not a paper known here: A4, letter, A4 landscape or letter landscape"
    ):
        Sheet.from_text("1 in").to_pdf(paper="A5")


def test_without_the_library_it_says_what_to_install(monkeypatch):
    monkeypatch.delitem(sys.modules, "fractions_shop.show.pdf", raising=False)
    monkeypatch.setitem(sys.modules, "reportlab", None)
    monkeypatch.setitem(sys.modules, "reportlab.lib", None)
    with pytest.raises(ShopError, match=r"pip install 'fractions-shop\[print\]'"):
        Sheet.from_text("1 in").to_pdf()


#: Signs of the bench and of the languages that a maker may write his notes in.
LETTERS = {
    "bench": "⌀ ≤ ≥ ° µ μ ± × ½ ¼ ⅛ ⅜ ⁄ ′ ″ − – — … ∅ √ · ² ³ “a” ‘b’ → ① ■",
    "Polish": "Zażółć gęślą jaźń ZAŻÓŁĆ GĘŚLĄ JAŹŃ",
    "Greek": "αβγδεζηθικλμνξοπρστυφχψω ΑΒΓΔΘΛΞΠΣΦΨΩ άέήίόύώ",
    "Cyrillic": "абвгдежзийклмнопрстуфхцчшщъыьэюя АБВЯ ёїєґђћ",
    "Latin": "àâäçéèêëîïñôöøßùûüÿ ÅÆØ čďěňřšťůž ăîșț ğış őű āē",
}


@pytest.mark.parametrize("letters", LETTERS.values(), ids=LETTERS)
def test_every_letter_is_printed_as_it_was_written(letters):
    name = next((word for word in letters.split() if word.isidentifier()), "a")
    text = (
        f"## {letters}\n{name} = 1 in   # {letters}\npart peg: 2 of {letters}, 1 in; {letters}\n# {letters}"
    )
    made = Sheet.from_text(text).to_pdf()
    found = "".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(made)).pages).split())
    assert found.count("".join(letters.split())) >= 5, found


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="pdftoppm (poppler-utils) is not installed")
def test_every_letter_is_seen_on_the_page_and_no_two_alike(tmp_path):
    """Each sign is looked at alone: it has ink, and none is the box that stands for a missing sign."""
    signs = [sign for sign in dict.fromkeys("".join(LETTERS.values())) if sign != " "]
    text = "\n\n".join(f"# {sign}" for sign in signs)
    (tmp_path / "a.pdf").write_bytes(Sheet.from_text(f"1 in\n{text}").to_pdf())
    command = ["pdftoppm", "-r", "150", "-gray", str(tmp_path / "a.pdf"), str(tmp_path / "a")]
    subprocess.run(command, check=True, timeout=120)
    pages = {int(p.stem.partition("-")[2]): _grey(p.read_bytes()) for p in tmp_path.glob("a-*.pgm")}
    seen = {}
    for sign, number, x, y in _placed(tmp_path / "a.pdf", signs):
        width, height, dots = pages[number]
        left, foot = round(x / 72 * 150), height - round(y / 72 * 150)
        rows = [dots[row * width + left - 2 : row * width + left + 30] for row in range(foot - 22, foot + 8)]
        seen[sign] = b"".join(rows)
    assert set(seen) == set(signs)
    assert [sign for sign, picture in seen.items() if min(picture) > 160] == []
    #: Letters of two alphabets, and signs, that look the same in most faces.
    alike = set("μµΑΒΟАВаеорсухіονї·∅⌀ÅØøï")
    different = {picture for sign, picture in seen.items() if sign not in alike}
    assert len(different) > 0.95 * len(set(seen) - alike)


def _placed(path, signs):
    """Every sign that stands alone, with its page and its place in points."""
    found = []
    for number, page in enumerate(PdfReader(path).pages, 1):

        def note(said, around, matrix, _font, _size, number=number):
            if said.strip() in signs:
                found.append((said.strip(), number, around[4] + matrix[4], around[5] + matrix[5]))

        page.extract_text(visitor_text=note)
    return found


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("1 in\na = 1 in   # 木", (2, 14, "'木' (U+6728, CJK UNIFIED IDEOGRAPH-6728)")),
        ("# שלום", (1, 3, "'ש' (U+05E9, HEBREW LETTER SHIN)")),
        ("1 in\n\n# a\x07b", (3, 4, "'\ufffd' (U+FFFD, REPLACEMENT CHARACTER)")),
        ("part q\u0323\u0301: 1", (1, 6, "'\u0323' (U+0323, COMBINING DOT BELOW)")),
    ],
)
def test_a_sign_that_no_font_has_is_refused_with_its_line_and_place(text, place):
    with pytest.raises(InputError) as caught:
        Sheet.from_text(text).to_pdf()
    line, column, sign = place
    assert (caught.value.line, caught.value.column) == (line, column)
    assert caught.value.message == f"{sign} is in none of the fonts of the printed page"
    assert "--to html" in caught.value.advice


def test_the_command_names_the_line_and_writes_nothing(tmp_path):
    sheet, out = tmp_path / "a.shop", tmp_path / "a.pdf"
    sheet.write_text("1 in\n# 木\n", "utf-8")
    with pytest.raises(Stop) as caught:
        run([str(sheet), "--out", str(out)])
    assert str(caught.value).startswith("line 2: '木'")
    assert not out.exists()


def test_a_title_that_no_font_has_is_refused():
    with pytest.raises(ShopError, match="the title '木': '木'"):
        Sheet.from_text("1 in", title="木").to_pdf()


def test_an_accent_is_printed_on_its_letter_and_a_hard_blank_as_a_blank():
    made = Sheet.from_text("# cafe\u0301\u00a0au\u202flait").to_pdf()
    assert "café au lait" in PdfReader(io.BytesIO(made)).pages[0].extract_text()


def test_only_the_letters_that_are_used_are_embedded(raw):
    assert len(raw) < 150_000
    for page in PdfReader(io.BytesIO(raw)).pages:
        for font in page["/Resources"]["/Font"].values():
            # The library names a standard face on every page, and writes nothing in it.
            name = font["/BaseFont"]
            assert name == "/Helvetica" or re.fullmatch(r"/[A-Z]{6}\+(FiraSans|Inter|FiraCode).*", name), name


def test_without_the_fonts_it_says_what_to_install(monkeypatch):
    monkeypatch.setattr(fonts, "find_spec", lambda name: None)
    fonts.signs.cache_clear()
    try:
        with pytest.raises(ShopError, match=r"needs the font in fontpkg-fira-sans.*fractions-shop\[print\]"):
            Sheet.from_text("1 in").to_pdf()
    finally:
        fonts.signs.cache_clear()


def test_a_sheet_of_many_pages_is_built_with_odd_and_long_cells():
    lines = [f"part p{n}: 1 of {'oak ' * 40}, 1 in; {'long ' * 100}" for n in range(60)]
    made = Sheet.from_text("\n".join(["α = 1 in", *lines])).to_pdf()
    assert len(PdfReader(io.BytesIO(made)).pages) > 5


#: So many lines make a page move down by one of its own lines each, so every foot of a page is met, or every other.
FEET = range(20, 32, times(2, 1))


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


def test_each_page_says_which_of_how_many_it_is_and_the_revision():
    made = Sheet.from_text(
        "## Frames\nrev C: x\n" + "\n".join(f"a{n} = {n} in + 1/8 in" for n in range(1, 90))
    ).to_pdf()
    pages = PdfReader(io.BytesIO(made)).pages
    assert len(pages) > 2
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page.extract_text()
        assert "Frames, rev C" in page.extract_text()


def test_it_does_not_name_an_author_whom_nobody_named(raw):
    about = PdfReader(io.BytesIO(raw)).metadata
    assert not about.author
    assert "anonymous" not in str(about)


def test_no_word_of_a_table_is_broken():
    words = "countersinking", "circumferences", "unaccountably", "interchangeable"
    note = " ".join(words * 3)
    job = f"wide = 2 in\npart frame: 12 of mahogany-faced-hardboard, wide by 7/8 in by 1/16 in; {note}\nstock brass: round 1/4 in, 12 in long"
    text = "\n".join(
        page.extract_text() for page in PdfReader(io.BytesIO(Sheet.from_text(job).to_pdf())).pages
    )
    lines = [set(line.split()) for line in text.splitlines()]
    for word in (*words, "mahogany-faced-hardboard,", "mahogany-faced-hardboard"):
        assert any(word in line or f"{word};" in line for line in lines), word
    halves = {word[:n] for word in words for n in range(3, len(word) - 1)}
    assert not any(halves & line for line in lines)


def test_points_of_a_column_stand_below_one_another_on_paper():
    from reportlab.pdfbase.pdfmetrics import stringWidth

    from fractions_shop.show import fonts, pdf

    fonts.load()
    sheet = Sheet.from_text("a = 2 1/32 in\nb = 0.5 in\nc = 1/64 in\nd = 12 in\ne = 111.1 mm")
    (sizes,) = [each.table for each in sheet._document().listings if each.title == "Sizes"]
    column = sizes.heads.index("mm")
    cells = [row[column] for row in pdf._grid(sizes, 500.0)._cellvalues[1:]]
    figures = [cell.text for cell in cells]
    assert [figure.rpartition(">")[0].rpartition("<")[0].rpartition(">")[2] for figure in figures] == [
        "51.59375", "12.7", "0.396875", "304.8", "111.1"]  # fmt: skip
    # From the right edge of the column to the point.
    behind = [
        cell.style.rightIndent + stringWidth("." + text.partition(".")[2], fonts.TEXT, 8)
        for cell, text in zip(cells, ("51.59375", "12.7", "0.396875", "304.8", "111.1"), strict=True)
    ]
    assert max(behind) - min(behind) < 1e-6
    assert {cell.style.alignment for cell in cells} == {2}  # to the right


@pytest.mark.parametrize(
    "text",
    ["0." + "0" * 300, "x" * 900, "part a: 2 of " + "b" * 600 + ", 1 in by 2 in", "a = 2 in # " + "c" * 900, f"## {'d' * 900}\na = 2 in"],
    ids=["number", "word", "material", "comment", "title"],
)  # fmt: skip
def test_a_word_longer_than_the_page_is_broken_and_no_other(text: str) -> None:
    for paper in ("A4", "letter", "A4 landscape"):
        assert Sheet.from_text(text).run().to_pdf(paper=paper).startswith(b"%PDF")
