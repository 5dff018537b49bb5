"""A sheet as text, Markdown, CSV and JSON: all of them say the same."""

from __future__ import annotations

import csv
import io
import json
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

import fractions_shop
from fractions_shop import Limits, Quantity
from fractions_shop.show.columns import HEADER
from fractions_shop.show.markdown import code, paragraph, plain
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.size_table import inward

HOME = Path(fractions_shop.__file__).parent
SCHEMAS = {
    home.stem.partition(".")[0]: json.loads(home.read_text("utf-8")) for home in HOME.rglob("*.schema.json")
}
REGISTRY = Registry().with_resources((s["$id"], Resource.from_contents(s)) for s in SCHEMAS.values())
VALID = Draft202012Validator(SCHEMAS["sheet"], registry=REGISTRY)

JOB = """\
## A rack
# Kept dry.

## Sizes
wide = 2 1/32 in        # over all
bay = wide / 5
odd = wide / 7
gap = 1/2 in +1/-2 thou
n = 4
turn = 12.5 deg
face = wide * bay
root = sqrt(face)
rule mm
metric = 10.3 mm
mark wide into 5
check bay * 5 = 2 in within 1/64 in
check wide = bay * 5
part peg: n of beech, 1/4 in by gap; turned
bad = 51,5 mm
worse = bad * 2
"""


@pytest.fixture(scope="module")
def job() -> Sheet:
    return Sheet.from_text(JOB).run()


# Text


def test_text_has_every_line_with_its_number_and_its_answer(job):
    said = job.to_text(100)
    for item in job.worked:
        if item.line.works:
            assert f"{item.line.number:>4} {item.line.statement}" in said
    assert said.startswith("A rack\n======\n\nKept dry.\n\nSizes\n-----\n")
    assert said.endswith("2 checks: 1 holds, 1 fails; 1 fault; 1 line waits for another\n")


def test_text_puts_a_caret_under_a_fault(job):
    lines = job.to_text().splitlines()
    at = next(n for n, line in enumerate(lines) if line.endswith(" bad = 51,5 mm"))
    assert lines[at + 1].index("^^^^") == lines[at].index("51,5")


@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_text_keeps_to_its_width_where_words_allow(job, width):
    statements = {w.line.statement for w in job.worked}
    for line in job.to_text(width).splitlines():
        assert len(line) <= width or any(line[5:].startswith(s) for s in statements if s), line


def test_a_failed_check_says_by_how_much_and_what_feeds_it(job):
    said = " ".join(job.to_text(200).split())
    assert "FAILS: the first is 0.03125 in (0.79375 mm) over" in said
    assert (
        "wide (line 5) alone, at least 1/64 in (0.396875 mm) shorter, would make it hold; 1/32 in (0.79375 mm) shorter, the two are the same"
        in said
    )
    assert "what feeds it moved by moves the first by" in said
    assert "wide, line 5 ~0.0394 in (1 mm) ~0.0394 in more (1 mm)" in said


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["n = 3", "check n * 1 in = 5 in"], "n (line 1) alone, 2 more, would make it hold"),
        (["n = 5", "check n * 1 in = 3 in"], "n (line 1) alone, 2 less, would make it hold"),
        (["a = 1 in", "check a = 2 in"], "a (line 1) alone, 1 in (25.4 mm) longer, would make it hold"),
        (["a = 1 in", "check 2 in = 3 in"], "no named size feeds this check"),
    ],
)
def test_what_would_make_a_check_hold_is_a_sentence(lines, said):
    assert said in " ".join(Sheet.from_text("\n".join(lines)).to_text(200).split())


# Doubtful sizes

DOUBTFUL = """\
frame = recover 12.9 mm
recover 33.8 mm
twice = ans * 2
inside = frame - 1/8 in
deep = inside / 2
sure = recover 10.3 mm
n = 3
part knob: n of brass, 1/2 in by deep
part peg: 2 of brass, sure
"""


