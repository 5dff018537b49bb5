"""Each doubt goes wherever its size goes: a sheet's lists, its verdict and all its outputs."""

from __future__ import annotations

import csv
import html
import io
import json
from fractions import Fraction
from importlib.util import find_spec
from pathlib import Path

import pytest
from doubtful_forms import TWO_MEANINGS
from jsonschema import Draft202012Validator
from over_all import over
from pypdf import PdfReader
from referencing import Registry, Resource

import fractions_shop
from fractions_shop import Quantity, Session, Sheet
from fractions_shop.prompt.commands import run
from fractions_shop.prompt.model import PromptModel
from fractions_shop.sheet.verdict import Verdict

HOME = Path(fractions_shop.__file__).parent
SCHEMAS = {
    home.stem.partition(".")[0]: json.loads(home.read_text("utf-8")) for home in HOME.rglob("*.schema.json")
}
REGISTRY = Registry().with_resources((s["$id"], Resource.from_contents(s)) for s in SCHEMAS.values())
VALID = Draft202012Validator(SCHEMAS["sheet"], registry=REGISTRY)

#: Forms of one meaning that are said back, and what is said.
ECHOES = {
    '2-1/32"': "read as 2 1/32 in",
    "5'-3 1/2\"": "read as 5 ft 3 1/2 in",
    "M3": "M3 stands for its major diameter",
}
EXITS = ["text", "narrow text", "Markdown", "page", "notebook", "CSV", "JSON"]
if find_spec("fontpkg_fira_sans") is not None:  # of the extra `print`
    EXITS.append("PDF")


def written(job: Sheet, way: str) -> str:
    """What an exit says, as running text: no marking up, no folding."""
    match way:
        case "text":
            said = job.to_text(200)
        case "narrow text":
            said = job.to_text(60)
        case "Markdown":
            said = job.to_markdown().replace("\\", "")
        case "page":
            said = html.unescape(job.to_html())
        case "notebook":
            said = html.unescape(job._repr_html_())
        case "CSV":
            said = "\n".join(" ".join(row) for row in csv.reader(io.StringIO(job.to_csv(), newline="")))
        case "JSON":
            said = json.dumps(job.to_data(), ensure_ascii=False).replace('\\"', '"')
        case _:
            said = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(job.to_pdf())).pages)
    return " ".join(said.split())


def rows(job: Sheet) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(job.to_csv(), newline="")))


def doubt_of(form: str) -> str:
    answer = Session().answer(form)
    assert answer is not None
    return answer.doubts[0].text


def power_of(form: str) -> int:
    answer = Session().answer(form)
    assert answer is not None
    assert isinstance(answer.value, Quantity)
    return answer.value.power


LENGTHS = [form for form in TWO_MEANINGS if power_of(form) == 1]


# A doubtful form


@over([(form, way) for form in TWO_MEANINGS for way in EXITS])
def test_every_exit_tells_the_doubt_about_a_named_size(form: str, way: str) -> None:
    assert doubt_of(form) in written(Sheet.from_text(f"first = {form}"), way)


@over([(form, way) for form in LENGTHS for way in EXITS])
def test_every_exit_tells_the_doubt_about_a_part(form: str, way: str) -> None:
    job = Sheet.from_text(f"part rail: 2 of oak, 1/2 in by {form}; planed")
    said = written(job, way)
    assert doubt_of(form) in said
    assert "planed" in said


@over([(form, way) for form in ECHOES for way in EXITS])
def test_every_exit_says_back_a_form_of_one_meaning(form: str, way: str) -> None:
    for line in (f"first = {form}", f"part rail: 2 of oak, {form} by 1/2 in"):
        job = Sheet.from_text(line)
        said = written(job, way)
        assert ECHOES[form] in said, line
        assert job.doubts.readings == ()
        assert "said doubtful" not in job.to_html()
        assert " *" not in job.to_text(200)
        assert job.verdict.doubtful_sizes == 0


