"""What the keys do: faults, menus, earlier lines, clearing, leaving, pasting, resizing."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from emulator import BACKSPACE, DOWN, ENTER, ESCAPE, HOME, LEFT, RIGHT, TAB, UP, Terminal
from prompt_toolkit.data_structures import Size

from fractions_shop.prompt.folds import Folds

CTRL_C, CTRL_D, CTRL_R = "\x03", "\x04", "\x12"


def pasted(text: str) -> str:
    return f"\x1b[200~{text}\x1b[201~"


# Faults


def test_enter_on_a_bad_line_keeps_it_with_the_cursor_on_the_fault() -> None:
    """Behaviour 6."""
    with Terminal() as terminal:
        terminal.press("2 in + foo * 3", ENTER)
        terminal.see("nothing is named foo yet (column 8)")
        assert terminal.typed == "2 in + foo * 3"
        assert terminal.glass.cursor() == (terminal.row, len("64ths: 2 in + "))
        terminal.press("\x0b3 mm")  # Ctrl-K: mended from the fault on
        terminal.see("reads 53.8 mm exactly")


@pytest.mark.parametrize(
    ("text", "before"),
    [
        pytest.param("2 in + foo", 7, id="plain"),
        pytest.param("２ in ＋ foo", 9, id="full-width"),
        pytest.param("2½″ × foo", 6, id="typographic"),
        pytest.param("é" * 3 + " + foo", 6, id="accents"),
    ],
)
def test_the_caret_stands_under_the_very_place(text: str, before: int) -> None:
    """Behaviour 7; `before` counts cells, a full-width sign two."""
    with Terminal() as terminal:
        if text[0] == "é":
            terminal.answer("ééé = 2 in", "50.8 mm")
        terminal.press(text, ENTER)
        terminal.see("nothing is named foo yet (column")
        assert terminal.beneath() == " " * (len("64ths: ") + before) + "^^^"


def test_a_pasted_tab_is_one_blank_to_the_caret() -> None:
    """Behaviour 7."""
    with Terminal() as terminal:
        terminal.press(pasted("2 in\t+\tfoo"), ENTER)
        terminal.see("nothing is named foo yet (column 8)")
        assert terminal.beneath() == " " * len("64ths: 2 in + ") + "^^^"


def test_a_fault_in_a_line_of_several_rows_is_shown_with_its_piece_of_the_line() -> None:
    with Terminal(columns=40) as terminal:
        text = "1 in + 1 in + 1 in + 1 in + 1 in + 1 in + foo * 2"
        terminal.press(text, ENTER)
        rows = terminal.see("foo yet (column")
        caret = next(n for n, row in enumerate(rows) if row.strip() == "^^^")
        place = rows[caret].index("^")
        assert rows[caret - 1][place : place + 3] == "foo"


def test_the_fault_goes_when_the_line_is_mended() -> None:
    with Terminal() as terminal:
        terminal.press("2 in + foo", ENTER)
        terminal.see("nothing is named foo yet (column")
        terminal.press("\x05", BACKSPACE, BACKSPACE, BACKSPACE, "3 mm", ENTER)
        terminal.see(lambda: terminal.prompts == 2)
        assert terminal.model.names["ans"].mm.numerator == 269  # type: ignore[union-attr]


@pytest.mark.parametrize("refused", ["2 in + foo", "3 in / 0"])
def test_what_is_written_after_a_refused_line_is_a_new_line_and_up_brings_the_old_one_back(
    refused: str,
) -> None:
    with Terminal() as terminal:
        terminal.press(refused, ENTER)
        terminal.see("writing begins a new line")
        terminal.press("7 in", UP)  # no earlier line begins so
        terminal.see(lambda: terminal.typed == "7 in")
        terminal.press(f"{CTRL_C}{UP}{UP}")  # in one piece: nothing is waited for
        terminal.see(lambda: terminal.typed == refused)


def test_a_paste_after_a_refused_line_is_a_new_line() -> None:
    with Terminal() as terminal:
        terminal.press("2 in + foo", ENTER)
        terminal.see("writing begins a new line")
        terminal.press(pasted("7 mm"))
        terminal.see(lambda: terminal.typed == "7 mm")


@pytest.mark.parametrize("key", [HOME, LEFT, RIGHT, BACKSPACE])
def test_a_key_that_moves_or_deletes_begins_to_mend_the_refused_line(key: str) -> None:
    """HOME on a fault at the first sign moves nothing, and is meant all the same."""
    with Terminal() as terminal:
        terminal.press("foo + 2 in", ENTER)
        terminal.see("writing begins a new line")
        terminal.press(key, "x")
        terminal.see(lambda: "x" in terminal.typed and "oo + 2 in" in terminal.typed.replace("x", ""))
        terminal.see(lambda: "writing begins" not in "\n".join(terminal.glass.lines()))


def test_a_line_that_only_stopped_too_soon_goes_on_where_it_ends() -> None:
    with Terminal() as terminal:
        terminal.press("divide 2 in into", ENTER)
        terminal.see("(column")
        terminal.press(" 5")
        terminal.see(lambda: terminal.typed == "divide 2 in into 5")


# The menu


def test_a_dash_behind_a_quarter_offers_what_there_is() -> None:
    """Behaviour 8."""
    with Terminal() as terminal:
        terminal.press("1/4-")
        terminal.see("1/4-32 UNEF")
        shown = terminal.glass.lines()[terminal.row + 2 :]
        for name in ("1/4-20 UNC", "1/4-28 UNF", "1/4-32 UNEF"):
            assert any(name in row for row in shown)
        assert any("unified extra fine" in row for row in shown)


def test_taking_an_offer_replaces_the_whole_designation() -> None:
    """Behaviour 9."""
    with Terminal() as terminal:
        terminal.press("1 in + 1/4-2")
        terminal.see("1/4-28 UNF")
        terminal.press(TAB)
        terminal.see_last("1 in + 1/4-20 UNC")
        terminal.press(TAB, TAB)
        terminal.see_last("1 in + 1/4-28 UNF")
        terminal.press(ENTER)  # takes the offer; the line is not answered yet
        terminal.see(lambda: "unified" not in "".join(terminal.glass.lines()))
        assert terminal.prompts == 1
        terminal.press(ENTER)
        terminal.see(lambda: terminal.prompts == 2)
        assert terminal.model.names["ans"].inch == 1.25  # type: ignore[union-attr]


def test_no_unit_is_offered_behind_a_size() -> None:
    """Behaviour 10."""
    with Terminal() as terminal:
        terminal.press("2 in ", TAB)
        terminal.see_last("2 in as")
        assert "millimetre" not in "".join(terminal.glass.lines())


def test_a_menu_does_not_stand_in_the_way_of_earlier_lines() -> None:
    with Terminal() as terminal:
        terminal.answer("1/4-28 UNF + 2 in", "exactly")
        terminal.answer("3 in", "exactly")
        terminal.press("1/4-")
        terminal.see("1/4-20 UNC")
        terminal.press(UP)
        terminal.see_last("1/4-28 UNF + 2 in")


def test_a_cleared_line_comes_back_and_earlier_ones_by_their_beginning() -> None:
    with Terminal() as terminal:
        terminal.answer("2 in / 5", "exactly")
        terminal.press("51.5 mm + nothing")
        terminal.see_last("51.5 mm + nothing")
        terminal.press("\x03" + UP)
        terminal.see_last("51.5 mm + nothing")
        terminal.press("\x03", "2 in")
        terminal.see_last("2 in")
        terminal.press(UP)
        terminal.see_last("2 in / 5")


def test_the_menu_does_not_open_over_a_complete_size_unless_it_is_asked_for() -> None:
    with Terminal() as terminal:
        terminal.answer("pitch = 2 in", "exactly")
        terminal.answer("pitch_2 = 3 in", "exactly")
        terminal.press("pitch")
        terminal.see(lambda: terminal.beneath().startswith("  reads 2 in"))
        assert terminal.beneath(2) == ""
        terminal.press("\t")
        terminal.see(lambda: "pitch_2" in terminal.beneath(2))


def test_searching_says_when_no_earlier_line_has_it() -> None:
    with Terminal() as terminal:
        terminal.answer("2 in / 5", "exactly")
        terminal.press("\x12", "zz")
        terminal.see("no earlier line has zz")


def test_a_second_search_is_for_what_is_typed_now() -> None:
    with Terminal() as terminal:
        terminal.answer("2 in / 5", "exactly")
        terminal.press("\x12", "in /")
        terminal.see_last("2 in / 5")
        terminal.press(ENTER, CTRL_C, "\x12", "zz")
        terminal.see("no earlier line has zz")


def test_earlier_lines_are_there_when_a_line_begins() -> None:
    """Enter and Up in one piece, as fast hands type them."""
    with Terminal() as terminal:
        terminal.press("2 in / 5")
        terminal.see("reads 2/5 in")
        terminal.press(ENTER + UP)
        terminal.see(lambda: terminal.prompts == 2 and terminal.typed == "2 in / 5")


def test_lines_of_a_paste_come_back_with_up() -> None:
    with Terminal() as terminal:
        terminal.press(pasted("2 in\n3 in\n"))
        terminal.see(lambda: terminal.prompts == 3)
        terminal.press(UP, UP)
        terminal.see(lambda: terminal.typed == "2 in")


@pytest.mark.parametrize("columns", [40, 80])
def test_the_first_hint_is_whole_in_any_window(columns: int) -> None:
    with Terminal(columns=columns) as terminal:
        terminal.see("type a size such as")
        rows = " ".join(" ".join(terminal.glass.lines()).split())
        assert rows.endswith("type a size such as 2 1/32 in / 5, a request (divide 2 in into 5), or help")
        terminal.press("\x03")
        terminal.see(lambda: terminal.typed == "")


def test_escape_closes_the_menu_and_keeps_the_line() -> None:
    with Terminal() as terminal:
        terminal.press("1/4-")
        terminal.see("1/4-20 UNC")
        terminal.press(DOWN)
        terminal.see_last("1/4-20 UNC")
        terminal.press(ESCAPE)
        terminal.see(lambda: "unified" not in "".join(terminal.glass.lines()))
        assert terminal.typed == "1/4-"


# Colours


def test_what_is_no_sign_of_the_language_is_reversed_and_the_rest_still_coloured() -> None:
    """Behaviour 11."""
    with Terminal() as terminal:
        terminal.press("divide 2 in $ é mm into 5")
        terminal.see_last("divide 2 in $")
        terminal.see("column")
        assert terminal.looks("$ ") == {
            ("default", False, False, True),
            ("default", False, False, False),
        }
        assert {look[1] for look in terminal.looks("into")} == {True}
        assert {look[1] for look in terminal.looks("divide")} == {True}


# Earlier lines


@pytest.fixture
def earlier(tmp_path: Path) -> Path:
    """The history that a session of before has left."""
    path = tmp_path / "history"
    with Terminal(history=path) as terminal:
        terminal.answer("runner = 11 in / 3", "93.1")
        terminal.answer("2 in / 5", "10.16 mm")
    return path


def test_up_brings_the_last_session_back(earlier: Path) -> None:
    """Behaviour 12."""
    with Terminal(history=earlier) as terminal:
        terminal.press(UP)
        terminal.see_last("2 in / 5")
        terminal.press(UP)
        terminal.see_last("runner = 11 in / 3")
        terminal.press(DOWN)
        terminal.see_last("2 in / 5")


def test_ctrl_r_finds_a_line_by_any_part_of_it(earlier: Path) -> None:
    """Behaviour 12."""
    with Terminal(history=earlier) as terminal:
        terminal.press(CTRL_R, "runn")
        terminal.see("an earlier line with: runn")
        terminal.see_last("runner = 11 in / 3")
        terminal.press(ENTER)
        terminal.see(lambda: "an earlier line" not in "".join(terminal.glass.lines()))
        assert terminal.typed == "runner = 11 in / 3"


def test_right_takes_the_rest_of_an_earlier_line(earlier: Path) -> None:
    """Behaviour 12; the suggestion is told from typed text by its look."""
    with Terminal(history=earlier) as terminal:
        terminal.press("run")
        terminal.see_last("runner = 11 in / 3")
        assert terminal.model.names == {}
        assert terminal.looks("ner = 11") == {("brightblack", False, True, False)}
        terminal.press(RIGHT)
        terminal.see(lambda: all(not italic for _, _, italic, _ in terminal.looks("ner = 11")))
        assert terminal.typed == "runner = 11 in / 3"


# Clearing and leaving


def test_ctrl_c_clears_the_line_and_ctrl_d_leaves_only_when_it_is_empty() -> None:
    """Behaviour 15."""
    with Terminal() as terminal:
        terminal.press("2 in + 3")
        terminal.see_last("2 in + 3")
        terminal.press(HOME, CTRL_D, CTRL_D, "4")
        terminal.see_last("42 in + 3")
        terminal.press(CTRL_C)
        terminal.see(lambda: terminal.typed == "")
        assert terminal.thread.is_alive()
        terminal.press(CTRL_C)
        terminal.see("Ctrl-D or quit leaves")
        terminal.press(CTRL_D)
        terminal.thread.join(10)
        assert terminal.status == 0


def test_quit_leaves() -> None:
    with Terminal() as terminal:
        terminal.press("quit", ENTER)
        terminal.thread.join(10)
        assert terminal.status == 0


# Several lines


def test_a_line_goes_on_while_a_bracket_is_open() -> None:
    with Terminal() as terminal:
        terminal.press("(2 in +", ENTER)
        terminal.see("  ...:")
        terminal.press("3 in", ENTER, ") * 2", ENTER)
        terminal.see("254 mm exactly")
        assert terminal.store.lines == ["(2 in + 3 in ) * 2"]


def test_a_blank_line_in_an_open_bracket_shows_the_fault() -> None:
    with Terminal() as terminal:
        terminal.press("(2 in +", ENTER, ENTER)
        terminal.see("the line ends too soon")


def test_a_paste_of_three_lines_gives_three_readings() -> None:
    """Behaviour 18."""
    with Terminal() as terminal:
        terminal.press(pasted("width = 2 in\r\nwidth / 5\r\n\r\n# a note\r\nsnap width * 1.01"))
        terminal.see("a mark of the 64ths, ")
        rows = terminal.see(lambda: terminal.typed == "")
        assert [row for row in rows if row.startswith("64ths:")] == [
            "64ths: width = 2 in",
            "64ths: width / 5",
            "64ths: # a note",
            "64ths: snap width * 1.01",
            "64ths:",
        ]
        assert any("width = 2 in = 50.8 mm exactly" in row for row in rows)
        assert any("2/5 in = 0.4 in = 10.16 mm exactly" in row for row in rows)


def test_a_paste_joins_what_is_typed_and_a_fault_stops_nothing() -> None:
    with Terminal() as terminal:
        terminal.press("a = ")
        terminal.see_last("a =")
        terminal.press(pasted("2 in\nfoo\n(1 in\n+ a)\n(3 in"))
        terminal.see("76.2 mm exactly")
        terminal.see("nothing is named foo yet")
        # The last of a paste is at fault: it stands there to be mended.
        terminal.see(lambda: terminal.typed == "(3 in")


def test_a_paste_of_one_line_is_only_put_in() -> None:
    with Terminal() as terminal:
        terminal.press(pasted("2 in / 5\n"))
        terminal.see("reads 2/5 in")
        assert terminal.prompts == 1


def test_resizing_leaves_one_clean_prompt() -> None:
    """Behaviour 19, for a terminal that folds no rows; the tmux test has one that does."""
    with Terminal() as terminal:
        terminal.press("2 in + 1/4 in + 3 mm * 2")
        terminal.see("reads 63.15 mm")
        for columns in (30, 80):
            terminal.size = Size(rows=40, columns=columns)
            terminal.glass.screen.resize(40, columns)
            application = terminal.shown.app
            assert application.loop is not None
            application.loop.call_soon_threadsafe(application._on_resize)
            below = 1 if columns == 80 else 2
            terminal.see(lambda below=below: terminal.beneath(below).startswith("  reads 63.15"))  # type: ignore[misc]
        assert terminal.prompts == 1
        assert terminal.last == "64ths: 2 in + 1/4 in + 3 mm * 2"


# Colour off


def test_no_color_means_no_colour_code_and_no_suggestion(
    earlier: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Behaviour 20."""
    monkeypatch.setenv("NO_COLOR", "1")
    with Terminal(history=earlier) as terminal:
        terminal.press("run")
        terminal.see_last("run")
        terminal.press("x", LEFT, BACKSPACE)
        terminal.see_last("rux")
        terminal.press(CTRL_C, "1/4-20 UNC $ 2")
        terminal.see("column")
        assert "ner = 11" not in terminal.glass.raw
    codes = {
        int(number)
        for piece in terminal.glass.raw.split("\x1b[")[1:]
        if "m" in piece
        for number in piece.partition("m")[0].split(";")
        if number.isdigit()
    }
    assert not {code for code in codes if 30 <= code <= 49 or 90 <= code <= 107}


