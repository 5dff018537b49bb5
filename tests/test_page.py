"""A sheet as one page: whole, safe, told in words, and printed true to size by a browser."""

from __future__ import annotations

import re
import shutil
import subprocess
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from measuring import Line, joined, pdf_lines, pieces, svg_lines

from fractions_shop import mark
from fractions_shop.show.page import page
from fractions_shop.show.sheet import Sheet

JOB = """\
## A rack of tubes
# Kept <dry> & out of the "sun".

## Marks
wide = 14 5/8 in ± 1/64 in     # over <all>
mark 14 5/8 in into 23 on 32nds
mark 90 mm into 7 on mm
fit 6 mm H7/g6
crown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds
check wide = 14 5/8 in
check wide = 14 in
part peg: 9 of boxwood, 1/4 in by wide; <b>turned</b>
bad = 51,5 mm
worse = bad
"""
EMPTY = {"meta", "br", "hr", "img", "input", "link", "line", "rect"}


class Tree(HTMLParser):
    """Checks that every element is closed in its turn, and gathers what a test asks about."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.ids: list[str] = []
        self.words = ""
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.tags.append((tag, found))
        if found.get("id"):
            self.ids.append(str(found["id"]))
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in EMPTY:
            assert self.open.pop() == tag

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.words += data


@pytest.fixture(scope="module")
def html() -> str:
    return Sheet.from_text(JOB).to_html()


@pytest.fixture(scope="module")
def tree(html: str) -> Tree:
    return Tree(html)


def test_every_element_is_closed_and_every_id_is_one(tree):
    assert len(tree.ids) == len(set(tree.ids)) > 20


def test_the_page_needs_nothing_else_and_runs_nothing(html, tree):
    names = {tag for tag, _ in tree.tags}
    assert not names & {"script", "link", "img", "iframe", "object", "embed", "form", "base"}
    for tag, attributes in tree.tags:
        assert not any(name.startswith("on") for name in attributes), tag
        assert "src" not in attributes
        assert (attributes.get("href") or "#").startswith("#")
    assert "url(" not in html
    assert "@import" not in html
    policy = next(a["content"] for t, a in tree.tags if a.get("http-equiv") == "Content-Security-Policy")
    assert policy == "default-src 'none'; style-src 'unsafe-inline'"


def test_every_link_leads_somewhere(tree):
    targets = {str(a["href"])[1:] for t, a in tree.tags if t == "a"}
    assert targets
    assert targets <= set(tree.ids)


def test_notes_and_names_are_words_and_not_markup(html, tree):
    for words in ('Kept <dry> & out of the "sun".', "over <all>", "<b>turned</b>"):
        assert words in tree.words
    assert "<b>" not in html


def test_every_picture_has_a_title_and_is_told_in_words(tree):
    pictures = [a for t, a in tree.tags if t == "svg"]
    assert len(pictures) == 8
    for attributes in pictures:
        assert attributes["role"] == "img"
        assert set(str(attributes["aria-labelledby"]).split()) <= set(tree.ids)


def test_strips_in_the_page_are_true_to_size(html):
    drawn = re.findall(r"<svg .*?</svg>", html, re.DOTALL)
    strips = [pieces(svg_lines(each))[0] for each in drawn if 'class="tick"' in each]
    places = joined(strips[:3], "mark")
    for place, exact in zip(places, mark("14 5/8 in", 23).exact, strict=True):
        assert abs(place - places[0] - float(exact.mm)) < 0.01
    style = html.partition("<style>")[2].partition("</style>")[0]
    assert "max-width: none" in style


def test_the_page_says_in_words_what_holds_and_what_does_not(tree):
    for words in ("2 checks: 1 holds, 1 fails; 1 fault; 1 line waits for another", "FAILS: ", "holds", "fault: 51,5 has a comma",
                  "waits for bad (line 13)"):  # fmt: skip
        assert words in tree.words


def test_the_place_of_a_fault_is_marked(html):
    assert "bad = <mark>51,5</mark> mm" in html


def test_cells_know_their_columns_name_for_narrow_screens(tree):
    cells = [a for t, a in tree.tags if t == "td" and a.get("data-label")]
    assert {"inch", "mm", "how many", "material"} <= {a["data-label"] for a in cells}


def test_the_page_has_a_language_a_title_and_a_width_for_phones(html, tree):
    assert html.startswith('<!DOCTYPE html>\n<html lang="en">')
    assert "<title>A rack of tubes</title>" in html
    assert any(a.get("name") == "viewport" for _, a in tree.tags)


def test_headings_go_down_by_one(tree):
    levels = [int(t[1]) for t, _ in tree.tags if re.fullmatch("h[1-6]", t)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b - a <= 1 for a, b in pairwise(levels))


def _contrast(one: str, two: str) -> float:
    def light(colour: str) -> float:
        if len(colour) == 4:
            colour = "#" + "".join(c * 2 for c in colour[1:])
        parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    high, low = sorted((light(one), light(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark", "print"])
def test_text_stands_out_from_its_ground(html, scheme):
    # WCAG 2.1, success criterion 1.4.3: 4.5 to 1 for text.
    blocks = re.findall(r":root \{(.*?)\}", html, re.DOTALL)
    colours = dict(re.findall(r"--(\w+): (#\w+);", blocks[("light", "dark", "print").index(scheme)]))
    for ink in ("ink", "soft", "good", "bad", "link"):
        for ground in ("paper", "card"):
            assert _contrast(colours[ink], colours[ground]) >= 4.5, (ink, ground)
    assert _contrast(colours["ink"], colours["spot"]) >= 4.5


def test_a_page_is_made_from_the_document_alone():
    made = Sheet.from_text("x = 1 in")
    assert page(made._document()) == made.to_html()


# In a browser

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
QUIET = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync"]  # fmt: skip
needs_browser = pytest.mark.skipif(BROWSER is None, reason="chromium is not installed")


def _browse(tmp_path: Path, text: str, *options: str) -> None:
    (tmp_path / "page.html").write_text(text, encoding="utf-8")
    command = [
        str(BROWSER),
        *QUIET,
        f"--user-data-dir={tmp_path / 'profile'}",
        *options,
        f"file://{tmp_path}/page.html",
    ]
    subprocess.run(command, check=True, timeout=120, capture_output=True)


@needs_browser
def test_a_browser_prints_the_strips_true_to_size(tmp_path, html):
    made = tmp_path / "page.pdf"
    _browse(tmp_path, html, f"--print-to-pdf={made}", "--no-pdf-header-footer")
    printed = pieces(pdf_lines(made.read_bytes()))
    drawn = [
        pieces(svg_lines(each))[0]
        for each in re.findall(r"<svg .*?</svg>", html, re.DOTALL)
        if "the bar" in each and 'class="tick"' in each
    ]
    assert len(printed) == len(drawn) == 4
    for one, two in zip(printed, drawn, strict=True):
        for kind in ("bar", "mark", "tick"):
            found, meant = _from_the_bar(one, kind), _from_the_bar(two, kind)
            assert len(found) == len(meant)
            for place, exact in zip(found, meant, strict=True):
                assert abs(place - exact) < 0.01


def _from_the_bar(strip: list[Line], kind: str) -> list[float]:
    """Where strokes of a kind stand, from the left end of the strip's own bar."""
    bar, *rest = strip
    places = [bar.x1, bar.x2] if kind == "bar" else [line.x1 for line in rest if line.is_a(kind)]
    return sorted(place - min(bar.x1, bar.x2) for place in places)