@over(TWO_MEANINGS)
def test_a_doubtful_size_is_marked_in_its_list_and_so_is_what_rests_on_it(form: str) -> None:
    job = Sheet.from_text(f"first = {form}\nsecond = first * 2\nthird = second + second\nsure = 2 in")
    lists = job.to_text(200).partition("Sizes\n")[2] + job.to_text(200).partition("Other figures\n")[2]
    for name in ("first", "second", "third"):
        assert f"  {name} *" in lists
    assert "  sure *" not in lists
    assert [(d.name, d.line) for d in job.doubts.readings] == [("first", 1)]
    assert job.doubts.resting == {2, 3}
    assert job.verdict.doubtful_sizes == 3
    assert "3 sizes rest on doubtful readings" in job.to_text(200)
    remarks = {row["name"]: row["remark"] for row in rows(job)}
    assert doubt_of(form) in remarks["first"]
    assert remarks["second"] == remarks["third"] == "rests on a doubtful reading"
    assert remarks["sure"] == ""
    found = job.to_data()
    assert [d["notes"] for d in found["doubtful"]] == [[doubt_of(form)]]
    assert found["resting"] == [2, 3]
    assert [e.message for e in VALID.iter_errors(json.loads(job.to_json()))] == []


def test_a_doubt_is_told_beneath_the_first_list_that_shows_its_size_and_the_others_lead_there() -> None:
    job = Sheet.from_text(
        "wide = 5' - 3\"\nplay = wide * 0 + 1 in ± 1/64 in\ntimes = wide / 1 in\n"
        "check wide = 57 in\npart rail: 2 of oak, wide"
    )
    text = job.to_text(300)
    for title in ("Parts to make", "Sizes", "Other figures", "Limits", "Checks"):
        listing = text.partition(f"{title}\n-")[2].partition("\n\n")[0]
        assert "*" in listing, title
        first = title == "Parts to make"
        assert ("wide (line 1) may be another size: read as 5 ft less 3 in" in listing) == first, title
        assert ("* as said beneath Parts to make: wide" in listing) != first, title


def test_a_doubt_in_a_check_marks_the_check() -> None:
    job = Sheet.from_text("check 57 in = 5' - 3\"\ncheck 2 in = 2 in")
    checks = job.to_text(200).partition("Checks\n")[2]
    assert "57 in = 5' - 3\" *" in checks
    assert "2 in = 2 in *" not in checks
    assert job.verdict.doubtful_checks == 1
    assert "1 check rests on a doubtful reading" in checks


# In a session and at the prompt


def test_what_rests_on_a_doubtful_size_says_so_in_its_answer() -> None:
    bench = Session()
    bench.answer("wide = 5' - 3\"")
    bench.answer("sure = 2 in")
    said = "rests on wide, which may be another size"
    for statement in ("half = wide / 2", "half + sure", "snap wide to 8ths", "ans"):
        answer = bench.answer(statement)
        assert answer is not None
        assert said in answer.text(200), statement
        assert said in answer.data()["notes"]
    for statement in ("sure + sure", "wide = 57 in", "wide / 2"):
        answer = bench.answer(statement)
        assert answer is not None
        assert "rests on" not in answer.text(200), statement


def test_a_size_that_is_undone_is_doubtful_no_more() -> None:
    model = PromptModel()
    for line in ("wide = 2 in", "wide = 5' - 3\""):
        model.enter(line)
    assert "wide" in model.session.doubtful
    list(run(model, "undo", "", 80))
    assert "wide" not in model.session.doubtful
    answer = model.enter("wide * 2")
    assert answer is not None
    assert answer.notes == ()


@over(TWO_MEANINGS)
def test_the_preview_shows_the_doubt(form: str) -> None:
    answer = Session().answer(form)
    assert answer is not None
    assert doubt_of(form) in answer.gist(6)


def test_names_at_the_prompt_tell_what_is_doubtful_and_what_was_moved() -> None:
    model = PromptModel()
    for line in ("wide = 5' - 3\"", "half = wide / 2", "bay = divide 2 in into 5 up", "sure = 2 in"):
        model.enter(line)
    told = {line.split()[0]: line for line in run(model, "names", "", 300) if not line.startswith(" ")}
    assert told["wide"].endswith("; it may be another size")
    assert told["half"].endswith("; it may be another size")
    assert told["bay"].endswith("; the space of a total 1/32 in (0.79375 mm) longer than 2 in (50.8 mm)")
    assert told["sure"].endswith("exactly")
    model.enter("wide / 3")
    assert list(run(model, "names", "", 300))[-1].endswith("; it may be another size")


