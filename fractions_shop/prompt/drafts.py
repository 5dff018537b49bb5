"""Drafts: what is being written, kept after every line, so that no crash and no full disk loses it.

A draft is one file in the user's state folder: a line that says of which file it is, and the sheet
as it stands, byte for byte. Beside it lies a file that the prompt holds while it runs: so a draft that
nobody holds was left behind, and one that somebody holds tells a second prompt of the first.
"""

from __future__ import annotations

import contextlib
import json
import os
import time
from dataclasses import dataclass
from pathlib import Path

from fractions_shop.files.bounded import first_bytes
from fractions_shop.files.held import HeldFile, hold, is_held
from fractions_shop.files.whole import write_whole
from fractions_shop.sheet.source import MOST_BYTES

#: Drafts that are kept of sheets that were left on purpose; older ones go.
MOST_LEFT = 10
_ENDING, _LOCK = ".draft", ".held"


@dataclass(frozen=True)
class Draft:
    """A draft as it lies there: its place, the file it is of (empty for none), what that held, and the sheet.

    `left` says that its prompt was left in order, and did not break off; `written` is when, in
    seconds of the system's clock.
    """

    path: Path
    file: str
    saved: bytes
    data: bytes
    left: bool
    written: float

    def drop(self) -> None:
        """Remove it."""
        with contextlib.suppress(OSError):
            self.path.unlink()


class DraftStore:
    """The drafts of one folder, and the one that this prompt keeps; `folder` None keeps none."""

    def __init__(self, folder: Path | None) -> None:
        self.folder = folder
        self.trouble = ""
        self._path: Path | None = None
        self._held: HeldFile | None = None

    def keep(self, file: str, saved: bytes, data: bytes) -> str:
        """Keep a sheet as it stands; a sentence when that has just begun to fail, else empty."""
        if self.folder is None:
            return ""
        try:
            self._write(file, saved, data, left=False)
        except OSError as error:
            said, self.trouble = self.trouble, error.strerror or str(error)
            return (
                ""
                if said
                else (
                    f"no draft can be kept ({self.trouble}): save before you leave; everything else goes on"
                )
            )
        self.trouble = ""
        return ""

    def forget(self) -> None:
        """Remove the draft: all that it holds is saved, or is not wanted."""
        if self._path is not None:
            with contextlib.suppress(OSError):
                self._path.unlink()
        self._let_go()

    def leave(self, file: str, saved: bytes, data: bytes) -> bool:
        """Leave the sheet as a draft to come back to; whether it could be kept."""
        if self.folder is None:
            return False
        kept = not self.leave_or_trouble(file, saved, data)
        self._let_go()
        return kept

    def leave_or_trouble(self, file: str, saved: bytes, data: bytes) -> str:
        """Leave the sheet so, or say why it cannot be; then the draft of now stays held."""
        try:
            self._write(file, saved, data, left=True)
        except OSError as error:
            return error.strerror or str(error)
        self._let_go()
        for draft in [draft for draft in self.waiting() if draft.left][MOST_LEFT:]:
            draft.drop()
        return ""

    def waiting(self) -> list[Draft]:
        """The drafts that no prompt holds, newest first."""
        drafts = [
            draft for path in self._files() if not is_held(path.with_suffix(_LOCK)) and (draft := _read(path))
        ]
        return sorted(drafts, key=lambda draft: (draft.written, draft.path.name), reverse=True)

    def is_open_elsewhere(self, file: str) -> bool:
        """Whether another prompt has the file open."""
        others = (path for path in self._files() if path != self._path and is_held(path.with_suffix(_LOCK)))
        return any(draft is not None and draft.file == file for draft in map(_read, others))

    def _files(self) -> list[Path]:
        try:
            return [] if self.folder is None else sorted(self.folder.glob(f"*{_ENDING}"))
        except OSError:
            return []

    def _write(self, file: str, saved: bytes, data: bytes, left: bool) -> None:
        assert self.folder is not None
        if self._path is None:
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            path = self.folder / f"{time.time_ns():x}-{os.urandom(3).hex()}{_ENDING}"
            self._held = hold(path.with_suffix(_LOCK))
            self._path = path
        head = json.dumps({"file": file, "left": left, "saved": len(saved)})
        there = self._path.exists()
        write_whole(self._path, head.encode("utf-8") + b"\n" + saved + data)
        if not there:
            self._path.chmod(0o600)

    def _let_go(self) -> None:
        if self._held is not None:
            self._held.let_go()
        self._path = self._held = None


def _read(path: Path) -> Draft | None:
    """A draft, or None for a file that is none."""
    try:
        head, _, rest = first_bytes(path, 2 * MOST_BYTES).partition(b"\n")
        said = json.loads(head)
        count = int(said["saved"])
        return Draft(
            path, str(said["file"]), rest[:count], rest[count:], bool(said["left"]), path.stat().st_mtime
        )
    except (OSError, ValueError, KeyError, TypeError):
        return None
