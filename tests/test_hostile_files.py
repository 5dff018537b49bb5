"""The command among hostile files: without end, their own output, of another making, with orders for a terminal."""

from __future__ import annotations

import io
import json
import os
import re
import signal
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from fractions_shop import Sheet
from fractions_shop.command import column as columns
from fractions_shop.command import streams
from fractions_shop.command.cli import main
from fractions_shop.command.forms import FORMS
from fractions_shop.command.settings import read_settings
from fractions_shop.command.spreadsheet import lines as workbook_lines
from fractions_shop.command.streams import Stop
from fractions_shop.command.words import column as column_command
from fractions_shop.errors import OBEYED, ShopError, visible
from fractions_shop.sheet import source as sheets

COMMAND = [sys.executable, "-m", "fractions_shop"]
SHEET = "wide = 2 1/32 in\npins = places 1/4 in, 1 in\nmark wide into 5\ncheck wide = 2 1/32 in\n"
TABLE = "part,width\ntray,2 1/32 in\n"
#: What a terminal must never get from us, nor a reader of files: everything but line ends and tabs.
ORDERS = "\x1b]0;mine\x07\x1b[31m\x9b5m\x08\x7f\u202e\u2066\r"

posix = pytest.mark.skipif(os.name != "posix", reason="of a POSIX system")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    (tmp_path / "trays.shop").write_text(SHEET)
    (tmp_path / "trays.csv").write_text(TABLE)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def shell(line: str) -> subprocess.CompletedProcess[str]:
    """A line of a shell, with CMD for the command; a file in it that would grow for ever grows to 10 MB."""
    line = line.replace("CMD", " ".join(COMMAND))
    return subprocess.run(
        ["sh", "-c", f"ulimit -f 20000; {line}"], capture_output=True, text=True, check=False
    )


# A file is never read and written at once


@posix
@pytest.mark.parametrize(
    ("line", "file"),
    [
        ("CMD column trays.csv --size width >> trays.csv", "trays.csv"),
        ("CMD column - --size width < trays.csv >> trays.csv", "trays.csv"),
        ("CMD column - --size width --out trays.csv < trays.csv", "trays.csv"),
        ("CMD column - --size width --replace --out trays.csv < trays.csv", "trays.csv"),
        ("ln trays.csv hard; CMD column trays.csv --size width --replace --out hard", "trays.csv"),
        ("ln -s trays.csv soft; CMD column soft --size width --out trays.csv", "trays.csv"),
        ("CMD column trays.csv --size width --replace --out /dev/stdin < trays.csv", "trays.csv"),
        ("CMD sheet - --out trays.shop --to text < trays.shop", "trays.shop"),
        ("CMD sheet - --replace --out trays.shop --to text < trays.shop", "trays.shop"),
        ("CMD sheet trays.shop >> trays.shop", "trays.shop"),
        ("CMD compare trays.shop - < trays.csv >> trays.shop", "trays.shop"),
        ("CMD < trays.shop >> trays.shop", "trays.shop"),
        ("CMD --json < trays.shop >> trays.shop", "trays.shop"),
    ],
)
def test_what_is_read_is_never_written_to(folder, line, file):
    before = (folder / file).read_bytes()
    done = shell(line)
    assert done.returncode == 2
    assert ": write to another file\n" in done.stderr
    assert done.stderr.count("\n") == 1
    assert (folder / file).read_bytes() == before


@posix
def test_a_terminal_or_nothing_may_be_both(folder):
    assert shell("CMD < /dev/null > /dev/null").returncode == 0
    assert shell("CMD column trays.csv --size width --out /dev/null").returncode == 0


# What has no end