# A total that divide moved, and the rule a size was taken on


def test_the_space_of_a_moved_total_is_marked_wherever_it_is_shown() -> None:
    job = Sheet.from_text(
        "bay = divide 2 in into 5 up\ntwice = bay * 2\nas_is = divide 2 1/32 in into 5\n"
        "part rail: 2 of oak, 1/4 in by twice\ncheck bay = 13/32 in"
    )
    said = "the space of a total 1/32 in (0.79375 mm) longer than 2 in (50.8 mm)"
    text = job.to_text(200)
    for title, names in (
        ("Sizes", ("bay", "twice")),
        ("Parts to make", ("rail",)),
        ("Checks", ("bay = 13/32 in",)),
    ):
        listing = text.partition(f"{title}\n-")[2].partition("\n\n")[0]
        assert all(f"{name} *" in listing for name in names), title
        first = title == "Parts to make"
        assert (f"bay (line 1) is {said}" if first else "* as said beneath Parts to make: bay") in listing, (
            title
        )
        assert "as_is *" not in listing
    assert (job.verdict.moved_sizes, job.verdict.doubtful_sizes) == (3, 0)
    assert text.rstrip().endswith("3 sizes rest on a total that was moved")
    remarks = {row["name"]: row["remark"] for row in rows(job) if row["name"]}
    assert remarks == {
        "bay": said, "twice": "rests on a total that was moved", "as_is": "", "rail": "rests on a total that was moved",
    }  # fmt: skip
    found = job.to_data()
    assert [(m["name"], m["line"], m["change"]["inch"]) for m in found["moved"]] == [("bay", 1, "1/32")]
    assert found["resting_on_moved"] == [2, 4, 5]
    assert [e.message for e in VALID.iter_errors(json.loads(job.to_json()))] == []
    for way in EXITS:
        assert said in written(job, way) or way == "JSON"


def test_an_answer_that_rests_on_a_moved_total_says_so() -> None:
    bench, told = Session(), "note: rests on bay, a space of a total that was moved"
    bench.answer("bay = divide 2 in into 5 up")
    for line in (
        "bay",
        "twice = bay * 2",
        "twice + 1 in",
        "ans / 2",
        "check twice = 13/16 in",
        "snap bay to 8ths",
    ):
        answer = bench.answer(line)
        assert answer is not None
        assert told in answer.text(200), line
        assert told.removeprefix("note: ") in answer.data()["notes"]
    bench.answer("bay = divide 2 1/32 in into 5")
    answer = bench.answer("bay")
    assert answer is not None
    assert answer.notes == ()
    bench.answer("divide 2 in into 5 up")
    unnamed = bench.answer("ans * 5")
    assert unnamed is not None
    assert [str(note) for note in unnamed.notes] == [
        "rests on the last size, a space of a total that was moved"
    ]


def test_a_line_of_a_sheet_that_rests_on_a_moved_total_says_so() -> None:
    job = Sheet.from_text(
        "twice = bay * 2\nbay = divide 2 in into 5 up\nsure = 2 in\npart rail: 2 of oak, twice"
    )
    assert job.to_text(200).count("note: rests on bay, a space of a total that was moved") == 2
    assert [str(note) for note in job.worked[0].notes] == ["rests on bay, a space of a total that was moved"]
    assert job.worked[2].notes == ()


def test_the_prompt_tells_of_names_that_rest_on_a_moved_total_while_they_do() -> None:
    model = PromptModel()
    for line in ("bay = divide 2 in into 5 up", "twice = bay * 2", "bay ＝ 3 in", "sure = bay"):
        model.enter(line)
    told = {line.split()[0]: line for line in run(model, "names", "", 300) if not line.startswith(" ")}
    assert told["twice"] == "twice = 6 in = 152.4 mm exactly"
    assert told["sure"].endswith("exactly")
    assert model.session.moved == {}
    list(run(model, "undo", "", 80))
    told = {line.partition(" =")[0]: line for line in run(model, "undo", "", 80)}
    assert "bay: 3 in to 13/32 in" in told
    told = {line.split()[0]: line for line in run(model, "names", "", 300) if not line.startswith(" ")}
    assert told["twice"].endswith("; rests on a total that was moved")
    assert told["ans"].endswith("; rests on a total that was moved")


