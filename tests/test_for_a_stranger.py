"""What leaves a sheet is enough for a stranger: notes and names on drawings, one figure for one limit, nothing left out unsaid."""

from __future__ import annotations

import io
import json
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pypdf import PdfReader
from referencing import Registry, Resource

from fractions_shop import Quantity, crown, read
from fractions_shop.command.cli import main
from fractions_shop.figures.drawing import Drawing, NotDrawn, Words
from fractions_shop.figures.figure import in_inches, in_mm
from fractions_shop.figures.table import Cell, Table
from fractions_shop.figures.two_units import fits_paper, in_halves
from fractions_shop.requests.pictures.free_room import FreeRoom
from fractions_shop.show.crown_drawing import crown_drawings
from fractions_shop.show.part_drawing import part_drawings
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.size_table import limit_figures
from fractions_shop.show.title_block import Titles
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import mixed

STAY = """\
## A stay
lip = 1/16 in
pivot = 3/16 in +0/-1 thou
part stay: 2 of brass, 4 in by 1/2 in by 1/8 in; bevel 1/32 in all round, riveted to [lip]
hole in stay: 2.5 mm at 1/4 in by 1/8 in deep 1/16 in
hole in stay: 3/16 in +2/-0 thou at 1/2 in by 1/4 in
hole in stay: No 29 drill at 3 across by 1/2 in from 1 1/4 in, 1/4 in
part pivot: 4 of brass, round pivot by 7/8 in
part pin: 2 of steel, round 3 mm by 1/4 in; a push fit
part rail: 1 of oak, 24 in by 1 in by 3/4 in
stock brass: 1/2 in by 1/8 in, 12 in long, saw 1/32 in
"""


def drawing_of(sheet: Sheet, name: str) -> Drawing:
    made = part_drawings(sheet.cut_parts[name], Titles(sheet.title, sheet.revision))
    assert not isinstance(made, NotDrawn)
    return made[0]


def said(drawing: Drawing) -> str:
    return " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Words))


def flat(text: str) -> str:
    return " ".join(text.split())


# Drawings


def test_what_a_part_asks_for_beside_its_sizes_stands_on_its_drawing_wherever_that_is_written() -> None:
    sheet = Sheet.from_text(STAY)
    note = "stay: bevel 1/32 in all round, riveted to 1/16 in (1.5875 mm)"
    assert note in said(drawing_of(sheet, "stay"))
    assert note.partition(": ")[2] in drawing_of(sheet, "stay").words
    assert "stay: bevel 1/32 in all round, riveted to" in flat(
        re.sub(r"<[^>]*>", " ", sheet.to_svg(part="stay"))
    )
    assert "pin: a push fit" in said(drawing_of(sheet, "pin"))
    assert "rail:" not in said(drawing_of(sheet, "rail")).replace("rail: 1 of oak", "")


def test_the_machine_file_and_its_coordinates_bear_the_note_too() -> None:
    sheet = Sheet.from_text(STAY)
    assert "  bevel 1/32 in all round, riveted to 1/16 in (1.5875 mm)\n" in sheet.to_coordinates()
    ezdxf = pytest.importorskip("ezdxf", reason="the extra `machine` is not installed")
    texts = [each.dxf.text for each in ezdxf.read(io.StringIO(sheet.to_dxf())).modelspace().query("TEXT")]
    assert "bevel 1/32 in all round, riveted to 1/16 in (1.5875 mm)" in " ".join(texts)


def test_a_drawing_of_one_part_stands_alone() -> None:
    sheet = Sheet.from_text(STAY)
    alone = sheet.to_svg(part=" Stay ")
    assert alone.count('<g id="drawing-') == 1
    assert "<title>A stay: stay</title>" in alone
    with pytest.raises(Exception, match="no part here is called screw; write one of stay, pivot, pin, rail"):
        sheet.to_svg(part="screw")


def test_a_drawing_that_is_not_full_size_is_not_called_true_to_size_on_the_page() -> None:
    html = Sheet.from_text(STAY).to_html()
    captions = re.findall(
        r'<figure id="line-(\d+)-picture-1">.*?<figcaption>(.*?)</figcaption>', html, re.DOTALL
    )
    under = dict(captions)
    assert under["10"].startswith("Drawn at 1:10, not full size: print at 100 %")
    assert under["9"].startswith("True to size: print at 100 %")