@posix
@pytest.mark.parametrize(
    ("line", "bound"),
    [
        ("CMD sheet /dev/zero", "32,000,000 bytes"),
        ("CMD sheet - < /dev/zero", "32,000,000 bytes"),
        ("yes '# note' | CMD sheet -", "32,000,000 bytes"),
        ("CMD compare /dev/zero trays.shop", "32,000,000 bytes"),
        ("CMD column /dev/zero --size width", "1,000,000 characters"),
        ("CMD column - --size width < /dev/zero", "1,000,000 characters"),
        ("(cat trays.csv; cat /dev/zero) | CMD column - --size width --out made.csv", "1,000,000 characters"),
        ("CMD < /dev/zero", "32,000,000 bytes"),
    ],
)
def test_what_has_no_end_is_refused_with_the_bound(folder, line, bound):
    done = shell(line)
    assert done.returncode in (1, 2)
    assert bound in done.stderr.splitlines()[-1]
    assert "Traceback" not in done.stderr
    assert not (folder / "made.csv").exists()


def test_a_sheet_is_read_to_its_bound_and_no_further(folder, monkeypatch):
    monkeypatch.setattr(sheets, "MOST_BYTES", len(SHEET))
    assert Sheet.read("trays.shop").ok
    (folder / "trays.shop").write_text(SHEET + "\n")
    with pytest.raises(ShopError, match="is larger than any sheet"):
        Sheet.read("trays.shop")


def test_a_line_of_a_table_is_read_to_its_bound_and_no_further(folder, capfd, monkeypatch):
    monkeypatch.setattr(column_command, "LONGEST_LINE", len("tray,2 1/32 in\n"))
    assert main(["column", "trays.csv", "--size", "width"]) == 0
    assert columns.LONGEST_LINE == 1_000_000
    (folder / "trays.csv").write_text(TABLE + "runners,2 1/32 in\n")
    capfd.readouterr()
    assert main(["column", "trays.csv", "--size", "width", "--out", "made.csv"]) == 1
    assert capfd.readouterr().err == (
        "fractions-shop: trays.csv has a line of more than 15 characters, so it is not a table of sizes\n"
    )
    assert not (folder / "made.csv").exists()


def test_the_rest_of_a_long_line_is_passed_over_within_a_bound(monkeypatch):
    monkeypatch.setattr(streams, "MOST_PASSED_OVER", 300_000)
    short = io.TextIOWrapper(io.BytesIO(b"1" * 250_000 + b"\n2 in\n"))
    assert list(streams.statements_in(short))[1] == "2 in"
    with pytest.raises(streams.Stop, match="a line of more than 300,000 bytes"):
        list(streams.statements_in(io.TextIOWrapper(io.BytesIO(b"1" * 900_000 + b"\n2 in\n"))))


@posix
@pytest.mark.parametrize("what", ["/dev/zero", "pipe"])
def test_settings_without_end_are_no_settings(tmp_path, what):
    path = tmp_path / "settings.toml"
    if what == "pipe":
        os.mkfifo(path)  # nobody writes to it: the prompt must not wait for that
        assert read_settings(path)[0].rule == "64ths"
    else:
        path.symlink_to(what)
        assert "is too long to be one" in read_settings(path)[1][0]


# Files of another making


@pytest.mark.parametrize("form", FORMS)
def test_every_form_that_is_written_is_known_again(folder, form):
    out = f"made.{form}"
    for _ in range(3):
        assert main(["sheet", "trays.shop", "--to", form, "--out", out]) == 0
    # One form may follow another, under a name of ours.
    for other in FORMS:
        assert main(["sheet", "trays.shop", "--to", other, "--out", out]) == 0


@pytest.mark.parametrize(
    "title", ["## Trays", "## 1. *Trays* <!-- -->", "## Łódź ½ µ", f"## {'long ' * 900}", ""]
)
@pytest.mark.parametrize("form", FORMS)
def test_it_is_known_whatever_its_title(folder, form, title):
    (folder / "trays.shop").write_text(f"{title}\n{SHEET}" if title else SHEET, encoding="utf-8")
    assert main(["sheet", "trays.shop", "--to", form, "--out", "made"]) == 0
    assert main(["sheet", "trays.shop", "--to", form, "--out", "made"]) == 0


