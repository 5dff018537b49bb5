"""Sizes with words around them: what is read, what is refused, and what is said of the words."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
import score_session
import score_written
from hypothesis import given
from hypothesis import strategies as st
from over_all import over

from fractions_shop import InputError, Limits, Quantity, Session, ShopError, find_sizes, read, snap, written
from fractions_shop.language.grammar_tables import openers_or_names
from fractions_shop.language.written import Range, ThreadSaid
from fractions_shop.language.written.words import NEVER_LEFT, ROLES
from fractions_shop.layout.bulk import plain_pair
from fractions_shop.size.notation import read_plain

OWN = Path(__file__).parent / "data" / "written_sizes.tsv"
LISTS = {"public texts": (score_written.DATA, 95), "own": (OWN, 95)}


@pytest.mark.parametrize("name", LISTS)
def test_sizes_as_they_stand_are_read_as_meant_or_refused(name):
    path, least = LISTS[name]
    rows = score_written.rows(path)
    assert len(rows) >= 230
    got = [(score_written.verdict(*row), row) for row in rows]
    assert [row for verdict, row in got if verdict == "wrong"] == []
    assert sum(verdict == "right" for verdict, _ in got) * 100 >= least * len(rows)


#: A statement that is a difference as a whole is one, whatever a book would mean by it.
_STATEMENTS: set[str] = set()


@pytest.mark.parametrize("name", LISTS)
def test_the_session_reads_them_too_and_its_advice_leads_to_no_other_size(name):
    path, least = LISTS[name]
    rows = [row for row in score_written.rows(path) if row[0] not in _STATEMENTS]
    got = [(score_session.verdict(*row), row) for row in rows]
    assert [row for verdict, row in got if verdict in ("wrong", "misleads")] == []
    assert sum(verdict == "right" for verdict, _ in got) * 100 >= least * len(rows)


def test_words_left_out_are_named_and_names_are_no_words():
    session = Session()
    session.answer("tube = 2 in")
    answer = session.answer('wall = 1/16" O.D. brass')
    assert answer is not None
    assert answer.value == Quantity.inches(Fraction(1, 16))
    assert [note.text for note in answer.notes] == ['"O.D. brass" left out']
    with pytest.raises(InputError, match="tube is a size named here"):
        session.answer("3/8 in tube")


@over(sorted(NEVER_LEFT - {"in", "to", "less", "plus", "minus", "over", "under", "per", "of"}))
def test_words_that_change_a_size_are_never_left_out(word):
    for line in (f"3/8 in {word} brass", f"{word} 3/8 in brass", f"brass {word} 3/8 in"):
        assert written(line).one is None or word in ("half", "quarter")
    with pytest.raises(InputError):
        Session().answer(f"3/8 in {word}")


def test_limits_of_two_lines_are_two_pieces():
    session = Session()
    for name in "ab":
        session.answer(f'{name} = .500" +.001 -.002 typ.')
    difference = session.answer("a - b")
    assert difference is not None
    assert isinstance(difference.value, Limits)
    assert difference.value.spread


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("12 × 13/32 in", ["size", "size"]),
        ("13/32 in × 12", ["size", "size"]),
        ("9 7/16 × 7 5/16 in.", ["size", "size"]),
        ('#8-32 x 1-1/4"', ["thread", "size"]),
        ("M8-1.25x30MM", ["thread", "size"]),
        ("8 to 9 feet", ["range"]),
        ("1 in 48", ["rate"]),
        ('5/32" per foot', ["per"]),
        ("26 tpi", ["per"]),
        ('two 3/32" holes', ["count", "size"]),
        ("30 deg", ["angle"]),
        ("No. 24 s.w.g. wire", ["gauge"]),
        ('"R" drill', ["drill"]),
        (".500 +.000 -.002", ["limits"]),
    ],
)
def test_items_in_order(text, kinds):
    assert [item.kind for item in written(text).items] == kinds


def test_values_are_exact():
    assert written("1 in 48")[0].value == Fraction(1, 48)
    assert written('1/4" per foot')[0].value == Quantity(Fraction(1, 48), 0)
    between = written("1.624 to 1.625 inches")[0].value
    assert isinstance(between, Range)
    assert between.upper.inch == Fraction(1625, 1000)
    screw = written("1/2-12 UNC")[0].value  # not in the tables: its major and pitch stand in its name
    assert isinstance(screw, ThreadSaid)
    assert screw.thread is None
    assert screw.pitch == Quantity.inches(Fraction(1, 12))


@pytest.mark.parametrize("line", ["12 × 13/32 in", "2 × 4 in", "2 in × 4"])
def test_a_count_by_a_size_is_asked_about(line):
    with pytest.raises(InputError, match="count and a size") as error:
        Session().answer(line)
    for offer in error.value.advice.offers:
        answer = Session().answer(offer.text)
        assert answer is not None
        assert isinstance(answer.value, Quantity)


@pytest.mark.parametrize("line", ["9 7/16 in × 7 5/16 in", "M6-1.0×50MM", "3 mm × 1/2 in"])
def test_two_sizes_are_no_product(line):
    with pytest.raises(InputError):
        Session().answer(line)


@pytest.mark.parametrize("line", ["0-80", "2-56", "6-48", "10-32"])
def test_a_numbered_screw_is_never_a_difference(line):
    answer = Session().answer(line)
    assert answer is not None
    assert isinstance(answer.value, Quantity)
    assert answer.value.power == 1
    assert answer.doubts
    with pytest.raises(InputError):
        read(line)


@pytest.mark.parametrize(
    "line",
    ["64ths in", "13064thsin", "5ths inch", "5ths-in", "32nds in brass", "2nd in", "5th in. rod", "the 3rd in the row", "12.5ths of an inch"],
)  # fmt: skip
def test_an_ordinal_and_parts_without_their_count_are_no_size(line: str) -> None:
    assert [item for item in written(line).items if item.kind == "size"] == []
    assert find_sizes(line) == ()
    with pytest.raises(InputError):
        Session().answer(line)


@pytest.mark.parametrize("size", ["⅟32 in", "⅟₃₂ in", "¹⁄₃₂ in", "2 ⅟₃₂ in", "2½ in", "2¹⁄₃₂ in"])
def test_words_are_left_out_beside_small_figures_too(size: str) -> None:
    for line in (f"{size} brass rod", f"brass {size}"):
        answer = Session().answer(line)
        assert answer is not None
        assert answer.value == read(size)


@pytest.mark.parametrize(
    ("line", "quarrels"),
    [
        ("3/8 in (9.5 mm)", False), ("30¾ in. (78 cm) high", False), ("1/2 in (12.5 mm)", False), ("42 in. (107 cm)", False),
        ("1/2 in (13.1 mm)", True), ("30¾ in. (77 cm) high", True), ('.125" (5/32")', True), ("20 mm (1 in)", True),
        # The last place of what is written in two units is of its last number, and that of a fraction its division.
        ("1613 mm (5' 3 1/2\")", False), ("1600 mm (5' 3 1/2\")", True), ("1600 mm (5 ft 3 in)", False), ("1620 mm (5' 3\")", True),
        ("10 in (10½ in)", True), ("10 in (10 1/2 in)", True), ("51.6 mm (2¹⁄₃₂ in)", False), ("52 mm (2¹⁄₃₂ in)", True), ("52 mm (2 1/32 in)", True),
        ("250 mm (630 64ths)", False), ("250 mm (650 64ths)", True), ("1 in (⅟₃₂ in)", True), ("12.5 mm (½ in)", False),
    ],
)  # fmt: skip
def test_the_second_unit_is_checked_to_its_last_place(line, quarrels):
    one = written(line).one
    assert one is not None
    assert bool(one.doubts) is quarrels
    if quarrels:
        with pytest.raises(InputError):
            read(line)


def test_doubts_of_a_misprint_and_of_a_missing_unit():
    assert "2 1/2 may have lost its blank" in written("21/2 in. wide")[0].doubts[0].text
    assert written("5/16 ID")[0].doubts[0].meanings == ("5/16 in", "5/16 mm")
    assert written("1/2 fathom deep").one is None
    assert written("5 of an inch").one is None


@pytest.mark.parametrize("line", ["2 in 5", "(3 in", "3 in)", "ans = 2 in thick", "in = 2 in wide", "6 BA clearance", "tap drill for M6",
                                  "twenty-two hundred inches",
        "two 1/2 inches wide",
        "one 3/4 in",
        "three half inch bolts",
        "three quarter inch bolts",
        "No. 3 in oak",
        "5 in Hg", "10 ± 2 thou wide", "1/2 ± 0.1 mm wide"])  # fmt: skip
def test_what_stays_a_fault(line):
    with pytest.raises(InputError):
        Session().answer(line)


def test_part_lines_and_columns_take_them():
    from fractions_shop import Sheet
    from fractions_shop.command.column import Column

    sheet = Sheet('part runner: 24 of brass, 1/16 in. thick by 1/4-in. wide by 11" long; eased\n').run()
    assert [size.inch for size in sheet.parts["runner"].sizes] == [Fraction(1, 16), Fraction(1, 4), 11]
    assert [note.kind for note in sheet.parts["runner"].notes]
    row = list(Column("size").widen(["size\n", '"5/16"" O.D."\n', '"3/8 in full"\n']))
    assert row[1].startswith('"5/16"" O.D.",5/16 in,0.3125,7.9375')
    assert "more than one meaning" in row[2]


# Laws

_SIZES = st.builds(
    lambda whole, top, power: f"{whole or ''} {top * 2 + 1}/{2**power}".strip(),
    st.integers(0, 30), st.integers(0, 0), st.integers(1, 6),
)  # fmt: skip
_WORDS = st.sampled_from(
    [*sorted(ROLES - {"radius", "within", "drill", "rad"}), "brass", "label frame", "O.D.", "about"]
)


@given(_SIZES, st.sampled_from([" in", '"', "-in.", " inch", "-inch", " mm", " ft."]), _WORDS, _WORDS)
def test_a_size_with_words_around_it_is_the_size_alone(number, unit, before, behind):
    alone = written(f"{number}{unit}").one
    around = written(f"{before} {number}{unit} {behind}")
    assert alone is not None
    assert around.one is not None
    assert around.one.value == alone.value
    assert set(re.findall(r"[A-Za-z.]+", f"{before} {behind}")) == {
        word for left in around.left for word in re.findall(r"[A-Za-z.]+", left.text)
    }


@given(
    _SIZES,
    _SIZES,
    st.sampled_from([" x ", " × ", " by ", ", ", " and ", " or ", " to ", " long, ", "; "]),
    st.sampled_from(['"', " in", " mm", " in."]),
)
def test_two_sizes_are_never_one(one, other, joint, unit):
    for line in (f"{one}{unit}{joint}{other}{unit}", f"{one}{joint}{other}{unit}"):
        found = written(line).one
        assert found is None
        with pytest.raises(InputError):
            read(line)


@given(st.text(alphabet="0123456789/.- \"'inchmft()xØ+±½¾", max_size=24))
def test_the_figures_read_are_all_the_figures_typed(text):
    said = written(text)
    held = [False] * len(text)
    for part in (*said.items, *said.unread, *said.left):
        for place in range(part.start, part.end):
            held[place] = True
    figures = {place for place, sign in enumerate(text) if sign.isnumeric()}
    beside = said.one is not None and said.one.beside
    assert beside or {place for place in figures if not held[place]} == set()


PAGE = """The cabinet, its trays and runners.