@given(st.integers(1, 400), st.sampled_from([8, 16, 32, 64, 20, 50, 100, 254, 508, 1270]))
def test_what_ends_in_millimetres_alone_is_told_in_them_first(above: int, below: int) -> None:
    """The figure that is exact leads, on drawings as in lists."""
    sheet = Sheet.from_text(
        f"part p: 1 of oak, 40 in by 40 in\nhole in p: {above}/{below} in at 20 in by 20 in"
    )
    size = Quantity.inches(Fraction(above, below))
    mm_alone = in_mm(size, 4).exact and not in_inches(size, 4).exact
    (first,) = re.findall(r"⌀ (?:about )?\S.*? (in|mm)", said(drawing_of(sheet, "p")))[:1]
    assert first == ("mm" if mm_alone else "in")


def test_heights_that_would_stand_in_a_fan_are_left_to_the_table() -> None:
    (wide,) = drawn(crown(11, across="2 1/4 in", radius="90 in", tallest="1 7/8 in", rule="32nds"))
    (small,) = drawn(crown(5, across="1 in", radius="9 in", tallest="2 in", rule="32nds"))
    note = "the heights have no room to be dimensioned here: the table has them all"
    assert note in said(wide)
    assert note not in said(small)
    # Each height stands in the table, and of the wide crown there alone.
    assert said(wide).count("1 23/32 in") == 0 < said(wide).count("1 3/4 in")
    assert said(small).count("2 in") > 1


def drawn(made: object) -> tuple[Drawing, ...]:
    drawings = crown_drawings(made, "up", Titles("Rack"))  # type: ignore[arg-type]
    assert not isinstance(drawings, NotDrawn)
    return drawings


# Lists


@given(
    st.fractions(Fraction(1, 8), 40, max_denominator=64),
    st.fractions(Fraction(1, 2000), Fraction(1, 16), max_denominator=2000),
)
def test_limits_of_one_size_are_the_same_figures_in_answer_list_and_drawing(
    middle: Fraction, off: Fraction
) -> None:
    size = f"{mixed(middle)} in ± {mixed(off)} in"
    limits = read(size)
    assert isinstance(limits, Limits)
    _, metric = limit_figures(limits)
    low, high = (Fraction(end) for end in metric.split(" to "))
    assert limits.lower.mm <= low <= high <= limits.upper.mm
    sheet = Sheet.from_text(f"a = {size}\npart p: 1 of oak, a by 2 in")
    text = flat(sheet.to_text(300))
    told = re.search(r"for a metric machine: (\S+) mm to (\S+) mm", text)
    if told is not None:
        assert (Fraction(told[1]), Fraction(told[2])) == (low, high)
    assert f"within {metric} mm" in text
    assert f"{metric} mm" in said(drawing_of(sheet, "p"))


def test_a_drill_whose_size_is_its_name_is_called_by_it() -> None:
    text = flat(Sheet.from_text(STAY).to_text(300))
    tools = text[text.index("Drills and taps") :]
    assert "drill 2.5 mm (about 0.0984 in); in stay" in tools
    assert "sold as 2.5 mm" not in tools
    assert "No 29 drill, 0.136 in (3.4544 mm); in stay" in tools
    # A size between limits is no drill's name.
    assert "sold as 3/16 in" in tools
    first = flat(Sheet.from_text(f"units mm first\n{STAY}".replace("2.5 mm at", "1/8 in at")).to_text(300))
    assert "drill 1/8 in (3.175 mm); in stay" in first


def test_a_note_beneath_a_list_says_stock_of_a_stock_line() -> None:
    text = Sheet.from_text(
        "part pin: 4 of brass, round 4 BA by 1 in\nstock brass: round 4 BA, 12 in long, saw 1 mm"
    ).to_text(200)
    assert "the stock of brass (line 2): 4 BA stands for its major diameter" in text
    assert "the check (line" not in text


def test_no_figure_is_broken_in_a_print() -> None:
    pytest.importorskip("fontpkg_fira_sans", reason="the fonts of the extra `print` are not installed")
    sheet = Sheet.from_text(
        "long_of_it = 4 in\nwide_of_it = 1/2 in\nthick = 1/8 in\nhigh = 3 in\nodd = 5 1/64 in"
    )
    for paper in ("A4", "letter"):
        words = "".join(
            page.extract_text() for page in PdfReader(io.BytesIO(sheet.to_pdf(paper=paper))).pages
        )
        listed = words[words.index("Sizes") : words.index("The working")].split()
        assert {"101.6", "12.7", "3.175", "76.2", "127.396875"} <= set(listed)