@needs_browser
@pytest.mark.parametrize("width", [390, 1100])
def test_nothing_but_strips_is_wider_than_the_screen(tmp_path, html, width):
    """The frame is as wide as the screen; the page itself tells how wide it came out."""
    probe = (
        (
            "<script>addEventListener('load', () => {{ const f = document.querySelector('iframe');"
            "document.title = f.contentDocument.documentElement.scrollWidth; }})</script>"
            f"<iframe srcdoc='{html.replace('&', '&amp;').replace(chr(39), '&#39;')}' width={width} height=900 style='border:0'></iframe>"
        )
        .replace("{{", "{")
        .replace("}}", "}")
    )
    (tmp_path / "page.html").write_text(probe, encoding="utf-8")
    command = [
        str(BROWSER),
        *QUIET,
        f"--user-data-dir={tmp_path / 'profile'}",
        "--dump-dom",
        f"file://{tmp_path}/page.html",
    ]
    done = subprocess.run(command, check=True, timeout=120, capture_output=True, text=True, encoding="utf-8")
    (wide,) = re.findall(r"<title>(\d+)</title>", done.stdout[:2000]) or [""]
    assert int(wide) <= width


def test_a_table_without_headings_runs_on_where_the_screen_is_narrow():
    html = Sheet.from_text("high = 5 in ± 1/64 in\nten = 1 in ± 1 in").to_html()
    assert '<table class="bare">' in html
    # The upper limit of `ten` is 2 in as a fraction and as a decimal: said once where cells run on.
    assert '<td class="tight">2 in</td><td class="tight again">2 in</td>' in html
    assert '<td class="tight">5 1/64 in</td><td class="tight">5.015625 in</td>' in html
    assert html.count('again"') == html.count("tight again")