Fig. 3/4 shows tray 12 as it was in 1898, and fig. 7 the tube rack (see p. 31). Each of the 40 trays is 11 1/4 in.
wide, 7/8 in. deep and three-eighths of an inch thick at the front. The runners, 80 in all, are brass 1/16 in. by
1/4 in., held by No. 4 x 1/2" wood screws; drill 3/32" holes 2 1/4 in. apart. In 1912, when case 9 was re-made,
32 trays had runners of 18 s.w.g. sheet. Put 3 in the lower case and 4 in the upper. A drill of 1/8 in. (3.2 mm)
serves for the "tray 4" pins. Lot 17 cost £3 10s. Screws 1/4-20 and #6-32, M3 later; taper 1/4" per foot; page 10-32.
The glass slides are 3 in. by 1 in., 1.0 to 1.2 mm thick. Chapters 3-8 follow.
"""
WANTED = ["11 1/4 in.", "7/8 in.", "three-eighths of an inch", "1/16 in.", "1/4 in.", "No. 4", '1/2"', '3/32"', "2 1/4 in.",
          "18 s.w.g.", "1/8 in.", "1/4-20", "#6-32", "M3", '1/4" per foot', "3 in.", "1 in.", "1.0 to 1.2 mm"]  # fmt: skip


#: What is taken for a size though it is none. In the papers, a number at the end of what somebody else wrote:
#: its quotation mark is taken for inches, which it may well be.
TAKEN = {"shop_book.txt": [], "shop_papers.txt": ['13/32"']}


@pytest.mark.parametrize("name", TAKEN)
def test_pages_in_the_manner_of_books_and_lists_are_read_without_their_bait(name):
    """The sizes of a page stand between « and »; years, pages, pictures, counts, weights and prices do not.

    Recall is 1 on both pages, precision 1 on the first and 57 of 58 on the second.
    """
    marked = (Path(__file__).parent / "data" / name).read_text("utf-8")
    wanted: list[tuple[int, int]] = []
    text = ""
    for match in re.finditer("«(.*?)»|[^«]+", marked, re.DOTALL):
        if match[1] is not None:
            wanted.append((len(text), len(text) + len(match[1])))
        text += match[0] if match[1] is None else match[1]
    found = find_sizes(text)
    assert len(wanted) > 40
    assert [text[a:b] for a, b in wanted if not any(item.start < b and a < item.end for item in found)] == []
    taken = [item.written for item in found if not any(item.start < b and a < item.end for a, b in wanted)]
    assert taken == TAKEN[name]
    vague = [item.written for item in found if item.doubts and "bare" in item.doubts[0].text]
    assert vague == (["5/32 in."] if name == "shop_book.txt" else [])


def test_limits_in_running_text_are_limits():
    (size,) = find_sizes("the holes 4.1 mm +0.05 -0, in the plate")
    assert isinstance(size.value, Limits)
    assert (size.value.lower.mm, size.value.upper.mm) == (Fraction(41, 10), Fraction(415, 100))
    for text in ("the holes 4.1 mm +0.05 -0 in the plate", "a bar 2 in. ± a little", "a bar 2 in. ± 1"):
        (size,) = find_sizes(text)
        assert "may be its limits" in size.doubts[0].text


@given(st.integers(1, 99), st.sampled_from([2, 4, 8]), st.data())
def test_a_mixed_number_that_has_lost_its_blank_is_never_read_without_a_doubt(whole, bottom, data):
    top = data.draw(st.integers(0, bottom // 2 - 1)) * 2 + 1
    for unit in (" in", '"', " in.", "-in.", " inches", '" dia brass', " mm", " ft"):
        with pytest.raises(InputError, match="more than one meaning") as error:
            read(f"{whole}{top}/{bottom}{unit}")
        assert f"{whole} {top}/{bottom}" in error.value.message
        assert read_plain(f"{whole}{top}/{bottom}{unit}") is None
        assert plain_pair(f"{whole}{top}/{bottom}{unit}") is None
        with pytest.raises(ShopError, match=f"{whole} {top}/{bottom}|not a plain size"):
            snap(f"{whole}{top}/{bottom}{unit}")


@given(st.integers(1, 63), st.sampled_from([16, 32, 64]))
def test_an_improper_fraction_as_a_rule_counts_it_is_read_as_it_stands(more, bottom):
    more %= 3 * bottom  # below 4 in
    assert read(f"{bottom + more}/{bottom} in").inch == 1 + Fraction(more, bottom)


def test_a_doubt_of_a_lost_blank_goes_wherever_the_size_goes():
    from fractions_shop import Sheet
    from fractions_shop.command.column import Column

    sheet = Sheet("wide = 21/2 in\npart slat: 2 of brass, 31/4 in by 1/4 in\ntwice = wide * 2\n").run()
    assert sheet.doubts.doubtful == {1, 2, 3}
    written_down = " ".join(sheet.to_text().split())
    assert "2 1/2 may have lost its blank" in written_down
    assert "3 1/4 may have lost its blank" in written_down
    for unit in (None, "in"):
        for cell in ("21/2 in",) if unit is None else ("21/2", " 21⁄2", "-21/2"):
            rows = list(Column("size", unit=unit).widen(["size\n", f"{cell}\n"]))
            assert "2 1/2 may have lost its blank" in rows[1]
            rows = list(Column("size", unit=unit, doubtful="note").widen(["size\n", f"{cell}\n"]))
            assert "10 1/2 in" in rows[1]
            assert "2 1/2 may have lost its blank" in rows[1]
    (found,) = find_sizes("a slat 21/2 in. wide")
    assert found.doubts


@pytest.mark.parametrize(
    ("line", "low", "high"),
    [
        ('1.000" +.001" -.002"', "0.998", "1.001"), ('1.000" -.002" +.001"', "0.998", "1.001"),
        ("1 1/2 in +1/64 in -1/32 in", "47/32", "97/64"), ('1.000" +1 thou -2 thou', "0.998", "1.001"),
        (".3750/.3745 DIA", "0.3745", "0.375"), ("dia .3750/.3745 in.", "0.3745", "0.375"),
        ('slot 3/8" ± 1/64 wide', "23/64", "25/64"),
    ],
)  # fmt: skip
def test_limits_as_drawings_print_them_are_limits(line, low, high):
    answer = Session().answer(line)
    assert answer is not None
    assert isinstance(answer.value, Limits)
    assert (answer.value.lower.inch, answer.value.upper.inch) == (Fraction(low), Fraction(high))
    assert answer.notes


@pytest.mark.parametrize(
    "line", ["10 mm +0.5 -2.5 thou", "10 mm -2.5 thou +0.5", "4.1 mm +0.05 -0.5 thou", "1 in +.01 -.2 mm"]
)
def test_a_deviation_that_may_be_in_either_unit_is_refused(line):
    """The size's own unit, or that which stands once behind both, as in 1/2 in +1/-2 thou."""
    with pytest.raises(InputError, match="has no unit"):
        Session().answer(line)