@pytest.mark.parametrize("delimiter", ["comma", "tab", "semicolon"])
def test_widened_tables_are_known_again(folder, delimiter):
    sign = {"comma": ",", "tab": "\t", "semicolon": ";"}[delimiter]
    table = "\ufeffinch,width,fault\n1,2 in,\n".replace(",", sign)  # two of our columns' names are taken
    (folder / "trays.csv").write_text(table, encoding="utf-8")
    for rule, doubtful in (("64ths", "fault"), ("half mm", "note"), ("10ths", "fault")):
        arguments = ["--size", "width", "--rule", rule, "--doubtful", doubtful, "--delimiter", delimiter]
        assert main(["column", "trays.csv", *arguments, "--out", "made.csv"]) == 0


FOREIGN = {
    "notes": b"fitted dry\n",
    "sheet": SHEET.encode(),
    "table": TABLE.encode(),
    "another page": b'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>Trays</title>',
    "another picture": b'<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>',
    "another heading": b"Trays\n=====\n\nnotes\n",
    "another object": b'{"schema": 1, "kind": "cabinet"}',
    "another print": b"%PDF-1.4\n%%EOF\n",
    "another header": b"name,fraction,rule\r\n",
    "widened, and one more column": b"w,inch fraction,inch,mm,nearest on 64ths,error inch,error mm,rounded,fault,mine\n",
    "no text": bytes(range(256)),
    "a blank": b"\n",
}


@pytest.mark.parametrize("foreign", FOREIGN)
@pytest.mark.parametrize("command", ["sheet trays.shop --to csv", "column trays.csv --size width"])
def test_a_file_of_another_making_is_replaced_only_when_asked(folder, capfd, command, foreign):
    out = folder / "mine"
    out.write_bytes(FOREIGN[foreign])
    arguments = [*command.split(), "--out", "mine"]
    assert main(arguments) == 2
    assert capfd.readouterr().err == (
        "fractions-shop: mine is there already, and not as this command writes it: "
        "add --replace to write over it, or write to another file\n"
    )
    assert out.read_bytes() == FOREIGN[foreign]
    assert main([*arguments, "--replace"]) == 0
    assert b"width" in out.read_bytes() or b"wide" in out.read_bytes()
    assert main(arguments) == 0, "now it is one of ours"


@pytest.mark.parametrize("command", ["sheet trays.shop --to csv", "column trays.csv --size width"])
def test_an_empty_file_has_nothing_to_lose(folder, command):
    (folder / "made").write_bytes(b"")
    assert main([*command.split(), "--out", "made"]) == 0


def test_a_fault_in_the_midst_leaves_the_older_table(folder, capfd, monkeypatch):
    arguments = ["column", "trays.csv", "--size", "width", "--out", "made.csv"]
    assert main(arguments) == 0
    before = (folder / "made.csv").read_bytes()
    (folder / "trays.csv").write_text(TABLE * 3)

    def interrupted(self, rows):
        raise KeyboardInterrupt

    monkeypatch.setattr(column_command._Progress, "show", interrupted)
    assert main(arguments) == 130
    assert capfd.readouterr().err == "stopped: nothing is written to made.csv\n"
    assert (folder / "made.csv").read_bytes() == before
    assert sorted(p.name for p in folder.iterdir()) == ["made.csv", "trays.csv", "trays.shop"]


@posix
def test_a_full_disk_leaves_the_older_file(folder):
    assert shell("CMD sheet trays.shop --out made.html").returncode == 0
    before = (folder / "made.html").read_bytes()
    done = shell("ulimit -f 1; CMD sheet trays.shop --out made.html")
    assert (done.returncode, done.stderr) == (
        2,
        "fractions-shop: made.html cannot be written: File too large\n",
    )
    assert (folder / "made.html").read_bytes() == before
    assert sorted(p.name for p in folder.iterdir()) == ["made.html", "trays.csv", "trays.shop"]


