"""Writes a file whole or not at all: what was there stays until all of the new one lies on the disk.

The new content goes into a file of its own in the same folder, which takes the old one's
place at the very end. Where the system knows files without a name (Linux), it gets one
only then, so that even a process that is killed leaves nothing behind.
"""

from __future__ import annotations

import errno
import os
import stat
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

#: How the new content is called, before a random part, for the moment in which it needs a name.
BESIDE = ".fractions-shop-"


def write_whole(path: str | os.PathLike[str], data: bytes, *, new: bool = False) -> None:
    """Write `data` to `path` as `replacing` does; OSError or ValueError when it cannot be written."""
    with replacing(path, new=new) as file:
        file.write(data)


@contextmanager
def replacing(path: str | os.PathLike[str], *, new: bool = False) -> Iterator[BinaryIO]:
    """A file to write to, which takes the place of `path` when the block ends well.

    After an exception in the block, or on a disk that is full, everything is as it was.
    Mode, owner (where the system lets us) and attributes of the file stay; a symbolic
    link stays one, and what it leads to is written. Of several hard links the others
    keep the old content. `new` refuses whatever is there by FileExistsError. A device, a
    pipe, or our own standard output by its path cannot be replaced: it is written as it
    is. OSError when the file, or a file beside it, cannot be written.
    """
    if not can_be_replaced(path):
        if new:
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), os.fspath(path))
        with Path(path).open("wb") as file:
            yield file
        return
    target, there = _target(Path(path), new)
    number, beside = _opened(target, there)
    try:
        with os.fdopen(number, "wb") as file:
            yield file
            file.flush()
            if there is not None:
                _make_alike(number, target, there)
            os.fsync(number)
            if beside is None:
                beside = _free_name(target)
                _name(number, beside)
        if new:
            _link_new(beside, target)
        else:
            beside.replace(target)
    finally:
        if beside is not None:
            with suppress(OSError):  # it is gone when all went well
                beside.unlink()
    _settle(target.parent)


def can_be_replaced(path: str | os.PathLike[str]) -> bool:
    """Whether `path` is a plain file, or nothing yet; not a device, a pipe or our own standard output."""
    try:
        there = Path(path).stat()
    except FileNotFoundError:
        return True
    return stat.S_ISREG(there.st_mode) and not any(
        _is_open_in(stream, there) for stream in (sys.stdout, sys.stderr)
    )


def _is_open_in(stream: object, there: os.stat_result) -> bool:
    """Whether a stream of ours is the open file that is there; by another name it would be torn apart."""
    try:
        return os.path.samestat(os.fstat(stream.fileno()), there)  # type: ignore[attr-defined]
    except (OSError, ValueError, AttributeError):
        return False


def _target(path: Path, new: bool) -> tuple[Path, os.stat_result | None]:
    """The file that a path leads to in the end, and what is there; OSError when it must not be written."""
    if new and os.path.lexists(path):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path))
    target = Path(os.path.realpath(path))
    if target.is_symlink():
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(path))
    try:
        there = target.stat()
    except FileNotFoundError:
        return target, None
    if not os.access(target, os.W_OK):
        # A file that is there to be read only could be replaced, which is not what its owner meant.
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
    return target, there


def _opened(target: Path, there: os.stat_result | None) -> tuple[int, Path | None]:
    """A new file in the target's folder, open, and its name if it has one already."""
    # Nobody else may look into what takes the place of a private file.
    mode = 0o666 if there is None else 0o600
    unnamed = getattr(os, "O_TMPFILE", 0)
    try:
        if unnamed and Path("/proc/self/fd").is_dir():
            with suppress(OSError):  # not every file system has them
                return os.open(target.parent, unnamed | os.O_WRONLY, mode), None
        beside = _free_name(target)
        return os.open(
            beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), mode
        ), beside
    except PermissionError as error:
        raise PermissionError(
            error.errno, f"its folder takes no new file ({error.strerror})", str(target)
        ) from None


def _free_name(target: Path) -> Path:
    return target.with_name(f"{BESIDE}{os.urandom(8).hex()}")


def _name(number: int, name: Path) -> None:
    """Give an open file that has no name its first one."""
    folder = os.open(name.parent, os.O_RDONLY)
    try:
        os.link(f"/proc/self/fd/{number}", name.name, dst_dir_fd=folder, follow_symlinks=True)
    finally:
        os.close(folder)


def _link_new(beside: Path, target: Path) -> None:
    """Call the new file by its right name, unless something is called so by now."""
    try:
        os.link(beside, target)
    except FileExistsError:
        raise
    except OSError:  # a file system without links: keep the name first, then fill it
        os.close(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL))
        try:
            beside.replace(target)
        except OSError:
            target.unlink()
            raise


def _make_alike(number: int, target: Path, there: os.stat_result) -> None:
    """Give the new file the owner, attributes and mode of the one that it replaces."""
    if os.name != "posix":
        return
    mode = stat.S_IMODE(there.st_mode)
    for owner in (there.st_uid, -1):
        with suppress(OSError):
            os.fchown(number, owner, there.st_gid)
            break
    else:
        # In another group, nobody may do more than everybody could.
        mode = mode & ~0o070 | (mode & 0o007) << 3
    if hasattr(os, "listxattr"):
        with suppress(OSError):
            for name in os.listxattr(target):
                with suppress(OSError):
                    os.setxattr(number, name, os.getxattr(target, name))
    os.fchmod(number, mode)


def _settle(folder: Path) -> None:
    """Ask that the new name outlives a power cut, where a folder can be asked."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)
