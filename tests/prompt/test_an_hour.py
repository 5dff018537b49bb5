"""An hour at the prompt: a drawer front is made again, with every word that the prompt has, and the sheet is kept."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from emulator import ENTER, Terminal

from fractions_shop.errors import InputError
from fractions_shop.prompt.drafts import DraftStore
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import WORDS, own_word
from fractions_shop.prompt.replies import Replies
from fractions_shop.show.sheet import Sheet

HERE = Path(__file__).parent
TYPED = (HERE / "an_hour.txt").read_text(encoding="utf-8").splitlines()[2:]
KEPT = HERE / "an_hour.shop"


class Hour:
    """The prompt in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.out = io.StringIO()
        self.model = PromptModel(drafts=DraftStore(folder / "drafts"))
        self.replies = Replies(self.model, LineStore(None), self.out)

    def type(self, line: str) -> bool:
        """Type one line; whether it leaves."""
        for word, name in (("FILE", "front.shop"), ("OTHER", "other.shop"), ("PAGE", "front.html")):
            line = line.replace(word, str(self.folder / name))
        return self.replies.line(line, 80, 20)


def test_an_hour_ends_in_the_sheet_that_is_kept(tmp_path: Path) -> None:
    hour = Hour(tmp_path)
    (tmp_path / "other.shop").write_text("mine\n")
    for typed in TYPED:
        refused, line = typed.startswith("! "), typed.removeprefix("! ")
        before, start = hour.model.state.rows.data(), hour.out.tell()
        try:
            left = hour.type(line)
        except InputError:
            assert refused, line
            assert hour.model.state.rows.data() == before
            continue
        assert not refused or own_word(line) is not None, line
        assert line in ("", "quit", "clear") or line.startswith("#") or hour.out.tell() > start, line
        assert left == (line == "quit"), line
    assert (tmp_path / "front.shop").read_text(encoding="utf-8") == KEPT.read_text(encoding="utf-8")
    assert hour.model.state.rows.data() == KEPT.read_bytes()
    assert Sheet.read(KEPT).ok
    assert (tmp_path / "other.shop").read_text() == "mine\n"
    assert b"height" in (tmp_path / "front.html").read_bytes()


@pytest.mark.parametrize("word", sorted(WORDS))
def test_the_hour_has_every_word_of_the_prompt(word: str) -> None:
    assert any((own_word(line.removeprefix("! ")) or ("",))[0] == word for line in TYPED)


def test_the_hour_typed_key_by_key_ends_in_the_same_sheet(tmp_path: Path) -> None:
    model = PromptModel(drafts=DraftStore(tmp_path / "drafts"))
    (tmp_path / "other.shop").write_text("mine\n")
    with Terminal(model=model, rows=24) as terminal:
        buffer = terminal.shown.buffer
        for typed in TYPED:
            line = typed.removeprefix("! ")
            for word, name in (("FILE", "front.shop"), ("OTHER", "other.shop"), ("PAGE", "front.html")):
                line = line.replace(word, str(tmp_path / name))
            terminal.press(*line)
            terminal.see(lambda line=line: buffer.text == line)  # type: ignore[misc]
            terminal.press(ENTER)
            if line == "quit":
                break
            if not line:
                terminal.see(lambda: model.mode is None)
                continue
            terminal.see(lambda: not buffer.text or buffer.validation_error is not None)
            if buffer.text:
                assert typed.startswith("! "), typed
                terminal.press("\x03")
                terminal.see(lambda: not buffer.text)
    assert (tmp_path / "front.shop").read_text(encoding="utf-8") == KEPT.read_text(encoding="utf-8")
    assert model.state.rows.data() == KEPT.read_bytes()