# Orders for a terminal


def is_safe(text: str) -> bool:
    return re.search(OBEYED, text.replace("\n", "").replace("\t", "")) is None


def test_what_is_made_visible_holds_no_order():
    every = "".join(map(chr, range(0x3000))) + "".join(map(chr, range(0xD800, 0xE000)))
    assert is_safe(visible(every))
    assert len(visible(every)) == len(every), "one for one, so that places hold"
    assert visible("Łódź ½ µ 2′ 1″ ‑ ⌀") == "Łódź ½ µ 2′ 1″ ‑ ⌀"
    assert not any(sign in visible("a\nb\rc") for sign in "\n\r")
    assert visible("a\nb\x1b", keep="\n") == "a\nb\ufffd"


@posix
@pytest.mark.parametrize(
    "arguments",
    [
        ["sheet", "FILE"], ["sheet", "FILE", "--to", "html"], ["sheet", "FILE", "--to", "json"],
        ["sheet", "FILE", "--to", "md"], ["sheet", "FILE", "--to", "svg"], ["sheet", "none FILE"],
        ["sheet", "trays.shop", "--out", "FILE.none"], ["sheet", "trays.shop", "--to", "text", "--out", "no/FILE"],
        ["sheet", "FILE", "--to", "text", "--out", "FILE"], ["sheet", "trays.shop", "--FILE"],
        ["sheet", "trays.shop", "FILE"], ["sheet", "trays.shop", "--to", "FILE"],
        ["compare", "FILE", "trays.shop"], ["compare", "trays.shop", "FILE"], ["compare", "--json", "trays.shop", "FILE"],
        ["column", "FILE", "--size", "width"], ["column", "trays.csv", "--size", "FILE"],
        ["column", "trays.csv", "--size", "width", "--out", "FILE"], ["column", "trays.csv", "--size", "width", "--rule", "FILE"],
        ["column", "trays.csv", "--size", "width", "--unit", "FILE"], ["column", "trays.csv", "--size", "width", "--FILE"],
        ["FILE"], ["--json", "FILE"], ["--json", "2 in # FILE"], ["2 in # FILE"], ["FILE = 2 in"], ["--rule", "FILE", "2 in"],
        ["--FILE"], ["1/2", "in", "FILE"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_no_order_in_a_name_reaches_the_terminal(folder, capfd, arguments):
    bad = f"bad{ORDERS}\nname"
    (folder / bad).write_text(SHEET + f"## {ORDERS}\nx = {ORDERS} in\n", encoding="utf-8")
    main([argument.replace("FILE", bad) for argument in arguments])
    out, err = capfd.readouterr()
    assert out + err
    assert is_safe(out)
    assert is_safe(err)


@posix
def test_a_title_from_a_hostile_name_is_safe_in_every_output(folder):
    name = f"bad{ORDERS}\nname.shop"
    (folder / name).write_text(SHEET, encoding="utf-8")
    sheet = Sheet.read(name)
    assert is_safe(sheet.title)
    assert "\n" not in sheet.title
    for made in (sheet.to_text(), sheet.to_markdown(), sheet.to_html(), sheet.to_json(), sheet.to_svg()):
        assert is_safe(made)


def test_a_setting_that_is_none_is_told_without_its_orders(tmp_path):
    path = tmp_path / "settings\x1b[31m.toml"
    path.write_text('"\\u001b[31mrule\\n" = 1\nrule = "\\u001b[2J"\n')
    complaints = read_settings(path)[1]
    assert len(complaints) == 2
    assert all(is_safe(complaint) and "\n" not in complaint for complaint in complaints)


class Terminal(io.TextIOWrapper):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("terminal", [True, False])
def test_cells_are_made_safe_for_a_terminal_and_passed_on_to_anything_else(folder, monkeypatch, terminal):
    cell = ORDERS.replace("\r", "")
    (folder / "trays.csv").write_text(f"part,width\n{cell},2 in\n", encoding="utf-8")
    written = io.BytesIO()
    monkeypatch.setattr("sys.stdout", (Terminal if terminal else io.TextIOWrapper)(written, encoding="utf-8"))
    assert main(["column", "trays.csv", "--size", "width"]) == 0
    text = written.getvalue().decode()
    assert is_safe(text) is terminal
    assert (cell in text) is not terminal


def test_an_object_keeps_every_sign_as_an_escape(capfd):
    statement = f"2 in # {ORDERS}"
    assert main(["--json", statement]) == 0
    out = capfd.readouterr().out
    assert is_safe(out)
    assert json.loads(out)["statement"] == statement


# Ctrl-C


@posix
def test_one_that_is_to_ignore_ctrl_c_goes_on_ignoring_it():
    with subprocess.Popen(
        COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_IGN),
    ) as process:  # fmt: skip
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(b"1/2 in\n")
        process.stdin.flush()
        process.stdout.readline()
        process.send_signal(signal.SIGINT)
        process.stdin.write(b"1/4 in\n")
        process.stdin.close()
        assert b"1/4 in" in process.stdout.read()
        assert process.wait() == 0


_INTERRUPTED_WHILE_LOADING = """
import builtins, os, signal, sys
usual = builtins.__import__
def importing(name, *more, **others):
    # The signal comes in the midst of loading the command.
    if name == "fractions_shop.command.streams":
        os.kill(os.getpid(), signal.SIGINT)
    return usual(name, *more, **others)
signal.signal(signal.SIGINT, signal.default_int_handler)
builtins.__import__ = importing
from fractions_shop.__main__ import main
sys.argv = ["fractions-shop", "1/2 in"]
sys.exit(main())
"""


@posix
def test_ctrl_c_while_the_command_loads_ends_it_quietly():
    done = subprocess.run(
        [sys.executable, "-c", _INTERRUPTED_WHILE_LOADING], capture_output=True, check=False
    )
    assert (done.returncode, done.stdout, done.stderr) == (130, b"", b"")


def test_the_package_loads_nothing_before_the_command_takes_over_ctrl_c():
    code = (
        "import sys; before = set(sys.modules); import fractions_shop.__main__\n"
        "print(*sorted(m for m in set(sys.modules) - before if m.startswith('fractions_shop')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == [
        "fractions_shop", "fractions_shop.__main__", "fractions_shop.command", "fractions_shop.command.interrupts",
    ]  # fmt: skip


def test_a_library_that_stumbles_over_an_interruption_is_not_complained_of(monkeypatch, capsys):
    from fractions_shop import __main__ as start

    def stumbles(**_: object) -> int:
        try:
            raise KeyboardInterrupt
        finally:
            raise AttributeError("what was to be tidied up is not there")

    monkeypatch.setattr("fractions_shop.command.cli.main", stumbles)
    assert start.main() == 130

    def wrong(**_: object) -> int:
        raise AttributeError("a slip of ours")

    monkeypatch.setattr("fractions_shop.command.cli.main", wrong)
    with pytest.raises(AttributeError, match="a slip of ours"):
        start.main()


def test_a_workbook_that_is_broken_farther_down_is_refused_in_words(tmp_path: Path) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    whole, broken = tmp_path / "whole.xlsx", tmp_path / "broken.xlsx"
    book = openpyxl.Workbook()
    book.active.append(["size"])
    book.active.append([52])
    book.save(whole)
    with zipfile.ZipFile(whole) as old, zipfile.ZipFile(broken, "w") as new:
        for part in old.namelist():
            data = old.read(part)
            new.writestr(part, data.replace(b"<v>52</v>", b"<v>&#x5</v>") if "sheet1" in part else data)
    with pytest.raises(Stop, match="cannot be read as a workbook"), broken.open("rb") as raw:
        list(workbook_lines(raw, "broken.xlsx", ",", None))