def test_a_part_that_is_doubtful_and_rests_on_a_doubtful_name_tells_both_in_the_table_of_figures() -> None:
    job = Sheet.from_text("a = 5' - 3\"\npart rail: 2 of oak, a by R1/4")
    told = [row["remark"] for row in rows(job) if row["name"] == "rail"]
    assert len(told) == 2
    for remark in told:
        assert "R 1/4 stands for its major diameter" in remark
        assert remark.endswith("; rests on a doubtful reading")


def test_the_verdict_counts_the_checks_on_limits_that_may_be_wide() -> None:
    job = Sheet.from_text(
        "x = 2 in ± 1/64 in\ny = 2 in ± 1/64 in\nz = abs(x*x - y*y)/x\n"
        "check z = 0 in within 1/8 in\ncheck x = 2 in within 1/8 in"
    )
    assert job.worked[2].value.wide  # type: ignore[union-attr]
    assert job.verdict.wide_checks == 1
    assert job.to_text(200).rstrip().endswith("2 checks, all hold; 1 check rests on limits that may be wide")
    assert job.to_data()["counts"]["wide_checks"] == 1
    assert [e.message for e in VALID.iter_errors(json.loads(job.to_json()))] == []


def test_a_size_taken_on_a_rule_of_its_own_keeps_that_rule_in_the_lists() -> None:
    job = Sheet.from_text(
        "a = snap 10.3 mm to 32nds\nb = divide 2 in into 5 up on 50ths\nc = 1 in\nd = 2 in\ne = 3 in"
    )
    sizes = job.to_text(200).partition("Sizes\n")[2]
    assert "on 64ths" in sizes
    assert "13/32 in on 32nds" in sizes
    assert "on 50ths" in sizes
    assert "1 in on" not in sizes
    assert {row["name"]: row["rule"] for row in rows(job)} == {
        "a": "32nds", "b": "50ths", "c": "64ths", "d": "64ths", "e": "64ths",
    }  # fmt: skip
    (divided,) = (row for row in rows(job) if row["name"] == "b")
    # Exact on its own rule: 2 in is 5 spaces of 20/50 in, and on 64ths it would be 26/64.
    assert (Fraction(divided["exact"]), divided["off in"]) == (Fraction(2, 5), "0")


# The verdict


def test_the_verdict_counts_what_was_refused_and_what_is_doubtful() -> None:
    job = Sheet.from_text(
        "a = 5' - 3\"\nb = a / 2\ncheck a = 57 in\ncheck 2 in = 2 in\ncheck 2 in = 3 in\n"
        "check nothing = 2 in\ncheck 2 in\npart rail: 2 of oak, a\npart bad: 2 of oak, nothing\nc = nothing\nd = c"
    )
    assert job.verdict == Verdict(
        holds=2, fails=1, unchecked=2, unmade=1, faults=4, waits=1, answered=3,
        doubtful_sizes=3, doubtful_checks=1, moved_sizes=0, wide_checks=0, memory_sizes=0, one_source_sizes=0,
        believed_sizes=0, off_checks=0,
    )  # fmt: skip
    said = (
        "5 checks: 2 hold, 1 fails, 2 not worked out; 1 part not worked out; 4 faults; 1 line waits for another; "
        "3 sizes and 1 check rest on doubtful readings"
    )
    for way in EXITS:
        assert said in written(job, way) or way == "CSV"
    found = job.to_data()
    assert found["counts"]["unchecked"] == 2
    assert not found["ok"]
    assert not job.ok
    assert [e.message for e in VALID.iter_errors(json.loads(job.to_json()))] == []


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("a = 2 in", "1 line answered, nothing checked"),
        ("check 2 in = 2 in", "1 check, which holds"),
        ("check 2 in = 3 in", "1 check, which fails"),
        ("check 2 in", "1 check, which is not worked out; 1 fault"),
        ("check 2 in = 2 in\ncheck 1 in = 1 in", "2 checks, all hold"),
        ("check 2 in = 2 in\ncheck 1 in = 2 in", "2 checks: 1 holds, 1 fails"),
        ("check 2 in = 2 in\ncheck 1 in", "2 checks: 1 holds, 1 not worked out; 1 fault"),
        ("check 2 in = 2.001 in within 2 thou", "1 check, which holds, nominally off"),
        ("check 2 in +- 1/32 in = 2 1/64 in", "1 check, which holds, nominally off"),
        ("check 2 in +- 1/32 in = 2 in", "1 check, which holds"),
        ("check sqrt(2 in * 2 in) = sqrt(3 in * 3 in) - 1 in", "1 check, which holds"),
        ("check 2 in is at most 3 in", "1 check, which holds"),
        (
            "check 2 in = 2.001 in within 2 thou\ncheck 1 in = 1 in",
            "2 checks, all hold, 1 of them nominally off",
        ),
        (
            "check 2 in = 2.001 in within 2 thou\ncheck 1 in = 2 in",
            "2 checks: 1 holds (1 of them nominally off), 1 fails",
        ),
        ("a = 5' - 3\"", "1 line answered, nothing checked; 1 size rests on a doubtful reading"),
        ("rule 32nds", "0 lines answered, nothing checked"),
    ],
)
def test_the_verdict_in_words(lines: str, said: str) -> None:
    assert Sheet.from_text(lines).to_data()["verdict"] == said