def test_a_sum_of_two_small_sizes_is_still_a_sum_when_it_is_written_as_one():
    for line, inches in (("(1 in + 0.001 in) - 0.002 in", "0.999"), ("2 in +1 in -1/2 in", "2.5")):
        assert read(line) == Quantity.inches(Fraction(inches))
    with pytest.raises(InputError, match="added up"):
        read("1 in + 0.001 in - 0.002 in")


def test_limits_printed_behind_the_last_of_several_sizes_are_no_silent_sum():
    for line in ('2 in + 1.000" +.001" -.002"', "M6 + 3 mm -0.1 mm +0.2 mm", '4 in - 1/8" +1/64" -1/64"'):
        answer = Session().answer(line)
        assert answer is not None
        assert any("added up; for limits" in note.text and note.kind == "doubt" for note in answer.notes), (
            line
        )
    for line in (
        "2 in + 1 in + 1/64 in - 1/32 in",
        '(2 in + 1") + (.001" - .002")',
        "2 in + 3 in +2 in -2 in",
    ):
        answer = Session().answer(line)
        assert answer is not None
        assert not any("limits" in note.text for note in answer.notes), line


@pytest.mark.parametrize("line", ["center drill #2", "No 3 centre drill", "drill, centre, No. 2"])
def test_a_centre_drill_is_no_drill_of_that_number(line):
    assert written(line).one is None
    with pytest.raises(InputError):
        read(line)


def test_a_radius_on_a_drawing_is_asked_about():
    for line in ("R 1/8 TYP", "R 1/4", 'R 1/4"'):
        answer = Session().answer(line)
        assert answer is not None
        assert answer.doubts
        with pytest.raises(InputError, match="radius"):
            read(line)


def test_running_text_gives_its_sizes_and_nothing_else():
    found = find_sizes(PAGE)
    assert [item.written.rstrip("\n") for item in found] == WANTED
    lines = PAGE.splitlines()
    assert all(item.written.split()[0] in lines[item.line - 1] for item in found)


def test_threads_to_the_inch_with_a_sign_too_many_are_said_back() -> None:
    answer = Session().answer("26 t.p.i..")
    assert answer is not None
    assert [note.text for note in answer.notes] == ["read as 26 per inch exactly, about 1.023622 per mm"]


@pytest.mark.parametrize("word", sorted(openers_or_names().values()))
def test_the_word_of_a_request_that_is_begun_is_never_left_out(word):
    try:
        answer = Session().answer(f"{word} 2 in")
    except InputError:
        return
    assert answer.data()["kind"] == word
