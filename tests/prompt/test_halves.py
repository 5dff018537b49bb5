"""Bytes that are no UTF-8, as a terminal of another land sends them, are refused, and nothing of the sheet is lost."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from fractions_shop.errors import ShopError
from fractions_shop.prompt.drafts import DraftStore
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.replies import Replies


@pytest.mark.parametrize(
    "line",
    ["2 in \udcff", "# fl\udcfcgel", "## \ud800", "x = 2 in # \udcff", "part l\udce9d: 2 of oak, 1 in by 2 in",
     "rev A: \udcff", "stock oak: 1 in by 2 in, 3 ft long; \udcff", "hole in lid: 1 in at 1 in by 1 in # \udcff"],
)  # fmt: skip
def test_half_a_sign_is_refused_and_the_sheet_goes_on(line: str, tmp_path: Path) -> None:
    model = PromptModel(drafts=DraftStore(tmp_path / "drafts"))
    replies = Replies(model, LineStore(tmp_path / "history"), io.StringIO())
    replies.line("a = 2 in", 80)
    before = model.file.data
    with pytest.raises(ShopError):
        replies.line(line, 80)
    assert model.file.data == before
    replies.line("b = a / 5", 80)
    replies.line(f"save {tmp_path / 'kept.shop'}", 80)
    assert (tmp_path / "kept.shop").read_text("utf-8") == "a = 2 in\nb = a / 5\n"
    (draft,) = (tmp_path / "drafts").glob("*.draft")
    assert draft.read_bytes().endswith(b"a = 2 in\nb = a / 5\n")


def test_a_part_takes_no_name_with_half_a_sign(tmp_path: Path) -> None:
    model = PromptModel(drafts=DraftStore(tmp_path / "drafts"))
    replies = Replies(model, LineStore(tmp_path / "history"), io.StringIO())
    replies.line("part lid: 2 of oak, 1 in by 2 in", 80)
    before = model.file.data
    replies.line("rename lid to l\udce9d", 80)
    assert model.file.data == before