def test_a_part_at_fault_stands_in_the_list_as_not_worked_out() -> None:
    job = Sheet.from_text(
        "part rail: 2 of oak, nothing by 2 in; planed\npart peg 3\npart sound: 1 of oak, 1 in\n"
        "a = nothing\npart late: 3 of elm, a"
    )
    for width in (200, 80):
        listing = " ".join(job.to_text(width).partition("Parts to make\n")[2].partition("\n\n")[0].split())
        for part in ("rail", "peg 3", "late"):
            assert f" {part} " in listing
        assert listing.count("not worked out: ") == 3
    assert "waits for a (line 4)" in listing
    parts = job.to_data()["parts"]
    assert [(p["part"], p["how_many"], p["material"]) for p in parts] == [
        ("rail", None, "oak"), ("peg 3", None, None), ("sound", 1, "oak"), ("late", None, "elm"),
    ]  # fmt: skip
    assert [bool(p.get("fault")) for p in parts] == [True, True, False, True]
    assert [e.message for e in VALID.iter_errors(json.loads(job.to_json()))] == []
    told = {row["name"]: (row["remark"][:15], row["exact"]) for row in rows(job) if row["kind"] == "part"}
    assert told == {
        "rail": ("not worked out:", ""), "peg 3": ("not worked out:", ""), "sound": ("", "1"),
        "late": ("not worked out:", ""),
    }  # fmt: skip


def test_each_size_of_a_part_has_a_row_of_its_own_in_csv() -> None:
    job = Sheet.from_text(
        "part rail: 24 of oak, 1/4 in by 10 mm by 1/2 in ± 1/64 in; planed\npart screw: 8 of brass; 4 BA"
    )
    assert [(r["name"], r["which"], r["how many"], r["material"], r["exact"], r["lower in"]) for r in rows(job)] == [
        ("rail", "1 of 3", "24", "oak", "1/4", ""),
        ("rail", "2 of 3", "24", "oak", "50/127", ""),
        ("rail", "3 of 3", "24", "oak", "1/2", "0.484375"),
        ("screw", "", "8", "brass", "", ""),
    ]  # fmt: skip


def test_a_long_row_of_doubtful_sizes_says_that_there_are_others() -> None:
    lines = [f"a{n} = 5' - 3\"" for n in range(40)]
    lines += ["s = " + " + ".join(f"a{n}" for n in range(40))]
    job = Sheet.from_text("\n".join(lines))
    text = " ".join(job.to_text(200).split())
    assert "rests on a0, a1, a2, a3 and others, which may be another size" in text
    assert "and so are 28 more" in text
    assert job.verdict.doubtful_sizes == 41


def test_which_lines_are_doubtful_is_worked_out_once() -> None:
    """Or each line of a list would go through all of them: a long sheet would take its square in time."""
    found = Sheet.from_text("a = 5' - 3\"\nb = a\nc = divide 2 in into 5 up\nd = c").doubts
    assert found.doubtful == {1, 2}
    assert found.of_moved == {3, 4}
    for name in ("lines", "doubtful", "of_moved"):
        assert getattr(found, name) is getattr(found, name)