def test_a_remark_stands_beneath_its_table():
    html = Sheet.from_text("a = recover 12.9 mm").to_html()
    assert '<tbody><tr><th scope="row">a *</th>' in html
    assert (
        '</table>\n<p class="said doubtful">* a (line 1) is taken from a reading, 1.75 to 1 against: check</p>'
        in html
    )


# Order, links, footers, figures

WHOLE = """\
## Label frames
rev B: holes moved
wide reads 51.5 mm
part frame: 12 of brass, wide by 7/8 in by 1/16 in
hole in frame: 3 mm at 1/4 in by 1/4 in
stock brass: sheet 1/16 in, 6 in by 12 in
along = mark 2 in into 5
a = 13.25 mm
b = 1 mm
crown 5 across 1 in radius 10 in from 1 in
check wide = 2 in
bad = 51,5 mm
"""


def test_the_page_begins_with_what_is_at_fault_and_ends_with_the_working():
    tree = Tree(Sheet.from_text(WHOLE).to_html())
    sections = [attributes["id"] for tag, attributes in tree.tags if tag == "section"]
    assert sections == [
        "faults", "parts-to-make", "holes-openings-and-corners", "drawings", "strips-true-to-size", "what-to-buy",
        "drills-and-taps", "sizes", "places", "checks", "revisions", "the-working",
    ]  # fmt: skip


def test_every_link_leads_somewhere_on_the_page_and_every_picture_stands_once():
    tree = Tree(Sheet.from_text(WHOLE).to_html())
    links = [str(attributes["href"]) for tag, attributes in tree.tags if tag == "a"]
    assert all(link.startswith("#") and link[1:] in tree.ids for link in links), set(links)
    assert len(tree.ids) == len(set(tree.ids))
    contents = [link for link in links if link == "#the-working"]
    assert len(contents) == 1
    assert "#line-4-picture-1" in links
    assert "#line-7-picture-1" in links


def test_a_heading_of_nothing_is_no_heading():
    for job in (WHOLE, JOB):
        html = Sheet.from_text(job).to_html()
        assert not re.search(r"<th[^>]*></th>", html)


def test_the_title_stands_once_above_a_sheet_that_it_heads():
    html = Sheet.from_text("## A frame\na = 1 in").to_html()
    assert re.findall(r"<h[1-6][^>]*>A frame</h[1-6]>", html) == ["<h1>A frame</h1>"]
    assert Sheet.from_text("## A frame\na = 1 in").to_text().count("A frame") == 1


def test_points_of_a_column_stand_below_one_another():
    html = Sheet.from_text(WHOLE).to_html()
    written = re.findall(
        r'data-label="mm" class="tight figure">([0-9.]+)(?:<span class="pad"[^>]*>([0-9.]*)</span>)?', html
    )
    assert len(written) > 2
    assert len({len((figure + pad).partition(".")[2]) for figure, pad in written}) == 1
    assert all("." in figure + pad for figure, pad in written)


def test_a_printed_page_says_which_it_is_and_its_revision_whatever_the_title_holds():
    html = Sheet.from_text('## A "frame" } </style> \\ end\nrev C: x\na = 1 in').to_html()
    style = html[html.index("<style>") : html.index("</style>")]
    assert 'counter(page) " of " counter(pages)' in style
    foot = re.search(r'@bottom-left \{ content: "([^"]*)"', style)
    assert foot
    assert (
        re.sub(r"\\([0-9a-f]+) ", lambda sign: chr(int(sign[1], 16)), foot[1])
        == 'A "frame" } </style> \\ end, rev C'
    )


def test_every_support_of_a_crown_is_labelled_and_none_overprinted():
    from overprinting import overprinted

    for radius, count in (("40 in", 9), ("14 in", 9), ("14 in", 5), ("100 in", 24)):
        sheet = Sheet.from_text(f"crown {count} across 1 5/8 in radius {radius} from 2 1/4 in")
        drawing = sheet._document().pictures[-1]  # its profile, which stands behind its drawing
        labels = [shape.text for shape in drawing.shapes if getattr(shape, "text", "").endswith(" in")]
        assert len(labels[1:] if labels[0].startswith("crown") else labels) == count
        assert overprinted(drawing) == []
