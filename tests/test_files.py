"""Files: written whole or not at all, read within a bound, and known under two names."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path

import pytest

from fractions_shop.files import whole
from fractions_shop.files.bounded import are_one_file, first_bytes, state_of
from fractions_shop.files.whole import can_be_replaced, replacing, write_whole

posix = pytest.mark.skipif(os.name != "posix", reason="of a POSIX system")


@pytest.fixture(params=["without a name", "with a name"])
def kind(request, monkeypatch):
    """Both ways to hold the new content: as a file without a name, where there are any, and beside."""
    if request.param == "with a name":
        monkeypatch.delattr(os, "O_TMPFILE", raising=False)
    return request.param


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_made_and_written_over(kind, tmp_path):
    path = tmp_path / "trays.csv"
    for data in (b"one", b"two, and longer", b""):
        write_whole(path, data)
        assert path.read_bytes() == data
        assert names(tmp_path) == ["trays.csv"]


def write_and(path: Path, then: Callable[[], None], new: bool = False) -> None:
    """Write a good deal, and do something before it is all there."""
    with replacing(path, new=new) as file:
        file.write(b"x" * 1_000_000)
        file.flush()
        then()


def end_badly(error: type[BaseException]) -> Callable[[], None]:
    def end() -> None:
        raise error

    return end


class Slip(Exception):
    """What goes wrong in the midst of writing."""


@pytest.mark.parametrize("error", [Slip, KeyboardInterrupt, SystemExit])
@pytest.mark.parametrize("there", [True, False])
def test_nothing_changes_when_the_writing_ends_badly(kind, there, error, tmp_path):
    path = tmp_path / "trays.csv"
    if there:
        path.write_bytes(b"as it was")
    before = names(tmp_path)
    with pytest.raises(error):
        write_and(path, end_badly(error))
    assert names(tmp_path) == before
    assert not there or path.read_bytes() == b"as it was"


_FULL = """
import resource, sys
from pathlib import Path
import os
{without}
from fractions_shop.files.whole import write_whole
# Every file may have so many bytes, as if the disk had no more: the write fails half way.
resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))
try:
    write_whole(sys.argv[1], b"x" * 1_000_000)
except OSError as error:
    print(type(error).__name__)
