"""`fractions-shop sheet` and `fractions-shop compare`: what they write, say and return."""

from __future__ import annotations

import io
import json
import re
import sys
from pathlib import Path

import pytest

from fractions_shop.command.cli import main
from fractions_shop.command.forms import FORMS, taking

GOOD = "bay = wide / 5\nwide = 2 1/32 in\ncheck bay * 5 = wide\nmark wide into 5\n"
BAD = "bay = wide / 5\nwide = 2 1/32 in\ncheck bay * 5 = 2 in within 1/64 in\nx = 2 in +\ny = x\n"


@pytest.fixture
def files(tmp_path: Path) -> Path:
    (tmp_path / "good.shop").write_text(GOOD, encoding="utf-8")
    (tmp_path / "bad.shop").write_text(BAD, encoding="utf-8")
    return tmp_path


def test_a_good_sheet_is_0_and_says_nothing_aside(files, capsys):
    assert main(["sheet", str(files / "good.shop")]) == 0
    out, err = capsys.readouterr()
    assert "1 check, which holds" in out
    assert err == ""


TRAYS = "part lip: 2 of brass, 2 in by 3 in by 1/16 in\npart tray: 1 of brass, 2 in by 3 in by 1/16 in\nhole in lip: 3 mm at 1 in by 1 in\nhole in tray: 3 mm at 1 in by 1 in\n"


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize(("option", "wanted"), [("part", "lip"), ("what", "checks")])
def test_what_is_asked_of_a_form_is_done_or_refused(form, option, wanted, tmp_path, capsys):
    """One part alone, asked for and not heard, would hand over every part."""
    file, out = tmp_path / "trays.shop", tmp_path / "out"
    file.write_text(TRAYS, "utf-8")
    done = main(["sheet", str(file), "--to", form, f"--{option}", wanted, "--out", str(out)])
    if option in FORMS[form].takes:
        assert done == 0
        assert b"tray" not in out.read_bytes().replace(b"trays", b"")
        assert main(["sheet", str(file), "--to", form, "--out", str(out)]) == 0
        assert b"tray" in out.read_bytes().replace(b"trays", b"")
    else:
        assert done == 2
        assert not out.exists()
        assert (
            f"--{option} is of {taking(option)}, and this is to be {form}: leave it out"
            in capsys.readouterr().err
        )


def test_a_failed_check_is_1_and_says_by_how_much_and_what_feeds_it(files, capsys):
    assert main(["sheet", str(files / "bad.shop"), "--out", str(files / "bad.html")]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "line 4: the line ends too soon: expected a size (column 11)\n  x = 2 in +\n            ^" in err
    assert "line 5 waits for x (line 4)" in err
    assert (
        "line 3: check bay * 5 = 2 in within 1/64 in\nFAILS: the first is 0.03125 in (0.79375 mm) over" in err
    )
    assert "wide (line 2)" in err


@pytest.mark.parametrize(
    ("ending", "begins"),
    [
        ("txt", b"good\n===="), ("md", b"# good"), ("csv", b"name,fraction"), ("json", b"{"),
        ("html", b"<!DOCTYPE html>"), ("svg", b"<?xml"), ("pdf", b"%PDF-"),
    ],
)  # fmt: skip
def test_the_ending_of_the_file_says_what_to_write(files, ending, begins):
    out = files / f"made.{ending}"
    assert main(["sheet", str(files / "good.shop"), "--out", str(out)]) == 0
    assert out.read_bytes().startswith(begins)


def test_to_overrides_the_ending(files):
    assert main(["sheet", str(files / "good.shop"), "--to", "csv", "--out", str(files / "x.txt")]) == 0
    assert (files / "x.txt").read_bytes().startswith(b"name,")


@pytest.mark.parametrize("form", ["md", "csv", "json", "html", "svg"])
def test_each_form_goes_to_standard_output(files, form, capsys):
    assert main(["sheet", str(files / "good.shop"), "--to", form]) == 0
    out = capsys.readouterr().out
    assert len(out) > 100
    if form == "json":
        assert json.loads(out)["ok"]


def test_a_sheet_from_standard_input(monkeypatch, capsys):
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(GOOD.encode())))
    assert main(["sheet", "-", "--to", "csv"]) == 0
    assert "bay,13/32 in" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        pytest.param(
            ["none.shop"], "fractions-shop: none.shop cannot be read: No such file or directory", id="no file"
        ),
        pytest.param(
            ["good.shop", "--out", "x.doc"],
            "fractions-shop: --out x.doc does not say what to write",
            id="ending",
        ),
        pytest.param(
            ["good.shop", "--to", "text", "--out", "good.shop"], "good.shop is the sheet itself", id="itself"
        ),
        pytest.param(["good.shop", "--to", "doc"], "invalid choice", id="form"),
        pytest.param(
            ["good.shop", "--out", "no/such/x.csv"], "no/such/x.csv cannot be written: No such", id="folder"
        ),
    ],
)
def test_wrong_use_is_2(files, monkeypatch, capsys, arguments, message):
    monkeypatch.chdir(files)
    assert main(["sheet", *arguments]) == 2
    assert message in capsys.readouterr().err
    assert (files / "good.shop").read_text() == GOOD


