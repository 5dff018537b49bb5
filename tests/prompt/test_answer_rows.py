"""An answer in the window: cautions in full once and never folded away, help folded, short lists where it is narrow."""

from __future__ import annotations

import io

import pytest

from fractions_shop import Session
from fractions_shop.figures.plain import Caution, in_columns, laid_out
from fractions_shop.figures.table import Table
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.replies import Replies
from fractions_shop.threads.thread import LOAD_CAUTION


class Window:
    """A prompt in a window of some columns and rows."""

    def __init__(self, columns: int = 80, rows: int = 24) -> None:
        self.columns, self.rows = columns, rows
        self.out = io.StringIO()
        self.replies = Replies(PromptModel(), LineStore(None), self.out)

    def answer(self, line: str) -> list[str]:
        """What a line is answered, row by row, without the indent."""
        start = self.out.tell()
        self.replies.line(line, self.columns, self.rows)
        return [row[2:] for row in self.out.getvalue()[start:].splitlines() if row.strip()]


def joined(rows: list[str]) -> str:
    return " ".join(" ".join(rows).split())


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (40, 24), (40, 8), (80, 0)])
def test_a_caution_stands_in_full_once_whatever_is_folded_away(columns: int, rows: int) -> None:
    window = Window(columns, rows)
    assert f"caution: {LOAD_CAUTION}" in joined(window.answer("thread 6 BA"))
    assert "caution as for 6 BA" in window.answer("thread 6 BA")
    assert "caution as for 6 BA" in window.answer("thread 1/4 BSF")
    # Another caution is another sentence, in full.
    assert "caution: two readings do not prove a thread" in joined(window.answer("identify 2.75 mm, 0.53 mm"))
    assert "where a thread holds gas, steam or other pressure" in joined(window.answer("thread G1/4"))
    assert f"caution: {LOAD_CAUTION}" in joined(window.answer("show 1"))


def test_a_caution_is_the_same_text_everywhere_else() -> None:
    answer = Session().answer("thread 6 BA")
    assert answer is not None
    assert "".join(line for line in answer.lines() if isinstance(line, Caution)) == f"caution: {LOAD_CAUTION}"
    assert f"caution: {LOAD_CAUTION}" in joined(answer.text().splitlines())


@pytest.mark.parametrize("word", ["help", "names", "why n"])
def test_help_names_and_why_are_folded_like_answers(word: str) -> None:
    window = Window(60, 10)
    for n in range(12):
        window.answer(f"{'n' * (n + 1)} = {'n' * n + ' + ' if n else ''}1/4 in")
    whole = Window(60, 0)
    whole.replies.model = window.replies.model
    said = whole.answer(word.replace("why n", f"why {'n' * 12}"))
    first = window.answer(word.replace("why n", f"why {'n' * 12}"))
    assert first[:-1] == said[:6]
    assert first[-1] == f"{len(said) - 6} lines more: write more" or word == "help"
    seen = first[:-1]
    while first[-1].endswith("write more"):
        first = window.answer("more")
        seen += first[:-1] if first[-1].endswith("write more") else first
    assert seen == said


@pytest.mark.parametrize(
    "line",
    [
        "thread 6 BA",
        "mark 2 in into 5",
        "drill 0.11 in",
        "gauge 0.1 in",
        "identify 0.11 in, 1/40 in",
        "recover 10.3 mm",
    ],
)
def test_at_forty_columns_a_table_is_a_short_list_and_show_has_the_rest(line: str) -> None:
    window = Window(40, 0)
    rows = window.answer(line)
    assert all(len(row) <= 38 for row in rows)
    answer = Session().answer(line)
    assert answer is not None
    assert len(rows) < len(answer.text(38).splitlines())
    assert "shortened to the window: show 1 has the rest" in joined(rows)
    shown = window.answer("show 1")
    for row in answer.text(38).splitlines():
        assert joined([row]) in joined(shown)


def test_how_far_a_figure_may_be_trusted_stays_in_a_short_list() -> None:
    rows = Window(40, 0).answer("thread 1/4 BSF")
    clearance = next(row for row in rows if row.strip().startswith("clearance:"))
    assert "one source" in clearance


def test_what_matters_is_kept_where_there_is_no_room_for_all() -> None:
    table = Table((("a", "x" * 20, "y" * 9, "likely"),), ("", "long", "middle", ""), ("",))
    assert in_columns(table, 60)[1] == f"  a  {'x' * 20}  {'y' * 9}  likely"
    assert laid_out([table], 24, short=True).splitlines()[-1] == f"  a  {'y' * 9}  likely"


def test_a_window_wide_enough_shows_tables_as_they_are() -> None:
    answer = Session().answer("thread 6 BA")
    assert answer is not None
    rows = Window(82, 0).answer("thread 6 BA")
    assert [row for row in rows if row] == [row for row in answer.text(80).splitlines() if row.strip()]