"""


@posix
@pytest.mark.parametrize("there", [True, False])
def test_a_full_disk_leaves_everything_as_it_was(kind, there, tmp_path):
    path = tmp_path / "trays.csv"
    if there:
        path.write_bytes(b"as it was")
    without = "del os.O_TMPFILE" if kind == "with a name" and hasattr(os, "O_TMPFILE") else ""
    code = textwrap.dedent(_FULL).format(without=without)
    done = subprocess.run([sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True)
    assert done.stdout == "OSError\n"
    assert names(tmp_path) == (["trays.csv"] if there else [])
    assert not there or path.read_bytes() == b"as it was"


@pytest.mark.parametrize("failing", ["fsync", "write"])
def test_no_name_is_taken_before_all_is_on_the_disk(kind, failing, tmp_path, monkeypatch):
    path = tmp_path / "trays.csv"
    path.write_bytes(b"as it was")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    if failing == "fsync":
        monkeypatch.setattr(whole.os, "fsync", full)
        with pytest.raises(OSError, match="No space"):
            write_whole(path, b"new")
    else:
        with pytest.raises(OSError, match="No space"):
            write_and(path, full)
    assert names(tmp_path) == ["trays.csv"]
    assert path.read_bytes() == b"as it was"


@posix
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o644, 0o755])
def test_the_mode_stays(kind, mode, tmp_path):
    path = tmp_path / "trays.csv"
    path.write_bytes(b"as it was")
    path.chmod(mode)
    write_whole(path, b"new")
    assert stat.S_IMODE(path.stat().st_mode) == mode


@posix
def test_a_new_file_has_the_usual_mode(kind, tmp_path):
    before = os.umask(0o027)
    try:
        write_whole(tmp_path / "trays.csv", b"new")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "trays.csv").stat().st_mode) == 0o640


@posix
def test_a_private_file_is_private_while_it_is_written(kind, tmp_path):
    path = tmp_path / "trays.csv"
    path.write_bytes(b"as it was")
    path.chmod(0o600)
    with replacing(path) as file:
        assert stat.S_IMODE(os.fstat(file.fileno()).st_mode) == 0o600


@posix
def test_a_link_stays_a_link_and_what_it_leads_to_is_written(kind, tmp_path):
    (tmp_path / "shed").mkdir()
    path, link, second = tmp_path / "shed" / "trays.csv", tmp_path / "trays", tmp_path / "again"
    path.write_bytes(b"as it was")
    link.symlink_to("shed/trays.csv")
    second.symlink_to("trays")
    write_whole(second, b"new")
    assert (second.is_symlink(), link.is_symlink(), path.is_symlink()) == (True, True, False)
    assert path.read_bytes() == b"new"
    assert (names(tmp_path), names(tmp_path / "shed")) == (["again", "shed", "trays"], ["trays.csv"])


@posix
def test_a_link_to_nothing_yet_makes_what_it_leads_to(kind, tmp_path):
    (tmp_path / "link").symlink_to("trays.csv")
    write_whole(tmp_path / "link", b"new")
    assert (tmp_path / "trays.csv").read_bytes() == b"new"
    assert (tmp_path / "link").is_symlink()


@posix
def test_links_in_a_ring_are_an_error(tmp_path):
    (tmp_path / "a").symlink_to("b")
    (tmp_path / "b").symlink_to("a")
    with pytest.raises(OSError, match="symbolic links"):
        write_whole(tmp_path / "a", b"new")
    assert names(tmp_path) == ["a", "b"]
    assert (tmp_path / "a").is_symlink()


@pytest.mark.parametrize("what", ["file", "link", "link to nothing"])
def test_what_must_be_new_is_never_written_over(kind, what, tmp_path):
    path = tmp_path / "trays.csv"
    if what == "file":
        path.write_bytes(b"as it was")
    else:
        (tmp_path / "other").write_bytes(b"as it was") if what == "link" else None
        path.symlink_to("other")
    before = names(tmp_path)
    with pytest.raises(FileExistsError):
        write_whole(path, b"new", new=True)
    assert names(tmp_path) == before


def test_what_comes_up_while_a_new_file_is_written_is_not_written_over(kind, tmp_path):
    path = tmp_path / "trays.csv"
    with pytest.raises(FileExistsError):
        write_and(path, lambda: path.write_text("quicker") and None, new=True)
    assert path.read_bytes() == b"quicker"
    assert names(tmp_path) == ["trays.csv"]


def test_a_file_system_without_links_has_new_files_too(tmp_path, monkeypatch):
    monkeypatch.delattr(os, "O_TMPFILE", raising=False)

    def none(*_: object, **__: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(whole.os, "link", none)
    write_whole(tmp_path / "trays.csv", b"new", new=True)
    assert (tmp_path / "trays.csv").read_bytes() == b"new"
    assert names(tmp_path) == ["trays.csv"]
    with pytest.raises(FileExistsError):
        write_whole(tmp_path / "trays.csv", b"newer", new=True)


@pytest.mark.parametrize("other", ["trays.csv.new", "trays.csv~", ".trays.csv.swp", "trays.csv.1"])
def test_no_neighbour_is_touched(kind, other, tmp_path):
    (tmp_path / other).write_bytes(b"mine")
    (tmp_path / "trays.csv").write_bytes(b"as it was")
    write_whole(tmp_path / "trays.csv", b"new")
    assert (tmp_path / other).read_bytes() == b"mine"


def test_a_file_that_is_there_to_be_read_only_is_not_replaced(kind, tmp_path, monkeypatch):
    path = tmp_path / "trays.csv"
    path.write_bytes(b"as it was")
    # The tests may run as root, to whom a mode says nothing.
    monkeypatch.setattr(whole.os, "access", lambda *_: False)
    with pytest.raises(PermissionError):
        write_whole(path, b"new")
    assert path.read_bytes() == b"as it was"


@posix
def test_a_device_or_a_pipe_is_written_as_it_is(tmp_path):
    assert not can_be_replaced("/dev/null")
    write_whole("/dev/null", b"new")
    assert stat.S_ISCHR(Path("/dev/null").stat().st_mode)
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    write_whole(pipe, b"new")
    assert os.read(reader, 10) == b"new"
    os.close(reader)
    assert stat.S_ISFIFO(pipe.stat().st_mode)
    with pytest.raises(FileExistsError):
        write_whole("/dev/null", b"new", new=True)


@posix
def test_standard_output_by_its_path_is_written_where_it_leads(tmp_path):
    code = "from fractions_shop.files.whole import write_whole; print('first', flush=True); write_whole('/dev/stdout', b'new')"
    with (tmp_path / "out").open("ab") as out:
        before = os.fstat(out.fileno()).st_ino
        subprocess.run([sys.executable, "-c", code], stdout=out, check=True)
    assert (tmp_path / "out").stat().st_ino == before


@pytest.mark.parametrize("name", ["no/such/folder", "file/x", "a\0b", "x" * 300, "."])
def test_what_cannot_be_written_is_an_error_and_leaves_nothing(kind, name, tmp_path):
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises((OSError, ValueError)):
        write_whole(f"{tmp_path}/{name}", b"new")
    assert names(tmp_path) == ["file"]


# Reading


@posix
def test_no_more_is_read_than_asked_for():
    assert first_bytes("/dev/zero", 3_000_000) == bytes(3_000_000)


@posix
def test_a_pipe_without_a_writer_need_not_be_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    assert first_bytes(tmp_path / "pipe", 10, waits=False) == b""


@posix
def test_one_file_is_known_by_every_name(tmp_path):
    path = tmp_path / "trays.csv"
    path.write_bytes(b"x")
    (tmp_path / "soft").symlink_to(path)
    (tmp_path / "hard").hardlink_to(path)
    (tmp_path / "other").write_bytes(b"x")
    with path.open("rb") as file:
        for name in ("trays.csv", "soft", "hard"):
            assert are_one_file(state_of(file), state_of(tmp_path / name))
        assert not are_one_file(state_of(file), state_of(tmp_path / "other"))
        assert not are_one_file(state_of(file), state_of(tmp_path / "none"))
    with Path("/dev/null").open("rb") as null:
        assert not are_one_file(state_of(null), state_of("/dev/null"))