def test_a_sheet_without_pictures_has_no_svg(files, capsys):
    (files / "plain.shop").write_text("x = 1 in")
    assert main(["sheet", str(files / "plain.shop"), "--to", "svg"]) == 2
    assert "nothing in this sheet has a picture" in capsys.readouterr().err


# compare


def test_sheets_alike_in_size_are_0(files, capsys):
    (files / "same.shop").write_text(
        "# moved about\nmark 51.59375 mm into 5\nwide = 51.59375 mm\nbay = 13/32 in\ncheck 5 * bay = wide\n"
    )
    assert main(["compare", str(files / "good.shop"), str(files / "same.shop")]) == 0
    assert capsys.readouterr().out == "every size, part and answer of same.shop is as in good.shop\n"


def test_a_changed_size_is_1_and_named(files, capsys):
    (files / "new.shop").write_text(GOOD.replace("2 1/32", "2 1/16"))
    assert main(["compare", str(files / "good.shop"), str(files / "new.shop")]) == 1
    out = capsys.readouterr().out
    assert out.startswith("2 sizes changed")
    assert "1/32 in larger" in out


def test_a_change_as_an_object(files, capsys):
    (files / "new.shop").write_text(GOOD.replace("2 1/32", "2 1/16"))
    assert main(["compare", "--json", str(files / "good.shop"), str(files / "new.shop")]) == 1
    found = json.loads(capsys.readouterr().out)
    assert (found["same"], [c["name"] for c in found["sizes"]]) == (False, ["bay", "wide"])
    assert found["sizes"][1]["by"] == {"inch": "1/32", "mm": "127/160", "approximate": False}


def test_sizes_that_are_not_known_are_not_taken_for_alike(files, capsys):
    (files / "worse.shop").write_text(BAD)
    assert main(["compare", str(files / "bad.shop"), str(files / "worse.shop")]) == 1
    out, err = capsys.readouterr()
    assert "is as in" in out
    assert err.count("2 lines not answered (") == 2
    assert err.count("; what they would tell is not compared") == 2


def test_a_check_that_now_fails_is_1_and_told(files, capsys):
    for name, within in (("a", "1/32 in"), ("b", "1/128 in")):
        (files / f"{name}.shop").write_text(f"check 1 1/64 in = 1 in within {within}\npart p: 1; {name}")
    assert main(["compare", str(files / "a.shop"), str(files / "b.shop")]) == 1
    out = capsys.readouterr().out
    assert "a.shop: holds: the first is 0.015625 in (0.396875 mm) over, within what is allowed" in " ".join(
        out.split()
    )
    assert (
        "b.shop: FAILS: the first is 0.015625 in (0.396875 mm) over, more than what is allowed"
        in " ".join(out.split())
    )
    assert re.search(r"p +note +a +b", out)
    assert main(["compare", "--json", str(files / "a.shop"), str(files / "b.shop")]) == 1
    found = json.loads(capsys.readouterr().out)
    (change,) = found["answers"]
    assert (change["old"]["state"], change["new"]["state"]) == ("holds", "fails")
    assert change["new"]["answer"]["allowed"]["inch"] == "1/128"


def test_only_one_can_be_standard_input(capsys):
    assert main(["compare", "-", "-"]) == 2
    assert "only one of the sheets can be standard input" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("name", "word"), [("a b.shop", "sheet"), ("rails.txt", "sheet"), ("sizes.CSV", "column")]
)
def test_a_file_in_a_statements_place_says_which_word_takes_it(
    name: str, word: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for is_there in (False, True):
        if is_there:
            Path(name).write_text("width = 2 in\n", "utf-8")
        for arguments in ([name], [name, "--plain"]):
            assert main(arguments) != 0
            quoted = f"'{name}'" if " " in name else name
            said = f"fractions-shop: {name} is a file: fractions-shop {word} {quoted}"
            assert (said in capsys.readouterr().err.splitlines()) is is_there
