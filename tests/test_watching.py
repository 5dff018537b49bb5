"""`fractions-shop sheet FILE --out PAGE --watch`: made anew at every saving, by the file's own time."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from fractions_shop.command import watching
from fractions_shop.command.cli import main
from fractions_shop.command.interrupts import INTERRUPTED
from fractions_shop.command.streams import MISUSED, Stop
from fractions_shop.command.watching import look, watch
from fractions_shop.command.words import sheet as command

SHEET = "wide = 2 1/32 in\nbay = wide / 5\n"
ANEW = '<meta http-equiv="refresh"'


class Bench:
    """What happens between two looks at the file, step by step; Ctrl-C at the end."""

    def __init__(self, *steps: str) -> None:
        self.steps: Iterator[str] = iter(steps)
        self.second = 1_000_000_000

    def pause(self, file: Path, seconds: float) -> None:
        step = next(self.steps, None)
        if step is None:
            raise KeyboardInterrupt
        if step == "gone":
            file.unlink()
        elif step:
            file.write_text(step, encoding="utf-8")
            self.second += 60
            os.utime(file, (self.second, self.second))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    made = tmp_path / "trays.shop"
    made.write_text(SHEET, encoding="utf-8")
    os.utime(made, (1_000_000_000, 1_000_000_000))
    return made


def test_it_is_made_once_for_each_saving_and_never_from_half_a_file(file: Path) -> None:
    seen: list[str] = []
    bench = Bench("", "a = 1 in\n", "a = 2 in\n", "", "", "gone", "", "a = 3 in\n", "", "")
    watch(
        str(file),
        look(str(file)),
        lambda saved: seen.append(file.read_text()),
        pause=lambda s: bench.pause(file, s),
    )
    assert seen == ["a = 2 in\n", "a = 3 in\n"]


def test_that_the_file_is_gone_is_told_once_and_that_it_is_there_again(file: Path) -> None:
    """Not of one that an editor takes away for the time of one look."""
    told: list[bool | str] = []
    bench = Bench("gone", "a = 1 in\n", "", "gone", "", "", "", "a = 2 in\n", "", "")
    watch(
        str(file),
        look(str(file)),
        lambda saved: told.append(file.read_text()),
        told.append,
        lambda s: bench.pause(file, s),
    )
    assert told == ["a = 1 in\n", True, False, "a = 2 in\n"]


def test_under_watch_a_fault_says_of_which_saving_it_is_and_a_file_that_is_gone_is_named(
    file: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    bench = Bench("wide = 3 in +\n", "", "gone", "", "", "wide = 4 in\n", "", "")
    monkeypatch.setattr(
        command,
        "watch",
        lambda path, since, make, gone: watching.watch(
            path, since, make, gone, lambda s: bench.pause(file, s)
        ),
    )
    assert main(["sheet", str(file), "--out", str(file.with_name("trays.txt")), "--watch"]) == INTERRUPTED
    said = capsys.readouterr().err.splitlines()
    fault = next(n for n, row in enumerate(said) if "the line ends too soon" in row)
    assert said[fault - 1].startswith("trays.shop as saved 2001-09-0")
    assert any(row.startswith("trays.shop is not there now, since 20") for row in said)
    assert any(row.startswith("trays.shop is there again, since 20") for row in said)


def test_the_page_loads_itself_anew_and_says_from_what_it_was_made(
    file: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    out = file.with_name("trays.html")
    pages: list[str] = []
    bench = Bench("wide = 3 in\n", "", "", "wide = 3 in +\n", "", "")

    def pause(seconds: float) -> None:
        pages.append(out.read_text(encoding="utf-8"))
        bench.pause(file, seconds)

    monkeypatch.setattr(
        command, "watch", lambda file, since, make, gone: watching.watch(file, since, make, gone, pause)
    )
    assert main(["sheet", str(file), "--out", str(out), "--watch"]) == INTERRUPTED
    assert all(ANEW in page and "made from trays.shop as saved 2001-09-0" in page for page in pages)
    assert "2 1/32 in" in pages[0]
    assert "2 1/32 in" not in pages[3]
    assert len({page[page.index("as saved") :][:30] for page in pages}) == 3
    left = out.read_text(encoding="utf-8")
    assert ANEW not in left
    assert "as saved" not in left
    err = capsys.readouterr().err
    assert "line 1: the line ends too soon" in err
    assert "is made anew whenever trays.shop is saved" in err


def test_a_page_that_is_not_watched_stays_as_it_is(file: Path) -> None:
    out = file.with_name("trays.html")
    assert main(["sheet", str(file), "--out", str(out)]) == 0
    assert ANEW not in out.read_text(encoding="utf-8")


@pytest.mark.parametrize("arguments", [["-", "--out", "x.html"], ["trays.shop"]])
def test_there_must_be_a_file_to_watch_and_one_to_write(arguments: list[str]) -> None:
    with pytest.raises(Stop) as stop:
        command.run([*arguments, "--watch"])
    assert stop.value.status == MISUSED
    assert str(stop.value) == "--watch needs a sheet in a file, and --out FILE to write to"


def test_a_file_of_somebody_else_is_not_written_over(file: Path) -> None:
    out = file.with_name("trays.html")
    out.write_text("mine\n")
    with pytest.raises(Stop):
        command.run([str(file), "--out", str(out), "--watch"])
    assert out.read_text() == "mine\n"
