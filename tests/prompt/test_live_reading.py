"""The row beneath the line: what it reads, when it waits, and what it never does."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from emulator import ENTER, Terminal

from fractions_shop.prompt.costly import is_costly
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.worker import Task
from fractions_shop.sheet.session import Session
from fractions_shop.size.rule import Rule


def test_the_answer_stands_beneath_before_enter() -> None:
    """Behaviour 1."""
    with Terminal() as terminal:
        terminal.press("2 1/32 in / 5")
        terminal.see(lambda: terminal.beneath().startswith("  reads 13/32 in = 0.40625 in"))
        assert terminal.prompts == 1


def test_the_terminal_is_asked_nothing() -> None:
    """Behaviour 2: a terminal that never answers costs no time, because it is never asked."""
    with Terminal() as terminal:
        terminal.press("51.5 mm")
        terminal.see("reads 51.5 mm exactly")
        terminal.press(ENTER)
        terminal.see(lambda: terminal.prompts == 2)
    assert "\x1b[6n" not in terminal.glass.raw


def test_a_reading_that_takes_long_keeps_no_key_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    """Behaviour 3, without a clock: keys are shown while a reading is still being worked out."""
    let_go = threading.Event()
    work_out = Session.work_out

    def slow(self: Session, statement: object, text: str) -> object:
        assert let_go.wait(30)
        return work_out(self, statement, text)  # type: ignore[arg-type]

    monkeypatch.setattr(Session, "work_out", slow)
    with Terminal() as terminal:
        terminal.press("2 in / 5")
        terminal.see("working it out")
        terminal.press(" + 3 mm")
        terminal.see_last("2 in / 5 + 3 mm")
        let_go.set()
        terminal.see("reads 13.16 mm")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        pytest.param("7^7^7^7 * 1 in", "powers are read from", id="powers"),
        pytest.param("9999999999^64^64", "powers are read from", id="power-of-power"),
        pytest.param("1" * 300 + " in", "not a size", id="digits"),
        pytest.param("(" * 60 + "1", "brackets stand inside one another", id="brackets"),
        pytest.param("1 in + " * 1400 + "1 in", "characters long", id="ten-thousand-characters"),
    ],
)
def test_a_hostile_line_is_refused(text: str, said: str) -> None:
    """Behaviour 4."""
    found = PromptModel().settled(text)
    assert found.error is not None
    assert said in found.error.message


def test_ten_thousand_characters_are_taken_and_refused_on_the_screen() -> None:
    """Behaviour 4."""
    with Terminal(rows=60) as terminal:
        terminal.press("\x1b[200~" + "1 in + " * 400 + "1 in\x1b[201~")
        terminal.see("characters long")


@pytest.mark.parametrize(
    "text",
    ["2 +", "2 in /", "divide 2 in into", "sqrt(2 in", "(2 in + 3 mm", "snap 10 mm to", "pack 1 in from"],
)
def test_half_a_line_is_no_fault(text: str) -> None:
    """Behaviour 5."""
    found = PromptModel().settled(text)
    assert found.kind == "open"
    assert found.words.endswith("to follow")


def test_half_a_line_shows_no_word_of_fault() -> None:
    """Behaviour 5."""
    with Terminal() as terminal:
        terminal.press("2 +")
        terminal.see(lambda: terminal.beneath() == "  so far: a size is to follow")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("pit", "open"),
        ("2 in + 3", "open"),
        ("2 i", "open"),
        ("foo * 2 in", "fault"),
        ("foo * 2 in + hyp", "fault"),
        ("thread 1/4-", "open"),
        ("No 6-3", "open"),
        ("51,5", "fault"),
        ("51,5 mm", "fault"),
        ("2 % 3", "fault"),
        ("2 in + 5'%", "fault"),
        ("names", "word"),
        ("# a note", "note"),
    ],
)
def test_a_fault_is_one_only_where_typing_on_cannot_mend_it(text: str, kind: str) -> None:
    assert PromptModel().settled(text).kind == kind


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("hyp", "the start of hypot"),
        ("thread 1/4-", "the start of 1/4-20 UNC, 1/4-26 BSC, 1/4-28 UNF or 3 more"),
        ("6 B", "the start of 6 BA or 6 BSW"),
        ("rule 3", "the start of 32nds"),
        ("2 in + foo", "nothing is named foo yet; give it a size first, such as foo = 2 1/32 in"),
    ],
)
def test_a_word_half_typed_is_shown_as_the_start_of_what_it_may_become(text: str, words: str) -> None:
    assert PromptModel().settled(text).words == words


def test_each_text_is_worked_out_once_enter_included(monkeypatch: pytest.MonkeyPatch) -> None:
    texts: list[str] = []
    work_out = Session.work_out

    def counted(self: Session, statement: object, text: str) -> object:
        texts.append(text)
        return work_out(self, statement, text)  # type: ignore[arg-type]

    monkeypatch.setattr(Session, "work_out", counted)
    with Terminal() as terminal:
        terminal.answer("pitch = 2 in / 5", "pitch = 2/5 in")
    assert texts.count("pitch = 2 in / 5") == 1


def test_a_reading_remembers_nothing() -> None:
    model = PromptModel()
    assert model.settled("width = 3 in").answer is not None
    assert model.settled("rule 32nds").answer is not None
    assert (model.names, model.rule) == ({}, Rule("64ths"))


def test_a_reading_is_made_anew_when_a_name_changes() -> None:
    model = PromptModel()
    model.enter("width = 3 in")
    assert model.settled("width * 2").words.startswith("6 in")
    model.enter("width = 5 in")
    assert model.settled("width * 2").words.startswith("10 in")


def test_a_length_that_no_drawing_writes_is_read_while_it_is_typed() -> None:
    model = PromptModel()
    found = model.settled("3 nautical_mile")
    assert "5556000 mm" in found.words.replace(" ", "").replace("mm", " mm")
    assert model.settled("3 nautical_mi").kind == "open"


def test_a_slip_of_ours_ends_no_session(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(self: Session, statement: object, text: str) -> object:
        raise TypeError("a slip")

    with Terminal() as terminal:
        terminal.answer("1 in", "25.4 mm")
        with monkeypatch.context() as patch:
            patch.setattr(Session, "work_out", broken)
            terminal.press("2 in", ENTER)
            terminal.see("by a fault of this program")
        terminal.press("\x03")
        terminal.see_last("")
        terminal.answer("3 in", "76.2 mm")


def test_a_line_entered_before_it_is_worked_out_comes_back_when_it_is_at_fault(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    let_go = threading.Event()
    work_out = Session.work_out

    def slow(self: Session, statement: object, text: str) -> object:
        if text == "2 in + foo * 3":
            assert let_go.wait(30)
        return work_out(self, statement, text)  # type: ignore[arg-type]

    monkeypatch.setattr(Session, "work_out", slow)
    with Terminal() as terminal:
        terminal.press("2 in + foo * 3")
        terminal.see("working it out")
        terminal.press(ENTER)
        terminal.see(lambda: "working it out" not in "".join(terminal.glass.lines()))
        let_go.set()
        terminal.see("nothing is named foo yet (column 8)")
        terminal.see(lambda: terminal.prompts == 2 and terminal.typed == "2 in + foo * 3")
        assert terminal.glass.cursor()[1] == len("64ths: 2 in + ")


def test_ctrl_c_leaves_a_long_working_and_the_next_line_is_answered(monkeypatch: pytest.MonkeyPatch) -> None:
    let_go, done = threading.Event(), threading.Event()
    work_out = Session.work_out

    def slow(self: Session, statement: object, text: str) -> object:
        if text == "1 in":
            let_go.wait(30)
            done.set()
        return work_out(self, statement, text)  # type: ignore[arg-type]

    monkeypatch.setattr(Session, "work_out", slow)
    model = PromptModel()
    assert model.reading("1 in", 0.01) is None
    with monkeypatch.context() as patch:

        def pressed(self: Task[object], seconds: float) -> object:
            raise KeyboardInterrupt

        patch.setattr(Task, "wait", pressed)
        with pytest.raises(KeyboardInterrupt):
            model.settled("1 in")
    answer = model.enter("2 in")
    assert not done.is_set()  # what was left is still at work, and nothing waited for it
    assert answer is not None
    assert model.names["ans"] == answer.value
    let_go.set()


@pytest.mark.parametrize("columns", [20, 40, 80, 200])
def test_the_reading_keeps_to_one_row(columns: int) -> None:
    with Terminal(columns=columns) as terminal:
        terminal.press("51.5 mm")
        terminal.see(lambda: "51.5" in terminal.beneath())
        row = terminal.beneath()
        assert len(row) < columns
        assert row.endswith(("…", "a mark of the half mm rule"))
        assert terminal.beneath(2) == ""


def test_signs_that_the_terminal_cannot_show_are_written_plainly() -> None:
    with Terminal(columns=40, encoding="ascii", pictures=True) as terminal:
        terminal.press("51.5 mm")
        terminal.see(lambda: terminal.beneath().endswith("..."))
        terminal.press(ENTER)
        terminal.see("exactly")
        terminal.press("draw ans", ENTER)
        terminal.see("each tick is")
        terminal.answer("1/2 in +- 2 thou", "1/2 in")
    assert terminal.glass.raw.isascii()


def test_the_prompt_shows_the_working_rule(tmp_path: Path) -> None:
    with Terminal(rule="32nds") as terminal:
        assert terminal.last.startswith("32nds:")
        terminal.press("rule half mm")
        terminal.see("reads sets the working rule to half mm")
        terminal.press(ENTER)
        terminal.see("half mm:")


@pytest.mark.parametrize(
    ("line", "seen"),
    [
        pytest.param("mark 2 in into 5", "0, 13/32, 51/64, 1 13/64, 1 19/32, 2 in; the worst ~0.0062 in", id="mark"),
        pytest.param("mark 2 in into 4", "0, 1/2, 1, 1 1/2, 2 in; every one exact", id="mark-exact"),
        pytest.param("mark 51 mm into 7 on mm", "0, 7, 15, 22, ..., 51 mm", id="mark-metric"),
        pytest.param("crown 6 across 13/32 in radius 7 1/4 in from 11/32 in on 32nds",
                     "heights 9/32, 5/16, 11/32, 11/32, 5/16, 9/32 in", id="crown"),
        pytest.param("recover 10.2 mm", "Probably 0.4 in", id="recover"),
        pytest.param("recover 10.2 mm, 20.4 mm", "0.4 in, 0.8 in", id="recover-several"),
        pytest.param("identify 0.108 in, 48 tpi", "No 4-48 UNF or 6 BA", id="identify"),
        pytest.param("identify 0.07 in, 40 tpi", "none known; the least far 3/32 BSW", id="identify-none-known"),
        pytest.param("substitute 6 BA from metric", "as they are: M3", id="substitute"),
        pytest.param("thread 6 BA", "6 BA major 2.8 mm (~0.1102 in), pitch 0.53 mm", id="thread"),
        # ISO 286-2: H7 of 10 mm is 0 to +15 um, g6 is -5 to -14 um.
        pytest.param("fit 10 mm H7/g6", "clearance 0.005 to 0.029 mm (~0.0002 to ~0.0011 in)", id="fit"),
        pytest.param("fit 10 mm H7", "10 to 10.015 mm", id="zone"),
        # ISO 286-2: s6 of 10 mm is +23 to +32 um, k6 is +1 to +10 um.
        pytest.param("fit 10 mm H7/s6", "interference 0.008 to 0.032 mm", id="interference"),
        pytest.param("fit 10 mm H7/k6", "from 0.01 mm (~0.0004 in) interference to 0.014 mm", id="transition"),
        pytest.param("fit 1 in RC5", "clearance 0.0016 to 0.0036 in", id="fit-inch"),
        pytest.param("pack 9/64 in from 1/16 in, 1/64 in", "2 of 1/16 in (1.5875 mm) + 1/64 in", id="pack"),
        pytest.param("pack 0.1 in from 1/16 in", "not exactly: the nearest is 1/8 in (3.175 mm)", id="pack-inexact"),
        pytest.param("divide 2 in into 5 up", "2 1/32 in (51.59375 mm) falls into 5 spaces of 13/32 in", id="divide"),
        pytest.param("snap 10.3 mm", "13/32 in (10.31875 mm)", id="snap"),
        pytest.param("check 2 in = 51 mm", "FAILS: the first is about 0.0079 in (0.2 mm) under", id="check"),
        pytest.param("drill 2.36 mm", "the nearest is 2.35 mm", id="drill"),
        pytest.param("gauge 18 SWG", "18 SWG: 0.048 in (1.2192 mm)", id="gauge"),
    ],
)  # fmt: skip
def test_the_answer_itself_is_seen_within_eighty_columns(line: str, seen: str) -> None:
    found = PromptModel().settled(line)
    row = f"  reads {found.words}"[:78]
    assert seen in row
    # Nothing but the answer's own word stands before it.
    assert row.index(seen) <= len("  reads about 0.092913 in (2.36 mm); ")


def test_a_named_answer_is_read_by_its_name() -> None:
    assert PromptModel().settled("x = pack 9/64 in from 1/16 in, 1/64 in").words.startswith("x = 9/64 in")


def test_a_reading_that_comes_when_the_prompt_has_ended_is_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    from prompt_toolkit.application import Application

    def ended(self: object) -> None:
        raise RuntimeError("no running event loop")

    with Terminal() as terminal:
        terminal.answer("1 in", "25.4 mm")
        monkeypatch.setattr(Application, "invalidate", ended)
        terminal.model.when_read()
        monkeypatch.undo()


@pytest.mark.parametrize(
    ("line", "waits"),
    [
        ("lip reads 3 mm by caliper", True), ("bay = 13/32 in", True), ("wide = 3 in", True), ("rack = 5 * bay", True),
        ("bay + 1 in", False), ("half = 1 in", False), ("new = 1 in", False),
    ],
)  # fmt: skip
def test_what_weighs_readings_anew_waits_for_a_pause(line: str, waits: bool) -> None:
    """Also where a name that reads is set by hand, so that the others are weighed without it."""
    model = PromptModel()
    for text in (
        "wide = 2 in",
        "bay reads 10.3 mm by caliper",
        "rack reads 51.5 mm by caliper",
        "half = bay / 2",
        "check bay = wide",
        "recover wide / 5, wide",
    ):
        model.enter(text)
    assert is_costly(model.state, line) is waits
