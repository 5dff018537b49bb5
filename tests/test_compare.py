"""Sheets compared: two in everything that can be cut, several side by side, as text, page and object."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fractions_shop.command.cli import main

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
