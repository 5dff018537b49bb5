"""The earlier lines: private, bounded, and never in the way."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from emulator import Terminal

from fractions_shop.prompt import history
from fractions_shop.prompt.history import MOST, LineStore


def test_the_file_is_private_and_so_is_its_folder(tmp_path: Path) -> None:
    """Behaviour 14."""
    path = tmp_path / "state" / "history"
    LineStore(path).add("2 in")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_a_file_that_others_could_read_is_made_private(tmp_path: Path) -> None:
    path = tmp_path / "history"
    path.write_text("2 in\n")
    path.chmod(0o644)
    assert LineStore(path).lines == ["2 in"]
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_no_more_than_the_newest_five_thousand_are_kept(tmp_path: Path) -> None:
    """Behaviour 14."""
    path = tmp_path / "history"
    path.write_text("".join(f"{n} in\n" for n in range(MOST + 3_000)))
    store = LineStore(path)
    for n in range(400):
        store.add(f"{n} mm")
        assert len(path.read_text().splitlines()) <= MOST
    assert MOST == 5_000
    assert path.read_text().splitlines()[-1] == "399 mm"
    assert store.lines[-401] == f"{MOST + 2_999} in"
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert [found.name for found in tmp_path.iterdir()] == ["history"]


@pytest.mark.parametrize("what", ["folder", "file-as-parent", "no-parent-can-be-made"])
def test_a_history_that_cannot_be_kept_costs_one_sentence(what: str, tmp_path: Path) -> None:
    """Behaviour 13. The tests may run as root, so a mode proves nothing."""
    path = tmp_path / "history"
    if what == "folder":
        path.mkdir()
    else:
        (tmp_path / "file").write_text("")
        path = tmp_path / "file" / "history"
    store = LineStore(path)
    assert store.trouble.startswith(f"earlier lines are not kept: {path}: ")
    assert "\n" not in store.trouble
    store.add("2 in")
    assert store.lines == ["2 in"]
    with Terminal(history=path) as terminal:
        terminal.answer("2 in", "50.8 mm")
        terminal.press("\x1b[A")
        terminal.see_last("2 in")


def test_a_file_that_fails_later_is_told_of_and_left(tmp_path: Path) -> None:
    path = tmp_path / "history"
    store = LineStore(path)
    path.unlink()
    path.mkdir()
    store.add("2 in")
    assert store.trouble
    assert store.lines == ["2 in"]


@pytest.mark.parametrize(
    ("data", "lines"),
    [
        pytest.param(b"\x00\xff\xfe\n2 in\n\x1b[31m\n3 in\n", ["2 in", "3 in"], id="junk"),
        pytest.param(b"2 in\n3 i", ["2 in", "3 i"], id="cut-short"),
        pytest.param(b"x" * 10_000 + b"\n2 in\n", ["2 in"], id="too-long"),
        pytest.param(b"", [], id="empty"),
    ],
)
def test_what_is_no_line_is_passed_over(data: bytes, lines: list[str], tmp_path: Path) -> None:
    path = tmp_path / "history"
    path.write_bytes(data)
    store = LineStore(path)
    assert (store.lines, store.trouble) == (lines, "")
    store.add("4 in")
    assert path.read_bytes().splitlines()[-1] == b"4 in"
    assert LineStore(path).lines == [*lines, "4 in"]


def test_a_line_again_is_kept_once_and_blank_ones_never() -> None:
    store = LineStore(None)
    for line in ("2 in", "2 in", " ", "3 in", "2 in"):
        store.add(line)
    assert store.lines == ["2 in", "3 in", "2 in"]


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="of a POSIX system")
@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null"])
def test_a_device_is_no_history_and_keeps_its_mode(device: str, tmp_path: Path) -> None:
    before = Path(device).stat().st_mode
    (tmp_path / "history").symlink_to(device)
    store = LineStore(tmp_path / "history")
    assert "it is not a plain file" in store.trouble
    assert Path(device).stat().st_mode == before


def test_a_line_that_the_disk_has_no_room_for_is_not_kept_in_part(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`2 1/3` instead of `2 1/32 in` would come back as another size."""
    path = tmp_path / "history"
    store = LineStore(path)
    store.add("3 in")
    monkeypatch.setattr(history.os, "write", lambda number, data: _WRITE(number, data[:5]))
    store.add("2 1/32 in")
    assert path.read_text() == "3 in\n"
    assert "No space left on device" in store.trouble
    assert store.lines == ["3 in", "2 1/32 in"]


_WRITE = os.write

_ADDER = """
import sys
from pathlib import Path
from fractions_shop.prompt.history import LineStore
store = LineStore(Path(sys.argv[1]))
for n in range(300):
    store.add(f"{sys.argv[2]} {n}")
"""


def test_several_prompts_lose_no_line_to_one_another(tmp_path: Path) -> None:
    path = tmp_path / "history"
    adders = [subprocess.Popen([sys.executable, "-c", _ADDER, str(path), name]) for name in ("a", "b", "c")]
    assert [adder.wait() for adder in adders] == [0, 0, 0]
    assert sorted(path.read_text().splitlines()) == sorted(
        f"{name} {n}" for name in "abc" for n in range(300)
    )
