"""Words about files at the prompt: open, save, print, clear, and what load once did. Each gives lines to show."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from fractions_shop.command.forms import FORMS, Asked
from fractions_shop.command.overwriting import refuse_to_spoil
from fractions_shop.command.streams import Stop
from fractions_shop.errors import ShopError, visible
from fractions_shop.figures.plain import folded
from fractions_shop.figures.wording import so_many
from fractions_shop.files.whole import write_whole
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import Refused
from fractions_shop.show.sheet import Sheet
from fractions_shop.show.verdict import verdict_text

#: Faults of an opened sheet that are told; the rest are counted.
_MOST_FAULTS = 4
_DRAFT = "draft"


def open_(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Open a sheet, or the newest draft."""
    number = rest.removeprefix(_DRAFT).strip()
    if rest.partition(" ")[0] == _DRAFT and not Path(rest).exists():
        yield from _open_draft(model, number, width)
        return
    kept = model.file.open(_path("open", rest))
    model.forget()
    if kept:
        yield from folded("what was here is kept: open draft brings it back", width)
    if model.file.is_open_elsewhere():
        yield from folded(
            f"{model.file.name} is open at another prompt too: whoever saves second is told, and nothing is lost",
            width,
        )
    yield from _opened(model, width)


def save(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Write the sheet to its file, or to a new one."""
    if rest.lower().startswith("over ") and not Path(rest).exists():
        raise Refused(
            "save over is gone: open FILE goes on with a sheet that is there, and save writes it back; "
            "save FILE writes a new file"
        )
    had = model.file.path
    unsaved = model.file.unsaved
    path = model.file.save(_path("save", rest) if rest else None)
    if not unsaved and path == had:
        yield from folded(f"nothing has changed since {visible(path.name)} was saved", width)
        return
    count = so_many(len(model.state.rows.rows), "line")
    yield from folded(f"{count} saved to {visible(rest or path.name)}", width)


def print_(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Write the sheet as a page, PDF, table or text."""
    endings = ", ".join(form.ending for form in FORMS.values())
    if not rest:
        raise Refused(
            f"print needs the name of a file, by its ending one of {endings}; write print cabinet.pdf"
        )
    path = _path("print", rest)
    form = next((form for form in FORMS.values() if form.ending == path.suffix.lower()), None)
    if form is None:
        raise Refused(f"the ending of {visible(str(path))} tells no form: the endings are {endings}")
    if model.file.path is not None and path.absolute() == model.file.path:
        raise Refused(f"{visible(str(path))} is the sheet itself: print to another file")
    sheet = model.state.sheet
    assert isinstance(sheet, Sheet)
    try:
        refuse_to_spoil(str(path), False)
        written = form.write(sheet, Asked(marked=True))
        write_whole(path, written.encode("utf-8") if isinstance(written, str) else written)
    except Stop as stop:
        raise Refused(
            str(stop).replace(
                "add --replace to write over it, or write to another file", "print to another file"
            )
        ) from None
    except (OSError, ValueError, ShopError) as error:
        raise Refused(
            f"{visible(str(path))} cannot be written: {getattr(error, 'strerror', None) or error}"
        ) from None
    yield from folded(f"printed to {visible(str(path))}; {verdict_text(sheet.verdict)}", width)


def clear(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Clear the window, which the screen does, or begin an empty sheet."""
    if rest and rest != "sheet":
        raise Refused("clear clears the window, clear sheet begins an empty sheet; write one of them")
    if not rest:
        yield "\f"
        return
    kept = model.file.clear()
    model.forget()
    yield "an empty sheet" + ("; what was here is kept: open draft brings it back" if kept else "")


def load(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """A word that people type for open."""
    raise Refused(
        f"a sheet is opened with open, which keeps it as it is: write open {visible(rest) or 'cabinet.txt'}"
    )


def _open_draft(model: PromptModel, number: str, width: int) -> Iterator[str]:
    drafts = model.file.drafts.waiting()
    if not drafts:
        raise Refused("no draft is waiting")
    place = int(number) if number.isdecimal() and len(number) < 4 else 1 if not number else 0
    if not 1 <= place <= len(drafts):
        raise Refused(
            f"{so_many(len(drafts), 'draft')} waiting: write open draft, or open draft 2 for an earlier one"
        )
    model.file.open_draft(drafts[place - 1])
    model.forget()
    where = f"the draft of {model.file.name}" if model.file.name else "the draft of a sheet without a file"
    yield from folded(f"{where}; it is not saved yet", width)
    if len(drafts) > 1 and not number:
        yield from folded(
            f"{so_many(len(drafts) - 1, 'older draft')} waiting: open draft 1 brings the next", width
        )
    yield from _opened(model, width)


def _opened(model: PromptModel, width: int) -> Iterator[str]:
    sheet = model.state.sheet
    count = so_many(len(model.state.rows.rows), "line")
    yield from folded(f"{sheet.title}: {count}; {verdict_text(sheet.verdict)}", width)
    for fault in sheet.faults[:_MOST_FAULTS]:
        yield from folded(f"line {fault.line}: {fault.message}", width)
    if len(sheet.faults) > _MOST_FAULTS:
        yield f"and {so_many(len(sheet.faults) - _MOST_FAULTS, 'fault')} more: sheet shows where"


def _path(word: str, rest: str) -> Path:
    name = rest.strip()
    if len(name) > 1 and name[0] == name[-1] and name[0] in "'\"":
        name = name[1:-1]
    if not name:
        raise Refused(f"{word} needs the name of a file; write {word} cabinet.txt")
    try:
        return Path(name).expanduser()
    except RuntimeError:
        return Path(name)
