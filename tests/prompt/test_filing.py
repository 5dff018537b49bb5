"""open, save, print, drafts: a file is what it was but for the lines touched, and nothing that was typed is lost."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fractions_shop.prompt import commands, drafts
from fractions_shop.prompt.drafts import DraftStore
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import own_word
from fractions_shop.prompt.replies import Replies

SHEET = """\
## Specimen-slide cabinet
# measured in the attic

## Runner
width = 2 1/32 in  # fitted dry
bay = width / 5
part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge
check bay * 5 = width
early = late * 2
late = 3 in
# end
"""
#: Files as other programs leave them.
FILES = {
    "plain": SHEET.encode(),
    "windows": SHEET.replace("\n", "\r\n").encode(),
    "marked": b"\xef\xbb\xbf" + SHEET.encode(),
    "no final line end": SHEET.encode()[:-1],
    "mixed ends": b"a = 2 in\r\nb = 3 in\rc = a\n\n",
    "letters composed": "# caf\u00e9\na = 2 in\n".encode(),
    "letters decomposed": "# cafe\u0301\na = 2 in\n".encode(),
    "faults": b"a = 2 in +\nnonsense here\n\x07bell\nb = 1 in\n",
}


def told(model: PromptModel, line: str, width: int = 300) -> str:
    word = own_word(line, model.names)
    assert word is not None
    return "\n".join(commands.run(model, *word, width))


def refused(model: PromptModel, line: str) -> str:
    with pytest.raises(commands.Refused) as caught:
        told(model, line)
    return str(caught.value)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "trays.shop"
    made.write_text(SHEET, encoding="utf-8")
    return made


@pytest.fixture
def store(tmp_path: Path) -> DraftStore:
    return DraftStore(tmp_path / "state" / "drafts")


# Byte for byte


@pytest.mark.parametrize("kind", FILES)
def test_a_file_opened_and_saved_is_the_same_byte_for_byte(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "x.shop"
    path.write_bytes(FILES[kind])
    model = PromptModel()
    told(model, f"open {path}")
    assert told(model, "save") == "nothing has changed since x.shop was saved"
    told(model, f"save {tmp_path / 'copy.shop'}")
    assert path.read_bytes() == (tmp_path / "copy.shop").read_bytes() == FILES[kind]


@pytest.mark.parametrize("kind", ["plain", "windows", "marked", "no final line end"])
def test_only_the_line_touched_differs(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "x.shop"
    path.write_bytes(FILES[kind])
    model = PromptModel()
    told(model, f"open {path}")
    model.enter("width = 3 in")
    told(model, "save")
    assert path.read_bytes() == FILES[kind].replace(b"width = 2 1/32 in", b"width = 3 in")


def test_what_is_typed_after_opening_is_a_line_of_the_sheet(path: Path) -> None:
    model = PromptModel()
    assert told(model, f"open {path}") == "Specimen-slide cabinet: 11 lines; 1 check, which holds"
    model.enter("# to be cut on Monday")
    model.enter("part frame: 2 of oak, bay by 1/2 in")
    assert told(model, "save") == "13 lines saved to trays.shop"
    assert path.read_text() == SHEET + "# to be cut on Monday\npart frame: 2 of oak, bay by 1/2 in\n"


def test_a_new_sheet_gets_its_file_and_keeps_it(tmp_path: Path) -> None:
    model = PromptModel("32nds")
    model.enter("## Tray")
    model.enter("a = 2 in")
    assert told(model, f"save {tmp_path / 'new.shop'}").startswith("3 lines saved to ")
    model.enter("a = 3 in")
    assert told(model, "save") == "3 lines saved to new.shop"
    assert (tmp_path / "new.shop").read_text() == "## Tray\nrule 32nds\na = 3 in\n"


# What is refused, so that nothing is lost


def test_another_file_is_never_written_over(path: Path) -> None:
    model = PromptModel()
    model.enter("a = 2 in")
    assert refused(model, f"save {path}") == (
        f"{path} is there already: save to another file, or open it to go on with it"
    )
    assert refused(model, f"save over {path}").startswith("save over is gone: open FILE goes on")
    assert path.read_text() == SHEET


def test_a_file_changed_meanwhile_is_noticed_when_it_is_saved(path: Path, store: DraftStore) -> None:
    model = PromptModel(drafts=store)
    told(model, f"open {path}")
    path.write_text(SHEET + "# by another hand\n")
    model.enter("width = 3 in")
    assert refused(model, "save").startswith("trays.shop has been changed since it was opened")
    assert path.read_text() == SHEET + "# by another hand\n"
    assert told(model, f"open {path}").splitlines()[0] == "what was here is kept: open draft brings it back"
    told(model, "open draft")
    assert model.names["width"].inch == 3  # type: ignore[union-attr]
    assert refused(model, "save").startswith("trays.shop has been changed since it was opened")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("save", "save needs the name of a file; write save cabinet.txt"),
        ("open", "open needs the name of a file"),
        ("open nowhere.txt", "nowhere.txt cannot be read: No such file"),
        ("open .", "is not a file of statements"),
        ("save nowhere/x.txt", "cannot be written: No such file"),
        ("open bad.txt", r"bad.txt is not text in UTF-8 \(line 2\)"),
        ("open wide.txt", "wide.txt is in UTF-16"),
        ("open draft", "no draft is waiting"),
        ("print", "print needs the name of a file"),
        ("print x.doc", "tells no form"),
        ("print other.txt", "is there already, and not as this command writes it: print to another file"),
        ("clear all", "clear clears the window"),
        (f"save {'x' * 300}", "cannot be written"),
        ("save a\0b", "cannot be written"),
        ("open a\0b", "cannot be read"),
    ],
)
def test_what_cannot_be_done_is_said(
    line: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bad.txt").write_bytes(b"2 in\n\xff\n")
    (tmp_path / "wide.txt").write_bytes("2 in\n".encode("utf-16"))
    (tmp_path / "other.txt").write_text("mine")
    model = PromptModel()
    model.enter("2 in")
    with pytest.raises(commands.Refused, match=said):
        told(model, line)


def test_an_empty_sheet_is_nothing_to_save(tmp_path: Path) -> None:
    assert (
        refused(PromptModel(), f"save {tmp_path / 'x.txt'}")
        == "there is nothing to save yet: the sheet is empty"
    )


@pytest.mark.parametrize("ending", ["txt", "md", "csv", "json", "html"])
def test_a_sheet_is_printed_by_the_ending_of_its_file_again_and_again(
    ending: str, path: Path, tmp_path: Path
) -> None:
    model = PromptModel()
    told(model, f"open {path}")
    for _ in range(2):
        assert told(model, f"print {tmp_path / f'page.{ending}'}").startswith("printed to ")
    assert b"bay" in (tmp_path / f"page.{ending}").read_bytes()
    assert path.read_text() == SHEET


def test_what_was_printed_is_told_with_what_it_rests_on(tmp_path: Path) -> None:
    sheet = tmp_path / "front.shop"
    sheet.write_text("front reads 51.5 mm\ncheck front = 2 1/32 in\n", encoding="utf-8")
    model = PromptModel()
    told(model, f"open {sheet}")
    said = told(model, f"print {tmp_path / 'page.txt'}")
    assert said.endswith("page.txt; 1 check, which holds; 1 size and 1 check rest on doubtful readings")


# Drafts


def test_a_draft_is_kept_after_each_line_and_offered_after_a_crash(path: Path, store: DraftStore) -> None:
    model = PromptModel(drafts=store)
    replies = Replies(model, LineStore(None), _Out())
    replies.line(f"open {path}", 80)
    replies.line("width = 3 in", 80)
    assert store.waiting() == []  # the prompt that keeps it is at work
    assert store.folder is not None
    store._let_go()  # as when its process ends
    out = _Out()
    later = PromptModel(drafts=DraftStore(store.folder))
    Replies(later, LineStore(None), out).greet(80)
    assert out.text == "left unfinished just now: trays.shop, 11 lines; open draft brings it back\n"
    assert told(later, "open draft").splitlines()[0] == "the draft of trays.shop; it is not saved yet"
    told(later, "save")
    assert path.read_text() == SHEET.replace("2 1/32 in", "3 in")


def test_what_is_not_saved_is_kept_when_one_leaves_and_nothing_else(path: Path, store: DraftStore) -> None:
    model = PromptModel(drafts=store)
    out = _Out()
    replies = Replies(model, LineStore(None), out)
    replies.line("a = 2 in", 80)
    replies.leave(80)
    assert out.text.endswith("what is not saved is kept: open draft brings it back\n")
    again = PromptModel(drafts=DraftStore(store.folder))
    out = _Out()
    Replies(again, LineStore(None), out).greet(80)
    assert out.text == ""  # it was left on purpose
    told(again, "open draft")
    assert again.names["a"].inch == 2  # type: ignore[union-attr]
    told(again, f"save {path.parent / 'saved.shop'}")
    Replies(again, LineStore(None), _Out()).leave(80)
    assert DraftStore(store.folder).waiting() == []
    assert list(store.folder.iterdir()) == []  # type: ignore[union-attr]


def test_only_so_many_sheets_that_were_left_are_kept(store: DraftStore) -> None:
    for n in range(drafts.MOST_LEFT + 3):
        store.leave("", b"", f"a = {n} in\n".encode())
    kept = [draft.data for draft in store.waiting()]
    assert len(kept) == drafts.MOST_LEFT
    assert kept[0] == f"a = {drafts.MOST_LEFT + 2} in\n".encode()


def test_a_second_prompt_on_one_file_is_told(path: Path, store: DraftStore) -> None:
    first, second = PromptModel(drafts=store), PromptModel(drafts=DraftStore(store.folder))
    assert "at another prompt" not in told(first, f"open {path}")
    assert told(second, f"open {path}").splitlines()[0] == (
        "trays.shop is open at another prompt too: whoever saves second is told, and nothing is lost"
    )
    first.enter("width = 3 in")
    second.enter("width = 4 in")
    told(first, "save")
    assert refused(second, "save").startswith("trays.shop has been changed since it was opened")
    assert path.read_text() == SHEET.replace("2 1/32 in", "3 in")


def test_a_full_disk_is_told_once_and_work_goes_on(
    store: DraftStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    model, out = PromptModel(drafts=store), _Out()
    replies = Replies(model, LineStore(None), out)
    replies.line("a = 2 in", 120)
    monkeypatch.setattr(drafts, "write_whole", full)
    replies.line("b = a * 2", 120)
    replies.line("c = a * 3", 120)
    said = "no draft can be kept (No space left on device): save before you leave; everything else goes on"
    assert out.text.count(said) == 1
    assert model.names["c"].inch == 6  # type: ignore[union-attr]
    monkeypatch.undo()
    replies.line("d = a * 4", 120)
    store._let_go()
    assert store.waiting()[0].data == b"a = 2 in\nb = a * 2\nc = a * 3\nd = a * 4\n"


def test_a_full_disk_spoils_no_file(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from fractions_shop.prompt import sheet_file

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    model = PromptModel()
    told(model, f"open {path}")
    model.enter("width = 3 in")
    monkeypatch.setattr(sheet_file, "write_whole", full)
    assert refused(model, "save") == "trays.shop cannot be written: No space left on device"
    assert path.read_text() == SHEET
    monkeypatch.undo()
    told(model, "save")
    assert "width = 3 in" in path.read_text()


def _fill_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(drafts, "write_whole", full)


def test_a_draft_that_is_opened_lies_there_until_it_is_kept_anew(
    store: DraftStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = PromptModel(drafts=store)
    first.enter("a = 2 in")
    first.file.leave()
    _fill_disk(monkeypatch)
    second = PromptModel(drafts=DraftStore(store.folder))
    told(second, "open draft")
    assert second.file.data == b"a = 2 in\n"
    # A kill now would lose it, were it not there still.
    assert [draft.data for draft in store.waiting()] == [b"a = 2 in\n"]
    monkeypatch.undo()
    third = PromptModel(drafts=DraftStore(store.folder))
    told(third, "open draft")
    assert store.waiting() == []
    third.file.leave()
    assert [draft.data for draft in store.waiting()] == [b"a = 2 in\n"]


@pytest.mark.parametrize("line", ["open {}", "clear sheet", "open draft"])
def test_what_is_not_saved_and_cannot_be_kept_makes_no_room_for_another_sheet(
    line: str, path: Path, store: DraftStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    DraftStore(store.folder).leave("", b"", b"b = 1 in\n")
    model = PromptModel(drafts=store)
    model.enter("a = 2 in")
    _fill_disk(monkeypatch)
    said = (
        "what is here is not saved, and no draft of it can be kept (No space left on device): save it first"
    )
    assert refused(model, line.format(path)) == said
    assert model.file.data == b"a = 2 in\n"
    told(model, f"save {path.parent / 'new.shop'}")
    told(model, "clear sheet")
    assert model.file.data == b""


@pytest.mark.parametrize("junk", [b"", b"\xff\xfe", b"{}\n", b'{"file": 3}\nx', b"\n" * 50])
def test_a_file_among_the_drafts_that_is_none_is_left_alone(junk: bytes, store: DraftStore) -> None:
    assert store.folder is not None
    store.folder.mkdir(parents=True)
    (store.folder / "x.draft").write_bytes(junk)
    assert store.waiting() == []
    store.leave("", b"", b"a = 1 in\n")
    assert len(store.waiting()) == 1


def test_a_folder_that_cannot_be_made_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    model, out = PromptModel(drafts=DraftStore(tmp_path / "file" / "drafts")), _Out()
    replies = Replies(model, LineStore(None), out)
    replies.greet(80)
    replies.line("a = 2 in", 80)
    assert "no draft can be kept" in " ".join(out.text.split())


@pytest.mark.skipif(os.name != "posix", reason="of a POSIX system")
def test_a_draft_survives_a_kill_and_its_prompt_no_longer_holds_it(tmp_path: Path) -> None:
    folder = tmp_path / "drafts"
    code = (
        "from pathlib import Path; import sys, time; from fractions_shop.prompt.drafts import DraftStore; "
        f"store = DraftStore(Path({str(folder)!r})); store.keep('', b'', b'a = 2 in\\n'); print('kept', flush=True); time.sleep(600)"
    )
    with subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "kept\n"
        store = DraftStore(folder)
        assert store.waiting() == []
        process.send_signal(signal.SIGKILL)
        process.wait()
        (draft,) = store.waiting()
    assert (draft.data, draft.left, draft.file) == (b"a = 2 in\n", False, "")
    assert draft.written <= time.time() + 5


class _Out:
    """A stream that keeps what is written."""

    encoding = "utf-8"

    def __init__(self) -> None:
        self.text = ""

    def write(self, text: str) -> None:
        self.text += text

    def flush(self) -> None:
        pass
