"""Revision lines: read, ordered, told by every form, and replaced at the prompt."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import InputError, Session
from fractions_shop.sheet.living import LivingSheet
from fractions_shop.sheet.revisions import begins_a_revision, in_order, read_revision, with_revision
from fractions_shop.show.sheet import Sheet

FRAME = """\
## Label frame
# Brass.
rev B, 3 May 2026: lip raised 1/32 in   # agreed by hand
rev A: first issue

## Frame
frame = 2 1/32 in
rack = mark frame into 5
part label: 12 of brass, frame by 1/2 in
"""


@pytest.mark.parametrize(
    ("line", "label", "date", "words"),
    [
        ("rev B: lip raised 1/32 in", "B", "", "lip raised 1/32 in"),
        ("Rev. 2:bay narrowed", "2", "", "bay narrowed"),
        ("revision P-1.2 , 2026-05-03 : first  issue", "P-1.2", "2026-05-03", "first issue"),
        ("rev C:", "C", "", ""),
    ],
)
def test_a_revision_line_has_a_label_a_date_and_what_changed(
    line: str, label: str, date: str, words: str
) -> None:
    assert begins_a_revision(line)
    told = read_revision(line, 7)
    assert (told.label, told.date, told.words, told.line) == (label, date, words, 7)


@pytest.mark.parametrize(
    "line",
    [
        "rev = 2 in",
        "rev / 2",
        "rev reads 2 in scale 1:4",
        "rev as 64ths",
        "rev",
        "rev, x = recover 2 in, 3 in",
    ],
)
def test_a_name_that_is_called_rev_is_a_name(line: str) -> None:
    assert not begins_a_revision(line)


@pytest.mark.parametrize(
    ("line", "column", "message"),
    [
        ("rev: lip", 4, "a revision has a letter or a number, before its colon"),
        ("rev B lip raised 1/32 in", 25, "a revision line needs a colon behind its letter or number"),
        ("rev 2", 6, "a revision line needs a colon behind its letter or number"),
        ("rev ABCDEFGHIJKLM: lip", 5, "the revision's letter or number is too long"),
    ],
)
def test_a_revision_line_that_is_not_whole_is_at_fault_and_no_size(
    line: str, column: int, message: str
) -> None:
    sheet = Sheet.from_text(f"a = 2 in\n{line}\nb = ans / 2")
    (fault,) = sheet.faults
    assert (fault.line, fault.column, fault.message) == (2, column, message)
    own = line.startswith("rev B")  # whose words only lack the colon
    assert fault.advice == f"write {'' if own else 'it like this: '}rev B: lip raised 1/32 in"
    assert sheet.sizes["b"] == Session().size("1 in"), "ans passes over it"
    read_revision("rev B: lip raised 1/32 in")  # what is offered is taken


def test_a_revision_told_twice_is_at_fault_at_the_second() -> None:
    (fault,) = Sheet.from_text("rev B: lip\nrev b: lip again").faults
    assert fault.sentence == "revision b is already on line 1; each revision has its own letter or number"
    for label in ("v", "s", "E1"):  # letters of the word revision, too
        text = f"revision {label}, 3 May: lip again"
        (fault,) = Sheet.from_text(f"rev {label}: lip\n{text}").faults
        assert (fault.start, fault.end) == (9, 9 + len(label))


@given(st.permutations(["A", "B", "Y", "Z", "AA", "AB"]))
def test_letters_go_on_behind_z_whichever_way_they_are_listed(labels: list[str]) -> None:
    told = [read_revision(f"rev {label}: x", n) for n, label in enumerate(labels)]
    assert [revision.label for revision in in_order(told)] == ["A", "B", "Y", "Z", "AA", "AB"]


@given(st.lists(st.integers(0, 200), unique=True, min_size=1))
def test_numbers_are_ordered_as_numbers(labels: list[int]) -> None:
    told = [read_revision(f"rev {label}: x") for label in labels]
    assert [int(revision.label) for revision in in_order(told)] == sorted(labels)


def test_letters_among_numbers_stand_as_the_sheet_has_them() -> None:
    told = [read_revision(f"rev {label}: x") for label in ("B", "1", "2")]
    assert [revision.label for revision in in_order(told)] == ["B", "1", "2"]


def test_every_form_has_the_revision_in_its_title_and_tells_of_all() -> None:
    sheet = Sheet.from_text(FRAME)
    assert sheet.ok
    assert sheet.revision is not None
    assert sheet.revision.label == "B"
    assert (sheet.title, sheet.heading) == ("Label frame", "Label frame, rev B")
    assert sheet.front.notes == ("Brass.",)
    text = sheet.to_text()
    assert text.startswith("Label frame, rev B\n==================\n")
    assert "rev A     first issue\n  rev B     lip raised 1/32 in  3 May 2026\n" in text
    markdown = sheet.to_markdown()
    assert markdown.startswith("# Label frame, rev B\n")
    assert "| rev B | lip raised 1/32 in | 3 May 2026 |" in markdown
    html = sheet.to_html()
    assert "<title>Label frame, rev B</title>" in html
    assert "<h1>Label frame, rev B</h1>" in html
    assert "lip raised 1/32 in" in html
    assert "rack, rev B" in sheet.to_svg(), "a strip may be cut out and used alone"
    data = sheet.to_data()
    assert (data["title"], data["revision"]) == ("Label frame", "B")
    assert data["revisions"][-1] == {
        "revision": "B", "what": "lip raised 1/32 in", "date": "3 May 2026", "line": 3,
    }  # fmt: skip
    assert data["lines"][2]["comment"] == "agreed by hand"
    rows = [row for row in csv.DictReader(io.StringIO(sheet.to_csv())) if row["kind"] == "revision"]
    assert [(row["name"], row["which"]) for row in rows] == [("B", "2 of 2"), ("A", "1 of 2")]
    assert sheet.to_csv("revisions").count("\r\n") == 3


def test_a_sheet_without_revisions_says_nothing_of_them() -> None:
    sheet = Sheet.from_text("## Frame\na = 2 in")
    assert (sheet.heading, sheet.revision) == ("Frame", None)
    assert "rev" not in sheet.to_text().replace("revised", "")
    assert sheet.to_data()["revision"] is None


def test_the_title_gives_way_to_the_revision_where_room_is_short() -> None:
    assert with_revision("Label frame " * 20, "B", 100).endswith("…, rev B")
    assert len(with_revision("Label frame " * 20, "B", 100)) <= 100
    for most in range(8, 40):
        assert len(with_revision("Label frame", "B", most)) <= most
    assert with_revision("Label frame", "B", 8) == "…, rev B", "all of the title, and nothing of the revision"


def test_at_the_prompt_a_revision_told_again_takes_its_old_place() -> None:
    living = LivingSheet(Sheet.from_text(""))
    for line in ("rev A: first issue", "a = 2 in", "rev A: first issue, corrected", "rev B: lip raised"):
        living.enter(line)
    assert [line.text for line in living.state.lines] == [
        "rev A: first issue, corrected", "a = 2 in", "rev B: lip raised",
    ]  # fmt: skip
    with pytest.raises(InputError, match="needs a colon"):
        living.enter("rev C lip")
    living.enter("rev C: lip lowered   # agreed by hand")
    living.enter("rev C: lip lowered 1/32 in")
    assert living.state.lines[-1].text == "rev C: lip lowered 1/32 in   # agreed by hand"