# Figures in two units, on the page


@st.composite
def two_unit_tables(draw: st.DrawFn) -> Table:
    sizes = draw(st.lists(st.fractions(0, 90, max_denominator=128), min_size=2, max_size=9))
    cells = [Cell("size", (in_mm(size, 4),), (in_inches(size, 4),)) for size in map(Quantity.inches, sizes)]
    return Table(tuple((str(n), cell) for n, cell in enumerate(cells)), ("", "across"))


@given(two_unit_tables())
def test_points_of_both_units_stand_below_one_another(table: Table) -> None:
    halves = [pair for pair in in_halves(table)[1] if pair is not None]
    assert len(halves) == len(table.rows)
    for column in zip(*halves, strict=True):
        figures = [f"{half.number.lstrip('(')}{half.pad}" for half in column]
        decimals = [
            figure for figure in figures if "/" not in figure and "ft" not in figure and " in" not in figure
        ]
        assert len({len(figure.partition(".")[2]) for figure in decimals}) <= 1


def test_a_row_that_is_wider_than_the_paper_is_not_kept_on_one_line() -> None:
    size = Quantity.of(Fraction(2627, 3), "mm")
    cell = Cell("size", (in_mm(size, 4),), (in_inches(size, 4),))
    few, many = (Table(((("x", *[cell] * n),) * 2), ("", *["across"] * n)) for n in (2, 9))
    assert fits_paper(few, in_halves(few))
    assert not fits_paper(many, in_halves(many))


def test_the_halves_of_a_size_stand_in_cells_of_their_own() -> None:
    html = Sheet.from_text(STAY).to_html()
    holes = html[html.index("Holes, openings and corners</h2>") :]
    assert re.search(r'<th scope="col" colspan="2">across</th>', holes)
    assert re.search(
        r'<td data-label="across" class="tight figure unit">1/4 in</td><td class="tight figure beside">\(6.35 mm',
        holes,
    )


@given(
    st.lists(
        st.tuples(st.floats(0, 200), st.floats(0, 200), st.floats(0.1, 150), st.floats(0.1, 150)), max_size=12
    )
)
def test_a_large_box_takes_its_room_as_small_ones_do(boxes: list[tuple[float, float, float, float]]) -> None:
    room, taken = FreeRoom(), []
    for left, top, wide, high in boxes:
        spot = (left, top, left + wide, top + high)
        free = not any(left < o[2] and o[0] < spot[2] and top < o[3] and o[1] < spot[3] for o in taken)
        assert room.is_free(spot) == free
        room.take(spot)
        taken.append(spot)


# What is at fault


LACKING = """\
part frame: 2 of brass, 2 in by 1 in by 1/16 in
hole in frame: 1/8 in at 1/2 in by 1/2 in
hole in frame: 1/8 innn at 1 in by 1/2 in
slot in frame: 1/2 in by 1/8 in at 1.9 in by 1/2 in
wall in frame: 1/32 in
hole in frme: 1/8 in at 1 in by 1/2 in
"""


def test_a_hole_that_was_left_out_stands_in_the_list_and_beside_the_wall() -> None:
    sheet = Sheet.from_text(LACKING)
    note = "lines 3 and 4 not worked out: what they would cut is not counted here"
    for made in (sheet.to_text(300), sheet.to_markdown(), re.sub(r"<[^>]*>", "", sheet.to_html())):
        text = flat(made)
        assert note in text
        listed = text[text.index("From the lower left corner") :]
        assert "hole, not worked out: see Faults, line 3" in listed
        assert "slot, not worked out: see Faults, line 4" in listed
        assert "at 1 9/10 in" in text
        assert "frme" in listed
    (wall,) = (each for each in sheet.to_data()["features"] if each["feature"] == "wall")
    assert wall["notes"] == [note]
    whole = LACKING.replace("innn", "in").replace("1.9 in", "1 1/2 in").replace("frme", "frame")
    assert "not worked out" not in Sheet.from_text(whole.replace("wall in frame: 1/32 in\n", "")).to_text(300)


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("hole in frame: 3 mm H7 at 1 in by 1/2 in", "bore"),
        ("hole in frame: 1/8 in  H7 at 1 in by 1/2 in deep 1/32 in", "bore"),
        ("slot in frame: 1/2 in by 1/8 in H8 at 1 in by 1/2 in", "bore"),
        ("part pin: 2 of steel, round 3 mm h6 by 1 in", "fitted"),
    ],
)
def test_a_zone_behind_a_size_is_refused_with_what_to_write_which_is_then_cut(line: str, name: str) -> None:
    frame = "part frame: 2 of brass, 2 in by 1 in by 1/16 in\n"
    (fault,) = Sheet.from_text(f"{frame}{line}").faults
    assert "is the zone of a fit, whose limits a line of its own works out" in fault.message
    asked = re.fullmatch(rf"write ({name} = fit (.*) (\w+)) in a line before, and {name} here", fault.advice)
    assert asked is not None
    typed = re.sub(r"\s+", " ", line).replace(f"{asked[2]} {asked[3]}", name)
    mended = Sheet.from_text(f"{asked[1]}\n{frame}{typed}")
    assert not mended.faults
    limits = mended.sizes[name]
    assert isinstance(limits, Limits)
    cut = next(iter(mended.cut_parts["frame"].cuts), None)
    assert limits in (mended.parts["pin"].sizes if cut is None else cut.feature.sizes)