def test_an_empty_no_color_means_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "")
    with Terminal() as terminal:
        terminal.press("2 mm")
        terminal.see("reads 2 mm")
        assert terminal.looks("mm") == {("cyan", False, False, False)}


# Widths


@pytest.mark.parametrize("columns", [40, 200])
def test_answers_keep_to_the_width(columns: int) -> None:
    with Terminal(columns=columns, pictures=True, rows=120) as terminal:
        terminal.answer("divide 2 in into 5 up", "each tick is")
        terminal.press("help", ENTER)
        terminal.see("words of this prompt")
        terminal.see(lambda: terminal.prompts >= 2 and terminal.typed == "")
        assert max(map(len, terminal.glass.lines())) <= columns


def test_a_rule_is_drawn_only_if_it_is_wanted_and_fits() -> None:
    for pictures, rows, drawn in ((True, 40, True), (False, 40, False), (True, 10, False)):
        with Terminal(pictures=pictures, rows=rows) as terminal:
            terminal.answer("mark 13/32 in into 2", "13/32 in")
            terminal.see(lambda: terminal.typed == "")
        assert ("each tick is" in terminal.glass.raw) is drawn


def test_a_terminal_made_narrower_while_rows_are_written_leaves_no_second_prompt() -> None:
    """The width is that at which the rows were begun, not that of the moment when they have been written."""
    widths = iter((80, 30, 30))
    ups: list[int] = []
    screen = SimpleNamespace(
        data_buffer={0: {n: SimpleNamespace(char="x") for n in range(50)}},
        get_cursor_position=lambda window: SimpleNamespace(x=50, y=0),
    )
    application: Any = SimpleNamespace(
        output=SimpleNamespace(get_size=lambda: Size(rows=30, columns=next(widths)), cursor_up=ups.append),
        renderer=SimpleNamespace(last_rendered_screen=screen),
        layout=SimpleNamespace(current_window=None),
        is_done=False,
    )
    folds = Folds()
    folds.make_good(application)
    folds.remember(application)
    folds.make_good(application)
    assert ups == [1]