def test_a_doubtful_reading_is_marked_and_so_is_what_rests_on_it():
    job = Sheet.from_text(DOUBTFUL)
    # The odds are those that the line itself tells.
    assert "12.9 mm read within 0.05 mm: 0.51 in, 1.75 to 1 against" in " ".join(job.to_text(200).split())
    assert [(d.name, d.line) for d in job.doubts.readings] == [("frame", 1), ("the size", 2)]
    assert job.doubts.resting == {3, 4, 5, 8}
    tables = job.to_text(100).partition("Parts to make")[2]
    starred = {line.split()[0] for line in tables.splitlines() if line.split()[1:2] == ["*"]}
    assert starred == {"knob", "frame", "twice", "inside", "deep"}
    remark = (
        "* frame (line 1) is taken from a reading, 1.75 to 1 against: check; the size (line 2) is taken "
        "from a reading, 1.32 to 1 against: check; what rests on one of them is marked too"
    )
    # All is said once, beneath the first list; beneath the next, whose it is and where to look.
    elsewhere = "* as said beneath Parts to make: frame, the size; what rests on one of them is marked too"
    for form in (job.to_text(200), job.to_html(), job._repr_html_(), job.to_markdown().replace("\\", "")):
        assert form.count(remark) == 1, form[:80]
        assert form.count(elsewhere) == 1, form[:80]


def test_doubts_reach_csv_and_json():
    job = Sheet.from_text(DOUBTFUL)
    assert {name: row["remark"] for name, row in rows(job).items()} == {
        "frame": "taken from a reading, 1.75 to 1 against: check",
        "twice": "rests on a doubtful reading", "inside": "rests on a doubtful reading",
        "deep": "rests on a doubtful reading", "sure": "", "n": "",
        "knob": "rests on a doubtful reading", "peg": "",
    }  # fmt: skip
    found = job.to_data()
    assert [d["line"] for d in found["doubtful"]] == [1, 2]
    assert found["resting"] == [3, 4, 5, 8]
    assert [e.message for e in VALID.iter_errors(found)] == []


def test_a_likely_reading_is_not_marked():
    job = Sheet.from_text("sure = recover 10.3 mm\nrecover 33.8 mm\npart peg: 2, sure")
    assert "9.3 to 1 on" in job.to_text(200)
    # The reading on line 2 has no name, and nothing draws on it.
    assert job.doubts.readings == ()
    assert "*" not in job.to_text(100)


def test_limits_of_a_part_are_fractions_where_both_are_on_a_rule():
    text = Sheet.from_text("part a: 1, 6 9/16 in ± 1/32 in by 1/16 in ± 1 thou by 1/2 in").to_text(300)
    assert (
        "6 9/16 in, within 6 17/32 to 6 19/32 in (about 166.688 mm, within 165.9 to 167.48 mm) x 1/16 in, "
        "within 0.0615 to 0.0635 in (about 1.588 mm, within 1.563 to 1.612 mm) "
        "x 1/2 in (12.7 mm)"
    ) in text


def test_a_narrow_text_keeps_checks_and_parts_in_columns():
    job = Sheet.from_text(
        "wide = 2 in\ncheck wide * 3 + wide * 2 - wide = 8 in within 1/64 in\n"
        "part tray front and back: 24 of beech, 1/4 in by 3/4 in by wide * 7; front faced with old veneer"
    )
    said = job.to_text(80)
    assert "  holds   2     wide * 3 + wide * 2 - wide = 8 in within 1/64 in: the two are\n" in said
    assert "  tray front and back  24        beech     1/4 in x 3/4 in x 14 in (6.35 x 19.05\n" in said


# CSV


def rows(job: Sheet) -> dict[str, dict[str, str]]:
    return {row["name"]: row for row in csv.DictReader(io.StringIO(job.to_csv(), newline=""))}


def test_csv_has_one_row_a_named_size_and_then_the_parts(job):
    found = rows(job)
    # The rows of checks have no name.
    assert list(found) == [*job.sizes, "bad", "worse", "peg", ""]
    assert [name for name, row in found.items() if row["exact"] and name] == [*job.sizes, "peg"]
    assert found["worse"]["remark"] == "not worked out: waits for bad (line 19)"
    assert job.to_csv().splitlines()[0] == ",".join(HEADER)