def test_a_size_in_a_zone_by_itself_is_told_what_asks_for_its_limits() -> None:
    for typed, offered in (("1/8 in H7", "write fit 1/8 in H7"), ("a = 3 mm h6", "write a = fit 3 mm h6")):
        (fault,) = Sheet.from_text(typed).faults
        assert fault.advice == offered
        assert Sheet.from_text(offered.removeprefix("write ")).ok


# Failed checks


@given(
    st.fractions(1, 9, max_denominator=32),
    st.fractions(1, 9, max_denominator=32),
    st.fractions(0, 1, max_denominator=64),
    st.sampled_from(["", " ± 1/128 in"]),
)
def test_the_change_that_is_offered_first_is_the_least(
    a: Fraction, b: Fraction, allowed: Fraction, limits: str
) -> None:
    asked = f"check a = b within {allowed} in"
    sheet = Sheet.from_text(f"a = {a} in{limits}\nb = {b} in\n{asked}")
    (check,) = sheet.checks
    if check.holds:
        return
    feed = next(each for each in check.feeds if each.name == "a")
    if allowed < Fraction(1, 128) and limits:
        assert feed.least is None, "no move brings the limits inside what is allowed"
        return
    least = feed.least or feed.closes
    assert isinstance(least, Quantity)

    def holds(change: Fraction) -> bool:
        return Sheet.from_text(f"a = {a + change} in{limits}\nb = {b} in\n{asked}").ok

    assert holds(least.inch)
    assert not holds(least.inch * Fraction(999, 1000))
    if feed.closes is not None and feed.least is not None:
        assert abs(feed.least.inch) < abs(feed.closes.inch)


def test_of_counts_the_least_whole_number_is_offered() -> None:
    sheet = Sheet.from_text("n = 4\ncheck n * 3/8 in = 2 in within 1/8 in")
    (feed,) = sheet.checks[0].feeds
    assert (feed.least, feed.closes) == (Quantity.number(1), None)
    assert "n (line 1) alone, at least 1 more, would make it hold" in flat(sheet.to_text(200))


# Comparing


THREE = {
    "a": "recover 10.3 mm\ndivide 2 in into 5\ncheck 2 in = 51 mm within 1 mm\npart p: 1 of oak, 2 in by 1 in\nhole in p: 1/8 in at 1/2 in by 1/2 in\nhole in p: 1/4 in at 1 in by 1/2 in\n",
    "b": "recover 10.35 mm\ndivide 2 in into 5\ncheck 2 in = 51 mm within 1 mm\npart p: 1 of oak, 2 in by 1 in\nhole in p: 1/8 innn at 1/2 in by 1/2 in\nhole in p: 1/4 in at 1 in by 1/2 in\n",
    "c": "divide 3 in into 5\ncheck 2 in = 51 mm within 1 mm\npart p: 1 of oak, 2 in by 1 in\nhole in p: 1/4 in at 1 in by 1/2 in\nthread 6 BA\n",
}


@pytest.fixture
def three(tmp_path: Path) -> list[str]:
    for name, text in THREE.items():
        (tmp_path / f"{name}.shop").write_text(text, encoding="utf-8")
    return [str(tmp_path / f"{name}.shop") for name in THREE]


