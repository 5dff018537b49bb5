"""What a line means that is no statement: put in its place with one Enter; words of habit; pasted notes."""

from __future__ import annotations

import pytest
from emulator import ENTER, Terminal

from fractions_shop import Sheet, __version__
from fractions_shop.language.advice.bench_words import EXAMPLES
from fractions_shop.language.advice.gate import figures
from fractions_shop.prompt.model import LineReading, PromptModel, _read
from fractions_shop.prompt.pasted_note import part_line, sorted_lines


def reading(model: PromptModel, text: str) -> LineReading:
    return model.going_on(text) or _read(model.state, text, 6)


#: Lines that go on from the last size, 2 in, and what each comes to.
GOES_ON = {
    "/ 2": "ans / 2", "* 3": "ans * 3", "+ 2 thou": "ans + 2 thou", "- 1/64 in": "ans - 1/64 in", "in mm": "ans as mm",
    "as 32nds": "ans as 32nds", "to mm": "ans as mm", "snap to 32nds": "snap ans to 32nds", "divide into 5": "divide ans into 5",
}  # fmt: skip


@pytest.mark.parametrize("line", GOES_ON)
def test_a_line_goes_on_from_the_last_size_and_only_when_there_is_one(line: str) -> None:
    model = PromptModel()
    assert reading(model, line).kind != "offer"
    model.enter("2 in")
    assert reading(model, line).offer == GOES_ON[line]
    answer = model.enter(GOES_ON[line])
    assert answer is not None
    assert "ans" in answer.used


@pytest.mark.parametrize("line", ["-1/64 in", "+2 thou", "+ 2", "+ foo"])
def test_a_sign_that_touches_its_size_is_a_size_alone(line: str) -> None:
    model = PromptModel()
    model.enter("2 in")
    assert reading(model, line).kind != "offer"


@pytest.mark.parametrize(
    "line",
    [*EXAMPLES, "12 x 13/32 in", "2 in x 3 in", "devide 2 in into 5", "recovr 51.5 mm", "thred 6 BA", "10h7"],
)
def test_what_is_put_in_place_is_answered_and_holds_the_figures_typed(line: str) -> None:
    model = PromptModel()
    offered = reading(model, line)
    assert offered.kind == "offer"
    assert model.enter(offered.offer) is not None
    assert sorted(map(str, figures(offered.offer))) == sorted(map(str, figures(line)))


@pytest.mark.parametrize("line", ["13/32 in c/c", "3/4 of 2 in"])
def test_what_is_a_statement_is_answered_as_it_stands(line: str) -> None:
    assert PromptModel().enter(line) is not None


def test_one_enter_puts_the_statement_in_the_line_and_the_next_answers_it() -> None:
    with Terminal() as terminal:
        terminal.press("what drill for 6 BA")
        terminal.see("Enter puts here: tapping(6 BA) to tap it; or write clearance(6 BA)")
        terminal.press(ENTER)
        terminal.see_last("tapping(6 BA)")
        terminal.see(lambda: terminal.beneath().startswith("  reads 2.3 mm"))
        terminal.press(ENTER)
        terminal.see(lambda: terminal.prompts == 2)
        terminal.press("/ 2")
        terminal.see("Enter puts here: ans / 2")
        terminal.press(ENTER)
        terminal.see(lambda: terminal.typed == "ans / 2")
        terminal.press(ENTER)
        terminal.see("1.15 mm")


def test_bench_words_are_not_scolded_while_they_are_typed() -> None:
    model = PromptModel()
    for line in EXAMPLES:
        for end in range(line.index(" ") + 2, len(line)):
            assert reading(model, line[:end]).kind != "fault"


# Words of habit


@pytest.mark.parametrize(
    ("word", "said"),
    [
        ("version", f"fractions-shop {__version__}"),
        ("settings", "help settings tells what there is to set"),
        ("history", "Ctrl-R looks for one"),
        ("?", "type a size, or arithmetic on sizes"),
        ("? divide", "divide: "),
        ("help", "type a size, or arithmetic on sizes"),
    ],
)
def test_a_word_of_habit_does_what_it_says_or_says_what_does(word: str, said: str) -> None:
    with Terminal(rows=70) as terminal:
        terminal.press(word, ENTER)
        terminal.see(lambda: said in " ".join(" ".join(terminal.glass.lines()).split()))
        assert "fault" not in "\n".join(terminal.glass.lines())


@pytest.mark.parametrize("word", ["exit", "quit", "bye", "EXIT"])
def test_leaving(word: str) -> None:
    with Terminal() as terminal:
        terminal.press(word, ENTER)
        terminal.thread.join(60)
        assert terminal.status == 0


def test_a_size_may_have_the_name_of_a_word_of_habit() -> None:
    with Terminal() as terminal:
        terminal.answer("history = 1/8 in", "3.175 mm")
        terminal.answer("history", "3.175 mm")
        assert terminal.model.names["history"] == terminal.model.names["ans"]


# Pasted notes

NOTE = """Fittings for the label frames
measured on Tuesday, not yet checked against the print
wide = 51.5 mm
2 off 2 BA screws 1/2 in lg
wide / 5
The bars are 5/32 in by 1/16 in, and the frames 12 in all.
"""


def test_a_pasted_note_is_no_page_of_faults() -> None:
    with Terminal(rows=60, columns=100) as terminal:
        terminal.press(f"\x1b[200~{NOTE}\x1b[201~")
        terminal.see("# The bars are 5/32 in")
        rows = "\n".join(terminal.glass.lines())
        assert "# Fittings for the label frames" in rows
        assert "(as a part line: part screws: 2, 1/2 in; 2 BA screws 1/2 in lg)" in " ".join(rows.split())
        assert "10.3 mm" in rows
        assert "^" not in rows
        assert "wide" in terminal.model.names


def test_a_statement_with_a_slip_in_it_is_not_hidden_among_notes() -> None:
    lines = ["wide = 51.5 mm", "bay = wied / 5", "divide wide int 5", "half the rest of it", "exit"]
    sorted_out = sorted_lines(lines, PromptModel().session)
    assert sorted_out == [*lines[:3], "# half the rest of it", "exit"]


@pytest.mark.parametrize(
    "line",
    [
        "2 off 2 BA screws 1/2 in lg",
        "24 off brass runners 1/16 in by 1/4 in by 11 in",
        "4 pcs plywood 1/8 in thick",
    ],
)
def test_a_proposed_part_line_is_taken_by_a_sheet(line: str) -> None:
    part = part_line(line)
    sheet = Sheet(f"{part}\n").run()
    assert sheet.faults == ()
    (made,) = sheet.parts.values()
    assert made.count == int(line.split()[0])


def test_what_is_no_count_of_things_is_no_part() -> None:
    for line in ("2 in", "2 x 3 in", "12 trays", "3 off", "2 off 1/2 under 3/8"):
        assert part_line(line) == ""