def test_csv_figures(job):
    found = rows(job)
    assert found["bay"] | {"statement": "", "comment": ""} == {
        "name": "bay", "fraction": "13/32 in", "rule": "64ths", "off in": "0", "inch": "0.40625", "mm": "10.31875",
        "figure": "", "exact": "13/32", "unit": "in", "rounded": "no", "approximate": "no", "standing": "",
        "lower in": "", "upper in": "", "lower mm": "", "upper mm": "", "line": "6", "statement": "", "comment": "",
        "remark": "", "kind": "size", "which": "", "how many": "", "material": "",
    }  # fmt: skip
    assert (found["odd"]["exact"], found["odd"]["rounded"]) == ("65/224", "yes")
    assert (found["metric"]["fraction"], found["metric"]["rule"]) == ("10 mm", "mm")
    assert (found["gap"]["lower in"], found["gap"]["upper mm"]) == ("0.498", "12.7254")
    assert [(found[name]["figure"], found[name]["unit"]) for name in ("n", "turn", "face")] == [
        ("4", ""), ("12.5", "deg"), ("0.825195312", "in^2"),
    ]  # fmt: skip
    assert (found["face"]["exact"], found["face"]["rounded"]) == ("845/1024", "yes")
    assert found["root"]["approximate"] == "yes"
    assert (found["wide"]["comment"], found["wide"]["statement"]) == ("over all", "wide = 2 1/32 in")


def test_csv_exact_figures_read_back(job):
    for name, value in job.sizes.items():
        row = rows(job)[name]
        nominal = value.nominal if isinstance(value, Limits) else value
        if isinstance(nominal, Quantity):
            assert Fraction(row["exact"]) == nominal.in_unit("in")


def test_csv_gives_a_spreadsheet_nothing_to_work_out():
    made = Sheet.from_text("x = 1 in # =1+1\ny = -2 in # @cmd\n")
    for row in csv.reader(io.StringIO(made.to_csv(), newline="")):
        for cell in row:
            assert cell[:1] not in ("=", "+", "@")
            assert not cell.startswith("-") or Fraction(cell.removesuffix(" in")) < 0


@given(st.fractions(-10, 10), st.fractions(0, 1), st.integers(1, 8))
def test_rounded_limits_never_leave_the_limits_meant(lower, spread, places):
    low, high = inward(lower, lower + spread, places)
    assert lower <= low <= high <= lower + spread


# JSON


def test_json_keeps_the_schema(job):
    found = json.loads(job.to_json())
    assert [f"{list(e.path)}: {e.message[:200]}" for e in VALID.iter_errors(found)] == []
    assert not found["ok"]


def test_json_sizes_are_exact(job):
    found = json.loads(job.to_json())["sizes"]
    assert list(found) == list(job.sizes)
    assert found["odd"] == {"inch": "65/224", "mm": "1651/224", "approximate": False}


def test_json_has_every_line_that_is_not_blank(job):
    found = json.loads(job.to_json())["lines"]
    assert [line["line"] for line in found] == [w.line.number for w in job.worked if w.line.kind != "blank"]
    by_number = {line["line"]: line for line in found}
    assert by_number[19]["fault"]["column"] == 7
    assert by_number[20]["waits"] == [{"name": "bad", "line": 19}]
    assert by_number[18]["part"]["how_many"] == 4
    assert [feed["name"] for feed in by_number[16]["feeds"]] == ["wide"]
    assert by_number[15]["working_rule"] == "mm"


def test_json_schema_finds_what_is_wrong(job):
    found = json.loads(job.to_json())
    found["lines"][3]["state"] = "perhaps"
    assert not VALID.is_valid(found)


# Markdown


def test_markdown_tables_have_as_many_cells_in_each_row(job):
    blocks = job.to_markdown().split("\n\n")
    tables = [b.splitlines() for b in blocks if b.startswith("|")]
    assert len(tables) > 5
    for lines in tables:
        assert len({line.replace("\\|", "").count("|") for line in lines}) == 1


@pytest.mark.parametrize(
    ("words", "written"),
    [
        pytest.param("a | b * c_d", r"a \| b \* c\_d", id="signs"),
        pytest.param("<b>&amp;", r"\<b\>\&amp;", id="html"),
        pytest.param("1. first", r"1\. first", id="list"),
        pytest.param("- item", r"\- item", id="dash"),
        pytest.param("# head", r"\# head", id="head"),
    ],
)
def test_nothing_in_a_note_is_taken_for_marking_up(words, written):
    assert paragraph(words) == written


def test_code_holds_back_quotes():
    assert code("a = 5`3``") == "``` a = 5`3`` ```"
    assert plain("a\nb") == "a b"


def test_markdown_tells_pictures_in_words(job):
    assert "Picture: A strip to print true to size: 6 marks" in job.to_markdown()


# A notebook


def test_a_notebook_shows_a_sheet_as_its_tables(job):
    shown = job._repr_html_()
    assert "<h3>A rack</h3>" in shown
    assert "<svg" not in shown
    assert "on 64ths</th>" in shown
    assert "10 mm on mm</td>" in shown