def test_answers_without_a_name_are_compared_among_three_sheets(
    three: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", *three]) == 1
    text = flat(capsys.readouterr().out)
    assert "3 sheets with 4 answers without a name: 3 of them differ" in text
    assert re.search(r"recover 10.3 mm a\.shop: Probably 13/32 in.* b\.shop, asking recover 10.35 mm: .* c\.shop: is not there", text)  # fmt: skip
    assert re.search(r"divide 2 in into 5 a\.shop and b\.shop: .* c\.shop, asking divide 3 in into 5: ", text)
    assert re.search(r"thread 6 BA a\.shop and b\.shop: is not there c\.shop: 6 BA", text)
    assert main(["compare", *three, "--json"]) == 1
    data = json.loads(capsys.readouterr().out)
    kinds = {each["kind"]: each["same"] for each in data["answers"]}
    assert kinds == {"recover": False, "divide": False, "check": True, "thread": False}


def test_a_cut_at_fault_is_told_from_one_that_is_not_there(
    three: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    a, b, c = three
    assert main(["compare", a, b]) == 1
    assert "not worked out, line 5" in flat(capsys.readouterr().out)
    assert main(["compare", a, c]) == 1
    text = flat(capsys.readouterr().out)
    assert "not worked out" not in text
    assert re.search(r"1 hole in p, 1/8 in \(3.175 mm\).* is not there", text)
    assert main(["compare", *three, "--json"]) == 1
    rows = [row for row in json.loads(capsys.readouterr().out)["made"] if row["kind"] == "cut"]
    assert [row["undone"] for row in rows] == [[None, 5, None], [None, None, None]]
    assert [row["same"] for row in rows] == [False, True]


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("a = 2 in", "a = 2 innn", "sizes"),
        ("part p: 1 of oak, 2 in", "part p: 1 of oak, 2 innn", "parts"),
        (
            "part p: 1 of oak, round 1/4 in by 2 in\nstock oak: round 1/4 in, 12 in long, saw 1 mm",
            "part p: 1 of oak, round 1/4 in by 2 in\nstock oak: round 1/4 innn, 12 in long, saw 1 mm",
            "stock",
        ),
    ],
)
def test_whatever_is_at_fault_is_told_from_what_is_not_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, kind: str
) -> None:
    files = []
    for name, text in (
        ("old", old),
        ("new", new),
        ("none", old.splitlines()[0] if kind == "stock" else "b = 1 in"),
    ):
        (tmp_path / f"{name}.shop").write_text(f"{text}\n", encoding="utf-8")
        files.append(str(tmp_path / f"{name}.shop"))
    line = len(new.splitlines())
    assert main(["compare", *files[:2], "--json"]) == 1
    (change,) = json.loads(capsys.readouterr().out)[kind]
    if kind != "stock":  # of stock that could not be read its material is not known
        assert (change["new"], change["new_undone"]) == (None, line)
        assert main(["compare", *files[:2]]) == 1
        assert f"not worked out, line {line}" in flat(capsys.readouterr().out)
    assert main(["compare", files[0], files[2], "--json"]) == 1
    assert json.loads(capsys.readouterr().out)[kind][0]["new_undone"] is None


def test_what_differs_is_told_in_words_and_not_by_the_names_of_fields(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    one = "land reads 10.3 mm\nwindow reads 2.5 mm\nreconcile land = 4 of window\nrecover 8.7 mm, 8.75 mm, 51.5 mm, 66.7 mm, 10.3 mm\n"
    two = one.replace("10.3 mm", "10.35 mm")
    for name, text in (("one", one), ("two", two)):
        (tmp_path / f"{name}.shop").write_text(text, encoding="utf-8")
    assert main(["compare", str(tmp_path / "one.shop"), str(tmp_path / "two.shop")]) == 1
    text = capsys.readouterr().out
    for raw in ("candidates", "probability", "departures", "written", "whole set  ", "told no", "e+0"):
        assert raw not in text, raw
    assert re.search(r"to 1 (on|against)", text)


def test_the_objects_of_a_comparison_hold_to_their_schema(
    three: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    home = Path(__file__).parents[1] / "fractions_shop" / "show"
    schemas = [json.loads(path.read_text("utf-8")) for path in home.parent.rglob("*.schema.json")]
    registry: Registry[object] = Registry().with_resources(
        [(schema["$id"], Resource.from_contents(schema)) for schema in schemas]
    )
    schema = json.loads((home / "comparison.schema.json").read_text("utf-8"))
    for files in (three, three[:2], three[1:]):
        main(["compare", *files, "--json"])
        Draft202012Validator(schema, registry=registry).validate(json.loads(capsys.readouterr().out))
