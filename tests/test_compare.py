"""Sheets compared: two in everything that can be cut, several side by side, as text, page and object."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from fractions_shop.command.cli import main
from fractions_shop.show.sheet import Sheet

LEFT = """\
a = 2 in
b = 3 in ± 1/64 in
hinge = places 1 in, 2 in along 3 in
part plate: 2 of brass, 2 in by 3 in by 1/8 in
hole in plate: 1/4 in at 1/2 in by 1 in
"""
RIGHT = (
    LEFT.replace("a = 2 in", "a = 2 1/32 in")
    .replace("1/64", "1/32")
    .replace("at 1/2 in by 1 in", "at 1/2 in by 1 1/4 in")
    .replace("hinge = places 1 in, 2 in along 3 in\n", "")
)


@pytest.fixture
def files(tmp_path: Path) -> Path:
    """Three sheets of one plate."""
    for name, text in (("a", LEFT), ("b", RIGHT), ("c", f"{LEFT}c = 1\n")):
        (tmp_path / f"{name}.shop").write_text(text, encoding="utf-8")
    return tmp_path


def _compared(files: Path, *arguments: str) -> int:
    return main(
        [
            "compare",
            *(
                str(files / word) if word.endswith((".shop", "x.html", "x.json")) else word
                for word in arguments
            ),
        ]
    )


def test_of_two_every_hole_and_every_name_of_places_is_compared(
    files: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _compared(files, "a.shop", "b.shop", "--json") == 1
    told = json.loads(capsys.readouterr().out)
    assert [change["name"] for change in told["sizes"]] == ["a", "b"]
    (cut,) = told["cuts"]
    assert (cut["part"], cut["old"] == cut["new"]) == ("plate", False)
    (gone,) = told["answers"]
    assert (gone["kind"], gone["new"]) == ("places", None)
    assert _compared(files, "a.shop", "b.shop") == 1
    text = " ".join(capsys.readouterr().out.split())
    assert "1 cut in parts changed" in text
    assert "through, at 1/2 in, 1 in" in text
    assert "through, at 1/2 in, 1 1/4 in" in text
    assert "hinge = places" in text


def test_the_same_sheet_is_0_and_a_changed_one_too_when_asked_so(files: Path) -> None:
    assert _compared(files, "a.shop", "a.shop") == 0
    assert _compared(files, "a.shop", "b.shop", "--always-done") == 0
    (files / "bad.shop").write_text("a = 2 in /", encoding="utf-8")
    assert _compared(files, "a.shop", "bad.shop", "--always-done") == 1, (
        "what is not answered is not compared"
    )


def test_several_stand_side_by_side_with_how_far_they_are_apart(
    files: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _compared(files, "a.shop", "b.shop", "c.shop", "--json") == 1
    told = json.loads(capsys.readouterr().out)
    assert told["sheets"] == ["a.shop", "b.shop", "c.shop"]
    rows = {row["name"]: row for row in told["sizes"]}
    assert [value["inch"] for value in rows["a"]["values"]] == ["2", "65/32", "2"]
    assert rows["a"]["apart"]["inch"] == "1/32"
    assert (rows["b"]["apart"]["inch"], rows["b"]["same"]) == ("0", False), "their limits differ"
    assert rows["c"]["values"][:2] == [None, None]
    assert _compared(files, "a.shop", "b.shop", "c.shop") == 1
    out = capsys.readouterr().out
    assert out.startswith("3 sheets with 3 named sizes: 3 of them differ")
    assert "the limits alone" in out
    assert _compared(files, "a.shop", "a.shop", "a.shop") == 0
    assert "all alike" in capsys.readouterr().out


@pytest.mark.parametrize("sheets", [("a.shop", "b.shop"), ("a.shop", "b.shop", "c.shop")])
def test_a_page_and_an_object_are_written_over_again(files: Path, sheets: tuple[str, ...]) -> None:
    for out in ("x.html", "x.json"):
        for _ in range(2):
            assert _compared(files, *sheets, "--out", out) == 1
    page = (files / "x.html").read_text(encoding="utf-8")
    assert "<title>a.shop" in page
    assert "1/32 in" in page
    json.loads((files / "x.json").read_text(encoding="utf-8"))


def test_an_ending_that_says_nothing_is_wrong_use(files: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", str(files / "a.shop"), str(files / "b.shop"), "--out", str(files / "x.odd")]) == 2
    assert "add --to text, html or json" in capsys.readouterr().err


# Stock, parts, cuts and places

CUT = """\
bay = 2 in
hinge = places 1 in, 2 in along 3 in
part rail: 4 of brass, 1/16 in by 1/4 in by bay
hole in rail: 1/64 in at 1/32 in by 1/8 in
stock brass: 1/16 in by 1/4 in, 36 in long, saw 1/32 in
"""


def test_stock_with_another_saw_is_a_change(files: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (files / "cut.shop").write_text(CUT, encoding="utf-8")
    (files / "wide.shop").write_text(CUT.replace("saw 1/32", "saw 1/16"), encoding="utf-8")
    assert _compared(files, "cut.shop", "wide.shop", "--json") == 1
    told = json.loads(capsys.readouterr().out)
    (stock,) = told["stock"]
    assert [told[kind] for kind in ("sizes", "parts", "cuts", "answers")] == [[], [], [], []]
    assert (stock["old"]["saw"]["inch"], stock["new"]["saw"]["inch"]) == ("1/32", "1/16")
    assert _compared(files, "cut.shop", "wide.shop") == 1
    text = " ".join(capsys.readouterr().out.split())
    assert "1 stock changed" in text
    assert "saw 1/16 in (1.5875 mm)" in text


@pytest.mark.parametrize(
    ("old", "new"),
    [("36 in long", "24 in long"), ("4 of brass", "5 of brass"), ("stock brass: 1/16", "stock brass: 1/8"),
     ("saw 1/32 in", "saw 1/32 in; as sold"), ("stock brass: 1/16 in by 1/4 in, 36 in long, saw 1/32 in\n", "")],
)  # fmt: skip
def test_whatever_changes_in_stock_is_told_and_a_line_moved_is_not(old: str, new: str) -> None:
    before = Sheet.from_text(CUT)
    assert len(before.stock_changes(Sheet.from_text(CUT.replace(old, new)))) == 1
    assert before.stock_changes(Sheet.from_text(f"# a note\n{CUT}")) == ()


@pytest.mark.parametrize(
    ("change", "kind", "name"),
    [
        (("4 of brass", "5 of brass"), "part", "rail"),
        (("1/32 in by 1/8", "1/32 in by 3/32"), "cut", "hole in rail"),
        (("36 in", "24 in"), "stock", "brass"),
        (("places 1 in", "places 7/8 in"), "places", "hinge"),
        (("hinge =", "leaf ="), "places", "hinge"),
    ],
)
def test_parts_cuts_stock_and_places_of_three_stand_side_by_side(
    files: Path, capsys: pytest.CaptureFixture[str], change: tuple[str, str], kind: str, name: str
) -> None:
    (files / "cut.shop").write_text(CUT, encoding="utf-8")
    (files / "other.shop").write_text(CUT.replace(*change), encoding="utf-8")
    assert _compared(files, "cut.shop", "cut.shop", "other.shop", "--json") == 1
    told = json.loads(capsys.readouterr().out)
    rows = {(row["kind"], row["name"]): row for row in told["made"]}
    assert not rows[kind, name]["same"]
    values = rows[kind, name]["values"]
    assert values[0] == values[1] != values[2]
    others = [row for key, row in rows.items() if key[0] not in (kind, "stock")]
    assert all(row["same"] for row in others)
    assert _compared(files, "cut.shop", "cut.shop", "other.shop") == 1
    assert f"{kind}" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("begins", "kind", "name"),
    [
        ("bay =", "size", "bay"),
        ("part rail", "part", "rail"),
        ("hole in", "cut", "hole in rail"),
        ("stock", "stock", "brass"),
    ],
)
def test_what_a_line_at_fault_should_have_given_is_told_from_what_is_not_there(
    files: Path, capsys: pytest.CaptureFixture[str], begins: str, kind: str, name: str
) -> None:
    lines = CUT.splitlines()
    (place,) = (n for n, line in enumerate(lines) if line.startswith(begins))
    for called, line in (("fault", f"{lines[place]} /"), ("without", "")):
        changed = [*lines[:place], line, *lines[place + 1 :]]
        (files / f"{called}.shop").write_text("\n".join(changed), encoding="utf-8")
    (files / "cut.shop").write_text(CUT, encoding="utf-8")
    assert _compared(files, "cut.shop", "fault.shop", "without.shop", "--json") == 1
    told = json.loads(capsys.readouterr().out)
    rows = told["sizes"] if kind == "size" else [row for row in told["made"] if row["kind"] == kind]
    (row,) = (row for row in rows if row["name"] == name)
    assert [value is None for value in row["values"]] == [False, True, True]
    assert row["undone"] == [None, place + 1, None]
    for other, line in (("fault", place + 1), ("without", None)):
        assert _compared(files, "cut.shop", f"{other}.shop", "--json") == 1
        changes = json.loads(capsys.readouterr().out)[
            {"size": "sizes", "stock": "stock"}.get(kind, f"{kind}s")
        ]
        (change,) = (each for each in changes if each["new"] is None)
        assert (change["old_undone"], change["new_undone"]) == (None, line)


@pytest.mark.parametrize(
    "sheets", [("a.shop", "b.shop"), ("a.shop", "b.shop", "c.shop"), ("cut.shop", "a.shop")]
)
def test_what_is_given_as_an_object_is_as_its_schema_says(
    files: Path, capsys: pytest.CaptureFixture[str], sheets: tuple[str, ...]
) -> None:
    (files / "cut.shop").write_text(CUT, encoding="utf-8")
    assert main(["compare", "--schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    assert main(["--schema"]) == 0
    answer = json.loads(capsys.readouterr().out)
    registry = Registry().with_resources(
        (made["$id"], Resource.from_contents(made)) for made in (schema, answer)
    )
    check = Draft202012Validator(schema, registry=registry)
    _compared(files, *sheets, "--json")
    told = json.loads(capsys.readouterr().out)
    check.validate(told)
    assert not check.is_valid(told | {"same": "no"})
    assert not check.is_valid(told | {"other": 1})


def test_the_page_of_the_new_sheet_is_written_with_what_changed_marked_in_it(files: Path) -> None:
    assert _compared(files, "a.shop", "b.shop", "--to", "marked", "--out", "x.html") == 1
    page = (files / "x.html").read_text(encoding="utf-8")
    assert "<h2>What changed</h2>" in page
    marked = {
        int(n) for n in re.findall(r'id="line-(\d+)">\n<p class="asked">(?:(?!</p>).)*class="changed"', page)
    }
    assert marked == {1, 2, 4}  # a, b and the hole; the part itself is as it was
    sizes = page.partition('<section id="sizes">')[2].partition("</section>")[0]
    assert sizes.count('class="changed">changed<') == 2
    same = page.partition('<section id="parts-to-make">')[2].partition("</section>")[0]
    assert "changed" not in same
    assert main(["compare", *(str(files / f"{n}.shop") for n in "abc"), "--to", "marked"]) == 2


def test_revisions_and_tools_that_one_sheet_alone_has_are_told(tmp_path, capsys):
    cut = "rev A: first\npart lid: 2 of brass, 3 in by 2 in by 1/4 in\nhole in lid: clearance(6 BA) at 1 in by 1 in\n"
    before, after = tmp_path / "old.shop", tmp_path / "new.shop"
    before.write_text(cut)
    after.write_text(cut.replace("6 BA", "4 BA").replace("rev A: first\n", "rev A: first\nrev B: for 4 BA\n"))
    assert main(["compare", str(before), str(after)]) == 1
    said = capsys.readouterr().out
    assert "2 tools changed" in said
    assert "drill 2.9 mm (about 0.1142 in)  2 holes        not asked for" in said
    assert "1 revision changed" in said
    assert "rev B     is not there  for 4 BA" in said
    assert main(["compare", str(before), str(after), "--json"]) == 1
    data = json.loads(capsys.readouterr().out)
    assert [(each["old"] is None, each["new"] is None) for each in data["tools"]] == [
        (False, True),
        (True, False),
    ]
    assert data["revisions"] == [
        {"old": None, "new": {"revision": "B", "what": "for 4 BA", "date": "", "line": 2}}
    ]


def test_a_revision_alone_makes_two_sheets_differ_and_its_words_are_told(tmp_path, capsys):
    before, after = tmp_path / "old.shop", tmp_path / "new.shop"
    before.write_text("rev A: first\na = 2 in\n")
    after.write_text("rev A: first, as drawn\na = 2 in\n")
    assert main(["compare", str(before), str(after)]) == 1
    assert "rev A     first     first, as drawn" in capsys.readouterr().out
