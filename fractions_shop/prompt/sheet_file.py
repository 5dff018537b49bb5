"""The sheet at the prompt and its file: opened, saved, kept as a draft, and never lost."""

from __future__ import annotations

import stat
from pathlib import Path

from fractions_shop.errors import ShopError, visible
from fractions_shop.files.bounded import first_bytes
from fractions_shop.files.whole import write_whole
from fractions_shop.prompt.drafts import Draft, DraftStore
from fractions_shop.prompt.own_words import Refused
from fractions_shop.sheet.living import LivingSheet
from fractions_shop.sheet.rows import Rows
from fractions_shop.sheet.source import MOST_BYTES, decoded
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.notation import AS_USUAL, UnitsShown
from fractions_shop.size.rule import Rule


class SheetFile:
    """One sheet and the file that it belongs to.

    `path` is that file, None for a sheet that has none yet; `saved` what the file held when it was
    last read or written here.
    """

    def __init__(self, rule: Rule, drafts: DraftStore | None = None, units: UnitsShown = AS_USUAL) -> None:
        self.rule, self.units = rule, units
        self.drafts = drafts or DraftStore(None)
        self.path: Path | None = None
        self.saved = b""
        self.sheet = LivingSheet(Sheet.from_text(""), first_rule=rule, first_units=units)

    @property
    def data(self) -> bytes:
        """The sheet as it stands, as its file would hold it."""
        return self.sheet.state.rows.data()

    @property
    def unsaved(self) -> bool:
        """Whether there is something that the file does not hold."""
        return self.data != self.saved

    @property
    def name(self) -> str:
        """What the file is called, empty for none."""
        return visible(self.path.name) if self.path is not None else ""

    def keep_draft(self) -> str:
        """Keep the sheet as a draft; a sentence when that has just begun to fail, else empty."""
        if not self.data and self.path is None:
            self.drafts.forget()
            return ""
        return self.drafts.keep(self._file, self.saved, self.data)

    def open(self, path: Path) -> bool:
        """Open the sheet of a file; whether the one before it was kept as a draft.

        Refused, with the reason, when it is no sheet.
        """
        data = content_of(path)
        rows = _rows(data, path)
        kept = self._make_room()
        self._begin(rows, path.absolute(), data)
        return kept

    def open_draft(self, draft: Draft) -> None:
        """Open a draft, as a sheet with changes that are not saved."""
        rows = _rows(draft.data, draft.path)
        self._make_room()
        self._begin(rows, Path(draft.file) if draft.file else None, draft.saved)
        self.keep_draft()
        # Not before it is kept anew: this may be the only copy.
        if not self.drafts.trouble:
            draft.drop()

    def clear(self) -> bool:
        """Begin an empty sheet; whether the old one was kept as a draft."""
        kept = self._make_room()
        self._begin(Rows(), None, b"")
        return kept

    def leave(self) -> bool:
        """Leave the sheet; whether it was kept as a draft, because something in it is not saved."""
        if self.unsaved:
            return self.drafts.leave(self._file, self.saved, self.data)
        self.drafts.forget()
        return False

    def _make_room(self) -> bool:
        """Leave the sheet for another one, as `leave` does; Refused where what is not saved could not be kept."""
        if not self.unsaved or self.drafts.folder is None:
            return self.leave()
        if trouble := self.drafts.leave_or_trouble(self._file, self.saved, self.data):
            raise Refused(
                f"what is here is not saved, and no draft of it can be kept ({trouble}): save it first"
            )
        return True

    def is_open_elsewhere(self) -> bool:
        """Whether another prompt has the file open."""
        return self.path is not None and self.drafts.is_open_elsewhere(self._file)

    def save(self, path: Path | None) -> Path:
        """Write the sheet to a new file, or back to its own; Refused rather than lose what either holds."""
        target = path or self.path
        if target is None:
            raise Refused("save needs the name of a file; write save cabinet.txt")
        data = self.data
        if not data:
            raise Refused("there is nothing to save yet: the sheet is empty")
        target = target.absolute()
        mine = self.path is not None and _is_same(target, self.path)
        name = visible(str(path or target.name))
        try:
            there = first_bytes(target, MOST_BYTES + 1) if target.exists() else None
            if there is not None and there not in (data, self.saved if mine else data):
                self._refuse(name, mine)
            if there != data:
                write_whole(target, data, new=there is None)
        except Refused:
            raise
        except FileExistsError:
            self._refuse(name, mine)
        except (OSError, ValueError) as error:
            raise Refused(f"{name} cannot be written: {getattr(error, 'strerror', None) or error}") from None
        self.path, self.saved = target, data
        self.keep_draft()
        return target

    def _refuse(self, name: str, mine: bool) -> None:
        if mine:
            raise Refused(
                f"{name} has been changed since it was opened, by another prompt or another hand, and that would be "
                "lost: save to another file, or open it again (what is here is then kept as a draft)"
            )
        raise Refused(f"{name} is there already: save to another file, or open it to go on with it")

    @property
    def _file(self) -> str:
        return str(self.path) if self.path is not None else ""

    def _begin(self, rows: Rows, path: Path | None, saved: bytes) -> None:
        title = path.stem.replace("-", " ").replace("_", " ") if path is not None else "Sheet"
        self.path, self.saved = path, saved
        self.sheet = LivingSheet(Sheet.from_text("", title), rows, self.rule, self.units)
        if path is not None:
            self.keep_draft()  # so that a second prompt sees that it is open


def content_of(path: Path) -> bytes:
    """The bytes of a file that may be a sheet; Refused, with the reason, when they cannot be read."""
    name = visible(str(path))
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise Refused(f"{name} is not a file of statements")
        return first_bytes(path, MOST_BYTES + 1)
    except Refused:
        raise
    except (OSError, ValueError) as error:
        raise Refused(f"{name} cannot be read: {getattr(error, 'strerror', None) or error}") from None


def _rows(data: bytes, path: Path) -> Rows:
    try:
        decoded(data, visible(str(path)))  # which says what is wrong, and where
    except ShopError as error:
        raise Refused(str(error)) from None
    return Rows.of(data)


def _is_same(one_path: Path, other: Path) -> bool:
    try:
        return one_path.samefile(other)
    except OSError:
        return one_path == other
